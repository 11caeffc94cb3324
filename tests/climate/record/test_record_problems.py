"""What is wrong with a record is said with its line, its remedy, and nothing guessed."""

from __future__ import annotations

import gzip
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given
from hypothesis import strategies as st

from records.made import year
from sowtide.climate.record.file import read_record
from sowtide.climate.record.stream import BUFFER
from sowtide.diagnostics import Problem, Severity, has_errors

HEADER = "date,tmin (°C),tmax (°C)\n"
DAYS = "2012-01-01,1.5,8\n2012-01-02,-2.2,4\n2012-01-03,0,6\n"


def problems(folder: Path, text: str | bytes, *, unit: str | None = None) -> tuple[Problem, ...]:
    path = folder / "station.csv"
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    read = read_record(path, unit=unit, label="station.csv")
    assert (read.record is None) == has_errors(read.problems)
    return read.problems


def said(problem: Problem) -> tuple[str, str, str, str]:
    """A problem as its place and code, message, hint, and the part of the line it marks."""
    span = problem.span
    assert span is not None
    assert span.file == "station.csv"
    marked = span.text[span.column - 1 : span.column - 1 + span.length]
    return (f"{span.line} {problem.code}", problem.message, problem.hint or "", marked)


CASES: dict[str, tuple[str, tuple[str, str, str, str]]] = {
    "fahrenheit-in-a-celsius-file": (
        "date,tmin (°C),tmax (°C)\n" + year((18, 59), (36, 81), digits=0),
        (
            "1 record-unit",
            "the header says °C, which these temperatures cannot be: "
            "the warmest maxima are about 81",
            "are these °F? then correct the header",
            "date,tmin (°C),tmax (°C)",
        ),
    ),
    "celsius-in-a-fahrenheit-file": (
        "date,tmin (°F),tmax (°F)\n" + year((-8, 15), (2, 27)),
        (
            "1 record-unit",
            "the header says °F, which these temperatures cannot be: "
            "the warmest maxima are about 27",
            "are these °C? then correct the header",
            "date,tmin (°F),tmax (°F)",
        ),
    ),
    "tenths-in-a-celsius-file": (
        "date,tmin (°C),tmax (°C)\n" + year((-80, 150), (20, 270), digits=0),
        (
            "1 record-unit",
            "the header says °C, which these temperatures cannot be: "
            "the warmest maxima are about 270",
            "are these tenths of °C? then correct the header",
            "date,tmin (°C),tmax (°C)",
        ),
    ),
    "no-unit": (
        "date,tmin\n2012-01-01,28.5\n2012-01-02,30.1\n",
        (
            "1 record-unit",
            "nothing says whether these are °C or °F, and they could be either",
            "name it in the header, such as tmin (°F), or write unit: °F beside the record",
            "date,tmin",
        ),
    ),
    "no-unit-of-three": (
        "date,tmin\n2012-01-01,28\n2012-01-02,30\n",
        (
            "1 record-unit",
            "nothing says whether these are °C, °F or tenths of °C, and they could be any of them",
            "name it in the header, such as tmin (°F), or write unit: °F beside the record",
            "date,tmin",
        ),
    ),
    "no-unit-fits": (
        "date,tmin,tmax\n" + year((-60, -40), (-50, -30.5)),
        (
            "1 record-unit",
            "no unit fits these temperatures: the warmest maxima are about -30.5",
            "are the columns of daily minima and maxima those that the header names so?",
            "date,tmin,tmax",
        ),
    ),
    "two-units": (
        "date,tmin (°C),tmax (°F)\n" + DAYS,
        (
            "1 record-unit",
            "minima in °C, maxima in °F",
            "write both in one unit",
            "date,tmin (°C),tmax (°F)",
        ),
    ),
    "out-of-order": (
        HEADER + "2012-01-01,1,8\n2012-01-04,1,8\n2012-01-02,1,8\n2012-01-03,1,8\n",
        (
            "4 record-order",
            "2012-01-02 comes after 2012-01-04 on line 3",
            "sort the lines by date, the oldest first",
            "2012-01-02,1,8",
        ),
    ),
    "duplicate": (
        HEADER + DAYS + "2012-01-03,0.5,6\n",
        (
            "5 record-duplicate",
            "2012-01-03 stands on line 4 already",
            "keep the line that is right and delete the other",
            "2012-01-03,0.5,6",
        ),
    ),
    "text-for-a-number": (
        HEADER + DAYS + "2012-01-04,cold,6\n",
        (
            "5 record-number",
            "'cold' is no temperature",
            "write a number; leave the cell empty where there is no reading",
            "cold",
        ),
    ),
    "odd-number": (
        HEADER + DAYS + "2012-01-04,1_0,6\n",
        (
            "5 record-number",
            "'1_0' is no temperature",
            "write a number; leave the cell empty where there is no reading",
            "1_0",
        ),
    ),
    "two-stations": (
        "station,date,tmin_c\nMill,2012-01-01,1\nMill,2012-01-02,1\nHill,2012-01-03,2\n"
        "Hill,2012-01-04,2\n",  # said once
        (
            "4 record-stations",
            "this is station 'Hill', above stands 'Mill'",
            "a record is of one station: make a file of each",
            "Hill",
        ),
    ),
    "day-or-month-first": (
        HEADER + "03/04/2012,1,8\n04/04/2012,1,8\n",
        (
            "2 record-date",
            "'03/04/2012' could be more than one day",
            "write the year first, such as 2012-04-03",
            "03/04/2012",
        ),
    ),
    "no-such-day": (
        HEADER + "2011-02-28,1,8\n2011-02-29,1,8\n",
        (
            "3 record-date",
            "'2011-02-29' is a day that no calendar has",
            "correct it, or delete the line",
            "2011-02-29",
        ),
    ),
    "text-for-a-date": (
        HEADER + DAYS + "total,1,8\n",
        (
            "5 record-date",
            "'total' is no date",
            "write the year first, such as 2012-04-03",
            "total",
        ),
    ),
    "far-future": (
        HEADER + DAYS + "9012-01-04,1,8\n",
        ("5 record-date", "no record reaches to 9012-01-04", "correct the year", "9012-01-04"),
    ),
    "a-year-too-long": (
        "year,month,day,tmin (°C)\n2012,1,1,1\n99999999999,1,2,1\n",
        (
            "3 record-date",
            "'99999999999-1-2' is no date",
            "write the year first, such as 2012-04-03",
            "99999999999,1,2,1",
        ),
    ),
    "no-dates": (
        "tmin,tmax\n1,8\n",
        ("1 record-header", "no column of dates is named here", "call it date", "tmin,tmax"),
    ),
    "no-minima": (
        "date,tmax,rain\n2012-01-01,8,0\n",
        (
            "1 record-header",
            "no column of daily minima is named here",
            "call it tmin",
            "date,tmax,rain",
        ),
    ),
    "no-header": (
        DAYS,
        (
            "1 record-header",
            "the columns are not named here",
            "the first line names the columns, such as: date,tmin,tmax",
            "2012-01-01,1.5,8",
        ),
    ),
    "two-minima": (
        "date,tmin,low,tmax\n2012-01-01,1,2,8\n",
        (
            "1 record-header",
            "'tmin' and 'low' could be the same column",
            "leave only one of them, or name the others otherwise",
            "low",
        ),
    ),
    "too-many-cells": (
        HEADER + "2012-01-01,1,5,8,0\n",
        (
            "2 record-cells",
            "5 cells stand here, the header names 3",
            "write decimals with a point, as many cells as the header has",
            "2012-01-01,1,5,8,0",
        ),
    ),
    "too-few-cells": (
        HEADER + DAYS + "2012-01-04,1\n",
        (
            "5 record-cells",
            "2 cells stand here, the header names 3",
            "leave a cell empty where there is no reading, but write its comma",
            "2012-01-04,1",
        ),
    ),
    "open-quote": (
        HEADER + DAYS + '2012-01-04,"1,8\n2012-01-05,1,8\n',
        (
            "5 record-quote",
            "a quote that opens here or further down is not closed behind its cell",
            'write " behind the cell that it belongs to, or delete it',
            '2012-01-04,"1,8',
        ),
    ),
    "header-alone": (
        HEADER,
        (
            "1 record-empty",
            "no day stands below the header",
            "one line a day, such as: 2012-01-01,-2.2,4.4",
            "date,tmin (°C),tmax (°C)",
        ),
    ),
    "empty": (
        "",
        (
            "1 record-empty",
            "the file is empty",
            "the first line names the columns, such as: date,tmin,tmax",
            "",
        ),
    ),
    "blank": (
        "\n \n",
        (
            "1 record-empty",
            "the file is empty",
            "the first line names the columns, such as: date,tmin,tmax",
            "",
        ),
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_mistake_gets_its_line_and_its_remedy(tmp_path: Path, name: str) -> None:
    text, expected = CASES[name]
    found = problems(tmp_path, text)
    assert [said(problem) for problem in found] == [expected]
    assert found[0].severity is Severity.ERROR


def test_a_few_readings_that_no_thermometer_shows_tell_the_unit(tmp_path: Path) -> None:
    """Not a year, but some of its days are over 60: more than one reading of a hundred."""
    rows = year((18, 59), (36, 81)).splitlines(keepends=True)[:150]
    over = sum(float(row.rsplit(",", 1)[1]) > 60 for row in rows)
    assert 5 < over < 60
    (found,) = problems(tmp_path, HEADER + "".join(rows))
    assert found.code == "record-unit"
    assert found.hint == "are these °F? then correct the header"


def test_minima_in_fahrenheit_in_a_celsius_file(tmp_path: Path) -> None:
    (found,) = problems(tmp_path, "date,tmin (°C),rain\n" + year((18, 59), (0, 9), digits=0))
    assert found.message == (
        "the header says °C, which these temperatures cannot be: the warmest minima are about 59"
    )


def test_a_stated_unit_that_the_header_denies(tmp_path: Path) -> None:
    (found,) = problems(tmp_path, HEADER + DAYS, unit="°F")
    assert found.message == "the header says °C, but °F is stated for the record"
    assert found.hint == "delete unit: °F in the garden's file, or correct the header"


def test_a_stated_unit_that_cannot_be(tmp_path: Path) -> None:
    text = "date,tmin,tmax\n" + year((18, 59), (36, 81), digits=0)
    (found,) = problems(tmp_path, text, unit="°C")
    assert found.message == (
        "°C is stated, which these temperatures cannot be: the warmest maxima are about 81"
    )
    assert found.hint == "are these °F? then write unit: °F beside the record"


MANY = HEADER + year((-8, 15), (2, 27))


@pytest.mark.parametrize(
    ("row", "message"),
    [
        ("9.5,8", "the minimum 9.5 °C is above the maximum 8 °C"),
        ("-20,20.5", "from -20 °C to 20.5 °C in one day is not possible"),
        ("-61,", "a minimum of -61 °C"),
        (",60.5", "a maximum of 60.5 °C"),
    ],
)
def test_a_day_that_cannot_be_is_named_and_left_out(tmp_path: Path, row: str, message: str) -> None:
    (found,) = problems(tmp_path, MANY + f"2013-01-01,{row}\n")
    assert found.severity is Severity.WARNING
    assert said(found) == (
        "368 record-wild",
        f"2013-01-01: {message}",
        "the day is left out; correct it if you know better",
        f"2013-01-01,{row}",
    )


@pytest.mark.parametrize(
    ("row", "hint"),
    [
        ("9.5,8", "are the two columns swapped?"),
        ("-20,20.5", "many days are so: is the unit right?"),
        ("-61,", "many days are so: is the unit right?"),
        (",60.5", "many days are so: is the unit right?"),
    ],
)
def test_many_days_that_cannot_be_ask_what_may_be_behind_them(
    tmp_path: Path, row: str, hint: str
) -> None:
    days = [f"2013-01-{day:02},{row}\n" for day in range(1, 6)]
    found = problems(tmp_path, MANY + "".join(days))
    assert [(each.code, each.severity, each.hint) for each in found] == [
        ("record-wild", Severity.ERROR, hint)
    ] * 5


def test_many_days_that_cannot_be_are_an_error(tmp_path: Path) -> None:
    swapped = "date,tmax (°C),tmin (°C)\n" + year((-8, 15), (2, 27))
    found = problems(tmp_path, swapped)
    assert len(found) == 11
    assert said(found[0]) == (
        "2 record-wild",
        "2012-01-01: the minimum 2 °C is above the maximum -8 °C",
        "are the two columns swapped?",
        "2012-01-01,-8.0,2.0",
    )
    assert (found[-1].code, found[-1].message) == ("record-more", "and 356 more such problems")


@pytest.mark.parametrize("rows", [9_999, 10_000, 200_000])
def test_a_file_of_errors_is_not_read_to_its_end(tmp_path: Path, rows: int) -> None:
    found = problems(tmp_path, HEADER + "2012-01-01,1,2\n" + "2012-01-01,1,2\n" * rows)
    assert len(found) == 11
    if rows < 10_000:
        assert found[-1].message == "and 9,989 more such problems"
    else:
        assert found[-1].message == "and 9,990 more such problems; the rest was not read"


def test_one_day_of_few_is_a_warning_two_are_not(tmp_path: Path) -> None:
    one, two = "2012-01-04,9,8\n", "2012-01-05,-30,20\n"
    (found,) = problems(tmp_path, HEADER + DAYS + one)
    assert found.severity is Severity.WARNING
    found, other = problems(tmp_path, HEADER + DAYS + one + two)
    assert found.severity is other.severity is Severity.ERROR
    assert other.hint == "many days are so: is the unit right?"


def test_several_problems_come_at_once_and_the_rest_as_a_number(tmp_path: Path) -> None:
    rows = "2012-01-04,cold,mild\n2012-01-32,1,8\n"
    found = problems(tmp_path, HEADER + DAYS + rows)
    assert [(p.code, p.span.line if p.span else 0) for p in found] == [
        ("record-number", 5),
        ("record-number", 5),
        ("record-date", 6),
    ]
    twice = problems(tmp_path, HEADER + DAYS + DAYS * 400)
    assert [problem.code for problem in twice] == ["record-duplicate"] * 10 + ["record-more"]
    assert twice[-1].message == "and 1,190 more such problems"


def test_newest_first_is_out_of_order(tmp_path: Path) -> None:
    rows = "".join(reversed(DAYS.splitlines(keepends=True)))
    found = problems(tmp_path, HEADER + rows)
    assert [said(problem)[:2] for problem in found] == [
        ("3 record-order", "2012-01-02 comes after 2012-01-03 on line 2"),
        ("4 record-order", "2012-01-01 comes after 2012-01-03 on line 2"),
    ]


def monthly(month: str, element: str = "TMIN", station: str = "XX000000001", **days: int) -> str:
    values = (days.get(f"d{day}", -9999) for day in range(1, 32))
    return f"{station}{month}{element}" + "".join(f"{value:5d}   " for value in values) + "\n"


@pytest.mark.parametrize(
    ("text", "place", "message"),
    [
        (
            monthly("201202", d1=10) + monthly("201202", d1=10),
            "2 record-duplicate",
            "TMIN of 2012-02 stands on line 1 already",
        ),
        (
            monthly("201203", d1=10) + monthly("201202", d1=10),
            "2 record-order",
            "TMIN of 2012-02 comes after 2012-03 on line 1",
        ),
        (
            monthly("201202", d1=10) + monthly("201203", station="XX000000002"),
            "2 record-stations",
            "this is station 'XX000000002', above stands 'XX000000001'",
        ),
        (
            monthly("201102", d29=10),
            "1 record-date",
            "a reading for day 29 of 2011-02, which has 28",
        ),
        (monthly("201113", d2=10), "1 record-line", "this is not a month of the archive"),
        (
            monthly("201202", d1=10).replace("   10", "   1O"),
            "1 record-number",
            "'1O' is no number of tenths of °C",
        ),
        (
            monthly("201202", "TMAX", d1=10),
            "1 record-header",
            "no line of daily minima (TMIN) stands in the file",
        ),
        (
            monthly("201202", d1=10) + "2012-03-01,1.5\n",
            "2 record-line",
            "this is not a month of the archive",
        ),
    ],
)
def test_what_is_wrong_with_monthly_lines(
    tmp_path: Path, text: str, place: str, message: str
) -> None:
    found = problems(tmp_path, text)
    assert [said(problem)[:2] for problem in found] == [(place, message)]


def test_a_wild_day_of_a_monthly_line_is_marked_in_it(tmp_path: Path) -> None:
    text = monthly("201201", d1=10, d2=10, d3=-610) + monthly("201202", d1=10)
    (found,) = problems(tmp_path, text)
    assert said(found)[:2] == ("1 record-wild", "2012-01-03: a minimum of -61 °C")
    assert said(found)[3] == " -610"


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"PK\x03\x04 more", "the file is a spreadsheet or a ZIP file"),
        (b"date,tmin\n2012\0", "the file is not a text"),
        (b"x" * 200_000, "the file is not a text"),
        (gzip.compress(HEADER.encode() + DAYS.encode() * 50, mtime=0)[:-12], "ends too early"),
        (b"\x1f\x8b" + b"damaged" * 9, "the compressed file is damaged"),
    ],
)
def test_a_file_that_is_no_text(tmp_path: Path, data: bytes, message: str) -> None:
    (found,) = problems(tmp_path, data)
    assert found.code == "record-text"
    assert found.message.endswith(message)


