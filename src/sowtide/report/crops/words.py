"""What a figure of a crop says, in a grower's words."""

from __future__ import annotations

from pathlib import PurePath

from sowtide.days import MONTHS
from sowtide.garden.crop import Hardiness
from sowtide.reasons import OURS, Origin
from sowtide.report.blocks import together
from sowtide.report.crops import fields as crop_fields
from sowtide.report.crops.figures import Figure
from sowtide.report.crops.values import frost_days, is_converted, said
from sowtide.report.kit.sources import Sources
from sowtide.units import Units, show_temperature

NOT_KNOWN = "not known"
ONCE = "once"
"""What stands for the days between waves of a crop that is sown once."""
OWN_ESTIMATE = "sowtide's own estimate"

_WORDS = {
    ("raised", "direct"): "sown direct",
    ("raised", "trays"): "raised in trays",
    ("raised", "either"): "sown direct or raised in trays",
    ("after_frost", "ends"): "it is over",
    ("after_frost", "stands"): "it stands, and is picked until the ground freezes",
    ("after_frost", "bring in"): "bring it in at once",
    ("sow_every", ONCE): "sown or planted once, not in waves",
    ("overwinters", "yes"): "planted after midsummer it stands to the next season",
    ("overwinters", "no"): "frost ends it",
    ("winter", "stands"): "it stands, and grows on in spring",
    ("winter", "killed"): "killed by frost, and lies as a mulch",
    ("picking_days", "1"): "cut or lifted once",
    ("needs_bees", "yes"): "needed",
    ("needs_bees", "no"): "not needed",
    ("fixes_nitrogen", "yes"): "yes",
}
_BEHIND = {
    "growth_least": "",
    "warm_limit": ", the mean of 15 days",
    "long_day": " of daylight",
    "chill_limit": ", the mean of a day",
    "chill_days": " so cold",
    "fruit_set_high": ", a week's mean",
    "fruit_set_low": ", a week's mean",
    "rated_at": ", the mean of a day",
}
_BEFORE = {"chill_days": "about ", "killed_at": "about "}
_SPACINGS = ("spacing_rows", "spacing_trained", "spacing_sprawling")


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
    known = _WORDS.get((figure.field, figure.value))
    if known is not None:
        return known
    if figure.field == "hardiness":
        return _hardiness(figure.value, units)
    if figure.field == "ready":
        return together(" – ".join(_month_day(day) for day in figure.value.split("..")))
    if figure.field == "chore":
        return crop_fields.chore(figure.value)[1]
    return _measured(figure, figure.value, units)


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


def _measured(figure: Figure, written: str, units: Units | None) -> str:
    name = figure.field
    if name == "days_before_frost":
        return together(frost_days(written, "last frost"))
    if name == "days_after_frost":
        return together(said(written, "days", None)) + " after the last frost"
    if name == "sow_before_frost":
        return together(frost_days(written, "first frost"))
    if name == "sow_after_frost":
        return together(frost_days(_negative(written), "last frost"))
    if name == "holding_days" and "-" in written:
        warm, cool = written.split("-")
        return f"{together(said(warm, 'days', None))} in warm weather, {cool} in cool"
    if name in _SPACINGS:
        return _spacing(written, figure.unit or "in", units)
    unit = "hours" if figure.unit == "h" else figure.unit
    number = said(written, unit, units)
    if unit is not None:
        number = together(number)
    return _BEFORE.get(name, "") + number + _BEHIND.get(name, "")


def _hardiness(written: str, units: Units | None) -> str:
    killed_at = Hardiness(written).killed_at
    harm = "harmed" if written == Hardiness.VERY_TENDER.value else "lost"
    at = published = show_temperature(killed_at, Units.US)
    if units is Units.METRIC:
        at = f"{show_temperature(killed_at, units)} ({published})"
    return f"{written}: {harm} at {together(at)}"


def _spacing(written: str, unit: str, units: Units | None) -> str:
    """Say a spacing in long rows: in the row, and between rows."""
    in_row, between = written.split(" x ")
    published = ""
    if is_converted(unit, units):
        published = together(f" ({said(written, unit, None)})")
    row, rows = (together(said(each, unit, units).split(" (")[0]) for each in (in_row, between))
    return f"{row}, rows {rows} apart{published}"


def _negative(written: str) -> str:
    return written[1:] if written.startswith("-") else f"-{written}"


def _month_day(written: str) -> str:
    month, day = written.split("-")
    return f"{int(day)} {MONTHS[int(month) - 1]}"
