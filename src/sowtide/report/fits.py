"""The answer to "does one more wave fit before frost?" as text: first in one plain sentence."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.days import GrowingYear
from sowtide.garden.crop import AfterFrost, Raised
from sowtide.report import words
from sowtide.report.outcome import outcome
from sowtide.report.sheet import (
    EMPTY,
    Column,
    Line,
    Style,
    line,
    styled,
    together,
    wrap,
)
from sowtide.report.table import named_table
from sowtide.schedule.answer import Answer, Spot
from sowtide.schedule.germination import doubt_of, seed_in_doubt
from sowtide.schedule.wave import Judged, Verdict
from sowtide.season import Season

_MOST_BEDS = 15
_ODDS_TITLE = {True: "in 100", False: "years"}
_MAY_BOLT = (
    "It would be picked in high summer and may bolt or turn bitter: no hot weeks are known here."
)
_GOOD = (Verdict.SAFE, None)
_WORTH_SHOWING = (*_GOOD, Verdict.CHANCY)
_BED_COLUMNS = (
    Column(6, right=True),
    Column(15),
    Column(15),
    Column(7, right=True),
    Column(9),
)
_WAITING_COLUMNS = (Column(15), Column(7), Column(7, right=True), Column(9))
_CROP_COLUMNS = (Column(9), Column(7, right=True), Column(15), Column(9), Column(9))


def fits_text(
    answers: tuple[Answer, ...], season: Season, *, width: int, asked: str = ""
) -> tuple[Line, ...]:
    """Lay out the answer for a crop.

    Parameters
    ----------
    answers
        One for each variety of it, best first.
    season
        The season it would join.
    width
        Of the screen. [cells]
    asked
        The name that was asked for.
    """
    if not answers:
        return wrap("Nothing to judge: the file has no such crop.", width)
    best = answers[0]
    lines = [*_another(answers, asked, width), *_other_year(best, season, width)]
    lines += _answer(best, season, width)
    lines += wrap(_limits(best, season), width)
    lines += _crops(answers, season, width)
    lines += _beds(best, season, width)
    lines += _waiting(best, season, width)
    lines += _instead(best, width)
    safe = words.sentence(words.safe_means(season.garden.site.sure))
    lines += (EMPTY, *wrap(f"{safe} {words.rests_on(season.climate.basis)}", width))
    return tuple(lines)


def _another(answers: tuple[Answer, ...], asked: str, width: int) -> Iterator[Line]:
    """Say that another crop than the one asked for is answered first."""
    wanted = asked.casefold()
    names = [each.crop.name for each in answers]
    if wanted != names[0].casefold() and wanted in (name.casefold() for name in names[1:]):
        yield from wrap(
            f"You asked for {wanted}; {names[0]}, of the same kind, does better.", width
        )


def _other_year(best: Answer, season: Season, width: int) -> Iterator[Line]:
    """Say that the day judged lies in another year than the file plans."""
    year = season.garden.year
    if best.asked_on not in year:
        on = together(words.day(best.asked_on, year))
        yield from wrap(f"Judged on {on}, {words.plans_another(year, best.asked_on)}.", width)


def _answer(best: Answer, season: Season, width: int) -> Iterator[Line]:
    """Say yes or no with the reason, what the planting brings, and when to sow for it."""
    year = season.garden.year
    judged = best.judged
    safe = tuple(spot for spot in best.good if spot.judged.verdict is Verdict.SAFE)
    if safe:
        judged = safe[0].judged
        start = line(("Yes", Style.GOOD), f", {_room(best, safe)}: ")
    elif best.verdict is None:
        start = line(("No odds", Style.WARN), ": it stands over the winter. ")
    else:
        start = line(("No", Style.BAD), f", {words.unbroken(_reason(best, season))}. ")
    planted = together(words.weekday(judged.stages.plant.day, year))
    done = f"{best.crop.title} {_done(best)} on {planted}: {outcome(judged, best.crop, year)}."
    bolts = f" {_MAY_BOLT}" if judged.may_bolt else ""
    yield from wrap(line(start, done if safe else words.sentence(done), bolts), width)
    found = doubt_of(best.crop, best.raised, judged.stages.plant.day, season.climate)
    if found is not None:
        seed = seed_in_doubt(best.crop, found, season.garden.site.units)
        yield from wrap(words.unbroken(f"The soil is then likely {seed}."), width)
    if best.raised is Raised.TRAYS:
        sown = judged.stages.sow.day
        yield from wrap(_seedlings(best, sown, season, fits=bool(safe)), width)


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
        return f"too early: not to be {_done(best)} before {words.day(best.earliest, year)}"
    if verdict is Verdict.TOO_HOT:
        hot = season.climate.hot_weeks
        weeks = f", {words.days_from_to(hot.first, hot.last, year)}" if hot else ""
        return f"too hot: its first pick would fall into the hot weeks{weeks}"
    if verdict is Verdict.SAFE:
        later = [spot.free_from for spot in best.spots if spot.judged.verdict is Verdict.SAFE]
        if later:
            return (
                f"there is no room on that day: the next with room is {words.day(min(later), year)}"
            )
        if best.spots:
            return "there is no room in time: where there is room, it comes too late to be safe"
        return (
            f"there is no room for {_plants(best)}: the day is safe, but the beds are full or "
            "closed by rotation"
        )
    if best.last_safe is None:
        return "no day of this season is safe for it"
    runs = tuple(span.first for span in best.windows if span.first > best.asked_on)
    if runs:
        return f"not safe on that day: the next safe day is {words.day(runs[0], year)}"
    late = "too late" if verdict is Verdict.TOO_LATE else "too late to be safe"
    tense = "was" if best.last_safe < today else "is"
    how = "to plant it out" if best.raised is Raised.TRAYS else "to sow it"
    return f"{late}: the last safe day {how} {tense} {words.day(best.last_safe, year)}"


def _done(best: Answer) -> str:
    return "planted out" if best.raised is Raised.TRAYS else "sown"


def _plants(best: Answer) -> str:
    return words.count(best.plants, "plant")


def _seedlings(best: Answer, sown: date, season: Season, *, fits: bool) -> str:
    """Say when the seedlings must have been sown, and when ones sown today could go out."""
    year, today = season.garden.year, season.today
    day = together(words.weekday(sown, year))
    if sown >= today:
        when = f"today, {day}" if sown == today else f"on {day}"
        start = "Sow its seedlings" if fits else "Its seedlings would be sown"
        return f"{start} {when}."
    text = f"Its seedlings must have been sown on {day}: they stand ready, or are bought."
    nursery = best.crop.nursery_days
    if nursery is not None:
        out = together(words.weekday(today + timedelta(days=nursery.low), year))
        text += f" Sown today they go out on {out}."
    return text


def _limits(best: Answer, season: Season) -> str:
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


def _crops(answers: tuple[Answer, ...], season: Season, width: int) -> Iterator[Line]:
    if len(answers) < 2:
        return
    year = season.garden.year
    one_crop = len({each.crop.name for each in answers}) == 1
    yield EMPTY
    yield styled("VARIETIES" if one_crop else "CROPS", Style.HEADING)
    rows = [
        (
            (each.crop.variety or each.crop.name) if one_crop else each.crop.title,
            (
                words.verdict(each.judged.verdict),
                words.odds_cell(each.judged),
                _first(each.judged, year),
                words.day(each.last_safe, year) if each.last_safe else "none",
                _safe_beds(each),
            ),
        )
        for each in answers
    ]
    odds = _ODDS_TITLE[answers[0].judged.years is None]
    titles = ("", "", odds, "first pick", "last safe", "safe beds")
    yield from named_table(_CROP_COLUMNS, titles, rows, width=width)


def _safe_beds(of: Answer) -> str:
    safe = sum(spot.judged.verdict is Verdict.SAFE for spot in of.spots)
    return f"{safe} of {len(of.spots)}" if of.spots else "none"


def _beds(best: Answer, season: Season, width: int) -> Iterator[Line]:
    """Yield the beds with room: beside good ones only chancy ones, and the rest counted."""
    yield EMPTY
    most = "" if best.plants == 1 else "up to "
    yield line(("BEDS WITH ROOM", Style.HEADING), f" for {most}{_plants(best)}")
    if not best.spots:
        yield from wrap("none", width)
        return
    if any(spot.judged.verdict in _GOOD for spot in best.spots):
        shown = tuple(spot for spot in best.spots if spot.judged.verdict in _WORTH_SHOWING)
    else:
        shown = best.spots
    act = "plant out" if best.raised is Raised.TRAYS else "sow"
    titles = (
        *("bed", "plants", act, "first pick"),
        _ODDS_TITLE[shown[0].judged.years is None],
        "",
    )
    rows = [(spot.bed.name, _bed(spot, season)) for spot in shown[:_MOST_BEDS]]
    yield from named_table(_BED_COLUMNS, titles, rows, width=width)
    more = len(shown) - _MOST_BEDS
    if more > 0:
        text = f"and {words.count(more, 'bed')} more; `--format json` lists them all"
        yield from wrap(text, width)
    yield from _other_beds(tuple(spot for spot in best.spots if spot not in shown), width)


def _waiting(best: Answer, season: Season, width: int) -> Iterator[Line]:
    """Show what waiting costs, week by week, where it costs anything."""
    weeks = best.weekly
    if len({(judged.verdict, words.odds_cell(judged)) for judged in weeks}) < 2:
        return
    year = season.garden.year
    yield EMPTY
    act = "planted out" if best.raised is Raised.TRAYS else "sown"
    yield line(("IF YOU WAIT", Style.HEADING), f"  the same, {act} on other days")
    odds = _ODDS_TITLE[best.judged.years is None]
    rows = [
        (
            words.weekday(judged.stages.plant.day, year),
            (
                _first(judged, year),
                "" if best.crop.cut_once else words.mean_days(judged.expected_picking_days),
                words.odds_cell(judged),
                words.verdict(judged.verdict),
            ),
        )
        for judged in weeks
    ]
    picked = "" if best.crop.cut_once else "picked"
    titles = (act, "first pick", picked, odds, "")
    yield from named_table(_WAITING_COLUMNS, titles, rows, width=width)


def _bed(spot: Spot, season: Season) -> tuple[str | tuple[str, Style], ...]:
    year = season.garden.year
    until = max(spot.free_until or spot.free_from, spot.free_from)
    return (
        f"{spot.plants:,}",
        words.days_from_to(spot.free_from, until, year),
        _first(spot.judged, year),
        words.odds_cell(spot.judged),
        words.verdict(spot.judged.verdict),
    )


def _other_beds(spots: tuple[Spot, ...], width: int) -> Iterator[Line]:
    """Count the beds that have no room on a day worth showing, by what is wrong with their days."""
    if not spots:
        return
    found = Counter(spot.judged.verdict for spot in spots)
    kinds = [(verdict.value, found[verdict]) for verdict in Verdict if found[verdict]]
    when = words.listed(
        (f"{name} ({number})" if len(kinds) > 1 else name for name, number in kinds), last="or"
    )
    beds = "more bed has" if len(spots) == 1 else "more beds have"
    yield from wrap(f"{len(spots)} {beds} room only when it is {when}", width)


def _first(judged: Judged, year: GrowingYear) -> str:
    first = judged.stages.first_pick
    if first is None:
        return "not known" if judged.verdict is None else "nothing"
    return words.days_from_to(first[0].day, first[1].day, year)


def _instead(best: Answer, width: int) -> Iterator[Line]:
    """Say what else would fit, or be better, where the answer is no."""
    if best.fits or (best.verdict is None and best.spots):
        return
    yield EMPTY
    yield styled("INSTEAD", Style.HEADING)
    if not best.instead:
        yield from wrap("nothing found: no other bed, cover, seedlings or quicker crop", width)
    for each in best.instead:
        text = words.unbroken(words.sentence(each.text)[:-1])
        if each.odds is not None:
            text += f": {together(words.odds(each.odds, years=each.years))}"
        yield from wrap(text, width, first="- ")