@pytest.mark.parametrize(
    ("block", "times", "message"),
    [
        (b"\n" * 1_000, 1_001, "the file has more than 1,000,000 lines, unpacked"),
        (b"\r" * 1_000, 1_001, "the file has more than 1,000,000 lines, unpacked"),
        ((b"#" * 999 + b"\n") * 1_000, 101, "the file is larger than 100 MB, unpacked"),
        (b"#" * 1_000_000, 100, "the file has a line of more than 262 kB, unpacked"),
    ],
    ids=["idle lines", "idle lines of old", "remarks", "one line"],
)
def test_a_small_file_that_unpacks_to_any_size_is_not_read_to_its_end(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, block: bytes, times: int, message: str
) -> None:
    read: list[int] = []
    decompress = gzip.GzipFile.readinto

    def counted(file: gzip.GzipFile, buffer: bytearray) -> int:
        read.append(decompress(file, buffer))
        return read[-1]

    monkeypatch.setattr(gzip.GzipFile, "readinto", counted)
    head, part = (gzip.compress(each, 1, mtime=0) for each in ((HEADER + DAYS).encode(), block))
    packed = head + part * (3 * times)
    (found,) = problems(tmp_path, packed)
    assert (found.code, found.message) == ("record-text", message)
    assert sum(read) <= len(block) * times + 2 * BUFFER


