"""One crop's card as a page: figures by section, the built-in ones below those of the file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from sowtide.garden.library import CROP_FIELDS, Section
from sowtide.report.blocks import (
    Block,
    FigureList,
    FigureRow,
    MeasuredRow,
    MeasuredTable,
    Rule,
    Space,
    Style,
    Text,
    line,
)
from sowtide.report.card.figures_view import Figure
from sowtide.report.card.values import (
    BY_TEMPERATURE,
    converted_unit,
    degree_of,
    is_converted,
    temperatures,
)
from sowtide.report.card.view import Card, CardView, LearnedDays, LearnedYield
from sowtide.report.card.words import named, told, unparted
from sowtide.report.kit import words
from sowtide.report.kit.sources import Sources
from sowtide.units import KILOGRAMS, Units, show_number


def page(of: CardView) -> Iterator[Block]:
    """Yield a card for each crop of the name; the sources of all stand at the foot."""
    sources = Sources()
    for number, card in enumerate(of.varieties or (of.card,)):
        if number:
            yield Space()
            yield Rule()
        yield from _head(card, of.file)
        figures = [each.figure for each in card.figures]
        for section, of_section in groupby(figures, key=lambda figure: figure.section):
            yield from _section(section, tuple(of_section), of.units, sources)
    yield from sources.cited()
    for each in of.learned:
        yield _learned(each)
    for borne in of.learned_yields:
        yield _yield(borne, of.units or Units.METRIC)


def _head(of: Card, file: str | None) -> Iterator[Block]:
    if of.is_cover:
        yield Text(line((of.title, Style.HEADING), ": sown to cover a bed, not to be picked"))
        return
    same = words.listed(f"'{variety}'" for variety in of.same_for)
    same = f"; the same for {same}" if same else ""
    yield Text(line((of.title, Style.HEADING), _standing(of), same))
    said = "As built in. A figure of your own is better: write it under crops: in your file."
    yield Text((said if file is None else _said_by(file, of), Style.DIM))


def _standing(of: Card) -> str:
    """Say what a crop is to the built-in ones."""
    if of.built_in is None:
        return ": wholly the file's own"
    if of.like is not None:
        return f": like {of.like}"
    return "" if of.built_in == of.crop else f": built in as {of.built_in}"


def _said_by(file: str, of: Card) -> str:
    own = sum(figure.file is not None for figure in of.figures)
    if not own:
        return f"As built in: {file} changes nothing."
    said = f"{own} figures are from {file}, each " if own > 1 else f"1 figure is from {file}, "
    replaced = any(figure.built_in is not None for figure in of.figures)
    return f"{said}marked with its line{'; what is built in stands below' if replaced else ''}."


def _section(
    section: Section, figures: Sequence[Figure], units: Units | None, sources: Sources
) -> Iterator[Block]:
    origin = _of_all(figures, sources) if section is Section.CHORES else ""
    measured = tuple(figure for figure in figures if BY_TEMPERATURE in (figure.unit or ""))
    rows: list[FigureRow] = []
    note = None
    for figure in figures:
        if figure not in measured:
            said = figure.note if figure.note != note else None
            rows.append(_row(figure, said, units, sources, says_origin=not origin))
            note = figure.note
    yield FigureList(section.value, origin, tuple(rows))
    if measured:
        yield _measured(measured, units, sources)


def _of_all(figures: Sequence[Figure], sources: Sources) -> str:
    """Name where figures come from that all come from one place; else nothing."""
    first = figures[0].origin
    return named(figures[0], sources) if all(each.origin == first for each in figures) else ""


def _row(
    of: Figure, note: str | None, units: Units | None, sources: Sources, *, says_origin: bool
) -> FigureRow:
    """Return one figure, and below it the built-in one that it takes the place of."""
    origin = named(of, sources) if says_origin else ""
    below = []
    if of.built_in is not None:
        before = f"built in: {told(of.built_in, units)}{_from(of.built_in, sources)}"
        if of.built_in.note:
            before += f"; {unparted(of.built_in.note)}"
        below.append(before)
    if note is not None:
        below.append(unparted(note))
    key = CROP_FIELDS[of.field].key
    return FigureRow(
        label=of.label,
        key=key,
        said=(told(of, units), _style(of)),
        origin=origin,
        below=tuple(below),
    )


def _from(of: Figure, sources: Sources) -> str:
    origin = named(of, sources)
    return f" {origin}" if origin.startswith("[") else f", {origin}"


def _style(of: Figure) -> Style:
    """Return the style of a value: the file's own stand out, what nobody knows stands back."""
    if of.origin is None:
        return Style.DIM
    return Style.PLAIN if of.origin.file is None else Style.STRONG


def _measured(figures: Iterable[Figure], units: Units | None, sources: Sources) -> MeasuredTable:
    """Return a crop's seed at several soil temperatures, all of one unit."""
    points = [
        (each, temperatures(each.value, each.unit, units))
        for each in figures
        if each.value is not None and each.unit is not None
    ]
    here = {at: shown for _, of_figure in points for shown, at, _ in of_figure}
    ats = sorted(here, key=float)
    degree = degree_of(points[0][0].unit or "")
    heads = [("soil at, " + converted_unit(degree, units), tuple(here[at] for at in ats))]
    if is_converted(degree, units):
        heads.append((f"published, {degree}", tuple(ats)))
    rows = []
    for figure, of_figure in points:
        texts = {at: text for _, at, text in of_figure}
        note = unparted(figure.note) if figure.note else None
        origin = named(figure, sources)
        rows.append(MeasuredRow(figure.label, tuple(texts.get(at, "") for at in ats), origin, note))
    return MeasuredTable(tuple(heads), tuple(rows))


def _yield(of: LearnedYield, units: Units) -> Text:
    if of.kg_per_plant is None:
        borne = f"{show_number(of.pieces_per_plant or 0.0, 2)} pieces"
    else:
        unit = units.weight_unit
        borne = f"{show_number(of.kg_per_plant / float(KILOGRAMS[unit]), 2)} {unit}"
    return Text(f"A plant of {of.title} bears {borne} by {of.waves} waves that you picked.")


def _learned(of: LearnedDays) -> Text:
    days, packet = of.said
    return Text(
        f"Learned from {of.pickings} pickings of yours: {of.title} takes "
        f"{show_number(of.factor, 2)} times its days here, and is planned with {days} days to "
        f"harvest in place of {packet}."
    )
