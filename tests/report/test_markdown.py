"""Markdown as another program reads it: tables whole, names as written, nothing that is markup."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from sowtide.report import REPORTS, calendar, plan
from sowtide.report.blocks import (
    Block,
    Cells,
    Heading,
    ShareBar,
    ShareBars,
    Style,
    Table,
    Text,
    line,
)
from sowtide.report.formats.markdown import _WRITERS, MARK, markdown_page
from sowtide.season import load, load_demo, season_of

READER = MarkdownIt("commonmark").enable(["table", "strikethrough"])
TRICKY = "Bed *1* | _a_ <b>x</b> [l](u) ~~z~~ # &amp; \\ 1."


def tokens(text: str) -> list[Any]:
    return READER.parse(text)


def words(text: str) -> list[str]:
    """Return the texts of a document as a reader shows them."""
    return [
        "".join(child.content for child in token.children or ())
        for token in tokens(text)
        if token.type == "inline"
    ]


def test_every_block_is_written() -> None:
    assert set(_WRITERS) == set(get_args(Block))


@pytest.mark.parametrize("command", ["plan", "calendar"])
def test_tables_have_the_cells_that_the_blocks_have(command: str) -> None:
    loaded = load_demo()
    assert loaded.garden is not None
    of = season_of(loaded.garden, date(2026, 7, 16))
    view = plan.view(of) if command == "plan" else calendar.view(of)
    text = markdown_page(REPORTS[command].page(view))
    assert text.startswith(f"{MARK}\n\n# ")
    seen = words(text)
    for wave in of.waves:
        assert wave.id in seen
    widths = []
    for token in tokens(text):
        if token.type == "tr_open":
            widths.append(0)
        elif token.type in ("th_open", "td_open"):
            widths[-1] += 1
    lines = [each for each in text.splitlines() if each.startswith("| ---")]
    assert {each.count("|") - 1 for each in lines} == set(widths)


def test_a_name_reads_as_it_was_written(tmp_path: Path) -> None:
    path = tmp_path / "garden.yaml"
    path.write_text(
        "site: {name: T, latitude: 42, units: us, frost: {last: 05-06, first: 10-01}}\n"
        f"season: 2026\nbeds: [{{bed: '{TRICKY}', size: 4 x 20}}]\n"
        "waves: [{crop: bush bean, plants: 10, from: 05-20}]\n",
        encoding="utf-8",
    )
    loaded = load(path)
    assert loaded.garden is not None, loaded.problems
    of = season_of(loaded.garden, date(2026, 5, 20))
    assert TRICKY in words(markdown_page(REPORTS["calendar"].page(calendar.view(of))))


SIGNS = st.text("ab1 *_[]()<>|~#&;\\.-+=!", min_size=1, max_size=12).map(
    lambda text: " ".join(text.split())
)


@given(SIGNS.filter(bool), SIGNS.filter(bool))
def test_words_are_words_wherever_they_stand(one: str, other: str) -> None:
    table = Table("n", (Cells("c"),), ((one, (other,)),))
    text = markdown_page([Heading("T"), Text(one), Text(line((other, Style.DIM))), table])
    assert words(text) == ["T", one, other, "n", "c", one, other]


def test_days_and_their_shares_stand_at_the_right() -> None:
    bars = ShareBars((ShareBar("8 May", "50 in 100", 0.5), ShareBar("20 May", "5 in 100", 0.05)))
    (head, sides, *rows) = markdown_page([Heading("T"), bars]).split("\n\n")[-1].splitlines()
    assert [cell.strip() for cell in head.strip("|").split("|")] == ["", "share"]
    assert sides == "| ---: | ---: |"
    assert rows == ["| 8 May | 50 in 100 |", "| 20 May | 5 in 100 |"]


def test_what_stands_in_backticks_is_code() -> None:
    text = markdown_page([Heading("T"), Text("write `season: *2026*` there")])
    (inline,) = [t for t in tokens(text) if t.type == "inline" and "write" in t.content]
    assert [c.content for c in inline.children if c.type == "code_inline"] == ["season: *2026*"]
