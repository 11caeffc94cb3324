"""How hard it freezes at a place, from its warmest and its coldest month.

The coldest night of a winter lies as far below the mean of the coldest month as the place lies
inland: Seattle 11, Wageningen 14, Fulda 16 and Clemson 18 °C, whose warmest and coldest months are
15, 15, 18 and 20 °C apart. The line through them, and the spread of 3 °C from winter to winter (1.2
to 4.2 on those records), are sowtide's own.
"""

from __future__ import annotations

from statistics import NormalDist

from sowtide.values import value

_PER_DEGREE, _LESS = 0.95, 1.5
_SPREAD = 3.0


@value
class FrostDepth:
    """How cold the coldest nights of the winters are."""

    mean: float
    """In the middle of the winters. [°C]"""

    @classmethod
    def of_months(cls, *, warmest: float, coldest: float) -> FrostDepth:
        """Return it by the means of the warmest and of the coldest month. [°C]

        Examples
        --------
        >>> FrostDepth.of_months(warmest=19.0, coldest=9.0).share(-4.4) < 0.1
        True
        """
        return cls(coldest - (_PER_DEGREE * (warmest - coldest) - _LESS))

    def share(self, at: float) -> float:
        """Return the share of winters that come to a temperature [°C] or under it. [0–1]"""
        return NormalDist(self.mean, _SPREAD).cdf(at)
