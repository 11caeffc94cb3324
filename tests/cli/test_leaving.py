"""What the system does to a run is no fault of sowtide's: how it leaves, and what behind."""

from __future__ import annotations

import errno
import os
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from sowtide.__main__ import main

MARKET = Path(__file__).parents[2] / "examples/market-garden/garden.yaml"
FULL = Path("/dev/full")
"""A device on which every write finds the disk full."""
NO_SPACE = os.strerror(errno.ENOSPC).lower()
BUFFERED = {**os.environ, "PYTHONUNBUFFERED": ""}
"""As in a grower's shell: what could not be written is tried again when Python ends."""

pytestmark = pytest.mark.skipif(os.name != "posix", reason="redirections of a POSIX shell")
needs_full = pytest.mark.skipif(not FULL.exists(), reason=f"no {FULL} here")


def shell(script: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run a line of shell in which `sowtide` is the program."""
    program = f"{shlex.quote(sys.executable)} -m sowtide"
    return subprocess.run(
        ["sh", "-c", script.replace("sowtide", program)],
        capture_output=True,
        text=True,
        env={**BUFFERED, **environment},
        check=False,
    )


@needs_full
@pytest.mark.parametrize(
    "command", ["week --demo", "plan --demo --format json", "check --demo", "crops", "--help"]
)
def test_a_full_disk_is_said_in_one_line(command: str) -> None:
    found = shell(f"sowtide {command} >{FULL}")
    assert (found.returncode, found.stderr) == (2, f"sowtide: Cannot go on: {NO_SPACE}.\n")


@needs_full
def test_where_nothing_can_be_said_the_code_says_it() -> None:
    assert shell(f"sowtide week --demo >{FULL} 2>{FULL}").returncode == 2
    assert shell(f"sowtide week --garden nowhere.yaml 2>{FULL}").returncode == 2


@pytest.mark.parametrize(
    ("redirected", "code"), [("--demo >&-", 0), ("--demo >&- 2>&-", 0), ("--nothing 2>&-", 2)]
)
def test_closed_streams_are_silent(redirected: str, code: int) -> None:
    found = shell(f"sowtide week {redirected}")
    assert (found.returncode, found.stdout, found.stderr) == (code, "", "")


def test_a_reader_that_has_seen_enough() -> None:
    # 450 kB are more than a pipe holds: they are still being written when nobody reads any more.
    command = [sys.executable, "-m", "sowtide", "plan", "--garden", str(MARKET), "--format", "json"]
    with subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=BUFFERED,
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.readline()
        running.stdout.close()
        assert running.stderr.read() == b""
        assert running.wait() == 141


@pytest.mark.parametrize("arguments", [["--help"], ["week", "--help"], ["week", "--demo"]])
def test_a_reader_that_was_never_there(arguments: list[str]) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    command = [sys.executable, "-m", "sowtide", *arguments]
    found = subprocess.run(
        command, stdout=writing, stderr=subprocess.PIPE, env=BUFFERED, check=False
    )
    os.close(writing)
    assert (found.returncode, found.stderr) == (141, b"")


INTERRUPTING = """
import os, signal
signal.signal(signal.SIGINT, signal.default_int_handler)
os.kill(os.getpid(), signal.SIGINT)
"""
"""An interrupt, also where the run was started in the background and ignores it from the start."""


@pytest.mark.parametrize("module", ["click", "yaml"])
def test_an_interrupt_leaves_no_traceback_even_while_modules_are_loaded(
    module: str, tmp_path: Path
) -> None:
    (tmp_path / f"{module}.py").write_text(INTERRUPTING, encoding="utf-8")
    found = shell("sowtide week --demo", PYTHONPATH=str(tmp_path))
    assert (found.returncode, found.stdout, found.stderr.strip()) == (130, "", "")


def test_a_file_that_vanishes_while_it_is_read(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def vanished(*_: object) -> None:
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), "station.csv")

    code, err = _in_here(monkeypatch, capsys, vanished)
    assert (code, err.count("\n")) == (2, 1)
    assert err.startswith("sowtide: Cannot go on: station.csv: ")


def test_too_little_memory(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def exhausted(*_: object) -> None:
        raise MemoryError

    assert _in_here(monkeypatch, capsys, exhausted) == (
        2,
        "sowtide: Cannot go on: there is not enough memory.\n",
    )


def _in_here(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], load: Callable[..., None]
) -> tuple[object, str]:
    """Run the program in this process with another way to read a garden."""
    monkeypatch.setattr("sowtide.cli.options.load", load)
    code = _run_here(monkeypatch, "week")
    return code, capsys.readouterr().err


def _run_here(monkeypatch: pytest.MonkeyPatch, *arguments: str) -> object:
    monkeypatch.setattr("gc.disable", lambda: None)
    monkeypatch.setattr("gc.freeze", lambda: None)
    monkeypatch.setattr(sys, "stdout", sys.stdout)  # put back where a run gives it up
    monkeypatch.setattr(sys, "argv", ["sowtide", *arguments])
    with pytest.raises(SystemExit) as left:
        main()
    return left.value.code or 0


# A file to start from


@pytest.fixture
def new(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Callable[[], object]:
    """Run `sowtide new` in an empty folder and return its code."""
    monkeypatch.chdir(tmp_path)
    return lambda: _run_here(monkeypatch, "new", "--today", "2026-05-20")


@pytest.mark.parametrize(
    ("error", "code"), [(KeyboardInterrupt(), 130), (OSError(errno.ENOSPC, NO_SPACE), 2)]
)
def test_new_broken_off_leaves_nothing(
    new: Callable[[], object],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    error: BaseException,
    code: int,
) -> None:
    def fail(_: int) -> None:
        raise error

    with monkeypatch.context() as broken:
        broken.setattr("os.fsync", fail)
        assert new() == code
    assert [*tmp_path.iterdir()] == []
    assert new() == 0
    assert [path.name for path in tmp_path.iterdir()] == ["garden.yaml"]


def test_new_never_replaces_a_file_that_comes_meanwhile(
    new: Callable[[], object], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    link = os.link

    def overtaken(source: Path, target: Path) -> None:
        target.write_text("another's", encoding="utf-8")
        link(source, target)

    monkeypatch.setattr("os.link", overtaken)
    assert new() == 2
    assert [(path.name, path.read_text()) for path in tmp_path.iterdir()] == [
        ("garden.yaml", "another's")
    ]


def test_new_where_files_cannot_be_linked(
    new: Callable[[], object], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: Path) -> None:
        raise PermissionError(errno.EPERM, os.strerror(errno.EPERM))

    assert new() == 0
    usual = (tmp_path / "garden.yaml").read_bytes()
    (tmp_path / "garden.yaml").unlink()
    monkeypatch.setattr("os.link", refuse)
    assert new() == 0
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [
        ("garden.yaml", usual)
    ]


def test_new_leaves_a_link_that_leads_nowhere_alone(
    new: Callable[[], object], tmp_path: Path
) -> None:
    (tmp_path / "garden.yaml").symlink_to("nowhere")
    assert new() == 2
    assert [path.name for path in tmp_path.iterdir()] == ["garden.yaml"]


@pytest.mark.parametrize("typed", ["", "sowtide did --demo q"])
def test_what_is_held_at_the_end_is_left_to_the_system(typed: str) -> None:
    """Looking for what could be freed would take longer than to complete a line."""
    script = (
        "import atexit, gc, sys\n"
        "atexit.register(lambda: print(gc.get_freeze_count() > 1000, file=sys.stderr))\n"
        "sys.argv = ['sowtide', 'week', '--demo']\n"
        "from sowtide.__main__ import main; main()"
    )
    completing = {"_SOWTIDE_COMPLETE": "zsh_complete", "COMP_WORDS": typed, "COMP_CWORD": "3"}
    found = subprocess.run(
        [sys.executable, "-c", script],
        capture_output=True,
        text=True,
        env={**BUFFERED, **(completing if typed else {})},
        check=True,
    )
    assert found.stderr == "True\n"
    assert ("qsgf" in found.stdout) or not typed
