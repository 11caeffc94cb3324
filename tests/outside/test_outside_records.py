"""Odd records through every command, and Virginia's harvests by waves that end and begin."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from datetime import date, timedelta
from functools import cache
from pathlib import Path

import pytest

from replayed import crop, days, prospects, record, same_day, season
from sowtide.cli import main
from sowtide.climate.answers import EndedBy
from sowtide.climate.record.record import Record
from sowtide.days import Half
from sowtide.garden.library import builtin as library
from sowtide.reasons import OURS, Dated
from sowtide.schedule.season import Season
from sowtide.season import Loaded, load, season_of

CLEMSON = 34.7
VIRGINIA = 14
"""Days by which a harvest may differ from Virginia's. [days]"""


# Virginia Cooperative Extension 426-331, 2006, in days from the average last frost.


@pytest.mark.parametrize("name", ["beet", "cabbage"])
def test_virginias_spring_harvest_ends_with_the_heat(name: str) -> None:
    """At 70, planted first at -40: the last day before heat ends it is within 14 days of that."""
    on = season(record("clemson"), latitude=CLEMSON)
    frost = on.climate.frosts.day(Half.SPRING, at=0.0, share=0.5)
    assert frost is not None
    planted = Dated.on(frost.day - timedelta(days=40), "written", "planted", OURS)
    found = on.climate.waves.outlook(planted, prospects(on, name).need)
    assert found.end is not None
    assert found.ended_by is EndedBy.HEAT
    assert abs((found.end.day - frost.day).days - 1 - 70) <= VIRGINIA


@pytest.mark.parametrize(("name", "begins"), [("cabbage", 150), ("broccoli", 160)])
def test_virginias_autumn_harvest_begins_after_the_heat(name: str, begins: int) -> None:
    """By the first summer planting that succeeds in half of the years and is not too hot.

    The first *safe* planting (sure of 80 %) is picked later, at 169: its heat must be over in four
    years of five.
    """
    on = season(record("clemson"), latitude=CLEMSON)
    frost = on.climate.frosts.day(Half.SPRING, at=0.0, share=0.5)
    assert frost is not None
    need = prospects(on, name).need
    for day in days(date(2026, 6, 20), date(2026, 8, 20), 1):
        chances = on.climate.waves.chances(day, need)
        if chances.odds >= 0.5 and not chances.too_hot:
            break
    else:
        pytest.fail("no autumn planting")
    planted = Dated.on(day, "written", "planted", OURS)
    picked = on.climate.waves.outlook(planted, need).first_pick[0].day
    assert abs((picked - frost.day).days - begins) <= VIRGINIA


@pytest.mark.parametrize("year", [1936, 1954, 1986, 2010])
def test_in_no_hot_year_is_a_tender_crop_picked_long_before_its_packet_says(year: int) -> None:
    """0.85 of the early end at the least, in single hot years and not only in the middle one."""
    on = season(record("clemson"), latitude=CLEMSON, years=f"{year}-{year}")
    for name in library.names():
        if not crop(name).hardiness.is_tender:
            continue
        need = prospects(on, name).need
        for planted in days(date(2026, 5, 1), date(2026, 8, 1), 23):
            found = on.climate.waves.outlook(Dated.on(planted, "written", "planted", OURS), need)
            if found.odds_of_nothing < 0.5:
                taken = (found.first_pick[0].day - planted).days
                assert taken >= 0.85 * need.days.low, (name, planted)


# Odd records, as files, through the commands.


def rows(kept: Record, *, colder: float = 0.0, last: int = 0, later: int = 0) -> list[str]:
    """A record's days as rows: its last years alone, its minima and maxima colder, days later."""
    assert kept.tmax is not None
    from_year = kept.last.year - last + 1 if last else kept.first.year
    found = []
    for number, (low, high) in enumerate(zip(kept.tmin, kept.tmax, strict=True)):
        day = kept.first + timedelta(days=number)
        if day.year >= from_year:
            cells = ["" if each != each else f"{each - colder:.1f}" for each in (low, high)]
            found.append(f"{day + timedelta(days=later)},{','.join(cells)}\n")
    return found


def hundred_and_twenty() -> list[str]:
    """Clemson's 91 years, and its first 29 once more before them."""
    kept = record("clemson")
    later = (date(1901, 1, 1) - kept.first).days
    before = [row for row in rows(kept, later=later) if row < "1930"]
    return before + rows(kept)


@cache
def odd(name: str) -> tuple[str, float]:
    """A record as a file's text, and the latitude of its place."""
    made, latitude = {
        "five years": (lambda: rows(record("clemson"), last=5), CLEMSON),
        "120 years": (hundred_and_twenty, CLEMSON),
        "no frost": (lambda: rows(record("seattle"), colder=-9.0), 47.4),
        "frost every month": (lambda: rows(record("fulda"), colder=14.0), 50.5),
        "southern": (lambda: rows(record("clemson"), later=184), -CLEMSON),
    }[name]
    return "date,tmin (°C),tmax (°C)\n" + "".join(made()), latitude


_LOADED: dict[tuple[str, int], Loaded] = {}


def _loaded(name: str, year: int, path: Path) -> Loaded:
    if (name, year) not in _LOADED:
        _LOADED[name, year] = load(path)
    return _LOADED[name, year]


@cache
def _planned(name: str, year: int, today: date) -> Season:
    loaded = _LOADED[name, year]
    assert loaded.garden is not None
    return season_of(loaded.garden, today, loaded.record, loaded.journal)


