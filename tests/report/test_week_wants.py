"""What the week's sheet says is wanted of what is picked is what supply says."""

from __future__ import annotations

import json
from datetime import date

import pytest

import gardens
from printed import form, week_form, week_text
from sowtide.report.supply import REPORT, view
from sowtide.schedule.season import Season

# Sown on 1 June, each is picked from 21 July, 50 days later, for 14 days: in the week of 27 July.
MONDAY = date(2026, 7, 27)
FRUIT = gardens.crop("fruit", yield_per_plant="2", holding_days="14")
OTHER = gardens.crop("other", like="bush bean", yield_per_plant="1")
MORE = gardens.crop("more", like="bush bean", yield_per_plant="1")


def season(*wants: str, crops: tuple[str, ...], today: date = MONDAY, keys: str = "") -> Season:
    """Return a garden in which each of some crops is sown, and something is wanted."""
    waves = [gardens.wave(each.partition(":")[0], start="06-01", plants="3") for each in crops]
    file = gardens.text(*waves, crops=crops).replace("season:", f"{keys}season:")
    return gardens.season(file + "want:\n" + "".join(f"  - {{{want}}}\n" for want in wants), today)


def told(of: Season, monday: date = MONDAY) -> list[tuple[str, str, float, str]]:
    """Return what the sheet says is wanted: crop, as what, how much, unit."""
    seen = json.loads(week_form(of.sheets(monday), of, "json"))["wanted"]
    return [(e["crop"], e["of"], e["amount"]["value"], e["amount"]["unit"]) for e in seen]


def supplied(of: Season, crop: str) -> tuple[float, str]:
    """Return what supply says is wanted of a crop in that week."""
    crops = json.loads(form(REPORT, view(of), "json"))["crops"]
    found = next(each for each in crops if each["crop"] == crop)
    (week,) = [each["want"] for each in found["weeks"] if each["week"] == "2026-W31"]
    return week, found["unit"]


DAYS = "from: 07-01, until: 08-31"


@pytest.mark.parametrize(
    ("wants", "crops", "expected"),
    [
        # Of what is wanted by its own name nothing is for who wants any of its kind.
        (
            [
                f"crop: bush bean, amount: 3 kg, every: week, {DAYS}",
                f"crop: other, amount: 2 kg, every: week, {DAYS}",
            ],
            (OTHER, MORE),
            [("more", "bush bean", 3.0, "kg"), ("other", "other", 2.0, "kg")],
        ),
        # A crop is no want for another of its kind.
        ([f"crop: other, amount: 2 kg, every: week, {DAYS}"], (OTHER, MORE), "other"),
        # Both are eaten for the one want.
        (
            [f"crop: bush bean, amount: 3 kg, every: week, {DAYS}"],
            (OTHER, MORE),
            [("more", "bush bean", 3.0, "kg"), ("other", "bush bean", 3.0, "kg")],
        ),
        # A plant gives 2 kg or, cut once, 0.9 pieces in the middle: 9 pieces are 20 kg.
        (
            [
                f"crop: fruit, amount: 4 kg, every: week, {DAYS}",
                f"crop: fruit, amount: 9, every: week, {DAYS}",
            ],
            (FRUIT.replace("picking_days: 14", "picking_days: 1"),),
            [("fruit", "fruit", 24.0, "kg")],
        ),
    ],
    ids=["kind and name", "another", "kind", "weight and number"],
)
def test_it_is_what_supply_says(
    wants: list[str], crops: tuple[str, ...], expected: list[tuple[str, str, float, str]] | str
) -> None:
    of = season(*wants, crops=crops)
    seen = told(of)
    if isinstance(expected, str):
        assert {each[0] for each in seen} == {expected}
    else:
        assert sorted(seen) == expected
    for _, wanted, amount, unit in seen:
        assert supplied(of, wanted) == (amount, unit)


def test_a_want_without_days_is_wanted_while_the_crop_can_be_picked() -> None:
    """Sown on 15 April it is picked from mid-June on; sown safely, in late May, from July on."""
    of = season("crop: fruit, amount: 7 kg, every: week", crops=(FRUIT,))
    assert told(of) == [("fruit", "fruit", 7.0, "kg")]
    assert supplied(of, "fruit") == (7.0, "kg")
    june, file = date(2026, 6, 15), "want:\n  - {crop: fruit, amount: 7 kg, every: week}\n"
    early = gardens.text(gardens.wave(start="04-15"), crops=[FRUIT])
    of = gardens.season(early + file, june)
    (sheet,) = of.sheets(june)
    assert [each.task.wave.id for each in sheet.pickings] == ["fruit-1"]
    assert told(of, june) == []


def test_a_want_for_any_of_its_kind_is_named_on_the_sheet() -> None:
    for wanted, said in (("bush bean", "; 3 kg of bush bean wanted"), ("other", "; 3 kg wanted")):
        of = season(f"crop: {wanted}, amount: 3 kg, every: week, {DAYS}", crops=(OTHER,))
        text = " ".join(" ".join(week_text(of.sheets(MONDAY)[0], of)).split())
        assert said in text.replace("\N{NO-BREAK SPACE}", " ")
