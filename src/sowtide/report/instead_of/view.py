"""Keep a wave or pull it for another crop: the numbers on both sides."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from sowtide.climate.answers import Left
from sowtide.climate.basis import Basis
from sowtide.days import DateSpan
from sowtide.garden.crop import Raised
from sowtide.report.kinds import Beside, FromTo, Mean, Quantity, Share, Unsaid
from sowtide.report.kit.judged import day_of
from sowtide.report.kit.seedlings import ToRaise, to_raise
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.kit.spots import BesideIt, SpotView, beside_it, spot_view
from sowtide.report.kit.stands import BedPlants, bed_plants
from sowtide.schedule.fits import Weighing
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.garden.journal import Happening
    from sowtide.schedule.happened import WaveKnown


@value
class WaveKept:
    """What the wave still has before it; None for a crop cut once and over the winter."""

    last_pick: date | None
    picking_days_left: Mean | None
    odds: Share | None


@value
class InItsPlace:
    """The other crop, in the space that the wave leaves."""

    crop: str
    spot: Beside[SpotView]
    cut_once: Unsaid[bool]


@value
class KinStanding:
    """A wave of the same family, and where it stands."""

    wave: str
    beds: tuple[BedPlants, ...]


@value
class PickedView:
    """A picking: its day, how much, and in which unit; null for pieces."""

    on: date
    amount: Quantity
    unit: str | None


@value
class ScoutedView:
    """What was found on a day, and what was noted beside it."""

    on: date
    found: str
    note: str | None


@value
class KnownView:
    """What the journal knows of the wave: last pickings, the best one, and what was scouted."""

    pickings: tuple[PickedView, ...]
    best: PickedView | None
    scouted: tuple[ScoutedView, ...]


@value
class InsteadOfView:
    """What ``fits --instead-of`` says."""

    wave: str
    on: date
    basis: Basis
    keep: WaveKept
    replace: InItsPlace | None
    not_picked: tuple[FromTo, ...]
    same_crop: tuple[str, ...]
    same_family: tuple[str, ...]
    rotation: str | None
    known: KnownView | None
    is_kin: Unsaid[bool]
    plants: Unsaid[int]
    beds: Unsaid[tuple[BedPlants, ...]]
    planted: Unsaid[date]
    crop: Unsaid[str]
    family: Unsaid[str]
    left: Unsaid[Left | None]
    ahead: Unsaid[DateSpan | None]
    cut_once: Unsaid[bool]
    kin: Unsaid[tuple[KinStanding, ...]]
    instead: Unsaid[str]
    title: Unsaid[str]
    raised: Unsaid[Raised]
    asked_on: Unsaid[date]
    comes: Unsaid[BesideIt | None]
    seedlings: Unsaid[ToRaise | None]
    setting: Unsaid[Setting]


def _days_left(found: Weighing) -> float | None:
    """Return how long the wave would still be picked; over the winter, by the plan's own days."""
    if found.left is not None:
        return found.left.days
    return None if found.wave.crop.cut_once or found.ahead is None else found.ahead.length


def view(found: Weighing, season: Season) -> InsteadOfView:
    """Return what speaks for keeping a wave of a season and for another crop in its place."""
    wave, answer, left = found.wave, found.answer, found.left
    spot = answer.spots[0] if answer.spots else None
    return InsteadOfView(
        wave=wave.id,
        on=found.since,
        basis=season.climate.basis,
        keep=WaveKept(
            last_pick=day_of(wave.stages.last_pick),
            picking_days_left=_days_left(found),
            odds=None if left is None else left.odds,
        ),
        replace=None
        if spot is None
        else InItsPlace(answer.crop.name, spot_view(spot, answer.crop), answer.crop.cut_once),
        not_picked=tuple(map(FromTo.of, found.gaps)),
        same_crop=tuple(each.id for each in found.others),
        same_family=tuple(each.id for each in found.family),
        rotation=found.rotation,
        known=None if found.known is None else _known(found.known),
        is_kin=answer.crop.family == wave.crop.family,
        plants=wave.plants,
        beds=bed_plants(wave.stands),
        planted=wave.stages.plant.day,
        crop=wave.crop.name,
        family=wave.crop.family,
        left=left,
        ahead=found.ahead,
        cut_once=wave.crop.cut_once,
        kin=tuple(map(_kin, found.family)),
        instead=answer.crop.name,
        title=answer.crop.title,
        raised=answer.raised,
        asked_on=answer.asked_on,
        comes=beside_it(found.comes),
        seedlings=None
        if spot is None
        else to_raise(answer.crop, answer.raised, spot.judged.stages.sow.day, today=season.today),
        setting=setting_of(season.garden, season.today),
    )


def _known(of: WaveKnown) -> KnownView:
    return KnownView(
        pickings=tuple(map(_picked, of.pickings)),
        best=None if of.best is None else _picked(of.best),
        scouted=tuple(
            ScoutedView(each.on, each.found.value, each.note) for each in of.scouted if each.found
        ),
    )


def _picked(of: Happening) -> PickedView:
    assert of.amount is not None  # only such are told
    return PickedView(of.on, float(of.amount.number), of.amount.unit or None)


def _kin(wave: Wave) -> KinStanding:
    return KinStanding(wave.id, bed_plants(wave.stands))
