"""Frosts on real records, computed independently with numpy and pandas.

Figures named as published on a record were computed on it beforehand by two other programs.
"""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy
import pandas
import pytest

from records import stations
from sowtide.climate.frost_record.frost_years import FrostYears, HalfYears
from sowtide.climate.frost_record.search import FrostSearch
from sowtide.climate.frost_record.trend import trend
from sowtide.climate.record.file import RecordReading, read_record
from sowtide.climate.record.record import Record
from sowtide.diagnostics import Severity
from sowtide.units import celsius


def read_text(text: str, *, unit: str | None = None) -> RecordReading:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "station.csv"
        path.write_text(text, encoding="utf-8")
        return read_record(path, unit=unit, label="station.csv")


@cache
def station(name: str) -> RecordReading:
    if name == "seattle":
        return read_record(stations.SEATTLE)
    if name == "fulda":
        return read_record(stations.FULDA)
    if name == "wageningen":
        return read_text(stations.table(stations.wageningen_without_flags()))
    return read_text(stations.clemson())


def record(name: str) -> Record:
    found = station(name).record
    assert found is not None
    return found


@cache
def reference(name: str) -> pandas.Series[float]:
    """The station's minima by pandas alone, each in the archive's tenths of °C, wild day out."""
    if name == "seattle":
        frame = pandas.read_csv(stations.SEATTLE, index_col="date", parse_dates=True)
        lows = frame["temp_min"]
    elif name == "fulda":
        frame = pandas.read_csv(stations.FULDA, skiprows=[1], encoding="utf-8-sig")
        lows = pandas.Series(
            frame["tmin"].astype(float).to_numpy(),
            index=pandas.to_datetime(frame["date"], format="%d.%m.%Y"),
        )
    elif name == "wageningen":
        rows = [row for row in stations.wageningen() if row.station == "1"]
        lows = pandas.Series(
            [float(row.low) for row in rows], index=pandas.to_datetime([row.day for row in rows])
        )
        lows = lows[~lows.index.duplicated(keep="last")]
    else:
        frame = pandas.read_pickle(stations.CLEMSON, compression="xz")
        lows = pandas.Series(
            ((frame["tmin"] - 32) / 1.8).round(1).to_numpy(),
            index=pandas.to_datetime(frame["date"]),
        )
        lows.loc["1936-07-18"] = numpy.nan
    return lows.asfreq("D")


def expected(name: str, at: float) -> tuple[dict[int, float], dict[int, float]]:
    """Days from 1 March to the last and the first frost of each year that is known."""
    lows = reference(name)
    cold = lows <= round(at, 1)
    years = lows.index.year.unique()
    spring, autumn = {}, {}
    for year in years:
        midsummer = pandas.Timestamp(year, 7, 1)
        march = pandas.Timestamp(year, 3, 1)
        before = cold[midsummer - pandas.DateOffset(years=1) : midsummer - pandas.Timedelta("1D")]
        after = cold[midsummer : midsummer + pandas.DateOffset(years=1) - pandas.Timedelta("1D")]
        last, first = before[before].index.max(), after[after].index.min()
        if last is not pandas.NaT and _known(
            lows, last + pandas.Timedelta("1D"), midsummer - pandas.Timedelta("1D"), at
        ):
            spring[year] = (last - march).days
        if first is not pandas.NaT and _known(lows, midsummer, first - pandas.Timedelta("1D"), at):
            autumn[year] = (first - march).days
    return spring, autumn


def _known(lows: pandas.Series[float], begin: object, end: object, at: float) -> bool:
    """Say whether no missing day from one to another lies within 45 days of a frost of any year."""
    between = lows[begin:end]
    missing = between[between.isna()].index
    if missing.empty:
        return True
    if lows.notna().sum() < 10 * 365:
        return False
    frosts = lows[lows <= round(at, 1)].index
    return not any(
        numpy.minimum(
            (frosts.day_of_year - day.day_of_year) % 365,
            (day.day_of_year - frosts.day_of_year) % 365,
        ).min()
        <= 45
        for day in missing
    )


AT = [celsius(degrees) for degrees in (36, 32, 30, 28, 24)]
ALL = ["seattle", "fulda", "wageningen", "clemson"]


