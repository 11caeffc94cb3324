"""Yes or no in a sentence, with its reason, the seedlings, and the days that are safe."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.garden.crop import Raised
from sowtide.report.blocks import Style, Text, line, together
from sowtide.report.fits.view import AnswerView, FitsView
from sowtide.report.kit import words
from sowtide.report.kit.judged import SPRING_MATTERS
from sowtide.report.kit.outcome import outcome
from sowtide.report.kit.seedlings import done, say_seedlings
from sowtide.report.kit.spots import GOOD
from sowtide.schedule.waves import HeatHarm, Verdict
from sowtide.units import in_hundred

_MAY_BOLT = (
    "It would be picked in high summer and may bolt or turn bitter: no hot weeks are known here."
)


def another_first(of: FitsView) -> Iterator[Text]:
    """Say that another crop than the one asked for is answered first."""
    wanted, first = of.asked.casefold(), of.best.crop
    others = (each.crop.casefold() for each in of.varieties or ())
    if wanted != first.casefold() and wanted in others:
        yield Text(f"You asked for {wanted}; {first}, of the same kind, does better.")


def other_year(of: FitsView) -> Iterator[Text]:
    """Say that the day judged lies in another year than the file plans."""
    year, on = of.setting.year, of.best.on
    if on not in year:
        day = together(words.day(on, year))
        yield Text(f"Judged on {day}, {words.plans_another(year, on)}.")


def answered(of: FitsView) -> Iterator[Text]:
    """Say yes or no with the reason, what the planting brings, and when to sow for it."""
    best, year = of.best, of.setting.year
    judged = best.planted.judged
    if best.good:
        yes = "Safe from frost" if judged.verdict is Verdict.SAFE_FROM_FROST else "Yes"
        start = line((yes, Style.GOOD), f", {_room(best)}: ")
    else:
        start = line(("No", Style.BAD), f", {words.unbroken(_reason(of))}. ")
    planted = together(words.weekday(best.planted.plant, year))
    said = f"{best.title} {done(best.raised)} on {planted}: {outcome(judged, year)}."
    more = f" {_MAY_BOLT}" if judged.may_bolt else ""
    if judged.verdict is None:
        more += " No odds are counted over the winter."
    yield Text(line(start, said if best.good else words.sentence(said), more))
    if best.good and not best.fits and best.whole is not None:
        whole = best.whole
        odds = together(words.odds(whole.odds or 0.0, years=whole.judged.years))
        when = together(words.day(whole.free_from, year))
        yield Text(f"All {best.plants:,} have room in {whole.bed} from {when}: {odds}.")
    if best.seed is not None:
        yield Text(words.unbroken(f"The soil is then likely {best.seed}."))
    if best.seedlings is not None:
        yield Text(say_seedlings(best.seedlings, of.setting, fits=bool(best.good)))


def _room(best: AnswerView) -> str:
    """Name the beds that take the plants, as many as it needs."""
    names: list[str] = []
    left = best.plants
    for spot in best.good:
        names.append(spot.bed)
        left -= spot.plants
        if left <= 0:
            return f"in {words.listed(names)}"
    some = f"{best.plants - left:,} of {words.count(best.plants, 'plant')}"
    return f"but only for {some}, in {words.listed(names)}"


def _reason(of: FitsView) -> str:
    """Say why it is no."""
    best, year = of.best, of.setting.year
    if best.verdict is Verdict.TOO_EARLY:
        earliest = words.day(best.earliest_planting, year)
        return f"too early: not to be {done(best.raised)} before {earliest}"
    if best.heat is HeatHarm.SPOILS_SEED:
        return "too hot: the soil is too warm for its seed"
    if best.heat is HeatHarm.SPOILS_ROOT:
        return "too hot: its roots would grow pale and tough in the heat"
    drops = best.heat is HeatHarm.DROPS_FLOWERS
    if drops and best.verdict is Verdict.TOO_HOT:
        return "too hot: its flowers drop in the heat, and most of it sets no fruit"
    if best.verdict is Verdict.TOO_HOT:
        hot = of.hot_weeks
        weeks = f", {words.days_from_to(hot.from_, hot.to, year)}" if hot else ""
        return f"too hot: its first pick would fall into the hot weeks{weeks}"
    if best.verdict in GOOD:
        return _no_room(of)
    if best.last_safe_planting is None:
        return "no day of this season is safe for it"
    runs = tuple(run.from_ for run in best.windows if run.from_ > best.on)
    out_of_time = best.verdict is Verdict.NOT_ITS_TIME
    if runs and out_of_time:
        return f"not the time of the year for it: the next safe day is {words.day(runs[0], year)}"
    if runs:
        why = ", since its flowers drop in the heat of some years" if drops else ""
        return f"not safe on that day{why}: the next safe day is {words.day(runs[0], year)}"
    if best.judged.winter_kills and best.odds is not None:
        return words.winter_kills(best.odds)
    late = "too late" if best.verdict is Verdict.TOO_LATE else "too late to be safe"
    if out_of_time:
        late = "not the time of the year for it"
    today, last = of.setting.today, best.last_safe_planting
    tense = "was" if today is not None and last < today else "is"
    return f"{late}: the last safe day to {_act(best)} {tense} {words.day(last, year)}"


def _no_room(of: FitsView) -> str:
    """Say that it is a matter of room, and when there is some."""
    best, year = of.best, of.setting.year
    later = [spot.free_from for spot in best.places if spot.verdict is best.verdict]
    if later:
        return f"there is no room on that day: the next with room is {words.day(min(later), year)}"
    if best.places:
        return "there is no room in time: where there is room, it comes too late to be safe"
    no_room = f"there is no room for {plants_of(best)}"
    why = "the beds are full or closed by rotation"
    if best.verdict is None:
        return f"{no_room} over the winter: {why}"
    return f"{no_room}: the day is safe, but {why}"


def plants_of(of: AnswerView) -> str:
    """Say how many plants were asked for, or would fit."""
    return words.count(of.plants, "plant")


def limits(of: FitsView) -> str:
    """Say from when to when it may be planted, and what ends it."""
    best, year = of.best, of.setting.year
    if best.verdict is None:
        return "Sowtide knows no safe days for it: it counts none for a crop over the winter."
    runs = [together(words.days_from_to(run.from_, run.to, year)) for run in best.windows]
    text = f"No safe day to {_act(best)}."
    if runs:
        text = f"Safe days to {_act(best)}: {words.listed(runs)}."
    earliest = best.earliest_planting
    first = best.windows[0].from_ if best.windows else None
    if first is None or (first.month, first.day) != (earliest.month, earliest.day):
        text += f" Earliest: {together(words.day(earliest, year))}."
    if best.frost_limit is None:
        return text
    if best.spring_loss >= SPRING_MATTERS:
        text += f" A frost of spring kills it in {in_hundred(best.spring_loss)} years of 100."
    limit = together(words.day(best.frost_limit, year))
    if not best.stands_after_frost:
        return f"{text} By {limit} frost has ended it in half of the years."
    if best.knows_ground and best.pulled_again:
        return f"{text} What is ripe when the ground freezes, about {limit}, is pulled as it thaws."
    if best.knows_ground:
        return f"{text} What is ripe stands till the ground freezes, about {limit}."
    return (
        f"{text} By {limit} frost has stopped its growth in half of the years; what is ripe by "
        "then stands till the ground freezes, and when that is nobody knows here."
    )


def _act(of: AnswerView) -> str:
    return "plant it out" if of.raised is Raised.TRAYS else "sow it"
