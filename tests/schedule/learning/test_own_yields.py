"""What pickings teach of a crop's yield: which waves count, and how far they carry."""

from __future__ import annotations

from datetime import date
from math import exp, log
from typing import Any

import pytest

import gardens
from printed import form, page
from sowtide.garden.journal import journal_of
from sowtide.report import card
from sowtide.schedule.learning import OwnYield, OwnYields

TODAY = date(2026, 9, 10)
WEIGHED = gardens.crop(yield_per_plant="0.5")


def learned(*entries: str, crop: str = WEIGHED, more: str = "") -> OwnYield | None:
    """Return what a journal teaches of the one crop of a garden."""
    file = gardens.text(gardens.wave(plants="4", every="14", count="4"), crops=(crop,)) + more
    garden = gardens.read(file)
    read = journal_of("".join(f"- {{{each}}}\n" for each in entries).encode(), "journal.yaml")
    assert read.journal is not None
    return OwnYields(garden, read.journal, TODAY).of(garden.crops[0])


def borne(
    number: int,
    *amounts: str,
    end: str = "did: last picked",
    season: int = 2025,
    plants: str = ", plants: 4",
) -> list[str]:
    """Return the entries of one wave: sown, picked with these amounts, and how it ended."""
    name = f"wave: fruit-{number}"
    picked = [
        f"on: {season}-08-{day:02}, {name}, did: picked" + (amount and f", amount: {amount}")
        for day, amount in enumerate(amounts, 1)
    ]
    last = f"on: {season}-08-28, {name}, {end}"
    return [f"on: {season}-06-01, {name}, did: sown{plants}", *picked, last]


# (3 / 0.3²) / (3 / 0.3² + 1 / 0.4²) of the way from the published yield.
SHARE = (3 / 0.09) / (3 / 0.09 + 1 / 0.16)


def three(*amounts: str, **how: Any) -> list[str]:
    """Return the entries of three waves alike."""
    return [each for n in (1, 2, 3) for each in borne(n, *amounts, **how)]


def test_three_waves_carry_the_published_yield_most_of_the_way() -> None:
    # 1 and 3 kg of four plants are 1 kg each, twice the published half kilogram.
    last = "did: last picked, amount: 3kg"
    found = learned(*three("1000g", end=last))
    assert found == OwnYield(3, pytest.approx(0.5 * exp(SHARE * log(2))), None)


def test_two_waves_teach_nothing_yet() -> None:
    last = "did: last picked, amount: 3kg"
    assert learned(*borne(1, "1kg", end=last), *borne(2, "1kg", end=last)) is None


@pytest.mark.parametrize(
    "third",
    [
        borne(3, "4kg", end="did: picked, amount: 1kg"),  # not over
        borne(3, "4kg", "", end="did: pulled"),  # a picking that nobody weighed
        borne(3, "4kg", end="did: lost"),
        [
            *borne(3, "4kg", end="did: pulled"),
            "on: 2025-08-02, wave: fruit-3, did: lost, plants: 1",
        ],
        borne(3, "4kg", end="did: last picked, bed: Long"),  # of no amount
        borne(3, "4kg", end="did: pulled, sick: yes"),
        borne(3, "4kg", "9", end="did: pulled"),  # weighed and counted
        borne(3, "4kg", end="did: pulled", plants=""),  # of how many?
        borne(3, "4kg", end="did: pulled, plants: 2"),
    ],
)
def test_a_wave_counts_only_when_it_is_over_and_all_of_it_is_noted(third: list[str]) -> None:
    two = [*borne(1, "4kg", end="did: pulled"), *borne(2, "4kg", end="did: pulled")]
    assert learned(*two, *borne(3, "4kg", end="did: pulled")) is not None
    assert learned(*two, *third) is None


def test_what_else_is_noted_of_a_wave_leaves_it_told() -> None:
    other = (
        "on: 2025-06-11, wave: fruit-3, did: up",
        "on: 2025-06-21, wave: fruit-3, did: thinned",
    )
    assert learned(*three("4kg", end="did: pulled"), *other) is not None


def test_plants_set_out_go_before_those_that_were_sown() -> None:
    # Four planted out of the eight that were sown: 4 kg are a kilogram each, as in the other two.
    out = "on: 2025-06-20, wave: fruit-3, did: planted out, plants: 4"
    third = borne(3, "4kg", end="did: pulled", plants=", plants: 8")
    two = three("4kg", end="did: pulled")[:6]
    found = learned(*two, *third, out, crop=gardens.crop())
    assert found == OwnYield(3, pytest.approx(1.0), None)


