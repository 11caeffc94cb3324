"""Why there is too little of a crop, and when there is too much."""

from __future__ import annotations

from array import array
from datetime import date, timedelta
from math import cos, pi

import pytest

import gardens
import replayed
from sowtide.climate.record.record import Record
from sowtide.garden.journal import journal_of
from sowtide.schedule.season import Season
from sowtide.schedule.supply import (
    Glut,
    Shortage,
    Why,
    gluts_of,
    shortages_of,
    supply_of,
)
from sowtide.season import season_of

FRUIT = gardens.crop(yield_per_plant="2", days_to_harvest="50", picking_days="14")
PLANTS = gardens.crop(
    yield_per_plant="2", raised="trays", nursery_days="21-40", counted_from="planting out"
)
LEAF = gardens.leaf(yield_per_plant="1", days_to_harvest="40", picking_days="14")
WEEKS = "from: 07-20, until: 08-02"  # weeks 30 and 31


def season(
    *waves: str,
    want: str,
    crops: tuple[str, ...] = (FRUIT,),
    journal: str = "",
    today: date = gardens.EARLY,
    **site: str,
) -> Season:
    """Return the season of a garden that wants something."""
    text = gardens.text(*waves, crops=crops, **site) + f"want:\n  - {{{want}}}\n"
    read = journal_of(journal.encode(), "journal.yaml")
    return season_of(gardens.read(text), today, None, read.journal if journal else None)


def gaps(found: Season) -> tuple[Shortage, ...]:
    """Return the gaps of the crop that is wanted."""
    return shortages_of(found, supply_of(found)[0])


def gluts(found: Season) -> tuple[Glut, ...]:
    """Return its gluts."""
    return gluts_of(supply_of(found)[0])


def why(*waves: str, **how: object) -> list[tuple[Why, tuple[str, ...]]]:
    """Return why there are gaps, in order."""
    how = {"want": f"crop: fruit, amount: 5, {WEEKS}".replace("5,", "5 kg,")} | how
    return [(each.why, each.waves) for each in gaps(season(*waves, **how))]  # type: ignore[arg-type]


def test_nothing_is_planted() -> None:
    assert why() == [(Why.NOTHING_PLANTED, ())]


def test_too_few_plants() -> None:
    # Sown on 1 June one plant is picked from 21 July: 2 kg of ten.
    assert why(gardens.wave(start="2026-06-01")) == [(Why.TOO_FEW, ())]


def test_the_last_days_of_a_wave_are_not_too_few_plants_but_nothing_planted_after_it() -> None:
    # Picked to Monday 3 August: half a slow day's worth of the week's want, and then no more.
    wave = gardens.wave(start="2026-06-01", plants="10")
    weeks = "crop: fruit, amount: 30 kg, from: 07-20, until: 08-16"
    found = gaps(season(wave, want=weeks))
    assert [(each.why, each.days.first, each.days.last) for each in found] == [
        (Why.TOO_FEW, date(2026, 7, 20), date(2026, 8, 2)),
        (Why.NOTHING_PLANTED, date(2026, 8, 3), date(2026, 8, 16)),
    ]
    assert found[1].expected == pytest.approx(20 * 0.5 / 10.5)


def test_a_wave_that_comes_to_nothing_is_nothing_planted() -> None:
    late = gardens.wave(start="2026-09-10", plants="10")
    (wave,) = season(late, want=f"crop: fruit, amount: 5 kg, {WEEKS}").waves
    assert wave.stands
    assert wave.stages.first_pick is None
    assert why(late) == [(Why.NOTHING_PLANTED, ())]


def test_half_of_the_want_is_no_gap() -> None:
    # 5 plants give 4.05 and 5.48 kg in those weeks, see the wave by hand in the supply's tests.
    assert why(gardens.wave(start="2026-06-01", plants="5")) == []


def test_nothing_planted_after_the_last_frost_is_ripe_by_then() -> None:
    # Safe to sow from early May on, fifty days and more: not by the second week of June.
    early = "crop: fruit, amount: 5 kg, from: 06-08, until: 06-14"
    assert why(want=early) == [(Why.TOO_EARLY, ())]


