"""Records that tell little: of no whole half-year, of no winter, of none of the years wanted."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

import gardens
from printed import frost_text
from replayed import record, season
from sowtide.cli import main
from sowtide.climate.frost.thresholds import frost_table
from sowtide.days import GrowingYear, Half
from sowtide.garden.crop import Hardiness
from sowtide.season import Loaded, Place, load, place_of, season_of

MARCH_TO_NOVEMBER = range(3, 12)
HARDIEST = Hardiness.HARDIEST.killed_at
HARDY = Hardiness.HARDY.killed_at


def days(first: str, last: str, *, months: range = range(1, 13)) -> Iterator[str]:
    """The days of Clemson's record from one to another, of some months, as rows of a table."""
    kept = record("clemson")
    assert kept.tmax is not None
    for number, (low, high) in enumerate(zip(kept.tmin, kept.tmax, strict=True)):
        day = kept.first + timedelta(days=number)
        known = low == low and high == high
        if known and first <= day.isoformat() <= last and day.month in months:
            yield f"{day},{low:.1f},{high:.1f}\n"


def loaded(folder: Path, rows: Iterator[str], *waves: str, years: str = "") -> Loaded:
    (folder / "station.csv").write_text("date,tmin (°C),tmax (°C)\n" + "".join(rows), "utf-8")
    frost = f"{{record: station.csv{years}}}"
    text = gardens.text(*waves, latitude=34.7, frost=frost)
    (folder / "garden.yaml").write_text(text, "utf-8")
    return load(folder / "garden.yaml")


def closed_in_winter(folder: Path, *waves: str) -> Loaded:
    """Three years of a station that reads from March to November."""
    return loaded(folder, days("2017-01-01", "2019-12-31", months=MARCH_TO_NOVEMBER), *waves)


@pytest.mark.parametrize(
    ("first", "last", "years", "message"),
    [
        (
            *("2019-05-01", "2019-11-30", ""),
            "no spring of the record can be used for frost: 2019 (begins on 1 May 2019)",
        ),
        (
            *("2019-02-01", "2019-05-30", ""),
            "no spring of the record can be used for frost: it reaches from 2019-02-01 to "
            "2019-05-30",
        ),
        (
            *("2018-01-01", "2018-10-05", ""),
            "no autumn of the record can be used for frost: 2018 (ends on 5 Oct 2018)",
        ),
        (
            *("1990-01-01", "2019-12-31", ", years: 1940-1950"),
            "no spring of the record can be used for frost: it has none among the years wanted",
        ),
    ],
    ids=["one summer", "one spring", "no first frost yet", "other years"],
)
def test_a_record_without_a_whole_half_year_is_refused_where_it_is_named(
    tmp_path: Path, first: str, last: str, years: str, message: str
) -> None:
    found = loaded(tmp_path, days(first, last), years=years)
    assert found.garden is None
    (problem,) = found.problems
    assert (problem.code, problem.message) == ("record-years", message)
    assert problem.span is not None
    marked = problem.span.text[problem.span.column - 1 :]
    assert marked.startswith("station.csv")


@pytest.mark.parametrize(
    "command",
    [("plan",), ("week",), ("calendar",), ("frost",), ("fits", "garlic"), ("fits", "kale")],
    ids=" ".join,
)
def test_every_command_answers_from_a_station_that_is_closed_in_winter(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    command: tuple[str, ...],
) -> None:
    closed_in_winter(tmp_path, "{crop: kale, plants: 4, from: 2026-06-01}")
    monkeypatch.setattr("gc.disable", lambda: None)
    monkeypatch.setattr("gc.freeze", lambda: None)
    garden = str(tmp_path / "garden.yaml")
    argv = ["sowtide", *command, "--garden", garden, "--today", "2026-04-20"]
    monkeypatch.setattr(sys, "argv", argv)
    with pytest.raises(SystemExit) as left:
        main()
    out, err = capsys.readouterr()
    assert not left.value.code, err
    assert out.strip()


def closed_place(folder: Path) -> Place:
    found = closed_in_winter(folder)
    assert found.garden is not None, found.problems
    return place_of(found.garden, gardens.EARLY, found.record)


