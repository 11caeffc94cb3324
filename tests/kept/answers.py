"""Kept answers: small gardens full of edges, and what sowtide says to questions about them.

    python tests/kept/answers.py --update [NAME]...  # then read the difference

``NAME.yaml`` is a garden that says in its comments which edges it is made for, ``NAME.txt`` holds
the questions, each a line that begins with ``$ ``, and below each what is answered. A new question
is written into that file and answered by ``--update``. They are asked in a folder where the garden
is ``garden.yaml``, what else is called ``NAME-FILE`` is FILE (such as the journal), and the small
files stand that are parted in ``NAME.files`` by lines ``==== FILE``.

An answer is kept as it is printed, but for what would hide a difference in it:

- JSON is set anew, a value a line or a few, and what is null, false or empty is left out;
- of a page of HTML what stands in its body is kept, the style of all pages not;
- ``COLUMNS=60`` before a command sets the width, which is 80 without it;
- ``{radish,kale}`` and ``{08..12}`` ask once for each, as in a shell; of a range the first answer
  is kept whole, of the others what is new (+) and what is gone with nothing in its place (-), so
  that it shows on which day, or at which degree, something begins and ends;
- lines that stand above in the same file are not kept again, only how many they are;
- a command that leaves with another code than 0 says so in a last line.
"""

from __future__ import annotations

import json
import re
import shutil
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from difflib import unified_diff
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from docs_blocks import Command, Folder
from made_years import weather

HERE = Path(__file__).parent
_WIDE = 100
_ROW = 4
"""So many short values stand in one line."""
_RUN = 4
"""So many lines in a row, at least, are not kept again."""


def _hills() -> Iterator[tuple[date, float, float]]:
    """Thirteen invented years, with a week missing in the spring of one. [°C]"""
    for number, (low, high) in enumerate(zip(*weather(), strict=True)):
        day = date(2009, 11, 3) + timedelta(days=number)
        if not date(2015, 4, 20) <= day < date(2015, 4, 27):
            yield day, round(low, 1), round(high, 1)


def _table(head: str, row: Callable[[date, float, float], str]) -> Callable[[], str]:
    return lambda: "\n".join([head, *(row(*each) for each in _hills()), ""])


def _lines_of_months() -> str:
    """The years in the fixed width of the daily archive: a line for each month and element."""
    months: dict[tuple[int, int], dict[int, tuple[float, float]]] = {}
    for day, low, high in _hills():
        months.setdefault((day.year, day.month), {})[day.day] = (low, high)
    return "".join(
        f"XX000000001{year}{month:02}{element}"
        + "".join(
            f"{round(days[day][which] * 10):5}  X" if day in days else "-9999   "
            for day in range(1, 32)
        )
        + "\n"
        for (year, month), days in months.items()
        for which, element in ((1, "TMAX"), (0, "TMIN"))
    )


