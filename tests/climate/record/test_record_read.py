"""Records of daily temperatures in every form that is read: archives, tables, monthly lines."""

from __future__ import annotations

import gzip
import math
import os
from array import array
from datetime import date, timedelta
from pathlib import Path

import pytest

import gardens
from records.made import year
from sowtide.climate.record.file import RecordReading, read_record
from sowtide.climate.record.record import Record
from sowtide.days import DateSpan
from sowtide.diagnostics import Severity, Unreadable
from sowtide.season import load
from sowtide.units import celsius

SAMPLES = Path(__file__).parents[2] / "records"


def reading(folder: Path, text: str | bytes, *, unit: str | None = None) -> RecordReading:
    path = folder / "station.csv"
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return read_record(path, unit=unit, label="station.csv")


def record(folder: Path, text: str | bytes, *, unit: str | None = None) -> Record:
    read = reading(folder, text, unit=unit)
    assert read.problems == ()
    assert read.record is not None
    return read.record


def sample(name: str) -> RecordReading:
    return read_record(SAMPLES / name, label=name)


def listed(readings: array[float] | None) -> list[float | None]:
    """The readings rounded to a thousandth, None where there is none."""
    assert readings is not None
    return [None if math.isnan(each) else round(each, 3) for each in readings]


def test_the_archives_table_of_one_station() -> None:
    """Quoted cells in tenths of °C; readings whose second remark is a quality flag are left out."""
    read = sample("archive.csv")
    assert read.problems == ()
    found = read.record
    assert found is not None
    assert (found.station, found.label) == ("WEIR LANE, XX", "archive.csv")
    assert (found.first, found.last) == (date(2012, 2, 27), date(2012, 3, 2))
    assert listed(found.tmin) == [1.1, -2.2, -1.1, None, 0.0]
    assert listed(found.tmax) == [10.6, 15.0, None, None, 14.4]
    assert (found.flagged, found.missing, found.fahrenheit) == (2, 1, False)
    assert read.unit_from == "the values"


def test_monthly_lines_of_the_archive() -> None:
    """29 days of February in a leap year; day 3 is flagged, day 14 is -9999, rain is no matter."""
    read = sample("archive.dly")
    assert read.problems == ()
    found = read.record
    assert found is not None
    assert (found.station, found.first, found.last) == (
        "XX000000001",
        date(2012, 2, 1),
        date(2012, 3, 31),
    )
    assert listed(found.tmin)[:4] == [-2.9, -2.8, None, -2.6]
    assert [each for each in (found.tmin[13], found.tmin[28], found.tmin[29]) if each == each] == [
        -0.1,
        2.0,
    ]
    assert listed(found.tmax)[-1] == 15.0
    assert (found.flagged, found.missing, found.resolution) == (1, 2, 0.1)
    assert read.unit_from == "the form of the file"


def test_a_line_of_units_below_the_header_and_days_first_with_points() -> None:
    read = sample("units-line.csv")
    assert read.problems == ()
    found = read.record
    assert found is not None
    assert read.unit_from == "the line of units"
    assert (found.first, found.fahrenheit) == (date(2011, 2, 28), True)
    assert listed(found.tmin) == [-1.0, -2.0, None]  # 30.2 and 28.4 °F
    assert listed(found.tmax) == [10.0, 12.0, 13.0]


def test_monthly_lines_that_are_cut_short_behind_their_last_reading(tmp_path: Path) -> None:
    # Without the blanks at its end a line says nothing of the days behind: they are missing.
    line = "XX000000001201202{}" + "".join(f"{reading:5}  X" for reading in (101, 102, 103))
    text = f"{line.format('TMAX')}\n{line.format('TMIN').rstrip('X').rstrip()}\n"
    (tmp_path / "station.dly").write_text(text, encoding="ascii")
    read = read_record(tmp_path / "station.dly", label="station.dly")
    assert read.record is not None, read.problems
    assert listed(read.record.tmax)[:4] == [10.1, 10.2, 10.3, None]
    assert listed(read.record.tmin)[:4] == [10.1, 10.2, 10.3, None]


