"""What a plan that is being filled costs, recounted from its plants week by week."""

from __future__ import annotations

from functools import cache
from random import Random

import pytest

import gardens
from sowtide.schedule.filling.chosen import Chosen
from sowtide.schedule.filling.free_beds import FreeBeds
from sowtide.schedule.filling.plantings import PlantingOption, options_for, to_fill
from sowtide.schedule.season import Season
from sowtide.schedule.supply import supply_of

FILE = gardens.text(
    crops=(
        gardens.crop("bean", yield_per_plant="0.5", family="bean family"),
        gardens.leaf("leaf", yield_per_plant="0.25", in_row="50"),
    ),
    beds=("{bed: Long, size: 1 x 9}", "{bed: Wide, size: 2 x 6}", "{bed: Low, size: 1 x 5}"),
) + "".join(
    (
        "want:\n",
        "  - {crop: bean, amount: 1 kg, from: 07-06, until: 09-13}\n",
        "  - {crop: leaf, amount: 1 kg, from: 06-15, until: 10-04}\n",
    )
)
COUNTS = (1.0, 5.0)
BEFORE = 0.015, 0.04
"""What a sowing and a bed more cost. [weeks]"""


@cache
def garden() -> tuple[Season, tuple[PlantingOption, ...], tuple[tuple[float, ...], ...]]:
    season = gardens.season(FILE)
    fills = [to_fill(season, each) for each in supply_of(season)]
    options = [each for want, fill in enumerate(fills) for each in options_for(season, want, fill)]
    return season, tuple(options), tuple(fill.lacking for fill in fills)


def begun() -> Chosen:
    season, options, lacking = garden()
    return Chosen(options, FreeBeds(season), lacking, COUNTS)


def recounted(plants: dict[tuple[int, int], int]) -> tuple[float, float]:
    """Count what is lacking and what all costs from the plants alone. [weeks]"""
    _, options, lacking = garden()
    unmet = cost = 0.0
    for want, weeks in enumerate(lacking):
        for week, lacks in enumerate(weeks):
            brought = sum(
                count * dict(options[number].gives).get(week, 0.0)
                for (number, _), count in plants.items()
                if options[number].want == want
            )
            still, beyond = max(lacks - brought, 0.0), max(brought - lacks, 0.0)
            unmet += still
            # What is beyond the want costs a fiftieth of it, and what is beyond twice the want
            # two twenty-fifths more.
            cost += COUNTS[want] * (still + 0.02 * beyond + 0.08 * max(beyond - 1, 0.0))
    for (number, _), count in plants.items():
        option = options[number]
        years = option.area / 1e12 * (option.pulled - option.first) / 365
        cost += count * (0.03 * COUNTS[option.want] * option.unasked + 0.003 * years)
    sowings = len({number for number, _ in plants})
    sowing, bed_more = BEFORE
    return unmet, cost + sowing * sowings + bed_more * (len(plants) - sowings)


@pytest.mark.parametrize("seed", range(12))
def test_what_it_costs_is_that_of_its_plants(seed: int) -> None:
    of, plants, random = begun(), dict[tuple[int, int], int](), Random(seed)
    assert of.unmet == pytest.approx(of.lacked) == pytest.approx(recounted({})[0])
    for _ in range(60):
        number = random.randrange(len(of.options))
        bed = random.choice(of.ground.places[number])
        key = number, bed
        if key in plants and random.random() < 0.5:
            count = -random.randint(1, plants[key])
        else:
            room = min(of.ground.room(number, bed), of.most(number))
            if room <= 0:
                continue
            count = random.randint(1, room)
            promised = of.gain(number, count)
            sowing, bed_more = BEFORE
            if number not in of.sown:
                promised -= sowing
            elif key not in plants:
                promised -= bed_more
            before = of.cost
        aside = of.copy()
        of.add(number, bed, count)
        plants[key] = plants.get(key, 0) + count
        if not plants[key]:
            del plants[key]
        assert of.plants == plants
        unmet, cost = recounted(plants)
        assert (of.unmet, of.cost) == (pytest.approx(unmet), pytest.approx(cost))
        if count > 0:
            assert before - of.cost == pytest.approx(promised)
        # A copy that was made before is as it was; what differs is told by option and bed.
        assert aside.plants != of.plants
        assert of.differs(aside, key)
        aside.add(number, bed, count)
        assert aside.cost == pytest.approx(of.cost)
    assert [(c.option, c.bed, c.plants) for c in of.choices()] == sorted(
        ((number, bed, count) for (number, bed), count in plants.items()),
        key=lambda each: (of.options[each[0]].first, of.options[each[0]].want, each[1]),
    )


@pytest.mark.parametrize("seed", range(6))
def test_so_many_plants_may_go_and_no_more_is_unmet(seed: int) -> None:
    of, random = begun(), Random(seed)
    for _ in range(40):
        number = random.randrange(len(of.options))
        bed = random.choice(of.ground.places[number])
        room = min(of.ground.room(number, bed), of.most(number))
        if room > 0:
            of.add(number, bed, random.randint(1, room))
    for (number, bed), plants in sorted(of.plants.items()):
        spare = of.spare(number)
        less = of.copy()
        less.add(number, bed, -min(max(spare, 0), plants))
        assert less.unmet == pytest.approx(of.unmet)
        if 0 <= spare < plants:
            less.add(number, bed, -1)
            assert less.unmet > of.unmet + 1e-9


def test_as_few_beds_as_are_open() -> None:
    of = begun()
    number = next(n for n, places in enumerate(of.ground.places) if len(places) == 3)
    for count in (1, 2, 3):
        few = of.within(count)
        assert [few.ground.room(number, bed) > 0 for bed in range(count)] == [True] * count
        assert set(few.ground.places[number]) == {*range(count)}
