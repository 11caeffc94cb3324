"""What placing afresh all that is not planted yet would gain, and the lines that do it."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from sowtide.garden.model import Bed, Entry
from sowtide.garden.text import as_written
from sowtide.report.kinds import Share, Unsaid
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.schedule.packing import area_days, area_days_asked
from sowtide.schedule.season import Season
from sowtide.values import value


@value
class Paste:
    """A key of an entry with its value, as it is written in the file."""

    series: str
    file: str
    line: int
    """Which entry, and where it stands."""
    key: str
    """``beds`` or ``wave_beds``."""
    text: str
    """The key and its value on one line."""
    parts: Unsaid[tuple[str, ...]]
    """What stands between the brackets, each part to be kept on one line."""


@value
class Gained:
    """How many waves have room, and the share of the area × days asked for that they have.

    `tenths` is that share in whole tenths of a percent, rounded down.
    """

    waves_with_room: int
    share_of_area_days: Share | None
    tenths: Unsaid[int]


@value
class RepackView:
    """What ``plan --repack`` says."""

    season: int
    now: Gained
    repacked: Gained
    paste: tuple[Paste, ...]
    waves: int
    finds_room: tuple[str, ...]
    loses_room: tuple[str, ...]
    today: Unsaid[date]
    setting: Unsaid[Setting]


def view(before: Season, after: Season) -> RepackView:
    """Return what is gained, and the lines to paste."""
    asked = area_days_asked(before.waves, after.waves)
    was = {wave.id: bool(wave.stands) for wave in before.waves}
    now = {wave.id: bool(wave.stands) for wave in after.waves}
    return RepackView(
        season=before.garden.year.season,
        now=_gained(before, asked),
        repacked=_gained(after, asked),
        paste=pastes(before, after),
        waves=len(after.waves),
        finds_room=tuple(name for name in now if now[name] and not was.get(name, False)),
        loses_room=tuple(name for name in was if was[name] and not now.get(name, False)),
        today=before.today,
        setting=setting_of(before.garden, before.today),
    )


def _gained(of: Season, asked: int) -> Gained:
    taken = area_days(of.waves)
    return Gained(
        sum(bool(wave.stands) for wave in of.waves),
        float(taken / asked) if asked else None,
        int(Fraction(1000 * taken, asked)) if asked else 0,
    )


def pastes(before: Season, after: Season) -> tuple[Paste, ...]:
    """Return what has to be written into the entries of one season to make it the other."""
    return tuple(
        _paste(old, new)
        for old, new in zip(before.garden.entries, after.garden.entries, strict=True)
        if old is not new
    )


def _paste(old: Entry, new: Entry) -> Paste:
    key, parts = "wave_beds", tuple(f"{number}: {_beds(beds)}" for number, beds in new.wave_beds)
    if new.wave_beds == old.wave_beds:
        key, parts = "beds", tuple(as_written(bed.name) for bed in new.beds)
    opened, closed = brackets(key)
    text = f"{key}: {opened}{', '.join(parts)}{closed}"
    return Paste(
        series=new.name, file=new.span.file, line=new.span.line, key=key, text=text, parts=parts
    )


def brackets(key: str) -> tuple[str, str]:
    """Return what the value of a key stands between."""
    return ("[", "]") if key == "beds" else ("{", "}")


def _beds(beds: tuple[Bed, ...]) -> str:
    if not beds:
        return "none"
    if len(beds) == 1:
        return as_written(beds[0].name)
    return f"[{', '.join(as_written(bed.name) for bed in beds)}]"
