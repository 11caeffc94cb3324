"""Saying what takes so long: on a terminal, where a step takes more than a second."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from sowtide.progress import Progress, unwatched

if TYPE_CHECKING:  # imported where work is long
    from rich.progress import Progress as Bar

PATIENCE = 1.0
"""How long a step may take before it is said. [s]"""

_WIDTH = 20  # [cells]


@contextmanager
def working(what: str) -> Iterator[Progress]:
    """Show what is being done and for how long, once it takes more than a second.

    It is wiped off again. Nothing is shown where stderr is no terminal.

    Parameters
    ----------
    what
        What is being done: ``reading garden.yaml``.

    Yields
    ------
    Progress
        What work that can be counted tells how far it is; a bar then shows that.
    """
    if not sys.stderr.isatty():
        yield unwatched
        return
    from threading import Timer

    waiting = _Waiting(what)
    timer = Timer(PATIENCE, waiting.show)
    timer.daemon = True
    timer.start()
    try:
        yield waiting.tell
    finally:
        timer.cancel()
        timer.join()
        waiting.wipe()


class _Waiting:
    """What is shown of one step."""

    def __init__(self, what: str) -> None:
        self._what = what
        self._bar: Bar | None = None
        self._percent = -1

    def show(self) -> None:
        from rich.console import Console
        from rich.progress import BarColumn, TaskProgressColumn, TextColumn, TimeElapsedColumn
        from rich.progress import Progress as Bar

        from sowtide.report.formats.terminal.cells import shown

        bar = Bar(
            TextColumn("{task.description}", markup=False),
            BarColumn(_WIDTH),
            TaskProgressColumn(),
            TimeElapsedColumn(),
            console=Console(file=sys.stderr),
            transient=True,
            redirect_stdout=False,
            redirect_stderr=False,
        )
        bar.add_task(shown(self._what), total=None)
        bar.tasks[0].start_time = bar.get_time() - PATIENCE
        self._bar = bar
        bar.start()

    def tell(self, done: int, total: int) -> None:
        percent = 100 * done // max(total, 1)
        if self._bar is not None and percent != self._percent:
            self._percent = percent
            self._bar.update(self._bar.task_ids[0], completed=percent, total=100)

    def wipe(self) -> None:
        if self._bar is not None:
            self._bar.stop()
