"""Does one more wave fit before frost: where, from when to when, and how sure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta

from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.schedule.fits.answer import Answer, Covered, Spot
from sowtide.schedule.fits.instead import what_else
from sowtide.schedule.fits.question import Question
from sowtide.schedule.fits.spots import Spots
from sowtide.schedule.season import Season
from sowtide.schedule.waves import SAFE, Conditions, Judged, Prospects, Wave

WEEKS = 6
"""How many weeks an answer looks ahead, to show what waiting costs. [weeks]"""


def answer(season: Season, question: Question) -> Answer:
    """Say whether one more wave fits into a planned season."""
    last = last_wave(question.crop, season.waves)
    room = Spots(season, question, raised=raised_as(question, last), last=last)
    wanted = question.plants or (None if last is None else last.plants)
    beds = season.garden.beds if question.bed is None else (question.bed,)
    usual = _usual_ground(season, question, last)
    spots = room.spots(beds, wanted, usual=usual)
    ground = _ground_of(spots, usual=usual)
    plants = _most(spots) if wanted is None else wanted
    result = _in_these(spots, season, question, room, plants=plants, ground=ground)
    if result.fits:
        return result

    def room_for(crop: Crop, raised: Raised, day: date) -> Spot | None:
        other = replace(question, crop=crop, plants=None, on=day)
        there = Spots(season, other, raised=raised, last=None)
        spots = there.spots(beds, wanted if crop.sortless == result.crop.sortless else None)
        return next((spot for spot in spots if spot.free_from == day), None)

    def free_bed(first: date, until: date) -> Bed | None:
        best = max(beds, key=lambda bed: room.free(bed, first, until))
        return best if room.free(best, first, until) > 0 else None

    other_beds = tuple(bed for bed in season.garden.beds if bed not in beds)
    return what_else(
        season,
        result,
        elsewhere=room.spots(other_beds, wanted),
        room_for=room_for,
        free_bed=free_bed,
        today=question.on or season.today,
    )


def _in_these(
    spots: tuple[Spot, ...],
    season: Season,
    question: Question,
    room: Spots,
    *,
    plants: int,
    ground: float,
) -> Answer:
    """Say what the beds asked about have room for, and how sure that is on one kind of ground."""
    conditions = season.conditions
    prospects = conditions.prospects(question.crop, room.raised, colder_by=ground)
    asked_on = room.first(prospects)
    judged = prospects.judge_on(asked_on)
    winter = judged.verdict is None
    windows = () if winter else prospects.windows
    frost = None if winter else conditions.climate.waves.frost_end(prospects.need)
    return Answer(
        crop=question.crop,
        raised=room.raised,
        plants=plants,
        asked_on=asked_on,
        day_given=question.on is not None,
        judged=judged,
        earliest=judged.earliest,
        last_safe=windows[-1].last if windows else None,
        windows=windows,
        frost_limit=None if frost is None else frost.day,
        spots=spots,
        instead=(),
        weekly=() if winter else _weekly(asked_on, prospects, conditions),
        cover=None if winter else _covered(season, question, prospects, asked_on),
    )


def _weekly(first: date, prospects: Prospects, conditions: Conditions) -> tuple[Judged, ...]:
    """Judge a planting week after week, to the first after which none comes to anything."""
    year = conditions.year.holding(first)
    days = (first + timedelta(weeks=week) for week in range(WEEKS))
    weeks = [prospects.judge_on(day) for day in days if day in year]
    good = [number for number, judged in enumerate(weeks) if judged.stages.first_pick]
    return tuple(weeks[: good[-1] + 2]) if good else tuple(weeks[:1])


def _covered(season: Season, question: Question, prospects: Prospects, on: date) -> Covered | None:
    """Judge the same planting without a cover, and under the one that is asked about."""
    if question.cover is None:
        return None
    beds = season.garden.beds if question.bed is None else (question.bed,)
    own = next((bed.cover for bed in beds if bed.colder_than_site == prospects.ground), 0.0)
    without, under = (
        season.conditions.prospects(question.crop, prospects.raised, colder_by=ground)
        for ground in (prospects.ground + own, prospects.ground + own - question.cover)
    )
    return Covered(
        buys=question.cover,
        without=without.judge_on(on),
        last_without=without.windows[-1].last if without.windows else None,
        under=under.judge_on(on),
        last_under=under.windows[-1].last if under.windows else None,
        own=own,
    )


def _ground_of(spots: tuple[Spot, ...], *, usual: float) -> float:
    """The ground of the bed that the answer speaks of; the usual one where none is safe. [°C]"""
    safe = (spot.bed.colder_than_site for spot in spots if spot.judged.verdict in SAFE)
    return next(safe, usual)


def _most(spots: tuple[Spot, ...]) -> int:
    """Plants of the bed that takes most, the soonest beds first. [1]"""
    soonest = min((spot.free_from for spot in spots), default=None)
    return max((spot.plants for spot in spots if spot.free_from == soonest), default=1)


def _usual_ground(season: Season, question: Question, last: Wave | None) -> float:
    """How much colder than the site its bed is: the one asked about, else its last wave's. [°C]"""
    if question.bed is not None:
        return question.bed.colder_than_site
    return 0.0 if last is None else season.prospects(last).ground


def best_first(answers: Iterable[Answer], *, asked: str) -> tuple[Answer, ...]:
    """Order the answers for several varieties: those that fit, the one asked for, by odds."""

    def rank(answer: Answer) -> tuple[bool, bool, float]:
        named = answer.crop.name.casefold() == asked.casefold()
        return (not answer.fits, not named, -(answer.judged.odds or 0.0))

    return tuple(sorted(answers, key=rank))


def raised_as(question: Question, last: Wave | None) -> Raised:
    """Return how one more wave would be started: as seedlings, as its last wave was, or direct."""
    crop = question.crop
    if crop.raised is not Raised.EITHER:
        return crop.raised
    if question.seedlings:
        return Raised.TRAYS
    return Raised.DIRECT if last is None else last.entry.raised


def last_wave(crop: Crop, waves: tuple[Wave, ...]) -> Wave | None:
    """Return the crop's last wave of the season, else of another sort; None where it has none."""
    of_crop = [wave for wave in waves if wave.crop.name == crop.name]
    of_any_sort = (wave for wave in waves if wave.crop.sortless == crop.sortless)
    return max(of_crop or of_any_sort, key=lambda wave: wave.stages.plant.day, default=None)
