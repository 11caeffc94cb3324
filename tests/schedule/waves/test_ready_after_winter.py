"""What stands over the winter: when it is ready, and what is said where nobody knows, by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import cast

import pytest

import factory
import gardens
from sowtide.climate.answers import EndedBy, Need, Winter
from sowtide.climate.frost import PlaceFrosts
from sowtide.climate.questions import Fates
from sowtide.climate.weather import UnknownWeather
from sowtide.days import DayRange, Half, MonthDay
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.planting_times import ready_time
from sowtide.reasons import OURS, Dated
from sowtide.schedule.season import Season
from sowtide.schedule.sowing import PlantedWhere
from sowtide.schedule.waves.demands import need_of
from sowtide.schedule.waves.no_date import no_winter_date
from sowtide.schedule.waves.wave import NoDate
from sowtide.schedule.waves.wintering import wintering_of

# The longest day is 21 June: ready from 2 July on, at the latest on 22 July
GARLIC = factory.lettuce(
    overwinters=True,
    ready_about=ready_time("longest day +11..longest day +31"),
    killed_at=-20.0,
    days_to_harvest=DayRange(200, 240),
)
OWN = replace(GARLIC, ready=(MonthDay(6, 25), MonthDay(7, 20)))


class Known(UnknownWeather):
    """Weather that is known."""

    def mean_over(self, first: date, days: int) -> float:  # type: ignore[override]
        return 20.0


class Frosts:
    """Frosts that kill, in the halves of the year that are told."""

    def __init__(self, *halves: Half) -> None:
        self._halves = halves

    def day(self, half: Half, *, at: float, share: float) -> Dated | None:
        assert (at, share) == (-20.0, 0.5)
        return Dated.on(date(2026, 1, 10), "frost", "", OURS) if half in self._halves else None


class Told:
    """What a winter does, as it is told."""

    def __init__(self, winter: Winter | None) -> None:
        self._winter = winter

    def winter(self, planted: Dated, need: Need) -> Winter | None:
        return self._winter


def where(
    on: Season, *kills: Half, known: bool = False, winter: Winter | None = None
) -> PlantedWhere:
    climate = replace(
        on.climate,
        frosts=cast("PlaceFrosts", Frosts(*kills)),
        waves=cast("Fates", Told(winter)),
        weather=Known(on.garden.site, on.garden.year) if known else on.climate.weather,
    )
    return PlantedWhere(climate, on.garden.site, on.garden.year, 0.0)


def ready(
    planted: date, crop: Crop = GARLIC, at: PlantedWhere | None = None
) -> tuple[tuple[date, date] | None, date, NoDate | None]:
    """First picks, the day the bed is free, and why there is no date."""
    need = need_of(crop, Raised.DIRECT, colder_by=0)
    of = where(gardens.season(gardens.text())) if at is None else at
    found = wintering_of(Dated.on(planted, "written", "planted", OURS), crop, need, of)
    first = found.picking.first
    days = None if first is None else (first[0].day, first[1].day)
    return days, found.picking.pull_out.day, found.no_date


SUMMER_26 = date(2026, 7, 2), date(2026, 7, 22)
SUMMER_27 = date(2027, 7, 2), date(2027, 7, 22)


@pytest.mark.parametrize(
    ("planted", "summer"),
    [
        (date(2026, 1, 1), SUMMER_26),
        (date(2026, 3, 4), SUMMER_26),  # 120 days before 2 July
        (date(2026, 3, 5), None),
        (date(2026, 7, 21), None),
        (date(2026, 7, 22), SUMMER_27),  # 345 days before it
        (date(2026, 10, 10), SUMMER_27),
        (date(2027, 3, 4), SUMMER_27),  # in the year after the planned one
    ],
)
def test_it_is_ready_about_the_longest_day_that_leaves_it_four_to_eleven_months(
    planted: date, summer: tuple[date, date] | None
) -> None:
    first, free, why = ready(planted)
    assert first == summer
    assert why is (NoDate.OUT_OF_TIME if summer is None else None)
    if summer is None:  # its bed is held until the midsummer after the winter
        assert free == date(2027, 7, 1)
    else:
        assert free > summer[1]


@pytest.mark.parametrize("kills", [(Half.SPRING,), (Half.AUTUMN,), tuple(Half), ()])
def test_a_winter_that_kills_it_leaves_no_date(kills: tuple[Half, ...]) -> None:
    on, planted = gardens.season(gardens.text()), date(2026, 10, 10)
    first, free, why = ready(planted, at=where(on, *kills, known=True))
    if kills:
        assert (first, free, why) == (None, date(2027, 7, 1), NoDate.KILLED)
    else:
        assert (first, why) == (SUMMER_27, None)
    # Nobody knows how cold it gets, or what it stands
    assert ready(planted, at=where(on, *kills))[0] == SUMMER_27
    soft = replace(GARLIC, killed_at=None)
    assert ready(planted, soft, where(on, *kills, known=True))[0] == SUMMER_27


@pytest.mark.parametrize(
    ("planted", "fewest", "first"),
    [
        # Its fewest days are over on 25 June, or a day later: a year on
        (date(2026, 3, 17), 100, date(2026, 6, 25)),
        (date(2026, 3, 18), 100, date(2027, 6, 25)),
        (date(2026, 10, 1), 100, date(2027, 6, 25)),
        # The winter is over on 1 January, however many days it takes
        (date(2026, 10, 1), 300, date(2027, 6, 25)),
        (date(2026, 5, 1), 300, date(2027, 6, 25)),
    ],
)
def test_its_own_days_go_first(planted: date, fewest: int, first: date) -> None:
    crop = replace(OWN, days_to_harvest=DayRange(fewest, fewest + 40))
    last = date(first.year, 7, 20)
    assert ready(planted, crop)[0] == (first, last)


def test_its_own_days_may_lie_about_new_year_or_on_a_leap_day() -> None:
    crop = replace(OWN, days_to_harvest=DayRange(100, 140))
    turn = replace(crop, ready=(MonthDay(12, 20), MonthDay(1, 10)))
    assert ready(date(2026, 9, 1), turn)[0] == (date(2026, 12, 20), date(2027, 1, 10))
    one = replace(crop, ready=(MonthDay(12, 20), MonthDay(12, 20)))
    assert ready(date(2026, 9, 1), one)[0] == (date(2026, 12, 20), date(2026, 12, 20))
    leap = replace(crop, ready=(MonthDay(2, 29), MonthDay(3, 10)))
    assert ready(date(2026, 9, 1), leap)[0] == (date(2028, 2, 29), date(2028, 3, 10))


def winter(grown: float = 0.9, **changes: object) -> Winter:
    made = Winter(
        first_pick=None, short_from=date(2026, 10, 26), grown=grown, grown_enough=grown, years=20
    )
    return replace(made, **changes)  # type: ignore[arg-type]


def test_what_only_grows_is_ready_when_the_winter_tells() -> None:
    on, kale = gardens.season(gardens.text()), replace(GARLIC, ready_about=None)
    planted = date(2026, 9, 1)
    for told in (None, winter()):
        assert ready(planted, kale, where(on, winter=told)) == (None, date(2027, 7, 1), None)
    picks = tuple(Dated.on(day, "over-winter", "", OURS) for day in SUMMER_27)
    first, free, why = ready(planted, kale, where(on, winter=winter(first_pick=picks)))
    assert (first, why) == (SUMMER_27, None)
    assert free > SUMMER_27[1]
    held = wintering_of(
        Dated.on(planted, "written", "planted", OURS),
        kale,
        need_of(kale, Raised.DIRECT, colder_by=0),
        where(on, winter=winter()),
    )
    assert (held.winter, held.picking.ended_by) == (winter(), EndedBy.PULLED)


@pytest.mark.parametrize(
    ("of", "fewest", "said"),
    [
        (None, 200, "stands over the winter and nobody knows when it will be ready"),
        (winter(), 185, "needs its winter: its 185 days to harvest and more count it in"),
        (winter(), 184, "stands over the winter and is not ready by midsummer"),
        (winter(0.75), 100, "stands over the winter and is not ready by midsummer"),
        (winter(0.6, short_from=None), 100, "stands over the winter and is not ready by midsummer"),
        (
            winter(0.617),
            100,
            "stands over the winter and is about 62 % grown when the days fall under 10 hours, "
            "26 Oct: too little to say when it will be ready",
        ),
    ],
)
def test_where_there_is_no_date_it_says_why(of: Winter | None, fewest: int, said: str) -> None:
    judged = factory.judged(winter=of)
    for south, dates in ((False, "06-25..07-20"), (True, "12-25..01-20")):
        found, hint = no_winter_date(judged, fewest=fewest, south=south)
        assert found == said
        assert f"`ready: {dates}`" in hint
        assert ("three quarters" in hint) is ("62 %" in said)


@pytest.mark.parametrize(
    ("why", "said"),
    [
        (NoDate.OUT_OF_TIME, "too late for one harvest"),
        (NoDate.KILLED, "does not stand the winters"),
    ],
)
def test_a_crop_that_needs_its_winter_says_what_is_the_matter(why: NoDate, said: str) -> None:
    judged = factory.judged(winter=winter(), no_date=why)
    assert said in no_winter_date(judged, fewest=200, south=False)[0]
