"""Mutated gardens, records and options through every command: what it does to whole runs.

    .venv/bin/python tests/mutations/mutate.py 2000 --seed 7

Each run takes a garden of ours, changes some of it by chance, asks a command something by chance,
and looks at what comes of it: the exit code is 0, 1 or 2, never 3, whatever stands in the file;
nothing that a terminal obeys is printed, no line is wider than the screen unless one word is, and
what other programs read can be read. The same seed makes the same runs. What it finds is printed,
and the files that made it are kept.
"""

from __future__ import annotations

import argparse
import csv
import io
import json
import re
import sys
from collections.abc import Iterator, Sequence
from contextlib import chdir, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from datetime import date, timedelta
from math import cos, pi
from pathlib import Path
from random import Random
from tempfile import mkdtemp
from unittest.mock import patch

from rich.cells import cell_len

from sowtide.cli import main
from sowtide.garden.starter import Start, starter_text

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "src" / "sowtide" / "demo" / "garden.yaml"
ALLOTMENT = ROOT / "examples" / "allotment" / "garden.yaml"
FROST = "{last: 05-06, first: 10-01}"
WARMTH = ", normals: {max: [27, 31, 42, 57, 69, 78, 82, 80, 72, 59, 44, 32], "
WARMTH += "min: [11, 14, 24, 35, 46, 56, 60, 58, 50, 38, 28, 17]}}"
COLUMNS = (60, 80, 120)
ODD = (
    *("", "0", "-1", "1", "3.5", "1e3", "010", "nan", "inf", "²", "4²", "٣", "9" * 30, "½", "yes"),
    *(
        "no",
        "none",
        "all year",
        "earliest",
        "last safe",
        "02-29",
        "02-30",
        "12-31",
        "01-01",
        "07-01",
    ),
    *(
        "2026-07-01",
        "2027-02-28",
        "W31",
        "W53",
        "1900",
        "2200",
        "2026",
        "07-01..08-20",
        "80%",
        "99%",
    ),
    *(
        "14 days",
        "0 days",
        "14 always",
        "4 x 20",
        "1 x 1",
        "10000 x 10000",
        "50-60",
        "60-50",
        "1-1000",
    ),
    *(
        "bush bean",
        "garlic",
        "lettuce",
        "pea",
        "tomato",
        "winter rye",
        "=1+1",
        "@x",
        "'",
        '"',
        "#",
        "- ",
    ),
    *("{", "}", "[", "]", ": ", "&a ", "*a", "!t ", "|", ">", "\t", "\x1b[31m", "\u202e", "\u200b"),
    *(
        "\ufeff",
        "\x00",
        "\x85",
        "床" * 30,
        "e\u0301" * 20,
        "x" * 300,
        "never",
        "metric",
        "us",
        "-60",
        "60",
    ),
    *(
        "1000000",
        "366",
        "{10%: 05-20, 50%: 05-08, 90%: 04-20}",
        "[a, b]",
        "{}",
        "[]",
        "trays",
        "either",
    ),
)
DAYS = ("2026-01-01", "2026-02-28", "2026-07-01", "2026-07-16", "2026-12-31", "2025-12-31")
DAYS += ("2027-03-01", "1900-01-01", "2200-12-31", "2024-02-29", "9999-12-31", "0001-01-01", "x")


@dataclass(frozen=True)
class Case:
    """A garden's file as it was changed, and what is asked of it."""

    text: str
    record: str | None
    command: tuple[str, ...]
    columns: int


@dataclass(frozen=True)
class Outcome:
    """How a run left, and what it printed."""

    code: int
    out: str
    err: str


def cases(number: int, seed: int, commands: Sequence[str] = ()) -> Iterator[Case]:
    """Yield so many cases, the same ones for the same seed.

    Parameters
    ----------
    number
        How many. [1]
    seed
        Of chance.
    commands
        The commands to draw from; all unless given.
    """
    random = Random(seed)
    demo = DEMO.read_text(encoding="utf-8")
    assert FROST in demo
    texts = [demo, ALLOTMENT.read_text(encoding="utf-8"), starter_text(Start(season=2026))]
    texts.append(demo.replace(FROST, FROST[:-1] + WARMTH))
    texts.append(demo.replace(FROST, "{record: station.csv}"))
    record = station()
    for _ in range(number):
        text = random.choice(texts)
        for _ in range(random.choice((0, 1, 1, 1, 2, 3))):
            text = changed(text, random, texts)
        kept = changed(record, random, [record]) if random.random() < 0.5 else record
        named = "station.csv" in text
        command = asked(text, random, commands)
        yield Case(text, kept if named else None, command, random.choice(COLUMNS))


