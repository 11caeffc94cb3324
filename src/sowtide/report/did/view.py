"""What ``did`` says: what was written and what it moved, what is due, the entries, and the year."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Any

from sowtide.days import GrowingYear, week_start
from sowtide.garden.journal import PICKINGS, Did, Happening, Journal
from sowtide.report.kinds import Beside, Quantity, Share, Unsaid
from sowtide.report.kit.judged import day_of
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.kit.words import nothing_ends
from sowtide.report.week.tasks_view import PickingView, TaskView
from sowtide.report.week.view import WeekView
from sowtide.report.week.view import view as week_view
from sowtide.schedule.happened import is_of
from sowtide.schedule.noting import Moved, RoomMoved, Shared, Shift, room_moved
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status, Wave
from sowtide.values import value

_GONE = (Did.PULLED, Did.LOST)
_OVER = (Status.OVER, Status.LOST)


@value
class EntryRow:
    """An entry of the journal."""

    on: date
    did: Did
    wave: str | None
    bed: str | None
    plants: int | None
    amount: Quantity | None
    unit: str | None
    found: str | None
    with_: str | None
    skips: str | None
    sick: bool
    note: str | None
    season: int | None
    """All of these as they are written; None where they are not."""
    file: str
    line: int
    """Where it stands."""


@value
class FreeView:
    """Beds that have their space back, and the day from which on."""

    beds: tuple[str, ...]
    from_: date


@value
class WrittenView:
    """One entry that was written, and what became of its wave and of the series behind it."""

    entry: Beside[EntryRow]
    late: int | None
    """By how many days it is later than planned; None if it was not planned. [days]"""
    status: Status | None
    """How far the wave has come; None where the entry is of none."""
    free: FreeView | None
    """The beds that have its space back, if it is over."""
    left: int | None
    """How many plants still stand, if some are gone. [1]"""
    first_pick: tuple[date, date] | None
    odds: Share | None
    odds_before: Share | None
    """Its first picks from now on, and the odds with the entry and without."""
    last_pick: date | None
    """The last pick, if the entry moved it."""
    then: tuple[Shift, ...]
    """Later waves of its series that it moved."""


@value
class PlaceView:
    """A wave that stands in other beds than before."""

    wave: str
    beds: tuple[str, ...]


@value
class BarredView:
    """A bed to which a family is barred, the wave pulled there, and its kin that stand there."""

    bed: str
    family: str
    wave: str
    kin: tuple[str, ...]


@value
class DidView:
    """What was written down, or taken back."""

    written: tuple[WrittenView, ...]
    """Each entry, and what it moved."""
    taken_back: bool
    """Whether they were taken back instead."""
    elsewhere: tuple[PlaceView, ...]
    room_lost: tuple[str, ...]
    room_found: tuple[PlaceView, ...]
    """Waves that stand in other beds now, that have no room any more, and that have some now."""
    barred: tuple[BarredView, ...]
    """Beds that are barred by what was pulled as sick."""
    codes: tuple[Shared, ...]
    """Codes that might have meant something else."""
    cautions: tuple[str, ...]
    """Slugs of what to heed."""
    setting: Unsaid[Setting]


@value
class DueView:
    """What is due and not noted yet, in the order in which it presses."""

    today: date
    """The day it is looked at from."""
    tasks: tuple[TaskView, ...]
    """What is overdue, then what is due up to today, and what is to be picked today."""
    week: Unsaid[WeekView]
    """The sheet of this week."""


@value
class EntriesView:
    """What ``did --list`` says: the entries of a season, in order of day."""

    entries: tuple[EntryRow, ...]
    year: Unsaid[GrowingYear]
    """Its growing year."""


COLUMNS = tuple(name.strip("_") for name in EntryRow.__match_args__)
DUE_COLUMNS = ("number", "code", "due", "kind", "wave", "bed", "text", "overdue")


def did(
    moved: Sequence[Moved],
    before: Season,
    after: Season,
    *,
    taken_back: bool = False,
    shared: Sequence[Shared] = (),
) -> DidView:
    """Return what was written and what it moved.

    Parameters
    ----------
    moved
        Each entry.
    before, after
        The season without them, and with them.
    taken_back
        Whether they were taken back instead.
    shared
        Codes that stand for several pieces of work.
    """
    room: RoomMoved = room_moved(before, after)
    slugs: dict[str, None] = {}
    barred: list[BarredView] = []
    for each in () if taken_back else moved:
        if each.happening.did in PICKINGS:
            slugs["picking"] = None
        if each.happening.sick and each.now is not None:
            slugs["sick"] = None
            barred += _barred(each.happening, each.now, after)
    last = {each.happening.wave: place for place, each in enumerate(moved)}
    return DidView(
        written=tuple(
            _written(each, says_more=last[each.happening.wave] == place)
            for place, each in enumerate(moved)
        ),
        taken_back=taken_back,
        elsewhere=tuple(PlaceView(wave.id, wave.bed_names) for wave in room.elsewhere),
        room_lost=tuple(wave.id for wave in room.lost),
        room_found=tuple(PlaceView(wave.id, wave.bed_names) for wave in room.found),
        barred=tuple(barred),
        codes=tuple(shared),
        cautions=tuple(slugs),
        setting=setting_of(after.garden, after.today),
    )


def _barred(pulled: Happening, wave: Wave, season: Season) -> Iterator[BarredView]:
    """Yield the beds from which a wave was pulled as sick."""
    for bed in (pulled.bed,) if pulled.bed is not None else wave.bed_names:
        kin = (
            each.id
            for each in season.waves
            if each.id != wave.id
            and each.crop.family == wave.crop.family
            and bed in each.bed_names
            and each.stages.plant.day <= pulled.on < each.stages.pull_out.day
        )
        yield BarredView(bed, wave.crop.family, wave.id, tuple(kin))


def _written(moved: Moved, *, says_more: bool) -> WrittenView:
    """Return an entry, and what becomes of its wave and of the series behind it.

    What becomes of a wave is said once, behind the last of its entries.
    """
    before, now, did = moved.before, moved.now, moved.happening.did
    free, left, picks, last = None, None, None, None
    odds: float | None = None
    was: float | None = None
    if says_more and before is not None and now is not None and now.stands:
        if now.status in _OVER:
            free = FreeView(now.bed_names, now.stages.pull_out.day)
        elif did in _GONE:
            left = now.plants
        elif now.status is Status.PICKING:
            here, there = day_of(now.stages.last_pick), day_of(before.stages.last_pick)
            last = here if here != there else None
        elif now.stages.first_pick is not None and moved.late is not None:
            first = now.stages.first_pick
            picks = first[0].day, first[1].day
            odds = None if nothing_ends(now.judged) else now.judged.odds
            was = before.judged.odds
    return WrittenView(
        entry=_row(moved.happening),
        late=moved.late,
        status=None if now is None else now.status,
        free=free,
        left=left,
        first_pick=picks,
        odds=odds,
        odds_before=was,
        last_pick=last,
        then=moved.shifts,
    )


def due(season: Season) -> DueView:
    """Return what is due and not noted yet."""
    today = season.today
    week = week_view(
        season.sheets(week_start(today, starts=season.garden.site.week_starts)), season
    )
    shown = week.first
    urgent = [task for task in (*shown.urgent, *shown.others) if task.due <= today]
    picks = [each.of for each in shown.pickings if _is_to_be_picked(each, season)]
    tasks = sorted((*shown.overdue_of, *urgent, *picks), key=lambda task: not task.overdue)
    return DueView(today, tuple(tasks), week)


def _is_to_be_picked(picking: PickingView, season: Season) -> bool:
    """Say whether the latest of a picking's days so far is not noted, on that day or since."""
    due = max((day for day in picking.days if day <= season.today), default=None)
    if due is None:
        return False
    account = season.accounts and season.accounts.of(picking.wave)
    return not account or all(each.on < due for each in account.all_of(*PICKINGS))


