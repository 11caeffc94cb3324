"""Invented gardens, and the most area times days that can stand in each, found by CP-SAT.

A hundred gardens from fixed seeds: 12 to 30 waves of fixed days in one to four beds, half of the
waves naming beds, none split. For CP-SAT a wave is an optional interval in each of its beds, a bed
a cumulative constraint. What it found stands in `optima.tsv`; ``python tests/optima.py`` looks for
it again and writes it afresh.

What names its beds comes before what does not: that is asked for, whatever it costs. So two things
are looked for: the most of all, and the most for which no wave that names its beds stands back for
one that names none.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random

from ortools.sat.python import cp_model

import gardens
from gardens import crop, text, wave
from sowtide.schedule.season import Season
from sowtide.values import value

TABLE = Path(__file__).with_name("optima.tsv")
GARDENS = 100
WORK = 3
"""CP-SAT's own measure of work for one garden, which does not depend on the machine."""

LENGTHS = range(25, 101, 5)
CROPS = tuple(crop(f"c{days}", days_to_harvest=str(days - 1), picking_days="1") for days in LENGTHS)
PLANT = 10**12
"""The area of a plant: a square metre. [µm²]"""


@value
class Optimum:
    """The most that can stand in a garden, each in square metres times days.

    Where it is not proven, it is the bound that CP-SAT came down to in the work allowed.
    """

    asked: int
    """What would stand if there were room for all."""
    best: int
    """The most of all."""
    named_first: int
    """The most of it while what names its beds has the most that it can."""
    is_proven: bool
    """Whether both are proven."""


def garden(seed: int) -> str:
    """Return the file of an invented garden."""
    chance = Random(seed)
    sizes = [chance.randint(8, 30) for _ in range(chance.randint(1, 4))]
    entries = []
    for number in range(chance.randint(12, 30)):
        plants = chance.randint(2, min(14, max(sizes)))
        keys = {
            "name": f"w{number}",
            "plants": str(plants),
            "start": str(date(2026, 5, 1) + timedelta(days=chance.randint(0, 120))),
            "split": "no",
        }
        large = [bed for bed, size in enumerate(sizes) if size >= plants]
        if chance.random() < 0.5:
            chosen = sorted(chance.sample(large, chance.randint(1, len(large))))
            keys["beds"] = "[" + ", ".join(f"B{bed}" for bed in chosen) + "]"
        entries.append(wave(f"c{chance.choice(LENGTHS)}", **keys))
    beds = [
        f"{{bed: B{number}, size: 1 x {size}, rest: {chance.choice((0, 0, 3))}}}"
        for number, size in enumerate(sizes)
    ]
    return text(*entries, crops=CROPS, beds=beds, frost="none")


def days_of(season: Season) -> Iterator[int]:
    """Yield what each wave would take, in square metres times days."""
    for each in season.waves:
        yield each.plants * (each.stages.pull_out.day - each.stages.plant.day).days


def found(season: Season) -> Optimum:
    """Look for the most that can stand in a garden."""
    best, sure = _best(season, named_first=False)
    named_first, sure_too = _best(season, named_first=True)
    return Optimum(sum(days_of(season)), best, named_first, sure and sure_too)


def _best(season: Season, *, named_first: bool) -> tuple[int, bool]:
    model = cp_model.CpModel()
    inside = defaultdict(list)
    standing = defaultdict(list)
    placed, named = [], []
    for each in season.waves:
        first = each.stages.plant.day.toordinal()
        days = each.stages.pull_out.day.toordinal() - first
        stands = []
        for bed in each.entry.beds:
            if bed.area < each.plants * PLANT:
                continue
            stand = model.new_bool_var("")
            span = model.new_optional_fixed_size_interval_var(first, days + bed.rest, stand, "")
            inside[bed.name].append((span, each.plants))
            standing[bed.name].append((first, first + days + bed.rest, each.plants * stand))
            stands.append(stand)
        model.add_at_most_one(stands)
        placed.append(days * each.plants * sum(stands))
        if each.entry.beds_named:
            named.append(placed[-1])
    for bed in season.garden.beds:
        spans = [span for span, _ in inside[bed.name]]
        model.add_cumulative(spans, [area for _, area in inside[bed.name]], bed.area // PLANT)
        # The same once more, day by day: it adds nothing but speed.
        for day in {first for first, _, _ in standing[bed.name]}:
            on_it = [area for first, until, area in standing[bed.name] if first <= day < until]
            model.add(sum(on_it) <= bed.area // PLANT)
    proven = True
    if named_first:
        model.maximize(sum(named))
        solver, proven = _solved(model)
        model.add(sum(named) >= round(solver.objective_value))
    model.maximize(sum(placed))
    solver, sure = _solved(model)
    return round(solver.best_objective_bound), sure and proven


def _solved(model: cp_model.CpModel) -> tuple[cp_model.CpSolver, bool]:
    """Solve a model in the work allowed, and say whether what is found is proven the best."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = WORK
    status = solver.solve(model)
    assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return solver, status == cp_model.OPTIMAL


def proven() -> tuple[Optimum, ...]:
    """Return what stands in the table, garden by garden."""
    _, *rows = TABLE.read_text(encoding="utf-8").splitlines()
    return tuple(
        Optimum(int(asked), int(best), int(named_first), proven == "yes")
        for _, asked, best, named_first, proven in (row.split("\t") for row in rows)
    )


def write() -> None:
    """Look for every optimum and write the table."""
    rows = ["garden\tasked\tbest\tnamed first\tproven"]
    for seed in range(GARDENS):
        of = found(gardens.season(garden(seed)))
        told = "yes" if of.is_proven else "no"
        rows.append(f"{seed}\t{of.asked}\t{of.best}\t{of.named_first}\t{told}")
    TABLE.write_text("\n".join(rows) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write()
