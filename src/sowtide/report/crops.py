"""The list of crops: the garden's own first, the built-in ones by family, cover crops last."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from sowtide.days import DayRange
from sowtide.garden.model import Garden
from sowtide.report import words
from sowtide.report.crop_list import (
    Listed,
    ListedCover,
    built_in_crops,
    listed_covers,
    own_crops,
)
from sowtide.report.crop_words import ONCE
from sowtide.report.sheet import (
    EMPTY,
    Column,
    Line,
    Style,
    cells,
    cut,
    line,
    row,
    styled,
    wrap,
)

_GAP = 2
_CHANGED = " *"
_LEAST_NAMES = 24
"""Room that other names of crops are worth showing in. [cells]"""

_TITLES = ("days", "counted from", "started", "hardiness", "sow every")
_COVER_TITLES = ("sow from", "sow until", "dig in after", "in winter")

_Row = tuple[str, tuple[str, ...], str]
"""A name, the texts beside it, and what is said at the end if there is room."""


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
        yield from _table(_TITLES, [("", named)], width, names=False)
    else:
        yield from wrap("It says nothing of its own about crops.", width)
    yield EMPTY


def _named(each: Listed) -> _Row:
    name, texts, _ = _crop(each)
    return name, texts, f"line {each.place.line}" if each.place and each.place.line else ""


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
    titles: Sequence[str],
    groups: Sequence[tuple[str, list[_Row]]],
    width: int,
    *,
    names: bool = True,
) -> Iterator[Line]:
    """Yield rows under their groups' names; a name has a line of its own where room is short.

    What is said at the end of a row stands there if there is room; other names are left out, or
    some of them, if there is none, and a place in the file goes beside the name.
    """
    rows = [each for _, of_group in groups for each in of_group]
    columns = [
        Column(max(cells(title), *(cells(texts[number]) for _, texts, _ in rows)), number == 0)
        for number, title in enumerate(titles)
    ]
    beside = sum(column.width + _GAP for column in columns)
    indent = 2 if any(name for name, _ in groups) else 0
    longest = indent + max(cells(each) for each, _, _ in rows)
    own_lines = longest + beside > width
    name = Column(indent if own_lines else longest)
    room = width - name.width - beside - _GAP
    if room < (_LEAST_NAMES if names else max(cells(more) for _, _, more in rows)):
        room = 0
    yield row((name, *columns), [(text, Style.DIM) for text in ("", *titles)])
    for group, of_group in groups:
        if group:
            yield styled(group, Style.STRONG)
        for called, texts, more in of_group:
            shown = " " * indent + called
            if own_lines or (more and not names and not room):
                yield line(shown, ("" if names or not more else f"  {more}", Style.DIM))
                shown = ""
            whole = row((name, *columns), (shown, *texts))
            space = " " * (name.width + beside + _GAP - whole.width)
            behind = (space, (_as_many(more, room), Style.DIM)) if more and room else ()
            yield line(whole, *behind)


def _as_many(names: str, room: int) -> str:
    """Return as many whole names as there is room for, with … where some are left out."""
    if cells(names) <= room:
        return names
    kept = cut(names, room - 1)
    return kept[: kept.rfind(",") + 1] + " …" if "," in kept else cut(names, room)
