"""Words and tables as Markdown, which read as they were written."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from sowtide.report.blocks import KEPT, Inline, Line, Style, line

_CODE = re.compile(r"(`[^`\n]+`)")
_SPECIAL = re.compile(r"([\\*_\[\]<>|~`])")
_AT_START = re.compile(r"^(#{1,6}|[-+=]+|\d+[.)])(?=\s|$)")
_ENTITY = re.compile(r"&(?=#?\w+;)")
_BOLD = (Style.STRONG, Style.HEADING, Style.BAD, Style.WARN)

Cell = Inline | None
"""What may stand in a cell of a table."""


def said(of: Cell) -> str:
    """Return words as Markdown that reads as they stand; what is in backticks stays code."""
    if of is None:
        return ""
    spans = (of if isinstance(of, Line) else line(of)).spans
    return "".join(_styled(text, style) for text, style in spans)


def _styled(text: str, style: Style) -> str:
    parts = _CODE.split(text.replace(KEPT, " "))
    made = "".join(
        part if number % 2 else _ENTITY.sub("&amp;", _SPECIAL.sub(r"\\\1", part))
        for number, part in enumerate(parts)
    )
    bare = made.strip()
    if style in _BOLD and bare:
        return made.replace(bare, f"**{bare}**", 1)
    return made


def paragraph(of: Inline) -> str:
    """Return a paragraph that is not taken for a heading or an item of a list."""
    text = said(of)
    found = _AT_START.match(text)
    if found is None:
        return text
    at = found.end() - 1 if found[0][0].isdigit() else 0
    return f"{text[:at]}\\{text[at:]}"


def table_rows(
    titles: Sequence[Cell], rows: Iterable[Sequence[Cell]], right: Sequence[bool] = ()
) -> Iterator[str]:
    """Yield a table; cells are on one line, as the notation has it."""
    yield _row(titles)
    sides = [*right, *[False] * len(titles)][: len(titles)]
    yield f"| {' | '.join('---:' if each else '---' for each in sides)} |"
    for row in rows:
        yield _row([*row, *[""] * (len(titles) - len(row))])


def _row(cells: Iterable[Cell]) -> str:
    return f"| {' | '.join(' '.join(said(each).split()) for each in cells)} |"
