"""The text layout: widths in cells, cutting, rows, and wrapping with a hanging indent."""

from __future__ import annotations

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


def test_pad_fills_either_side() -> None:
    assert pad("7", 3) == "7  "
    assert pad("7", 3, right=True) == "  7"
    assert pad("日本語", 4) == "日… "


def test_fit_keeps_styles_up_to_the_cut() -> None:
    long = line("sow ", ("squash", Style.STRONG), " now")
    assert fit(long, 20) == long
    assert fit(long, 7) == Line((("sow ", Style.PLAIN), ("sq…", Style.STRONG)))
    assert fit(long, 10).plain == "sow squas…"


def test_a_row_has_fixed_columns_and_no_idle_space_at_its_end() -> None:
    columns = (Column(6), Column(3, right=True), Column(5))
    assert row(columns, ("bean-1", "60", "Long")).plain == "bean-1   60  Long"
    assert row(columns, ("bean", ("7", Style.STRONG), "")).plain == "bean      7"
    assert row(columns, ("", "7", "x")).plain == "          7  x"
    assert row(columns, ("a", "", "x")).plain == "a            x"
    assert ("7", Style.BAD) in row(columns, ("a", ("7", Style.BAD), "x")).spans


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


@given(GARDENERS, st.integers(min_value=2, max_value=40))
def test_no_line_is_ever_too_wide_and_no_word_is_lost(text: str, width: int) -> None:
    lines = wrap(line((text[:20], Style.GOOD), text[20:]), width)
    assert all(width_of(each) <= width for each in lines)
    assert "".join(plain(lines)).replace(" ", "") == text.replace(" ", "")
    assert width_of(fit(text, width)) <= width
    assert cells(pad(text, width)) == width
