"""Reading a journal: sowtide's own lines, a grower's, and the two as one."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowtide.diagnostics import Severity, Span
from sowtide.garden.journal import (
    OF_A_WAVE,
    PICKINGS,
    WEATHER,
    Did,
    Found,
    Happening,
    Measure,
    journal_of,
    read_journal,
    takes,
)

SPAN = Span("journal.yaml", 1)
SOWN = "- {on: 2026-07-18, wave: bush-bean-4, did: sown, plants: 36}\n"


def read(text: str) -> tuple[Happening, ...]:
    """Read a journal; a mistake in it is a mistake in the test."""
    found = journal_of(text.encode(), "journal.yaml")
    assert found.journal is not None, [problem.message for problem in found.problems]
    assert found.problems == ()
    return found.journal.happenings


def said(happening: Happening) -> tuple[object, ...]:
    """Return all that an entry says, wherever it stands."""
    return tuple(getattr(happening, name) for name in happening.__match_args__ if name != "span")


def test_an_entry_says_what_happened_and_where_it_stands() -> None:
    (found,) = read("# a comment\n\n" + SOWN)
    assert (found.on, found.wave, found.did) == (date(2026, 7, 18), "bush-bean-4", Did.SOWN)
    assert found.plants == 36
    assert found.span == Span("journal.yaml", 3, 3, len(SOWN) - 3, SOWN.rstrip())


def test_a_grower_may_write_it_as_a_block_in_any_order_of_keys() -> None:
    block = """\
# picked with the children
- on: 2026-07-20
  did: picked
  wave: bush-bean-1
  amount: 1.4 lb   # weighed
  note: "half of it, at least"
-
  did: rain
  on: 2026-07-21
  amount: 15 mm