def test_frost_ends_all_that_is_safe() -> None:
    late = "crop: fruit, amount: 5 kg, from: 10-26, until: 11-01"
    assert why(want=late) == [(Why.FROST, ())]


def test_too_hot() -> None:
    hot = f"crop: leaf, amount: 5 kg, {WEEKS}"
    assert why(want=hot, crops=(LEAF,), too_hot="07-10..08-10") == [(Why.TOO_HOT, ())]


@pytest.mark.parametrize(
    ("hot", "said"),
    [
        ("06-04..06-20", Why.TOO_HOT),  # the middle of the week, Thursday 4 June, is its first day
        ("06-05..06-20", Why.TOO_EARLY),
        ("05-20..06-04", Why.TOO_HOT),  # or its last
    ],
)
def test_heat_is_the_reason_from_its_first_day_to_its_last(hot: str, said: Why) -> None:
    # Sixty days from the last frosts of spring on are later than 4 June.
    leaf = gardens.leaf(yield_per_plant="1", days_to_harvest="60", hardiness="tender")
    want = "crop: leaf, amount: 5 kg, in: 2026-W23"
    assert why(want=want, crops=(leaf,), too_hot=hot) == [(said, ())]


def test_what_minds_no_heat_is_too_early_in_it() -> None:
    early = "crop: fruit, amount: 5 kg, in: 2026-W24"
    assert why(want=early, too_hot="06-01..06-30") == [(Why.TOO_EARLY, ())]


def test_heat_is_the_reason_until_what_is_sown_after_it_is_picked() -> None:
    # The soil of a hot place keeps lettuce from coming up long after the hot weeks, to 9 September.
    months = "[8, 10, 14, 20, 26, 31, 34, 33, 28, 20, 14, 9]"
    cold = "[-2, 0, 4, 8, 14, 19, 22, 21, 17, 10, 4, 0]"
    frost = f"{{last: 04-01, first: 11-10, normals: {{max: {months}, min: {cold}}}}}"
    crop = "lettuce: {yield_per_plant: 1}"
    want = "crop: lettuce, amount: 50 kg, from: 04-06, until: 12-13"
    found = gaps(season(want=want, crops=(crop,), frost=frost))
    assert [(each.why, each.days.first) for each in found] == [
        (Why.TOO_EARLY, date(2026, 4, 6)),
        (Why.NOTHING_PLANTED, date(2026, 5, 4)),
        (Why.TOO_HOT, date(2026, 6, 8)),
        (Why.NOTHING_PLANTED, date(2026, 10, 5)),
        (Why.FROST, date(2026, 11, 30)),
    ]


def test_no_room_names_the_wave() -> None:
    waves = (
        gardens.wave(name="first", start="2026-05-25", plants="10"),
        gardens.wave(name="second", start="2026-06-20", plants="10"),
    )
    want = "crop: fruit, amount: 12 kg, from: 08-10, until: 08-16"
    assert why(*waves, want=want) == [(Why.NO_ROOM, ("second-1",))]


def test_a_wave_without_room_would_be_picked_from_its_early_day_on() -> None:
    # Sown on 20 June it would be picked from 9 August, at its slowest from the 23rd.
    crop = gardens.crop(yield_per_plant="2", days_to_harvest="50-64")
    waves = (
        gardens.wave(name="first", start="2026-05-25", plants="10"),
        gardens.wave(name="second", start="2026-06-20", plants="10"),
    )
    want = "crop: fruit, amount: 40 kg, from: 08-17, until: 08-23"
    assert why(*waves, want=want, crops=(crop,)) == [(Why.NO_ROOM, ("second-1",))]


def test_lost_names_the_wave() -> None:
    said = "- {on: 2026-07-01, wave: fruit-1, did: lost}\n"
    wave = gardens.wave(start="2026-06-01", plants="10")
    found = why(wave, journal=said, today=date(2026, 7, 1))
    assert found == [(Why.LOST, ("fruit-1",))]


