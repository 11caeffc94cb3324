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
    from difflib import get_close_matches

    by_plain = {name.casefold(): name for name in known}
    close = get_close_matches(word.casefold(), list(by_plain), 1, 0.65)
    return by_plain[close[0]] if close else None
