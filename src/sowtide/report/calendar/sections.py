"""Sections of the season calendar below the beds: bench, table, and what went wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from sowtide.report.blocks import Line, Style, line, together
from sowtide.report.calendar.bars import PICKING, packed, painted, picking_columns, tray_bar
from sowtide.report.calendar.scale import Scale
from sowtide.report.formats.terminal.cells import pad, wrap
from sowtide.report.kit import words
from sowtide.schedule.season import Season
from sowtide.schedule.waves import SAFE, Verdict, Wave

_ODDS_SAY_MORE = (Verdict.CHANCY, Verdict.TOO_LATE)
_MOST_NAMED = 30
"""Waves named in a list before the rest are only counted. [1]"""


def names_below(season: Season) -> Iterator[str]:
    """Yield what stands before the rows of the bench and the table."""
    for wave in season.waves:
        if wave.from_trays:
            yield wave.entry.name
    for waves in _grouped((wave for wave in season.waves if wave.places), _kind):
        yield _on_the_table(waves)


def bench_rows(season: Season, scale: Scale, *, label: int) -> Iterator[Line]:
    """Yield the rows of the nursery, the waves of a series together, each with its number."""
    for waves in _grouped((wave for wave in season.waves if wave.from_trays), _series):
        bars = [bar for wave in waves if (bar := tray_bar(wave, scale)) is not None]
        name = waves[0].entry.name
        for cells in packed(bars, scale.columns, empty=" "):
            yield line(f"{pad(name, label)} ", painted(_without_end(cells)))
            name = ""


def table_rows(season: Season, scale: Scale, *, label: int) -> Iterator[Line]:
    """Yield a row for each crop with the weeks in which it is picked, the earliest crop first."""
    found: list[tuple[int, str, list[str]]] = []
    for waves in _grouped((wave for wave in season.waves if wave.places), _kind):
        cells = [" "] * scale.columns
        for wave in waves:
            columns = picking_columns(wave.stages, scale)
            if columns is not None:
                cells[slice(*columns)] = PICKING * (columns[1] - columns[0])
        if PICKING in cells:
            found.append((cells.index(PICKING), _on_the_table(waves), cells))
    for _, name, cells in sorted(found, key=lambda each: each[:2]):
        yield line(f"{pad(name, label)} ", painted(_without_end(cells)))


def no_room(season: Season, *, width: int) -> tuple[Line, ...]:
    """Return the waves that have no room, each with the day it was to be planted."""
    year = season.garden.year
    texts = [
        together(f"{wave.id} ({words.day(wave.stages.plant.day, year)})")
        for wave in season.waves
        if not wave.places
    ]
    return _list("NO ROOM", texts, width=width)


def not_safe(season: Season, *, width: int) -> tuple[Line, ...]:
    """Return the waves that are not over and less than safe, with odds where those are why."""
    texts = []
    for wave in season.waves:
        judged = wave.judged
        if not wave.places or judged.verdict in (None, *SAFE):
            continue
        if judged.stages.pull_out.day <= season.today or judged.odds is None:
            continue
        said, _ = words.verdict(judged.verdict)
        if judged.verdict in _ODDS_SAY_MORE:
            said += f", {words.odds_of(judged)}"
        texts.append(together(f"{wave.id} ({said})"))
    return _list("LESS THAN SURE", texts, width=width)


def may_bolt(season: Season, *, width: int) -> tuple[Line, ...]:
    """Return the waves that are not over and picked in a summer nobody knows the heat of."""
    texts = [
        together(wave.id)
        for wave in season.waves
        if wave.places and wave.judged.may_bolt and wave.stages.pull_out.day > season.today
    ]
    return _list("MAY BOLT", texts, width=width)


def gaps(season: Season, *, width: int) -> tuple[Line, ...]:
    """Return the stretches in which a series is not planted."""
    year = season.garden.year
    texts = [
        together(f"{gap.series} {words.days_from_to(gap.first, gap.last, year)} ({gap.why})")
        for gap in season.gaps
    ]
    return _list("NOT PLANTED", texts, width=width)


def unused_beds(season: Season, *, width: int) -> tuple[Line, ...]:
    """Return the beds in which nothing is planted."""
    used = {place.bed.name for wave in season.waves for place in wave.places}
    texts = [together(bed.name) for bed in season.garden.beds if bed.name not in used]
    return _list("NOTHING IN", texts, width=width, most=len(texts))


def outside(waves: Sequence[Wave], *, width: int) -> tuple[Line, ...]:
    """Return the waves that stand in none of the months shown."""
    return _list("NOT IN THESE MONTHS", [together(wave.id) for wave in waves], width=width)


def _list(
    title: str, texts: Sequence[str], *, width: int, most: int = _MOST_NAMED
) -> tuple[Line, ...]:
    if not texts:
        return ()
    shown = list(texts[:most])
    if len(texts) > most:
        shown.append(f"and {len(texts) - most} more")
    return wrap(line((f"{title}:", Style.HEADING), " " + ", ".join(shown)), width, hang=2)


def _grouped(waves: Iterable[Wave], key: Callable[[Wave], str]) -> Iterator[list[Wave]]:
    """Yield the waves with one key together, in the order in which the keys come first."""
    groups: dict[str, list[Wave]] = {}
    for wave in waves:
        groups.setdefault(key(wave), []).append(wave)
    yield from groups.values()


def _series(wave: Wave) -> str:
    return wave.entry.name


def _kind(wave: Wave) -> str:
    return wave.crop.kind


def _on_the_table(waves: Sequence[Wave]) -> str:
    """Name what is picked as the grower does.

    Several crops of a kind go by the name of the one that is called as the kind is, such as
    lettuce for leaf lettuce, or else by the kind's.
    """
    names = {wave.crop.name for wave in waves}
    if len(names) == 1:
        return names.pop()
    kind = waves[0].crop.kind
    plain = (name for name in sorted(names) if set(name.split()) <= set(kind.split()))
    return min(plain, key=len, default=kind)


def _without_end(cells: list[str]) -> list[str]:
    """Return a row without the spaces at its end."""
    end = len(cells)
    while end and cells[end - 1] == " ":
        end -= 1
    return cells[:end]
