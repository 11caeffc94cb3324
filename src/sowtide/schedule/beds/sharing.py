"""Sharing a wave out over beds: over the fewest, and of these the first in order."""

from __future__ import annotations


def share_out(free: list[tuple[int, int]], plants: int) -> list[tuple[int, int]]:
    """Share plants out over the fewest beds that take them all.

    Of the ways to do so, the one whose first bed comes first in order, then whose second, and so
    on. Each bed is filled before the next, so that what is left over stays together in the last.

    Parameters
    ----------
    free
        Beds in order of liking, each with the plants it has room for.
    plants
        How many there are to place.

    Returns
    -------
    list
        Beds and the plants each takes, in order; empty if there is not enough room.

    Examples
    --------
    >>> share_out([(0, 1), (1, 5), (2, 5), (3, 9)], 10)
    [(0, 1), (3, 9)]
    >>> share_out([(0, 1), (1, 5), (2, 5)], 12)
    []
    """
    large = sorted((room for _, room in free), reverse=True)
    beds, left = 0, plants
    while left > 0:
        if beds == len(large):
            return []
        left -= large[beds]
        beds += 1
    chosen: list[tuple[int, int]] = []
    left = plants
    for bed, room in free:
        others = beds - len(chosen) - 1
        # A bed passed over is in no such set of beds, so it need not be taken out of the largest.
        together = sum(large[: others + 1])
        if room < large[others]:
            together += room - large[others]
        if together >= left:
            taken = min(room, left)
            chosen.append((bed, taken))
            large.remove(room)
            left -= taken
            if not left:
                break
    return chosen
