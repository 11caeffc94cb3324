"""The care of one wave: on which days, why on those, and what each closes to picking."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import groupby

from sowtide.days import GrowingYear
from sowtide.report.blocks import Block, Heading, Space, Text, together
from sowtide.report.kinds import Unsaid
from sowtide.report.kit import words
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.values import value


@value
class CareDay:
    """A day on which a routine is done.

    `asked` is the day that its interval asks for, `why` what it waited for, `done` whether the
    journal says so, `blocked_until` the first day on which it may be picked, where that matters.
    """

    date_: date
    asked: date
    why: str | None
    done: bool
    blocked_until: date | None


@value
class CareOfWave:
    """A routine on one wave: where it is written, and its days."""

    routine: str
    does: str
    file: str
    line: int
    bed: str
    days: tuple[CareDay, ...]
    goes_round: Unsaid[bool]


def care_of_wave(wave: Wave, season: Season) -> Iterator[CareOfWave]:
    """Yield the routines that are done to a wave, bed by bed."""
    care = season.care
    if care is None:
        return
    mine = [dose for dose in care.doses if dose.plot.wave.id == wave.id]
    mine.sort(key=lambda dose: (dose.routine.span.line, dose.plot.bed.name, dose.day))
    first = wave.stages.first_pick
    until = {
        (block.routine.key, block.done): block.until
        for block in care.blocks
        if block.wave == wave.id and first is not None and first[0].day < block.until
    }
    for _, doses in groupby(mine, key=lambda dose: (dose.routine.key, dose.plot.bed.name)):
        found = list(doses)
        routine = found[0].routine
        yield CareOfWave(
            routine=routine.name,
            does=routine.does,
            file=routine.span.file,
            line=routine.span.line,
            bed=found[0].plot.bed.name,
            days=tuple(
                CareDay(
                    date_=dose.day,
                    asked=dose.asked,
                    why=None if dose.why is None else dose.why.said,
                    done=dose.noted,
                    blocked_until=until.get((routine.key, dose.day)),
                )
                for dose in found
            ),
            goes_round=routine.work.goes_round,
        )


def care_blocks(care: tuple[CareOfWave, ...], year: GrowingYear) -> Iterator[Block]:
    """Yield what a page says of the care of a wave; nothing where there is none."""
    told = [each for each in care if not each.goes_round]
    if not told:
        return
    yield Space()
    yield Heading("CARE")
    several = len({each.bed for each in told}) > 1
    for each in told:
        where = f" in {each.bed}" if several else ""
        said = ", ".join(_day(day, year) for day in each.days)
        yield Text(f"{each.routine}{where}, {each.file}:{each.line}: {said}", first=" ", hang=5)


def _day(of: CareDay, year: GrowingYear) -> str:
    text = together(words.day(of.date_, year)) + (" done" if of.done else "")
    beside = []
    if of.why is not None and of.asked < of.date_:
        beside.append(f"asked for {together(words.day(of.asked, year))}: {of.why}")
    if of.blocked_until is not None:
        beside.append(together(f"not picked until {words.day(of.blocked_until, year)}"))
    return f"{text} ({'; '.join(beside)})" if beside else text