def test_seedlings_sown_late() -> None:
    # Out on 1 June, so to be sown on 11 May; sown on 1 June they are ready on 22 June, three weeks
    # late, and picked from 11 August in place of 21 July.
    said = "- {on: 2026-06-01, wave: fruit-1, did: sown}\n"
    wave = gardens.wave(start="2026-06-01", plants="5")
    found = why(wave, crops=(PLANTS,), journal=said, today=date(2026, 6, 2))
    assert found == [(Why.SEEDLINGS_LATE, ("fruit-1",))]


def test_late_seedlings_are_the_reason_from_the_day_of_the_plan_to_the_day_before_they_bear() -> (
    None
):
    # Out on 3 June, picked from Thursday 23 July: the middle of its week. Sown on 3 June and not on
    # 13 May they go out on the 24th and are picked from Thursday 13 August, three weeks late: 2.14
    # of the 5 kg of that week, whose middle is no longer the seedlings' fault.
    said = "- {on: 2026-06-03, wave: fruit-1, did: sown}\n"
    wave = gardens.wave(start="2026-06-03", plants="5")
    found = gaps(
        season(
            wave,
            want="crop: fruit, amount: 5 kg, from: 07-20, until: 08-16",
            crops=(PLANTS,),
            journal=said,
            today=date(2026, 6, 4),
        )
    )
    assert [(each.why, each.days.first, each.days.last) for each in found] == [
        (Why.SEEDLINGS_LATE, date(2026, 7, 20), date(2026, 8, 9)),
        (Why.TOO_FEW, date(2026, 8, 10), date(2026, 8, 16)),
    ]
    assert found[1].expected == pytest.approx(2.25 * 10 / 10.5)


def test_what_had_to_be_planted_before_today() -> None:
    assert why(today=date(2026, 7, 10)) == [(Why.NOT_IN_TIME, ())]


@pytest.mark.parametrize(("days", "last"), [(50, date(2026, 6, 3)), (51, date(2026, 6, 2))])
def test_it_is_still_in_time_on_the_last_day_that_serves(days: int, last: date) -> None:
    # Thursday 23 July is picked from what was sown 50 to 63 days before: 21 May to 3 June, of which
    # every third day from the first safe one on is tried.
    crop = FRUIT.replace("days_to_harvest: 50", f"days_to_harvest: {days}")
    want = "crop: fruit, amount: 5 kg, in: 2026-W30"
    day = gardens.prospects(gardens.text(crops=(crop,))).windows[0].first
    while day + timedelta(days=3) <= last:
        day += timedelta(days=3)
    at = {"want": want, "crops": (crop,)}
    assert why(today=day, **at) == [(Why.NOTHING_PLANTED, ())]
    assert why(today=day + timedelta(days=1), **at) == [(Why.NOT_IN_TIME, ())]


def test_heat_that_keeps_fruit_from_setting() -> None:
    crop = gardens.crop(
        yield_per_plant="2",
        days_to_harvest="50",
        picking_days="40",
        flower_to_pick="10",
        fruit_set_high="25",
        rated_at="20",
        heat="{base: 8}",
    )
    months = "[2, 4, 9, 14, 19, 22, 29, 24, 20, 14, 8, 3]"
    cold = "[-4, -3, 1, 5, 10, 13, 17, 14, 10, 6, 2, -2]"
    frost = f"{{last: 05-10, first: 10-01, normals: {{max: {months}, min: {cold}}}}}"
    wave = gardens.wave(start="2026-05-28", plants="1")
    want = "crop: fruit, amount: 9 kg, from: 07-20, until: 08-02"
    found = why(wave, crops=(crop,), frost=frost, want=want)
    assert (Why.TOO_HOT, ()) in found  # whatever is planted, its flowers of that time drop


def test_a_gap_says_its_weeks_and_amounts() -> None:
    (gap,) = gaps(
        season(gardens.wave(start="2026-06-01"), want=f"crop: fruit, amount: 5 kg, {WEEKS}")
    )
    assert (gap.days.first, gap.days.last) == (date(2026, 7, 20), date(2026, 8, 2))
    # 2 kg over 10.5 full days, 4.25 and 5.75 of them in those weeks.
    assert (gap.wanted, gap.expected) == pytest.approx((10, 2 * 10 / 10.5), abs=1e-4)


