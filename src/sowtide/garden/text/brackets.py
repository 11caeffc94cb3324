"""What is wrong inside of ``[ ]`` and ``{ }``: one is not closed, or a comma is amiss.

A parser notices late, and only at one place; which bracket is open there, and whether it is closed
further down, is seen by looking through the whole file.
"""

from __future__ import annotations

import re

from sowtide.diagnostics import Problem
from sowtide.garden.text.in_quotes import in_quotes
from sowtide.garden.text.source import DEEPEST, Source, unreadable_at

_CLOSING = {"[": "]", "{": "}"}
_WORDS = re.compile(r"[ \w]*")
_COMMENT = re.compile(r"[ \t](#)")

Place = tuple[int, int]


def in_brackets(source: Source, place: Place, opened: Place | None = None) -> Problem | None:
    """Return what is wrong where a bracket is open, or None if none is.

    Parameters
    ----------
    source
        The file.
    place
        Line and column where the parser gave up, from 0.
    opened
        Line and column of the bracket that the parser was reading, where it says so.
    """
    innermost, unclosed = _brackets(source.lines, place)
    opened = opened or innermost
    if opened is None:
        return None
    if opened in unclosed or opened != innermost:
        return _never_closed(source, *opened)
    return _comma(source, *place) or _something_missing(source, place, opened)


def _brackets(lines: tuple[str, ...], place: Place) -> tuple[Place | None, set[Place]]:
    """Return the innermost bracket that is open at a place, and all that are never closed."""
    opened: list[Place] = []
    unclosed: set[Place] = set()
    innermost: Place | None = None
    quote = ""
    for number, line in enumerate(lines):
        before = ""  # the last sign that is no space
        entries = len(line) - len(line.lstrip(" -"))  # so far, hyphens begin entries
        for column, char in enumerate(line):
            if (number, column) == place:
                innermost = opened[-1] if opened else None
            if quote:
                quote = "" if char == quote else quote
            elif char == "#" and (column == 0 or line[column - 1] in " \t"):
                break
            elif char in "\"'":
                quote = char if _begins(line, column, before, entries, bool(opened)) else ""
            elif char in "[{":
                if opened or _begins(line, column, before, entries, False):
                    opened.append((number, column))
            elif char in "]}":
                unclosed.update(_close(lines, opened, char))
            if char not in " \t":
                before = char
        if place[0] == number and place[1] >= len(line.rstrip()):
            innermost = opened[-1] if opened else None
    if place[0] >= len(lines):
        innermost = opened[-1] if opened else None
    return innermost, unclosed | set(opened)


def _begins(line: str, column: int, before: str, entries: int, within: bool) -> bool:
    """Say whether a value can begin at a place: elsewhere these signs are part of a text."""
    if not before:
        return True
    if within:
        return before in ",:[{"
    if before == "-":
        return column <= entries
    return before == ":" and line[column - 1] in " \t"


def _close(lines: tuple[str, ...], opened: list[Place], closing: str) -> list[Place]:
    """Close the last bracket of a kind, and return those within it that nothing has closed.

    What is looked through is closed with it, or as deep as no garden's file nests: what lies
    further out is another's.
    """
    for at in reversed(range(max(len(opened) - DEEPEST, 0), len(opened))):
        number, column = opened[at]
        if _CLOSING[lines[number][column]] == closing:
            left = opened[at + 1 :]
            del opened[at:]
            return left
    return []


def _comma(source: Source, line: int, column: int) -> Problem | None:
    """Explain a comma that is missing at a line's end, or stands twice, or a hyphen in its way."""
    if line >= len(source.lines):
        return None
    text = source.lines[line]
    if text[column : column + 1] == ",":
        return unreadable_at(
            "bracket",
            "nothing stands in front of this comma",
            "delete it",
            source.span(line, column),
        )
    if text[column : column + 2] == "- ":
        return unreadable_at(
            "bracket",
            "a hyphen begins an entry, but in brackets commas part the entries",
            "delete the hyphen",
            source.span(line, column),
        )
    if not _WORDS.fullmatch(text[:column]):
        return None
    while line > 0:
        line -= 1
        content = _COMMENT.split(source.lines[line])[0].rstrip()
        if not content or content.lstrip().startswith("#"):
            continue
        if content.endswith((",", "[", "{")):
            return None
        return unreadable_at(
            "bracket",
            "a comma is missing at the end of this line",
            "put a comma between two entries",
            source.span(line, len(content)),
        )
    return None


def _something_missing(source: Source, place: Place, opened: Place) -> Problem:
    sign = source.lines[opened[0]][opened[1]]
    return unreadable_at(
        "bracket",
        f"something is missing between {sign} and {_CLOSING[sign]}",
        "put a comma between two entries, and quotes around a text that holds a sign like ,:?",
        source.span(*place),
    )


def _never_closed(source: Source, line: int, column: int) -> Problem:
    text = source.lines[line]
    closing = _CLOSING[text[column]]
    comment = _comment_within(text, column, closing)
    if comment is not None:
        start, whole = comment
        return unreadable_at(
            "comment",
            f"a # begins a comment, so the {closing} behind it is not read",
            f"put what it belongs to in quotes: {whole}",
            source.span(line, start, len(text.rstrip()) - start),
        )
    return unreadable_at(
        "bracket",
        f"this {text[column]} is never closed",
        f"write the {closing} that belongs to it",
        source.span(line, column),
    )


def _comment_within(text: str, column: int, closing: str) -> tuple[int, str] | None:
    """Return where a comment hides the closing sign, and in quotes the value it cuts short."""
    found = _COMMENT.search(text, column)
    if found is None or closing not in text[found.start(1) :]:
        return None
    start = found.start(1)
    begins = max(text.rfind(sign, column, start) for sign in (": ", ",", "[", "{")) + 1
    end = min(at for at in (text.find(sign, start) for sign in (",", closing)) if at >= 0)
    return start, in_quotes(text[begins:end].strip())
