"""The list of crops: the garden's own first, the built-in ones by family, cover crops last."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from sowtide.report.blocks import Block, Heading, Listing, ListingRow, Space, Style, Text
from sowtide.report.crops.view import ONCE, CropsView, InWinter, ListedCover, ListedCrop
from sowtide.report.kit import words

_CHANGED = " *"
_COLUMNS = (
    ("days", True),
    ("counted from", False),
    ("started", False),
    ("hardiness", False),
    ("sow every", False),
)
_COVER_COLUMNS = (
    ("sow from", True),
    ("sow until", False),
    ("dig in after", False),
    ("in winter", False),
)


def page(of: CropsView) -> Iterator[Block]:
    """Yield all crops there are."""
    if of.file is not None:
        yield from _own(of, of.file)
    crops = words.count(len(of.built_in), "crop")
    covers = words.count(len(of.cover_crops), "cover crop")
    yield Heading("BUILT IN", f"{crops} and {covers}")
    yield Text(_how_to_read(of))
    yield Listing(
        _COLUMNS,
        tuple(
            (family, tuple(map(_crop, of_family)))
            for family, of_family in groupby(of.built_in, key=lambda each: each.family)
        ),
    )
    yield Space()
    yield Heading("COVER CROPS")
    yield Text(
        "Sown to close a space and dug in. Days count from the average last and first frost."
    )
    yield Listing(_COVER_COLUMNS, (("", tuple(map(_cover, of.cover_crops))),))
    yield Space()
    yield Text("sowtide crops NAME shows every figure of one with its source.")


def _own(of: CropsView, file: str) -> Iterator[Block]:
    """Yield what the file says of crops, with its place."""
    yield Text((f"IN {file}", Style.HEADING))
    if of.own:
        yield Listing((*_COLUMNS, ("line", True)), (("", tuple(map(_of_file, of.own))),))
    else:
        yield Text("It says nothing of its own about crops.")
    yield Space()


def _of_file(each: ListedCrop) -> ListingRow:
    row = _crop(each)
    return ListingRow(row.name, (*row.texts, str(each.line)))


def _how_to_read(of: CropsView) -> str:
    text = "Days run to the first pick, from sowing or from planting out."
    if any(each.is_changed for each in of.built_in):
        text += " * changed in your file, see above."
    return text


def _crop(each: ListedCrop) -> ListingRow:
    texts = (
        _days(*each.days_to_harvest),
        each.counted_from.value,
        each.raised.value,
        each.hardiness.value,
        _every(each.every),
    )
    mark = _CHANGED if each.is_changed else ""
    return ListingRow(each.title + mark, texts, ", ".join(each.names))


def _cover(each: ListedCover) -> ListingRow:
    texts = (
        _from_frost(-each.sow_after_frost, "last"),
        _from_frost(each.sow_before_frost, "first"),
        f"{_days(*each.days_to_dig_in)} days",
        "dies" if each.winter is InWinter.KILLED else "stands",
    )
    return ListingRow(each.name, texts, ", ".join(each.names))


def _days(low: int, high: int) -> str:
    return str(low) if low == high else f"{low}–{high}"


def _every(written: str | None) -> str:
    if written is None:
        return "not known"
    return ONCE if written == ONCE else f"{written.replace('-', '–')} days"


def _from_frost(days: int, frost: str) -> str:
    """Say a day by its days before a frost; fewer than none are after it."""
    if not days:
        return f"the {frost} frost"
    return f"{words.count(abs(days), 'day')} {'before' if days > 0 else 'after'}"
