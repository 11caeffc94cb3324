"""Every mistake a file can hold: its case, its code, its page; and files that cannot be opened."""

from __future__ import annotations

import ast
import codecs
import os
import re
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

import gardens
from errors import page
from sowtide.diagnostics import Problem, Severity, Span, Unreadable, has_errors
from sowtide.garden.read import Reading, read_file, read_garden, read_tree
from sowtide.garden.text.source import LARGEST, Source, decode
from sowtide.garden.text.tree import LOADERS, parse
from sowtide.report.blocks import plain
from sowtide.report.formats.terminal.cells import cells
from sowtide.report.formats.terminal.problem_lines import lines

CASES = page.cases()
ROOT = Path(__file__).parents[2]
GARDEN = ROOT / "src" / "sowtide" / "garden"
# Where the code of a problem stands in the arguments of what makes one.
CODE_AT = {
    "Refused": 0,
    "Problem": 1,
    "unreadable_at": 0,
    "refuse": 0,
    "add": 0,
    "at_value": 1,
    "at_key": 1,
}


def shown(reading: Reading, width: int = 80) -> str:
    return "".join(
        f"{line}\n" for problem in reading.problems for line in plain(lines(problem, width))
    )


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_mistake_gets_its_place_and_its_remedy(case: page.Case) -> None:
    reading = read_garden(case.data, "garden.yaml")
    assert shown(reading) == case.expected
    assert (reading.garden is None) == has_errors(reading.problems)
    codes = {problem.code for problem in reading.problems}
    assert case.code in codes or (not case.code and len(codes) > 3)


_LINE = re.compile(r"\bline (\d+)")


def _moved(found: tuple[Problem, ...], to: Callable[[int], int]) -> list[tuple[object, ...]]:
    """Return what problems say, and where, with every line moved."""

    def said(text: str | None) -> str | None:
        return text and _LINE.sub(lambda number: f"line {to(int(number[1]))}", text)

    return [
        (
            problem.code,
            said(problem.message),
            said(problem.hint),
            problem.span and replace(problem.span, line=to(problem.span.line)),
        )
        for problem in found
    ]


@pytest.mark.parametrize(
    ("before", "between", "after"),
    [
        (b"# my garden\n\n", b"\n", b""),
        (b"", b"\n\n", b"# the end\n"),
        (b"", b"\n#\n \n", b"\n \n"),
    ],
)
def test_blank_lines_and_remarks_move_a_mistake_and_change_nothing(
    before: bytes, between: bytes, after: bytes
) -> None:
    first, each = before.count(b"\n"), between.count(b"\n")
    for case in CASES:
        is_read = isinstance(decode(case.data, ""), Source) and case.code != "empty-file"
        if not is_read or b"\r" in case.data or case.data.startswith(codecs.BOM_UTF8):
            continue
        found = read_garden(case.data, "garden.yaml").problems
        apart = before + case.data.replace(b"\n", between) + after
        there = read_garden(apart, "garden.yaml").problems
        expected = _moved(found, lambda line: first + (line - 1) * each + 1)
        assert _moved(there, lambda line: line) == expected, case.name


def test_the_end_of_a_file_and_of_its_lines_change_nothing_of_what_slips_are_said_to_be() -> None:
    slips = (ROOT / "tests" / "kept" / "slips.files").read_text(encoding="utf-8")
    files = re.split(r"(?m)^==== \S+\n", slips)[1:]
    assert len(files) > 80
    for text in files:
        found = _moved(read_garden(text.encode(), "garden.yaml").problems, lambda line: line)
        for other in (text.rstrip("\n"), text.replace("\n", "\r\n")):
            there = read_garden(other.encode(), "garden.yaml").problems
            assert _moved(there, lambda line: line) == found, other


@pytest.mark.parametrize(
    "case",
    [case for case in CASES if isinstance(decode(case.data, ""), Source)],
    ids=lambda case: case.name,
)
def test_both_parsers_lead_to_the_same_words(case: page.Case) -> None:
    source = decode(case.data, "garden.yaml")
    assert isinstance(source, Source)
    assert len(LOADERS) == 2, "PyYAML without libyaml: nothing to compare"
    read = [_read(source, loader) for loader in LOADERS]
    assert read[0] == read[1]


def _read(source: Source, loader: object) -> tuple[Problem, ...]:
    tree = parse(source, loader)
    return tuple(tree.problems) if tree.broken else read_tree(tree).problems


def test_every_code_has_a_case_and_a_meaning() -> None:
    # The journal has a page and cases of its own.
    modules = [path for path in GARDEN.rglob("*.py") if path.parent.name != "journal"]
    used = {code for path in modules for code in _codes(path)}
    assert len(used) > 40
    assert {case.code for case in CASES} - {""} == used
    assert set(page.MEANING) == used


def _codes(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", getattr(node.func, "attr", ""))
        at = CODE_AT.get(name)
        if at is None:
            continue
        said = [each.value for each in node.keywords if each.arg == "code"] + node.args[at : at + 1]
        found |= {str(each.value) for each in said if isinstance(each, ast.Constant)}
    return found


def test_the_page_of_errors_is_made_from_the_cases() -> None:
    made = (ROOT / "docs" / "errors.md").read_text(encoding="utf-8")
    assert made == page.page(), "run: python tests/errors/page.py > docs/errors.md"


def test_a_file_that_is_not_there_is_named_in_one_line(tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match=r"^there is no file .*nowhere\.yaml$"):
        read_file(tmp_path / "nowhere.yaml")


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match=r"^beds is a folder, not a file$"):
        read_file(tmp_path, "beds")


