"""What stands in frozen ground: picked again when it thaws, unless it is dead by then."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import groupby


def frozen_in(ground: Sequence[int], killing: Sequence[int]) -> list[int]:
    """Return the days that end what stands, in order: it is killed, or frozen in until it is.

    It is frozen in from the first day of a frost of the ground in which it is killed: it is not
    pulled again. From a frost of the ground that it lives through it is pulled when that is over.

    Parameters
    ----------
    ground
        The days on which the ground is frozen, in order. [index]
    killing
        Those whose minimum kills the plants, in order. [index]

    Examples
    --------
    >>> frozen_in([10, 11, 20, 21, 22], [5, 21])
    [5, 20, 21, 22]
    """
    days = set(killing)
    for _, run in groupby(enumerate(ground), key=lambda pair: pair[1] - pair[0]):
        frozen = [day for _, day in run]
        at = bisect_left(killing, frozen[0])
        if at < len(killing) and killing[at] <= frozen[-1]:
            days.update(frozen)
    return sorted(days)
