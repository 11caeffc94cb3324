"""Needs as a page: a list to order from, then seedlings, trays and materials."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.report.blocks import Block, Cells, Heading, Space, Style, Table, Text, line, together
from sowtide.report.kit import words
from sowtide.report.needs.view import (
    CareToGet,
    NeedsView,
    SeedlingsToRaise,
    SeedToGet,
    ThingToGet,
    rounded_up,
)
from sowtide.units import OUNCE, POUND, Units, show_number


def page(of: NeedsView) -> Iterator[Block]:
    """Yield what is still to be got."""
    year = of.setting.year
    yield Heading(f"NEEDS {words.season_name(year)}", of.setting.name)
    if of.seeds or of.seedlings:
        spare = together(f"{show_number(of.spare * 100, 0)} %")
        yield Text(
            f"For everything to be sown from {words.weekday(of.today, year)} to "
            f"{words.day(of.until, year)}: as much seed as comes up for the plants, with {spare} "
            "to spare."
        )
    else:
        yield Space()
        upto = f" up to {words.day(of.until, year)}" if of.until > of.today else ""
        yield Text(f"Nothing is left to be sown{upto}: no seed is needed.")
    yield from _uncertain(of)
    yield from _seeds(of)
    yield from _seedlings(of)
    yield from _things(of)
    yield from _care(of)
    yield from _how_to_read(of)


def _uncertain(of: NeedsView) -> Iterator[Block]:
    if of.no_room:
        yield Text(f"Without, for they have no room: {words.listed(of.no_room)}.")
    if of.to_nothing:
        yield Text(f"With, though nothing of it will be picked: {words.listed(of.to_nothing)}.")
    if of.not_taken_off:
        yield Text(
            "Not taken off, since nobody knows how many seeds weigh what is there: "
            f"{words.listed(of.not_taken_off)}. Count them."
        )


def _how_to_read(of: NeedsView) -> Iterator[Block]:
    days = [each.order_by for each in of.seeds if each.missing]
    days += [each.order_by for each in of.things]
    days += [each.order_by for each in of.seedlings if each.order_by]
    days += [of.trays_order_by] if of.trays_order_by else []
    days += [each.order_by for each in of.care if each.order_by]
    if not days:
        return
    yield Space()
    weeks = words.count(of.order_weeks, "week")
    said = f"Order by: {weeks} before it is wanted"
    if of.today in days:
        said += "; today where that has gone by, and what takes so long to come is then late"
    if any(each.grams is not None and each.missing for each in of.seeds):
        said += (
            ". Seed weighs 30 to 50 in 100 more or less from lot to lot: the weight is of the "
            "largest that is known, rounded up"
        )
    yield Text(f"{said}.")


def _seeds(of: NeedsView) -> Iterator[Block]:
    missing = [each for each in of.seeds if each.missing]
    if missing:
        yield Space()
        yield Heading("SEED", "to order, what presses first at the top")
        has_drawer = any(each.have for each in of.seeds)
        columns = [
            Cells("order by", 8),
            Cells("get", 14, right=True),
            Cells("weight", 8, right=True),
        ]
        columns += [Cells("have", 6, right=True)] if has_drawer else []
        columns += [Cells("comes up", 8, right=True), Cells("sow", 7)]
        rows = []
        for each in missing:
            texts = [_by(each.order_by, of), words.amount(each.missing, each.sown_as)]
            texts += [_weight(each, of.setting.units)]
            texts += [f"{each.have:,}" if each.have else ""] if has_drawer else []
            texts += [together(f"{show_number(each.germination * 100, 0)} %")]
            texts += [_said(each.sow, of)]
            rows.append((each.crop, tuple(texts)))
        yield Table("", tuple(columns), tuple(rows))
    there = [each.crop for each in of.seeds if not each.missing]
    if there:
        yield Space()
        yield Text(line(("IN THE DRAWER ", Style.HEADING), ", ".join(there)), hang=2)


def _seedlings(of: NeedsView) -> Iterator[Block]:
    raised = [each for each in of.seedlings if not each.buy]
    bought = [each for each in of.seedlings if each.buy]
    if raised:
        yield Space()
        yield Heading("TRAYS", f"of {words.count(of.tray_cells, 'cell')}")
        if of.trays_on is not None:
            most = words.count(of.trays_at_once, "tray")
            from_ = words.day(of.trays_on, of.setting.year)
            yield Text(f"{most} at once, from {from_}; order by {_by(of.trays_order_by, of)}.")
        yield _raised(raised, of)
    if bought:
        yield Space()
        yield Heading("SEEDLINGS TO BUY", "their sowing day has passed without word of it")
        yield _bought(bought, of)


def _raised(seedlings: list[SeedlingsToRaise], of: NeedsView) -> Table:
    columns = (
        Cells("cells", 5, right=True),
        Cells("trays", 5, right=True),
        Cells("sow", 6),
        Cells("plant out", 9),
    )
    rows = (
        (
            each.wave,
            (f"{each.cells:,}", str(each.trays), _said(each.sow, of), _said(each.plant, of)),
        )
        for each in seedlings
    )
    return Table("", columns, tuple(rows))


def _bought(seedlings: list[SeedlingsToRaise], of: NeedsView) -> Table:
    columns = (Cells("plants", 6, right=True), Cells("order by", 8), Cells("plant out", 9))
    rows = (
        (each.wave, (f"{each.cells:,}", _by(each.order_by, of), _said(each.plant, of)))
        for each in seedlings
    )
    return Table("", columns, tuple(rows))


def _said(day: date, of: NeedsView) -> str:
    return "overdue" if day < of.today else words.day(day, of.setting.year)


def _by(day: date | None, of: NeedsView) -> str:
    if day is None:
        return ""
    return "today" if day == of.today else _said(day, of)


def _things(of: NeedsView) -> Iterator[Block]:
    if not of.things:
        return
    yield Space()
    yield Heading("IN THE BEDS", "in use at once, for what is still to be sown")
    for each in of.things:
        said = f" {_up(each.amount)} {each.unit}{_ordered(each, of)}: "
        if len(each.by_crop) == 1:
            crops = each.crops[0]
        else:
            crops = ", ".join(together(f"{one.crop} {_up(one.amount)}") for one in each.by_crop)
        yield Text(line((each.thing, Style.STRONG), said, crops), hang=2)


def _care(of: NeedsView) -> Iterator[Block]:
    if not of.care:
        return
    yield Space()
    upto = words.day(of.care_until, of.setting.year)
    yield Heading("CARE", f"what its routines take up to {upto}; your rates")
    for each in of.care:
        amount = each.mix or each.amount or "no amount in the file"
        weight = "" if each.weight is None else f" ({each.weight})"
        times = words.count(each.times, "time")
        said = f" {amount}{weight}{_ordered(each, of)}: {times}, counted bed by bed"
        yield Text(line((each.routine, Style.STRONG), said), hang=2)


def _ordered(each: ThingToGet | CareToGet, of: NeedsView) -> str:
    order = "" if each.order_by is None else f", order by {_by(each.order_by, of)}"
    return f"{order}, from {_said(each.from_, of)}"


def _up(number: float) -> str:
    return f"{rounded_up(number):,}"


def _weight(of: SeedToGet, units: Units) -> str:
    """Say what seed weighs at the most, rounded up: what is short cannot be sown."""
    if of.grams is None:
        return ""
    grams = of.grams
    if units is Units.US and grams >= POUND:
        return f"{_tenths_up(grams / POUND)} lb"
    if units is Units.US and grams >= OUNCE / 4:
        return f"{_tenths_up(grams / OUNCE)} oz"
    if units is Units.METRIC and grams >= 1000:
        return f"{_tenths_up(grams / 1000)} kg"
    return f"{_up(grams) if grams >= 10 else _tenths_up(grams)} g"


def _tenths_up(number: float) -> str:
    return show_number(rounded_up(number * 10) / 10)