def test_semicolons_with_decimal_commas_below_lines_of_remarks() -> None:
    read = sample("semicolons.csv")
    assert read.problems == ()
    found = read.record
    assert found is not None
    assert read.unit_from == "the header"
    assert listed(found.tmin) == [-2.2, 0.0, None]
    assert listed(found.tmax) == [4.5, 7.0, 6.1]


def test_a_header_behind_a_sign_of_remarks(tmp_path: Path) -> None:
    text = "# station 9, tenths\n#\n# STN,YYYYMMDD,   TN,   TX\n#\n"
    found = record(tmp_path, text + "  9,20120101,  -22,  150\n  9,20120102,     ,  161\n")
    assert (found.station, listed(found.tmin), listed(found.tmax)) == (
        "9",
        [-2.2, None],
        [15.0, 16.1],
    )


@pytest.mark.parametrize("between", [",", ";", "\t"])
def test_a_first_column_without_a_name(tmp_path: Path, between: str) -> None:
    rows = [["", "date", "tmin_c"], ["7", "2012-01-01", "1.5"], ["8", "2012-01-02", "2"]]
    found = record(tmp_path, "".join(between.join(row) + "\n" for row in rows))
    assert listed(found.tmin) == [1.5, 2.0]


def test_year_month_and_day_in_columns_of_their_own() -> None:
    found = sample("parts.csv").record
    assert found is not None
    assert listed(found.tmin) == [14.2, 17.0, None, 15.8]
    assert found.tmax is None
    assert found.gaps == (DateSpan(date(2012, 1, 2), date(2012, 1, 2)),)


@pytest.mark.parametrize(
    ("day", "following"),
    [
        ("2012-02-28", "2012-02-29"),
        ("2012/02/28", "2012/02/29"),
        ("2012/2/28", "2012/2/29"),
        ("20120228", "20120229"),
        ("28.02.2012", "29.02.2012"),
        ("28.2.2012", "29.2.2012"),
        ("2012-02-28 00:00:00", "2012-02-29 00:00:00"),
        ("2012-02-28T00:00Z", "2012-02-29T00:00Z"),
        ('"2012-02-28"', ' "2012-02-29"'),
    ],
)
def test_ways_to_write_a_date(tmp_path: Path, day: str, following: str) -> None:
    found = record(tmp_path, f"date,tmin_c\n{day},1.5\n{following},2\n")
    assert (found.first, found.last) == (date(2012, 2, 28), date(2012, 2, 29))
    assert listed(found.tmin) == [1.5, 2.0]


@pytest.mark.parametrize(
    ("header", "fahrenheit"),
    [
        ("date,tmin (°F)", True),
        ("Date,TMIN_F", True),
        ("day,Min Temp (°C)", False),
        ("Datum,min [deg C]", False),
        ("DATE,Minimum Temperature (Degrees Fahrenheit)", True),
        ("time,temperature_2m_min (°C)", False),
        ("MESS_DATUM, TNK_C", False),
        ("date,low f", True),
        ("Date/Time,Daily minimum (℃)", False),
    ],
)
def test_names_of_columns_and_units(tmp_path: Path, header: str, fahrenheit: bool) -> None:
    read = reading(tmp_path, f"{header}\n2012-01-01,28\n2012-01-02,30\n")
    assert read.record is not None, read.problems
    assert read.record.fahrenheit is fahrenheit
    assert read.unit_from == "the header"
    assert listed(read.record.tmin)[0] == (round(celsius(28), 3) if fahrenheit else 28.0)


@pytest.mark.parametrize(
    "nothing",
    ["", " ", "NA", "M", "NaN", "-9999", "-999.9", "9999", "-99", "-99.9", "-99.99"],
)
def test_what_stands_for_no_reading(tmp_path: Path, nothing: str) -> None:
    found = record(tmp_path, f"date,tmin_c\n2012-01-01,1.5\n2012-01-02,{nothing}\n2012-01-03,-3\n")
    assert listed(found.tmin) == [1.5, None, -3.0]


