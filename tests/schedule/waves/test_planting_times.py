"""Crops with times of their own: when they are planted, what they wait for, what kills them.

Hand-computed: the longest day of 2026 is 21 June, in the south 21 December.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import gardens
import replayed
from printed import fits_text
from sowtide.climate.daylight import longest_day
from sowtide.days import DateSpan, DayRange, GrowingYear
from sowtide.garden.crop import Raised
from sowtide.garden.planting_times import planting_times
from sowtide.schedule.sowing.planting_limits import times_of
from sowtide.schedule.waves.demands import need_of
from sowtide.schedule.waves.wave import Verdict
from sowtide.schedule.waves.windows import Prospects
from sowtide.units import celsius

FROST = "{last: 05-01, first: 10-01}"
NORMALS = (
    "{last: 05-01, first: 10-01, normals: {"
    "max: [2, 4, 9, 15, 20, 24, 27, 26, 21, 15, 8, 3], "
    "min: [-6, -5, -1, 4, 9, 13, 16, 15, 11, 5, 0, -4]}}"
)


def prospects(name: str, raised: Raised = Raised.DIRECT, **site: str) -> Prospects:
    site = {"frost": FROST} | site
    return gardens.season(gardens.text(**site)).conditions.prospects(replayed.crop(name), raised)


def test_the_longest_day_of_either_hemisphere() -> None:
    assert longest_day(GrowingYear(2026, south=False)) == date(2026, 6, 21)
    assert longest_day(GrowingYear(2026, south=True)) == date(2026, 12, 21)


def test_an_onion_is_planted_until_fifty_days_before_the_longest_day() -> None:
    # 21 June less 50 days; from 1 May less 45 days on
    found = prospects("onion")
    assert found.windows == (DateSpan(date(2026, 3, 17), date(2026, 5, 2)),)
    assert found.promise(date(2026, 5, 2))[1] is Verdict.SAFE_FROM_FROST
    assert found.promise(date(2026, 5, 3))[1] is Verdict.NOT_ITS_TIME
    assert found.promise(date(2026, 3, 16))[1] is Verdict.TOO_EARLY


def test_corn_salad_waits_for_the_end_of_summer() -> None:
    # 1 October less 75 days; nothing but its time keeps it back
    found = prospects("corn salad")
    assert found.earliest.day == date(2026, 7, 18)
    assert "75 days before the first frost" in found.earliest.steps[-1].text
    assert found.promise(date(2026, 7, 17))[1] is Verdict.TOO_EARLY


def test_times_that_meet_are_one_and_between_others_nothing_is_safe() -> None:
    # Peas to 38 days after 21 June, 29 July, and from 84 days before frost: 12 November makes
    # 20 August, 1 October 9 July
    year = GrowingYear(2026, south=False)
    for first, apart in (("11-12", True), ("10-01", False)):
        on = gardens.season(gardens.text(frost=f"{{last: 05-01, first: {first}}}"))
        times = times_of(replayed.crop("pea"), on.climate, year, colder_by=0)
        assert (len(times) == 2) is apart
        if apart:
            assert times[0].last == date(2026, 7, 29)
            assert times[1].first == date(2026, 8, 20)
            found = on.conditions.prospects(replayed.crop("pea"), Raised.DIRECT)
            assert found.promise(date(2026, 8, 1))[1] is Verdict.NOT_ITS_TIME
            assert not any(date(2026, 8, 1) in window for window in found.windows)


def test_a_gap_between_two_times_says_that_it_is_not_the_time() -> None:
    # Peas to 38 days after 21 June, 29 July, and from 84 days before 12 November on, 20 August
    months = "max: [5, 6, 9, 13, 18, 20, 22, 22, 22, 19, 14, 9], min: [0, 0, 1, 4, 8, 11, 13, 12, "
    frost = f"{{last: 04-27, first: 11-12, normals: {{{months}12, 10, 7, 3]}}}}"
    wave = "{crop: pea, plants: 20, from: earliest, every: 14}"
    file = gardens.text(wave, crops=["pea: {}"], frost=frost, latitude=52, sure="60%")
    (gap,) = gardens.season(file).gaps
    assert (gap.first, gap.last) == (date(2026, 7, 30), date(2026, 8, 19))
    assert gap.why == "not the time of the year for it"


def test_where_no_frost_comes_times_run_to_the_ends_of_the_year() -> None:
    on = gardens.season(gardens.text(frost="none"))
    (time,) = times_of(replayed.crop("onion"), on.climate, on.garden.year, colder_by=0)
    assert time == DateSpan(date(2026, 1, 1), date(2026, 5, 2))


def test_the_times_as_a_grower_reads_them() -> None:
    spring, autumn = planting_times("last frost -42..last frost 0, first frost -75..first frost 9")
    assert str(spring) == "from 42 days before the last frost to the last frost"
    assert str(autumn) == "from 75 days before the first frost to 9 days after the first frost"


def test_a_wave_after_its_time_is_told_so() -> None:
    (problem,) = [
        each
        for each in gardens.season(
            gardens.text(gardens.wave("onion", start="05-20"), crops=["onion: {}"], frost=NORMALS)
        ).problems
        if each.code == "too-late"
    ]
    assert "onion-1, planted on 20 May, is not planted at that time of the year" in problem.message


def test_celery_waits_for_nights_of_eight_degrees() -> None:
    # The middle of May has minima of 9, of April 4: 8 °C comes in between, after its last frost
    celery = prospects("celery", Raised.TRAYS, frost=NORMALS)
    assert date(2026, 5, 2) < celery.earliest.day < date(2026, 5, 20)
    on = gardens.season(gardens.text(frost=NORMALS)).climate.weather
    waits = on.warm_from(soil=None, nights=8.0)
    assert waits is not None
    assert waits.day == celery.earliest.day
    assert prospects("celery", Raised.TRAYS).earliest.day == date(2026, 5, 1)


@pytest.mark.parametrize(
    ("name", "days"),
    [
        ("leaf lettuce", DayRange(21, 31)),  # 40-50 less 67 % of 28, 19
        ("kale", DayRange(36, 51)),  # 50-65 less half of 28
        ("fennel", DayRange(62, 82)),  # 90-110 less all of 28
    ],
)
def test_leaves_lose_a_part_of_their_days_in_trays(name: str, days: DayRange) -> None:
    assert need_of(replayed.crop(name), Raised.TRAYS, colder_by=0).days == days


def test_its_own_killing_temperature_counts_where_temperatures_are_known() -> None:
    # Kale: −10 °C of its own, 20 °F of its class
    assert prospects("kale", frost=NORMALS).need.killed_at == -10
    assert prospects("kale").need.killed_at == pytest.approx(celsius(20))


def test_what_the_grower_writes_of_frost_stands() -> None:
    lines = ["kale: {hardiness: hardy}", "collard: {killed_at: -12}"]
    for frost in (FROST, NORMALS):
        on = gardens.season(gardens.text(crops=lines, frost=frost))
        for name, at in (("kale", celsius(24)), ("collard", -12)):
            crop = gardens.crop_called(on, name)
            found = on.conditions.prospects(crop, Raised.DIRECT)
            assert found.need.killed_at == pytest.approx(at)


def test_a_window_ends_with_the_time_under_a_cover_too() -> None:
    # A cover of 2 °C moves both frosts of 0 °C, by 3 days for each °F of 3.6: 10.8
    open_ground, covered = (
        gardens.season(gardens.text(frost=FROST)).conditions.prospects(
            replayed.crop("corn salad"), Raised.DIRECT, colder_by=colder_by
        )
        for colder_by in (0.0, -2.0)
    )
    later = covered.earliest.day - open_ground.earliest.day
    assert timedelta(days=10) <= later <= timedelta(days=12)


@pytest.mark.parametrize(
    ("crop", "on", "said"),
    [
        # Onions until 2 May: before it the season's day is over; claytonia in spring and from 75
        # days before 1 October, 18 July, on
        ("onion", date(2026, 5, 20), "not the time of the year for it: the last safe day to sow"),
        (
            "claytonia",
            date(2026, 6, 10),
            "not the time of the year for it: the next safe day is",
        ),
    ],
)
def test_a_day_out_of_its_time_is_told_so_and_not_that_it_is_late(
    crop: str, on: date, said: str
) -> None:
    file = gardens.text(crops=[f"{crop}: {{}}"], frost=FROST)
    found = gardens.ask(file, crop, today=on, on=on)
    assert found.verdict is Verdict.NOT_ITS_TIME
    assert not found.fits
    lines = " ".join(fits_text([found], gardens.season(file)))
    assert said in " ".join(lines.split())
    assert "too late" not in lines.partition("IF YOU WAIT")[0]
