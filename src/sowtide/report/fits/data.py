"""The answer to "does one more wave fit before frost?" for other programs."""

from __future__ import annotations

from sowtide.report.formats.json import Object, written
from sowtide.report.kit.machine import basis_of, iso, number_value, on, problem_of, share_value
from sowtide.schedule.fits import (
    Answer,
    BedAnswer,
    Covered,
    Instead,
    Neighbour,
    Spot,
    StillFits,
    Weighing,
)
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Judged


def fits_json(answers: tuple[Answer, ...], season: Season) -> str:
    """Write the best answer; where a crop has several varieties, all of them beside it."""
    best: Object = _answer(answers[0], season)
    crops = {answer.crop.name for answer in answers}
    waves = {wave.id for wave in season.waves if wave.crop.name in crops}
    best["problems"] = [
        problem_of(each) for each in season.problems if each.wave is None or each.wave in waves
    ]
    if len(answers) > 1:
        best["varieties"] = [_answer(answer, season) for answer in answers]
    return written(best)


def fits_bed_json(answer: BedAnswer, season: Season) -> str:
    """Write every crop that still fits into a bed, the safe ones first."""
    return written(
        {
            "bed": answer.bed.name,
            "on": iso(answer.asked_on),
            "basis": basis_of(season.climate),
            "crops": [_still_fits(each) for each in (*answer.safe, *answer.chancy)],
            "closed_by_rotation": list(answer.closed),
            "cover_crops": [_instead(each) for each in answer.covers],
        }
    )


def instead_of_json(found: Weighing, season: Season) -> str:
    """Write what speaks for keeping a wave and for another crop in its place."""
    spots, left = found.answer.spots, found.left
    return written(
        {
            "wave": found.wave.id,
            "on": iso(found.since),
            "basis": basis_of(season.climate),
            "keep": {
                "last_pick": on(found.wave.stages.last_pick),
                "picking_days_left": None if left is None else number_value(left.days, 1),
                "odds": None if left is None else share_value(left.odds),
            },
            "replace": {"crop": found.answer.crop.name, **_spot(spots[0])} if spots else None,
            "not_picked": [{"from": iso(gap.first), "to": iso(gap.last)} for gap in found.gaps],
            "same_crop": [wave.id for wave in found.others],
            "same_family": [wave.id for wave in found.family],
            "rotation": found.rotation,
        }
    )


def _still_fits(of: StillFits) -> Object:
    return {
        "crop": of.crop.name,
        "variety": of.crop.variety,
        "raised": of.raised.value,
        "free_until": iso(of.spot.free_until),
        **_spot(of.spot),
    }


def _answer(answer: Answer, season: Season) -> Object:
    judged = answer.judged
    return {
        "crop": answer.crop.name,
        "variety": answer.crop.variety,
        "plants": answer.plants,
        "basis": basis_of(season.climate),
        "earliest_planting": iso(answer.earliest),
        "last_safe_planting": iso(answer.last_safe),
        "windows": [{"from": iso(span.first), "to": iso(span.last)} for span in answer.windows],
        "frost_limit": iso(answer.frost_limit),
        "verdict": answer.verdict.value if answer.verdict else None,
        "odds": share_value(judged.odds),
        "expected_picking_days": number_value(judged.expected_picking_days, 1),
        "odds_of_nothing": share_value(judged.odds_of_nothing),
        "places": [_spot(spot) for spot in answer.spots],
        "instead": [_instead(other) for other in answer.instead],
        "by_date": [_by_date(judged) for judged in answer.weekly],
        "cover": None if answer.cover is None else _covered(answer.cover),
    }


def _spot(spot: Spot) -> Object:
    stages = spot.judged.stages
    first = stages.first_pick
    return {
        "bed": spot.bed.name,
        "free_from": iso(spot.free_from),
        "after": _neighbour(spot.after),
        "before": _neighbour(spot.before),
        "sow": iso(stages.sow.day),
        "plant": iso(stages.plant.day),
        "first_pick": [on(first[0]), on(first[1])] if first else None,
        "last_pick": on(stages.last_pick),
        "odds": share_value(spot.judged.odds),
        "verdict": spot.judged.verdict.value if spot.judged.verdict else None,
        "plants": spot.plants,
    }


def _covered(cover: Covered) -> Object:
    return {
        "buys_c": round(cover.buys, 1),
        "earliest_planting": iso(cover.under.earliest),
        "last_safe_planting": iso(cover.last_under),
        **_by_date(cover.under),
    }


def _neighbour(of: Neighbour | None) -> Object | None:
    return None if of is None else {"wave": of.wave, "date": iso(of.day)}


def _by_date(judged: Judged) -> Object:
    first = judged.stages.first_pick
    return {
        "plant": iso(judged.stages.plant.day),
        "first_pick": [on(first[0]), on(first[1])] if first else None,
        "expected_picking_days": number_value(judged.expected_picking_days, 1),
        "odds": share_value(judged.odds),
        "verdict": judged.verdict.value if judged.verdict else None,
    }


def _instead(other: Instead) -> Object:
    return {
        "what": other.what.value,
        "text": other.text,
        "plant": iso(other.plant),
        "odds": share_value(other.odds),
    }
