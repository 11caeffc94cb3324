"""A place's frost odds: when, how sure, from what, and every recorded year in a small picture."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from sowtide.climate.daylight import SHORT_DAY, first_below, last_below
from sowtide.climate.frost import SHARES, FrostRow, frost_table
from sowtide.climate.frost_record import FrostYears, HalfYears, trend
from sowtide.climate.soil import HOT_WEEKS
from sowtide.climate.warmth import SHARES as HOT_SHARES
from sowtide.days import GrowingYear, Half
from sowtide.garden.site import YearsWanted
from sowtide.report.frost.picture import picture
from sowtide.report.kit import words
from sowtide.report.kit.sheet import EMPTY, Column, Line, Style, line, row, styled, together, wrap
from sowtide.season import Place
from sowtide.units import FREEZING, show_temperature

_FIRST, _DAY, _LENGTH = Column(7, right=True), Column(6, right=True), Column(5, right=True)
_PARTS = {
    "spring": "last frost later in",
    "autumn": "first frost earlier in",
    "frost_free": "frost-free days",
}
_WIDE = 72
_MOST_LEFT_OUT = 6


def frost_text(place: Place, *, width: int) -> tuple[Line, ...]:
    """Lay out the frost odds of a site.

    Parameters
    ----------
    place
        The garden and its climate.
    width
        Of the screen. [cells]
    """
    site, climate = place.garden.site, place.climate
    lines = [line(("FROST", Style.HEADING), f"  {site.name}")]
    lines += wrap(words.rests_on(climate.basis), width)
    if climate.basis.frost == "none":
        lines += (*wrap("No frost comes here.", width), *_hot_weeks(place, width))
        lines += (EMPTY, *wrap(_short_days(place), width))
        return tuple(lines)
    lines += wrap(
        "These are the odds of the station or of the dates given: what the garden or a bed is "
        "colder, and what a cover buys, is not in them.",
        width,
    )
    rows = frost_table(climate)
    lines += (EMPTY, *_table(rows, place, width))
    lines += wrap(_how_to_read(rows, place), width)
    known = climate.frost_years(FREEZING)
    if known is not None:
        lines += _years(known, place, width)
    lines += _hot_weeks(place, width)
    lines += (EMPTY, *wrap(_short_days(place), width))
    return tuple(lines)


def _table(rows: tuple[FrostRow, ...], place: Place, width: int) -> Iterator[Line]:
    """Lay out the table, or where it has no room its three parts one below the other."""
    if width >= _WIDE:
        yield styled(
            "            last frost later in  first frost earlier in   frost-free days", Style.DIM
        )
        yield from _part(rows, place, _PARTS)
        return
    for part, title in _PARTS.items():
        yield styled(" " * (_FIRST.width + 1) + title, Style.DIM)
        yield from _part(rows, place, (part,))


def _part(rows: tuple[FrostRow, ...], place: Place, parts: Iterable[str]) -> Iterator[Line]:
    year, units = place.garden.year, place.garden.site.units
    columns = [_FIRST]
    for part in parts:
        columns += [_LENGTH if part == "frost_free" else _DAY] * len(SHARES)
    shares = [f"{100 * share:.0f}" for share in SHARES]
    yield row(columns, [(head, Style.DIM) for head in ["", *(shares * (len(columns) // 3))]], gap=1)
    for each in rows:
        texts = [show_temperature(each.at, units)]
        for part in parts:
            for found in getattr(each, part):
                texts.append(_day(found, year) if isinstance(found, date) else _count(found))
        yield row(columns, texts, gap=1)


def _count(days: int | None) -> str:
    return "–" if days is None else str(days)


def _day(day: date, year: GrowingYear) -> str:
    """Say a day without its year: the winter after the season belongs to its autumn."""
    return " ".join(words.day(day, year).split(" ")[:2])


def _how_to_read(rows: tuple[FrostRow, ...], place: Place) -> str:
    ends = "; ".join(
        f"{together(show_temperature(each.at, place.garden.site.units))} ends what is "
        f"{each.hardiness.value}"
        for each in rows
    )
    text = (
        "Of 100 years so many have such a frost later (spring) or earlier (autumn) than the day, "
        "and so many a frost-free season no longer than the days; –: fewer years have one, or "
        "nobody knows."
    )
    if place.climate.frost_years(FREEZING) is None and place.climate.basis.frost != "none":
        text += " The 50 is the time between the two average days; how it varies is not known."
    return f"{text} {ends}."


def _years(known: FrostYears, place: Place, width: int) -> Iterator[Line]:
    units = place.garden.site.units
    yield EMPTY
    yield line(("YEAR BY YEAR", Style.HEADING), f"  frost of {show_temperature(known.at, units)}")
    yield from picture(known, width=width)
    named, used = place.garden.site.record, place.climate.basis.record
    if named is not None and used is not None:
        station = "" if used.station is None else f", station {used.station}"
        wanted = _years_wanted(named.years)
        yield from wrap(
            f"From {used.file}{station}, read in {together(used.unit)}, as {wanted}.", width
        )
    for half in (Half.SPRING, Half.AUTUMN):
        yield from wrap(_half(known.of(half), half), width)
    for half in (Half.SPRING, Half.AUTUMN):
        found = trend(known.of(half))
        if found is not None and found.is_sure:
            which = "last" if half is Half.SPRING else "first"
            way = "later" if found.days_per_decade > 0 else "earlier"
            yield from wrap(
                f"Trend: the {which} frost comes {abs(found.days_per_decade):.1f} days {way} each "
                f"decade, more than chance would bring in {found.years} years. Choose the years to "
                "use with `years: last 30`.",
                width,
            )


def _hot_weeks(place: Place, width: int) -> Iterator[Line]:
    """Say when it is too hot for most cool-season crops, as far as anybody knows."""
    site, year, found = place.garden.site, place.garden.year, place.climate.hot_odds
    weeks = place.climate.hot_weeks
    if found is None and weeks is None:
        return
    yield EMPTY
    limit = show_temperature(HOT_WEEKS, site.units)
    title = f": 15 days with a mean over {limit}, too hot for most cool-season crops."
    yield from wrap(line(("HOT WEEKS", Style.HEADING), title), width)
    if found is not None and found.with_any:
        yield from wrap(
            f"In {together(f'{found.with_any} of {found.years}')} years. They begin before "
            f"{_in_years(found.begin, year)}; they last beyond {_in_years(found.over, year)}.",
            width,
        )
    elif found is not None:
        yield from wrap(f"None in {words.count(found.years, 'year')}.", width)
    if weeks is not None and (found is None or site.heat_known):
        source = "As you wrote them" if site.heat_known else "By the normals"
        yield from wrap(f"{source}: {words.days_from_to(weeks.first, weeks.last, year)}.", width)


def _in_years(days: tuple[date | None, ...], year: GrowingYear) -> str:
    """Say days with their shares of years: ``24 May in 10 years of 100, 4 Jun in 50``."""
    said: list[str] = []
    for day, share in zip(days, HOT_SHARES, strict=True):
        of = f"{100 * share:.0f}" + ("" if said else " years of 100")
        if day is not None:
            said.append(f"{together(_day(day, year))} in {of}")
    return ", ".join(said) if said else "no day in 10 years of 100"


def _years_wanted(wanted: YearsWanted) -> str:
    if wanted.last is not None:
        return f"its last {wanted.last} years are wanted"
    if wanted.first is not None:
        return f"its years {wanted.first} to {wanted.to} are wanted"
    return "far as it reaches"


def _half(known: HalfYears, half: Half) -> str:
    """Say which half-years are used, which have no frost and which are left out and why."""
    name = "springs" if half is Half.SPRING else "autumns"
    text = f"{len(known.years)} {name} used"
    if known.without_frost:
        text += f", {known.without_frost} of them without such a frost"
    if not known.left_out:
        return f"{text}."
    told = [f"{each.season} ({each.reason})" for each in known.left_out[:_MOST_LEFT_OUT]]
    more = len(known.left_out) - len(told)
    if more:
        told.append(f"{more} more")
    return f"{text}; left out, since a missing day could hide the frost: {', '.join(told)}."


def _short_days(place: Place) -> str:
    year, latitude = place.garden.year, place.garden.site.latitude
    first, last = first_below(SHORT_DAY, latitude, year), last_below(SHORT_DAY, latitude, year)
    if first is None or last is None:
        return f"No day is shorter than {SHORT_DAY} hours, from sunrise to sunset."
    return (
        f"Days are shorter than {SHORT_DAY} hours, from sunrise to sunset, until "
        f"{together(words.day(last, year))} and from {together(words.day(first, year))} on: most "
        "crops hardly grow then."
    )
