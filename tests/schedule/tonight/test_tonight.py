"""The evening when frost is forecast: the classes' figures, sky and covers, and what stands."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random

import pytest

import drawn
import gardens
from printed import form, page, week_text
from sowtide.garden.crop import Hardiness
from sowtide.garden.journal import journal_of
from sowtide.report import tonight
from sowtide.schedule.at_risk import at_risk
from sowtide.schedule.season import Season
from sowtide.schedule.tonight import (
    CLEAR_AND_CALM,
    DAMP,
    HOLDS,
    SLACK,
    Action,
    Evening,
    Forecast,
    Sky,
    action_of,
    air_at,
    evening_of,
)
from sowtide.schedule.work import week_sheets
from sowtide.season import season_of
from sowtide.units import celsius

BEDS = ("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10, colder_by: 1, cover: 3}")


def season(file: str, today: date, *entries: str) -> Season:
    """Return a season, with a journal where there are entries."""
    if not entries:
        return season_of(gardens.read(file), today)
    read = journal_of("".join(f"- {{{each}}}\n" for each in entries).encode(), "journal.yaml")
    return season_of(gardens.read(file), today, None, read.journal)


def actions(found: Evening) -> dict[str, Action]:
    return {each.wave.id: each.action for each in found.threatened}


# The thresholds of the national freeze-probability tables, in °F.
CLASSES = {
    Hardiness.VERY_TENDER: 36,
    Hardiness.TENDER: 32,
    Hardiness.HALF_HARDY: 28,
    Hardiness.HARDY: 24,
    Hardiness.HARDIEST: 20,
}


@pytest.mark.parametrize("hardiness", Hardiness)
def test_each_class_is_covered_at_its_own_figure_and_left_well_above_it(
    hardiness: Hardiness,
) -> None:
    crop = replace(gardens.season(gardens.text()).garden.crops[0], hardiness=hardiness)
    slack = 2 if hardiness.is_tender else 0
    covered = CLASSES[hardiness] + slack

    def asked(low: float) -> tuple[Action, bool]:
        return action_of(crop, celsius(low), ripe=False, saves=20, holds=HOLDS)

    assert asked(covered + 2.1) == (Action.LEAVE, False)
    assert asked(covered + 2) == (Action.WATER, False)
    assert asked(covered + 0.1) == (Action.WATER, False)
    assert asked(covered) == (Action.COVER, False)
    assert asked(CLASSES[hardiness] - 4) == (Action.COVER, False)  # what a cover holds
    assert asked(CLASSES[hardiness] - 4.1) == (Action.COVER, True)


def test_in_the_range_of_a_frost_advisory_something_tender_is_always_seen_to() -> None:
    # 33–36 °F, National Weather Service: a bean is watered at 36 and covered at 34.
    bean = gardens.season(gardens.text()).garden.crops[0]
    assert bean.hardiness is Hardiness.TENDER
    for low in (33, 34, 35, 36):
        action, _ = action_of(bean, celsius(low), ripe=True, saves=20, holds=HOLDS)
        assert action is (Action.COVER if low <= 34 else Action.WATER)


@pytest.mark.parametrize(
    ("sky", "colder_by", "long_", "low"),
    [
        # Low lies a degree lower, and its cover of 3 keeps on.
        (Sky.NOT_SAID, 0.0, 0.0, 2.0),
        (Sky.NOT_SAID, 2.0, -2.0, 0.0),
        (Sky.CLOUDY, 2.0, 0.0, 3.0),
        # 4 °F, 2.2 °C: University of Vermont. What the file says is used where it is more.
        (Sky.CLEAR, 0.0, -CLEAR_AND_CALM, 3 - CLEAR_AND_CALM),
        (Sky.CLEAR, 4.0, -4.0, -2.0),
    ],
)
def test_how_cold_it_gets_hangs_on_the_sky_the_hollow_and_the_cover(
    sky: Sky, colder_by: float, long_: float, low: float
) -> None:
    assert pytest.approx(20 / 9) == CLEAR_AND_CALM
    beds = gardens.read(gardens.text(beds=BEDS)).beds
    air = [air_at(Forecast(0.0, sky), bed, colder_by=colder_by) for bed in beds]
    assert air == pytest.approx([long_, low])


SPRING = gardens.text(
    gardens.wave(plants="2", start="05-20"),
    gardens.wave("late", plants="2", start="05-20"),
    gardens.wave("late", name="next", plants="2", start="05-24"),
    crops=(
        gardens.crop(),
        gardens.crop("late", raised="trays", nursery_days="28", hardening_days="7"),
    ),
    fall_allowance="0",
)


def test_what_is_not_up_is_let_be_and_what_was_just_set_out_is_covered() -> None:
    # fruit-1 is up 10 days after 20 May; late-1 went out that day; next-1 hardens off.
    found = evening_of(season(SPRING, date(2026, 5, 23)), Forecast(-1.0))
    assert actions(found) == {"late-1": Action.COVER}
    assert [wave.id for wave in found.seedlings] == ["next-1"]
    assert [(each.wave.id, each.due, each.until) for each in found.put_off] == [
        ("next-1", date(2026, 5, 24), date(2026, 5, 26))
    ]
    warm = evening_of(season(SPRING, date(2026, 5, 23)), Forecast(8.0))
    assert (warm.seedlings, warm.put_off) == ((), ())
    up = evening_of(season(SPRING, date(2026, 5, 30)), Forecast(-1.0))
    assert actions(up)["fruit-1"] is Action.COVER


AUTUMN = gardens.text(
    gardens.wave(plants="2", start="07-20"),
    gardens.wave("squash", plants="2", start="06-10"),
    gardens.wave("root", plants="2", start="07-01"),
    crops=(
        gardens.crop(days_to_harvest="50", picking_days="40"),
        gardens.crop("squash", days_to_harvest="100", picking_days="1", after_frost="bring in"),
        gardens.leaf("root", days_to_harvest="60", picking_days="30", after_frost="stands"),
    ),
    fall_allowance="0",
)


def test_a_bed_whose_own_cover_is_counted_on_says_that_it_has_to_be_on() -> None:
    # A sowing of 1 August in a bed with a cover of 3 °C, which is a degree colder than the site:
    # at 0 °C it has 2 °C under its cover, and -1 °C, its end, without.
    file = gardens.text(
        gardens.wave(plants="2", start="08-01", beds="[Low]"),
        gardens.wave("root", plants="2", start="07-20", beds="[Hardy]"),
        beds=(*BEDS, "{bed: Hardy, size: 1 x 10, cover: 3}"),
        crops=(
            gardens.crop(days_to_harvest="50", picking_days="40"),
            gardens.leaf("root", days_to_harvest="60", after_frost="stands"),
        ),
        fall_allowance="0",
    )
    at = {
        low: evening_of(season(file, date(2026, 9, 15)), Forecast(low)) for low in (0.0, 1.0, 4.0)
    }
    assert actions(at[0.0]) == {"fruit-1": Action.WATER, "root-1": Action.LEAVE}
    assert [bed.name for bed in at[0.0].closed] == ["Low"]  # what stands frost needs none
    # At 1 °C it has 3 °C and needs nothing more; without, 0 °C.
    assert (actions(at[1.0])["fruit-1"], at[1.0].closed) == (Action.LEAVE, at[0.0].closed)
    # At 4 °C it would have 3 °C without: over the 2.2 °C up to which a tender crop is watered.
    assert (actions(at[4.0])["fruit-1"], at[4.0].closed) == (Action.LEAVE, ())
    shown = tonight.view(season(file, date(2026, 9, 15)), Forecast(0.0))
    lines = page(tonight.REPORT, shown)
    (told,) = [line for line in lines if "its cover" in line]
    assert "Low  its cover  on and closed before dusk: 2 °C below it" in told
    assert [bed.bed for bed in shown.beds if bed.cover_on] == ["Low"]
    assert "Water the ground, not the leaves" in " ".join(" ".join(lines).split())


def test_what_a_cover_saves_and_holds_is_counted_to_the_edge() -> None:
    crop = gardens.season(gardens.text()).garden.crops[0]  # tender, lost at 0 °C

    def asked(low: float, saves: float) -> tuple[Action, bool]:
        return action_of(crop, low, ripe=False, saves=saves, holds=2.0)

    assert asked(-2.0, 3.0) == (Action.COVER, False)  # three days are worth it, 2 °C are held
    assert asked(-2.1, 3.0) == (Action.COVER, True)
    assert asked(-2.0, 2.9) == (Action.LEAVE, False)


def test_seedlings_are_out_from_their_first_day_of_hardening_until_they_are_planted() -> None:
    # next-1 goes out on 24 May and hardens off for seven days, from the 17th on. On the evening of
    # the 24th it is put off, so it is not counted as planted that day but as still on the bench.
    def where(day: int) -> str:
        found = evening_of(season(SPRING, date(2026, 5, day)), Forecast(-1.0))
        places = {"bench": found.seedlings, "bed": [each.wave for each in found.threatened]}
        (*names,) = (name for name, of in places.items() if "next-1" in [wave.id for wave in of])
        return " ".join(names)

    places = [where(day) for day in (16, 17, 23, 24, 25)]
    assert places == ["", "bench", "bench", "bench", "bed"]


def test_planting_out_is_put_off_where_it_is_due_within_two_days() -> None:
    def due(day: int) -> list[str]:
        found = evening_of(season(SPRING, date(2026, 5, day)), Forecast(-1.0)).put_off
        return [each.wave.id for each in found if each.wave.id == "next-1"]

    found = [due(day) for day in (21, 22, 24, 25)]
    assert found == [[], ["next-1"], ["next-1"], []]


def test_the_cover_of_a_bed_keeps_no_seedlings_warm_that_stand_outside_it() -> None:
    # 0 °C is 5 °C under the cover; what hardens off stands in the open.
    file = SPRING.replace("size: 1 x 10}", "size: 1 x 10, cover: 5}")
    found = evening_of(season(file, date(2026, 5, 23)), Forecast(0.0))
    assert [wave.id for wave in found.seedlings] == ["next-1"]


def test_what_a_night_may_take_is_counted_from_the_next_day_on() -> None:
    # Planted on 1 June, picked from 21 July, 50 days on, for ten days: to the 30th. On the evening
    # of the 25th five days are left; it is ripe from the 21st on.
    file = gardens.text(
        gardens.wave(plants="2", start="06-01"),
        crops=[gardens.crop(days_to_harvest="50", picking_days="10")],
        fall_allowance="0",
    )
    (each,) = evening_of(season(file, date(2026, 7, 25)), Forecast(-1.0)).threatened
    assert each.saves == pytest.approx(5, abs=0.01)
    ripe = [
        evening_of(season(file, date(2026, 7, day)), Forecast(-1.0)).threatened[0].ripe
        for day in (20, 21)
    ]
    assert ripe == [False, True]


def test_by_the_journal_what_is_gone_or_was_never_planted_is_not_there() -> None:
    day = date(2026, 9, 15)
    file = AUTUMN
    assert set(actions(evening_of(season(file, day), Forecast(-1.0)))) == {
        "fruit-1",
        "squash-1",
        "root-1",
    }
    begun = "on: 2026-06-01, bed: Long, did: watered"
    sown = "on: 2026-07-20, wave: fruit-1, did: sown"
    lost = "on: 2026-09-01, wave: fruit-1, did: lost"
    assert set(actions(evening_of(season(file, day, begun, sown), Forecast(-1.0)))) == {"fruit-1"}
    assert actions(evening_of(season(file, day, begun, sown, lost), Forecast(-1.0))) == {}


def test_what_stands_on_after_the_average_frost_is_still_there() -> None:
    # The plan ends it on 1 October, for frost; it would bear from 8 September for 40 days.
    assert "fruit-1" in actions(evening_of(season(AUTUMN, date(2026, 10, 8)), Forecast(-1.0)))
    assert "fruit-1" not in actions(evening_of(season(AUTUMN, date(2026, 10, 18)), Forecast(-1.0)))


def test_each_is_picked_covered_or_left_for_its_own_reason() -> None:
    day = date(2026, 9, 15)
    found = {e.wave.id: e for e in evening_of(season(AUTUMN, day), Forecast(-1.0)).threatened}
    fruit = found["fruit-1"]
    assert (fruit.action, fruit.ripe, fruit.beyond) == (Action.COVER, True, False)
    # Ripe since 8 September for 40 days: 31 more from the 16th on, cut short by frost.
    assert fruit.saves is not None
    assert 10 < fruit.saves < 31
    assert found["squash-1"].action is Action.PICK  # ripe on 18 September, and ripens on indoors
    assert found["root-1"].action is Action.LEAVE
    cold = {e.wave.id: e for e in evening_of(season(AUTUMN, day), Forecast(-5.0)).threatened}
    assert (cold["fruit-1"].action, cold["fruit-1"].beyond) == (Action.PICK, True)
    assert cold["root-1"].action is Action.LEAVE
    better = evening_of(season(AUTUMN, day), Forecast(-5.0, holds=6.0)).threatened
    assert {e.wave.id: e.action for e in better}["fruit-1"] is Action.COVER


@pytest.mark.parametrize("part", range(4))
def test_of_200_gardens_a_colder_night_never_asks_for_less(part: int) -> None:
    seen = 0
    for seed in range(part * 50, part * 50 + 50):
        chance = Random(seed)
        day = date(2026, 4, 20) + timedelta(days=chance.randrange(210))
        of = season(drawn.covered_garden(chance), day)
        before: dict[tuple[str, str], int] = {}
        for low in (6.0, 4.0, 2.0, 1.0, 0.0, -1.0, -2.5, -4.0, -6.0, -9.0, -15.0):
            sky = Sky.CLEAR if seed % 2 else Sky.NOT_SAID
            for each in evening_of(of, Forecast(low, sky)).threatened:
                key = each.wave.id, each.bed.name
                assert each.action.much >= before.get(key, 0), (seed, low, key)
                before[key] = each.action.much
                killed = each.wave.crop.hardiness.killed_at
                tender = each.wave.crop.hardiness.is_tender
                if each.action is Action.COVER and not tender:
                    assert each.air <= killed + 1e-6
                if each.action in (Action.COVER, Action.PICK):
                    assert each.air <= killed + SLACK + 1e-6
                    assert each.beyond == (each.air < killed - HOLDS - 1e-6)
                    seen += 1
                elif each.action is Action.WATER:
                    assert killed < each.air <= killed + SLACK + DAMP + 1e-6
    assert seen > 100


def test_the_sheet_says_what_to_do_in_the_order_in_which_it_is_done() -> None:
    shown = tonight.view(season(AUTUMN, date(2026, 9, 15)), Forecast(-1.0))
    lines = page(tonight.REPORT, shown)
    heads = [line for line in lines if line in ("PICK FIRST", "COVER", "WATER EARLY")]
    assert heads == ["PICK FIRST", "COVER"]
    text = " ".join(" ".join(lines).split())
    assert "tender, lost at 0 °C; pick what is ripe before you cover it; a cover would save" in text
    assert "LEAVE: root-1." in text
    assert "then ask again with --clear" in text
    assert "take it off in the sun" in text
    assert "Water the ground" not in text  # where nothing is to be watered
    printed = form(tonight.REPORT, shown, "json")
    assert '"action": "pick first"' in printed
    assert '"saves_days"' in printed


def test_the_risk_of_a_week_is_told_from_two_weeks_before_the_early_frosts() -> None:
    # First frosts about 1 October, spread 11 days: 20 % of years by 22 September, 0.84 spreads
    # before. So it is told from the week after 8 September.
    of = season(AUTUMN, date(2026, 9, 1))
    week = timedelta(days=6)
    assert at_risk(of, date(2026, 8, 31), date(2026, 8, 31) + week) is None
    found = at_risk(of, date(2026, 9, 14), date(2026, 9, 14) + week)
    assert found is not None
    assert found.waves == ("fruit-1", "squash-1")
    assert found.beds == ("Long",)
    # A first frost before the 21st, and before the 28th: so many spreads before 1 October, the
    # 31st. Of the years without one by the 21st those that have one in that week.
    found = at_risk(of, date(2026, 9, 21), date(2026, 9, 27))
    assert found is not None
    before, until = (gardens.below((day - 31) / 11) for day in (21, 28))
    assert found.odds == pytest.approx((until - before) / (1 - before), abs=0.005)
    assert at_risk(of, date(2026, 5, 4), date(2026, 5, 10)) is None  # a spring frost is another


def test_the_week_says_it_in_one_line() -> None:
    of = season(AUTUMN, date(2026, 9, 15))
    (sheet,) = week_sheets(
        of.garden, of.waves, date(2026, 9, 14), weeks=1, conditions=of.conditions
    )
    text = " ".join(" ".join(week_text(sheet, of)).split())
    assert "Tender: fruit-1, squash-1, in Long. In " in text
    assert "of 100 years frost ends it this week; when one is forecast ask" in text


@pytest.mark.parametrize(
    ("crop", "leaf", "flowers"),
    # Peas in leaf stand 20 °F, their flowers 28; broad beans about −10 °C, theirs 24 °F
    [("pea", celsius(20), celsius(28)), ("broad bean", -10.0, celsius(24))],
)
def test_what_flowers_can_not_stand_is_let_be_in_leaf(
    crop: str, leaf: float, flowers: float
) -> None:
    file = gardens.text(
        gardens.wave(crop, plants="2", start="03-15"),
        crops=[f"{crop}: {{flower_to_pick: 20}}"],
        frost="{last: 05-10, first: 10-01}",
    )
    opens = gardens.only(file).stages.flower
    assert opens is not None

    def asked(before: int, low: float) -> Action:
        on = season(file, opens.day - timedelta(days=before))
        return actions(evening_of(on, Forecast(low)))[f"{crop.replace(' ', '-')}-1"]

    # The night before the last one without flowers, and the one whose dawn has them
    for low in (flowers, leaf + 1.2):
        assert asked(2, low) is Action.LEAVE
        assert asked(1, low) is Action.COVER
    assert asked(2, leaf) is Action.COVER
    said = tonight.view(season(file, opens.day - timedelta(days=2)), Forecast(flowers))
    (told,) = [wave for bed in said.beds for wave in bed.waves]
    assert "lost in leaf at" in told.why


def test_what_stands_out_is_told_in_the_order_of_the_beds() -> None:
    beds = ("{bed: A, size: 1 x 10}", "{bed: B, size: 1 x 10}")
    file = gardens.text(
        gardens.wave(name="one", start="07-20", beds="[B]"),
        gardens.wave(name="two", start="07-20", beds="[A]"),
        gardens.wave(name="three", start="07-20", beds="[B]"),
        beds=beds,
    )
    found = evening_of(season(file, date(2026, 8, 20)), Forecast(-1.0)).threatened
    assert [(each.bed.name, each.wave.id) for each in found] == [
        ("A", "two-1"),
        ("B", "one-1"),
        ("B", "three-1"),
    ]


def test_seedlings_that_have_no_room_come_indoors_as_well() -> None:
    # Sown all the same, by the journal, and hardened off from 17 May on; the bed is full.
    file = gardens.text(
        gardens.wave(start="05-12", plants="10"),
        gardens.wave("late", plants="2", start="05-24"),
        crops=(
            gardens.crop(),
            gardens.crop("late", raised="trays", nursery_days="28", hardening_days="7"),
        ),
    )
    sown = "on: 2026-04-26, wave: late-1, did: sown"
    of = season(file, date(2026, 5, 20), sown, "on: 2026-05-12, wave: fruit-1, did: sown")
    assert not next(wave for wave in of.waves if wave.id == "late-1").stands
    assert [wave.id for wave in evening_of(of, Forecast(-1.0)).seedlings] == ["late-1"]
