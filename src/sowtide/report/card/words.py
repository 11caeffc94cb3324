"""What a figure of a crop says, in a grower's words."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import PurePath

from sowtide.days import MONTHS
from sowtide.garden.crop import Hardiness
from sowtide.garden.library import CROP_FIELDS, Wording
from sowtide.garden.planting_times import planting_times, ready_time, seed_time
from sowtide.reasons import OURS, Origin
from sowtide.report.blocks import together
from sowtide.report.card.figures_view import Figure
from sowtide.report.card.values import chore, frost_days, is_converted, said
from sowtide.report.kit.sources import Sources
from sowtide.units import Units, show_temperature

NOT_KNOWN = "not known"
OWN_ESTIMATE = "sowtide's own estimate"


def told(figure: Figure, units: Units | None) -> str:
    """Say what a figure is, its number and unit kept on one line.

    Parameters
    ----------
    figure
        A figure of a crop, but one measured at several temperatures.
    units
        The garden's units, or None.
    """
    if figure.value is None:
        return NOT_KNOWN
    field = CROP_FIELDS[figure.field]
    known = field.words.get(figure.value)
    return known or _SAYING[field.kind.said](figure, figure.value, units)


def is_estimate(figure: Figure) -> bool:
    """Whether a figure of the table is nothing but sowtide's own estimate."""
    return figure.origin == OURS and not figure.is_rule


def named(figure: Figure, sources: Sources) -> str:
    """Name where a figure comes from; nothing where nobody knows it."""
    if figure.origin is None:
        return ""
    if is_estimate(figure):
        return OWN_ESTIMATE
    if figure.origin.file is not None:  # the head of the card names the file in full
        return sources.mark(Origin(PurePath(figure.origin.file).name, figure.origin.line))
    return sources.mark(figure.origin)


def unparted(note: str) -> str:
    """Return a note in which no line parts a number from its ``%`` or its degrees.

    Examples
    --------
    >>> unparted("75 % at 68 °F").replace("\N{NO-BREAK SPACE}", "_")
    '75_% at 68_°F'
    """
    for sign in "%°":
        note = note.replace(f" {sign}", together(f" {sign}"))
    return note


def _figure(figure: Figure, written: str, units: Units | None) -> str:
    unit = "hours" if figure.unit == "h" else figure.unit
    number = said(written, unit, units)
    if unit is not None:
        number = together(number)
    field = CROP_FIELDS[figure.field]
    return f"{field.before}{number}{field.behind}"


def _warm_cool(figure: Figure, written: str, units: Units | None) -> str:
    if "-" not in written:
        return _figure(figure, written, units)
    warm, cool = written.split("-")
    return f"{together(said(warm, 'days', None))} in warm weather, {cool} in cool"


def _hardiness(_: Figure, written: str, units: Units | None) -> str:
    killed_at = Hardiness(written).killed_at
    harm = "harmed" if written == Hardiness.VERY_TENDER.value else "lost"
    at = published = show_temperature(killed_at, Units.US)
    if units is Units.METRIC:
        at = f"{show_temperature(killed_at, units)} ({published})"
    return f"{written}: {harm} at {together(at)}"


def _spacing(figure: Figure, written: str, units: Units | None) -> str:
    """Say a spacing in long rows: in the row, and between rows."""
    unit = figure.unit or "in"
    in_row, between = written.split(" x ")
    published = ""
    if is_converted(unit, units):
        published = together(f" ({said(written, unit, None)})")
    row, rows = (together(said(each, unit, units).split(" (")[0]) for each in (in_row, between))
    return f"{row}, rows {rows} apart{published}"


def _negative(written: str) -> str:
    return written[1:] if written.startswith("-") else f"-{written}"


def _before_frost(written: str, frost: str) -> str:
    """Say how many days before a frost, the number on one line with its unit."""
    number, unit, rest = frost_days(written, frost=frost).split(" ", 2)
    return f"{together(f'{number} {unit}')} {rest}"


def _month_day(written: str) -> str:
    month, day = written.split("-")
    return f"{int(day)} {MONTHS[int(month) - 1]}"


_SAYING: dict[Wording, Callable[[Figure, str, Units | None], str]] = {
    Wording.FIGURE: _figure,
    Wording.HARDINESS: _hardiness,
    Wording.BEFORE_LAST_FROST: lambda _, days, __: _before_frost(days, "last frost"),
    Wording.AFTER_LAST_FROST: lambda _, days, __: _before_frost(_negative(days), "last frost"),
    Wording.BEFORE_FIRST_FROST: lambda _, days, __: _before_frost(days, "first frost"),
    Wording.WARM_COOL: _warm_cool,
    Wording.SPACING: _spacing,
    Wording.DAYS_OF_YEAR: lambda _, days, __: together(
        " – ".join(_month_day(day) for day in days.split(".."))
    ),
    Wording.BY_SORT: lambda _, written, __: (
        ", ".join(map(together, written.replace(": ", " ").replace("-", "–").split(", "))) + " days"
    ),
    Wording.PLANTING_TIMES: lambda _, written, __: "; ".join(map(str, planting_times(written))),
    Wording.READY_TIME: lambda _, written, __: str(ready_time(written)),
    Wording.SEED_TIME: lambda _, written, __: str(seed_time(written)),
    Wording.CHORE: lambda _, written, __: chore(written)[1],
}
