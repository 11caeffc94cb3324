"""The room that a filling finds in the beds: that of the plan, on every day, for every planting."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

import gardens
from sowtide.garden.journal import journal_of
from sowtide.schedule.filling import FreeBeds, PlantingOption, options_for, to_fill
from sowtide.schedule.filling.search_ground import SearchGround
from sowtide.schedule.season import Season
from sowtide.schedule.supply import supply_of
from sowtide.season import season_of

BEAN = gardens.crop("bean", yield_per_plant="1", family="bean family")
LEAF = gardens.leaf("leaf", yield_per_plant="1", days_to_harvest="20", picking_days="5")
BEDS = (
    "{bed: Long, size: 1 x 20, rest: 3}",
    "{bed: Wide, size: 2 x 9, taken: 07-05..07-11}",
    "{bed: Hoops, size: 1 x 5, cover: 3}",
)
WANT = "want:\n  - {crop: bean, amount: 2 kg, from: 07-13, until: 09-27}\n"


def season(
    *waves: str,
    beds: tuple[str, ...] = BEDS,
    crops: tuple[str, ...] = (BEAN, LEAF),
    entries: str = "",
    today: date = gardens.EARLY,
) -> Season:
    """Return the season of a garden that wants beans."""
    file = gardens.text(*waves, crops=crops, beds=beds) + WANT
    journal = journal_of(entries.encode(), "journal.yaml").journal if entries else None
    return season_of(gardens.read(file), today, None, journal)


def options(of: Season) -> list[PlantingOption]:
    """Return the plantings of beans that might be added."""
    return list(options_for(of, 0, to_fill(of, supply_of(of)[0])))


@pytest.mark.parametrize(("beds", "alike"), [(BEDS, 5), (BEDS[:1], 8)])
def test_the_room_is_that_of_the_plan_whatever_stands_there(
    beds: tuple[str, ...], alike: int
) -> None:
    # A small wave on each of many days, so that one goes in on the last day of each stay.
    starts = zip(("07-20", "08-12"), (beds[0], beds[-2:][0]), strict=True)
    waves = [
        gardens.wave("leaf", name=f"l{start}", start=start, every="1", count="30", beds=f"[{bed}]")
        for start, bed in ((start, bed[6:10]) for start, bed in starts)
    ]
    of = season(*waves, beds=tuple(bed.replace(" x ", " x 4") for bed in beds))
    found = options(of)
    free = FreeBeds(of)
    ground = SearchGround(found, free)
    rooms = set()
    for number, option in enumerate(found):
        for index, bed in enumerate(of.garden.beds):
            room = of.room.free(index, first=option.first, until=option.pulled)
            plants = max(room, 0) // option.area
            assert free.room(option, index) == plants
            assert ground.room(number, index) == plants
            same = option.ground == bed.colder_than_site
            assert ground.bare(number, index) == (plants if same else 0)
            assert (index in ground.places[number]) is (same and plants > 0)
            rooms.add(plants)
    assert len(rooms) >= alike


@pytest.mark.parametrize(
    ("grew", "rotation", "is_open"),
    [
        ("2023: bean family", 3, True),  # three years on
        ("2024: bean family", 3, False),
        ("2025: bean family", 3, False),
        ("2025: bean family", 1, True),  # next year at the earliest: that is this one
        ("2025: bean family", 0, True),
        ("2025: leaf family", 3, True),
        ("2022: bean family, 2025: bean family", 3, False),
        ("2025: bean family, 2022: bean family", 3, False),
    ],
)
def test_a_family_may_come_back_when_its_years_are_over(
    grew: str, rotation: int, is_open: bool
) -> None:
    bed = f"{{bed: Long, size: 1 x 20, grew: {{{grew}}}}}"
    bean = BEAN.replace("rotation: 0", f"rotation: {rotation}")
    of = season(beds=(bed,), crops=(bean,))
    option = options(season(beds=("{bed: Long, size: 1 x 20}",), crops=(bean,)))[0]
    assert (FreeBeds(of).room(option, 0) > 0) is is_open


def test_where_plants_were_pulled_as_sick_their_family_keeps_out_from_that_day_on() -> None:
    waves = [
        gardens.wave("bean", name=name, start="05-20", plants="2", beds=f"[{bed}]")
        for name, bed in (("one", "Long"), ("two", "Wide"))
    ]
    said = (
        "- {on: 2026-05-20, wave: one-1, did: sown}\n- {on: 2026-05-20, wave: two-1, did: sown}\n"
        "- {on: 2026-06-10, wave: one-1, did: pulled, sick: yes}\n"
    )
    free = FreeBeds(season(*waves, entries=said, today=date(2026, 6, 12)))
    (option, *_) = options(season())
    sick = date(2026, 6, 10).toordinal()
    stay = option.pulled - option.first

    def room(day: int, family: str = option.family) -> list[int]:
        planted = replace(option, first=day, pulled=day + stay, family=family)
        return [free.room(planted, index) for index in range(2)]

    # Two stand on in Wide, which is taken in the second week of July.
    assert room(sick) == [0, 0]
    early = replace(option, first=sick - 1, pulled=sick + 20)
    assert [free.room(early, index) for index in range(2)] == [18, 16]
    assert room(sick, "leaf family")[0] == 18  # two rest for three days
    assert [free.room(replace(early, first=sick), index) for index in range(2)] == [0, 16]


@pytest.mark.parametrize(
    ("stays", "rotates", "is_open"),
    [(60, True, False), (59, True, True), (60, False, True)],
)
def test_what_rotates_is_not_followed_up_by_a_long_stay_before_it(
    stays: int, rotates: bool, is_open: bool
) -> None:
    # Beans of 1 August by the file: a planting before them that stands sixty days closes the bed.
    bean = BEAN.replace("rotation: 0", f"rotation: {3 if rotates else 0}")
    of = season(gardens.wave("bean", start="08-01", plants="2", beds="[Long]"), crops=(bean,))
    first = date(2026, 8, 1).toordinal()
    option = replace(options(of)[0], first=first - stays, pulled=first, rotates=True)
    assert (FreeBeds(of).room(option, 0) > 0) is is_open