def test_plants_of_several_sowings_are_added_up_where_each_says_how_many() -> None:
    # Two and two: four plants. Without a number the second leaves it open how many they were.
    two, third = three("4kg", end="did: pulled")[:6], borne(3, "4kg", end="did: pulled")
    parts = [third[0].replace("plants: 4", "plants: 2, bed: Long"), *third[1:]]
    more = "on: 2025-06-01, wave: fruit-3, did: sown, bed: Low"
    found = learned(*two, *parts, f"{more}, plants: 2", crop=gardens.crop())
    assert found == OwnYield(3, pytest.approx(1.0), None)
    assert learned(*two, *parts, more, crop=gardens.crop()) is None


def test_a_wave_of_an_earlier_season_has_no_plants_of_this_plan() -> None:
    assert learned(*three("4kg", end="did: pulled", plants="")) is None


def test_a_wave_of_this_season_has_the_plants_of_the_plan() -> None:
    entries = three("4kg", end="did: pulled", season=2026, plants="")
    found = learned(*entries)
    assert found is not None
    assert found.kilograms == pytest.approx(0.5 * exp(SHARE * log(2)))


def test_without_a_published_yield_what_was_seen_stands_alone() -> None:
    found = learned(*three("4kg", end="did: pulled"), crop=gardens.crop())
    assert found == OwnYield(3, pytest.approx(1.0), None)


@pytest.mark.parametrize(("weighed", "counted", "kilograms"), [(3, 3, True), (3, 4, False)])
def test_it_is_told_in_what_more_waves_are_told_in(
    weighed: int, counted: int, kilograms: bool
) -> None:
    entries = [borne(n, "4kg", end="did: pulled", season=2024) for n in range(1, weighed + 1)]
    entries += [borne(n, "12", end="did: pulled") for n in range(1, counted + 1)]
    found = learned(*(each for wave in entries for each in wave), crop=gardens.crop())
    one = OwnYield(weighed, pytest.approx(1), None)
    other = OwnYield(counted, None, pytest.approx(3))
    assert found == (one if kilograms else other)


@pytest.mark.parametrize(("last", "counts"), [("09-10", True), ("09-11", False)])
def test_what_is_noted_today_counts_and_tomorrow_does_not(last: str, counts: bool) -> None:
    entries = three("4kg", end="did: pulled", season=2026)
    found = learned(*(each.replace("2026-08-28", f"2026-{last}") for each in entries))
    assert (found is not None) is counts


def test_pieces_are_told_in_pieces() -> None:
    found = learned(*three("12", end="did: pulled"))
    assert found == OwnYield(3, None, pytest.approx(3.0))


def test_one_wrong_weight_does_not_carry_the_rest() -> None:
    # Of three at 1 kg and one at 100 kg a plant the fourth counts as e^0.7 times the median.
    entries = [*three("4kg", end="did: pulled"), *borne(4, "400kg", end="did: pulled")]
    found = learned(*entries, crop=gardens.crop())
    assert found is not None
    assert found.kilograms == pytest.approx(exp(0.7 / 4))


def test_the_card_says_it_in_text_and_json() -> None:
    file = gardens.text(gardens.wave(plants="4", every="14", count="4"), crops=(WEIGHED,))
    garden = gardens.read(file)
    entries = three("4kg", end="did: pulled")
    read = journal_of("".join(f"- {{{each}}}\n" for each in entries).encode(), "journal.yaml")
    own = OwnYields(garden, read.journal, TODAY)
    shown = card.view(garden.crops, garden, (), own)
    # 0.5 kg times 2 to the power of SHARE: 0.896 kg.
    assert (
        page(card.REPORT, shown)[-1] == "A plant of fruit bears 0.9 kg by 3 waves that you picked."
    )
    assert '"waves": 3, "kg_per_plant": 0.896, "pieces_per_plant": null' in form(
        card.REPORT, shown, "json"
    )
    counted = journal_of(
        "".join(f"- {{{e}}}\n" for e in three("12", end="did: pulled")).encode(), "j"
    )
    shown = card.view(garden.crops, garden, (), OwnYields(garden, counted.journal, TODAY))
    assert "bears 3 pieces by 3 waves" in page(card.REPORT, shown)[-1]
    assert card.view(garden.crops, garden).learned_yields == ()


def test_a_garden_may_refuse_to_learn() -> None:
    assert learned(*three("4kg", end="did: pulled"), more="learn: no\n") is None


def test_what_is_still_to_come_teaches_nothing() -> None:
    early = [each.replace("2025-08", "2026-12") for each in three("4kg", end="did: pulled")]
    assert learned(*early) is None