def by_year(half: HalfYears) -> dict[int, float]:
    return {
        year.season: half.count(year.day, year.season)
        for year in half.years
        if year.day is not None
    }


@pytest.mark.parametrize("name", ALL)
@pytest.mark.parametrize("at", AT, ids=lambda at: f"{at:.1f}")
def test_every_years_frosts_equal_an_independent_count(name: str, at: float) -> None:
    found = FrostSearch(record(name), south=False).at(at)
    assert (by_year(found.spring), by_year(found.autumn)) == expected(name, at)
    for half, days in zip((found.spring, found.autumn), expected(name, at), strict=True):
        for share in (0.1, 0.5, 0.9):
            assert half.quantile(share) == pytest.approx(numpy.quantile(list(days.values()), share))


def in_words(half: HalfYears) -> list[str]:
    days = [half.day(half.quantile(share), 2026) for share in (0.1, 0.5, 0.9)]
    return [f"{day.day} {day:%b}" for day in days if day is not None]


def at_zero(name: str) -> FrostYears:
    return FrostSearch(record(name), south=False).at(0.0)


def test_seattle() -> None:
    """Published on this record: last spring days 79, 63, 40, 63, first fall 315, 325, 316, 327."""
    found = at_zero("seattle")
    assert [day_of_year(y.day) for y in found.spring.years] == [79, 63, 40, 63]
    assert [day_of_year(y.day) for y in found.autumn.years] == [315, 325, 316, 327]
    assert station("seattle").unit_from == "the values"


def day_of_year(day: date | None) -> int:
    assert day is not None
    return day.timetuple().tm_yday


def test_wageningen() -> None:
    """Published on this record: 13 Apr / 27 Apr / 14 May and 14 Oct / 23 Oct / 24 Nov."""
    found = at_zero("wageningen")
    assert in_words(found.spring) == ["13 Apr", "27 Apr", "14 May"]
    assert in_words(found.autumn) == ["14 Oct", "23 Oct", "24 Nov"]
    assert record("wageningen").missing == 122
    assert {span.first.year for span in record("wageningen").gaps} == {1991}


def test_clemson() -> None:
    """Published on this record: 18 Mar / 3 Apr / 17 Apr and 19 Oct / 3 Nov / 15 Nov, 85 years.

    Those dates leave out slightly different years; ours are within a day of each.
    """
    found = at_zero("clemson")
    assert (len(found.spring.years), len(found.autumn.years)) == (85, 85)
    published = ([(3, 18), (4, 3), (4, 17)], [(10, 19), (11, 3), (11, 15)])
    for half, dates in zip((found.spring, found.autumn), published, strict=True):
        for share, day in zip((0.1, 0.5, 0.9), dates, strict=True):
            assert abs(half.quantile(share) - half.count(date(2026, *day), 2026)) <= 1
    read = station("clemson")
    assert (record("clemson").missing, record("clemson").fahrenheit) == (108, True)
    assert read.unit_from == "the values"


def test_clemsons_wild_value_is_named_and_left_out() -> None:
    (problem,) = station("clemson").problems
    assert problem.severity is Severity.WARNING
    assert problem.message == "1936-07-18: from -72.04 °F to 91.94 °F in one day is not possible"
    assert problem.span is not None
    assert problem.span.text == "1936-07-18,-72.04,91.94"
    lengths = {length.season: length.days for length in at_zero("clemson").lengths}
    # Published on this record: 194 days without frost lie between 19 April and 31 October, and
    # with the wild day there would be 89; the season, last frost to first, is a day longer.
    assert lengths[1936] == (date(1936, 10, 31) - date(1936, 4, 19)).days == 194 + 1


def test_less_than_is_another_answer_than_at_or_below() -> None:
    """Published on this record: the spring date differs in 26 of 91 years, by up to 37 days."""
    found = record("clemson")
    lows = [nothing if low != low else low for low in found.tmin for nothing in (99.0,)]
    differ = []
    for year in range(1930, 2021):
        midsummer = (date(year, 7, 1) - found.first).days
        for day in range(midsummer - 1, -1, -1):
            if lows[day] <= 0:
                break
        for other in range(midsummer - 1, -1, -1):
            if lows[other] < 0:
                break
        differ.append(day - other)
    assert sum(each > 0 for each in differ) == 26
    assert max(differ) == 37


