"""The text layout: widths in cells, cutting, rows, and wrapping with a hanging indent."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowtide.report.blocks import EMPTY, Line, Style, line, plain, styled, together
from sowtide.report.formats.terminal.cells import (
    Column,
    cells,
    cut,
    fit,
    pad,
    row,
    rule,
    shortened,
    shown,
    told_apart,
    width_of,
    wrap,
)

GARDENERS = st.text(alphabet="ab é日本-– ", max_size=60)


def test_a_line_is_put_together_from_texts_spans_and_lines() -> None:
    inner = styled("83 in 100", Style.GOOD)
    whole = line("odds ", inner, (".", Style.DIM))
    assert whole.spans == (
        ("odds ", Style.PLAIN),
        ("83 in 100", Style.GOOD),
        (".", Style.DIM),
    )
    assert plain([whole, EMPTY]) == ("odds 83 in 100.", "")


def test_width_counts_cells_not_characters() -> None:
    assert width_of(line("日本", " bed")) == 8
    assert cells("é") == 1


def test_cut_marks_what_is_missing() -> None:
    assert cut("bush-bean-1", 11) == "bush-bean-1"
    assert cut("bush-bean-1", 10) == "bush-bean…"
    assert cut("bush-bean-1", 0) == ""
    assert cut("日本語", 4) == "日…"


@pytest.mark.parametrize(
    ("name", "width", "said"),
    [
        ("summer-squash-12", 16, "summer-squash-12"),
        ("summer-squash-12", 15, "summer-squa…-12"),
        ("summer-squash-12", 5, "s…-12"),
        ("summer-squash-12", 4, "…-12"),
        ("summer-squash-12", 3, "su…"),  # no room is left for the number
        ("summer-squash-12", 0, ""),
        ("garlic", 6, "garlic"),
        ("garlic", 5, "garl…"),
        ("-12", 2, "-…"),
        ("東京-12", 6, "東…-12"),
        ("b-東", 3, "b-…"),  # what stands behind the hyphen takes three cells with it
    ],
)
def test_a_wave_whose_name_is_cut_keeps_its_number(name: str, width: int, said: str) -> None:
    assert shortened(name, width) == said


@pytest.mark.parametrize(
    ("names", "width", "said"),
    [
        (("Bed A11", "Bed A21"), 7, ("Bed A11", "Bed A21")),
        (("Bed A11", "Bed A21"), 6, ("Bed…11", "Bed…21")),
        # The last two are alike as well, then three of them are kept; others stay as they are.
        (("Bed xA01", "Bed xB01", "Orchard"), 6, ("Be…A01", "Be…B01", "Orcha…")),
        (("Bed xA01", "Bed xB01"), 5, ("B…A01", "B…B01")),
        (("Bed xA01", "Bed xB01"), 4, ("B…01", "B…01")),  # no room to tell them apart
        (("畑の北の1", "畑の北の2"), 7, ("畑…の1", "畑…の2")),
        (("畑の北1北", "畑の北2北"), 5, ("…1北", "…2北")),
        (("北北1北北", "北北2北北"), 5, ("北北…", "北北…")),  # their last three fill the room
    ],
)
def test_beds_called_alike_are_told_apart_where_they_are_cut(
    names: tuple[str, ...], width: int, said: tuple[str, ...]
) -> None:
    assert tuple(told_apart(names, width).values()) == said
    assert all(cells(each) <= width for each in said)


def test_what_a_terminal_obeys_is_written_out_and_line_ends_and_joiners_stay() -> None:
    assert shown("Bed\x1b[2J\u202e\n1") == "Bed\\u001b[2J\\u202e\n1"
    joined = "\u06cc\u200c\u0647\u200d"
    assert shown(joined) == joined
    assert shown("Frühbeet") == "Frühbeet"


def test_pad_fills_either_side() -> None:
    assert pad("7", 3) == "7  "
    assert pad("7", 3, right=True) == "  7"
    assert pad("日本語", 4) == "日… "


def test_fit_keeps_styles_up_to_the_cut() -> None:
    long = line("sow ", ("squash", Style.STRONG), " now")
    assert fit(long, 20) == long
    assert fit(long, 7) == Line((("sow ", Style.PLAIN), ("sq…", Style.STRONG)))
    assert fit(long, 10).plain == "sow squas…"
    assert fit(long, 4).plain == "sow…"
    assert fit(long, 14) == long
    assert fit(long, 13).plain == "sow squash n…"
    assert fit(long, 0).plain == ""


def test_a_row_has_fixed_columns_and_no_idle_space_at_its_end() -> None:
    columns = (Column(6), Column(3, right=True), Column(5))
    assert row(columns, ("bean-1", "60", "Long")).plain == "bean-1   60  Long"
    assert row(columns, ("bean", ("7", Style.STRONG), "")).plain == "bean      7"
    assert row(columns, ("", "7", "x")).plain == "          7  x"
    assert row(columns, ("a", "", "x")).plain == "a            x"
    assert ("7", Style.BAD) in row(columns, ("a", ("7", Style.BAD), "x")).spans
    assert row(columns, ("bush-bean-1", "1234", "Orchard")).plain == "bush-…  12…  Orch…"
    assert row(columns, ("bean-1", "日", "x"), gap=1).plain == "bean-1  日 x"


def test_a_rule_is_as_wide_as_asked() -> None:
    assert rule(5).plain == "-----"


def test_wrapping_hangs_under_the_text_of_the_first_line() -> None:
    lines = wrap("sow beans now or never", 16, first="  = hint: ")
    assert plain(lines) == (
        "  = hint: sow",
        "          beans",
        "          now or",
        "          never",
    )
    assert plain(wrap("sow beans now", 9, hang=2)) == ("sow beans", "  now")
    assert wrap("", 10) == (EMPTY,)
    assert plain(wrap("sow beans", 12, first="   ")) == ("   sow beans",)
    assert plain(wrap("sow beans", 11, first="   ")) == ("   sow", "   beans")
    assert plain(wrap("a b c d e", 5)) == ("a b c", "d e")
    assert plain(wrap("日 本", 5)) == ("日 本",)
    assert plain(wrap("日 本", 4)) == ("日", "本")


@pytest.mark.parametrize("text", ["a  b", " a b", "a b ", "a\N{NO-BREAK SPACE}b"])
def test_a_line_that_fits_has_single_plain_spaces(text: str) -> None:
    assert wrap(text, 20) == (Line((("a b", Style.PLAIN),)),)


def test_wrapping_keeps_styles_and_words_of_two_styles_whole() -> None:
    text = line("in ", ("Long 1", Style.STRONG), ", then Gate")
    lines = wrap(text, 10)
    assert plain(lines) == ("in Long 1,", "then Gate")
    assert ("Long 1", Style.STRONG) in lines[0].spans


def test_what_belongs_together_is_not_broken() -> None:
    assert plain(wrap("not later than " + together("16 Jul"), 17)) == ("not later than", "16 Jul")


def test_a_word_longer_than_the_line_is_broken() -> None:
    assert plain(wrap("abcdefgh ij", 4)) == ("abcd", "efgh", "ij")
    assert plain(wrap("x abcdefgh", 4, hang=1)) == ("x", " abc", " def", " gh")
    assert plain(wrap("日本語", 4)) == ("日本", "語")
    assert plain(wrap("a b cd", 2, hang=2)) == ("a", "  b", "  c", "  d")


@pytest.mark.parametrize(
    ("width", "lines"),
    [
        (3, ((("abc", Style.GOOD),), (("def", Style.BAD),), (("gh", Style.BAD),))),
        (4, ((("abc", Style.GOOD), ("d", Style.BAD)), (("efgh", Style.BAD),))),
        (2, ((("ab", Style.GOOD),), (("c", Style.GOOD), ("d", Style.BAD)))),
    ],
)
def test_a_word_of_two_styles_is_broken_where_the_line_ends(
    width: int, lines: tuple[tuple[tuple[str, Style], ...], ...]
) -> None:
    found = wrap(line(("abc", Style.GOOD), ("defgh", Style.BAD)), width)
    assert tuple(each.spans for each in found)[: len(lines)] == lines


@given(GARDENERS, st.integers(min_value=2, max_value=40))
def test_no_line_is_ever_too_wide_and_no_word_is_lost(text: str, width: int) -> None:
    lines = wrap(line((text[:20], Style.GOOD), text[20:]), width)
    assert all(width_of(each) <= width for each in lines)
    assert "".join(plain(lines)).replace(" ", "") == text.replace(" ", "")
    assert width_of(fit(text, width)) <= width
    assert cells(pad(text, width)) == width
