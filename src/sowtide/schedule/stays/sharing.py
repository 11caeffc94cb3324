"""Sharing a wave out over beds: over the fewest, of these the first in order, in whole rows."""

from __future__ import annotations

from sowtide.garden.crop import Crop
from sowtide.garden.model import Bed


def row_of(crop: Crop, bed: Bed) -> int:
    """Return the plants of a row across a bed: no smaller part of a wave stands there. [1]

    That a row across is the smallest part is sowtide's own.
    """
    return row_in(crop, min(bed.size.width, bed.size.length))


def row_in(crop: Crop, width: int) -> int:
    """Return the plants of a row of some length. [1], [µm]"""
    return max(width // crop.in_row, 1)


def share_out(free: list[tuple[int, int, int]], plants: int) -> list[tuple[int, int]]:
    """Share plants out over the fewest beds that take them all.

    Of the ways to do so, the one whose first bed comes first in order, then whose second, and so
    on. Each bed is filled before the next, so that what is left over stays together in the last;
    where that is less than a row, the beds before it give of theirs. Beds whose rows are too long
    for that are passed over.

    Parameters
    ----------
    free
        Beds in order of liking, each with the plants it has room for and those of a row.
    plants
        How many there are to place.

    Returns
    -------
    list
        Beds and the plants each takes, in order; empty if there is not enough room, or if they are
        too few for a row in each bed.

    Examples
    --------
    >>> share_out([(0, 1, 1), (1, 5, 1), (2, 5, 1), (3, 9, 1)], 10)
    [(0, 1), (3, 9)]
    >>> share_out([(0, 1, 2), (1, 5, 2), (2, 6, 2)], 6)
    [(2, 6)]
    >>> share_out([(0, 5, 2), (1, 5, 2)], 6)
    [(0, 4), (1, 2)]
    >>> share_out([(0, 5, 4), (1, 5, 4), (2, 5, 1)], 6)
    [(0, 5), (2, 1)]
    >>> share_out([(0, 1, 1), (1, 5, 1), (2, 5, 1)], 12)
    []
    """
    usable = [(bed, room, row) for bed, room, row in free if room >= min(row, plants)]
    large = sorted((room for _, room, _ in usable), reverse=True)
    beds, left = 0, plants
    while left > 0:
        if beds == len(large):
            return []
        left -= large[beds]
        beds += 1
    chosen: list[tuple[int, int]] = []
    rows: list[int] = []
    left = plants
    for bed, room, row in usable:
        others = beds - len(chosen) - 1
        # A bed passed over is in no such set of beds, so it need not be taken out of the largest.
        together = sum(large[: others + 1])
        if room < large[others]:
            together += room - large[others]
        if together >= left:
            taken = min(room, left)
            chosen.append((bed, taken))
            rows.append(row)
            large.remove(room)
            left -= taken
            if not left:
                break
    return _in_rows(chosen, rows) or _in_short_rows(usable, plants, beds)


def _in_rows(chosen: list[tuple[int, int]], rows: list[int]) -> list[tuple[int, int]]:
    """Bring the last part up to a row with plants of the parts before it, or return nothing."""
    *before, (last, taken) = chosen
    missing = rows[-1] - taken
    if not before or missing <= 0:
        return chosen
    for number in reversed(range(len(before))):
        bed, plants = before[number]
        given = min(missing, plants - rows[number])
        before[number] = (bed, plants - given)
        missing -= given
    return [] if missing else [*before, (last, rows[-1])]


def _in_short_rows(
    usable: list[tuple[int, int, int]], plants: int, fewest: int
) -> list[tuple[int, int]]:
    """Share plants out over beds that they fill a row in each of; the rest as above."""
    for beds in range(fewest, len(usable) + 1):
        found = _first_that_fit(usable, beds, plants=plants, rows=plants)
        if found is None:
            continue
        left = plants - sum(row for _, _, row in found)
        shared = []
        for bed, room, row in found:
            more = min(room - row, left)
            shared.append((bed, row + more))
            left -= more
        return shared
    return []


def _first_that_fit(
    usable: list[tuple[int, int, int]], beds: int, *, plants: int, rows: int
) -> tuple[tuple[int, int, int], ...] | None:
    """Return the first so many beds with room for plants whose rows hold no more than others.

    Parameters
    ----------
    usable, beds
        The beds, as in `share_out`, and how many are to be found.
    plants
        How many they have to take at least. [1]
    rows
        How many a row in each of them takes at most. [1]
    """
    if not beds:
        return () if plants <= 0 and rows >= 0 else None
    if sum(sorted((room for _, room, _ in usable), reverse=True)[:beds]) < plants:
        return None
    if sum(sorted(row for _, _, row in usable)[:beds]) > rows:
        return None
    failed: list[tuple[int, int]] = []
    for number, bed in enumerate(usable):
        _, room, row = bed
        # Where a bed will not do, none after it will that has less room and longer rows.
        if any(room <= other and row >= longer for other, longer in failed):
            continue
        rest = usable[number + 1 :]
        others = _first_that_fit(rest, beds - 1, plants=plants - room, rows=rows - row)
        if others is not None:
            return bed, *others
        failed.append((room, row))
    return None
