"""``did`` as pages: what was written and what it moved, what is due, what is written already."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from sowtide.days import GrowingYear
from sowtide.report.blocks import (
    Block,
    Checklist,
    ChecklistGroup,
    ChecklistItem,
    FileTitle,
    Style,
    Text,
    line,
)
from sowtide.report.did.view import (
    DidView,
    DueView,
    EntriesView,
    EntryRow,
    PlaceView,
    WrittenView,
)
from sowtide.report.formats.terminal.cells import cells
from sowtide.report.kit import words
from sowtide.report.kit.cautions import cautions_of
from sowtide.report.week.tasks_view import TaskView
from sowtide.report.week.work import item_of
from sowtide.schedule.noting import Shift
from sowtide.units import in_hundred, show_number

_MOST_NAMED = 3


def answer(of: DidView) -> Iterator[Block]:
    """Yield what was written and what it moved."""
    year = of.setting.year
    yield FileTitle(f"DID {words.season_name(year)}", of.setting.name)
    for each in of.written:
        said = _said(each.entry, year)
        said = f"taken back: {said}" if of.taken_back else f"{said}{_late(each.late)}"
        yield Text(f"{said}{_what_now(each, year)}", hang=2)
    for code in of.codes:
        others = words.listed(code.others)
        yield Text(f"{code.code} was taken for {code.taken}; it stands for {others}, too.")
    yield from _barred(of)
    yield from _rooms(of)
    for caution in cautions_of(frozenset(of.cautions)):
        yield Text(caution.text)


def _said(of: EntryRow, year: GrowingYear) -> str:
    plants = "" if of.plants is None else f" {words.count(of.plants, 'plant')}"
    rest = "" if of.skips is None else f" ({of.skips})"
    seen = "" if of.found is None else f": {of.found}"
    where = f" in {of.bed}" if of.bed is not None and of.wave else ""
    who = of.wave or of.bed or ""
    text = f"{who} {of.did.value}{rest}{seen}{_amount(of)}{plants}{where} {words.day(of.on, year)}"
    return text.strip()


def _amount(of: EntryRow) -> str:
    return "" if of.amount is None else f" {show_number(of.amount, 3)}{of.unit or ''}"


def _late(days: int | None) -> str:
    if days is None:
        return ""
    if days == 0:
        return ", as planned"
    return f", {words.count(abs(days), 'day')} {'late' if days > 0 else 'early'}"


def _what_now(of: WrittenView, year: GrowingYear) -> str:
    """Say what becomes of the wave, and of the series behind it."""
    parts = [text for text in (_of_wave(of, year), _of_series(of.then, year)) if text]
    return f": {'; '.join(parts)}" if parts else ""


def _of_wave(of: WrittenView, year: GrowingYear) -> str:
    if of.free is not None:
        day = words.day(of.free.from_, year)
        back = "has its space" if len(of.free.beds) == 1 else "have their space"
        return f"{words.listed(of.free.beds)} {back} from {day} on"
    if of.left is not None:
        return f"{words.count(of.left, 'plant')} still {'stands' if of.left == 1 else 'stand'}"
    if of.last_pick is not None:
        return f"last pick {words.day(of.last_pick, year)}"
    if of.first_pick is None:
        return ""
    return f"first picks {words.days_from_to(*of.first_pick, year)}{_odds(of)}"


def _odds(of: WrittenView) -> str:
    if of.odds is None:
        return ""
    said, was = in_hundred(of.odds), None if of.odds_before is None else in_hundred(of.odds_before)
    return f", {said} in 100" + (f" ({was})" if was is not None and was != said else "")


def _of_series(shifts: Sequence[Shift], year: GrowingYear) -> str:
    if not shifts:
        return ""
    said = []
    for each in shifts[:_MOST_NAMED]:
        if each.now is None:
            said.append(f"no {each.wave}")
        elif each.before is None:
            said.append(f"{each.wave} on {words.day(each.now, year)}, one more")
        else:
            before = words.day(each.before, year)
            said.append(f"{each.wave} on {words.day(each.now, year)} ({before})")
    return f"then {', '.join(said)}{_more(len(shifts))}"


def _barred(of: DidView) -> Iterator[Block]:
    """Yield to whom a bed is barred, and who of the family stands there still."""
    for each in of.barred:
        yield Text(line((f"Plant no {each.family} in {each.bed} this season.", Style.WARN)))
        if each.kin:
            verb = "stands" if len(each.kin) == 1 else "stand"
            names = f"{words.listed(each.kin[:_MOST_NAMED])}{_more(len(each.kin))}"
            yield Text(f"Of the same family {names} {verb} there: look there, too.")


def _rooms(of: DidView) -> Iterator[Block]:
    """Yield which waves stand elsewhere, or nowhere, for what was written."""
    if of.elsewhere:
        yield Text(f"Moved: {_places(of.elsewhere)}.")
    if of.room_found:
        yield Text(f"There is room now for {_places(of.room_found)}.")
    if of.room_lost:
        names = f"{', '.join(of.room_lost[:_MOST_NAMED])}{_more(len(of.room_lost))}"
        yield Text(line((f"No room any more for {names}.", Style.WARN)))


def _places(of: Sequence[PlaceView]) -> str:
    said = (f"{each.wave} to {words.listed(each.beds)}" for each in of[:_MOST_NAMED])
    return f"{', '.join(said)}{_more(len(of))}"


def _more(many: int) -> str:
    return f", and {many - _MOST_NAMED} more" if many > _MOST_NAMED else ""


def due(of: DueView) -> Iterator[Block]:
    """Yield what is due, numbered."""
    setting = of.week.setting
    yield FileTitle(f"WORK DUE {words.weekday(of.today, setting.year)}", setting.name)
    if not of.tasks:
        yield Text("Nothing is due that is not noted.")
        return
    overdue = tuple(task for task in of.tasks if task.overdue)
    parts = (("OVERDUE", overdue), ("DUE", tuple(t for t in of.tasks if not t.overdue)))
    number, wide, groups = 0, len(str(len(of.tasks))), []
    for title, tasks in parts:
        items = []
        for task in tasks:
            number += 1
            items.append(_numbered(task, f"{number:>{wide}}", of))
        if items:
            groups.append(ChecklistGroup(title, tuple(items)))
    yield Checklist(tuple(groups))


def _numbered(task: TaskView, number: str, of: DueView) -> ChecklistItem:
    item = item_of(task, of.week.first, of.week)
    return replace(item, code=f"{number} {item.code}")


def entries(of: EntriesView) -> Iterator[Block]:
    """Yield the entries of the season, a paragraph each."""
    yield FileTitle(f"JOURNAL {words.season_name(of.year)}")
    if not of.entries:
        yield Text("Nothing is noted of this season yet.")
    days = [words.day(row.on, of.year) for row in of.entries]
    wide = max(map(cells, days), default=0)
    for row, day in zip(of.entries, days, strict=True):
        who = row.wave or row.bed or ""
        where = f" in {row.bed}" if row.wave and row.bed else ""
        plants = "" if row.plants is None else f" {words.count(row.plants, 'plant')}"
        more = [row.found, row.with_, row.skips, "sick" if row.sick else None, row.note]
        rest = "".join(f"; {each}" for each in more if each)
        text = f"{who} {row.did.value}{_amount(row)}{plants}{where}{rest}".strip()
        first = f"{day:>{wide}}  "
        yield Text(text, first=first, hang=len(first) + 2)
