"""``sowtide did``: what is written and what is said to it; nothing is written that is wrong."""

from __future__ import annotations

import csv
import io
import json
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest
from click.shell_completion import ShellComplete

import gardens
from sowtide.cli import cli, main

FILE = gardens.text(
    gardens.wave(plants="2", start="06-01", every="14", count="4"), fall_allowance="0"
)


@dataclass(frozen=True, slots=True)
class Ran:
    """How a run of the program went."""

    code: int
    out: str
    err: str


Did = Callable[..., Ran]


@pytest.fixture
def did(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Did:
    """Run the program in a folder with a garden, on 16 July unless it is told another day."""
    (tmp_path / "garden.yaml").write_text(FILE, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("SOWTIDE_GARDEN", raising=False)
    monkeypatch.setattr("gc.disable", lambda: None)
    monkeypatch.setattr("gc.freeze", lambda: None)

    def run(*words: str, command: str = "did", today: str = "2026-07-16") -> Ran:
        monkeypatch.setattr(sys, "argv", ["sowtide", command, *words, "--today", today])
        capsys.readouterr()
        with pytest.raises(SystemExit) as left:
            main()
        out, err = capsys.readouterr()
        return Ran(int(left.value.code or 0), out, err)

    return run


def entries(folder: Path) -> list[str]:
    """Return the lines of the journal but for the comment at its head."""
    text = (folder / "journal.yaml").read_text(encoding="utf-8")
    return [line for line in text.splitlines() if not line.startswith("#")]


def test_the_answer_says_what_was_written_and_what_it_moved(did: Did, tmp_path: Path) -> None:
    ran = did("fruit-2", "sown", "--on", "06-18")
    # 18 June + 50 = 7 August. The two behind it move with it, three days each.
    assert ran == Ran(
        0,
        "fruit-2 sown 2 plants in Long 18 Jun, 3 days late: first picks 7 Aug, over 99 in\n"
        "  100; then fruit-3 on 2 Jul (29 Jun), fruit-4 on 16 Jul (13 Jul)\n",
        "",
    )
    assert entries(tmp_path) == [
        "- {on: 2026-06-18, wave: fruit-2, bed: Long, did: sown, plants: 2}"
    ]
    week = did("fruit-2", command="why")
    assert "sown, as the journal says" in week.out
    assert "journal.yaml:2" in week.out


def test_what_cannot_be_is_refused_with_what_it_contradicts(did: Did, tmp_path: Path) -> None:
    did("fruit-1", "first", "picked", "--on", "07-10")
    before = (tmp_path / "journal.yaml").read_bytes()
    ran = did("fruit-1", "sown", "--on", "07-12")
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.startswith(
        "journal.yaml:3:3: error: fruit-1 first picked on 10 Jul, before it was sown on\n"
    )
    assert "line 2 says first picked on 10 Jul" in ran.err
    assert (tmp_path / "journal.yaml").read_bytes() == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("fruit-9", "sown"), "There is no wave 'fruit-9'."),
        (("fruit-1", "sown", "--bed", "Lang"), "There is no bed 'Lang'. Did you mean 'Long'?"),
        (("fruit-1", "sown", "--on", "07-20"), "2026-07-20 is still to come"),
        (("fruit-1", "swon"), "There is no stage 'swon'. Did you mean 'sown'?"),
        (("--list", "--undo"), "--list and --undo stand alone."),
        (("fruit-1", "sown", "--undo"), "--list and --undo stand alone."),
        (("--format", "json"), "Only --list prints json or csv."),
        (("--undo",), "Nothing is noted that could be taken back."),
        (("fruit-1", "sown", "--demo"), "The demo garden keeps no journal"),
    ],
)
def test_wrong_usage_writes_nothing(
    did: Did, tmp_path: Path, words: tuple[str, ...], said: str
) -> None:
    if "--demo" in words:
        words = ("pea-1", *words[1:])
    ran = did(*words)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err
    assert not (tmp_path / "journal.yaml").exists() or entries(tmp_path) == []


def test_undo_restores_the_bytes_of_every_output(did: Did, tmp_path: Path) -> None:
    did("fruit-1", "sown", "--on", "06-01")

    def outputs() -> list[str]:
        asked = (("plan",), ("plan", "--by", "bed"), ("plan", "--format", "json"), ("week",))
        asked += (("calendar",), ("check",), ("why", "fruit-2"), ("did", "--list"))
        return [did(*rest, command=command).out for command, *rest in asked]

    before = outputs()
    did("fruit-1", "pulled", "--sick", "--on", "07-14")
    assert outputs() != before
    ran = did("--undo")
    assert ran.out.startswith("taken back: fruit-1 pulled 14 Jul")
    assert outputs() == before
    assert entries(tmp_path)[-1].endswith("did: pulled, sick: yes, undone: yes}")


