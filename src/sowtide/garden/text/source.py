"""A file's bytes as text and lines, with every place in it nameable."""

from __future__ import annotations

import codecs
from pathlib import Path

from sowtide.diagnostics import Problem, Severity, Span, ordinary, unreadable
from sowtide.values import value

LARGEST = 5_000_000
"""Files larger than this are refused. [bytes]"""

DEEPEST = 20
"""No garden's file nests deeper. [levels]"""

_OTHER_ENCODINGS = (
    (codecs.BOM_UTF32_LE, "UTF-32"),
    (codecs.BOM_UTF32_BE, "UTF-32"),
    (codecs.BOM_UTF16_LE, "UTF-16"),
    (codecs.BOM_UTF16_BE, "UTF-16"),
)
_SAVE_AS = "open it in a text editor and save it with the encoding UTF-8"
# Every control character but tab and line feed, the line separators that editors do not show,
# a byte order mark in mid-text and the two characters that are none.
_FORBIDDEN = "[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]"
_NAMES = {
    0x00: "a NUL character",
    0x0B: "a vertical tab",
    0x0C: "a page break",
    0x1B: "an escape character",
    0x85: "an invisible line separator",
    0x2028: "an invisible line separator",
    0x2029: "an invisible line separator",
    0xFEFF: "a byte order mark",
}
# Spaces that look like the ordinary one but do not separate a key from its value.
_ODD_SPACE = r"(?m)(?:^ *(?:- *)?|[:,{\[-] *)([\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000])"


@value
class Source:
    """The text of a file."""

    label: str
    """The file as the user named it."""
    text: str
    """All of it, every line end a line feed."""
    lines: tuple[str, ...]
    """Its lines without their ends."""

    def span(self, line: int, column: int, length: int = 1) -> Span:
        """Name a place, kept inside the file; line and column are counted from 0 here."""
        line = min(max(line, 0), len(self.lines) - 1)
        text = self.lines[line]
        column = min(max(column, 0), len(text))
        length = max(1, min(length, len(text) - column))
        return Span(file=self.label, line=line + 1, column=column + 1, length=length, text=text)

    def span_at(self, index: int) -> Span:
        """Name the place of the character with that number in the text."""
        line = self.text.count("\n", 0, index)
        return self.span(line, index - (self.text.rfind("\n", 0, index) + 1))


def bytes_of(path: Path, label: str) -> bytes:
    """Read an ordinary file, of one that is too large no more than shows that.

    Raises
    ------
    Unreadable
        If there is no such file or it cannot be opened.
    """
    ordinary(path, label)
    try:
        with path.open("rb") as file:
            return file.read(LARGEST + 1)
    except (OSError, ValueError) as error:
        raise unreadable(label, error) from None


def decode(data: bytes, label: str) -> Source | Problem:
    """Turn a file's bytes into text, or say why they are none.

    A byte order mark of UTF-8 is dropped; the three kinds of line end are one.
    """
    if len(data) > LARGEST:
        size = f"{len(data) / 1_000_000:.1f}"
        return unreadable_at(
            "too-big",
            f"the file is {size} MB large; a garden's file is no larger than 5 MB",
            "check that this is the file you mean",
            Span(label, 1),
        )
    for mark, name in _OTHER_ENCODINGS:
        if data.startswith(mark):
            return unreadable_at(
                "encoding", f"the file is saved as {name}", _SAVE_AS, Span(label, 1)
            )
    data = data.removeprefix(codecs.BOM_UTF8)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        return _undecodable(data, error.start, label)
    source = _lines(text, label)
    return _bad_character(source) or source


def _lines(text: str, label: str) -> Source:
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return Source(label, text, tuple(text.split("\n")))


def _undecodable(data: bytes, start: int, label: str) -> Problem:
    before = _lines(data[:start].decode("utf-8"), label)
    line = len(before.lines) - 1
    # The same line again, with a sign where the bytes are no text.
    shown = _lines(data.decode("utf-8", "replace"), label)
    return unreadable_at(
        "encoding",
        f"byte 0x{data[start]:02X} is not UTF-8 text",
        _SAVE_AS,
        shown.span(line, len(before.lines[-1])),
    )


def _bad_character(source: Source) -> Problem | None:
    if source.text.isascii() and source.text.replace("\n", "").replace("\t", "").isprintable():
        return None
    import re

    found = re.search(_FORBIDDEN, source.text)
    if found is not None:
        code = ord(found[0])
        name = _NAMES.get(code, "a control character")
        hint = "delete it; perhaps the file is saved as UTF-16" if code == 0 else "delete it"
        return unreadable_at(
            "character",
            f"{name} (U+{code:04X}) does not belong in a garden's file",
            hint,
            source.span_at(found.start()),
        )
    found = re.search(_ODD_SPACE, source.text)
    if found is None:
        return None
    return unreadable_at(
        "character",
        f"this is not an ordinary space but a look-alike (U+{ord(found[1]):04X})",
        "delete it and press the space bar",
        source.span_at(found.start(1)),
    )


def unreadable_at(code: str, message: str, hint: str, span: Span) -> Problem:
    """Return what is wrong at a place of a file that does not parse."""
    return Problem(severity=Severity.ERROR, code=code, message=message, hint=hint, span=span)