RECORDS: dict[str, Callable[[], str]] = {
    "hills.csv": _table("date,tmin (°C),tmax (°C)", lambda d, low, h: f"{d},{low},{h}"),
    "minima.csv": _table("date,tmin (°C)", lambda d, low, h: f"{d},{low}"),
    "hills.dly": _lines_of_months,
    "tenths.csv": _table(
        '"STATION","DATE","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"',
        lambda d, low, h: (
            f'"X1","{d}","{h * 10:5.0f}",",,X","{low * 10:5.0f}",'
            f'",{"I" if (d.month, d.day) == (7, 1) else ""},X"'
        ),
    ),
    "fahrenheit.csv": _table(
        "day;min;max",
        lambda d, low, h: f"{d:%d.%m.%Y};{low * 1.8 + 32:.0f};{h * 1.8 + 32:.0f}",
    ),
    "commas.csv": _table(
        "Datum;Low [°C];High [°C]",
        lambda d, low, h: f"{d:%Y/%m/%d};{low};{h if d.day % 9 else ''}".replace(".", ","),
    ),
    "parts.csv": _table(
        "Year,Month,Day,Minimum temperature (Degree C)",
        lambda d, low, h: f"{d:%Y,%m,%d},{low if d.month > 1 else -9999}",
    ),
}
"""The records that a garden may name."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A garden with its questions and the answers that are kept."""

    name: str

    @property
    def path(self) -> Path:
        """Where its questions and answers stand."""
        return HERE / f"{self.name}.txt"

    @property
    def text(self) -> str:
        """The questions and answers as they are kept."""
        return self.path.read_text(encoding="utf-8")

    def answered(self) -> str:
        """Return the questions with the answers of now."""
        head, *asked = re.split(r"(?m)^\$ ", self.text)
        questions = [each.partition("\n")[0] for each in asked]
        with TemporaryDirectory() as name:
            folder = Path(name)
            for file in HERE.glob(f"{self.name}[.-]*"):
                of_it = file.name.removeprefix(f"{self.name}-").replace(self.name, "garden")
                if file.suffix == ".files":
                    _, *parts = re.split(r"(?m)^==== (\S+)\n", file.read_text(encoding="utf-8"))
                    for part, text in zip(parts[::2], parts[1::2], strict=True):
                        (folder / part).write_text(text, encoding="utf-8")
                elif file != self.path:
                    shutil.copy(file, folder / of_it)
                for record in re.findall(r"record: (\w+\.\w+)", file.read_text(encoding="utf-8")):
                    if record in RECORDS:
                        (folder / record).write_text(RECORDS[record](), encoding="utf-8")
            answers = [self._answer(each, folder) for each in questions]
        parts = [f"$ {each}\n{said}" for each, said in zip(questions, answers, strict=True)]
        return head + "".join(f"{line}\n" for line in _once("\n".join(parts).splitlines()))

    def _answer(self, line: str, folder: Path) -> str:
        asked = list(_each(line))
        before, *others = [self._answer_to(each, folder) for each, _ in asked]
        told = [before]
        for (_, which), now in zip(asked[1:], others, strict=True):
            told.append(f"{{{which}}}\n")
            told += [f"{each}\n" for each in _new(before, now)] if which.isdigit() else [now]
            before = now
        return "".join(told)

    def _answer_to(self, line: str, folder: Path) -> str:
        width, ours, rest = line.rpartition("sowtide ")
        place = Folder(folder, columns=int(width.removeprefix("COLUMNS=") or 80))
        said = "\n".join(place.run(Command(ours + rest, 0, ())))
        if "--format json" in line or rest.startswith("schema"):
            warned, brace, data = said.partition("{\n")
            said = warned + "\n".join(_set(json.loads(brace + data), "")) if brace else said
        elif "--format html" in line:
            said = _drawn(said)
        left = f"exit {place.exit_code}\n" if place.exit_code else ""
        return f"{said}\n{left}" if said else left


def kept() -> list[Kept]:
    """Return all gardens with kept answers, in order of name."""
    return [Kept(path.stem) for path in sorted(HERE.glob("*.txt"))]


def difference(before: str, after: str, *, most: int = 60) -> str:
    """Return where two texts differ, shortly: the lines with the question that they answer."""
    kept_lines = before.splitlines()
    told: list[str] = []
    for each in _changed(before, after):
        at = re.match(r"@@ -(\d+)", each)
        above = [line for line in kept_lines[: int(at[1])] if line.startswith("$ ")] if at else []
        told += above[-1:] if at else [each]
    asked = [n for n, each in enumerate(told) if each.startswith("$ ")]
    again = {b for a, b in pairwise(asked) if told[a] == told[b]}
    shown = [each for n, each in enumerate(told) if n not in again]
    rest = [f"… and {len(shown) - most} lines more"] if len(shown) > most else []
    return "\n".join([*shown[:most], *rest])


def _changed(before: str, after: str) -> list[str]:
    lines = unified_diff(before.splitlines(), after.splitlines(), n=0, lineterm="")
    return list(lines)[2:]


def _new(before: str, after: str) -> Iterator[str]:
    """Yield the lines that are new, and those that are gone with none in their place."""
    for place in "\n".join(_changed(before, after)).split("@@ "):
        lines = place.splitlines()[1:] if place.startswith(("-", "+")) else []
        new = [each for each in lines if each.startswith("+")]
        yield from new or lines


