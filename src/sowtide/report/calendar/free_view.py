"""What is still free in the beds, and when nothing of a kind is picked between its pickings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import Protocol

from sowtide.days import DateSpan
from sowtide.report.kinds import FromTo, SquareMetres, Unsaid
from sowtide.schedule.openings import free_ahead
from sowtide.schedule.season import Season
from sowtide.units import SQUARE_METRE
from sowtide.values import value

_SHORTEST_GAP = timedelta(days=7)
"""Days without a picking from which they are a gap: sowtide's own reading."""

_DAY = timedelta(days=1)

MOST_FREE = 12
"""Spaces that a page names; more are counted. [1]"""


@value
class KindGap:
    """Days on which nothing of a kind is picked, between two of its pickings."""

    kind: str
    from_: date
    to: date


@value
class StillFree:
    """A space in a bed, and which crops of the file would be safe there.

    `would_fit` is None for spaces that are only counted on the page: they are not looked at.
    """

    bed: str
    from_: date
    until: date | None
    area_m2: SquareMetres
    leaves: tuple[str, ...]
    would_fit: tuple[str, ...] | None
    titles: Unsaid[tuple[str, ...]]
    area: Unsaid[int]


class Picked(Protocol):
    """What is picked of a wave, and when; no days where it comes to nothing."""

    @property
    def kind(self) -> str:
        """The kind of its crop."""

    @property
    def picked(self) -> tuple[FromTo, ...]:
        """The days on which there is something to pick."""


def still_free(season: Season, within: DateSpan) -> Iterator[StillFree]:
    """Yield the spaces that are free from today on; none of crops alone, which have no beds."""
    if season.only is not None and season.only.crops is not None:
        return
    if season.today in within:
        for number, space in enumerate(free_ahead(season, within.last, tried=MOST_FREE)):
            shown = number < MOST_FREE
            yield StillFree(
                bed=space.bed.name,
                from_=space.first,
                until=space.until,
                area_m2=space.area / SQUARE_METRE,
                leaves=space.leaves,
                would_fit=tuple(each.crop.name for each in space.fits) if shown else None,
                titles=tuple(each.crop.title for each in space.fits),
                area=space.area,
            )


def gaps_of(waves: Iterable[Picked], today: date) -> Iterator[KindGap]:
    """Yield the gaps in the pickings of each kind that are not over yet, in order of their days."""
    picked: dict[str, list[tuple[date, date]]] = {}
    for wave in waves:
        picked.setdefault(wave.kind, []).extend((each.from_, each.to) for each in wave.picked)
    found = []
    for kind, spans in picked.items():
        if not spans:
            continue
        spans.sort()
        until = spans[0][1]
        for first, last in spans[1:]:
            if first - until > _SHORTEST_GAP and first > today:
                found.append(KindGap(kind, until + _DAY, first - _DAY))
            until = max(until, last)
    yield from sorted(found, key=lambda gap: (gap.from_, gap.kind))
