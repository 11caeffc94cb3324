"""How each date of a wave was counted, step by step, and where each number comes from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta
from typing import TYPE_CHECKING

from sowtide.climate.answers import YearTold
from sowtide.climate.daylight import SHORT_DAY
from sowtide.days import GrowingYear, Half
from sowtide.garden.crop import Raised
from sowtide.reasons import Dated, Step
from sowtide.report.blocks import EMPTY, Line, Style, line, together
from sowtide.report.formats.terminal.cells import cells, pad, wrap
from sowtide.report.kit import words
from sowtide.report.kit.outcome import outcome
from sowtide.report.kit.sources import Sources, with_origin
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Judged, Verdict, Wave, pick_gap_of
from sowtide.units import FREEZING, show_temperature, years_of_hundred

if TYPE_CHECKING:  # only where temperatures are known
    from sowtide.climate.answers import Winter

_DATE = 14
_DAYS = 5
_MOST_NAMED = 10


def stages_of(wave: Wave) -> tuple[tuple[str, Dated], ...]:
    """Return every counted date of a wave with the name of its stage, in order of the work."""
    stages = wave.stages
    first = stages.first_pick
    named = (
        ("sow", stages.sow),
        ("up", stages.up),
        ("ready", stages.ready),
        ("too_old", stages.too_old),
        ("harden_off", stages.harden_off),
        ("plant", stages.plant),
        ("flower", stages.flower),
        ("first_pick_early", first[0] if first else None),
        ("first_pick_late", first[1] if first else None),
        ("end", wave.judged.end),
        ("last_pick", stages.last_pick),
        ("pull_out", stages.pull_out),
        ("bed_free", wave.bed_free),
    )
    return tuple((stage, dated) for stage, dated in named if dated is not None)


def why_text(wave: Wave, season: Season, *, width: int, years: bool = False) -> tuple[Line, ...]:
    """Lay out how the dates and the odds of a wave come about.

    Parameters
    ----------
    wave
        A wave of the season.
    season
        The season.
    width
        Of the screen. [cells]
    years
        Whether to tell every recorded year.
    """
    year = season.garden.year
    sources = Sources()
    lines = [*_head(wave, width), EMPTY]
    for stage, dated in stages_of(wave):
        lines += _counted(_title(stage, wave), dated, sources, year, width)
    lines += (EMPTY, *_odds(wave, season, sources, width))
    if years:
        from sowtide.report.why.years import years_table

        lines += years_table(wave, season, width=width)
    lines += sources.cited(width)
    lines += (EMPTY, *wrap(words.rests_on(season.climate.basis), width))
    return tuple(lines)


def _head(wave: Wave, width: int) -> Iterator[Line]:
    raised = "raised in trays" if wave.from_trays else "sown direct"
    where = f"in {words.places(wave.places)}" if wave.places else "no room in any of its beds"
    yield from wrap(
        line(
            (wave.id, Style.HEADING),
            f": {words.count(wave.plants, 'plant')} of {wave.crop.title}, {raised}, {where}",
        ),
        width,
    )
    yield from wrap(
        "Each date is the sum of the steps under it; at the right stands where a number is from.",
        width,
    )


def _title(stage: str, wave: Wave) -> str:
    """Name a stage as a grower says it."""
    if stage == "sow":
        return "sow in trays" if wave.from_trays else "sow"
    if stage == "plant":
        return "plant out" if wave.from_trays else "in the bed from"
    if stage == "end":
        return "end, in half of the years"
    return {
        "up": "up",
        "ready": "seedlings ready",
        "too_old": "seedlings too old after",
        "harden_off": "harden off from",
        "flower": "in flower",
        "first_pick_early": "first pick, early",
        "first_pick_late": "first pick, late",
        "last_pick": "last pick",
        "pull_out": "pull out",
        "bed_free": "bed free for the next wave",
    }[stage]


def _counted(
    title: str, dated: Dated, sources: Sources, year: GrowingYear, width: int
) -> Iterator[Line]:
    """Lay out one date: its name, its steps and their sum."""
    yield line(
        (title, Style.STRONG), " " * max(30 - cells(title), 2), words.weekday(dated.day, year)
    )
    for number, step in enumerate(dated.steps):
        yield from _step(step, sources, year, width, begins=number == 0)


def _step(
    step: Step, sources: Sources, year: GrowingYear, width: int, *, begins: bool
) -> Iterator[Line]:
    """Lay out one step: days, day reached, words and where from."""
    days = "" if begins else f"{step.days:+}"
    day = words.day(step.date, year)
    first = f"  {pad(days, _DAYS, right=True)}  {'  ' if begins else '= '}{pad(day, _DATE - 2)}"
    text = wrap(step.text, width, first=first)
    yield from with_origin(text, sources.name(step.origin), indent=cells(first), width=width)


def _odds(wave: Wave, season: Season, sources: Sources, width: int) -> Iterator[Line]:
    """Say the verdict, and how odds and margin come about."""
    judged, year = wave.judged, season.garden.year
    if judged.verdict is None or judged.odds is None:
        yield line(("verdict", Style.STRONG), "  none: it stands over the winter")
        if judged.winter is not None:
            yield from wrap(words.sentence(_winter(judged.winter, year)), width, first="  ")
        return
    said = words.odds_of(judged)
    if words.nothing_ends(judged):
        said = "nothing ends it early"
    yield line(("verdict", Style.STRONG), "  ", words.verdict(judged.verdict), f", {said}")
    yield from wrap(words.sentence(outcome(judged, wave.crop, year)), width, first="  ")
    for text in _reasons(wave, season, sources):
        yield from wrap(words.sentence(text), width, first="  ")


def _reasons(wave: Wave, season: Season, sources: Sources) -> Iterator[str]:
    judged, year, crop = wave.judged, season.garden.year, wave.crop
    sure = season.garden.site.sure
    yield f"{words.safe_means(sure)} ({sources.name(sure.origin)})"
    if judged.end is not None:
        worthwhile = words.count(crop.worthwhile_days, "day")
        work = "to cut it" if crop.cut_once else "of picking"
        origin = sources.name(crop.origin("worthwhile_days"))
        yield (
            f"a year counts where {worthwhile} {work} ({origin}) come before what ends the crop in "
            "that year; each day from the early to the late first pick is equally likely"
        )
    yield from _margin(judged, crop.worthwhile_days, year)
    act = "planted out" if wave.entry.raised is Raised.TRAYS else "sown"
    early = judged.verdict is Verdict.TOO_EARLY
    yield f"{'not to be' if early else 'may be'} {act} {'before' if early else 'from'} " + together(
        words.day(judged.earliest, year)
    )
    if judged.last_safe is None:
        yield f"no day is safe to have it {act}"
    else:
        yield f"the last safe day to have it {act} is {together(words.day(judged.last_safe, year))}"
    yield from _spring_frost(wave, season)
    if wave.overlap is not None:
        until = together(words.day(wave.overlap.until, year))
        yield (
            f"it is set between the plants of {wave.overlap.wave}, which is pulled out on {until}; "
            "until then it takes a quarter of its area"
        )
    yield from _fruit_set(wave, season)
    told = season.years_of(wave)
    if told:
        yield poor_years(told)


def _fruit_set(wave: Wave, season: Season) -> Iterator[str]:
    """Say in how many years heat keeps the flowers from setting fruit, and what that leaves."""
    gap = pick_gap_of(wave.crop, wave.stages, season.climate)
    if gap is None:
        return
    year, flowers = season.garden.year, gap.flowers
    among = "an average year"
    if flowers.years is not None:
        among = together(f"{words.odds(flowers.share, years=flowers.years)} years")
    yield (
        f"in {among} a week or more while it is in flower is too hot to set much fruit, as a rule "
        f"from {together(words.day(flowers.first, year))} to "
        f"{together(words.day(flowers.last, year))}: little to pick from "
        f"{together(words.day(gap.picks.first, year))} to "
        f"{together(words.day(gap.picks.last, year))}"
    )


def poor_years(told: Sequence[YearTold]) -> str:
    """Name the years in which a wave is not worth growing, without a full stop.

    Parameters
    ----------
    told
        What each year does to it; at least one.
    """
    poor = [each for each in told if each.is_poor]
    if not poor:
        return f"there is no poor year among the {len(told)} (`--years` tells each)"
    named = sorted(poor, key=lambda each: (each.worth, each.picking_days))[:_MOST_NAMED]
    years = words.listed(str(each.season) for each in sorted(named, key=lambda each: each.season))
    count = words.count(len(poor), "poor year")
    which = "the worst of them " if len(poor) > len(named) else ""
    return f"{count} of {len(told)}: {which}{years} (`--years` tells each)"


def _winter(winter: Winter, year: GrowingYear) -> str:
    """Say how far a wave is grown when the short days begin."""
    if winter.short_from is None:
        return "no day here is too short for it to grow"
    day = together(words.day(winter.short_from, year))
    text = (
        f"when the days fall under {SHORT_DAY} hours, {day}, it is about "
        f"{together(f'{round(100 * winter.grown)} %')} grown; three quarters are enough to be "
        "ready in or after the short days"
    )
    if winter.years is None:
        return text
    enough = words.odds(winter.grown_enough, years=winter.years)
    return f"{text}, and it reaches them in {together(enough)} years"


def _spring_frost(wave: Wave, season: Season) -> Iterator[str]:
    """Say of a hardier crop planted before the average last frost how often frost still ends it.

    A direct sowing is not harmed before it is up.
    """
    year, climate, stages = season.garden.year, season.climate, wave.stages
    years_on = timedelta(days=year.days_to(stages.plant.day))
    last = climate.frost_day(Half.SPRING, at=FREEZING, share=0.5)
    if wave.crop.hardiness.is_tender or last is None or stages.plant.day - years_on >= last.day:
        return
    killed_at = season.prospects(wave).need.killed_at
    since = stages.up or stages.plant
    odds = climate.frost_odds(Half.SPRING, since.day - years_on, at=killed_at)
    when = together(words.day(since.day, year)) + (", when it is up," if stages.up else "")
    yield (
        f"a frost of {together(show_temperature(killed_at, season.garden.site.units))} by the "
        f"site's dates, which ends the part that is picked, still comes after {when} in "
        f"{years_of_hundred(odds)}: this is shown and does not move the day"
    )


def _margin(judged: Judged, worthwhile: int, year: GrowingYear) -> Iterator[str]:
    """Show the margin as a sum of days."""
    first = judged.stages.first_pick
    if judged.margin is None or first is None:
        return
    after = first[1].day + timedelta(days=worthwhile)
    frost = after + timedelta(days=judged.margin)
    yield (
        f"to spare: {together(words.day(first[1].day, year))} + {worthwhile} days = "
        f"{together(words.day(after, year))}, {judged.margin:+} days = "
        f"{together(words.day(frost, year))}, the average frost that ends it"
    )
