"""The sheet of an evening with frost: how cold, what to do by bed, what is left, what waits."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

import factory
from printed import page
from sowtide.report import tonight
from sowtide.report.kit.setting import setting_of
from sowtide.report.tonight.view import (
    AfterFirst,
    BedTonight,
    TonightView,
    WaitView,
    WaveTonight,
)
from sowtide.schedule.tonight import Action, Sky

EVENING = date(2026, 9, 15)
SEASON = factory.season(today=EVENING)


def stands(wave: str, action: Action, plants: int = 4, why: str = "tender") -> WaveTonight:
    return WaveTonight(
        wave=wave,
        crop="fruit",
        plants=plants,
        action=action,
        saves_days=None,
        odds=None,
        beyond_cover=False,
        why=why,
    )


def bed(name: str, *waves: WaveTonight, air_c: float = -1.0, cover_on: bool = False) -> BedTonight:
    return BedTonight(bed=name, air_c=air_c, cover_on=cover_on, waves=waves)


def evening(*beds: BedTonight, **changes: Any) -> TonightView:
    made = TonightView(
        night_of=EVENING,
        low_c=0.0,
        sky=Sky.CLEAR,
        cover_holds_c=2.0,
        beds=beds,
        seedlings=(),
        put_off=(),
        after_first=AfterFirst(None, None, None),
        is_spring=False,
        basis=SEASON.climate.basis,
        setting=setting_of(SEASON.garden, EVENING),
    )
    return replace(made, **changes)


def lines(of: TonightView) -> list[str]:
    return list(page(tonight.REPORT, of, 100))


def said(of: TonightView) -> str:
    return " ".join(" ".join(lines(of)).split())


def test_beds_stand_below_what_is_done_and_waves_that_ask_for_the_same_together() -> None:
    of = evening(
        bed(
            "Long",
            stands("pea-1", Action.COVER),
            stands("pea-2", Action.COVER, 6),
            stands("bean-1", Action.COVER, 1, "very tender"),
            stands("kale-1", Action.LEAVE),
        ),
        bed("Low", stands("bean-2", Action.PICK), cover_on=True, air_c=-3.0),
        seedlings=("lettuce-1",),
    )
    found = lines(of)
    start = found.index("-" * 100) + 1
    shown = [" ".join(each.replace("[ ]", "").split()) for each in found[start:]]
    assert shown[: shown.index("-" * 100)] == [
        "PICK FIRST",
        "Low bean-2 4 plants; tender",
        "COVERS ON",
        "Low its cover on and closed before dusk: 27 °F below it",
        "COVER",
        "Long pea-1, -2 10 plants; tender",
        "Long bean-1 1 plant; very tender",
        "BRING IN",
        "bench lettuce-1 seedlings: indoors tonight",
    ]
    assert "LEAVE: kale-1." in said(of)


@pytest.mark.parametrize(("number", "more"), [(12, ""), (13, ", and 1 more"), (20, ", and 8 more")])
def test_of_what_is_left_alone_twelve_are_named(number: int, more: str) -> None:
    of = evening(bed("Long", *(stands(f"k{n}-1", Action.LEAVE) for n in range(number))))
    named = ", ".join(f"k{n}-1" for n in range(12))
    assert f"LEAVE: {named}{more}. " in said(of)


@pytest.mark.parametrize(
    ("sky", "sentence"),
    [
        (Sky.CLEAR, "At the plants down to 27 °F, clear and calm. ---"),
        (Sky.CLOUDY, "At the plants down to 27 °F, under clouds or in wind. ---"),
        (Sky.NOT_SAID, "At the plants down to 27 °F. On a clear, calm night it may be"),
    ],
)
def test_how_cold_it_gets_is_that_of_the_coldest_bed(sky: Sky, sentence: str) -> None:
    of = evening(
        bed("Long", stands("pea-1", Action.COVER), air_c=-1.0),
        bed("Low", stands("pea-2", Action.COVER), air_c=-3.0),
        sky=sky,
    )
    assert sentence in said(of)


def test_nothing_that_stands_out_is_said_so() -> None:
    text = said(evening())
    assert "Nothing stands out tonight. ---" in text
    assert "--- Nothing that stands out needs anything tonight. ---" in text
    assert "LEAVE" not in text
    left = said(evening(bed("Long", stands("kale-1", Action.LEAVE))))
    assert "needs anything tonight. " in left


def test_water_is_spoken_of_only_where_something_asks_for_it() -> None:
    water, cover = stands("pea-1", Action.WATER), stands("pea-2", Action.COVER)
    assert "Water the ground, not the leaves" in said(
        evening(bed("Low", cover), bed("Long", water))
    )
    assert "Water the ground, not the leaves" in said(evening(bed("Long", cover, water)))
    assert "Water the ground" not in said(evening(bed("Long", cover)))


def test_what_waits_is_named_with_both_days() -> None:
    later = WaitView("lettuce-2", date(2026, 9, 16), date(2026, 9, 20))
    today = WaitView("lettuce-1", EVENING, date(2026, 9, 19))
    text = said(evening(put_off=(today, later)))
    assert (
        "WAIT with lettuce-1, to be planted out on Tue 15 Sep: look again on Sat 19 Sep; if it is "
        "out already, cover it. "
    ) in text
    assert "to be planted out on Wed 16 Sep: look again on Sun 20 Sep. Nothing is moved" in text


@pytest.mark.parametrize(
    ("after", "sentence"),
    [
        (AfterFirst(None, None, None), ""),
        (
            AfterFirst(6.4, 19.6, 30),
            "in 30 autumns of your record the next night at 32 °F came 6 days later on average, "
            "the first at 28 °F 20. ",
        ),
        (
            AfterFirst(6.4, None, 1),
            "in 1 autumn of your record the next night at 32 °F came 6 days",
        ),
        (
            AfterFirst(None, 14.0, None),
            "Nights at 28 °F begin 14 days after those at 32 °F, by the",
        ),
    ],
)
def test_what_covering_may_buy_is_told_in_autumn(after: AfterFirst, sentence: str) -> None:
    text = said(evening(after_first=after))
    assert sentence in text
    told = ("A first frost is often" in text, "Nights at" in text)
    assert told == (after.next_frost_days is not None, sentence.startswith("Nights"))
    spring = said(evening(after_first=after, is_spring=True))
    assert "A first frost is often" not in spring
    assert "Nights at" not in spring
