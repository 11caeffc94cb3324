"""`--bed` and `--crop`: all is planned, and part of it is shown."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from planned_once import planned_once
from sowtide.cli import cli

MARKET = Path(__file__).parents[2] / "examples" / "market-garden" / "garden.yaml"
DEMO_BEDS = ("Hoops", "South", "Fence", "Well", "Shed")


@pytest.fixture(autouse=True)
def _planned_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sowtide.cli.options.season_of", planned_once)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(cli, arguments)


def answer(*arguments: str) -> Any:
    result = run(*arguments, "--format", "json")
    assert result.exit_code == 0, result.stderr
    return json.loads(result.stdout)


def test_the_sheets_of_every_bed_together_have_each_task_with_its_code_once() -> None:
    whole = {task["id"]: task for task in answer("week", "--demo")["tasks"]}
    found: dict[str, Any] = {}
    for bed in DEMO_BEDS:
        week = answer("week", "--demo", "--bed", bed)
        assert week["only"] == {"beds": [bed], "crops": None}
        assert {task["bed"] for task in week["tasks"]} <= {bed, None}
        for task in week["tasks"]:
            assert task["id"] not in found
            found[task["id"]] = task
    assert found == whole
    assert {task["bed"] for task in whole.values()} == {*DEMO_BEDS, None}


def test_patterns_take_blocks_of_a_market_garden() -> None:
    market = ("--garden", str(MARKET), "--today", "2026-07-16")
    names = [bed["bed"] for bed in answer("calendar", *market)["beds"]]
    block = [name for name in names if name.startswith(names[0][0])]
    assert 1 < len(block) < len(names)
    for pattern in (f"{names[0][0]}*", f"{names[0][0].lower()}*", f"[{names[0][0]}]*"):
        calendar = answer("calendar", *market, "--bed", pattern)
        assert [bed["bed"] for bed in calendar["beds"]] == block == calendar["only"]["beds"]
        assert all(
            {each["bed"] for each in w["beds"]} & {*block} for w in calendar["waves"] if w["beds"]
        )
    two = answer("plan", *market, "--bed", names[0], "--bed", names[-1])
    assert [bed["bed"] for bed in two["beds"]] == [names[0], names[-1]]


def test_a_pattern_of_beds_asks_what_comes_free_in_all_of_them() -> None:
    def spaces(*bed: str) -> list[tuple[str, str, str | None]]:
        found = answer("fits", "--demo", *bed)["openings"]
        return [(each["bed"], each["from"], each["until"]) for each in found]

    whole = spaces()
    assert {bed for bed, _, _ in whole} >= {"South", "Well"}
    for pattern in ("S*", "s*", "[WH]*"):
        letters = pattern.upper()
        of = [each for each in whole if each[0][0] in letters]
        assert spaces("--bed", pattern) == of


@pytest.mark.parametrize("name", ["lettuce", "LETTUCE", "l?ttuce", "lett*"])
def test_a_crop_goes_by_its_name_and_by_patterns(name: str) -> None:
    plan = answer("plan", "--demo", "--crop", name)
    assert {wave["crop"] for wave in plan["waves"]} == {"lettuce"}
    assert plan["only"] == {"beds": None, "crops": ["lettuce"]}
    assert {gap["series"] for gap in plan["gaps"]} == {"lettuce"}
    assert {bed["bed"] for bed in plan["beds"]} == {"Well", "South"}


def test_a_series_name_is_a_crop_too() -> None:
    calendar = answer("calendar", "--demo", "--crop", "bush-bean", "--crop", "pea")
    assert calendar["only"]["crops"] == ["bush bean", "pea"]
    assert {each["crop"] for each in calendar["last_days"]["crops"]} == {"bush bean", "pea"}


def test_problems_of_other_waves_are_left_out() -> None:
    market = ("--garden", str(MARKET), "--today", "2026-07-16")
    whole = answer("plan", *market)
    plan = answer("plan", *market, "--crop", "spinach")
    waves = {wave["id"] for wave in plan["waves"]}
    assert plan["problems"] == [
        each for each in whole["problems"] if each["wave"] in waves or "spinach" in each["message"]
    ]
    assert 0 < len(plan["problems"]) < len(whole["problems"])


def test_the_page_says_what_it_shows_and_csv_says_it_beside() -> None:
    for command in ("week", "calendar", "plan"):
        assert "Only lettuce in Well." in " ".join(
            run(command, "--demo", "--crop", "lettuce", "--bed", "well").stdout.split()
        )
    result = run("week", "--demo", "--bed", "S*", "--format", "csv")
    assert result.stderr == "sowtide: Only South and Shed.\n"
    assert result.stdout.startswith("week,id,")
    assert "Only" not in run("week", "--demo").stdout


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--bed", "Sout"), "There is no bed like 'Sout'. Did you mean 'South'?"),
        (("--bed", "Wel?x"), "There is no bed like 'Wel?x'. Did you mean 'Well'?"),
        (("--bed", "Q*"), "There is no bed like 'Q*'. 'sowtide plan --by bed' names them all."),
        (("--crop", "letuce"), "no waves of a crop like 'letuce'. Did you mean 'lettuce'?"),
        (
            ("--crop", "parsley"),
            "no waves of a crop like 'parsley'. It has, say, 'summer squash', 'bush bean', "
            "'garlic', 'pea' and 'tomato'.",
        ),
        (("--bed", "South", "--crop", "garlic"), "No garlic in South; look in 'Shed'."),
    ],
)
@pytest.mark.parametrize("command", ["week", "calendar", "plan"])
def test_what_nothing_goes_by_is_wrong_usage(
    command: str, arguments: tuple[str, ...], said: str
) -> None:
    result = run(command, "--demo", *arguments)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert said in result.stderr


def test_what_is_packed_afresh_is_the_whole_garden() -> None:
    result = run("plan", "--demo", "--repack", "--bed", "South")
    assert result.exit_code == 2
    assert "leave --bed and --crop out" in result.stderr


def test_work_in_two_beds_stands_on_the_sheet_of_each(tmp_path: Path) -> None:
    file = tmp_path / "garden.yaml"
    file.write_text(
        "site: {name: A, latitude: 43, units: us, frost: {last: 05-08, first: 10-02}}\n"
        "season: 2026\n"
        "beds: [{bed: One, size: 4 x 10}, {bed: Two, size: 4 x 10}]\n"
        "crops:\n  bush bean: {in_row: 4, between_rows: 12}\n"
        "waves: [{crop: bush bean, plants: 200, from: 06-01}]\n"
    )
    # A bed of 40 square feet holds 120 plants of 4 x 12 inches: 120 in One, 80 in Two.
    week = ("week", "--garden", str(file), "--today", "2026-06-01")
    whole = {task["id"] for task in answer(*week)["tasks"]}
    assert whole == {"bush-bean-1:sow:One", "bush-bean-1:sow:Two"}
    for bed in ("One", "Two"):
        tasks = answer(*week, "--bed", bed)["tasks"]
        assert [task["id"] for task in tasks] == [f"bush-bean-1:sow:{bed}"]