def test_a_record_within_the_bounds_is_read_to_its_end(tmp_path: Path) -> None:
    remarks = "# nothing\n" * 999_990
    assert problems(tmp_path, HEADER + remarks + DAYS) == ()


def test_a_name_too_long_for_any_column_is_passed_over(tmp_path: Path) -> None:
    # longer than the 131,072 characters that the standard library's csv takes for one cell
    (found,) = problems(tmp_path, "# station\n" + HEADER[:-1] + "," + "x" * 140_000 + "\n" + DAYS)
    assert (found.code, found.message) == ("record-header", "the columns are not named here")


@pytest.mark.parametrize(
    "number", ["٢", "²", "1-2", "..", "1e5", "nan.", "9" * 400, "-" + "9" * 5000, "1000001"]
)
def test_only_plain_digits_are_a_temperature(tmp_path: Path, number: str) -> None:
    (found,) = problems(tmp_path, f"{HEADER}{DAYS}2012-01-04,{number},8\n")
    assert found.code == "record-number"
    assert found.message.endswith("is no temperature")


@pytest.mark.parametrize("day", ["٢٠12-01-04", "20²2-01-04", "٢٠١٢٠١٠٤", "2012/01/٠4"])
def test_only_plain_digits_are_a_date(tmp_path: Path, day: str) -> None:
    for rows in (DAYS + f"{day},1,8\n", f"{day},1,8\n" + DAYS):
        found = problems(tmp_path, HEADER + rows)[0]
        assert (found.code, found.message) == ("record-date", f"'{day}' is no date")


