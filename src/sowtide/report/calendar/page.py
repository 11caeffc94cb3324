"""The season calendar as a page: the chart, the last days to plant, and what is wrong."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

from sowtide.days import DateSpan, GrowingYear, Half
from sowtide.garden.crop import Raised
from sowtide.garden.readers import with_unit
from sowtide.grouping import grouped
from sowtide.report.blocks import (
    AbreastTable,
    Block,
    ChartBar,
    ChartHead,
    ChartMark,
    ChartOdds,
    ChartRow,
    ChartSpace,
    SeasonChart,
    Space,
    Style,
    Text,
    line,
    together,
)
from sowtide.report.calendar.care_ahead_view import CareAhead
from sowtide.report.calendar.free_view import MOST_FREE, StillFree
from sowtide.report.calendar.last_days_view import EVEN, LATE, CropLastDays
from sowtide.report.calendar.on_table import on_the_table, table_rows
from sowtide.report.calendar.view import CalendarView, SeasonWave
from sowtide.report.calendar.wants_view import WantMet
from sowtide.report.calendar.wave_bars import END_SIGNS, bar_of
from sowtide.report.kit import words
from sowtide.report.kit.lookouts import season_list
from sowtide.report.kit.stands import area_of
from sowtide.schedule.waves import SAFE, Verdict
from sowtide.units import show_number

_SIGNS = {0.5: "50", 0.1: "10", 0.9: "90"}
"""Frosts marked in the head, each with its years in a hundred; the average one comes first."""

_FROSTS, _HOT, _TODAY = "frost in 100", "~", "v"
_ODDS_SAY_MORE = (Verdict.CHANCY, Verdict.WINTER, Verdict.TOO_LATE)
_MOST_NAMED = 30
"""Waves named in a list before the rest are only counted. [1]"""
_A_DAY = timedelta(days=1)


def page(of: CalendarView) -> Iterator[Block]:
    """Yield the season calendar."""
    yield _chart(of)
    for part in (_last_days(of), season_list(of.look_for, of.setting.year), _lists(of)):
        blocks = tuple(part)
        if blocks:
            yield Space()
            yield from blocks
    if not of.quiet:
        yield Space()
        yield Text(words.rests_shortly(of.basis))


def _chart(of: CalendarView) -> SeasonChart:
    setting, waves = of.setting, _standing(of)
    assert setting.today is not None  # a season is looked at from a day
    ends = {wave.ended_by for wave in waves}
    bench, table = tuple(_bench(of)), tuple(table_rows(waves, of.wanted))
    return SeasonChart(
        title=setting.name.upper(),
        what=(
            f"   season {words.season_name(setting.year)}: {words.count(len(of.beds), 'bed')}, "
            f"{words.count(len(of.waves), 'wave')}"
        ),
        caption=_caption(of, setting.today),
        days=DateSpan(of.days.from_, of.days.to),
        weekday=words.WEEKDAYS[of.week_starts],
        heads=tuple(_heads(of, setting.today)),
        odds=tuple(_odds(of)),
        frosts=_average_frosts(of),
        beds=tuple(_beds(of)),
        names=(
            (_FROSTS, *(bed.bed for bed in of.beds)),
            tuple(row.name for row in (*bench, *table)),
        ),
        bench=bench,
        table=table,
        ends=tuple(
            (sign, f"{ended.value} ends it") for ended, sign in END_SIGNS.items() if ended in ends
        ),
        trays=any(wave.from_trays for wave in waves),
    )


def _heads(of: CalendarView, today: date) -> Iterator[ChartHead]:
    yield ChartHead(_FROSTS, tuple(_frost_marks(of)), is_odds=True)
    if of.hot_weeks is not None:
        hot = DateSpan(of.hot_weeks.from_, of.hot_weeks.to)
        yield ChartHead("too hot", (ChartMark(_HOT, hot),))
    yield ChartHead("today", (ChartMark(_TODAY, DateSpan(today, today)),))


def _beds(of: CalendarView) -> Iterator[ChartRow]:
    """Yield each bed with its waves and with what is free in it."""
    shown = [wave for wave in _standing(of) if _is_shown(wave, of)]
    for bed in of.beds:
        here = tuple(bar_of(wave) for wave in shown if any(b.bed == bed.bed for b in wave.beds))
        yield ChartRow(bed.bed, here, bed.size, tuple(_spaces(bed.bed, of)))


def _bench(of: CalendarView) -> Iterator[ChartRow]:
    """Yield the seedlings of each series, from the day they are sown until they are planted out."""
    raised = [wave for wave in of.waves if wave.from_trays and (wave.beds or wave.lacks_room)]
    for series, waves in grouped(raised, lambda wave: wave.series).items():
        bars = tuple(ChartBar(str(wave.number), wave.sow, wave.plant) for wave in waves)
        yield ChartRow(series, bars)


def _standing(of: CalendarView) -> list[SeasonWave]:
    return [wave for wave in of.waves if wave.beds]


def _is_shown(wave: SeasonWave, of: CalendarView) -> bool:
    return wave.pull_out > of.days.from_ and wave.plant <= of.days.to


def _frost_marks(of: CalendarView) -> Iterator[ChartMark]:
    for share, sign in _SIGNS.items():
        for frost in of.frosts:
            if frost.share == share and frost.day is not None:
                yield ChartMark(sign, DateSpan(frost.day, frost.day))


def _odds(of: CalendarView) -> Iterator[ChartOdds]:
    for frost in of.frosts:
        if frost.day is not None:
            yield ChartOdds(frost.day, frost.share, frost.half is Half.SPRING)


def _average_frosts(of: CalendarView) -> tuple[date | None, date | None]:
    days = {frost.half: frost.day for frost in of.frosts if frost.share == EVEN}
    return days.get(Half.SPRING), days.get(Half.AUTUMN)


def _caption(of: CalendarView, today: date) -> str:
    """Say the day it is seen on, whether that lies in the year planned, and the average frosts."""
    year = of.setting.year
    seen = f"Seen on {words.day(today, year)}, {words.plans_another(year, today)}."
    if today in year:
        seen = f"{together(words.weekday(today, year))}: what comes later is forecast."
    frosts = [
        together(f"{which} {words.day(day, year)}")
        for which, day in zip(("last", "first"), _average_frosts(of), strict=True)
        if day is not None
    ]
    seen += "" if of.only is None else f" {words.only(of.only)}"
    return f"{seen} " + (f"Average frosts: {', '.join(frosts)}." if frosts else "No frost here.")


def _last_days(of: CalendarView) -> Iterator[Block]:
    """Yield the table of the last days to plant, and for which ground some of them are."""
    last, year = of.last_days, of.setting.year
    if last.crops:
        titles = (
            "LAST DAYS TO PLANT",
            *(f"{_share_name(share)} {round(share * 100)}" for share in last.odds),
        )
        rows = [
            (_grown_name(each), *(words.day(day, year) if day else "-" for day in each.days))
            for each in last.crops
        ]
        if any(each.sow_by for each in last.crops):
            titles = (*titles, "sow by")
            rows = [
                (*texts, words.day(each.sow_by, year) if each.sow_by else "")
                for texts, each in zip(rows, last.crops, strict=True)
            ]
        yield AbreastTable(titles, tuple(rows))
    grounds: dict[str, list[str]] = {}
    for each in last.crops:
        if each.ground is not None:
            grounds.setdefault(each.ground, []).append(together(each.crop))
    for where, names in grounds.items():
        yield Text(f"* {', '.join(names)}: {where}.", hang=2)
    if last.endless:
        yield Text(f"No frost ends {words.listed(together(name) for name in last.endless)}.")


def _grown_name(of: CropLastDays) -> str:
    """Say what the grower calls it, and whether it is plants or seed."""
    plants = " plants" if of.raised is Raised.TRAYS else ""
    return f"{of.crop}{plants}{'' if of.ground is None else ' *'}"


def _share_name(share: float) -> str:
    return {EVEN: "even", LATE: "late"}.get(share, "sure")


def _lists(of: CalendarView) -> Iterator[Block]:
    """Yield what is wrong with waves, gaps, what is free or idle, and what is not seen."""
    yield from _wrong(of)
    yield from _missing(of)
    fits = ", and what would be safe there" if any(each.titles for each in of.free) else ""
    still = [text for each in _alike(of.free[:MOST_FREE]) for text in _free(each, of)]
    yield from _list(f"STILL FREE{fits}", still, more=len(of.free) - MOST_FREE)
    yield from _list("CARE TO COME", [_care(each, of.setting.year) for each in of.care])
    standing = _standing(of)
    used = {each.bed for wave in standing for each in wave.beds}
    idle = [bed.bed for bed in of.beds if bed.bed not in used]
    yield from _list("NOTHING IN", words.runs_of_beds(idle), most=len(idle))
    yield from _list(
        "NOT IN THESE MONTHS", [wave.id for wave in standing if not _is_shown(wave, of)]
    )


def _wrong(of: CalendarView) -> Iterator[Block]:
    """Yield the waves without room, and those that are not safe."""
    year, today = of.setting.year, of.setting.today
    assert today is not None  # a season is looked at from a day
    ahead = [wave for wave in _standing(of) if wave.pull_out > today]
    yield from _list(
        "NO ROOM",
        [f"{wave.id} ({words.day(wave.plant, year)})" for wave in of.waves if wave.lacks_room],
    )
    yield from _list(
        "LESS THAN SURE",
        [
            f"{wave.id} ({_doubt(wave)})"
            for wave in ahead
            if wave.verdict not in (None, *SAFE) and wave.odds is not None
        ],
    )
    yield from _list("MAY BOLT", [wave.id for wave in ahead if wave.may_bolt])


def _missing(of: CalendarView) -> Iterator[Block]:
    """Yield what is not planted, what falls short of the wants, and when nothing is picked."""
    year = of.setting.year
    yield from _list(
        "NOT PLANTED",
        [
            f"{gap.series} {words.days_from_to(gap.from_, gap.to, year)} ({gap.why})"
            for gap in of.gaps
        ],
    )
    for title, weeks in (("SHORT OF", of.short_of), ("TOO MUCH", of.too_much)):
        yield from _list(title, [_met(each, year) for each in weeks])
    of_kind = grouped(_standing(of), lambda wave: wave.kind)
    kinds = {kind: on_the_table(waves) for kind, waves in of_kind.items()}
    yield from _list(
        "GAPS on the table",
        [f"{kinds[g.kind]} {words.days_from_to(g.from_, g.to, year)}" for g in of.not_picked],
    )


def _care(care: CareAhead, year: GrowingYear) -> str:
    """Say how often a routine is still to be done: ``spray A 24 Jul – 2 Sep (4 days)``."""
    if care.times == 1:
        return f"{care.routine} {words.day(care.from_, year)}"
    days = words.days_from_to(care.from_, care.to, year)
    return f"{care.routine} {days} ({words.count(care.times, 'day')})"


def _spaces(bed: str, of: CalendarView) -> Iterator[ChartSpace]:
    """Yield how much of a bed is free in all, from each day to the next on which that changes."""
    assert of.setting.today is not None  # a season is looked at from a day
    end = of.days.to + _A_DAY
    spaces = [
        (max(space.from_, of.setting.today), min(space.until or end, end), space.area)
        for space in of.free
        if space.bed == bed
    ]
    changes = sorted({day for first, beyond, _ in spaces for day in (first, beyond)})
    for first, beyond in pairwise(changes):
        area = sum(each for begun, over, each in spaces if begun <= first and beyond <= over)
        if area:
            yield ChartSpace(together(area_of(area, of.setting.units)), first, beyond)


def _alike(spaces: Sequence[StillFree]) -> Iterable[list[StillFree]]:
    """Put together the spaces that differ in nothing but their bed, where the first of them is."""
    return grouped(spaces, lambda each: replace(each, bed="")).values()


def _free(alike: Sequence[StillFree], of: CalendarView) -> Iterator[str]:
    """Say where space is free, how much of it, from when and until when, and what for."""
    space, year = alike[0], of.setting.year
    assert of.setting.today is not None  # a season is looked at from a day
    when = "" if space.from_ <= of.setting.today else f" from {words.day(space.from_, year)}"
    when += "" if space.until is None else f" to {words.day(space.until, year)}"
    fits = f": {space.titles[0]}" if space.titles else ""
    area = area_of(space.area, of.setting.units)
    names = [each.bed for each in alike]
    for beds in words.runs_of_beds(names):
        yield f"{beds} ({area}{'' if beds in names else ' each'}){when or ' now'}{fits}"


def _met(of: WantMet, year: GrowingYear) -> str:
    """Say in which weeks how much of a want comes."""
    amounts = f"{show_number(of.expected)} of {with_unit(show_number(of.want), of.unit)}"
    return f"{of.crop} {words.days_from_to(of.from_, of.to, year)} ({together(amounts)})"


def _doubt(wave: SeasonWave) -> str:
    assert wave.verdict is not None  # only such are asked about
    said, _ = words.verdict(wave.verdict)
    return f"{said}, {words.odds_of(wave.judged)}" if wave.verdict in _ODDS_SAY_MORE else said


def _list(
    title: str, texts: Sequence[str], *, most: int = _MOST_NAMED, more: int = 0
) -> Iterator[Block]:
    if not texts:
        return
    shown = [together(text) for text in texts[:most]]
    more = max(more, 0) + len(texts[most:])
    if more:
        shown.append(f"and {more} more")
    yield Text(line((f"{title}:", Style.HEADING), " " + ", ".join(shown)), hang=2)