def station() -> str:
    """Return five made-up years of a station: a wave through the year, and noise."""
    random, rows = Random(0), ["date,tmin (°C),tmax (°C)"]
    for number in range(5 * 365):
        day = date(2019, 1, 1) + timedelta(days=number)
        mean = 10 - 13 * cos(2 * pi * (number - 20) / 365.25) + random.gauss(0, 3)
        rows.append(f"{day},{mean - 5:.1f},{mean + 6:.1f}")
    return "\n".join(rows) + "\n"


def changed(text: str, random: Random, others: list[str]) -> str:
    """Return a text with one change: to a sign, to a value, or to whole lines."""
    kind = random.choice((0, 1, 1, 2, 2, 3, 4, *(5,) * 12))
    lines = text.split("\n")
    at = random.randrange(len(lines))
    if kind == 0:
        spot = random.randrange(len(text) + 1)
        return text[:spot] + random.choice(ODD) + text[spot + random.randrange(4) :]
    if kind == 1:
        del lines[at]
    elif kind == 2:
        lines.insert(at, random.choice(lines))
    elif kind == 3:
        lines[at] = random.choice(random.choice(others).split("\n"))
    elif kind == 4:
        indent = random.randrange(9)
        lines[at] = " " * indent + lines[at].lstrip()
    else:  # a value for another one, most often behind a key
        values = [*re.finditer(r"(?<=: )[^\n,{}\[\]#]+|(?<=, )[^\n,{}\[\]#:]+", text)]
        if values:
            old = random.choice(values)
            alike = [each[0] for each in values if _form(each[0]) == _form(old[0])]
            new = random.choice((random.choice(alike), random.choice(alike), random.choice(ODD)))
            return text[: old.start()] + new + text[old.end() :]
    return "\n".join(lines)


def _form(value: str) -> str:
    """Return what kind of value it seems to be: its digits and letters each as one sign."""
    return re.sub("[0-9]+", "0", re.sub("[^\\W\\d]+", "a", value.strip()))


def asked(text: str, random: Random, commands: Sequence[str]) -> tuple[str, ...]:
    """Return a command with options, most of them sensible."""
    crops = re.findall(r"crop: ([\w ]+)", text) or ["bush bean"]
    beds = re.findall(r"bed: ([\w ]+)", text) or ["North"]
    crop, bed = (random.choice((*names, random.choice(ODD))).strip() for names in (crops, beds))
    wave = f"{random.choice(crops).strip().replace(' ', '-')}-{random.randrange(1, 5)}"
    day = random.choice(DAYS if random.random() < 0.1 else DAYS[:6])
    kind = random.choice(
        tuple(commands)
        or ("week", "calendar", "fits", "plan", "why", "frost", "check", "crops", "bed")
    )
    maybe = {
        "week": (("--by", "work"), ("--weeks", random.choice(("1", "3", "53", *ODD[:6])))),
        "fits": (
            ("--plants", random.choice(("1", "30", "100000", random.choice(ODD)))),
            ("--bed", bed),
            ("--on", random.choice(("07-20", "2026-08-01", "02-29", day, random.choice(ODD)))),
            ("--seedlings",),
            ("--cover", random.choice(("4", "30", "0.5", random.choice(ODD)))),
            ("--instead-of", wave),
        ),
        "bed": (("--on", random.choice(("07-20", day))), ("--seedlings",)),
        "plan": (("--repack",), ("--by", "bed")),
    }.get(kind, ())
    given = {
        "fits": ("fits", crop),
        "bed": ("fits", "--bed", bed),
        "why": ("why", wave),
        "crops": ("crops", *random.choice(((), (crop,)))),
    }.get(kind, (kind,))
    if kind == "week" and random.random() < 0.3:
        given = (
            *given,
            "--week",
            random.choice(("W1", "W31", "2026-W53", "2200-W52", random.choice(ODD))),
        )
    chosen = [part for option in maybe if random.random() < 0.3 for part in option]
    formats = {"fits": ("json",), "bed": ("json",), "why": ("json",), "check": ("json",)}
    other = random.choice(formats.get(kind, ("json", "csv") if kind != "calendar" else ("text",)))
    form = other if random.random() < 0.3 else "text"
    shape = () if kind == "calendar" else ("--format", form)
    return (*given, *chosen, *shape, "--today", day)


