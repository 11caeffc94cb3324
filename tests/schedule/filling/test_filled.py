"""What a filling hands over: entries by name and day, what counts for more, and the gaps left."""

from __future__ import annotations

from datetime import date, timedelta
from importlib import import_module

import pytest

import gardens
from sowtide.schedule.filling import Filled, filled, gaps_left, to_fill
from sowtide.schedule.filling.why_unfilled import Unfilled
from sowtide.schedule.season import Season
from sowtide.schedule.supply import Why, supply_of
from sowtide.season import season_of

BEAN = gardens.crop("bush bean", yield_per_plant="1", family="bean family")
LEAF = gardens.leaf("leaf", yield_per_plant="1", days_to_harvest="40", picking_days="10")
BEDS = tuple(f"{{bed: {bed}, size: 1 x 8}}" for bed in "BDAC")
WANTS = (
    "{crop: bush bean, amount: 9 kg, in: 2026-W31}",
    "{crop: leaf, amount: 2 kg, from: 07-20, until: 08-09}",
)


def season(*waves: str, wants: tuple[str, ...] = WANTS, today: date = gardens.EARLY) -> Season:
    """Return the season of a garden with wants."""
    file = gardens.text(*waves, crops=(BEAN, LEAF), beds=BEDS)
    return season_of(gardens.read(file + "want:\n" + "".join(f"  - {w}\n" for w in wants)), today)


def fill(of: Season, *crops: str) -> Filled:
    """Fill a season."""
    return filled(of, supply_of(of), crops=crops or None)


def test_entries_come_in_order_of_day_then_of_crop_and_bed_each_with_a_name_of_its_own() -> None:
    entries = fill(season()).entries
    order = [(each.start, each.crop.name, each.beds[0].name) for each in entries]
    assert order == sorted(order)
    # Beans are sown in three beds on 6 June, on which leaves are sown as well.
    assert [(each.name, each.beds[0].name) for each in entries[:4]] == [
        ("bush-bean-6-Jun", "A"),
        ("bush-bean-6-Jun-b", "C"),
        ("bush-bean-6-Jun-c", "D"),
        ("leaf-6-Jun", "A"),
    ]
    assert len({each.name for each in entries}) == len(entries)


def test_a_name_that_a_series_or_a_wave_of_the_file_has_is_not_given_again() -> None:
    first = fill(season()).entries[0].name
    taken = gardens.wave("leaf", name=first.upper(), start="05-01", plants="1")
    names = {each.name.casefold() for each in fill(season(taken)).entries}
    assert first.casefold() not in names


def test_only_what_is_wanted_is_sown_of_it_what_is_asked_for() -> None:
    grown = gardens.wave("leaf", start="07-01", plants="1")
    both = {each.crop.name for each in fill(season(grown)).entries}
    assert both == {"bush bean", "leaf"}
    assert {e.crop.name for e in fill(season(grown, wants=WANTS[:1])).entries} == {"bush bean"}
    assert {e.crop.name for e in fill(season(grown), "leaf").entries} == {"leaf"}
    assert fill(season(grown, wants=WANTS[:1]), "leaf").entries == ()


@pytest.mark.parametrize(
    ("more", "once", "counts"),
    [("no", False, 1.0), ("yes", False, 5.0), ("no", True, 4.0), ("yes", True, 20.0)],
)
def test_what_is_first_counts_fivefold_and_what_is_wanted_once_fourfold(
    more: str, once: bool, counts: float
) -> None:
    when = "in: 2026-W31" if once else "from: 07-27, until: 08-02"
    of = season(wants=(f"{{crop: bush bean, amount: 1 kg, {when}, first: {more}}}",))
    (supply,) = supply_of(of)
    found = import_module("sowtide.schedule.filling.filled")._counts(to_fill(of, supply))
    assert found == counts


def test_of_wants_both_once_and_again_none_counts_as_once() -> None:
    again = "{crop: bush bean, amount: 1 kg, from: 07-27, until: 08-02}"
    once = "{crop: bush bean, amount: 1 kg, in: 2026-W31}"
    of = season(wants=(again, once))
    (supply,) = supply_of(of)
    assert import_module("sowtide.schedule.filling.filled")._counts(to_fill(of, supply)) == 1.0


def test_a_gap_is_parted_by_why_no_more_is_sown_for_its_weeks() -> None:
    # Quick is picked from the seventh day on for fourteen days; today is Monday 20 July. What could
    # be picked up to the 26th had to be sown before; from the 27th on there is still time.
    monday = date(2026, 7, 20)
    quick = gardens.crop("quick", yield_per_plant="1", days_to_harvest="7")
    wants = "  - {crop: quick, amount: 5 kg, in: 2026-W27}\n" + (
        "  - {crop: quick, amount: 5 kg, from: 07-13, until: 09-06}\n"
    )
    wave = gardens.wave("quick", start="07-23", plants="1")  # picked from 30 July to 12 August
    file = gardens.text(wave, crops=(quick,), beds=BEDS) + f"want:\n{wants}"
    of = season_of(gardens.read(file), monday)

    def left(crop: str, unit: str, week: int, why: Why) -> Unfilled:
        return Unfilled(crop, unit, monday + timedelta(weeks=week), why)

    (supply,) = supply_of(of)
    unfilled = (
        left("quick", "kg", 3, Why.BEDS_FULL),
        left("quick", "kg", 4, Why.BEDS_FULL),
        left("quick", "kg", 5, Why.ROTATION),
        left("leaf", "kg", 6, Why.BEDS_FULL),
        left("quick", "pieces", 6, Why.BEDS_FULL),
    )
    found = list(gaps_left(of, supply, unfilled))
    told = [
        (gap.why, (gap.days.first - monday).days / 7, gap.days.length, gap.wanted) for gap in found
    ]
    # What was wanted in the first days of July is over.
    assert told == [
        (Why.NOT_IN_TIME, -1, 14, 10),
        (Why.TOO_FEW, 1, 14, 10),
        (Why.BEDS_FULL, 3, 14, 10),
        (Why.ROTATION, 5, 7, 5),
        (Why.NOTHING_PLANTED, 6, 7, 5),
    ]
    brought = {week.week: week.expected for week in supply.weeks}
    assert found[1].expected == pytest.approx(
        brought[monday + timedelta(weeks=1)] + brought[monday + timedelta(weeks=2)]
    )
    assert found[2].expected == pytest.approx(1 - found[1].expected)


@pytest.mark.parametrize(("day", "told"), [(26, True), (27, False)])
def test_a_gap_of_weeks_that_are_over_is_told_no_more(day: int, told: bool) -> None:
    of = season(wants=("{crop: bush bean, amount: 5 kg, in: 2026-W30}",), today=date(2026, 7, day))
    (supply,) = supply_of(of)
    assert bool(list(gaps_left(of, supply, ()))) is told
