"""What a household wants to pick: how much of a crop, how often, from when to when."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from enum import Enum

from sowtide.days import DateSpan
from sowtide.diagnostics import Span
from sowtide.garden import library
from sowtide.garden.crop import Crop
from sowtide.values import value


class Met(Enum):
    """How much of what is wanted comes."""

    ENOUGH = "enough"
    SOME = "half or more"
    LESS = "less than half"


@value
class Want:
    """An amount of a crop that is wanted again and again, or once."""

    crop: Crop
    """What is wanted."""
    amount: float
    """How much each time, for all who eat of it. [kg], or [1] where it is counted"""
    unit: str
    """``kg``, or what is counted, in the plural."""
    every: int | None
    """Days from one time to the next; None for what is wanted once. [days]"""
    first: date | None
    last: date | None
    """Days from which and up to which it is wanted; None: as long as the place allows."""
    is_first: bool
    """Whether its unmet weeks count for more than those of others."""
    span: Span
    """Where it is written."""

    def between(self, days: DateSpan, within: DateSpan) -> float:
        """Return how much is wanted in some days.

        Parameters
        ----------
        days
            The days, first and last included.
        within
            The days between which it is wanted where it says nothing of that itself.
        """
        first, last = self.first or within.first, self.last or within.last
        shared = (min(last, days.last) - max(first, days.first)).days + 1
        length = (last - first).days + 1 if self.every is None else self.every
        return self.amount * max(shared, 0) / length


def serves(crop: Crop, wanted: Crop) -> bool:
    """Say whether a crop is what is wanted: that one, or any of its kind if that is named."""
    if crop.name == wanted.name:
        return True
    named = library.find(wanted.name) if crop.kind == wanted.kind else None
    return named is not None and named.name == wanted.kind


def feeds(crop: Crop, wanted: Crop, wants: Iterable[Want]) -> bool:
    """Say whether a crop is eaten for a want; one that has a want of its own is for that alone.

    Parameters
    ----------
    crop
        What is picked.
    wanted
        What is wanted.
    wants
        All that is wanted.
    """
    if crop.name == wanted.name:
        return True
    return all(want.crop.name != crop.name for want in wants) and serves(crop, wanted)
