"""What takes long is said on a terminal, and only there; the engine tells how far it is."""

from __future__ import annotations

import io
import threading
from itertools import pairwise
from time import sleep
from types import SimpleNamespace

import pytest

import gardens
from sowtide.cli import waiting
from sowtide.progress import unwatched
from sowtide.schedule.fits import BedQuestion, what_fits
from sowtide.schedule.packing import repacked
from sowtide.schedule.season import Season
from sowtide.season import DEMO_TODAY, load_demo, season_of

HIDE, SHOW = "\x1b[?25l", "\x1b[?25h"
"""What hides a terminal's cursor and shows it again."""


class Terminal(io.StringIO):
    """A screen that says it is one."""

    def isatty(self) -> bool:
        return True

    def wait_for(self, text: str) -> bool:
        """Whether a text comes to be shown."""
        for _ in range(500):
            if text in self.getvalue():
                return True
            sleep(0.01)
        return False


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Terminal:
    found = Terminal()
    monkeypatch.setattr(waiting, "sys", SimpleNamespace(stderr=found))
    monkeypatch.setattr(waiting, "PATIENCE", 0.01)
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setenv("COLUMNS", "80")
    return found


def test_a_long_step_is_said_and_wiped_off_again(screen: Terminal) -> None:
    with waiting.working("reading station.csv"):
        assert screen.wait_for("reading station.csv ")
        assert screen.wait_for("0:00:0")
    shown = screen.getvalue()
    assert shown.startswith(HIDE)
    assert "%" not in shown
    assert "\x1b[2K" in shown.rpartition(SHOW)[2]


def test_what_can_be_counted_shows_how_far_it_is(screen: Terminal) -> None:
    with waiting.working("trying every crop") as progress:
        assert screen.wait_for("trying every crop ")
        progress(0, 75)
        assert screen.wait_for(" 0%")
        progress(30, 75)
        assert screen.wait_for(" 40%")


def test_a_short_step_is_not_said(screen: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(waiting, "PATIENCE", 60)
    before = set(threading.enumerate())
    with waiting.working("reading") as progress:
        progress(1, 2)
    assert screen.getvalue() == ""
    assert set(threading.enumerate()) <= before


def test_a_step_that_fails_is_wiped_off_too(screen: Terminal) -> None:
    with pytest.raises(ValueError, match="broken"), waiting.working("reading"):
        _fail(screen)
    assert "\x1b[2K" in screen.getvalue().rpartition(SHOW)[2]


def _fail(screen: Terminal) -> None:
    assert screen.wait_for("reading")
    raise ValueError("broken")


def test_nothing_is_said_where_stderr_is_no_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    pipe = io.StringIO()
    monkeypatch.setattr(waiting, "sys", SimpleNamespace(stderr=pipe))
    monkeypatch.setattr(waiting, "PATIENCE", 0.0)
    before = set(threading.enumerate())
    with waiting.working("reading") as progress:
        assert progress is unwatched
        assert set(threading.enumerate()) <= before
        sleep(0.05)
    assert pipe.getvalue() == ""


class Told:
    """Whoever waits, and what the engine said."""

    def __init__(self) -> None:
        self.shares: list[float] = []

    def __call__(self, done: int, total: int) -> None:
        self.shares.append(done / total)

    def assert_grew(self, *, until: float) -> None:
        assert self.shares == sorted(self.shares)
        assert 0 <= self.shares[0] < 0.3
        assert until < self.shares[-1] <= 1

    def assert_is_even(self) -> None:
        steps = [after - before for before, after in pairwise(self.shares)]
        assert max(steps) < 0.15


@pytest.fixture(scope="module")
def demo() -> Season:
    garden = load_demo().garden
    assert garden is not None
    return season_of(garden, DEMO_TODAY)


def test_planning_tells_how_much_of_the_year_is_filled(demo: Season) -> None:
    told = Told()
    # From the garlic of October before to spinach in August, of a year that ends in December.
    assert season_of(demo.garden, DEMO_TODAY, progress=told).waves == demo.waves
    told.assert_grew(until=0.6)


def test_packing_tells_how_many_places_it_has_looked_at() -> None:
    # Three waves of six plants in a bed of ten: two are left out, and looked for to the end.
    waves = [gardens.wave(name=name, start="06-01", plants="6") for name in "ABC"]
    crowded = gardens.season(gardens.text(*waves))
    told = Told()
    assert repacked(crowded, progress=told).waves == repacked(crowded).waves
    told.assert_grew(until=0.95)
    told.assert_is_even()


def test_looking_for_what_fits_tells_how_many_crops_were_tried(demo: Season) -> None:
    told = Told()
    what_fits(demo, BedQuestion(demo.garden.beds[0], on=None, seedlings=False), progress=told)
    told.assert_grew(until=0.95)
    assert len(told.shares) > 70
