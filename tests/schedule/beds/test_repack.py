"""Placing everything not yet planted afresh, and the lines to paste that make it so."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from random import Random
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import gardens
from drawn import MIXED, beds, covered_garden, entries
from gardens import crop, text, wave
from printed import repack_text
from sowtide.garden.read import read_garden
from sowtide.report.blocks import Pasted, plain
from sowtide.report.formats.terminal import rendered
from sowtide.report.repack import Paste, pastes, view
from sowtide.schedule.packing.packing import pack
from sowtide.schedule.packing.repack import area_days, area_days_asked, repacked
from sowtide.schedule.season import Season
from sowtide.season import season_of

LONG, WIDE = "{bed: Long, size: 1 x 10}", "{bed: Wide, size: 2 x 10}"
CROPS = (crop(), crop("quick", days_to_harvest="20", picking_days="5"))

IN_THE_WAY = (
    wave("quick", start="06-01", plants="5", beds="[Long, Wide]"),
    wave(start="06-02", plants="10", beds="[Long]"),
)
"""The first takes Long, in order; the second may stand nowhere else."""


def _file(*asked: str, beds: list[str], crops: tuple[str, ...] = CROPS) -> str:
    return text(*asked, beds=beds, crops=crops, fall_allowance="0")


def _where(found: Season) -> dict[str, tuple[date, list[tuple[str, int]]]]:
    return {
        each.id: (each.stages.plant.day, [(p.bed.name, p.plants) for p in each.stands])
        for each in found.waves
    }


def _pasted(file: str, lines: tuple[Paste, ...]) -> str:
    """Paste lines into the entries of a file in braces, in place of what is there."""
    written = file.split("\n")
    for paste in lines:
        entry = written[paste.line - 1]
        entry = re.sub(rf", {paste.key}: (\[[^\]]*\]|\{{.*?\}}|[^,{{}}]*)(?=[,}}])", "", entry)
        assert entry.endswith("}")
        written[paste.line - 1] = f"{entry[:-1]}, {paste.text}" + "}"
    return "\n".join(written)


def _round_trip(file: str, today: date = gardens.EARLY) -> tuple[Season, Season]:
    """Repack a garden, paste the lines, and see that they give just that plan."""
    before = gardens.season(file, today)
    after = repacked(before)
    pasted = gardens.season(_pasted(file, pastes(before, after)), today)
    assert _where(pasted) == _where(after)
    return before, after


# By hand


def test_a_small_wave_makes_way_for_a_large_one() -> None:
    # five plants for 25 days from 1 Jun keep out ten for 64 days from 2 Jun: 125 against 640
    file = _file(
        wave("quick", start="06-01", plants="5"),
        wave(start="06-02", plants="10"),
        beds=[LONG],
    )
    before, after = _round_trip(file)
    assert [bool(each.stands) for each in before.waves] == [True, False]
    assert [bool(each.stands) for each in after.waves] == [False, True]
    (small,) = pastes(before, after)
    assert (small.series, small.text) == ("quick", "wave_beds: {1: none}")
    note = after.problems[0]
    assert (note.code, note.severity.value, note.wave) == ("no-bed", "note", "quick-1")


def test_both_find_room_where_the_first_takes_the_other_bed() -> None:
    file = _file(*IN_THE_WAY, beds=[LONG, WIDE])
    before, after = _round_trip(file)
    assert [bool(each.stands) for each in before.waves] == [True, False]
    assert _where(after)["quick-1"][1] == [("Wide", 5)]
    assert [each.text for each in pastes(before, after)] == ["beds: [Wide]"]


def test_a_wave_of_a_series_gets_beds_of_its_own() -> None:
    file = _file(
        wave("quick", start="05-10", every="25", count="3", plants="5", beds="[Long, Wide]"),
        wave(start="06-05", plants="10", beds="[Long]"),
        beds=[LONG, WIDE],
    )
    before, after = _round_trip(file)
    assert [each.text for each in pastes(before, after)] == ["wave_beds: {2: Wide, 3: Wide}"]
    assert all(each.stands for each in after.waves)


def test_a_wave_is_shared_out_where_no_bed_takes_it_whole() -> None:
    # quick takes Long, and 26 plants want six places of it beside the 20 of Wide
    file = _file(
        wave("quick", start="06-01", plants="5", beds="[Long, Wide, Spare]"),
        wave(start="06-02", plants="26", beds="[Wide, Long]"),
        beds=[LONG, WIDE, "{bed: Spare, size: 1 x 5}"],
    )
    before, after = _round_trip(file)
    assert [bool(each.stands) for each in before.waves] == [True, False]
    assert _where(after)["quick-1"][1] == [("Spare", 5)]
    assert _where(after)["fruit-1"][1] == [("Wide", 20), ("Long", 6)]


def test_a_wave_without_room_is_kept_out_of_the_way_of_others() -> None:
    # Now quick stands in Long and neither ten fit. With quick in Wide, first would take Long on
    # 2 Jun; longer, of 3 Jun, fills it for more days
    file = _file(
        wave(start="05-20", plants="15", name="before", beds="[Wide]"),
        wave("quick", start="06-01", plants="5", beds="[Long, Wide]"),
        wave(start="06-02", plants="10", name="first", split="no", beds="[Long, Wide]"),
        wave("longer", start="06-03", plants="10", beds="[Long]"),
        crops=(*CROPS, crop("longer", days_to_harvest="70")),
        beds=[LONG, WIDE],
    )
    before, after = _round_trip(file)
    assert [bool(each.stands) for each in before.waves] == [True, True, False, False]
    assert [bool(each.stands) for each in after.waves] == [True, True, False, True]
    said = [each.text for each in pastes(before, after)]
    assert said == ["beds: [Wide]", "wave_beds: {1: none}", "beds: [Long]"]


def test_the_page_says_what_loses_its_room() -> None:
    file = _file(
        wave("quick", start="06-01", plants="5"),
        wave(start="06-02", plants="10"),
        wave("quick", start="06-03", plants="10", name="never"),
        beds=[LONG],
    )
    before = gardens.season(file)
    page = repack_text(before, repacked(before), width=80)
    assert "ROOM IS FOUND FOR fruit-1" in page
    assert "LOSES ITS ROOM quick-1" in page


def test_what_is_planted_before_today_stays() -> None:
    file = _file(*IN_THE_WAY, beds=[LONG, WIDE])
    before, after = _round_trip(file, date(2026, 6, 2))
    assert _where(after) == _where(before)
    _, on_the_day = _round_trip(file, date(2026, 6, 1))
    assert all(each.stands for each in on_the_day.waves)


def test_rotation_closes_beds_for_what_names_none() -> None:
    # kin may not follow in a bed what stood 60 days: after those ones in Wide, from 12 May to
    # 11 July, Long alone is open
    crops = (
        crop("early", days_to_harvest="55", picking_days="5", rotation="3"),
        crop("kin", rotation="3"),
        crop(),
    )
    file = _file(
        wave("early", start="05-12", plants="20", beds="[Wide]"),
        wave(start="07-11", plants="2", name="other"),
        wave("kin", start="07-11", plants="10"),
        crops=crops,
        beds=[LONG, WIDE],
    )
    before, after = _round_trip(file)
    assert _where(before)["other-1"][1] == [("Long", 2)]
    assert _where(before)["kin-1"][1] == []
    assert _where(after)["other-1"][1] == [("Wide", 2)]
    assert _where(after)["kin-1"][1] == [("Long", 10)]
    assert after.problems == ()


def test_names_that_need_quotes_are_quoted() -> None:
    odd = "{bed: 'Mum''s, #3', size: 1 x 10}"
    named = [each.replace("Wide", "'Mum''s, #3'") for each in IN_THE_WAY]
    file = _file(*named, beds=[LONG, odd])
    before, after = _round_trip(file)
    assert [each.text for each in pastes(before, after)] == ["beds: ['Mum''s, #3']"]


def test_lines_to_paste_are_broken_between_waves() -> None:
    parts = tuple(f"{n}: Long" for n in range(1, 12))
    lines = plain(rendered((Pasted("wave_beds: {", parts, "}"),), 40))
    assert max(len(each) for each in lines) <= 40
    assert len(lines) > 2
    assert " ".join(each.strip() for each in lines) == f"wave_beds: {{{', '.join(parts)}}}"


def test_the_page_says_what_is_gained() -> None:
    file = _file(*IN_THE_WAY, beds=[LONG, WIDE])
    before = gardens.season(file)
    page = "\n".join(repack_text(before, repacked(before), width=80))
    # 5 x 25 of 5 x 25 + 10 x 64
    assert re.search(r"waves with room +1 +2  of 2\n", page)
    assert re.search(r"of area × days asked for +16\.3 % +100\.0 %\n", page)
    assert "ROOM IS FOUND FOR fruit-1\n" in page
    assert "LOSES" not in page
    assert "quick (garden.yaml:15)\n    beds: [Wide]" in page
    alone = gardens.season(text(wave(), beds=[LONG]))
    assert "Every wave has its room" in "".join(repack_text(alone, alone, width=80))


def test_what_stands_longer_under_another_cover_makes_no_more_than_all_that_is_asked() -> None:
    # The three go into Low, so the six are shared out. Repacked the six stand in Low and the three
    # in High, where frost comes later by the degree that its cover is warmer.
    beds = ["{bed: Low, size: 1 x 6, cover: 3}", "{bed: High, size: 1 x 3, cover: 4}"]
    middle = crop("middle", days_to_harvest="40-50", picking_days="60")
    asked = [
        wave("middle", name="s0", plants="6", start="07-25"),
        wave("middle", name="s1", plants="3", start="07-20"),
    ]
    before = gardens.season(text(*asked, beds=beds, crops=[middle]))
    after = repacked(before)
    assert [len(each.stands) for each in before.waves] == [2, 1]
    assert [len(each.stands) for each in after.waves] == [1, 1]
    assert area_days(after.waves) > area_days_asked(before.waves)
    page = "\n".join(repack_text(before, after, width=80))
    assert re.search(r"of area × days asked for +\d\d\.\d % +100\.0 %\n", page)


# Whatever the garden


@settings(max_examples=60)
@given(
    beds(),
    entries(("small", "middle", "large")),
    entries(("small", "middle", "large")),
    st.dates(date(2026, 4, 1), date(2026, 8, 1)),
)
def test_pasting_gives_the_plan_and_it_is_never_worse(
    made: list[str], asked: list[str], more: list[str], today: date
) -> None:
    again = [each.replace("name: s", "name: t") for each in more]
    breathing = [re.sub(r"every: (\d+)", r"every: \1-40", each) for each in again]
    file = text(*asked, *breathing, crops=MIXED, beds=made)
    assume(read_garden(file.encode(), gardens.LABEL).garden is not None)
    before, after = _round_trip(file, today)
    asked_for = area_days_asked(before.waves, after.waves)
    assert asked_for >= area_days(after.waves) >= area_days(before.waves)
    there, now = _where(before), _where(after)
    for each in before.waves:
        if each.stages.plant.day < today:
            assert now[each.id] == there[each.id]
    # What the grower named is kept to, and rotation is not broken where no bed was named.
    rotation = {each.wave for each in after.problems if each.code == "rotation"}
    assert rotation <= {each.wave for each in before.problems if each.code == "rotation"}
    for each in after.waves:
        names = {bed.name for bed in each.entry.beds} if each.entry.beds_named else None
        assert names is None or {stand.bed.name for stand in each.stands} <= names


GAINING = (
    14,
    31,
    53,
    55,
    58,
    67,
    70,
    73,
    89,
    102,
    104,
    116,
    118,
    120,
    127,
    145,
    146,
    147,
    152,
    160,
)
"""Of the first drawn gardens those in which anything is gained by packing them afresh."""


@pytest.mark.parametrize("number", GAINING)
def test_what_it_says_of_drawn_gardens_stands_there_with_just_the_share_it_promises(
    number: int,
) -> None:
    """Covers, hollows, over-wintering crops and named beds, from any day of spring and summer."""
    chance = Random(number)
    file, today = covered_garden(chance), date(2026, 4, 1) + timedelta(chance.randint(0, 150))
    before = gardens.season(file, today)
    after = repacked(before)
    said = view(before, after)
    assert said.paste
    pasted = gardens.season(_pasted(file, said.paste), today)
    assert _where(pasted) == _where(after)
    with_room = sum(bool(wave.stands) for wave in pasted.waves)
    assert with_room == said.repacked.waves_with_room
    asked = area_days_asked(before.waves, pasted.waves)
    assert area_days(pasted.waves) / asked == said.repacked.share_of_area_days
    assert (said.now.share_of_area_days or 0) < (said.repacked.share_of_area_days or 0) <= 1
    now, there = ({w.id for w in each.waves if w.stands} for each in (pasted, before))
    assert (now - there, there - now) == (set(said.finds_room), set(said.loses_room))


BEST_WAY = {
    193: (0.6745, ["wave_beds: {1: B1, 2: B2}", "wave_beds: {1: none}"]),
    381: (0.5093, ["wave_beds: {1: [B1, B3], 2: B3}", "wave_beds: {1: none}"]),
    360: (0.6385, ["wave_beds: {2: none, 3: none}"]),
    526: (
        0.5949,
        [
            "beds: [B0, B1]",
            "wave_beds: {1: none}",
            "wave_beds: {1: none, 2: none, 3: none, 4: none}",
        ],
    ),
    237: (
        0.9052,
        [
            "wave_beds: {3: B1, 4: B1}",
            "wave_beds: {1: none, 2: none}",
            "wave_beds: {1: B1, 2: none, 4: B3}",
        ],
    ),
}
"""Drawn gardens in which one way with waves that are shared out gains more than the other two: into
what the others leave (two), before the others (two), and left where they are. What each gains, and
how it is said."""


@pytest.mark.parametrize("number", BEST_WAY)
def test_waves_that_are_shared_out_are_packed_in_the_way_that_gains_most(number: int) -> None:
    chance = Random(number)
    file, today = covered_garden(chance), date(2026, 4, 1) + timedelta(chance.randint(0, 150))
    before = gardens.season(file, today)
    after = repacked(before)
    share, lines = BEST_WAY[number]
    assert area_days(after.waves) / area_days_asked(before.waves, after.waves) == pytest.approx(
        share, abs=1e-4
    )
    assert [each.text for each in pastes(before, after)] == lines


# Beds of single waves


def test_beds_of_single_waves_go_before_those_of_the_entry() -> None:
    keys = {"every": "10", "count": "4", "plants": "2", "beds": "[Long]"}
    file = text(
        wave(start="06-01", **keys, wave_beds="{2: Wide, 3: [Wide, Long], 4: none}"),
        beds=[LONG, WIDE],
        fall_allowance="0",
    )
    places = [each for _, each in _where(gardens.season(file)).values()]
    assert places == [[("Long", 2)], [("Wide", 2)], [("Wide", 2)], []]


def test_beds_of_single_waves_move_no_day() -> None:
    # under the cover it would be safe longer, and earlier
    entry = wave(every="20", plants="1", beds="[Long]")
    made = [LONG, "{bed: Hoops, size: 1 x 10, cover: 4}"]
    asked = text(entry, beds=made)
    pinned = text(entry.replace("}", ", wave_beds: {1: Hoops, 2: Hoops}}"), beds=made)
    days = [[day for day, _ in _where(gardens.season(file)).values()] for file in (asked, pinned)]
    assert days[0] == days[1]


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("{2: Lang}", "unknown-bed"),
        ("{0: Long}", "out-of-range"),
        ("{x: Long}", "number"),
        ("Long", "not-a-mapping"),
    ],
)
def test_beds_of_single_waves_that_are_refused(written: str, code: str) -> None:
    file = text(wave(start="06-01", every="10", count="3", wave_beds=written), beds=[LONG])
    problems = read_garden(file.encode(), gardens.LABEL).problems
    assert [each.code for each in problems] == [code]
    assert problems[0].span is not None
    assert problems[0].span.line == 12


def test_a_bed_may_be_called_none() -> None:
    named = text(
        wave(start="06-01", wave_beds="{1: none}"), beds=[LONG, "{bed: none, size: 1 x 10}"]
    )
    assert _where(gardens.season(named))["fruit-1"][1] == [("none", 1)]


def test_too_many_plants_for_the_beds_of_a_single_wave() -> None:
    file = text(wave(start="06-01", plants="15", wave_beds="{1: Long}"), beds=[LONG, WIDE])
    (problem,) = read_garden(file.encode(), gardens.LABEL).problems
    assert problem.code == "too-many-plants"


def test_the_same_plan_is_packed_in_the_same_way() -> None:
    # by chance, from a fixed seed: 60 waves of two lengths in two beds, of which half find room
    series = [
        wave(name, start=f"05-{day}", plants=str(plants), name=f"{name}{day}", every="9", count="6")
        for day, name, plants in zip(
            range(10, 20), ("quick", "fruit") * 5, (7, 3, 4, 9, 6, 8, 5, 10, 2, 5), strict=True
        )
    ]
    garden = gardens.read(text(*series, crops=CROPS, beds=[LONG, WIDE]))
    before = season_of(garden, gardens.EARLY)
    first, second = repacked(before), repacked(season_of(replace(garden), gardens.EARLY))
    assert _where(first) == _where(second)
    assert area_days(first.waves) > area_days(before.waves)


def test_more_waves_are_packed_with_more_effort(monkeypatch: pytest.MonkeyPatch) -> None:
    # 25,000 places and 150 for each wave that is still to be planted: here two.
    allowed = []

    def spy(*args: Any, effort: int, **named: Any) -> Any:
        allowed.append(effort)
        return pack(*args, effort=effort, **named)

    monkeypatch.setattr("sowtide.schedule.packing.packer.pack", spy)
    repacked(gardens.season(_file(*IN_THE_WAY, beds=[LONG, WIDE])))
    assert allowed == [25_300]
