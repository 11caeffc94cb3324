"""Whether one more wave fits, counted by hand.

Averages are 10 May and 1 October. The fruit crop (tender, 50 days and 14 of picking, no fall
allowance) is safe from 10 May to 19 July and stands for 64 days; a plant takes a square metre.
"""

from __future__ import annotations

from datetime import date

import gardens
from gardens import crop, leaf, text, wave
from sowtide.days import DateSpan
from sowtide.garden.crop import Raised
from sowtide.garden.varieties import crops_called
from sowtide.schedule.fits.answer import Answer, Way
from sowtide.schedule.waves.wave import Verdict

LONG, WIDE = "{bed: Long, size: 1 x 10}", "{bed: Wide, size: 2 x 10}"
TODAY = date(2026, 6, 20)


def _ask(*entries: str, name: str = "fruit", **keys: object) -> Answer:
    asked = {key: keys.pop(key) for key in ("plants", "bed", "on", "seedlings") if key in keys}
    today = keys.pop("today", TODAY)
    file = text(*entries, **{"fall_allowance": "0"} | keys)  # type: ignore[arg-type]
    return gardens.ask(file, name, today=today, **asked)  # type: ignore[arg-type]


def _spots(found: Answer) -> list[tuple[str, date, int]]:
    return [(spot.bed.name, spot.free_from, spot.plants) for spot in found.spots]


def test_today_is_judged() -> None:
    found = _ask()
    assert found.asked_on == TODAY
    assert found.verdict is Verdict.SAFE_FROM_FROST
    assert found.fits
    assert found.instead == ()


def test_the_earliest_day_is_judged_where_today_is_before_it() -> None:
    assert _ask(today=date(2026, 3, 1)).asked_on == date(2026, 5, 10)


def test_the_day_asked_about_is_judged() -> None:
    assert _ask(on=date(2026, 7, 19)).verdict is Verdict.SAFE_FROM_FROST
    late = _ask(on=date(2026, 7, 20))
    assert late.verdict is Verdict.CHANCY
    assert not late.fits


def test_windows_and_limits_are_the_same_whatever_today_is() -> None:
    for today in (date(2026, 3, 1), TODAY, date(2026, 9, 1)):
        found = _ask(today=today)
        assert found.earliest == date(2026, 5, 10)
        assert found.last_safe == date(2026, 7, 19)
        assert found.windows == (DateSpan(date(2026, 5, 10), date(2026, 7, 19)),)
        assert found.frost_limit == date(2026, 10, 1)


def test_after_the_last_safe_day_it_says_no_with_the_odds_of_that_day() -> None:
    # 1 Aug + 50 + 14 = 4 Oct, three days after the average: 1 − Φ(3/11) = 39 %
    found = _ask(today=date(2026, 8, 1))
    assert not found.fits
    assert found.verdict is Verdict.TOO_LATE
    assert found.judged.odds is not None
    assert round(found.judged.odds, 2) == 0.39


def test_seedlings_sown_today_are_judged_when_they_are_ready() -> None:
    line = crop(raised="trays", nursery_days="21-28", counted_from="planting out")
    found = _ask(crops=[line])
    assert found.asked_on == date(2026, 7, 11)  # 20 Jun + 21
    assert found.judged.stages.sow.day == TODAY


def test_seedlings_at_hand_go_out_today() -> None:
    line = crop(raised="trays", nursery_days="21-28", counted_from="planting out")
    found = _ask(crops=[line], seedlings=True)
    assert found.asked_on == TODAY
    assert found.judged.stages.sow.day == date(2026, 5, 30)  # 20 Jun − 21


def test_either_is_sown_unless_there_are_seedlings() -> None:
    line = crop(raised="either", nursery_days="21-28", counted_from="planting out")
    assert _ask(crops=[line]).raised is Raised.DIRECT
    assert _ask(crops=[line], seedlings=True).raised is Raised.TRAYS


def test_as_many_plants_as_its_last_wave_else_as_many_as_fit() -> None:
    assert _ask().plants == 10
    assert _ask(beds=[LONG, WIDE]).plants == 20
    after = _ask(wave(start="05-12", plants="3"), wave(start="06-01", plants="4", name="b"))
    assert after.plants == 4
    assert _ask(plants=7).plants == 7


def test_beds_with_room_and_from_when() -> None:
    # Long is held by ten plants until 4 Aug; Wide has room for all of them
    found = _ask(wave(start="06-01", plants="10", beds="[Long]"), beds=[LONG, WIDE], plants=15)
    assert _spots(found)[0] == ("Wide", TODAY, 15)