def test_minus_99_is_a_reading_in_tenths(tmp_path: Path) -> None:
    found = record(tmp_path, "date,tmin\n2012-01-01,-99\n2012-01-02,-200\n", unit="tenths of °C")
    assert listed(found.tmin) == [-9.9, -20.0]


@pytest.mark.parametrize(
    ("lows", "highs", "digits", "fahrenheit", "low"),
    [
        ((-8.0, 15.0), (2.0, 27.0), 1, False, -8.0),  # °C with decimals
        ((-8.0, 15.0), (2.0, 27.0), 0, False, -8.0),  # whole °C
        ((18.0, 59.0), (36.0, 81.0), 0, True, celsius(18)),  # whole °F
        ((40.0, 85.0), (66.0, 112.0), 0, True, celsius(40)),  # whole °F in a desert
        ((-80.0, 150.0), (20.0, 270.0), 0, False, -8.0),  # tenths of °C
        ((-40.0, 70.0), (5.0, 130.0), 0, False, -4.0),  # tenths of °C on a cool coast
    ],
)
def test_a_whole_year_tells_its_unit(
    tmp_path: Path,
    lows: tuple[float, float],
    highs: tuple[float, float],
    digits: int,
    fahrenheit: bool,
    low: float,
) -> None:
    read = reading(tmp_path, "date,tmin,tmax\n" + year(lows, highs, digits=digits))
    assert read.record is not None, read.problems
    assert read.unit_from == "the values"
    assert read.record.fahrenheit is fahrenheit
    assert min(read.record.tmin) == pytest.approx(low)


@pytest.mark.parametrize(
    ("lows", "digits", "low"),
    [((-8.0, 15.0), 1, -8.0), ((18.0, 59.0), 0, celsius(18)), ((-80.0, 150.0), 0, -8.0)],
)
def test_minima_alone_tell_the_unit_as_well(
    tmp_path: Path, lows: tuple[float, float], digits: int, low: float
) -> None:
    read = reading(tmp_path, "date,tmin,rain\n" + year(lows, (0, 9), digits=digits))
    assert read.record is not None, read.problems
    assert read.unit_from == "the values"
    assert min(read.record.tmin) == pytest.approx(low)


def test_tenths_behind_fahrenheit_are_exact(tmp_path: Path) -> None:
    found = record(tmp_path, "date,tmin_f\n2012-01-01,28.04\n2012-01-02,28.94\n")
    assert list(found.tmin) == [-2.2, -1.7]


def test_the_unit_may_be_given(tmp_path: Path) -> None:
    read = reading(tmp_path, "date,tmin\n2012-01-01,28\n2012-01-02,30\n", unit="°F")
    assert read.record is not None
    assert read.unit_from == "given"
    assert listed(read.record.tmin) == [-2.222, -1.111]
    with pytest.raises(ValueError, match="not a unit of temperature: K"):
        reading(tmp_path, "date,tmin\n2012-01-01,28\n", unit="K")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "latin-1", "utf-16"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_encodings_and_line_ends(tmp_path: Path, encoding: str, end: str) -> None:
    text = "station,date,tmin (°C)\nGärtringen,2012-01-01,-2.2\nGärtringen,2012-01-02,3\n"
    found = record(tmp_path, text.replace("\n", end).encode(encoding))
    assert found.station == "Gärtringen"
    assert listed(found.tmin) == [-2.2, 3.0]


def test_compressed_files_are_known_by_their_content(tmp_path: Path) -> None:
    for name in ("archive.csv", "archive.dly", "semicolons.csv"):
        data = (SAMPLES / name).read_bytes()
        path = tmp_path / name
        path.write_bytes(gzip.compress(data, mtime=0))
        plain, packed = sample(name).record, read_record(path).record
        assert plain is not None
        assert packed is not None
        assert listed(packed.tmin) == listed(plain.tmin)
        assert packed.station == plain.station


def test_days_without_a_minimum_at_the_end_are_a_gap(tmp_path: Path) -> None:
    days = "".join(f"2012-01-0{day},{low},8\n" for day, low in enumerate(("1", "1", "", ""), 1))
    found = record(tmp_path, "date,tmin_c,tmax_c\n" + days)
    assert (found.last, found.missing) == (date(2012, 1, 4), 2)
    assert found.gaps == (DateSpan(date(2012, 1, 3), date(2012, 1, 4)),)


