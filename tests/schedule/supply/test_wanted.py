"""What is wanted of a crop, between which days, and what a plant of it gives here."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from sowtide.garden.journal import journal_of
from sowtide.reasons import OURS
from sowtide.schedule.learning import OwnYields
from sowtide.schedule.season import Season
from sowtide.schedule.supply import CropSupply, supply_of
from sowtide.season import season_of

FRUIT = gardens.crop(yield_per_plant="1-3", days_to_harvest="50", picking_days="14")
HEAD = gardens.leaf("head", yield_per_plant="1", picking_days="1", holding_days="7-7")


def season(
    *wants: str,
    crops: tuple[str, ...] = (FRUIT,),
    beds: tuple[str, ...] = (gardens.BED,),
    **site: str,
) -> Season:
    """Return the season of a garden without waves that wants something."""
    text = gardens.text(crops=crops, beds=beds, **site)
    return gardens.season(text + "want:\n" + "".join(f"  - {{{want}}}\n" for want in wants))


def wanted(*wants: str, **more: tuple[str, ...] | str) -> dict[date, float | None]:
    """Return what is wanted of the first crop, by week."""
    found = supply_of(season(*wants, **more))[0]  # type: ignore[arg-type]
    return {each.week: each.want for each in found.weeks}


@pytest.mark.parametrize(
    ("first", "counts"),
    [(("no", "no"), False), (("yes", "no"), True), (("no", "yes"), True), (("yes", "yes"), True)],
)
def test_a_crop_is_first_if_any_of_its_wants_is(first: tuple[str, str], counts: bool) -> None:
    want = "crop: fruit, amount: 1 kg, in: 2026-W3{}, first: {}"
    found = season(*(want.format(week, each) for week, each in enumerate(first)))
    assert supply_of(found)[0].asked.is_first is counts


# Days that a want leaves open


@pytest.mark.parametrize(
    "open_days", ["from: 07-06", "until: 07-19", "first: no"], ids=["no end", "no start", "none"]
)
def test_of_what_can_never_be_picked_only_dated_wants_are_known(open_days: str) -> None:
    # Two hundred days from the last frost to the first pick: no planting is safe.
    never = gardens.crop(yield_per_plant="1", days_to_harvest="200")
    dated = "crop: fruit, amount: 2 kg, from: 07-06, until: 07-12"
    both = (f"crop: fruit, amount: 1 kg, {open_days}", dated)
    assert wanted(*both, crops=(never,)) == {date(2026, 7, 6): 2}


def test_a_want_without_days_lasts_from_the_first_safe_pick_to_the_last() -> None:
    # A leaf that heat spoils is safe to sow in spring and again in late summer: it is wanted from
    # what the first day of spring gives to what the last day of summer gives, the heat between.
    leaf = gardens.leaf(yield_per_plant="1", days_to_harvest="40", picking_days="10")
    site = {"too_hot": "07-01..08-10"}
    found = season("crop: leaf, amount: 1 kg", crops=(leaf,), **site)
    spring, autumn = gardens.prospects(gardens.text(crops=(leaf,), **site), "leaf").windows
    (supply,) = supply_of(found)
    within = supply.asked.within
    assert within is not None
    judge = found.conditions.prospects(supply.crop, supply.crop.raised).judge_on
    begins, ends = judge(spring.first).stages.first_pick, judge(autumn.last).stages.last_pick
    assert begins is not None
    assert ends is not None
    assert (within.first, within.last) == (begins[0].day, ends.day)
    assert within.first < date(2026, 7, 1) < date(2026, 8, 10) < within.last


def test_a_bed_under_a_cover_opens_the_days_in_which_a_crop_can_be_had() -> None:
    want = "crop: fruit, amount: 1 kg"
    covered = "{bed: Hoops, size: 1 x 10, cover: 4}"
    within = [
        supply_of(season(want, beds=beds))[0].asked.within
        for beds in ((gardens.BED,), (gardens.BED, covered), (covered,))
    ]
    assert within[1] == within[2]
    assert within[0] is not None
    assert within[1] is not None
    assert within[1].first < within[0].first
    assert within[0].last < within[1].last


def test_one_day_to_its_end_is_a_day_of_want() -> None:
    # 7 kg a week from Monday 6 to Monday 13 July: seven days of one week, one of the next.
    assert wanted("crop: fruit, amount: 7 kg, from: 07-06, until: 07-13") == pytest.approx(
        {date(2026, 7, 6): 7, date(2026, 7, 13): 1}
    )


# What a plant gives by the grower's own pickings


def with_own(want: str, amount: str, crop: str = HEAD) -> CropSupply:
    """Return the supply of a crop of which three waves of four plants gave so much each."""
    name = crop.partition(":")[0]
    garden = gardens.read(
        gardens.text(gardens.wave(name, start="05-02", plants="4"), crops=(crop, FRUIT))
        + f"want:\n  - {{crop: {name}, {want}, in: 2026-W27}}\n"
    )
    entries = [
        f"- {{on: 2025-0{month}, wave: {name}-{number}, did: {did}}}\n"
        for number in (1, 2, 3)
        for month, did in (
            ("5-02", "sown, plants: 4"),
            ("7-01", f"picked, amount: {amount}"),
            ("7-08", "pulled"),
        )
    ]
    journal = journal_of("".join(entries).encode(), "journal.yaml").journal
    today = date(2026, 1, 1)
    own = OwnYields(garden, journal, today)
    return supply_of(season_of(garden, today), own)[0]


def test_what_was_weighed_is_what_a_plant_gives_by_weight_a_quarter_either_way() -> None:
    # 2 kg of four plants are the half kilogram each that is written, so it stays at that.
    found = with_own("amount: 1 kg", "2 kg", gardens.crop("pod", yield_per_plant="0.5")).asked
    assert (found.gives.low, found.gives.high) == pytest.approx((0.375, 0.625))
    assert (found.unit, found.gives.unit, found.gives_from) == ("kg", "kg", OURS)
    assert found.how == "from 3 waves that you noted the pickings of"


def test_what_was_counted_is_what_a_plant_gives_by_the_piece() -> None:
    pod = gardens.crop("pod", yield_per_plant="4 heads")
    found = with_own("amount: 3 heads", "12", pod).asked  # three of each plant
    assert (found.gives.low, found.gives.high) == pytest.approx((2.25, 3.75))
    assert (found.unit, found.gives.unit) == ("heads", "pieces")


@pytest.mark.parametrize(
    ("want", "amount", "low"),
    [
        ("amount: 1 kg", "12", 1.0),  # weighed as written
        ("amount: 3 heads", "2 kg", 0.8),  # eight to ten heads of ten plants
    ],
)
def test_pickings_noted_the_other_way_leave_what_is_published(
    want: str, amount: str, low: float
) -> None:
    found = with_own(want, amount).asked
    assert found.gives.low == low
    assert "you noted" not in found.how


def test_a_crop_that_nobody_noted_keeps_what_is_published() -> None:
    found = with_own("amount: 1 kg", "2 kg")
    assert "you noted" in found.asked.how
    garden = gardens.read(
        gardens.text(crops=(FRUIT,)) + "want:\n  - {crop: fruit, amount: 1 kg, in: 2026-W30}\n"
    )
    none = OwnYields(garden, None, gardens.EARLY)
    (other,) = supply_of(season_of(garden, gardens.EARLY), none)
    assert (other.asked.how, other.asked.gives.low) == ("as written", 1)
