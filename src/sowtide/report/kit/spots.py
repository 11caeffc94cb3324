"""Beds with room for one more wave, and what it would bring there on its day."""

from __future__ import annotations

from datetime import date
from typing import Any

from sowtide.days import GrowingYear
from sowtide.garden.crop import Crop
from sowtide.report.blocks import Span
from sowtide.report.kinds import Mean, Share, Unsaid
from sowtide.report.kit import words
from sowtide.report.kit.judged import Judgement, day_of, judgement_of
from sowtide.schedule.fits import Neighbour, Spot
from sowtide.schedule.waves import SAFE, Judged, Verdict
from sowtide.values import value

SPOT_COLUMNS = (
    *("bed", "plants", "free_from", "sow", "plant", "first_pick_early", "first_pick_late"),
    *("last_pick", "odds", "verdict"),
)
"""What a row says of a bed with room."""

GOOD = (*SAFE, None)
"""Verdicts that speak against no planting; a wave over the winter has none."""


@value
class BesideIt:
    """What stands in a bed before or after; no wave for the grower's own use of the bed."""

    wave: str | None
    date: date


@value
class SpotView:
    """A bed with room, from when on, and what a wave planted there that day brings."""

    bed: str
    free_from: date
    after: BesideIt | None
    before: BesideIt | None
    sow: date
    plant: date
    first_pick: tuple[date, date] | None
    last_pick: date | None
    odds: Share | None
    verdict: Verdict | None
    plants: int
    until: Unsaid[date]
    judged: Unsaid[Judgement]


@value
class PlantedOn:
    """What a wave planted on a day brings."""

    plant: date
    first_pick: tuple[date, date] | None
    expected_picking_days: Mean | None
    odds: Share | None
    verdict: Verdict | None
    judged: Unsaid[Judgement]


def spot_view(of: Spot, crop: Crop) -> SpotView:
    """Return a bed with room for a wave of a crop."""
    stages, judged = of.judged.stages, judgement_of(of.judged, crop)
    return SpotView(
        bed=of.bed.name,
        free_from=of.free_from,
        after=beside_it(of.after),
        before=beside_it(of.before),
        sow=stages.sow.day,
        plant=stages.plant.day,
        first_pick=judged.first_pick,
        last_pick=day_of(stages.last_pick),
        odds=judged.odds,
        verdict=judged.verdict,
        plants=of.plants,
        until=max(of.free_until or of.free_from, of.free_from),
        judged=judged,
    )


def spot_row(of: SpotView) -> dict[str, Any]:
    """Return a bed with room as a row of `SPOT_COLUMNS`."""
    early, late = of.first_pick or (None, None)
    return {name: getattr(of, name, None) for name in SPOT_COLUMNS} | {
        "first_pick_early": early,
        "first_pick_late": late,
        "odds": None if of.odds is None else round(of.odds, 3),
    }


def beside_it(of: Neighbour | None) -> BesideIt | None:
    """Return what stands there before or after."""
    return None if of is None else BesideIt(of.wave, of.day)


def planted_on(of: Judged, crop: Crop) -> PlantedOn:
    """Return what a wave of a crop brings that is planted on its day."""
    judged = judgement_of(of, crop)
    return PlantedOn(
        plant=of.stages.plant.day,
        first_pick=judged.first_pick,
        expected_picking_days=judged.expected_picking_days,
        odds=judged.odds,
        verdict=judged.verdict,
        judged=judged,
    )


def first_picks(judged: Judgement, year: GrowingYear) -> str:
    """Say when the first pick is, in a table."""
    if judged.first_pick is None:
        return "not known" if judged.verdict is None else "nothing"
    return words.days_from_to(*judged.first_pick, year)


def odds_title(judged: Judgement) -> str:
    """Say over a column of odds what they are of."""
    return "in 100" if judged.years is None else "years"


def odds_and_verdict(judged: Judgement) -> tuple[str, Span]:
    """Say the odds and the verdict, for two columns of a table."""
    return words.odds_cell(judged), words.verdict(judged.verdict)
