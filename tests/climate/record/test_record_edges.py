"""The bounds by which a record is told from what is none, each with the value beside it."""

from __future__ import annotations

from array import array
from datetime import date
from pathlib import Path

import pytest

from sowtide.climate.record import stream
from sowtide.climate.record.checks import WIDEST, in_celsius, wild_days
from sowtide.climate.record.degrees import LEAST, MOST, Range, Unit, range_of, step_of
from sowtide.climate.record.dly import is_monthly
from sowtide.climate.record.file import RecordReading, read_record
from sowtide.climate.record.gathering import EARLIEST, LATEST, NOTHING, DayLines
from sowtide.climate.record.written_dates import Form, form_of
from sowtide.units import celsius

C, F, TENTHS = Unit.CELSIUS, Unit.FAHRENHEIT, Unit.TENTHS


@pytest.mark.parametrize(
    ("unit", "maxima", "cold", "warm", "allowed"),
    [
        # Warmest minima lie within 5 and 34 °C, warmest maxima within 10 and 52 °C.
        *((C, False, -9, warm, warm in (5, 34)) for warm in (4.9, 5, 34, 34.1)),
        *((C, True, -9, warm, warm in (10, 52)) for warm in (9.9, 10, 52, 52.1)),
        *((F, False, 9, warm, warm in (41, 93)) for warm in (40, 41, 93, 94)),  # 34 °C are 93.2 °F
        *((F, True, 9, warm, warm in (50, 125)) for warm in (49, 50, 125, 126)),  # 125.6 °F
        # Minima in tenths reach 15 °C, or are 8 °C apart.
        *((TENTHS, False, cold, 140, cold <= 60) for cold in (59, 60, 61)),
        *((TENTHS, False, 100, warm, warm >= 150) for warm in (149, 150)),
        # Maxima reach 20 °C, or are 12 °C above the coldest minima.
        *((TENTHS, True, cold, 190, cold <= 70) for cold in (69, 70, 71)),
        *((TENTHS, True, 150, warm, warm >= 200) for warm in (199, 200)),
        # What is so even in °C stays so.
        *((C, maxima, 11, 12, True) for maxima in (False, True)),
    ],
)
def test_the_years_range_allows_a_unit(
    unit: Unit, maxima: bool, cold: float, warm: float, allowed: bool
) -> None:
    beyond = tuple((each, 0) for each in Unit)

    def reach(*, whole_year: bool) -> Range:
        return Range(
            cold=cold,
            warm=warm,
            maxima=maxima,
            number=365,
            beyond=beyond,
            whole_year=whole_year,
            integers=True,
        )

    assert reach(whole_year=True).allows(unit) == allowed
    assert reach(whole_year=False).allows(unit)


@pytest.mark.parametrize(("number", "most"), [(10, 1), (100, 1), (199, 1), (200, 2), (1000, 10)])
def test_a_reading_in_a_hundred_may_be_wild_and_one_of_few(number: int, most: int) -> None:
    for wild in (most, most + 1):
        reach = Range(
            cold=0,
            warm=20,
            maxima=False,
            number=number,
            beyond=tuple((unit, wild) for unit in Unit),
            whole_year=False,
            integers=False,
        )
        assert reach.allows(C) == (wild == most)
        assert not reach.allows(TENTHS)  # written with decimals


def test_a_year_is_all_twelve_months_and_300_days() -> None:
    def whole(first: date, days: int, missing: int) -> bool:
        lows = array("d", [NOTHING] * missing + [5.0] * (days - missing))
        ordinals = range(first.toordinal(), first.toordinal() + days)
        return range_of(lows, array("d"), ordinals, integers=True).whole_year

    # Every seventh day is looked at: 1 January and each week behind it, up to 3 December the 337th.
    assert whole(date(2015, 1, 1), 365, 65)
    assert not whole(date(2015, 1, 1), 365, 66)
    assert whole(date(2015, 1, 1), 337, 0)
    assert not whole(date(2015, 1, 1), 334, 0)