def run(case: Case, folder: Path) -> Outcome:
    """Run a case in this process, as the console script does."""
    (folder / "garden.yaml").write_bytes(case.text.encode("utf-8", "surrogatepass"))
    if case.record is not None:
        (folder / "station.csv").write_bytes(case.record.encode("utf-8", "surrogatepass"))
    out, err = (io.TextIOWrapper(io.BytesIO(), "utf-8") for _ in range(2))
    environment = {"COLUMNS": str(case.columns)}
    with (
        patch("sys.argv", ["sowtide", *case.command, "--garden", "garden.yaml"]),
        chdir(folder),  # so that no screen is wide for the folder's sake
        patch.dict("os.environ", environment),
        patch("gc.disable"),
        patch("gc.freeze"),
        redirect_stdout(out),
        redirect_stderr(err),
    ):
        try:
            main()
        except SystemExit as left:
            code = left.code
    texts = []
    for stream in (out, err):
        stream.flush()
        texts.append(stream.buffer.getvalue().decode().replace(str(folder), ""))  # type: ignore[attr-defined]
    return Outcome(code if isinstance(code, int) else 0, *texts)


def faults(case: Case, found: Outcome) -> list[str]:
    """Return what is wrong with an outcome, in a few words each."""
    wrong = []
    if found.code not in (0, 1, 2):
        wrong.append(f"left with {found.code}: {found.err.strip()}")
    if found.code == 2 and found.out:
        wrong.append("printed and left with 2")
    if found.code and not found.err and not found.out:
        wrong.append(f"left with {found.code} without a word")
    kept = (found.out + found.err).replace("\n", "").replace("\u200c", "").replace("\u200d", "")
    if not kept.isprintable():
        odd = next(each for each in kept if not each.isprintable())
        wrong.append(f"printed U+{ord(odd):04X}")
    form = next((given for given in ("json", "csv") if given in case.command), "text")
    if form == "text":
        wrong += [f"too wide: {line!r}" for line in too_wide(found.out, case.columns)]
    elif found.out and found.code == 0:
        wrong += unreadable(found.out, form)
    if found.code != 2:
        wrong += [f"too wide: {line!r}" for line in too_wide(found.err, case.columns)]
    return wrong


def too_wide(text: str, columns: int) -> list[str]:
    """Return the lines that are wider than the screen though no one word of theirs is."""
    return [
        line
        for line in text.split("\n")
        if cell_len(line) > columns and max(map(cell_len, line.split(" "))) < columns - 12
    ]


def unreadable(text: str, form: str) -> list[str]:
    """Return what another program could not read."""
    try:
        if form == "json":
            json.loads(text)
        else:
            rows = list(csv.reader(io.StringIO(text)))
            if len({len(row) for row in rows}) > 1:
                return ["rows of several lengths"]
    except ValueError as error:
        return [f"no {form}: {error}"]
    return []


def _main() -> None:
    options = argparse.ArgumentParser(description=__doc__.split("\n")[0] if __doc__ else "")
    options.add_argument("number", type=int, nargs="?", default=500, help="how many runs")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--command", action="append", default=[], help="only this one")
    given = options.parse_args()
    folder, bad = Path(mkdtemp()), 0
    for number, case in enumerate(cases(given.number, given.seed, given.command)):
        wrong = faults(case, run(case, folder))
        if wrong:
            bad += 1
            kept = folder / f"{number}"
            kept.mkdir()
            (kept / "garden.yaml").write_bytes(case.text.encode("utf-8", "surrogatepass"))
            if case.record is not None:
                (kept / "station.csv").write_text(case.record, encoding="utf-8")
            said = (str(kept), str(case.columns), " ".join(case.command), *wrong[:3])
            sys.stdout.write("\n    ".join(said) + "\n")
    sys.stdout.write(f"{given.number} runs, {bad} with something wrong\n")
    sys.exit(bad > 0)


if __name__ == "__main__":
    _main()
