"""How sure the hot weeks of a place are: when they begin and end, over the years."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from math import inf

from sowtide.climate.medians import nearest_day, quantile
from sowtide.values import value

SHARES = (0.1, 0.5, 0.9)
"""Shares of years that the days are given for. [0–1]"""


@value
class HotOdds:
    """The hot weeks of recorded years."""

    begin: tuple[date | None, ...]
    """The days before which they begin in 10, 50 and 90 years of 100; None where fewer have any."""
    over: tuple[date | None, ...]
    """The days after which they still last in 10, 50 and 90 years of 100; None likewise."""
    with_any: int
    years: int
    """How many of the years have any, and how many there are. [years]"""


def hot_odds(spans: Sequence[tuple[int, int] | None], first: date) -> HotOdds:
    """Return how sure the hot weeks are.

    Parameters
    ----------
    spans
        Of each year, the first hot day and the day after its last, counted from the year's first;
        None for a year without. At least one year. [days]
    first
        The first day of the growing year planned.
    """
    begins = sorted(inf if span is None else span[0] for span in spans)
    ends = sorted(-inf if span is None else span[1] - 1 for span in spans)
    return HotOdds(
        tuple(nearest_day(first, quantile(begins, share)) for share in SHARES),
        tuple(nearest_day(first, quantile(ends, 1 - share)) for share in SHARES),
        sum(span is not None for span in spans),
        len(spans),
    )