def test_more_than_twice_is_a_glut_with_the_waves_that_make_it() -> None:
    waves = (
        gardens.wave(name="one", start="2026-06-01", plants="5"),
        gardens.wave(name="two", start="2026-06-04", plants="5"),
    )
    (glut,) = gluts(season(*waves, want="crop: fruit, amount: 2 kg, from: 07-20, until: 08-09"))
    assert (glut.days.first, glut.days.last) == (date(2026, 7, 20), date(2026, 8, 2))
    assert glut.waves == 2


def test_what_was_picked_stands_beside_the_forecast() -> None:
    said = (
        "- {on: 2026-06-01, wave: fruit-1, did: sown}\n"
        "- {on: 2026-07-21, wave: fruit-1, did: first picked, amount: 1.5kg}\n"
        "- {on: 2026-07-24, wave: fruit-1, did: picked, amount: 500g}\n"
        "- {on: 2026-07-25, wave: fruit-1, did: picked, amount: 7}\n"
        "- {on: 2026-07-26, wave: fruit-1, did: picked}\n"
    )
    found = season(
        gardens.wave(start="2026-06-01", plants="5"),
        want=f"crop: fruit, amount: 5 kg, {WEEKS}",
        journal=said,
        today=date(2026, 7, 26),
    )
    got = [each.got for each in supply_of(found)[0].weeks]
    assert got[0] == pytest.approx(2.0)  # seven pieces are no weight
    assert got[1:] == [None] * len(got[1:])


def weeks_of(crop: str, *said: str, start: str, today: date, frost: str) -> dict[date, float]:
    """Return what five plants of a crop bring, week by week."""
    entries = ("on: " + start + ", did: sown", *said)
    found = season(
        gardens.wave(start=start, plants="5"),
        crops=(crop,),
        want=f"crop: fruit, amount: 5 kg, {WEEKS}",
        journal="".join(f"- {{wave: fruit-1, {each}}}\n" for each in entries),
        today=today,
        frost=frost,
    )
    return {each.week: each.expected for each in supply_of(found)[0].weeks if each.expected}


def test_a_first_pick_after_the_frost_of_some_years_is_picked_that_day_in_all() -> None:
    # First picked on Sunday 4 October, by when in more than half of the years it has frozen: that
    # day is picked all the same, half a day's bearing of the 10.5 full ones that 10 kg take.
    found = weeks_of(
        FRUIT,
        "on: 2026-10-04, did: first picked, amount: 500g",
        start="2026-08-01",
        today=date(2026, 10, 4),
        frost=gardens.FROST,
    )
    assert found[date(2026, 9, 28)] == pytest.approx(0.5 * 10 / 10.5)


def test_what_heat_takes_later_is_not_taken_from_what_was_picked_before() -> None:
    """Flowers of the heat of July are missing in August, long after the wave was pulled."""
    months = "[2, 4, 9, 14, 19, 22, 29, 24, 20, 14, 8, 3]"
    cold = "[-4, -3, 1, 5, 10, 13, 17, 14, 10, 6, 2, -2]"
    frost = f"{{last: 05-10, first: 10-01, normals: {{max: {months}, min: {cold}}}}}"
    crop = gardens.crop(
        yield_per_plant="2",
        days_to_harvest="40",
        picking_days="40",
        flower_to_pick="34",
        fruit_set_high="25",
    )
    at = {"start": "2026-06-08", "today": date(2026, 7, 21), "frost": frost}
    first = "on: 2026-07-06, did: first picked, amount: 1kg"
    all_of_it = weeks_of(crop, first, **at)  # type: ignore[arg-type]
    pulled = weeks_of(crop, first, "on: 2026-07-20, did: pulled", **at)  # type: ignore[arg-type]
    # 40 days from Monday 6 July: 10 slow, 20 full, 10 slow: 30 full days of 10 kg. By 20 July 10
    # slow days and 4 full ones are picked: 3.5 and 5.5.
    assert pulled == pytest.approx(
        {date(2026, 7, 6): 3.5 / 3, date(2026, 7, 13): 5.5 / 3}, abs=1e-6
    )
    assert {week: all_of_it[week] for week in pulled} == pytest.approx(pulled)
    assert sum(all_of_it.values()) < 10 - 1e-3  # there is such heat


