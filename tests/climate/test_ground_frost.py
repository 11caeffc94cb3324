"""What stands is picked till the ground freezes, where that is known; and no frost at all."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

import replayed
from printed import fits_text
from sowtide.climate.answers import EndedBy
from sowtide.climate.average.smooth_year import smooth_year
from sowtide.climate.basis import FrostFrom, WarmthFrom
from sowtide.climate.replay.frozen import frozen_in
from sowtide.garden.read import read_garden
from sowtide.reasons import OURS, Dated
from sowtide.schedule.fits.one_more import answer
from sowtide.schedule.fits.question import Question
from sowtide.schedule.season import Season
from sowtide.season import season_of
from sowtide.units import celsius

HIGHS = (27, 31, 42, 57, 69, 78, 82, 80, 72, 59, 44, 32)
LOWS = (11, 14, 24, 35, 46, 56, 60, 58, 50, 38, 28, 17)
WARM_HIGHS = (75, 77, 79, 83, 86, 89, 90, 91, 89, 86, 81, 77)
WARM_LOWS = (62, 63, 65, 69, 74, 77, 78, 78, 77, 75, 69, 65)


def season(
    *waves: str,
    highs: tuple[int, ...] | None = HIGHS,
    lows: tuple[int, ...] = LOWS,
    dates: str = "last: 05-08, first: 10-02",
    latitude: float = 43.1,
) -> Season:
    normals = "" if highs is None else f", normals: {{max: {[*highs]}, min: {[*lows]}}}"
    text = "\n".join(
        (
            f"site: {{name: A, latitude: {latitude}, units: us, frost: {{{dates}{normals}}}}}",
            "season: 2026",
            "beds: [{bed: North, size: 4 x 20}]",
            "waves:",
            *(f"  - {wave}" for wave in waves),
        )
    )
    reading = read_garden(text.encode(), "garden.yaml")
    assert reading.garden is not None, reading.problems
    return season_of(reading.garden, date(2026, 3, 1))


CARROT = "{crop: carrot, plants: 10, from: 07-20}"


def freezes() -> date:
    """The first day from July on whose last 11 days have a mean of 0 °C or less, in numpy."""
    one = np.array(smooth_year([celsius(each) for each in HIGHS]))
    other = np.array(smooth_year([celsius(each) for each in LOWS]))
    means = np.tile((one + other) / 2, 2)
    for day in range(181, 365 + 181):
        if means[day - 10 : day + 1].mean() <= 0:
            return date(2026, 1, 1) + timedelta(day)
    raise AssertionError("it never freezes")


def test_on_normals_the_ground_freezes_on_one_day() -> None:
    found = season(CARROT)
    need = found.prospects(found.waves[0]).need
    frozen = found.climate.waves.frost_end(need)
    assert frozen is not None
    assert frozen.day == freezes()
    assert date(2026, 11, 20) < frozen.day < date(2026, 12, 15)


def test_what_is_ripe_by_then_is_picked_until_then_and_not_on_that_day() -> None:
    late = season("{crop: carrot, plants: 10, from: 07-25}").waves[0].judged
    frozen = freezes()
    assert late.stages.first_pick is not None
    assert late.stages.last_pick is not None
    assert late.stages.last_pick.day == frozen - timedelta(days=1)
    assert late.stages.pull_out.day == frozen
    assert late.ended_by is EndedBy.FROST
    assert late.odds is not None
    assert 0.8 < late.odds < 1  # it is not ripe in the coldest seasons
    # The margin runs to that day from the late first pick, which is all that must come before it.
    assert late.margin == (frozen - late.stages.first_pick[1].day).days - 1


def test_what_is_not_ripe_by_then_comes_to_nothing_and_says_why() -> None:
    found = season("{crop: carrot, plants: 10, from: 09-10}")
    judged = found.waves[0].judged
    assert (judged.odds, judged.odds_of_nothing) == (0, 1)
    assert judged.expected_picking_days == 0
    (problem,) = [each for each in found.problems if each.code == "never-finishes"]
    assert "cannot be picked before the ground freezes about" in problem.message


def test_odds_between_the_two_count_the_days_to_harvest_that_are_ripe() -> None:
    odds = [
        season(f"{{crop: carrot, plants: 10, from: {day}}}").waves[0].judged.odds or 0
        for day in ("07-26", "07-31", "08-05", "08-10", "08-15", "08-20")
    ]
    assert odds == sorted(odds, reverse=True)
    assert any(0 < each < 1 for each in odds)


def test_what_is_late_is_dated_no_later_than_the_ground_freezes() -> None:
    judged = season("{crop: carrot, plants: 10, from: 08-04}").waves[0].judged
    assert judged.stages.first_pick is not None
    early, late = judged.stages.first_pick
    assert early.day < freezes()
    assert late.day == freezes() - timedelta(days=1)
    (held,) = [step for step in late.steps if "not ripe before the ground freezes" in step.text]
    assert "late end: not ripe" in held.text


def test_without_temperatures_frost_stops_its_growth() -> None:
    found = season("{crop: carrot, plants: 10, from: 09-10}", highs=None)
    (problem,) = [each for each in found.problems if each.code == "never-finishes"]
    assert "cannot be picked before frost stops its growth about" in problem.message


def asked(of: Season) -> str:
    wave = of.waves[0]
    june = replace(of, today=date(2026, 6, 1))
    found = answer(june, Question(wave.crop, None, None, None, seedlings=False))
    return " ".join(" ".join(fits_text((found,), of, width=80)).split())


def test_fits_says_when_the_ground_freezes_where_it_is_known() -> None:
    frozen = freezes()
    said = "What is ripe stands till the ground freezes, about"
    assert f"{said} {frozen.day} {frozen:%b}." in asked(season(CARROT))
    assert "when that is nobody knows here" in asked(season(CARROT, highs=None))
    recorded = replayed.season(
        replayed.record("wageningen"), CARROT, latitude=replayed.LATITUDES["wageningen"]
    )
    assert said in asked(recorded)


def test_on_a_record_it_is_the_middle_of_the_years() -> None:
    kept = replayed.record("wageningen")
    found = replayed.season(kept, CARROT, latitude=52.0, years="1976-1989")
    frozen = found.climate.waves.frost_end(found.prospects(found.waves[0]).need)
    assert kept.tmax is not None
    means = (np.array(kept.tmin) + np.array(kept.tmax)) / 2
    days = []
    for year in range(1976, 1990):
        at = (date(year, 1, 1) - kept.first).days
        summer = (date(year, 7, 1) - kept.first).days
        cold = [day for day in range(summer, summer + 366) if means[day - 10 : day + 1].mean() <= 0]
        days.append(cold[0] - at if cold else np.inf)
    assert frozen is not None
    assert (frozen.day - date(2026, 1, 1)).days == int(np.median(days) + 0.5)


# A place without frost


def test_a_place_without_frost_has_normals() -> None:
    found = season(
        "{crop: bush bean, plants: 4, from: 12-15}",
        "{crop: beet, plants: 4, from: 07-01}",
        "{crop: carrot, plants: 4, from: 10-20}",
        highs=WARM_HIGHS,
        lows=WARM_LOWS,
        dates="last: none, first: none",
        latitude=25.5,
    )
    basis = found.climate.basis
    assert (basis.frost, basis.warmth) == (FrostFrom.NONE, WarmthFrom.NORMALS)
    bean, beet, carrot = (wave.judged for wave in found.waves)
    assert bean.stages.first_pick is not None  # in January, without a frost to end it
    assert bean.odds == 1
    assert beet.verdict is not None
    assert beet.verdict.value == "too hot"
    assert (carrot.ended_by, carrot.end) == (EndedBy.PICKED_OUT, None)
    assert found.climate.waves.frost_end(found.prospects(found.waves[2]).need) is None


@pytest.mark.parametrize("written", ["last: None, first: NONE", "last: 'none', first: none"])
def test_capitals_and_quotes_change_nothing(written: str) -> None:
    assert season(dates=written, highs=None).climate.basis.frost is FrostFrom.NONE


@pytest.mark.parametrize(
    ("ground", "killing", "days"),
    [
        ([], [], []),
        ([10, 11, 12], [], []),  # it thaws, and the crop lives
        ([10, 11, 12], [12], [10, 11, 12]),  # dead on the last day: not pulled from the first on
        ([10, 11, 20, 21], [21], [20, 21]),  # through the first frost, not the second
        ([10, 11, 20, 21], [15], [15]),  # killed in bare ground
        ([10, 11], [9, 11, 30], [9, 10, 11, 30]),
    ],
)
def test_what_is_frozen_in_and_lives_is_pulled_when_it_thaws(
    ground: list[int], killing: list[int], days: list[int]
) -> None:
    assert frozen_in(ground, killing) == days


def winter_ends(name: str, killed_at: float) -> list[date]:
    """The day, laid in 2026, that ends what stands, in each winter of a record; told in numpy.

    31 December 2027 where none does. Winters with a day missing before that are left out.
    """
    kept = replayed.record(name)
    assert kept.tmax is not None
    low, high = np.array(kept.tmin), np.array(kept.tmax)
    means, found = (low + high) / 2, []
    for year in range(kept.first.year, kept.first.year + len(low) // 365 + 1):
        start = (date(year, 7, 1) - kept.first).days
        days = np.arange(start, min(start + 366, len(low)))
        if start < 11 or not len(days):
            continue
        frozen = np.array([means[day - 10 : day + 1].mean() <= 1e-9 for day in days])
        dead = np.flatnonzero(low[days] <= killed_at + 1e-9)
        last = int(dead[0]) if len(dead) else 365
        if last >= len(days) or np.isnan(means[start - 11 : start + last + 1]).any():
            continue
        while 0 < last < 365 and frozen[last] and frozen[last - 1]:
            last -= 1
        ends = date(2026, 7, 1) + timedelta(days=last) if len(dead) else date(2027, 12, 31)
        found.append(ends)
    return sorted(found)


@pytest.mark.parametrize(
    ("place", "crop", "killed_at"), [("wageningen", "leek", -10), ("fulda", "leek", -10)]
)
def test_on_a_record_it_stands_until_half_of_the_winters_have_killed_it(
    place: str, crop: str, killed_at: float
) -> None:
    of = replayed.season(replayed.record(place), latitude=replayed.LATITUDES[place])
    need = replayed.prospects(of, crop).need
    assert need.killed_at == killed_at
    outlook = of.climate.waves.outlook(Dated.on(date(2026, 6, 15), "written", "", OURS), need)
    frozen = of.climate.waves.frost_end(need)
    assert outlook.end is not None
    assert frozen is not None
    ends = winter_ends(place, killed_at)
    low, high = ends[(len(ends) - 1) // 2], ends[len(ends) // 2]
    middle = low + (high - low) / 2
    assert len(ends) >= 10
    assert abs((outlook.end.day - middle).days) <= 1  # some of the years have a leap day
    assert outlook.end.day > frozen.day
    assert outlook.ended_by is EndedBy.FROST


def test_on_a_record_a_parsnip_is_lifted_all_winter_and_a_carrot_till_the_ground_freezes() -> None:
    of = replayed.season(replayed.record("fulda"), latitude=replayed.LATITUDES["fulda"])
    planted = Dated.on(date(2026, 5, 1), "written", "", OURS)
    parsnip, carrot = (
        of.climate.waves.outlook(planted, replayed.prospects(of, crop).need)
        for crop in ("parsnip", "carrot")
    )
    # 70 days before 21 June, and 3 × 1.5 more at 50.5°, is 8 April: 4 or 5 days more, half to even
    assert parsnip.end is not None
    assert parsnip.end.steps[1].date == date(2027, 4, 8)
    assert parsnip.ended_by is EndedBy.SEED
    assert carrot.end is not None
    frozen = of.climate.waves.frost_end(replayed.prospects(of, "carrot").need)
    assert frozen is not None
    assert abs((carrot.end.day - frozen.day).days) <= 1


# Months of −0.5 to 18 °C: the ground freezes, and the coldest night is −0.5 − (0.95 × 18.5 − 1.5),
# −16.6 °C: half of the winters kill a leek, at −10 °C, and not a parsnip, at −17.8 °C. [°F]
MILD_HIGHS = (36, 39, 47, 55, 64, 70, 73, 72, 65, 55, 45, 38)
MILD_LOWS = (26, 27, 32, 38, 46, 52, 56, 55, 49, 41, 34, 28)


@pytest.mark.parametrize(
    ("crop", "lows", "stands"),
    [("parsnip", MILD_LOWS, True), ("leek", MILD_LOWS, False), ("parsnip", LOWS, False)],
)
def test_on_normals_it_stands_where_few_winters_kill_it(
    crop: str, lows: tuple[int, ...], stands: bool
) -> None:
    highs = HIGHS if lows is LOWS else MILD_HIGHS
    wave = season(f"{{crop: {crop}, plants: 10, from: 05-20}}", highs=highs, lows=lows)
    judged = wave.waves[0].judged
    frozen = wave.climate.waves.frost_end(wave.prospects(wave.waves[0]).need)
    assert frozen is not None
    assert judged.stages.last_pick is not None
    assert (judged.stages.last_pick.day >= frozen.day) is stands
    assert judged.end is not None
    assert (judged.end.steps[-1].rule == "to-seed") is stands


def test_fits_says_that_it_is_pulled_when_the_ground_thaws() -> None:
    said = asked(season("{crop: parsnip, plants: 10, from: 05-20}"))
    frozen = freezes()
    assert (
        f"What is ripe when the ground freezes, about {frozen.day} {frozen:%b}, is pulled" in said
    )
