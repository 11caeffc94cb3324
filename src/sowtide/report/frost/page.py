"""A place's frost odds: when, how sure, from what, and every recorded year in a small picture."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.climate.basis import FrostFrom, Lacks, RecordUsed, WarmthFrom
from sowtide.climate.soil import HOT_WEEKS
from sowtide.days import GrowingYear, Half, short_day
from sowtide.garden.site import YearsWanted
from sowtide.report.blocks import (
    Block,
    Cells,
    Group,
    GroupedTable,
    Heading,
    Mark,
    Space,
    Style,
    Text,
    Track,
    Tracks,
    line,
    together,
)
from sowtide.report.frost.view import (
    DaysOf,
    FrostView,
    HalvesUsed,
    Threshold,
    TrendSeen,
    YearSeen,
)
from sowtide.report.kit import words
from sowtide.units import FREEZING, show_temperature

GIVEN = "given"
"""What tells a record's unit where the garden's file does."""

MOST_YEARS = 30
FROSTY, ENDS, UNKNOWN = "-", "|", "?"
_KEY = (
    (FROSTY, "may freeze"),
    (ENDS, "last and first frost"),
    (UNKNOWN, "not known"),
)
_OFTEN, _EVEN, _SELDOM, _HOT, _SHORT = "#", "=", ":", "~", "."
_ODDS_KEY = (
    (_OFTEN, "in over 90 years of 100 such a frost is still to come (spring), has come (autumn)"),
    (_EVEN, "in 50 to 90"),
    (_SELDOM, "in 10 to 50"),
    (_HOT, "too hot"),
    (_SHORT, "too dark"),
)
_SHARES = ("10", "50", "90")
_DAYS_OF_A_TRACK = 366
_A_DAY = timedelta(days=1)
_MOST_LEFT_OUT = 6


def page(of: FrostView) -> Iterator[Block]:
    """Yield the page of frost odds."""
    yield Heading("FROST", of.setting.name)
    yield Text(words.rests_on(of.basis))
    if of.basis.frost is FrostFrom.NONE:
        yield Text("No frost comes here.")
    else:
        yield Text(
            "These are the odds of the station or of the dates given: what the garden or a bed is "
            "colder, and what a cover buys, is not in them."
        )
        yield Space()
        yield _table(of)
        yield Text(_how_to_read(of))
        yield from _through_the_year(of) if of.years is None else _years(of)
    yield from _hot_weeks(of)
    yield Space()
    yield Text(_short_days(of))


def _table(of: FrostView) -> GroupedTable:
    days = tuple(Cells(share, 6, right=True) for share in _SHARES)
    lengths = tuple(Cells(share, 5, right=True) for share in _SHARES)
    year = of.setting.year
    return GroupedTable(
        Cells("", 7, right=True),
        (
            Group("last frost later in", days),
            Group("first frost earlier in", days),
            Group("frost-free days", lengths),
        ),
        tuple(
            (
                show_temperature(each.at_c, of.setting.units),
                (
                    *(_day_or_dash(day, year) for day in _three(each.spring)),
                    *(_day_or_dash(day, year) for day in _three(each.autumn)),
                    *(
                        "–" if days is None else str(days)
                        for days in (
                            each.frost_free_days._10,
                            each.frost_free_days._50,
                            each.frost_free_days._90,
                        )
                    ),
                ),
            )
            for each in of.thresholds
        ),
    )


def _three(days: DaysOf) -> tuple[date | None, ...]:
    return days._10, days._50, days._90


def _day_or_dash(day: date | None, year: GrowingYear) -> str:
    return "–" if day is None else _day(day, year)


def _day(day: date, year: GrowingYear) -> str:
    """Say a day without its year: the winter after the season belongs to its autumn."""
    return " ".join(words.day(day, year).split(" ")[:2])


def _how_to_read(of: FrostView) -> str:
    ends = "; ".join(
        f"{together(show_temperature(each.at_c, of.setting.units))} ends what is "
        f"{each.hardiness.value}"
        for each in of.thresholds
    )
    text = (
        "Of 100 years so many have such a frost later (spring) or earlier (autumn) than the day, "
        "and so many a frost-free season no longer than the days; –: fewer years have one, or "
        "nobody knows."
    )
    if of.years is None:
        text += " The 50 is the time between the two average days; how it varies is not known."
    return f"{text} {ends}."


def _through_the_year(of: FrostView) -> Iterator[Block]:
    """Yield a picture of the odds, of the hot weeks and of the short days, over the year."""
    year = of.setting.year
    beyond = year.first + timedelta(days=_DAYS_OF_A_TRACK)
    tracks = [
        Track(
            show_temperature(each.at_c, of.setting.units),
            year.first,
            tuple(_odds_of(each, year.first, beyond)),
        )
        for each in of.thresholds
    ]
    if of.hot_span is not None:
        hot = Mark(_HOT, of.hot_span.from_, of.hot_span.to + _A_DAY)
        tracks.append(Track("heat", year.first, (hot,)))
    short = of.short_days
    if short.until is not None and short.from_ is not None:
        marks = (
            Mark(_SHORT, year.first, short.until + _A_DAY),
            Mark(_SHORT, short.from_, beyond),
        )
        tracks.append(Track("light", year.first, marks))
    used = {mark.sign for track in tracks for mark in track.marks}
    yield Space()
    yield Heading("THROUGH THE YEAR")
    yield Tracks(
        days=_DAYS_OF_A_TRACK,
        head=year.first,
        tracks=tuple(tracks),
        key=tuple((sign, means) for sign, means in _ODDS_KEY if sign in used),
    )


def _odds_of(of: Threshold, first: date, beyond: date) -> Iterator[Mark]:
    """Yield the days of each odds: in spring of a frost still to come, in autumn of one come."""
    signs = (_SELDOM, _EVEN, _OFTEN)
    begun = first
    for sign, day in reversed(tuple(zip(signs, _three(of.spring), strict=True))):
        if day is not None and day > begun:
            yield Mark(sign, begun, day)
            begun = day
    over = beyond
    for sign, day in reversed(tuple(zip(signs, _three(of.autumn), strict=True))):
        if day is not None and day < over:
            yield Mark(sign, day, over)
            over = day


def _years(of: FrostView) -> Iterator[Block]:
    """Yield the recorded years: a picture, where they are from, those left out, and any trend."""
    if of.years is None or of.halves is None:
        return
    yield Space()
    yield Heading("YEAR BY YEAR", f"frost of {show_temperature(FREEZING, of.setting.units)}")
    yield from _picture(of.years, south=of.south)
    used = of.basis.record
    if used is not None and of.wanted is not None:
        yield Text(_record(used, of.wanted))
        yield Text(_lacks(used.lacks))
    for half in of.halves:
        yield Text(_half(half, of))
    for found in of.trends:
        yield Text(_trend(found))


def _picture(years: tuple[YearSeen, ...], *, south: bool) -> Iterator[Block]:
    """Yield a track for each of the latest years, from midwinter to midwinter."""
    if not years:
        yield Text("no year is complete enough")
        return
    yield Tracks(
        days=_DAYS_OF_A_TRACK,
        head=GrowingYear(years[-1].season, south).first,
        tracks=tuple(_track(each, GrowingYear(each.season, south)) for each in years[-MOST_YEARS:]),
        key=_KEY,
    )
    more = len(years) - MOST_YEARS
    if more > 0:
        yield Text(f"and {more} earlier years")


def _track(of: YearSeen, year: GrowingYear) -> Track:
    """Return a year: frosty until the last frost, free of it, frosty from the first on."""
    beyond = year.first + timedelta(days=_DAYS_OF_A_TRACK)
    marks = []
    if not of.autumn_known:
        marks.append(Mark(UNKNOWN, year.midsummer, beyond))
    elif of.first_frost is not None and of.first_frost <= year.last:
        marks += [Mark(FROSTY, of.first_frost, beyond), Mark(ENDS, of.first_frost)]
    if not of.spring_known:
        marks.append(Mark(UNKNOWN, year.first, year.midsummer))
    elif of.last_frost is not None and of.last_frost >= year.first:
        marks += [Mark(FROSTY, year.first, of.last_frost), Mark(ENDS, of.last_frost)]
    return Track(str(of.season), year.first, tuple(marks))


def _half(of: HalvesUsed, frosts: FrostView) -> str:
    """Say which half-years are used, which have no frost and which are left out and why."""
    name = "springs" if of.half is Half.SPRING else "autumns"
    text = f"{of.used} {name} used"
    if of.without_frost:
        text += f", {of.without_frost} of them without such a frost"
    left_out = [each for each in frosts.years_left_out or () if each.half is of.half]
    if not left_out:
        return f"{text}."
    told = [f"{each.season} ({each.reason})" for each in left_out[:_MOST_LEFT_OUT]]
    more = len(left_out) - len(told)
    if more:
        told.append(f"{more} more")
    return f"{text}; left out, since a missing day could hide the frost: {', '.join(told)}."


def _trend(of: TrendSeen) -> str:
    which = "last" if of.half is Half.SPRING else "first"
    way = "later" if of.days_per_decade > 0 else "earlier"
    return (
        f"Trend: the {which} frost comes {abs(of.days_per_decade):.1f} days {way} each decade, "
        f"more than chance would bring in {of.years} years. Choose the years to use with "
        "`years: last 30`."
    )


def _record(used: RecordUsed, wanted: YearsWanted) -> str:
    """Say where the years are from, what told their unit, and which of them are used."""
    station = "" if used.station is None else f", station {used.station}"
    by = "as the file of the garden states" if used.unit_from == GIVEN else f"by {used.unit_from}"
    text = f"From {used.file}{station}, read in {together(used.unit)}, {by}."
    if wanted.first is not None:
        return f"{text} Its years {wanted.first} to {wanted.to} are wanted."
    if wanted.last is None or wanted.last >= used.years_there:
        return f"{text} All of its {words.count(used.years_there, 'year')} are used."
    return (
        f"{text} The newest {wanted.last} of its {words.count(used.years_there, 'year')} are used: "
        "`years: all` takes them all."
    )


def _lacks(of: Lacks) -> str:
    """Say what the record lacks, from its first day to its last."""
    days = words.count(of.days, "day")
    if not of.missing:
        return f"None of its {days} lacks a minimum."
    verb = "has" if of.missing == 1 else "have"
    text = f"{of.missing:,} of its {days} {verb} no minimum"
    if of.gap_from is not None and of.gap_to is not None and of.gap_from < of.gap_to:
        text += f", the longest run {_dated(of.gap_from)} to {_dated(of.gap_to)}"
    left_out = []
    if of.doubted:
        left_out.append(f"{words.count(of.doubted, 'reading')} that the archive itself doubts")
    if of.impossible:
        left_out.append(f"{words.count(of.impossible, 'day')} that cannot be so")
    if left_out:
        text += f". Left out: {words.listed(left_out)}"
    return f"{text}."


def _dated(day: date) -> str:
    return together(f"{short_day(day)} {day.year}")


def _hot_weeks(of: FrostView) -> Iterator[Block]:
    """Say when it is too hot for most cool-season crops, as far as anybody knows."""
    year, found, weeks = of.setting.year, of.hot_weeks, of.hot_span
    if found is None and weeks is None:
        return
    yield Space()
    limit = show_temperature(HOT_WEEKS, of.setting.units)
    title = f": 15 days with a mean over {limit}, too hot for most cool-season crops."
    yield Text(line(("HOT WEEKS", Style.HEADING), title))
    if found is not None and found.years_with:
        yield Text(
            f"In {together(f'{found.years_with} of {found.years_used}')} years. They begin before "
            f"{_in_years(found.begin, year)}; they last beyond {_in_years(found.over, year)}."
        )
    elif found is not None:
        yield Text(f"None in {words.count(found.years_used, 'year')}.")
    if weeks is not None and (found is None or of.hot_span_stated):
        two_months = of.basis.warmth is WarmthFrom.TWO_MONTHS
        means = "warmest and coldest month" if two_months else "normals"
        source = "As you wrote them" if of.hot_span_stated else f"By the {means}"
        yield Text(f"{source}: {words.days_from_to(weeks.from_, weeks.to, year)}.")


def _in_years(days: DaysOf, year: GrowingYear) -> str:
    """Say days with their shares of years: ``24 May in 10 years of 100, 4 Jun in 50``."""
    said: list[str] = []
    for day, share in zip(_three(days), _SHARES, strict=True):
        of = share + ("" if said else " years of 100")
        if day is not None:
            said.append(f"{together(_day(day, year))} in {of}")
    return ", ".join(said) if said else "no day in 10 years of 100"


def _short_days(of: FrostView) -> str:
    year, short = of.setting.year, of.short_days
    hours = f"{short.hours:.0f} hours, from sunrise to sunset"
    if short.from_ is None or short.until is None:
        return f"No day is shorter than {hours}."
    return (
        f"Days are shorter than {hours}, until {together(words.day(short.until, year))} and from "
        f"{together(words.day(short.from_, year))} on: most crops hardly grow then."
    )
