"""The year's page: every wave of which something is noted, as it was planned and as it went."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from sowtide.days import GrowingYear
from sowtide.garden.journal import PICKINGS, Happening
from sowtide.report.blocks import Line, Style, line, styled
from sowtide.report.formats.terminal.cells import cells, wrap
from sowtide.report.kit import words
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status, Wave
from sowtide.units import Units, show_number
from sowtide.values import value

_POUND = 0.45359237  # [kg], exact by definition


@value
class WaveYear:
    """A wave as it went.

    Parameters
    ----------
    wave, planned
        With what happened, and as it was planned; `planned` is None for one more than was planned.
    noted
        Its entries, in order of day.
    """

    wave: Wave
    planned: Wave | None
    noted: tuple[Happening, ...]


def year_of_waves(season: Season, plan: Season) -> tuple[WaveYear, ...]:
    """Return the waves of which something is noted, in the order of the file.

    Parameters
    ----------
    season
        The season with its journal.
    plan
        The same without.
    """
    if season.accounts is None:
        return ()
    planned = {wave.id: wave for wave in plan.waves}
    accounts = ((wave, season.accounts.of(wave.id)) for wave in season.waves)
    return tuple(
        WaveYear(wave, planned.get(wave.id), account.happenings)
        for wave, account in accounts
        if account is not None
    )


def year_text(waves: Sequence[WaveYear], season: Season, *, width: int) -> tuple[Line, ...]:
    """Return the page: a line for each wave, what was picked, what ended it, and the notes."""
    year, units = season.garden.year, season.garden.site.units
    if not waves:
        return (styled("Nothing is noted of a wave of this season.", Style.PLAIN),)
    head = ("", "plants", "in the bed", "first pick", "last pick", "out", "picked")
    rows = [_row(each, year, units) for each in waves]
    widths = [max(cells(row[n]) for row in (head, *rows)) for n in range(len(head))]
    lines = [styled(f"SEASON {words.season_name(year).upper()}", Style.HEADING)]
    lines.append(styled(_aligned(head, widths), Style.DIM))
    for each, row in zip(waves, rows, strict=True):
        lines.append(line((_aligned(row, widths), Style.PLAIN)))
        for text in _said(each, year):
            lines += wrap(text, width, first="    ", hang=4)
    lines += wrap("Days behind a date: later (+) or earlier (-) than planned.", width)
    return tuple(lines)


def _aligned(row: Sequence[str], widths: Sequence[int]) -> str:
    padded = (text + " " * (wide - cells(text)) for text, wide in zip(row, widths, strict=True))
    return "  ".join(padded).rstrip()


def _row(of: WaveYear, year: GrowingYear, units: Units) -> tuple[str, ...]:
    now, plan = of.wave.stages, None if of.planned is None else of.planned.stages
    first = None if now.first_pick is None else now.first_pick[0].day
    before = None if plan is None or plan.first_pick is None else plan.first_pick[0].day
    last = None if now.last_pick is None else now.last_pick.day
    ended = None if plan is None or plan.last_pick is None else plan.last_pick.day
    skipped = of.wave.status is Status.SKIPPED
    return (
        of.wave.id,
        "" if skipped else f"{of.wave.plants:,}",
        "skipped"
        if skipped
        else _off(now.plant.day, None if plan is None else plan.plant.day, year),
        "" if skipped or first is None else _off(first, before, year),
        "" if skipped or last is None else _off(last, ended, year),
        ""
        if skipped
        else _off(now.pull_out.day, None if plan is None else plan.pull_out.day, year),
        _picked(of.noted, units),
    )


def _off(day: date, planned: date | None, year: GrowingYear) -> str:
    """Say a day, and by how many days it is later than planned."""
    off = 0 if planned is None else (day - planned).days
    return words.day(day, year) + (f" {off:+}" if off else "")


def _picked(noted: Sequence[Happening], units: Units) -> str:
    amounts = [each.amount for each in noted if each.did in PICKINGS and each.amount is not None]
    weights = [each.kilograms for each in amounts if each.kilograms is not None]
    pieces = sum(float(each.number) for each in amounts if each.kilograms is None)
    weight = sum(weights)
    parts = []
    if weights:
        pounds = units is Units.US
        parts.append(
            f"{show_number(weight / _POUND if pounds else weight)} {'lb' if pounds else 'kg'}"
        )
    if pieces:
        parts.append(show_number(pieces))
    return " and ".join(parts)


def _said(of: WaveYear, year: GrowingYear) -> Iterator[str]:
    """Yield what ended a wave, if it was not picked out, and what was noted of it."""
    if of.wave.status is Status.LOST:
        yield "lost"
    elif any(each.sick for each in of.noted):
        yield "pulled as sick"
    for each in of.noted:
        if each.note is not None:
            yield f"{words.day(each.on, year)}, {each.did.value}: {each.note}"
