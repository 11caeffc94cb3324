"""From a file's care list to routines."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from sowtide.garden.care import (
    Against,
    Label,
    Made,
    OnDemand,
    Routine,
    StageDay,
    Targets,
    TimeOfDay,
    WaveStage,
    Work,
    care_readers,
)
from sowtide.garden.care.care_readers import drying
from sowtide.garden.care.targets import covers
from sowtide.garden.read import read_garden
from sowtide.garden.text import Refused
from sowtide.units import celsius

HEAD = """\
site: {name: Mill Bank, latitude: 43.1, units: us, frost: {last: 05-08, first: 10-02}}
season: 2026
beds:
  - {bed: Gate, size: 4 x 20}
crops:
  Gran's cucumber: {like: cucumber, variety: Wandering}
waves:
  - {crop: Gran's cucumber, plants: 6, from: 05-25}
  - {name: beans, crop: bush bean, plants: 30, from: 05-25}
care:
"""


def routines(text: str) -> tuple[Routine, ...]:
    reading = read_garden((HEAD + text).encode(), "garden.yaml")
    assert reading.garden is not None, [problem.message for problem in reading.problems]
    return reading.garden.care


def one(text: str) -> Routine:
    (found,) = routines(f"  - {{name: a, {text}}}\n")
    return found


def test_every_value_of_a_routine_is_read() -> None:
    (feed,) = routines(
        """\
  - name: dry feed
    do: feed
    on: [cucumber, squash family]
    from: planting out + 14
    every: 2 weeks
    until: last pick - 14
    amount: 4 tbsp per plant
    weighs: 15 g per tbsp
    analysis: 3-2-3.5
    made_of: composted manure
    package_rate: 5 tbsp per plant
    minutes: 1 per plant
"""
    )
    assert feed.work is Work.FEED
    assert feed.on == Targets(crops=frozenset({"cucumber"}), families=frozenset({"squash family"}))
    assert feed.start == StageDay(WaveStage.PLANTING, 14)
    assert feed.until == StageDay(WaveStage.LAST_PICK, -14)
    assert feed.every is not None
    assert feed.every.days == 14
    assert str(feed.amount.much if feed.amount else "") == "4 tbsp"
    # a tablespoon is 1/256 of a gallon of 3785.411784 ml, so 15 g weigh 15 / 14.78676 g/ml
    assert feed.weighs == pytest.approx(15 / 14.78676478125)
    assert feed.analysis == (3, 2, 3.5)
    assert feed.made_of is Made.COMPOSTED_MANURE
    assert feed.time is None


def test_every_value_of_a_label_is_read() -> None:
    spray = one(
        "do: spray, on: everything, keep_dry: 30h, group: m02, against: fungus, label: "
        "{crops: [cucumber, bush bean], days_before_harvest: 3, hours_before_entry: 4, most: 6, "
        "days_apart: 7, not_within: {Sulfur: 14}, hottest: 90F, in_a_row: 3, not_in_flower: yes}"
    )
    assert spray.label == Label(
        days_before_harvest=3,
        hours_before_entry=4,
        most=6,
        days_apart=7,
        not_within=(("sulfur", 14),),
        hottest=celsius(90),
        in_a_row=3,
        not_in_flower=True,
    )
    assert spray.keep_dry == 2  # two days hold 30 hours
    assert (spray.group, spray.against) == ("M02", Against.FUNGUS)
    assert spray.time is TimeOfDay.EVENING


@pytest.mark.parametrize(
    ("written", "targets"),
    [
        ("everything", Targets(everything=True)),
        ("[Gate, beans]", Targets(beds=frozenset({"Gate"}), series=frozenset({"beans"}))),
        ("Bush Beans", Targets(crops=frozenset({"bush bean"}))),
        ("wandering", Targets(varieties=frozenset({"wandering"}))),
        ("Bean family", Targets(families=frozenset({"bean family"}))),
        ("melon", Targets(crops=frozenset({"melon"}))),
    ],
)
def test_care_is_given_to_what_is_named(written: str, targets: Targets) -> None:
    assert one(f"do: feed, on: {written}").on == targets


@pytest.mark.parametrize(
    ("written", "start", "demand"),
    [
        ("06-01", date(2026, 6, 1), None),
        ("planting - 30", StageDay(WaveStage.PLANTING, -30), None),
        ("first pick -7 days", StageDay(WaveStage.FIRST_PICK, -7), None),
        ("In flower", StageDay(WaveStage.FLOWER, 0), None),
        ("on demand", None, OnDemand.SOME),
    ],
)
def test_the_first_day_is_a_date_or_a_stage(
    written: str, start: object, demand: OnDemand | None
) -> None:
    found = one(f"do: feed, on: beans, from: {written}")
    assert (found.start, found.on_demand) == (start, demand)


def test_a_week_begins_on_monday_and_ends_on_sunday() -> None:
    found = one("do: feed, on: beans, from: W23, until: W31")
    # 2026-W23 begins on 1 June, 2026-W31 ends on 2 August.
    assert (found.start, found.until) == (date(2026, 6, 1), date(2026, 8, 2))


def test_a_day_may_be_the_first_and_the_last() -> None:
    found = one("do: feed, on: beans, from: 06-01, until: 06-01")
    assert found.start == found.until == date(2026, 6, 1)


@pytest.mark.parametrize(
    ("written", "grams", "spoons"),
    [("14 g per tbsp", 14, 1), ("28 g per 2 tbsp", 28, 2), ("14 g per 1 tbsp", 14, 1)],
)
def test_what_a_material_weighs(written: str, grams: int, spoons: int) -> None:
    # A tablespoon is 1/256 of a gallon of 3785.411784 ml.
    weighs = care_readers.density(written)
    assert weighs == pytest.approx(grams / (spoons * 3785.411784 / 256))


@pytest.mark.parametrize(
    ("written", "minutes"), [("0", 0), ("15 min", 15), ("1.5 minutes", 1.5), ("1440", 1440)]
)
def test_what_takes_up_to_a_day(written: str, minutes: float) -> None:
    assert care_readers.minutes(written).minutes == minutes


@pytest.mark.parametrize("written", ["1440.5", "-1"])
def test_nothing_takes_longer_than_a_day(written: str) -> None:
    with pytest.raises(Refused):
        care_readers.minutes(written)


@pytest.mark.parametrize(("written", "taken"), [("50-30-20", True), ("50-30-20.5", False)])
def test_what_is_in_a_bag_is_a_hundred_parts_at_most(written: str, taken: bool) -> None:
    if taken:
        assert care_readers.analysis(written) == (50, 30, 20)
    else:
        with pytest.raises(Refused):
            care_readers.analysis(written)


@pytest.mark.parametrize(
    ("written", "days"), [("7", 7), ("10 days", 10), ("week", 7), ("2 weeks", 14)]
)
def test_how_often_is_days_or_weeks(written: str, days: int) -> None:
    every = one(f"do: feed, on: beans, every: {written}").every
    assert every is not None
    assert every.days == days


def test_how_often_may_be_a_rule() -> None:
    every = one("do: water, on: beans, amount: 1 in, every: 'FREQ=WEEKLY;BYDAY=TU,FR'").every
    assert every is not None
    assert (every.days, every.rule) == (None, "FREQ=WEEKLY;BYDAY=TU,FR")


def test_a_mix_may_stand_behind_its_amount() -> None:
    one_way = one("do: spray, on: beans, amount: 1 gal per 100 ft2 of a mix of 2 tsp per gal")
    other = one("do: spray, on: beans, amount: 1 gal per 100 ft2, mix: 2 tsp per gal")
    assert (one_way.amount, one_way.mix) == (other.amount, other.mix)
    assert one_way.mix is not None


def test_a_word_of_ones_own_is_kept() -> None:
    found = one("do: Earth up, on: beans")
    assert (found.work, found.does) == (Work.OWN, "earth up")


def test_a_routine_on_what_its_label_holds_by_family_is_taken() -> None:
    assert one("do: spray, on: cucumber, label: {crops: [squash family]}")


@pytest.mark.parametrize(
    ("on", "refused"),
    [
        ("everything", True),  # cucumbers are among it
        ("beans", False),
        ("[beans, Gran's cucumber]", True),
        ("bean family", False),
        ("squash family", True),
        ("wandering", True),
        ("Gate", False),  # what comes into a bed is seen when it is asked for
    ],
)
def test_a_label_without_a_crop_keeps_its_material_from_it(on: str, refused: bool) -> None:
    text = f"  - {{name: a, do: spray, on: {on}, label: {{crops: [bush bean]}}}}\n"
    problems = read_garden((HEAD + text).encode(), "garden.yaml").problems
    assert ([each.code for each in problems] == ["care-label"]) is refused


@pytest.mark.parametrize(
    ("written", "hours"),
    [("24h", 24), ("36 hours", 36), ("1 hour", 1), ("2 days", 48), ("1 day", 24), ("0h", 0)],
)
def test_how_long_leaves_stay_dry_is_said_in_hours_or_days(written: str, hours: int) -> None:
    assert drying(written) == hours


def test_nothing_to_wait_for_may_stand_on_a_label() -> None:
    label = one(
        "do: spray, on: beans, "
        "label: {days_before_harvest: 0, hours_before_entry: 0, days_apart: 0}"
    ).label
    assert label is not None
    assert (label.days_before_harvest, label.hours_before_entry, label.days_apart) == (0, 0, 0)


@pytest.mark.parametrize(
    ("on", "cucumber", "beans"),
    [
        ("everything", True, True),
        ("Gate", True, False),
        ("beans", False, True),
        ("cucumber", True, False),
        ("wandering", True, False),
        ("squash family", True, False),
        ("tomato", False, False),
    ],
)
def test_care_is_due_to_the_waves_that_are_named(on: str, cucumber: bool, beans: bool) -> None:
    text = f"  - {{name: a, do: feed, on: {on}}}\n"
    garden = read_garden((HEAD + text).encode(), "garden.yaml").garden
    assert garden is not None
    gran, bean = (entry.crop for entry in garden.entries)
    found = covers(garden.care[0].on, gran, series="grans-cucumber", bed="Gate")
    assert (found, covers(garden.care[0].on, bean, series="beans", bed="Long")) == (cucumber, beans)


@pytest.mark.parametrize(
    ("reader", "text"),
    [
        (care_readers.density, "14 g per ft2"),
        (care_readers.density, "14 ml per tbsp"),
        (care_readers.mix, "2 tsp per lb"),
        (care_readers.mix, "2 in per gal"),
        (care_readers.rate, "4 tbsp per hour"),
        (care_readers.rate, "4 tbsp per gal"),
        (care_readers.package, "2 in per ft2"),
        (care_readers.minutes, "5 per gal"),
    ],
)
def test_what_is_measured_by_the_wrong_kind_is_refused(
    reader: Callable[[str], object], text: str
) -> None:
    with pytest.raises(Refused) as refused:
        reader(text)
    assert refused.value.code in ("amount-kind", "amount-unit")
