"""The built-in crops are found by any name a grower has for them."""

from __future__ import annotations

import pytest

from sowtide.garden.library import builtin as library

NAMES = library.names()
EVERY = (*NAMES, *library.cover_names())


def _found(written: str) -> str:
    """Return the canonical name of the crop that is found."""
    found = library.find(written)
    assert found is not None, written
    return found.name


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("bush bean", "bush bean"),
        ("Bush-Beans", "bush bean"),
        ("green beans", "bush bean"),
        ("haricot  vert", "bush bean"),
        ("aubergines", "eggplant"),
        ("Zucchini", "summer squash"),
        ("courgettes", "summer squash"),
        ("summer squashes", "summer squash"),
        ("tomatoes", "tomato"),
        ("radishes", "radish"),
        ("cabbages", "cabbage"),
        ("BRUSSELS SPROUTS", "Brussels sprouts"),
        ("brussels sprout", "Brussels sprouts"),
        ("lettuce", "leaf lettuce"),
        ("romaine lettuces", "head lettuce"),
        ("rocket", "arugula"),
        ("coriander", "cilantro"),
        ("bok_choy", "pak choi"),
        ("swiss chard", "chard"),
        ("beetroots", "beet"),
        ("spring-onions", "scallion"),
        ("collards", "collard"),
        ("mangetout", "snow pea"),
        ("sugar snaps", "snap pea"),
        ("swedes", "rutabaga"),
        ("daikon", "winter radish"),
        ("mooli", "winter radish"),
        ("fava beans", "broad bean"),
        ("chillies", "hot pepper"),
        ("gherkins", "pickling cucumber"),
        ("cantaloupes", "melon"),
        ("lamb's lettuce", "corn salad"),
        ("mâche", "corn salad"),
        ("radicchio", "chicory"),
        ("finocchio", "fennel"),
        ("lady's fingers", "okra"),
        ("bok choy", "pak choi"),
        ("asparagus bean", "yardlong bean"),
        ("new potatoes", "early potato"),
    ],
)
def test_found_by_name(written: str, name: str) -> None:
    assert _found(written) == name


def test_no_name_belongs_to_two_crops() -> None:
    owners: dict[str, str] = {}
    for name in EVERY:
        others = library.rows(name)[0].value.split(", ")
        for written in {library.plain(each) for each in (name, *others)}:
            assert owners.setdefault(written, name) == name, written


@pytest.mark.parametrize("name", NAMES)
def test_every_name_and_its_plural_finds_its_own_crop(name: str) -> None:
    others = [row.value for row in library.rows(name) if row.field == "names"]
    for written in [name, *others[0].split(", ")]:
        assert _found(written) == name, written
        assert _found(written + "s") == name, written


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("brocolli", "broccoli"),
        ("zuchini", "zucchini"),
        ("aubergene", "aubergine"),
        ("tomatos", "tomato"),
        ("cauliflour", "cauliflower"),
        ("brussel sprouts", "brussel sprouts"),
        ("letuce", "lettuce"),
        ("raddishes", "radish"),
        ("rutabega", "rutabaga"),
        ("parsely", "parsley"),
        ("celeriack", "celeriac"),
        ("kolrabi", "kohlrabi"),
        ("endame", "edamame"),
        ("fennell", "fennel"),
    ],
)
def test_misspelt_names_are_near(written: str, name: str) -> None:
    found = library.find(written)
    near = library.near(written)
    assert name in near
    assert len(near) <= 3
    assert found is None or found == library.find(name)


@pytest.mark.parametrize("written", ["", "s", "es", "-", "lawn", "crop", "bush bean 1"])
def test_what_is_no_crop_is_not_found(written: str) -> None:
    assert library.find(written) is None


@pytest.mark.parametrize("written", ["", "xyzzy", "gravel"])
def test_what_is_like_no_crop_is_near_none(written: str) -> None:
    assert library.near(written) == ()


def test_unknown_keys_are_said() -> None:
    with pytest.raises(KeyError):
        library.source("nobody")
    with pytest.raises(KeyError):
        library.rows("nothing")
