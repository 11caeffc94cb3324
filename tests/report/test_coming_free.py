"""What comes free in a week, on its sheet: spaces that open, and those that are free already."""

from __future__ import annotations

from datetime import date

import gardens
from printed import week_text

MONDAY = date(2026, 7, 20)
FULL = "{bed: Full, size: 1 x 10}"
FREE = "{bed: Idle, size: 1 x 10}"


def lines(*beds: str) -> list[str]:
    """Return what a sheet says of spaces, of a wave that is pulled on Wednesday 22 July."""
    # Sown on 19 May, first picked 50 days on, on 8 July, for 14 days: gone on the 22nd.
    wave = gardens.wave(start="05-19", plants="10", beds="[Full]")
    of = gardens.season(gardens.text(wave, beds=beds, fall_allowance="0"), MONDAY)
    (sheet,) = gardens.sheets(of, MONDAY)
    page = week_text(sheet, of)
    begin = next(n for n, line in enumerate(page) if line.startswith("COMES FREE"))
    return [line for line in page[begin:] if line][:2]


def test_a_space_that_opens_says_when_how_much_and_as_what_leaves() -> None:
    assert lines(FULL) == ["COMES FREE", " Full: Wed 22 Jul, 10 m², as fruit-1 leaves"]


def test_spaces_that_are_free_already_are_counted_beside_it() -> None:
    def head(*beds: str) -> str:
        return " ".join(lines(FULL, *beds)[0].split())

    assert head(FREE) == "COMES FREE besides 1 space free already"
    bare = FREE.replace("Idle", "Bare")
    assert head(FREE, bare) == "COMES FREE besides 2 spaces free already"
