"""The list to order from, by hand: each kind of thing with its day, and what stands below it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

import factory
from printed import page
from sowtide.report.kinds import AmountView
from sowtide.report.kit.setting import setting_of
from sowtide.report.needs import REPORT, NeedsView
from sowtide.report.needs.view import (
    CareToGet,
    CropThing,
    SeedlingsToRaise,
    SeedToGet,
    ThingToGet,
)

SEASON = factory.season()
TODAY = date(2026, 7, 15)
SOON, LATER = date(2026, 7, 20), date(2026, 8, 10)

SEED = SeedToGet(
    crop="pea",
    sown_as="seeds",
    plants=40,
    germination=0.85,
    count=60,
    have=0,
    missing=60,
    grams=None,
    sow=LATER,
    order_by=SOON,
    waves=("pea-1",),
)
RAISED = SeedlingsToRaise(
    wave="kale-1",
    crop="kale",
    cells=1200,
    trays=17,
    buy=False,
    sow=TODAY,
    plant=LATER,
    order_by=None,
)
THING = ThingToGet(
    thing="stakes",
    amount=11.2,
    unit="pieces",
    from_=LATER,
    order_by=SOON,
    crops=("pea",),
    by_crop=(CropThing("pea", 11.2),),
)
CARE = CareToGet(
    routine="mulch",
    times=3,
    amount="6 kg",
    mix=None,
    get=AmountView(6, "kg"),
    weight=None,
    from_=LATER,
    order_by=SOON,
)


def needs(**changes: Any) -> NeedsView:
    made = NeedsView(
        season=2026,
        today=TODAY,
        until=LATER,
        care_until=LATER,
        spare=0.1,
        seeds=(),
        seedlings=(),
        trays_at_once=0,
        trays_on=None,
        trays_order_by=None,
        tray_cells=72,
        things=(),
        care=(),
        order_weeks=3,
        no_room=(),
        to_nothing=(),
        not_taken_off=(),
        setting=setting_of(SEASON.garden, TODAY),
    )
    return replace(made, **changes)


def said(**changes: Any) -> str:
    return " ".join(" ".join(page(REPORT, needs(**changes), 100)).split())


ORDER = "Order by: 3 weeks before it is wanted"
WEIGHT = "Seed weighs 30 to 50 in 100 more or less from lot to lot"


def test_nothing_left_to_be_sown_says_up_to_when() -> None:
    assert "Nothing is left to be sown up to 10 Aug: no seed is needed." in said()
    assert "Nothing is left to be sown: no seed is needed." in said(until=TODAY)
    assert ORDER not in said()
    whole = "For everything to be sown from Wed 15 Jul to 10 Aug: as much seed as comes up for the"
    for some in ({"seeds": (SEED,)}, {"seedlings": (RAISED,)}):
        assert whole in said(**some)
        assert "plants, with 10 % to spare." in said(**some)
        assert "Nothing is left" not in said(**some)


def test_seed_that_is_there_is_not_ordered() -> None:
    there = replace(SEED, crop="bean", have=1200, missing=0)
    some = replace(SEED, crop="leek", have=5, missing=1)
    lines = page(REPORT, needs(seeds=(SEED, some, there)), 80)
    assert "      order by             get    weight    have  comes up  sow" in lines
    assert "pea   20 Jul          60 seeds                        85 %  10 Aug" in lines
    assert "leek  20 Jul            1 seed                 5      85 %  10 Aug" in lines
    assert "IN THE DRAWER bean" in lines
    without = page(REPORT, needs(seeds=(SEED,)), 80)
    assert "     order by             get    weight  comes up  sow" in without
    assert not any("IN THE DRAWER" in each for each in without)
    only = said(seeds=(there,))
    assert "to order, what presses first" not in only
    assert ORDER not in only


@pytest.mark.parametrize(
    ("grams", "missing", "told"), [(None, 60, False), (4.0, 60, True), (4.0, 0, False)]
)
def test_what_a_weight_is_worth_is_told_where_one_is_given(
    grams: float | None, missing: int, told: bool
) -> None:
    seeds = (replace(SEED, grams=grams, missing=missing), replace(SEED, crop="leek"))
    assert (WEIGHT in said(seeds=seeds)) is told


@pytest.mark.parametrize(
    ("order_by", "said_so"), [(date(2026, 7, 14), True), (TODAY, True), (SOON, False)]
)
def test_what_is_to_be_ordered_today_may_come_too_late(order_by: date, said_so: bool) -> None:
    order_by = max(order_by, TODAY)  # no earlier day is ever named
    late = "today where that has gone by, and what takes so long to come is then late"
    for kind in (
        {"seeds": (replace(SEED, order_by=order_by),)},
        {"things": (replace(THING, order_by=order_by),)},
        {"seedlings": (replace(RAISED, buy=True, order_by=order_by),)},
        {"trays_order_by": order_by},
        {"care": (replace(CARE, order_by=order_by),)},
    ):
        text = said(**kind)
        assert ORDER in text
        assert (late in text) is said_so
    assert ORDER not in said(seedlings=(RAISED,), care=(replace(CARE, order_by=None),))


def test_seedlings_to_raise_and_to_buy_stand_apart() -> None:
    bought = replace(RAISED, wave="leek-1", buy=True, sow=date(2026, 7, 1), order_by=SOON)
    lines = page(REPORT, needs(seedlings=(RAISED, bought)), 80)
    assert "TRAYS  of 72 cells" in lines
    assert "        cells  trays  sow     plant out" in lines
    assert "kale-1  1,200     17  15 Jul  10 Aug" in lines
    assert "SEEDLINGS TO BUY  their sowing day has passed without word of it" in lines
    assert "        plants  order by  plant out" in lines
    assert "leek-1   1,200  20 Jul    10 Aug" in lines
    overdue = replace(RAISED, sow=date(2026, 7, 14), plant=TODAY)
    assert "kale-1 1,200 17 overdue 15 Jul" in said(seedlings=(overdue,))
    assert "TRAYS" not in said(seedlings=(bought,))
    assert "TO BUY" not in said(seedlings=(RAISED,))
    trays = {"trays_at_once": 1, "trays_on": LATER, "trays_order_by": TODAY}
    assert "1 tray at once, from 10 Aug; order by today." in said(seedlings=(RAISED,), **trays)
    assert "at once, from" not in said(seedlings=(RAISED,))


def test_things_in_the_beds_are_rounded_up_and_told_by_crop() -> None:
    both = replace(THING, by_crop=(*THING.by_crop, CropThing("bean", 3.0)), amount=14.2)
    assert "stakes 12 pieces, order by 20 Jul, from 10 Aug: pea" in said(things=(THING,))
    assert "stakes 15 pieces, order by 20 Jul, from 10 Aug: pea 12, bean 3" in said(things=(both,))
    assert "IN THE BEDS" not in said()


@pytest.mark.parametrize(
    ("changes", "line"),
    [
        ({}, "mulch 6 kg, order by 20 Jul, from 10 Aug: 3 times, counted bed by bed"),
        ({"times": 1, "order_by": None}, "mulch 6 kg, from 10 Aug: 1 time, counted bed by bed"),
        ({"mix": "90 ml in 9 l"}, "mulch 90 ml in 9 l, order by"),
        ({"amount": None, "get": None}, "mulch no amount in the file, order by"),
        ({"weight": "about 4 kg"}, "mulch 6 kg (about 4 kg), order by"),
    ],
)
def test_care_says_what_it_takes_and_how_often(changes: dict[str, Any], line: str) -> None:
    text = said(care=(replace(CARE, **changes),))
    assert line in text
    assert "CARE what its routines take up to 10 Aug; your rates" in text


def test_rows_for_a_spreadsheet_say_what_is_raised_and_what_is_bought() -> None:
    assert REPORT.rows is not None
    bought = replace(RAISED, wave="leek-1", crop="leek", buy=True, order_by=SOON)
    of = needs(
        seedlings=(RAISED, bought),
        things=(THING,),
        trays_at_once=2,
        trays_on=SOON,
        trays_order_by=TODAY,
    )
    raised, buy, trays, thing = REPORT.rows.of(of)
    assert (raised["kind"], raised["unit"], raised["from"]) == ("raise seedlings", "cells", TODAY)
    assert (buy["kind"], buy["unit"], buy["from"]) == ("buy seedlings", "seedlings", LATER)
    assert (trays["what"], trays["amount"], trays["from"]) == ("trays of 72 cells", 2, SOON)
    assert (thing["what"], thing["amount"], thing["for"]) == ("stakes", 12, "pea")
    assert not any(row["kind"] == "trays" for row in REPORT.rows.of(needs(seedlings=(RAISED,))))
