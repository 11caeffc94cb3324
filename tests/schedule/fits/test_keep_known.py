"""Keep or replace, by what the journal knows: pickings, what was scouted, and how late it is."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from printed import instead_of_json, instead_of_text
from sowtide.schedule.fits import Question, Weighing, weigh
from sowtide.schedule.season import Season

TODAY = date(2026, 7, 28)
FILE = gardens.text(
    gardens.wave(plants="4", start="06-01", beds="[Long]"),
    crops=(gardens.crop(), gardens.crop("other"), gardens.leaf()),
    beds=("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10}"),
    fall_allowance="0",
)
PICKED = (
    "on: 2026-07-20, wave: fruit-1, did: picked, amount: 1.5kg",
    "on: 2026-07-22, wave: fruit-1, did: picked, amount: 4kg",
    "on: 2026-07-23, wave: fruit-1, did: picked, amount: 99",
    "on: 2026-07-25, wave: fruit-1, did: picked",
    "on: 2026-07-26, wave: fruit-1, did: picked, amount: 700g",
)
SCOUTED = (
    "on: 2026-07-18, wave: fruit-1, did: scouted, found: none",
    "on: 2026-07-27, wave: fruit-1, did: scouted, found: many, note: 'beetles, white specks'",
    "on: 2026-07-24, bed: Long, did: scouted, found: some",
    "on: 2026-07-25, bed: Low, did: scouted, found: many",
)


def lived(*entries: str) -> Season:
    """Return the season of the garden and of a journal."""
    return gardens.lived(FILE, TODAY, *entries)


def weighed(season: Season, crop: str = "leaf") -> Weighing:
    asked = Question(gardens.crop_called(season, crop), 1, None, None, False)
    return weigh(season, season.waves[0], asked)


def test_the_last_two_pickings_stand_beside_the_best_of_their_kind() -> None:
    known = weighed(lived(*PICKED)).known
    assert known is not None
    assert [each.on.day for each in known.pickings] == [23, 26]
    assert known.best is not None
    assert known.best.on.day == 22  # 4 kg; of 99 pieces nobody knows the weight


def test_what_was_found_on_it_or_in_its_bed_is_told_in_order() -> None:
    known = weighed(lived(*SCOUTED)).known
    assert known is not None
    assert (known.pickings, known.best) == ((), None)
    assert [each.on.day for each in known.scouted] == [24, 27]


def test_nothing_noted_is_nothing_known() -> None:
    assert weighed(lived("on: 2026-06-01, wave: fruit-1, did: sown")).known is None


def test_the_page_and_the_json_say_it() -> None:
    season = lived(*PICKED, *SCOUTED)
    said = " ".join(" ".join(instead_of_text(weighed(season), season)).split())
    assert (
        "Last picked of fruit-1: 99 pieces on 23 Jul and 700 g on 26 Jul; at its best 4 kg on "
        "22 Jul."
    ) in said
    assert "99 pieces on 23 Jul" in said
    assert "Looked at on 27 Jul: many found: beetles, white specks." in said
    assert "only you see how it looks" in said
    assert "Pulled as sick" not in said
    other = instead_of_text(weighed(season, "other"), season)
    assert "Pulled as sick, it bars its bed to the fruit family for this season." in other
    printed = instead_of_json(weighed(season), season)
    assert '"best": {"on": "2026-07-22", "amount": 4, "unit": "kg"}' in printed


@pytest.mark.parametrize(
    ("noted", "last"),
    [
        (PICKED[:2], "1.5 kg on 20 Jul and 4 kg on 22 Jul. "),  # the best is told already
        (PICKED[2:3], "99 pieces on 23 Jul. "),
        (PICKED[1:2] + PICKED[4:], "4 kg on 22 Jul and 700 g on 26 Jul. "),
    ],
)
def test_the_best_picking_is_told_once(noted: tuple[str, ...], last: str) -> None:
    season = lived(*noted)
    said = " ".join(" ".join(instead_of_text(weighed(season), season)).split())
    assert f"Last picked of fruit-1: {last}" in said


@pytest.mark.parametrize(("first", "left"), [("07-14", 0.0), ("07-21", 7.0), ("07-26", 12.0)])
def test_what_is_left_counts_from_the_day_on_which_it_was_first_picked(
    first: str, left: float
) -> None:
    # Planned: 1 June + 50 days = 21 July, for 14 days. On 28 July 14 days less those since.
    season = lived(f"on: 2026-{first}, wave: fruit-1, did: first picked")
    found = weighed(season).left
    assert found is not None
    assert found.days == pytest.approx(left, abs=0.05)
