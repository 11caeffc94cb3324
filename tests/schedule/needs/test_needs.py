"""What is still to be got: seed by crop, seedlings, trays, things, and what is in the drawer."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

import gardens
from sowtide.garden.drawer import InDrawer, read_drawer
from sowtide.garden.journal import journal_of
from sowtide.schedule.needs import (
    SeedNeed,
    Thing,
    care_needs,
    seed_needs,
    seeds_per_gram,
    thing_needs,
    things_of,
    to_sow,
    tray_needs,
    without_room,
)
from sowtide.schedule.season import Season
from sowtide.season import season_of
from tended import garden_with, season_with

SEEDED = gardens.crop(seeds_per_plant="2", germination="80%")
RAISED = gardens.crop(
    raised="trays", nursery_days="21-40", counted_from="planting out", germination="100%"
)
WIDE = ("{bed: Long, size: 10 x 20}",)
NEW_YEAR_S_EVE = date(2026, 12, 31)


def season(
    *waves: str, crop: str = SEEDED, journal: str = "", today: date = gardens.EARLY, **site: str
) -> Season:
    """Return the season of a garden of one crop."""
    text = gardens.text(*waves, crops=(crop,), beds=WIDE, **site)
    read = journal_of(journal.encode(), "journal.yaml")
    return season_of(gardens.read(text), today, None, read.journal if journal else None)


def seeds(of: Season, *drawer: InDrawer, until: date = NEW_YEAR_S_EVE) -> tuple[SeedNeed, ...]:
    """Return the seed that is needed."""
    return seed_needs(of, to_sow(of, until), drawer)


def test_seed_of_all_waves_with_some_to_spare() -> None:
    # 2 x 10 plants x 2 seeds / 0.8 = 50; a fifth more is 60. Sown on 1 June, two weeks to order.
    series = gardens.wave(start="06-01", plants="10", every="14", count="2")
    (need,) = seeds(season(series, spare="20%", order_weeks="2"))
    assert (need.count, need.missing, need.waves) == (60, 60, ("fruit-1", "fruit-2"))
    assert (need.first, need.order_by) == (date(2026, 6, 1), date(2026, 5, 18))


def test_a_tenth_to_spare_of_fifty_seeds_is_five() -> None:
    # 50 x 1.1 is a little more than 55 as a machine counts it.
    series = gardens.wave(start="06-01", plants="10", every="14", count="2")
    assert [each.count for each in seeds(season(series, spare="10%"))] == [55]


def test_until_a_day() -> None:
    series = gardens.wave(start="06-01", plants="10", every="14", count="2")
    (need,) = seeds(season(series, spare="0%"), until=date(2026, 6, 10))
    assert (need.count, need.waves) == (25, ("fruit-1",))


def test_what_is_sown_already_is_not_needed() -> None:
    series = gardens.wave(start="06-01", plants="10", every="14", count="2")
    assert seeds(season(series, today=date(2026, 6, 2)))[0].waves == ("fruit-2",)
    said = "- {on: 2026-05-30, wave: fruit-1, did: sown}\n"
    noted = season(series, journal=said, today=date(2026, 5, 31))
    assert seeds(noted)[0].waves == ("fruit-2",)


def test_what_presses_is_to_be_ordered_today() -> None:
    (need,) = seeds(season(gardens.wave(start="06-01"), today=date(2026, 5, 30)))
    assert need.order_by == date(2026, 5, 30)


def test_the_drawer_is_taken_off_once() -> None:
    series = gardens.wave(start="06-01", plants="10", every="14", count="2")
    found = season(series, spare="0%")
    (need,) = seeds(found, InDrawer(("fruit",), 20, None), InDrawer(("fruit",), 500, None))
    assert (need.count, need.have, need.missing) == (50, 50, 0)
    (need,) = seeds(found, InDrawer(("fruit",), 20, None), InDrawer(("leaf",), 500, None))
    assert (need.have, need.missing) == (20, 30)


def test_what_is_in_the_drawer_is_shared_by_the_crops_that_it_is_of() -> None:
    # 25 seeds of each, and thirty there that will do for both.
    waves = [gardens.wave(crop, start="06-01", plants="10") for crop in ("fruit", "other")]
    other = SEEDED.replace("fruit", "other", 1)
    text = gardens.text(*waves, crops=(SEEDED, other), beds=WIDE, spare="0%")
    found = seeds(
        season_of(gardens.read(text), gardens.EARLY), InDrawer(("fruit", "other"), 30, None)
    )
    assert sum(need.have for need in found) == 30
    assert sum(need.missing for need in found) == 20


def test_seed_is_weighed_by_the_fewest_to_a_gram() -> None:
    text = gardens.text(
        gardens.wave("bush bean", start="06-01", plants="30"), crops=("x: {like: pea}",)
    )
    found = season_of(gardens.read(text.replace("1 x 10", "9 x 10")), gardens.EARLY)
    (need,) = seeds(found)
    assert seeds_per_gram(need.crop) == 4  # the Federal Seed Act's four to a gram
    assert need.grams == pytest.approx(need.count / 4)
    (weighed,) = seeds(found, InDrawer(("bush bean",), None, 5.0))
    assert weighed.have == 20
    assert weighed.grams == pytest.approx((need.count - 20) / 4)  # what is still to be got


@pytest.mark.parametrize(
    ("kind", "grams"),
    # A piece of a seed potato weighs 1.5 to 2 oz (Iowa State University Extension): 2 x 28.35 =
    # 56.7 g. Of cloves and sets from memory; slips are sold by number alone.
    [("potato", 57), ("early potato", 57), ("garlic", 11), ("shallot", 20), ("sweet potato", None)],
)
def test_what_is_planted_in_place_of_seed_is_weighed_by_the_largest_piece(
    kind: str, grams: float | None
) -> None:
    waves = gardens.wave("mine", start="2026-05-20", plants="10")
    crops = (f"mine: {{like: {kind}}}",)
    text = gardens.text(waves, crops=crops, beds=WIDE, spare="10%")
    (need,) = seeds(season_of(gardens.read(text), gardens.EARLY))
    assert need.count == 11  # ten, and a tenth to spare
    assert need.grams == (None if grams is None else pytest.approx(11 * grams))
    cut = text.replace(f"like: {kind}", f"like: {kind}, sown_as: root cuttings")
    (other,) = seeds(season_of(gardens.read(cut), gardens.EARLY))
    assert other.grams is None


def test_seedlings_and_the_trays_that_stand_at_once() -> None:
    # 60 plants and 10 spare of a hundred are 66 cells: 2 trays of 50. Three weeks in the tray, two
    # between the waves: two of them stand at once, from the second's sowing on 25 May.
    series = gardens.wave(start="06-01", plants="60", every="14", count="3")
    found = season(series, crop=RAISED, tray_cells="50")
    trays = tray_needs(found, to_sow(found, NEW_YEAR_S_EVE))
    assert [(each.cells, each.trays, each.buy) for each in trays.seedlings] == [(66, 2, False)] * 3
    assert (trays.at_once, trays.on) == (4, date(2026, 5, 25))
    assert trays.order_by == date(2026, 4, 20)  # three weeks before the first is sown
    assert tray_needs(found, ()).order_by is None


def test_trays_are_free_for_what_is_sown_on_the_day_of_planting_out() -> None:
    # Three weeks in the tray and three from wave to wave; a day less and two of them stand at once.
    for every, at_once in (("21", 2), ("20", 4)):
        series = gardens.wave(start="06-01", plants="60", every=every, count="3")
        found = season(series, crop=RAISED, tray_cells="50")
        assert tray_needs(found, to_sow(found, NEW_YEAR_S_EVE)).at_once == at_once


def test_some_of_what_stands_by_is_to_spare_too() -> None:
    # 60 plants and 10 that stand by, and a fifth more of all of them: 84 cells, two trays of 42.
    wave = gardens.wave(start="06-01", plants="60", standby="10")
    found = season(wave, crop=RAISED, spare="20%", tray_cells="42")
    (need,) = tray_needs(found, to_sow(found, NEW_YEAR_S_EVE)).seedlings
    assert (need.cells, need.trays) == (84, 2)


def test_seedlings_that_were_not_sown_in_time_are_to_be_bought() -> None:
    # To be sown on 11 May and not noted a week later: bought for 1 June, three weeks to order.
    said = "- {on: 2026-05-01, did: rain, amount: 1mm}\n"
    wave = gardens.wave(start="06-01", plants="10")
    found = season(wave, crop=RAISED, journal=said, today=date(2026, 5, 18))
    (need,) = tray_needs(found, to_sow(found, NEW_YEAR_S_EVE)).seedlings
    assert need.buy
    assert need.order_by == date(2026, 5, 18)


def test_things_are_those_of_the_chores_as_many_as_are_used_at_once() -> None:
    lines = (
        gardens.wave("tomato", start="06-01", plants="6"),
        gardens.wave("cucumber", name="early", start="06-01", plants="4"),
        gardens.wave("cucumber", name="late", start="06-10", plants="5"),
    )
    text = gardens.text(*lines, crops=("x: {like: pea}",)).replace("1 x 10", "9 x 20")
    found = season_of(gardens.read(text), gardens.EARLY)
    needs = {each.thing: each for each in thing_needs(found, found.waves)}
    assert needs[Thing.STAKES].amount == 6
    in_row = found.waves[1].crop.in_row
    assert needs[Thing.CLIMBING].amount == 9 * in_row  # both stand in July
    assert needs[Thing.CLIMBING].by_crop == (("cucumber", 9 * in_row),)
    # Planted on 1 June, three weeks to come.
    assert needs[Thing.STAKES].order_by == date(2026, 5, 11)
    assert Thing.NET not in needs  # of cucumbers it is only to be taken off


def test_string_goes_round_the_row() -> None:
    text = gardens.text(
        gardens.wave("broad bean", start="04-10", plants="8"), crops=("x: {like: pea}",)
    )
    found = season_of(gardens.read(text), gardens.EARLY)
    (wave,) = found.waves
    (need,) = thing_needs(found, found.waves)
    assert (need.thing, need.amount) == (Thing.STRING, 2 * 8 * wave.crop.in_row)


@pytest.mark.parametrize(
    ("crop", "things"),
    [
        ("pea", (Thing.CLIMBING,)),
        ("kale", (Thing.NET,)),
        ("broad bean", (Thing.STRING,)),
        ("bush bean", ()),
        ("bush tomato", (Thing.STAKES, Thing.STRAW)),
    ],
)
def test_what_chores_ask_for(crop: str, things: tuple[Thing, ...]) -> None:
    text = gardens.text(gardens.wave(crop, start="06-01"), crops=("x: {like: pea}",))
    garden = gardens.read(text)
    assert things_of(garden.entries[0].crop) == things


def test_care_that_takes_nothing_is_not_to_be_got() -> None:
    """A spray's amount may be left to its label, and it is to be got all the same."""
    file = garden_with(
        "name: look, do: scout, on: fruit, every: 7",
        "name: thin out, do: thin, on: fruit, every: 14",
        "name: leaf spray, do: spray, on: fruit, every: 7",
        "name: straw, do: cover, on: fruit, every: 30, amount: 1 kg per plant",
    )
    found = care_needs(season_with(file), NEW_YEAR_S_EVE)
    assert [each.total.routine.name for each in found] == ["leaf spray", "straw"]


