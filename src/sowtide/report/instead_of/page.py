"""Keep a wave or pull it for another crop as a page: a sentence, and the numbers under it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sowtide.report.blocks import Block, Cells, Space, Span, Style, Table, Text, line, together
from sowtide.report.instead_of.view import InsteadOfView, PickedView
from sowtide.report.kit import words
from sowtide.report.kit.seedlings import done, say_seedlings
from sowtide.report.kit.spots import odds_and_verdict
from sowtide.units import show_number, years_of_hundred

_MOST_KIN = 8
_YOURS = "Which is better is yours to say: how it looks and bears is not known here."
_YOURS_TOO = "Which is better is yours to say: only you see how it looks."


def page(of: InsteadOfView) -> Iterator[Block]:
    """Yield what speaks for keeping the wave and for replacing it."""
    on = together(words.weekday(of.on, of.setting.year))
    title = f": {of.wave} in {words.where(of.beds)}, {on}"
    yield Text(line(("KEEP OR REPLACE", Style.HEADING), title))
    yield Text(words.unbroken(f"{_kept(of)}; {_replaced(of)}."))
    yield Space()
    yield _both(of)
    yield Space()
    yield from _beside(of)
    if of.seedlings is not None:
        yield Text(say_seedlings(of.seedlings, of.setting, fits=True))
    yield from _known(of)
    yield Text(_YOURS if of.known is None else _YOURS_TOO)
    yield Space()
    yield Text(words.how_sure(of.setting.sure, of.basis))


def _known(of: InsteadOfView) -> Iterator[Block]:
    """Yield what the journal knows of the wave."""
    known, year = of.known, of.setting.year
    if known is None:
        return
    if known.pickings:
        last = words.listed(
            f"{_amount(each)} on {words.day(each.on, year)}" for each in known.pickings
        )
        text = f"Last picked of {of.wave}: {last}"
        if known.best is not None and known.best not in known.pickings:
            text += f"; at its best {_amount(known.best)} on {words.day(known.best.on, year)}"
        yield Text(f"{text}.")
    for each in known.scouted:
        note = f": {each.note}" if each.note else ""
        yield Text(f"Looked at on {words.day(each.on, year)}: {each.found} found{note}.")
    if of.is_kin and any(each.found != "none" for each in known.scouted):
        yield Text(f"Pulled as sick, it bars its bed to the {of.family} for this season.")


def _amount(of: PickedView) -> str:
    return f"{show_number(of.amount, 3)} {of.unit or 'pieces'}"


def _kept(of: InsteadOfView) -> str:
    """Say what is given up."""
    year = of.setting.year
    act = "Pulled on" if of.on > of.planted else "Not planted on"
    gives_up = f"{act} {words.day(of.on, year)}, {of.wave} gives up"
    if of.left is None:
        if of.keep.last_pick is None:
            return f"{gives_up} what nobody can date"
        until = words.day(of.keep.last_pick, year)
        if of.cut_once or of.ahead is None:
            return f"{gives_up} what stands to be cut until {until}"
        length = words.count(of.ahead.length, "day")
        first = words.day(of.ahead.first, year)
        return f"{gives_up} {length} of picking in half of the years, {first} to {until}"
    years = years_of_hundred(of.left.odds, of=of.left.years or 100)
    return f"{gives_up} {words.mean_days(of.left.days)} of picking on average, any in {years}"


def _replaced(of: InsteadOfView) -> str:
    """Say what would come in its place."""
    year = of.setting.year
    if of.replace is None:
        text = f"there is no room for {of.title} in its place"
        if of.comes is None:
            return text
        return f"{text}: {of.comes.wave} comes on {words.day(of.comes.date, year)}"
    spot, judged = of.replace.spot, of.replace.spot.judged
    only = "only " if spot.free_from > of.asked_on else ""
    text = f"{of.title} {done(of.raised)} there {only}on {words.day(spot.free_from, year)}"
    if spot.first_pick is None:
        return f"{text} would give nothing to pick by what is known"
    how = "would be ready to cut" if of.replace.cut_once else "would be picked from"
    said = f"{text} {how} {words.days_from_to(*spot.first_pick, year)}"
    if judged.odds is None:
        return f"{said}, after the winter"
    days = "" if of.replace.cut_once else f", {_mean(judged.expected_picking_days)} on average"
    return f"{said}{days}, worth it in {words.years_of(judged, judged.odds)}"


def _mean(days: float | None) -> str:
    """Say how long it is picked; nothing of what stands over the winter, which is not counted."""
    return "" if days is None else words.mean_days(days)


def _both(of: InsteadOfView) -> Table:
    """Return both sides beside each other."""
    last = of.keep.last_pick
    until = "not known" if last is None else f"to {words.day(last, of.setting.year)}"
    left = of.keep.picking_days_left
    plants, picked, days, odds, verdict = _other_side(of)
    rows: tuple[tuple[str, tuple[str | Span, ...]], ...] = (
        ("plants", (f"{of.plants:,}", plants)),
        ("picked", (until, picked)),
        ("picking days", (_mean(left), days)),
        ("odds", (_odds_kept(of), odds)),
        ("", ("", verdict)),
    )
    columns = (Cells(f"keep {of.wave}", 20), Cells(f"{of.title} instead", 20))
    return Table("", columns, rows)


def _other_side(of: InsteadOfView) -> tuple[str, str, str, str, Span]:
    """Return what stands in the rows of the other crop."""
    if of.replace is None:
        return "", "nothing", "", "", ("no room", Style.BAD)
    spot, judged = of.replace.spot, of.replace.spot.judged
    picked = days = ""
    if spot.first_pick is not None:
        picked = f"from {words.days_from_to(*spot.first_pick, of.setting.year)}"
        days = "" if of.replace.cut_once else _mean(judged.expected_picking_days)
    return f"{spot.plants:,}", picked, days, *odds_and_verdict(judged)


def _odds_kept(of: InsteadOfView) -> str:
    if of.left is None:
        return ""
    return f"any in {words.odds(of.left.odds, years=of.left.years)}"


def _more(named: Sequence[object]) -> str:
    more = len(named) - _MOST_KIN
    return f", and {more} more" if more > 0 else ""


def _beside(of: InsteadOfView) -> Iterator[Text]:
    """Say what else of its crop is picked then, what of its family stands, and rotation."""
    if of.not_picked:
        year = of.setting.year
        days = words.listed(words.days_from_to(gap.from_, gap.to, year) for gap in of.not_picked)
        yield Text(words.unbroken(f"Without it no {of.crop} is picked on {days}."))
    if of.same_crop:
        names = words.listed(of.same_crop[:_MOST_KIN])
        verb = "is" if len(of.same_crop) == 1 else "are"
        yield Text(f"{names}{_more(of.same_crop)} {verb} picked on some of the same days.")
    if of.kin:
        shown = of.kin[:_MOST_KIN]
        names = words.listed(f"{each.wave} in {words.where(each.beds)}" for each in shown)
        rest = _more(of.kin)
        yield Text(
            f"Of the {of.family} there stand, too: {names}{rest}. What ails it may ail them."
        )
    if of.rotation is not None:
        yield Text(f"Rotation speaks against {of.instead}: {of.rotation}.")