def test_missing_days_and_years_are_counted_not_filled(tmp_path: Path) -> None:
    rows = "2010-12-31,1.5\n2012-01-01,\n2012-01-02,2\n2012-01-05,2\n"
    read = reading(tmp_path, "date,tmin_c\n" + rows)
    assert [(each.code, each.severity) for each in read.problems] == [("record-gap", Severity.NOTE)]
    found = read.record
    assert found is not None
    assert found.gaps == (
        DateSpan(date(2011, 1, 1), date(2012, 1, 1)),
        DateSpan(date(2012, 1, 3), date(2012, 1, 4)),
    )
    assert found.missing == 365 + 1 + 2
    assert len(found.tmin) == (date(2012, 1, 5) - date(2010, 12, 31)).days + 1


@pytest.mark.parametrize(("first", "noted"), [("2011-12-31", False), ("2012-01-01", True)])
def test_a_gap_of_a_year_is_noted_a_shorter_one_is_not(
    tmp_path: Path, first: str, noted: bool
) -> None:
    # 1 January to 30 December 2011 are 364 days, to 31 December 365.
    read = reading(tmp_path, f"date,tmin_c\n2010-12-31,1.5\n{first},2\n")
    assert [each.code for each in read.problems] == ["record-gap"] * noted


@pytest.mark.parametrize("otherwise", ["°C", "°F"])
def test_the_gardens_unit_counts_only_where_nothing_else_tells(
    tmp_path: Path, otherwise: str
) -> None:
    path = tmp_path / "station.csv"
    path.write_text("date,tmin\n2012-01-01,28.5\n2012-01-02,30.1\n", encoding="utf-8")
    unsaid = read_record(path, otherwise=otherwise)
    assert unsaid.record is not None
    assert (unsaid.record.fahrenheit, unsaid.unit_from) == (otherwise == "°F", "the garden's file")
    path.write_text("date,tmin_c\n2012-01-01,28.5\n2012-01-02,30.1\n", encoding="utf-8")
    said = read_record(path, otherwise=otherwise)
    assert said.record is not None
    assert (said.record.fahrenheit, said.unit_from) == (False, "the header")


@pytest.mark.parametrize(
    ("readings", "unit", "step"),
    [
        (("-2.2", "1.7", "0.4"), "°C", 0.1),
        (("28", "31", "40"), "°F", 5 / 9),
        (("28.94", "28.04", "33.26"), "°F", 0.1),  # °F made of tenths of °C
        (("28.1", "31.4", "40.7"), "°F", 1 / 18),
        (("-2", "1", "4"), "°C", 1.0),
        (("-2.5", "1", "4"), "°C", 0.5),
        (("-2.25", "1.02", "4"), "°C", 0.01),
        (("-22", "17", "4"), "tenths of °C", 0.1),
    ],
)
def test_the_step_between_readings(
    tmp_path: Path, readings: tuple[str, ...], unit: str, step: float
) -> None:
    rows = "".join(f"2012-01-0{day},{each}\n" for day, each in enumerate(readings, 1))
    found = record(tmp_path, f"date,tmin\n{rows}", unit=unit)
    assert found.resolution == pytest.approx(step)


def test_whole_fahrenheit_are_seen_behind_tenths_of_celsius(tmp_path: Path) -> None:
    start = date(2012, 1, 1)
    rows = [f"{start + timedelta(f)},{celsius(f):.2f}\n" for f in range(-20, 100)]
    assert record(tmp_path, "date,tmin_c\n" + "".join(rows)).resolution == pytest.approx(5 / 9)
    odd = [*rows, f"{start + timedelta(100)},1.55\n"]
    assert record(tmp_path, "date,tmin_c\n" + "".join(odd)).resolution == 0.01


def counts(found: Record, at: float) -> list[bool]:
    threshold = found.threshold(at)
    return [low <= threshold for low in found.tmin]


