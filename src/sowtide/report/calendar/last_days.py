"""The table of the season calendar with the last days to plant each crop, at three odds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.report.blocks import Line, Span, Style, line, together
from sowtide.report.formats.terminal.cells import Column, cells, row, width_of, wrap
from sowtide.report.kit import words
from sowtide.schedule.season import Season
from sowtide.schedule.waves import last_days
from sowtide.units import show_temperature_difference
from sowtide.values import value

EVEN, LATE = 0.5, 0.2
_SURE_WHERE_DAYS_ARE_COUNTED = 0.8
"""What "sure" means in the table where the grower counts days instead. [0–1]"""

_MOST_BEDS = 3
"""Beds named before they are only counted. [1]"""

_WIDEST_NAME = 36
_DAY = 7
_OWN_GROUND = " *"


@value
class _Grown:
    """A crop as it is grown: how it is raised, and the beds whose ground its days are for.

    No beds stand for the open ground of the site.
    """

    crop: Crop
    raised: Raised
    beds: tuple[Bed, ...]

    @property
    def name(self) -> str:
        """What the grower calls it, and whether it is plants or seed."""
        plants = " plants" if self.raised is Raised.TRAYS else ""
        return f"{self.crop.name}{plants}{_OWN_GROUND if self.beds else ''}"

    @property
    def colder_by(self) -> float:
        """How much colder its ground is than the site. [°C]"""
        return self.beds[0].colder_than_site if self.beds else 0.0


def last_day_rows(season: Season, *, width: int) -> Iterator[Line]:
    """Yield a table of the last days to plant each crop, at three odds.

    What stands over the winter has no such day, and what no frost ends is only named. A crop whose
    waves all stand on one kind of ground has the days of that ground.
    """
    shares = _shares(season)
    year = season.garden.year
    rows: list[tuple[str, ...]] = []
    own_ground: list[_Grown] = []
    endless: list[str] = []
    for grown in _grown(season):
        days = last_days(
            season.conditions,
            grown.crop,
            grown.raised,
            shares=shares,
            colder_by=grown.colder_by,
        )
        if all(day == year.last for day in days):
            endless.append(together(grown.crop.name))
        elif any(days):
            shown = [words.day(day, year) if day else "-" for day in days]
            sow_by = _sow_by(grown, days[0])
            rows.append((grown.name, *shown, words.day(sow_by, year) if sow_by else ""))
            if grown.beds:
                own_ground.append(grown)
    if rows:
        yield from _table(rows, shares, width=width)
    on_ground: dict[str, list[str]] = {}
    for grown in own_ground:
        on_ground.setdefault(_ground(grown, season), []).append(together(grown.crop.name))
    for where, names in on_ground.items():
        yield from wrap(f"* {', '.join(names)}: {where}.", width, hang=2)
    if endless:
        yield from wrap(f"No frost ends {words.listed(endless)}.", width)


def _sow_by(grown: _Grown, last: date | None) -> date | None:
    """Return the last day to sow in trays for a last safe day to plant out."""
    nursery = grown.crop.nursery_days
    if last is None or nursery is None or grown.raised is not Raised.TRAYS:
        return None
    return last - timedelta(days=nursery.low)


def _table(
    rows: Sequence[tuple[str, ...]], shares: tuple[float, ...], *, width: int
) -> Iterator[Line]:
    """Yield the table, in as many blocks beside each other as there is room for."""
    head = (
        "LAST DAYS TO PLANT",
        *(f"{_share_name(share)} {round(share * 100)}" for share in shares),
        "sow by",
    )
    if not any(texts[-1] for texts in rows):
        head, rows = head[:-1], [texts[:-1] for texts in rows]
    days = len(head) - 1
    size = max(cells(texts[0]) for texts in (head, *rows))
    size = min(size, _WIDEST_NAME, width - (_DAY + 2) * days)
    columns = (Column(size), *(Column(_DAY, right=True) for _ in range(days)))
    block = size + (_DAY + 2) * days
    abreast = max(min((width + 4) // (block + 4), -(-len(rows) // 4)), 1)
    height = -(-len(rows) // abreast)
    yield line(*_abreast([row(columns, _heading(head))] * abreast, block))
    for number in range(height):
        yield line(*_abreast([row(columns, each) for each in rows[number::height]], block))


def _grown(season: Season) -> Iterator[_Grown]:
    """Yield each crop that frost can end and the way it is raised once, in the file's order."""
    beds: dict[tuple[str, Raised], dict[str, Bed]] = {}
    for wave in season.waves:
        here = beds.setdefault((wave.crop.name, wave.entry.raised), {})
        here.update((place.bed.name, place.bed) for place in wave.places)
    seen: set[tuple[str, Raised]] = set()
    for entry in season.garden.entries:
        key = (entry.crop.name, entry.raised)
        if key not in seen and not entry.crop.overwinters:
            seen.add(key)
            yield _Grown(entry.crop, entry.raised, _one_ground(beds.get(key, {}).values()))


def _one_ground(beds: Iterable[Bed]) -> tuple[Bed, ...]:
    """Return beds that are all of one kind of ground and not of the open site's; else none."""
    listed = tuple(beds)
    kinds = {bed.colder_than_site for bed in listed}
    return listed if len(kinds) == 1 and kinds != {0.0} else ()


def _ground(grown: _Grown, season: Season) -> str:
    """Say which ground a crop's days are for."""
    beds = grown.beds
    if len(beds) <= _MOST_BEDS:
        where = words.listed(together(bed.name) for bed in beds)
    else:
        where = f"its {words.count(len(beds), 'bed')}"
    by = show_temperature_difference(abs(grown.colder_by), season.garden.site.units)
    if grown.colder_by > 0:
        return f"as in {where}, {together(by)} colder than the site"
    return f"under cover, as in {where}, {together(by)} warmer than the site"


def _shares(season: Season) -> tuple[float, ...]:
    sure = season.garden.site.sure.share or _SURE_WHERE_DAYS_ARE_COUNTED
    return tuple(sorted({sure, EVEN, LATE}, reverse=True))


def _share_name(share: float) -> str:
    return {EVEN: "even", LATE: "late"}.get(share, "sure")


def _heading(texts: Iterable[str]) -> tuple[Span, ...]:
    return tuple((text, Style.HEADING) for text in texts)


def _abreast(blocks: Sequence[Line], width: int) -> Iterator[Line | str]:
    """Yield lines side by side, each but the last filled up to a width."""
    for number, block in enumerate(blocks):
        yield block
        if number < len(blocks) - 1:
            yield " " * (width + 4 - width_of(block))
