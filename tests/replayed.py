"""Seasons on real records, for tests: a garden's text, the record of a station, and a replay."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
from astral.julian import julianday, julianday_to_juliancentury
from astral.sun import sun_declination
from numpy.typing import NDArray

from records import stations
from sowtide.climate.answers import Warmth
from sowtide.climate.frost_record.record_years import RecordYears
from sowtide.climate.record.file import read_record
from sowtide.climate.record.record import Record
from sowtide.days import GrowingYear
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.library import builtin as library
from sowtide.garden.read import read_garden
from sowtide.garden.site import ALL_YEARS
from sowtide.garden.varieties import built_in_crop
from sowtide.schedule.season import Season
from sowtide.schedule.waves.windows import Prospects
from sowtide.season import season_of

LATITUDES = {"seattle": 47.4, "wageningen": 52.0, "fulda": 50.5, "clemson": 34.7}


@cache
def record(name: str) -> Record:
    """Read the record of a station."""
    if name == "seattle":
        found = read_record(stations.SEATTLE)
    elif name == "fulda":
        found = read_record(stations.FULDA)
    else:
        text = (
            stations.clemson()
            if name == "clemson"
            else stations.table(stations.wageningen_without_flags())
        )
        with TemporaryDirectory() as folder:
            path = Path(folder) / f"{name}.csv"
            path.write_text(text, encoding="utf-8")
            found = read_record(path)
    assert found.record is not None, found.problems
    return found.record


def years(name: str) -> RecordYears:
    """Return all years of a station's record."""
    planned = GrowingYear(2026, south=False)
    return RecordYears(record(name), south=False, wanted=ALL_YEARS, before=planned)


def season(
    kept: Record,
    *waves: str,
    latitude: float,
    years: str = "all",
    year: int = 2026,
    sure: str = "80%",
    crops: tuple[str, ...] = (),
) -> Season:
    """Compute the season of a garden of one large bed on a record."""
    lines = [
        f"site: {{name: Plot, latitude: {latitude}, units: us, sure: {sure},",
        f"       frost: {{record: station.csv, years: {years}}}}}",
        f"season: {year}",
        "beds: [{bed: North, size: 40 x 1000}]",
    ]
    lines += ["crops:", *(f"  {crop}" for crop in crops)] if crops else []
    lines += ["waves:", *(f"  - {wave}" for wave in waves)] if waves else []
    reading = read_garden("\n".join(lines).encode(), "garden.yaml")
    assert reading.garden is not None, reading.problems
    garden = reading.garden
    assert garden.site.record is not None
    used = RecordYears(
        kept, south=garden.year.south, wanted=garden.site.record.years, before=garden.year
    )
    return season_of(garden, date(year, 1, 1), used)


def crop(name: str) -> Crop:
    """Return a built-in crop."""
    found = library.find(name)
    assert found is not None
    return built_in_crop(found)


def prospects(on: Season, name: str, raised: Raised | None = None) -> Prospects:
    """Return the prospects of a built-in crop in a season."""
    of = crop(name)
    how = raised or (Raised.DIRECT if of.raised is Raised.EITHER else of.raised)
    return on.conditions.prospects(of, how)


@dataclass(frozen=True)
class Told:
    """What one year did to a planting, told day by day."""

    shares: float
    """Share of the range that was picked for its worthwhile days before frost. [0-1]"""
    first: int | None
    """Days to the first pick at the early end, or None. [days]"""


def told(
    kept: Record, planted: date, found: Prospects, *, latitude: float | None = None
) -> Told | None:
    """Tell what became of a planting in the year it lies in; None where days are missing.

    An independent telling in numpy: the growth of `grown`, summed day by day from the planting day
    on; the first day from midsummer on at or below what kills it, or the day it runs to seed.
    Fruit whose flowers fall into a week of great heat is not picked. Only for crops that frost ends
    and no hot weeks.
    """
    need, warmth = found.need, found.need.warmth
    assert warmth is not None
    at = (planted - kept.first).days
    low, high, rates = (each[at : at + 400] for each in _days_of(kept, _points(warmth)))
    if len(low) < 400 or at < 0:
        return None
    frosts = np.flatnonzero(low <= kept.threshold(need.killed_at))
    since = max((date(planted.year, 7, 1) - planted).days, 1)
    frosts = frosts[frosts >= since]
    end = int(frosts[0]) if len(frosts) else 400
    if need.seeds is not None:  # in the spring after
        end = min(end, (need.seeds.day.replace(year=planted.year + 1) - planted).days)
    if np.isnan(low[:end]).any() or np.isnan(high[:end]).any():
        return None
    light = None
    if latitude is not None:
        light = sunlight(latitude, [planted + timedelta(days=day) for day in range(400)])
    heat = np.cumsum(_counted(rates, warmth, light))
    totals = np.linspace(warmth.low, warmth.high, warmth.parts)
    picks = np.array([int(np.searchsorted(heat, total - 1e-9)) + 1 for total in totals])
    picks = np.maximum(picks, warmth.least)
    fruit = with_fruit(low, high, found)
    days = [int(fruit[pick : min(pick + need.picking, end)].sum()) for pick in picks]
    lasting = need.worthwhile if need.picking > 1 else 1
    ripe = picks + need.worthwhile <= end
    shares = float(np.mean(ripe & (np.array(days) >= lasting)))
    return Told(shares, int(picks[0]) if picks[0] < end else None)


