"""Supply as a page: a row of weeks for each crop, gaps and gluts in sentences, one crop in full."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from sowtide.days import GrowingYear, week_start
from sowtide.garden.readers import with_unit
from sowtide.garden.want import Met
from sowtide.report.blocks import (
    Block,
    Cells,
    Heading,
    Space,
    Style,
    Table,
    Text,
    WeekStrip,
    WeekStrips,
    line,
    together,
)
from sowtide.report.kit import words
from sowtide.report.supply.view import SupplyCrop, SupplyGap, SupplyGlut, SupplyView, SupplyWeek
from sowtide.schedule.supply import AVOIDABLE, GLUT, Why
from sowtide.units import in_hundred, show_number

_ENOUGH, _SOME, _GAP, _GLUT, _NONE, _UNASKED = "#", "=", " ", "*", ".", "o"
_KEY = (
    (_ENOUGH, "what is wanted"),
    (_SOME, "half of it or more"),
    ("blank", "a gap: less than half"),
    (_GLUT, "more than twice"),
    (_NONE, "none wanted"),
    (_UNASKED, "picked, none wanted"),
)
_SAID = {
    Why.TOO_EARLY: "too early: nothing safe to plant is ripe by then",
    Why.FROST: "frost: nothing safe to plant is ripe then",
    Why.TOO_HOT: "too hot for it",
    Why.LOST: "lost or skipped: {waves}",
    Why.NO_ROOM: "no room for {waves}",
    Why.SEEDLINGS_LATE: "seedlings {late} late: {waves}",
    Why.FRUIT_SET: "heat keeps {waves} from setting fruit",
    Why.NOT_IN_TIME: "too late to plant for it",
    Why.TOO_FEW: "too few plants",
    Why.NOTHING_PLANTED: "nothing is planted for it",
    Why.BEDS_FULL: "the beds are full",
    Why.ROTATION: "rotation keeps it out of the room that is left",
    Why.NOT_WORTH_IT: "more would bring little then, and most of it when none is wanted",
}


_TOO_FEW_AND_LATE = "too few plants, too late for more"
_BARELY = 0.25
"""The share of what is wanted under which nothing is said to be planted for it: ours. [0–1]"""


def page(of: SupplyView) -> Iterator[Block]:
    """Yield the supply of a season."""
    year = of.setting.year
    yield Heading(f"SUPPLY {words.season_name(year)}", of.setting.name)
    if not of.crops:
        if not of.without_yield:
            yield Text("Nothing is wanted, and nothing is grown that has a yield: see `want:`.")
        yield from _left_out(of)
        return
    wanted = [each for each in of.crops if each.is_wanted]
    shown = [each for each in of.crops if each.weeks]
    if not wanted:
        yield Text("Nothing is said to be wanted: with `want:` in the file, gaps and gluts show.")
    if shown:
        yield Space()
        yield strips_of([(each.crop, each) for each in shown], of.this_week, year)
    if of.in_full:
        for each in of.crops:
            yield Space()
            yield _weeks(each, of)
            yield _plants(each)
    yield from _left_out(of)
    yield from _counted_as(wanted)
    yield from undated([each.crop for each in wanted if not any(w.want for w in each.weeks)])
    yield from _gaps(of, wanted)
    yield from _gluts(of, wanted)
    if wanted:
        yield Space()
        yield from _sums(wanted)
    yield Space()
    yield Text(
        "Expected: the mean of all years, at the middle of what plants are known to yield; tables "
        "of yields differ by a factor of two and more, and gardens with them."
    )
    yield Text(words.rests_on(of.basis))


def _left_out(of: SupplyView) -> Iterator[Block]:
    if of.without_yield:
        whose = "Its" if len(of.without_yield) == 1 else "Their"
        yield Text(
            "Left out, since nobody knows what a plant gives: "
            f"{words.listed(of.without_yield)}. {whose} `yield_per_plant` under `crops:` would "
            "tell."
        )


def undated(crops: Sequence[str]) -> Iterator[Block]:
    """Say of which wanted crops no week is counted, since no safe planting tells of their days."""
    if crops:
        yield Text(
            (
                f"No week is counted of {words.listed(crops)}: no safe planting tells when it can "
                "be picked. With `from` and `until` in `want:` its weeks are.",
                Style.WARN,
            )
        )


def _counted_as(crops: Sequence[SupplyCrop]) -> Iterator[Block]:
    """Say what is wanted in two units and counted in one."""
    for crop in crops:
        for each in crop.converted:
            one, same = with_unit("1", each.unit), with_unit(_few(each.amount), crop.unit)
            yield Text(
                f"{crop.crop} is wanted in {crop.unit} and in {each.unit}: {together(one)} is "
                f"counted as {together(same)}, by what a plant gives of either."
            )


def strips_of(
    rows: Sequence[tuple[str, SupplyCrop]], this_week: date, year: GrowingYear
) -> WeekStrips:
    """Return crops as rows of weeks.

    Parameters
    ----------
    rows
        Crops that have weeks, each with what its row is called.
    this_week
        The Monday of the week that it is.
    year
        The year that is shown, and no week outside it.
    """
    before, after = (week_start(day, starts=0) for day in (year.first, year.last))
    first = max(min(each.weeks[0].monday for _, each in rows), before)
    last = max(min(max(each.weeks[-1].monday for _, each in rows), after), first)
    strips = tuple(WeekStrip(name, _signs(each, first, last)) for name, each in rows)
    drawn = "".join(each.signs for each in strips)
    key = tuple(
        (sign, means) for sign, means in _KEY if (sign if sign != "blank" else " ") in drawn
    )
    return WeekStrips(first, this_week, strips, key)


def _signs(of: SupplyCrop, first: date, last: date) -> str:
    weeks = {each.monday: each for each in of.weeks}
    count = (last - first).days // 7 + 1
    mondays = (first + timedelta(days=7 * number) for number in range(count))
    most = max((each.want or 0.0 for each in of.weeks), default=0.0)
    return "".join(_sign(weeks.get(monday), most) for monday in mondays)


def _sign(week: SupplyWeek | None, most: float) -> str:
    if week is None:
        return _NONE
    if week.want is None:
        if most and week.expected > GLUT * most:
            return _GLUT
        return _UNASKED if week.expected >= _least(most) else _NONE
    if week.met is Met.LESS:
        return _GAP
    if week.met is Met.SOME:
        return _SOME
    return _GLUT if week.expected > GLUT * week.want else _ENOUGH


def _least(most: float) -> float:
    """Return how much of what nobody wants is worth a sign."""
    return most / 10 if most else 1e-6


def _weeks(of: SupplyCrop, view: SupplyView) -> Table:
    year = view.setting.year
    columns = (
        Cells("want", 7, right=True),
        Cells("expected", 9, right=True),
        Cells("from–to", 11, right=True),
        Cells("odds", 6, right=True),
        Cells("got", 6, right=True),
    )
    rows = tuple(
        (
            words.days_from_to(each.monday, each.monday + timedelta(days=6), year),
            (
                _number(each.want),
                _number(each.expected),
                f"{_number(each.low)}–{_number(each.high)}",
                "" if each.odds is None else in_hundred(each.odds),
                _number(each.got),
            ),
        )
        for each in of.weeks
    )
    return Table(f"{of.crop}, {of.unit}", columns, rows)


def _plants(of: SupplyCrop) -> Text:
    gives = of.yield_per_plant
    ends = dict.fromkeys(map(_number, (gives.low, gives.high)))
    said = f"A plant gives {with_unit('–'.join(ends), of.unit)}, {gives.how}"
    source = "" if gives.source is None else f" ({gives.source})"
    return Text(f"{said}{source}. Odds: years of 100 that bring what is wanted.")


def _gaps(of: SupplyView, crops: Sequence[SupplyCrop]) -> Iterator[Block]:
    """Say which weeks bring less than half of what is wanted, and why; those gone by in short."""
    year = of.setting.year
    found = [(crop, gap) for crop in crops for gap in crop.gaps]
    if found:
        yield Space()
        yield Heading("GAPS", "weeks with less than half of what is wanted")
        ahead = [(crop, gap) for crop, gap in found if not _is_over(gap, of)]
        yield from (gap_line(crop.crop, crop.unit, gap, year) for crop, gap in ahead)
        if not ahead:
            yield Text(("None from this week on.", Style.GOOD))
        yield from _gone_by(of, found)
    elif crops:
        yield Space()
        yield Text(("No gaps: every week brings half of what is wanted or more.", Style.GOOD))


def _is_over(of: SupplyGap | SupplyGlut, whole: SupplyView) -> bool:
    """Whether its last week, which ends on a Sunday, lies before the Monday of this one."""
    return of.to < whole.this_week


def _gone_by(
    of: SupplyView, found: Sequence[tuple[SupplyCrop, SupplyGap | SupplyGlut]]
) -> Iterator[Block]:
    said = ", ".join(
        together(f"{crop.crop} {words.days_from_to(each.from_, each.to, of.setting.year)}")
        for crop, each in found
        if _is_over(each, of)
    )
    if said:
        yield Text(line(("gone by: ", Style.DIM), said), hang=2)


def gap_line(crop: str, unit: str, gap: SupplyGap, year: GrowingYear) -> Text:
    """Say in a line what a gap lacks, and why."""
    days = together(words.days_from_to(gap.from_, gap.to, year))
    said = _SAID[gap.why].format(waves=words.listed(gap.waves), late=_late(gap))
    if gap.why is Why.NOT_IN_TIME and gap.expected >= _BARELY * gap.want:
        said = _TOO_FEW_AND_LATE
    amounts = f"{_number(gap.expected)} of {_amount(gap.want, unit)}"
    style = Style.WARN if gap.why in AVOIDABLE else Style.PLAIN
    return Text(line((crop, Style.STRONG), f" {days}: {amounts}; ", (said, style)), hang=2)


def _late(gap: SupplyGap) -> str:
    """Say how late the seedlings are, where that is why."""
    if gap.days_late is None:
        return ""
    upto = "up to " if len(gap.waves) > 1 else ""
    return together(f"{upto}{words.count(gap.days_late, 'day')}")


def _gluts(of: SupplyView, crops: Sequence[SupplyCrop]) -> Iterator[Block]:
    """Say which weeks bring more than twice what is wanted."""
    year = of.setting.year
    found = [(crop, glut) for crop in crops for glut in crop.gluts]
    if not found:
        return
    yield Space()
    yield Heading("GLUTS", "weeks with more than twice what is wanted")
    for crop, glut in found:
        if not _is_over(glut, of):
            days = together(words.days_from_to(glut.from_, glut.to, year))
            wanted = f"{_amount(glut.want, crop.unit)} wanted" if glut.want else "none wanted"
            waves = f", {glut.waves} waves at once" if glut.waves > 1 else ""
            said = f" {days}: {_amount(glut.expected, crop.unit)}, {wanted}{waves}"
            yield Text(line((crop.crop, Style.STRONG), said), hang=2)
    yield from _gone_by(of, found)


def _sums(crops: Sequence[SupplyCrop]) -> Iterator[Block]:
    """Count the weeks that are met, crop by crop."""
    columns = (
        Cells("wanted", 7, right=True),
        Cells("enough", 7, right=True),
        Cells("gaps", 5, right=True),
        Cells("unmet", 6, right=True),
    )
    counts = [_counts(crop) for crop in crops]
    if len(counts) > 1:
        counts.append(tuple(map(sum, zip(*counts, strict=True))))
    names = (*(crop.crop for crop in crops), "together")
    rows = ((name, tuple(map(show_number, of))) for name, of in zip(names, counts, strict=False))
    yield Table("weeks", columns, tuple(rows))
    yield Text(
        "Unmet: half of one week's want and a third of another's make 0.8 weeks.",
    )


def _counts(crop: SupplyCrop) -> tuple[float, ...]:
    """Return weeks with a want, those with enough and with a gap, and how much is not met."""
    wanted = [each for each in crop.weeks if each.want]
    enough = sum(each.met is Met.ENOUGH for each in wanted)
    gaps = sum(each.met is Met.LESS for each in wanted)
    return len(wanted), enough, gaps, crop.weeks_unmet


def _number(amount: float | None) -> str:
    """Say an amount without its unit: whole from ten on, else to a tenth, or what is left of it."""
    if amount is None:
        return ""
    if 0 < amount < 0.05:
        return "<0.1"
    return show_number(amount, 0 if amount >= 10 else 1)


def _few(amount: float) -> str:
    """Say what one of something is, to two digits and more."""
    return show_number(amount, 2 if amount < 1 else 1)


def _amount(amount: float, unit: str) -> str:
    return together(with_unit(_number(amount), unit))
