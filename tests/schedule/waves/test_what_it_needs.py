"""What a crop needs of a place, from its own numbers: days, warmth, heat and frost, by hand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from factory import bean, lettuce
from sowtide.climate.answers import FruitSet, Green, Need, Response
from sowtide.days import DayRange
from sowtide.garden.crop import (
    AfterFrost,
    CountedFrom,
    Crop,
    Hardiness,
    Heat,
    HeatMethod,
    Learned,
    Raised,
)
from sowtide.reasons import OURS, Origin
from sowtide.schedule.waves.demands import need_of

OWN = Origin("garden.yaml", 9)


def need(
    crop: Crop, raised: Raised = Raised.DIRECT, *, colder_by: float = 0, alone: bool = False
) -> Need:
    return need_of(crop, raised, colder_by=colder_by, by_frost_alone=alone)


def trays(**changes: Any) -> Crop:
    """A crop of 50 to 60 days from sowing, 28 of them in trays."""
    return bean(raised=Raised.EITHER, nursery_days=DayRange(28, 42), **changes)


OUT = CountedFrom.PLANTING_OUT


@pytest.mark.parametrize(
    ("crop", "raised", "days", "text"),
    [
        (trays(), Raised.DIRECT, (50, 60), "days to harvest"),
        (trays(), Raised.TRAYS, (22, 32), "days to harvest, 28 of them spent in trays"),
        (
            trays(nursery_share=0.5),
            Raised.TRAYS,
            (36, 46),
            "days to harvest, 14 less for 28 in trays",
        ),
        # never less than a day
        (
            trays(days_to_harvest=DayRange(28, 40)),
            Raised.TRAYS,
            (1, 12),
            "days to harvest, 28 of them spent in trays",
        ),
        (
            trays(days_to_harvest=DayRange(20, 25)),
            Raised.TRAYS,
            (1, 1),
            "days to harvest, 28 of them spent in trays",
        ),
        (trays(counted_from=OUT), Raised.TRAYS, (50, 60), "days to harvest"),
        (
            trays(counted_from=OUT),
            Raised.DIRECT,
            (64, 74),
            "days to harvest, 14 more for sowing direct (half the nursery days, estimate)",
        ),
        # half of 29 is 14.5: 15
        (
            replace(trays(counted_from=OUT), nursery_days=DayRange(29, 42)),
            Raised.DIRECT,
            (65, 75),
            "days to harvest, 15 more for sowing direct (half the nursery days, estimate)",
        ),
        # always direct: its days are those of sowing direct
        (
            replace(trays(counted_from=OUT), raised=Raised.DIRECT),
            Raised.DIRECT,
            (50, 60),
            "days to harvest",
        ),
        (bean(raised=Raised.EITHER, counted_from=OUT), Raised.DIRECT, (50, 60), "days to harvest"),
        (bean(raised=Raised.EITHER), Raised.TRAYS, (50, 60), "days to harvest"),
        # 50 to 60 span its sorts: the middle third is 53 to 57
        (bean(sorts=True, origins={}), Raised.DIRECT, (53, 57), "days to harvest of main sorts"),
        (bean(sorts=True), Raised.DIRECT, (50, 60), "days to harvest"),  # the grower's own
        (
            bean(learned=Learned(1.1, 3, DayRange(45, 54))),
            Raised.DIRECT,
            (50, 60),
            "days to harvest by 3 pickings of yours (packet 45-54)",
        ),
    ],
)
def test_days_in_the_bed(crop: Crop, raised: Raised, days: tuple[int, int], text: str) -> None:
    found = need(crop, raised)
    assert (found.days, found.days_text) == (DayRange(*days), text)
    estimate = "estimate" in text
    assert found.days_origin == (OURS if estimate else crop.origin("days_to_harvest"))
    assert found.warmth is not None
    assert (found.warmth.low, found.warmth.high) == days
    assert found.warmth.parts == days[1] - days[0] + 1


# Bean's curve and cabbage's, from 70 °F (21.11 °C) and 60 °F (15.56 °C)
WARM = Response(base=5, best_from=24, best_to=31, ceiling=44, rated=190 / 9, light=0)
COOL = Response(base=0, best_from=18, best_to=28, ceiling=45, rated=140 / 9, light=0)
CURVE = {"curve_base": 8.0, "curve_best": (22.0, 27.0), "curve_ceiling": 38.0}


@pytest.mark.parametrize(
    ("crop", "response"),
    [
        (bean(), WARM),
        (lettuce(), COOL),
        (bean(light=0.7), replace(WARM, light=0.7)),
        (bean(rated_at=25.0), replace(WARM, rated=25.0)),
        (
            bean(**CURVE),
            Response(base=8, best_from=22, best_to=27, ceiling=38, rated=WARM.rated, light=0),
        ),
        *((bean(**{**CURVE, lacks: None}), WARM) for lacks in CURVE),
    ],
)
def test_growth_answers_warmth_by_its_own_curve_or_by_one_of_its_kind(
    crop: Crop, response: Response
) -> None:
    warmth = need(crop).warmth
    assert warmth is not None
    assert warmth.response is not None
    assert warmth.response == replace(response, rated=pytest.approx(response.rated))
    assert (warmth.base, warmth.upper, warmth.method) == (response.base, None, HeatMethod.AVERAGE)


@pytest.mark.parametrize(("low", "least"), [(50, 43), (40, 34), (20, 17), (21, 18), (1, 1)])
def test_it_takes_85_of_100_of_its_days_at_the_least(low: int, least: int) -> None:
    # 42.5, 34, 17, 17.85 and 0.85: full days
    warmth = need(bean(days_to_harvest=DayRange(low, 60))).warmth
    assert warmth is not None
    assert warmth.least == least


UNITS = DayRange(900, 1000)


@pytest.mark.parametrize(
    ("crop", "heat", "base", "low", "high", "method", "least"),
    [
        # 21.11 less 50 °F (10 °C): 11.11 a day, of 50 to 60 days
        (bean(), Heat(), 10, 5000 / 9, 6000 / 9, HeatMethod.CLIP, 43),
        # 15.56 less 40 °F (4.44 °C): 11.11 a day, of 45 to 50 days
        (lettuce(), Heat(), 40 / 9, 500, 5000 / 9, HeatMethod.CLIP, 39),
        (bean(), Heat(base=11), 11, 50 * 91 / 9, 60 * 91 / 9, HeatMethod.CLIP, 43),
        (bean(), Heat(upper=20), 10, 500, 600, HeatMethod.CLIP, 43),  # counts to 20 °C
        (bean(), Heat(upper=30), 10, 5000 / 9, 6000 / 9, HeatMethod.CLIP, 43),
        (bean(rated_at=25.0), Heat(), 10, 750, 900, HeatMethod.CLIP, 43),
        (bean(), Heat(units=UNITS, method=HeatMethod.SINE), 10, 900, 1000, HeatMethod.SINE, 1),
        (bean(), Heat(units=UNITS), 10, 5000 / 9, 6000 / 9, HeatMethod.CLIP, 43),
        (bean(), Heat(method=HeatMethod.SINE), 10, 5000 / 9, 6000 / 9, HeatMethod.CLIP, 43),
    ],
)
def test_heat_that_the_grower_states(
    crop: Crop,
    heat: Heat,
    base: float,
    low: float,
    high: float,
    method: HeatMethod,
    least: int,
) -> None:
    own = replace(crop, heat=heat, origins={"heat": OWN})
    warmth = need(own).warmth
    assert warmth is not None
    assert (warmth.base, warmth.low, warmth.high) == pytest.approx((base, low, high))
    assert (warmth.method, warmth.upper, warmth.least) == (method, heat.upper, least)
    assert warmth.response is None
    assert warmth.parts == crop.days_to_harvest.high - crop.days_to_harvest.low + 1
    # Built-in figures of heat are no grower's: the curve goes before them
    built_in = need(replace(own, origins={})).warmth
    assert built_in is not None
    assert built_in.response is not None


@pytest.mark.parametrize(
    ("limit", "own", "alone", "found", "minds_written"),
    [
        (23.8, False, False, 23.8, True),
        (23.8, False, True, 23.8, True),
        (26.7, False, False, 26.7, False),  # it stands more than 75 °F, 23.9 °C
        (26.7, False, True, None, False),  # and nobody knows how much hotter it gets
        (26.7, True, False, 26.7, True),  # but the grower said so
        (26.7, True, True, 26.7, True),
        (None, False, False, None, True),
        (None, False, True, None, True),
    ],
)
def test_heat_that_spoils_it(
    limit: float | None, own: bool, alone: bool, found: float | None, minds_written: bool
) -> None:
    crop = lettuce(warm_limit=limit, origins={"warm_limit": OWN} if own else {})
    asked = need(crop, alone=alone)
    assert (asked.warm_limit, asked.minds_written) == (found, minds_written)
    assert asked.heat_ends is (found is not None)
    assert asked.cool
    # What is dug and brought in is not spoilt by it, nor what wants warmth
    brought = need(replace(crop, after_frost=AfterFrost.BRING_IN), alone=alone)
    assert (brought.warm_limit, brought.heat_ends) == (found, False)
    warm = need(bean(warm_limit=limit), alone=alone)
    assert (warm.warm_limit, warm.heat_ends, warm.cool) == (None, False, False)


@pytest.mark.parametrize(
    ("own", "alone", "killed_at"),
    [(False, False, -10.0), (False, True, -40 / 9), (True, False, -10.0), (True, True, -10.0)],
)
def test_frost_that_ends_it(own: bool, alone: bool, killed_at: float) -> None:
    # Hardened it stands −10 °C; its hardiness alone says 24 °F, −4.44 °C
    crop = lettuce(
        hardiness=Hardiness.HARDY, killed_at=-10.0, origins={"killed_at": OWN} if own else {}
    )
    for colder_by in (0, 1.5, -2):
        found = need(crop, colder_by=colder_by, alone=alone).killed_at
        assert found == pytest.approx(killed_at + colder_by, abs=1e-6)
    # In leaf it stands more than in flower, which only temperatures or the grower tell
    pea = replace(crop, flowers_killed_at=-2.0, flower_to_pick=20)
    told = need(pea, colder_by=1.5, alone=alone)
    if alone and not own:
        assert told.green is None
    else:
        assert told.green == Green(killed_at=-8.5, ripens=20)
        assert told.killed_at == -0.5
    for changes in (
        {"flower_to_pick": None},
        {"after_frost": AfterFrost.STANDS},
        {"flowers_killed_at": -10.0},  # no less than its leaves
        {"flowers_killed_at": None},
    ):
        assert need(replace(pea, **changes), alone=alone).green is None  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("picking", "holding", "holds"),
    [(1, DayRange(5, 14), 5), (2, DayRange(5, 14), 0), (1, None, 0)],
)
def test_only_a_crop_cut_once_is_held(picking: int, holding: DayRange | None, holds: int) -> None:
    found = need(lettuce(picking_days=picking, holding_days=holding))
    assert (found.picking, found.holds_in_heat) == (picking, holds)


@pytest.mark.parametrize(
    ("high", "low", "ripens", "known"),
    [
        (33.0, 22.0, 15, True),
        (33.0, None, 15, True),
        (None, 22.0, 15, True),
        (None, None, 15, False),
        (33.0, 22.0, None, False),
    ],
)
def test_flowers_drop_where_their_heat_and_their_days_are_known(
    high: float | None, low: float | None, ripens: int | None, known: bool
) -> None:
    crop = bean(fruit_set_high=high, fruit_set_low=low, flower_to_pick=ripens)
    assert need(crop).fruit_set == (FruitSet(high, low, ripens or 0) if known else None)
