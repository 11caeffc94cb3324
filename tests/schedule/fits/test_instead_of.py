"""Keep a wave or replace it: what is left of it, what would come, and what stands beside."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

import gardens
import replayed
from printed import instead_of_json, instead_of_text
from sowtide.days import DateSpan
from sowtide.schedule.fits.instead_of import Weighing, weigh
from sowtide.schedule.fits.question import Question
from sowtide.schedule.season import Season
from sowtide.schedule.stays.room import without

BED = "{bed: Long, size: 1 x 10}"
OTHER = "{bed: Other, size: 1 x 10}"


def weighed(of: Season, wave: str, crop: str, since: date, *, on: date | None = None) -> Weighing:
    (found,) = [each for each in of.waves if each.id == wave]
    (other,) = [each for each in of.garden.crops if each.name == crop]
    question = Question(other, None, None, on, seedlings=False)
    return weigh(replace(of, today=since), found, question)


def garden(*waves: str, **more: str) -> Season:
    crops = [gardens.crop(), gardens.crop("quick", days_to_harvest="20", family="leaf family")]
    return gardens.season(gardens.text(*waves, crops=crops, beds=[BED, OTHER], **more))


def text_of(found: Weighing, of: Season) -> str:
    return " ".join(" ".join(instead_of_text(found, of, width=80)).split())


def test_what_is_left_are_the_picking_days_from_that_day_on() -> None:
    """Planted on 1 June, picked from 21 July for 14 days: 50 days, far from the frost."""
    of = garden(gardens.wave(plants="10", start="06-01"))
    for since, days in ((date(2026, 7, 10), 14), (date(2026, 7, 21), 14), (date(2026, 7, 28), 7)):
        left = weighed(of, "fruit-1", "quick", since).left
        assert left is not None
        assert left.days == pytest.approx(days, abs=0.05)
        assert left.odds == pytest.approx(1, abs=0.01)


def test_what_is_left_is_counted_over_the_years_it_still_stands_in() -> None:
    """On the average frost day itself: of the years that had none before it, what is left."""
    of = garden(gardens.wave(plants="10", start="08-01"))
    wave, since = of.waves[0], date(2026, 10, 1)
    first = wave.stages.first_pick
    assert first is not None
    assert first[0].day == first[1].day < since  # the crop's days are no range
    left = of.climate.waves.left(wave.stages.plant.day, of.prospects(wave).need, since)

    def stands(day: int) -> float:
        """P(frost after a day), counted from 1 October: normal with a spread of 11 days."""
        return 1 - gardens.below((day + 1) / 11)

    days = (first[0].day + timedelta(days=14) - since).days
    assert days > 3
    assert left.days == pytest.approx(sum(map(stands, range(days))) / stands(-1), rel=0.01)
    assert left.odds == pytest.approx(stands(0) / stands(-1), rel=0.01)


def test_what_is_left_of_a_wave_over_two_beds_is_that_of_the_colder() -> None:
    crops = [gardens.crop(), gardens.crop("quick", days_to_harvest="20", family="leaf family")]
    beds = ["{bed: Hoop, size: 1 x 4, cover: 5}", "{bed: Open, size: 1 x 6}"]
    asked = gardens.wave(plants="10", start="08-01")
    of = gardens.season(gardens.text(asked, crops=crops, beds=beds))
    assert len(of.waves[0].stands) == 2
    since, planted = date(2026, 9, 29), of.waves[0].stages.plant.day

    def left(colder_by: float) -> float:
        on = of.conditions.prospects(
            of.waves[0].crop, of.waves[0].entry.raised, colder_by=colder_by
        )
        return of.climate.waves.left(planted, on.need, since).days

    found = weighed(of, "fruit-1", "quick", since).left
    assert found is not None
    assert found.days == left(0.0) < left(-5.0)


@pytest.mark.parametrize("name", ["clemson", "wageningen"])
def test_on_a_record_it_is_the_mean_of_the_years_that_stand(name: str) -> None:
    of = replayed.season(
        replayed.record(name),
        "{crop: bush bean, plants: 10, from: 07-25}",
        latitude=replayed.LATITUDES[name],
        crops=("bush bean: {days_to_harvest: 50, fruit_set_high: 110, fruit_set_low: 99}",),
    )
    wave = of.waves[0]
    need, planted = of.prospects(wave).need, wave.stages.plant.day
    told = of.climate.waves.years_of(planted, need)
    for since in (date(2026, 8, 1), date(2026, 9, 25), date(2026, 10, 15)):
        days = []
        for each in told:
            own = since.replace(year=each.season)
            if each.end is not None and each.end <= own:
                continue
            first = each.first_pick[0]
            if first is None:
                days.append(0)
                continue
            last = first + timedelta(days=need.picking)
            end = last if each.end is None else min(last, each.end)
            days.append(max((end - max(first, own)).days, 0))
        left = of.climate.waves.left(planted, need, since)
        assert left.years == len(days)
        assert left.days == pytest.approx(np.mean(days))
        assert left.odds == pytest.approx(np.mean([each > 0 for each in days]))


def test_the_other_crop_gets_the_space_it_leaves() -> None:
    of = garden(gardens.wave(plants="10", start="06-01"))
    since = date(2026, 7, 10)
    found = weighed(of, "fruit-1", "quick", since)
    (spot,) = found.answer.spots
    assert (spot.bed.name, spot.free_from, spot.plants) == ("Long", since, 10)
    assert found.comes is None


def test_where_the_next_wave_comes_too_soon_it_is_named() -> None:
    of = garden(
        gardens.wave(plants="10", start="06-01", beds="Long"),
        gardens.wave("quick", plants="10", start="08-05", beds="Long", name="next"),
    )
    pulled = of.waves[0].stages.pull_out.day
    assert pulled <= date(2026, 8, 5)
    found = weighed(of, "fruit-1", "fruit", date(2026, 7, 28), on=date(2026, 7, 28))
    assert found.answer.spots == ()
    assert found.comes is not None
    assert found.comes.wave == "next-1"
    assert "there is no room for fruit in its place: next-1 comes on 5 Aug" in text_of(found, of)


def test_a_wave_without_room_elsewhere_is_weighed_in_its_own_bed_alone() -> None:
    of = garden(gardens.wave(plants="10", start="06-01", beds="Other"))
    found = weighed(of, "fruit-1", "quick", date(2026, 7, 10))
    assert [spot.bed.name for spot in found.answer.spots] == ["Other"]


def test_days_on_which_nothing_else_of_its_crop_is_picked() -> None:
    """Picked from 21 July to 3 August, and the next wave from 30 July to 12 August."""
    of = garden(gardens.wave(plants="4", start="06-01", every="9", count="2"))
    first, second = of.waves
    assert first.stages.first_pick is not None
    assert second.stages.first_pick is not None
    since = date(2026, 7, 24)
    found = weighed(of, "fruit-1", "quick", since)
    before = second.stages.first_pick[0].day - timedelta(days=1)
    assert found.gaps == (DateSpan(since, before),)
    assert [each.id for each in found.others] == ["fruit-2"]
    assert "Without it no fruit is picked on 24–29 Jul." in text_of(found, of)
    late = weighed(of, "fruit-1", "quick", date(2026, 8, 1))
    assert late.gaps == ()


@pytest.mark.parametrize(
    ("others", "since", "beside", "gaps"),
    [
        # Picked 21 July to 3 August; what is sown a week before or after it 14 to 27 July or 28
        # July to 10 August
        ((), (7, 15), 0, [((7, 21), (8, 3))]),
        (("05-25",), (7, 15), 1, [((7, 28), (8, 3))]),
        (("06-08",), (7, 15), 1, [((7, 21), (7, 27))]),
        (("05-25", "06-08"), (7, 15), 2, []),
        # to the day before it, or its first; from its last on, or the day after it
        (("05-18",), (7, 15), 0, [((7, 21), (8, 3))]),
        (("05-19",), (7, 15), 1, [((7, 22), (8, 3))]),
        (("06-14",), (7, 15), 1, [((7, 21), (8, 2))]),
        (("06-15",), (7, 15), 0, [((7, 21), (8, 3))]),
        (("05-19", "06-14"), (7, 15), 2, [((7, 22), (8, 2))]),
        # Only the days from the day on count on which it would be pulled
        (("05-25",), (7, 27), 1, [((7, 28), (8, 3))]),
        (("05-25",), (7, 28), 0, [((7, 28), (8, 3))]),
        ((), (8, 3), 0, [((8, 3), (8, 3))]),
        (("05-25", "06-08"), (8, 4), 0, []),  # nothing of it is left to be picked
    ],
)
def test_gaps_are_days_on_which_no_other_wave_of_its_crop_is_picked(
    others: tuple[str, ...],
    since: tuple[int, int],
    beside: int,
    gaps: list[tuple[tuple[int, int], tuple[int, int]]],
) -> None:
    of = garden(
        gardens.wave(plants="2", start="06-01", name="asked"),
        *(gardens.wave(plants="2", start=each, name=f"at-{each}") for each in others),
    )
    found = weighed(of, "asked-1", "quick", date(2026, *since))
    assert len(found.others) == beside
    assert [(each.first, each.last) for each in found.gaps] == [
        (date(2026, *first), date(2026, *last)) for first, last in gaps
    ]


def test_a_crop_that_stands_over_the_winter_says_when_it_is_picked_after_it() -> None:
    crops = (gardens.crop(), "garlic: {}")
    asked = gardens.wave(plants="4", start="06-01", beds="[Long]")
    of = gardens.season(gardens.text(asked, crops=crops, beds=(BED,)))
    said = text_of(weighed(of, "fruit-1", "garlic", date(2026, 7, 25)), of)
    assert "would be ready to cut 2–22 Jul 2027, after the winter. " in said
    assert "picked to 3 Aug from 2–22 Jul 2027 picking days 10 days odds" in said
    assert "less than a day" not in said


def test_what_of_its_family_stands_is_named() -> None:
    of = garden(
        gardens.wave(plants="4", start="06-01", every="9", count="2"),
        gardens.wave("quick", plants="2", start="07-01"),
    )
    found = weighed(of, "fruit-1", "quick", date(2026, 7, 10))
    assert [each.id for each in found.family] == ["fruit-2"]
    assert "Of the fruit family there stand, too: fruit-2 in" in text_of(found, of)


def test_kin_without_room_or_on_other_days_stands_nowhere() -> None:
    crops = [gardens.crop(), gardens.crop("other"), gardens.crop("third", family="leaf family")]
    of = gardens.season(
        gardens.text(
            gardens.wave(plants="10", start="06-01", beds="[Long]"),
            gardens.wave("other", plants="10", start="06-02", beds="[Long]", name="late"),
            gardens.wave("other", plants="10", start="06-03", beds="[Other]", name="beside"),
            gardens.wave("third", plants="2", start="06-03", beds="[Third]", name="leaf"),
            crops=crops,
            beds=[BED, OTHER, OTHER.replace("Other", "Third")],
            fall_allowance="0",
        )
    )
    late, beside = (
        next(each for each in of.waves if each.id == id) for id in ("late-1", "beside-1")
    )
    assert (late.stands, bool(beside.stands)) == ((), True)
    gone = beside.stages.pull_out.day
    for since, kin in (
        (date(2026, 6, 2), []),  # it is to come
        (date(2026, 6, 3), ["beside-1"]),
        (gone - timedelta(days=1), ["beside-1"]),
        (gone, []),
    ):
        found = weighed(of, "fruit-1", "third", since)
        assert [each.id for each in found.family] == kin


def test_rotation_is_said_and_decides_nothing() -> None:
    crops = [gardens.crop(rotation="3"), gardens.crop("kin", rotation="3", days_to_harvest="20")]
    bed = BED.replace("}", ", grew: {2025: fruit family}}")
    of = gardens.season(
        gardens.text(gardens.wave("kin", plants="4", start="06-01"), crops=crops, beds=[bed])
    )
    (wave,) = of.waves
    if not wave.stands:
        of = gardens.season(
            gardens.text(
                gardens.wave("kin", plants="4", start="06-01", beds="Long"), crops=crops, beds=[bed]
            )
        )
    found = weighed(of, "kin-1", "fruit", date(2026, 6, 15))
    assert found.rotation is not None
    assert found.answer.spots
    assert "Rotation speaks against fruit: fruit family in 2025" in text_of(found, of)


def test_a_crop_cut_once_stands_until_its_last_pick() -> None:
    once = gardens.crop("head", picking_days="1", holding_days="10-20", worthwhile_days="7")
    of = gardens.season(
        gardens.text(
            gardens.wave("head", plants="4", start="06-01"),
            crops=[once, gardens.crop()],
            beds=[BED],
        )
    )
    found = weighed(of, "head-1", "fruit", date(2026, 7, 10))
    assert found.left is None
    last = of.waves[0].stages.last_pick
    assert last is not None
    assert f"gives up what stands to be cut until {last.day.day} Jul" in text_of(found, of)


def test_pulling_leaves_what_stood_before() -> None:
    of = garden(gardens.wave(plants="10", start="06-01", beds="Long"))
    day = date(2026, 7, 10).toordinal()
    freed = without(of.room, "fruit-1", day)
    assert freed.free_over(0, first=day - 1, until=day) == 0
    assert freed.free_over(0, first=day, until=day + 100) == of.garden.beds[0].area
    assert of.room.free_over(0, first=day, until=day + 1) == 0  # the plan itself is as it was
    never = without(of.room, "fruit-1", date(2026, 6, 1).toordinal())
    assert never.stays[0] == []


@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_page_keeps_to_its_width(width: int) -> None:
    of = garden(gardens.wave(plants="4", start="06-01", every="9", count="2"))
    found = weighed(of, "fruit-1", "quick", date(2026, 7, 24))
    lines = list(instead_of_text(found, of, width=width))
    assert max(map(len, lines)) <= width
    assert lines[0] == "KEEP OR REPLACE: fruit-1 in Long, Fri 24 Jul"
    assert "Which is better is yours to say" in " ".join(lines)


def test_it_as_json() -> None:
    of = garden(gardens.wave(plants="4", start="06-01", every="9", count="2"))
    found = json.loads(instead_of_json(weighed(of, "fruit-1", "quick", date(2026, 7, 24)), of))
    assert (found["wave"], found["on"]) == ("fruit-1", "2026-07-24")
    assert found["keep"]["picking_days_left"] == pytest.approx(11, abs=0.1)
    assert found["replace"]["crop"] == "quick"
    assert found["not_picked"] == [{"from": "2026-07-24", "to": "2026-07-29"}]
    assert found["same_crop"] == ["fruit-2"]


def test_what_was_not_cut_once_is_still_picked_after_its_winter() -> None:
    # It stands over the winter, is picked from 1 April on, for 40 days to 10 May: 21 from 20 April.
    ower = gardens.leaf(
        "ower",
        days_to_harvest="60",
        picking_days="40",
        hardiness="hardiest",
        overwinters="yes",
        warm_limit="30",
    )
    quick = gardens.crop("quick", days_to_harvest="20", family="another family")
    file = gardens.text(
        gardens.wave("ower", start="2025-08-25", plants="10"),
        crops=[ower, quick],
        beds=[BED, OTHER],
        warmest_month="21",
        coldest_month="-5",
    )
    of = gardens.season(file)
    (wave,) = of.waves
    first, last = wave.stages.first_pick, wave.stages.last_pick
    assert first is not None
    assert last is not None
    assert (first[0].day, last.day) == (date(2026, 4, 1), date(2026, 5, 10))
    found = weighed(of, "ower-1", "quick", date(2026, 4, 20))
    said = text_of(found, of)
    assert "gives up 21 days of picking in half of the years, 20 Apr to 10 May" in said
    assert "stands to be cut" not in said
    assert json.loads(instead_of_json(found, of))["keep"]["picking_days_left"] == 21


def test_what_stands_the_winter_and_has_no_date_is_picked_on_none_that_is_known() -> None:
    # From frost dates alone nobody knows when what is sown in October has grown.
    hardy = gardens.leaf("hardy", hardiness="hardiest", overwinters="yes")
    file = gardens.text(
        gardens.wave(plants="10", start="06-01"), crops=[gardens.crop(), hardy], beds=[BED]
    )
    of = gardens.season(file)
    found = weighed(of, "fruit-1", "hardy", date(2026, 7, 25), on=date(2026, 9, 20))
    assert found.answer.spots
    assert found.answer.spots[0].judged.stages.first_pick is None
    said = text_of(found, of)
    assert "hardy sown there on 20 Sep would give nothing to pick by what is known." in said
    # Of the wave that is kept alone: until when it was picked, and how long it still would be.
    assert "plants 10 10 picked to 3 Aug picking days less than a day odds" in said
