"""Sowings of a crop on one day gathered in one bed: what stands in the way moves to another."""

from __future__ import annotations

from collections import Counter

from sowtide.schedule.filling.chosen import Chosen


def gathered(of: Chosen) -> Chosen:
    """Return a plan with the same plants on the same days, in fewer beds where that goes."""
    stands = Counter(number for number, _ in of.plants)
    for number in sorted(number for number, beds in stands.items() if beds > 1):
        beds = sorted(of.ground.places[number], key=lambda bed: -of.plants.get((number, bed), 0))
        tried = (_in_one(of, number, bed) for bed in beds)
        of = next((made for made in tried if made is not None), of)
    return of


def _in_one(of: Chosen, number: int, bed: int) -> Chosen | None:
    """Return the plan with all of an option in one bed; None where that does not go."""
    option, plants = of.options[number], of.sown[number]
    if plants * option.area > of.beds[bed].area:
        return None
    made = of.copy()
    for key in of.plants:
        if key[0] == number:
            made.add(*key, -of.plants[key])
    rivals = [
        (count * of.options[other].area, other)
        for (other, there), count in made.plants.items()
        if there == bed
        and of.options[other].first < option.pulled
        and option.first < of.options[other].pulled
    ]
    for _, other in sorted(rivals):
        if made.ground.room(number, bed) >= plants:
            break
        _move(made, other, bed)
    if made.ground.room(number, bed) < plants:
        return None
    made.add(number, bed, plants)
    return made if len(made.plants) < len(of.plants) else None


def _move(of: Chosen, number: int, bed: int) -> None:
    """Move plants to the bed that they fit into most tightly, if there is one."""
    plants, ground = of.plants[number, bed], of.ground
    of.add(number, bed, -plants)
    rooms = [(ground.room(number, other), other) for other in ground.places[number] if other != bed]
    _, place = min((each for each in rooms if each[0] >= plants), default=(0, bed))
    of.add(number, place, plants)