def test_28_fahrenheit_at_the_records_own_resolution() -> None:
    """Published on this record: 541 days are at −2.2 °C, and 36 of 91 spring dates hang on them."""
    found = record("clemson")
    at = celsius(28)
    strict = [low <= at for low in found.tmin]
    ours = [low <= found.threshold(at) for low in found.tmin]
    assert sum(ours) - sum(strict) == 541
    assert found.threshold(at) == pytest.approx(-2.172, abs=1e-3)


def test_flag_rows_shaped_like_data_are_not_read_as_data() -> None:
    """88 rows: 80 under a number of their own, 8 under the station's, before the real rows."""
    rows = list(stations.wageningen())
    other = read_text(stations.table(rows))
    assert other.record is None
    assert {problem.code for problem in other.problems} == {"record-stations", "record-duplicate"}
    own = [row for row in rows if row.station == "1"]
    assert len(rows) - len(own) == 80
    twice = read_text(stations.table(own))
    assert twice.record is None
    assert [problem.code for problem in twice.problems] == ["record-duplicate"] * 8
    first = twice.problems[0]
    assert first.span is not None
    assert first.message == f"1989-02-12 stands on line {first.span.line - 1} already"


def test_fulda_has_a_line_of_units() -> None:
    read = station("fulda")
    assert (read.problems, read.unit_from) == ((), "the line of units")
    found = record("fulda")
    assert (found.first, found.last) == (date(1979, 1, 1), date(1988, 12, 31))
    assert (found.missing, found.tmin[0], found.tmax and found.tmax[0]) == (0, -20.1, -12.9)


def test_fahrenheit_stated_as_celsius_is_refused() -> None:
    read = read_text(stations.clemson(), unit="°C")
    assert read.record is None
    assert [problem.hint for problem in read.problems] == [
        "are these °F? then write unit: °F beside the record"
    ]
    seattle = read_record(stations.SEATTLE, unit="°F")
    assert [problem.hint for problem in seattle.problems] == [
        "are these °C? then write unit: °C beside the record"
    ]


def test_a_record_in_the_archives_forms_is_the_same_record(tmp_path: Path) -> None:
    """Seattle once more: as the archive's table in tenths, and as its monthly lines."""
    found = record("seattle")
    assert found.tmax is not None
    days = [
        (found.first + timedelta(n), round(low * 10), round(high * 10))
        for n, (low, high) in enumerate(zip(found.tmin, found.tmax, strict=True))
    ]
    rows = [f'"XX000000001","{day}","{high:5d}","{low:5d}"\n' for day, low, high in days]
    (tmp_path / "a.csv").write_text('"STATION","DATE","TMAX","TMIN"\n' + "".join(rows))
    lines = []
    for month in sorted({(day.year, day.month) for day, *_ in days}):
        for element, which in (("TMAX", 2), ("TMIN", 1)):
            values = {
                each[0].day: each[which] for each in days if (each[0].year, each[0].month) == month
            }
            cells = "".join(f"{values.get(n, -9999):5d}   " for n in range(1, 32))
            lines.append(f"XX000000001{month[0]}{month[1]:02}{element}{cells}\n")
    (tmp_path / "a.dly").write_text("".join(lines))
    for name in ("a.csv", "a.dly"):
        other = read_record(tmp_path / name).record
        assert other is not None
        assert (other.first, other.tmin, other.tmax) == (found.first, found.tmin, found.tmax)


def test_clemsons_trends() -> None:
    """First frosts come later, 1 day a decade; last ones earlier, yet no more than by chance."""
    import scipy.stats

    found = at_zero("clemson")
    for half, sure in ((found.spring, False), (found.autumn, True)):
        moving = trend(half)
        assert moving is not None
        seasons = [year.season for year in half.years]
        line = numpy.polyfit(seasons, [by_year(half)[season] for season in seasons], 1)
        assert moving.days_per_decade == pytest.approx(10 * line[0], abs=0.5)
        kendall = scipy.stats.kendalltau(seasons, [by_year(half)[s] for s in seasons])
        assert moving.chance == pytest.approx(kendall.pvalue, rel=0.02)
        assert moving.is_sure is sure
