"""The picking grid of a week's sheet: a box for every day a wave is to be picked."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from sowtide.garden.crop import AfterFrost, Crop
from sowtide.report.blocks import Line, Style, line
from sowtide.report.formats.terminal.cells import cells, pad, width_of, wrap
from sowtide.report.formats.terminal.names import shortened
from sowtide.report.kit import words
from sowtide.report.kit.stands import bed_plants
from sowtide.schedule.season import Season
from sowtide.schedule.work import Picking, WeekSheet

BOX = "[ ]"
_AROUND = 43
"""Room for seven boxes, the last day and the gaps between. [cells]"""


def picking_grid(sheet: WeekSheet, season: Season, *, width: int) -> Iterator[Line]:
    """Yield the grid by weekday: where, which days, until when, and what ripe looks like."""
    if not sheet.pickings:
        return
    days = [sheet.first + timedelta(days=n) for n in range((sheet.last - sheet.first).days + 1)]
    code = max(len(picking.task.code) for picking in sheet.pickings)
    names = max(cells(picking.task.wave.id) for picking in sheet.pickings)
    beds = max(cells(_bed(picking)) for picking in sheet.pickings)
    room = width - code - _AROUND
    name = min(names, max(room - beds, room * 3 // 5))
    bed = max(min(beds, room - name), 1)
    left = code + 1 + name + 1 + bed
    head = "".join(f" {words.WEEKDAYS[day.weekday()]}" for day in days)
    yield line(("PICK", Style.HEADING), " " * (left - 3), (head, Style.STRONG))
    for number, picking in enumerate(sheet.pickings):
        wave = picking.task.wave
        shown = line(
            f" {pad(picking.task.code, code)} ",
            (pad(shortened(wave.id, name), name), Style.STRONG),
            f" {pad(_bed(picking), bed)}",
            *(f" {BOX if day in picking.days else '   '}" for day in days),
            f"  to {words.day(picking.until, season.garden.year)}",
        )
        yield from _with_amount(shown, picking, width)
        following = sheet.pickings[number + 1 :][:1]
        ripe = _ripe(wave.crop)
        if ripe and not any(each.task.wave.crop == wave.crop for each in following):
            yield from wrap(f"{wave.crop.title}: {ripe}", width, first=" " * (code + 2), hang=6)


def _ripe(crop: Crop) -> str:
    """Say when to pick a crop, and whether frost spoils what is left."""
    bring_in = "bring in before a hard frost" if crop.after_frost is AfterFrost.BRING_IN else None
    return "; ".join(text for text in (crop.pick_when, bring_in) if text)


def _with_amount(shown: Line, picking: Picking, width: int) -> Iterator[Line]:
    """Yield the row with its amount behind it, or below it where it has no room there."""
    if picking.task.amount is None:
        yield shown
        return
    text = words.amount(picking.task.amount)
    if width_of(shown) + 2 + cells(text) <= width:
        yield line(shown, f"  {text}")
        return
    yield shown
    yield from wrap(text, width, first="      ")


def _bed(picking: Picking) -> str:
    return picking.task.bed or words.where(bed_plants(picking.task.wave.places))
