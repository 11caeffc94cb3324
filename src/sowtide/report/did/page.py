"""``did`` in words: what was written, what it moved, what is due, what is written already."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sowtide.days import GrowingYear
from sowtide.garden.journal import PICKINGS, Did
from sowtide.report.blocks import Block, Line, Style, Text, line
from sowtide.report.did.view import DidView, DueView, EntriesView
from sowtide.report.formats.terminal.cells import cells, wrap
from sowtide.report.kit import words
from sowtide.report.kit.cautions import cautions_of
from sowtide.report.week.work import item_of
from sowtide.schedule.noting import Moved, Shift
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status, Wave
from sowtide.units import in_hundred

_MOST_SHIFTS = 3
_GONE = (Did.PULLED, Did.LOST)


def did_text(of: DidView, *, width: int) -> tuple[Line, ...]:
    """Return what was written and what it moved."""
    year = of.season.garden.year
    lines: list[Line] = []
    for each in of.moved:
        said = f"taken back: {_said(each, year)}"
        if not of.taken_back:
            said = _said(each, year, _late(each.late))
        lines += wrap(f"{said}{_what_now(each, of.season)}", width, hang=2)
    if any(each.happening.sick for each in of.moved) and not of.taken_back:
        lines += _sick(of, width)
    slugs = frozenset("picking" for each in of.moved if each.happening.did in PICKINGS)
    for caution in cautions_of(slugs if not of.taken_back else frozenset()):
        lines += wrap(caution.text, width)
    return tuple(lines)


def _said(moved: Moved, year: GrowingYear, late: str = "") -> str:
    each = moved.happening
    plants = "" if each.plants is None else f" {words.count(each.plants, 'plant')}"
    amount = "" if each.amount is None else f" {each.amount}"
    rest = "" if each.skips is None else f" ({each.skips.value})"
    seen = "" if each.found is None else f": {each.found.value}"
    where = "" if each.bed is None else f" in {each.bed}" if each.wave else ""
    who = each.wave or each.bed or ""
    text = f"{who} {each.did.value}{rest}{seen}{amount}{plants}{where} {words.day(each.on, year)}"
    return f"{text.strip()}{late}"


def _late(days: int | None) -> str:
    if days is None:
        return ""
    if days == 0:
        return ", as planned"
    return f", {words.count(abs(days), 'day')} {'late' if days > 0 else 'early'}"


def _what_now(moved: Moved, season: Season) -> str:
    """Say what becomes of the wave, and of the series behind it."""
    parts = [text for text in (_of_wave(moved, season), _of_series(moved.shifts, season)) if text]
    return f": {'; '.join(parts)}" if parts else ""


def _of_wave(moved: Moved, season: Season) -> str:
    before, now, year = moved.before, moved.now, season.garden.year
    if before is None or now is None or not now.stands:
        return ""
    if now.status in (Status.OVER, Status.LOST):
        beds = words.listed(f"{place.bed.name}" for place in now.stands)
        return f"{beds} has its space from {words.day(now.stages.pull_out.day, year)} on"
    first = now.stages.first_pick
    if moved.happening.did in _GONE:
        return f"{words.count(now.plants, 'plant')} still stand"
    if now.status is Status.PICKING:
        last = now.stages.last_pick
        same = before.stages.last_pick is not None and last is not None
        if last is None or (same and before.stages.last_pick.day == last.day):  # type: ignore[union-attr]
            return ""
        return f"last pick {words.day(last.day, year)}"
    if first is None or moved.late is None:
        return ""
    days = words.days_from_to(first[0].day, first[1].day, year)
    return f"first picks {days}{_odds(before, now)}"


def _odds(before: Wave, now: Wave) -> str:
    odds, earlier = now.judged.odds, before.judged.odds
    if odds is None or words.nothing_ends(now.judged):
        return ""
    said, was = in_hundred(odds), None if earlier is None else in_hundred(earlier)
    return f", {said} in 100" + (f" ({was})" if was is not None and was != said else "")


def _of_series(shifts: Sequence[Shift], season: Season) -> str:
    if not shifts:
        return ""
    year = season.garden.year
    said = []
    for each in shifts[:_MOST_SHIFTS]:
        if each.now is None:
            said.append(f"no {each.wave}")
        elif each.before is None:
            said.append(f"{each.wave} on {words.day(each.now, year)}, one more")
        else:
            said.append(
                f"{each.wave} on {words.day(each.now, year)} ({words.day(each.before, year)})"
            )
    more = len(shifts) - _MOST_SHIFTS
    rest = f", and {more} more" if more > 0 else ""
    return f"then {', '.join(said)}{rest}"


def _sick(of: DidView, width: int) -> Iterator[Line]:
    """Yield what to do about plants that were pulled as sick."""
    waves = [each.now for each in of.moved if each.happening.sick and each.now is not None]
    for wave in waves:
        beds = words.listed(place.bed.name for place in wave.stands)
        text = f"Plant no {wave.crop.family} in {beds} this season." if beds else ""
        yield from wrap(line((text, Style.WARN)), width)
    yield from wrap(
        "Bag or bury what was sick, do not compost it; clean tools and hands; work in that bed "
        "last.",
        width,
    )


def due_text(of: DueView, *, width: int) -> tuple[Line, ...]:
    """Return what is due, numbered."""
    if not of.tasks:
        return tuple(wrap("Nothing is due that is not noted.", width))
    items = [item_of(task, of.week.first, of.week) for task in of.tasks]
    columns = [(each.code, each.day, each.place, each.verb, each.name) for each in items]
    widths = [max(map(cells, column)) for column in zip(*columns, strict=True)]
    lines: list[Line] = []
    for number, (each, row) in enumerate(zip(items, columns, strict=True), 1):
        padded = (text + " " * (wide - cells(text)) for text, wide in zip(row, widths, strict=True))
        head = f"{number:>3}  {'  '.join(padded)}  "
        lines += wrap(each.words, width, first=head, hang=min(cells(head), max(width - 26, 0)))
    return tuple(lines)


def entries(of: EntriesView) -> Iterator[Block]:
    """Yield the entries of the season, a paragraph each."""
    if not of.entries:
        yield Text("Nothing is noted of this season yet.")
    days = [words.day(row.on, of.year) for row in of.entries]
    wide = max(map(cells, days), default=0)
    for row, day in zip(of.entries, days, strict=True):
        who = row.wave or row.bed or ""
        where = f" in {row.bed}" if row.wave and row.bed else ""
        amount = "" if row.amount is None else f" {row.amount:g}{row.unit or ''}"
        plants = "" if row.plants is None else f" {words.count(row.plants, 'plant')}"
        more = [row.found, row.with_, row.skips, "sick" if row.sick else None, row.note]
        rest = "".join(f"; {each}" for each in more if each)
        text = f"{who} {row.did.value}{amount}{plants}{where}{rest}".strip()
        first = f"{day:>{wide}}  "
        yield Text(text, first=first, hang=len(first) + 2)
