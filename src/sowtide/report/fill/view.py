"""What to add for what is wanted: lines to paste, and what is met before and after."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date
from typing import Any, TypeAlias

from sowtide.garden.model import Entry
from sowtide.garden.text import as_written
from sowtide.garden.want import Met
from sowtide.report.kinds import Quantity, Unsaid
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.supply.view import SupplyCrop, SupplyGap, SupplyView, gap_told
from sowtide.report.supply.view import view as supply_view
from sowtide.schedule.filling import Filled, gaps_left
from sowtide.schedule.learning import OwnYields
from sowtide.schedule.season import Season
from sowtide.schedule.supply import supply_of
from sowtide.schedule.waves import Wave
from sowtide.units import unit_told
from sowtide.values import value

COLUMNS = ("series", "crop", "plants", "bed", "sow", "plant", "first_pick")
"""Of the waves to add as one table."""
_Left: TypeAlias = dict[tuple[str, str], tuple[SupplyGap, ...]]


@value
class FillWeek:
    """A week: what is wanted, and what is expected before the lines are pasted and after."""

    week: str
    want: Quantity | None
    before: Quantity
    after: Quantity


@value
class FillCrop:
    """How far a crop's want is met, before the lines are pasted and after."""

    crop: str
    unit: str
    weeks_wanted: int
    unmet_before: Quantity
    unmet_after: Quantity
    gaps_before: int
    gaps_after: int
    waves: int
    plants: int
    still: tuple[SupplyGap, ...]
    weeks: tuple[FillWeek, ...]
    was: Unsaid[SupplyCrop]
    now: Unsaid[SupplyCrop]


@value
class FillLine:
    """A line to paste below ``waves:``, in parts each of which stays on one line."""

    series: str
    crop: str
    plants: int
    bed: str
    sow: date
    plant: date
    first_pick: date | None
    text: str
    parts: Unsaid[tuple[str, ...]]


@value
class FillView:
    """What ``supply --fill`` says."""

    season: int
    crops: tuple[FillCrop, ...]
    unmet_before: Quantity
    unmet_after: Quantity
    lines: tuple[FillLine, ...]
    this_week: Unsaid[date]
    setting: Unsaid[Setting]


def view(
    before: Season,
    filled: Filled,
    own: OwnYields | None = None,
    crops: Collection[str] | None = None,
) -> FillView:
    """Return what to add, and what that meets.

    Parameters
    ----------
    before
        The season as the file stands.
    filled
        What is to be added to it.
    own
        What the grower's own pickings tell of yields, or None.
    crops
        Names of the crops that it was filled for; None: all that are wanted.
    """
    was, now = supply_view(before, own, crops), supply_view(filled.after, own, crops)
    waves = {wave.entry.name: wave for wave in filled.after.waves}
    lines = tuple(_line(entry, waves[entry.name]) for entry in filled.entries)
    found = tuple(_crops(was, now, lines, _left(filled, own)))
    return FillView(
        season=before.garden.year.season,
        crops=found,
        unmet_before=sum(each.unmet_before for each in found),
        unmet_after=sum(each.unmet_after for each in found),
        lines=lines,
        this_week=now.this_week,
        setting=setting_of(before.garden, before.today),
    )


def _left(filled: Filled, own: OwnYields | None) -> _Left:
    """Return the gaps that stay, by crop and the unit that it is told in."""
    found: _Left = {}
    for each in supply_of(filled.after, own):
        unit, factor = unit_told(each.asked.unit, filled.after.garden.site.units)
        gaps = gaps_left(filled.after, each, filled.unfilled)
        found[each.crop.name, unit] = tuple(gap_told(gap, factor) for gap in gaps)
    return found


def _crops(
    was: SupplyView,
    now: SupplyView,
    lines: tuple[FillLine, ...],
    left: _Left,
) -> Iterator[FillCrop]:
    for old, new in zip(was.crops, now.crops, strict=True):
        if not old.is_wanted:
            continue
        added = [line for line in lines if line.crop == old.crop]
        yield FillCrop(
            crop=old.crop,
            unit=old.unit,
            weeks_wanted=sum(1 for week in old.weeks if week.want),
            unmet_before=old.weeks_unmet,
            unmet_after=new.weeks_unmet,
            gaps_before=sum(week.met is Met.LESS for week in old.weeks),
            gaps_after=sum(week.met is Met.LESS for week in new.weeks),
            waves=len(added),
            plants=sum(line.plants for line in added),
            still=left[new.crop, new.unit],
            weeks=_weeks(old, new),
            was=old,
            now=new,
        )


def _weeks(was: SupplyCrop, now: SupplyCrop) -> tuple[FillWeek, ...]:
    """Return all weeks with a want or a picking before or after."""
    before = {each.monday: each for each in was.weeks}
    after = {each.monday: each for each in now.weeks}
    found = []
    for monday in sorted(before.keys() | after.keys()):
        old, new = before.get(monday), after.get(monday)
        said = new or old
        assert said is not None
        found.append(
            FillWeek(
                week=said.week,
                want=said.want,
                before=old.expected if old else 0.0,
                after=new.expected if new else 0.0,
            )
        )
    return tuple(found)


def _line(entry: Entry, wave: Wave) -> FillLine:
    stages, day = wave.stages, entry.start
    assert day is not None  # a line names its day
    parts = (
        f"crop: {as_written(entry.crop.name)}",
        f"name: {as_written(entry.name)}",
        f"plants: {entry.plants}",
        f"from: {day}",
        f"beds: [{as_written(entry.beds[0].name)}]",
    )
    return FillLine(
        series=entry.name,
        crop=entry.crop.name,
        plants=entry.plants,
        bed=entry.beds[0].name,
        sow=stages.sow.day,
        plant=day,
        first_pick=stages.first_pick[0].day if stages.first_pick else None,
        text=f"- {{{', '.join(parts)}}}",
        parts=parts,
    )


def rows(of: FillView) -> Iterator[dict[str, Any]]:
    """Yield the waves to add."""
    for each in of.lines:
        yield {name: getattr(each, name) for name in COLUMNS}


def pasted(of: FillView) -> str:
    """Return the lines as a file of their own, to be pasted below ``waves:``."""
    head = f"# To be pasted below `waves:` of {of.setting.name}\n"
    return head + "".join(f"  {line.text}\n" for line in of.lines)
