"""Styled words: a style only repeats what the words say already."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum
from typing import TypeAlias

from sowtide.values import value

KEPT = "\N{NO-BREAK SPACE}"
"""A space at which no line is broken."""


class Style(Enum):
    """How a span is meant; colour never says more than its words."""

    PLAIN = "plain"
    STRONG = "strong"
    DIM = "dim"
    GOOD = "good"
    WARN = "warn"
    BAD = "bad"
    HEADING = "heading"


Span: TypeAlias = tuple[str, Style]
"""A piece of text and its style."""


@value
class Line:
    """Styled words in a row."""

    spans: tuple[Span, ...] = ()
    """Its pieces from left to right."""

    @property
    def plain(self) -> str:
        """Its text without styles."""
        return "".join([text for text, _ in self.spans])


Inline: TypeAlias = str | Span | Line
"""What a line may be put together from."""


EMPTY = Line()


def line(*parts: Inline) -> Line:
    """Put a line together from strings, spans and other lines.

    Examples
    --------
    >>> line("sow ", ("16 plants", Style.STRONG)).plain
    'sow 16 plants'
    """
    spans: list[Span] = []
    for part in parts:
        if isinstance(part, str):
            spans.append((part, Style.PLAIN))
        elif isinstance(part, Line):
            spans += part.spans
        else:
            spans.append(part)
    return Line(tuple(spans))


def styled(text: str, style: Style) -> Line:
    """Return a line of one style."""
    return Line(((text, style),))


def plain(lines: Iterable[Line]) -> tuple[str, ...]:
    """Return the lines as strings, without styles."""
    return tuple(each.plain for each in lines)


def together(text: str) -> str:
    """Return the text so that no line is broken at a space of it.

    Examples
    --------
    >>> together("16 Jul") == "16\N{NO-BREAK SPACE}Jul"
    True
    """
    return text.replace(" ", KEPT)
