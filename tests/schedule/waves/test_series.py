"""How an entry becomes waves: their days, their number, their names and the gaps between them.

Averages are 10 May and 1 October. The fruit crop (tender, 50 days and 14 of picking, no fall
allowance) is safe from 10 May to 19 July; the leaf crop (hardy, 40 days and 7 of picking) with hot
weeks from 1 July to 20 August from 12 April to 15 May and from 12 July to 25 August.
"""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from gardens import crop, leaf, text, wave
from sowtide.reasons import Dated, Origin
from sowtide.schedule.season import Season
from sowtide.schedule.waves.series import Over, Planting, Series, series_of
from sowtide.schedule.waves.wave import Gap

LEAF = leaf(days_to_harvest="40", picking_days="7")


def _season(*entries: str, **site: str) -> Season:
    site = {"fall_allowance": "0"} | site
    return gardens.season(text(*entries, crops=[crop(), LEAF], **site))


def _days(*entries: str, **site: str) -> list[str]:
    waves = _season(*entries, **site).waves
    return [f"{each.stages.plant.day:%m-%d}" for each in waves]


def test_an_entry_without_every_is_one_wave() -> None:
    assert _days(wave(start="06-01")) == ["06-01"]
    assert _days(wave(start="earliest")) == ["05-10"]


@pytest.mark.parametrize(("every", "said"), [("1", "every day"), ("2", "every 2 days")])
def test_a_day_on_is_said_as_every_day(every: str, said: str) -> None:
    waves = _season(wave(start="06-01", every=every, count="3")).waves
    words = [each.stages.plant.steps[-1].text for each in waves[1:]]
    assert words == [said, f"{said}, 2 times"]


def test_every_so_many_days_until_the_last_safe_one() -> None:
    # 10 May, + 20 … 9 Jul; 29 Jul is after 19 Jul
    expected = ["05-10", "05-30", "06-19", "07-09"]
    assert _days(wave(every="20")) == expected
    assert _days(wave(every="20", until="last safe")) == expected


def test_the_last_safe_day_itself_is_planted() -> None:
    # 10 May + 70 = 19 Jul, the last safe day
    assert _days(wave(every="70")) == ["05-10", "07-19"]
    assert _days(wave(every="71")) == ["05-10"]


def test_until_is_inclusive() -> None:
    assert _days(wave(start="06-01", every="10", until="06-21")) == ["06-01", "06-11", "06-21"]
    assert _days(wave(start="06-01", every="10", until="06-20")) == ["06-01", "06-11"]


def test_a_week_is_its_monday_in_from_and_its_sunday_in_until() -> None:
    # W23 of 2026 runs from 1 to 7 June, W24 ends on 14 June
    assert _days(wave(start="W23", every="13", until="W24")) == ["06-01", "06-14"]


def test_count_or_until_whichever_comes_first() -> None:
    assert _days(wave(start="06-01", every="10", until="07-30", count="2")) == ["06-01", "06-11"]
    assert _days(wave(start="06-01", every="10", until="06-11", count="5")) == ["06-01", "06-11"]
    assert _days(wave(every="20", count="3")) == ["05-10", "05-30", "06-19"]


def test_a_range_of_intervals_means_its_lower_number() -> None:
    assert _days(wave(start="06-01", every="10-14", count="2")) == ["06-01", "06-11"]


# A range of days from one wave to the next


def _breathing(*entries: str, **keys: object) -> Season:
    """A bed of ten; fruit stands 64 days, the quick crop 25: 20 and 5 of picking."""
    quick = crop("quick", days_to_harvest="20", picking_days="5")
    keys = {"fall_allowance": "0", "crops": [crop(), quick]} | keys
    return gardens.season(text(*entries, **keys))  # type: ignore[arg-type]


def _planted(found: Season, name: str = "fruit") -> list[str]:
    return [
        f"{each.stages.plant.day:%m-%d}" if each.stands else f"({each.stages.plant.day:%m-%d})"
        for each in found.waves
        if each.entry.name == name
    ]


def _full(until_quick: str, every: str, count: str = "3", **keys: str) -> Season:
    """Fill the bed with quick plants for 25 days, and ask for a series of fruit."""
    return _breathing(
        wave("quick", start=until_quick, plants="10", beds="[Long]"),
        wave(start="06-01", every=every, count=count, plants="2", **keys),
        beds=[gardens.BED, "{bed: Wide, size: 1 x 10}"] if keys else [gardens.BED],
    )


