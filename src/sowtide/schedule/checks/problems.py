"""Problems of the plan: what was asked for and cannot, or should better not, come true.

They stop no command; each has its own small check.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from sowtide.climate.answers import EndedBy
from sowtide.climate.daylight import day_length
from sowtide.days import GrowingYear, short_day
from sowtide.diagnostics import Problem, Severity
from sowtide.garden.crop import AfterFrost
from sowtide.garden.model import Entry
from sowtide.schedule.beds import Placed
from sowtide.schedule.waves import (
    MOST_WAVES,
    Blocked,
    Conditions,
    Doubt,
    Gap,
    Judged,
    PickGap,
    Verdict,
    chilled,
    doubt_of,
    no_winter_date,
    pick_gap_of,
    seed_in_doubt,
)
from sowtide.units import show_number, show_temperature, years_of_hundred

_USUAL = 0.5
"""Share of the years from which on a gap is said. [0–1]"""
_MOST_NAMED = 3
"""How many waves or beds a message names before it counts them. [1]"""


def problems_of(placed: Placed, conditions: Conditions) -> Iterator[Problem]:
    """Yield what is wrong with one wave."""
    if placed.blocked is not None:
        yield _no_room(placed, placed.blocked)
    yield from _timing(placed, conditions)
    for bed, words in placed.warnings:
        yield _of(
            placed,
            Severity.WARNING,
            "rotation",
            f"{placed.planting.id} in {bed}: {words}",
            "name another bed, or leave `beds` out and let sowtide pass this one over",
        )


def bolting(series: Sequence[Placed]) -> Iterator[Problem]:
    """Say once which waves of an entry may bolt."""
    waves = [each for each in series if each.judged.may_bolt]
    if waves:
        yield _of(
            waves[0],
            Severity.WARNING,
            "may-bolt",
            f"{_named(waves)} would be picked in high summer and may bolt or turn bitter",
            "write your place's hot weeks into site (`too_hot: 07-10..08-10`), or `too_hot: none`",
        )


def poor_germination(series: Sequence[Placed], conditions: Conditions) -> Iterator[Problem]:
    """Say once which waves of an entry are sown into soil too warm or too cold for their seed."""
    found = [(each, _doubt(each, conditions)) for each in series]
    waves = [each for each, doubted in found if doubted is not None]
    if not waves:
        return
    first = next(doubted for _, doubted in found if doubted is not None)
    days = [short_day(each.planting.planted.day) for each in (waves[0], waves[-1])]
    sown = f"is sown on {days[0]}" if len(waves) == 1 else f"are sown from {days[0]} to {days[1]}"
    words = seed_in_doubt(waves[0].planting.entry.crop, first, conditions.site.units)
    yield _of(
        waves[0],
        Severity.WARNING,
        "poor-germination",
        f"{_named(waves)} {sown} into soil that is likely {words}",
        "sow in the evening into wet soil and shade it, or raise it in trays in a cool place"
        if first.too_warm
        else "wait for warmer soil, or raise it in trays",
    )


def may_run_to_seed(series: Sequence[Placed], conditions: Conditions) -> Iterator[Problem]:
    """Say once which waves of an entry are chilled as young plants and may run to seed."""
    waves = [each for each in series if _chill(each, conditions) is not None]
    if not waves:
        return
    crop, units = waves[0].planting.entry.crop, conditions.site.units
    mean, limit = _chill(waves[0], conditions), crop.chill_limit
    assert mean is not None  # only such were taken
    assert limit is not None
    meet = "meets" if len(waves) == 1 else "meet"
    yield _of(
        waves[0],
        Severity.WARNING,
        "may-run-to-seed",
        f"{_named(waves)} {meet} cold as young plants and may run to seed: the first "
        f"{crop.chill_days} days have a mean of {show_temperature(mean, units)}, and below "
        f"{show_temperature(limit, units)} they take it for a winter",
        "plant later, set out small plants, cover them, or choose a sort slow to run to seed",
    )


def sets_little_fruit(series: Sequence[Placed], conditions: Conditions) -> Iterator[Problem]:
    """Say once which waves of an entry are too hot to set fruit in half of the years or more."""
    found = [(each, _pick_gap(each, conditions)) for each in series]
    waves = [(each, gap) for each, gap in found if gap and gap.flowers.share >= _USUAL]
    if not waves:
        return
    first, gap = waves[0]
    assert gap is not None  # only such were taken
    flowers, picks = gap.flowers, gap.picks
    names = _named([each for each, _ in waves])
    flower = "flowers" if len(waves) == 1 else "flower"
    as_first = "" if len(waves) == 1 else f"; {first.planting.id}"
    among = "in an average year"
    if flowers.years is not None:
        among = f"in {years_of_hundred(flowers.share, of=flowers.years)}"
    yield _of(
        first,
        Severity.NOTE,
        "fruit-set",
        f"{names} {flower} in heat that lets little fruit set{as_first} {among}, as a rule from "
        f"{short_day(flowers.first)} to {short_day(flowers.last)}: little to pick from "
        f"{short_day(picks.first)} to {short_day(picks.last)}",
        "shade, water and mulch help a little; keep the plants, they set again when it is cooler",
    )


def long_days(series: Sequence[Placed], conditions: Conditions) -> Iterator[Problem]:
    """Say once which waves of an entry are first picked in days so long that they run to seed."""
    limit = series[0].planting.entry.crop.long_day
    if limit is None:
        return
    latitude = conditions.site.latitude
    waves = []
    for each in series:
        first = each.judged.stages.first_pick
        if first is not None and day_length(latitude, first[0].day) > limit:
            waves.append(each)
    if waves:
        yield _of(
            waves[0],
            Severity.NOTE,
            "long-days",
            f"{_named(waves)} would be picked in days longer than {show_number(limit)} hours and "
            "may run to seed",
            "pick it young, choose a sort slow to run to seed, or plant it for shorter days",
        )


def no_wave(entry: Entry) -> Problem:
    """Say why a series from the earliest day on has no wave."""
    if entry.until is None:
        why = f"no day of this growing year is safe for {entry.crop.name}"
        hint = "try a cover, seedlings in place of sowing, or a quicker variety"
    else:
        why = f"its earliest day comes after {short_day(entry.until)}"
        hint = "write a later `until`, or `last safe`"
    return Problem(Severity.ERROR, "no-wave", f"{entry.name} has no wave: {why}", hint, entry.span)


def too_many(entry: Entry) -> Problem:
    """Say that a series was cut short."""
    return Problem(
        Severity.ERROR,
        "too-many-waves",
        f"{entry.name} would have more than {MOST_WAVES} waves; the rest was left out",
        "write a longer `every`, or an earlier `until`",
        entry.span,
    )


def year_over(year: GrowingYear, today: date) -> Iterator[Problem]:
    """Say that the growing year planned is over, where it is."""
    if today > year.last:
        yield Problem(
            Severity.NOTE,
            "year-over",
            f"the growing year {year.season} ended on {short_day(year.last)} {year.last.year}",
            f"plan the next one: `season: {year.season + 1}`",
        )


def gap_note(gap: Gap, placed: Placed) -> Problem:
    """Name a gap in a series."""
    return _of(
        placed,
        Severity.NOTE,
        "gap",
        f"{gap.series} is not planted from {short_day(gap.first)} to {short_day(gap.last)}: "
        f"{gap.why}",
        None,
    )


def _named(waves: Sequence[Placed]) -> str:
    """Name waves of one entry by the first and the last of them."""
    first, last = waves[0].planting.id, waves[-1].planting.id
    if len(waves) == 1:
        return first
    return f"{first} {'to' if len(waves) > 2 else 'and'} {last}"


def _doubt(placed: Placed, conditions: Conditions) -> Doubt | None:
    planting = placed.planting
    return doubt_of(
        planting.entry.crop, planting.entry.raised, planting.planted.day, conditions.climate
    )


def _pick_gap(placed: Placed, conditions: Conditions) -> PickGap | None:
    crop = placed.planting.entry.crop
    return pick_gap_of(crop, placed.judged.stages, conditions.climate)


def _chill(placed: Placed, conditions: Conditions) -> float | None:
    planting = placed.planting
    return chilled(planting.entry.crop, planting.planted.day, conditions.climate, conditions.year)


def _timing(placed: Placed, conditions: Conditions) -> Iterator[Problem]:
    judged, name = placed.judged, placed.planting.id
    planted = placed.planting.planted.day
    verdict = judged.verdict
    if verdict is None:
        if judged.stages.first_pick is None:
            crop = placed.planting.entry.crop
            why, hint = no_winter_date(judged.winter, fewest=crop.days_to_harvest.low)
            yield _of(placed, Severity.WARNING, "no-winter-date", f"{name} {why}", hint)
        return
    if verdict is Verdict.TOO_EARLY:
        yield _of(
            placed,
            Severity.WARNING,
            "too-early",
            f"{name} is planted on {short_day(planted)}, too early for its crop",
            f"wait until {short_day(judged.earliest)}, or write `from: earliest`",
        )
    if judged.stages.first_pick is None:
        yield _never(placed, conditions)
    elif verdict is Verdict.TOO_HOT:
        yield _of(
            placed,
            Severity.WARNING,
            "too-hot",
            f"{name} would be ready in the hot weeks",
            "plant it earlier or later, or a crop that stands heat",
        )
    elif verdict is Verdict.TOO_LATE:
        yield _of(placed, Severity.WARNING, "too-late", _late(placed), _last_safe(judged))
    elif verdict is Verdict.CHANCY:
        yield _of(placed, Severity.NOTE, "chancy", _late(placed), _last_safe(judged))


def _never(placed: Placed, conditions: Conditions) -> Problem:
    judged = placed.judged
    stands = placed.planting.entry.crop.after_frost is AfterFrost.STANDS
    end = "frost ends it"
    if judged.ended_by is EndedBy.HEAT:
        end = "the heat ends it"
    elif stands:
        known = conditions.climate.basis.warmth != "none"
        end = "the ground freezes" if known else "frost stops its growth"
    when = "" if judged.end is None else f" about {short_day(judged.end.day)}"
    why = f"cannot be picked before {end}{when}"
    if judged.ended_by is EndedBy.TOO_COOL:
        why = "does not get warm enough to ripen"
    if judged.last_safe is None:
        hint: str | None = "no day of this growing year is safe for it here"
    else:
        hint = _last_safe(judged)
    return _of(
        placed,
        Severity.ERROR,
        "never-finishes",
        f"{placed.planting.id}, planted on {short_day(placed.planting.planted.day)}, {why}",
        hint,
    )


def _late(placed: Placed) -> str:
    odds = placed.judged.odds
    assert odds is not None  # only waves over the winter have none
    heat = placed.judged.ended_by is EndedBy.HEAT
    cut = "; the heat cuts its picking short" if heat else ""
    return (
        f"{placed.planting.id}, planted on {short_day(placed.planting.planted.day)}, "
        f"is worth growing in {years_of_hundred(odds, of=placed.judged.years or 100)}{cut}"
    )


def _last_safe(judged: Judged) -> str | None:
    if judged.last_safe is None:
        return None
    return f"the last safe day to plant it is {short_day(judged.last_safe)}"


def _no_room(placed: Placed, blocked: Blocked) -> Problem:
    planting = placed.planting
    if not planting.beds:
        message = f"{planting.id} is given no bed"
        return _of(placed, Severity.NOTE, "no-bed", message, "give it one in `wave_beds`")
    first, latest = planting.planted.day, planting.latest
    when = f"on {short_day(first)}"
    if latest > first:
        when = f"from {short_day(first)} to {short_day(latest)}"
    message = (
        f"no room for {planting.id} ({planting.entry.plants} plants) {when}: "
        f"{_what_blocks(blocked)}"
    )
    return _of(placed, Severity.ERROR, "no-room", message, _where_next(blocked))


def _what_blocks(blocked: Blocked) -> str:
    reasons = []
    if blocked.plants:
        reasons.append(f"only {blocked.plants} would fit")
    named = blocked.holders[:_MOST_NAMED]
    reasons += [f"{each.wave} holds {each.bed} until {short_day(each.until)}" for each in named]
    more = len(blocked.holders) + blocked.more_holders - len(named)
    if more:
        reasons.append(f"and {more} more wave{'s' if more > 1 else ''}")
    reasons += [
        f"{each.bed} is kept until {short_day(each.last)}" for each in blocked.kept[:_MOST_NAMED]
    ]
    if blocked.rotation:
        reasons.append(f"rotation closes {blocked.rotation}")
    return "; ".join(reasons) or "its beds are taken"


def _where_next(blocked: Blocked) -> str:
    opening = blocked.opening
    if opening is None:
        return "no later day of the year has room for it: name another bed, or plant fewer"
    beds = opening.beds[0]
    if len(opening.beds) > 1:
        beds = f"{', '.join(opening.beds[:-1])} and {opening.beds[-1]}"
    if len(opening.beds) > _MOST_NAMED:
        beds = f"{len(opening.beds)} beds"
    then = "" if opening.verdict is None else f" ({opening.verdict.value} then)"
    return f"the first day with room is {short_day(opening.day)}, in {beds}{then}"


def _of(placed: Placed, severity: Severity, code: str, message: str, hint: str | None) -> Problem:
    return Problem(severity, code, message, hint, placed.planting.entry.span, placed.planting.id)