def test_a_drawer_is_read(tmp_path: Path) -> None:
    path = tmp_path / "drawer.yaml"
    path.write_text("fruit: 200\nFruit s: 3\n", encoding="utf-8")
    garden = season(gardens.wave(start="06-01")).garden
    read = read_drawer(path, garden)
    assert read.drawer is None
    assert [problem.code for problem in read.problems] == ["unknown-crop"]
    path.write_text("fruit: 2.5 g\n", encoding="utf-8")
    assert read_drawer(path, garden).drawer == (InDrawer(("fruit",), None, 2.5),)
    path.write_text("fruit: 2 heaps\n", encoding="utf-8")
    assert [problem.code for problem in read_drawer(path, garden).problems] == ["harvest"]
    path.write_text("fruit: 2,720\n", encoding="utf-8")
    (problem,) = read_drawer(path, garden).problems
    assert problem.hint is not None
    assert "bush bean: 200" in problem.hint
    path.write_text("fruit: [20, 30]\n", encoding="utf-8")
    assert [problem.code for problem in read_drawer(path, garden).problems] == ["not-text"]
    path.write_text("- fruit\n", encoding="utf-8")
    assert [problem.code for problem in read_drawer(path, garden).problems] == ["not-a-mapping"]


def test_what_has_no_room_is_named_from_today_up_to_the_day_asked_for() -> None:
    # Two hundred square metres are full from 1 June on; more is sown on the 10th and the 20th.
    of = season(
        gardens.wave(start="06-01", plants="200"),
        gardens.wave(name="more", start="06-10", plants="5", every="10", count="2"),
        today=date(2026, 6, 10),
    )

    def named(until: date, today: date = date(2026, 6, 10)) -> list[str]:
        return [wave.id for wave in without_room(replace(of, today=today), until)]

    assert named(date(2026, 6, 20)) == ["more-1", "more-2"]
    assert named(date(2026, 6, 19)) == ["more-1"]
    assert named(date(2026, 6, 20), today=date(2026, 6, 11)) == ["more-2"]


def test_things_are_wanted_from_the_first_of_their_waves_on() -> None:
    stakes = [
        gardens.wave("tomato", name=name, start=start, plants="2")
        for name, start in (("late", "06-10"), ("early", "06-01"), ("last", "06-20"))
    ]
    of = gardens.season(gardens.text(*stakes, crops=("tomato: {}",), beds=WIDE))
    assert {need.first for need in thing_needs(of, of.waves)} == {date(2026, 6, 1)}


def test_what_is_sown_in_its_bed_needs_no_tray() -> None:
    of = gardens.season(
        gardens.text(
            gardens.wave(start="06-01"),
            gardens.wave("raised", start="06-01"),
            crops=(SEEDED, RAISED.replace("fruit:", "raised:")),
            beds=WIDE,
        )
    )
    assert [each.wave.id for each in tray_needs(of, of.waves).seedlings] == ["raised-1"]