def test_a_wave_moves_to_the_first_day_in_its_range_with_room() -> None:
    # quick stands from 20 May to 13 Jun: fruit-1 on 1 Jun finds no room and, the first, stays;
    # fruit-2 is due on 11 Jun and has room on 14 Jun; fruit-3 steps on from there: 24 Jun
    found = _full("05-20", "10-14")
    assert _planted(found) == ["(06-01)", "06-14", "06-24"]
    assert _planted(_full("05-20", "10-13")) == ["(06-01)", "06-14", "06-24"]
    assert _planted(_full("05-20", "10-12")) == ["(06-01)", "(06-11)", "06-21"]
    assert _planted(_full("05-20", "10")) == ["(06-01)", "(06-11)", "06-21"]


def test_the_step_that_moved_a_wave_is_one_of_its_dates() -> None:
    second, third = (each.stages.plant for each in _full("05-20", "10-14").waves[2:])
    assert [step.days for step in second.steps] == [0, 10, 3]
    moved = second.steps[-1]
    assert (moved.rule, moved.text) == ("room", "moved by 3 days: no room before")
    assert moved.origin == second.steps[1].origin
    assert moved.origin.line is not None
    assert [step.days for step in third.steps] == [0, 10, 3, 10]


def test_seedlings_follow_the_space() -> None:
    trays = crop(raised="trays", nursery_days="21-35", counted_from="planting out")
    found = _breathing(
        wave("quick", start="05-20", plants="10"),
        wave(start="06-01", every="10-14", count="2", plants="2"),
        crops=[trays, crop("quick", days_to_harvest="20", picking_days="5")],
    )
    # planted out on 14 Jun, sown 21 days before
    assert found.waves[2].stages.sow.day == date(2026, 5, 24)
    assert found.waves[2].stages.ready is not None
    assert found.waves[2].stages.ready.day == date(2026, 6, 14)


def test_a_range_wider_than_its_step_is_used_up_by_one_wave() -> None:
    # fruit-2 is due on 6 Jun; on 14 Jun, 13 days after 1 Jun, it has room
    assert _planted(_full("05-20", "5-13")) == ["(06-01)", "06-14", "06-19"]
    # up to 13 Jun there is none for fruit-2; fruit-3, due on 11 Jun, comes on 14 Jun
    found = _full("05-20", "5-12")
    assert _planted(found) == ["(06-01)", "(06-06)", "06-14"]
    assert "no room for fruit-2 (2 plants) from 6 Jun to 13 Jun" in found.problems[1].message


def test_it_moves_no_further_than_until() -> None:
    assert _planted(_full("05-20", "10-14", until="06-14", beds="[Long]")) == ["(06-01)", "06-14"]
    assert _planted(_full("05-20", "10-14", until="06-13", beds="[Long]")) == ["(06-01)", "(06-11)"]


def test_a_series_up_to_a_date_steps_on_from_a_moved_wave() -> None:
    found = _full("05-20", "10-14", until="06-24", beds="[Long]")
    assert _planted(found) == ["(06-01)", "06-14", "06-24"]


def test_it_moves_no_further_than_the_last_safe_day() -> None:
    # fruit is safe until 19 Jul; quick fills the bed until 18 or 19 Jul
    def asked(start: str) -> list[str]:
        return _planted(
            _breathing(
                wave("quick", start=start, plants="8", beds="[Long]"),
                wave(start="07-01", every="10-20", plants="2", beds="[Long]"),
                wave("quick", start="07-02", plants="2", name="two", beds="[Long]"),
                beds=[gardens.BED],
            )
        )

    # 1 Jul takes the last two places; due on 11 Jul, room when the first quick ones leave
    assert asked("06-24") == ["07-01", "07-19"]  # 24 Jun + 25
    assert asked("06-25") == ["07-01", "(07-11)"]


def test_a_wave_moves_only_to_where_it_is_safe() -> None:
    # the first planting may be any day; until a written day goes past the last safe one
    found = _breathing(
        wave("quick", start="07-01", plants="8"),
        wave(start="07-09", every="10-20", until="08-10", plants="2"),
        beds=[gardens.BED],
    )
    # 9 Jul takes the rest; 19 Jul is due, room from 26 Jul on, when it is safe no more;
    # the next ones are due on 29 Jul and 8 Aug and stand there as written, safe or not
    assert _planted(found) == ["07-09", "(07-19)", "07-29", "08-08"]


