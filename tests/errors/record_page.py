"""The page of what can be wrong with a record, made from the case files in ``records``.

A case is written as those of a garden's file are, see `page`: the text of the record, the line
``# expected``, and exactly what sowtide says when a garden's file names it. First lines may say

- ``# file: …``: its name, station.csv unless set,
- ``# saved as: …``: how the text is turned into bytes, see `SAVED_AS`,
- ``# beside: …``: what stands beside it in the garden's file, such as ``unit: °F``,
- ``# units: us``: those of the garden's file, metric unless set.

    python tests/errors/update.py  # after a change of words; then read the diff
"""

from __future__ import annotations

import gzip
from calendar import monthrange
from collections.abc import Callable
from contextlib import chdir
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from errors import page
from sowtide.report.blocks import plain
from sowtide.report.formats.terminal.problem_lines import lines
from sowtide.season import Loaded, load


def _every_day(text: str) -> bytes:
    """Turn rows of first days of months into rows of all days; other rows stay as they are."""
    head, *rows = text.splitlines()
    days = [head]
    for row in rows:
        first, rest = date.fromisoformat(row[:10]), row[10:]
        length = monthrange(first.year, first.month)[1] if first.day == 1 else 0
        if not length:
            days.append(row)
        days += [f"{first.replace(day=day)}{rest}" for day in range(1, length + 1)]
    return "\n".join([*days, ""]).encode()


