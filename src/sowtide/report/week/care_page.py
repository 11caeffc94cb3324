"""What stands on a week's sheet of its care: what waits, what is to be decided, the totals."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.report.blocks import Block, Style, Text, line, together
from sowtide.report.kinds import AmountView
from sowtide.report.kit import words
from sowtide.report.week.tasks_view import HeldView, TotalView
from sowtide.report.week.view import SheetView, WeekView


def care_of_week(sheet: SheetView, of: WeekView) -> Iterator[Block]:
    """Yield what a week's care comes to; nothing where there is none."""
    named = () if sheet.heat is None else sheet.heat.put_off  # those stand on the sheet of the heat
    heat = {(each.what, each.bed, each.due) for each in named}
    held = [
        each for each in sheet.not_this_week if (each.routine, each.bed, each.asked) not in heat
    ]
    if held:
        said = "; ".join(_held(each, of) for each in held)
        yield Text(line(("NOT THIS WEEK:", Style.HEADING), f" {said}"), hang=2)
    for wanted in sheet.decide:
        day = together(words.weekday(wanted.on, of.setting.year))
        yield Text(
            line(
                ("DECIDE:", Style.HEADING),
                f" {wanted.wave}, {wanted.found} found on {day}: keep it or pull it? "
                f"`sowtide fits {_quoted(wanted.crop)} --instead-of {wanted.wave}` says what could "
                "stand there",
            ),
            hang=2,
        )
    if sheet.totals:
        said = "; ".join(_total(each) for each in sheet.totals if each.amount is not None)
        took = _time(sheet.totals)
        if said or took:
            words_of = " ".join(each for each in (f"{said}." if said else "", took) if each)
            yield Text(line(("THIS WEEK:", Style.HEADING), f" {words_of}"), hang=2)
    if sheet.unwell:
        beds = words.listed(sheet.unwell)
        yield Text(line(("LAST:", Style.HEADING), f" {beds}, where something was found; then wash"))


def _quoted(name: str) -> str:
    return f'"{name}"' if " " in name else name


def _held(of: HeldView, view: WeekView) -> str:
    year = view.setting.year
    when = f"asked for {together(words.weekday(of.asked, year))}"
    following = "" if of.until is None else f", next {together(words.weekday(of.until, year))}"
    return f"{of.routine} in {of.bed} ({when}): {of.why}{following}"


def _total(of: TotalView) -> str:
    """Say what a routine takes: ``dry feed 3 cups (1 lb 8 oz; nitrogen 0.7 oz)``."""
    assert of.amount is not None  # only such are said
    text = f"{of.routine} {_amount(of.amount)}"
    text += f" with {_amount(of.mix)}" if of.mix is not None else ""
    nitrogen = None if of.nitrogen is None else f"nitrogen {_amount(of.nitrogen)}"
    if nitrogen is not None and of.nitrogen_per_area is not None:
        nitrogen += f", {_amount(of.nitrogen_per_area)}"
    beside = [None if of.weight is None else _amount(of.weight), nitrogen]
    more = "; ".join(each for each in beside if each is not None)
    return f"{text} ({more})" if more else text


def _time(totals: tuple[TotalView, ...]) -> str:
    """Say how long it all takes, as far as that is said."""
    minutes = round(sum(each.minutes or 0 for each in totals))
    if not minutes:
        return ""
    hours, rest = divmod(minutes, 60)
    parts = (f"{hours} h" if hours else "", f"{rest} min" if rest else "")
    return f"About {' '.join(part for part in parts if part)} of care."


def _amount(of: AmountView) -> str:
    from sowtide.garden.care import said

    return together(said(of.value, of.unit))