def test_a_path_through_a_file_is_no_file(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    with pytest.raises(Unreadable, match="cannot be read"):
        read_file(tmp_path / "file" / "garden.yaml")


def test_a_name_no_system_can_have_is_unreadable() -> None:
    with pytest.raises(Unreadable, match="cannot be read"):
        read_file(Path("a\0b"))


def test_a_file_that_may_not_be_read_is_said_to_be_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "garden.yaml").write_text("x", encoding="utf-8")

    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(Unreadable, match=r"^garden\.yaml may not be read: no permission$"):
        read_file(tmp_path / "garden.yaml", "garden.yaml")


def test_a_pipe_is_refused_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path / "pipe", Path(os.devnull)):
        with pytest.raises(Unreadable, match=r"^garden\.yaml is a pipe or a device, not a file$"):
            read_file(path, "garden.yaml")


def test_a_huge_file_is_not_read_to_its_end(tmp_path: Path) -> None:
    path = tmp_path / "garden.yaml"
    with path.open("wb") as file:
        file.truncate(40 * LARGEST)  # sparse: takes no room
    assert [problem.code for problem in read_file(path).problems] == ["too-big"]


def test_an_alias_bomb_is_small_after_all() -> None:
    # Nine levels of nine aliases would be 9^9 = 387,420,489 entries if they were followed.
    names = "abcdefghi"
    rows = ["a: &a [x, x, x, x, x, x, x, x, x]"]
    rows += [
        f"{name}: &{name} [{', '.join([f'*{before}'] * 9)}]" for before, name in pairwise(names)
    ]
    problems = read_garden("\n".join(rows).encode(), "garden.yaml").problems
    assert sum(problem.code == "alias" for problem in problems) == 9 + 8  # anchors, aliases


@pytest.mark.parametrize("opening", ["[", "{", "- ", "{a: ", "[{a: "])
def test_deep_nesting_stops_at_once(opening: str) -> None:
    problems = read_garden((opening * 20_000).encode(), "garden.yaml").problems
    # One of the parsers gives up on so many brackets before the first of them is reported.
    assert [problem.code for problem in problems] in (["too-deep"], ["bracket"])


# How a problem is shown ------------------------------------------------------------------------


def problem(text: str, column: int, length: int, hint: str | None = None) -> Problem:
    span = Span("garden.yaml", 14, column, length, text)
    return Problem(Severity.ERROR, "code", "message", hint, span)


@pytest.mark.parametrize("width", [30, 40, 60, 80, 120])
@pytest.mark.parametrize("before", ["", "    ", "\t", "苗床 ", "é\u0301 ", "x" * 300, "床" * 100])
@pytest.mark.parametrize("after", ["", " more", "y" * 300, "\t畑"])
def test_the_caret_stands_under_the_place(width: int, before: str, after: str) -> None:
    found = plain(lines(problem(f"{before}HERE{after}", len(before) + 1, 4), width))
    text, caret = found[-2:]
    assert caret.strip(" |") == "^^^^"
    assert cells(text[: text.index("HERE")]) == caret.index("^")
    assert cells(text) <= width


def test_a_place_wider_than_the_screen_is_marked_as_far_as_it_shows() -> None:
    found = plain(lines(problem("z" * 200, 1, 200), 40))
    assert len(found[1]) <= 40
    assert found[2].count("^") == found[1].count("z")


def test_a_place_behind_the_end_of_its_line_gets_a_caret() -> None:
    assert plain(lines(problem("beds:", 6, 1), 80))[2] == "    |      ^"


def test_what_cannot_be_shown_is_a_question_mark() -> None:
    assert plain(lines(problem("a\u202eb\x1b[31mc", 1, 1), 80))[1] == " 14 | a?b?[31mc"


def test_hints_are_wrapped_under_themselves() -> None:
    found = plain(lines(problem("x", 1, 1, "one two three four five six seven"), 30))
    assert found[-2:] == (
        "    = hint: one two three four",
        "            five six seven",
    )


def test_a_message_that_does_not_fit_goes_on_below() -> None:
    long = replace(problem("x", 1, 1), message="one two three four 五六七八 nine ten", code="seven")
    assert plain(lines(long, 44))[:3] == (
        "garden.yaml:14:1: error: one two three four",
        "    五六七八 nine ten [seven]",
        " 14 | x",
    )
    assert plain(lines(long, 45))[0] == "garden.yaml:14:1: error: one two three four"
    assert plain(lines(long, 69))[0].endswith(" nine ten [seven]")
    assert plain(lines(long, 68))[1] == "    [seven]"


def test_a_problem_of_the_whole_has_no_place() -> None:
    whole = Problem(Severity.WARNING, "rotation", "beans after beans", "wait", None, "bean-1")
    assert plain(lines(whole)) == ("warning: beans after beans [rotation]", "    = hint: wait")


@pytest.mark.parametrize(
    ("bed", "hint"),
    [
        ("Count", "put several beds in brackets: beds: [Long, Count]"),
        ("Other", "did you mean 'count'?"),  # no bed of that name: a key
    ],
)
def test_a_bed_that_is_called_like_a_key_is_a_bed(bed: str, hint: str) -> None:
    file = gardens.text(
        "{crop: fruit, plants: 2, from: 06-01, beds: Long, Count}",
        beds=(gardens.BED, f"{{bed: {bed}, size: 1 x 4}}"),
    )
    (found,) = read_garden(file.encode(), "garden.yaml").problems
    assert (found.code, found.hint) == ("unknown-key", hint)