def _filled(text: str) -> bytes:
    last = text.encode().splitlines(keepends=True)[-1]
    return text.encode() + last * (100_000_000 // len(last))


SAVED_AS: dict[str, Callable[[str], bytes]] = page.SAVED_AS | {
    "gzip": lambda text: gzip.compress(text.encode(), mtime=0),
    "gzip, its last bytes missing": lambda text: gzip.compress(text.encode(), mtime=0)[:-12],
    "a spreadsheet": lambda text: b"PK\x03\x04" + text.encode(),
    "UTF-8, the line of the first on every day of its month": _every_day,
    "UTF-8, 200,000 sevens for the ¤": lambda text: text.replace("¤", "7" * 200_000).encode(),
    "UTF-8, its last line again and again up to 100 MB": _filled,
}
"""Ways to turn a case's text into bytes."""

NOTHING, FOLDER = "nothing", "a folder"
"""What else may stand in the place of the file."""

MEANING = {
    "record": "The file that the garden's file names is not there, or cannot be opened. What is "
    "wrong with the naming itself stands in [Error messages](errors.md#record).",
    "record-cells": "A row has more or fewer cells than the line of names at the head.",
    "record-date": "A date is not written so that it can be only one day, or no calendar has it.",
    "record-duplicate": "A day stands there for the second time. Which of its readings is right, "
    "sowtide cannot know.",
    "record-empty": "There is no day in the file.",
    "record-gap": "A note: the lines of a year or more are not there. A station may have been "
    "closed; or one of the files that this one was put together from was left out.",
    "record-header": "No line at the head names the columns, or not all that is needed, or two of "
    "them could be one.",
    "record-line": "A line of the archive's fixed-width form is cut short or of another kind.",
    "record-more": "There are more problems than are shown, the first ten. A file with ten "
    "thousand errors is read no further.",
    "record-number": "Something else stands where a temperature belongs.",
    "record-order": "A day stands below a later one.",
    "record-quote": "A cell begins with a quote that is not closed behind it.",
    "record-stations": "The file holds readings of more than one station.",
    "record-text": "The file is not a text, or a damaged one.",
    "record-unit": "The temperatures cannot be in the unit that is named, or nothing says which "
    "they are in. Nothing is guessed: 28 may be a frosty night in °F and a hot day in °C.",
    "record-wild": "A warning: a day that cannot be is left out. Where they are more than one in a "
    "hundred, it is an error: something is wrong with the whole file.",
    "record-years": "The record has no spring or no autumn of which it could be said when frost "
    "came: it is too short, has too many gaps, or has none of the years that are wanted.",
}
"""What each code means, in a sentence."""

_HERE = Path(__file__).parent / "records"
_HEAD = """\
# What can be wrong with a record

<!-- made by tests/errors/record_page.py from the cases in tests/errors/records; do not edit -->

A [record](records.md) is read whole, and its mistakes are shown as those of a
[garden's file](errors.md) are: file, line and column, what is wrong, a code in brackets, the line
itself, and what to do. Of many the first ten are shown. While there is an error, no command does
anything else, and the exit status is 1. Below are the codes, each with what is said to an example;
the first example of each is shown whole. The record is named by a garden's file of `metric` units
as `frost: {record: station.csv}`, unless something else is said.
"""
_GARDEN = """\
site:
  name: Mill Bank
  latitude: 43.1
  units: UNITS
  frost: {record: NAMED}
season: 2026
beds:
  - {bed: North, size: 4 x 20}
waves:
  - {crop: bush bean, plants: 30, from: earliest}
"""


@dataclass(frozen=True, slots=True)
class Case:
    """One mistake in a record and what is said to it.

    Parameters
    ----------
    name
        The code, with a word more where there are several.
    file
        What the record is called.
    text
        What stands in it.
    saved_as
        How it is turned into bytes; None for plain UTF-8.
    beside
        What stands beside it in the garden's file; None for nothing.
    units
        Of the garden's file.
    expected
        What sowtide says.
    """

    name: str
    file: str
    text: str
    saved_as: str | None
    beside: str | None
    units: str
    expected: str

    @property
    def code(self) -> str:
        """The code it is a case of."""
        return page.code_of(self.name, MEANING)

    @property
    def path(self) -> Path:
        """Where the case is written down."""
        return _HERE / f"{self.name}.txt"

    def loaded(self, folder: Path) -> Loaded:
        """Write the record and a garden's file that names it into an empty folder, and read them.

        Parameters
        ----------
        folder
            The folder.
        """
        if self.saved_as == FOLDER:
            (folder / self.file).mkdir()
        elif self.saved_as != NOTHING:
            save = SAVED_AS[self.saved_as] if self.saved_as else str.encode
            (folder / self.file).write_bytes(save(self.text))
        named = self.file if self.beside is None else f"{self.file}, {self.beside}"
        garden = _GARDEN.replace("UNITS", self.units).replace("NAMED", named)
        (folder / "garden.yaml").write_text(garden, encoding="utf-8")
        with chdir(folder):
            return load(Path("garden.yaml"))


def said(loaded: Loaded) -> str:
    """Return what is printed of the problems."""
    return "".join(f"{line}\n" for each in loaded.problems for line in plain(lines(each)))


def cases() -> list[Case]:
    """Return all cases in order of name."""
    return [
        Case(
            path.stem,
            given.get("file", "station.csv"),
            text,
            given.get("saved as"),
            given.get("beside"),
            given.get("units", "metric"),
            expected,
        )
        for path, given, text, expected in page.written(
            _HERE, "file", "saved as", "beside", "units"
        )
    ]


def record_page() -> str:
    """Return the page."""
    examples = [
        page.Example(
            case.code,
            _before(case),
            f"```text\n{case.text}```\n" if case.text.strip() else "",
            case.expected,
        )
        for case in cases()
    ]
    return "\n".join([_HEAD, *page.sections(MEANING, examples)])


def _before(case: Case) -> str:
    """Say what is not to be seen in the text of a record."""
    parts = []
    if case.saved_as is not None:
        there = {NOTHING: "no such file is there", FOLDER: "a folder of that name is there"}
        parts.append(there.get(case.saved_as, f"saved as {case.saved_as}"))
    elif not case.text.strip():
        parts.append("an empty file")
    if case.file != "station.csv":
        parts.append(f"named `{case.file}`")
    if case.beside is not None:
        parts.append(f"with `{case.beside}` beside it in the garden's file")
    if case.units != "metric":
        parts.append(f"named by a garden's file of `{case.units}` units")
    text = ", ".join(parts)
    return f"{text[:1].upper()}{text[1:]}:" if text else ""
