"""Yes or no in a sentence, with its reason, the seedlings, and the days that are safe."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.garden.crop import AfterFrost, Raised
from sowtide.report.blocks import Line, Style, line, together
from sowtide.report.formats.terminal.cells import wrap
from sowtide.report.kit import words
from sowtide.report.kit.judged import judgement_of
from sowtide.report.kit.outcome import outcome
from sowtide.schedule.fits import Answer, Spot
from sowtide.schedule.season import Season
from sowtide.schedule.waves import SAFE, Verdict, doubt_of, seed_in_doubt

_MAY_BOLT = (
    "It would be picked in high summer and may bolt or turn bitter: no hot weeks are known here."
)


def another_first(answers: tuple[Answer, ...], asked: str, width: int) -> Iterator[Line]:
    """Say that another crop than the one asked for is answered first."""
    wanted = asked.casefold()
    names = [each.crop.name for each in answers]
    if wanted != names[0].casefold() and wanted in (name.casefold() for name in names[1:]):
        yield from wrap(
            f"You asked for {wanted}; {names[0]}, of the same kind, does better.", width
        )


def other_year(best: Answer, season: Season, width: int) -> Iterator[Line]:
    """Say that the day judged lies in another year than the file plans."""
    year = season.garden.year
    if best.asked_on not in year:
        on = together(words.day(best.asked_on, year))
        yield from wrap(f"Judged on {on}, {words.plans_another(year, best.asked_on)}.", width)


def answered(best: Answer, season: Season, width: int) -> Iterator[Line]:
    """Say yes or no with the reason, what the planting brings, and when to sow for it."""
    year = season.garden.year
    judged = best.judged
    safe = best.good
    if safe:
        judged = safe[0].judged
        yes = "Safe from frost" if judged.verdict is Verdict.SAFE_FROM_FROST else "Yes"
        start = line((yes, Style.GOOD), f", {_room(best, safe)}: ")
    else:
        start = line(("No", Style.BAD), f", {words.unbroken(_reason(best, season))}. ")
    planted = together(words.weekday(judged.stages.plant.day, year))
    brings = outcome(judgement_of(judged, best.crop), year)
    said = f"{best.crop.title} {done(best)} on {planted}: {brings}."
    more = f" {_MAY_BOLT}" if judged.may_bolt else ""
    if judged.verdict is None:
        more += " No odds are counted over the winter."
    yield from wrap(line(start, said if safe else words.sentence(said), more), width)
    if safe and not best.fits and best.whole is not None:
        odds = together(words.odds(best.whole.judged.odds or 0.0, years=best.whole.judged.years))
        when = together(words.day(best.whole.free_from, year))
        text = f"All {best.plants:,} have room in {best.whole.bed.name} from {when}: {odds}."
        yield from wrap(text, width)
    found = doubt_of(best.crop, best.raised, judged.stages.plant.day, season.climate)
    if found is not None:
        seed = seed_in_doubt(best.crop, found, season.garden.site.units)
        yield from wrap(words.unbroken(f"The soil is then likely {seed}."), width)
    if best.raised is Raised.TRAYS:
        sown = judged.stages.sow.day
        yield from wrap(seedlings_of(best, sown, season, fits=bool(safe)), width)


def _room(best: Answer, safe: tuple[Spot, ...]) -> str:
    """Name the beds that take the plants, as many as it needs."""
    names: list[str] = []
    left = best.plants
    for spot in safe:
        names.append(spot.bed.name)
        left -= spot.plants
        if left <= 0:
            return f"in {words.listed(names)}"
    some = f"{best.plants - left:,} of {words.count(best.plants, 'plant')}"
    return f"but only for {some}, in {words.listed(names)}"


def _reason(best: Answer, season: Season) -> str:
    """Say why it is no."""
    year, today = season.garden.year, season.today
    verdict = best.verdict
    if verdict is Verdict.TOO_EARLY:
        return f"too early: not to be {done(best)} before {words.day(best.earliest, year)}"
    if verdict is Verdict.TOO_HOT:
        hot = season.climate.hot_weeks
        weeks = f", {words.days_from_to(hot.first, hot.last, year)}" if hot else ""
        return f"too hot: its first pick would fall into the hot weeks{weeks}"
    if verdict in (*SAFE, None):
        later = [spot.free_from for spot in best.spots if spot.judged.verdict is verdict]
        if later:
            return (
                f"there is no room on that day: the next with room is {words.day(min(later), year)}"
            )
        if best.spots:
            return "there is no room in time: where there is room, it comes too late to be safe"
        why = "the beds are full or closed by rotation"
        if verdict is None:
            return f"there is no room for {plants_of(best)} over the winter: {why}"
        return f"there is no room for {plants_of(best)}: the day is safe, but {why}"
    if best.last_safe is None:
        return "no day of this season is safe for it"
    runs = tuple(span.first for span in best.windows if span.first > best.asked_on)
    if runs:
        return f"not safe on that day: the next safe day is {words.day(runs[0], year)}"
    late = "too late" if verdict is Verdict.TOO_LATE else "too late to be safe"
    tense = "was" if best.last_safe < today else "is"
    how = "to plant it out" if best.raised is Raised.TRAYS else "to sow it"
    return f"{late}: the last safe day {how} {tense} {words.day(best.last_safe, year)}"


def done(best: Answer) -> str:
    """Say how its planting is done: ``sown`` or ``planted out``."""
    return "planted out" if best.raised is Raised.TRAYS else "sown"


def plants_of(best: Answer) -> str:
    """Say how many plants were asked for, or would fit."""
    return words.count(best.plants, "plant")


def seedlings_of(best: Answer, sown: date, season: Season, *, fits: bool) -> str:
    """Say when the seedlings must have been sown, and when ones sown today could go out."""
    year, today = season.garden.year, season.today
    day = together(words.weekday(sown, year))
    if sown >= today:
        when = f"today, {day}" if sown == today else f"on {day}"
        start = "Sow its seedlings" if fits else "Its seedlings would be sown"
        return f"{start} {when}."
    or_direct = " or sow direct" if best.crop.raised is Raised.EITHER else ""
    text = (
        f"Its seedlings must have been sown on {day}: if they do not stand ready, it is too late "
        f"to raise your own; buy them{or_direct}."
    )
    nursery = best.crop.nursery_days
    if nursery is not None:
        out = together(words.weekday(today + timedelta(days=nursery.low), year))
        text += f" Sown today they go out on {out}."
    return text


def limits(best: Answer, season: Season) -> str:
    """Say from when to when it may be planted, and what ends it."""
    year = season.garden.year
    act = "plant it out" if best.raised is Raised.TRAYS else "sow it"
    if best.verdict is None:
        return "Sowtide knows no safe days for it: it counts none for a crop over the winter."
    runs = [together(words.days_from_to(s.first, s.last, year)) for s in best.windows]
    text = f"Safe days to {act}: {words.listed(runs)}." if runs else f"No safe day to {act}."
    if not best.windows or not _same_day(best.windows[0].first, best.earliest):
        text += f" Earliest: {together(words.day(best.earliest, year))}."
    if best.frost_limit is not None:
        limit = together(words.day(best.frost_limit, year))
        if best.crop.after_frost is AfterFrost.STANDS and season.climate.basis.warmth != "none":
            text += f" What is ripe stands till the ground freezes, about {limit}."
        elif best.crop.after_frost is AfterFrost.STANDS:
            text += f" By {limit} frost has stopped its growth in half of the years; what is ripe"
            text += " by then stands till the ground freezes, and when that is nobody knows here."
        else:
            text += f" By {limit} frost has ended it in half of the years."
    return text


def _same_day(one: date, other: date) -> bool:
    """Say whether two days are the same day of their years."""
    return (one.month, one.day) == (other.month, other.day)
