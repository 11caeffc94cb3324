"""How messages name several waves of one entry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from sowtide.schedule.beds import Placed


def named(waves: Sequence[Placed]) -> str:
    """Name waves of one entry, in order: three or more that follow each other by their ends.

    Such as ``pea-1 to pea-3, pea-5 and pea-6``.
    """
    *before, last = _runs([each.planting.number for each in waves], waves[0].planting.entry.name)
    return f"{', '.join(before)} and {last}" if before else last


def _runs(numbers: Sequence[int], name: str) -> Iterator[str]:
    for _, run in groupby(enumerate(numbers), key=lambda each: each[1] - each[0]):
        first, *rest = (number for _, number in run)
        if len(rest) > 1:
            yield f"{name}-{first} to {name}-{rest[-1]}"
        else:
            yield from (f"{name}-{number}" for number in (first, *rest))