def test_a_bed_that_becomes_free_in_time() -> None:
    # planted 12 May, gone on 15 Jul, safe until 19 Jul
    found = _ask(wave(start="05-12", plants="10"), plants=10)
    assert _spots(found) == [("Long", date(2026, 7, 15), 10)]
    assert found.spots[0].free_until == date(2026, 7, 19)
    assert found.fits


def test_what_comes_later_leaves_less_room() -> None:
    # Asked on 20 Jun it would stand till 22 Aug; eight plants come in on 1 Jul
    found = _ask(wave(start="07-01", plants="8"), plants=2)
    assert _spots(found) == [("Long", TODAY, 2)]
    assert _spots(_ask(wave(start="07-01", plants="8"), plants=3))[0][2] == 2


def test_one_leaves_on_the_day_the_next_comes() -> None:
    # ten of the twenty places are held by one wave to 15 Jul and by the next from then on
    found = _ask(
        wave(start="05-12", plants="10", name="one"),
        wave(start="07-15", plants="10", name="two"),
        beds=[WIDE],
        plants=10,
    )
    assert _spots(found) == [("Wide", TODAY, 10)]


def test_a_kept_bed_is_free_when_it_is_given_back() -> None:
    found = _ask(beds=["{bed: Long, size: 1 x 10, taken: 06-01..07-01}"])
    assert _spots(found) == [("Long", date(2026, 7, 2), 10)]


def test_until_the_last_day_that_still_has_its_room() -> None:
    # The fruit stands 64 days: planted 5 Jun it is gone on 8 Aug, the day the other wave comes.
    # After that wave there is no room again before the last safe day.
    found = _ask(
        wave(start="08-08", plants="10"), plants=1, on=date(2026, 5, 20), today=date(2026, 5, 20)
    )
    assert _spots(found) == [("Long", date(2026, 5, 20), 1)]
    assert found.spots[0].free_until == date(2026, 6, 5)


def test_until_the_first_day_without_room_though_there_is_room_again_later() -> None:
    # A small crop of 10 days and one of picking (gone on the 11th) comes in on 20 Jun and leaves
    # on 1 Jul. From 1 Jun: room for a wave of it until 9 Jun (gone on 20 Jun), and again from 1 Jul
    quick = crop("quick", days_to_harvest="10", picking_days="1", worthwhile_days="1")
    found = _ask(
        wave("quick", start="06-20", plants="10"),
        name="quick",
        crops=[quick],
        plants=10,
        on=date(2026, 6, 1),
        today=date(2026, 6, 1),
    )
    assert _spots(found) == [("Long", date(2026, 6, 1), 10)]
    assert found.spots[0].free_until == date(2026, 6, 9)


def test_rest_counts_before_the_next_wave_only() -> None:
    rested = "{bed: Long, size: 1 x 10, rest: 3}"
    # 20 Jun + 64 + 3 = 26 Aug
    for start, room in (("08-26", 10), ("08-25", 0)):
        found = _ask(wave(start=start, plants="10"), plants=10, beds=[rested], bed="Long", on=TODAY)
        assert (("Long", TODAY, 10) in _spots(found)) == bool(room)


def test_a_bed_taken_from_the_day_of_pulling_out() -> None:
    # 20 Jun + 64 = 23 Aug; the rest is for the next wave, as in the plan itself
    for first, room in (("08-23", True), ("08-22", False)):
        bed = f"{{bed: Long, size: 1 x 10, rest: 3, taken: {first}..09-30}}"
        found = _ask(plants=1, beds=[bed], on=TODAY)
        assert (("Long", TODAY, 1) in _spots(found)) == room
        planned = gardens.only(text(wave(start="06-20"), beds=[bed], fall_allowance="0"))
        assert bool(planned.stands) == room


def test_a_cover_counts_in_its_bed() -> None:
    # planted 25 Jul: chancy on open ground, safe under a cover of 4 °C (18 days)
    hoops = "{bed: Hoops, size: 1 x 10, cover: 4}"
    found = _ask(on=date(2026, 7, 25), beds=[LONG, hoops])
    assert [(spot.bed.name, spot.judged.verdict) for spot in found.spots] == [
        ("Hoops", Verdict.SAFE_FROM_FROST),
        ("Long", Verdict.CHANCY),
    ]
    assert found.fits


def test_the_series_may_follow_itself_but_its_kin_may_not() -> None:
    crops = [crop(rotation="3"), crop("kin", rotation="3")]
    first = wave(start="05-12", plants="10")
    again = _ask(first, crops=crops, plants=10)
    assert _spots(again) == [("Long", date(2026, 7, 15), 10)]
    assert _spots(_ask(first, name="kin", crops=crops, plants=10)) == []


