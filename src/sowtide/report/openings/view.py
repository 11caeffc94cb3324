"""What comes free in the beds, what fits there, and what to start for it now."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from sowtide.climate.basis import Basis
from sowtide.garden.crop import Raised
from sowtide.report.kinds import Share, SquareMetres, Unsaid
from sowtide.report.kit.judged import Judgement, judgement_of
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.kit.stands import StartView, start_view
from sowtide.schedule.openings import BedOpening, ComingFree, KeptOut, Offer
from sowtide.schedule.season import Season
from sowtide.units import SQUARE_METRE
from sowtide.values import value

_OF_SPACE = ("bed", "from", "until", "area_m2", "leaves")
_OF_CROP = (
    *("crop", "plants", "raised", "sow", "plant", "first_pick_early", "first_pick_late", "odds"),
    "start_now",
)
COLUMNS = (*_OF_SPACE, *_OF_CROP)


@value
class OfferView:
    """A crop that would fill an opening and be safe there."""

    crop: str
    plants: int
    raised: Raised
    sow: date
    plant: date
    first_pick: tuple[date, date] | None
    odds: Share | None
    title: Unsaid[str]
    judged: Unsaid[Judgement]


@value
class KeptOutView:
    """A crop that would be safe in a space, and the planned waves that it would be in the way of.

    Where there are none, rotation keeps it out.
    """

    crop: str
    raised: Raised
    in_the_way_of: tuple[str, ...]
    title: Unsaid[str]


@value
class OpeningView:
    """A space: its days, how much it is, the waves that leave it, and what would be safe there.

    Where nothing fits, `kept_out` is what would be safe but for rotation or the plan; `starts` is
    what to sow in trays now for it.
    """

    bed: str
    from_: date
    until: date | None
    area_m2: SquareMetres
    leaves: tuple[str, ...]
    fits: tuple[OfferView, ...]
    kept_out: KeptOutView | None
    starts: Unsaid[tuple[OfferView, ...]]
    area: Unsaid[int]


@value
class OpeningsView:
    """What ``fits`` says without a crop."""

    from_: date
    to: date
    basis: Basis
    openings: tuple[OpeningView, ...]
    start_now: tuple[StartView, ...]
    setting: Unsaid[Setting]


def view(found: ComingFree, season: Season) -> OpeningsView:
    """Return what comes free in the beds of a season."""
    return OpeningsView(
        from_=found.asked_on,
        to=found.last,
        basis=season.climate.basis,
        openings=tuple(_opening(each, found) for each in found.openings),
        start_now=tuple(start_view(each) for each in found.start_now),
        setting=setting_of(season.garden),
    )


def _opening(of: BedOpening, found: ComingFree) -> OpeningView:
    return OpeningView(
        bed=of.bed.name,
        from_=of.first,
        until=of.until,
        area_m2=of.area / SQUARE_METRE,
        leaves=of.leaves,
        fits=tuple(_offer(each) for each in of.fits),
        kept_out=None if of.kept_out is None else _kept_out(of.kept_out),
        starts=tuple(_offer(each.offer) for each in found.start_now if each.opening is of),
        area=of.area,
    )


def _kept_out(of: KeptOut) -> KeptOutView:
    return KeptOutView(of.crop.name, of.raised, of.in_the_way_of, of.crop.title)


def _offer(of: Offer) -> OfferView:
    judged = judgement_of(of.judged, of.crop)
    return OfferView(
        crop=of.crop.name,
        plants=of.plants,
        raised=of.raised,
        sow=of.sow,
        plant=of.judged.stages.plant.day,
        first_pick=judged.first_pick,
        odds=judged.odds,
        title=of.crop.title,
        judged=judged,
    )


def rows(of: OpeningsView) -> Iterator[Mapping[str, Any]]:
    """Yield a row for each crop that would fill an opening, or for an opening that none fills."""
    for each in of.openings:
        space = {name: getattr(each, name, None) for name in _OF_SPACE}
        space |= {"from": each.from_, "leaves": "; ".join(each.leaves)}
        space["area_m2"] = round(each.area_m2, 2)
        offers = (*each.fits, *(offer for offer in each.starts if offer not in each.fits))
        for offer in offers:
            yield space | _row(offer, starts=offer in each.starts)
        if not offers:
            yield space | dict.fromkeys(_OF_CROP)


def _row(of: OfferView, *, starts: bool) -> dict[str, Any]:
    early, late = of.first_pick or (None, None)
    return {name: getattr(of, name, None) for name in _OF_CROP} | {
        "first_pick_early": early,
        "first_pick_late": late,
        "odds": None if of.odds is None else round(of.odds, 3),
        "start_now": starts,
    }
