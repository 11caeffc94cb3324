"""How many times the packet's days a crop takes: a normal prior at the packet, and what was seen.

The logarithm of the factor is normal around 0, the packet's own days, with a spread of `PRIOR`;
each picking tells it with a spread of `NOISE`. So the posterior mean of n pickings with mean y is

    y · (n / NOISE²) / (n / NOISE² + 1 / PRIOR²)

as in any textbook of Bayesian statistics. A picking further than `FAR` from the median of all
counts as being that far away: one wrong note does not carry the rest. The three numbers are
sowtide's own.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import exp, log
from statistics import median

from sowtide.values import value

PRIOR = 0.1
"""Spread of the logarithm of the factor before anything was seen: two in three in a tenth. [1]"""
NOISE = 0.1
"""Spread of the logarithm of one picking around the factor, from year to year. [1]"""
FAR = 0.2
"""How far from the median a picking may count, as a logarithm: about a fifth. [1]"""
FEWEST = 3
"""Pickings from which on what was seen is used. [1]"""


@value
class Posterior:
    """What is thought of a crop's days after some pickings."""

    factor: float
    """Actual days over the packet's. [1]"""
    spread: float
    """Of its logarithm. [1]"""
    pickings: int
    """How many it rests on. [1]"""


def posterior_of(
    ratios: Iterable[float], *, prior: float = PRIOR, noise: float = NOISE, far: float = FAR
) -> Posterior:
    """Return what is to be thought after pickings whose days were so many times those expected.

    Parameters
    ----------
    ratios
        Actual over expected, one for each picking. [1]
    prior, noise, far
        As `PRIOR`, `NOISE` and `FAR`, which they are unless what was seen is no days. [1]

    Examples
    --------
    >>> posterior_of([1.1, 1.1, 1.1]).factor < 1.1
    True
    """
    seen = sorted(log(ratio) for ratio in ratios)
    known = 1 / prior**2 + len(seen) / noise**2
    if not seen:
        return Posterior(1.0, prior, 0)
    middle = median(seen)
    held = [min(max(each, middle - far), middle + far) for each in seen]
    return Posterior(exp(sum(held) / noise**2 / known), known**-0.5, len(seen))
