"""The promise of the journal: what was acknowledged is there, whatever happens meanwhile."""

from __future__ import annotations

import fcntl
import os
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from sowtide.diagnostics import Span, Unreadable
from sowtide.garden.journal import Did, Happening, held, journal_of, read_journal

TESTS = Path(__file__).parents[2]


def sown(number: int) -> Happening:
    """Return the sowing of a wave."""
    return Happening(date(2026, 7, 18), Did.SOWN, Span("", 1), wave=f"bush-bean-{number}")


def note_down(path: Path, *numbers: int) -> None:
    """Write sowings down."""
    with held(path) as journal:
        journal.append([sown(number) for number in numbers])


def noted(path: Path) -> list[str | None]:
    """Return the waves that the journal says were sown."""
    read = read_journal(path)
    assert read.journal is not None, [problem.message for problem in read.problems]
    return [each.wave for each in read.journal.happenings]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Return where a journal may be written."""
    return tmp_path / "journal.yaml"


def test_a_journal_that_is_not_there_is_begun(path: Path) -> None:
    read = read_journal(path)
    assert read.journal is not None
    assert read.journal.happenings == ()
    note_down(path, 1)
    assert path.read_text() == (
        "# What happened, one entry a line. sowtide adds lines at the end and changes none.\n"
        "- {on: 2026-07-18, wave: bush-bean-1, did: sown}\n"
    )


def test_entries_are_told_where_they_will_stand(path: Path) -> None:
    # The span begins behind the hyphen and its space, and ends with the entry.
    entries = [sown(1), sown(22)]
    for before, first in (("", 2), ("# mine\n", 2), ("# mine", 2), ("# my\n# own\n", 3)):
        path.write_text(before)
        with held(path) as journal:
            placed = journal.placed(entries)
            journal.append(entries)
        read = read_journal(path).journal
        assert read is not None
        assert [each.span for each in placed] == [
            Span(str(path), first + number, 3, len(each.line) - 2, each.line)
            for number, each in enumerate(entries)
        ]
        assert [each.span.line for each in read.happenings] == [first, first + 1]


def test_nothing_that_stands_there_is_changed(path: Path) -> None:
    own = "# mine\n-   {did: sown,   wave: bush-bean-1, on: 2026-07-18}"
    path.write_text(own)
    note_down(path, 2)
    assert path.read_text() == own + "\n- {on: 2026-07-18, wave: bush-bean-2, did: sown}\n"


def test_what_a_crash_leaves_at_any_byte_is_stepped_over_by_all_that_follows(path: Path) -> None:
    note_down(path, 1)
    before = path.read_bytes()
    note_down(path, 2)
    whole = path.read_bytes()
    for length in range(len(before), len(whole)):
        path.write_bytes(whole[:length])
        assert noted(path) in (["bush-bean-1"], ["bush-bean-1", "bush-bean-2"])
        note_down(path, 3)
        complete = length >= len(whole) - 1  # all but the line's end is there
        assert noted(path) == ["bush-bean-1", *["bush-bean-2"] * complete, "bush-bean-3"]
        assert path.read_bytes().startswith(whole[:length]), "what is left of it is lost"
        assert read_journal(path).problems == (), "it was told before"


def test_a_crash_while_the_mark_is_written_is_stepped_over_too(path: Path) -> None:
    note_down(path, 1)
    with path.open("ab") as file:
        file.write(b"- {on: 2026-07-1")
    before = path.read_bytes()
    note_down(path, 2)
    whole = path.read_bytes()
    for length in range(len(before), len(whole)):
        path.write_bytes(whole[:length])
        note_down(path, 3)
        assert noted(path)[0] == "bush-bean-1"
        assert noted(path)[-1] == "bush-bean-3"


def test_half_a_letter_is_stepped_over(path: Path) -> None:
    note_down(path, 1)
    with path.open("ab") as file:
        file.write("- {on: 2026-07-18, note: 'Sü".encode()[:-1])
    note_down(path, 2)
    assert noted(path) == ["bush-bean-1", "bush-bean-2"]


def test_all_entries_of_one_command_are_written_or_none(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    note_down(path, 1)
    before, write = path.read_bytes(), os.write

    def full(file: int, data: bytes) -> int:
        if len(data) < 60:
            raise OSError(28, "No space left on device")
        return write(file, data[:20])

    monkeypatch.setattr(os, "write", full)
    with pytest.raises(Unreadable, match=r"journal.yaml cannot be written: no space left on dev"):
        note_down(path, 2, 3)
    assert path.read_bytes() == before


def test_a_limit_on_the_files_size_is_a_full_disk(path: Path) -> None:
    note_down(path, *range(1, 6))
    before = path.read_bytes()
    script = (
        "import resource, sys\n"
        "from pathlib import Path\n"
        f"sys.path.insert(0, {str(TESTS)!r})\n"
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({len(before) + 20}, {len(before) + 20}))\n"
        "from crashes import entry\n"
        "from sowtide.garden.journal import held\n"
        "with held(Path(sys.argv[1])) as journal:\n"
        "    journal.append([entry(1, 1)])\n"
    )
    run = subprocess.run(
        [sys.executable, "-B", "-c", script, str(path)], capture_output=True, text=True
    )
    last = run.stderr.splitlines()[-1]
    assert last.endswith("journal.yaml cannot be written: file too large; nothing was written")
    assert path.read_bytes() == before
    note_down(path, 6)  # and no lock is left
    assert noted(path)[-1] == "bush-bean-6"


def test_a_disk_that_cannot_even_be_cleared_leaves_a_line_that_is_stepped_over(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    note_down(path, 1)
    with monkeypatch.context() as patch:
        write = os.write
        calls = iter([20])

        def fails(file: int, data: bytes) -> int:
            for length in calls:
                return write(file, data[:length])
            raise OSError(5, "Input/output error")

        def cannot(*_: object) -> None:
            raise OSError(5, "Input/output error")

        patch.setattr(os, "write", fails)
        patch.setattr(os, "ftruncate", cannot)
        with pytest.raises(Unreadable, match="input/output error; nothing was written"):
            note_down(path, 2)
    assert [problem.code for problem in read_journal(path).problems] == ["journal-broken"]
    note_down(path, 3)
    assert noted(path) == ["bush-bean-1", "bush-bean-3"]


def test_a_folder_that_cannot_be_written_to_gets_a_clear_line(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> int:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", refuse)
    with pytest.raises(Unreadable) as raised:
        note_down(path, 1)
    said = f"{path} cannot be written: permission denied; nothing was written"
    assert str(raised.value) == said
    assert not path.exists()


def test_a_pipe_is_not_waited_for(path: Path) -> None:
    os.mkfifo(path)
    with pytest.raises(Unreadable, match="is a pipe or a device, not a file"):
        read_journal(path)


def test_a_folder_is_no_journal(tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match="is a folder, not a file; nothing was written"):
        note_down(tmp_path, 1)


def test_a_file_put_in_its_place_meanwhile_gets_the_entry(path: Path, tmp_path: Path) -> None:
    note_down(path, 1)
    edited = tmp_path / "edited.yaml"
    edited.write_text("# edited\n" + path.read_text())
    with held(path) as journal:
        edited.replace(path)  # as editors save: a new file under the old name
        journal.append([sown(2)])
    assert path.read_text().startswith("# edited\n")
    assert noted(path) == ["bush-bean-1", "bush-bean-2"]


def test_a_file_put_in_its_place_while_waiting_for_it_is_the_one_that_is_held(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    note_down(path, 1)
    edited, lock = tmp_path / "edited.yaml", fcntl.flock
    edited.write_text("# edited\n" + path.read_text())

    def replaced(file: int, how: int) -> None:
        lock(file, how)
        if edited.exists():
            edited.replace(path)

    monkeypatch.setattr(fcntl, "flock", replaced)
    with held(path) as journal:
        read = journal.read()
    assert read.journal is not None
    assert [each.span.line for each in read.journal.happenings] == [3]


def test_who_holds_it_keeps_others_waiting(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sowtide.garden.journal.write_journal._TRIES", 3)
    with held(path) as journal:
        with pytest.raises(Unreadable, match="is being written by another program"):
            note_down(path, 2)
        journal.append([sown(1)])
    note_down(path, 3)
    assert noted(path) == ["bush-bean-1", "bush-bean-3"]


def test_what_is_read_while_it_is_held_is_what_stands_there(path: Path) -> None:
    note_down(path, 1)
    with held(path) as journal:
        journal.append([sown(2)])
        assert journal.read() == journal_of(path.read_bytes(), str(path))


@pytest.mark.skipif(not hasattr(os, "fork"), reason="writers are forked")
def test_writers_that_are_killed_or_many_lose_nothing() -> None:
    asked = ["--kills", "60", "--writers", "8", "--entries", "40"]
    run = subprocess.run(
        [sys.executable, "-B", str(TESTS / "crashes.py"), *asked], capture_output=True, text=True
    )
    assert (run.returncode, run.stderr, run.stdout) == (0, "", "")


def test_where_files_cannot_be_locked_an_entry_is_written_all_the_same(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(fcntl, "flock", refuse)
    monkeypatch.setattr("sowtide.garden.journal.write_journal._TRIES", 2)
    note_down(path, 1)
    note_down(path, 2)
    assert noted(path) == ["bush-bean-1", "bush-bean-2"]