def test_the_list_is_of_the_season_and_has_every_field(did: Did, tmp_path: Path) -> None:
    (tmp_path / "journal.yaml").write_text(
        "- {on: 2026-06-15, wave: fruit-2, did: sown, plants: 2}\n"
        "- {on: 2026-06-01, wave: fruit-1, did: sown, note: 'late, in rain'}\n"
        "- {on: 2025-06-01, wave: fruit-1, did: sown}\n"
        "- {on: 2026-07-15, did: rain, amount: 0.6in}\n"
    )
    assert did("--list").out == (
        " 1 Jun  fruit-1 sown; late, in rain\n15 Jun  fruit-2 sown 2 plants\n15 Jul  rain 0.6in\n"
    )
    found = json.loads(did("--list", "--format", "json").out)
    assert found["version"] == 1
    assert [entry["line"] for entry in found["entries"]] == [2, 1, 4]
    assert found["entries"][2] == {
        "on": "2026-07-15",
        "did": "rain",
        "wave": None,
        "bed": None,
        "plants": None,
        "amount": 0.6,
        "unit": "in",
        "found": None,
        "with": None,
        "skips": None,
        "sick": False,
        "note": None,
        "season": None,
        "file": "journal.yaml",
        "line": 4,
    }
    rows = list(csv.DictReader(io.StringIO(did("--list", "--format", "csv").out)))
    assert [row["note"] for row in rows] == ["late, in rain", "", ""]
    assert set(rows[0]) == set(found["entries"][0])


def test_without_words_it_shows_what_is_due(did: Did) -> None:
    did("Long", "watered", "--on", "07-10")
    ran = did()
    assert ran.out.startswith("  1 ")
    assert "fruit-4" in ran.out


def test_before_the_season_begins_nothing_is_due(did: Did) -> None:
    assert did(today="2026-03-02").out == "Nothing is due that is not noted.\n"


