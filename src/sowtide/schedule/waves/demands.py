"""What a crop needs of a place, from the numbers of the crop."""

from __future__ import annotations

from sowtide.climate.answers import FruitSet, Green, Need, Response, Warmth
from sowtide.climate.soil import HOT_WEEKS
from sowtide.days import DayRange
from sowtide.garden.crop import AfterFrost, CountedFrom, Crop, HeatMethod, Raised, Weather
from sowtide.reasons import OURS, Origin
from sowtide.units import celsius

BASE = {Weather.COOL: celsius(40), Weather.WARM: celsius(50)}
"""Where heat begins to count for a crop that states heat without base: pea's and bean's. [°C]"""

CURVES = {Weather.COOL: (0.0, (18.0, 28.0), 45.0), Weather.WARM: (5.0, (24.0, 31.0), 44.0)}
"""Base, best range and ceiling of growth of other crops: those of cabbage and bean. [°C]"""

RATED_AT = {Weather.COOL: celsius(60), Weather.WARM: celsius(70)}
"""Where the days to harvest are right for a crop that does not say: sowtide's own choice. [°C]"""

_FLOOR = 85  # of a hundred


def need_of(crop: Crop, raised: Raised, *, colder_by: float, by_frost_alone: bool = False) -> Need:
    """Return what one planting of a crop needs.

    Parameters
    ----------
    crop
        The crop.
    raised
        Direct or trays.
    colder_by
        How much colder the ground is than the site's frost dates; negative under a cover. [°C]
    by_frost_alone
        Whether no temperatures are known. Then nobody knows when it stops growing, and that is
        taken to be the frost of its hardiness, whatever a built-in crop stands once hardened; nor
        how hot it gets beyond the weeks that are too hot for most.
    """
    days, text, origin = _days_in_bed(crop, raised)
    if crop.learned is not None:
        packet, pickings = crop.learned.packet, crop.learned.pickings
        text = f"{text} by {pickings} pickings of yours (packet {packet})"
    cool = crop.weather is Weather.COOL
    limit = crop.warm_limit if cool else None
    written = limit is None or limit <= HOT_WEEKS or crop.origin("warm_limit").file is not None
    if by_frost_alone and not written:
        limit = None
    killed_at = crop.killing_temperature
    class_alone = by_frost_alone and crop.origin("killed_at").file is None
    if class_alone:
        killed_at = crop.hardiness.killed_at
    return Need(
        days=days,
        days_text=text,
        days_origin=origin,
        cool=cool,
        picking=crop.picking_days,
        worthwhile=crop.worthwhile_days,
        killed_at=round(killed_at + colder_by, 6),
        after_frost=crop.after_frost,
        heat_ends=limit is not None and crop.after_frost is not AfterFrost.BRING_IN,
        holds_in_heat=crop.holding_days.low if crop.cut_once and crop.holding_days else 0,
        warmth=_warmth(crop, days),
        warm_limit=limit,
        minds_written=written,
        fruit_set=_fruit_set(crop),
        thaws=crop.pulled_again,
        green=None if class_alone else _green(crop, colder_by),
    )


def _green(crop: Crop, colder_by: float) -> Green | None:
    """What it stands before it flowers, where its flowers stand less; None where they do not."""
    ripens, at = crop.flower_to_pick, crop.plants_killed_at
    if ripens is None or crop.after_frost is not AfterFrost.ENDS or at >= crop.killing_temperature:
        return None
    return Green(round(at + colder_by, 6), ripens)


def _fruit_set(crop: Crop) -> FruitSet | None:
    """The heat in which its flowers drop, where that and the days from flower to pick are known."""
    high, low, ripens = crop.fruit_set_high, crop.fruit_set_low, crop.flower_to_pick
    if ripens is None or (high is None and low is None):
        return None
    return FruitSet(high, low, ripens)


def _warmth(crop: Crop, days: DayRange) -> Warmth:
    """The heat that the grower states for the crop, else its days by the curve of its growth.

    What comes from days never takes less than 0.85 of them (sowtide's own rule).
    """
    heat, parts, least = crop.heat, days.high - days.low + 1, -(-days.low * _FLOOR // 100)
    rated = RATED_AT[crop.weather] if crop.rated_at is None else crop.rated_at
    if crop.origin("heat").file is None:
        response = _response(crop, rated)
        return Warmth(
            base=response.base,
            upper=None,
            method=HeatMethod.AVERAGE,
            low=days.low,
            high=days.high,
            parts=parts,
            least=least,
            response=response,
        )
    base = BASE[crop.weather] if heat.base is None else heat.base
    if heat.units is not None and heat.method is not None:
        method, low, high, least = heat.method, float(heat.units.low), float(heat.units.high), 1
    else:
        a_day = (rated if heat.upper is None else min(rated, heat.upper)) - base
        method, low, high = HeatMethod.CLIP, days.low * a_day, days.high * a_day
    return Warmth(
        base=base,
        upper=heat.upper,
        method=method,
        low=low,
        high=high,
        parts=parts,
        least=least,
    )


def _response(crop: Crop, rated: float) -> Response:
    """How its growth answers temperature, by a curve of its own or by that of crops like it."""
    base, best, ceiling = CURVES[crop.weather]
    if crop.curve_base is not None and crop.curve_best and crop.curve_ceiling is not None:
        base, best, ceiling = crop.curve_base, crop.curve_best, crop.curve_ceiling
    return Response(
        base=base,
        best_from=best[0],
        best_to=best[1],
        ceiling=ceiling,
        rated=rated,
        light=crop.light,
    )


def _days_in_bed(crop: Crop, raised: Raised) -> tuple[DayRange, str, Origin]:
    """Days from the planting day to the first pick, what they are and where they come from."""
    days, origin = crop.days_of_sort, crop.origin("days_to_harvest")
    days_text = "days to harvest"
    if days != crop.days_to_harvest:
        days_text += f" of {crop.sort.value} sorts"
    nursery = crop.nursery_days
    if raised is Raised.TRAYS and crop.counted_from is CountedFrom.SOWING and nursery:
        ahead = round(nursery.low * crop.nursery_share)
        low = max(days.low - ahead, 1)
        left = DayRange(low, max(days.high - ahead, low))
        text = f"{days_text}, {ahead} of them spent in trays"
        if ahead < nursery.low:
            text = f"{days_text}, {ahead} less for {nursery.low} in trays"
        return left, text, origin
    direct_of_either = raised is Raised.DIRECT and crop.raised is Raised.EITHER
    if direct_of_either and crop.counted_from is CountedFrom.PLANTING_OUT and nursery:
        half = (nursery.low + 1) // 2
        text = f"{days_text}, {half} more for sowing direct (half the nursery days, estimate)"
        return days.plus(half), text, OURS
    return days, days_text, origin
