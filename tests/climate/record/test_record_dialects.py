"""One record written in many ways is one record."""

from __future__ import annotations

from datetime import date, timedelta
from math import cos, isnan, pi
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given, settings
from hypothesis import strategies as st

from sowtide.climate.record.file import read_record

FIRST, DAYS = date(2011, 12, 20), 420
"""A winter, a leap year's February and the summer between two new years."""
LOWS = [
    None if day in (7, 100, 101, 300) else round(6 - 9 * cos(2 * pi * (day - 30) / 365), 1)
    for day in range(DAYS)
]
HIGHS = [None if low is None or day == 55 else round(low + 9.4, 1) for day, low in enumerate(LOWS)]

_WAYS_OF_DATES = ("%Y-%m-%d", "%Y/%m/%d", "%Y%m%d", "%d.%m.%Y", "%Y-%m-%dT00:00", "parts")
_COLUMNS = st.permutations(("date", "low", "high", "rain", "name"))
_NAMES = {"low": "TMIN (°C)", "high": "TMAX (°C)", "rain": "PRCP", "name": "NAME"}


@st.composite
def _written(draw: st.DrawFn) -> bytes:
    """Write the record in one of many ways."""
    between = draw(st.sampled_from((",", ";", "\t")))
    point = draw(st.sampled_from((".", ","))) if between != "," else "."
    quote = draw(st.sampled_from(("", '"')))
    nothing = draw(st.sampled_from(("", "NA", "-9999")))
    way, columns = draw(st.sampled_from(_WAYS_OF_DATES)), draw(_COLUMNS)
    space = draw(st.sampled_from(("", " "))) if not quote else ""
    remarks = draw(st.sampled_from(("", "# a station\n", "A station by the river\n\n")))
    idle = draw(st.sampled_from((0, 0, 50)))

    def told(of: float | None) -> str:
        return nothing if of is None else f"{of:.1f}".replace(".", point)

    def cells(day: int) -> list[str]:
        on = FIRST + timedelta(days=day)
        said = [f"{on:%Y}", f"{on:%m}", f"{on:%d}"] if way == "parts" else [on.strftime(way)]
        of = {"low": [told(LOWS[day])], "high": [told(HIGHS[day])], "rain": ["0"], "name": ["Far"]}
        return [cell for column in columns for cell in (said if column == "date" else of[column])]

    names = {"date": ["YEAR", "MONTH", "DAY"] if way == "parts" else ["DATE"]}
    head = [name for each in columns for name in names.get(each, [_NAMES.get(each, "")])]
    lines = [head, *(cells(day) for day in range(DAYS) if LOWS[day] is not None or day % 2)]
    text = remarks
    for number, row in enumerate(lines):
        text += (between + space).join(f"{quote}{cell}{quote}" for cell in row) + "\n"
        text += "\n" if idle and number % idle == 1 else ""
    end = draw(st.sampled_from(("\n", "\r\n")))
    return text.replace("\n", end).encode(draw(st.sampled_from(("utf-8", "utf-8-sig", "latin-1"))))


@settings(max_examples=40)
@given(_written())
def test_whatever_way_it_is_written_in_a_record_says_the_same(data: bytes) -> None:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "station.csv"
        path.write_bytes(data)
        read = read_record(path, label="station.csv")
    assert [problem for problem in read.problems if problem.severity.value == "error"] == []
    found = read.record
    assert found is not None
    assert (found.first, found.last) == (FIRST, FIRST + timedelta(days=DAYS - 1))
    assert found.tmax is not None
    for told, meant in ((found.tmin, LOWS), (found.tmax, HIGHS)):
        assert [None if isnan(each) else round(each, 3) for each in told] == meant
    assert (found.fahrenheit, found.wild, found.flagged) == (False, 0, 0)
    assert found.resolution == 0.1
