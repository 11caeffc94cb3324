"""What a crop needs of a place, from the numbers of the crop."""

from __future__ import annotations

from sowtide.climate.outlook import Need
from sowtide.days import DayRange
from sowtide.garden.crop import CountedFrom, Crop, Raised, Weather
from sowtide.reasons import OURS, Origin


def need_of(crop: Crop, raised: Raised, *, colder_by: float) -> Need:
    """Return what one planting of a crop needs.

    Parameters
    ----------
    crop
        The crop.
    raised
        Direct or trays.
    colder_by
        How much colder the ground is than the site's frost dates; negative under a cover. [°C]
    """
    days, text, origin = _days_in_bed(crop, raised)
    cool = crop.weather is Weather.COOL
    return Need(
        days,
        text,
        origin,
        cool,
        crop.picking_days,
        crop.worthwhile_days,
        round(crop.hardiness.killed_at + colder_by, 6),
        crop.after_frost,
        cool and crop.warm_limit is not None,
        crop.holding_days.low if crop.cut_once and crop.holding_days else 0,
    )


def _days_in_bed(crop: Crop, raised: Raised) -> tuple[DayRange, str, Origin]:
    """Days from the planting day to the first pick, what they are and where they come from."""
    days, origin = crop.days_to_harvest, crop.origin("days_to_harvest")
    nursery = crop.nursery_days
    if raised is Raised.TRAYS and crop.counted_from is CountedFrom.SOWING and nursery:
        low = max(days.low - nursery.low, 1)
        left = DayRange(low, max(days.high - nursery.low, low))
        return left, f"days to harvest, {nursery.low} of them spent in trays", origin
    direct_of_either = raised is Raised.DIRECT and crop.raised is Raised.EITHER
    if direct_of_either and crop.counted_from is CountedFrom.PLANTING_OUT and nursery:
        half = (nursery.low + 1) // 2
        text = f"days to harvest, {half} more for sowing direct (half the nursery days, estimate)"
        return days.plus(half), text, OURS
    return days, "days to harvest", origin
