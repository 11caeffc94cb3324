"""A file of daily temperatures as it goes by: opened, unpacked, bounded, its lines numbered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from io import BufferedReader, RawIOBase, TextIOWrapper
from pathlib import Path
from typing import Any

from sowtide.diagnostics import ordinary, unreadable

BUFFER = 1 << 16
"""How much is read at once, and looked at to tell what the file is. [bytes]"""

LARGEST, MOST_LINES, LONGEST_LINE = 100_000_000, 1_000_000, 4 * BUFFER
"""No record of one station comes near these, unpacked. [bytes], [lines], [bytes]"""

_GZIP = b"\x1f\x8b"
_ENCODINGS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))


class BoundsError(Exception):
    """Raised where a file is larger than any record, with what is too large."""


@contextmanager
def opened(path: Path, name: str) -> Iterator[BufferedReader]:
    """Open a file, unpacked if it is compressed with gzip.

    Reading it raises `BoundsError` where it is larger than any record.

    Raises
    ------
    Unreadable
        If there is no such file, it is none or it cannot be opened.
    """
    ordinary(path, name)
    try:
        file = path.open("rb", buffering=0)
    except (OSError, ValueError) as error:
        raise unreadable(name, error) from None
    with file:
        packed = file.read(len(_GZIP)) == _GZIP
        file.seek(0)
        if not packed:
            yield BufferedReader(_Bounded(file), BUFFER)
            return
        from gzip import GzipFile

        with GzipFile(fileobj=file) as unpacked:
            yield BufferedReader(_Bounded(unpacked), BUFFER)


def encoding_of(head: bytes) -> str | None:
    """Return the encoding that a mark at the head of a file names, or None."""
    return next((name for mark, name in _ENCODINGS if head.startswith(mark)), None)


def text_of(file: BufferedReader, head: bytes) -> TextIOWrapper:
    """Return the lines of a file; bytes that are not UTF-8 pass through it."""
    encoding = encoding_of(head) or "utf-8"
    errors = "surrogateescape" if encoding.startswith("utf-8") else "replace"
    return TextIOWrapper(file, encoding, errors)


class Lines:
    """The lines of a file as they go by.

    Attributes
    ----------
    number
        How many have been read.
    text
        The last of them.
    """

    __slots__ = ("_stream", "number", "text")

    def __init__(self, stream: Iterable[str]) -> None:
        self._stream = stream
        self.number = 0
        self.text = ""

    def __iter__(self) -> Iterator[str]:
        for text in self._stream:
            self.number += 1
            self.text = text
            yield text


class _Bounded(RawIOBase):
    """The bytes of a file, as long as they are no more than those of a record.

    A small compressed file may unpack to any size, in lines that nobody reads or in one line.
    """

    def __init__(self, source: Any) -> None:
        self._source = source
        self._size = self._lines = self._unbroken = 0

    def readable(self) -> bool:
        return True

    def readinto(self, buffer: Any) -> int:
        count: int = self._source.readinto(buffer)
        chunk = bytes(buffer[:count])
        ends = max(chunk.count(b"\n"), chunk.count(b"\r"))
        self._size += count
        self._lines += ends
        self._unbroken = 0 if ends else self._unbroken + count
        if self._size > LARGEST:
            raise BoundsError(f"is larger than {LARGEST // 1_000_000} MB")
        if self._lines > MOST_LINES:
            raise BoundsError(f"has more than {MOST_LINES:,} lines")
        if self._unbroken > LONGEST_LINE:
            raise BoundsError(f"has a line of more than {LONGEST_LINE // 1000} kB")
        return count
