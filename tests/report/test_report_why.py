"""Why a date is what it is: the steps shown add up, and each says where it comes from."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta

import pytest

import factory
from printed import why_text
from sowtide.climate.answers import EndedBy
from sowtide.climate.warmth import FruitGap
from sowtide.days import DateSpan
from sowtide.garden.crop import Hardiness
from sowtide.garden.library.builtin import source, source_keys
from sowtide.reasons import Origin
from sowtide.report.kit import words
from sowtide.report.kit.sources import citation
from sowtide.report.why.view import stages_of
from sowtide.schedule.season import Season
from sowtide.schedule.waves.pick_gap import PickGap
from sowtide.schedule.waves.wave import Stand, Verdict, Wave
from sowtide.units import celsius

SEASON = factory.season()
STEP = re.compile(r" +([+-]\d+)?  (?:  |= )(\d+ \w{3})\b.*")


def _text(wave: Wave, width: int = 80) -> list[str]:
    return list(why_text(wave, SEASON, width=width))


@pytest.mark.parametrize("width", [60, 80, 120])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    for wave in SEASON.waves:
        assert max(map(len, _text(wave, width))) <= width


def test_the_steps_of_a_date_as_they_are_shown() -> None:
    lines = _text(SEASON.waves[1])
    at = lines.index("last pick                     Sat 19 Sep")
    assert lines[at + 1 : at + 4] == [
        "           1 Jul       planted                                    garden.yaml:22",
        "    +60  = 30 Aug      days to harvest, late                      garden.yaml:14",
        "    +20  = 19 Sep      picking                                sowtide's own rule",
    ]


@pytest.mark.parametrize("wave", SEASON.waves, ids=lambda wave: wave.id)
def test_every_date_shown_is_the_sum_of_its_steps(wave: Wave) -> None:
    lines = iter(_text(wave))
    sums: list[date] = []
    shown: list[str] = []
    for text in lines:
        heading = re.fullmatch(r"\S.*  (\w{3} \d+ \w{3})", text)
        if heading:
            shown.append(heading[1])
        elif step := STEP.fullmatch(text):
            month = words.MONTHS.index(step[2].split()[1]) + 1
            day = date(2026, month, int(step[2].split()[0]))
            if step[1] is None:
                sums.append(day)
            else:
                sums[-1] += timedelta(days=int(step[1]))
                assert sums[-1] == day
    assert [words.weekday(day, factory.YEAR) for day in sums] == shown
    assert sums == [dated.day for _, dated in stages_of(wave)]


def test_every_stage_a_wave_has_is_explained() -> None:
    assert [stage.value for stage, _ in stages_of(SEASON.waves[3])] == [
        "sow",
        "ready",
        "too_old",
        "harden_off",
        "plant",
        "first_pick_early",
        "first_pick_late",
        "end",
        "last_pick",
        "pull_out",
        "bed_free",
    ]
    nothing = factory.wave(plant=date(2026, 9, 1), stands=())
    assert [stage.value for stage, _ in stages_of(nothing)] == [
        "sow",
        "up",
        "plant",
        "end",
        "pull_out",
    ]


def test_a_published_source_is_cited_in_full_once() -> None:
    key = source_keys()[0]
    origins = {"days_to_harvest": Origin(source=key), "up_days": Origin(source="memory")}
    lines = _text(factory.wave(factory.bean(origins=origins)), 500)
    assert any(each.endswith("source [1]") for each in lines)
    assert [each for each in lines if each.startswith("[")] == [f"[1] {source(key)} ({key})"]
    assert any(each.endswith("from memory") for each in lines)
    assert "SOURCES" not in _text(SEASON.waves[1])


def test_keys_without_a_publication_are_said_in_words() -> None:
    assert citation("practice") == "common practice, no source"
    assert citation("memory") == "from memory"
    assert citation("sowtide") == "sowtide's own rule"
    assert citation("no-such-key") == "no-such-key"


def test_a_number_too_far_right_stands_on_a_line_of_its_own() -> None:
    crop = factory.bean(origins={"days_to_harvest": Origin("a-garden-with-a-long-name.yaml", 14)})
    lines = _text(factory.wave(crop), 60)
    assert f"{'a-garden-with-a-long-name.yaml:14':>60}" in lines


def test_verdict_odds_and_margin() -> None:
    text = " ".join(" ".join(_text(SEASON.waves[1], 400)).split())
    assert "verdict safe, 83 in 100" in text
    assert "First picks 20–30 Aug, worthwhile picking (14 days or more) in 83 years of 100" in text
    # 30 Aug + 14 days = 13 Sep, and 20 days to the frost: 13 Sep + 20 = 3 Oct
    assert "To spare: 30 Aug + 14 days = 13 Sep, +20 days = 3 Oct, the average frost" in text
    assert "May be sown from 6 May. The last safe day to have it sown is 18 Jul." in text


def test_too_early_and_never_safe() -> None:
    early = factory.wave(verdict=Verdict.TOO_EARLY, last_safe=None)
    text = " ".join(_text(early, 400))
    assert "Not to be sown before 6 May." in text
    assert "No day is safe to have it sown." in text


def test_over_the_winter_there_is_no_verdict() -> None:
    winter = factory.wave(end=None, verdict=None, odds=None, margin=None)
    lines = _text(winter)
    assert "verdict  none: it stands over the winter" in lines
    assert "To spare" not in " ".join(lines)
    free = _text(factory.wave(end=None, odds=1.0, margin=None))
    assert "verdict  safe, nothing ends it early" in free


def _spring_frost(wave: Wave, of: Season = SEASON) -> str:
    text = " ".join(" ".join(why_text(wave, of, width=400)).split())
    return next((each for each in re.split(r"(?<=[a-z])[.] ", text) if "A frost of" in each), "")


def test_hardier_crops_before_the_last_frost_say_how_often_frost_kills_them() -> None:
    # Frost dates at 32 degrees spread by 11 days about 8 May; 28 degrees come 3 days earlier for
    # each degree, 12 days: 26 April. Planted out on that day: still to come in half of the years.
    assert _spring_frost(factory.wave(factory.lettuce(), date(2026, 4, 26))) == (
        "A frost of 28 °F by the site's dates, which ends the part that is picked, still comes "
        "after 26 Apr in 50 years of 100: this is shown and does not move the day"
    )
    later = _spring_frost(factory.wave(factory.lettuce(), date(2026, 5, 5)))
    assert "after 5 May in 21 years of 100" in later  # 9 of 11 days on: 1 - Phi(0.82) = 0.21


def test_a_direct_sowing_is_killed_by_no_frost_before_it_is_up() -> None:
    hardy = factory.bean(name="hardy bean", hardiness=Hardiness.HALF_HARDY)
    # sown 18 April, up 8 days later
    said = _spring_frost(factory.wave(hardy, date(2026, 4, 18)))
    assert "still comes after 26 Apr, when it is up, in 50 years of 100" in said


def test_a_cover_lets_less_frost_kill_it() -> None:
    hoops = factory.bed("Hoops", cover=celsius(37) - celsius(32))
    stands = (Stand(hoops, 60),)
    said = _spring_frost(factory.wave(factory.lettuce(), date(2026, 4, 26), stands=stands))
    assert said.startswith("A frost of 23 °F by the site's dates,")
    # 5 degrees are 15 days: 1 - Phi(15 / 11) = 0.086
    assert "in 9 years of 100" in said
    split = (Stand(hoops, 30), Stand(factory.LONG, 30))
    worst = _spring_frost(factory.wave(factory.lettuce(), date(2026, 4, 26), stands=split))
    assert "28 °F" in worst


def test_a_tender_crop_says_how_often_a_frost_of_spring_kills_it() -> None:
    # as `fits` does, from five years of a hundred on
    lines = " ".join(_text(factory.wave(factory.bean(), date(2026, 5, 1), spring_loss=0.32)))
    assert "A frost of spring kills it in 32 years of 100: its odds count them." in " ".join(
        lines.split()
    )
    few = " ".join(_text(factory.wave(factory.bean(), date(2026, 5, 9), spring_loss=0.04)))
    assert "frost of spring" not in few


def test_where_heat_ends_it_no_days_are_to_spare_before_the_frost() -> None:
    # The frost of 3 October would be told as days from its late first pick, and heat takes some
    assert "To spare" in " ".join(_text(factory.wave(margin=20)))
    hot = factory.wave(margin=20, ended_by=EndedBy.HEAT)
    assert "To spare" not in " ".join(_text(hot))
    flowers = FruitGap(date(2026, 8, 1), date(2026, 8, 14), share=0.6, years=30)
    gap = PickGap(flowers, DateSpan(date(2026, 8, 16), date(2026, 8, 29)))
    assert "To spare" not in " ".join(_text(factory.wave(margin=20, pick_gap=gap)))


def test_no_spring_frost_for_tender_crops_or_after_the_last_frost() -> None:
    assert _spring_frost(factory.wave(factory.bean(), date(2026, 4, 26))) == ""
    assert _spring_frost(factory.wave(factory.lettuce(), date(2026, 5, 8))) == ""
    assert _spring_frost(factory.wave(factory.lettuce(), date(2026, 8, 10))) == ""
    garden = factory.garden()
    nowhere = replace(garden, site=replace(garden.site, frost=()))
    warm = factory.season(factory.wave(), garden=nowhere)
    assert _spring_frost(factory.wave(factory.lettuce(), date(2026, 4, 28)), warm) == ""


def test_the_rows_of_the_table_add_up_to_their_dates() -> None:
    from sowtide.report import REPORTS
    from sowtide.report.why import view

    report = REPORTS["why"]
    assert report.rows is not None
    of = view(SEASON.waves[1], SEASON)
    found = list(report.rows.of(of))
    for dated in of.dates:
        steps = [row for row in found if row["stage"] is dated.stage]
        reached = steps[0]["reached"]
        assert sum((timedelta(days=row["days"]) for row in steps[1:]), reached) == dated.date
        assert {row["date"] for row in steps} == {dated.date}
