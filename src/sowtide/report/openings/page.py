"""What comes free as a page: what to start now, then each space and what fits there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from sowtide.garden.crop import Raised
from sowtide.grouping import grouped
from sowtide.report.blocks import Block, Heading, Space, Style, Text, line, together
from sowtide.report.kit import words
from sowtide.report.kit.seedlings import start_lines
from sowtide.report.kit.stands import area_of
from sowtide.report.openings.view import OfferView, OpeningsView, OpeningView

MOST_OPENINGS, _MOST_STARTS, _MOST_NAMED, _MOST_WAVES = 24, 8, 8, 3
_FEWER = "`--weeks 2` or `--bed` asks for fewer, `--format json` lists them all"


def page(of: OpeningsView) -> Iterator[Block]:
    """Yield what to start now, then what comes free and what fits there."""
    days = words.days_from_to(of.from_, of.to, of.setting.year)
    yield Text(line(("WHAT COMES FREE", Style.HEADING), f"  {together(days)}"))
    yield Space()
    yield Heading("START NOW", "in trays, this week")
    starts = start_lines(of.start_now, of.setting.year)
    for start in starts[:_MOST_STARTS]:
        yield Text(start, first="- ", hang=4)
    if len(starts) > _MOST_STARTS:
        yield Text(f"and {len(starts) - _MOST_STARTS} more; {_FEWER}")
    if not of.start_now:
        yield Text("Nothing must be sown in trays this week for what comes free later.")
    usable = _alike(each for each in of.openings if each.fits)
    for openings in usable[:MOST_OPENINGS]:
        yield Space()
        yield from _opening(openings, of)
    if len(usable) > MOST_OPENINGS:
        more = words.count(sum(map(len, usable[MOST_OPENINGS:])), "opening")
        yield Space()
        yield Text(f"and {more} more; {_FEWER}")
    yield from _without(of)
    if not of.openings:
        yield Space()
        yield Text("Nothing comes free in these weeks.")
    safe = words.safe_means(of.setting.sure)
    text = words.sentence(f"each crop named would fill the space, and is safe: {safe}")
    yield Space()
    yield Text(f"{text} {words.rests_on(of.basis)}")


def _many(of: OfferView) -> str:
    return f"{of.plants:,} {of.title}"


def _alike(openings: Iterable[OpeningView]) -> list[list[OpeningView]]:
    """Put together the spaces that differ in nothing but their bed, where the first of them is."""
    return list(grouped(openings, lambda each: replace(each, bed="")).values())


def _opening(alike: Sequence[OpeningView], whole: OpeningsView) -> Iterator[Block]:
    of = alike[0]
    text = f"  {_when(of, whole)}"
    if len(alike) > 1:
        text += " each"
    if of.leaves:
        text += f", as {words.listed(of.leaves)} {'leaves' if len(of.leaves) == 1 else 'leave'}"
    beds = ", ".join(map(together, words.runs_of_beds([each.bed for each in alike])))
    yield Text(line((beds, Style.HEADING), text), hang=2)
    for each in of.fits:
        yield Text(words.unbroken(_offer(each, whole)), first="  ", hang=4)


def _when(of: OpeningView, whole: OpeningsView) -> str:
    """Say from when to when a space is free, and how much it is."""
    year = whole.setting.year
    begins = "now" if of.from_ == whole.from_ else words.weekday(of.from_, year)
    until = "" if of.until is None else f" until {together(words.weekday(of.until, year))}"
    return f"{together(begins)}{until}, {together(area_of(of.area, whole.setting.units))}"


def _without(of: OpeningsView) -> Iterator[Block]:
    """Yield the spaces that nothing is offered for, parted by why."""
    none: list[OpeningView] = []
    planned: list[OpeningView] = []
    rotated: list[OpeningView] = []
    for each in of.openings:
        if each.kept_out is not None:
            (planned if each.kept_out.in_the_way_of else rotated).append(each)
        elif not each.fits:
            none.append(each)
    yield from _named("NOTHING SAFE", "in the time or the space there is", none, of)
    yield from _named("KEPT FOR THE PLAN", "what is safe is in its way", planned, of)
    yield from _named("ROTATION", "keeps out what is safe", rotated, of)


def _named(title: str, why: str, of: Sequence[OpeningView], whole: OpeningsView) -> Iterator[Block]:
    """Yield a line that names some spaces, or counts them."""
    if not of:
        return
    named = words.count(len(of), "opening")
    if len(of) <= _MOST_NAMED:
        named = "; ".join(
            f"{together(each.bed)} {_when(each, whole)}{_kept_out(each)}" for each in of
        )
    yield Space()
    yield Text(line((title, Style.HEADING), f"  {why}: {named}"), hang=2)


def _kept_out(of: OpeningView) -> str:
    """Say what is kept out of a space, and for which waves."""
    if of.kept_out is None:
        return ""
    waves = list(of.kept_out.in_the_way_of)
    if len(waves) > _MOST_WAVES:
        waves[_MOST_WAVES - 1 :] = [f"{len(waves) - _MOST_WAVES + 1} more"]
    kept_for = f", for {words.listed(waves)}" if waves else ""
    return f" ({together(of.kept_out.title)}{kept_for})"


def _offer(of: OfferView, whole: OpeningsView) -> str:
    year = whole.setting.year
    assert of.first_pick is not None  # else it is no offer
    planted = words.weekday(of.plant, year)
    act = f"sow {_many(of)} on {planted}"
    if of.raised is Raised.TRAYS:
        act = f"plant out {_many(of)} on {planted}, sown {words.day(of.sow, year)}"
    return f"{act}: first picks {words.day(of.first_pick[0], year)}, {words.odds_of(of.judged)}"