def test_rotation_passes_a_bed_over_unless_it_is_asked_about() -> None:
    beds = ["{bed: Long, size: 1 x 10, grew: {2025: fruit family}}"]
    crops = [crop(rotation="3")]
    assert _spots(_ask(crops=crops, beds=beds)) == []
    assert _spots(_ask(crops=crops, beds=beds, bed="Long")) == [("Long", TODAY, 10)]


def test_room_for_some_of_the_plants_is_no() -> None:
    # ten places for 25 plants, and no other bed
    found = _ask(plants=25)
    assert not found.fits
    assert _spots(found) == [("Long", TODAY, 10)]
    assert _ask(plants=10).fits


def test_plants_may_be_split_over_beds() -> None:
    assert _ask(plants=25, beds=[LONG, WIDE]).fits
    assert not _ask(plants=31, beds=[LONG, WIDE]).fits


def test_planting_out_instead_of_sowing() -> None:
    # Sown direct on 25 Jul: + 50 + 11; planted out: + 50, and that is safe until 19 Jul, so at
    # least better: 1 − Φ((25 Jul + 64 − 1 Oct)/11)
    line = crop(raised="either", nursery_days="21-28", counted_from="planting out")
    found = _ask(crops=[line], on=date(2026, 7, 18), today=date(2026, 7, 18))
    assert not found.fits
    (way,) = [way for way in found.instead if way.what is Way.PLANT_OUT]
    assert way.plant == date(2026, 7, 18)
    assert way.odds > 0.8


def test_a_cover_instead() -> None:
    found = _ask(on=date(2026, 7, 25))
    assert Way.COVER in [way.what for way in found.instead]


def test_a_quicker_crop_instead() -> None:
    quick = crop("quick", days_to_harvest="25", picking_days="7")
    slow = crop("slow", days_to_harvest="70")
    found = _ask(crops=[crop(), quick, slow], on=date(2026, 8, 1))
    ways = [way.text for way in found.instead if way.what is Way.QUICKER_CROP]
    assert len(ways) == 1
    assert "quick" in ways[0]


def test_an_early_sort_instead() -> None:
    # Sweet corn has 80-90 days, an early sort 70-80: ten days more to sow. Sown on 5 July it is
    # safe no more, the early one is; where its days are written nobody knows of another sort.
    asked = {"on": date(2026, 7, 5), "plants": 4, "frost": "{last: 05-10, first: 10-12}"}
    found = _ask(crops=["sweet corn: {}"], name="sweet corn", **asked)
    assert found.verdict is Verdict.CHANCY
    (way,) = [way for way in found.instead if way.what is Way.EARLY_SORT]
    assert "sow an early sort, 70\N{EN DASH}80 days, on 5 Jul in Long (room for 4)" in way.text
    assert way.odds is not None
    assert way.odds > 0.8
    for crops in (["sweet corn: {sort: early}"], ["sweet corn: {days_to_harvest: 85-90}"]):
        ways = _ask(crops=crops, name="sweet corn", **asked).instead
        assert Way.EARLY_SORT not in [way.what for way in ways]


def test_another_bed_instead() -> None:
    found = _ask(
        wave(start="06-01", plants="10", beds="[Long]"),
        beds=[LONG, WIDE],
        bed="Long",
        plants=5,
    )
    assert not found.fits
    assert Way.ANOTHER_BED in [way.what for way in found.instead]


def test_heat_gives_two_windows() -> None:
    line = leaf(days_to_harvest="40", picking_days="7")
    found = _ask(name="leaf", crops=[line], too_hot="07-01..08-20", on=date(2026, 6, 1))
    assert found.windows == (
        DateSpan(date(2026, 4, 12), date(2026, 5, 15)),
        DateSpan(date(2026, 7, 12), date(2026, 8, 29)),
    )
    assert found.last_safe == date(2026, 8, 29)
    assert found.verdict is Verdict.TOO_HOT
    assert found.frost_limit == date(2026, 10, 25)  # 24 °F, not the day the heat begins


def test_an_over_wintering_crop_fits_where_it_has_room() -> None:
    line = crop(overwinters="yes", hardiness="hardiest", ready="06-25..07-20")
    found = _ask(crops=[line], on=date(2026, 10, 1))
    assert found.fits
    assert found.verdict is None


def test_a_day_given_is_answered_and_no_other() -> None:
    # planted 12 May, gone on 15 Jul; the grower asks for 20 Jun
    given = _ask(wave(start="05-12", plants="10"), plants=10, on=TODAY)
    assert (given.asked_on, given.verdict) == (TODAY, Verdict.SAFE_FROM_FROST)
    assert not given.fits
    assert given.good == ()
    wait = next(way for way in given.instead if way.what is Way.WAIT)
    assert wait.plant == date(2026, 7, 15)
    assert "in Long (room for 10)" in wait.text
    assert _ask(wave(start="05-12", plants="10"), plants=10).fits  # any day will do


