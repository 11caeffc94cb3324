"""Figures of a seed that were measured at several soil temperatures."""

from __future__ import annotations

from itertools import pairwise

from sowtide.values import value


@value
class ByTemperature:
    """A figure at each of several temperatures."""

    points: tuple[tuple[float, float | None], ...]
    """Temperature and figure, coldest first; None where no seed came up. [°C]"""

    def at(self, temperature: float) -> float | None:
        """Return the figure at a temperature [°C]: straight between two points, level beyond.

        None where no seed came up at either of the two points beside it.

        Examples
        --------
        >>> ByTemperature(((10.0, 17.0), (15.0, 10.0), (40.0, None))).at(12.5)
        13.5
        """
        coldest, *_, warmest = self.points
        if temperature <= coldest[0]:
            return coldest[1]
        for (low, before), (high, after) in pairwise(self.points):
            if temperature == high:
                return after
            if temperature < high:
                if before is None or after is None:
                    return None
                return before + (after - before) * (temperature - low) / (high - low)
        return warmest[1]

    @property
    def best(self) -> float:
        """The highest of the figures; 0 where no seed came up at all."""
        return max((figure for _, figure in self.points if figure is not None), default=0.0)
