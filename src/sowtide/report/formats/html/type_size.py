"""How large the letters of a sheet may be, so that what is ticked off by hand fills one page.

A sheet is counted in lines before anything has printed it: about how many letters go into a line,
and how high the rows of each block are. A sheet of several pages has the smallest letters.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from sowtide.report.blocks import (
    Block,
    Checklist,
    ChecklistGroup,
    Grid,
    Heading,
    Inline,
    Rule,
    SeasonChart,
    Table,
    Text,
    ToFillIn,
    TrailingTable,
    line,
)
from sowtide.report.formats.html.paper import PrintSheet

_SIZES = (11.5, 10.5, 9.5, 8.9, 8.3, 7.7)
"""Sizes of letters for what is ticked off, largest first. [pt]"""
_READ, _DRAWN = 9.5, 8.4
"""Of a page to read, and of one with a season drawn. [pt]"""
_POINT = 25.4 / 72  # [mm]
_LETTER = 0.5
"""About how wide a letter is. [em]"""
_HOW, _BESIDE = 0.5, 0.36
"""The share of a sheet that words have beside what they are of: in a row, in half a row."""
_SPARE = 1.06
"""By how much a sheet may come out longer than it was counted."""


def type_size(blocks: Iterable[Block], sheet: PrintSheet) -> float:
    """Return the size of the letters of a sheet on paper. [pt]"""
    listed = tuple(blocks)
    if any(isinstance(each, SeasonChart) for each in listed):
        return _DRAWN
    if not any(isinstance(each, Checklist) for each in listed):
        return _READ
    return next((size for size in _SIZES if _fits(listed, size, sheet)), _SIZES[-1])


def _fits(blocks: tuple[Block, ...], size: float, sheet: PrintSheet) -> bool:
    em = size * _POINT
    letters = sheet.width / (em * _LETTER)
    high = beside = 0.0
    for block in blocks:
        if isinstance(block, Checklist):
            high += _checklist(block, letters)
        elif isinstance(block, Table | TrailingTable | Heading):
            beside += _row_by_row(block)
        elif isinstance(block, Text):
            high += _lines(block.words, letters) + 0.3
        elif isinstance(block, ToFillIn):
            high += 2.0 * (len(block.rows) + 1)
        else:
            high += 0.8 if isinstance(block, Rule) else 1.9
    return (high + beside / 2) * _SPARE * em <= sheet.height


def _row_by_row(of: Table | TrailingTable | Heading) -> float:
    return 2.0 if isinstance(of, Heading) else 2.0 + 1.35 * len(of.rows)


def _lines(words: Inline, letters: float) -> float:
    """Return how high words are in lines of so many letters. [em]"""
    return 1.15 * max(1, ceil(len(line(words).plain) / letters))


def _checklist(of: Checklist, letters: float) -> float:
    """Return how high a list to tick off is. [em]"""
    high = beside = 0.0
    for part in of.parts:
        if isinstance(part, Grid):
            high += 2.0 + sum(1.8 + 1.3 * (row.note is not None) for row in part.rows)
        elif part.place:
            high += _group(part, letters * _HOW)
        else:
            beside += _group(part, letters * _BESIDE, named=True)
    return high + beside / 2


def _group(of: ChecklistGroup, letters: float, *, named: bool = False) -> float:
    """Return how high a part of it is, the name of each item among its words or beside them."""
    rows = (line(f"{item.verb} {item.name} " * named, item.words) for item in of.items)
    return 2.0 + sum(_lines(row, letters) + 0.35 for row in rows)
