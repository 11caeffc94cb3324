"""Each recorded year told of one wave: the same years that its odds are shares of."""

from __future__ import annotations

import json
from array import array
from dataclasses import replace
from datetime import date, timedelta

import pytest

import gardens
import replayed
from printed import why_json, why_text
from sowtide.climate.answers import EndedBy
from sowtide.climate.frost_record import RecordYears
from sowtide.climate.record.record import Record
from sowtide.report.why.page import poor_years
from sowtide.report.why.view import year_view
from sowtide.schedule.season import Season
from sowtide.season import season_of
from sowtide.units import celsius

FIRST, LAST = date(2000, 1, 1), date(2009, 12, 31)
FROSTS = {
    2001: date(2001, 9, 1),
    2004: date(2004, 9, 20),
    2008: date(2008, 8, 1),
}
BEAN = "{crop: bush bean, plants: 10, from: 06-20}"
CROP = "bush bean: {days_to_harvest: 50, picking_days: 18}"
# Beans grow by the part of 5 to 24 °C that is reached, and are rated at 68 °F, 20 °C. A rated day
# is a sine from 15 to 25 °C, of which ((20 − 24) · 0.6435 + 3) / π = 0.136 lie over 24:
# (15 − 0.136) / 19 = 0.782 of the fastest growth. At 21 °C all day it is 16 / 19 = 0.842, so that
# fifty days take 46.5.
DAYS = 47


def kept(*, maxima: bool = True) -> Record:
    """Ten mild years of 21 °C by day and by night, with frost on 10 October or another day."""
    days = [FIRST + timedelta(each) for each in range((LAST - FIRST).days + 1)]
    frosts = {FROSTS.get(year, date(year, 10, 10)) for year in range(2000, 2010)}
    lows = array("d", [-1.0 if day in frosts else 21.0 for day in days])
    highs = array("d", [21.0] * len(days)) if maxima else None
    return Record("made-up", None, FIRST, lows, highs, 0.1, False)


def season(*, maxima: bool = True, wave: str = BEAN, crop: str = CROP) -> Season:
    return replayed.season(kept(maxima=maxima), wave, latitude=40, crops=(crop,))


def test_every_year_is_told_on_its_own_days() -> None:
    found = season()
    told = {each.season: each for each in found.years_of(found.waves[0])}
    assert sorted(told) == list(range(2000, 2010))
    ripe = timedelta(DAYS)
    assert told[2003].first_pick == (date(2003, 6, 20) + ripe,) * 2
    assert (told[2003].end, told[2003].ended_by) == (date(2003, 10, 10), EndedBy.FROST)
    assert (told[2003].picking_days, told[2003].worth) == (18, 1)
    assert told[2008].first_pick == (None, None)  # 1 August comes before it is ripe
    assert (told[2008].picking_days, told[2008].worth) == (0, 0)
    left = (date(2001, 9, 1) - date(2001, 6, 20)).days - DAYS
    assert told[2001].picking_days == min(left, 18)


def test_odds_and_picking_days_are_the_means_of_the_years_told() -> None:
    found = season()
    judged, told = found.waves[0].judged, found.years_of(found.waves[0])
    assert judged.years == len(told)
    assert judged.odds == pytest.approx(sum(each.worth for each in told) / len(told))
    assert judged.expected_picking_days == pytest.approx(
        sum(each.picking_days for each in told) / len(told)
    )


@pytest.mark.parametrize("name", ["clemson", "wageningen"])
@pytest.mark.parametrize("crop", ["bush bean", "beet", "lettuce", "carrot", "potato"])
def test_so_they_are_on_real_records(name: str, crop: str) -> None:
    found = replayed.season(
        replayed.record(name),
        *(
            f"{{crop: {crop}, plants: 4, from: 0{month}-10, name: {name}{month}}}"
            for month in (4, 8)
        ),
        latitude=replayed.LATITUDES[name],
    )
    for wave in found.waves:
        told = found.years_of(wave)
        assert wave.judged.years == len(told)
        assert wave.judged.odds == pytest.approx(sum(each.worth for each in told) / len(told))
        assert wave.judged.expected_picking_days == pytest.approx(
            sum(each.picking_days for each in told) / len(told)
        )


def test_a_record_of_minima_tells_its_years_by_their_frosts() -> None:
    found = season(maxima=False)
    told = {each.season: each for each in found.years_of(found.waves[0])}
    assert sorted(told) == list(range(2000, 2010))
    assert told[2008].end == date(2008, 8, 1)
    assert told[2008].first_pick == (None, None)
    assert told[2003].end == date(2003, 10, 10)
    first = found.waves[0].stages.first_pick
    assert first is not None
    ripe = first[0].day - date(2026, 6, 20)
    assert told[2003].first_pick[0] == date(2003, 6, 20) + ripe
    judged = found.waves[0].judged
    assert judged.odds == pytest.approx(sum(each.worth for each in told.values()) / 10)
    assert judged.expected_picking_days == pytest.approx(
        sum(each.picking_days for each in told.values()) / 10
    )


