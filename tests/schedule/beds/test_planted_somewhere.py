"""What is noted as planted without a bed: it stands beside what was there before it."""

from __future__ import annotations

from datetime import date

import gardens
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status

BEDS = ("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10}")
FILE = gardens.text(
    gardens.wave(plants="8", start="06-01", beds="[Long]"),
    gardens.wave("other", plants="8", start="06-10"),
    gardens.wave("leaf", plants="8", start="06-20", beds="[Low]"),
    crops=(gardens.crop(), gardens.crop("other"), gardens.leaf()),
    beds=BEDS,
    fall_allowance="0",
)


def lived(*entries: str) -> Season:
    """Return the season of the garden with some entries in its journal."""
    return gardens.lived(FILE, date(2026, 6, 15), *entries)


def beds_of(season: Season) -> dict[str, list[str]]:
    return {wave.id: [stand.bed.name for stand in wave.stands] for wave in season.waves}


PLANTED = "on: 2026-06-10, wave: other-1, did: sown, plants: 8"


def test_it_does_not_take_the_bed_of_what_stands_there_since_before_the_journal() -> None:
    # Each bed has room for ten plants: fruit-1 stands in Long since 1 June, so other-1 is in Low.
    found = lived(PLANTED)
    assert beds_of(found)["fruit-1"] == ["Long"]
    assert beds_of(found)["other-1"] == ["Low"]
    assert all(wave.status is not Status.NO_ROOM for wave in found.waves[:2])


def test_it_stands_before_what_is_still_to_come() -> None:
    # leaf-1 names Low, from 20 June on: other-1 stands there already.
    leaf = next(wave for wave in lived(PLANTED).waves if wave.id == "leaf-1")
    assert (leaf.status, leaf.stands) == (Status.NO_ROOM, ())


def test_with_a_bed_noted_it_stands_there_whoever_was_taken_to_stand_there() -> None:
    found = lived(f"{PLANTED}, bed: Long")
    assert beds_of(found)["other-1"] == ["Long"]
    assert beds_of(found)["fruit-1"] == []


def test_what_is_due_since_the_journal_began_and_not_noted_is_not_taken_as_planted() -> None:
    # The journal begins on 1 June, so fruit-1 is still to be sown and other-1 has its turn first.
    found = lived(f"{PLANTED}", "on: 2026-06-01, wave: leaf-1, did: skipped")
    assert beds_of(found)["other-1"] == ["Long"]
