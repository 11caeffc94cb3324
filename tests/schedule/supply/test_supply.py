"""The supply of a season: what is wanted, what waves bring week by week, and in how many years."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import gardens
from sowtide.garden.journal import journal_of
from sowtide.garden.read import read_garden
from sowtide.garden.want import Met
from sowtide.schedule.season import Season
from sowtide.schedule.supply import CropSupply, WeekSupply, gluts_of, supply_of
from sowtide.schedule.supply.shape import borne_before
from sowtide.season import season_of

FRUIT = gardens.crop(yield_per_plant="1-3", days_to_harvest="50", picking_days="14")
HEAD = gardens.leaf("head", yield_per_plant="1", picking_days="1", holding_days="7-7")
WIDE = "{bed: Long, size: 10 x 10}"


def season(*waves: str, want: str = "", crops: tuple[str, ...] = (FRUIT,), **site: str) -> Season:
    """Return the season of a garden that wants something."""
    file = gardens.text(*waves, crops=crops, beds=(WIDE,), **site)
    return gardens.season(file + (f"want:\n  - {{{want}}}\n" if want else ""))


def supply(*waves: str, want: str = "", **more: object) -> CropSupply:
    """Return the supply of the first crop of a garden."""
    return supply_of(season(*waves, want=want, **more))[0]  # type: ignore[arg-type]


def in_week(found: CropSupply, monday: date) -> WeekSupply:
    """Return a week by its Monday."""
    return next(each for each in found.weeks if each.week == monday)


# The shape


def test_a_sixth_is_borne_early_two_thirds_in_full_and_a_sixth_late() -> None:
    # 8 days: 2 of half, 4 of whole, 2 of half a day's bearing: 6 in all; 1, 5, 6 sixths.
    shares = borne_before(8, at_once=False)
    assert [shares[2], shares[6], shares[8]] == pytest.approx([1 / 6, 5 / 6, 1])


def test_what_stands_over_the_winter_bears_a_quarter_of_a_full_day() -> None:
    # 8 usual days as above come to 6 full ones, 12 more to 3: 9 in all, 6/9 of it by the 8th day.
    shares = borne_before(20, at_once=False, usual=8)
    assert [shares[2], shares[6], shares[8]] == pytest.approx([1 / 9, 5 / 9, 6 / 9])
    assert [shares[12], shares[20]] == pytest.approx([7 / 9, 1])
    assert borne_before(8, at_once=False, usual=20) == borne_before(8, at_once=False)


def test_what_is_cut_once_is_cut_evenly() -> None:
    assert borne_before(4, at_once=True) == (0, 0.25, 0.5, 0.75, 1)


# What waves bring


def test_a_wave_by_hand() -> None:
    # Sown on Monday 1 June, 50 days to Tuesday 21 July, picked for 14 days to 3 August. At 2 kg a
    # plant 10 plants give 20 kg. A full day bears 20 / (3.5/2 + 7 + 3.5/2) = 20/10.5 kg. The week
    # of 20 July holds its first 6 days: 3.5 slow and 2.5 full, 4.25 full days; that of 27 July the
    # next 7: 4.5 full and 2.5 slow, 5.75; 3 August is the last, a slow one: 0.5.
    # Allowance: planted after the last frost (10 May), so none.
    found = supply(gardens.wave(start="2026-06-01", plants="10"))
    expected = {each.week: each.expected for each in found.weeks}
    first = date(2026, 7, 20)
    full = 20 / 10.5
    assert expected == pytest.approx(
        {
            first: 4.25 * full,
            first + timedelta(days=7): 5.75 * full,
            first + timedelta(days=14): 0.5 * full,
        },
        abs=1e-6,
    )


def test_the_range_goes_from_the_low_yield_to_the_high() -> None:
    week = in_week(supply(gardens.wave(start="2026-06-01", plants="10")), date(2026, 7, 20))
    assert week.low == pytest.approx(week.expected / 2)  # 1 kg of 2
    assert week.high == pytest.approx(week.expected * 3 / 2)


def test_the_weeks_add_up_to_the_yield_of_the_waves() -> None:
    found = supply(
        gardens.wave(start="2026-06-01", plants="7"),
        gardens.wave(name="more", start="2026-06-10", plants="4"),
        crops=(gardens.crop(yield_per_plant="1-3", days_to_harvest="40-60"),),
    )
    assert sum(each.expected for each in found.weeks) == pytest.approx(2 * 11, abs=0.01)


def test_what_frost_ends_is_not_picked() -> None:
    # 50 days and all 14 of the fall allowance from 30 July on: 1 October, when in half the years it
    # has frozen.
    found = supply(gardens.wave(start="2026-07-30", plants="10"))
    total = sum(each.expected for each in found.weeks)
    assert 0 < total < 10


def test_a_crop_cut_once_is_spread_over_the_days_it_holds() -> None:
    # 50 days from 2 May, 9 of them slow before the last frost: 30 June in any case, then 7 days.
    found = supply(gardens.wave("head", start="2026-05-02", plants="8"), crops=(HEAD,))
    weeks = [each for each in found.weeks if each.expected]
    assert sum(each.expected for each in weeks) == pytest.approx(8, abs=1e-6)
    assert len(weeks) in (2, 1)


def test_heads_of_a_crop_weighed_can_be_wanted_by_the_piece() -> None:
    found = supply(
        gardens.wave("head", start="2026-05-02", plants="10"),
        want="crop: head, amount: 3, from: 06-01, until: 07-31",
        crops=(HEAD,),
    )
    assert found.asked.unit == "pieces"
    assert sum(each.expected for each in found.weeks) == pytest.approx(10 * 0.9, abs=1e-6)


TWO_WAYS = (
    "crop: head, amount: 2 kg, from: 06-29, until: 07-05}\n"
    "  - {crop: head, amount: 3 heads, from: 06-29, until: 07-05}\n"
    "  - {crop: head, amount: 1 kg, from: 06-29, until: 07-05"
)


def test_a_crop_wanted_by_weight_and_by_number_is_counted_once() -> None:
    # A plant gives 1 kg, or 0.8 to 1 head, 0.9 in the middle: a head counts as 1 / 0.9 kg, three of
    # them as 3.33; with 2 and 1 kg that is 6.33 kg in the week. Ten plants bring 10 kg in all.
    found = season(
        gardens.wave("head", start="2026-05-02", plants="10"), want=TWO_WAYS, crops=(HEAD,)
    )
    (only,) = supply_of(found)
    assert only.asked.unit == "kg"
    assert in_week(only, date(2026, 6, 29)).want == pytest.approx(3 + 3 / 0.9)
    assert sum(each.expected for each in only.weeks) == pytest.approx(10, abs=1e-6)
    assert [(each.unit, each.amount) for each in only.asked.converted] == [
        ("heads", pytest.approx(1 / 0.9))
    ]


def test_what_is_wanted_first_says_how_a_crop_is_counted() -> None:
    heads_first = (
        "crop: head, amount: 3 heads, from: 06-29, until: 07-05}\n"
        "  - {crop: head, amount: 2 kg, from: 06-29, until: 07-05"
    )
    (only,) = supply_of(season(want=heads_first, crops=(HEAD,)))
    assert only.asked.unit == "heads"
    assert in_week(only, date(2026, 6, 29)).want == pytest.approx(3 + 2 * 0.9)


def test_what_was_picked_either_way_counts_for_a_crop_that_is_wanted_both_ways() -> None:
    said = (
        b"- {on: 2026-06-30, wave: head-1, did: picked, amount: 1.5kg}\n"
        b"- {on: 2026-07-01, wave: head-1, did: picked, amount: 2}\n"
    )
    wave = gardens.wave("head", start="2026-05-02", plants="10")
    text = gardens.text(wave, crops=(HEAD,), beds=(WIDE,)) + f"want:\n  - {{{TWO_WAYS}}}\n"
    journal = journal_of(said, "journal.yaml").journal
    told = supply_of(season_of(gardens.read(text), date(2026, 7, 2), None, journal))
    assert in_week(told[0], date(2026, 6, 29)).got == pytest.approx(1.5 + 2 / 0.9)


# The edges of what is enough

EIGHT = gardens.wave("head", start="2026-05-31", plants="8")
SIX_DAYS = gardens.leaf("head", yield_per_plant="1", picking_days="1", holding_days="6-6")


@pytest.mark.parametrize(
    ("amount", "met", "odds", "gluts"),
    [
        ("3.9", Met.ENOUGH, 1, 1),
        ("4", Met.ENOUGH, 1, 0),  # twice what is wanted is no glut yet
        ("8", Met.ENOUGH, 1, 0),  # just what is wanted is enough, in every year
        ("8.1", Met.SOME, 0, 0),
        ("16", Met.SOME, 0, 0),  # half of it is no gap
        ("16.1", Met.LESS, 0, 0),
    ],
)
def test_what_is_just_enough_is_enough(amount: str, met: Met, odds: float, gluts: int) -> None:
    # 50 days from Sunday 31 May are Monday 20 July; heads of 1 kg hold for six days from then on.
    want = f"crop: head, amount: {amount} kg, in: 2026-W30"
    found = supply(EIGHT, want=want, crops=(SIX_DAYS,))
    (week,) = (each for each in found.weeks if each.expected)
    assert (week.week, week.expected) == (date(2026, 7, 20), 8)
    assert (week.met, week.odds) == (met, odds)
    assert len(gluts_of(found)) == gluts


def test_what_is_picked_on_one_day_alone_is_picked() -> None:
    once = gardens.crop("head", yield_per_plant="1", picking_days="1")
    found = supply(EIGHT, want="crop: head, amount: 1 kg, in: 2026-W30", crops=(once,))
    assert [(each.week, each.expected) for each in found.weeks] == [(date(2026, 7, 20), 8)]
    assert [each.waves for each in gluts_of(found)] == [1]


# What is wanted


def test_a_week_wants_by_the_days_it_has() -> None:
    # From Saturday 20 June: two of seven days of that week.
    found = supply(want="crop: fruit, amount: 7 kg, from: 06-20, until: 07-05")
    wanted = {each.week: each.want for each in found.weeks}
    assert wanted == pytest.approx(
        {date(2026, 6, 15): 2, date(2026, 6, 22): 7, date(2026, 6, 29): 7}
    )


def test_a_batch_is_wanted_in_its_week() -> None:
    found = supply(want="crop: fruit, amount: 20 kg, in: 2026-W31")
    assert [(each.week, each.want) for each in found.weeks] == [(date(2026, 7, 27), 20)]


def test_what_each_person_wants_is_wanted_of_all() -> None:
    want = "crop: fruit, amount: 500 g, per: person, every: day, from: 07-06, until: 07-12"
    assert supply(want=want, people="4").weeks[0].want == pytest.approx(14)  # 0.5 kg x 4 x 7 days


def test_without_days_a_crop_is_wanted_as_long_as_it_can_be_had() -> None:
    found = supply(want="crop: fruit, amount: 1 kg")
    within = found.asked.within
    assert within is not None
    judged = gardens.prospects(gardens.text(crops=(FRUIT,))).judge(
        gardens.planted(gardens.prospects(gardens.text(crops=(FRUIT,))).windows[0].first)
    )
    assert judged.stages.first_pick is not None
    assert within.first == judged.stages.first_pick[0].day
    assert found.weeks[0].week <= within.first <= found.weeks[0].week + timedelta(days=6)


def test_unmet_is_a_share_of_each_weeks_want() -> None:
    # 20 kg over three weeks (see by hand): 8.1, 10.95, 0.95 against 16 each: half of one week, ...
    found = supply(
        gardens.wave(start="2026-06-01", plants="10"),
        want="crop: fruit, amount: 16 kg, from: 07-20, until: 08-09",
    )
    full = 20 / 10.5 / 16
    assert found.unmet == pytest.approx(3 - (4.25 + 5.75 + 0.5) * full)


def test_a_kind_is_served_by_its_varieties_and_not_the_other_way_round() -> None:
    crops = "crops:\n  Roma: {like: tomato}\n"
    head = gardens.text(crops=()).replace("crops:\n", crops)
    waves = "waves:\n  - {crop: Roma, plants: 6, from: 06-01}\n"
    of = "want:\n  - {crop: NAME, amount: 1 kg}\n"
    wide = head.replace("1 x 10", "9 x 10")
    tomato = gardens.season(wide + waves + of.replace("NAME", "tomato"))
    assert [len(each.waves) for each in supply_of(tomato)] == [1]
    roma = gardens.season(wide + waves.replace("Roma", "tomato") + of.replace("NAME", "Roma"))
    assert [(each.crop.name, len(each.waves)) for each in supply_of(roma)] == [
        ("Roma", 0),
        ("tomato", 1),
    ]


def test_what_is_wanted_by_its_own_name_is_not_counted_twice() -> None:
    """Six plants of one tomato and three of another, and who wants any, wants one of them too."""
    file = gardens.text(
        "{crop: Roma, plants: 6, from: 06-01}",
        "{crop: Plum, plants: 3, from: 06-01}",
        crops=("Roma: {like: tomato}", "Plum: {like: tomato}"),
        beds=(WIDE,),
    )
    wants = "want:\n  - {crop: tomato, amount: 1 kg}\n"
    (alone,) = supply_of(gardens.season(file + wants))
    assert [wave.id for wave in alone.waves] == ["Roma-1", "Plum-1"]
    both = supply_of(gardens.season(file + wants + "  - {crop: Roma, amount: 1 kg}\n"))
    assert [[wave.id for wave in each.waves] for each in both] == [["Plum-1"], ["Roma-1"]]
    brought = sum(week.expected for each in both for week in each.weeks)
    assert brought == pytest.approx(sum(week.expected for week in alone.weeks))


def test_a_relative_that_bears_a_built_in_name_is_not_the_kind() -> None:
    # Parsnip is made like carrot here. Who wants parsnip is not served by carrots; who grows both
    # and wants neither sees each by itself.
    parsnip = "parsnip: {like: carrot, days_to_harvest: 110}"
    waves = (
        "{crop: carrot, plants: 100, from: 2026-04-20}",
        "{crop: parsnip, plants: 40, from: 2026-04-20}",
    )
    (wanted, *_) = supply_of(season(*waves, want="crop: parsnip, amount: 1 kg", crops=(parsnip,)))
    assert [wave.id for wave in wanted.waves] == ["parsnip-1"]
    carrot, alone = supply_of(season(*waves, crops=(parsnip,)))
    assert [wave.id for wave in carrot.waves] == ["carrot-1"]
    assert [wave.id for wave in alone.waves] == ["parsnip-1"]
    # Carrots are the kind: who wants them is served by all that is made like them.
    (wanted, *_) = supply_of(season(*waves, want="crop: carrot, amount: 1 kg", crops=(parsnip,)))
    assert [wave.id for wave in wanted.waves] == ["carrot-1", "parsnip-1"]


# Properties


@pytest.mark.parametrize("more", [1, 5, 30])
def test_more_plants_never_mean_less_in_any_week(more: int) -> None:
    few = supply(gardens.wave(start="2026-07-20", plants="3", every="9", count="3"))
    many = supply(gardens.wave(start="2026-07-20", plants=str(3 + more), every="9", count="3"))
    assert [each.week for each in few.weeks] == [each.week for each in many.weeks]
    for one, other in zip(few.weeks, many.weeks, strict=True):
        assert other.low >= one.low
        assert other.expected >= one.expected
        assert other.high >= one.high


def test_a_later_frost_never_means_less_in_total() -> None:
    totals = []
    for first in ("09-20", "09-27", "10-01", "10-09", "10-25"):
        found = gardens.season(
            gardens.text(
                gardens.wave(start="2026-07-10", plants="3", every="7", count="4"),
                crops=(FRUIT,),
                beds=(WIDE,),
                frost=f"{{last: 05-10, first: {first}}}",
            )
        )
        totals.append(sum(each.expected for each in supply_of(found)[0].weeks))
    assert totals == sorted(totals)
    assert totals[0] < totals[-1]


# Reading


def test_wants_are_read_in_the_units_they_are_written_in() -> None:
    text = gardens.text(crops=(FRUIT,)) + "want:\n  - {crop: fruit, amount: 8 oz, first: yes}\n"
    garden = read_garden(text.encode(), "garden.yaml").garden
    assert garden is not None
    (want,) = garden.wants
    assert want.amount == pytest.approx(0.2268, abs=1e-4)  # half a pound
    assert (want.unit, want.every, want.is_first) == ("kg", 7, True)