def with_fruit(
    low: NDArray[np.float64], high: NDArray[np.float64], found: Prospects
) -> NDArray[np.bool_]:
    """Return the days, from the planting day on, on which no heat has dropped their flowers."""
    crop = found.crop
    fruit = np.ones(len(low), dtype=bool)
    if crop.flower_to_pick is None:
        return fruit
    for readings, limit in ((high, crop.fruit_set_high), (low, crop.fruit_set_low)):
        if limit is not None:
            means = np.convolve(readings, np.ones(7) / 7, "same")
            hot = np.flatnonzero(means > limit + 1e-9) + crop.flower_to_pick
            fruit[hot[hot < len(fruit)]] = False
    return fruit


_TIMES = np.cos(np.pi * (np.arange(720) + 0.5) / 720)
"""A day in steps of two minutes, from the warmest to the coldest of them, twice."""


def grown(
    low: NDArray[np.float64],
    high: NDArray[np.float64],
    warmth: Warmth,
    light: NDArray[np.float64] | None = None,
) -> NDArray[np.float64]:
    """Return how many days of good growth each day brings, by the two minutes of a sine.

    At each of them the rate is a straight line between the points (base, 0), (best, 1), (best, 1)
    and (ceiling, 0); a day counts over one 5 °C either way of the rated mean, 1 / 0.85 at the most.
    """
    return _counted(_rates(low, high, _points(warmth)), warmth, light)


def _points(warmth: Warmth) -> tuple[float, float, float, float]:
    response = warmth.response
    assert response is not None
    return response.base, response.best_from, response.best_to, response.ceiling


def _rates(
    low: NDArray[np.float64], high: NDArray[np.float64], points: tuple[float, ...]
) -> NDArray[np.float64]:
    of_day = ((low + high) / 2)[:, None] + ((high - low) / 2)[:, None] * _TIMES
    return np.asarray(np.interp(of_day, points, (0, 1, 1, 0)).mean(axis=1))


def _counted(
    rates: NDArray[np.float64], warmth: Warmth, light: NDArray[np.float64] | None
) -> NDArray[np.float64]:
    response = warmth.response
    assert response is not None
    rated = _rates(np.array([response.rated - 5]), np.array([response.rated + 5]), _points(warmth))
    days = np.nan_to_num(np.minimum(rates / rated, 1 / 0.85))
    if response.light:
        assert light is not None, "this crop wants light: say the latitude"
        days = days * light**response.light
    return np.asarray(days)


_DAYS: dict[tuple[int, tuple[float, ...]], tuple[Record, tuple[NDArray[np.float64], ...]]] = {}


def _days_of(kept: Record, points: tuple[float, ...]) -> tuple[NDArray[np.float64], ...]:
    """Return the minima, the maxima and the rates of growth of a record's days.

    They are worked out once for all plantings; the record is kept, so that no other has its id.
    """
    found = _DAYS.get((id(kept), points))
    if found is None:
        assert kept.tmax is not None
        low, high = np.array(kept.tmin), np.array(kept.tmax)
        years = range(0, len(low), 365)
        rates = [_rates(low[at : at + 365], high[at : at + 365], points) for at in years]
        found = _DAYS[id(kept), points] = kept, (low, high, np.concatenate(rates))
    return found[1]


def sunlight(latitude: float, dates: list[date]) -> NDArray[np.float64]:
    """Return the share of 28 MJ/m² that the sun brings to the top of the air, north of the equator.

    FAO-56, eq. 21, with astral's declination at noon, from July to December of 2026; 1 in all other
    months.
    """
    return np.array([_sunlight(latitude, same_day(day, 2026)) for day in dates])


@cache
def _sunlight(latitude: float, day: date) -> float:
    if day.month < 7:
        return 1.0
    turn = 2 * np.pi * day.timetuple().tm_yday / 365
    phi = np.radians(latitude)
    century = julianday_to_juliancentury(julianday(day) + 0.5)
    delta = np.radians(sun_declination(century))
    omega = np.arccos(np.clip(-np.tan(phi) * np.tan(delta), -1, 1))
    sun = omega * np.sin(phi) * np.sin(delta) + np.cos(phi) * np.cos(delta) * np.sin(omega)
    energy = 24 * 60 / np.pi * 0.0820 * (1 + 0.033 * np.cos(turn)) * sun
    return float(min(energy / 28, 1.0))


def same_day(day: date, year: int) -> date:
    """Return a day in another year."""
    return day.replace(year=year) if (day.month, day.day) != (2, 29) else date(year, 2, 28)


def days(first: date, last: date, step: int) -> list[date]:
    """Return every so many days from a day to another one."""
    count = (last - first).days // step + 1
    return [first + timedelta(days=step * number) for number in range(count)]
