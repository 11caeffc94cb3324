"""Households drawn at random: wants, beds and crops, and the least that can be left unmet.

Sixty of them stand in `households.tsv` with what must be left unmet of each, proven by HiGHS.
``python tests/households.py`` fills them all and prints how near it comes;
``python tests/households.py --prove 15`` proves the table anew, with so many seconds for each.
"""

from __future__ import annotations

import sys
from collections import defaultdict
from dataclasses import dataclass
from datetime import timedelta
from itertools import combinations
from math import ceil, floor, inf
from pathlib import Path
from random import Random

from ortools.math_opt.python import mathopt
from ortools.sat.python import cp_model

import gardens
from gardens import crop, text
from sowtide.schedule.filling import (
    FreeBeds,
    PlantingOption,
    choose,
    options_for,
    rounds_for,
    to_fill,
)
from sowtide.schedule.filling.search_ground import SearchGround
from sowtide.schedule.season import Season
from sowtide.schedule.stays import LONG_STAY
from sowtide.schedule.supply import supply_of

FAMILIES = ("bean family", "cabbage family", "squash family", "carrot family", "lettuce family")
TABLE = Path(__file__).with_name("households.tsv")
ALL_MET = 0.001
"""So little that is left unmet is nothing. [weeks]"""
FINE = 100_000
"""A week's want in the whole numbers that are reckoned with."""


def household(seed: int, *, wants_of: tuple[int, int] = (6, 10), most_beds: int = 8) -> str:
    """Return the file of a household of six to ten wants on three to eight beds, or of a few."""
    chance = Random(seed)
    crops, wants = [], []
    for number in range(chance.randint(*wants_of)):
        picking = chance.choice((1, 10, 14, 18, 25, 35))
        days = chance.randint(30, 75)
        crops.append(
            crop(
                f"c{number}",
                family=chance.choice(FAMILIES),
                days_to_harvest=str(days),
                picking_days=str(picking),
                holding_days=str(chance.choice((7, 14))),
                in_row=str(chance.choice((10, 20, 30, 50))),
                between_rows=str(chance.choice((20, 30, 50))),
                yield_per_plant=str(chance.choice((0.1, 0.2, 0.5, 1))),
                rotation=str(chance.choice((0, 0, 3))),
            )
        )
        first = chance.choice(("07-01", "07-10", "07-20", "08-01"))
        last = chance.choice(("08-20", "09-01", "09-20", "10-01"))
        amount = chance.choice((0.5, 1, 2, 3))
        wants.append(f"{{crop: c{number}, amount: {amount} kg, from: {first}, until: {last}}}")
    beds = [
        f"{{bed: B{number}, size: {chance.choice((1, 1.2))} x {chance.randint(2, 7)}, "
        f"rest: {chance.choice((0, 0, 2))}}}"
        for number in range(chance.randint(min(3, most_beds), most_beds))
    ]
    file = text(crops=crops, beds=beds, frost="{last: 05-05, first: 10-05}")
    return file + "want:\n" + "".join(f"  - {want}\n" for want in wants)


@dataclass(frozen=True)
class Drawn:
    """A household, and the plantings that may be made for it."""

    season: Season
    options: tuple[PlantingOption, ...]
    lacking: tuple[tuple[float, ...], ...]


def drawn(file: str) -> Drawn:
    """Return a household and what may be planted for it."""
    season = gardens.season(file)
    fills = [to_fill(season, each) for each in supply_of(season)]
    options = tuple(
        option for number, fill in enumerate(fills) for option in options_for(season, number, fill)
    )
    return Drawn(season, options, tuple(fill.lacking for fill in fills))


def clash(one: PlantingOption, other: PlantingOption) -> bool:
    """Say whether two plantings may not follow each other in one bed."""
    first, second = (one, other) if one.first <= other.first else (other, one)
    follows = one.family == other.family and first.pulled <= second.first
    return follows and second.rotates and first.pulled - first.first >= LONG_STAY


