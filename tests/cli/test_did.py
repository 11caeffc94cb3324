"""``sowtide did``: what is written and what is said to it; nothing is written that is wrong."""

from __future__ import annotations

import csv
import io
import json
import re
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from click.shell_completion import ShellComplete

import gardens
from sowtide.cli import cli, main
from sowtide.garden.journal import held

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


def test_the_answer_as_json_says_the_same(did: Did) -> None:
    found = json.loads(did("fruit-2", "sown", "--on", "06-18", "--format", "json").out)
    (written,) = found["written"]
    assert (written["wave"], written["did"], written["late"]) == ("fruit-2", "sown", 3)
    assert (written["plants"], written["bed"], written["status"]) == (2, "Long", "sown")
    assert written["first_pick"] == ["2026-08-07", "2026-08-07"]
    assert written["then"] == [
        {"wave": "fruit-3", "before": "2026-06-29", "now": "2026-07-02"},
        {"wave": "fruit-4", "before": "2026-07-13", "now": "2026-07-16"},
    ]
    assert not found["taken_back"]
    assert found["cautions"] == []
    taken = json.loads(did("--undo", "--format", "json").out)
    assert taken["taken_back"]
    assert taken["written"][0]["wave"] == "fruit-2"


def test_what_was_pulled_as_sick_says_who_keeps_out_and_where_it_goes(
    did: Did, tmp_path: Path
) -> None:
    # Two beds for 2 plants each: fruit-1 to -3 fill Long (2, 2 of 4) and Low.
    file = FILE.replace(
        "{bed: Long, size: 1 x 10}", "{bed: Long, size: 1 x 4}\n  - {bed: Low, size: 1 x 2}"
    )
    (tmp_path / "garden.yaml").write_text(file, encoding="utf-8")
    for number, on, bed in ((1, "06-01", "Long"), (2, "06-15", "Long"), (3, "06-29", "Low")):
        did(f"fruit-{number}", "sown", "--on", on, "--bed", bed, "--plants", "2")
    did("fruit-1", "pulled", "--on", "07-12")
    ran = did("fruit-2", "pulled", "--sick", "--on", "07-13")
    assert ran.err == ""
    assert ran.out.splitlines()[1:3] == [
        "Plant no fruit family in Long this season.",
        "No room any more for fruit-4.",
    ]
    assert "Bag or bury what was sick" in ran.out
    assert "[journal-sick]" in did(command="check").out
    found = json.loads(did("--undo", "--format", "json").out)
    assert found["room_found"] == [{"wave": "fruit-4", "beds": ["Long"]}]
    again = json.loads(did("fruit-1", "fed", "--format", "json").out)
    assert (again["room_found"], again["barred"]) == ([], [])


def test_what_goes_to_another_bed_is_said(did: Did, tmp_path: Path) -> None:
    beds = "{bed: Long, size: 1 x 10}\n  - {bed: Low, size: 1 x 10}"
    file = FILE.replace("{bed: Long, size: 1 x 10}", beds)
    (tmp_path / "garden.yaml").write_text(file, encoding="utf-8")
    did("fruit-1", "sown", "--on", "06-01")
    ran = did("fruit-1", "pulled", "--sick", "--on", "06-10", today="2026-06-12")
    assert "Moved: fruit-2 to Low, fruit-3 to Low, fruit-4 to Low.\n" in ran.out
    assert "No room any more" not in ran.out


def test_a_code_that_means_two_things_is_said(did: Did, monkeypatch: pytest.MonkeyPatch) -> None:
    def is_one(name: str, *, code: str) -> bool:
        return code == "bcdf" and name in ("fruit-3:sow", "fruit-4:sow")

    monkeypatch.setattr("sowtide.schedule.noting.by_code.has_code", is_one)
    ran = did("bcdf", "--on", "07-13")
    assert ran.out.startswith("fruit-4 sown 2 plants in Long 13 Jul, as planned")
    assert " ".join(ran.out.split()).endswith(
        "bcdf was taken for sow fruit-4 on 13 Jul; it stands for sow fruit-3 on 29 Jun, too."
    )


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
        (("fruit-1", "sown", "--format", "csv"), "What is written is not printed as csv."),
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
    assert ran.out.startswith("OVERDUE\n 1 ")
    assert "fruit-4" in ran.out
    found = json.loads(did("--format", "json").out)
    assert found["today"] == "2026-07-16"
    rows = list(csv.DictReader(io.StringIO(did("--format", "csv").out)))
    numbered = [re.match(r" *(\d+) ([a-z]{4}) \[ \]", line) for line in ran.out.splitlines()]
    shown = [(each[1], each[2]) for each in numbered if each]
    assert shown == [(row["number"], row["code"]) for row in rows]
    assert [code for _, code in shown] == [task["code"] for task in found["tasks"]]


def test_a_picking_stays_on_the_list_of_its_week_until_it_is_noted(
    did: Did, tmp_path: Path
) -> None:
    # Sown on Monday 1 June, so first picked 50 days on, on Tuesday 21 July, and three days later.
    every_third = FILE.replace("days_to_harvest", "pick_gap: 3, days_to_harvest")
    (tmp_path / "garden.yaml").write_text(every_third, encoding="utf-8")

    def picks(today: str) -> int:
        return did(today=f"2026-07-{today}").out.count(" pick ")

    week = json.loads(did("--format", "json", command="week", today="2026-07-20").out)
    assert [each["days"] for each in week["pickings"]] == [["2026-07-21", "2026-07-24"]]
    assert [picks(day) for day in ("20", "21", "22", "26")] == [0, 1, 1, 1]
    did("fruit-1", "picked=2lb", "--on", "07-23", today="2026-07-26")
    assert [picks(day) for day in ("23", "26")] == [0, 1]  # that of Friday is not noted
    did("fruit-1", "picked=2lb", "--on", "07-25", today="2026-07-26")
    assert picks("26") == 0


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

    last = [line.split()[0] for line in did().out.splitlines() if " [ ] " in line][-1]
    for none in ("0", str(int(last) + 1), "99=2lb", "9" * 5_000):
        monkeypatch.setattr(sys, "stdin", Terminal(f"{numbers[0]}@tue {none}\n"))
        ran = did()
        number = none.partition("=")[0]
        assert ran.code == 2
        assert f"There is no {number} on the list: write 1 to {last}." in ran.err
    assert len(entries(tmp_path)) == 1
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


