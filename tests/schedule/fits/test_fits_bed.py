"""Every crop that still fits into a bed, in what order, and what closes it where none does."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date, timedelta

import pytest

import gardens
from printed import into_bed_json, into_bed_text
from sowtide.garden.crop import Raised
from sowtide.garden.varieties import crops_of
from sowtide.schedule.fits.answer import Way
from sowtide.schedule.fits.into_bed import BedAnswer, what_fits
from sowtide.schedule.fits.question import BedQuestion, Question
from sowtide.schedule.fits.spots import Spots
from sowtide.schedule.season import Season
from sowtide.schedule.waves.wave import Verdict
from sowtide.schedule.waves.windows import Prospects
from sowtide.season import DEMO_TODAY, load_demo, season_of

QUICK = {"days_to_harvest": "20", "in_row": "10"}
BEDS = ("{bed: Long, size: 1.2 x 10}", "{bed: Other, size: 1.2 x 10, grew: {2025: squash family}}")


def asked(
    of: Season, bed: str = "Long", on: date = date(2026, 7, 10), *, there: bool = False
) -> BedAnswer:
    (found,) = [each for each in of.garden.beds if each.name == bed]
    return what_fits(of, BedQuestion(found, on, seedlings=there))


def empty(**more: str) -> Season:
    return gardens.season(gardens.text(crops=["bush bean: {rotation: 3}"], beds=BEDS, **more))


def test_safe_crops_come_first_and_soonest_and_chancy_ones_by_their_odds() -> None:
    found = asked(empty())
    picks = []
    for each in found.safe:
        judged = each.spot.judged
        assert judged.verdict is Verdict.SAFE_FROM_FROST
        assert judged.stages.first_pick is not None
        picks.append(judged.stages.first_pick[0].day)
    assert picks == sorted(picks)
    assert len(found.safe) > 10
    odds = [each.spot.judged.odds or 0 for each in found.chancy]
    assert odds == sorted(odds, reverse=True)
    assert all(each.spot.judged.verdict is Verdict.CHANCY for each in found.chancy)
    assert found.covers == ()


def test_it_says_of_each_what_fits_crop_says_of_it() -> None:
    names = ("radish", "kale", "bush bean")
    file = gardens.text(crops=[f"{name}: {{rotation: 3}}" for name in names], beds=BEDS[:1])
    found = asked(gardens.season(file))
    for name in names:
        (each,) = [one for one in (*found.safe, *found.chancy) if one.crop.name == name]
        alone = gardens.ask(file, name, today=date(2026, 7, 10))
        assert alone.spots[0].judged == each.spot.judged
        assert alone.spots[0].plants == each.spot.plants


def test_the_files_own_crops_go_before_built_in_ones_of_their_name() -> None:
    of = gardens.season(
        gardens.text(crops=["Radish: {days_to_harvest: 55}", gardens.crop("comet")], beds=BEDS)
    )
    names = [crop.name for crop in crops_of(of.garden)]
    assert names.count("radish") + names.count("Radish") == 1
    assert "comet" in names
    found = asked(of)
    (radish,) = [each for each in found.safe if each.crop.name.lower() == "radish"]
    picks = radish.spot.judged.stages.first_pick
    assert picks is not None
    assert (picks[0].day - date(2026, 7, 10)).days >= 55


def test_a_kind_is_listed_once_whatever_the_file_calls_it() -> None:
    of = gardens.season(gardens.text(crops=["courgette: {days_to_harvest: 40}"], beds=BEDS))
    kinds = [crop.kind for crop in crops_of(of.garden)]
    assert kinds.count("summer squash") == 1
    found = [each.crop.name for each in asked(of, on=date(2026, 6, 1)).safe]
    assert "courgette" in found
    assert "summer squash" not in found


def test_many_crops_that_rotation_keeps_out_are_counted() -> None:
    of = gardens.season(
        gardens.text(beds=[BEDS[0].replace("}", ", grew: {2025: cabbage family}}")])
    )
    found = asked(of)
    assert len(found.closed) > 8
    text = " ".join(into_bed_text(found, of, width=80))
    assert f"Rotation keeps out {len(found.closed)} crops; `--format json` lists them all." in text


def test_how_long_a_bed_takes_a_crop_is_found_without_judging_every_day(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Room for all of the year, and no frost: only the day asked about is judged."""
    judged: list[date] = []
    judge = Prospects._judge
    monkeypatch.setattr(Prospects, "_judge", lambda s, on: (judged.append(on.day), judge(s, on))[1])
    few = gardens.wave("bush bean", plants="1", start="06-15")
    of = gardens.season(gardens.text(few, crops=["bush bean: {}"], beds=BEDS, frost="none"))
    found = asked(of, on=date(2026, 3, 1))
    assert len(found.safe) > 40
    assert len(judged) < 4 * len(crops_of(of.garden))


@pytest.mark.parametrize("leaves", [1, 40, 99])
def test_the_last_day_with_room_is_the_one_that_every_day_shows(leaves: int) -> None:
    """Room for some until the beans come; the days are looked at one by one."""
    full = gardens.wave("bush bean", plants="100", start="07-20", split="no")
    crops = ["bush bean: {in_row: 10, between_rows: 100}", gardens.crop("quick", **QUICK)]
    of = gardens.season(gardens.text(full, crops=crops, beds=["{bed: Long, size: 1 x 10.9}"]))
    for crop in of.garden.crops:
        asked_on = date(2026, 5, 20)
        spots = Spots(
            of,
            Question(crop, None, None, asked_on, seedlings=False),
            raised=crop.raised,
            last=None,
        )
        (spot,) = spots.spots(of.garden.beds, leaves)
        prospects = of.conditions.prospects(crop, crop.raised)
        last, day = asked_on, asked_on
        window = prospects.window_of(day)
        assert window is not None
        while day < window.last:
            day += timedelta(days=1)
            pulled = prospects.judge(gardens.planted(day)).stages.pull_out.day
            if spots.free(of.garden.beds[0], day, pulled) // crop.area_per_plant < spot.plants:
                break
            last = day
        assert spot.free_until == last


