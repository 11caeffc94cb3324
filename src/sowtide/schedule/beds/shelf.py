"""Free area of many beds on the day that planting has come to; finds the first bed with room."""

from __future__ import annotations

from collections.abc import Iterator


class Shelf:
    """Free areas in a fixed order, as a tree of greatest values.

    Finding the first place with room and changing one place both take steps in the order of the
    logarithm of the number of beds.

    Parameters
    ----------
    areas
        Free area of each place. [µm²]
    """

    def __init__(self, areas: list[int]) -> None:
        size = 1
        while size < len(areas):
            size *= 2
        self._size = size
        self._greatest = [0] * size + areas + [0] * (size - len(areas))
        for node in range(size - 1, 0, -1):
            self._greatest[node] = max(self._greatest[2 * node], self._greatest[2 * node + 1])

    def __getitem__(self, place: int) -> int:
        """Free area of a place. [µm²]"""
        return self._greatest[self._size + place]

    def change(self, place: int, by: int) -> None:
        """Add to the free area of a place. [µm²]"""
        greatest = self._greatest
        node = self._size + place
        greatest[node] += by
        node //= 2
        while node:
            left, right = greatest[2 * node], greatest[2 * node + 1]
            greatest[node] = left if left > right else right
            node //= 2

    def with_room(self, area: int) -> Iterator[int]:
        """Yield the places with at least so much free area, in order.

        The tree must not change while this is used.
        """
        greatest, size = self._greatest, self._size
        stack = [1]
        while stack:
            node = stack.pop()
            if greatest[node] < area:
                continue
            if node >= size:
                yield node - size
            else:
                stack += (2 * node + 1, 2 * node)