@pytest.mark.parametrize("degrees", [20, 24, 28, 29, 30, 31, 32, 36])
def test_a_threshold_in_fahrenheit_counts_at_every_resolution(tmp_path: Path, degrees: int) -> None:
    """The reading at the threshold counts, the next one above it does not.

    28 °F is −2.222 °C and stands in an archive of tenths as −2.2; 30 °F is −1.111 and −1.1.
    """
    at = celsius(degrees)
    above = degrees + 1
    for digits in (1, 2, 6):
        rows = f"2012-01-01,{celsius(degrees):.{digits}f}\n2012-01-02,{celsius(above):.{digits}f}\n"
        rows += "2012-01-03,0.1\n2012-01-04,7.3\n"
        found = record(tmp_path, "date,tmin_c\n" + rows)
        assert counts(found, at)[:2] == [True, False]
        whole = record(tmp_path, f"date,tmin_f\n2012-01-01,{degrees}\n2012-01-02,{above}\n")
        assert counts(whole, at) == [True, False]
        assert counts(whole, round(at, 1)) == [True, False]


def test_a_tenth_above_the_threshold_does_not_count(tmp_path: Path) -> None:
    found = record(tmp_path, "date,tmin_c\n2012-01-01,-2.2\n2012-01-02,-2.1\n2012-01-03,0.0\n")
    assert counts(found, celsius(28)) == [True, False, False]
    assert counts(found, 0.0) == [True, True, True]
    assert counts(found, -0.1) == [True, True, False]


def test_a_coarse_record_is_taken_at_its_word(tmp_path: Path) -> None:
    """A whole −2 °C stands for −2.5 to −1.5: rather above −2.2 than below."""
    found = record(tmp_path, "date,tmin_c\n2012-01-01,-2\n2012-01-02,-3\n")
    assert counts(found, celsius(28)) == [False, True]


def test_the_wild_value_is_a_warning_and_its_day_is_left_out(tmp_path: Path) -> None:
    rows = "2012-07-17,64,90\n2012-07-18,-72,92\n2012-07-19,64,91\n"
    read = reading(tmp_path, "date,tmin (°F),tmax (°F)\n" + rows)
    assert read.record is not None
    assert [problem.severity for problem in read.problems] == [Severity.WARNING]
    assert listed(read.record.tmin) == [17.778, None, 17.778]
    assert listed(read.record.tmax) == [32.222, None, 32.778]
    assert (read.record.wild, read.record.missing) == (1, 1)


def test_a_file_that_is_not_there_or_is_none(tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match=r"^there is no file .*nowhere\.csv$"):
        read_record(tmp_path / "nowhere.csv")
    with pytest.raises(Unreadable, match=r"^records is a folder, not a file$"):
        read_record(tmp_path, label="records")
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path / "pipe", Path(os.devnull)):
        with pytest.raises(Unreadable, match=r"^records is a pipe or a device, not a file$"):
            read_record(path, label="records")
    (tmp_path / "file").write_text("x", encoding="utf-8")
    with pytest.raises(Unreadable, match="cannot be read"):
        read_record(tmp_path / "file" / "station.csv")
    with pytest.raises(Unreadable, match="cannot be read"):
        read_record(Path("a\0b"))


def test_a_link_that_leads_out_of_the_gardens_folder_is_refused(tmp_path: Path) -> None:
    garden, outside = tmp_path / "garden", tmp_path / "station.csv"
    (garden / "kept").mkdir(parents=True)
    for path in (outside, garden / "kept" / "station.csv"):
        path.write_text("date,tmin\n" + year((-5, 15), (5, 25)), "utf-8")
    (garden / "garden.yaml").write_text(gardens.text(frost="{record: station.csv}"), "utf-8")
    said = {}
    for target in (outside, garden / "kept" / "station.csv"):
        (garden / "station.csv").unlink(missing_ok=True)
        (garden / "station.csv").symlink_to(target)
        said[target] = [each.message for each in load(garden / "garden.yaml").problems]
    refusal = "station.csv is a link that leads out of the folder of this file"
    assert said[outside] == [refusal]
    assert refusal not in said[garden / "kept" / "station.csv"]