def test_a_moved_wave_takes_no_room_of_one_planted_before() -> None:
    # room on 14 Jun for one of them: other is planted on 13 Jun in the second bed, and on 14 Jun
    # the bed goes to who stands first in the file
    entries = [
        wave("quick", start="05-20", plants="10"),
        wave(start="06-01", every="10-20", count="2", plants="10"),
        wave("quick", start="06-14", plants="10", name="other"),
    ]
    assert _planted(_breathing(*entries)) == ["(06-01)", "06-14"]
    assert _planted(_breathing(*entries), "other") == ["(06-14)"]
    turned = [entries[0], entries[2], entries[1]]
    assert _planted(_breathing(*turned), "other") == ["06-14"]
    assert _planted(_breathing(*turned)) == ["(06-01)", "(06-11)"]


def test_the_first_wave_of_a_later_run_may_come_after_its_range() -> None:
    # runs 12 Apr to 15 May and 12 Jul to 25 Aug; the one of 12 Jul comes far more than 18 days
    # after the one before it and cannot be moved
    found = gardens.season(
        text(
            wave("quick", start="06-29", plants="10"),
            wave("leaf", start="05-12", every="15-18", count="3", plants="2"),
            crops=[crop("quick", days_to_harvest="20", picking_days="5"), LEAF],
            fall_allowance="0",
            too_hot="07-01..08-20",
        )
    )
    assert _planted(found, "leaf") == ["05-12", "(07-12)", "07-27"]


def test_dates_as_written_are_kept_however_late() -> None:
    assert _days(wave(start="09-01", every="10", until="09-21")) == ["09-01", "09-11", "09-21"]


def test_a_day_written_too_early_is_kept_and_the_rest_steps_on_from_it() -> None:
    found = _season(wave(start="05-04", every="20", count="2"))
    assert [f"{each.stages.plant.day:%m-%d}" for each in found.waves] == ["05-04", "05-24"]
    assert gardens.codes(found) == [("too-early", "fruit-1")]


def test_a_first_day_after_the_last_safe_one_is_one_wave() -> None:
    assert _days(wave(start="07-25", every="10")) == ["07-25"]


def test_last_safe_where_nothing_ends_the_crop() -> None:
    # 1 Jan, 11 Apr, 20 Jul, 28 Oct: + 100 would be in the next growing year
    assert _days(wave(every="100"), frost="none") == ["01-01", "04-11", "07-20", "10-28"]
    south = gardens.season(text(wave(every="100"), frost="none", latitude=-40))
    days = [each.stages.plant.day for each in south.waves]
    assert days == [date(2026, 7, 1), date(2026, 10, 9), date(2027, 1, 17), date(2027, 4, 27)]


def test_last_safe_is_the_last_day_of_each_run_with_a_named_gap_between() -> None:
    # 12 Apr, 27 Apr, 12 May; 27 May and 11, 26 Jun are in the gap (16 May – 11 Jul), and the
    # series begins again on its first safe day after it: 12 and 27 Jul, 11 and 26 Aug
    found = _season(wave("leaf", every="15"), too_hot="07-01..08-20")
    days = [f"{each.stages.plant.day:%m-%d}" for each in found.waves]
    assert days == ["04-12", "04-27", "05-12", "07-12", "07-27", "08-11", "08-26"]
    (gap,) = found.gaps
    assert (gap.series, gap.first, gap.last) == ("leaf", date(2026, 5, 16), date(2026, 7, 11))
    assert gap.why == "too hot"
    (problem,) = found.problems
    assert problem.code == "gap"
    assert "16 May" in problem.message
    assert "11 Jul" in problem.message


def test_no_gap_is_named_after_the_last_wave() -> None:
    found = _season(wave("leaf", every="15", count="3"), too_hot="07-01..08-20")
    assert len(found.waves) == 3
    assert found.gaps == ()


def test_the_last_safe_day_is_not_found_by_halving() -> None:
    # Two weeks of heat in August, a safe run on either side: the later one is planted too.
    found = _days(wave("leaf", start="06-20", every="4"), too_hot="08-05..08-10")
    assert found[0] == "06-20"
    # before the heat: planted + 47 ≤ 5 Aug: 19 Jun; after it: + 40 ≥ 11 Aug: 2 Jul
    assert found[1] == "07-02"
    assert found[-1] <= "08-29"