def test_a_line_whose_month_is_not_in_plain_digits_is_none_of_the_archive(tmp_path: Path) -> None:
    line = "XX000000001" + "٢٠١٢٠١" + "TMIN" + "    1   " * 31
    assert {each.code for each in problems(tmp_path, line + "\n")} == {"record-header"}


SAMPLES = Path(__file__).parents[2] / "records"
GOOD = [path.read_bytes() for path in sorted(SAMPLES.iterdir()) if path.suffix in (".csv", ".dly")]


@given(
    st.sampled_from(GOOD),
    st.lists(st.tuples(st.integers(0, 1500), st.integers(0, 3), st.binary(max_size=6)), max_size=4),
    st.booleans(),
)
def test_a_damaged_file_is_read_or_refused_and_nothing_else(
    data: bytes, damages: list[tuple[int, int, bytes]], packed: bool
) -> None:
    data = gzip.compress(data, mtime=0) if packed else data
    for at, length, new in damages:
        data = data[:at] + new + data[at + length :]
    with TemporaryDirectory() as folder:
        found = problems(Path(folder), data)
    number = data.count(b"\n") + data.count(b"\r") + 1
    for problem in found:
        if problem.code != "record-more":
            assert problem.span is not None
            assert packed or b"\0" in data or 1 <= problem.span.line <= number
