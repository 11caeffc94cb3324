"""Whether one more wave of a crop fits before frost: where, from when to when, and how sure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from sowtide.climate.basis import Basis
from sowtide.garden.crop import AfterFrost, Raised
from sowtide.report.kinds import Beside, Celsius, FromTo, Mean, Share, Unsaid
from sowtide.report.kit.alternatives import Alternative, alternatives
from sowtide.report.kit.faults import ProblemView, problem_views
from sowtide.report.kit.judged import Judgement, judgement_of
from sowtide.report.kit.seedlings import ToRaise, to_raise
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.kit.spots import (
    SPOT_COLUMNS,
    PlantedOn,
    SpotView,
    planted_on,
    spot_row,
    spot_view,
)
from sowtide.schedule.fits import Answer, Covered
from sowtide.schedule.season import Season
from sowtide.schedule.waves import HeatHarm, Verdict, doubt_of, seed_in_doubt
from sowtide.values import value

COLUMNS = ("crop", "variety", "raised", *SPOT_COLUMNS)


@value
class CoverView:
    """The same planting under a cover, and without any."""

    buys_c: Celsius
    earliest_planting: date
    last_safe_planting: date | None
    under: Beside[PlantedOn]
    earliest_without: Unsaid[date]
    last_without: Unsaid[date | None]
    without: Unsaid[Judgement]
    own: Unsaid[float]


@value
class AnswerView:
    """The answer for a crop or one of its varieties."""

    crop: str
    variety: str | None
    plants: int
    basis: Basis
    earliest_planting: date
    last_safe_planting: date | None
    windows: tuple[FromTo, ...]
    """The runs of safe days."""
    frost_limit: date | None
    verdict: Verdict | None
    odds: Share | None
    expected_picking_days: Mean | None
    odds_of_nothing: Share | None
    spring_loss: Share
    places: tuple[SpotView, ...]
    """The beds with room, best first."""
    instead: tuple[Alternative, ...]
    by_date: tuple[PlantedOn, ...]
    """The same planting on the day asked about and in the weeks after it."""
    cover: CoverView | None
    on: date
    raised: Raised
    title: Unsaid[str]
    """What the crop is called in a sentence."""
    judged: Unsaid[Judgement]
    """The wave on the day asked about."""
    heat: Unsaid[HeatHarm | None]
    """What heat does to it, where it is too hot, or too hot in some years and safe again later."""
    good: Unsaid[tuple[SpotView, ...]]
    """The beds that take it on one safe day."""
    whole: Unsaid[SpotView | None]
    """The bed that takes all of it at some risk."""
    planted: Unsaid[PlantedOn]
    """The wave that is spoken of: in the first good bed, else on the day asked about."""
    fits: Unsaid[bool]
    """Whether all its plants have room in the good beds."""
    seedlings: Unsaid[ToRaise | None]
    """Of the wave spoken of; None where it is sown direct."""
    seed: Unsaid[str | None]
    """How likely its seed is to come up on that day, in words; None where that is no question."""
    stands_after_frost: Unsaid[bool]
    knows_ground: Unsaid[bool]
    """Whether it is known when the ground freezes."""
    pulled_again: Unsaid[bool]
    """Whether it is pulled again when frozen ground thaws."""
    cut_once: Unsaid[bool]


@value
class FitsView:
    """What ``fits CROP`` says: the best answer, and beside it those of all its varieties."""

    best: Beside[AnswerView]
    problems: tuple[ProblemView, ...]
    varieties: tuple[AnswerView, ...] | None
    asked: Unsaid[str]
    hot_weeks: Unsaid[FromTo | None]
    setting: Unsaid[Setting]


def view(answers: tuple[Answer, ...], season: Season, *, asked: str = "") -> FitsView:
    """Return whether one more wave fits into a season.

    Parameters
    ----------
    answers
        One for each variety of the crop, at least one, best first.
    season
        The season it would join.
    asked
        The name that was asked for.
    """
    found = tuple(_answer(each, season) for each in answers)
    crops = {each.crop for each in found}
    waves = {wave.id for wave in season.waves if wave.crop.name in crops}
    problems = [each for each in season.problems if each.wave is None or each.wave in waves]
    hot = season.climate.weather.hot_weeks
    return FitsView(
        best=found[0],
        problems=problem_views(problems),
        varieties=found if len(found) > 1 else None,
        asked=asked,
        hot_weeks=None if hot is None else FromTo(hot.first, hot.last),
        setting=setting_of(season.garden, season.today),
    )


def _answer(of: Answer, season: Season) -> AnswerView:
    crop, judged = of.crop, judgement_of(of.judged, of.crop)
    planted = of.good[0].judged if of.good else of.judged
    day = planted.stages.plant.day
    doubt = doubt_of(crop, of.raised, day, season.climate)
    return AnswerView(
        crop=crop.name,
        variety=crop.variety,
        plants=of.plants,
        basis=season.climate.basis,
        earliest_planting=of.earliest,
        last_safe_planting=of.last_safe,
        windows=tuple(map(FromTo.of, of.windows)),
        frost_limit=of.frost_limit,
        verdict=judged.verdict,
        odds=judged.odds,
        expected_picking_days=judged.expected_picking_days,
        odds_of_nothing=judged.odds_of_nothing,
        spring_loss=of.judged.spring_loss,
        places=tuple(spot_view(each, crop) for each in of.spots),
        instead=alternatives(of.instead),
        by_date=tuple(planted_on(each, crop) for each in of.weekly),
        cover=None if of.cover is None else _cover(of.cover, of),
        on=of.asked_on,
        raised=of.raised,
        title=crop.title,
        judged=judged,
        heat=of.heat,
        good=tuple(spot_view(each, crop) for each in of.good),
        whole=None if of.whole is None else spot_view(of.whole, crop),
        planted=planted_on(planted, crop),
        fits=of.fits,
        seedlings=to_raise(crop, of.raised, planted.stages.sow.day, today=season.today),
        seed=None if doubt is None else seed_in_doubt(crop, doubt, season.garden.site.units),
        stands_after_frost=crop.after_frost is AfterFrost.STANDS,
        knows_ground=season.climate.weather.knows_ground,
        pulled_again=crop.pulled_again,
        cut_once=crop.cut_once,
    )


def _cover(cover: Covered, of: Answer) -> CoverView:
    return CoverView(
        buys_c=cover.buys,
        earliest_planting=cover.under.earliest,
        last_safe_planting=cover.last_under,
        under=planted_on(cover.under, of.crop),
        earliest_without=cover.without.earliest,
        last_without=cover.last_without,
        without=judgement_of(cover.without, of.crop),
        own=cover.own,
    )


def rows(of: FitsView) -> Iterator[Mapping[str, Any]]:
    """Yield a row for each bed with room, of each variety."""
    for each in of.varieties or (of.best,):
        which = {"crop": each.crop, "variety": each.variety, "raised": each.raised.value}
        yield from (which | spot_row(spot) for spot in each.places)
