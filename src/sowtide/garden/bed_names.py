"""Beds by their names or by patterns of the shell: ``Hill*``, ``Block [AB] ?``."""

from __future__ import annotations

from collections.abc import Iterable
from fnmatch import fnmatchcase

from sowtide.garden.model import Bed, Garden

JOKERS = frozenset("*?[")
"""What makes a name a pattern."""


def beds_like(pattern: str, garden: Garden) -> tuple[Bed, ...]:
    """Return the bed of a name, else the beds whose names a pattern stands for, in file order."""
    wanted = pattern.casefold()
    named = tuple(bed for bed in garden.beds if bed.name.casefold() == wanted)
    return named or tuple(bed for bed in garden.beds if fnmatchcase(bed.name.casefold(), wanted))


def names_like(pattern: str, names: Iterable[str]) -> tuple[str, ...]:
    """Return those of some names that a pattern stands for, in their order; case counts not."""
    wanted = pattern.casefold()
    return tuple(name for name in names if fnmatchcase(name.casefold(), wanted))


def close_beds(name: str, garden: Garden) -> tuple[str, ...]:
    """Return names of beds that a misspelt one may stand for, the closest first."""
    from difflib import get_close_matches

    names = {bed.name.casefold(): bed.name for bed in garden.beds}
    plain = "".join(each for each in name.casefold() if each not in JOKERS and each != "]")
    return tuple(names[each] for each in get_close_matches(plain, names, n=3, cutoff=0.5))
