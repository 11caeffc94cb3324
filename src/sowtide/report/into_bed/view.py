"""What still fits into a bed: the crops that would be safe, those that are chancy, and the rest."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from sowtide.climate.basis import Basis
from sowtide.garden.crop import Raised
from sowtide.garden.model import Garden
from sowtide.report.kinds import Beside, Unsaid
from sowtide.report.kit.alternatives import Alternative, alternatives
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.kit.spots import SPOT_COLUMNS, SpotView, spot_row, spot_view
from sowtide.schedule.fits import BedAnswer, StillFits
from sowtide.schedule.season import Season
from sowtide.schedule.work import away_at_first_pick
from sowtide.values import value

_AWAY = ("away_when_planted", "away_when_picked")
COLUMNS = ("crop", "variety", "raised", *SPOT_COLUMNS, "free_until", *_AWAY)


@value
class CropThere:
    """A crop that still fits, and until when it could be planted there.

    Nobody may be there on its planting day, or when its first pick cannot wait.
    """

    crop: str
    variety: str | None
    raised: Raised
    free_until: date | None
    away_when_planted: bool
    away_when_picked: bool
    spot: Beside[SpotView]
    title: Unsaid[str]


@value
class IntoBedView:
    """What ``fits --bed`` says: crops, the safe ones first, what rotation closes, covers."""

    bed: str
    on: date
    basis: Basis
    crops: tuple[CropThere, ...]
    closed_by_rotation: tuple[str, ...]
    cover_crops: tuple[Alternative, ...]
    safe: Unsaid[tuple[CropThere, ...]]
    chancy: Unsaid[tuple[CropThere, ...]]
    setting: Unsaid[Setting]


def view(answer: BedAnswer, season: Season) -> IntoBedView:
    """Return what still fits into a bed of a season."""
    garden = season.garden
    safe = tuple(_there(each, garden) for each in answer.safe)
    chancy = tuple(_there(each, garden) for each in answer.chancy)
    return IntoBedView(
        bed=answer.bed.name,
        on=answer.asked_on,
        basis=season.climate.basis,
        crops=(*safe, *chancy),
        closed_by_rotation=answer.closed,
        cover_crops=alternatives(answer.covers),
        safe=safe,
        chancy=chancy,
        setting=setting_of(garden, season.today),
    )


def _there(of: StillFits, garden: Garden) -> CropThere:
    stages = of.spot.judged.stages
    return CropThere(
        crop=of.crop.name,
        variety=of.crop.variety,
        raised=of.raised,
        free_until=of.spot.free_until,
        away_when_planted=any(of.spot.free_from in span for span in garden.away),
        away_when_picked=away_at_first_pick(garden, of.crop, stages) is not None,
        spot=spot_view(of.spot, of.crop),
        title=of.crop.title,
    )


def rows(of: IntoBedView) -> Iterator[Mapping[str, Any]]:
    """Yield a row for each crop that still fits."""
    for each in of.crops:
        which = {"crop": each.crop, "variety": each.variety, "raised": each.raised}
        away = {name: getattr(each, name) for name in _AWAY}
        yield which | spot_row(each.spot) | {"free_until": each.free_until} | away