def test_trays_are_counted_from_a_sowing_today_unless_seedlings_are_there() -> None:
    tray = gardens.crop("tray", raised="trays", nursery_days="20-30", days_to_harvest="30")
    of = gardens.season(gardens.text(crops=[tray], beds=BEDS))
    (later,) = [each for each in asked(of).safe if each.crop.name == "tray"]
    (now,) = [each for each in asked(of, there=True).safe if each.crop.name == "tray"]
    assert later.raised is now.raised is Raised.TRAYS
    assert (later.spot.free_from - date(2026, 7, 10)).days == 20
    assert now.spot.free_from == date(2026, 7, 10)


def test_rotation_keeps_a_family_out_and_is_said() -> None:
    found = asked(empty(), "Other")
    assert "summer squash" in found.closed
    shown = [each.crop.family for each in (*found.safe, *found.chancy)]
    assert "squash family" not in shown
    open_to_it = asked(empty(), "Long")
    assert open_to_it.closed == ()


def test_a_full_bed_takes_nothing_until_it_opens() -> None:
    wave = gardens.wave("bush bean", plants="500", start="05-15", split="no")
    of = gardens.season(
        gardens.text(wave, crops=["bush bean: {in_row: 15, between_rows: 16}"], beds=BEDS[:1])
    )
    pulled = of.waves[0].stages.pull_out.day
    found = asked(of)
    assert found.safe
    for each in found.safe:
        assert each.spot.free_from >= pulled
        assert each.spot.after is not None


def test_where_nothing_is_safe_a_cover_crop_closes_the_space() -> None:
    found = asked(empty(), on=date(2026, 9, 25))
    assert found.safe == ()
    assert [each.what for each in found.covers][:1] == [Way.COVER_CROP]
    text = "\n".join(into_bed_text(found, empty(), width=80))
    assert "No crop would be safe there." in text
    assert "TO CLOSE THE SPACE" in text


@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_page_keeps_to_its_width_and_says_when_and_how_many(width: int) -> None:
    demo = load_demo()
    assert demo.garden is not None
    of = season_of(demo.garden, DEMO_TODAY)
    lines = list(into_bed_text(asked(of, "South", DEMO_TODAY), of, width=width))
    assert max(map(len, lines)) <= width
    assert lines[0] == "WHAT STILL FITS into South from Thu 16 Jul"
    text = "\n".join(lines)
    assert "SAFE  soonest first" in text
    assert "Rotation keeps out: summer squash" in text
    if width >= 80:
        (row,) = [line for line in lines if line.startswith("radish ")]
        assert row.split()[1:4] == ["144", "sow", "16"]


def test_what_falls_into_an_absence_is_named() -> None:
    # Sown today, 10 July; the first picks of 20 days come on the 30th, those of 30 on 9 August.
    crops = [
        gardens.crop("soon", days_to_harvest="20", picking_days="9"),
        gardens.crop("later", days_to_harvest="30", picking_days="9"),
        # Cut once, it holds for nine days from the 30th: it is cut on 6 August.
        gardens.crop("holds", days_to_harvest="20", picking_days="1", holding_days="9"),
    ]
    file = gardens.text(crops=crops, beds=BEDS, fall_allowance="0")

    def said(away: str) -> str:
        of = gardens.season(f"{file}away: [{away}]\n")
        found = asked(of)
        mine = tuple(each for each in found.safe if each.crop.name in ("soon", "later", "holds"))
        found = replace(found, safe=mine, chancy=())
        return " ".join(" ".join(into_bed_text(found, of, width=80)).split())

    assert "First picked while nobody is there: soon." in said("07-30..08-05")
    assert "nobody is there" not in said("07-31..08-05")
    assert "First picked while nobody is there: later." in said("08-09..08-10")
    assert "Planted while nobody is there: holds, soon, later." in said("07-10..07-12")

    # Each of the sentences stands alone, below a blank line.
    of = gardens.season(f"{file}away: [07-10..07-12]\n")
    lines = into_bed_text(asked(of), of, width=80)
    at = next(n for n, line in enumerate(lines) if line.startswith("Planted while nobody"))
    assert (lines[at - 1], bool(lines[at - 2].strip())) == ("", True)

    def told(away: str, field: str) -> set[str]:
        of = gardens.season(f"{file}away: [{away}]\n")
        crops = json.loads(into_bed_json(asked(of), of))["crops"]
        return {each["crop"] for each in crops if each[field]} & {"soon", "later", "holds"}

    assert told("07-30..08-05", "away_when_picked") == {"soon"}
    assert told("08-09..08-10", "away_when_picked") == {"later"}
    assert told("07-10..07-12", "away_when_picked") == set()
    assert told("07-10..07-12", "away_when_planted") == {"soon", "later", "holds"}
    assert told("07-11..07-12", "away_when_planted") == set()


def test_it_as_json() -> None:
    of = empty()
    found = json.loads(into_bed_json(asked(of), of))
    assert (found["bed"], found["on"]) == ("Long", "2026-07-10")
    verdicts = [each["verdict"] for each in found["crops"]]
    assert verdicts == sorted(verdicts, key=["safe from frost", "chancy"].index)
    assert found["cover_crops"] == []
