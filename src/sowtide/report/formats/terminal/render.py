"""A page's blocks as lines of a terminal."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from importlib import import_module
from typing import Any

from sowtide.report.blocks import (
    EMPTY,
    AbreastTable,
    Banner,
    Block,
    Checklist,
    CutOuts,
    DatedTable,
    Fault,
    FigureList,
    FileTitle,
    GroupedTable,
    Heading,
    Line,
    Listing,
    MeasuredTable,
    Pasted,
    Rule,
    SeasonChart,
    ShareBars,
    Space,
    Style,
    Sum,
    Table,
    Term,
    Text,
    ToFillIn,
    Tracks,
    TrailingTable,
    WeekStrips,
    line,
)
from sowtide.report.formats.terminal.cells import Column, cells, cut, fit, row, rule, wrap
from sowtide.report.formats.terminal.checklist import checklist
from sowtide.report.formats.terminal.problem_lines import lines as problem_lines
from sowtide.report.formats.terminal.tables import grouped_table, table, trailing_table

_FULL = "#"


def rendered(blocks: Iterable[Block], width: int) -> Iterator[Line]:
    """Lay out a page.

    Parameters
    ----------
    blocks
        What it is made of, from top to bottom.
    width
        Of the screen. [cells]
    """
    for block in blocks:
        yield from _renderer_of(type(block))(block, width)


def _renderer_of(block: type[Any]) -> Callable[[Any, int], Iterable[Line]]:
    """Return what lays out a kind of block; those that few pages have are loaded with the first."""
    if block not in _RENDERERS:
        module, name = _LOADED_LATER[block]
        found = import_module(f"{__name__.rpartition('.')[0]}.{module}")
        _RENDERERS[block] = getattr(found, name)
    return _RENDERERS[block]


def _gap(_: Space, width: int) -> Iterator[Line]:
    yield EMPTY


def _cut_outs(of: CutOuts, width: int) -> Iterator[Line]:
    for number, label in enumerate(of.labels):
        if number:
            yield EMPTY
        yield fit(line((label.title, Style.STRONG)), width)
        for text in label.lines:
            yield from wrap(text, width, first="  ")


def _nothing(_: ToFillIn, width: int) -> Iterator[Line]:
    """Yield nothing: no pen writes on a screen."""
    yield from ()


def _rule(_: Rule, width: int) -> Iterator[Line]:
    yield rule(width)


def _banner(of: Banner, width: int) -> Iterator[Line]:
    left = cut(of.left, max(width - cells(of.right) - 2, 8))
    space = " " * max(width - cells(left) - cells(of.right), 2)
    yield fit(line((left, Style.HEADING), space, (of.right, Style.STRONG)), width)


def _bars(of: ShareBars, width: int) -> Iterator[Line]:
    columns = (Column(10, right=True), Column(5, right=True))
    room = width - 2 - sum(column.width + 2 for column in columns)
    for bar in of.bars:
        drawn = _FULL * round(min(bar.share, 1) * room)
        yield line(row(columns, (bar.label, bar.said)), f"  {drawn}")


def _heading(heading: Heading, width: int) -> Iterator[Line]:
    beside = "" if heading.beside is None else f"  {heading.beside}"
    yield fit(line((heading.title, Style.HEADING), beside), width)


def _text(text: Text, width: int) -> Iterable[Line]:
    return wrap(text.words, width, first=text.first, hang=text.hang)


def _term(of: Term, width: int) -> Iterator[Line]:
    yield line((of.term, Style.STRONG), "  ", of.words)


def _pasted(of: Pasted, width: int) -> Iterator[Line]:
    indent = " " * of.indent
    text = f"{indent}{of.opened}"
    for number, part in enumerate(of.parts):
        said = part + (of.closed if number == len(of.parts) - 1 else ",")
        if number and len(text) + len(said) + 1 > width:
            yield line(text)
            text = f"{indent}  {said}"
        else:
            text += said if not number else f" {said}"
    yield line(text)


def _fault(fault: Fault, width: int) -> Iterable[Line]:
    return problem_lines(fault.problem, width, also=fault.also)


_RENDERERS: dict[type[Any], Callable[[Any, int], Iterable[Line]]] = {
    Space: _gap,
    Rule: _rule,
    Heading: _heading,
    Text: _text,
    Term: _term,
    Table: table,
    GroupedTable: grouped_table,
    Fault: _fault,
    Pasted: _pasted,
    Banner: _banner,
    ShareBars: _bars,
    Checklist: checklist,
    CutOuts: _cut_outs,
    FileTitle: _nothing,
    ToFillIn: _nothing,
    TrailingTable: trailing_table,
}
_LOADED_LATER = {
    AbreastTable: ("season_chart", "abreast_table"),
    SeasonChart: ("season_chart", "season_chart"),
    DatedTable: ("dated_table", "dated_table"),
    Sum: ("sums", "sum_lines"),
    Tracks: ("tracks", "tracks"),
    FigureList: ("figures", "figure_list"),
    MeasuredTable: ("figures", "measured_table"),
    Listing: ("listing", "listing"),
    WeekStrips: ("tracks", "week_strips"),
}
