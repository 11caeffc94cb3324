"""A wave dated as it went: what happened in the place of what was planned, the rest counted on."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from sowtide.climate.answers import EndedBy
from sowtide.days import GrowingYear
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.journal import PICKINGS, Did, Happening
from sowtide.garden.model import Entry
from sowtide.reasons import OURS, Dated, Origin
from sowtide.schedule.happened.account import Account
from sowtide.schedule.waves import Judged, Stages, picked_out

_DAY = timedelta(days=1)


def noted(happening: Happening) -> Dated:
    """Return the day of an entry; its line of the journal is where it comes from."""
    return Dated.on(happening.on, "journal", *_noted(happening))


def _noted(happening: Happening) -> tuple[str, Origin]:
    """Return text and origin of a step to the day of an entry."""
    origin = Origin(happening.span.file, happening.span.line)
    return f"{happening.did.value}, as the journal says", origin


def planted_on(planned: Dated, account: Account, entry: Entry) -> Dated:
    """Return the planting day of a wave: as it happened, or as its seedlings allow it.

    Seedlings that were sown late are planted out no earlier than they are ready, and no later than
    they are too old; between the two the planned day stands. Where it does not, the count still
    begins with it, so that the day tells by how much it moved.
    """
    planting = account.planting(entry.raised)
    if planting:
        return noted(planting[0])
    sown, nursery = account.sown, entry.crop.nursery_days
    if sown is None or nursery is None or entry.raised is not Raised.TRAYS:
        return planned
    late, origin = (sown.on - planned.day).days, entry.crop.origin("nursery_days")
    begun = planned.then(late, "journal", *_noted(sown))
    ready = begun.then(nursery.low, "stages", "nursery days, seedlings ready", origin)
    if planned.day < ready.day:
        return ready
    too_old = begun.then(nursery.high, "stages", "nursery days, too old after", origin)
    return too_old if planned.day > too_old.day else planned


def as_it_went(
    judged: Judged,
    account: Account,
    entry: Entry,
    *,
    gone: Happening | None,
    year: GrowingYear,
) -> Judged:
    """Return a planting with every stage that happened on its day, and the later ones counted on.

    Parameters
    ----------
    judged
        The planting judged on the day of `planted_on`.
    account
        What happened to it.
    entry
        The entry that asks for it.
    gone
        What took the last of its plants, or None.
    year
        The growing year.
    """
    stages = _before_picking(judged.stages, account, entry)
    stages, end = _picking(stages, judged, account, entry.crop, gone=gone, year=year)
    return replace(judged, stages=stages, ended_by=end)


def _before_picking(stages: Stages, account: Account, entry: Entry) -> Stages:
    up, hardened = account.first(Did.UP), account.first(Did.HARDENED)
    if up is not None and stages.up is not None:
        stages = replace(stages, up=noted(up))
    if hardened is not None and stages.harden_off is not None:
        stages = replace(stages, harden_off=noted(hardened))
    nursery = entry.crop.nursery_days
    if account.sown is None or stages.ready is None or nursery is None:
        return stages
    begun, origin = noted(account.sown), entry.crop.origin("nursery_days")
    return replace(
        stages,
        sow=begun,
        ready=begun.then(nursery.low, "stages", "seedlings ready", origin),
        too_old=begun.then(nursery.high, "stages", "nursery days, too old after", origin),
    )


def _picking(
    stages: Stages,
    judged: Judged,
    account: Account,
    crop: Crop,
    *,
    gone: Happening | None,
    year: GrowingYear,
) -> tuple[Stages, EndedBy]:
    first, last, pull_out = stages.first_pick, stages.last_pick, stages.pull_out
    ended_by = judged.ended_by
    begun = _first_picked(account, first)
    if begun is not None:
        early = noted(begun)
        first, ended_by = (early, early), EndedBy.PICKED_OUT
        last = picked_out(crop, early, year=year, to_seed=judged.to_seed)
        if judged.end is not None and last.day >= judged.end.day:
            last = judged.end.then(-1, "picking", "nothing is picked on that day", OURS)
            rules = (_ENDS.get(step.rule) for step in judged.end.steps)
            ended_by = next((each for each in rules if each is not None), EndedBy.FROST)
        stages = replace(stages, flower=_flower(stages.flower, early, crop))
    latest = list(account.all_of(*PICKINGS))
    if account.last_pick is not None:
        last, ended_by = noted(account.last_pick), EndedBy.PICKED_OUT
    elif latest and (last is None or latest[-1].on > last.day):
        last = noted(latest[-1])
    if last is not None and last is not stages.last_pick:
        pull_out = last.then(1, "pull-out", "the day after the last pick", OURS)
    if gone is not None:
        if gone.did is Did.LOST or gone.on < pull_out.day:
            ended_by = _END[gone.did]
        pull_out = noted(gone)
        first, last = _until(gone.on, first, last, latest)
        if stages.harden_off is not None and stages.harden_off.day > gone.on:
            stages = replace(stages, harden_off=None)
    return replace(stages, first_pick=first, last_pick=last, pull_out=pull_out), ended_by


def _first_picked(account: Account, planned: tuple[Dated, Dated] | None) -> Happening | None:
    """Return the first picking; one after the planned days is only said to be one if noted as it.

    A grower who notes a picking late in July has most often picked before, and not noted it.
    """
    first = account.first(Did.FIRST_PICKED)
    picked = account.first(*PICKINGS)
    if first is None and picked is not None and (planned is None or picked.on < planned[1].day):
        return picked
    return first


_ENDS = {"too-hot": EndedBy.HEAT, "to-seed": EndedBy.SEED}
"""What ends a wave, by a rule that its end is counted with; frost, where it is none of these."""

_END = {Did.PULLED: EndedBy.PULLED, Did.LOST: EndedBy.LOST}


def _until(
    gone: date,
    first: tuple[Dated, Dated] | None,
    last: Dated | None,
    pickings: list[Happening],
) -> tuple[tuple[Dated, Dated] | None, Dated | None]:
    """Return first and last pick of a wave that was gone on a day.

    It was picked until the day before, or the last picking that is noted on the same day.
    """
    if pickings and pickings[-1].on == gone:
        return first, noted(pickings[-1])
    if first is None or last is None or first[0].day >= gone:
        return None, None
    late = first[1] if first[1].day < gone else first[0]
    if last.day >= gone:
        last = first[0].then((gone - _DAY - first[0].day).days, "picking", "till it was gone", OURS)
    return (first[0], late), last


def _flower(planned: Dated | None, first: Dated, crop: Crop) -> Dated | None:
    if planned is None or crop.flower_to_pick is None:
        return planned
    origin = crop.origin("flower_to_pick")
    return first.then(-crop.flower_to_pick, "stages", "flower to pick", origin)