def test_two_in_a_hundred_lie_beyond_either_end() -> None:
    days = range(1, 101)
    minima = array("d", map(float, range(1, 101)))
    of_minima = range_of(minima, array("d"), days, integers=True)
    assert (of_minima.cold, of_minima.warm, of_minima.maxima) == (3, 99, False)
    maxima = array("d", [NOTHING, *map(float, range(102, 201))])
    both = range_of(minima, maxima, days, integers=True)
    # Of 99 maxima 97.02 lie below: the ninety-eighth.
    assert (both.cold, both.warm, both.maxima, both.number) == (3, 199, True, 199)
    # No thermometer shows 61 and more in °C: 40 of the minima and all maxima.
    assert dict(both.beyond)[C] == 40 + 99


@pytest.mark.parametrize(
    ("digits", "step", "of_few"), [(1, 5 / 9, 0.1), (2, 5 / 9, 0.01), (3, 5 / 9, 0.01)]
)
def test_a_hundred_different_readings_show_whole_fahrenheit(
    digits: int, step: float, of_few: float
) -> None:
    readings = [round(celsius(degree), digits) for degree in range(1, 101)]
    assert step_of(readings) == step
    assert step_of([*readings, NOTHING]) == step
    assert step_of(readings[1:]) == of_few
    assert step_of([*readings, 0.35]) == 0.01


def test_a_day_is_wild_only_beyond_the_bounds() -> None:
    cases = [
        (LEAST, LEAST + WIDEST, ""),
        (MOST, MOST, ""),
        (5.0, 5.0, ""),
        (5.0, 4.9, "the minimum 5 °C is above the maximum 4.9 °C"),
        (0.0, WIDEST, ""),
        (0.0, WIDEST + 0.1, "from 0 °C to 40.1 °C in one day is not possible"),
        (LEAST - 0.1, -40.0, "a minimum of -60.1 °C"),
        (MOST - 1, MOST + 0.1, "a maximum of 60.1 °C"),
        (LEAST, NOTHING, ""),
        (NOTHING, MOST, ""),
        (LEAST - 0.1, NOTHING, "a minimum of -60.1 °C"),
        (NOTHING, MOST + 0.1, "a maximum of 60.1 °C"),
        (NOTHING, NOTHING, ""),
    ]
    days = DayLines()
    for low, high, _ in cases:
        days.lows.append(low)
        days.highs.append(high)
    found = {each.index: each.message for each in wild_days(days, days.lows, days.highs, C)}
    assert found == {index: said for index, (_, _, said) in enumerate(cases) if said}


def test_marks_of_no_reading_are_readings_in_tenths() -> None:
    marks = array("d", [-99.0, -99.9, -99.99, 10.0])
    assert [number == number for number in in_celsius(marks, C)] == [False, False, False, True]
    assert [number == number for number in in_celsius(marks, F)] == [False, False, False, True]
    assert list(in_celsius(array("d", [-99.0, 10.0]), TENTHS)) == [-9.9, 1.0]


DAY = date(2012, 4, 3)
WRITTEN = {
    Form.HYPHENS: ("2012-04-03", "2012-4-3", "2012-04-3", "2012-4-03", "2012-04-03T00:00:00Z"),
    Form.SLASHES: ("2012/04/03", "2012/4/3", "2012/04/3", "2012/4/03", "2012/04/03 0:00"),
    Form.DIGITS: ("20120403", "20120403 00:00"),
    Form.POINTS: ("03.04.2012", "3.4.2012", "03.4.2012", "3.04.2012", "03.04.2012 00:00"),
}


def day_of(form: Form, text: str) -> date | None:
    try:
        return date.fromordinal(form.reader()(text))
    except ValueError:
        return None


@pytest.mark.parametrize("form", Form)
def test_a_form_of_dates_takes_its_own_and_no_other(form: Form) -> None:
    for other, texts in WRITTEN.items():
        for text in texts:
            assert form_of(text) is other
            assert day_of(form, text) == (DAY if other is form else None)


