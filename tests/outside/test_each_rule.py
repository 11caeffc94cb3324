"""The table in docs/counting.md of what each rule does: its first row is counted again."""

from __future__ import annotations

from pathlib import Path

import each_rule

PAGE = Path(__file__).parents[2] / "docs" / "counting.md"


def test_the_row_with_all_rules_stands_in_the_document() -> None:
    assert each_rule.counts("nothing") in PAGE.read_text(encoding="utf-8")


def test_every_rule_that_is_left_out_has_its_row() -> None:
    rows = PAGE.read_text(encoding="utf-8").partition(each_rule.HEAD)[2].partition("\n\n")[0]
    names = [row.split(" | ")[0].removeprefix("| ") for row in rows.splitlines()[2:]]
    assert names == list(each_rule.CHANGES)
