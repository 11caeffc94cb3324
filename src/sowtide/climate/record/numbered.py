"""The lines of a file as they go by, numbered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator


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
