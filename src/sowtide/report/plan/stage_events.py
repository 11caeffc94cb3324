"""The stages of every wave as events of a calendar."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.garden.crop import Raised
from sowtide.report.events import DayEvent, SeasonEvents
from sowtide.report.kit import words
from sowtide.report.plan.view import PlanView, WaveView
from sowtide.schedule.waves import Status
from sowtide.schedule.work import Kind

_NEAR = timedelta(days=7)
"""How near its last safe day a day must be for it not to be put off."""
_A_DAY = timedelta(days=1)
_OFF = (Status.LOST, Status.SKIPPED, Status.NO_ROOM)


def events(of: PlanView) -> SeasonEvents:
    """Return the days of every wave: sowing, hardening off, planting, first pick, pulling out.

    What is noted as done stands on the day it was done.
    """
    setting = of.setting
    assert setting.today is not None  # a plan is looked at from a day
    found = sorted(
        (event for wave in of.waves for event in _of(wave, of)),
        key=lambda event: (event.first, event.key),
    )
    return SeasonEvents(setting.name, of.season, setting.today, tuple(found))


def _of(wave: WaveView, plan: PlanView) -> Iterator[DayEvent]:
    done, from_trays = wave.done, wave.asked.raised is Raised.TRAYS
    must = wave.last_safe is not None and wave.plant <= wave.last_safe <= wave.plant + _NEAR
    plants = words.count(wave.plants, "plant")
    judged = _judged(wave)
    if from_trays:
        out = f"{plants}, out on {words.day(wave.plant, plan.setting.year)}"
        yield _event(wave, Kind.SOW_IN_TRAYS, done.sow or wave.sow, out, must=must, place="")
        if wave.harden_off is not None:
            first = done.harden_off or wave.harden_off
            beyond = max(wave.plant, first + _A_DAY)
            yield _event(wave, Kind.HARDEN_OFF, first, plants, beyond=beyond, place="")
    for bed in wave.beds:
        kind = Kind.PLANT_OUT if from_trays else Kind.SOW
        said = f"{words.count(bed.plants, 'plant')}. {judged}"
        day = done.plant or done.sow or wave.plant if not from_trays else done.plant or wave.plant
        yield _event(wave, kind, day, said, must=must, place=bed.bed, split=len(wave.beds) > 1)
    if not wave.beds:
        kind = Kind.PLANT_OUT if from_trays else Kind.SOW
        yield _event(wave, kind, wave.plant, "No bed has room for it.", place="")
    place = ", ".join(bed.bed for bed in wave.beds)
    if wave.first_pick is not None and wave.last_pick is not None:
        early, late = wave.first_pick
        until = f"Picked until {words.day(wave.last_pick, plan.setting.year)}. {judged}"
        first = done.first_pick or early
        beyond = first + _A_DAY if done.first_pick else late + _A_DAY
        yield _event(wave, Kind.PICK, first, until, beyond=beyond, place=place)
    yield _event(wave, Kind.PULL, done.pull_out or wave.pull_out, plants, place=place)


def _judged(wave: WaveView) -> str:
    said, _ = words.verdict(wave.verdict)
    odds = "" if wave.odds is None else f", {words.odds_of(wave.judged)}"
    return f"{words.sentence(said + odds)} Odds, not promises."


def _event(
    wave: WaveView,
    kind: Kind,
    first: date,
    said: str,
    *,
    place: str,
    beyond: date | None = None,
    must: bool = False,
    split: bool = False,
) -> DayEvent:
    key = f"{wave.id}:{kind.value}"
    title = "first pick" if kind is Kind.PICK else kind.value
    return DayEvent(
        key=f"{key}:{place}" if split else key,
        first=first,
        beyond=first + _A_DAY if beyond is None else beyond,
        kind=kind.value,
        title=f"{title} {wave.id}",
        place=place,
        words=said,
        must=must,
        is_off=wave.status in _OFF,
    )