def test_plants_are_counted_in_beds_open_on_one_day() -> None:
    # Wide has room today, Long from 15 Jul on; a wave goes in on one day, that of the first bed
    found = _ask(wave(start="05-12", plants="10", beds="[Long]"), beds=[LONG, WIDE], plants=30)
    assert [(spot.bed.name, spot.free_from) for spot in found.spots] == [
        ("Wide", TODAY),
        ("Long", date(2026, 7, 15)),
    ]
    assert [spot.bed.name for spot in found.good] == ["Wide"]
    assert not found.fits


def test_a_bed_whose_room_is_over_by_the_day_is_not_counted() -> None:
    # Ten go into Long from 19 June on; into Small, where the next comes on 5 August, until 2 June.
    quick = crop("quick", days_to_harvest="20", picking_days="5")
    found = _ask(
        wave("quick", start="05-25", plants="10", beds="Long"),
        wave(start="08-05", plants="6", beds="Small", name="next"),
        beds=[LONG, "{bed: Small, size: 1 x 6}"],
        crops=[crop(), quick],
        today=date(2026, 6, 1),
        plants=16,
    )
    assert _spots(found) == [("Long", date(2026, 6, 19), 10), ("Small", date(2026, 6, 1), 6)]
    assert [spot.free_until for spot in found.spots][1] == date(2026, 6, 2)
    assert [spot.bed.name for spot in found.good] == ["Long"]
    assert not found.fits


def test_the_ground_of_its_last_wave_is_its_usual_one() -> None:
    # 2 °C of cover are 3.6 °F: frost comes 10.8 days later, 19 Jul + 11
    warm = "{bed: Warm, size: 1 x 10, cover: 2}"
    grown = _ask(wave(start="05-20", plants="5", beds="[Warm]"), beds=[LONG, warm])
    assert grown.last_safe == date(2026, 7, 30)
    assert _ask(beds=[LONG, warm]).last_safe == date(2026, 7, 19)


def test_of_beds_as_good_those_come_first_that_are_its_usual_ground() -> None:
    warm = "{bed: Warm, size: 1 x 10, cover: 2}"
    in_warm = wave(start="05-20", plants="5", beds="[Warm]")
    for waves, beds, first in (
        ((), [warm, LONG], "Long"),  # open ground, where nothing of it has stood
        ((in_warm,), [LONG, warm], "Warm"),
    ):
        found = _ask(*waves, beds=beds, plants=5)
        assert [spot.plants for spot in found.spots] == [5, 5]
        assert found.spots[0].bed.name == first


def test_too_hot_today_is_answered_for_the_next_safe_run() -> None:
    line = leaf(days_to_harvest="40", picking_days="7")
    asked = {"name": "leaf", "crops": [line], "too_hot": "07-01..08-20"}
    found = _ask(**asked)  # type: ignore[arg-type]
    assert found.asked_on == date(2026, 7, 12)  # + 40 is 21 Aug, the first cool day
    assert found.fits
    given = _ask(on=TODAY, **asked)  # type: ignore[arg-type]
    assert given.verdict is Verdict.TOO_HOT
    assert given.instead[0].what is Way.WAIT
    assert given.instead[0].plant == date(2026, 7, 12)


def test_what_stands_over_the_winter_is_asked_about_the_first_frost() -> None:
    line = crop("bulb", overwinters="yes", ready="06-25..07-05", picking_days="1")
    found = _ask(name="bulb", crops=[line])
    assert found.asked_on == date(2026, 10, 1)
    assert (found.verdict, found.windows, found.frost_limit) == (None, (), None)
    assert found.fits
    own = _ask(wave("bulb", start="2025-10-20", plants="2"), name="bulb", crops=[line], today=TODAY)
    assert own.asked_on == date(2026, 10, 20)  # as its last wave, a year on


def test_a_bed_in_which_it_comes_to_nothing_is_no_room() -> None:
    taken = "{bed: Kept, size: 1 x 10, taken: 06-01..09-25}"
    assert _ask(beds=[taken]).spots == ()


def test_a_name_of_the_file_comes_before_another_name_of_a_built_in_crop() -> None:
    # "butterhead" is a name of the built-in head lettuce; here it is a leaf lettuce of the file
    line = "butterhead: {like: lettuce, days_to_harvest: 41}"
    garden = gardens.season(text(wave("butterhead", start="06-01"), crops=[line])).garden
    (found,) = crops_called("butterhead", garden)
    assert (found.kind, found.days_to_harvest.low) == ("leaf lettuce", 41)
    assert [crop.name for crop in crops_called("lettuce", garden)] == ["butterhead"]
