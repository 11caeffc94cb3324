"""Plants pulled as sick: their family keeps out of that bed for the rest of the season."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from printed import why_json, why_text
from sowtide.schedule.fits import (
    BedQuestion,
    Question,
    answer,
    weigh,
    what_fits,
)
from sowtide.schedule.openings import OpeningsQuestion, coming_free
from sowtide.schedule.packing import repacked
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave

TODAY = date(2026, 7, 12)
LONG = gardens.wave(plants="4", start="06-01", every="14", until="07-14", beds="[Long, Low]")
BEDS = ("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10}")
FILE = gardens.text(
    LONG,
    gardens.wave("other", plants="3", start="07-15"),
    gardens.wave("leaf", plants="3", start="07-20", beds="[Long]"),
    crops=(gardens.crop(), gardens.crop("other"), gardens.leaf()),
    beds=BEDS,
    fall_allowance="0",
)
SOWN = tuple(
    f"on: 2026-06-{day:02}, wave: fruit-{number}, bed: {bed}, did: sown, plants: 4"
    for number, day, bed in ((1, 1, "Long"), (2, 15, "Long"), (3, 29, "Low"))
)
SICK = "on: 2026-07-10, wave: fruit-1, did: pulled, sick: yes"


def lived(*entries: str, file: str = FILE, today: date = TODAY) -> Season:
    """Return the season of the garden with some entries in its journal."""
    return gardens.lived(file, today, *entries)


def beds_of(season: Season) -> dict[str, list[str]]:
    """Return the beds of each wave."""
    return {wave.id: [stand.bed.name for stand in wave.stands] for wave in season.waves}


def wave_of(season: Season, name: str) -> Wave:
    return next(wave for wave in season.waves if wave.id == name)


def said(season: Season, code: str) -> list[str]:
    return [each.message for each in season.problems if each.code == code]


def test_its_family_keeps_out_of_the_bed_and_another_may_go_there() -> None:
    # Without sickness fruit-4 goes to Low, beside fruit-3 (4 of 10), and other-1 to Long, which
    # fruit-1 left (6 of 10 free). Of one family, both keep out of Long: Low has 2 of 10 left.
    healthy = lived(*SOWN, SICK.replace(", sick: yes", ""))
    assert beds_of(healthy)["fruit-4"] == ["Long"]
    assert beds_of(healthy)["other-1"] == ["Low"]
    sick = lived(*SOWN, SICK)
    assert beds_of(sick)["fruit-4"] == ["Low"]
    assert beds_of(sick)["other-1"] == []
    assert beds_of(sick)["leaf-1"] == ["Long"]
    # What stands there already stays.
    assert beds_of(sick)["fruit-2"] == ["Long"]


def test_where_only_that_bed_is_named_there_is_no_room_and_it_says_why() -> None:
    only = FILE.replace("[Long, Low]", "[Long]")
    sown = tuple(each.replace("Low", "Long") for each in SOWN[:2])
    season = lived(*sown, SICK, "on: 2026-06-29, wave: fruit-3, did: skipped", file=only)
    assert beds_of(season)["fruit-4"] == []
    blocked = wave_of(season, "fruit-4").blocked
    assert blocked is not None
    assert blocked.sick == ("Long: fruit-1 was pulled there as sick on 10 Jul",)
    assert blocked.holders == ()
    assert blocked.opening is None
    assert said(season, "no-room")[0].endswith(
        "on 13 Jul: barred is Long: fruit-1 was pulled there as sick on 10 Jul"
    )


def test_the_warning_names_who_may_not_stand_there() -> None:
    season = lived(*SOWN, SICK)
    (found,) = [each for each in season.problems if each.code == "journal-sick"]
    assert found.message == (
        "Long is barred to the fruit family for the rest of the season: fruit-1 was pulled there "
        "as sick on 10 Jul"
    )
    assert found.span is not None
    assert (found.span.file, found.span.line) == ("journal.yaml", 4)
    assert found.hint is not None
    assert found.hint.startswith("fruit-4, other-1 may not stand there; bag or bury")
    assert said(lived(*SOWN, SICK.replace(", sick: yes", "")), "journal-sick") == []


def test_three_waves_that_may_not_stand_there_are_named_and_the_rest_counted() -> None:
    # Sown on 29 June and every three days from then until 25 July: on 2, 5, … 23 July, fruit-4 to
    # fruit-11, those before today overdue; with other-1 nine.
    many = FILE.replace("until: 07-14", "until: 07-25").replace("every: 14", "every: 3")
    season = lived(*SOWN, SICK, file=many)
    (found,) = [each for each in season.problems if each.code == "journal-sick"]
    assert found.hint is not None
    named = found.hint.partition(" may not stand there")[0]
    assert named == "fruit-4, fruit-5, fruit-6 and 6 more"


def test_it_is_not_warned_of_where_none_of_the_family_is_to_come() -> None:
    alone = gardens.text(gardens.wave(plants="4", start="06-01"), beds=BEDS, fall_allowance="0")
    assert said(lived(SOWN[0], SICK, file=alone), "journal-sick") == []


@pytest.mark.parametrize(
    "pulled",
    [
        SICK.replace("sick", "plants: 1, sick"),  # some of it, while the rest stands
        SICK.replace("did", "bed: Long, did"),
    ],
)
def test_some_plants_are_enough(pulled: str) -> None:
    assert beds_of(lived(*SOWN, pulled))["fruit-4"] == ["Low"]


def test_of_two_beds_only_the_one_that_it_was_pulled_from() -> None:
    two = (
        "on: 2026-06-01, wave: fruit-1, bed: Long, did: sown, plants: 2",
        "on: 2026-06-01, wave: fruit-1, bed: Low, did: sown, plants: 2",
    )
    season = lived(*two, *SOWN[1:], SICK.replace("did", "bed: Low, did"))
    barred = {season.room.beds[index].name for index, _ in season.room.sick}
    assert barred == {"Low"}


def test_what_was_planted_there_all_the_same_stands_with_a_warning() -> None:
    again = "on: 2026-07-11, wave: fruit-4, bed: Long, did: sown, plants: 4"
    season = lived(*SOWN, SICK, again)
    assert beds_of(season)["fruit-4"] == ["Long"]
    assert said(season, "rotation") == [
        "fruit-4 in Long: fruit-1 was pulled there as sick on 10 Jul"
    ]


def test_a_wave_between_others_keeps_out_too() -> None:
    # With a place free till the leaf is gone, Long has room for fruit between: not once barred.
    file = gardens.text(
        gardens.wave(plants="4", start="06-01", beds="[Long]"),
        gardens.wave("leaf", plants="5", start="06-01", beds="[Long]"),
        gardens.wave("fruit", name="late", plants="4", start="07-15", beds="[Long]", overlap="40"),
        crops=(gardens.crop(picking_days="40"), gardens.leaf(days_to_harvest="40")),
        fall_allowance="0",
    )
    assert beds_of(lived(file=file))["late-1"] == ["Long"]
    assert beds_of(lived(SOWN[0], SICK.replace("did", "plants: 1, did"), file=file))["late-1"] == []


def test_fits_knows_it() -> None:
    season = lived(*SOWN, SICK)
    fruit = gardens.crop_called(season, "fruit")
    long, low = season.garden.beds
    assert [s.bed for s in answer(season, Question(fruit, 1, None, None, False)).spots] == [low]
    assert answer(season, Question(fruit, 1, long, None, False)).spots == ()
    found = what_fits(season, BedQuestion(long, None, False, season.garden.crops))
    assert {"fruit", "other"} <= set(found.closed)
    asked = OpeningsQuestion((long,), None, 8)
    offered = {each.crop.name for o in coming_free(season, asked).openings for each in o.fits}
    assert not offered & {"fruit", "other"}
    healthy = lived(*SOWN, SICK.replace(", sick: yes", ""))
    assert [s.bed for s in answer(healthy, Question(fruit, 1, long, None, False)).spots] == [long]
    offered = {each.crop.name for o in coming_free(healthy, asked).openings for each in o.fits}
    assert offered & {"fruit", "other"}


def test_in_the_place_of_another_wave_it_speaks_against_the_family() -> None:
    season = lived(*SOWN, SICK)
    fruit = gardens.crop_called(season, "fruit")
    found = weigh(season, wave_of(season, "fruit-2"), Question(fruit, 1, None, None, False))
    assert found.rotation == "fruit-1 was pulled there as sick on 10 Jul"
    assert found.answer.spots == ()


def test_why_names_the_bed_that_is_barred() -> None:
    season = lived(*SOWN, SICK)
    said = " ".join(" ".join(why_text(wave_of(season, "fruit-4"), season)).split())
    assert (
        "Long is barred to the fruit family this season: fruit-1 was pulled there as sick on "
        "10 Jul."
    ) in said
    assert '"barred": [{"bed": "Long"' in why_json(wave_of(season, "fruit-4"), season).replace(
        "\n    ", ""
    )
    assert "barred" not in " ".join(why_text(wave_of(season, "fruit-2"), season))
    assert "barred" not in " ".join(why_text(wave_of(season, "leaf-1"), season))


def test_packing_afresh_keeps_out_too() -> None:
    # Both beds are wide open: packed afresh, the two fruit that are to come go where they may.
    file = FILE.replace("beds: [Long, Low]", "split: no").replace("1 x 10", "1 x 20")
    season = lived(SOWN[0], SICK, *SKIPPED, file=file)
    assert barred_to(repacked(season)) == []


SKIPPED = tuple(f"on: 2026-07-01, wave: fruit-{number}, did: skipped" for number in (2, 3))


def barred_to(season: Season) -> list[str]:
    """Return the waves that are planted in Long after fruit was pulled there as sick."""
    return [
        wave.id
        for wave in season.waves
        if wave.crop.family == "fruit family"
        and wave.stages.plant.day > date(2026, 7, 10)
        and "Long" in [stand.bed.name for stand in wave.stands]
    ]


def test_the_first_of_several_days_counts() -> None:
    later = "on: 2026-07-11, wave: fruit-2, did: pulled, sick: yes"
    for pulled in ((SICK, later), (later, SICK)):
        season = lived(*SOWN, *pulled)
        (found,) = season.room.sick.values()
        assert (found.wave, found.on) == ("fruit-1", date(2026, 7, 10))
    # Planted later and pulled earlier, it is told first all the same.
    sooner = "on: 2026-07-09, wave: fruit-2, did: pulled, sick: yes"
    (found,) = lived(*SOWN, SICK, sooner).room.sick.values()
    assert (found.wave, found.on) == ("fruit-2", date(2026, 7, 9))


def test_of_what_is_gone_nothing_is_said_to_fail() -> None:
    assert said(lived(*SOWN, SICK), "never-finishes") == []


def test_a_wave_that_was_never_noted_as_planted_bars_its_bed_for_all_the_same() -> None:
    # What names its beds has its turn before what may go anywhere: other-1 would be in Long before
    # it is known that fruit-1 was pulled there as sick five days before.
    file = gardens.text(
        gardens.wave(plants="4", start="06-01"),
        gardens.wave("other", plants="3", start="07-15", beds="[Long, Low]"),
        crops=(gardens.crop(), gardens.crop("other")),
        beds=BEDS,
        fall_allowance="0",
    )
    healthy = lived(SICK.replace(", sick: yes", ""), file=file)
    assert beds_of(healthy) == {"fruit-1": ["Long"], "other-1": ["Long"]}
    season = lived(SICK, file=file)
    assert beds_of(season) == {"fruit-1": ["Long"], "other-1": ["Low"]}
    assert said(season, "rotation") == []