def test_in_a_terminal_the_numbers_are_ticked_off(
    did: Did, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    did("Long", "watered", "--on", "07-10")
    numbers = [line.split()[0] for line in did().out.splitlines() if "sow  " in line]

    class Terminal(io.StringIO):
        def isatty(self) -> bool:
            return True

    monkeypatch.setattr(sys, "stdin", Terminal(f"{numbers[0]}@tue\n"))
    ran = did()
    assert ran.code == 0, ran.err
    assert entries(tmp_path)[-1] == (
        "- {on: 2026-07-14, wave: fruit-4, bed: Long, did: sown, plants: 2}"
    )


def test_a_wave_planted_where_there_was_no_room_is_written_and_said(did: Did) -> None:
    did("fruit-1", "sown", "--plants", "9", "--on", "06-01")
    ran = did("fruit-2", "sown", "--plants", "4", "--bed", "Long", "--on", "06-15")
    assert ran.code == 0
    assert "[journal-crowded]" in ran.err


def test_a_hand_edit_that_breaks_the_file_stops_every_command(did: Did, tmp_path: Path) -> None:
    path = tmp_path / "journal.yaml"
    path.write_text("- {on: 2026-06-01, wave: fruit-1, did: swon}\n")
    for command in ("week", "plan", "calendar", "check"):
        ran = did(command=command)
        assert ran.code == 1
        assert "journal.yaml:1:40: error: did: there is no stage 'swon'" in ran.out + ran.err
    assert did("fruit-1", "sown").code == 1
    assert path.read_text() == "- {on: 2026-06-01, wave: fruit-1, did: swon}\n"


def test_a_line_cut_short_is_told_once(did: Did, tmp_path: Path) -> None:
    path = tmp_path / "journal.yaml"
    path.write_text("- {on: 2026-06-01, wave: fruit-1, did: sown}\n- {on: 2026-06-1")
    assert "[journal-broken]" in did("fruit-2", "sown", "--on", "06-15").err
    assert did(command="week").err == ""


def test_names_and_stages_are_completed(did: Did, tmp_path: Path) -> None:
    def offered(*before: str, begun: str) -> list[str]:
        completion = ShellComplete(cli, {}, "sowtide", "_SOWTIDE_COMPLETE")
        words = ["did", "--garden", str(tmp_path / "garden.yaml"), "--today", "2026-07-16", *before]
        return [each.value for each in completion.get_completions(words, begun)]

    assert offered(begun="fr") == ["fruit-1", "fruit-2", "fruit-3", "fruit-4"]
    assert offered(begun="Lo") == ["Long"]
    assert offered("fruit-1", begun="p") == ["prepared", "planted out", "picked", "pulled"]
    (tmp_path / "garden.yaml").write_text("site: no\n")
    assert offered(begun="fr") == []


def test_the_journal_of_a_file_of_another_name_bears_its_name(did: Did, tmp_path: Path) -> None:
    (tmp_path / "plot.yaml").write_text(FILE, encoding="utf-8")
    did("fruit-1", "sown", "--on", "06-01", "--garden", "plot.yaml")
    assert (tmp_path / "plot-journal.yaml").exists()
    assert not (tmp_path / "journal.yaml").exists()


def test_the_card_of_a_crop_says_what_its_pickings_taught(did: Did, tmp_path: Path) -> None:
    (tmp_path / "journal.yaml").write_text(
        "".join(
            f"- {{on: 2025-0{month}-01, wave: fruit-{month}, did: sown}}\n"
            f"- {{on: 2025-0{month + 2}-01, wave: fruit-{month}, did: first picked}}\n"
            for month in (4, 5, 6)
        )
    )
    # 61, 61 and 61 days (April and May, May and June, June and July) in place of 50; but in spring
    # the allowance for slower growth was expected already.
    said = did("fruit", command="crops").out
    assert "Learned from 3 pickings of yours: fruit takes 1." in said
    assert "times its days here" in said
    why = " ".join(did("fruit-1", command="why").out.split())
    assert "days to harvest by 3 pickings of yours (packet 50)" in why


def test_the_years_page_has_a_line_for_each_wave_beside_the_plan(did: Did, tmp_path: Path) -> None:
    (tmp_path / "journal.yaml").write_text(
        "- {on: 2026-06-03, wave: fruit-1, did: sown}\n"
        "- {on: 2026-07-25, wave: fruit-1, did: first picked, amount: 1.5kg, note: sweet}\n"
        "- {on: 2026-07-28, wave: fruit-1, did: picked, amount: 500g}\n"
        "- {on: 2026-06-17, wave: fruit-2, did: sown}\n"
        "- {on: 2026-06-30, wave: fruit-2, did: lost}\n"
        "- {on: 2026-07-02, wave: fruit-3, did: skipped}\n"
    )
    ran = did("season", today="2026-08-01")
    assert (ran.code, ran.err) == (0, "")
    # Sown 2 days late; planned for 21 July, first picked on the 25th, so picked till 7 August and
    # not 3 August; 1.5 kg and 500 g are 2 kg.
    rows = [" ".join(line.split()) for line in ran.out.splitlines()]
    assert ran.out.startswith("SEASON")
    assert rows[2] == "fruit-1 2 3 Jun +2 25 Jul +4 7 Aug +4 8 Aug +4 2 kg"
    assert "25 Jul, first picked: sweet" in ran.out
    assert rows[4].startswith("fruit-2 2 17 Jun +2 30 Jun ")
    assert "    lost" in ran.out
    assert "fruit-3 skipped" in rows


def test_the_notes_of_earlier_years_stand_beside_the_same_week(did: Did, tmp_path: Path) -> None:
    (tmp_path / "journal.yaml").write_text(
        "- {on: 2024-07-15, wave: fruit-2, did: up, note: 'slugs, after rain'}\n"
        "- {on: 2025-07-14, bed: Long, did: watered, note: ran dry}\n"
        "- {on: 2025-07-20, bed: Long, did: watered, note: the week after}\n"
        "- {on: 2026-07-14, bed: Long, did: watered, note: this year}\n"
    )
    week = did(command="week").out  # Monday 13 to Sunday 19 July 2026
    assert (
        "IN 2025, 14 Jul: Long watered: ran dry\nIN 2024, 15 Jul: fruit-2 up: slugs, after rain\n"
    ) in week
    assert "the week after" not in week
    assert "this year" not in week


def test_the_garden_names_its_journal(did: Did, tmp_path: Path) -> None:
    (tmp_path / "garden.yaml").write_text(FILE + "journal: done.yaml\n", encoding="utf-8")
    did("fruit-1", "sown", "--on", "06-01")
    assert (tmp_path / "done.yaml").exists()
    assert not (tmp_path / "journal.yaml").exists()
    assert "fruit-1 sown" in did("--list").out