def _each(line: str) -> Iterator[tuple[str, str]]:
    """Yield a question for each of what stands in braces, and that."""
    found = re.search(r"\{(?:(\d+)\.\.(\d+)|([^{}]*,[^{}]*))\}", line)
    if found is None:
        yield line, ""
        return
    first, last, listed = found.groups()
    step = 1 if listed or int(last) >= int(first) else -1
    each = listed.split(",") if listed else range(int(first), int(last) + step, step)
    for one in each:
        said = one if listed else f"{one:0{len(first)}}"
        yield line[: found.start()] + str(said) + line[found.end() :], str(said)


def _once(lines: list[str]) -> Iterator[str]:
    """Leave out runs of lines that stand above."""
    known: dict[tuple[str, ...], int] = {}
    at = 0
    while at < len(lines):
        run, from_ = 0, known.get(tuple(lines[at : at + _RUN]))
        while from_ is not None and from_ + run < at and lines[from_ + run] == lines[at + run]:
            run += 1
            if at + run == len(lines):
                break
        for each in range(at, at + max(run, 1)):
            known.setdefault(tuple(lines[each : each + _RUN]), each)
        yield f"… {run} lines as above, from {lines[at].strip()!r}" if run else lines[at]
        at += max(run, 1)


def _set(value: Any, indent: str) -> Iterator[str]:
    """Set a value of JSON in lines: what is short side by side, what is empty not at all."""
    plain = _plain(value)
    if plain is not None and len(plain) + len(indent) <= _WIDE:
        yield indent + plain
    elif isinstance(value, dict):
        short: list[str] = []
        for key, each in value.items():
            said = None if each in (None, False) or each in ([], {}, "") else _plain(each)
            if said is not None and len(said) < _WIDE // _ROW:
                short.append(f"{key}: {said}")
                continue
            if each not in (None, False) and each not in ([], {}, ""):
                yield from _rows(short, indent)
                short = []
                whole = f"{key}: {said}" if said is not None else ""
                if whole and len(whole) + len(indent) <= _WIDE:
                    yield indent + whole
                else:
                    yield f"{indent}{key}:"
                    yield from _set(each, indent + "  ")
        yield from _rows(short, indent)
    elif isinstance(value, list):
        for each in value:
            first, *rest = _set(each, indent + "  ")
            yield f"{indent}- {first.lstrip()}"
            yield from rest
    else:
        yield f"{indent}{plain}"


def _rows(short: list[str], indent: str) -> Iterator[str]:
    for at in range(0, len(short), _ROW):
        yield indent + ", ".join(short[at : at + _ROW])


def _drawn(page: str) -> str:
    """Set a page of HTML with one part of a drawing a line, its grid of weeks once."""
    grids: list[list[str]] = []

    def grid(found: re.Match[str]) -> str:
        across = re.findall(r"M(\S+) ", found[0])
        if across in grids:
            return f"… {len(across)} lines across as above, {found[0].rsplit(' ', 1)[1]}"
        grids.append(across)
        return found[0]

    page = re.sub(r"(?s)<style>.*?</style>\n?", "", page)
    page = re.sub(r'(?:<path class="(?:week|month)" d="M[^"]*"/>)+', grid, page)
    return re.sub(r"(/>|</text>)(?=<)", r"\1\n", page)


def _plain(value: Any) -> str | None:
    """Return a value in a few characters; None where it is too deep for that."""
    if isinstance(value, dict):
        inside = {k: _plain(v) for k, v in value.items() if v not in (None, False, "")}
        if any(v is None for v in inside.values()):
            return None
        return "{" + ", ".join(f"{k}: {v}" for k, v in inside.items()) + "}"
    if isinstance(value, list):
        items = [_plain(each) for each in value]
        return None if None in items else "[" + ", ".join(str(each) for each in items) + "]"
    return value if isinstance(value, str) else json.dumps(value)


def main() -> None:
    """Write the answers anew."""
    if sys.argv[1:2] != ["--update"]:
        sys.exit("usage: python tests/kept/answers.py --update [NAME]...")
    for each in kept():
        if each.name in sys.argv[2:] or not sys.argv[2:]:
            now = each.answered()
            if now != each.text:
                each.path.write_text(now, encoding="utf-8")
                sys.stdout.write(f"{each.path.name}\n")


if __name__ == "__main__":
    main()
