"""Keep a wave or pull it for another crop, as text: a sentence, and the numbers under it."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.garden.crop import Raised
from sowtide.report.blocks import EMPTY, Line, Span, Style, line, together
from sowtide.report.fits.answer import done, seedlings_of
from sowtide.report.formats.terminal.cells import Column, wrap
from sowtide.report.formats.terminal.named_table import named_table
from sowtide.report.kit import words
from sowtide.report.kit.stands import bed_plants
from sowtide.schedule.fits import Spot, Weighing
from sowtide.schedule.season import Season
from sowtide.units import years_of_hundred

_COLUMNS = (Column(20), Column(20))
_MOST_KIN = 8
_YOURS = "Which is better is yours to say: how it looks and bears is not known here."


def instead_of_text(found: Weighing, season: Season, *, width: int) -> tuple[Line, ...]:
    """Lay out what speaks for keeping a wave and for replacing it.

    Parameters
    ----------
    found
        The two sides.
    season
        The season.
    width
        Of the screen. [cells]
    """
    year = season.garden.year
    on = together(words.weekday(found.since, year))
    title = f": {found.wave.id} in {words.where(bed_plants(found.wave.stands))}, {on}"
    lines = [*wrap(line(("KEEP OR REPLACE", Style.HEADING), title), width)]
    lines += wrap(words.unbroken(f"{_kept(found, season)}; {_replaced(found, season)}."), width)
    lines += (EMPTY, *_table(found, season, width))
    lines += (EMPTY, *_beside(found, season, width))
    spot = _spot(found)
    if found.answer.raised is Raised.TRAYS and spot is not None:
        sown = spot.judged.stages.sow.day
        lines += wrap(seedlings_of(found.answer, sown, season, fits=True), width)
    lines += wrap(_YOURS, width)
    safe = words.sentence(words.safe_means(season.garden.site.sure))
    lines += (EMPTY, *wrap(f"{safe} {words.rests_on(season.climate.basis)}", width))
    return tuple(lines)


def _spot(found: Weighing) -> Spot | None:
    return found.answer.spots[0] if found.answer.spots else None


def _kept(found: Weighing, season: Season) -> str:
    """Say what is given up."""
    wave, year = found.wave, season.garden.year
    day = words.day(found.since, year)
    act = "Pulled on" if found.since > wave.stages.plant.day else "Not planted on"
    last = wave.stages.last_pick
    if found.left is None:
        if last is None:
            return f"{act} {day}, {wave.id} gives up what nobody can date"
        until = words.day(last.day, year)
        return f"{act} {day}, {wave.id} gives up what stands to be cut until {until}"
    days = words.mean_days(found.left.days)
    years = years_of_hundred(found.left.odds, of=found.left.years or 100)
    return f"{act} {day}, {wave.id} gives up {days} of picking on average, any in {years}"


def _replaced(found: Weighing, season: Season) -> str:
    """Say what would come in its place."""
    spot, year, crop = _spot(found), season.garden.year, found.answer.crop
    if spot is None:
        text = f"there is no room for {crop.title} in its place"
        if found.comes is None:
            return text
        return f"{text}: {found.comes.wave} comes on {words.day(found.comes.day, year)}"
    judged = spot.judged
    planted = words.day(spot.free_from, year)
    only = "only " if spot.free_from > found.answer.asked_on else ""
    text = f"{crop.title} {done(found.answer)} there {only}on {planted}"
    first = judged.stages.first_pick
    if first is None or judged.odds is None:
        return f"{text} would give nothing to pick by what is known"
    picks = words.days_from_to(first[0].day, first[1].day, year)
    how = "would be ready to cut" if crop.cut_once else "would be picked from"
    long = "" if crop.cut_once else f", {words.mean_days(judged.expected_picking_days)} on average"
    return f"{text} {how} {picks}{long}, worth it in {words.years_of(judged, judged.odds)}"


def _table(found: Weighing, season: Season, width: int) -> Iterator[Line]:
    """Yield both sides beside each other."""
    year, wave, spot = season.garden.year, found.wave, _spot(found)
    judged = None if spot is None else spot.judged
    last = wave.stages.last_pick
    first = None if judged is None else judged.stages.first_pick
    kept_until = "not known" if last is None else f"to {words.day(last.day, year)}"
    from_then = "nothing"
    if first is not None:
        from_then = f"from {words.days_from_to(first[0].day, first[1].day, year)}"
    rows: list[tuple[str, tuple[str | Span, ...]]] = [
        ("plants", (f"{wave.plants:,}", "" if spot is None else f"{spot.plants:,}")),
        ("picked", (kept_until, from_then)),
        ("picking days", (_days_kept(found), _days_replaced(found))),
        ("odds", (_odds_kept(found), "" if judged is None else words.odds_cell(judged))),
        ("", ("", ("no room", Style.BAD) if judged is None else words.verdict(judged.verdict))),
    ]
    titles = ("", f"keep {wave.id}", f"{found.answer.crop.title} instead")
    yield from named_table(_COLUMNS, titles, rows, width=width)


def _days_kept(found: Weighing) -> str:
    return "" if found.left is None else words.mean_days(found.left.days)


def _days_replaced(found: Weighing) -> str:
    spot = _spot(found)
    if spot is None or found.answer.crop.cut_once:
        return ""
    return words.mean_days(spot.judged.expected_picking_days)


def _odds_kept(found: Weighing) -> str:
    if found.left is None:
        return ""
    return f"any in {words.odds(found.left.odds, years=found.left.years)}"


def _beside(found: Weighing, season: Season, width: int) -> Iterator[Line]:
    """Say what else of its crop is picked then, what of its family stands, and rotation."""
    year, crop = season.garden.year, found.wave.crop
    if found.gaps:
        days = words.listed(words.days_from_to(gap.first, gap.last, year) for gap in found.gaps)
        yield from wrap(words.unbroken(f"Without it no {crop.name} is picked on {days}."), width)
    if found.others:
        names = words.listed(each.id for each in found.others[:_MOST_KIN])
        verb = "is" if len(found.others) == 1 else "are"
        yield from wrap(f"{names} {verb} picked on some of the same days.", width)
    if found.family:
        names = words.listed(
            f"{each.id} in {words.where(bed_plants(each.stands))}"
            for each in found.family[:_MOST_KIN]
        )
        more = len(found.family) - _MOST_KIN
        rest = f", and {more} more" if more > 0 else ""
        text = f"Of the {crop.family} there stand, too: {names}{rest}. What ails it may ail them."
        yield from wrap(text, width)
    if found.rotation is not None:
        text = f"Rotation speaks against {found.answer.crop.name}: {found.rotation}."
        yield from wrap(text, width)