def least_unmet(of: Drawn, *, work: float) -> tuple[float, bool]:
    """Return what CP-SAT proves must be left unmet, and whether it found a plan with just that.

    Parameters
    ----------
    of
        The household.
    work
        CP-SAT's own measure of work, which does not depend on the machine.
    """
    model = cp_model.CpModel()
    beds, free = of.season.garden.beds, FreeBeds(of.season)
    ground = SearchGround(of.options, free)
    met: dict[tuple[int, int], list[tuple[int, cp_model.IntVar]]] = defaultdict(list)
    standing: dict[int, list[tuple[int, int, int, cp_model.IntVar]]] = defaultdict(list)
    stands: dict[int, list[tuple[PlantingOption, cp_model.IntVar]]] = defaultdict(list)
    for option, least, largest in zip(of.options, ground.least, ground.most, strict=True):
        sown = []
        for bed, made in enumerate(beds):
            most = min(free.room(option, bed), largest)
            if most < least:
                continue
            plants = model.new_int_var(0, most, "")
            there = model.new_bool_var("")
            sown.append(plants)
            model.add(plants >= least * there)
            model.add(plants <= most * there)
            standing[bed].append((option.first, option.pulled + made.rest, option.area, plants))
            stands[bed].append((option, there))
            for place, share in option.gives:
                met[option.want, place].append((int(share * FINE), plants))
        model.add(sum(sown) <= largest)
    for bed, made in enumerate(beds):
        scale = 10**6
        for day in {first for first, _, _, _ in standing[bed]}:
            taken = [
                area // scale * plants
                for first, until, area, plants in standing[bed]
                if first <= day < until
            ]
            model.add(sum(taken) <= made.area // scale)
        for (one, here), (other, there) in combinations(stands[bed], 2):
            if clash(one, other):
                model.add_bool_or(~here, ~there)
    lacks = []
    for want, weeks in enumerate(of.lacking):
        for place, share in enumerate(weeks):
            whole = int(share * FINE)
            lack = model.new_int_var(0, whole, "")
            model.add(lack >= whole - sum(gives * plants for gives, plants in met[want, place]))
            lacks.append(lack)
    model.minimize(sum(lacks))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = work
    status = solver.solve(model)
    assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return solver.best_objective_bound / FINE, status == cp_model.OPTIMAL


def bound(of: Drawn, *, seconds: float) -> float:
    """Return what HiGHS proves must be left unmet. [weeks]

    All beds with the same rest are taken for one bed of their whole area, which rotation does not
    close: what must be left unmet there must be in the garden too. A plant that brings more than
    a week lacks counts for what it lacks, which is the same for whole plants.

    Parameters
    ----------
    of
        The household.
    seconds
        How long it may take.
    """
    model = mathopt.Model()
    beds, free = of.season.garden.beds, FreeBeds(of.season)
    ground = SearchGround(of.options, free)
    alike: dict[int, list[int]] = defaultdict(list)
    for number, bed in enumerate(beds):
        alike[bed.rest].append(number)
    met: dict[tuple[int, int], list[mathopt.LinearTypes]] = defaultdict(list)
    sown: dict[int, list[mathopt.LinearTypes]] = defaultdict(list)
    for rest, numbers in alike.items():
        standing = []
        for number, option in enumerate(of.options):
            fewest, most = ground.least[number], ground.most[number]
            lack = of.lacking[option.want]
            rooms = [room for bed in numbers if (room := free.room(option, bed)) >= fewest]
            useful = max(ceil(lack[place] / share - 1e-9) for place, share in option.gives)
            if not rooms or useful < 1:
                continue
            # As long as it brings what is useful, a planting can do without a bed or a plant.
            whole = min(sum(rooms), useful + fewest - 1, most)
            beyond = whole - fewest
            there = model.add_binary_variable()
            more = model.add_integer_variable(lb=0, ub=beyond)
            model.add_linear_constraint(more <= beyond * there)
            standing.append((option, fewest * there + more))
            sown[number].append(standing[-1][1])
            for place, share in option.gives:
                least = min(fewest * share, lack[place])
                met[option.want, place].append(least * there + min(share, lack[place]) * more)
        whole = sum(beds[number].area for number in numbers)
        for day in {option.first for option, _ in standing}:
            taken = [
                option.area / whole * plants
                for option, plants in standing
                if option.first <= day < option.pulled + rest
            ]
            model.add_linear_constraint(mathopt.fast_sum(taken) <= 1)
    for number, plants in sown.items():
        if len(plants) > 1:
            model.add_linear_constraint(mathopt.fast_sum(plants) <= ground.most[number])
    lacks = []
    for want, weeks in enumerate(of.lacking):
        for place, share in enumerate(weeks):
            lacks.append(model.add_variable(lb=0, ub=share))
            model.add_linear_constraint(lacks[-1] + mathopt.fast_sum(met[want, place]) >= share)
    model.minimize(mathopt.fast_sum(lacks))
    limit = mathopt.SolveParameters(time_limit=timedelta(seconds=seconds))
    found = mathopt.solve(model, mathopt.SolverType.HIGHS, params=limit)
    return max(found.termination.objective_bounds.dual_bound, 0.0)


def proven() -> dict[int, float]:
    """Return what must be left unmet of each household, by its seed. [weeks]"""
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    rows = (line.split("\t") for line in lines if line[:1].isdigit())
    return {int(seed): float(least) for seed, least in rows}


def filled_as_always(of: Drawn) -> float:
    """Return what is left unmet once a household is filled as the command does it. [weeks]"""
    rounds = rounds_for(of.options, wants=len(of.lacking))
    found = choose(of.options, FreeBeds(of.season), of.lacking, rounds=rounds)
    return found.unmet


def prove(households: int, *, seconds: float) -> None:
    """Write what must be left unmet of each household, rounded down; more that stands stays."""
    known = proven()
    lines = [
        "# What must be left unmet of each household of households.py, in weeks' wants",
        f"# Proven by HiGHS in {seconds:g} seconds each, or before: "
        "python tests/households.py --prove",
        "seed\tleast",
    ]
    for seed in range(households):
        found = floor(bound(drawn(household(seed)), seconds=seconds) * 1000 + 1e-6) / 1000
        lines.append(f"{seed}\t{max(found, known.get(seed, 0.0)):.3f}")
        sys.stdout.write(f"{lines[-1]}\n")
        sys.stdout.flush()
    TABLE.write_text("\n".join(lines) + "\n", encoding="utf-8")


def compare() -> None:
    """Print what is left unmet of each household beside what must be, and the ratios in order."""
    ratios = []
    for seed, least in proven().items():
        found = filled_as_always(drawn(household(seed)))
        ratios.append(ratio(found, least))
        sys.stdout.write(f"{seed:3} {found:7.3f} {least:7.3f} {ratios[-1]:6.3f}\n")
    ratios.sort()
    middle, tenth = ratios[len(ratios) // 2], ratios[len(ratios) * 9 // 10]
    sys.stdout.write(f"in the middle {middle:.3f}, one in ten above {tenth:.3f}\n")


def ratio(found: float, least: float) -> float:
    """Return how many times as much is left unmet as must be; 1 where all is met."""
    if found < ALL_MET:
        return 1.0
    return found / least if least else inf


if __name__ == "__main__":
    if sys.argv[1:2] == ["--prove"]:
        prove(60, seconds=float(sys.argv[2]) if len(sys.argv) > 2 else 15)
    else:
        compare()
