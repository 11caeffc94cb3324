"""Peas in leaf live through a frost that takes flowers and pods: by years, by odds, by the file."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

import gardens
import replayed
from made_years import CROPS, FIRST, SEASONS, YEAR, need, weather
from sowtide.climate.answers import Green, Need
from sowtide.climate.frost import SurvivalInLeaf
from sowtide.climate.medians import NEVER
from sowtide.climate.replay.ends import Ends
from sowtide.climate.replay.run import Replay
from sowtide.climate.replay.through import Through
from sowtide.climate.warmth.aligned import Years
from sowtide.climate.warmth.heat import HeatMethod, accumulated, missing_before
from sowtide.garden.crop import AfterFrost
from sowtide.reasons import OURS, Dated
from sowtide.units import celsius

GREEN = Green(killed_at=-6.0, ripens=20)
PEA = replace(need(days=(60, 60)), killed_at=-2.0, green=GREEN)
LEAF = replace(CROPS["lettuce"], killed_at=-2.0, green=GREEN, warm_limit=None)


def replay(lows: list[float], highs: list[float], crop: Need) -> Replay:
    assert crop.warmth is not None
    assert crop.green is not None
    years, missing = Years(FIRST, SEASONS, YEAR), missing_before(lows, highs)
    flowers = [day for day, low in enumerate(lows) if low <= crop.killed_at]
    plants = [day for day, low in enumerate(lows) if low <= crop.green.killed_at]
    return Replay(
        years,
        heat=accumulated(
            lows, highs, base=crop.warmth.base, upper=crop.warmth.upper, method=HeatMethod.CLIP
        ),
        ends=Ends(flowers, years, missing=missing, later=0),
        hot=(None,) * len(SEASONS),
        need=crop,
        through=Through(flowers, plants, years, ripens=crop.green.ripens, missing=missing),
    )


# Every day brings ten degree-days, so what is sown on 15 September is picked 60 days later, on
# 14 November, and flowers 20 days before, on 25 October. It is picked for 18 days, to 1 December.
# Flowers and pods are lost at −2 °C, plants at −6 °C; 14 days are worth while.
@pytest.mark.parametrize(
    ("frosts", "worth", "days"),
    [
        ({}, 1, 18),
        ({"10-24": -3}, 1, 18),  # a day before its flowers open
        ({"10-25": -3}, 0, 0),  # on the day
        ({"10-10": -3, "10-24": -5.9}, 1, 18),  # twice in leaf
        ({"10-10": -6}, 0, 0),  # so cold that the plants die
        ({"10-10": -3, "11-28": -3}, 1, 14),  # 14 to 27 November
        ({"10-10": -3, "11-27": -3}, 0, 13),  # to 26 November
        ({"10-10": -3, "11-10": -3}, 0, 0),  # in flower
        ({"09-14": -9, "09-15": -9}, 1, 18),  # before it is sown, and at dawn of the day
    ],
)
def test_a_frost_in_leaf_is_lived_through_and_one_in_flower_is_not(
    frosts: dict[str, float], worth: int, days: int
) -> None:
    lows, highs = [], []
    for number in range(4800):
        low = frosts.get(f"{FIRST + timedelta(days=number):%m-%d}")
        # (15 + 25) / 2 − 10 is 10; a frosty day counts from 10 to 30 °C, and brings 10, too
        lows.append(15.0 if low is None else low)
        highs.append(25.0 if low is None else 30.0)
    found = replay(lows, highs, PEA)
    offset = (date(2026, 9, 15) - YEAR.first).days
    runs = list(found.runs(offset))
    assert len(runs) == len(SEASONS)
    assert {(run.worth, run.picking) for run in runs} == {(worth, days)}
    assert found.prospects.odds[offset] == worth
    assert found.left(offset, 1)[0] == pytest.approx(days if found.left(offset, 1)[2] else 0)
    if days:
        assert {run.early for run in runs} == {60}
        assert next(iter(found.borne(offset))).parts == ((60, 60, 60 + days),)


def told(lows: list[float], highs: list[float], crop: Need, planted: int, midsummer: int) -> float:
    """Share of its range that one year makes worth while, told day after day."""
    warmth, green = crop.warmth, crop.green
    assert warmth is not None
    assert green is not None
    assert warmth.upper is not None
    gathered, heat = [0.0], 0.0
    for day in range(planted, midsummer + 367):
        pair = [min(max(each[day], warmth.base), warmth.upper) for each in (lows, highs)]
        heat += sum(pair) / 2 - warmth.base
        gathered.append(heat)
    step = (warmth.high - warmth.low) / max(warmth.parts - 1, 1)
    good = 0
    for part in range(warmth.parts):
        after = bisect_left(gathered, warmth.low + part * step - 1e-9)
        pick = planted + max(after, warmth.least)
        flowers = pick - green.ripens
        end = next(
            (
                day
                for day in range(max(planted + 1, midsummer), midsummer + 367)
                if lows[day] <= (crop.killed_at if day >= flowers else green.killed_at)
            ),
            NEVER,
        )
        good += pick <= midsummer + 366 and pick + crop.worthwhile <= end
    return good / warmth.parts


@given(seed=st.integers(0, 400), milder=st.sampled_from([3, 6, 8, 10]), day=st.integers(0, 364))
def test_every_year_is_told_day_after_day(seed: int, milder: int, day: int) -> None:
    lows, highs = ([each + milder for each in side] for side in weather(seed=seed))
    found, years = replay(lows, highs, LEAF), Years(FIRST, SEASONS, YEAR)
    expected = [
        told(lows, highs, LEAF, planted, midsummer)
        for planted, midsummer in zip(years.indices(day), years.midsummers, strict=True)
        if midsummer + 367 < len(lows)
    ]
    worth = {run.season: run.worth for run in found.runs(day)}
    known = [worth[season] for season in SEASONS[: len(expected)]]
    assert known == pytest.approx(expected)
    assert found.prospects.odds[day] == pytest.approx(sum(worth.values()) / len(worth))


class Frosts:
    """Frosts of half a year, invented: of −2 °C in some years, of −6 °C in one of five.

    In autumn they come on day 300. In spring those of −2 °C are later than day 60 in one of four
    years, and never later than day 90.
    """

    def __init__(self, share: float, *, spring: bool) -> None:
        self.share, self.spring = share, spring

    def odds(self, day: int, *, at: float) -> float:
        if not self.spring:
            return 0.0 if day <= 300 else self.share if at == -2 else 0.2
        return self.share if day < 60 else 0.25 if day < 90 else 0.0

    def first_safe(self, *, at: float, share: float) -> int | None:
        raise NotImplementedError

    def nearest_day(self, *, at: float, share: float) -> int | None:
        return 300 if at == -2 and self.share > share else None

    def reach(self, at: float) -> tuple[int, int]:
        return 300, 301

    def dated(self, day: int, *, at: float, share: float) -> Dated:
        return Dated.on(date.fromordinal(day), "frost-odds", "frost", OURS)


def in_leaf(share: float) -> SurvivalInLeaf:
    autumn, spring = (Frosts(share, spring=each) for each in (False, True))
    return SurvivalInLeaf(autumn, spring, at=-2, green_at=-6, ripens=20)


def test_the_odds_of_coming_through_are_those_of_plants_and_of_flowers() -> None:
    found = in_leaf(0.5)
    # First picks on day 100 of the next year: in flower from day 80. Four of five winters leave the
    # plants, three of four springs have no frost later: 0.8 × 0.75 = 0.6 of the years, where half
    # of them have no such frost at all.
    assert found.over([465], 13) == pytest.approx(0.6)
    assert found.total(465, 10) == pytest.approx(6.0)
    # From day 120 no frost comes after the flowers: four of five.
    assert found.over([465, 485], 13) == pytest.approx(0.6 + 0.8)
    # In flower on day 300 of its own year: half of the springs before say nothing of it, and half
    # of the autumns have no frost.
    assert found.over([320], 0) == pytest.approx(0.5)
    # Picked before the frosts: all of them.
    assert found.over([280], 13) == pytest.approx(1.0)
    assert found.standing(320) == pytest.approx(0.8)


def test_each_first_pick_comes_through_by_itself() -> None:
    found = in_leaf(0.5)
    for pick in range(270, 500):  # asked one after another they are what each is asked alone
        assert found.through(pick) == in_leaf(0.5).through(pick)


def test_years_that_stand_for_the_odds_come_through_in_their_share() -> None:
    found = in_leaf(0.5)
    # Of ten years the frost of five comes on day 300; one of those five lives on: 0.6.
    assert found.ends_of(465, 10) == [300] * 4 + [NEVER] * 6
    assert found.ends_of(280, 10) == found.ends(10) == [300] * 5 + [NEVER] * 5


def test_what_comes_through_in_half_of_the_years_is_not_ended() -> None:
    found = in_leaf(0.7)
    assert found.end is not None
    assert found.end_of(465) is None  # 0.6
    assert found.end_of(320) == found.end  # in flower on the day of the frost
    assert in_leaf(0.7).over([465], 13) == pytest.approx(0.6)


def test_just_half_of_the_years_are_enough_to_come_through() -> None:
    # Four of five winters leave the plants; with a late frost in 37.5 % of the springs half of the
    # years are left, with 38 % 49.6 %. Flowers that open on the day of the frost are lost.
    for late, through in ((0.375, True), (0.38, False)):
        found = SurvivalInLeaf(
            Frosts(0.7, spring=False), Frosts(late, spring=True), at=-2, green_at=-6, ripens=20
        )
        assert found.end is not None
        assert (found.end_of(430) is None) is through
        assert found.end_of(320) == found.end_of(319) == found.end
        assert (found.end_of(321) is None) is through


# A mild south as in the calendars: frosts from 20 May to 20 September, months of 9 to 19 °C
SOUTH = (
    "{last: 09-20, first: 05-20, normals: {"
    "max: [25, 25, 23, 20, 17, 14, 13, 14, 16, 18, 20, 23], "
    "min: [13, 13, 12, 9, 7, 5, 4, 5, 6, 8, 9, 11]}}"
)


@pytest.mark.parametrize("name", ["pea", "snow pea", "snap pea"])
def test_peas_of_june_flower_after_the_frosts_of_a_mild_south(name: str) -> None:
    on = gardens.season(gardens.text(frost=SOUTH, latitude=-37, sure="80%"))
    found = replayed.prospects(on, name)
    april, june = (
        on.climate.waves.chances(day, found.need).odds
        for day in (date(2027, 4, 20), date(2027, 6, 25))
    )
    assert june >= 0.8 > april + 0.2
    assert any(date(2027, 6, 25) in window for window in found.windows)
    # As if frost did the same to both, they would fare in June as in April.
    alike = replace(found.need, green=None)
    assert on.climate.waves.chances(date(2027, 6, 25), alike).odds == pytest.approx(april, abs=0.01)
    outlook = on.climate.waves.outlook(Dated.on(date(2027, 6, 25), "written", "", OURS), found.need)
    assert outlook.chances.odds == june
    assert outlook.odds_of_nothing == pytest.approx(1 - june, abs=0.02)


def test_what_a_pea_stands_in_leaf_and_in_flower() -> None:
    pea = replayed.crop("pea")
    assert pea.killing_temperature == pytest.approx(celsius(28))
    assert pea.plants_killed_at == pytest.approx(celsius(20))
    assert pea.after_frost is AfterFrost.ENDS
    on = gardens.season(gardens.text(frost=SOUTH, latitude=-37))
    asked = replayed.prospects(on, "pea").need
    assert asked.green == Green(round(celsius(20), 6), pea.flower_to_pick or 0)
    by_dates = gardens.season(gardens.text(frost="{last: 05-10, first: 10-01}"))
    assert replayed.prospects(by_dates, "pea").need.green is None
    assert replayed.prospects(on, "bush bean").need.green is None


@pytest.mark.parametrize(
    ("written", "killed_at", "green"),
    [
        ("hardiness: hardy", celsius(24), None),  # one word for both
        ("killed_at: -8", celsius(28), -8.0),
        ("killed_at: -1", -1.0, None),  # flowers cannot stand more than plants
        ("flowers_killed_at: -4", -4.0, round(celsius(20), 6)),
    ],
)
def test_what_the_file_says_of_a_pea_goes_first(
    written: str, killed_at: float, green: float | None
) -> None:
    file = gardens.text(frost=SOUTH, latitude=-37, crops=[f"pea: {{{written}}}"])
    on = gardens.season(file)
    crop = next(crop for crop in on.garden.crops if crop.name == "pea")
    found = on.conditions.prospects(crop, crop.raised).need
    assert found.killed_at == pytest.approx(killed_at)
    assert (None if found.green is None else found.green.killed_at) == green


@pytest.mark.parametrize("place", ["seattle", "clemson"])
def test_peas_go_into_no_short_days_that_are_not_mild(place: str) -> None:
    on = replayed.season(replayed.record(place), latitude=replayed.LATITUDES[place])
    last = replayed.prospects(on, "pea").windows[-1].last
    assert last < date(2026, 11, 10)
