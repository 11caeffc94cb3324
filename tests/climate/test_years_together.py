"""What recorded years say together of a planting day, and of all of them: counted by hand."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from made_years import need
from sowtide.climate.answers import EndedBy
from sowtide.climate.frost.depth import FrostDepth
from sowtide.climate.medians import NEVER
from sowtide.climate.replay.middle import Middle, middle_of
from sowtide.climate.replay.prospect import Prospect
from sowtide.climate.replay.recorded import _told
from sowtide.climate.replay.run import Run
from sowtide.garden.crop import AfterFrost


def run(
    early: int = 50,
    late: int = 60,
    *,
    ripe_late: int | None = None,
    hot_end: int = NEVER,
    frost_end: int = 100,
    worth: float = 1.0,
    too_hot: bool = False,
    spring_frost: int = NEVER,
) -> Run:
    return Run(
        season=2001,
        early=early,
        late=late,
        ripe_early=early,
        ripe_late=late if ripe_late is None else ripe_late,
        hot_end=hot_end,
        frost_end=frost_end,
        worth=worth,
        picking=14.0,
        nothing=0.0,
        too_hot=too_hot,
        spring_frost=spring_frost,
    )


def test_the_middle_of_the_years_is_taken_of_each_day_by_itself() -> None:
    runs = (
        run(50, 60, frost_end=100, hot_end=90),
        run(53, 66, frost_end=120, hot_end=NEVER),
        run(47, 62, frost_end=90, hot_end=80),
    )
    # Ends in 90, 120 and 80 days: the middle is 90.
    assert middle_of(runs) == Middle(
        early=50, late=62, ripe_early=50, ripe_late=62, hot_end=90, frost_end=100, stops=90
    )


@pytest.mark.parametrize(
    ("frosts", "stops"), [((100, NEVER, NEVER), 365), ((100, 110, NEVER), 110)]
)
def test_where_most_years_end_nothing_a_year_does(frosts: tuple[int, ...], stops: int) -> None:
    assert middle_of([run(frost_end=frost) for frost in frosts]).stops == stops


def test_margins_are_those_of_the_late_end_in_the_middle() -> None:
    bean = need(picking=18, worthwhile=14)
    runs = [run(50, 60, frost_end=100, hot_end=90)]
    chances = middle_of(runs).chances(runs, bean)
    assert (chances.margin, chances.heat_margin) == (100 - 74, 90 - 74)
    stands = need(picking=18, worthwhile=14, after_frost=AfterFrost.STANDS)
    # one pick before the frost, all worthwhile days before the heat
    found = middle_of(runs).chances(runs, stands)
    assert (found.margin, found.heat_margin) == (100 - 61, 90 - 74)
    never = [run(50, 60, frost_end=NEVER)]
    found = middle_of(never).chances(never, bean)
    assert (found.margin, found.heat_margin) == (None, None)
    # What is never ripe in most years is counted from the day that ends it
    unripe = [run(50, NEVER, frost_end=100)]
    assert middle_of(unripe).chances(unripe, bean).margin == 100 - (100 + 14)


def test_odds_are_the_mean_of_the_years() -> None:
    bean = need()
    runs = [run(worth=1.0), run(worth=0.5, spring_frost=9), run(worth=0.0, too_hot=True), run()]
    found = middle_of(runs).chances(runs, bean)
    assert (found.odds, found.spring_loss, found.too_hot) == (2.5 / 4, 0.25, False)
    assert not found.by_frost_alone


@pytest.mark.parametrize(("hot", "years", "too_hot"), [(1, 2, False), (2, 3, True), (0, 1, False)])
def test_it_is_too_hot_in_more_than_half_of_the_years(hot: int, years: int, too_hot: bool) -> None:
    runs = [run(too_hot=number < hot) for number in range(years)]
    assert middle_of(runs).chances(runs, need()).too_hot is too_hot


@pytest.mark.parametrize(
    ("late", "ripe", "waited"), [(60, 60, 0), (63, 60, 3), (60, 61, 0), (NEVER, 60, 0)]
)
def test_days_that_wait_for_fruit(late: int, ripe: int, waited: int) -> None:
    assert middle_of([run(50, late, ripe_late=ripe)]).waited == waited


def turns(odds: list[float], too_hot: list[float], used: list[int], *span: int) -> list[int]:
    return list(Prospect(odds, too_hot, used).turns(*(span or (0, len(odds)))))


def test_a_run_of_days_is_cut_where_the_next_is_better_or_of_another_kind() -> None:
    cool, known = [0.0] * 5, [9] * 5
    assert turns([0.9, 0.9, 0.8, 0.8, 0.1], cool, known) == []
    assert turns([0.9, 0.8, 0.81, 0.8, 0.8], cool, known) == [2]
    # More than half of the years are too hot, or no longer
    assert turns([0.9] * 5, [0.4, 0.5, 0.51, 0.6, 0.5], known) == [2, 4]
    # A day of which no year tells stands alone
    assert turns([0.9] * 5, cool, [9, 9, 0, 9, 9]) == [2, 3]
    # Counted from the first of the days that are looked at
    assert turns([0.1, 0.9, 0.8, 0.9, 0.95], cool, known, 1, 4) == [2]
    assert turns([0.9], [0.0], [9]) == []


@pytest.mark.parametrize(
    ("warmest", "coldest", "below"),
    [
        # 0.95 for each degree between the months, less 1.5. Measured: Seattle and Wageningen, 15
        # apart, 11 and 14; Fulda, 18, 16; Clemson, 20, 18 °C under the coldest month
        (19.0, 4.0, 12.75),
        (17.0, -1.0, 15.6),
        (26.0, 6.0, 17.5),
    ],
)
def test_the_coldest_night_lies_below_the_coldest_month(
    warmest: float, coldest: float, below: float
) -> None:
    depth = FrostDepth.of_months(warmest=warmest, coldest=coldest)
    assert depth.mean == pytest.approx(coldest - below)
    # Half of the winters come to it; one spread of 3 °C beside it are 15.9 and 84.1 of 100
    shares = [depth.share(depth.mean + degrees) for degrees in (-3, 0, 3)]
    assert shares == pytest.approx([0.1587, 0.5, 0.8413], abs=1e-4)


YEAR_TOLD = date(2001, 6, 1)


@pytest.mark.parametrize(
    ("of", "seeds", "first", "end", "by"),
    [
        ({}, NEVER, (50, 60), 100, EndedBy.FROST),
        ({"frost_end": 61}, NEVER, (50, 60), 61, EndedBy.FROST),
        ({"frost_end": 60}, NEVER, (50, None), 60, EndedBy.FROST),  # nothing is picked on that day
        ({"frost_end": 50}, NEVER, (None, None), 50, EndedBy.FROST),
        ({"late": NEVER}, NEVER, (50, None), 100, EndedBy.FROST),
        ({"frost_end": NEVER}, NEVER, (50, 60), None, None),
        ({"hot_end": 99}, NEVER, (50, 60), 99, EndedBy.HEAT),
        ({"hot_end": 100}, NEVER, (50, 60), 100, EndedBy.HEAT),
        ({"hot_end": 101}, NEVER, (50, 60), 100, EndedBy.FROST),
        ({"hot_end": 55, "frost_end": NEVER}, NEVER, (50, None), 55, EndedBy.HEAT),
        # A known day of seed, but for a leap day
        ({}, 100, (50, 60), 100, EndedBy.SEED),
        ({}, 101, (50, 60), 100, EndedBy.SEED),
        ({}, 99, (50, 60), 100, EndedBy.SEED),
        ({}, 102, (50, 60), 100, EndedBy.FROST),
        ({}, 98, (50, 60), 100, EndedBy.FROST),
        ({"hot_end": 90}, 100, (50, 60), 90, EndedBy.HEAT),
        ({"spring_frost": 9}, NEVER, (None, None), 9, EndedBy.FROST),
    ],
)
def test_a_year_is_told_on_its_own_days(
    of: dict[str, int],
    seeds: int,
    first: tuple[int | None, int | None],
    end: int | None,
    by: EndedBy | None,
) -> None:
    def on(days: int | None) -> date | None:
        return None if days is None else YEAR_TOLD + timedelta(days=days)

    told = _told(run(**of), YEAR_TOLD, seeds)  # type: ignore[arg-type]
    assert told.first_pick == (on(first[0]), on(first[1]))
    assert (told.end, told.ended_by) == (on(end), by)
    assert (told.season, told.picking_days, told.worth) == (2001, 14, 1)
