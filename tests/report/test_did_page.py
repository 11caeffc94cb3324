"""What a note moves, and the pages of the journal, sentence by sentence."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import factory
from sowtide.garden.journal import Did
from sowtide.report.blocks import Block, plain
from sowtide.report.did.page import answer, entries
from sowtide.report.did.view import (
    BarredView,
    DidView,
    EntriesView,
    EntryRow,
    FreeView,
    PlaceView,
    WrittenView,
)
from sowtide.report.did.year_page import year_page
from sowtide.report.did.year_view import NoteView, SeasonView, StageView, WaveYear
from sowtide.report.formats.terminal.render import rendered
from sowtide.report.kit.setting import setting_of
from sowtide.schedule.noting import Shift
from sowtide.schedule.waves.wave import Status

TODAY = date(2026, 7, 15)
DAY = timedelta(days=1)
SEASON = factory.season()
SETTING = setting_of(SEASON.garden, TODAY)

ENTRY = EntryRow(
    on=TODAY,
    did=Did.SOWN,
    wave="pea-1",
    bed=None,
    plants=None,
    amount=None,
    unit=None,
    found=None,
    with_=None,
    skips=None,
    sick=False,
    note=None,
    season=None,
    file="journal.yaml",
    line=1,
)
WRITTEN = WrittenView(
    entry=ENTRY,
    late=None,
    status=Status.SOWN,
    free=None,
    left=None,
    first_pick=None,
    odds=None,
    odds_before=None,
    last_pick=None,
    then=(),
)


def flat(blocks: Iterable[Block]) -> str:
    text = " ".join(" ".join(plain(rendered(blocks, 100))).split())
    return text.replace("\N{NO-BREAK SPACE}", " ")


def did(entry: dict[str, Any] | None = None, **changes: Any) -> str:
    """Return what is said of one entry and of what it moved."""
    of_all = {name: changes.pop(name) for name in DidView.__slots__ if name in changes}
    written = replace(WRITTEN, **changes, entry=replace(ENTRY, **(entry or {})))
    made: dict[str, Any] = {
        "written": (written,),
        "taken_back": False,
        "elsewhere": (),
        "room_lost": (),
        "room_found": (),
        "barred": (),
        "codes": (),
        "cautions": (),
        "setting": SETTING,
    }
    return flat(answer(DidView(**(made | of_all))))


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ({}, "pea-1 sown 15 Jul"),
        ({"wave": None, "bed": "Long"}, "Long sown 15 Jul"),
        ({"wave": None}, "sown 15 Jul"),
        ({"bed": "Long"}, "pea-1 sown in Long 15 Jul"),
        ({"plants": 1}, "pea-1 sown 1 plant 15 Jul"),
        ({"amount": 1.25, "unit": "kg"}, "pea-1 sown 1.25kg 15 Jul"),
        ({"amount": 40}, "pea-1 sown 40 15 Jul"),
        ({"found": "many"}, "pea-1 sown: many 15 Jul"),
        ({"skips": "soak"}, "pea-1 sown (soak) 15 Jul"),
    ],
)
def test_an_entry_is_read_back(entry: dict[str, Any], said: str) -> None:
    assert did(entry) == said


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"late": 0}, ", as planned"),
        ({"late": 1}, ", 1 day late"),
        ({"late": -2}, ", 2 days early"),
        ({"left": 0}, ": 0 plants still stand"),
        ({"left": 1}, ": 1 plant still stands"),
        (
            {"free": FreeView(("Long", "Gate"), TODAY)},
            ": Long and Gate have their space from 15 Jul on",
        ),
        ({"free": FreeView(("Long",), TODAY)}, ": Long has its space from 15 Jul on"),
        ({"last_pick": TODAY}, ": last pick 15 Jul"),
        ({"first_pick": (TODAY, TODAY + DAY)}, ": first picks 15–16 Jul"),
        ({"first_pick": (TODAY, TODAY), "odds": 0.8}, ": first picks 15 Jul, 80 in 100"),
        (
            {"first_pick": (TODAY, TODAY), "odds": 0.8, "odds_before": 0.9},
            ": first picks 15 Jul, 80 in 100 (90)",
        ),
        (
            {"first_pick": (TODAY, TODAY), "odds": 0.8, "odds_before": 0.801},
            ": first picks 15 Jul, 80 in 100",
        ),
        ({"then": (Shift("pea-2", TODAY, None),)}, ": then no pea-2"),
        ({"then": (Shift("pea-2", None, TODAY),)}, ": then pea-2 on 15 Jul, one more"),
        ({"then": (Shift("pea-2", TODAY, TODAY + DAY),)}, ": then pea-2 on 16 Jul (15 Jul)"),
        (
            {"last_pick": TODAY, "then": (Shift("pea-2", TODAY, None),)},
            ": last pick 15 Jul; then no pea-2",
        ),
    ],
)
def test_what_becomes_of_the_wave_and_of_its_series(changes: dict[str, Any], said: str) -> None:
    assert did(**changes) == f"pea-1 sown 15 Jul{said}"


@pytest.mark.parametrize(("number", "more"), [(3, ""), (4, ", and 1 more"), (9, ", and 6 more")])
def test_three_are_named_and_the_rest_counted(number: int, more: str) -> None:
    names = [f"k-{n}" for n in range(number)]
    shifts = tuple(Shift(name, TODAY, None) for name in names)
    assert did(then=shifts).endswith(f": then no k-0, no k-1, no k-2{more}")
    assert f"No room any more for k-0, k-1, k-2{more}." in did(room_lost=tuple(names))
    places = tuple(PlaceView(name, ("Long", "Gate")) for name in names)
    said = ", ".join(f"k-{n} to Long and Gate" for n in range(3))
    assert f"Moved: {said}{more}." in did(elsewhere=places)
    assert f"There is room now for {said}{more}." in did(room_found=places)
    barred = BarredView(bed="Long", family="pea family", wave="pea-1", kin=tuple(names))
    kin = did(barred=(barred,))
    assert "Plant no pea family in Long this season." in kin
    assert f"Of the same family k-0, k-1 and k-2{more} stand there: look there, too." in kin


def test_one_of_its_kin_stands_and_none_is_not_spoken_of() -> None:
    barred = BarredView(bed="Long", family="pea family", wave="pea-1", kin=("pea-2",))
    assert "Of the same family pea-2 stands there" in did(barred=(barred,))
    assert "Of the same family" not in did(barred=(replace(barred, kin=()),))
    assert did(taken_back=True, late=3) == "taken back: pea-1 sown 15 Jul"
    assert "Pick with clean hands" in did(cautions=("picking",))


def listed(*rows: EntryRow) -> list[str]:
    return list(plain(rendered(entries(EntriesView(entries=rows, year=SETTING.year)), 100)))


def test_the_entries_of_a_season_stand_under_one_another() -> None:
    assert listed() == ["Nothing is noted of this season yet."]
    noted = replace(
        ENTRY,
        on=date(2026, 7, 5),
        bed="Long",
        plants=12,
        found="many",
        with_="soap",
        skips="soak",
        sick=True,
        note="beetles",
    )
    assert listed(noted, ENTRY) == [
        " 5 Jul  pea-1 sown 12 plants in Long; many; soap; soak; sick; beetles",
        "15 Jul  pea-1 sown",
    ]
    assert listed(replace(ENTRY, wave=None, bed="Long")) == ["15 Jul  Long sown"]
    assert listed(replace(ENTRY, wave=None, did=Did.RAIN, amount=1, unit="mm")) == [
        "15 Jul  rain 1mm"
    ]


def stage(on: date | None, planned: date | None = None) -> StageView:
    return StageView(on=on, planned=planned)


WAVE = WaveYear(
    wave="pea-1",
    crop="pea",
    plants=1200,
    status=Status.OVER,
    plant=stage(TODAY, TODAY),
    first_pick=stage(None),
    last_pick=stage(None),
    pull_out=stage(None),
    picked_kg=None,
    picked_pieces=None,
    ended_by=None,
    sick=False,
    notes=(),
)


def year(*waves: WaveYear) -> str:
    return flat(year_page(SeasonView(season=2026, waves=waves, setting=SETTING)))


@pytest.mark.parametrize(
    ("changes", "row"),
    [
        ({}, "pea-1 1,200 15 Jul Days behind"),
        ({"plant": stage(TODAY + DAY, TODAY)}, "pea-1 1,200 16 Jul +1 Days"),
        ({"plant": stage(TODAY - DAY, TODAY)}, "pea-1 1,200 14 Jul -1 Days"),
        ({"plant": stage(TODAY, None)}, "pea-1 1,200 15 Jul Days"),
        ({"plant": stage(None, TODAY)}, "pea-1 1,200 Days"),
        ({"status": Status.SKIPPED}, "pea-1 skipped Days"),
        ({"sick": True}, "15 Jul Days"),
        ({"picked_kg": 1.0}, "15 Jul 2.2 lb Days"),
        ({"picked_pieces": 40}, "15 Jul 40 Days"),
        ({"picked_kg": 1.0, "picked_pieces": 40}, "15 Jul 2.2 lb and 40 Days"),
    ],
)
def test_a_wave_stands_beside_its_plan(changes: dict[str, Any], row: str) -> None:
    assert row in year(replace(WAVE, **changes))


def test_what_was_picked_is_added_up_by_crop_and_notes_stand_at_the_end() -> None:
    note = NoteView(on=TODAY, did=Did.SOWN, note="late frost")
    one = replace(WAVE, picked_kg=1.0, plants=10)
    other = replace(WAVE, wave="pea-2", picked_kg=1.0, picked_pieces=5, plants=20, notes=(note,))
    kale = replace(WAVE, wave="kale-1", crop="kale", picked_pieces=7, plants=3)
    none = replace(WAVE, wave="pea-3", plants=1000)
    text = year(one, other, kale, none)
    assert "PICKED waves plants picked pea 2 30 4.4 lb and 5 kale 1 3 7 NOTES" in text
    assert text.endswith("NOTES 15 Jul, pea-2 sown: late frost")
    alone = year(none)
    assert "PICKED" not in alone
    assert "NOTES" not in alone
    assert year() == "Nothing is noted of a wave of this season."
