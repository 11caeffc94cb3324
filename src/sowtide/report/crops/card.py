"""One crop's card: every figure with its unit, where it comes from, and what the file changes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from sowtide.garden.crop import Crop
from sowtide.garden.library import CROP_FIELDS, Section
from sowtide.garden.model import Garden
from sowtide.report.blocks import EMPTY, Line, Style, line, styled
from sowtide.report.crops.figures import Figure, built_in_name, cover_figures, figures_of, is_like
from sowtide.report.crops.temperatures import measured_table
from sowtide.report.crops.values import BY_TEMPERATURE
from sowtide.report.crops.words import named, told, unparted
from sowtide.report.formats.terminal import rendered
from sowtide.report.formats.terminal.cells import pad, rule, wrap
from sowtide.report.formats.terminal.sums import with_origin
from sowtide.report.kit import words
from sowtide.report.kit.sources import Sources
from sowtide.units import Units

_LABEL = 26
_KEY = 18
_WITH_KEYS = 110
"""Width from which on a column has room that names the keys of the file. [cells]"""


def cards_text(crops: Sequence[Crop], garden: Garden | None, *, width: int) -> tuple[Line, ...]:
    """Lay out a card for each of some crops; the sources of all stand at the foot.

    Parameters
    ----------
    crops
        Crops and varieties that go by one name.
    garden
        The garden they are of, or None for built-in crops alone.
    width
        Of the screen. [cells]
    """
    sources = Sources()
    units = garden.site.units if garden else None
    lines: list[Line] = []
    for number, crop in enumerate(crops):
        if number:
            lines += (EMPTY, rule(width))
        figures = figures_of(crop, units)
        lines += _head(crop, figures, garden, width)
        lines += _figures(figures, units, sources, width)
    lines += rendered(sources.cited(), width)
    return tuple(lines)


def cover_text(name: str, units: Units | None, *, width: int) -> tuple[Line, ...]:
    """Lay out the card of a cover crop.

    Parameters
    ----------
    name
        Its canonical name.
    units
        The garden's units, or None.
    width
        Of the screen. [cells]
    """
    sources = Sources()
    return (
        *wrap(line((name, Style.HEADING), ": sown to cover a bed, not to be picked"), width),
        *_figures(cover_figures(name), units, sources, width),
        *rendered(sources.cited(), width),
    )


def _head(
    crop: Crop, figures: tuple[Figure, ...], garden: Garden | None, width: int
) -> Iterator[Line]:
    yield from wrap(line((crop.title, Style.HEADING), _standing(crop), _as(crop, garden)), width)
    if garden is None:
        said = "As built in. A figure of your own is better: write it under crops: in your file."
    else:
        said = _said_by(garden, figures)
    yield from wrap((said, Style.DIM), width)


def _standing(crop: Crop) -> str:
    """Say what a crop is to the built-in ones."""
    name = built_in_name(crop)
    if name is None:
        return ": wholly the file's own"
    if is_like(crop):
        return f": like {name}"
    return "" if name == crop.name else f": built in as {name}"


def _as(crop: Crop, garden: Garden | None) -> str:
    """Name the varieties that a garden's entries give this crop and no figure of their own."""
    if garden is None:
        return ""
    names = [
        f"'{other.variety}'"
        for other in garden.crops
        if other.variety not in (None, crop.variety)
        and replace(other, variety=crop.variety) == crop
    ]
    return f"; the same for {words.listed(names)}" if names else ""


def _said_by(garden: Garden, figures: tuple[Figure, ...]) -> str:
    own = sum(figure.origin is not None and figure.origin.file is not None for figure in figures)
    if not own:
        return f"As built in: {garden.label} changes nothing."
    said = (
        f"1 figure is from {garden.label}, "
        if own == 1
        else (f"{own} figures are from {garden.label}, each ")
    )
    replaced = any(figure.built_in is not None for figure in figures)
    return f"{said}marked with its line{'; what is built in stands below' if replaced else ''}."


def _figures(
    figures: Iterable[Figure], units: Units | None, sources: Sources, width: int
) -> Iterator[Line]:
    for section, of_section in groupby(figures, key=lambda figure: figure.section):
        listed = tuple(of_section)
        origin = _of_all(listed, sources) if section is Section.CHORES else ""
        if section.value:
            yield EMPTY
            heading = (styled(section.value, Style.STRONG),)
            yield from with_origin(heading, origin, indent=0, width=width) if origin else heading
        note = None
        measured = tuple(figure for figure in listed if BY_TEMPERATURE in (figure.unit or ""))
        for figure in listed:
            if figure in measured:
                continue
            yield from _figure(figure, units, sources, width, says_origin=not origin)
            if figure.note != note and figure.note is not None:
                yield from wrap((unparted(figure.note), Style.DIM), width, first=_under(width))
            note = figure.note
        if measured:
            yield from measured_table(measured, units, sources, column=_column(width), width=width)


def _of_all(figures: tuple[Figure, ...], sources: Sources) -> str:
    """Name where figures come from that all come from one place; else nothing."""
    first = figures[0].origin
    return named(figures[0], sources) if all(each.origin == first for each in figures) else ""


def _figure(
    figure: Figure, units: Units | None, sources: Sources, width: int, *, says_origin: bool
) -> Iterator[Line]:
    """Lay out one figure, and below it the built-in one that it takes the place of."""
    column = _column(width)
    label = line(pad(figure.label, _LABEL))
    if column > _LABEL:
        label = line(label, (pad(CROP_FIELDS[figure.field].key, _KEY), Style.DIM))
    head, *rest = wrap((told(figure, units), _style(figure)), width - column)
    text = (line(label, head), *(line(" " * column, each) for each in rest))
    if says_origin and figure.origin is not None:
        yield from with_origin(text, named(figure, sources), indent=column, width=width)
    else:
        yield from text
    if figure.built_in is not None:
        before = f"built in: {told(figure.built_in, units)}{_from(figure.built_in, sources)}"
        if figure.built_in.note:
            before += f"; {unparted(figure.built_in.note)}"
        yield from wrap((before, Style.DIM), width, first=_under(width))


def _from(figure: Figure, sources: Sources) -> str:
    origin = named(figure, sources)
    return f" {origin}" if origin.startswith("[") else f", {origin}"


def _style(figure: Figure) -> Style:
    """Return the style of a value: the file's own stand out, what nobody knows stands back."""
    if figure.origin is None:
        return Style.DIM
    return Style.PLAIN if figure.origin.file is None else Style.STRONG


def _column(width: int) -> int:
    """Where values begin. [cells]"""
    return _LABEL + (_KEY if width >= _WITH_KEYS else 0)


def _under(width: int) -> str:
    """Return the space before what is said below a value."""
    return " " * (_column(width) + 2)
