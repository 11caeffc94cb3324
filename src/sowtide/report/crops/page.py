"""The list of crops: the garden's own first, the built-in ones by family, cover crops last."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from sowtide.days import DayRange
from sowtide.garden.model import Garden
from sowtide.report.blocks import EMPTY, Line, Style, line, styled
from sowtide.report.crops.listing import (
    Listed,
    ListedCover,
    built_in_crops,
    listed_covers,
    own_crops,
)
from sowtide.report.crops.words import ONCE
from sowtide.report.formats.terminal.cells import Column, cells, cut, row, width_of, wrap
from sowtide.report.kit import words

_GAP, _NARROW_GAP = 2, 1
_LEAST_NAME = 16
"""Room that names must have to stand beside the columns. [cells]"""
_CHANGED = " *"
_LEAST_NAMES = 24
"""Room that other names of crops are worth showing in. [cells]"""

_TITLES = ("days", "counted from", "started", "hardiness", "sow every")
_NUMBERS = ("days", "line", "sow from")
"""Columns whose texts stand at the right edge."""
_COVER_TITLES = ("sow from", "sow until", "dig in after", "in winter")

_Row = tuple[str, tuple[str, ...], str]
"""A name, the texts beside it, and other names."""


def crops_text(garden: Garden | None, *, width: int) -> tuple[Line, ...]:
    """Lay out all crops there are.

    Parameters
    ----------
    garden
        The garden whose file has a say in them, or None.
    width
        Of the screen. [cells]
    """
    own = own_crops(garden)
    built_in = built_in_crops(own)
    covers = listed_covers()
    lines: list[Line] = []
    if garden is not None:
        lines += _own(own, garden, width)
    heading = (
        f"BUILT IN  {words.count(len(built_in), 'crop')} and "
        f"{words.count(len(covers), 'cover crop')}"
    )
    lines.append(styled(heading, Style.STRONG))
    lines += wrap(_how_to_read(built_in), width)
    by_family = [
        (family, [_crop(each) for each in of_family])
        for family, of_family in groupby(built_in, key=lambda each: each.crop.family)
    ]
    lines += _table(_TITLES, by_family, width)
    lines += (EMPTY, styled("COVER CROPS", Style.STRONG))
    lines += wrap(
        "Sown to close a space and dug in. Days count from the average last and first frost.",
        width,
    )
    lines += _table(_COVER_TITLES, [("", [_cover(each) for each in covers])], width)
    lines.append(EMPTY)
    lines += wrap("sowtide crops NAME shows every figure of one with its source.", width)
    return tuple(lines)


def _own(own: tuple[Listed, ...], garden: Garden, width: int) -> Iterator[Line]:
    """List what the file says of crops, with its place."""
    yield styled(f"IN {garden.label}", Style.STRONG)
    if own:
        named = [_named(each) for each in own]
        yield from _table((*_TITLES, "line"), [("", named)], width)
    else:
        yield from wrap("It says nothing of its own about crops.", width)
    yield EMPTY


def _named(each: Listed) -> _Row:
    name, texts, _ = _crop(each)
    return name, (*texts, str(each.place.line) if each.place and each.place.line else ""), ""


def _how_to_read(built_in: Iterable[Listed]) -> str:
    text = "Days run to the first pick, from sowing or from planting out."
    if any(each.is_changed for each in built_in):
        text += " * changed in your file, see above."
    return text


def _crop(each: Listed) -> _Row:
    crop = each.crop
    texts = (
        _days(crop.days_to_harvest),
        crop.counted_from.value,
        crop.raised.value,
        crop.hardiness.value,
        _every(each.sow_every),
    )
    return crop.title + (_CHANGED if each.is_changed else ""), texts, ", ".join(each.names)


def _cover(each: ListedCover) -> _Row:
    cover = each.cover
    texts = (
        _from_frost(-cover.sow_after_frost, "last"),
        _from_frost(cover.sow_before_frost, "first"),
        f"{_days(cover.days_to_dig_in)} days",
        "dies" if cover.winter_kills else "stands",
    )
    return cover.name, texts, ", ".join(each.names)


def _days(days: DayRange) -> str:
    return str(days.low) if days.low == days.high else f"{days.low}–{days.high}"


def _every(written: str | None) -> str:
    if written is None:
        return "not known"
    return ONCE if written == ONCE else f"{written.replace('-', '–')} days"


def _from_frost(days: int, frost: str) -> str:
    """Say a day by its days before a frost; fewer than none are after it."""
    if not days:
        return f"the {frost} frost"
    return f"{words.count(abs(days), 'day')} {'before' if days > 0 else 'after'}"


def _table(
    titles: Sequence[str], groups: Sequence[tuple[str, list[_Row]]], width: int
) -> Iterator[Line]:
    """Yield rows under their groups' names; what is said at the end of a row, if there is room.

    A name too long to stand beside the columns has a line of its own; where room is short, every
    name has.
    """
    rows = [each for _, of_group in groups for each in of_group]
    columns = [
        Column(
            max(cells(title), *(cells(texts[number]) for _, texts, _ in rows)), title in _NUMBERS
        )
        for number, title in enumerate(titles)
    ]
    indent = 2 if any(name for name, _ in groups) else 0
    longest = indent + max(cells(each) for each, _, _ in rows)
    gap = _GAP
    room = width - sum(column.width + gap for column in columns)
    if room < min(longest, _LEAST_NAME):
        gap = _GAP if room >= indent else _NARROW_GAP
        room = indent
    name = Column(min(longest, room))
    end = name.width + sum(column.width + gap for column in columns)
    yield row((name, *columns), [(text, Style.DIM) for text in ("", *titles)], gap=gap)
    for group, of_group in groups:
        if group:
            yield styled(group, Style.STRONG)
        for called, texts, more in of_group:
            shown = " " * indent + called
            if cells(shown) > name.width:
                yield line(shown)
                shown = ""
            whole = row((name, *columns), (shown, *texts), gap=gap)
            if more and width - end - gap >= _LEAST_NAMES:
                space = " " * (end + gap - width_of(whole))
                more = _as_many(more, width - end - gap)
                yield line(whole, space, (more, Style.DIM))
            else:
                yield whole


def _as_many(names: str, room: int) -> str:
    """Return as many whole names as there is room for, with … where some are left out."""
    if cells(names) <= room:
        return names
    kept = cut(names, room - 1)
    return kept[: kept.rfind(",") + 1] + " …" if "," in kept else cut(names, room)
