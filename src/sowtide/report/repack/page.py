"""What placing afresh all that is not planted yet would gain, and the lines that do it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from sowtide.garden.model import Bed, Entry
from sowtide.report.blocks import EMPTY, Line, Style, line, styled
from sowtide.report.formats.terminal.cells import Column, fit, row, wrap
from sowtide.report.kit import words
from sowtide.report.kit.form import Object, Value, document
from sowtide.schedule.packing import area_days, area_days_asked
from sowtide.schedule.season import Season
from sowtide.values import value

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._/()+-]*")
_COLUMNS = (Column(28), Column(8, right=True), Column(8, right=True), Column(20))
_INDENT = "    "


@value
class Paste:
    """A key of an entry with its value, as it is written in the file.

    Parameters
    ----------
    series, file, line
        Which entry, and where it stands.
    key
        ``beds`` or ``wave_beds``.
    parts
        What stands between the brackets, each part to be kept on one line.
    """

    series: str
    file: str
    line: int
    key: str
    parts: tuple[str, ...]

    @property
    def text(self) -> str:
        """The key and its value on one line."""
        return f"{self.key}: {self._open}{', '.join(self.parts)}{self._close}"

    @property
    def _open(self) -> str:
        return "[" if self.key == "beds" else "{"

    @property
    def _close(self) -> str:
        return "]" if self.key == "beds" else "}"

    def lines(self, width: int) -> Iterator[str]:
        """Yield it on lines that may be pasted as they stand. [cells]"""
        text = f"{_INDENT}{self.key}: {self._open}"
        for number, part in enumerate(self.parts):
            last = number == len(self.parts) - 1
            said = part + (self._close if last else ",")
            if number and len(text) + len(said) + 1 > width:
                yield text
                text = f"{_INDENT}  {said}"
            else:
                text += said if not number else f" {said}"
        yield text


def pastes(before: Season, after: Season) -> tuple[Paste, ...]:
    """Return what has to be written into the entries of one season to make it the other."""
    found = []
    for old, new in zip(before.garden.entries, after.garden.entries, strict=True):
        if old is not new:
            key, parts = _written(old, new)
            found.append(Paste(new.name, new.span.file, new.span.line, key, parts))
    return tuple(found)


def _written(old: Entry, new: Entry) -> tuple[str, tuple[str, ...]]:
    if new.wave_beds == old.wave_beds:
        return "beds", tuple(_name(bed) for bed in new.beds)
    parts = (f"{number}: {_beds(beds)}" for number, beds in new.wave_beds)
    return "wave_beds", tuple(parts)


def _beds(beds: tuple[Bed, ...]) -> str:
    if not beds:
        return "none"
    if len(beds) == 1:
        return _name(beds[0])
    return f"[{', '.join(_name(bed) for bed in beds)}]"


def _name(bed: Bed) -> str:
    """Write a bed's name so that the file reads it as it is, in brackets too."""
    if _PLAIN.fullmatch(bed.name):
        return bed.name
    quoted = bed.name.replace("'", "''")
    return f"'{quoted}'"


def repack_text(before: Season, after: Season, *, width: int) -> tuple[Line, ...]:
    """Lay out what is gained and the lines to paste.

    Parameters
    ----------
    before, after
        The plan as it is, and repacked.
    width
        Of the screen. [cells]
    """
    garden = before.garden
    title = (f"REPACK {words.season_name(garden.year)}", Style.HEADING)
    lines = [fit(line(title, f"  {garden.site.name}"), width)]
    lines += wrap(
        f"All waves planted from {words.weekday(before.today, garden.year)} on, placed afresh with "
        "the whole season in sight. Their days stay, and so do waves planted before.",
        width,
    )
    found = pastes(before, after)
    if not found:
        said = "Nothing better was found: leave the file as it is."
        if all(wave.places for wave in before.waves):
            said = "Every wave has its room: leave the file as it is."
        return (*lines, EMPTY, *wrap(said, width))
    total = len(after.waves)
    asked = area_days_asked(before.waves, after.waves)
    lines += (
        EMPTY,
        row(_COLUMNS, [("", Style.DIM), ("now", Style.DIM), ("repacked", Style.DIM), ""]),
        row(
            _COLUMNS,
            ["waves with room", str(_placed(before)), str(_placed(after)), f"of {total:,}"],
        ),
        row(
            _COLUMNS,
            ["of area × days asked for", _share(before, asked), _share(after, asked), ""],
        ),
        EMPTY,
    )
    lines += _changes(before, after, width)
    lines += (EMPTY, styled("PASTE into the entries of waves:", Style.HEADING))
    lines += wrap(
        "In an entry in braces, before the closing one and after a comma. What an entry says there "
        "of `beds` or `wave_beds` already is replaced.",
        width,
    )
    for paste in found:
        lines.append(line((paste.series, Style.STRONG), f" ({paste.file}:{paste.line})"))
        lines += (line(text) for text in paste.lines(width))
    return tuple(lines)


def _placed(season: Season) -> int:
    return sum(bool(wave.places) for wave in season.waves)


def _share(season: Season, asked: int) -> str:
    tenths = int(Fraction(1000 * area_days(season.waves), asked))
    return f"{tenths // 10}.{tenths % 10} %"


def _changes(before: Season, after: Season, width: int) -> Iterator[Line]:
    """Name the waves that find room and those that lose it."""
    was = {wave.id: bool(wave.places) for wave in before.waves}
    now = {wave.id: bool(wave.places) for wave in after.waves}
    found = [name for name in now if now[name] and not was.get(name, False)]
    lost = [name for name in was if was[name] and not now.get(name, False)]
    for title, names in (("ROOM IS FOUND FOR ", found), ("LOSES ITS ROOM ", lost)):
        if names:
            yield from wrap(line((title, Style.HEADING), ", ".join(names)), width, hang=2)


def repack_json(before: Season, after: Season) -> str:
    """Write what is gained, and the lines to paste."""
    lines: list[Value] = [
        {
            "series": paste.series,
            "file": paste.file,
            "line": paste.line,
            "key": paste.key,
            "text": paste.text,
        }
        for paste in pastes(before, after)
    ]
    fields: Object = {"season": before.garden.year.season}
    asked = area_days_asked(before.waves, after.waves)
    for name, season in (("now", before), ("repacked", after)):
        fields[name] = {
            "waves_with_room": _placed(season),
            "share_of_area_days": round(area_days(season.waves) / asked, 3) if asked else None,
        }
    fields["paste"] = lines
    return document(fields)
