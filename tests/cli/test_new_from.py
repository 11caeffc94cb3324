"""``sowtide new --from``: next season's file from this season's and its journal."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest

import drawn
import gardens
from sowtide.cli import main
from sowtide.garden.model import Garden
from sowtide.season import load

ROOT = Path(__file__).parents[2]
FILE = """\
site: {name: Test plot, latitude: 45, units: metric, frost: {last: 05-10, first: 10-01}}
season: 2026   # the year
beds:
  - {bed: Long, size: 1 x 10, grew: {2025: leaf family}}
  - bed: Low   # the wet one
    size: 1 x 10
    taken: 2026-09-01..2026-09-20
  - {bed: Old, size: 1 x 10}
crops:
  FRUIT
  WINTER
waves:
  - {crop: fruit, plants: 4, from: 2026-06-01, beds: [Long]}
  # put in last fall
  - {crop: winter, name: old, plants: 5, from: 2025-10-05, beds: [Old]}
  - {crop: winter, plants: 3, from: 10-10, beds: [Old]}
"""
FILE = FILE.replace("FRUIT", gardens.crop()).replace(
    "WINTER",
    gardens.crop(
        "winter",
        family="onion family",
        overwinters="yes",
        hardiness="hardiest",
        ready="06-25..07-20",
    ),
)
JOURNAL = """\
- {on: 2026-05-28, wave: fruit-1, bed: Long, did: sown, plants: 4}
- {on: 2026-10-14, wave: winter-1, bed: Low, did: sown, plants: 2}
"""

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run the program in a folder with a garden."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("SOWTIDE_GARDEN", raising=False)
    monkeypatch.setattr("gc.disable", lambda: None)
    monkeypatch.setattr("gc.freeze", lambda: None)
    (tmp_path / "garden.yaml").write_text(FILE)

    def program(*words: str) -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "argv", ["sowtide", *words])
        capsys.readouterr()
        with pytest.raises(SystemExit) as left:
            main()
        out, err = capsys.readouterr()
        return int(left.value.code or 0), out, err

    return program


def made(path: Path) -> Garden:
    garden = load(path).garden
    assert garden is not None
    return garden


def test_the_next_file_has_what_stood_and_what_stands_on(run: Run, tmp_path: Path) -> None:
    (tmp_path / "journal.yaml").write_text(JOURNAL)
    code, out, err = run("new", "--from", "garden.yaml", "--today", "2026-11-20")
    assert (code, err) == (0, "")
    assert out == (
        "Wrote garden-2027.yaml for season 2027: what stood in 2 beds stands under grew.\n"
        "Over the winter stands winter-1.\n"
    )
    expected = FILE.replace("season: 2026", "season: 2027")
    expected = expected.replace("grew: {2025", "grew: {2026: fruit family, 2025")
    expected = expected.replace("{bed: Old", "{grew: {2026: onion family}, bed: Old")
    expected = expected.replace("2026-09-01..2026-09-20", "2027-09-01..2027-09-20")
    expected = expected.replace("from: 2026-06-01", "from: 2027-06-01")
    # What was planted in the fall of 2026 takes the place of what was in that of 2025.
    old = "  - {crop: winter, name: old, plants: 5, from: 2025-10-05, beds: [Old]}\n"
    expected = expected.replace(old, "")
    expected += (
        "  - {crop: winter, name: winter-standing, plants: 2, from: 2026-10-14, beds: [Low]}"
        "   # stands since last season\n"
        "\njournal: journal.yaml   # one for all seasons\n"
    )
    assert (tmp_path / "garden-2027.yaml").read_text() == expected
    code, out, _ = run("check", "--garden", "garden-2027.yaml", "--today", "2027-01-05")
    assert code == 0
    assert "winter-standing" not in out  # what stands on does not close its own bed
    assert (tmp_path / "garden.yaml").read_text() == FILE


def test_without_a_winter_crop_of_this_season_last_years_is_planted_again(
    run: Run, tmp_path: Path
) -> None:
    (tmp_path / "garden.yaml").write_text(FILE[: FILE.index("  - {crop: winter, plants: 3")])
    assert run("new", "--from", "garden.yaml", "--today", "2026-11-20")[0] == 0
    garden = made(tmp_path / "garden-2027.yaml")
    assert [(e.name, str(e.start)) for e in garden.entries] == [
        ("fruit", "2027-06-01"),
        ("old", "2026-10-05"),
    ]


def test_what_stood_for_less_than_sixty_days_closes_no_bed(run: Run, tmp_path: Path) -> None:
    # A radish of 30 days that holds for a fortnight is gone after 45; kale of 50 stands for months
    lines = "  - {crop: radish, plants: 9, from: 05-01, beds: [Low]}\n"
    lines += "  - {crop: kale, plants: 2, from: 05-01, beds: [Old]}\n"
    (tmp_path / "garden.yaml").write_text(FILE[: FILE.index("  # put in last fall")] + lines)
    assert run("new", "--from", "garden.yaml", "--today", "2026-11-20")[0] == 0
    grew = {bed.name: bed.grew for bed in made(tmp_path / "garden-2027.yaml").beds}
    assert grew["Low"] == ()
    assert grew["Old"] == ((2026, "cabbage family"),)


def test_what_is_neither_noted_nor_left_out_did_not_stand(run: Run, tmp_path: Path) -> None:
    (tmp_path / "journal.yaml").write_text("- {on: 2026-05-02, bed: Long, did: watered}\n")
    _, out, _ = run("new", "--from", "garden.yaml", "--today", "2026-11-20")
    assert "Not noted, and so not counted as planted: fruit-1, winter-1.\n" in out
    beds = made(tmp_path / "garden-2027.yaml").beds
    # Only what was planted before the journal's first entry stood: the winter crop of 2025.
    assert [bed.grew for bed in beds] == [((2025, "leaf family"),), (), ((2026, "onion family"),)]


def test_the_journal_goes_on_and_what_it_taught_is_offered(run: Run, tmp_path: Path) -> None:
    entries = [
        f"- {{on: {season}-06-01, wave: fruit-1, did: sown}}\n"
        f"- {{on: {season}-08-01, wave: fruit-1, did: first picked}}\n"
        for season in (2023, 2024, 2025)
    ]
    (tmp_path / "journal.yaml").write_text("".join(entries))
    run("new", "--from", "garden.yaml", "--today", "2026-11-20")
    text = (tmp_path / "garden-2027.yaml").read_text()
    # 61 days in place of 50 expected and some for the season: 1.2 and less of the way.
    assert "#   fruit: {days_to_harvest: 5" in text
    assert "# 3 pickings; the packet says 50\n" in text
    ran = run("did", "fruit-1", "sown", "--garden", "garden-2027.yaml", "--today", "2027-06-02")
    assert ran[0] == 0
    assert "2027-06-02" in (tmp_path / "journal.yaml").read_text()
    assert not (tmp_path / "garden-2027-journal.yaml").exists()


def test_where_rotation_leaves_no_bed_the_beds_are_named(run: Run, tmp_path: Path) -> None:
    small = gardens.text(
        gardens.wave(plants="4", start="06-01"), crops=(gardens.crop(rotation="3"),)
    )
    (tmp_path / "garden.yaml").write_text(small)
    _, out, _ = run("new", "--from", "garden.yaml", "--today", "2026-11-20")
    assert "Rotation leaves no bed for fruit: their beds are named.\n" in out
    text = (tmp_path / "garden-2027.yaml").read_text()
    assert "  # Rotation leaves no bed for these: all are named" in text
    assert "- {beds: [Long], crop: fruit" in text
    assert run("check", "--garden", "garden-2027.yaml", "--today", "2027-01-05")[0] == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--demo",), "Choose one of --demo and --from."),
        (("--garden", "other/garden.yaml"), "Write it beside garden.yaml"),
    ],
)
def test_wrong_usage_writes_nothing(
    run: Run, tmp_path: Path, words: tuple[str, ...], said: str
) -> None:
    (tmp_path / "other").mkdir()
    code, out, err = run("new", "--from", "garden.yaml", *words)
    assert (code, out) == (2, "")
    assert said in err
    assert sorted(each.name for each in tmp_path.iterdir()) == ["garden.yaml", "other"]


def test_a_file_that_stands_there_is_left_alone(run: Run, tmp_path: Path) -> None:
    (tmp_path / "garden-2027.yaml").write_text("mine\n")
    code, _, err = run("new", "--from", "garden.yaml", "--today", "2026-11-20")
    assert (code, "left alone" in err) == (2, True)
    assert (tmp_path / "garden-2027.yaml").read_text() == "mine\n"


def test_a_season_after_a_season_has_no_two_years_in_its_name(run: Run, tmp_path: Path) -> None:
    run("new", "--from", "garden.yaml", "--today", "2026-11-20")
    run("new", "--from", "garden-2027.yaml", "--today", "2027-11-20")
    garden = made(tmp_path / "garden-2028.yaml")
    assert garden.year.season == 2028
    assert garden.beds[0].grew[0] == (2027, "fruit family")


@pytest.mark.parametrize("seed", range(12))
def test_of_any_garden_the_next_file_can_be_read_and_has_the_same_series(
    run: Run, tmp_path: Path, seed: int
) -> None:
    (tmp_path / "garden.yaml").write_text(drawn.covered_garden(Random(seed)))
    before = made(tmp_path / "garden.yaml")
    assert run("new", "--from", "garden.yaml", "--today", "2026-12-20")[0] == 0
    after = made(tmp_path / "garden-2027.yaml")
    assert after.year.season == 2027
    assert [bed.name for bed in after.beds] == [bed.name for bed in before.beds]
    names = [entry.name for entry in after.entries if "-standing" not in entry.name]
    assert set(names) <= {entry.name for entry in before.entries}
    kept = [e.name for e in before.entries if not e.start or e.start in before.year]
    assert [name for name in names if name in kept] == kept


@pytest.mark.parametrize("name", ["allotment", "market-garden"])
def test_of_the_examples_too(run: Run, tmp_path: Path, name: str) -> None:
    for path in (ROOT / "examples" / name).iterdir():
        (tmp_path / path.name).write_bytes(path.read_bytes())
    before = made(tmp_path / "garden.yaml")
    assert run("new", "--from", "garden.yaml", "--today", "2027-06-30")[0] == 0
    after = made(tmp_path / f"garden-{before.year.season + 1}.yaml")
    kept = {e.name for e in before.entries if not e.start or e.start in before.year}
    assert kept <= {e.name for e in after.entries}
