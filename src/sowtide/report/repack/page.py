"""What placing afresh would gain as a page, and the lines to paste."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.report.blocks import (
    Block,
    Cells,
    Heading,
    Pasted,
    Space,
    Style,
    Table,
    Text,
    line,
)
from sowtide.report.kit import words
from sowtide.report.repack.view import Gained, RepackView, brackets

_NAMES = 28
"""Room for the names of the table, so that its numbers stand apart. [cells]"""


def page(of: RepackView) -> Iterator[Block]:
    """Yield what is gained and the lines to paste."""
    year = of.setting.year
    yield Heading(f"REPACK {words.season_name(year)}", of.setting.name)
    yield Text(
        f"All waves planted from {words.weekday(of.today, year)} on, placed afresh with "
        "the whole season in sight. Their days stay, and so do waves planted before."
    )
    if not of.paste:
        said = "Nothing better was found: leave the file as it is."
        if of.now.waves_with_room == of.waves:
            said = "Every wave has its room: leave the file as it is."
        yield Space()
        yield Text(said)
        return
    yield Space()
    yield _table(of)
    yield Space()
    yield from _changes(of)
    yield Space()
    yield Heading("PASTE into the entries of waves:")
    yield Text(
        "In an entry in braces, before the closing one and after a comma. What an entry says there "
        "of `beds` or `wave_beds` already is replaced."
    )
    for paste in of.paste:
        yield Text(line((paste.series, Style.STRONG), f" ({paste.file}:{paste.line})"))
        opened, closed = brackets(paste.key)
        yield Pasted(f"{paste.key}: {opened}", paste.parts, closed)


def _table(of: RepackView) -> Table:
    columns = (Cells("now", 8, right=True), Cells("repacked", 8, right=True), Cells("", 7))
    waves = (str(of.now.waves_with_room), str(of.repacked.waves_with_room), f"of {of.waves:,}")
    shares = (_share(of.now), _share(of.repacked), "")
    rows = (("waves with room", waves), ("of area × days asked for", shares))
    return Table("", columns, tuple((name.ljust(_NAMES), texts) for name, texts in rows))


def _share(of: Gained) -> str:
    return f"{of.tenths // 10}.{of.tenths % 10} %"


def _changes(of: RepackView) -> Iterator[Block]:
    """Name the waves that find room and those that lose it."""
    for title, names in (("ROOM IS FOUND FOR ", of.finds_room), ("LOSES ITS ROOM ", of.loses_room)):
        if names:
            yield Text(line((title, Style.HEADING), ", ".join(names)), hang=2)
