"""Keep a wave or pull it for another crop: the numbers on both sides, and nothing decided."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from sowtide.days import DateSpan
from sowtide.garden.model import Bed
from sowtide.reasons import OURS
from sowtide.schedule.fits.answer import Answer, Neighbour
from sowtide.schedule.fits.one_more import answer
from sowtide.schedule.fits.question import Question
from sowtide.schedule.season import Season
from sowtide.schedule.stays import Room, barred, family_key, too_soon, without
from sowtide.schedule.waves import Conditions, Wave, picked_in
from sowtide.values import value

if TYPE_CHECKING:
    from sowtide.climate.answers import Left
    from sowtide.schedule.happened import WaveKnown


@value
class Weighing:
    """A wave against another crop in its place."""

    wave: Wave
    since: date
    """The day on which it would be pulled, or not be planted at all."""
    left: Left | None
    """What it still has before it; None for a crop cut once and over the winter."""
    ahead: DateSpan | None
    """The days on which it would still be picked, or stand to be cut, in half of the years."""
    answer: Answer
    """The other crop in the bed in which most of the wave stands, with the space it leaves."""
    gaps: tuple[DateSpan, ...]
    """Days on which the wave would be picked and no other wave of its crop is."""
    others: tuple[Wave, ...]
    """The other waves of its crop that are picked on some of those days."""
    family: tuple[Wave, ...]
    """The other waves of its family that stand on the day."""
    rotation: str | None
    """What rotation has against the other crop there, in a few words, or None."""
    comes: Neighbour | None
    """What is planted next in that bed, or None."""
    known: WaveKnown | None
    """What the journal knows of how the wave bears and looks, or None."""


def since_of(season: Season, wave: Wave, question: Question) -> date:
    """Return the day on which a wave would be pulled for another crop, or not be planted at all."""
    return max(question.on or season.today, wave.stages.plant.day)


def weigh(season: Season, wave: Wave, question: Question) -> Weighing:
    """Weigh keeping a wave against another crop in its place.

    Parameters
    ----------
    season
        The plan.
    wave
        A wave of it that has its room, not pulled out by the day of `since_of`.
    question
        The other crop; its bed is set here, and its day unless the grower named one.
    """
    since = since_of(season, wave, question)
    bed = max(wave.stands, key=lambda stand: stand.plants).bed
    freed = without(season.room, wave.id, since.toordinal())
    beside_it = tuple(each for each in season.waves if each.id != wave.id)
    found = answer(
        replace(season, room=freed, waves=beside_it, today=since), replace(question, bed=bed)
    )
    others = tuple(each for each in beside_it if each.crop.name == wave.crop.name and each.stands)
    picked = picked_in(wave.stages)
    ahead = None if picked is None or picked.last < since else _from(picked, since)
    beside = tuple(
        each for each in others if ahead is not None and _meets(picked_in(each.stages), ahead)
    )
    spans = sorted(
        (span for each in beside if (span := picked_in(each.stages))), key=lambda each: each.first
    )
    return Weighing(
        wave=wave,
        since=since,
        left=left_of(wave, season.conditions, since),
        ahead=ahead,
        answer=found,
        gaps=() if ahead is None else tuple(ahead.without(spans)),
        others=beside,
        family=tuple(each for each in beside_it if _is_kin(each, wave, since)),
        rotation=barred(freed, freed.number[bed.name], question.crop, found.asked_on.toordinal())
        or too_soon(
            bed,
            freed.stays[freed.number[bed.name]],
            question.crop,
            series="",
            planted=found.asked_on.toordinal(),
            season=season.conditions.year.season,
        ),
        comes=_next_in(freed, bed, since),
        known=_known(season, wave),
    )


def _known(season: Season, wave: Wave) -> WaveKnown | None:
    if season.accounts is None:
        return None
    from sowtide.schedule.happened import known_of

    return known_of(season.accounts, wave.id, wave.bed_names)


def _next_in(room: Room, bed: Bed, since: date) -> Neighbour | None:
    stays = room.stays[room.number[bed.name]]
    coming = [(stay.first, stay.wave) for stay in stays if stay.first > since.toordinal()]
    if not coming:
        return None
    first, wave = min(coming)
    return Neighbour(wave, date.fromordinal(first))


def left_of(wave: Wave, conditions: Conditions, since: date) -> Left | None:
    """Return what a wave has before it from a day on; None for one cut once or over the winter."""
    if wave.judged.verdict is None or wave.crop.cut_once:
        return None
    colder_by = max(stand.bed.colder_than_site for stand in wave.stands)
    prospects = conditions.prospects(wave.crop, wave.entry.raised, colder_by=colder_by)
    planted = wave.stages.plant
    if wave.done is not None and wave.done.first_pick is not None:
        expected, happened = prospects.judge(planted).stages.first_pick, wave.stages.first_pick
        if expected is not None and happened is not None:
            # What was picked early or late ends so much earlier or later.
            middle = (expected[1].day - expected[0].day) // 2
            late = happened[0].day - (expected[0].day + middle)
            planted = planted.then(late.days, "picking", "as it was first picked", OURS)
    return conditions.climate.waves.left(planted.day, prospects.need_on(planted.day), since)


def _from(span: DateSpan, since: date) -> DateSpan:
    return DateSpan(max(span.first, since), span.last)


def _meets(span: DateSpan | None, other: DateSpan) -> bool:
    return span is not None and span.first <= other.last and other.first <= span.last


def _is_kin(other: Wave, wave: Wave, since: date) -> bool:
    """Whether another wave of the same family stands on a day."""
    if not other.stands:
        return False
    same = family_key(other.crop.family) == family_key(wave.crop.family)
    return same and other.stands_on(since)
