"""Households drawn at random: wants, beds and crops, and the least that can be left unmet.

Sixty of them beside CP-SAT's bounds, which takes an hour: ``python tests/households.py 60``. A
bound that is not proven lies below the best there is: the true ratio is better than the one shown.
"""

from __future__ import annotations

import sys
from collections import defaultdict
from dataclasses import dataclass
from itertools import combinations
from random import Random

from ortools.sat.python import cp_model

import gardens
from gardens import crop, text
from sowtide.schedule.filling import FreeBeds, PlantingOption, choose, options_for, to_fill
from sowtide.schedule.season import Season
from sowtide.schedule.stays import LONG_STAY
from sowtide.schedule.supply import supply_of

FAMILIES = ("bean family", "cabbage family", "squash family", "carrot family", "lettuce family")
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
    met: dict[tuple[int, int], list[tuple[int, cp_model.IntVar]]] = defaultdict(list)
    standing: dict[int, list[tuple[int, int, int, cp_model.IntVar]]] = defaultdict(list)
    stands: dict[int, list[tuple[PlantingOption, cp_model.IntVar]]] = defaultdict(list)
    for option in of.options:
        for bed, made in enumerate(beds):
            most = free.room(option, bed)
            if most < option.least:
                continue
            plants = model.new_int_var(0, most, "")
            there = model.new_bool_var("")
            model.add(plants >= option.least * there)
            model.add(plants <= most * there)
            standing[bed].append((option.first, option.pulled + made.rest, option.area, plants))
            stands[bed].append((option, there))
            for place, share in option.gives:
                met[option.want, place].append((int(share * FINE), plants))
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


def main(households: int, *, work: float = 20) -> None:
    """Print what is left unmet of each household beside what must be, and the ratio of the two."""
    for seed in range(households):
        of = drawn(household(seed))
        found = choose(of.options, FreeBeds(of.season), of.lacking, rounds=400).unmet
        least, sure = least_unmet(of, work=work)
        ratio = found / least if least else float(found > 0) + 1
        proven = "proven" if sure else "a bound"
        sys.stdout.write(f"{seed:3} {found:7.2f} {least:7.2f} {ratio:6.3f} {proven}\n")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 60)
