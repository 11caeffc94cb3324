"""The JSON Schema of a garden's file and of a journal, beside the reader itself."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

import key_words
from errors import journal_page, page
from garden import lines_of_sections, spellings
from sowtide.garden.described import garden_schema, journal_schema
from sowtide.garden.described.forms_of_values import LOOSE, form_of
from sowtide.garden.described.garden_schema import SECTIONS, described
from sowtide.garden.journal import KEYS, reader_of
from sowtide.garden.keys import Each, Keyed, Leaf, Within, keys_of
from sowtide.garden.read import read_garden
from sowtide.garden.starter import Start, starter_text
from sowtide.garden.text import Refused
from sowtide.season import demo_text
from yaml_as_editors_read import plain, values_of

EXAMPLES = Path(__file__).parents[2] / "examples"
GARDEN = Draft202012Validator(garden_schema())
JOURNAL = Draft202012Validator(journal_schema())

REFUSED_ALWAYS = {
    *("amount", "care-group", "choice", "colon", "empty-file", "every", "harvest"),
    *("journal-name", "key", "not-a-list", "not-a-mapping", "not-text", "percent"),
    *("series-name", "size", "unknown-key", "want-when", "year"),
}
"""Codes of errors of reading that are errors of shape in each of their cases."""
REFUSED_AT_TIMES = {
    *("amount-per", "amount-unit", "analysis", "care-rule", "care-stage", "comment", "date"),
    *("date-range", "missing", "no-such-day", "normals", "number", "out-of-range", "range"),
    *("text", "years"),
}
"""Codes with cases that are, and others in which two numbers or two places are at odds."""
BEYOND_A_SCHEMA = {
    # a word that has to be looked up
    *("amount-unit-spoons", "amount-unit-unknown", "care-rule-count", "care-rule-never"),
    "care-stage-until",
    # what is left of a line is well written
    *("comment-name", "comment-list"),
    # two numbers or two days in the wrong order, or numbers that add up to too much
    *(
        "analysis",
        "date-range-care",
        "date-range-care-days",
        "date-range-until",
        "date-range-want",
        "date-range",
        "normals-cold",
    ),
    *("normals-months-swapped", "normals-order", "range-holding", "range", "years-order"),
    # what hangs on the season, the hemisphere, the unit, or another entry
    *(
        "date-far",
        "no-such-day-care",
        "no-such-day-leap",
        "no-such-day-week",
        "normals-hemisphere",
        "normals-twice",
    ),
    *("out-of-range-frost", "out-of-range-hottest", "out-of-range-normals"),
    *("out-of-range-heat", "out-of-range-temperature", "out-of-range-two-months"),
    # to an editor the number is the one that is meant
    *("number-exponent", "number-leading-zero", "number-no-whole", "number-plus"),
}
"""Cases of these codes that no schema can refuse."""
OF_A_JOURNAL = {"date", "journal-key", "journal-stage", "missing", "not-a-list"}
"""The same for a journal; its other mistakes are at odds with the plan or with other entries."""


def readers_of_leaves() -> Iterator[tuple[str, Any]]:
    for section, name in SECTIONS.items():
        for key, each in keys_of(section).items():
            for place, read in _leaves(each.kind):
                yield f"{name}.{key}{place}", read


def _leaves(kind: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(kind, Leaf | Each):
        yield "", kind.read
    elif isinstance(kind, Keyed):
        yield from _leaves(kind.of)
        if kind.alone is not None:
            yield " alone", kind.alone
    elif isinstance(kind, Within) and kind.alone is not None:
        yield " alone", kind.alone


LEAVES = dict(readers_of_leaves())
LEAVES |= {f"journal.{key}": reader_of(key) for key in KEYS if key not in ("did", "skips", "on")}


def takes(read: Any, text: str) -> bool:
    try:
        read(text)
    except Refused:
        return False
    return True


@cache
def validator(name: str) -> Draft202012Validator:
    return Draft202012Validator(form_of(LEAVES[name]) or LOOSE)


def test_the_schemas_are_schemas() -> None:
    Draft202012Validator.check_schema(garden_schema())
    Draft202012Validator.check_schema(journal_schema())


@pytest.mark.parametrize(
    "text",
    [
        demo_text(),
        starter_text(Start(season=2026)),
        *(path.read_text(encoding="utf-8") for path in sorted(EXAMPLES.glob("*/garden.yaml"))),
    ],
    ids=["demo", "starter", "allotment", "market garden"],
)
def test_every_garden_of_ours_has_the_shape(text: str) -> None:
    assert [error.message for error in GARDEN.iter_errors(values_of(text))] == []


SCALARS = [
    *("0", "1", "5", "14", "60", "99", "100", "366", "1000", "1001", "1000000", "1000001"),
    *("-1", "-90", "90", "91", "2.5", "0.5", "-0.5", "150", "151", "40", "010", "1e3", "1_000"),
    *("12:30", "nan", "yes", "no", "Yes", "NO", "true", "on", "none", "None", "all year"),
    *("All Year", "07-30", "7-30", "02-29", "02-30", "04-31", "13-01", "2026-07-30", "2026-02-30"),
    *("W31", "W00", "W54", "2026-W31", "07-01..08-20", "07-01 .. 08-20", "07-01 to 08-20"),
    *("W20..W30", "2026", "1899", "2201", "earliest", "Earliest", "last safe", "50-60", "60-50"),
    *(
        "50 - 60",
        "50–60",
        "5-14",
        "0-3",
        "80%",
        "0%",
        "100%",
        "99 %",
        "14 days",
        "1 day",
        "14 always",
    ),
    *("4 x 20", "4x20", "1.2 × 8", "4 X 20", "0 x 4", "4 by 20", "monday", "Sun", "wed", "us"),
    *("US", "metric", "tender", "half-hardy", "direct", "trays", "either", "clip", "week", "day"),
    *("last 30", "1991-2020", "all", "°F", "C", "tenths", "5 lb", "6 heads", "0.1-0.3 lb", "a:b"),
    *("bush bean", "a/b", "06-25..07-20", "person", "feed", "9", "24", "1", "20000", "20001"),
    *("some", "many", "early", "main", "x", "cool", "warm", "planting out", "sowing", "1.5 in"),
]


@pytest.mark.parametrize("name", LEAVES)
def test_what_the_reader_takes_the_schema_takes(name: str) -> None:
    refused = [
        text
        for text in SCALARS
        if takes(LEAVES[name], text)
        and not (validator(name).is_valid(plain(text)) and validator(name).is_valid(text))
    ]
    assert refused == []


NEAR = st.one_of(
    st.text("0123456789-.% x×W:", min_size=1, max_size=12),
    st.text("abcdefghij nopslry-°F0123456789.", min_size=1, max_size=16),
    st.integers(-10_000, 10_000_000).map(str),
    st.decimals(-200, 30_000, places=2).map(str),
).map(str.strip)


@given(st.sampled_from(sorted(LEAVES)), NEAR.filter(bool))
def test_what_the_reader_takes_the_schema_takes_whatever_it_is(name: str, text: str) -> None:
    if takes(LEAVES[name], text):
        assert validator(name).is_valid(plain(text)), text


BACKWARDS = re.compile(r"(\d+) *[-–] *(\d+).*")
SPELT = {"010", "1e3"}
"""To an editor these are the numbers 10 and 1000."""
LOOKED_UP = {
    *("care.amount", "care.every", "care.minutes"),
    *("care.mix", "care.package_rate", "care.weighs"),
}
"""Values with a unit or a rule in them, which only the reader looks up."""
WITH_WORD = re.compile(r"[\d.]+ [a-z]+")


def runs_backwards(text: str) -> bool:
    """Say whether two numbers stand in a text the larger first, which no schema can refuse."""
    found = BACKWARDS.fullmatch(text)
    return found is not None and int(found[1]) > int(found[2])


@pytest.mark.parametrize("name", LEAVES)
def test_what_the_reader_refuses_the_schema_refuses(name: str) -> None:
    refused = [text for text in SCALARS if not takes(LEAVES[name], text)]
    if name == "care.amount":
        refused = [text for text in refused if not WITH_WORD.fullmatch(text)]
    quoted = [text for text in refused if validator(name).is_valid(text)]
    assert [text for text in quoted if not runs_backwards(text)] == []
    bare = [text for text in refused if validator(name).is_valid(plain(text))]
    assert [text for text in bare if not runs_backwards(text) and text not in SPELT] == []


BEYOND_A_PATTERN = {
    "days 1-1000": {"60-50"},
    "range 0-20": {"5-4"},
    "warm-cool": {"14-5", "14–5", "14 - 5"},
    "month days": {"07-20..06-25", "09-30..03-31", "10-01..04-01"},
    "text": {"a\u202eb"},
    "years": {"2020-1991"},
    "yield": {"5-1"},
    "analysis": {"50-30-20.5"},
}
"""What hangs on two numbers in one, or on one character of many."""


@pytest.mark.parametrize("name", spellings.READERS)
def test_the_form_of_a_value_takes_the_spellings_that_its_reader_takes(name: str) -> None:
    form = form_of(spellings.READERS[name])
    if form is None:
        return
    at_odds = set()
    for reader, text, told in spellings.rows():
        if reader != name or text.startswith("_"):
            continue
        taken = not told.startswith("!")
        # Words that a grower's own are among, units and rules are looked up by the reader alone.
        looked_up = re.match(r"! (?:amount|care-rule|out-of-range: '.*' weighs)", told)
        ways: list[str | float] = [text]
        with suppress(ValueError):
            ways += [number for number in (int(text), float(text)) if str(number) == text]
        for way in ways:
            is_valid = Draft202012Validator(form).is_valid(way)
            assert is_valid or not taken, f"{text} is taken, and its form refuses {way!r}"
            if is_valid and not taken and not looked_up:
                at_odds.add(text)
    assert at_odds == BEYOND_A_PATTERN.get(name, set())


@given(st.sampled_from(sorted(LEAVES.keys() - LOOKED_UP)), NEAR.filter(bool))
def test_what_the_schema_takes_the_reader_takes_whatever_it_is(name: str, text: str) -> None:
    if validator(name).is_valid(text) and not runs_backwards(text):
        assert takes(LEAVES[name], text), text


def test_each_error_that_a_schema_can_express_is_refused_by_it() -> None:
    taken, seen = set(), set()
    for case in page.cases():
        if case.name.startswith(("too-", "alias", "tag")) or len(case.data) > 10_000:
            continue
        try:
            values = values_of(case.data.decode("utf-8"))
        except (yaml.YAMLError, UnicodeDecodeError):
            continue  # no editor gets as far as the schema
        codes = {problem.code for problem in read_garden(case.data, "garden.yaml").problems}
        seen |= codes
        if codes & (REFUSED_ALWAYS | REFUSED_AT_TIMES) and GARDEN.is_valid(values):
            taken.add(case.name)
            assert not codes & REFUSED_ALWAYS, case.name
    assert taken == BEYOND_A_SCHEMA
    assert seen >= REFUSED_ALWAYS | REFUSED_AT_TIMES


@pytest.mark.parametrize("section", dict.fromkeys(row[0] for row in lines_of_sections.rows()))
def test_a_line_that_the_reader_takes_the_schema_takes(section: str) -> None:
    for name, line, told in lines_of_sections.rows():
        if name == section and not told.startswith("!"):
            assert GARDEN.is_valid(values_of(lines_of_sections.file_with(section, line))), line


@pytest.mark.parametrize(
    ("section", "line"),
    [
        ("site", "frost: []"),
        ("site", "frost: {last: {}, first: 10-01}"),
        ("site", "frost: never"),
        ("site", "frost: 3"),
        ("bed", "grew: bean family"),
        ("bed", "grew: [2025]"),
        ("wave", "wave_beds: Low"),
        ("wave", "wave_beds: 1"),
        ("crop", "kale: {heat: none}"),
        ("crop", "kale: {heat: []}"),
    ],
)
def test_a_shape_that_the_reader_refuses_the_schema_refuses(section: str, line: str) -> None:
    assert lines_of_sections.said(section, line).startswith("!")
    assert not GARDEN.is_valid(values_of(lines_of_sections.file_with(section, line)))


def test_each_error_of_shape_in_a_journal_is_refused_by_its_schema() -> None:
    refused, whole = set(), set()
    for case in journal_page.cases():
        text = case.path.read_text(encoding="utf-8").partition("# expected")[0]
        codes = set(re.findall(r"\[([a-z-]+)\]$", case.path.read_text(encoding="utf-8"), re.M))
        try:
            values = values_of(text)
        except yaml.YAMLError:
            continue
        (whole if JOURNAL.is_valid(values) else refused).update(codes)
    assert refused >= OF_A_JOURNAL
    assert OF_A_JOURNAL & whole <= {"missing"}


def test_a_year_as_a_key_is_no_number_to_an_editor() -> None:
    # A language server takes the key of `grew: {2025: bean family}` for a number and holds it to
    # the type of the names, which are always texts; to their pattern it holds texts alone.
    def names(of: Any) -> Iterator[Any]:
        inner = of.values() if isinstance(of, dict) else of if isinstance(of, list) else ()
        if isinstance(of, dict) and "propertyNames" in of:
            yield of["propertyNames"]
        for each in inner:
            yield from names(each)

    found = list(names(garden_schema()))
    assert found
    assert not [each for each in found if "type" in each]
    assert all("pattern" in each for each in found)


def test_each_key_is_described_as_the_reference_says_it() -> None:
    """Words may be changed in the reference first; `python tests/key_words.py` takes them over."""
    wanted = {(name, key) for section, name in SECTIONS.items() for key in keys_of(section)}
    assert set(described()) == wanted | {("journal", key) for key in KEYS}
    assert {tuple(line.split("\t")[:2]) for line in key_words.table().splitlines()} == set(
        described()
    )
    assert all(described().values())
