"""The year's page: every wave of which something is noted, as it was planned and as it went."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sowtide.days import GrowingYear
from sowtide.grouping import grouped
from sowtide.report.blocks import Block, Cells, FileTitle, Heading, Space, Table, Text
from sowtide.report.did.year_view import SeasonView, StageView, WaveYear
from sowtide.report.kit import words
from sowtide.schedule.waves import Status
from sowtide.units import KILOGRAMS, Units, show_number

_COLUMNS = (
    Cells("plants", right=True),
    *(Cells(title) for title in ("in the bed", "first pick", "last pick", "out", "ended")),
    Cells("picked"),
)


def year_page(of: SeasonView) -> Iterator[Block]:
    """Yield a line for each wave, what was picked of each crop, and the notes."""
    year, units = of.setting.year, of.setting.units
    title = f"SEASON {words.season_name(year).upper()}"
    if not of.waves:
        yield FileTitle(title, of.setting.name)
        yield Text("Nothing is noted of a wave of this season.")
        return
    yield Heading(title, of.setting.name)
    yield Table("", _COLUMNS, tuple((each.wave, _cells(each, year, units)) for each in of.waves))
    yield Text("Days behind a date: later (+) or earlier (-) than planned.")
    picked = grouped(
        (each for each in of.waves if (each.picked_kg, each.picked_pieces) != (None, None)),
        lambda each: each.crop,
    )
    if picked:
        yield Space()
        columns = (Cells("waves", right=True), Cells("plants", right=True), Cells("picked"))
        rows = ((crop, _of_crop(waves, units)) for crop, waves in picked.items())
        yield Table("PICKED", columns, tuple(rows))
    if any(each.notes for each in of.waves):
        yield Space()
        yield Heading("NOTES")
    for each in of.waves:
        for note in each.notes:
            yield Text(
                f"{words.day(note.on, year)}, {each.wave} {note.did.value}: {note.note}", hang=2
            )


def _cells(of: WaveYear, year: GrowingYear, units: Units) -> tuple[str, ...]:
    if of.status is Status.SKIPPED:
        return "", "skipped", "", "", "", "", ""
    ended = "" if of.ended_by is None else of.ended_by.value
    return (
        f"{of.plants:,}",
        _off(of.plant, year),
        _off(of.first_pick, year),
        _off(of.last_pick, year),
        _off(of.pull_out, year),
        f"{ended}, sick" if of.sick and ended else ended,
        _picked(of.picked_kg, of.picked_pieces, units),
    )


def _off(of: StageView, year: GrowingYear) -> str:
    """Say a day, and by how many days it is later than planned."""
    if of.on is None:
        return ""
    off = 0 if of.planned is None else (of.on - of.planned).days
    return words.day(of.on, year) + (f" {off:+}" if off else "")


def _of_crop(waves: Iterable[WaveYear], units: Units) -> tuple[str, ...]:
    """Say how much all waves of a crop bore."""
    listed = tuple(waves)
    weight = [each.picked_kg for each in listed if each.picked_kg is not None]
    pieces = [each.picked_pieces for each in listed if each.picked_pieces is not None]
    picked = _picked(sum(weight) or None, sum(pieces) or None, units)
    return f"{len(listed)}", f"{sum(each.plants for each in listed):,}", picked


def _picked(kilograms: float | None, pieces: float | None, units: Units) -> str:
    parts = []
    if kilograms is not None:
        unit = units.weight_unit
        parts.append(f"{show_number(kilograms / float(KILOGRAMS[unit]))} {unit}")
    if pieces:
        parts.append(show_number(pieces))
    return " and ".join(parts)
