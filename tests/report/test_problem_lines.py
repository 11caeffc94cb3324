"""A problem in the terminal: what is cut of a long line, and where words go on below."""

from __future__ import annotations

from dataclasses import replace

import pytest

import factory
from sowtide.diagnostics import Problem, Severity, Span
from sowtide.report.blocks import plain
from sowtide.report.formats.terminal.problem_lines import lines

TEXT = "abcdefghijklmnopqrstuvwxyz0123456789ABCDEFGHIJ"
"""46 characters."""


def at(column: int, length: int, text: str = TEXT) -> list[str]:
    """Return the line of a place and what marks it, behind what stands before both, at 30 cells."""
    span = Span("a.yaml", 20, column, length, text)
    found = plain(lines(factory.problem(span=span, hint=None), 30))
    shown, marked = found[-2:]
    assert (shown[:6], marked[:6]) == (" 20 | ", "    | ")
    return [shown[6:], marked[6:]]


@pytest.mark.parametrize(
    ("column", "length", "shown", "marked"),
    [
        # 24 cells are left beside the number of the line, and 18 where both ends are cut. The place
        # itself first, then a character on its left, one on its right, and so on.
        (21, 3, "...mnopqrstuvwxyz0123...", "           ^^^"),
        (1, 1, "abcdefghijklmnopqr...", "^"),
        (1, 3, "abcdefghijklmnopqr...", "^^^"),
        (9, 1, "abcdefghijklmnopqr...", "        ^"),
        (10, 1, "abcdefghijklmnopqr...", "         ^"),
        (11, 1, "...bcdefghijklmnopqrs...", "            ^"),
        (46, 1, "...23456789ABCDEFGHIJ", "                    ^"),
        (47, 1, "...23456789ABCDEFGHIJ", "                     ^"),
        (6, 30, "...fghijklmnopqrstuvw...", "   ^^^^^^^^^^^^^^^^^^"),
        (6, 18, "...fghijklmnopqrstuvw...", "   ^^^^^^^^^^^^^^^^^^"),
        (6, 17, "...efghijklmnopqrstuv...", "    ^^^^^^^^^^^^^^^^^"),
    ],
)
def test_of_a_long_line_what_stands_around_the_place_is_shown(
    column: int, length: int, shown: str, marked: str
) -> None:
    assert at(column, length) == [shown, marked]


def test_a_line_that_fits_is_shown_whole() -> None:
    assert at(24, 1, TEXT[:24]) == [TEXT[:24], " " * 23 + "^"]
    assert at(1, 1, TEXT[:25]) == ["abcdefghijklmnopqr...", "^"]


@pytest.mark.parametrize(
    ("text", "column", "length", "shown", "marked"),
    [
        ("\tpea: x", 2, 3, "    pea: x", "    ^^^"),
        ("東京: pea", 5, 3, "東京: pea", "      ^^^"),
        ("東京: pea", 1, 2, "東京: pea", "^^^^"),
        ("e\N{COMBINING ACUTE ACCENT}: pea", 5, 3, "e\N{COMBINING ACUTE ACCENT}: pea", "   ^^^"),
        ("a\x07b", 3, 1, "a?b", "  ^"),
        ("é~ x", 4, 1, "é~ x", "   ^"),
    ],
)
def test_the_place_is_marked_below_whatever_stands_before_it(
    text: str, column: int, length: int, shown: str, marked: str
) -> None:
    assert at(column, length, text) == [shown, marked]


SPAN = Span("garden.yaml", 20, 3, 1, "")
PROBLEM = Problem(
    severity=Severity.ERROR,
    code="no-room",
    message="bush-bean-3: no room",
    hint=None,
    span=SPAN,
    wave=None,
    about=None,
)


@pytest.mark.parametrize(
    ("width", "said"),
    [
        # The place and what it is take 25 cells, the first word 12, all of the words 30.
        (55, ["garden.yaml:20:3: error: bush-bean-3: no room [no-room]"]),
        (54, ["garden.yaml:20:3: error: bush-bean-3: no room", "    [no-room]"]),
        (37, ["garden.yaml:20:3: error: bush-bean-3:", "    no room [no-room]"]),
        (36, ["garden.yaml:20:3: error:", "    bush-bean-3: no room [no-room]"]),
        (34, ["garden.yaml:20:3: error:", "    bush-bean-3: no room [no-room]"]),
        (33, ["garden.yaml:20:3: error:", "    bush-bean-3: no room", "    [no-room]"]),
        (12, ["garden.yaml:20:3: error:", "    bush-bean-3: no room", "    [no-room]"]),
    ],
)
def test_words_go_on_below_the_place_where_they_have_no_room(width: int, said: list[str]) -> None:
    assert list(plain(lines(PROBLEM, width))) == said


def test_a_word_too_long_for_a_line_stays_where_it_is() -> None:
    long = replace(PROBLEM, message="x" * 30)
    assert plain(lines(long, 33)) == (f"garden.yaml:20:3: error: {'x' * 30}", "    [no-room]")
    assert plain(lines(long, 34)) == (
        "garden.yaml:20:3: error:",
        f"    {'x' * 30}",
        "    [no-room]",
    )
    deep = replace(PROBLEM, span=replace(SPAN, file="d" * 21))  # its place takes 34 cells
    assert plain(lines(deep, 33))[0] == f"{'d' * 21}:20:3: error: bush-bean-3:"
    assert plain(lines(deep, 34))[0] == f"{'d' * 21}:20:3: error:"


def test_a_hint_hangs_under_its_own_words() -> None:
    hinted = replace(PROBLEM, span=None, hint="plant fewer, or name another bed")
    assert plain(lines(hinted, 34, also=("b-2", "b-3"))) == (
        "error: bush-bean-3: no room",
        "    [no-room]",
        "    = hint: plant fewer, or name",
        "            another bed",
        "    = also: b-2; b-3",
    )
    here = replace(hinted, span=replace(SPAN, line=120, text="beds: [A]", column=8))
    assert plain(lines(here, 60))[1:] == (
        " 120 | beds: [A]",
        "     |        ^",
        "     = hint: plant fewer, or name another bed",
    )
