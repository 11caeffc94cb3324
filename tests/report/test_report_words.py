"""How days, odds, amounts and places are said."""

from __future__ import annotations

from datetime import date

import pytest

import factory
from sowtide.days import GrowingYear
from sowtide.report.blocks import Style
from sowtide.report.kit import words
from sowtide.report.kit.stands import bed_plants
from sowtide.schedule.waves.wave import Stand, Verdict
from sowtide.units import Units, in_hundred, show_spacing, years_of_hundred

NORTH = GrowingYear(2026, south=False)
SOUTH = GrowingYear(2026, south=True)


def test_a_year_is_said_only_outside_the_growing_year() -> None:
    assert words.day(date(2026, 7, 16), NORTH) == "16 Jul"
    assert words.day(date(2027, 3, 2), NORTH) == "2 Mar 2027"
    assert words.day(date(2027, 3, 2), SOUTH) == "2 Mar"
    assert words.weekday(date(2026, 7, 16), NORTH) == "Thu 16 Jul"
    assert (words.season_name(NORTH), words.season_name(SOUTH)) == ("2026", "2026–27")


def test_a_run_of_days_names_a_month_once() -> None:
    sep = date(2026, 9, 9)
    assert words.days_from_to(sep, sep, NORTH) == "9 Sep"
    assert words.days_from_to(sep, date(2026, 9, 16), NORTH) == "9–16 Sep"
    assert words.days_from_to(date(2026, 8, 28), sep, NORTH) == "28 Aug – 9 Sep"
    assert words.days_from_to(sep, date(2027, 9, 16), NORTH) == "9 Sep – 16 Sep 2027"


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (0.0, "under 1"),
        (0.0049, "under 1"),
        (0.005, "1"),
        (0.285, "29"),  # 28.499… as a binary fraction: halves go up all the same
        (0.825, "83"),
        (0.9949, "99"),
        (0.995, "over 99"),
        (1.0, "over 99"),
    ],
)
def test_odds_of_a_curve_are_never_all_or_nothing(share: float, said: str) -> None:
    assert in_hundred(share) == said


def test_years_of_a_hundred_are_counted_properly() -> None:
    assert years_of_hundred(0.83) == "83 years of 100"
    assert years_of_hundred(0.01) == "1 year of 100"
    assert years_of_hundred(0.001) == "under 1 year of 100"
    assert years_of_hundred(0.999) == "over 99 years of 100"


def test_odds_that_were_not_estimated_may_be_all_or_nothing() -> None:
    never = factory.judged(end=None, margin=None, odds=1.0)
    assert words.odds_of(never) == "100 in 100"
    assert words.nothing_ends(never)
    assert words.share_of(never, 0.0) == "0"
    assert words.share_of(never, 0.997) == "over 99"
    assert not words.nothing_ends(factory.judged(odds=1.0))
    assert words.odds_of(factory.judged(odds=1.0)) == "over 99 in 100"


def test_odds_of_recorded_years_count_them() -> None:
    assert words.odds_of(factory.judged(odds=0.9, years=30)) == "27 of 30"
    assert words.odds_cell(factory.judged(odds=0.9, years=30)) == "27 of 30"
    assert words.odds(0.9, years=30) == "27 of 30"
    assert words.odds(0.9) == "90 in 100"
    assert words.odds_cell(factory.judged(odds=0.9)) == "90"
    assert words.odds_of(factory.judged(odds=1.0, years=30)) == "30 of 30"
    assert words.odds_of(factory.judged(odds=0.99, years=30)) == "over 29 of 30"
    assert words.odds_of(factory.judged(odds=0.01, years=30)) == "under 1 of 30"
    assert words.years_of(factory.judged(years=30), 1 / 30) == "1 year of 30"


