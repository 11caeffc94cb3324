"""From the journal's entries to what happened to each wave, and what cannot be true."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import gardens
from sowtide.days import GrowingYear
from sowtide.garden.crop import Raised
from sowtide.garden.journal import Did, Happening, Journal, journal_of
from sowtide.schedule.happened import (
    Account,
    Accounts,
    accounts_of,
    contradictions,
    happened_in,
    status_of,
    still_to_come,
)
from sowtide.schedule.waves import Status
from sowtide.season import load

NORTH = GrowingYear(2026, south=False)
TODAY = date(2026, 8, 1)
GARDEN = gardens.read(
    gardens.text(
        gardens.wave(plants="10", every="14"),
        gardens.wave(name="once", plants="4"),
        beds=("{bed: Long, size: 2 x 10}", "{bed: Low, size: 1 x 10}"),
    )
)


def journal(*entries: str) -> Journal:
    """Return a journal; each entry is written without its brackets."""
    read = journal_of("".join(f"- {{{each}}}\n" for each in entries).encode(), "journal.yaml")
    assert read.journal is not None, [problem.message for problem in read.problems]
    return read.journal


def account(*entries: str) -> Account:
    """Return the account of the one wave that the entries tell of."""
    (found,) = accounts_of(journal(*entries).happenings)
    return found


def wrong(*entries: str) -> list[tuple[str, int]]:
    """Return code and line of everything that contradicts itself in a journal."""
    found = contradictions(GARDEN, journal(*entries).happenings)
    return [(each.code, each.span.line) for each in found if each.span]


def test_an_entry_is_of_the_season_its_day_lies_in_unless_it_says_another() -> None:
    kept = happened_in(
        journal(
            "on: 2026-05-01, wave: fruit-1, did: sown",
            "on: 2025-05-01, wave: fruit-1, did: sown",
            "on: 2025-12-20, wave: fruit-2, did: sown, season: 2026",
            "on: 2026-07-01, wave: fruit-1, did: picked, season: 2025",
            "on: 2026-08-02, wave: fruit-1, did: picked",
            "on: 2062-07-02, wave: fruit-1, did: picked",
        ),
        NORTH,
        TODAY,
    )
    assert [each.span.line for each in kept.happenings] == [1, 3]
    assert [each.span.line for each in kept.to_come] == [5, 6]
    assert Accounts(kept.happenings, TODAY).begun == date(2025, 12, 20)
    # South of the equator a season runs from July to June.
    south = happened_in(
        journal("on: 2026-06-30, did: rain, amount: 1mm", "on: 2026-07-01, did: rain, amount: 2mm"),
        GrowingYear(2025, south=True),
        TODAY,
    )
    assert [each.span.line for each in south.happenings] == [1]


def test_what_is_to_come_is_told_once() -> None:
    kept = happened_in(
        journal(
            "on: 2026-08-20, did: rain, amount: 1mm", "on: 2026-08-02, wave: fruit-1, did: picked"
        ),
        NORTH,
        TODAY,
    )
    (told,) = still_to_come(kept.to_come, TODAY)
    assert told.message == "2 Aug is still to come on 1 Aug, as is one more entry: not counted"
    assert told.span is not None
    assert told.span.line == 2
    assert still_to_come((), TODAY) == ()
    (far,) = still_to_come(kept.to_come[1:], date(2025, 12, 31))
    assert far.message == "2026-08-02 is still to come on 31 Dec: not counted"


def test_the_account_of_a_wave_puts_its_entries_in_order() -> None:
    found = account(
        "on: 2026-07-20, wave: fruit-1, did: picked, amount: 2",
        "on: 2026-07-10, wave: fruit-1, did: first picked",
        "on: 2026-05-20, wave: fruit-1, did: sown, plants: 10",
        "on: 2026-05-30, wave: fruit-1, did: up",
        "on: 2026-06-20, wave: fruit-1, did: lost, plants: 3",
    )
    assert [each.did for each in found.happenings] == [
        Did.SOWN,
        Did.UP,
        Did.LOST,
        Did.FIRST_PICKED,
        Did.PICKED,
    ]
    assert found.sown is not None
    assert found.sown.plants == 10
    assert found.first_pick is not None
    assert found.first_pick.on == date(2026, 7, 10)
    assert (found.gone, found.skipped) == (None, None)


def test_a_picking_is_the_first_even_if_it_was_not_called_so() -> None:
    found = account("on: 2026-07-20, wave: fruit-1, did: picked, amount: 2")
    assert found.first_pick is not None
    assert found.first_pick.on == date(2026, 7, 20)


def test_a_wave_takes_its_space_when_sown_direct_or_planted_out() -> None:
    sown = account("on: 2026-05-20, wave: fruit-1, did: sown")
    assert [each.on for each in sown.planting(Raised.DIRECT)] == [date(2026, 5, 20)]
    assert sown.planting(Raised.TRAYS) == ()
    out = account(
        "on: 2026-05-20, wave: fruit-1, did: sown",
        "on: 2026-06-20, wave: fruit-1, did: planted out",
    )
    for raised in Raised:
        assert [each.on for each in out.planting(raised)] == [date(2026, 6, 20)]


def test_only_all_of_its_plants_are_the_wave() -> None:
    part = account("on: 2026-07-20, wave: fruit-1, did: pulled, plants: 4")
    assert part.gone is None
    one_bed = account("on: 2026-07-20, wave: fruit-1, bed: Long, did: lost")
    assert one_bed.gone is None
    whole = account("on: 2026-07-20, wave: fruit-1, did: lost")
    assert whole.gone is not None


@pytest.mark.parametrize(
    ("did", "direct", "trays"),
    [
        ("prepared", None, None),
        ("scouted, found: none", None, None),
        ("skipped", Status.SKIPPED, Status.SKIPPED),
        ("up", Status.PAST, None),
        ("thinned", Status.PAST, None),
        ("hardened", Status.PAST, None),
        ("fed", Status.PAST, Status.PAST),
        ("sown", Status.SOWN, Status.SOWN),
        ("planted out", Status.PLANTED, Status.PLANTED),
        ("picked", Status.PICKING, Status.PICKING),
        ("last picked", Status.OVER, Status.OVER),
    ],
)
def test_how_far_a_wave_has_come_by_one_entry(
    did: str, direct: Status | None, trays: Status | None
) -> None:
    found = account(f"on: 2026-07-20, wave: fruit-1, did: {did}")
    assert status_of(found, None, Raised.DIRECT) is direct
    assert status_of(found, None, Raised.TRAYS) is trays


def test_a_wave_is_skipped_unless_it_grows() -> None:
    assert account("on: 2026-07-20, wave: fruit-1, did: skipped").skipped is not None
    assert account("on: 2026-07-20, wave: fruit-1, did: skipped, skips: thinned").skipped is None
    grows = account(
        "on: 2026-05-20, wave: fruit-1, did: sown", "on: 2026-07-20, wave: fruit-1, did: skipped"
    )
    assert grows.skipped is None


SOWN = "on: 2026-05-20, wave: fruit-1, did: sown, plants: 10"


@pytest.mark.parametrize(
    ("entries", "found"),
    [
        ((SOWN, "on: 2026-05-20, wave: fruit-1, did: up, plants: 30"), []),
        ((SOWN, SOWN), []),
        ((SOWN, SOWN.replace("05-20", "05-21")), [("journal-twice", 2)]),
        (
            (SOWN + ", bed: Long", SOWN.replace("05-20", "05-21") + ", bed: Low"),
            [],
        ),
        (("on: 2026-05-19, wave: fruit-1, did: up", SOWN), [("journal-order", 2)]),
        ((SOWN, "on: 2026-05-19, wave: fruit-1, did: planted out"), [("journal-order", 2)]),
        ((SOWN, "on: 2026-05-19, wave: fruit-1, did: lost"), [("journal-order", 2)]),
        # Two beds: what is picked in one does not have to wait for the other.
        (
            (
                SOWN + ", bed: Long",
                SOWN.replace("05-20", "06-20") + ", bed: Low",
                "on: 2026-06-01, wave: fruit-1, bed: Long, did: up",
            ),
            [],
        ),
        (
            (
                "on: 2026-07-01, wave: fruit-1, bed: Long, did: pulled",
                "on: 2026-07-02, wave: fruit-1, bed: Low, did: picked",
                "on: 2026-07-03, wave: fruit-1, bed: Long, did: picked",
            ),
            [("journal-order", 3)],
        ),
        (
            (
                "on: 2026-06-20, wave: fruit-1, bed: Long, did: planted out",
                "on: 2026-06-10, wave: fruit-1, bed: Low, did: picked",
            ),
            [],
        ),
        (
            (
                "on: 2026-07-18, wave: fruit-1, bed: Long, did: last picked",
                "on: 2026-07-25, wave: fruit-1, bed: Low, did: picked",
            ),
            [],
        ),
        (
            ("on: 2026-07-01, wave: fruit-1, did: pulled", "on: 2026-07-01, did: soil, amount: 9C"),
            [],
        ),
        (
            (
                "on: 2026-07-01, wave: fruit-1, did: pulled",
                "on: 2026-07-01, wave: fruit-1, did: picked",
            ),
            [],
        ),
        (
            (
                "on: 2026-07-01, wave: fruit-1, did: pulled",
                "on: 2026-07-08, wave: fruit-1, did: pulled",
            ),
            [("journal-order", 2)],
        ),
        (
            (SOWN, "on: 2026-06-01, wave: fruit-1, did: thinned, plants: 11"),
            [("journal-plants", 2)],
        ),
        (
            (
                "on: 2026-04-20, wave: fruit-1, did: sown, plants: 10",
                "on: 2026-05-20, wave: fruit-1, did: planted out, plants: 6",
                "on: 2026-05-27, wave: fruit-1, did: lost, plants: 7",
            ),
            [("journal-plants", 3)],
        ),
        (("on: 2026-05-27, wave: fruit-1, did: lost, plants: 10",), []),
        (("on: 2026-05-27, wave: fruit-1, did: lost, plants: 11",), [("journal-plants", 1)]),
        (("on: 2026-05-27, wave: fruit-0, did: sown",), [("journal-wave", 1)]),
        (("on: 2026-05-27, wave: fruit-01, did: sown",), [("journal-wave", 1)]),
        (("on: 2026-05-27, wave: fruit-367, did: sown",), [("journal-wave", 1)]),
        (("on: 2026-05-27, wave: fruit, did: sown",), [("journal-wave", 1)]),
        (("on: 2026-05-27, wave: once-2, did: sown",), [("journal-wave", 1)]),
        (("on: 2026-05-27, wave: once-1, bed: long, did: sown",), [("journal-bed", 1)]),
    ],
)
def test_what_cannot_be_true_is_told_where_it_stands_further_down(
    entries: tuple[str, ...], found: list[tuple[str, int]]
) -> None:
    assert wrong(*entries) == found


LIFE = (
    SOWN,
    "on: 2026-05-30, wave: fruit-1, did: up, plants: 9",
    "on: 2026-07-10, wave: fruit-1, did: first picked",
    "on: 2026-07-13, wave: fruit-1, did: picked, amount: 2",
    "on: 2026-07-20, wave: fruit-1, did: lost, plants: 4",
    "on: 2026-07-24, wave: fruit-1, did: last picked",
    "on: 2026-07-25, wave: fruit-1, did: pulled",
    "on: 2026-07-25, wave: once-1, did: skipped",
)


def _said(found: tuple[Account, ...]) -> list[tuple[str, list[str]]]:
    return [(each.wave, [one.line for one in each.happenings]) for each in found]


@given(st.permutations(LIFE))
def test_the_order_of_the_entries_makes_no_difference(shuffled: list[str]) -> None:
    in_order: tuple[Happening, ...] = journal(*LIFE).happenings
    found = journal(*shuffled).happenings
    assert contradictions(GARDEN, found) == ()
    assert _said(accounts_of(found)) == _said(accounts_of(in_order))


def test_a_mistake_hides_no_contradiction_of_other_waves(tmp_path: Path) -> None:
    (tmp_path / "garden.yaml").write_text(gardens.text(gardens.wave(every="14")))
    (tmp_path / "journal.yaml").write_text(
        "- {on: 2026-06-10, wave: fruit-1, did: first picked}\n"
        "- {on: 2026-06-12, wave: fruit-1, did: sown}\n"
        "- {on: 2026-06-12, wave: fruit-2, did: sown}\n"
        "- {on: 2026-06-13, wave: fruit-2, did: sown}\n"
        "- {on: 2026-06-12, wave: fruit-2, did: sown, undone: yse}\n"
    )
    loaded = load(tmp_path / "garden.yaml")
    # Line 5 may take back line 3: whether line 4 contradicts it, nobody knows yet.
    assert [(each.code, each.span and each.span.line) for each in loaded.problems] == [
        ("journal-order", 2),
        ("choice", 5),
    ]
    assert (loaded.garden, loaded.journal) == (None, None)


@pytest.mark.parametrize(
    ("one", "other", "contradicts"),
    [
        ("bed: Long", "bed: Long", True),
        ("bed: Long", "bed: Low", False),
        ("bed: Long", "note: x", True),
        ("note: x", "bed: Low", True),
    ],
)
def test_a_wave_is_picked_no_more_in_a_bed_that_was_picked_for_the_last_time(
    one: str, other: str, contradicts: bool
) -> None:
    found = wrong(
        f"on: 2026-07-20, wave: fruit-1, did: last picked, {one}",
        f"on: 2026-07-25, wave: fruit-1, did: picked, {other}",
    )
    assert bool(found) is contradicts
