"""Numbers between two bounds as patterns, for those that stand in quotes or beside other signs."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

_PART = r"(?:\.\d+)?"
_NOTHING = r"(?:\.0+)?"


@cache
def between(low: int, high: int) -> str:
    """Return the pattern of whole numbers from `low` to `high`, both included and not negative.

    Examples
    --------
    >>> between(5, 36)
    '(?:[5-9]|[1-2][0-9]|3[0-6])'
    """
    return f"(?:{'|'.join(_alike(first, last) for first, last in _spans(low, high))})"


def _spans(low: int, high: int) -> Iterator[tuple[int, int]]:
    """Yield spans in which each digit runs for itself, from the lowest on."""
    while low <= high:
        ten = 1
        while low >= 10 * ten and low % (10 * ten) == 0 and low + 10 * ten - 1 <= high:
            ten *= 10
        head = low // ten
        last = min(head - head % 10 + 9, (high + 1) // ten - 1)
        yield low, last * ten + ten - 1
        low = (last + 1) * ten


def _alike(first: int, last: int) -> str:
    """Return the pattern of a span: digits that are the same, one that runs, and any digits."""
    made = []
    for low, high in zip(str(first), str(last), strict=True):
        made.append(low if low == high else f"[{low}-{high}]")
    return "".join(made)


def decimal_between(low: int, high: int) -> str:
    """Return the pattern of numbers with decimals or without from `low` to `high`."""
    if low > 0:
        return _from_to(low, high)
    return f"(?:{up_to(high)}|-{up_to(-low)})"


def up_to(high: int) -> str:
    """Return the pattern of numbers with decimals or without, not negative, at most `high`."""
    return _from_to(0, high)


def positive(high: int) -> str:
    """Return the pattern of numbers with decimals or without above nought, at most `high`."""
    return rf"(?=\d*\.?\d*[1-9]){up_to(high)}"


def _from_to(low: int, high: int) -> str:
    whole = f"{between(low, high - 1)}{_PART}|" if high > low else ""
    return f"(?:{whole}{high}{_NOTHING})"
