"""Beds under a cover: their ground is what counts, on every sheet, where a crop may only go there.

Averages are 10 May and 1 October. A cover of 4 °C, 7.2 °F, moves the frosts by 21.6 days at 3 days
for each degree: the fruit crop may go out from 18 April there, and from 10 May in the open.
"""

from __future__ import annotations

from datetime import date

import gardens
from sowtide.report.calendar.last_days_view import _grown

HOOP = "{bed: Hoop, size: 1 x 10, cover: 4}"
OPEN = "{bed: Open, size: 1 x 10}"
FULL = gardens.wave(plants="10", start="06-01", beds="[Hoop]", name="first")


def test_a_wave_without_room_is_judged_by_the_beds_it_may_go_to() -> None:
    """Ten plants fill the hoop from June on; the second entry names it, too, and has no room."""
    second = gardens.wave("other", plants="5", start="07-25", beds="[Hoop]")
    crops = [gardens.crop(days_to_harvest="90"), gardens.crop("other")]
    file = gardens.text(FULL, second, crops=crops, beds=[OPEN, HOOP])
    of = gardens.season(file)
    wave = of.waves[1]
    assert wave.stands == ()
    assert of.prospects(wave).ground == -4
    assert of.prospects(wave).promise(date(2026, 7, 25))[0] == wave.judged.odds
    found = gardens.ask(file, "other", on=date(2026, 7, 25), plants=50)
    assert (found.judged.odds, found.judged.verdict) == (wave.judged.odds, wave.judged.verdict)
    assert [(each.crop.name, each.colder_by) for each in _grown(of)] == [
        ("fruit", -4),
        ("other", -4),
    ]


def test_of_several_grounds_a_wave_without_room_is_judged_by_the_best() -> None:
    beds = [OPEN, HOOP, "{bed: Low, size: 1 x 10, colder_by: 2}"]
    full = gardens.wave("other", plants="30", start="07-20", name="full")
    wide = gardens.wave("other", plants="30", start="07-25")
    of = gardens.season(gardens.text(full, wide, crops=[gardens.crop("other")], beds=beds))
    wave = of.waves[1]
    assert wave.stands == ()
    assert of.prospects(wave).ground == -4
    assert of.prospects(wave).promise(date(2026, 7, 25))[0] == wave.judged.odds
    split = gardens.wave("other", plants="25", start="07-25")
    of = gardens.season(gardens.text(split, crops=[gardens.crop("other")], beds=beds))
    assert len(of.waves[0].stands) == 3
    assert of.prospects(of.waves[0]).ground == 2
    assert of.prospects(of.waves[0]).promise(date(2026, 7, 25))[0] == of.waves[0].judged.odds


def test_a_hoop_is_found_from_its_own_first_day() -> None:
    file = gardens.text(beds=[OPEN, HOOP])
    here = gardens.ask(file, bed="Hoop", plants=3)
    anywhere = gardens.ask(file, plants=3)
    (hoop,) = [spot for spot in anywhere.spots if spot.bed.name == "Hoop"]
    (open_bed,) = [spot for spot in anywhere.spots if spot.bed.name == "Open"]
    assert hoop == here.spots[0]
    assert hoop.free_from == date(2026, 4, 18)
    assert open_bed.free_from == date(2026, 5, 10)
    assert anywhere.asked_on == hoop.free_from
    assert [spot.bed.name for spot in anywhere.good] == ["Hoop"]
    assert anywhere.judged == hoop.judged


def test_the_days_told_are_those_of_the_bed_that_is_spoken_of() -> None:
    """Its last wave stands in the hoop, with room for two more; the open bed takes all ten."""
    file = gardens.text(
        gardens.wave("long", plants="7", start="04-20", beds="[Hoop]"),
        gardens.wave(plants="1", start="05-15", beds="[Hoop]"),
        beds=[OPEN, HOOP],
        crops=[gardens.crop(picking_days="150"), gardens.crop("long", days_to_harvest="170")],
    )
    found = gardens.ask(file, plants=10)
    assert [(spot.bed.name, spot.plants) for spot in found.good] == [("Open", 10), ("Hoop", 2)]
    assert found.asked_on == found.windows[0].first == date(2026, 5, 10)
    assert found.judged == found.weekly[0] == found.good[0].judged
