"""A page as a file of its own, which begins with a title."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TypeVar

from sowtide.report.blocks.plain_blocks import Heading, Text
from sowtide.report.blocks.styled import Line, Style

B = TypeVar("B")


def headed(blocks: Iterable[B]) -> Iterator[B | Heading]:
    """Yield the blocks of a page; a first paragraph that begins with a title is a heading.

    Examples
    --------
    >>> from sowtide.report.blocks import line
    >>> list(headed([Text(line(("bean-5", Style.HEADING), ": 36 plants, sown direct"))]))
    [Heading(title='bean-5', beside='36 plants, sown direct')]
    """
    for number, block in enumerate(blocks):
        heading = _heading(block) if number == 0 and isinstance(block, Text) else None
        yield block if heading is None else heading


def _heading(of: Text) -> Heading | None:
    words = of.words
    if isinstance(words, str):
        return None
    (title, style), *others = words.spans if isinstance(words, Line) else (words,)
    if style is not Style.HEADING:
        return None
    return Heading(title, "".join(text for text, _ in others).lstrip(": ") or None)