@pytest.mark.parametrize(
    "text",
    [
        *("212-04-03", "20121-04-03", "2012-004-03", "2012-04-003", "2012-04", "2012-04-03-1"),
        *("2012040", "201204031", "03.04.12", "03.04.20121", "003.04.2012", "03.004.2012"),
        *("03/04/2012", "03-04-2012", "2012.04.03", "2012-a4-03", "2012-04-03T01:00", "T00:00"),
        *("2012-04-03T00:30", "2012-04-03T00:00:07", "2012-04-03 00:00 noon", "20120403 00:001"),
    ],
)
def test_what_is_no_certain_date(text: str) -> None:
    assert form_of(text) is None


MONTH = "USW00014898201204TMIN" + "   15  X" * 30


@pytest.mark.parametrize(
    ("line", "monthly"),
    [
        (MONTH, True),
        (MONTH[:27], True),  # one reading, and what is remarked on it
        (MONTH[:26], False),
        (MONTH.replace("201204TMIN", "2012a4TMIN"), False),
        (MONTH.replace("201204TMIN", "a01204TMIN"), False),
        (MONTH.replace("201204TMIN", "20120aTMIN"), False),
        (MONTH.replace("TMIN", "TMIn"), False),
        (MONTH.replace("TMIN", "tMIN"), False),
        (MONTH.replace("TMIN", "TM-N"), False),
        (MONTH.replace("TMIN", "WT01"), True),
        (MONTH.replace("USW", "U,W"), False),
        (MONTH.replace("USW", "U;W"), False),
        (MONTH.replace("USW", "U\tW"), False),
        (MONTH + ",", True),
    ],
)
def test_a_line_of_a_month(line: str, monthly: bool) -> None:
    assert is_monthly(line) == monthly


def read(folder: Path, text: str) -> RecordReading:
    path = folder / "station.csv"
    path.write_text(text)
    return read_record(path, unit="°C", label="station.csv")


def said(folder: Path, text: str) -> list[tuple[int, str]]:
    problems = read(folder, text).problems
    return [(each.span.line, each.message) for each in problems if each.span is not None]


HEADER = "date,tmin,tmax\n"


@pytest.mark.parametrize(
    ("rows", "found"),
    [
        ("never,1,8\n", [(2, "'never' is no date")]),
        ("2012-01-01,C,8\n", [(2, "'C' is no temperature")]),
        ("2012-01-01,1,8\n2012-01-02\n", [(3, "1 cell stands here, the header names 3")]),
        ("2012-01-01,1,8\n2012-01-02,1\n", [(3, "2 cells stand here, the header names 3")]),
        ("2012-01-01,1,8,\n", []),
        ("2012-01-01,1,8,9\n", [(2, "4 cells stand here, the header names 3")]),
        # A day out of bounds is told, and the next one follows on what stood before it.
        ("2201-01-01,1,8\n2012-01-01,1,8\n", [(2, "no record reaches to 2201-01-01")]),
        ("1699-12-31,1,8\n2012-01-01,1,8\n", [(2, "no record reaches to 1699-12-31")]),
        ("1700-01-01,1,8\n", []),
        ("2200-12-31,1,8\n", []),
        ("2200-12-31,1,8,\n", []),
    ],
)
def test_rows_of_a_table(tmp_path: Path, rows: str, found: list[tuple[int, str]]) -> None:
    assert said(tmp_path, HEADER + rows) == found


def test_what_the_header_says_counts_before_a_line_of_units(tmp_path: Path) -> None:
    rows = "date,tmin (°C),tmax (°C)\n,°F,°F\n2012-01-01,1,8\n"
    record = read(tmp_path, rows).record
    assert record is not None
    assert (record.unit_from, list(record.tmin)) == ("given", [1.0])
    path = tmp_path / "station.csv"
    assert read_record(path, label="station.csv").unit_from == "the header"


