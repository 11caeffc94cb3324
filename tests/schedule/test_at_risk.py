"""What the week's sheet names as at risk of frost, from its first week on, wave by wave."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import pytest

import gardens
from sowtide.garden.journal import journal_of
from sowtide.schedule.at_risk import AtRisk, at_risk
from sowtide.season import season_of

WEEK = timedelta(days=6)
CROPS = (
    gardens.crop(days_to_harvest="50", picking_days="40"),
    gardens.leaf("root", days_to_harvest="60", picking_days="30"),
    gardens.crop("melon", days_to_harvest="60", picking_days="40", hardiness="very tender"),
)
LATE = gardens.wave(start="07-20")
"""In the ground from 20 July on, picked from 8 September."""


def risk(
    first: date,
    *waves: str,
    beds: Sequence[str] = (gardens.BED,),
    entries: str = "",
    last: date | None = None,
    **site: str,
) -> AtRisk | None:
    """Return what is at risk in the week from a day on."""
    text = gardens.text(*waves, crops=CROPS, beds=beds, fall_allowance="0", **site)
    journal = journal_of(entries.encode(), "journal.yaml").journal if entries else None
    season = season_of(gardens.read(text), first, None, journal)
    return at_risk(season, first, last or first + WEEK)


def names(found: AtRisk | None) -> tuple[str, ...]:
    """Return the waves at risk."""
    return () if found is None else found.waves


# First frosts about 1 October, spread 11 days: a fifth of them by the 22nd of September, 0.82
# spreads before (20.7 %), not by the 21st (18.2 %).
TOLD = date(2026, 9, 8)
"""Two weeks before."""


def test_it_is_told_from_two_weeks_before_a_fifth_of_the_first_frosts() -> None:
    root = gardens.wave("root", start="07-20")
    assert risk(TOLD - timedelta(days=1), LATE, root) is None
    found = risk(TOLD, LATE, root)
    assert found is not None
    assert found.waves == ("fruit-1",)
    # A frost before the 8th in 1.8 % of years, before the 15th in 7.3 %.
    before, until = (gardens.below((day - 31) / 11) for day in (8, 15))
    assert found.odds == pytest.approx((until - before) / (1 - before), abs=0.003)
    assert found.odds < 0.06


def test_the_odds_are_those_of_the_tenderest() -> None:
    melon = gardens.wave("melon", start="07-10")
    day = date(2026, 9, 14)
    one, other = risk(day, LATE), risk(day, melon)
    assert one is not None
    assert other is not None
    assert one.odds < other.odds
    for waves in ((LATE, melon), (melon, LATE)):
        both = risk(day, *waves)
        assert both is not None
        assert both.odds == other.odds


@pytest.mark.parametrize(("first", "told"), [(date(2026, 9, 14), True), (date(2026, 9, 13), False)])
def test_what_is_planted_on_the_first_day_stands_that_week(first: date, told: bool) -> None:
    assert names(risk(first, gardens.wave(start="09-14"))) == (("fruit-1",) if told else ())


@pytest.mark.parametrize(("first", "told"), [(date(2026, 9, 13), True), (date(2026, 9, 14), False)])
def test_what_is_pulled_on_the_first_day_stands_no_more(first: date, told: bool) -> None:
    # Sown on 16 June, picked from 5 August for 40 days, to 13 September: free on the 14th.
    assert names(risk(first, gardens.wave(start="06-16"))) == (("fruit-1",) if told else ())


def test_what_has_no_room_or_is_gone_is_not_at_risk() -> None:
    full = gardens.wave(start="07-20", plants="10")
    assert names(risk(TOLD, full, gardens.wave(name="more", start="07-21"))) == ("fruit-1",)
    said = "- {on: 2026-07-20, wave: fruit-1, did: sown}\n"
    assert names(risk(TOLD, LATE, entries=said)) == ("fruit-1",)
    lost = said + "- {on: 2026-09-01, wave: fruit-1, did: lost}\n"
    assert names(risk(TOLD, LATE, entries=lost)) == ()


def test_what_is_hardy_is_not_named_when_its_own_frosts_come() -> None:
    # Picked from 18 September to 17 October; about a fifth of the years have -4 °C by the 20th.
    assert names(risk(date(2026, 10, 8), gardens.wave("root", start="07-20"))) == ()


def test_beds_are_named_in_the_files_order_each_once() -> None:
    beds = ("{bed: A, size: 1 x 10}", "{bed: B, size: 1 x 10}", "{bed: C, size: 1 x 10}")
    found = risk(
        TOLD,
        gardens.wave(name="one", start="07-18", beds="[C]"),
        gardens.wave(name="two", start="07-19", beds="[A]"),
        gardens.wave(name="three", start="07-20", beds="[C]"),
        beds=beds,
    )
    assert found is not None
    assert (found.waves, found.beds) == (("one-1", "two-1", "three-1"), ("A", "C"))


def test_what_stands_under_a_cover_is_not_at_risk_yet() -> None:
    beds = ("{bed: Long, size: 1 x 10}", "{bed: Hoops, size: 1 x 10, cover: 6}")
    waves = (
        gardens.wave(start="07-20", beds="[Long]"),
        gardens.wave(name="safe", start="07-20", beds="[Hoops]"),
    )
    assert names(risk(TOLD, *waves, beds=beds)) == ("fruit-1",)


def test_in_a_hollow_it_is_told_earlier_and_of_what_stands_there() -> None:
    beds = ("{bed: Long, size: 1 x 10}", "{bed: Hollow, size: 1 x 10, colder_by: 2}")
    waves = (
        gardens.wave(start="07-20", beds="[Long]"),
        gardens.wave(name="low", start="07-20", beds="[Hollow]"),
    )
    early = date(2026, 9, 2)
    assert names(risk(early, *waves, beds=beds)) == ("low-1",)
    assert names(risk(early, waves[0], beds=beds)) == ()
    # And so in a garden that lies in one.
    assert names(risk(early, LATE, colder_by="2")) == ("fruit-1",)
    assert names(risk(early, LATE)) == ()


def test_frosts_of_before_midsummer_are_those_of_spring() -> None:
    # So high up that a fifth of the first frosts come by early July.
    frost = "{last: 06-01, first: 07-20}"
    wave = gardens.wave(start="06-05")
    assert names(risk(date(2026, 7, 1), wave, frost=frost)) == ("fruit-1",)
    assert names(risk(date(2026, 6, 30), wave, frost=frost)) == ()


def test_a_week_that_ends_in_the_next_growing_year_is_left_to_its_sheets() -> None:
    frost = "{last: 01-20, first: 12-30}"
    wave = gardens.wave(start="10-20")
    last = date(2026, 12, 31)
    assert names(risk(last - WEEK, wave, frost=frost)) == ("fruit-1",)
    after = last + timedelta(days=1)
    assert names(risk(last - WEEK, wave, frost=frost, last=after)) == ()