"""
    picked, rain = read(block)
    assert picked.amount == Measure(Fraction("1.4"), "lb")
    assert picked.note == "half of it, at least"
    # 1 lb is 0.45359237 kg by definition; 1.4 × 0.45359237 = 0.635029318.
    assert picked.amount is not None
    assert picked.amount.kilograms == pytest.approx(0.635029318)
    assert rain.amount is not None
    assert rain.amount.millimetres == 15
    assert (rain.span.line, rain.span.column) == (8, 3)


@pytest.mark.parametrize(
    ("written", "unit", "number"),
    [("1.4LB", "lb", "1.4"), ("1.4 lb", "lb", "1.4"), ("640 g", "g", "640"), ("8", "", "8")],
)
def test_a_picking_is_weighed_or_counted(written: str, unit: str, number: str) -> None:
    (found,) = read(f"- {{on: 2026-07-18, wave: a-1, did: picked, amount: {written}}}\n")
    assert found.amount == Measure(Fraction(number), unit)


@pytest.mark.parametrize("written", ["58F", "58f", "58 °F", "58°f"])
def test_the_soil_is_measured_in_degrees(written: str) -> None:
    (found,) = read(f"- {{on: 2026-07-18, did: soil, amount: {written}}}\n")
    assert found.amount == Measure(Fraction(58), "F")


def test_no_file_and_an_empty_one_and_one_of_comments_say_nothing(tmp_path: Path) -> None:
    none = read_journal(tmp_path / "journal.yaml")
    assert none.journal is not None
    assert (none.journal.happenings, none.problems) == ((), ())
    for text in ("", "# only this\n", "\n\n", "\ufeff", "# cut off"):
        assert read(text) == ()


DAYS = st.dates(date(2020, 1, 1), date(2035, 12, 31))
NAMES = st.text(
    st.characters(codec="utf-8", exclude_categories=("C", "Z"), exclude_characters="\ufeff"),
    min_size=1,
    max_size=12,
).filter(str.isprintable)
TEXTS = st.lists(NAMES, min_size=1, max_size=4).map(" ".join)
AMOUNTS = st.integers(0, 99_999).map(lambda number: Fraction(number, 10))


@st.composite
def happenings(draw: st.DrawFn) -> Happening:
    """Draw an entry with everything that its stage may have."""
    did = draw(st.sampled_from(Did))
    amount = None
    if did in PICKINGS:
        amount = draw(st.none() | st.builds(Measure, AMOUNTS, st.sampled_from(("lb", "g", ""))))
    elif did in WEATHER:
        unit = "in" if did is Did.RAIN else "F"
        amount = Measure(draw(AMOUNTS), unit)
    wave = draw(NAMES) if did in OF_A_WAVE else None
    bed = draw(TEXTS) if wave is None and did not in WEATHER else None
    fewest = 0 if did is Did.UP else 1
    plants = draw(st.none() | st.integers(fewest, 999)) if takes(did, "plants") else None
    return Happening(
        draw(DAYS),
        did,
        SPAN,
        wave=wave,
        bed=bed,
        plants=plants,
        amount=amount,
        found=draw(st.sampled_from(Found)) if did is Did.SCOUTED else None,
        using=draw(st.none() | TEXTS) if takes(did, "with") else None,
        skips=draw(st.none() | st.sampled_from(OF_A_WAVE)) if did is Did.SKIPPED else None,
        sick=did is Did.PULLED and draw(st.booleans()),
        note=draw(st.none() | TEXTS),
        season=draw(st.none() | st.integers(2000, 2050)),
    )


@given(st.lists(happenings(), max_size=6))
def test_what_is_written_is_read_again(drawn: list[Happening]) -> None:
    found = read("".join(f"{each.line}\n" for each in drawn))
    assert [said(each) for each in found] == [said(each) for each in drawn]


@given(happenings())
def test_the_line_and_the_tree_read_the_same(drawn: Happening) -> None:
    # A comment behind an entry keeps it from being read as a line of sowtide's own.
    (line,) = read(f"{drawn.line}\n")
    (tree,) = read(f"{drawn.line} # so it was\n")
    assert said(line) == said(tree)
    assert (line.span.line, line.span.column) == (tree.span.line, tree.span.column)


def test_an_entry_that_is_undone_counts_as_never_written() -> None:
    undone = SOWN.replace("}", ", undone: yes}")
    assert read(SOWN + undone) == ()
    assert read(undone + SOWN) == ()  # whatever stands first
    assert len(read(SOWN + undone + SOWN)) == 1  # and noted down again after all
    assert len(read(SOWN + SOWN + undone)) == 1


def test_only_the_same_words_are_taken_back() -> None:
    other = SOWN.replace("36", "30").replace("}", ", undone: yes}")
    found = journal_of((SOWN + other).encode(), "journal.yaml")
    assert [problem.code for problem in found.problems] == ["journal-undone"]
    assert found.journal is None


def test_beside_a_mistake_is_understood_what_it_does_not_name() -> None:
    sown = SOWN.replace("-4", "-40")
    others = SOWN + SOWN.replace("bush-bean-4", "bean-40")
    for broken in (
        sown.replace("sown", "swon"),
        sown.replace("}", ""),
        "- on: 2026-07-18\n  did: swon\n  wave: bush-bean-40\n",
        sown.replace("36", "30").replace("}", ", undone: yes}"),  # it takes back nothing
    ):
        found = journal_of((sown + broken + others).encode(), "journal.yaml")
        assert found.journal is None
        assert [each.wave for each in found.understood] == ["bush-bean-4", "bean-40"], broken


def test_what_takes_back_a_mistake_is_no_second_one() -> None:
    undone = SOWN.replace("}", ", undone: yes}")
    found = journal_of((SOWN.replace("36", "36 or so") + undone).encode(), "journal.yaml")
    assert [(each.code, each.span and each.span.line) for each in found.problems] == [("number", 1)]


def test_a_last_line_cut_short_at_any_byte_is_told_and_stepped_over() -> None:
    last = "- {on: 2026-07-19, wave: bush-bean-5, did: sown, note: 'Süd, {spät}'}".encode()
    for length in range(1, len(last)):
        found = journal_of(SOWN.encode() + last[:length], "journal.yaml")
        assert found.journal is not None, last[:length]
        assert len(found.journal.happenings) == 1
        assert [(p.code, p.severity) for p in found.problems] == [
            ("journal-broken", Severity.WARNING)
        ]
    assert len(read((SOWN.encode() + last).decode())) == 2  # only its line end is missing


def test_a_last_line_that_a_grower_left_without_an_end_is_read() -> None:
    assert len(read(SOWN + "- on: 2026-07-19\n  wave: bush-bean-5\n  did: sown")) == 2
    assert len(read(SOWN + "# to be continued")) == 1


def test_a_mistake_in_a_last_line_without_an_end_is_still_a_mistake() -> None:
    found = journal_of(SOWN.rstrip().replace("sown", "swon").encode(), "journal.yaml")
    assert [problem.code for problem in found.problems] == ["journal-stage"]


def test_what_a_disk_fills_up_with_nothing_is_cut_short_too() -> None:
    found = journal_of(SOWN.encode() + b"\0" * 40, "journal.yaml")
    assert [problem.code for problem in found.problems] == ["journal-broken"]


@pytest.mark.parametrize("did", Did)
def test_capitals_in_a_stage_do_not_matter(did: Did) -> None:
    where = "" if did in WEATHER else "wave: a-1, "
    beside = {Did.RAIN: ", amount: 5mm", Did.SOIL: ", amount: 12C"}.get(did, "")
    for word in (did.value, did.value.capitalize(), did.value.upper()):
        found = journal_of(
            f"- {{on: 2026-07-18, {where}did: {word}{beside}}}\n".encode(), "journal.yaml"
        )
        assert "journal-stage" not in {problem.code for problem in found.problems}
