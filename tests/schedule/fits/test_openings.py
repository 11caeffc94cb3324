"""What comes free: when, until when, how much; what fits there; and what to start for it now."""

from __future__ import annotations

import json
from collections.abc import Iterable
from csv import DictReader
from datetime import date, timedelta
from io import StringIO
from random import Random

import pytest

import gardens
from drawn import covered_garden
from printed import openings_form, openings_text
from sowtide.garden.crop import Raised
from sowtide.report.formats.terminal.cells import cells
from sowtide.schedule.openings import (
    BedOpening,
    ComingFree,
    Offer,
    OpeningsQuestion,
    coming_free,
    free_ahead,
    opening_in,
)
from sowtide.schedule.openings.spaces import openings_of
from sowtide.schedule.season import Season
from sowtide.schedule.waves.wave import SAFE
from sowtide.schedule.work import WorkingDays
from sowtide.season import load_demo, season_of

BED = "{bed: Long, size: 1 x 10}"
ON = date(2026, 6, 10)
WEEK_29 = date(2026, 7, 13), date(2026, 7, 19)
TRAY = gardens.crop(
    "tray", raised="trays", nursery_days="20-30", days_to_harvest="30", counted_from="planting out"
)


def asked(of: Season, on: date = ON, weeks: int = 8) -> ComingFree:
    return coming_free(of, OpeningsQuestion(of.garden.beds, on, weeks))