def test_a_first_pick_that_is_noted_moves_the_harvest() -> None:
    said = (
        "- {on: 2026-06-01, wave: fruit-1, did: sown}\n"
        "- {on: 2026-07-27, wave: fruit-1, did: first picked, amount: 1kg}\n"
    )
    found = season(
        gardens.wave(start="2026-06-01", plants="5"),
        want=f"crop: fruit, amount: 5 kg, {WEEKS}",
        journal=said,
        today=date(2026, 7, 27),
    )
    weeks = {each.week: each.expected for each in supply_of(found)[0].weeks}
    assert weeks[date(2026, 7, 20)] == 0
    assert sum(weeks.values()) == pytest.approx(10)


def hot_summers(hot: int) -> Record:
    """Return ten invented years, in the first of which the six weeks from 20 June are hot."""
    lows, highs = array("d"), array("d")
    for year in range(2010, 2020):
        day = date(year, 1, 1)
        while day.year == year:
            mean = 9 - 12 * cos(2 * pi * (day.timetuple().tm_yday - 20) / 365)
            heat = 12 if year < 2010 + hot and (6, 20) <= (day.month, day.day) < (8, 1) else 0
            lows.append(round(mean - 5 + heat, 1))
            highs.append(round(mean + 5 + heat, 1))
            day += timedelta(days=1)
    return Record("station.csv", None, date(2010, 1, 1), lows, highs, 0.1, fahrenheit=False)


@pytest.mark.parametrize(("hot", "usual"), [(5, True), (4, False)])
def test_heat_in_half_of_the_years_is_usual(hot: int, usual: bool) -> None:
    # Flowers of the week of 20 July, picked twenty days on: above 90 °F they drop.
    bean = "bean: {like: bush bean, fruit_set_high: 90, flower_to_pick: 20, yield_per_plant: 200 g}"
    want = "want:\n  - {crop: bean, amount: 5 kg, in: 2026-W32}"
    found = replayed.season(
        hot_summers(hot),
        f"{{crop: bean, plants: 1, from: 05-20}}\n{want}",
        latitude=50,
        sure="90%",
        crops=(bean,),
    )
    (gap,) = gaps(found)
    assert (gap.why is Why.TOO_HOT) is usual


def test_seedlings_three_days_late_are_the_reason_for_three_days() -> None:
    # To be out on 15 June and picked from 4 August on, sown three days late on the 28th of May: out
    # on 18 June, picked from the 7th, a Friday. Its Tuesday is the seedlings' fault, no day before.
    said = "- {on: 2026-05-28, wave: fruit-1, did: sown}\n"
    found = season(
        gardens.wave(start="2026-06-15", plants="5"),
        want="crop: fruit, amount: 50 kg, from: 07-20, until: 08-16",
        crops=(PLANTS,),
        journal=said,
        today=date(2026, 5, 29),
    )
    (wave,) = found.waves
    assert wave.stages.plant.day == date(2026, 6, 18)
    assert [(step.days, step.date) for step in wave.stages.plant.steps] == [
        (0, date(2026, 6, 15)),
        (-18, date(2026, 5, 28)),
        (21, date(2026, 6, 18)),
    ]
    assert [
        (each.why, each.days.first, each.days.last, each.days_late) for each in gaps(found)
    ] == [
        (Why.NOTHING_PLANTED, date(2026, 7, 20), date(2026, 8, 2), None),
        (Why.SEEDLINGS_LATE, date(2026, 8, 3), date(2026, 8, 9), 3),
        (Why.TOO_FEW, date(2026, 8, 10), date(2026, 8, 16), None),
    ]


def test_what_follows_late_seedlings_is_not_late_itself_and_counts_from_them() -> None:
    said = "- {on: 2026-05-28, wave: fruit-1, did: sown}\n"
    wave = gardens.wave(start="2026-06-15", plants="5", every="14", count="2")
    found = season(
        wave,
        want="crop: fruit, amount: 50 kg, from: 08-17, until: 08-30",
        crops=(PLANTS,),
        journal=said,
        today=date(2026, 5, 29),
    )
    steps = found.waves[1].stages.plant.steps
    # Sown on 28 May, ready on 18 June, the next two weeks on.
    assert [(step.days, step.date) for step in steps] == [
        (0, date(2026, 5, 28)),
        (21, date(2026, 6, 18)),
        (14, date(2026, 7, 2)),
    ]
    assert Why.SEEDLINGS_LATE not in {each.why for each in gaps(found)}


