"""What takes long is said on a terminal, and only there."""

from __future__ import annotations

import io
import threading
from time import sleep
from types import SimpleNamespace

import pytest

from sowtide.cli import progress


class Terminal(io.StringIO):
    """A screen that says it is one."""

    def isatty(self) -> bool:
        return True


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Terminal:
    found = Terminal()
    monkeypatch.setattr(progress, "sys", SimpleNamespace(stderr=found))
    monkeypatch.setattr(progress, "PATIENCE", 0.05)
    monkeypatch.setattr(progress, "_STEP", 0.05)
    return found


def test_a_long_step_is_said_and_wiped_off_again(screen: Terminal) -> None:
    with progress.working("reading station.csv"):
        for _ in range(200):
            if screen.getvalue():
                break
            sleep(0.01)
    said = screen.getvalue().split("\r")
    assert said[0] == ""
    assert said[1].startswith("sowtide: reading station.csv, ")
    assert said[1].endswith(" s")
    assert said[-2].strip() == ""
    assert len(said[-2]) == len(said[-3])
    assert said[-1] == ""


def test_a_short_step_is_not_said(screen: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(progress, "PATIENCE", 60)
    with progress.working("reading"):
        pass
    assert screen.getvalue() == ""
    assert threading.active_count() == 1


def test_a_step_that_fails_is_wiped_off_too(
    screen: Terminal, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(progress, "PATIENCE", 0.01)
    with pytest.raises(ValueError, match="broken"), progress.working("reading"):
        _fail(screen)
    assert screen.getvalue().endswith("\r")
    assert threading.active_count() == 1


def _fail(screen: Terminal) -> None:
    for _ in range(200):
        if screen.getvalue():
            break
        sleep(0.01)
    raise ValueError("broken")


def test_nothing_is_said_where_stderr_is_no_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    pipe = io.StringIO()
    monkeypatch.setattr(progress, "sys", SimpleNamespace(stderr=pipe))
    monkeypatch.setattr(progress, "PATIENCE", 0.0)
    before = threading.active_count()
    with progress.working("reading"):
        assert threading.active_count() == before
        sleep(0.05)
    assert pipe.getvalue() == ""
