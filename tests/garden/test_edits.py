"""Changes to a file's text in place: what is not changed stays to the letter."""

from __future__ import annotations

import pytest

from sowtide.diagnostics import Problem
from sowtide.garden.text import Edits, decode, parse

BLOCK = """\
# A remark.
season: 2026   # this year
beds:
  - bed: Long   # first
    size: 1 x 10
    grew:
      2025: leaf family
  - {bed: Low, size: 1 x 10, grew: {2025: [a, b]}}
waves:
  - crop: fruit
    from: 2026-05-01
    beds: [
      Long,
      Low,
    ]
    # said below it
  - {crop: leaf, name: 'late leaf', from: "2026-07-01"}
"""


def edits(text: str = BLOCK) -> Edits:
    source = decode(text.encode(), "garden.yaml")
    assert not isinstance(source, Problem)
    return Edits(parse(source))


def test_nothing_changed_is_the_same_text() -> None:
    assert edits().text() == BLOCK


def test_every_text_is_told_with_its_path() -> None:
    found = dict(edits().texts())
    assert found["season",] == "2026"
    assert found["beds", 0, "grew", "2025"] == "leaf family"
    assert found["beds", 1, "grew", "2025", 1] == "b"
    assert found["waves", 1, "from"] == "2026-07-01"


@pytest.mark.parametrize(
    ("path", "before", "after"),
    [
        (("season",), "season: 2026   # this", "season: 2027   # this"),
        (("waves", 1, "from"), 'from: "2026-07-01"}', "from: 2027}"),
        (("beds", 1, "grew", "2025", 1), "[a, b]", "[a, 2027]"),
    ],
)
def test_a_text_is_replaced_where_it_stands(
    path: tuple[str | int, ...], before: str, after: str
) -> None:
    changed = edits()
    changed.replace(path, "2027")
    assert changed.text() == BLOCK.replace(before, after)


def test_a_key_is_added_behind_the_first_one_or_before_all() -> None:
    changed = edits()
    changed.add_key(("beds", 0), "rest", "3")
    changed.add_key(("beds", 1), "rest", "4")
    changed.add_first(("beds", 0, "grew"), "2026", "x")
    changed.add_first(("beds", 1, "grew"), "2026", "[y]")
    expected = BLOCK.replace("# first\n", "# first\n    rest: 3\n")
    expected = expected.replace("{bed: Low", "{rest: 4, bed: Low")
    expected = expected.replace("      2025: leaf", "      2026: x\n      2025: leaf")
    assert changed.text() == expected.replace("grew: {2025", "grew: {2026: [y], 2025")


def test_a_key_goes_below_a_first_value_of_several_lines() -> None:
    changed = edits("waves:\n  - beds: [\n      Long,\n    ]\n    crop: leaf\n")
    changed.add_key(("waves", 0), "plants", "3")
    assert changed.text() == (
        "waves:\n  - beds: [\n      Long,\n    ]\n    plants: 3\n    crop: leaf\n"
    )


def test_an_item_is_added_at_the_end_and_left_out_with_all_its_lines() -> None:
    changed = edits()
    changed.add_item(("waves",), "{crop: new}")
    assert changed.leave_out(("waves", 0))
    head, _, rest = BLOCK.partition("  - crop: fruit\n")
    tail = rest[rest.index("    # said below it\n") :]
    assert changed.text() == f"{head}{tail}  - {{crop: new}}\n"


def test_the_only_item_and_one_of_a_list_on_one_line_stay() -> None:
    alone = edits("waves:\n  - {crop: leaf}\n")
    assert not alone.leave_out(("waves", 0))
    listed = edits("waves: [{crop: leaf}, {crop: fruit}]\n")
    assert not listed.leave_out(("waves", 0))
    listed.add_item(("waves",), "{crop: new}")
    assert listed.text() == "waves: [{crop: new}, {crop: leaf}, {crop: fruit}]\n"


def test_a_remark_stands_above_an_item_that_begins_its_line() -> None:
    changed = edits()
    changed.remark(("waves", 1), "look here")
    assert changed.text() == BLOCK.replace(
        "  - {crop: leaf, n", "  # look here\n  - {crop: leaf, n"
    )
    inside = edits("waves: [{crop: leaf}, {crop: fruit}]\n")
    inside.remark(("waves", 1), "look here")
    assert inside.text() == "waves: [{crop: leaf}, {crop: fruit}]\n"


LONG = """\
waves:
  - crop: leaf
    # in several lines
    beds: [Long,
      Low]
  - crop: fruit
    name: 'late {fruit'
  - {crop: bean,
     name: last
    }
# the end
"""


def test_an_item_goes_below_the_bracket_that_closes_the_last_one() -> None:
    changed = edits(LONG)
    changed.add_item(("waves",), "{crop: new}")
    assert changed.text() == LONG.replace("    }\n", "    }\n  - {crop: new}\n")


@pytest.mark.parametrize(("number", "first", "over"), [(0, 1, 5), (1, 5, 7), (2, 7, 10)])
def test_any_item_is_left_out_with_all_its_lines_and_no_others(
    number: int, first: int, over: int
) -> None:
    changed = edits(LONG)
    assert changed.leave_out(("waves", number))
    lines = LONG.splitlines(keepends=True)
    assert changed.text() == "".join(lines[:first] + lines[over:])


def test_a_text_of_several_lines_is_left_out_and_added_behind_whole() -> None:
    text = "waves:\n  - crop: |\n      leaf\n      fruit\n  - crop: bean\n  - crop: beet\n"
    changed = edits(text)
    changed.add_key(("waves", 0), "plants", "3")
    assert changed.leave_out(("waves", 1))
    assert changed.text() == text.replace("  - crop: bean\n", "    plants: 3\n")
    gone = edits(text)
    assert gone.leave_out(("waves", 0))
    assert gone.text() == "waves:\n  - crop: bean\n  - crop: beet\n"