def test_the_latest_of_late_seedlings_says_how_late_they_are() -> None:
    # To be out on 15 and on 16 June and both sown late: on 28 May for the 18th, three days late,
    # and on 3 June for the 24th, eight. Both should be picked on Thursday 6 August and are not.
    said = (
        "- {on: 2026-05-28, wave: one-1, did: sown}\n- {on: 2026-06-03, wave: two-1, did: sown}\n"
    )
    found = season(
        gardens.wave(name="one", start="2026-06-15", plants="3"),
        gardens.wave(name="two", start="2026-06-16", plants="3"),
        want="crop: fruit, amount: 50 kg, in: 2026-W32",
        crops=(PLANTS,),
        journal=said,
        today=date(2026, 6, 4),
    )
    (gap,) = gaps(found)
    assert (gap.why, gap.days_late) == (Why.SEEDLINGS_LATE, 8)
    assert gap.waves == ("one-1", "two-1")


# To be out on 15 June, picked from 4 August on; sown three days late on 28 May, ready on 18 June.
LATE = (Why.SEEDLINGS_LATE, date(2026, 8, 3), date(2026, 8, 9))


@pytest.mark.parametrize(
    ("planted", "late"),
    [
        ("06-18", 3),  # picked from Friday 7 August on, not from Tuesday the 4th
        ("06-17", 2),  # a day before they were all ready: from the 6th, a Thursday
        ("06-16", 1),  # from the 5th, a Wednesday
        ("06-15", None),  # out as planned, however late they were sown
        ("06-25", 3),  # ready on the 18th, the week after that was the grower's own
        ("06-22", 7),  # sown on 3 June, to be ready on the 24th; out two days before
    ],
)
@pytest.mark.parametrize("today", [date(2026, 6, 26), date(2026, 8, 1)])
def test_late_seedlings_are_the_reason_once_they_are_out_too(
    planted: str, late: int | None, today: date
) -> None:
    sown = "06-03" if planted == "06-22" else "05-28"
    said = (
        f"- {{on: 2026-{sown}, wave: fruit-1, did: sown}}\n"
        f"- {{on: 2026-{planted}, wave: fruit-1, did: planted out}}\n"
    )
    found = season(
        gardens.wave(start="2026-06-15", plants="5"),
        want="crop: fruit, amount: 50 kg, from: 08-03, until: 08-09",
        crops=(PLANTS,),
        journal=said,
        today=today,
    )
    (wave,) = found.waves
    assert wave.planned == date(2026, 6, 15)
    # The middle of the week is Thursday, from the 6th on; picked by then, it is too few plants.
    told = [(each.why, each.days.first, each.days.last, each.days_late) for each in gaps(found)]
    if late is not None and late > 2:
        assert told == [(*LATE, late)]
    else:
        assert Why.SEEDLINGS_LATE not in {each[0] for each in told}


def test_the_day_planned_is_kept_with_a_wave_of_which_something_is_noted() -> None:
    # Every ten days from 15 June: the first went out on 20 June, so the second was planned for the
    # 30th; sown on the 11th it is ready on 2 July. Of the third nothing is noted.
    said = (
        "- {on: 2026-06-20, wave: fruit-1, did: planted out}\n"
        "- {on: 2026-06-11, wave: fruit-2, did: sown}\n"
    )
    found = season(
        gardens.wave(start="2026-06-15", plants="2", every="10", count="3"),
        want=f"crop: fruit, amount: 5 kg, {WEEKS}",
        crops=(PLANTS,),
        journal=said,
        today=date(2026, 6, 21),
    )
    assert [(each.planned, each.stages.plant.day) for each in found.waves] == [
        (date(2026, 6, 15), date(2026, 6, 20)),
        (date(2026, 6, 30), date(2026, 7, 2)),
        (None, date(2026, 7, 12)),
    ]