def test_heat_ends_a_year_where_it_comes_first() -> None:
    found = replayed.season(
        replayed.record("clemson"), "{crop: beet, plants: 4, from: 03-20}", latitude=34.7
    )
    told = found.years_of(found.waves[0])
    ended = [each.ended_by for each in told]
    assert ended.count(EndedBy.HEAT) > len(told) / 2
    hot = next(each for each in told if each.ended_by is EndedBy.HEAT)
    assert hot.end is not None
    assert hot.end.year == hot.season
    assert 5 <= hot.end.month <= 8


def test_the_poor_years_are_named() -> None:
    found = season()
    # 2001 has less than the 14 worthwhile days only if the frost of 1 September comes so soon.
    said = poor_years([year_view(each) for each in found.years_of(found.waves[0])])
    assert said == "1 poor year of 10: 2008 (`--years` tells each)"
    later = season(wave=BEAN.replace("06-20", "07-15"))
    said = poor_years([year_view(each) for each in later.years_of(later.waves[0])])
    assert said == "2 poor years of 10: 2001 and 2008 (`--years` tells each)"
    early = season(wave=BEAN.replace("06-20", "05-20"))
    said = poor_years([year_view(each) for each in early.years_of(early.waves[0])])
    assert said == "there is no poor year among the 10 (`--years` tells each)"


def test_of_many_poor_years_the_worst_are_named() -> None:
    late = season(wave=BEAN.replace("06-20", "10-01"))
    told = late.years_of(late.waves[0])
    poor = [each for each in told if each.worth < 0.5]
    assert len(poor) == 7  # after a frost in September none comes in October
    twice = [*poor, *poor]
    said = poor_years([year_view(each) for each in twice])
    assert said.startswith("14 poor years of 14: the worst of them 2000, ")
    assert said.count("200") == 10


def test_the_table_of_years() -> None:
    found = season()
    shown = list(why_text(found.waves[0], found, width=80, years=True))
    begin = shown.index("YEAR BY YEAR  the same planting in each recorded year")
    rows = shown[begin + 2 : begin + 12]
    assert [row[:4] for row in rows] == [str(year) for year in range(2000, 2010)]
    assert "frost 1 Aug" in rows[8]
    assert "not ripe" in rows[8]
    assert rows[8].endswith("no")
    assert rows[3].split() == [
        "2003",
        *("6", "Aug"),
        *("frost", "10", "Oct"),
        *("18", "days"),
        "yes",
    ]
    assert all(len(line) <= 80 for line in shown)
    without = list(why_text(found.waves[0], found, width=80))
    assert "YEAR BY YEAR" not in "\n".join(without)


def test_the_years_as_json() -> None:
    found = season()
    years = json.loads(why_json(found.waves[0], found))["years"]
    assert [each["year"] for each in years] == list(range(2000, 2010))
    assert years[8] == {
        "year": 2008,
        "first_pick": [None, None],
        "end": "2008-08-01",
        "ended_by": "frost",
        "picking_days": 0.0,
        "worth": 0.0,
    }


def test_without_a_record_there_are_none() -> None:
    import factory

    found = factory.season()
    assert json.loads(why_json(found.waves[0], found))["years"] is None
    shown = "\n".join(why_text(found.waves[0], found, width=80, years=True))
    assert "No recorded year tells of it: there is no record." in shown


def test_minima_with_normals_tell_of_the_winters_that_a_leaf_stands() -> None:
    # One of the four winters of Seattle's record has a 20 °F night, and of one the record does not
    # know the spring; peas in leaf stand the others, and flower after the frosts of spring
    kept = replace(replayed.record("seattle"), tmax=None)
    text = (
        "site: {name: Plot, latitude: 47.4, units: us, frost: {record: station.csv, years: all,\n"
        "  normals: {max: [47, 50, 54, 59, 66, 71, 77, 77, 71, 60, 52, 46],\n"
        "            min: [36, 37, 39, 42, 48, 52, 56, 57, 53, 47, 40, 36]}}}\n"
        "season: 2026\nbeds: [{bed: North, size: 40 x 100}]\n"
        "waves: [{crop: pea, plants: 10, from: 2026-11-10}]\n"
    )
    garden = gardens.read(text)
    assert garden.site.record is not None
    years = RecordYears(kept, south=False, wanted=garden.site.record.years, before=garden.year)
    found = season_of(garden, date(2026, 1, 1), years)
    told = found.years_of(found.waves[0])
    cold = {each.season for each in years.frosts(celsius(20)).autumn.years if each.day is not None}
    assert {each.season for each in told if each.worth == 0} == {*cold, 2015}
    assert {each.worth for each in told} == {0, 1}
    assert [each.ended_by for each in told if each.worth] == [None] * 2
