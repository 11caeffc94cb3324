"""The supply of a season: what each crop brings in week by week, beside what is wanted of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import TYPE_CHECKING

from sowtide.garden.crop import Crop
from sowtide.garden.want import Met
from sowtide.schedule.season import Season
from sowtide.schedule.supply.pickings import Weeks, bearer_of, monday_of_week, week_of
from sowtide.schedule.supply.wanted import CropWanted, asked_of, waves_for
from sowtide.schedule.waves import Wave
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.learning import OwnYields

GAP = 0.5
"""A week that is expected to bring less than this share of what is wanted is a gap. [0–1]"""
POOR, GOOD = 0.1, 0.9
"""The shares of years that bring less than the least and no more than the most said. [0–1]"""
_LITTLE = 1e-9


@value
class WeekSupply:
    """A week of one crop."""

    week: date
    """Its Monday."""
    low: float
    expected: float
    high: float
    """What is picked: the least of a plant's yield in a poor year, the mean of its middle, the most
    in a good year. [kg or 1]"""
    want: float | None
    """How much is wanted; None where nothing is. [kg or 1]"""
    odds: float | None
    """Share of the years that bring what is wanted, at the middle of the yield; None with
    `want`."""
    got: float | None
    """What was picked, as the journal says; None where it says nothing. [kg or 1]"""

    @property
    def short(self) -> float:
        """How much of what is wanted is not expected. [kg or 1]"""
        return max((self.want or 0.0) - self.expected, 0.0)

    @property
    def met(self) -> Met | None:
        """How far what is wanted is expected; None where nothing is wanted."""
        if self.want is None:
            return None
        if self.expected < GAP * self.want:
            return Met.LESS
        return Met.ENOUGH if self.expected >= self.want else Met.SOME


@value
class CropSupply:
    """What a crop brings in, week by week."""

    asked: CropWanted
    """What is wanted of it, and what a plant of it gives."""
    waves: tuple[Wave, ...]
    """The waves that bring it in."""
    weeks: tuple[WeekSupply, ...]
    """Its weeks in order, from the first with a want or a picking to the last, without holes."""

    @property
    def crop(self) -> Crop:
        """The crop."""
        return self.asked.crop

    @property
    def unmet(self) -> float:
        """What is not met, in weeks' wants: half of one week's want and a third of another's.

        So crops that are weighed and crops that are counted can be added up. [weeks]
        """
        return sum(each.short / each.want for each in self.weeks if each.want)


def supply_of(season: Season, own: OwnYields | None = None) -> tuple[CropSupply, ...]:
    """Return the supply of a season: crops that are wanted in the file's order, then the others."""
    return tuple(_supply(season, asked) for asked in asked_of(season, own))


def without_yield(season: Season, supplies: Iterable[CropSupply]) -> tuple[str, ...]:
    """Name the crops that are grown and in no supply: nobody knows what a plant of them gives."""
    told = {wave.crop.name for each in supplies for wave in each.waves}
    grown = dict.fromkeys(wave.crop.name for wave in season.waves)
    return tuple(name for name in grown if name not in told)


def _supply(season: Season, asked: CropWanted) -> CropSupply:
    waves = waves_for(season, asked)
    bearers = ((bearer_of(season, wave), wave) for wave in waves)
    middle = asked.gives.middle
    weeks = Weeks((each, wave.plants * middle) for each, wave in bearers if each is not None)
    got = _got(season, waves, asked)
    numbers = {*weeks.by_week, *got}
    for span in asked.spans():
        numbers |= {week_of(span.first), week_of(span.last)}
    shown = range(min(numbers), max(numbers) + 1) if numbers else range(0)
    return CropSupply(
        asked, waves, tuple(_week(number, weeks.of(number), asked, got) for number in shown)
    )


def _week(number: int, cases: list[float], asked: CropWanted, got: dict[int, float]) -> WeekSupply:
    wanted = asked.wanted(number)
    gives = asked.gives
    rising = sorted(cases)
    enough = sum(1 for each in cases if each >= wanted - _LITTLE)
    return WeekSupply(
        week=monday_of_week(number),
        low=_quantile(rising, POOR) * gives.low / gives.middle,
        expected=sum(cases) / len(cases),
        high=_quantile(rising, GOOD) * gives.high / gives.middle,
        want=wanted if wanted > _LITTLE else None,
        odds=enough / len(cases) if wanted > _LITTLE else None,
        got=got.get(number),
    )


def _quantile(rising: list[float], share: float) -> float:
    """Return what a share of some numbers in order do not reach, straight between two of them."""
    at = share * (len(rising) - 1)
    below = int(at)
    above = min(below + 1, len(rising) - 1)
    return rising[below] + (rising[above] - rising[below]) * (at - below)


def _got(season: Season, waves: tuple[Wave, ...], asked: CropWanted) -> dict[int, float]:
    """Return what the journal says was picked, by week."""
    found: dict[int, float] = {}
    for day, amount in _picked(season, waves, asked):
        found[week_of(day)] = found.get(week_of(day), 0.0) + amount
    return found


def _picked(
    season: Season, waves: tuple[Wave, ...], asked: CropWanted
) -> Iterator[tuple[date, float]]:
    if season.accounts is None:
        return
    from sowtide.garden.journal import PICKINGS

    for wave in waves:
        account = season.accounts.of(wave.id)
        for each in () if account is None else account.all_of(*PICKINGS):
            if each.amount is None:
                continue
            weight = each.amount.kilograms
            number = float(each.amount.number) if weight is None else weight
            counted = asked.picked(number, weighed=weight is not None)
            if counted is not None:
                yield each.on, counted
