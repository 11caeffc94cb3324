"""A season filled for what is wanted: lines that keep what they promise, in the room there is."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

import gardens
from households import clash, household
from sowtide.garden.crop import Raised
from sowtide.report.fill.view import FillView
from sowtide.report.fill.view import view as fill_view
from sowtide.schedule.filling import (
    Filled,
    FreeBeds,
    PlantingOption,
    filled,
    options_for,
    to_fill,
)
from sowtide.schedule.filling.chosen import Chosen
from sowtide.schedule.filling.free_beds import clashes
from sowtide.schedule.filling.in_rows import in_whole_rows
from sowtide.schedule.filling.plantings import SATURDAY
from sowtide.schedule.filling.search_ground import SearchGround
from sowtide.schedule.filling.tidying import tidied
from sowtide.schedule.season import Season
from sowtide.schedule.stays import LONG_STAY
from sowtide.schedule.supply import AVOIDABLE, Why, shortages_of, supply_of, week_of
from sowtide.season import DEMO_TODAY, load_demo, season_of

BEAN = gardens.crop(
    "bean", yield_per_plant="1", days_to_harvest="50", picking_days="14", family="bean family"
)
LEAF = gardens.crop(
    "leaf", yield_per_plant="0.5", days_to_harvest="40", picking_days="10", family="leaf family"
)
WANT = "{crop: bean, amount: 2 kg, from: 07-13, until: 09-13}"
ALSO = "{crop: leaf, amount: 1 kg, from: 07-13, until: 08-30}"


def season(
    *waves: str,
    wants: tuple[str, ...] = (WANT,),
    beds: tuple[str, ...] = ("{bed: Long, size: 1 x 20}", "{bed: Wide, size: 2 x 10}"),
    today: date = gardens.EARLY,
    crops: tuple[str, ...] = (BEAN, LEAF),
) -> Season:
    """Return the season of a garden with wants."""
    return gardens.season(_file(*waves, wants=wants, beds=beds, crops=crops), today)


def _file(
    *waves: str, wants: tuple[str, ...], beds: tuple[str, ...], crops: tuple[str, ...]
) -> str:
    file = gardens.text(*waves, crops=crops, beds=beds)
    return file + "want:\n" + "".join(f"  - {want}\n" for want in wants)


def fill(of: Season, *crops: str) -> Filled:
    """Fill a season."""
    return filled(of, supply_of(of), crops=crops or None)


def unmet(of: Season) -> float:
    """Return what is not met of all wants. [weeks]"""
    return sum(each.unmet for each in supply_of(of))


def lines(of: Season, found: Filled) -> FillView:
    """Return the lines to paste, and what they promise."""
    return fill_view(of, found)


def pasted(file: str, found: FillView, today: date = gardens.EARLY) -> Season:
    """Paste lines into a file without waves, or below those that it has."""
    text = "".join(f"  - {line.text.removeprefix('- ')}\n" for line in found.lines)
    head, has_waves, rest = file.partition("waves:\n")
    if has_waves:
        return gardens.season(f"{head}{has_waves}{text}{rest}", today)
    return gardens.season(f"{file}waves:\n{text}", today)


def test_a_want_that_the_room_allows_is_met() -> None:
    before = season()
    after = fill(before).after
    assert unmet(before) == pytest.approx(9)  # nine weeks, nothing planted
    # All but what two weeks' tails leave: no gap, and less than a week's want in all.
    assert unmet(after) < 1
    assert all(week.expected >= 0.5 * week.want for week in supply_of(after)[0].weeks if week.want)


def test_pasting_the_lines_gives_just_what_they_promise() -> None:
    beds = ("{bed: Long, size: 1 x 12, rest: 2}", "{bed: Wide, size: 2 x 4}")
    waves = (gardens.wave("leaf", start="06-01", plants="5", every="10", count="3"),)
    file = _file(*waves, wants=(WANT, ALSO), beds=beds, crops=(BEAN, LEAF))
    before = gardens.season(file)
    promised = lines(before, fill(before))
    assert promised.lines
    got = pasted(file, promised)
    assert all(wave.stands for wave in got.waves)
    found = {each.crop.name: each.unmet for each in supply_of(got)}
    for crop in promised.crops:
        assert found[crop.crop] == pytest.approx(crop.unmet_after)


@pytest.mark.parametrize("seed", range(2))
def test_households_get_plans_that_stand(seed: int) -> None:
    file = household(seed, wants_of=(4, 5), most_beds=3)
    before = gardens.season(file)
    promised = lines(before, fill(before))
    got = pasted(file, promised)
    assert all(wave.stands for wave in got.waves)
    assert unmet(got) == pytest.approx(promised.unmet_after)
    assert promised.unmet_after < promised.unmet_before
    assert [problem.code for problem in got.problems if problem.code == "rotation"] == []
    _check_beds(got)


@pytest.mark.parametrize("seed", range(2))
def test_a_fill_of_what_is_filled_leaves_no_more_unmet_whatever_room_is_added(seed: int) -> None:
    file = household(seed, wants_of=(3, 4), most_beds=2)
    before = gardens.season(file)
    promised = lines(before, fill(before))
    more = file.replace("beds:\n", "beds:\n  - {bed: More, size: 1 x 1}\n")
    after = pasted(more, promised)
    assert unmet(after) == pytest.approx(promised.unmet_after)
    assert unmet(fill(after).after) <= promised.unmet_after + 1e-6


def test_plants_stand_in_whole_rows_where_the_bed_has_room() -> None:
    # A row across a bed of 1.2 m at 0.1 m is twelve beans: 4 kg at 0.1 kg a plant are 40 plants a
    # fortnight and more; no wave is left with a part of a row in beds that are never full.
    bean = gardens.crop(
        "bean",
        yield_per_plant="0.1",
        days_to_harvest="50",
        picking_days="14",
        in_row="10",
        between_rows="30",
    )
    beds = ("{bed: Long, size: 1.2 x 40}", "{bed: Wide, size: 1.2 x 40}")
    found = fill(season(beds=beds, crops=(bean, LEAF)), "bean").entries
    assert found
    assert [entry.plants % 12 for entry in found] == [0] * len(found)


def _in_rows(size: str, *plants: int) -> dict[tuple[int, int], int]:
    """Choose some plants of one planting after another, a square metre each, and round them."""
    before = season(beds=(f"{{bed: Wide, size: {size}}}",))
    fill_of = to_fill(before, supply_of(before)[0])
    of = Chosen(list(options_for(before, 0, fill_of)), FreeBeds(before), [fill_of.lacking])
    for number, count in enumerate(plants, 4):
        of.add(number, 0, count)
    left = of.unmet
    in_whole_rows(of, 1.005 * left)
    assert of.unmet <= 1.005 * left
    return of.plants


def test_a_row_is_filled_where_the_bed_has_room() -> None:
    assert _in_rows("2 x 10", 3) == {(4, 0): 4}


def test_a_row_is_broken_off_only_where_little_is_lost_by_it() -> None:
    # Rows of two in a bed of four square metres, which is full: a third plant meets a good part of
    # what is wanted in its weeks. Of thirteen the last meets nothing.
    assert _in_rows("2 x 2", 3, 1) == {(4, 0): 3, (5, 0): 1}
    assert _in_rows("2 x 6.5", 13) == {(4, 0): 12}


def test_sowings_of_a_day_in_two_beds_are_made_one_where_nothing_is_lost() -> None:
    before = season()
    fill_of = to_fill(before, supply_of(before)[0])
    of = Chosen(list(options_for(before, 0, fill_of)), FreeBeds(before), [fill_of.lacking])
    of.add(4, 0, 3)
    of.add(4, 1, 1)
    made = tidied(of)
    assert len(made.plants) == 1
    assert made.counted <= of.counted + 1e-9
    assert sorted(of.plants.values()) == [1, 3]  # what was given stays as it was


ROTATED = BEAN.replace("rotation: 0", "rotation: 3")


@pytest.mark.parametrize(
    ("bed", "crop", "why"),
    [
        ("{bed: Small, size: 1 x 1}", BEAN, Why.BEDS_FULL),
        ("{bed: Long, size: 1 x 20, grew: {2025: bean family}}", ROTATED, Why.ROTATION),
    ],
)
def test_what_is_left_unmet_tells_why_no_more_is_planted(bed: str, crop: str, why: Why) -> None:
    before = season(beds=(bed,), crops=(crop,))
    found = fill(before)
    assert {each.why for each in found.unfilled} == {why}
    (crop_lines,) = lines(before, found).crops
    assert {gap.why for gap in crop_lines.still} == {why}
    assert not fill(season()).unfilled


def test_weeks_that_nothing_can_serve_are_not_worth_more_plants() -> None:
    # 10 May + 50 = 29 June: no bean is picked in May.
    before = season(wants=("{crop: bean, amount: 2 kg, from: 05-18, until: 05-31}",))
    found = fill(before)
    assert found.entries == ()
    assert [each.why for each in found.unfilled] == [Why.NOT_WORTH_IT] * 2


def test_each_week_is_told_as_it_was_and_as_it_becomes() -> None:
    before = season("{crop: bean, plants: 2, from: 06-01}")
    found = fill(before)
    (crop_lines,) = lines(before, found).crops
    for weeks, of in (("before", before), ("after", found.after)):
        told = {each.week: getattr(each, weeks) for each in crop_lines.weeks}
        (supply,) = supply_of(of)
        picked = {f"{each.week:%G-W%V}": each.expected for each in supply.weeks}
        assert {week: told[week] for week in picked} == pytest.approx(picked)
    assert sum(each.after for each in crop_lines.weeks) > sum(
        each.before for each in crop_lines.weeks
    )


def test_what_is_taken_back_leaves_the_bed_to_its_family_as_it_was() -> None:
    # A bean stands 50 + 14 days, past the 60 that close a bed to its family for three years.
    bean = BEAN.replace("rotation: 0", "rotation: 3")
    wants = (WANT.replace("07-13", "06-29"),)
    before = season(wants=wants, crops=(bean,), beds=("{bed: Wide, size: 2 x 10}",))
    fill_of = to_fill(before, supply_of(before)[0])
    options = list(options_for(before, 0, fill_of))
    of = Chosen(options, FreeBeds(before), [fill_of.lacking])
    later = next(n for n, option in enumerate(options) if clashes(options[0], option))
    assert of.ground.room(later, 0) == 20
    of.add(0, 0, 3)
    assert of.ground.room(later, 0) == 0
    of.add(0, 0, -3)
    assert (of.ground.room(later, 0), of.plants) == (20, {})


def _check_beds(of: Season) -> None:
    """Recount every bed on every day."""
    taken: dict[tuple[str, int], int] = defaultdict(int)
    for wave in of.waves:
        for stand in wave.stands:
            first, until = wave.stages.plant.day, wave.stages.pull_out.day
            for day in range(first.toordinal(), until.toordinal() + stand.bed.rest):
                taken[stand.bed.name, day] += stand.plants * wave.crop.area_per_plant
    areas = {bed.name: bed.area for bed in of.garden.beds}
    assert all(area <= areas[name] for (name, _), area in taken.items())


def test_the_same_file_gives_the_same_lines() -> None:
    file = household(4, wants_of=(3, 4), most_beds=2)
    one, other = (gardens.season(file) for _ in range(2))
    assert lines(one, fill(one)) == lines(other, fill(other))


def test_what_is_planted_already_stays() -> None:
    waves = (
        gardens.wave("bean", start="06-20", plants="8", beds="[Long]"),
        gardens.wave("leaf", start="07-10", plants="10"),
    )
    before = season(*waves, wants=(WANT, ALSO))
    after = fill(before).after

    def stands(of: Season) -> dict[str, list[tuple[str, int]]]:
        return {w.id: [(s.bed.name, s.plants) for s in w.stands] for w in of.waves}

    assert stands(before).items() <= stands(after).items()


def test_nothing_is_planted_before_today() -> None:
    today = date(2026, 7, 1)
    found = fill(season(today=today))
    assert found.entries
    assert all(entry.start is not None and entry.start >= today for entry in found.entries)


def test_seedlings_have_time_to_be_raised() -> None:
    raised = gardens.crop(
        "bean",
        yield_per_plant="1",
        raised="trays",
        nursery_days="21-40",
        counted_from="planting out",
    )
    today = date(2026, 6, 1)
    found = fill(season(today=today, crops=(raised,)))
    assert found.entries
    soonest = today + timedelta(days=21)
    assert all(entry.start is not None and entry.start >= soonest for entry in found.entries)


def test_what_is_first_is_served_first() -> None:
    small = ("{bed: Long, size: 1 x 4}",)
    one, other = WANT.replace("}", ", first: yes}"), ALSO
    found = supply_of(fill(season(wants=(one, other), beds=small)).after)
    turned = supply_of(
        fill(season(wants=(WANT, ALSO.replace("}", ", first: yes}")), beds=small)).after
    )
    assert found[0].unmet < turned[0].unmet
    assert turned[1].unmet < found[1].unmet


def test_what_is_wanted_once_counts_for_four_weeks() -> None:
    # Leaves in the whole bed would bring three weeks' of seven, beans four fifths of 4 kg: 0.8 of
    # one week, or of four.
    once = "{crop: bean, amount: 4 kg, in: 2026-W33}"
    found = fill(season(wants=(once, ALSO), beds=("{bed: Long, size: 1 x 6}",)))
    bean = next(each for each in supply_of(found.after) if each.crop.name == "bean")
    assert bean.unmet < 0.25


LONG = gardens.crop(
    "long",
    yield_per_plant="1",
    days_to_harvest="50-80",
    picking_days="40",
    family="long family",
)
LONG_WANT = "{crop: long, amount: 2 kg, from: 07-13, until: 09-06}"


def test_a_week_that_few_plants_are_ripe_for_is_not_bought_with_a_glut() -> None:
    # Sown as early as is safe few are ripe in the first week: enough of them for it would bring
    # twelve times what is wanted in August.
    want = LONG_WANT.replace("07-13", "06-29")
    found = fill(season(wants=(want,), crops=(LONG,), beds=("{bed: Long, size: 2 x 80}",)))
    (supply,) = supply_of(found.after)
    assert all(week.expected < 3 * week.want for week in supply.weeks if week.want)
    assert supply.unmet < 1.5  # the first week and a part of the second


def test_nothing_is_sown_for_the_first_handful_of_its_harvest() -> None:
    # Beans are safe to sow up to August; what is sown in the last weeks before the want ends would
    # bring it a tenth of its harvest or less.
    before = season(wants=(WANT.replace("09-13", "07-19"),), today=date(2026, 5, 25))
    days = [date.fromordinal(option.first) for option in _options(before)]
    # Sown on 25 May beans are picked from 14 July on: six days of fourteen are wanted. Sown a week
    # later they are picked after the last wanted week.
    assert days == [date(2026, 5, 25)]
    shorter = season(wants=(WANT.replace("09-13", "07-19"),), today=date(2026, 5, 29))
    assert _options(shorter) == []


@pytest.mark.parametrize(
    ("today", "offered"), [(date(2026, 6, 6), True), (date(2026, 6, 7), False)]
)
def test_a_tenth_of_a_harvest_that_is_wanted_is_worth_its_sowing(
    today: date, offered: bool
) -> None:
    # Sown on 6 June heads are cut from Sunday 26 July on, for ten days: one of them is wanted.
    head = gardens.leaf("bean", yield_per_plant="1", picking_days="1", holding_days="9-9")
    want = "{crop: bean, amount: 2 kg, in: 2026-W30}"
    found = _options(season(wants=(want,), crops=(head,), today=today))
    days = [date.fromordinal(option.first) for option in found]
    assert days == ([today] if offered else [])


@pytest.mark.parametrize("days", range(7))
def test_the_last_safe_day_is_offered_whichever_day_it_is_filled_on(days: int) -> None:
    today = date(2026, 7, 1) + timedelta(days=days)
    of = season(wants=(WANT.replace("09-13", "10-04"),), crops=(BEAN,), today=today)
    offered = [date.fromordinal(option.first) for option in _options(of)]
    last = gardens.prospects(gardens.text(crops=(BEAN,)), "bean").windows[-1].last
    assert (offered[0], offered[-1]) == (today, last)
    # One Saturday in each week, none nearer than five days to the first day or the last: at most
    # four days more than a week lie between two of them.
    assert all(5 <= (later - day).days <= 11 for day, later in pairwise(offered))
    assert {day.weekday() for day in offered[1:-1]} <= {SATURDAY}


@pytest.mark.parametrize(("picking", "is_long"), [("9", False), ("10", True)])
def test_sixty_days_in_the_ground_are_a_long_stay(picking: str, is_long: bool) -> None:
    # 50 days to the first pick and ten of picking: gone on the sixtieth day after sowing.
    bean = BEAN.replace("picking_days: 14", f"picking_days: {picking}")
    option = _options(season(crops=(bean,), today=date(2026, 6, 1)))[0]
    assert option.pulled - option.first == 50 + int(picking)
    assert option.is_long is is_long


_STAY = st.tuples(st.sampled_from((0, 59, 60, 61)), st.sampled_from((59, 60)), st.booleans())


@given(_STAY, _STAY)
def test_two_of_a_family_clash_where_a_long_stay_is_followed_by_what_rotates(
    one: tuple[int, int, bool], other: tuple[int, int, bool]
) -> None:
    def planted(stay: tuple[int, int, bool]) -> PlantingOption:
        first, days, rotates = stay
        return replace(_ANY, first=first, pulled=first + days, rotates=rotates)

    (begun, days, _), (later, _, rotates) = sorted((one, other))
    clash = begun + days <= later and days >= LONG_STAY and rotates
    assert clashes(planted(one), planted(other)) is clash
    assert clashes(planted(other), planted(one)) is clash


_ANY = PlantingOption(
    want=0,
    crop=next(each.crop for each in gardens.read(gardens.text(gardens.wave())).entries),
    raised=Raised.DIRECT,
    ground=0.0,
    first=0,
    pulled=1,
    area=1,
    gives=(),
    unasked=0.0,
    whole=4,
    most=8,
    least=1,
    family="bean",
    rotates=True,
)


def test_the_week_that_runs_is_still_to_be_served_and_the_one_before_is_not() -> None:
    weeks = {}
    for today in (date(2026, 7, 19), date(2026, 7, 20)):  # a Sunday, a Monday
        of = season(today=today)
        weeks[today] = to_fill(of, supply_of(of)[0]).weeks
    sunday, monday = weeks.values()
    assert sunday[0] == week_of(date(2026, 7, 13))
    assert monday == sunday[1:]


def _options(of: Season) -> list[PlantingOption]:
    return list(options_for(of, 0, to_fill(of, supply_of(of)[0])))


def test_what_is_first_leaves_room_for_the_rest() -> None:
    wants = (LONG_WANT.replace("}", ", first: yes}"), ALSO)
    one, other = supply_of(fill(season(wants=wants, crops=(LONG, LEAF))).after)
    assert one.unmet < 2
    assert other.unmet < 1


def test_the_demos_summer_has_no_avoidable_gap_once_it_is_filled() -> None:
    demo = load_demo()
    assert demo.garden is not None
    before = season_of(demo.garden, DEMO_TODAY)

    def avoidable(of: Season) -> list[tuple[str, Why]]:
        gaps = ((each.crop.name, gap) for each in supply_of(of) for gap in shortages_of(of, each))
        return [(crop, gap.why) for crop, gap in gaps if gap.why in AVOIDABLE]

    assert avoidable(before)
    assert avoidable(filled(before, supply_of(before)).after) == []


def test_one_crop_alone() -> None:
    found = fill(season(wants=(WANT, ALSO)), "leaf")
    assert {entry.crop.name for entry in found.entries} == {"leaf"}


def test_rotation_keeps_a_family_out() -> None:
    # Beans stay more than sixty days and want three years between: no bed has them twice.
    bean = BEAN.replace("rotation: 0", "rotation: 3").replace(
        "days_to_harvest: 50", "days_to_harvest: 62"
    )
    grew = ("{bed: Long, size: 1 x 20, grew: {2025: bean family}}", "{bed: Wide, size: 1 x 9}")
    found = fill(season(crops=(bean,), beds=grew)).after
    assert {stand.bed.name for wave in found.waves for stand in wave.stands} == {"Wide"}
    stays = [(w.stages.plant.day, w.stages.pull_out.day) for w in found.waves]
    for first, pulled in stays:
        assert (pulled - first).days >= LONG_STAY
        assert not any(pulled <= later for later, _ in stays)


@pytest.mark.parametrize(("rotation", "first_of_all"), [("0", False), ("3", True)])
def test_a_long_stay_closes_a_bed_to_its_family(rotation: str, first_of_all: bool) -> None:
    # Sown on 10 May beans are pulled on 11 July, after 62 days; sown then, they are picked in
    # September. Rotation lets only one of the two stand there.
    bean = BEAN.replace("rotation: 0", f"rotation: {rotation}").replace(
        "days_to_harvest: 50", "days_to_harvest: 48"
    )
    wants = (WANT.replace("07-13", "06-29"),)
    found = fill(season(wants=wants, crops=(bean,), beds=("{bed: Long, size: 1 x 9}",))).after
    stays = [(w.stages.plant.day, w.stages.pull_out.day) for w in found.waves]
    assert all((pulled - first).days >= LONG_STAY for first, pulled in stays)
    again = any(pulled <= later for _, pulled in stays for later, _ in stays)
    assert again is not first_of_all
    # And so after what the file has planted.
    early = gardens.wave("bean", start="05-10", plants="2", beds="[Long]")
    after = fill(season(early, crops=(bean,), beds=("{bed: Long, size: 1 x 9}",)))
    late = [entry for entry in after.entries if entry.start and entry.start >= date(2026, 7, 11)]
    assert bool(late) is not first_of_all


def test_a_want_larger_than_any_bed_is_shared_among_several() -> None:
    want = WANT.replace("2 kg", "60 kg")
    beds = tuple(f"{{bed: B{number}, size: 1 x 10}}" for number in range(4))
    found = fill(season(wants=(want,), beds=beds))
    assert {entry.beds[0].name for entry in found.entries} == {"B0", "B1", "B2", "B3"}


def test_a_taken_bed_is_left_alone() -> None:
    beds = ("{bed: Long, size: 1 x 20, taken: 06-15..08-15}", "{bed: Wide, size: 1 x 1}")
    found = fill(season(beds=beds)).after
    for wave in found.waves:
        if wave.stands[0].bed.name == "Long":
            assert wave.stages.pull_out.day <= date(2026, 6, 15) or (
                wave.stages.plant.day > date(2026, 8, 15)
            )


def test_more_plants_of_an_option_never_give_less_and_no_more_than_fit() -> None:
    before = season()
    (supply,) = supply_of(before)[:1]
    options = tuple(options_for(before, 0, to_fill(before, supply)))
    assert options
    free = SearchGround(options, FreeBeds(before))
    for number in range(len(options)):
        assert free.room(number, 0) == 20  # a metre by twenty, a square metre each
        free.take(number, 0, 5)
        assert free.room(number, 0) == 15
        free.take(number, 0, -5)
    # What is taken at the end of its stay is taken from it as well.
    first = options[0]
    late = next(n for n, each in enumerate(options) if first.first < each.first < first.pulled)
    free.take(late, 0, 12)
    assert free.room(0, 0) == 8
    assert not clash(options[0], options[0])


def test_with_nothing_planted_and_eight_wants_a_plan_stands_in_one_go() -> None:
    wants = "".join(
        f"  - {{crop: {crop}, amount: {amount}, from: {first}, until: {last}}}\n"
        for crop, amount, first, last in (
            ("bush bean", "1 lb", "07-13", "09-13"),
            ("summer squash", "2 lb", "07-13", "09-13"),
            ("lettuce", "0.5 lb", "06-08", "07-12"),
            ("carrot", "1 lb", "08-03", "10-18"),
            ("beet", "1 lb", "07-20", "09-27"),
            ("tomato", "2 lb", "08-24", "09-20"),
            ("cucumber", "1 lb", "07-27", "09-06"),
            ("kale", "0.5 lb", "09-07", "10-18"),
        )
    )
    file = (
        "site: {name: A, latitude: 43, units: us, frost: {last: 05-08, first: 10-02},\n"
        "       warmest_month: 71, coldest_month: 24}\nseason: 2026\nbeds:\n"
        + "".join(f"  - {{bed: B{n}, size: 4 x 12}}\n" for n in range(6))
        + f"want:\n{wants}"
    )
    before = gardens.season(file)
    promised = lines(before, fill(before))
    assert {line.crop for line in promised.lines} == {each.crop for each in promised.crops}
    assert promised.unmet_after < promised.unmet_before / 6
    assert unmet(pasted(file, promised)) == pytest.approx(promised.unmet_after)