def test_until_a_date_goes_through_the_heat() -> None:
    days = _days(wave("leaf", start="05-12", every="15", until="06-12"), too_hot="07-01..08-20")
    assert days == ["05-12", "05-27", "06-11"]


def test_earliest_and_last_safe_hold_in_every_bed_it_may_use() -> None:
    # A bed 2 °C colder: 3.6 °F, 11 days: from 21 May to 8 Jul; the other from 10 May to 19 Jul
    beds = [gardens.BED, "{bed: Low, size: 1 x 10, colder_by: 2}"]
    both = gardens.season(text(wave(every="26", beds="[Long, Low]"), beds=beds, fall_allowance="0"))
    # 21 May, 16 Jun; 12 Jul is over
    days = [f"{each.stages.plant.day:%m-%d}" for each in both.waves]
    assert days == ["05-21", "06-16"]
    # 21 May + 55 = 15 Jul is safe in one of them only
    file = text(wave(every="55", beds="[Long, Low]"), beds=beds, fall_allowance="0")
    assert len(gardens.season(file).waves) == 1
    one = gardens.season(text(wave(every="26", beds="[Long]"), beds=beds, fall_allowance="0"))
    assert [f"{each.stages.plant.day:%m-%d}" for each in one.waves] == ["05-10", "06-05", "07-01"]


@pytest.mark.parametrize(
    ("entry", "name"),
    [
        (wave("two words"), "two-words"),
        (wave("two words", name="Early row"), "Early-row"),
    ],
)
def test_waves_are_numbered_after_the_crop_or_the_name(entry: str, name: str) -> None:
    entry = entry.replace("from: earliest", "from: 06-01, every: 10, count: 2")
    found = gardens.season(text(entry, crops=[crop("two words")]))
    assert [each.id for each in found.waves] == [f"{name}-1", f"{name}-2"]
    assert [each.number for each in found.waves] == [1, 2]


def test_an_over_wintering_series_goes_to_its_date() -> None:
    line = crop(overwinters="yes", hardiness="hardiest", ready="06-25..07-20")
    entry = wave(start="10-01", every="10", until="10-21")
    days = [each.stages.plant.day for each in gardens.season(text(entry, crops=[line])).waves]
    assert days == [date(2026, 10, 1), date(2026, 10, 11), date(2026, 10, 21)]


def test_the_steps_say_how_often_the_interval_was_taken() -> None:
    third = _season(wave(start="06-01", every="10", count="3")).waves[2].stages.plant
    assert [step.days for step in third.steps] == [0, 20]
    assert third.steps[1].origin.line is not None


def test_a_series_has_no_wave_where_no_day_is_safe() -> None:
    # 10 May + 50 + 14 = 13 Jul; frost on 1 Jun in half of the years leaves no safe day
    season = _season(wave(every="10"), frost="{last: 05-10, first: 06-15}")
    assert season.waves == ()
    assert [problem.code for problem in season.problems] == ["no-wave"]
    kept = _season(wave(start="06-01", every="10"), frost="{last: 05-10, first: 06-15}")
    assert [each.stages.plant.day for each in kept.waves] == [date(2026, 6, 1)]


def test_a_series_has_no_wave_where_the_earliest_day_is_too_late_for_it() -> None:
    season = _season(wave(every="10", until="04-20"))
    assert season.waves == ()
    assert "its earliest day comes after 20 Apr" in season.problems[0].message


def test_earliest_to_last_safe_begins_with_the_first_safe_day() -> None:
    # too hot from 1 May on: nothing in spring is picked for 7 days; 12 Jul + 40 = 21 Aug is
    line = wave("leaf", every="20", count="2")
    assert _days(line, too_hot="05-01..08-20") == ["07-12", "08-01"]


def test_a_gap_that_the_heat_of_some_years_alone_leaves_is_not_called_too_hot() -> None:
    text = gardens.text(
        "{crop: bush bean, plants: 2, from: 05-04, every: 14}",
        crops=(),
        latitude="33.5",
        frost="{last: 03-28, first: 11-08}",
        warmest_month="26.7",
        coldest_month="6.7",
    )
    (gap,) = gardens.season(text).gaps
    assert gap.why == "too hot in some years"


def test_a_series_is_cut_at_a_year_of_waves() -> None:
    season = _season(wave(every="1", until="2028-06-01"), frost="none")
    assert len(season.waves) == 366
    assert "too-many-waves" in {problem.code for problem in season.problems}


# One step after another, from what was planned or from what happened


