"""Files as large as files may be, odd inside: the work they make grows with their size, no faster.

Nothing is timed: steps, characters and entries are counted.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import SupportsIndex

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowtide.diagnostics import Problem, Severity, Span
from sowtide.garden.read import read_garden
from sowtide.garden.text import tree as tree_module
from sowtide.garden.text.refused import did_you_mean
from sowtide.garden.text.source import LARGEST, Source, decode
from sowtide.garden.text.syntax import explain
from sowtide.garden.text.tree import parse
from sowtide.report.formats.terminal import problem_lines

HEAD = """
site: {name: G, latitude: 43, units: us, frost: {last: 05-08, first: 10-02}}
season: 2026
"""


class CountedLine(str):
    """A line that counts the characters that are taken out of it."""

    __slots__ = ()
    taken = 0

    def __getitem__(self, key: SupportsIndex | slice) -> str:
        found = super().__getitem__(key)
        CountedLine.taken += len(found)
        return found


@pytest.mark.parametrize(
    "parts",
    ["'a' ", "\" ' ", ": ' ", "- ' ", "a: 'b' c", "[ ", "[}", "{a: [b}", "- [", ", # ", "!a "],
)
def test_what_a_line_that_does_not_parse_is_searched_for_grows_with_its_length(parts: str) -> None:
    taken = []
    for times in (1_000, 4_000):
        line = CountedLine("beds: x: " + parts * times)
        source = Source("garden.yaml", f"season: 2026\n{line}", ("season: 2026", line))
        CountedLine.taken = 0
        explain(source, (1, len(line)), None)
        taken.append(CountedLine.taken)
    assert taken[1] <= 4.2 * taken[0] + 20
    assert taken[1] < 12 * len(line)


@pytest.mark.parametrize("entry", ["1,", "{},"])
def test_a_file_of_more_than_any_garden_holds_is_read_no_further(
    monkeypatch: pytest.MonkeyPatch, entry: str
) -> None:
    assert tree_module._MOST == 250_000
    monkeypatch.setattr(tree_module, "_MOST", 25_000)
    text = HEAD + "beds: [" + entry * ((LARGEST - 1_000) // len(entry)) + "]\n"
    source = decode(text.encode(), "garden.yaml")
    assert isinstance(source, Source)
    tree = parse(source)
    assert tree.broken
    (problem,) = tree.problems
    assert (problem.code, problem.message) == (
        "too-big",
        "25,000 keys, values and brackets stand above; no garden's file has so many",
    )
    assert problem.span is not None
    assert problem.span.column < 7 + 25_000 * len(entry)


def test_a_large_garden_is_read_whole() -> None:
    beds = "".join(f"  - {{bed: B{number}, size: 4 x 20}}\n" for number in range(3_000))
    waves = "".join(
        f"  - {{crop: bush bean, name: w{number}, plants: 6, from: 05-20, every: 14, count: 1, "
        f"beds: [B{number % 3_000}]}}\n"
        for number in range(10_000)
    )
    source = decode(f"{HEAD}beds:\n{beds}waves:\n{waves}".encode(), "garden.yaml")
    assert isinstance(source, Source)
    assert not parse(source).problems


@pytest.mark.parametrize("row", ["a: 1\n", "? [x]\n", "b: !c 1\n", "d: *e\n", "f: &g 1\n"])
def test_behind_a_thousand_things_that_may_not_be_nothing_is_read(row: str) -> None:
    source = decode((HEAD + row * 20_000).encode(), "garden.yaml")
    assert isinstance(source, Source)
    tree = parse(source)
    assert len(tree.problems) <= 1_000


def test_of_a_long_line_only_what_is_near_the_place_is_looked_at(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    looked: list[str] = []
    cell = problem_lines._cell
    monkeypatch.setattr(problem_lines, "_cell", lambda char: looked.append(char) or cell(char))
    text = "a" * 2_000_000 + "HERE" + "b" * 2_000_000
    problem = Problem(Severity.ERROR, "code", "x", None, Span("f", 1, 2_000_001, 4, text))
    _, shown, caret = (line.plain for line in problem_lines.lines(problem, 80))
    assert shown[caret.index("^") :].startswith("HEREbb")
    assert shown.startswith(" 1 | ...aa")
    assert shown.endswith("bb...")
    assert len(looked) <= 2_004


# How far two words are apart


def table(word: str, other: str) -> int:
    """Letters dropped, added, changed or swapped, by the table that the textbooks fill."""
    rows = [[max(i, j) for j in range(len(other) + 1)] for i in range(len(word) + 1)]
    for i, j in _places(word, other):
        changed = rows[i - 1][j - 1] + (word[i - 1] != other[j - 1])
        rows[i][j] = min(changed, rows[i - 1][j] + 1, rows[i][j - 1] + 1)
        if i > 1 and j > 1 and word[i - 1] == other[j - 2] and word[i - 2] == other[j - 1]:
            rows[i][j] = min(rows[i][j], rows[i - 2][j - 2] + 1)
    return rows[-1][-1]


def _places(word: str, other: str) -> Iterator[tuple[int, int]]:
    for i in range(1, len(word) + 1):
        for j in range(1, len(other) + 1):
            yield i, j


@given(st.text("abc", min_size=3, max_size=9), st.lists(st.text("abc", min_size=1, max_size=9)))
def test_the_known_word_with_the_fewest_slips_is_meant(word: str, known: list[str]) -> None:
    near = [name for name in known if table(word, name) <= max(1, len(word) // 3)]
    best = min(near, key=lambda name: table(word, name), default=None)
    assert did_you_mean(word, tuple(known)) == best


def test_a_misspelt_bed_among_thousands_is_found() -> None:
    beds = "".join(f"  - {{bed: Long bed {number}, size: 4 x 20}}\n" for number in range(2_000))
    wave = "  - {crop: bush bean, plants: 6, from: 05-20, beds: [Lnog bed 1234]}\n"
    (problem,) = read_garden(f"{HEAD}beds:\n{beds}waves:\n{wave}".encode(), "garden.yaml").problems
    assert problem.hint == "did you mean 'Long bed 1234'?"