def test_counts_and_amounts() -> None:
    assert words.count(1, "plant") == "1 plant"
    assert words.count(1200, "plant") == "1,200 plants"
    assert words.count(2, "tray of seedlings", many="trays of seedlings") == "2 trays of seedlings"
    assert words.count(17.55, "day") == "17.6 days"
    assert words.amount(80, "seeds") == "80 seeds"
    assert words.amount(1, "seeds") == "1 seed"
    assert words.amount(4.5, "ft") == "4.5 ft"


def test_a_split_wave_says_how_many_stand_where() -> None:
    both = (Stand(factory.LONG, 40), Stand(factory.WIDE, 20))
    assert words.stands(bed_plants(both)) == "Long 1 (40), Long 2 (20)"
    assert words.where(bed_plants(factory.wave().stands)) == "Long 1"
    assert words.where(()) == "no room"


def test_lists_and_sentences() -> None:
    assert words.listed(["a"]) == "a"
    assert words.listed(["a", "b", "c"]) == "a, b and c"
    assert words.listed(["a", "b"], last="or") == "a or b"
    assert words.sentence("no room.") == "No room."
    assert words.sentence("no room") == "No room."


def test_a_verdict_is_said_in_words_and_only_repeated_by_its_style() -> None:
    assert words.verdict(Verdict.SAFE) == ("safe", Style.GOOD)
    assert words.verdict(Verdict.TOO_LATE) == ("too late", Style.BAD)
    assert words.verdict(None) == ("winter", Style.DIM)


@pytest.mark.parametrize(
    ("length", "metric", "us"),
    [
        (101_600, "10 cm", "4 in"),  # 10.16 cm
        (75_000, "7.5 cm", "3 in"),  # 2.95 in
        (31_750, "3 cm", "1.25 in"),  # 3.175 cm
        (32_500, "3.5 cm", "1.25 in"),  # 3.25 cm: halves up
        (250_000, "25 cm", "9.75 in"),  # 9.84 in
        (1_000, "0.1 cm", "0.04 in"),  # never none at all
    ],
)
def test_spacings_are_rounded_to_what_a_ruler_shows(length: int, metric: str, us: str) -> None:
    assert (show_spacing(length, Units.METRIC), show_spacing(length, Units.US)) == (metric, us)


def test_the_year_of_a_run_of_days_is_said_once() -> None:
    first, last = date(2027, 3, 23), date(2027, 4, 2)
    assert words.days_from_to(first, last, NORTH) == "23 Mar – 2 Apr 2027"
    assert words.days_from_to(date(2026, 12, 28), last, NORTH) == "28 Dec – 2 Apr 2027"
    assert words.days_from_to(date(2025, 12, 28), last, NORTH) == "28 Dec 2025 – 2 Apr 2027"


def test_days_are_not_broken_apart() -> None:
    assert words.unbroken("12 plants, out on 1 Oct, May it be") == (
        "12 plants, out on 1\u00a0Oct, May it be"
    )
    assert words.unbroken("9\u00a0Sep, 12 May 2027; 3 Aug. 3 Marrows") == (
        "9\u00a0Sep, 12\u00a0May 2027; 3\u00a0Aug. 3 Marrows"
    )
    assert words.unbroken("") == ""


@pytest.mark.parametrize(
    ("names", "said"),
    [
        ("A1", "A1"),
        ("A1 A2", "A1, A2"),
        ("A1 A2 A3", "A1 to A3"),
        ("A1 A2 A4 A5 A6 B7", "A1, A2, A4 to A6, B7"),
        ("A8 A9 A10", "A8 to A10"),
        ("A08 A09 A10", "A08 to A10"),
        # Not one that is numbered on with as many digits, nor backwards, nor without a number.
        ("A08 A9 A10", "A08, A9, A10"),
        ("A3 A2 A1", "A3, A2, A1"),
        ("Long Short Frame", "Long, Short, Frame"),
        ("1 2 3", "1 to 3"),
    ],
)
def test_beds_that_are_numbered_on_are_named_by_the_first_and_the_last(
    names: str, said: str
) -> None:
    assert ", ".join(words.runs_of_beds(names.split())) == said
