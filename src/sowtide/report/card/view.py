"""One crop's card: every figure with its unit, where it comes from, and what the file changes.

Figures are told as they are in the table or the file, with their unit beside them; nothing is
converted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from sowtide.days import DayRange
from sowtide.garden.crop import Crop
from sowtide.garden.model import Garden
from sowtide.garden.varieties import built_in_name, is_like
from sowtide.report.card.figures_view import Figure, cover_figures, figures_of
from sowtide.report.card.words import OWN_ESTIMATE, is_estimate
from sowtide.report.kinds import Beside, Quantity, Unsaid
from sowtide.report.kit.sources import citation
from sowtide.units import Units
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.learning import OwnYields

_OF_FIGURE = ("field", "label", "value", "unit", "source", "note", "file", "line")
_OF_BUILT_IN = ("value", "unit", "source")
COLUMNS = ("crop", "variety", *_OF_FIGURE, *(f"built_in_{name}" for name in _OF_BUILT_IN))


@value
class BuiltInFigure:
    """The built-in figure that one of the file's takes the place of."""

    value: str | None
    unit: str | None
    source: str | None
    citation: str | None
    note: str | None


@value
class FigureView:
    """A figure as it is written, and where it comes from."""

    field: str
    label: str
    value: str | None
    unit: str | None
    source: str | None
    citation: str | None
    note: str | None
    file: str | None
    line: int | None
    built_in: BuiltInFigure | None
    figure: Unsaid[Figure]


@value
class Card:
    """A crop, a variety or a cover crop."""

    crop: str
    variety: str | None
    names: tuple[str, ...]
    """What it is called."""
    built_in: str | None
    """The built-in crop that it is or is like; None for one wholly the file's own."""
    like: str | None
    """The same, where it is like it and no other name of it."""
    figures: tuple[FigureView, ...]
    """In the order of the card."""
    title: Unsaid[str]
    """What it is called in a sentence."""
    same_for: Unsaid[tuple[str, ...]]
    """Varieties that the garden's entries give it and no figure of their own."""
    is_cover: Unsaid[bool]
    """Whether it is a cover crop."""


@value
class LearnedDays:
    """What the grower's own pickings taught of a crop's days to harvest."""

    crop: str
    variety: str | None
    pickings: int
    factor: Quantity
    days_to_harvest: tuple[int, int]
    packet: tuple[int, int]
    title: Unsaid[str]
    said: Unsaid[tuple[str, str]]


@value
class LearnedYield:
    """What a plant bears by the grower's own pickings: weighed, or counted; null the other."""

    crop: str
    variety: str | None
    waves: int
    kg_per_plant: Quantity | None
    pieces_per_plant: Quantity | None
    title: Unsaid[str]


@value
class CardView:
    """What ``crops NAME`` says: the first crop of the name, and all where there are several.

    `file` is the garden's label, None without a garden; `units` are its units.
    """

    card: Beside[Card]
    varieties: tuple[Card, ...] | None
    learned: tuple[LearnedDays, ...]
    learned_yields: tuple[LearnedYield, ...]
    file: Unsaid[str | None]
    units: Unsaid[Units | None]


def view(
    crops: Sequence[Crop],
    garden: Garden | None,
    taught: Iterable[Crop] = (),
    own: OwnYields | None = None,
) -> CardView:
    """Return the cards of the crops and varieties that go by one name.

    Parameters
    ----------
    crops
        At least one.
    garden
        The garden they are of, or None for built-in crops alone.
    taught
        The same with what the garden's journal teaches of them.
    own
        What their plants bear by that journal.
    """
    cards = tuple(_card(crop, garden) for crop in crops)
    return CardView(
        card=cards[0],
        varieties=cards if len(cards) > 1 else None,
        learned=tuple(_learned(taught)),
        learned_yields=tuple(_yields(crops, own)),
        file=None if garden is None else garden.label,
        units=None if garden is None else garden.site.units,
    )


def cover_view(name: str, units: Units | None) -> CardView:
    """Return the card of a cover crop by its canonical name."""
    figures = _views(cover_figures(name))
    card = Card(
        crop=name,
        variety=None,
        names=_names(figures),
        built_in=name,
        like=None,
        figures=figures,
        title=name,
        same_for=(),
        is_cover=True,
    )
    return CardView(
        card=card, varieties=None, learned=(), learned_yields=(), file=None, units=units
    )


def _card(crop: Crop, garden: Garden | None) -> Card:
    figures = _views(figures_of(crop, garden.site.units if garden else None))
    name = built_in_name(crop)
    return Card(
        crop=crop.name,
        variety=crop.variety,
        names=_names(figures),
        built_in=name,
        like=name if is_like(crop) else None,
        figures=figures,
        title=crop.title,
        same_for=tuple(
            other.variety
            for other in (garden.crops if garden else ())
            if other.variety is not None
            and other.variety != crop.variety
            and replace(other, variety=crop.variety) == crop
        ),
        is_cover=False,
    )


def _yields(crops: Iterable[Crop], own: OwnYields | None) -> Iterator[LearnedYield]:
    for crop in crops if own is not None else ():
        found = own.of(crop) if own is not None else None
        if found is not None:
            yield LearnedYield(
                crop=crop.name,
                variety=crop.variety,
                waves=found.waves,
                kg_per_plant=found.kilograms,
                pieces_per_plant=found.pieces,
                title=crop.title,
            )


def _names(figures: Iterable[FigureView]) -> tuple[str, ...]:
    names = [figure.value or "" for figure in figures if figure.field == "names"]
    return tuple(each for of_field in names for each in of_field.split(", "))


def _views(figures: Iterable[Figure]) -> tuple[FigureView, ...]:
    return tuple(map(_view, figures))


def _view(of: Figure) -> FigureView:
    return FigureView(
        field=of.field,
        label=of.label.strip(),
        value=of.value,
        unit=of.unit,
        source=_source(of),
        citation=_citation(of),
        note=of.note,
        file=of.origin.file if of.origin else None,
        line=of.origin.line if of.origin else None,
        built_in=None if of.built_in is None else _built_in(of.built_in),
        figure=of,
    )


def _built_in(of: Figure) -> BuiltInFigure:
    return BuiltInFigure(
        value=of.value, unit=of.unit, source=_source(of), citation=_citation(of), note=of.note
    )


def _source(of: Figure) -> str | None:
    return of.origin.source if of.origin else None


def _citation(of: Figure) -> str | None:
    key = _source(of)
    if key is None:
        return None
    return OWN_ESTIMATE if is_estimate(of) else citation(key)


def _learned(taught: Iterable[Crop]) -> Iterator[LearnedDays]:
    for crop in taught:
        found = crop.learned
        if found is not None:
            yield LearnedDays(
                crop=crop.name,
                variety=crop.variety,
                pickings=found.pickings,
                factor=found.factor,
                days_to_harvest=_days(crop.days_to_harvest),
                packet=_days(found.packet),
                title=crop.title,
                said=(str(crop.days_to_harvest), str(found.packet)),
            )


def _days(days: DayRange) -> tuple[int, int]:
    return days.low, days.high


def rows(of: CardView) -> Iterator[Mapping[str, Any]]:
    """Yield a row for each figure of each crop."""
    for card in of.varieties or (of.card,):
        for figure in card.figures:
            row = {"crop": card.crop, "variety": card.variety}
            row |= {name: getattr(figure, name) for name in _OF_FIGURE}
            if figure.built_in is not None:
                row |= {f"built_in_{name}": getattr(figure.built_in, name) for name in _OF_BUILT_IN}
            yield row