def due_rows(of: DueView) -> Iterator[Mapping[str, Any]]:
    """Yield what is due as rows, numbered as on the page."""
    for number, task in enumerate(of.tasks, 1):
        yield {
            "number": number,
            "code": task.code,
            "due": task.due,
            "kind": task.kind,
            "wave": task.wave,
            "bed": task.bed,
            "text": task.text,
            "overdue": task.overdue,
        }


def entries(journal: Journal | None, season: Season) -> EntriesView:
    """Return the entries of a season, in order of day."""
    year = season.garden.year
    mine = [] if journal is None else [e for e in journal.happenings if is_of(e, year)]
    mine.sort(key=lambda each: (each.on, each.span.line))
    return EntriesView(tuple(map(_row, mine)), year)


def rows(of: EntriesView) -> Iterator[Mapping[str, Any]]:
    """Yield the entries as rows."""
    for each in of.entries:
        yield {name.strip("_"): getattr(each, name) for name in EntryRow.__match_args__}


def _row(of: Happening) -> EntryRow:
    amount = of.amount
    return EntryRow(
        on=of.on,
        did=of.did,
        wave=of.wave,
        bed=of.bed,
        plants=of.plants,
        amount=None if amount is None else float(amount.number),
        unit=None if amount is None else amount.unit or None,
        found=None if of.found is None else of.found.value,
        with_=of.using,
        skips=None if of.skips is None else of.skips.value,
        sick=of.sick,
        note=of.note,
        season=of.season,
        file=of.span.file,
        line=of.span.line,
    )