def spaces(of: Season, weeks: int = 10) -> list[tuple[date, date | None, int]]:
    """Spaces of all beds, in whole square metres."""
    end = ON + timedelta(weeks=weeks)
    found = (each for bed in of.garden.beds for each in openings_of(of, bed, ON, end))
    return [(each.first, each.until, each.area // 10**12) for each in found]


def test_a_space_opens_when_its_wave_leaves() -> None:
    """Planted on 1 June, pulled 50 + 14 days later, on 4 August; two days of rest."""
    bed = BED.replace("}", ", rest: 2}")
    of = gardens.season(gardens.text(gardens.wave(plants="10", start="06-01"), beds=[bed]))
    (opening,) = asked(of, weeks=9).openings
    assert (opening.first, opening.until) == (date(2026, 8, 6), None)
    assert (opening.area, opening.leaves) == (10 * 10**12, ("fruit-1",))
    assert asked(of, weeks=8).openings == ()  # to 4 August


def test_what_comes_takes_the_space_that_opened_last() -> None:
    """Four of ten metres lie free; six open on 4 August; five of them go to one of 20 August."""
    of = gardens.season(
        gardens.text(
            gardens.wave(plants="6", start="06-01"),
            gardens.wave(plants="5", start="08-20", name="later"),
        )
    )
    opened = date(2026, 8, 4)
    assert set(spaces(of)) == {(ON, None, 4), (opened, date(2026, 8, 20), 5), (opened, None, 1)}


def test_what_the_grower_keeps_a_bed_for_is_no_space() -> None:
    bed = BED.replace("}", ", taken: 07-01..07-31}")
    of = gardens.season(gardens.text(beds=[bed]))
    found = asked(of).openings
    assert [(each.first, each.until) for each in found] == [
        (ON, date(2026, 7, 1)),
        (date(2026, 8, 1), None),
    ]


def test_seedlings_are_started_for_the_day_the_space_opens() -> None:
    """Twenty nursery days before 4 August is 15 July: on a sheet from then, not a week before."""
    of = gardens.season(
        gardens.text(gardens.wave(plants="10", start="06-01"), crops=[gardens.crop(), TRAY])
    )
    found = asked(of, date(2026, 7, 10))
    (start,) = found.start_now
    assert (start.offer.crop.name, start.offer.plants) == ("tray", 10)
    assert start.offer.sow == date(2026, 7, 15)
    assert start.offer.judged.stages.plant.day == start.opening.first == date(2026, 8, 4)
    assert start.opening in found.openings
    before = asked(of, date(2026, 7, 8))
    assert [each for each in before.start_now if each.offer.crop.name == "tray"] == []
    assert asked(gardens.season(gardens.text(crops=[TRAY]))).start_now == ()  # it is free now


def test_the_crops_of_the_file_come_first_and_then_the_soonest() -> None:
    of = gardens.season(gardens.text(crops=[gardens.crop("slow", days_to_harvest="60")]))
    (opening,) = asked(of).openings
    assert len(opening.fits) == 3
    assert opening.fits[0].crop.name == "slow"
    first, second = (each.judged.stages.first_pick for each in opening.fits[1:])
    assert first is not None
    assert second is not None
    assert first[0].day <= second[0].day


def _offered(of: Season, bed: str = "Long") -> set[str]:
    openings = [each for each in asked(of).openings if each.bed.name == bed and each.first == ON]
    return {offer.crop.name for each in openings for offer in each.fits}


def test_the_bed_rests_before_what_comes_next() -> None:
    """Sown on 10 June, pulled 64 days later, on 13 August; five days of rest."""
    bed = BED.replace("}", ", rest: 5}")
    for day, fits in (("08-18", True), ("08-17", False)):
        later = gardens.wave(plants="10", start=day, name="later")
        of = gardens.season(gardens.text(later, beds=[bed]))
        assert ("fruit" in _offered(of)) is fits


def test_what_a_later_wave_is_shared_out_over_is_left_to_it() -> None:
    """Fourteen plants on 20 July take ten metres of one bed and four of the other."""
    beds = [BED, "{bed: Wide, size: 1 x 10}"]
    for plants, whole in (("14", False), ("10", True)):
        of = gardens.season(gardens.text(gardens.wave(plants=plants, start="07-20"), beds=beds))
        assert len(of.waves[0].stands) == (1 if whole else 2)
        assert ("fruit" in _offered(of, "Wide")) is whole


def test_nothing_is_offered_after_which_rotation_would_close_the_bed() -> None:
    """Sown on 10 June the leaf is pulled 62 days later, on 11 August; its kin comes later."""
    crops = [
        gardens.crop(),
        gardens.leaf(days_to_harvest="55", picking_days="7"),
        gardens.leaf("kin", days_to_harvest="30", picking_days="7", rotation="3"),
    ]
    later = gardens.wave("kin", plants="10", start="08-25")
    of = gardens.season(gardens.text(later, crops=crops, too_hot="none"))
    assert "fruit" in _offered(of)
    assert "leaf" not in _offered(of)
    of = gardens.season(gardens.text(crops=crops, too_hot="none"))
    assert "leaf" in _offered(of)


def _pasted(file: str, of: Season, opening: BedOpening, offer: Offer) -> Season:
    keys = {
        "name": "offered",
        "plants": str(offer.plants),
        "start": str(offer.judged.stages.plant.day),
        "beds": opening.bed.name,
    }
    if offer.crop.raised is Raised.EITHER:
        keys["raised"] = offer.raised.value
    asked_for = f"  - {gardens.wave(offer.crop.name, **keys)}\n"
    return gardens.season(file.replace("\nwaves:\n", f"\nwaves:\n{asked_for}"), of.today)


def _where(of: Season) -> dict[str, object]:
    return {
        wave.id: (wave.stages.plant.day, [(s.bed.name, s.plants) for s in wave.stands])
        for wave in of.waves
        if wave.entry.name != "offered"
    }


def test_of_two_spaces_in_one_bed_a_crop_is_started_for_the_first() -> None:
    """Five metres open on 4 August, five on 6 August: trays for them on 15 and on 17 July."""
    waves = [gardens.wave(plants="5", start=day, name=f"s{day[-1]}") for day in ("06-01", "06-03")]
    of = gardens.season(gardens.text(*waves, crops=[gardens.crop(), TRAY]))
    started = asked(of, date(2026, 7, 13)).start_now
    assert [each.opening.first for each in started if each.offer.crop.name == "tray"] == [
        date(2026, 8, 4)
    ]
    week = opening_in(gardens.season(gardens.text(*waves, crops=[gardens.crop(), TRAY])), *WEEK_29)
    assert [(each.opening.first, each.offer.crop.name) for each in week.start_now] == [
        (date(2026, 8, 4), "tray")
    ]
    two = gardens.text(*waves, crops=[gardens.crop(), TRAY, TRAY.replace("tray:", "other:")])
    week = opening_in(gardens.season(two), *WEEK_29)
    assert [each.offer.crop.name for each in week.start_now] == ["other", "tray"]


def test_what_is_sown_direct_is_not_started_in_trays() -> None:
    # It says how long its seedlings would take, and is sown direct all the same.
    waves = [gardens.wave(plants="5", start="06-01", name="one")]
    direct = TRAY.replace("raised: trays", "raised: direct")
    for crop, started in ((TRAY, 1), (direct, 0)):
        of = gardens.season(gardens.text(*waves, crops=[gardens.crop(), crop]))
        assert len(opening_in(of, *WEEK_29).start_now) == started


@pytest.mark.parametrize(
    ("keys", "planted", "sown"),
    [
        ("", date(2026, 8, 4), date(2026, 7, 15)),  # a Tuesday; twenty days before, a Wednesday
        # The first Saturday is 8 August; twenty days before it and any other it is a Sunday.
        ("working_days: [sat]", date(2026, 8, 8), date(2026, 7, 19)),
        # Wednesday 5 August follows on Thursday 16 July, Saturday 8 August on Sunday 19 July;
        # Tuesday 11 August on Wednesday 22 July.
        ("working_days: [tue, wed, sat]\naway: [08-04..08-04]", date(2026, 8, 11), None),
        ("away: [07-13..07-20, 08-11..08-11]", date(2026, 8, 10), date(2026, 7, 21)),
    ],
)
def test_what_is_offered_is_planted_and_sown_where_it_can_be_on_working_days(
    keys: str, planted: date, sown: date | None
) -> None:
    fruit = gardens.wave(plants="10", start="06-01")
    file = gardens.text(fruit, crops=[gardens.crop(), TRAY], sure="50%")
    of = gardens.season(f"{file}{keys}\n")
    (opening,) = asked(of, date(2026, 7, 13)).openings
    (offer,) = [each for each in opening.fits if each.crop.name == "tray"]
    assert offer.judged.stages.plant.day == planted
    assert offer.sow == (sown or planted - timedelta(days=20))


WORKING = ("", "working_days: [sat, wed]\n", "away: [06-20..07-05, 08-01..08-09]\n")


def drawn(number: int) -> str:
    """Draw a garden with covered beds, of which two in three are not worked in every day."""
    return covered_garden(Random(number)) + WORKING[number % 3]


@pytest.mark.parametrize(
    "numbers",
    [range(6), range(6, 12), range(12, 18), (24, 44, 79)],
    ids=["0 to 5", "6 to 11", "12 to 17", "kin that would join or be followed"],
)
def test_an_offer_can_be_pasted_and_stands_there_and_nothing_else_moves(
    numbers: Iterable[int],
) -> None:
    assert pasted(numbers) > 12


def pasted(numbers: Iterable[int]) -> int:
    """Paste everything that is offered in some drawn gardens, one after another, and count it."""
    offers = 0
    for number in numbers:
        file = drawn(number)
        of = gardens.season(file)
        found = asked(of, date(2026, 6, 1 + number % 28))
        starts = [(each.opening, each.offer) for each in found.start_now]
        named = {(opening.bed.name, offer.crop.name) for opening, offer in starts}
        assert len(named) == len(starts)
        for opening in found.openings:
            started = [offer for each, offer in starts if each is opening]
            for offer in (*opening.fits, *(each for each in started if each not in opening.fits)):
                offers += 1
                after = _pasted(file, of, opening, offer)
                (wave,) = [each for each in after.waves if each.entry.name == "offered"]
                assert [(s.bed, s.plants) for s in wave.stands] == [(opening.bed, offer.plants)]
                assert wave.judged.verdict in SAFE
                assert (wave.judged.odds, wave.stages.sow.day) == (offer.judged.odds, offer.sow)
                assert _where(after) == _where(of)
                told = {each.code for each in after.problems if each.wave == "offered-1"}
                assert told.isdisjoint({"rotation", "no-room", "too-early", "too-hot", "too-late"})
                assert offer.judged.stages.plant.day in WorkingDays(of.garden)
    return offers


@pytest.mark.parametrize("block", range(3))
def test_no_two_openings_share_any_room(block: int) -> None:
    for number in range(20 * block, 20 * block + 20):
        of = gardens.season(covered_garden(Random(number)))
        for bed in of.garden.beds:
            found = list(openings_of(of, bed, ON, ON + timedelta(weeks=40)))
            for day in {each.first for each in found}:
                here = [e for e in found if e.first <= day and (e.until is None or day < e.until)]
                ends = min((e.until for e in here if e.until), default=day + timedelta(days=1))
                free = of.room.free_over(
                    of.room.number[bed.name],
                    first=day.toordinal(),
                    until=min(ends, day + timedelta(days=1)).toordinal() - bed.rest,
                )
                assert sum(each.area for each in here) <= free
        if number % 5 == 0:
            started = [each.opening for each in asked(of).start_now]
            assert len(started) == len({(e.bed.name, e.first, e.until) for e in started})


@pytest.mark.parametrize("width", [60, 80, 120])
def test_it_as_text_keeps_to_its_width(width: int) -> None:
    of = gardens.season(
        gardens.text(gardens.wave(plants="8", start="06-01"), crops=[gardens.crop(), TRAY])
    )
    found = asked(of, date(2026, 7, 13))
    lines = openings_text(found, of, width=width)
    assert max(map(cells, lines)) <= width
    text = " ".join(" ".join(lines).split()).replace("\N{NO-BREAK SPACE}", " ")
    assert "START NOW in trays, this week - 8 tray: sow Wed 15 Jul, plant out 4 Aug in Long" in text
    assert "Long Tue 4 Aug, 8 m², as fruit-1 leaves" in text
    assert "Long now, 2 m²" in text


def test_it_as_json_and_csv() -> None:
    of = gardens.season(
        gardens.text(gardens.wave(plants="10", start="06-01"), crops=[gardens.crop(), TRAY])
    )
    found = asked(of, date(2026, 7, 13))
    told = json.loads(openings_form(found, of, "json"))
    assert (told["version"], told["from"], told["to"]) == (1, "2026-07-13", "2026-09-06")
    (opening,) = told["openings"]
    assert {k: opening[k] for k in ("bed", "from", "until", "area_m2", "leaves")} == {
        "bed": "Long",
        "from": "2026-08-04",
        "until": None,
        "area_m2": 10.0,
        "leaves": ["fruit-1"],
    }
    assert opening["fits"][0]["crop"] == "tray"
    assert told["start_now"] == [
        {
            "crop": "tray",
            "plants": 10,
            "sow": "2026-07-15",
            "for": {"bed": "Long", "plant": "2026-08-04"},
        }
    ]
    rows = list(DictReader(StringIO(openings_form(found, of, "csv"))))
    assert [row["crop"] for row in rows] == [fit["crop"] for fit in opening["fits"]]
    assert rows[0]["start_now"] == "yes"
    assert (rows[0]["leaves"], rows[0]["sow"]) == ("fruit-1", "2026-07-15")
    nothing = gardens.season(gardens.text(gardens.wave(plants="10", start="09-20")))
    (row,) = DictReader(
        StringIO(openings_form(asked(nothing, date(2026, 9, 1), weeks=1), nothing, "csv"))
    )
    assert (row["bed"], row["crop"], row["until"]) == ("Long", "", "2026-09-20")


# The week's short form


def in_week(of: Season, first: date) -> ComingFree:
    return opening_in(of, first, first + timedelta(days=6))


def test_a_week_names_what_opens_in_it_and_the_trays_to_start_in_it() -> None:
    """The ten metres open on 4 August; seedlings of 20 days for that day are sown on 15 July."""
    file = gardens.text(
        gardens.wave(plants="10", start="06-01"), crops=[gardens.crop(), TRAY], sure="1%"
    )
    monday = date(2026, 7, 13)
    of = gardens.season(file, monday)
    assert in_week(of, monday).openings == ()
    (start,) = in_week(of, monday).start_now
    assert (start.offer.crop.name, start.offer.plants) == ("tray", 10)
    assert (start.offer.sow, start.offer.judged.stages.plant.day) == (
        date(2026, 7, 15),
        date(2026, 8, 4),
    )
    assert in_week(of, monday - timedelta(days=7)).start_now == ()
    # From the 18th on they are ready on 7 August.
    (late,) = in_week(gardens.season(file, date(2026, 7, 18)), monday).start_now
    assert late.offer.judged.stages.plant.day == date(2026, 8, 7)
    opens = in_week(of, date(2026, 8, 3))
    assert [(each.first, each.leaves) for each in opens.openings] == [
        (date(2026, 8, 4), ("fruit-1",))
    ]
    last = in_week(of, date(2026, 7, 29)).openings  # to 4 August, that day included
    assert [each.first for each in last] == [date(2026, 8, 4)]
    assert in_week(of, date(2026, 7, 28)).openings == ()
    later = in_week(of, date(2026, 8, 10)).openings
    assert [each.first for each in later] == [date(2026, 8, 9)]  # free the day before


def test_the_week_starts_what_fits_would_start_of_the_files_crops() -> None:
    loaded = load_demo()
    assert loaded.garden is not None
    own = {crop.name for crop in loaded.garden.crops}
    of, told = None, 0
    for week in (0, 3, 6, 8, 11):
        monday = date(2026, 6, 1) + timedelta(weeks=week)
        of = season_of(loaded.garden, monday, like=of)

        def named(found: ComingFree) -> set[tuple[str, date, str, date]]:
            return {
                (each.opening.bed.name, each.opening.first, each.offer.crop.name, each.offer.sow)
                for each in found.start_now
                if each.offer.crop.name in own
            }

        whole, short = asked(of, monday, weeks=12), in_week(of, monday)
        assert named(short) == named(whole)
        told += len(short.start_now)
        opens = {(each.bed.name, each.first, each.until, each.area) for each in short.openings}
        assert {each for each in opens if each[1] >= monday} <= {
            (each.bed.name, each.first, each.until, each.area) for each in whole.openings
        } | {each for each in opens if each[1] == monday}
    assert told > 1


def test_what_is_free_ahead_is_all_beds_spaces_from_today_on() -> None:
    """Four of ten metres lie free; six open on 4 August, 50 + 14 days after 1 June."""
    of = gardens.season(gardens.text(gardens.wave(plants="6", start="06-01")), ON)
    opened = date(2026, 8, 4)
    found = [(each.first, each.area // 10**12) for each in free_ahead(of, opened)]
    assert found == [(ON, 4), (opened, 6)]
    assert len(free_ahead(of, opened - timedelta(days=1))) == 1


def test_what_fits_is_looked_up_for_as_many_spaces_ahead_as_are_asked_for() -> None:
    # Pulled on 18 July, 64 days after 15 May: what is sown then is picked from 6 September on.
    of = gardens.season(gardens.text(gardens.wave(plants="6", start="05-15")), ON)
    last = date(2026, 7, 18)
    tried = [[bool(each.fits) for each in free_ahead(of, last, tried=n)] for n in (0, 1, 2)]
    assert tried == [[False, False], [True, False], [True, True]]


def test_beds_with_the_same_space_are_named_together_and_each_is_told_to_programs() -> None:
    beds = ["{bed: East, size: 1 x 10}", "{bed: Small, size: 1 x 5}", "{bed: West, size: 1 x 10}"]
    of = gardens.season(gardens.text(beds=beds, fall_allowance="0"))
    found = asked(of)
    assert [each.bed.name for each in found.openings] == ["East", "Small", "West"]
    heads = [line for line in openings_text(found, of) if " now, " in line]
    assert heads == ["East, West now, 10 m² each", "Small now, 5 m²"]


QUICK = gardens.leaf("quick", days_to_harvest="5", picking_days="7", rotation="3")
AUTUMN = date(2026, 9, 20)
"""So late that none of the built-in crops is safe any more; five days and a week are."""


def kept_out(*waves: str, beds: list[str]) -> list[tuple[str, list[str], object]]:
    """Return the spaces of that day: their beds, what fits, and what is kept out by which waves."""
    of = gardens.season(gardens.text(*waves, crops=[QUICK], beds=beds, too_hot="none"))
    return [
        (
            each.bed.name,
            [offer.crop.name for offer in each.fits],
            each.kept_out and (each.kept_out.crop.name, each.kept_out.in_the_way_of),
        )
        for each in asked(of, AUTUMN, weeks=1).openings
    ]


def test_what_is_safe_but_in_the_way_of_the_plan_is_told_from_what_is_not_safe() -> None:
    """Fourteen plants on 27 September are shared out over both beds: ten metres here, four there.

    What stands in the other six until 2 October would change how they are shared.
    """
    beds = [BED, "{bed: Wide, size: 1 x 10}"]
    shared, whole = (gardens.wave("quick", plants=n, start="09-27") for n in ("14", "10"))
    assert ("Wide", [], ("quick", ("quick-1",))) in kept_out(shared, beds=beds)
    assert ("Wide", ["quick"], None) in kept_out(whole, beds=beds)
    of = gardens.season(gardens.text(shared, crops=[QUICK], beds=beds, too_hot="none"))
    found = asked(of, AUTUMN, weeks=1)
    text = " ".join(" ".join(openings_text(found, of, width=80)).split())
    told = "KEPT FOR THE PLAN what is safe is in its way: Wide now, 6 m² (quick, for quick-1)"
    assert told in text.replace("\N{NO-BREAK SPACE}", " ")
    assert "NOTHING SAFE" not in text
    (space,) = json.loads(openings_form(found, of, "json"))["openings"]
    assert space["kept_out"] == {
        "crop": "quick",
        "raised": "direct",
        "in_the_way_of": ["quick-1"],
    }


def test_what_rotation_keeps_out_is_told_from_what_is_not_safe() -> None:
    """The family stood there in 2025 and may come again in 2028."""
    grew = BED.replace("}", ", grew: {2025: leaf family}}")
    assert kept_out(beds=[BED]) == [("Long", ["quick"], None)]
    assert kept_out(beds=[grew]) == [("Long", [], ("quick", ()))]
    of = gardens.season(gardens.text(crops=[QUICK], beds=[grew], too_hot="none"))
    text = " ".join(" ".join(openings_text(asked(of, AUTUMN), of, width=80)).split())
    told = "ROTATION keeps out what is safe: Long now, 10 m² (quick)"
    assert told in text.replace("\N{NO-BREAK SPACE}", " ")
    # Nothing is safe in October, whatever stood there.
    later = asked(of, date(2026, 10, 20), weeks=1)
    assert [each.kept_out for each in later.openings] == [None]
    assert "NOTHING SAFE" in "\n".join(openings_text(later, of, width=80))


def test_what_mostly_comes_to_nothing_is_not_offered() -> None:
    """One year of a hundred is enough for the grower; in the usual one frost comes first."""
    of = gardens.season(gardens.text(sure="1%"))
    for on in (date(2026, 8, day) for day in (10, 20, 30)):
        for opening in asked(of, on).openings:
            assert all(each.judged.stages.first_pick for each in opening.fits)
