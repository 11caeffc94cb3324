"""What a reader raises when a value cannot be taken as it is written."""

from __future__ import annotations

LONGEST_NAME = 60
"""Of longer names only the beginning is shown. [characters]"""


class Refused(ValueError):  # noqa: N818 — a refusal is what it is
    """A value that cannot be taken, with what to write instead.

    Parameters
    ----------
    code
        Stable slug of the kind of mistake.
    message
        What is wrong, naming the value.
    hint
        What to write instead, or None.
    """

    def __init__(self, code: str, message: str, hint: str | None = None) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.hint = hint


def quoted(text: str, longest: int = 40) -> str:
    """Show a grower's text inside a message: in quotes, on one line, not too long.

    Examples
    --------
    >>> quoted("no")
    "'no'"
    """
    if not text.isprintable():
        text = text.encode("unicode_escape").decode("ascii")
    if len(text) > longest:
        text = text[: longest - 3] + "..."
    return f"'{text}'"


def named(name: str) -> str:
    """Show a name of the file where it is to be written again: in quotes, cut at 60 characters."""
    return quoted(name, LONGEST_NAME)


def did_you_mean(word: str, known: tuple[str, ...]) -> str | None:
    """Return the known word that comes closest to a misspelt one, or None where none is close."""
    plain = word.casefold().replace(" ", "_").replace("-", "_").strip("_")
    for name in known:
        if name.casefold().replace(" ", "_").replace("-", "_") == plain:
            return name
    if not plain:
        return None
    slips, found = max(1, len(plain) // 3) + 1, None
    places = _places(plain)
    for name in known:
        if abs(len(name) - len(plain)) < slips:
            spelt = name.casefold().replace(" ", "_").replace("-", "_")
            number = _slips(places, len(plain), spelt)
            if number < slips:
                slips, found = number, name
    return found or _of_the_same_words(plain, known)


def _places(word: str) -> dict[str, int]:
    """Return where each letter stands in a word, as the bits of a number."""
    places: dict[str, int] = {}
    for at, letter in enumerate(word):
        places[letter] = places.get(letter, 0) | 1 << at
    return places


def _slips(places: dict[str, int], length: int, other: str) -> int:
    """Count the letters dropped, added, changed or swapped between a word and another.

    A whole column of the table of distances is held in the bits of a few numbers (H. Hyyrö, A
    bit-vector algorithm for computing Levenshtein and Damerau edit distances, 2003).

    Parameters
    ----------
    places, length
        Where each letter stands in the word, and how long it is.
    other
        The other word.
    """
    last, whole = 1 << length - 1, (1 << length) - 1
    more, less, same, before, number = whole, 0, 0, 0, length
    for letter in other:
        here = places.get(letter, 0)
        swapped = ((~same & here) << 1) & before
        same = (((here & more) + more ^ more) | here | less | swapped) & whole
        right, left = less | ~(same | more) & whole, same & more
        number += bool(right & last) - bool(left & last)
        right, left = right << 1 | 1, left << 1
        more, less, before = (left | ~(same | right)) & whole, right & same, here
    return number


def _of_the_same_words(plain: str, known: tuple[str, ...]) -> str | None:
    """Return the only known name that all words of another are part of, such as nursery_days."""
    words = set(plain.split("_"))
    if len(plain) < 3:
        return None
    found = [
        n for n in known if words <= set(n.casefold().replace("-", " ").replace("_", " ").split())
    ]
    return found[0] if len(found) == 1 else None