ODD = ("five years", "120 years", "no frost", "frost every month", "southern")
COMMANDS = (
    ("plan",),
    ("week",),
    ("calendar",),
    ("frost",),
    ("fits", "bush bean"),
    ("fits", "cabbage"),
    ("why", "summer-squash-1"),
    ("why", "kale-1"),
    ("why", "garlic-1"),
)
GARDEN = """\
site: {{name: Plot, latitude: {latitude}, units: metric,
       frost: {{record: station.csv, years: all}}}}
season: {year}
beds:
  - {{bed: North, size: 1.2 x 20}}
  - {{bed: South, size: 1.2 x 20}}
waves:
  - {{crop: summer squash, raised: direct, plants: 4, from: {squash}, every: 21, count: 4}}
  - {{crop: kale, plants: 9, from: {kale}}}
  - {{crop: cabbage, plants: 9, from: earliest}}
  - {{crop: potato, plants: 9, from: earliest}}
  - {{crop: garlic, plants: 9, from: {garlic}}}
"""
Runner = Callable[..., str]


@pytest.fixture
def run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Runner:
    """Run a command on an odd record at 80 columns; it leaves with 0 and says something.

    Each record is read once and its garden planned once, whatever is then asked of them.
    """
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setattr("gc.disable", lambda: None)
    monkeypatch.setattr("gc.freeze", lambda: None)
    path = tmp_path / "garden.yaml"

    def run(name: str, *arguments: str, year: int = 2026) -> str:
        text, latitude = odd(name)
        (tmp_path / "station.csv").write_text(text, encoding="utf-8")
        on = [date(year, 6, 1), date(year, 7, 1), date(year, 10, 10)]
        if latitude < 0:
            on = [day + timedelta(days=184) for day in on]
        squash, kale, garlic = on
        path.write_text(
            GARDEN.format(latitude=latitude, year=year, squash=squash, kale=kale, garlic=garlic),
            encoding="utf-8",
        )
        monkeypatch.setattr("sowtide.cli.options.load", lambda path: _loaded(name, year, path))
        monkeypatch.setattr(
            "sowtide.cli.options.season_of",
            lambda _, today, *__, **___: _planned(name, year, today),
        )
        argv = [*arguments, "--garden", str(path), "--today", str(kale)]
        monkeypatch.setattr(sys, "argv", ["sowtide", *argv])
        capsys.readouterr()
        with pytest.raises(SystemExit) as left:
            main()
        out, err = capsys.readouterr()
        assert not left.value.code, err
        assert out.strip()
        return out

    return run


@pytest.mark.parametrize("year", [2026, 2028], ids=["common year", "leap year"])
@pytest.mark.parametrize("name", ODD)
def test_every_command_has_a_page_for_an_odd_record(run: Runner, name: str, year: int) -> None:
    for command in COMMANDS:
        out = run(name, *command, year=year)
        too_wide = [line for line in out.splitlines() if len(line) > 80]
        # The name of a file is printed whole.
        assert not [line for line in too_wide if "garden.yaml" not in line], (command, too_wide)


def waves(plan: str) -> dict[str, dict[str, object]]:
    return {wave["id"]: wave for wave in json.loads(plan)["waves"]}


@pytest.mark.parametrize("year", [2026, 2028], ids=["common year", "leap year"])
def test_a_plan_on_an_odd_record_is_sensible(run: Runner, year: int) -> None:
    found = {name: run(name, "plan", "--format", "json", year=year) for name in ODD}
    used = {name: json.loads(each)["basis"]["years_used"] for name, each in found.items()}
    assert used["five years"] == 5
    assert used["120 years"] >= 110  # some of its half-years have days missing that matter
    assert json.loads(found["five years"])["basis"]["assumed"]
    assert not json.loads(found["120 years"])["basis"]["assumed"]
    for name in ("five years", "120 years", "southern"):
        assert waves(found[name])["summer-squash-1"]["verdict"] == "safe"
    free = waves(found["no frost"])["summer-squash-1"]
    assert (free["verdict"], free["odds"], free["ended_by"]) == ("safe", 1.0, "picked out")
    frosty = waves(found["frost every month"])["summer-squash-1"]
    assert (frosty["odds"], frosty["last_pick"]) == (0.0, None)
    assert frosty["verdict"] in ("too early", "too late")


def test_the_frost_of_odd_records(run: Runner) -> None:
    def thresholds(name: str) -> dict[float, dict[str, dict[str, object]]]:
        found = json.loads(run(name, "frost", "--format", "json"))["thresholds"]
        return {each["at_c"]: each for each in found}

    free = thresholds("no frost")[0.0]
    assert set(free["spring"].values()) == {None}
    assert set(free["autumn"].values()) == {None}
    assert None not in thresholds("five years")[0.0]["spring"].values()
    frosty = thresholds("frost every month")[0.0]["frost_free_days"]["50"]
    assert isinstance(frosty, int)
    assert frosty < 31


def test_a_leap_year_moves_no_date_of_a_plan(run: Runner) -> None:
    """What is planted after February is picked on the same days, whatever year is planned."""
    plain, leap = (
        waves(run("120 years", "plan", "--format", "json", year=year)) for year in (2026, 2028)
    )
    for name in ("summer-squash-1", "summer-squash-4", "kale-1"):
        assert plain[name]["odds"] == leap[name]["odds"]
        for of_plain, of_leap in zip(
            plain[name]["first_pick"], leap[name]["first_pick"], strict=True
        ):
            assert same_day(date.fromisoformat(of_plain), 2028) == date.fromisoformat(of_leap)
