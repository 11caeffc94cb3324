"""How each date of a wave was counted, step by step, and where each number comes from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta

from sowtide.climate.answers import EndedBy
from sowtide.climate.daylight import SHORT_DAY
from sowtide.garden.crop import Raised
from sowtide.report.blocks import Block, Counted, Space, Style, Sum, Term, Text, line, together
from sowtide.report.kit import words
from sowtide.report.kit.judged import SPRING_MATTERS
from sowtide.report.kit.outcome import outcome
from sowtide.report.kit.sources import Sources
from sowtide.report.why.care_of_wave import care_blocks
from sowtide.report.why.view import DateView, Milestone, StepView, WhyView, WinterView, YearView
from sowtide.report.why.years import years_table
from sowtide.schedule.waves import Status, Verdict
from sowtide.units import show_temperature, years_of_hundred

_MOST_NAMED = 10
_TITLES = {
    Milestone.UP: "up",
    Milestone.READY: "seedlings ready",
    Milestone.TOO_OLD: "seedlings too old after",
    Milestone.HARDEN_OFF: "harden off from",
    Milestone.FLOWER: "in flower",
    Milestone.FIRST_PICK_EARLY: "first pick, early",
    Milestone.FIRST_PICK_LATE: "first pick, late",
    Milestone.END: "end, in half of the years",
    Milestone.LAST_PICK: "last pick",
    Milestone.PULL_OUT: "pull out",
    Milestone.BED_FREE: "bed free for the next wave",
}


def page(of: WhyView) -> Iterator[Block]:
    """Yield how the dates and the odds of a wave come about."""
    sources = Sources()
    yield from _head(of)
    for bed in of.barred:
        yield Text(f"{bed.bed} is barred to the {of.family} this season: {bed.said}.")
    yield Space()
    for dated in of.dates:
        yield _sum(dated, of, sources)
    yield Space()
    yield from _odds(of, sources)
    if of.by_year:
        yield from years_table(of)
    yield from care_blocks(of.care, of.setting.year)
    yield from sources.cited()
    yield Space()
    yield Text(words.rests_on(of.basis))


def _nowhere(status: Status) -> str:
    """Say why a wave stands in no bed: one that is left out or lost wants no room."""
    return status.value if status in (Status.SKIPPED, Status.LOST) else "no room in any of its beds"


def _head(of: WhyView) -> Iterator[Block]:
    raised = "raised in trays" if of.raised is Raised.TRAYS else "sown direct"
    where = f"in {words.stands(of.beds)}" if of.beds else _nowhere(of.status)
    plants = words.count(of.plants, "plant")
    yield Text(line((of.wave, Style.HEADING), f": {plants} of {of.title}, {raised}, {where}"))
    yield Text(
        "Each date is the sum of the steps under it; at the right stands where a number is from."
    )


def _title(stage: Milestone, *, in_trays: bool) -> str:
    """Name a stage as a grower says it."""
    if stage is Milestone.SOW:
        return "sow in trays" if in_trays else "sow"
    if stage is Milestone.PLANT:
        return "plant out" if in_trays else "in the bed from"
    return _TITLES[stage]


def _sum(of: DateView, why: WhyView, sources: Sources) -> Sum:
    """Return one date: its name, its steps and their sum."""
    year = why.setting.year

    def counted(number: int, step: StepView) -> Counted:
        return Counted(
            days=f"{step.days:+}" if number else "",
            reached=words.day(step.date, year),
            words=step.text,
            origin=sources.name(step.origin),
        )

    return Sum(
        _title(of.stage, in_trays=why.raised is Raised.TRAYS),
        words.weekday(of.date, year),
        tuple(counted(number, step) for number, step in enumerate(of.steps)),
    )


def _odds(of: WhyView, sources: Sources) -> Iterator[Block]:
    """Say the verdict, and how odds and margin come about."""
    judged, year = of.judged, of.setting.year
    if not of.beds and of.status.is_gone:
        yield Term("verdict", f"none: {of.status.value}")
        return
    if judged.verdict is None or judged.odds is None:
        yield Term("verdict", "none: it stands over the winter")
        if of.winter is not None:
            yield _indented(_winter(of.winter, of))
        return
    said = words.odds_of(judged)
    if words.nothing_ends(judged):
        said = "nothing ends it early"
    verdict = words.verdict(judged.verdict)
    yield Term("verdict", line(verdict, f", {said}"))
    yield _indented(outcome(judged, year))
    for text in _reasons(of, sources):
        yield _indented(text)


def _indented(text: str) -> Text:
    return Text(words.sentence(text), first="  ")


def _reasons(of: WhyView, sources: Sources) -> Iterator[str]:
    judged, year, sure = of.judged, of.setting.year, of.setting.sure
    yield f"{words.safe_means(sure)} ({sources.name(sure.origin)})"
    if judged.end is not None:
        worthwhile = words.count(judged.worthwhile_days, "day")
        work = "to cut it" if judged.cut_once else "of picking"
        origin = sources.name(of.worthwhile_from)
        yield (
            f"a year counts where {worthwhile} {work} ({origin}) come before what ends the crop in "
            "that year; each day from the early to the late first pick is equally likely"
        )
    yield from _margin(of)
    act = "planted out" if of.raised is Raised.TRAYS else "sown"
    early = judged.verdict is Verdict.TOO_EARLY
    yield f"{'not to be' if early else 'may be'} {act} {'before' if early else 'from'} " + together(
        words.day(of.earliest, year)
    )
    if judged.winter_kills and judged.odds is not None:
        yield words.winter_kills(judged.odds)
    elif of.last_safe is None:
        yield f"no day is safe to have it {act}"
    else:
        yield f"the last safe day to have it {act} is {together(words.day(of.last_safe, year))}"
    yield from _spring_frost(of)
    if of.overlap is not None:
        until = together(words.day(of.overlap.until, year))
        yield (
            f"it is set between the plants of {of.overlap.wave}, which is pulled out on {until}; "
            "until then it takes a quarter of its area"
        )
    yield from _fruit_gap(of)
    if of.years:
        yield poor_years(of.years)


def _fruit_gap(of: WhyView) -> Iterator[str]:
    """Say in how many years heat keeps the flowers from setting fruit, and what that leaves."""
    gap, year = of.fruit_gap, of.setting.year
    if gap is None:
        return
    among = "an average year"
    if gap.years is not None:
        among = together(f"{words.odds(gap.share, years=gap.years)} years")
    yield (
        f"in {among} a week or more while it is in flower is too hot to set fruit, as a rule "
        f"from {together(words.day(gap.flowers.from_, year))} to "
        f"{together(words.day(gap.flowers.to, year))}: nothing to pick from "
        f"{together(words.day(gap.picks.from_, year))} to "
        f"{together(words.day(gap.picks.to, year))}"
    )


def poor_years(told: Sequence[YearView]) -> str:
    """Name the years in which a wave is not worth growing, without a full stop."""
    poor = [each for each in told if each.is_poor]
    if not poor:
        return f"there is no poor year among the {len(told)} (`--years` tells each)"
    named = sorted(poor, key=lambda each: (each.worth, each.picking_days))[:_MOST_NAMED]
    years = words.listed(str(each.year) for each in sorted(named, key=lambda each: each.year))
    count = words.count(len(poor), "poor year")
    which = "the worst of them " if len(poor) > len(named) else ""
    return f"{count} of {len(told)}: {which}{years} (`--years` tells each)"


def _winter(winter: WinterView, of: WhyView) -> str:
    """Say how far a wave is grown when the short days begin."""
    if winter.short_from is None:
        return "no day here is too short for it to grow"
    day = together(words.day(winter.short_from, of.setting.year))
    text = (
        f"when the days fall under {SHORT_DAY} hours, {day}, it is about "
        f"{together(f'{round(100 * winter.grown)} %')} grown; three quarters are enough to be "
        "ready in or after the short days"
    )
    if winter.years is None:
        return text
    enough = words.odds(winter.grown_enough, years=winter.years)
    return f"{text}, and it reaches them in {together(enough)} years"


def _spring_frost(of: WhyView) -> Iterator[str]:
    """Say how often a frost of spring kills a tender crop, or still ends the part of a hardier."""
    frost = of.spring_frost
    if of.spring_loss >= SPRING_MATTERS:
        lost = years_of_hundred(of.spring_loss)
        yield f"a frost of spring kills it in {lost}: its odds count them"
    if frost is None:
        return
    up = any(dated.stage is Milestone.UP for dated in of.dates)
    when = together(words.day(frost.after, of.setting.year)) + (", when it is up," if up else "")
    yield (
        f"a frost of {together(show_temperature(frost.at_c, of.setting.units))} by the site's "
        f"dates, which ends the part that is picked, still comes after {when} in "
        f"{years_of_hundred(frost.odds)}: this is shown and does not move the day"
    )


def _margin(of: WhyView) -> Iterator[str]:
    """Show the margin as a sum of days; not where heat takes days of its picking."""
    judged, year = of.judged, of.setting.year
    if judged.margin is None or judged.first_pick is None:
        return
    if of.fruit_gap is not None or judged.ended_by is EndedBy.HEAT:
        return
    first = judged.first_pick[1]
    after = first + timedelta(days=judged.worthwhile_days)
    frost = after + timedelta(days=judged.margin)
    yield (
        f"to spare: {together(words.day(first, year))} + {judged.worthwhile_days} days = "
        f"{together(words.day(after, year))}, {judged.margin:+} days = "
        f"{together(words.day(frost, year))}, {_what_ends(of)}"
    )


def _what_ends(of: WhyView) -> str:
    """Say what its days to spare run to."""
    ends = (dated for dated in of.dates if dated.stage is Milestone.END)
    to_seed = any(step.rule == "to-seed" for dated in ends for step in dated.steps)
    return "the day it runs to seed" if to_seed else "the average frost that ends it"
