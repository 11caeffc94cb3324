"""Needs as a page: a list to order from, then seedlings, trays and materials."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.report.blocks import Block, Cells, Heading, Space, Style, Table, Text, line, together
from sowtide.report.kit import words
from sowtide.report.needs.view import NeedsView, SeedlingsToRaise, SeedToGet
from sowtide.units import OUNCE, POUND, Units, show_number


def page(of: NeedsView) -> Iterator[Block]:
    """Yield what is still to be got."""
    year = of.setting.year
    yield Heading(f"NEEDS {words.season_name(year)}", of.setting.name)
    spare = together(f"{show_number(of.spare * 100, 0)} %")
    yield Text(
        f"For everything to be sown from {words.weekday(of.today, year)} to "
        f"{words.day(of.until, year)}, with {spare} to spare."
    )
    if not of.seeds and not of.seedlings:
        yield Space()
        yield Text("Nothing is left to be sown: nothing is needed.")
    yield from _seeds(of)
    yield from _seedlings(of)
    yield from _things(of)
    yield from _care(of)
    yield Space()
    yield Text(
        f"Order by: {words.count(of.order_weeks, 'week')} before it is sown, or today. Seed weighs "
        "30 to 50 in 100 more or less from lot to lot: the weight is of the fewest to a gram that "
        "are known."
    )


def _seeds(of: NeedsView) -> Iterator[Block]:
    missing = [each for each in of.seeds if each.missing]
    if missing:
        yield Space()
        yield Heading("SEED", "to order, what presses first at the top")
        year = of.setting.year
        has_drawer = any(each.have for each in of.seeds)
        columns = [
            Cells("order by", 8),
            Cells("get", 14, right=True),
            Cells("weight", 8, right=True),
        ]
        # With what is there the number of waves has no room beside the longest names.
        waves = not has_drawer
        columns += [Cells("have", 6, right=True)] if has_drawer else []
        columns += [Cells("sown from", 9), *([Cells("waves", 5, right=True)] if waves else [])]
        rows = []
        for each in missing:
            texts = [words.day(each.order_by, year), words.amount(each.missing, each.sown_as)]
            texts += [_weight(each, of.setting.units)]
            texts += [f"{each.have:,}" if each.have else ""] if has_drawer else []
            texts += [words.day(each.sow, year)]
            texts += [str(len(each.waves))] if waves else []
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
        yield Heading("TRAYS", _trays(of))
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
        (each.wave, (f"{each.cells:,}", _said(each.order_by, of), _said(each.plant, of)))
        for each in seedlings
    )
    return Table("", columns, tuple(rows))


def _said(day: date | None, of: NeedsView) -> str:
    return "" if day is None else words.day(day, of.setting.year)


def _trays(of: NeedsView) -> str:
    cells = f"of {words.count(of.tray_cells, 'cell')}"
    if of.trays_on is None:
        return cells
    most = words.count(of.trays_at_once, "tray")
    return f"{cells}; {most} at once, from {words.day(of.trays_on, of.setting.year)}"


def _things(of: NeedsView) -> Iterator[Block]:
    if not of.things:
        return
    year = of.setting.year
    yield Space()
    yield Heading("IN THE BEDS", "in use at once, for what is still to be sown")
    for each in of.things:
        number = f"{each.amount:,.0f}"
        said = f" {number} {each.unit}, from {words.day(each.from_, year)}: "
        yield Text(line((each.thing, Style.STRONG), said, words.listed(each.crops)), hang=2)


def _care(of: NeedsView) -> Iterator[Block]:
    if not of.care:
        return
    yield Space()
    yield Heading("CARE", "what its routines take until then; your rates")
    for each in of.care:
        amount = each.mix or each.amount or "an amount that nobody said"
        times = words.count(each.times, "time")
        yield Text(line((each.routine, Style.STRONG), f" {amount}, {times} in a bed"), hang=2)


def _weight(of: SeedToGet, units: Units) -> str:
    if of.grams is None:
        return ""
    if units is Units.US and of.grams >= POUND:
        return f"{show_number(of.grams / POUND)} lb"
    if units is Units.US and of.grams >= OUNCE / 4:
        return f"{show_number(of.grams / OUNCE)} oz"
    return f"{show_number(of.grams, 0 if of.grams >= 10 else 1)} g" if of.grams >= 0.1 else "<0.1 g"
