"""Short codes to tick tasks off by: letters that make no words, from a task's name alone."""

from __future__ import annotations

from zlib import crc32

from sowtide.grouping import grouped

_LETTERS = "bcdfghjkmnpqrstvwxyz"
_SHORTEST, _LONGEST = 4, 7


def codes_of(names: set[str]) -> dict[str, str]:
    """Return a short code for each name: the same wherever no other name has it."""
    codes = {name: _letters(name, _SHORTEST) for name in names}
    for length in range(_SHORTEST + 1, _LONGEST + 1):
        for sharing in grouped(codes, codes.__getitem__).values():
            if len(sharing) > 1:
                codes |= {name: _letters(name, length) for name in sharing}
    return codes


def has_code(name: str, *, code: str) -> bool:
    """Say whether a code may stand for a name."""
    return _letters(name, len(code)) == code


def _letters(name: str, length: int) -> str:
    number = crc32(name.encode())
    letters = []
    for _ in range(length):
        number, rest = divmod(number, len(_LETTERS))
        letters.append(_LETTERS[rest])
    return "".join(letters)
