"""Saying what takes so long: on a terminal, where a step takes more than a second."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:  # threads are only started on a terminal
    from threading import Event

PATIENCE = 1.0
"""How long a step may take before it is said. [s]"""

_STEP = 0.5


@contextmanager
def working(what: str) -> Iterator[None]:
    """Show what is being done and for how long, once it takes more than a second.

    The line is wiped off again. Nothing is shown where stderr is no terminal.

    Parameters
    ----------
    what
        What is being done: ``reading garden.yaml``.
    """
    if not sys.stderr.isatty():
        yield
        return
    from threading import Event, Thread

    done = Event()
    shown = Thread(target=_show, args=(what, done, sys.stderr), daemon=True)
    shown.start()
    try:
        yield
    finally:
        done.set()
        shown.join()


def _show(what: str, done: Event, screen: TextIO) -> None:
    """Write the line anew every half second until it is done, and wipe it off."""
    waited, text = PATIENCE, ""
    if done.wait(waited):
        return
    while True:
        text = f"sowtide: {what}, {waited:.0f} s"
        screen.write(f"\r{text}")
        screen.flush()
        if done.wait(_STEP):
            break
        waited += _STEP
    screen.write(f"\r{' ' * len(text)}\r")
    screen.flush()