@pytest.mark.parametrize("of", ["tmin", "tmax"])
def test_what_is_doubted_of_one_column_alone_is_left_out(tmp_path: Path, of: str) -> None:
    # The second of the archive's remarks is what it doubts.
    header = f"date,tmin,tmax,{of}_attributes\n"
    record = read(tmp_path, header + '2012-01-01,1,8,",,7"\n2012-01-02,2,9,",X,7"\n').record
    assert record is not None
    assert record.tmax is not None
    assert record.flagged == 1
    kept = record.tmax if of == "tmin" else record.tmin
    assert all(number == number for number in kept)
    doubted = record.tmin if of == "tmin" else record.tmax
    assert [number == number for number in doubted] == [True, False]


def test_another_station_is_told_once(tmp_path: Path) -> None:
    table = "station,date,tmin\nA,2012-01-01,1\nB,2012-01-02,1\nB,2012-01-03,1\n"
    assert said(tmp_path, table) == [(3, "this is station 'B', above stands 'A'")]
    months = "\n".join(
        MONTH.replace("USW", each).replace("201204", f"2012{number:02}")
        for number, each in enumerate(("USW", "USX", "USX"), 4)
    )
    assert said(tmp_path, months) == [
        (2, "this is station 'USX00014898', above stands 'USW00014898'")
    ]


@pytest.mark.parametrize(
    ("year", "month", "taken"),
    [("1700", "01", True), ("1699", "12", False), ("2200", "12", True), ("2201", "01", False)],
)
def test_months_of_the_archive_have_the_same_bounds(
    tmp_path: Path, year: str, month: str, taken: bool
) -> None:
    assert (date(1700, 1, 1).toordinal(), date(2200, 12, 31).toordinal()) == (EARLIEST, LATEST)
    path = tmp_path / "station.dly"
    path.write_text(MONTH.replace("201204", year + month) + "   15  X\n")
    reading = read_record(path, label="station.dly")
    found = [each.message for each in reading.problems]
    assert ("this is not a month of the archive" not in found) == taken


def test_a_line_that_is_no_month_stands_between_months(tmp_path: Path) -> None:
    assert said(tmp_path, f"{MONTH}\nremark\n\n{MONTH.replace('TMIN', 'PRCP')}\n") == [
        (2, "this is not a month of the archive")
    ]


@pytest.mark.parametrize(
    ("before", "line", "message"),
    [
        ("", 1, "the columns are not named here"),
        ("A station\n", 1, "the columns are not named here"),
        ("A station\ndate,rain\n", 2, "no column of daily minima is named here"),
        ("A station\nplace,tmin\n", 2, "no column of dates is named here"),
        ("date,rain\nplace,tmin\n", 1, "no column of daily minima is named here"),
        ("place,tmin\ndate,rain\n", 1, "no column of dates is named here"),
    ],
)
def test_what_is_most_like_a_header_is_told(
    tmp_path: Path, before: str, line: int, message: str
) -> None:
    assert said(tmp_path, before + "2012-01-01,1,8\n") == [(line, message)]


@pytest.mark.parametrize(("remarks", "is_read"), [(59, True), (60, False)])
def test_a_header_stands_within_sixty_lines(tmp_path: Path, remarks: int, is_read: bool) -> None:
    found = read(tmp_path, "a remark\n" * remarks + HEADER + "2012-01-01,1,8\n")
    assert (found.record is not None) == is_read


@pytest.mark.parametrize(
    ("bound", "most"), [("LARGEST", 32), ("MOST_LINES", 2), ("LONGEST_LINE", 32)]
)
def test_a_record_as_large_as_any_may_be(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, bound: str, most: int
) -> None:
    text = HEADER + "2012-01-01,-10.25\n"
    text = text.replace("\n", " ") if bound == "LONGEST_LINE" else text
    assert (len(text), text.count("\n")) in ((33, 2), (33, 0))
    path = tmp_path / "station.csv"
    path.write_text(text)
    for number in (most + 1, most, most - 1):
        monkeypatch.setattr(stream, bound, number)
        with stream.opened(path, "station.csv") as file:
            allowed = number >= (2 if bound == "MOST_LINES" else 33)
            if allowed:
                assert file.read() == text.encode()
            else:
                with pytest.raises(stream.BoundsError):
                    file.read()
