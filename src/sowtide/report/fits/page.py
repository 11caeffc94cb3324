"""The answer to "does one more wave fit before frost?" as a page: first in one plain sentence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from sowtide.report.blocks import (
    Block,
    Cells,
    FileTitle,
    Heading,
    Space,
    Span,
    Style,
    Table,
    Text,
    line,
    together,
)
from sowtide.report.fits.sentences import another_first, answered, limits, other_year, plants_of
from sowtide.report.fits.view import AnswerView, FitsView
from sowtide.report.kit import words
from sowtide.report.kit.alternatives import alternative
from sowtide.report.kit.seedlings import act, done
from sowtide.report.kit.spots import GOOD, SpotView, first_picks, odds_and_verdict, odds_title
from sowtide.schedule.waves import SAFE, Verdict
from sowtide.units import show_temperature_difference

_MOST_BEDS = 15
_WORTH_SHOWING = (*GOOD, Verdict.CHANCY)


def page(of: FitsView) -> Iterator[Block]:
    """Yield the answer for a crop."""
    asked = of.best.crop if of.varieties is not None else of.best.title
    season = words.season_name(of.setting.year)
    yield FileTitle(f"FITS {season}", f"{asked}, {of.setting.name}")
    yield from another_first(of)
    yield from other_year(of)
    yield from answered(of)
    yield Text(limits(of))
    if of.varieties is not None:
        yield from _varieties(of.varieties, of)
    if of.best.places or of.best.planted.first_pick is not None:
        yield from _beds(of)
    yield from _waiting(of)
    yield from _cover(of)
    yield from _instead(of.best)
    yield Space()
    yield Text(words.how_sure(of.setting.sure, of.best.basis))


def _varieties(answers: Sequence[AnswerView], of: FitsView) -> Iterator[Block]:
    year = of.setting.year
    one_crop = len({each.crop for each in answers}) == 1
    yield Space()
    yield Heading("VARIETIES" if one_crop else "CROPS")
    columns = (
        Cells("", 9),
        Cells(odds_title(answers[0].judged), 7, right=True),
        Cells("first pick", 15),
        Cells("last safe", 9),
        Cells("safe beds", 9),
    )
    rows: list[tuple[str, tuple[str | Span, ...]]] = []
    for each in answers:
        odds, verdict = odds_and_verdict(each.judged)
        last = each.last_safe_planting
        texts = (
            verdict,
            odds,
            first_picks(each.judged, year),
            words.day(last, year) if last else "none",
            _safe_beds(each),
        )
        rows.append(((each.variety or each.crop) if one_crop else each.title, texts))
    yield Table("", columns, tuple(rows))


def _safe_beds(of: AnswerView) -> str:
    safe = sum(spot.verdict in SAFE for spot in of.places)
    return f"{safe} of {len(of.places)}" if of.places else "none"


def _beds(of: FitsView) -> Iterator[Block]:
    """Yield the beds with room: beside good ones only chancy ones, and the rest counted."""
    best = of.best
    most = "" if best.plants == 1 else "up to "
    yield Space()
    yield Text(line(("BEDS WITH ROOM", Style.HEADING), f" for {most}{plants_of(best)}"))
    if not best.places:
        yield Text("none")
        return
    worth = best.places
    if any(spot.verdict in GOOD for spot in best.places):
        worth = tuple(spot for spot in best.places if spot.verdict in _WORTH_SHOWING)
    shown = worth[:_MOST_BEDS]
    columns = (
        Cells("plants", 6, right=True),
        Cells(act(best.raised), 15),
        Cells("first pick", 15),
        Cells(odds_title(shown[0].judged), 7, right=True),
        Cells("", 9),
    )
    yield Table("bed", columns, tuple((spot.bed, _bed(spot, of)) for spot in shown))
    for spot in shown:
        yield from _between(spot, of)
    more = len(worth) - _MOST_BEDS
    if more > 0:
        yield Text(f"and {words.count(more, 'bed')} more; `--format json` lists them all")
    others = Counter(spot.verdict for spot in best.places if spot not in worth)
    if others:
        yield _other_beds(others)


def _bed(spot: SpotView, of: FitsView) -> tuple[str | Span, ...]:
    year = of.setting.year
    return (
        f"{spot.plants:,}",
        words.days_from_to(spot.free_from, spot.until, year),
        first_picks(spot.judged, year),
        *odds_and_verdict(spot.judged),
    )


def _between(spot: SpotView, of: FitsView) -> Iterator[Block]:
    """Say after and before what one more wave would stand in a bed, where anything does."""
    year, told = of.setting.year, []
    if spot.after is not None:
        gone = together(words.day(spot.after.date, year))
        told.append(f"free of {spot.after.wave or 'your own use of it'} on {gone}")
    if spot.before is not None:
        comes = together(words.day(spot.before.date, year))
        told.append(f"{spot.before.wave or 'your own use of it'} comes on {comes}")
    if told:
        yield Text(f"{spot.bed}: {', '.join(told)}", first="  ")


def _other_beds(found: Counter[Verdict | None]) -> Text:
    """Count the beds that have no room on a day worth showing, by what is wrong with their days."""
    kinds = [(verdict.value, found[verdict]) for verdict in Verdict if found[verdict]]
    when = words.listed(
        (f"{name} ({number})" if len(kinds) > 1 else name for name, number in kinds), last="or"
    )
    number = found.total()
    beds = "more bed has" if number == 1 else "more beds have"
    return Text(f"{number} {beds} room only when it is {when}")


def _waiting(of: FitsView) -> Iterator[Block]:
    """Show what waiting costs, week by week, where it costs anything."""
    best, year = of.best, of.setting.year
    if len({(each.verdict, words.odds_cell(each.judged)) for each in best.by_date}) < 2:
        return
    planted = done(best.raised)
    yield Space()
    yield Heading("IF YOU WAIT", f"the same, {planted} on other days")
    columns = (
        Cells("first pick", 15),
        Cells("" if best.cut_once else "picked", 7),
        Cells(odds_title(best.judged), 7, right=True),
        Cells("", 9),
    )
    rows: list[tuple[str, tuple[str | Span, ...]]] = []
    for each in best.by_date:
        picked = "" if best.cut_once else words.mean_days(each.expected_picking_days)
        texts = (first_picks(each.judged, year), picked, *odds_and_verdict(each.judged))
        rows.append((words.weekday(each.plant, year), texts))
    yield Table(planted, columns, tuple(rows))


def _cover(of: FitsView) -> Iterator[Block]:
    """Show what a cover buys: earlier and later days, and better odds on the day asked about."""
    best, cover = of.best, of.best.cover
    if cover is None:
        return
    year, units = of.setting.year, of.setting.units
    on = words.weekday(best.on, year)
    degrees = show_temperature_difference(cover.buys_c, units)
    buys = f" that buys {degrees}: {done(best.raised)} on {on}"
    yield Space()
    yield Text(line(("UNDER A COVER", Style.HEADING), buys))
    columns = (
        Cells("earliest", 8),
        Cells("last safe", 9),
        Cells("first pick", 15),
        Cells(odds_title(best.judged), 7, right=True),
        Cells("", 9),
    )
    sides = (
        ("without", cover.earliest_without, cover.last_without, cover.without),
        ("with it", cover.earliest_planting, cover.last_safe_planting, cover.under.judged),
    )
    rows: list[tuple[str, tuple[str | Span, ...]]] = []
    for name, earliest, last, judged in sides:
        until = "none" if last is None else words.day(last, year)
        first = first_picks(judged, year)
        rows.append((name, (words.day(earliest, year), until, first, *odds_and_verdict(judged))))
    yield Table("", columns, tuple(rows))
    if cover.own:
        own = show_temperature_difference(cover.own, units)
        yield Text(f"The bed's own cover of {own} is left out of both.")


def _instead(best: AnswerView) -> Iterator[Block]:
    """Say what else would fit, or be better, where the answer is no."""
    if best.fits or (best.verdict is None and best.places):
        return
    yield Space()
    yield Heading("INSTEAD")
    if not best.instead:
        yield Text("nothing found: no other bed, cover, seedlings or quicker crop")
    yield from map(alternative, best.instead)
