"""What a reader raises when a value cannot be taken as it is written."""

from __future__ import annotations


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


def did_you_mean(word: str, known: tuple[str, ...]) -> str | None:
    """Return the known word that comes closest to a misspelt one, or None where none is close."""
    plain = word.casefold().replace(" ", "_").replace("-", "_").strip("_")
    for name in known:
        if name.casefold().replace(" ", "_").replace("-", "_") == plain:
            return name
    if not plain:
        return None
    slips, found = max(1, len(plain) // 3) + 1, None
    for name in known:
        number = _slips(plain, name.casefold().replace(" ", "_").replace("-", "_"), slips)
        if number < slips:
            slips, found = number, name
    return found or _of_the_same_words(plain, known)


def _slips(word: str, other: str, most: int) -> int:
    """Count the letters dropped, added, changed or swapped between two words, up to `most`."""
    if abs(len(word) - len(other)) >= most:
        return most
    before, row = [most] * (len(other) + 1), list(range(len(other) + 1))
    for i, letter in enumerate(word):
        earlier, before, row = before, row, [i + 1]
        for j, match in enumerate(other):
            number = min(before[j] + (letter != match), before[j + 1] + 1, row[j] + 1)
            if i and j and letter == other[j - 1] and word[i - 1] == match:
                number = min(number, earlier[j - 1] + 1)
            row.append(number)
        if min(row) >= most:
            return most
    return min(row[-1], most)


def _of_the_same_words(plain: str, known: tuple[str, ...]) -> str | None:
    """Return the only known name that all words of another are part of, such as nursery_days."""
    words = set(plain.split("_"))
    if len(plain) < 3:
        return None
    found = [
        n for n in known if words <= set(n.casefold().replace("-", " ").replace("_", " ").split())
    ]
    return found[0] if len(found) == 1 else None
