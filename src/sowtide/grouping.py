"""Things put together by what they have in common."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

_Thing = TypeVar("_Thing")
_Key = TypeVar("_Key")


def grouped(things: Iterable[_Thing], by: Callable[[_Thing], _Key]) -> dict[_Key, list[_Thing]]:
    """Return things by what they have in common, in the order in which that first comes up.

    Examples
    --------
    >>> grouped(["kale", "leek", "kohlrabi"], lambda crop: crop[0])
    {'k': ['kale', 'kohlrabi'], 'l': ['leek']}
    """
    groups: dict[_Key, list[_Thing]] = {}
    for each in things:
        groups.setdefault(by(each), []).append(each)
    return groups
