"""Sections of the season calendar below the beds: bench, table, last days, and what went wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from sowtide.garden.crop import Crop, Raised
from sowtide.report import words
from sowtide.report.calendar_bars import PICKING, packed, painted, picking_columns, tray_bar
from sowtide.report.calendar_scale import Scale
from sowtide.report.sheet import Column, Line, Span, Style, line, pad, row, together, wrap
from sowtide.schedule.wave import Verdict, Wave
from sowtide.schedule.windows import last_days
from sowtide.season import Season

EVEN, LATE = 0.5, 0.2
_SURE_WHERE_DAYS_ARE_COUNTED = 0.8
"""What "sure" means in the table of last days where the grower counts days instead. [0–1]"""

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


def last_day_rows(season: Season, *, width: int) -> Iterator[Line]:
    """Yield a table of the last days to plant each crop, at three odds.

    What stands over the winter has no such day, and what no frost ends is only named.
    """
    shares = _shares(season)
    year = season.garden.year
    rows: list[tuple[str, ...]] = []
    endless: list[str] = []
    for crop, raised in _grown(season):
        if crop.overwinters:
            continue
        days = last_days(season.conditions, crop, raised, shares=shares)
        if all(day == year.last for day in days):
            endless.append(together(crop.title))
        elif any(days):
            shown = (words.day(day, year) if day else "-" for day in days)
            rows.append((_crop_name(crop, raised), *shown))
    if rows:
        yield from _last_day_table(rows, shares, width=width)
    if endless:
        yield from wrap(f"No frost ends {words.listed(endless)}.", width)


def _last_day_table(
    rows: Sequence[tuple[str, ...]], shares: tuple[float, ...], *, width: int
) -> Iterator[Line]:
    """Yield the table, in as many blocks beside each other as there is room for."""
    head = (
        "LAST DAYS TO PLANT",
        *(f"{_share_name(share)} {round(share * 100)}" for share in shares),
    )
    size = min(max(len(text[0]) for text in (head, *rows)), 36, width - 9 * len(shares))
    columns = (Column(size), *(Column(7, right=True) for _ in shares))
    block = size + 9 * len(shares)
    abreast = max(min((width + 4) // (block + 4), -(-len(rows) // 4)), 1)
    height = -(-len(rows) // abreast)
    yield line(*_abreast([row(columns, _heading(head))] * abreast, block))
    for number in range(height):
        yield line(*_abreast([row(columns, each) for each in rows[number::height]], block))


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
    """Return the waves that are not over and less than safe, each with its odds."""
    texts = []
    for wave in season.waves:
        judged = wave.judged
        if not wave.places or judged.verdict in (None, Verdict.SAFE):
            continue
        if judged.stages.pull_out.day <= season.today or judged.odds is None:
            continue
        verdict, _ = words.verdict(judged.verdict)
        odds = words.odds(judged.odds, estimated=words.is_estimated(judged))
        texts.append(together(f"{wave.id} ({verdict}, {odds})"))
    return _list("LESS THAN SURE", texts, width=width)


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
    """Name what is picked: as the grower does, or by its kind where that is several crops."""
    names = {wave.crop.name for wave in waves}
    return names.pop() if len(names) == 1 else waves[0].crop.kind


def _without_end(cells: list[str]) -> list[str]:
    """Return a row without the spaces at its end."""
    end = len(cells)
    while end and cells[end - 1] == " ":
        end -= 1
    return cells[:end]


def _shares(season: Season) -> tuple[float, ...]:
    sure = season.garden.site.sure.share or _SURE_WHERE_DAYS_ARE_COUNTED
    return tuple(sorted({sure, EVEN, LATE}, reverse=True))


def _share_name(share: float) -> str:
    return {EVEN: "even", LATE: "late"}.get(share, "sure")


def _grown(season: Season) -> Iterator[tuple[Crop, Raised]]:
    """Yield each crop and the way it is raised once, in the order of the file."""
    seen: set[tuple[str, Raised]] = set()
    for entry in season.garden.entries:
        key = (entry.crop.title, entry.raised)
        if key not in seen:
            seen.add(key)
            yield entry.crop, entry.raised


def _crop_name(crop: Crop, raised: Raised) -> str:
    return f"{crop.title} plants" if raised is Raised.TRAYS else crop.title


def _heading(texts: Iterable[str]) -> tuple[Span, ...]:
    return tuple((text, Style.HEADING) for text in texts)


def _abreast(blocks: Sequence[Line], width: int) -> Iterator[Line | str]:
    """Yield lines side by side, each but the last filled up to a width."""
    for number, block in enumerate(blocks):
        yield block
        if number < len(blocks) - 1:
            yield " " * (width + 4 - block.width)
