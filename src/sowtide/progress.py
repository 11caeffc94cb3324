"""How far long work is: what whoever waits for it may ask to be told."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

Progress: TypeAlias = Callable[[int, int], None]
"""Told, again and again, how much of the work is done and how much there is. [1]"""


def unwatched(done: int, total: int) -> None:
    """Tell nobody."""


def part(progress: Progress, number: int, count: int) -> Progress:
    """Return what the work's part of a number is told, so that the whole is told of it.

    Parameters
    ----------
    progress
        What the whole work is told.
    number, count
        Which of how many parts of about one size. [1]

    Examples
    --------
    >>> part(print, 1, 4)(30, 100)
    130 400
    """
    return lambda done, total: progress(number * total + done, count * total)