@pytest.mark.parametrize("words", [("fruit-2", "sown", "--on", "06-15"), ("--undo",)])
def test_a_journal_that_another_breaks_meanwhile_is_not_written_to(
    did: Did, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    path = tmp_path / "journal.yaml"
    broken = "- {on: 2026-06-01, wave: fruit-1, did: swon}\n"

    def meanwhile(journal: Path) -> Any:
        path.write_text(broken)
        return held(journal)

    assert did("fruit-1", "sown", "--on", "06-01").code == 0
    monkeypatch.setattr("sowtide.cli.entering.held", meanwhile)
    ran = did(*words)
    assert (ran.code, ran.out, path.read_text()) == (1, "", broken)
    assert "journal.yaml:1:40: error: did: there is no stage 'swon'" in ran.err


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
    assert rows[3].startswith("fruit-2 2 17 Jun +2 30 Jun ")
    assert rows[3].endswith(" lost")
    assert rows[4] == "fruit-3 skipped"
    assert rows[-5:] == [
        *("PICKED waves plants picked", "fruit 1 2 2 kg", ""),
        *("NOTES", "25 Jul, fruit-1 first picked: sweet"),
    ]
    found = json.loads(did("season", "--format", "json", today="2026-08-01").out)
    assert [wave["picked_kg"] for wave in found["waves"]] == [2, None, None]
    assert found["waves"][0]["plant"] == {"on": "2026-06-03", "planned": "2026-06-01"}
    assert [wave["ended_by"] for wave in found["waves"]] == [None, "lost", None]
    table = did("season", "--format", "csv", today="2026-08-01").out
    row = next(csv.DictReader(io.StringIO(table)))
    assert (row["plant"], row["plant_planned"]) == ("2026-06-03", "2026-06-01")
    assert (row["picked_kg"], row["notes"]) == ("2", "sweet")


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


def test_notes_of_earlier_years_are_those_of_the_part_that_is_looked_at(
    did: Did, tmp_path: Path
) -> None:
    (tmp_path / "journal.yaml").write_text(
        "- {on: 2024-07-15, wave: fruit-2, did: up, note: slugs}\n"
        "- {on: 2025-07-14, bed: Long, did: watered, note: ran dry}\n"
        "- {on: 2025-07-15, did: rain, amount: 5mm, note: a cloudburst}\n"
        "- {on: 2025-07-16, bed: Gone, did: watered, note: elsewhere}\n"
        "- {on: 2025-07-17, wave: beet-1, did: up, note: another crop}\n"
    )
    shown = {
        (): ["a cloudburst", "another crop", "elsewhere", "ran dry", "slugs"],
        ("--bed", "Long"): ["ran dry", "slugs"],
        ("--crop", "fruit"): ["slugs"],
    }
    for words, notes in shown.items():
        week = did(*words, "--format", "json", command="week")
        found = json.loads(week.out)["earlier"]
        assert sorted(each["note"] for each in found) == notes, words


def test_the_garden_names_its_journal(did: Did, tmp_path: Path) -> None:
    (tmp_path / "garden.yaml").write_text(FILE + "journal: done.yaml\n", encoding="utf-8")
    did("fruit-1", "sown", "--on", "06-01")
    assert (tmp_path / "done.yaml").exists()
    assert not (tmp_path / "journal.yaml").exists()
    assert "fruit-1 sown" in did("--list").out


def test_the_ticks_of_mondays_sheet_are_known_on_sunday(did: Did, tmp_path: Path) -> None:
    sheet = json.loads(did("--format", "json", command="week", today="2026-07-20").out)
    code = next(each["code"] for each in sheet["tasks"] if each["kind"] == "pick")
    did("fruit-1", "lost", "--on", "tue", today="2026-07-26")
    # Lost before its first pick on 21 July it is on no sheet any more; that of Monday had it.
    ran = did(f"{code}=300g@mon", "rain", today="2026-07-26")
    assert ran.code == 2
    ran = did(f"{code}=300g@mon", today="2026-07-26")
    assert (ran.code, ran.err) == (0, "")
    assert entries(tmp_path)[-1] == "- {on: 2026-07-20, wave: fruit-1, did: picked, amount: 300g}"


def test_what_becomes_of_a_wave_is_said_behind_the_last_of_its_entries(did: Did) -> None:
    sheet = json.loads(did("--format", "json", command="week", today="2026-07-20").out)
    codes = {each["kind"]: each["code"] for each in sheet["tasks"] if each["wave"] == "fruit-1"}
    assert set(codes) == {"pick"}
    pull = json.loads(did("--week", "W32", "--format", "json", command="week").out)
    out = next(each["code"] for each in pull["tasks"] if each["kind"] == "pull out")
    ran = did(f"{codes['pick']}@07-22", f"{out}@07-25", today="2026-07-26")
    assert ran.out.splitlines()[:3] == [
        "fruit-1 picked 22 Jul",
        "fruit-1 pulled 25 Jul, 10 days early: Long has its space from 25 Jul on",
        "Pick with clean hands, box and knife; cool running water before anyone eats it.",
    ]
