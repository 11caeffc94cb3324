"""The page of the problems of a plan, made from the rules and from the case files beside this file.

A case file holds a garden, then the line ``# expected``, then exactly what sowtide says to its
plan. Its name is the problem's code, with a word more where a code has several cases. First lines
may say

- ``# today: …``: the day it is looked at from, 1 January of its year unless set,
- ``# beside: …``: a record to lie beside it, see `BESIDE`.

    python tests/errors/update.py  # after a change of words; then read the diff
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import chdir
from dataclasses import dataclass
from datetime import date, timedelta
from importlib import import_module
from pathlib import Path
from tempfile import TemporaryDirectory

from errors import page
from sowtide.diagnostics import Problem
from sowtide.report.blocks import plain
from sowtide.report.formats.terminal.problem_lines import lines
from sowtide.schedule.checks import rules
from sowtide.season import load, season_of


def _station() -> str:
    """Write twenty years with a last frost on 20 April and a first one on 20 October."""
    rows = ["date,tmax,tmin"]
    day = date(2000, 1, 1)
    while day.year < 2020:
        winter = not (4, 20) < (day.month, day.day) < (10, 20)
        rows.append(f"{day},{8 if winter else 20},{-5 if winter else 9}")
        day += timedelta(days=1)
    return "\n".join([*rows, ""])


BESIDE = {"station.csv": _station}
"""Records that a garden may name."""

_USUAL_DAY = date(2026, 1, 1)
_HERE = Path(__file__).parent
_HEAD = """\
# Problems of a plan

<!-- made by tests/checks/problems_page.py from the rules and their cases; do not edit -->

What a garden's file asks for may be well written and still not come true. `sowtide check` says all
of it, `plan` and `week` what concerns them; it stops no command. An error is something that cannot
come true, a warning something to look at, a note worth knowing. Below are the codes, each with what
is said to an example; the first example of each is shown whole.
"""


@dataclass(frozen=True, slots=True)
class Case:
    """One problem of a plan and what is said to it.

    Parameters
    ----------
    path
        Where the case is written down.
    text
        What stands in the garden's file.
    today
        The day it is looked at from.
    beside
        The record that lies beside it, or None.
    expected
        What sowtide says.
    """

    path: Path
    text: str
    today: date
    beside: str | None
    expected: str

    @property
    def code(self) -> str:
        """The code it is a case of; empty where there is no such rule."""
        return page.code_of(self.path.stem, [rule.code for rule in rules()])

    @property
    def before(self) -> str:
        """What the page says in front of the file; empty where there is nothing to say."""
        if self.beside:
            return "Beside it lies a record with a last frost on 20 April, a first on 20 October:"
        return "" if self.today == _USUAL_DAY else f"Looked at on {self.today}:"

    def problems(self) -> tuple[Problem, ...]:
        """Return what is wrong with its plan."""
        with TemporaryDirectory() as folder, chdir(folder):
            file = Path("garden.yaml")
            file.write_text(self.text, encoding="utf-8")
            if self.beside:
                Path(self.beside).write_text(BESIDE[self.beside](), encoding="utf-8")
            loaded = load(file)
        assert loaded.garden is not None, [each.message for each in loaded.problems]
        return season_of(loaded.garden, self.today, loaded.record).problems


def cases() -> list[Case]:
    """Return all cases in order of name."""
    usual = str(_USUAL_DAY)
    return [
        Case(path, text, date.fromisoformat(given.get("today", usual)), given.get("beside"), said)
        for path, given, text, said in page.written(_HERE, "today", "beside")
    ]


def said(problems: tuple[Problem, ...]) -> str:
    """Return problems as they are printed."""
    return "".join(f"{line}\n" for each in problems for line in plain(lines(each)))


def meanings() -> Iterator[tuple[str, str]]:
    """Yield each code with what it means: how grave it is, and what the rule's own file says."""
    for rule in rules():
        means = import_module(rule.check.__module__).__doc__ or ""
        yield rule.code, f"{rule.level.value.capitalize()}. {' '.join(means.split())}"


def problems_page() -> str:
    """Return the page."""
    examples = [
        page.Example(
            case.code,
            case.before,
            f"```yaml\n{case.text}```\n",
            case.expected,
        )
        for case in cases()
    ]
    return "\n".join([_HEAD, *page.sections(dict(meanings()), examples)])
