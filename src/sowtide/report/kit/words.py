"""How days, odds, amounts and places are said, the same in every text report.

Months always stand as words, since 04/05 is two days; a year is said only where it is not the
season's own.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Protocol

from sowtide.climate.basis import Basis, FrostFrom, RecordUsed, WarmthFrom
from sowtide.days import MONTHS, GrowingYear
from sowtide.garden.site import Sure
from sowtide.report.blocks import Span, Style, together
from sowtide.report.kit.stands import BedPlants
from sowtide.schedule.only import Only
from sowtide.schedule.waves import SAFE, SURER, Verdict
from sowtide.units import in_hundred, show_number, years_of_hundred

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MOST_BEDS = 6
"""Beds named before they are counted. [1]"""
NOT_PROMISES = "Odds, not promises."

_FROST_FROM = {
    FrostFrom.TABLE: "a table of frost dates",
    FrostFrom.AVERAGES: "two average frost dates",
    FrostFrom.NONE: "a place without frost",
}
_NO_WARMTH = (
    "no temperatures are known: `warmest_month` and `coldest_month` would tell what gets ripe."
)
_WARMTH_FROM = {
    WarmthFrom.RECORD: "its recorded temperatures",
    WarmthFrom.NORMALS: "twelve monthly normals",
    WarmthFrom.TWO_MONTHS: "the means of its warmest and coldest month",
}

_VERDICT_STYLES = {
    Verdict.SAFE: Style.GOOD,
    Verdict.SAFE_FROM_FROST: Style.GOOD,
    Verdict.CHANCY: Style.WARN,
    Verdict.TOO_EARLY: Style.WARN,
    Verdict.TOO_HOT: Style.BAD,
    Verdict.NOT_ITS_TIME: Style.BAD,
    Verdict.WINTER: Style.BAD,
    Verdict.TOO_LATE: Style.BAD,
}


class HasOdds(Protocol):
    """What odds are said of: their share, of how many years, and whether anything ends it."""

    @property
    def odds(self) -> float | None:
        """Share of years in which it is worth growing; None over the winter. [0–1]"""

    @property
    def years(self) -> int | None:
        """How many recorded years they are of; None where they come from a curve. [years]"""

    @property
    def end(self) -> object | None:
        """When it is ended in half of the years; None where nothing ends it."""

    @property
    def margin(self) -> int | None:
        """Days to spare before that; None where nothing ends it. [days]"""

    @property
    def verdict(self) -> Verdict | None:
        """What is thought of it; None over the winter."""


def day(when: date, year: GrowingYear) -> str:
    """Say a day, such as ``16 Jul``, with its year where it is not in the growing year.

    Examples
    --------
    >>> day(date(2026, 7, 16), GrowingYear(2026, south=False))
    '16 Jul'
    >>> day(date(2027, 2, 3), GrowingYear(2026, south=False))
    '3 Feb 2027'
    """
    text = f"{when.day} {MONTHS[when.month - 1]}"
    return text if when in year else f"{text} {when.year}"


def weekday(when: date, year: GrowingYear) -> str:
    """Say a day with its weekday, such as ``Thu 16 Jul``."""
    return f"{WEEKDAYS[when.weekday()]} {day(when, year)}"


def days_from_to(first: date, last: date, year: GrowingYear) -> str:
    """Say a run of days, both ends included: ``9–16 Sep``, ``28 Aug – 3 Sep`` or ``9 Sep``.

    Examples
    --------
    >>> days_from_to(date(2026, 9, 9), date(2026, 9, 16), GrowingYear(2026, south=False))
    '9–16 Sep'
    """
    if first == last:
        return day(first, year)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day}–{day(last, year)}"
    if first.year == last.year and last not in year:
        return f"{first.day} {MONTHS[first.month - 1]} – {day(last, year)}"
    return f"{day(first, year)} – {day(last, year)}"


def season_name(year: GrowingYear) -> str:
    """Name a growing year: ``2026``, south of the equator ``2026–27``."""
    return f"{year.season}–{(year.season + 1) % 100:02}" if year.south else str(year.season)


def plans_another(year: GrowingYear, day: date) -> str:
    """Say that the file plans another growing year than that of a day, without a full stop.

    Examples
    --------
    >>> plans_another(GrowingYear(2026, south=False), date(2027, 2, 1))
    'but the file plans 2026: write `season: 2027` to plan that year'
    >>> plans_another(GrowingYear(2027, south=False), date(2026, 11, 28))
    'and the file plans 2027, the season ahead'
    """
    if year.lies_ahead(day):
        return f"and the file plans {season_name(year)}, the season ahead"
    other = year.holding(day)
    return (
        f"but the file plans {season_name(year)}: write `season: {other.season}` to plan that year"
    )


def odds(share: float, *, years: int | None = None) -> str:
    """Say a share of years: ``83 in 100`` from a curve, ``27 of 30`` of recorded ones."""
    if years is not None:
        return f"{in_hundred(share, estimated=False, of=years)} of {years}"
    return f"{in_hundred(share)} in 100"


def odds_of(judged: HasOdds) -> str:
    """Say the odds of a planting: ``83 in 100``, or of recorded years ``27 of 30``."""
    said = share_of(judged, judged.odds or 0.0)
    return f"{said} in 100" if judged.years is None else f"{said} of {judged.years}"


def odds_cell(judged: HasOdds) -> str:
    """Say the odds of a planting in a table: ``83``, or of recorded years ``27 of 30``."""
    if judged.odds is None:
        return ""
    return share_of(judged, judged.odds) if judged.years is None else odds_of(judged)


def short_odds(said: str) -> str:
    """Shorten odds for a table: ``>99`` for ``over 99``."""
    return said.replace("over ", ">").replace("under ", "<")


def share_of(judged: HasOdds, share: float) -> str:
    """Say a share of the years of a planting, as whole years of a hundred or of those recorded."""
    return in_hundred(share, estimated=_is_estimated(judged), of=judged.years or 100)


def years_of(judged: HasOdds, share: float) -> str:
    """Say a share of the years of a planting, such as ``83 years of 100``, ``27 years of 30``."""
    return years_of_hundred(share, estimated=_is_estimated(judged), of=judged.years or 100)


def winter_kills(odds: float) -> str:
    """Say in how many years a winter leaves what would be picked after it, and what is surer."""
    spared = years_of_hundred(odds)
    return f"the winter, or a frost on its flowers, spares it in {spared} only: {SURER}"


def nothing_ends(judged: HasOdds) -> bool:
    """Say whether nothing ends a planting early in any year."""
    return judged.odds == 1 and judged.end is None and judged.margin is None


def _is_estimated(judged: HasOdds) -> bool:
    """Say whether the odds of a planting come from a curve; not so where nothing ends it."""
    return judged.years is None and (judged.end is not None or judged.margin is not None)


def count(number: float, thing: str, *, many: str | None = None) -> str:
    """Say how many of a thing, such as ``1 plant`` or ``1,200 plants``."""
    shown = f"{number:,.0f}" if float(number).is_integer() else show_number(number)
    return f"{shown} {thing if shown == '1' else many or thing + 's'}"


def mean_days(days: float | None) -> str:
    """Say a mean number of picking days in whole days. [days].

    Examples
    --------
    >>> mean_days(18.4), mean_days(0.2)
    ('18 days', 'less than a day')
    """
    if days is None or days < 0.5:
        return "less than a day"
    return count(int(days + 0.5), "day")


_COUNTED = (
    *("seeds", "cloves", "sets", "slips", "seed tubers"),
    *("plants", "cells", "trays", "seedlings"),
)


def amount(value: float, unit: str) -> str:
    """Say an amount, such as ``80 seeds`` or ``4.5 ft``; its unit is taken as it stands."""
    shown = f"{value:,.0f}" if float(value).is_integer() else show_number(value)
    if shown == "1" and unit in _COUNTED:
        unit = unit[:-1]
    return f"{shown} {unit}"


def stands(of: Sequence[BedPlants]) -> str:
    """Say where plants stand: ``Long 1``, or ``Long 1 (40), Long 2 (20)`` where they are split."""
    if len(of) == 1:
        return of[0].bed
    return ", ".join(f"{each.bed} ({each.plants:,})" for each in of)


def where(of: Sequence[BedPlants]) -> str:
    """Say in which beds a wave stands, or that it has no room."""
    return stands(of) if of else "no room"


def listed(texts: Iterable[str], *, last: str = "and") -> str:
    """Join words: ``a``, ``a and b``, ``a, b and c``."""
    words = list(texts)
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def also(text: str, others: Sequence[str]) -> str:
    """Return a text and behind it what else the same is to be said of."""
    return f"{text}; also {'; '.join(others)}" if others else text


def named_shortly(waves: Iterable[str]) -> str:
    """Name waves, each series once: ``cucumber-1, -2, squash-1``."""
    named: list[str] = []
    before = ""
    for wave in waves:
        series, _, number = wave.rpartition("-")
        named.append(f"-{number}" if series == before else wave)
        before = series
    return ", ".join(named)


def some_beds(names: Sequence[str]) -> str:
    """Name some beds, or where they are many say how many and the first and the last."""
    if len(names) <= _MOST_BEDS:
        return listed(together(name) for name in names)
    return f"{count(len(names), 'bed')}, {together(names[0])} … {together(names[-1])}"


def runs_of_beds(names: Sequence[str]) -> list[str]:
    """Return names of beds, three and more that are numbered on by the first and the last.

    Examples
    --------
    >>> runs_of_beds(["A08", "A09", "A10", "A12", "Long"])
    ['A08 to A10', 'A12', 'Long']
    """
    runs: list[list[str]] = []
    after = ""
    for name in names:
        if name != after:
            runs.append([])
        runs[-1].append(name)
        letters = name.rstrip("0123456789")
        digits = name[len(letters) :]
        after = f"{letters}{int(digits) + 1:0{len(digits)}}" if digits else ""
    shown = ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else run for run in runs)
    return [name for names in shown for name in names]


def only(of: Only) -> str:
    """Say in a sentence which part of the garden is looked at."""
    parts = []
    if of.crops is not None:
        parts.append(listed(together(name) for name in of.crops))
    if of.beds is not None:
        parts.append(some_beds(of.beds))
    return f"Only {' in '.join(parts)}."


def unbroken(text: str) -> str:
    """Return a text whose days and temperatures, such as ``1 Oct``, no line breaks apart.

    Examples
    --------
    >>> unbroken("out on 1 Oct in May, at 70 °F").replace("\N{NO-BREAK SPACE}", "_")
    'out on 1_Oct in May, at 70_°F'
    """
    joined = ""
    for word in text.split(" "):
        day = joined.rpartition(" ")[2].isdigit() and word.rstrip(",.;:)") in MONTHS
        joined += ("\N{NO-BREAK SPACE}" if day or word[:1] == "°" else " ") + word
    return joined[1:]


def sentence(text: str) -> str:
    """Return the text with a capital first letter and a full stop at its end."""
    if not text:
        return text
    stop = "" if text[-1] in ".!?:" else "."
    return text[0].upper() + text[1:] + stop


def mark(judged: HasOdds) -> Span | None:
    """Say in a word or two that a wave is not safe, with odds where they are what is wrong.

    None for a safe wave and for one that stands over the winter.
    """
    if judged.verdict in (None, *SAFE):
        return None
    said, style = verdict(judged.verdict)
    if judged.verdict is Verdict.CHANCY and judged.odds is not None:
        said += f", {odds_of(judged)}"
    return said, style


def verdict(of: Verdict | None) -> Span:
    """Say a verdict in its style; a wave that stands over the winter has none."""
    if of is None:
        return "winter", Style.DIM
    return of.value, _VERDICT_STYLES[of]


def rests_on(basis: Basis) -> str:
    """Say what dates and odds rest on and what was assumed, in full sentences."""
    if basis.record is not None and basis.years_used is not None:
        text = f"Rests on {basis.record.file} ({_years_used(basis.record, basis.years_used)})"
    else:
        text = f"Rests on {_FROST_FROM[basis.frost]}"
    warmth = _WARMTH_FROM.get(basis.warmth)
    text += f" and {warmth}." if warmth else f"; {_NO_WARMTH}"
    if basis.assumed:
        text += f" Assumed: {'; '.join(basis.assumed)}."
    return f"{text} {NOT_PROMISES}"


def rests_shortly(basis: Basis) -> str:
    """Say what dates and odds rest on in a line or two; `frost` says what was assumed."""
    if basis.record is not None and basis.years_used is not None:
        text = f"Rests on {basis.record.file}, {_years_used(basis.record, basis.years_used)}"
    else:
        text = f"Rests on {_FROST_FROM[basis.frost]}"
        text += f" and {_WARMTH_FROM.get(basis.warmth, 'no temperatures')}"
    return f"{text}. {NOT_PROMISES} Assumed: `sowtide frost`."


def how_sure(sure: Sure, basis: Basis) -> str:
    """Say what safe means here, and what that rests on, in full sentences."""
    return f"{sentence(safe_means(sure))} {rests_on(basis)}"


def counts_years(basis: Basis) -> bool:
    """Say whether odds are counted over recorded years, not taken from a curve."""
    return basis.years_used is not None


def _years_used(record: RecordUsed, used: int) -> str:
    """Say how many recorded years are used, and of which: ``30 years used, 1991–2020``."""
    if record.first_year == record.last_year:
        return f"{count(used, 'year')} used, {record.first_year}"
    among = "" if used == record.last_year - record.first_year + 1 else "of "
    return f"{count(used, 'year')} used, {among}{record.first_year}–{record.last_year}"


def safe_means(sure: Sure) -> str:
    """Say what the grower calls safe, without a full stop."""
    if sure.share is not None:
        return f"safe means in {in_hundred(sure.share)} years of 100 or more"
    if not sure.days:
        return "safe means worth it before the average frost"
    return f"safe means worth it {count(sure.days, 'day')} or more before the average frost"
