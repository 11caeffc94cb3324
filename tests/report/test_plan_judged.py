"""What a plan says of a wave beside its dates, and its stages as events, case by case.

The wave is sown on 1 July in Long 1; average frosts are on 8 May and 2 October.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import factory
from printed import page
from sowtide.climate.answers import EndedBy
from sowtide.report.kit.stands import BedPlants
from sowtide.report.plan import REPORT, view
from sowtide.report.plan.judged import judged_cells, judgement, place_cell
from sowtide.report.plan.stage_events import events
from sowtide.report.plan.view import PlanBy, PlanView, WaveView
from sowtide.schedule.only import Only
from sowtide.schedule.waves.wave import Done, Overlap, Status, Verdict

PLAN = view(factory.season(factory.wave()))
WAVE = PLAN.waves[0]
SOWN, TODAY = date(2026, 7, 1), date(2026, 7, 15)
DAY = timedelta(days=1)


def wave(of: WaveView = WAVE, *, judged: dict[str, Any] | None = None, **changes: Any) -> WaveView:
    return replace(of, **changes, judged=replace(of.judged, **(judged or {})))


def said(of: WaveView, today: date = TODAY) -> str:
    return judgement(of, today).plain


NONE: tuple[BedPlants, ...] = ()
SPLIT = (BedPlants("Long 1", 40), BedPlants("Long 2", 20))


@pytest.mark.parametrize(
    ("judged", "told"),
    [
        ({}, "60 in Long 1; standing; safe 83 in 100; 18 picking days; 20 days to spare"),
        ({"margin": 60}, "18 picking days; 60 days to spare"),
        ({"margin": 61}, "18 picking days"),
        ({"margin": 1}, "18 picking days; 1 day to spare"),
        ({"margin": 0}, "18 picking days; 0 days to spare"),
        ({"margin": -1}, "18 picking days; at its slowest 1 day short of the average frost"),
        (
            {"margin": -9, "verdict": Verdict.TOO_LATE},
            "too late 83 in 100; 18 picking days; 9 days short",
        ),
        ({"margin": 20, "ended_by": EndedBy.HEAT}, "18 picking days; ended by heat"),
        ({"margin": 20, "ended_by": EndedBy.FROST}, "20 days to spare; ended by frost"),
        ({"margin": None}, "18 picking days"),
        ({"cut_once": True}, "safe 83 in 100; 20 days to spare"),
        ({"expected_picking_days": 0.5}, "; 1 picking day; 20"),
        ({"expected_picking_days": 1.49}, "; 1 picking day; 20"),
        ({"expected_picking_days": None}, "safe 83 in 100; 20 days to spare"),
        ({"first_pick": None}, "safe 83 in 100; nothing to pick; 20 days to spare"),
        ({"odds": None}, "; safe; 18"),
        ({"odds": 1.0, "end": None, "margin": None}, "; safe, nothing ends it early; 18"),
        ({"years": 30, "odds": 0.9}, "; safe 27 of 30; 18"),
        ({"may_bolt": True}, "20 days to spare; may bolt"),
        ({"verdict": None}, "; over the winter; 18"),
        (
            {"verdict": None, "first_pick": None},
            "; over the winter; 18 picking days; 20 days to spare; ready days not known",
        ),
    ],
)
def test_a_wave_is_judged_on_one_line(judged: dict[str, Any], told: str) -> None:
    text = said(wave(judged=judged))
    assert told in text if told[0] == ";" else text.endswith(told)


@pytest.mark.parametrize(
    ("changes", "today", "told"),
    [
        ({}, SOWN - DAY, None),
        ({}, SOWN, "due today"),
        ({}, SOWN + DAY, "standing"),
        ({"pull_out": TODAY}, TODAY - DAY, "standing"),
        ({"pull_out": TODAY}, TODAY, "over"),
        ({"status": Status.PLANNED}, SOWN, "due today"),
        ({"status": Status.PLANNED}, SOWN + DAY, "overdue"),
        ({"status": Status.PAST, "is_noted": True}, TODAY, "standing"),
        ({"status": Status.PICKING, "is_noted": True}, TODAY, "picking"),
        ({"status": Status.PICKING, "is_noted": False}, TODAY, "standing"),
        ({"sow": SOWN - 9 * DAY}, SOWN - DAY, "in trays"),
        ({"sow": SOWN - 9 * DAY}, SOWN - 9 * DAY, "due today"),
        ({"sow": SOWN - 9 * DAY}, SOWN - 10 * DAY, None),
        ({"sow": SOWN - 9 * DAY, "is_unsown": True}, SOWN - 8 * DAY, "overdue"),
    ],
)
def test_how_far_a_wave_has_come_by_a_day(
    changes: dict[str, Any], today: date, told: str | None
) -> None:
    made = {"status": Status.PAST, "is_noted": False, "is_unsown": False} | changes
    place, reached, *_ = said(wave(**made), today).split("; ")
    assert place == "60 in Long 1"
    assert reached == (told or "safe 83 in 100")


@pytest.mark.parametrize(
    ("changes", "verdict", "line", "cell", "place"),
    [
        ({}, Verdict.SAFE, "NO ROOM for 60; it would be safe 83 in 100", "(safe)", "NO ROOM"),
        ({}, None, "NO ROOM for 60", "", "NO ROOM"),
        ({"status": Status.LOST}, Verdict.SAFE, "lost", "", "lost"),
        ({"status": Status.SKIPPED}, Verdict.SAFE, "skipped", "", "skipped"),
    ],
)
def test_a_wave_without_a_bed_counts_nothing(
    changes: dict[str, Any], verdict: Verdict | None, line: str, cell: str, place: str
) -> None:
    of = wave(beds=NONE, judged={"verdict": verdict}, **changes)
    assert said(of) == line
    odds, picking, spare, last = judged_cells(of)
    assert (odds, picking, spare) == ("", "", "")
    assert (last if isinstance(last, str) else last[0]) == cell
    assert place_cell(of).plain == place


@pytest.mark.parametrize(
    ("judged", "cells", "place"),
    [
        ({}, ("83", "18", "20"), "Long 1"),
        ({"cut_once": True}, ("83", "", "20"), "Long 1"),
        ({"expected_picking_days": 2.5}, ("83", "3", "20"), "Long 1"),
        ({"margin": 0}, ("83", "18", "0"), "Long 1"),
        ({"margin": -1}, ("83", "18", "-1"), "Long 1; its slowest are short of frost"),
        ({"margin": -1, "verdict": Verdict.CHANCY}, ("83", "18", "-1"), "Long 1"),
        ({"margin": 99, "odds": 0.999}, (">99", "18", ""), "Long 1"),
        ({"ended_by": EndedBy.FROST}, ("83", "18", "20"), "Long 1; ended by frost"),
        ({"ended_by": EndedBy.PULLED, "may_bolt": True}, ("83", "18", "20"), "Long 1; may bolt"),
    ],
)
def test_a_wave_in_a_row_has_the_same_in_figures(
    judged: dict[str, Any], cells: tuple[str, ...], place: str
) -> None:
    of = wave(judged=judged)
    assert judged_cells(of)[:3] == cells
    assert place_cell(of).plain == place


def test_a_wave_that_stood_keeps_its_figures_and_one_between_plants_says_whose() -> None:
    assert judged_cells(wave(status=Status.OVER))[:3] == ("83", "18", "20")
    between = wave(overlap=Overlap("kale-1", date(2026, 8, 3)))
    assert said(between).startswith("60 in Long 1; between kale-1 to 3 Aug; standing")


def test_a_split_wave_says_how_many_stand_where() -> None:
    of = wave(beds=SPLIT)
    assert said(of).startswith("Long 1 (40), Long 2 (20); standing")
    assert place_cell(of).plain == "Long 1 (40), Long 2 (20)"


TRAYS = view(factory.season(factory.wave(factory.lettuce())))


def listed(of: WaveView, plan: PlanView = PLAN) -> list[tuple[str, date, date, str, bool]]:
    found = events(replace(plan, waves=(of,))).events
    return [(each.title, each.first, each.beyond, each.place, each.must) for each in found]


@pytest.mark.parametrize(
    ("last_safe", "must"),
    [
        (None, False),
        (SOWN - DAY, False),
        (SOWN, True),
        (SOWN + 7 * DAY, True),
        (SOWN + 8 * DAY, False),
    ],
)
def test_what_has_a_week_and_no_more_left_cannot_be_put_off(
    last_safe: date | None, must: bool
) -> None:
    sow, pick, pull = listed(wave(last_safe=last_safe))
    assert (sow[0], sow[1], sow[2], sow[3]) == ("sow bush-bean-1", SOWN, SOWN + DAY, "Long 1")
    assert (sow[4], pick[4], pull[4]) == (must, False, False)


def test_what_is_noted_stands_on_its_day() -> None:
    done = Done(
        sow=SOWN + DAY,
        up=None,
        harden_off=None,
        plant=None,
        first_pick=TODAY,
        last_pick=None,
        pull_out=TODAY + DAY,
    )
    sow, pick, pull = listed(wave(done=done))
    assert (sow[1], pick[1], pick[2], pull[1]) == (SOWN + DAY, TODAY, TODAY + DAY, TODAY + DAY)
    assert WAVE.first_pick is not None
    early, late = WAVE.first_pick
    _, planned, out = listed(WAVE)
    assert (planned[1], planned[2], out[1]) == (early, late + DAY, WAVE.pull_out)


def test_trays_are_sown_hardened_off_and_planted_out() -> None:
    of = TRAYS.waves[0]
    assert of.harden_off is not None
    sow, harden, out, *_ = listed(of, TRAYS)
    assert sow[:4] == ("sow in trays lettuce-1", of.sow, of.sow + DAY, "")
    assert harden[:4] == ("harden off lettuce-1", of.harden_off, of.plant, "")
    assert out[:4] == ("plant out lettuce-1", of.plant, of.plant + DAY, "Long 1")
    done = replace(of.done, harden_off=of.plant, sow=of.sow + DAY, plant=of.plant + 2 * DAY)
    late = {
        title: (first, beyond) for title, first, beyond, *_ in listed(wave(of, done=done), TRAYS)
    }
    assert late["harden off lettuce-1"] == (of.plant, of.plant + DAY)  # a day at the least
    assert late["sow in trays lettuce-1"][0] == of.sow + DAY
    assert late["plant out lettuce-1"][0] == of.plant + 2 * DAY
    none = [title for title, *_ in listed(wave(of, harden_off=None), TRAYS)]
    assert "harden off lettuce-1" not in none


def test_each_bed_of_a_split_wave_has_an_event_and_none_says_there_is_no_room() -> None:
    split = events(replace(PLAN, waves=(wave(beds=SPLIT),))).events
    assert [each.place for each in split if each.kind == "sow"] == ["Long 1", "Long 2"]
    assert len({each.key for each in split}) == len(split)
    assert [each.place for each in split if each.kind == "pick"] == ["Long 1, Long 2"]
    (none, *_) = events(replace(PLAN, waves=(wave(beds=NONE),))).events
    assert (none.words, none.place) == ("No bed has room for it.", "")
    for status in Status:
        found = events(replace(PLAN, waves=(wave(status=status),))).events
        off = status in (Status.LOST, Status.SKIPPED, Status.NO_ROOM)
        assert {each.is_off for each in found} == {off}
    assert [each.key for each in events(PLAN).events] == [
        f"bush-bean-1:{kind}" for kind in ("sow", "pick", "pull out")
    ]
    unpicked = [each.kind for each in events(replace(PLAN, waves=(wave(last_pick=None),))).events]
    assert unpicked == ["sow", "pull out"]


@pytest.mark.parametrize(
    ("only", "beds", "told"),
    [
        (None, 2, "of all beds together"),
        (Only(None, ("bush bean",)), 2, "of all beds together"),  # a crop stands in any of them
        (Only(None, ("bush bean",)), 1, "of all beds together"),
        (Only(("Long 1", "Long 2"), None), 2, "of these beds together"),
        (Only(("Long 1",), None), 1, "of this bed"),
    ],
)
def test_how_full_says_which_beds_it_is_of(only: Only | None, beds: int, told: str) -> None:
    made = view(factory.season(factory.wave()), by=PlanBy.BED)
    assert made.by_bed is not None
    of = replace(made, only=only, by_bed=replace(made.by_bed, beds=made.by_bed.beds[:1] * beds))
    text = " ".join(" ".join(page(REPORT, of, 100)).split())
    assert f"HOW FULL {told}, week by week" in text