def test_hard_frosts_that_no_year_tells_of_come_when_the_next_milder_ones_do(
    tmp_path: Path,
) -> None:
    """The grower plans on the safe side: a hard frost comes no sooner than a milder one."""
    climate = closed_place(tmp_path).climate
    for half in Half:
        known = climate.frosts.years(HARDY)
        assert known is not None
        assert known.of(half).years
        hardest = climate.frosts.years(HARDIEST)
        assert hardest is not None
        assert not hardest.of(half).years
        taken = climate.frosts.day(half, at=HARDIEST, share=0.5)
        instead = climate.frosts.day(half, at=HARDY, share=0.5)
        assert taken is not None
        assert instead is not None
        assert taken.day == instead.day
        assert taken.steps[-1].text == f"{instead.steps[-1].text}; no year tells of 20 °F, -6.7 °C"
        odds = [climate.frosts.odds(half, taken.day, at=at) for at in (HARDIEST, HARDY)]
        assert odds[0] == odds[1]
    assert "hard frosts that no recorded year tells of come when milder ones do" in (
        climate.basis.assumed
    )


def test_the_page_of_frost_leaves_open_what_no_year_tells(tmp_path: Path) -> None:
    place = closed_place(tmp_path)
    rows = {row.at: row for row in frost_table(place.climate.frosts)}
    hardest = rows[HARDIEST]
    nothing = (None, None, None)
    assert (hardest.spring, hardest.autumn, hardest.frost_free) == (nothing, nothing, nothing)
    assert hardest.without is None
    assert None not in rows[0.0].spring
    assert rows[0.0].without == (0.0, 0.0)
    lines = list(frost_text(place, width=80))
    assert "-6.7 °C      –      –      –      –      –      –     –     –     –" in lines


def test_whole_winters_tell_of_every_frost() -> None:
    climate = season(record("clemson"), latitude=34.7).climate
    assert climate.basis.assumed == ()
    for each in Hardiness:
        known = climate.frosts.years(each.killed_at)
        assert known is not None
        assert min(len(known.spring.years), len(known.autumn.years)) > 60


# The last day of a leap year, looked at from a year without one


def test_the_last_day_of_a_leap_year_is_like_that_of_a_year_without() -> None:
    for year in (GrowingYear(2025, south=False), GrowingYear(2025, south=True)):
        last = (year.last - year.first).days
        assert year.offset(year.first) == 0
        assert year.offset(year.last) == last
        assert year.offset(GrowingYear(2024, year.south).last) == last
        assert year.offset(GrowingYear(2023, year.south).last) == last
    leap = GrowingYear(2028, south=False)
    assert leap.offset(date(2028, 12, 31)) == 365
    assert leap.offset(date(2027, 12, 31)) == 364


GARLIC = "{crop: garlic, plants: 4, from: 2024-12-31}"


def test_a_wave_of_a_leap_years_last_day_stands_in_the_next_plan_on_a_record() -> None:
    found = season(record("clemson"), GARLIC, latitude=34.7, year=2025)
    assert found.waves[0].judged.stages.plant.day == date(2024, 12, 31)
    new_years_eve, day_before = (
        found.climate.weather.soil(date(2024, 12, day)) for day in (31, 30)
    )
    assert new_years_eve is not None
    assert day_before is not None
    assert abs(new_years_eve.about - day_before.about) < 0.5


def test_a_wave_of_a_leap_years_last_day_stands_in_the_next_plan_on_normals() -> None:
    months = "[8, 9, 13, 17, 21, 25, 27, 27, 23, 18, 13, 9]"
    frost = f"{{last: 04-10, first: 11-01, normals: {{max: {months}, min: {months}}}}}"
    garden = gardens.read(gardens.text(GARLIC, frost=frost, season=2025))
    found = season_of(garden, date(2025, 3, 1))
    assert found.climate.weather.soil(date(2024, 12, 31)) is not None


def test_the_json_of_a_short_record_says_nothing_of_what_is_not_known(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    closed_in_winter(tmp_path)
    monkeypatch.setattr("gc.disable", lambda: None)
    monkeypatch.setattr("gc.freeze", lambda: None)
    garden = str(tmp_path / "garden.yaml")
    argv = ["sowtide", "frost", "--format", "json", "--garden", garden, "--today", "2026-04-20"]
    monkeypatch.setattr(sys, "argv", argv)
    with pytest.raises(SystemExit):
        main()
    *_, hardest = json.loads(capsys.readouterr().out)["thresholds"]
    assert set(hardest["spring"].values()) | set(hardest["autumn"].values()) == {None}
    assert hardest["years_without_frost"] is None
