"""Whatever stands in a file, reading it ends in a garden or in problems that have a place."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from errors import page
from sowtide.diagnostics import Problem, Severity
from sowtide.garden.read import Reading, read_garden
from sowtide.garden.text.source import Source, decode
from sowtide.garden.text.tree import parse
from sowtide.report.formats.terminal.problem_lines import lines

DEMO = Path(__file__).parents[2] / "src" / "sowtide" / "demo" / "garden.yaml"
WHOLE = [DEMO.read_text(encoding="utf-8"), *(case.text for case in page.cases() if case.text)]
SIGNS = " :-#'\"[]{},&*!|>%@`\t?\\0129ax~<=.é床\u00a0\u2028\0"


def sound(data: bytes) -> Reading:
    """Read and check what holds for every file."""
    reading = read_garden(data, "garden.yaml")
    assert (reading.garden is None) == any(p.severity is Severity.ERROR for p in reading.problems)
    source = decode(data, "garden.yaml")
    for problem in reading.problems:
        span = problem.span
        assert span is not None
        assert 1 <= span.column <= len(span.text) + 1
        assert span.column + span.length - 1 <= max(len(span.text), span.column)
        if isinstance(source, Source):
            assert span.text == source.lines[span.line - 1]
        assert problem.message.isprintable()
        assert "yaml" not in problem.message.lower()
        assert lines(problem, 60)
    places = [(p.span.line, p.span.column) for p in reading.problems if p.span]
    assert places == sorted(places)
    return reading


def asked_for(data: bytes) -> tuple[int, int]:
    """How many beds and waves a file asks for."""
    source = decode(data, "garden.yaml")
    assert not isinstance(source, Problem)
    value: Any = parse(source).value
    return len(value["beds"]), len(value.get("waves", []))


@st.composite
def changed(draw: st.DrawFn) -> str:
    """Return a file in which a few lines are dropped, doubled, swapped, moved or mistyped."""
    rows = draw(st.sampled_from(WHOLE)).split("\n")
    for _ in range(draw(st.integers(1, 5))):
        at, other = (draw(st.integers(0, len(rows) - 1)) for _ in range(2))
        how = draw(st.integers(0, 6))
        if how == 0 and len(rows) > 1:
            del rows[at]
        elif how == 1:
            rows.insert(at, rows[other])
        elif how == 2:
            rows[at], rows[other] = rows[other], rows[at]
        elif how == 3:
            rows[at] = " " * draw(st.integers(0, 6)) + rows[at].lstrip()
        else:
            column = draw(st.integers(0, len(rows[at])))
            cut = draw(st.integers(0, 2))
            sign = draw(st.sampled_from(SIGNS))
            rows[at] = rows[at][:column] + sign + rows[at][column + cut :]
    return "\n".join(rows)


@settings(max_examples=400, deadline=None)
@given(changed())
def test_a_file_with_slips_of_the_pen(text: str) -> None:
    data = text.encode()
    reading = sound(data)
    if reading.garden is not None:
        found = len(reading.garden.beds), len(reading.garden.entries)
        assert found == asked_for(data)


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(WHOLE), st.integers(0, 10**6), st.binary(min_size=1, max_size=4))
def test_a_file_with_stray_bytes(text: str, at: int, stray: bytes) -> None:
    data = text.encode()
    at %= len(data)
    sound(data[:at] + stray + data[at:])


@settings(max_examples=150, deadline=None)
@given(st.one_of(st.binary(), st.text(SIGNS + "\n").map(str.encode)))
def test_anything_at_all(data: bytes) -> None:
    sound(data)
