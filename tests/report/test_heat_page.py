"""The sheet of a heat: what is done by bed, what comes sooner, what waits, where a gap opens."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import factory
from sowtide.report.blocks import plain
from sowtide.report.formats.terminal.render import rendered
from sowtide.report.heat.heat_page import page_of_heat
from sowtide.report.heat.heat_values import (
    BedInHeat,
    CoolSowing,
    HeatGapView,
    HeatView,
    PutOffView,
    WaterNowView,
    WaveInHeat,
)
from sowtide.report.kinds import AmountView
from sowtide.report.kit.setting import setting_of
from sowtide.schedule.work import HeatAction

TODAY = date(2026, 7, 15)
DAY = timedelta(days=1)
SETTING = setting_of(factory.season().garden, TODAY)


def stands(wave: str, action: HeatAction, why: str = "thirsty") -> WaveInHeat:
    return WaveInHeat(wave=wave, crop="pea", plants=4, action=action, why=why)


def bed(name: str, *waves: WaveInHeat, uncover: bool = False) -> BedInHeat:
    return BedInHeat(bed=name, uncover=uncover, waves=waves)


def heat(*beds: BedInHeat, **changes: Any) -> HeatView:
    made = HeatView(
        high_c=35.0,
        from_=TODAY,
        to=TODAY + 3 * DAY,
        beds=beds,
        water_now=(),
        sow_in_the_cool=(),
        put_off=(),
        gaps=(),
    )
    return replace(made, **changes)


def said(*beds: BedInHeat, **changes: Any) -> str:
    blocks = page_of_heat(heat(*beds, **changes), SETTING)
    text = " ".join(" ".join(plain(rendered(blocks, 100))).replace("[ ]", "").split())
    return text.replace("\N{NO-BREAK SPACE}", " ")


PUT_OFF = PutOffView(
    what="plant out",
    kind="plant out",
    bed=None,
    waves=("kale-1",),
    due=TODAY,
    until=TODAY + 5 * DAY,
    cannot_wait=False,
    task="kale-1:plant",
)
SOWING = CoolSowing(
    task="leek-1:sow",
    code="k7",
    wave="leek-1",
    bed="Gate",
    due=TODAY,
    poor=True,
    until=None,
    text="in the evening",
)
GAP = HeatGapView(
    wave="bean-1",
    flowers_from=TODAY,
    flowers_to=TODAY + 3 * DAY,
    from_=date(2026, 7, 31),
    to=date(2026, 8, 3),
    ripens_days=16,
)
WATER = WaterNowView(
    routine="soak",
    bed="Long",
    waves=("pea-1",),
    due=TODAY + 5 * DAY,
    on=TODAY + DAY,
    amount=AmountView(9, "l"),
)
NOTHING = "Up to 95 °F on 15–18 Jul: nothing here needs anything for it."


def test_a_heat_that_asks_for_nothing_is_one_line() -> None:
    assert said() == NOTHING
    assert said(bed("Long", stands("pea-1", HeatAction.LEAVE))) == NOTHING
    for some in (
        {"water_now": (WATER,)},
        {"sow_in_the_cool": (SOWING,)},
        {"put_off": (PUT_OFF,)},
        {"gaps": (GAP,)},
    ):
        assert "nothing here needs" not in said(**some)
    assert "nothing here needs" not in said(bed("Long", uncover=True))
    for action in (HeatAction.SHADE, HeatAction.PICK, HeatAction.WATER):
        assert "nothing here needs" not in said(bed("Long", stands("pea-1", action)))


def test_beds_stand_below_what_is_done_in_its_order() -> None:
    text = said(
        bed(
            "Long",
            stands("pea-1", HeatAction.WATER),
            stands("pea-2", HeatAction.WATER),
            stands("bean-1", HeatAction.WATER, "in flower"),
            stands("kale-1", HeatAction.LEAVE),
        ),
        bed("Low", stands("kale-2", HeatAction.PICK), uncover=True),
        bed("Gate", stands("leek-1", HeatAction.SHADE)),
        sow_in_the_cool=(SOWING, replace(SOWING, wave="corn-1", bed=None, until=TODAY + 2 * DAY)),
    )
    order = (
        "--- COVERS OFF Low its cover off or open, by night too "
        "SHADE AND WATER FIRST Gate leek-1 thirsty "
        "PICK NOW Low kale-2 thirsty "
        "THEN WATER Long pea-1, -2 thirsty; bean-1: in flower "
        "SOW IN THE COOL k7 Gate leek-1 in the evening "
        "k7 bench corn-1 in the evening; or wait till Fri 17 Jul ---"
    )
    assert order in text
    assert "kale-1" not in text


@pytest.mark.parametrize(("high", "told"), [(32.1, False), (32.2, True)])
def test_what_heat_does_to_people_is_said_where_it_is_that_hot(high: float, told: bool) -> None:
    text = said(gaps=(GAP,), high_c=high)
    assert ("drink before you are thirsty" in text) is told


def test_water_that_comes_sooner_says_both_days_and_how_much_each_bed_has() -> None:
    other = replace(WATER, bed="Gate", amount=None)
    later = replace(WATER, due=TODAY + 6 * DAY)
    assert "WATER SOONER: soak on Thu 16 Jul, not Mon 20 Jul: Long 9 l, Gate; soak on Thu 16" in (
        said(water_now=(WATER, other, later))
    )
    assert "WATER SOONER" not in said(gaps=(GAP,))


@pytest.mark.parametrize(
    ("put_off", "told"),
    [
        ((PUT_OFF,), "plant out kale-1 (Wed 15 Jul): look again Mon 20 Jul"),
        (
            (PUT_OFF, replace(PUT_OFF, waves=("leek-1",), due=TODAY + DAY)),
            "plant out kale-1 (Wed 15 Jul) and leek-1 (Thu 16 Jul): look again Mon 20 Jul",
        ),
        (
            (replace(PUT_OFF, cannot_wait=True),),
            "plant out kale-1 (Wed 15 Jul): cannot wait, so in the evening, in shade, watered",
        ),
        (
            (replace(PUT_OFF, what="spray A", task=None, bed="South"),),
            "spray A in South, next Mon 20 Jul",
        ),
        (
            (replace(PUT_OFF, what="spray A", task=None, bed="South", until=None),) * 2,
            "spray A in South, gives way",
        ),
    ],
)
def test_what_waits_says_until_when(put_off: tuple[PutOffView, ...], told: str) -> None:
    assert f"NOT IN THIS HEAT: {told}" in said(put_off=put_off)


@pytest.mark.parametrize(("number", "more"), [(8, ""), (9, " and 1 more"), (12, " and 4 more")])
def test_eight_that_wait_are_named_and_the_rest_counted(number: int, more: str) -> None:
    waits = tuple(replace(PUT_OFF, waves=(f"k{n}-1",)) for n in range(number))
    names = [f"k{n}-1 (Wed 15 Jul)" for n in range(8)]
    listed = ", ".join(names) + more if more else f"{', '.join(names[:-1])} and {names[-1]}"
    assert f"plant out {listed}: look again" in said(put_off=waits)


def test_a_gap_is_told_with_its_flowers_and_waves_alike_together() -> None:
    gaps = (replace(GAP, wave="corn-1", from_=date(2026, 8, 2)), GAP, replace(GAP, wave="bean-2"))
    assert (
        "EXPECT A GAP: flowers set little; little to pick of bean-1, -2 31 Jul – 3 Aug (in flower "
        "15–18 Jul); corn-1 2–3 Aug (in flower 15–18 Jul)"
    ) in said(gaps=gaps)


def test_a_task_waits_until_the_day_to_look_again() -> None:
    of = heat(put_off=(PUT_OFF,), sow_in_the_cool=(replace(SOWING, until=TODAY + DAY), SOWING))
    assert of.waits_until("kale-1:plant") == TODAY + 5 * DAY
    assert of.waits_until("leek-1:sow") == TODAY + DAY
    assert of.waits_until("other") is None
    assert heat(put_off=(replace(PUT_OFF, cannot_wait=True),)).waits_until("kale-1:plant") is None