def _series(entry: str, **site: str) -> Series:
    found = _season(entry, **site)
    return series_of(found.garden.entries[0], found.conditions)


def _happened(month: int, day: int) -> Dated:
    return Dated.on(date(2026, month, day), "happened", "planted", Origin("journal", 1))


def _next(series: Series, *before: Planting) -> Planting:
    found = series.step(before)
    assert isinstance(found, Planting)
    return found


def test_a_step_depends_on_what_went_before_alone() -> None:
    series = _series(wave(start="06-01", every="10", until="06-30"))
    first = _next(series)
    second = _next(series, first)
    assert [first.planted.day, second.planted.day] == [date(2026, 6, 1), date(2026, 6, 11)]
    assert _next(series, first) == second
    assert _next(series) == first
    assert [each.number for each in (first, second, _next(series, first, second))] == [1, 2, 3]


def test_what_follows_a_late_planting_steps_on_from_its_day() -> None:
    # planned 1, 11, 21 Jun; the second went in on 15 Jun, four days late: 15 + 10 = 25 Jun
    series = _series(wave(start="06-01", every="10", until="06-30"))
    first = _next(series)
    late = _next(series, first).done(_happened(6, 15))
    assert (late.id, late.happened, late.latest) == ("fruit-2", True, date(2026, 6, 15))
    third = _next(series, first, late)
    assert (third.id, third.planted.day, third.happened) == ("fruit-3", date(2026, 6, 25), False)
    assert [step.text for step in third.planted.steps] == ["planted", "every 10 days"]
    assert series.step((first, late, third)) is Over.UNTIL  # 5 July


def test_a_late_planting_may_leave_no_safe_day_for_the_next() -> None:
    # 30 Jun + 20 = 20 Jul, a day after the last safe one; on 29 Jun it is 19 Jul
    series = _series(wave(every="20"))
    first = _next(series)
    for day, expected in ((29, date(2026, 7, 19)), (30, None)):
        following = series.step((first, _next(series, first).done(_happened(6, day))))
        if expected is None:
            assert following is Over.NOT_SAFE
        else:
            assert isinstance(following, Planting)
            assert following.planted.day == expected


def test_a_planting_after_the_last_safe_day_of_a_run_steps_on_to_the_next_run() -> None:
    # leaf is safe from 12 April to 15 May and from 12 July on: 20 May + 14 lies between
    series = _series(wave("leaf", every="14"), too_hot="07-01..08-20")
    first = _next(series)
    assert first.planted.day == date(2026, 4, 12)
    following = _next(series, first.done(_happened(5, 20)))
    assert following.planted.day == date(2026, 7, 12)
    assert following.gap == Gap("leaf", date(2026, 5, 21), date(2026, 7, 11), "too hot")


def test_a_planting_moved_for_room_and_one_that_happened_there_are_followed_alike() -> None:
    series = _series(wave(start="06-01", every="10-14", until="06-30"))
    first = _next(series)
    moved = _next(series, first).moved(3)
    done = _next(series, first).done(_happened(6, 14))
    assert _next(series, first, moved).planted.day == date(2026, 6, 24)
    assert _next(series, first, done).planted.day == date(2026, 6, 24)
    # at most 14 days after the one before it
    assert _next(series, first, done).latest == date(2026, 6, 28)


@pytest.mark.parametrize(
    ("entry", "waves", "why"),
    [
        (wave(start="06-01"), 1, Over.SINGLE),
        (wave(start="06-01", every="10", count="2"), 2, Over.COUNT),
        (wave(start="06-01", every="10", until="06-20"), 2, Over.UNTIL),
        (wave(every="20", until="05-09"), 0, Over.UNTIL),  # the earliest is 10 May
        (wave(every="71"), 1, Over.NOT_SAFE),  # 20 July
        (wave(every="1", until="2028-06-01"), 366, Over.TOO_MANY),
    ],
)
def test_a_series_says_why_it_is_over(entry: str, waves: int, why: Over) -> None:
    series, before = _series(entry), list[Planting]()
    while isinstance(following := series.step(before), Planting):
        before.append(following)
    assert (len(before), following) == (waves, why)


def test_a_series_of_which_no_day_is_safe_is_over_before_it_begins() -> None:
    # 10 May + 50 + 14 = 13 Jul
    assert _series(wave(every="20"), frost="{last: 05-10, first: 06-15}").step(()) is Over.NOT_SAFE
