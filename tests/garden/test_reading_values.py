"""Readers of single values: what they take, and that they guess nothing.

Which words a refusal has is kept by the case files in tests/errors.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from garden import lines_of_sections, spellings
from sowtide.days import DateSpan, DayRange, GrowingYear, MonthDay
from sowtide.garden.crop import CountedFrom, Hardiness
from sowtide.garden.readers import dates
from sowtide.garden.readers import numbers as figures
from sowtide.garden.readers import words as fields
from sowtide.garden.text.refused import Refused, did_you_mean, quoted
from sowtide.units import micrometres

NORTH = GrowingYear(2026, south=False)
SOUTH = GrowingYear(2026, south=True)

days = figures.day_range(1)
latitude = figures.decimal(-90, 90)


@pytest.mark.parametrize(
    ("read", "text", "value"),
    [
        (figures.whole(0, 99), "0", 0),
        (figures.whole(0, 99), "99", 99),
        (latitude, "43.1", Fraction(431, 10)),
        (latitude, "-43.05", Fraction(-4305, 100)),
        (latitude, "0", Fraction(0)),
        (latitude, "0.5", Fraction(1, 2)),
        (latitude, "-90", Fraction(-90)),
        (figures.above_zero(10), "10", Fraction(10)),
        (days, "50", DayRange(50, 50)),
        (days, "50-60", DayRange(50, 60)),
        (days, "50 – 60", DayRange(50, 60)),
        (days, "7-7", DayRange(7, 7)),
        (days, "1-1000", DayRange(1, 1000)),
        (figures.percent(1, 99), "80%", 0.8),
        (figures.percent(1, 99), "80 %", 0.8),
        (figures.percent(1, 99), "1%", 0.01),
        (figures.percent(1, 99), "99%", 0.99),
        (figures.percent(1, 99), "12.5%", 0.125),
        (dates.day, "07-30", MonthDay(7, 30)),
        (dates.day, "02-29", MonthDay(2, 29)),
        (dates.day, "2026-07-30", date(2026, 7, 30)),
        (dates.day, "2024-02-29", date(2024, 2, 29)),
        (dates.day, "W31", dates.WeekWritten(31)),
        (dates.day, "2026-W31", dates.WeekWritten(31, 2026)),
        (dates.days, "07-01..08-20", dates.DaysWritten(MonthDay(7, 1), MonthDay(8, 20))),
        (dates.days, "07-01 .. 08-20", dates.DaysWritten(MonthDay(7, 1), MonthDay(8, 20))),
        (dates.days_or_all_year, "all year", dates.DaysWritten(None, None)),
        (dates.month_days, "06-25..07-20", (MonthDay(6, 25), MonthDay(7, 20))),
        (dates.month_days, "12-20..01-10", (MonthDay(12, 20), MonthDay(1, 10))),
        (dates.month_days, "10-01..03-31", (MonthDay(10, 1), MonthDay(3, 31))),
        (dates.year_of, "1900", 1900),
        (dates.year_of, "2200", 2200),
        (fields.text, "no", "no"),
        (fields.text, "12:30", "12:30"),
        (fields.text, "a  b\nc", "a b c"),
        (fields.text, "بستان\u200cها", "بستان\u200cها"),
        (fields.lower_text, "Squash Family", "squash family"),
        (fields.series_name, "fall lettuce", "fall-lettuce"),
        (fields.choice(Hardiness), "half-hardy", Hardiness.HALF_HARDY),
        (fields.choice(CountedFrom), "Planting out", CountedFrom.PLANTING_OUT),
        (fields.yes_no, "No", False),
        (fields.yes_no, "yes", True),
        (fields.weekday, "Sunday", 6),
        (fields.size, "4 x 20", (Fraction(4), Fraction(20))),
        (fields.size, "1.2×6", (Fraction(6, 5), Fraction(6))),
        (fields.sure, "80%", (0.8, None)),
        (fields.sure, "14 days", (None, 14)),
        (fields.sure, "0 days", (None, 0)),
        (fields.sure, "1 day", (None, 1)),
        (fields.allowance, "14", (14, False)),
        (fields.allowance, "14 always", (14, True)),
        (fields.warm_cool, "5-14", DayRange(5, 14)),
        (fields.start, "earliest", None),
        (fields.until, "last safe", None),
        (fields.until, "W36", dates.WeekWritten(36)),
    ],
)
def test_what_is_taken(read: Callable[[str], Any], text: str, value: object) -> None:
    assert read(text) == value


@pytest.mark.parametrize("text", ["010", "00", "1e3", "1_000", "0x10", "nan", "+5", "12:30", "1 0"])
@pytest.mark.parametrize("read", [figures.whole(0, 10**6), latitude, days, figures.percent(1, 99)])
def test_what_other_programs_take_for_numbers_is_refused(
    read: Callable[[str], Any], text: str
) -> None:
    with pytest.raises(Refused):
        read(text)


@pytest.mark.parametrize(
    "text", [".5", "5.", "1.2.3", "-", "--4", "- 4", "4-", "٣", "²", "1/2", "∞"]
)
def test_no_decimal_number_either(text: str) -> None:
    with pytest.raises(Refused):
        latitude(text)


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("010", "write 10"),
        ("1e3", "write 1000"),
        ("2.5e2", "write 250"),
        ("1_000", "write 1000"),
        ("1,000", "write 1000"),
        ("+5", "write 5"),
        ("1 000", "write 1000"),
        ("14 days", "write the number alone, without a unit: 14"),
        ("14d", "write the number alone, without a unit: 14"),
        ("2.5", "write it without decimals: 2 or 3"),
        ("1e999999", "write a number from 0 to 1000000"),
        ("9" * 5000, "write a number from 0 to 1000000"),
        ("0x10", "write 16"),
        ("no", "write 0 for none"),
        ("yes", "write a number from 0 to 1000000"),
        ("5e7", "write a number from 0 to 1000000"),
        ("-4", "write a number from 0 to 1000000"),
    ],
)
def test_the_hint_is_what_was_meant(text: str, hint: str) -> None:
    with pytest.raises(Refused) as refused:
        figures.whole(0, 10**6)(text)
    assert refused.value.hint == hint


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("7-30", "write two digits each: 07-30"),
        ("2026-7-3", "write two digits each: 2026-07-03"),
        ("May 8", "write it as 05-08"),
        ("8 May", "write it as 05-08"),
        ("May 123", "write a date as MM-DD, such as 07-30, or with its year, 2026-07-30"),
        ("week 123", "write a date as MM-DD, such as 07-30, or with its year, 2026-07-30"),
        ("w9", "write a week as W09"),
        ("week 31", "write a week as W31"),
        ("5.4.", "write the month first, then the day, with a hyphen between: MM-DD"),
        ("04/05", "write the month first, then the day, with a hyphen between: MM-DD"),
        ("soon", "write a date as MM-DD, such as 07-30, or with its year, 2026-07-30"),
    ],
)
def test_the_hint_is_how_to_write_the_date(text: str, hint: str) -> None:
    with pytest.raises(Refused) as refused:
        dates.day(text)
    assert (refused.value.code, refused.value.hint) == ("date", hint)


@pytest.mark.parametrize(
    ("read", "text", "hint"),
    [
        (fields.latitude, "44.5N", "write 44.5, south of the equator -44.5"),
        (fields.latitude, "44.50°", "write 44.5, south of the equator -44.5"),
        (fields.latitude, "44.5 south", "write -44.5"),
        (fields.latitude, "44,5", "write 44.5"),
        (
            fields.latitude,
            "44°30'",
            "write degrees with decimals, such as 44.5, south of the equator -44.5",
        ),
        (fields.size, "4ft x 20 ft", "write 4 x 20"),
        (fields.size, "1.20 m by 3 m", "write 1.2 x 3"),
        (fields.size, "120 cm x 3 m", "write width x length in numbers without units, as 4 x 20"),
        (fields.size, "80", "write width x length in numbers without units, as 4 x 20"),
        (fields.sure, "80", "write 80% for a share of years, or 80 days for days before the frost"),
        (fields.sure, "0.8", "write 80%"),
        (days, "50-54 days", "write 50-54"),
        (days, "50 days - 54 days", "write 50-54"),
        (days, "50 to 54 days", "write 50-54"),
        (days, "60/50", "write 50-60"),
        (days, "no", "write a number from 1 to 1000"),
        (figures.whole(1, 10**6), "no", "write a number from 1 to 1000000"),
        (figures.whole(1, 10**6), "0.5", "write it without decimals: 1"),
        (figures.whole(0, 20), "1e3", "write a number from 0 to 20"),
        (figures.decimal(0, 30), "no", "write 0 for none"),
        (figures.decimal(0, 30), "4 °F", "write the number alone, without a unit: 4"),
        (figures.decimal(0, 30), "40 °F", "write a number from 0 to 30"),
        (figures.above_zero(10), "0", "write a number above 0, at most 10"),
        (figures.percent(1, 100), "0.8", "write 80%"),
        (figures.percent(1, 100), "12.5", "write 12.5%"),
        (figures.percent(1, 100), "most", "write a percentage from 1% to 100%"),
        (dates.days, "07-01 to 08-20", "write it as 07-01..08-20"),
        (dates.days, "W27", "write its first and its last day; one day alone is W27..W27"),
        (dates.days, "July", "write its first and its last day, as in 07-01..08-20"),
    ],
)
def test_the_hint_is_what_will_be_taken(read: Callable[[str], Any], text: str, hint: str) -> None:
    with pytest.raises(Refused) as refused:
        read(text)
    assert refused.value.hint == hint


@pytest.mark.parametrize("text", ["02-30", "13-01", "00-10", "04-31", "2025-02-29", "W00", "W54"])
def test_days_that_no_calendar_has(text: str) -> None:
    with pytest.raises(Refused) as refused:
        dates.day(text)
    assert refused.value.code == "no-such-day"


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("2025-02-29", "write 02-28 or 03-01"),
        ("02-30", "February ends on 02-28, in leap years on 02-29"),
        ("04-31", "month 04 ends on 04-30"),
        ("01-32", "month 01 ends on 01-31"),
        ("30-01", "the month stands first: 01-30"),
        ("40-40", "write the month first, then the day: MM-DD"),
    ],
)
def test_the_hint_is_the_nearest_day(text: str, hint: str) -> None:
    with pytest.raises(Refused) as refused:
        dates.day(text)
    assert refused.value.hint == hint


@pytest.mark.parametrize("text", ["60-50", "50-60-70", "-", "50-", "a-b", "0-5", "-5", "5-1001"])
def test_ranges_that_are_none(text: str) -> None:
    with pytest.raises(Refused):
        days(text)


@pytest.mark.parametrize(
    ("read", "text"),
    [
        (fields.size, "0 x 20"),
        (fields.size, "4 x -2"),
        (fields.size, "4 x 10001"),
        (fields.size, "4 x 20 x 1"),
        (fields.sure, "100%"),
        (fields.sure, "0%"),
        (fields.sure, "100 days"),
        (fields.sure, "80"),
        (fields.allowance, "14 sometimes"),
        (fields.allowance, "100"),
        (fields.warm_cool, "14-5"),
        (fields.yes_no, "true"),
        (fields.choice(Hardiness), ""),
        (fields.weekday, "mon"),
        (fields.text, "x" * 201),
        (fields.text, "a\u202eb"),
        (fields.series_name, "a:b"),
        (dates.month_days, "07-20..06-25"),
        (dates.month_days, "10-01..09-01"),  # eleven months
        (dates.month_days, "09-30..03-31"),  # over the new year only from October to March
        (dates.month_days, "10-01..04-01"),
        (dates.month_days, "2026-06-25..2026-07-20"),
        (dates.days, "07-01"),
        (dates.year_of, "1899"),
        (dates.year_of, "2201"),
        (dates.year_of, "+202"),
        (figures.above_zero(10), "0"),
        (figures.above_zero(10), "10.1"),
        (latitude, "-90.1"),
    ],
)
def test_what_is_refused(read: Callable[[str], Any], text: str) -> None:
    with pytest.raises(Refused):
        read(text)


@pytest.mark.parametrize(
    ("text", "year", "end", "day"),
    [
        ("07-30", NORTH, False, date(2026, 7, 30)),
        ("07-30", SOUTH, False, date(2026, 7, 30)),
        ("03-15", SOUTH, False, date(2027, 3, 15)),
        ("2027-03-15", NORTH, False, date(2027, 3, 15)),
        # 27 July 2026 is a Monday, 2 August the Sunday of the same week.
        ("W31", NORTH, False, date(2026, 7, 27)),
        ("W31", NORTH, True, date(2026, 8, 2)),
        ("2026-W31", SOUTH, False, date(2026, 7, 27)),
        # South of the equator the weeks of the first half-year are those of the next year:
        # 4 January 2027 is a Monday, and week 1 holds the year's first Thursday, the 7th.
        ("W01", SOUTH, False, date(2027, 1, 4)),
        ("W27", SOUTH, False, date(2026, 6, 29)),
        ("2028-12-31", NORTH, False, date(2028, 12, 31)),
        ("2024-01-01", NORTH, False, date(2024, 1, 1)),
        # 2026 begins on a Thursday and so has 53 weeks.
        ("W53", NORTH, True, date(2027, 1, 3)),
    ],
)
def test_a_day_gets_its_year(text: str, year: GrowingYear, end: bool, day: date) -> None:
    assert dates.resolve(dates.day(text), year, end=end) == day


@pytest.mark.parametrize(
    ("text", "year"),
    [
        ("02-29", NORTH),
        ("02-29", SOUTH),
        ("2025-W53", NORTH),
        ("2029-01-01", NORTH),
        ("2023-12-31", NORTH),
    ],
)
def test_a_day_that_year_has_not(text: str, year: GrowingYear) -> None:
    with pytest.raises(Refused):
        dates.resolve(dates.day(text), year, end=False)


@pytest.mark.parametrize(("year", "named"), [(NORTH, 2026), (SOUTH, 2027)])
def test_the_february_that_lacks_a_day_is_named(year: GrowingYear, named: int) -> None:
    # The southern season 2026 runs from July 2026 to June 2027.
    with pytest.raises(Refused, match=f"^{named} has no 29 February$"):
        dates.resolve(MonthDay(2, 29), year, end=False)


@pytest.mark.parametrize("text", ["2028-12-31", "2024-01-01"])
def test_two_years_away_is_not_too_far(text: str) -> None:
    assert str(dates.resolve(dates.day(text), NORTH, end=False)) == text


@pytest.mark.parametrize(
    ("text", "days"), [("day", 1), ("Week", 7), ("1", 1), ("14", 14), ("366", 366)]
)
def test_how_often(text: str, days: int) -> None:
    assert fields.how_often(text) == days


@pytest.mark.parametrize(
    ("text", "code"),
    [("3 days", "choice"), ("x", "choice"), ("0", "out-of-range"), ("367", "out-of-range")],
)
def test_what_is_not_how_often(text: str, code: str) -> None:
    with pytest.raises(Refused) as refused:
        fields.how_often(text)
    assert refused.value.code == code


def test_29_february_is_a_day_of_a_leap_year() -> None:
    leap = GrowingYear(2028, south=False)
    assert dates.resolve(dates.day("02-29"), leap, end=False) == date(2028, 2, 29)
    # The southern season 2027 runs from July 2027 to June 2028.
    south = GrowingYear(2027, south=True)
    assert dates.resolve(dates.day("02-29"), south, end=False) == date(2028, 2, 29)


def test_spans_of_days() -> None:
    spans = [dates.days("12-20..02-10"), dates.days_or_all_year("all year")]
    assert [dates.resolve_span(span, SOUTH) for span in spans] == [
        DateSpan(date(2026, 12, 20), date(2027, 2, 10)),
        DateSpan(date(2026, 7, 1), date(2027, 6, 30)),
    ]
    with pytest.raises(Refused):
        dates.resolve_span(spans[0], NORTH)
    weeks = dates.resolve_span(dates.days("W27..W28"), NORTH)
    assert weeks == DateSpan(date(2026, 6, 29), date(2026, 7, 12))


@given(st.integers(0, 999_999))
def test_a_plain_number_is_itself(number: int) -> None:
    assert figures.whole(0, 999_999)(str(number)) == number


@given(st.dates(date(1900, 1, 1), date(2200, 12, 31)))
def test_a_written_date_is_itself(day: date) -> None:
    assert dates.day(day.isoformat()) == day


READERS = [
    figures.whole(0, 10),
    latitude,
    days,
    figures.percent(1, 99),
    figures.above_zero(5),
    dates.day,
    dates.days_or_all_year,
    dates.days_or_none,
    dates.month_days,
    dates.year_of,
    fields.latitude,
    fields.text,
    fields.series_name,
    fields.choice(Hardiness),
    fields.word("clip", "sine"),
    fields.yes_no,
    fields.weekday,
    fields.size,
    fields.sure,
    fields.allowance,
    fields.warm_cool,
    fields.start,
    fields.until,
]


@given(st.one_of(st.text(), st.text("0123456789-+.,:xWe%_ "), st.text("0123456789-")))
def test_any_text_is_read_or_refused(text: str) -> None:
    for read in READERS:
        refused = None
        try:
            read(text)
        except Refused as error:
            refused = error
        if refused is not None:
            assert refused.message.isprintable()
            assert len(refused.message) < 200


def test_a_near_word_is_found_whatever_its_case_and_joints() -> None:
    assert did_you_mean("Days To Harvest", ("days_to_harvest", "days_to")) == "days_to_harvest"
    assert did_you_mean("plantz", ("plants", "split")) == "plants"
    assert did_you_mean("zzz", ("plants", "split")) is None
    assert did_you_mean("dayss", ("up_days", "days_to_harvest", "raised")) is None
    assert did_you_mean("form", ("from", "for", "fork")) == "from"  # two letters swapped
    assert did_you_mean("nursery", ("nursery_days", "up_days")) == "nursery_days"
    assert did_you_mean("Long", ("Long 1", "Long 2")) is None


def test_a_quoted_text_is_short_and_can_be_shown() -> None:
    assert quoted("x" * 50) == "'" + "x" * 37 + "...'"
    assert quoted("a\nb") == "'a\\nb'"


@pytest.mark.parametrize(
    ("value", "unit", "whole"),
    [
        ("1/3", "in", 8467),  # 8466.67
        ("1/6", "in", 4233),  # 4233.33
        ("0.00005", "cm", 1),  # half a micrometre, up
        ("0.00004", "cm", 0),
    ],
)
def test_lengths_are_rounded_to_whole_micrometres(value: str, unit: str, whole: int) -> None:
    assert micrometres(Fraction(value), unit) == whole


@pytest.mark.parametrize(
    "white", ["  ", "\n", "\t", "\N{NO-BREAK SPACE}", "\N{LINE SEPARATOR}", "\x85 "]
)
def test_white_space_of_any_kind_is_one_space_in_a_name(white: str) -> None:
    assert fields.text(f"Hill{white}12") == "Hill 12"


@pytest.mark.parametrize(
    "unseen", ["\N{SOFT HYPHEN}", "\N{RIGHT-TO-LEFT OVERRIDE}", "\x1b", "\x7f"]
)
def test_what_cannot_be_shown_stands_in_no_name(unseen: str) -> None:
    with pytest.raises(Refused, match="holds characters that cannot be shown"):
        fields.text(f"Hill{unseen}12")


@pytest.mark.parametrize("reader", spellings.READERS)
def test_every_spelling_is_taken_or_refused_as_the_table_says(reader: str) -> None:
    asked = [(text, told) for name, text, told in spellings.rows() if name == reader]
    assert asked
    assert [(text, spellings.said(reader, text)) for text, _ in asked] == asked


@pytest.mark.parametrize("section", dict.fromkeys(row[0] for row in lines_of_sections.rows()))
def test_every_line_of_a_section_is_taken_or_refused_as_the_table_says(section: str) -> None:
    asked = [(line, told) for name, line, told in lines_of_sections.rows() if name == section]
    assert [(line, lines_of_sections.said(section, line)) for line, _ in asked] == asked
