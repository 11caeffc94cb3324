"""The answer to "does one more wave fit before frost?" as text: first in one plain sentence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from sowtide.days import GrowingYear
from sowtide.garden.crop import Raised
from sowtide.report.blocks import EMPTY, Line, Style, line, styled, together
from sowtide.report.fits.answer import another_first, answered, done, limits, other_year, plants_of
from sowtide.report.formats.terminal.cells import Column, wrap
from sowtide.report.formats.terminal.named_table import named_table
from sowtide.report.kit import words
from sowtide.schedule.fits import Answer, Spot
from sowtide.schedule.season import Season
from sowtide.schedule.waves import SAFE, Judged, Verdict
from sowtide.units import show_temperature_difference

_MOST_BEDS = 15
_ODDS_TITLE = {True: "in 100", False: "years"}
_GOOD = (*SAFE, None)
_WORTH_SHOWING = (*_GOOD, Verdict.CHANCY)
_BED_COLUMNS = (
    Column(6, right=True),
    Column(15),
    Column(15),
    Column(7, right=True),
    Column(9),
)
_WAITING_COLUMNS = (Column(15), Column(7), Column(7, right=True), Column(9))
_COVER_COLUMNS = (Column(8), Column(9), Column(15), Column(7, right=True), Column(9))
_CROP_COLUMNS = (Column(9), Column(7, right=True), Column(15), Column(9), Column(9))


def fits_text(
    answers: tuple[Answer, ...], season: Season, *, width: int, asked: str = ""
) -> tuple[Line, ...]:
    """Lay out the answer for a crop.

    Parameters
    ----------
    answers
        One for each variety of it, best first.
    season
        The season it would join.
    width
        Of the screen. [cells]
    asked
        The name that was asked for.
    """
    if not answers:
        return wrap("Nothing to judge: the file has no such crop.", width)
    best = answers[0]
    lines = [*another_first(answers, asked, width), *other_year(best, season, width)]
    lines += answered(best, season, width)
    lines += wrap(limits(best, season), width)
    lines += _crops(answers, season, width)
    lines += _beds(best, season, width)
    lines += _waiting(best, season, width)
    lines += _cover(best, season, width)
    lines += _instead(best, width)
    safe = words.sentence(words.safe_means(season.garden.site.sure))
    lines += (EMPTY, *wrap(f"{safe} {words.rests_on(season.climate.basis)}", width))
    return tuple(lines)


def _crops(answers: tuple[Answer, ...], season: Season, width: int) -> Iterator[Line]:
    if len(answers) < 2:
        return
    year = season.garden.year
    one_crop = len({each.crop.name for each in answers}) == 1
    yield EMPTY
    yield styled("VARIETIES" if one_crop else "CROPS", Style.HEADING)
    rows = [
        (
            (each.crop.variety or each.crop.name) if one_crop else each.crop.title,
            (
                words.verdict(each.judged.verdict),
                words.odds_cell(each.judged),
                _first(each.judged, year),
                words.day(each.last_safe, year) if each.last_safe else "none",
                _safe_beds(each),
            ),
        )
        for each in answers
    ]
    odds = _ODDS_TITLE[answers[0].judged.years is None]
    titles = ("", "", odds, "first pick", "last safe", "safe beds")
    yield from named_table(_CROP_COLUMNS, titles, rows, width=width)


def _safe_beds(of: Answer) -> str:
    safe = sum(spot.judged.verdict in SAFE for spot in of.spots)
    return f"{safe} of {len(of.spots)}" if of.spots else "none"


def _beds(best: Answer, season: Season, width: int) -> Iterator[Line]:
    """Yield the beds with room: beside good ones only chancy ones, and the rest counted."""
    yield EMPTY
    most = "" if best.plants == 1 else "up to "
    yield line(("BEDS WITH ROOM", Style.HEADING), f" for {most}{plants_of(best)}")
    if not best.spots:
        yield from wrap("none", width)
        return
    if any(spot.judged.verdict in _GOOD for spot in best.spots):
        shown = tuple(spot for spot in best.spots if spot.judged.verdict in _WORTH_SHOWING)
    else:
        shown = best.spots
    act = "plant out" if best.raised is Raised.TRAYS else "sow"
    titles = (
        *("bed", "plants", act, "first pick"),
        _ODDS_TITLE[shown[0].judged.years is None],
        "",
    )
    rows = [(spot.bed.name, _bed(spot, season)) for spot in shown[:_MOST_BEDS]]
    yield from named_table(_BED_COLUMNS, titles, rows, width=width)
    for spot in shown[:_MOST_BEDS]:
        yield from _between(spot, season, width)
    more = len(shown) - _MOST_BEDS
    if more > 0:
        text = f"and {words.count(more, 'bed')} more; `--format json` lists them all"
        yield from wrap(text, width)
    yield from _other_beds(tuple(spot for spot in best.spots if spot not in shown), width)


def _between(spot: Spot, season: Season, width: int) -> Iterator[Line]:
    """Say after and before what one more wave would stand in a bed, where anything does."""
    year, told = season.garden.year, []
    if spot.after is not None:
        gone = together(words.day(spot.after.day, year))
        told.append(f"free of {spot.after.wave or 'your own use of it'} on {gone}")
    if spot.before is not None:
        comes = together(words.day(spot.before.day, year))
        told.append(f"{spot.before.wave or 'your own use of it'} comes on {comes}")
    if told:
        yield from wrap(f"{spot.bed.name}: {', '.join(told)}", width, first="  ")


def _waiting(best: Answer, season: Season, width: int) -> Iterator[Line]:
    """Show what waiting costs, week by week, where it costs anything."""
    weeks = best.weekly
    if len({(judged.verdict, words.odds_cell(judged)) for judged in weeks}) < 2:
        return
    year = season.garden.year
    yield EMPTY
    act = "planted out" if best.raised is Raised.TRAYS else "sown"
    yield line(("IF YOU WAIT", Style.HEADING), f"  the same, {act} on other days")
    odds = _ODDS_TITLE[best.judged.years is None]
    rows = [
        (
            words.weekday(judged.stages.plant.day, year),
            (
                _first(judged, year),
                "" if best.crop.cut_once else words.mean_days(judged.expected_picking_days),
                words.odds_cell(judged),
                words.verdict(judged.verdict),
            ),
        )
        for judged in weeks
    ]
    picked = "" if best.crop.cut_once else "picked"
    titles = (act, "first pick", picked, odds, "")
    yield from named_table(_WAITING_COLUMNS, titles, rows, width=width)


def _cover(best: Answer, season: Season, width: int) -> Iterator[Line]:
    """Show what a cover buys: earlier and later days, and better odds on the day asked about."""
    cover = best.cover
    if cover is None:
        return
    year, units = season.garden.year, season.garden.site.units
    yield EMPTY
    on = words.weekday(best.asked_on, year)
    degrees = show_temperature_difference(cover.buys, units)
    yield line(("UNDER A COVER", Style.HEADING), f" that buys {degrees}: {done(best)} on {on}")
    rows = [
        (
            name,
            (
                words.day(judged.earliest, year),
                "none" if last is None else words.day(last, year),
                _first(judged, year),
                words.odds_cell(judged),
                words.verdict(judged.verdict),
            ),
        )
        for name, judged, last in (
            ("without", cover.without, cover.last_without),
            ("with it", cover.under, cover.last_under),
        )
    ]
    odds = _ODDS_TITLE[best.judged.years is None]
    titles = ("", "earliest", "last safe", "first pick", odds, "")
    yield from named_table(_COVER_COLUMNS, titles, rows, width=width)
    if cover.own:
        own = show_temperature_difference(cover.own, units)
        yield from wrap(f"The bed's own cover of {own} is left out of both.", width)


def _bed(spot: Spot, season: Season) -> tuple[str | tuple[str, Style], ...]:
    year = season.garden.year
    until = max(spot.free_until or spot.free_from, spot.free_from)
    return (
        f"{spot.plants:,}",
        words.days_from_to(spot.free_from, until, year),
        _first(spot.judged, year),
        words.odds_cell(spot.judged),
        words.verdict(spot.judged.verdict),
    )


def _other_beds(spots: tuple[Spot, ...], width: int) -> Iterator[Line]:
    """Count the beds that have no room on a day worth showing, by what is wrong with their days."""
    if not spots:
        return
    found = Counter(spot.judged.verdict for spot in spots)
    kinds = [(verdict.value, found[verdict]) for verdict in Verdict if found[verdict]]
    when = words.listed(
        (f"{name} ({number})" if len(kinds) > 1 else name for name, number in kinds), last="or"
    )
    beds = "more bed has" if len(spots) == 1 else "more beds have"
    yield from wrap(f"{len(spots)} {beds} room only when it is {when}", width)


def _first(judged: Judged, year: GrowingYear) -> str:
    first = judged.stages.first_pick
    if first is None:
        return "not known" if judged.verdict is None else "nothing"
    return words.days_from_to(first[0].day, first[1].day, year)


def _instead(best: Answer, width: int) -> Iterator[Line]:
    """Say what else would fit, or be better, where the answer is no."""
    if best.fits or (best.verdict is None and best.spots):
        return
    yield EMPTY
    yield styled("INSTEAD", Style.HEADING)
    if not best.instead:
        yield from wrap("nothing found: no other bed, cover, seedlings or quicker crop", width)
    for each in best.instead:
        text = words.unbroken(words.sentence(each.text)[:-1])
        if each.odds is not None:
            text += f": {together(words.odds(each.odds, years=each.years))}"
        yield from wrap(text, width, first="- ")
