"""What waiting costs, and what is wanted of what is picked: numbers to decide a week's work by."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.days import DateSpan
from sowtide.report.kinds import AmountView, Share
from sowtide.schedule.season import Season
from sowtide.schedule.work import WeekSheet
from sowtide.units import KILOGRAMS
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
    """How much of a crop is wanted in a week."""

    crop: str
    amount: AmountView


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
    """Yield what is wanted of the crops that are picked in a week, each once."""
    week, unit = DateSpan(sheet.first, sheet.last), season.garden.site.units.weight_unit
    crops = {each.task.wave.crop.title: each.task.wave.crop for each in sheet.pickings}
    for title, crop in crops.items():
        amounts: dict[str, float] = {}
        for want in season.garden.wants:
            if want.crop.name == crop.name or want.crop.kind == crop.kind:
                amounts[want.unit] = amounts.get(want.unit, 0.0) + want.between(week, week)
        for of, amount in amounts.items():
            if amount > 0 and of == "kg":
                yield WantedView(title, AmountView(amount / float(KILOGRAMS[unit]), unit))
            elif amount > 0:
                yield WantedView(title, AmountView(amount, of))
