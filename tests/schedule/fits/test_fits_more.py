"""Between which waves one more would stand, and what a cover over it would buy."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

import gardens
from printed import fits_text
from sowtide.schedule.fits.answer import Answer, Neighbour
from sowtide.schedule.fits.one_more import answer
from sowtide.schedule.fits.question import Question
from sowtide.schedule.season import Season

FULL = "10"  # a bed of 1 x 10


def asked(
    of: Season, *, on: date, plants: int | None = None, cover: float | None = None
) -> tuple[Answer, str]:
    crop = of.garden.crops[0]
    found = answer(
        replace(of, today=on), Question(crop, plants, None, on, seedlings=False, cover=cover)
    )
    text = " ".join(" ".join(fits_text((found,), of, width=80)).split())
    return found, text


def test_what_leaves_its_space_and_what_comes_after_it() -> None:
    """Fifty days and fourteen of picking: a full bed from 20 May to 22 July, and again in 2027."""
    of = gardens.season(gardens.text(gardens.wave(plants=FULL, start="05-20", name="one")))
    pulled = of.waves[0].stages.pull_out.day
    found, text = asked(of, on=date(2026, 7, 1), plants=1)
    (spot,) = found.spots
    assert spot.free_from == pulled
    assert spot.after == Neighbour("one-1", pulled)
    assert spot.before is None
    assert f"free of one-1 on {pulled.day} {pulled:%b}" in text


def test_of_what_has_left_the_last_is_named_and_of_several_the_largest() -> None:
    # Fifty days and fourteen of picking: what comes on 20 May leaves on 23 July, what comes ten
    # days later on 2 August. Asked of 10 August with room for all ten, the later two are named by
    # the larger of them.
    of = gardens.season(
        gardens.text(
            gardens.wave(plants="4", start="05-20", name="soon"),
            gardens.wave(plants="2", start="05-30", name="small"),
            gardens.wave(plants="3", start="05-30", name="large"),
            fall_allowance="0",
        )
    )
    found, _ = asked(of, on=date(2026, 8, 10), plants=10)
    (spot,) = found.spots
    assert spot.after == Neighbour("large-1", date(2026, 8, 2))


def test_without_a_number_as_many_as_fit_first_are_meant() -> None:
    # Long has room for three beside seven until autumn; Wide, for twenty, is kept through June.
    of = gardens.season(
        gardens.text(
            gardens.wave("other", plants="7", start="05-20"),
            crops=(gardens.crop(), gardens.crop("other", picking_days="60")),
            beds=("{bed: Long, size: 1 x 10}", "{bed: Wide, size: 2 x 10, taken: 05-01..06-30}"),
        )
    )
    soonest = answer(
        replace(of, today=date(2026, 6, 1)),
        Question(of.garden.crops[0], None, None, None, seedlings=False),
    )
    assert {spot.bed.name: spot.plants for spot in soonest.spots} == {"Long": 3, "Wide": 20}
    assert soonest.plants == 3


def test_what_comes_is_named_with_its_day() -> None:
    of = gardens.season(gardens.text(gardens.wave(plants=FULL, start="08-20", name="later")))
    found, text = asked(of, on=date(2026, 5, 20), plants=1)
    (spot,) = found.spots
    assert spot.after is None
    assert spot.before == Neighbour("later-1", date(2026, 8, 20))
    assert "later-1 comes on 20 Aug" in text


def test_what_leaves_it_enough_is_no_neighbour() -> None:
    few = "8"
    of = gardens.season(
        gardens.text(
            gardens.wave(plants=few, start="05-10", count="1", every="90", name="one"),
            gardens.wave(plants=few, start="09-25", name="other"),
        )
    )
    found, _ = asked(of, on=date(2026, 7, 20), plants=1)
    assert [(spot.after, spot.before) for spot in found.spots] == [(None, None)]
    more, _ = asked(of, on=date(2026, 5, 20), plants=3)
    (spot,) = more.spots
    assert spot.after is not None
    assert spot.after.wave == "one-1"


def test_the_growers_own_use_is_a_neighbour() -> None:
    bed = gardens.BED.replace("}", ", taken: [05-01..06-10, 09-20..10-10]}")
    of = gardens.season(gardens.text(beds=[bed]))
    found, text = asked(of, on=date(2026, 5, 20), plants=1)
    (spot,) = found.spots
    assert spot.after == Neighbour(None, date(2026, 6, 11))
    assert spot.before == Neighbour(None, date(2026, 9, 20))
    assert "free of your own use of it on 11 Jun, your own use of it comes on 20 Sep" in text


def test_a_bed_that_rests_is_free_after_its_rest() -> None:
    bed = gardens.BED.replace("}", ", rest: 5}")
    of = gardens.season(
        gardens.text(gardens.wave(plants=FULL, start="05-20", name="one"), beds=[bed])
    )
    pulled = of.waves[0].stages.pull_out.day
    found, _ = asked(of, on=date(2026, 7, 1), plants=1)
    (spot,) = found.spots
    assert spot.after == Neighbour("one-1", pulled + timedelta(days=5))


def test_what_a_cover_buys() -> None:
    """A spread of 11 days; 2 °C are 3.6 °F, 10.8 days at 3 days for each °F."""
    of = gardens.season(gardens.text())
    on = date(2026, 7, 24)
    found, text = asked(of, on=on, plants=1, cover=2.0)
    cover = found.cover
    assert cover is not None
    assert found.last_safe is not None
    assert cover.last_under is not None
    # Later by 11 days and by what the allowance for a cold autumn does in between.
    assert 5 <= (cover.last_under - found.last_safe).days <= 11
    assert (found.earliest - cover.under.earliest).days == 11
    assert (cover.under.odds or 0) > (found.judged.odds or 0)
    assert cover.under.stages.plant.day == on
    assert "UNDER A COVER that buys 2 °C: sown on Fri 24 Jul" in text
    without, _ = asked(of, on=on, plants=1)
    assert without.cover is None
    assert without.judged == found.judged


def test_under_a_cover_it_is_as_in_a_bed_that_has_one() -> None:
    of = gardens.season(gardens.text())
    found, _ = asked(of, on=date(2026, 7, 24), plants=1, cover=2.0)
    covered = gardens.season(gardens.text(beds=[gardens.BED.replace("}", ", cover: 2}")]))
    there, _ = asked(covered, on=date(2026, 7, 24), plants=1)
    assert found.cover is not None
    assert found.cover.under.odds == pytest.approx(there.spots[0].judged.odds)
    assert found.cover.last_under == there.spots[0].judged.last_safe


def test_without_a_cover_is_without_the_beds_own() -> None:
    bare = gardens.season(gardens.text())
    hoop = gardens.season(gardens.text(beds=[gardens.BED.replace("}", ", cover: 3}")]))
    on = date(2026, 7, 24)
    found, text = asked(hoop, on=on, plants=1, cover=2.0)
    open_ground, _ = asked(bare, on=on, plants=1, cover=2.0)
    assert found.cover is not None
    assert open_ground.cover is not None
    assert found.cover.own == 3
    assert found.cover.without.odds == open_ground.judged.odds
    assert found.cover.under.odds == open_ground.cover.under.odds
    assert found.judged.odds != found.cover.without.odds
    assert "The bed's own cover of 3 °C is left out of both." in text


def test_beds_stand_empty_where_no_pick_would_come_and_none_is_said_to_lack_room() -> None:
    """Sown on 20 September it is not picked; its seedlings, 30 days ahead, have the whole bed."""
    tray = gardens.crop(raised="either", nursery_days="30", days_to_harvest="50")
    of = gardens.season(gardens.text(crops=(tray,), fall_allowance="0"))
    found, text = asked(of, on=date(2026, 8, 25))
    assert found.spots == ()
    assert "BEDS WITH ROOM" not in text
    assert "(room for 10)" in text
