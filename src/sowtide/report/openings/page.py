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

MOST_OPENINGS, _MOST_STARTS, _MOST_NAMED = 24, 8, 8
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
    others = [each for each in of.openings if not each.fits]
    if others:
        yield Space()
        yield _too_short(others, of)
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


def _too_short(of: Sequence[OpeningView], whole: OpeningsView) -> Text:
    """Name the spaces in which no crop would be safe in time, or count them."""
    start = line(("NOTHING SAFE", Style.HEADING), "  in the time or the space there is: ")
    if len(of) > _MOST_NAMED:
        return Text(line(start, words.count(len(of), "opening")), hang=2)
    named = "; ".join(f"{together(each.bed)} {_when(each, whole)}" for each in of)
    return Text(line(start, named), hang=2)


def _offer(of: OfferView, whole: OpeningsView) -> str:
    year = whole.setting.year
    assert of.first_pick is not None  # what is safe is picked
    planted = words.weekday(of.plant, year)
    act = f"sow {_many(of)} on {planted}"
    if of.raised is Raised.TRAYS:
        act = f"plant out {_many(of)} on {planted}, sown {words.day(of.sow, year)}"
    return f"{act}: first picks {words.day(of.first_pick[0], year)}, {words.odds_of(of.judged)}"
