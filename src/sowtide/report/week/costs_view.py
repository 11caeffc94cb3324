"""What waiting costs, and what is wanted of what is picked: numbers to decide a week's work by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from sowtide.days import DateSpan
from sowtide.garden.readers import kind_of
from sowtide.garden.want import Want, feeds
from sowtide.grouping import grouped
from sowtide.report.kinds import AmountView, Share
from sowtide.schedule.season import Season
from sowtide.schedule.work import WeekSheet
from sowtide.units import unit_told
from sowtide.values import value

_LATER = tuple(timedelta(weeks=weeks) for weeks in (0, 1, 2))


@value
class OddsOnDay:
    """The odds of a wave if a piece of work is done on a day."""

    date_: date
    odds: Share


@value
class WaitingView:
    """What it costs to put work off: the odds on its day, and one and two weeks later."""

    task: str
    days: tuple[OddsOnDay, ...]


@value
class WantedView:
    """How much is wanted in a week of what a crop that is picked in it is wanted as.

    That is `of`, the crop itself or any of its kind: of that several may be picked.
    """

    crop: str
    amount: AmountView
    of: str


def waiting_of(sheet: WeekSheet, season: Season) -> Iterator[WaitingView]:
    """Yield what waiting costs for what cannot slip, where a wave is begun with it."""
    said = set()
    for task in sheet.cannot_slip:
        wave = task.wave
        if not task.kind.starts_a_wave or wave.judged.odds is None or (wave.id, task.kind) in said:
            continue
        said.add((wave.id, task.kind))
        prospects, planted = season.prospects(wave), wave.stages.plant.day
        days = tuple(
            OddsOnDay(task.due + later, float(prospects.promise(planted + later)[0]))
            for later in _LATER
        )
        yield WaitingView(task.id, days)


def wanted_of(sheet: WeekSheet, season: Season) -> Iterator[WantedView]:
    """Yield what is wanted of the crops that are picked in a week, each once, as supply has it."""
    week, all_wants = DateSpan(sheet.first, sheet.last), season.garden.wants
    crops = {each.task.wave.crop.title: each.task.wave.crop for each in sheet.pickings}
    for name, wants in grouped(all_wants, lambda want: want.crop.name).items():
        eaten = [crop for crop in crops.values() if feeds(crop, wants[0].crop, all_wants)]
        amount, of = _together(wants, week, season) if eaten else (0.0, "")
        if amount > 0:
            unit, factor = unit_told(of, season.garden.site.units)
            for crop in eaten:
                yield WantedView(crop.title, AmountView(amount * factor, unit), name)


def _together(wants: Sequence[Want], week: DateSpan, season: Season) -> tuple[float, str]:
    """Return how much is wanted in a week by wants of one crop, and in which unit. [kg or 1]"""
    dated = all(each.first and each.last for each in wants)
    if dated and len({kind_of(each.unit) for each in wants}) == 1:
        return sum(each.between(week, week) for each in wants), wants[0].unit
    from sowtide.schedule.supply import wanted_together  # much to load for what is rare

    return wanted_together(season, wants, week)
