"""What to add for what is wanted as a page: a table of before and after, and the lines."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.report.blocks import Block, Cells, Heading, Pasted, Space, Style, Table, Text, line
from sowtide.report.fill.view import FillCrop, FillView
from sowtide.report.kit import words
from sowtide.report.supply.page import gap_line, strips_of, undated
from sowtide.units import show_number

_LITTLE = 0.05
"""Less than this is no tenth of a week's want. [weeks]"""


def page(of: FillView) -> Iterator[Block]:
    """Yield what is met before and after, what cannot be, and the lines to paste."""
    yield Heading(f"FILL {words.season_name(of.setting.year)}", of.setting.name)
    if not of.crops:
        yield Text("Nothing is said to be wanted: write it below `want:`.")
        return
    yield Text(
        "Plantings for what is wanted and not met, into the room that the plan leaves: on safe "
        "days, where rotation lets them. What is in the file stays as it is."
    )
    yield Space()
    yield _table(of)
    yield Text("Unmet: what is not expected, in weeks' wants.")
    yield from _drawn(of)
    yield from _still(of)
    yield from undated([each.crop for each in of.crops if not each.weeks_wanted])
    yield Space()
    if not of.lines:
        met = of.unmet_before < _LITTLE
        why = "all that is wanted comes" if met else "no room, or no safe day, would bring more"
        yield Text(f"There is nothing to add: {why}.")
        return
    yield Heading("PASTE below waves:", words.count(len(of.lines), "wave"))
    for each in of.lines:
        yield Pasted("- {", each.parts, "}", indent=2)
    yield Space()
    yield Text(
        "What it promises is the mean of all years at the middle of known yields. Odds, not "
        "promises."
    )


def _table(of: FillView) -> Table:
    columns = (
        Cells("weeks", 6, right=True),
        Cells("unmet", 6, right=True),
        Cells("after", 6, right=True),
        Cells("gaps", 5, right=True),
        Cells("after", 6, right=True),
        Cells("waves", 6, right=True),
        Cells("plants", 7, right=True),
    )
    rows = [(each.crop, _cells(each)) for each in of.crops]
    if len(rows) > 1:
        sums = (
            str(sum(each.weeks_wanted for each in of.crops)),
            show_number(of.unmet_before),
            show_number(of.unmet_after),
            str(sum(each.gaps_before for each in of.crops)),
            str(sum(each.gaps_after for each in of.crops)),
            str(len(of.lines)),
            "",
        )
        rows.append(("together", sums))
    return Table("", columns, tuple(rows))


def _drawn(of: FillView) -> Iterator[Block]:
    """Draw every crop's weeks as the file stands, and below them with the lines in it."""
    rows = []
    for each in of.crops:
        rows += [(each.crop, each.was), ("with the lines", each.now)]
    shown = [(name, crop) for name, crop in rows if crop.weeks]
    if shown:
        yield Space()
        yield strips_of(shown, of.this_week, of.setting.year)


def _cells(of: FillCrop) -> tuple[str, ...]:
    return (
        str(of.weeks_wanted),
        show_number(of.unmet_before),
        show_number(of.unmet_after),
        str(of.gaps_before),
        str(of.gaps_after),
        str(of.waves) if of.waves else "",
        f"{of.plants:,}" if of.plants else "",
    )


def _still(of: FillView) -> Iterator[Block]:
    """Say what cannot be met, and why."""
    gaps = [(each, gap) for each in of.crops for gap in each.still]
    if gaps:
        yield Space()
        yield Heading("STILL NOT MET", "weeks with less than half of what is wanted")
        for crop, gap in gaps:
            yield gap_line(crop.crop, crop.unit, gap, of.setting.year)
    else:
        yield Space()
        yield Text(line(("No gap is left from today on.", Style.GOOD)))
