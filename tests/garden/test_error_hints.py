"""Hints are followed to the letter: what a case is told to write is then taken.

Where a hint says in so many words what to write, it is written in the place of the mistake, and
the file is read again: the same must not be said of that place a second time.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

import pytest

from errors import page
from sowtide.diagnostics import Problem, Span
from sowtide.garden.read import read_garden
from sowtide.garden.text.source import Source, decode

# What a hint may say that stands for the marked place, each word of it in a group.
IN_PLACE = (
    r"did you mean '(.+)'\?",
    r"did you mean the built-in '(.+)'\? .*",
    r"did you mean '(.+)' or '(.+)'\?",
    r"write it as (\S+)",
    r"write two digits each: (\S+)",
    r"write the smaller number first: (\S+)",
    r"write the number alone, without a unit: (\S+)",
    r"write it without decimals: (\d+) or (\d+)",
    r"write a number from (\S+) to (\S+)",
    r"write a number above 0, at most (\S+)",
    r"write a percentage from (\S+) to (\S+)",
    r"write at most (\d+)(?:: .*)?",
    r"write the days in warm weather first: (\S+)",
    r"write 0 for none()",
    r"write (\S+)",
    r"write (\S+), south of the equator (\S+)",
    r"write (\S+ x \S+)",
    r"write ('.*')",
    r"write (us) or (metric)",
    r"write (\S+%) for a share of years, or (\d+ days) for days before the frost",
    r"write (\S+) or (\S+)",
    r"write a share of years, such as (\S+), or days before the frost, such as (\d+ days)",
    r"write (\{last: .*\}), or (none) where there is no frost",
    r"write width x length in numbers without units, as (\d+ x \d+)",
    r"write its first and its last day; one day alone is (\S+)",
    r"write its first and its last day, as in (\S+)",
    r"put it beside this file, and write (\S+)",
    r"write digits only, such as (\d+)",
    r"write no more than \d+()",
    r"write a date as MM-DD, or (\S+)",
    r"write four digits, such as (\d+)",
    r"the month stands first: (\S+)",
    r"February ends on (\S+), in leap years on \S+",
    r"month \d+ ends on (\S+)",
    r"write degrees with decimals, such as (\S+), south of the equator (\S+)",
    r"the beds are: (\S+), (\S+)",
    r"write it as (\d+ tsp per gal)",
    r"write it as (24h), or (2 days)",
    r"write it as on the label: (\S+)",
    r"write it as the label does: (\S+), or (\S+)",
    r"write a number and its unit: (.+)",
    r"write how much for what: (.+ per plant), or (.+)",
    r"write how much of it, such as (.+)",
    r"write a depth, such as (.+) or (.+), or a volume: (.+)",
    r"write for what: (4 tbsp per plant), .*",
    r"weigh a spoon of it and write it as (.+)",
    r"write (last 30), (\d+-\d+), or (all)",
    r"write (°F), (°C) or (tenths)",
    r"write (\d+ lb) or (\d+ lb)",
    r"write both sides, as (\d+ x \d+)",
    r"write nitrogen, phosphate and potash in percent, as the bag does: (.+)",
)
# What a hint may say of a key and its value, which stand in the place of what is there of them.
PAIRS = (
    r"write both: (last: none, first: none)",
    r"put several \w+ in brackets: (\w+: .+)",
    r"put a text with a comma in it in quotes: (\w+: .+)",
    r"write the number without a comma: (\w+: .+)",
    r"write (every: \d+), or more",
    r"write days, such as (every: 7), or .*",
    r"write (\w+: .+)",
    r"name a built-in crop, such as (like: .+)",
)
QUOTED = (r"put it in quotes: ('.*'); .*", r"put what it belongs to in quotes: ('.*')")
DELETED = r"delete (?:it|them|the hyphen|the mark(?:; .*)?)()"
MOVED = r"(?:it belongs|both dates go) under frost:, as in (frost: .+)"
NAMED = r"give one a name of its own, such as name: (.+)"
PARTED = r"put a comma between two entries()"
MISSING = r"add (?:it|the days .*), such as (?:(.+), or )?(\w+: .+?)(?: \(.*\))?"
PLACES = [
    (case, number)
    for case in page.cases()
    if isinstance(decode(case.data, ""), Source)
    for number in range(len(read_garden(case.data, "garden.yaml").problems))
]


def followed(text: str, problem: Problem) -> Iterator[str]:
    """Yield the file with what the hint says, once for each thing it says."""
    span, hint = problem.span, problem.hint or ""
    assert span is not None
    for patterns, change in CHANGES:
        for pattern in patterns:
            found = re.fullmatch(pattern, hint)
            if found is None:
                continue
            for said in found.groups():
                if said is not None:
                    rows = text.split("\n")
                    change(rows, span, said or "0")
                    yield "\n".join(rows)
            return


def _in_place(rows: list[str], span: Span, said: str) -> None:
    row, start = rows[span.line - 1], span.column - 1
    rows[span.line - 1] = row[:start] + said + row[start + span.length :]


def _as_pair(rows: list[str], span: Span, said: str) -> None:
    row, key = rows[span.line - 1], said.split(":")[0]
    start = row.rindex(f"{key}:", 0, span.column + len(key))
    rest = re.compile(r", \w+:|\}|$").search(row, span.column)
    assert rest is not None
    rows[span.line - 1] = row[:start] + said + row[rest.start() :]


def _deleted(rows: list[str], span: Span, _: str) -> None:
    _in_place(rows, span, "")


def _parted(rows: list[str], span: Span, _: str) -> None:
    row, start = rows[span.line - 1], span.column - 1
    rows[span.line - 1] = f"{row[:start]},{row[start:]}"


def _moved(rows: list[str], span: Span, said: str) -> None:
    row = rows[span.line - 1]
    rows[span.line - 1] = row[: span.column - 1] + said


def _named(rows: list[str], span: Span, said: str) -> None:
    row, start = rows[span.line - 1], span.column - 1
    if row[:start].endswith("name: "):
        _in_place(rows, span, said)
    else:
        rows[span.line - 1] = row.replace("{", f"{{name: {said}, ", 1)


def _in_quotes(rows: list[str], span: Span, said: str) -> None:
    row = rows[span.line - 1]
    bare = said[1:-1].replace("''", "'")
    assert bare in row
    rows[span.line - 1] = row.replace(bare, said, 1)


def _added(rows: list[str], span: Span, said: str) -> None:
    row = rows[span.line - 1]
    indent = len(row) - len(row.lstrip())
    if row.lstrip().startswith("- {"):
        rows[span.line - 1] = row.replace("- {", f"- {{{said}, ", 1)
    elif said.startswith(("season", "site", "beds")):
        rows.insert(0, said)
    else:
        rows.insert(span.line, f"{' ' * (indent + 2)}{said}")


CHANGES: tuple[tuple[tuple[str, ...], Callable[[list[str], Span, str], None]], ...] = (
    (QUOTED, _in_quotes),
    (PAIRS, _as_pair),
    (IN_PLACE, _in_place),
    ((DELETED,), _deleted),
    ((PARTED,), _parted),
    ((MOVED,), _moved),
    ((NAMED,), _named),
    ((MISSING,), _added),
)


@pytest.mark.parametrize(
    ("case", "number"), PLACES, ids=[f"{case.name}-{number}" for case, number in PLACES]
)
def test_what_the_hint_says_is_taken(case: page.Case, number: int) -> None:
    source = decode(case.data, "garden.yaml")
    assert isinstance(source, Source)
    problem = read_garden(case.data, "garden.yaml").problems[number]
    for text in followed(source.text, problem):
        assert text != source.text
        for other in read_garden(text.encode(), "garden.yaml").problems:
            assert _place(other) != _place(problem), (text, other.message)


def _place(problem: Problem) -> tuple[str, object, object]:
    assert problem.span is not None
    if problem.code == "missing":  # several keys may be missing in one place
        return problem.code, problem.span.line, problem.message
    return problem.code, problem.span.line, problem.span.column


def test_most_hints_say_what_to_write() -> None:
    count = 0
    for case, number in PLACES:
        source = decode(case.data, "garden.yaml")
        assert isinstance(source, Source)
        problem = read_garden(case.data, "garden.yaml").problems[number]
        count += bool(list(followed(source.text, problem)))
    assert count > len(PLACES) // 2
