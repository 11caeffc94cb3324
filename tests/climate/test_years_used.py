"""Which years of a record are used, what it lacks, and that both are said."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path

import pytest

import gardens
from printed import frost_json, frost_text
from sowtide.climate.basis import Lacks
from sowtide.days import Half
from sowtide.season import Place, load, place_of

MISSING = {date(2019, 7, 1) + timedelta(days=day) for day in range(12)} | {date(2021, 1, 5)}
SWAPPED = date(2020, 8, 9)


def place(
    folder: Path,
    *,
    first: date,
    last: date,
    years: str = "",
    missing: frozenset[date] | set[date] = frozenset(),
    swapped: date | None = None,
) -> Place:
    """A station at 5 °C by night and 20 by day, at -3 on 10 April and 20 October of each year."""
    lines = ["date,tmin (°C),tmax (°C)"]
    for day in range((last - first).days + 1):
        on = first + timedelta(days=day)
        low = "-3" if (on.month, on.day) in ((4, 10), (10, 20)) else "5"
        low = "" if on in missing else "25" if on == swapped else low
        lines.append(f"{on},{low},20")
    (folder / "station.csv").write_text("\n".join(lines), encoding="utf-8")
    text = gardens.text(frost=f"{{record: station.csv{years}}}")
    (folder / "garden.yaml").write_text(text, encoding="utf-8")
    loaded = load(folder / "garden.yaml")
    assert loaded.garden is not None, loaded.problems
    return place_of(loaded.garden, gardens.EARLY, loaded.record)


def said(of: Place) -> str:
    return " ".join(" ".join(frost_text(of, width=80)).split())


def test_what_a_record_lacks_is_said_with_the_longest_run_of_it(tmp_path: Path) -> None:
    # 1 July 2018 to 30 June 2025: 7 × 365 days and two leap days, 2020 and 2024. Twelve days lack a
    # minimum in July 2019, one in January 2021, and one is left out: 25 °C by night, 20 by day.
    of = place(
        tmp_path,
        first=date(2018, 7, 1),
        last=date(2025, 6, 30),
        missing=MISSING,
        swapped=SWAPPED,
    )
    record = of.climate.basis.record
    assert record is not None
    assert record.unit_from == "the header"
    assert record.lacks == Lacks(
        days=2557,
        missing=14,
        gap_from=date(2019, 7, 1),
        gap_to=date(2019, 7, 12),
        doubted=0,
        impossible=1,
    )
    text = said(of)
    assert "From station.csv, read in °C, by the header. All of its 7 years are used." in text
    assert (
        "14 of its 2,557 days have no minimum, the longest run 1 Jul 2019 to 12 Jul 2019. "
        "Left out: 1 day that cannot be so." in text
    )
    assert json.loads(frost_json(of))["basis"]["record"]["lacks"] == {
        "days": 2557,
        "missing": 14,
        "gap_from": "2019-07-01",
        "gap_to": "2019-07-12",
        "doubted": 0,
        "impossible": 1,
    }


def test_a_record_that_lacks_nothing_says_so(tmp_path: Path) -> None:
    text = said(place(tmp_path, first=date(2018, 7, 1), last=date(2025, 6, 30)))
    assert "None of its 2,557 days lacks a minimum." in text


@pytest.mark.parametrize(
    ("years", "used"),
    [("", (1996, 2025)), (", years: all", (1990, 2025)), (", years: last 5", (2021, 2025))],
)
def test_the_newest_thirty_years_are_used_unless_others_are_wanted(
    tmp_path: Path, years: str, used: tuple[int, int]
) -> None:
    of = place(tmp_path, first=date(1990, 1, 1), last=date(2025, 12, 31), years=years)
    known = of.climate.frosts.years(0.0)
    assert known is not None
    seasons = [each.season for each in known.autumn.years]
    assert (seasons[0], seasons[-1]) == used
    text = said(of)
    if years == ", years: all":
        assert "All of its 36 years are used." in text
    else:
        number = len(seasons)
        assert f"The newest {number} of its 36 years are used: `years: all` takes" in text


def test_a_spring_that_is_known_is_used_though_the_record_stops_in_summer(tmp_path: Path) -> None:
    of = place(tmp_path, first=date(1990, 1, 1), last=date(2025, 7, 15))
    known = of.climate.frosts.years(0.0)
    assert known is not None
    springs, autumns = known.of(Half.SPRING), known.of(Half.AUTUMN)
    assert [springs.years[0].season, springs.years[-1].season] == [1996, 2025]
    assert [autumns.years[0].season, autumns.years[-1].season] == [1995, 2024]
    assert springs.left_out == autumns.left_out == ()
    # What ends in June tells nothing of the last frost of that spring.
    of = place(tmp_path, first=date(1990, 1, 1), last=date(2025, 6, 15))
    known = of.climate.frosts.years(0.0)
    assert known is not None
    assert known.spring.years[-1].season == 2024
