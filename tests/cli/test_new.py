"""`new`: a file in the grower's units and hemisphere, asked for in a terminal, and sound."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from random import Random

import pytest
from click.testing import CliRunner, Result

from sowtide.cli import cli
from sowtide.diagnostics import Severity
from sowtide.first_season import first_file
from sowtide.garden.model import Garden
from sowtide.garden.read import read_garden
from sowtide.garden.starter import Start, starter_text
from sowtide.season import season_of
from sowtide.units import Units

PLACES = {
    "two dates": ("--latitude=43", "--last-frost=05-10", "--first-frost=10-04"),
    "with means": (
        *("--latitude=43", "--last-frost=05-10", "--first-frost=10-04"),
        *("--warmest-month=21", "--coldest-month=-4"),
    ),
    "a cool coast in the south": (
        *("--latitude=-41", "--last-frost=10-10", "--first-frost=04-20"),
        *("--warmest-month=17", "--coldest-month=7"),
    ),
    "far north": (
        *("--latitude=64", "--last-frost=06-10", "--first-frost=08-28"),
        *("--warmest-month=13", "--coldest-month=-8"),
    ),
    "a warm place": (
        *("--latitude=30", "--last-frost=02-20", "--first-frost=11-25"),
        *("--warmest-month=28", "--coldest-month=11"),
    ),
    "no frost": ("--latitude=5", "--last-frost=none", "--first-frost=none"),
    "nothing said": (),
}


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def new(*arguments: str, typed: str = "", today: str = "2026-03-01") -> Result:
    return CliRunner().invoke(cli, ["new", *arguments, "--today", today], input=typed)


def made(folder: Path) -> Garden:
    reading = read_garden((folder / "garden.yaml").read_bytes(), "garden.yaml")
    assert reading.problems == ()
    assert reading.garden is not None
    return reading.garden


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("beds", ["1", "6"])
@pytest.mark.parametrize("place", PLACES)
def test_whatever_is_written_passes_check(here: Path, place: str, beds: str, units: str) -> None:
    said = PLACES[place]
    if units == "us":  # means are in the file's own degrees
        said = tuple(_fahrenheit(each) if "month" in each else each for each in said)
    result = new(*said, "--beds", beds, "--units", units)
    assert (result.exit_code, result.stderr) == (0, "")
    garden = made(here)
    assert len(garden.beds) == int(beds)
    assert garden.site.units is Units(units)
    assert 1 <= len(garden.entries) <= 4
    checked = CliRunner().invoke(cli, ["check", "--today", "2026-03-01"])
    assert checked.exit_code == 0, checked.output
    text = (here / "garden.yaml").read_text(encoding="utf-8")
    assert max(map(len, text.splitlines())) <= 100
    assert "{s" not in text


def _fahrenheit(option: str) -> str:
    name, _, degrees = option.partition("=")
    return f"{name}={round(float(degrees) * 9 / 5 + 32)}"


def test_a_metric_garden_has_metric_beds_and_spacings(here: Path) -> None:
    new("--units", "metric")
    garden = made(here)
    assert [bed.size.width for bed in garden.beds] == [1_200_000] * 2  # [µm]
    crops = {crop.name: crop for crop in garden.crops}
    assert crops["carrot"].in_row == 80_000
    assert "1.2 x 3.6" in (here / "garden.yaml").read_text()
    assert "inches" not in (here / "garden.yaml").read_text().partition("beds:")[2]


@pytest.mark.parametrize(
    ("today", "season", "arguments"),
    [
        ("2026-10-20", 2026, ["--last-frost", "05-05", "--first-frost", "10-20"]),
        ("2026-10-21", 2027, ["--last-frost", "05-05", "--first-frost", "10-20"]),
        ("2027-01-01", 2027, ["--last-frost", "05-05", "--first-frost", "10-20"]),
        ("2026-10-04", 2026, []),  # the invented place's first frost
        ("2026-10-05", 2027, []),
        ("2027-05-25", 2026, ["--latitude=-37", "--last-frost=09-20", "--first-frost=05-25"]),
        ("2027-05-26", 2027, ["--latitude=-37", "--last-frost=09-20", "--first-frost=05-25"]),
        ("2026-12-31", 2026, ["--last-frost", "none", "--first-frost", "none"]),
        (
            "2026-12-31",
            2026,
            ["--last-frost=02-01", "--first-frost=01-10"],
        ),  # mild: in the new year
    ],
)
def test_past_the_first_frost_it_plans_the_season_ahead(
    here: Path, today: str, season: int, arguments: list[str]
) -> None:
    new(*arguments, today=today)
    assert f"season: {season} " in (here / "garden.yaml").read_text()


def test_a_southern_garden_has_its_own_dates_and_year(here: Path) -> None:
    new("--latitude", "-41", "--units", "metric", today="2027-02-01")
    garden = made(here)
    assert (garden.site.latitude, garden.year.season) == (-41, 2026)
    (frost,) = garden.site.frost
    assert (frost.last[0].day.month, frost.first[0].day.month) == (11, 4)
    (bean,) = [entry for entry in garden.entries if entry.crop.name == "bush bean"]
    assert bean.start is not None
    assert (bean.start.month, bean.start.day) == (11, 29)  # three weeks after 8 November
    assert "too_hot: 01-01..02-20" in (here / "garden.yaml").read_text()


def test_only_the_invented_place_has_invented_means(here: Path) -> None:
    new()
    assert made(here).site.two_months is not None
    (here / "garden.yaml").unlink()
    new("--latitude", "50")
    assert made(here).site.two_months is None
    assert "# warmest_month:" in (here / "garden.yaml").read_text()


def test_what_is_too_cold_there_stands_as_a_remark(here: Path) -> None:
    new(*PLACES["far north"], "--units", "metric")
    assert {entry.crop.name for entry in made(here).entries} == {"lettuce", "carrot"}
    text = (here / "garden.yaml").read_text()
    assert "Too cold here" in text
    assert "  # - {crop: summer squash, raised: trays," in text


def test_in_a_terminal_it_asks_and_enter_takes_what_stands_there(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sowtide.cli.place.in_terminal", lambda: True)
    result = new(typed="\n" * 7)
    assert result.exit_code == 0, result.output
    assert "Units (us, metric) [us]:" in result.output
    assert "°F, Enter to skip:" in result.output
    assert "How many beds [2]:" in result.output
    assert made(here).site.latitude == 43
    (here / "garden.yaml").unlink()
    answers = ("metric", "-38.5", "nonsense", "10-01", "05-01", "19", "9", "3")
    result = new(typed="\n".join(answers) + "\n")
    assert result.exit_code == 0, result.output
    assert "'nonsense' is no day" in result.output
    garden = made(here)
    assert (garden.site.latitude, garden.site.units, len(garden.beds)) == (-38.5, Units.METRIC, 3)
    assert garden.site.two_months is not None
    assert garden.site.two_months.warmest == 19


def test_what_an_option_says_is_not_asked(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sowtide.cli.place.in_terminal", lambda: True)
    result = new("--latitude", "43", "--last-frost", "none", "--beds", "1", typed="\n\n")
    assert result.exit_code == 0, result.output
    for asked in ("Latitude", "frost", "beds"):
        assert asked not in result.output
    assert made(here).site.frost == ()


@pytest.mark.parametrize("option", ["--last-frost", "--first-frost"])
@pytest.mark.parametrize("terminal", [True, False])
def test_a_place_without_one_frost_has_neither(
    here: Path, monkeypatch: pytest.MonkeyPatch, option: str, terminal: bool
) -> None:
    monkeypatch.setattr("sowtide.cli.place.in_terminal", lambda: terminal)
    result = new("--latitude", "25.8", option, "none", typed="\n" * 9)
    assert result.exit_code == 0, result.output
    assert "frost" not in result.output
    assert made(here).site.frost == ()


def test_a_file_that_is_there_is_said_before_anything_is_asked(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sowtide.cli.place.in_terminal", lambda: True)
    (here / "garden.yaml").write_text("mine")
    result = new()
    assert result.exit_code != 0
    assert result.stdout == ""
    assert (here / "garden.yaml").read_text() == "mine"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--last-frost", "05-10"), "--last-frost and --first-frost go together"),
        (("--last-frost", "none", "--first-frost", "10-04"), "go together"),
        (("--warmest-month", "70"), "--warmest-month and --coldest-month go together"),
        (("--last-frost", "5 May", "--first-frost", "10-04"), "'5 May' is no day"),
        (("--last-frost", "02-30", "--first-frost", "10-04"), "there is no day '02-30'"),
        (("--last-frost", "10-04", "--first-frost", "05-10"), "a file cannot be written"),
        (("--last-frost", "02-29", "--first-frost", "11-25"), "a file cannot be written"),
        (("--latitude", "91"), "91"),
        (("--latitude", "nan"), "plain digits"),
        (("--beds", "0"), "0 is not in the range"),
        (("--demo", "--beds", "3"), "the place is that of their file"),
    ],
)
def test_what_cannot_be_is_wrong_usage_and_writes_nothing(
    here: Path, arguments: tuple[str, ...], said: str
) -> None:
    result = new(*arguments)
    assert result.exit_code == 2
    assert said in result.stderr
    assert list(here.iterdir()) == []


def drawn(random: Random) -> Start:
    """Draw a place: frosts around its midsummer, and means that go with them."""
    south = random.random() < 0.4
    middle = date(2026, 1, 15) if south else date(2026, 7, 15)
    half = random.randint(30, 160)
    last = middle - timedelta(half + random.randint(-15, 15))
    first = middle + timedelta(half + random.randint(-15, 15))
    warmest = min(34, max(9, 9 + half * 0.12 + random.uniform(-4, 6)))
    known = random.random() < 0.8
    return Start(
        season=2026,
        units=Units.METRIC,
        latitude=f"{random.uniform(25, 66) * (-1 if south else 1):.1f}",
        last_frost=f"{last:%m-%d}",
        first_frost=f"{first:%m-%d}",
        warmest_month=f"{warmest:.0f}" if known else None,
        coldest_month=f"{warmest - random.uniform(4, 28):.0f}" if known else None,
        beds=random.choice([1, 2, 6]),
    )


@pytest.mark.parametrize("numbers", [range(8), range(8, 16), range(16, 24)])
def test_nothing_that_is_written_for_a_place_is_warned_of(numbers: range) -> None:
    changed, kept = 0, 0
    for number in numbers:
        start = drawn(Random(number))
        text, problems = first_file(start, "garden.yaml")
        assert problems == ()
        reading = read_garden(text.encode(), "garden.yaml")
        assert reading.garden is not None
        found = season_of(reading.garden, date(2026, 3, 1))
        assert {each.code for each in found.problems if each.severity is not Severity.NOTE} == set()
        changed += text != starter_text(start)
        kept += len(reading.garden.entries)
    assert changed > 2  # else nothing had been warned of
    assert kept > 2 * len(numbers)


def test_a_bean_is_not_sown_before_its_day_in_a_cool_place() -> None:
    """Three weeks after the last frost of 20 May is 10 June: here its soil is not warm by then."""
    start = Start(
        season=2026,
        units=Units.METRIC,
        latitude="57",
        last_frost="05-20",
        first_frost="09-30",
        warmest_month="15",
        coldest_month="0",
    )
    assert "{crop: bush bean, plants: 16, from: 06-10, every: 21," in starter_text(start)
    text, _ = first_file(start, "garden.yaml")
    assert "from: 06-10" not in text
