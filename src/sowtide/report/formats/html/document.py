"""A page of blocks as one file: nothing in it is fetched from elsewhere, and nothing runs."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from sowtide.report.blocks import (
    Banner,
    Block,
    FileTitle,
    Heading,
    Inline,
    Line,
    SeasonChart,
    Space,
    Style,
    Tracks,
    WeekStrips,
    headed,
    strip_rows,
    track_rows,
)
from sowtide.report.choices import Paper
from sowtide.report.formats.html.marks import Drawing
from sowtide.report.formats.html.paper import PrintSheet, sheet_of
from sowtide.report.formats.html.season_drawing import drawn_season
from sowtide.report.formats.html.track_drawing import drawn_tracks, key_of_tracks
from sowtide.report.formats.html.type_size import type_size
from sowtide.report.formats.html.week_drawing import drawn_weeks, key_of
from sowtide.values import value

if TYPE_CHECKING:  # imported where a page is made
    from jinja2 import Environment
    from markupsafe import Markup

_QUOTED = re.compile(r"`([^`]+)`")


@value
class Part:
    """A block of a page, as a template is given it."""

    kind: str
    """Which template lays it out: the name of its class."""
    block: Block
    level: int
    """How deep its title stands: 1 for that of the page."""
    drawn: Any
    """What is drawn of it; None for one that is words alone."""


@value
class PagePart:
    """What begins on a new sheet of paper, in letters of one size there. [pt]"""

    parts: tuple[Part, ...]
    size: float


@value
class DrawnStrips:
    """Strips drawn, what their fillings mean, and the same as a table: its head and its rows."""

    drawings: tuple[Drawing, ...]
    key: tuple[tuple[str, str], ...]
    of: str
    rows: tuple[tuple[str, str], ...]


def html_page(blocks: Iterable[Block], paper: Paper = Paper.A4) -> str:
    """Write a page as one HTML file for a screen of any width and for a size of paper.

    It lies on its long side where a season is drawn on it, and stands upright otherwise.
    """
    listed = tuple(headed(blocks))
    landscape = any(isinstance(block, SeasonChart) for block in listed)
    sheet = sheet_of(paper, landscape=landscape)
    titles = [title for block in listed if (title := _title(block))]
    text: str = (
        _environment()
        .get_template("page.html")
        .render(
            title=titles[0] if titles else "",
            sheet=sheet,
            page_parts=tuple(_page_parts(listed, sheet)),
        )
    )
    return text


def _page_parts(blocks: Iterable[Block], sheet: PrintSheet) -> Iterator[PagePart]:
    """Yield the parts of a page, a new one at each head of a sheet."""
    gathered: list[Part] = []
    for part in _parts(blocks, sheet):
        if part.kind == "Banner" and gathered:
            yield _page_part(gathered, sheet)
            gathered = []
        gathered.append(part)
    yield _page_part(gathered, sheet)


def _page_part(parts: list[Part], sheet: PrintSheet) -> PagePart:
    return PagePart(tuple(parts), type_size((part.block for part in parts), sheet))


def _parts(blocks: Iterable[Block], sheet: PrintSheet) -> Iterator[Part]:
    titled = False
    for block in blocks:
        if isinstance(block, Space):
            continue
        drawn: Any = None
        if isinstance(block, SeasonChart):
            drawn = drawn_season(block, sheet)
        elif isinstance(block, Tracks):
            drawn = DrawnStrips(
                drawn_tracks(block, sheet), key_of_tracks(block), "days", tuple(track_rows(block))
            )
        elif isinstance(block, WeekStrips):
            drawn = DrawnStrips(
                drawn_weeks(block, sheet), key_of(block), "weeks", tuple(strip_rows(block))
            )
        level = 2 if titled else 1
        titled = titled or bool(_title(block))
        yield Part(type(block).__name__, block, level, drawn)


def _title(of: Block) -> str:
    if isinstance(of, SeasonChart):
        return f"{of.title} {of.what.strip()}"
    if isinstance(of, Banner):
        return f"{of.left} {of.right}"
    if isinstance(of, Heading | FileTitle):
        return of.title if of.beside is None else f"{of.title} {of.beside}"
    return ""


@lru_cache(maxsize=1)
def _environment() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    made = Environment(
        loader=PackageLoader("sowtide.report.formats.html"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    made.filters.update(inline=_inline, mm=_mm, anchor=_anchor, quoted_in_style=_quoted_in_style)
    return made


def _mm(of: float) -> str:
    """Write a length to a hundredth of a millimetre."""
    return f"{of:.2f}".rstrip("0").rstrip(".")


def _quoted_in_style(of: str) -> Markup:
    """Write a text for between quotes in a style sheet, all but plain letters by their numbers."""
    from markupsafe import Markup

    plain = (c if c.isascii() and c.isalnum() else f"\\{ord(c):x} " for c in of)
    return Markup("".join(plain))


def _anchor(of: str) -> str:
    """Return a name as part of an `id`."""
    return re.sub(r"[^a-z0-9]+", "-", of.lower()).strip("-")


def _inline(of: Inline) -> Markup:
    """Return styled words as markup; what stands in backticks is code."""
    from markupsafe import Markup, escape

    if isinstance(of, str):
        spans: tuple[tuple[str, Style], ...] = ((of, Style.PLAIN),)
    else:
        spans = of.spans if isinstance(of, Line) else (of,)
    made = Markup()
    for text, style in spans:
        said = Markup(_QUOTED.sub(r"<code>\1</code>", str(escape(text))))
        if style is Style.PLAIN:
            made += said
        else:
            made += Markup('<span class="{}">{}</span>').format(style.value, said)
    return made
