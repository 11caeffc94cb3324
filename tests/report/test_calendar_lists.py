"""The lists below the calendar, each with what belongs in it and what does not."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import factory
from printed import page
from sowtide.garden.crop import Raised
from sowtide.report import REPORTS
from sowtide.report.blocks import SeasonChart
from sowtide.report.calendar import view
from sowtide.report.calendar.care_ahead_view import CareAhead
from sowtide.report.calendar.free_view import StillFree
from sowtide.report.calendar.last_days_view import CropLastDays, LastDays
from sowtide.report.calendar.view import CalendarView, SeasonBed, SeasonWave
from sowtide.report.calendar.wants_view import WantMet
from sowtide.report.kit.stands import BedPlants
from sowtide.schedule.waves.wave import Verdict

REPORT = REPORTS["calendar"]
MADE = view(factory.season(factory.wave()))
(WAVE,) = MADE.waves
TODAY = date(2026, 7, 15)
DAY = timedelta(days=1)
NONE: tuple[BedPlants, ...] = ()


def calendar(*waves: SeasonWave, **changes: Any) -> CalendarView:
    empty: dict[str, Any] = {
        "last_days": LastDays(odds=(0.8, 0.5), crops=(), endless=()),
        "look_for": (),
        "gaps": (),
        "free": (),
        "not_picked": (),
        "care": (),
    }
    return replace(MADE, **(empty | {"waves": waves or (WAVE,)} | changes))


def said(*waves: SeasonWave, **changes: Any) -> str:
    """Return what stands below the chart."""
    text = " ".join(" ".join(page(REPORT, calendar(*waves, **changes), 100)).split())
    _, _, below = text.rpartition("already come (autumn)")
    return below


def wave(name: str = "pea-1", **changes: Any) -> SeasonWave:
    return replace(WAVE, id=name, **changes)


@pytest.mark.parametrize(
    ("changes", "listed"),
    [
        ({"verdict": Verdict.CHANCY}, "LESS THAN SURE: pea-1 (chancy, 83 in 100)"),
        ({"verdict": Verdict.TOO_LATE}, "LESS THAN SURE: pea-1 (too late, 83 in 100)"),
        ({"verdict": Verdict.TOO_EARLY}, "LESS THAN SURE: pea-1 (too early)"),
        ({"verdict": Verdict.SAFE}, ""),
        ({"verdict": Verdict.SAFE_FROM_FROST}, ""),
        ({"verdict": None}, ""),
        ({"verdict": Verdict.CHANCY, "odds": None}, ""),
        ({"verdict": Verdict.CHANCY, "pull_out": TODAY}, ""),  # it is over
        ({"verdict": Verdict.CHANCY, "pull_out": TODAY + DAY}, "LESS THAN SURE: pea-1 (chancy"),
        ({"verdict": Verdict.CHANCY, "beds": NONE}, ""),
        ({"may_bolt": True}, "MAY BOLT: pea-1"),
        ({"may_bolt": True, "pull_out": TODAY}, ""),
        ({"lacks_room": True, "beds": NONE}, "NO ROOM: pea-1 (1 Jul)"),
    ],
)
def test_a_wave_is_listed_for_what_is_wrong_with_it(changes: dict[str, Any], listed: str) -> None:
    text = said(wave(**changes))
    assert listed in text
    for title in ("LESS THAN SURE", "MAY BOLT", "NO ROOM"):
        assert (title in text) is (title in listed)


@pytest.mark.parametrize(
    ("number", "rest"), [(30, ""), (31, ", and 1 more"), (40, ", and 10 more")]
)
def test_thirty_are_named_and_the_rest_counted(number: int, rest: str) -> None:
    waves = [wave(f"k{n}-1", may_bolt=True) for n in range(number)]
    names = ", ".join(f"k{n}-1" for n in range(30))
    text = said(*waves)
    assert f"MAY BOLT: {names}{rest} " in f"{text} "
    assert ("more" in text) is bool(rest)


@pytest.mark.parametrize(
    ("changes", "is_shown"),
    [
        ({}, True),
        ({"plant": MADE.days.to}, True),
        ({"plant": MADE.days.to + DAY, "pull_out": MADE.days.to + 9 * DAY}, False),
        ({"plant": MADE.days.from_ - 9 * DAY, "pull_out": MADE.days.from_}, False),
        ({"plant": MADE.days.from_ - 9 * DAY, "pull_out": MADE.days.from_ + DAY}, True),
    ],
)
def test_a_wave_outside_the_months_shown_is_named(changes: dict[str, Any], is_shown: bool) -> None:
    of = calendar(wave(**changes))
    (chart,) = (each for each in REPORT.page(of) if isinstance(each, SeasonChart))
    assert any(row.bars for row in chart.beds) is is_shown
    assert ("NOT IN THESE MONTHS: pea-1" in said(wave(**changes))) is not is_shown


def test_beds_in_which_nothing_stands_are_named_in_runs() -> None:
    beds = tuple(SeasonBed(name, "4 x 20 ft") for name in ("Long 1", "A1", "A2", "A3", "Low"))
    assert "NOTHING IN: A1 to A3, Low " in said(beds=beds)
    assert "NOTHING IN" not in said(beds=beds[:1])


SPACE = StillFree(
    bed="Long",
    from_=TODAY,
    until=None,
    area_m2=4.0,
    leaves=(),
    would_fit=("pea",),
    titles=("pea",),
    area=4 * 10**12,
)


@pytest.mark.parametrize(
    ("changes", "said_so"),
    [
        ({}, "STILL FREE, and what would be safe there: Long (43.1 ft²) now: pea "),
        ({"from_": TODAY + DAY}, "there: Long (43.1 ft²) from 16 Jul: pea "),
        ({"until": date(2026, 8, 1)}, "there: Long (43.1 ft²) to 1 Aug: pea "),
        (
            {"from_": TODAY + DAY, "until": date(2026, 8, 1)},
            "there: Long (43.1 ft²) from 16 Jul to 1 Aug: pea ",
        ),
        ({"titles": ()}, "STILL FREE: Long (43.1 ft²) now "),
    ],
)
def test_a_space_that_is_free_says_when_and_what_for(changes: dict[str, Any], said_so: str) -> None:
    assert said_so in f"{said(free=(replace(SPACE, **changes),))} "


def test_spaces_alike_are_told_together() -> None:
    beds = tuple(replace(SPACE, bed=name) for name in ("A1", "A2", "A3", "Low"))
    other = replace(SPACE, bed="B", until=date(2026, 8, 1))
    text = said(free=(*beds[:2], other, *beds[2:]))
    assert "A1 to A3 (43.1 ft² each) now: pea, Low (43.1 ft²) now: pea, B (43.1 ft²) to" in text


@pytest.mark.parametrize(
    ("times", "to", "told"),
    [
        (1, TODAY, "CARE TO COME: soak 15 Jul "),
        (2, TODAY + 9 * DAY, "CARE TO COME: soak 15–24 Jul (2 days) "),
    ],
)
def test_care_to_come_has_its_days(times: int, to: date, told: str) -> None:
    care = CareAhead(routine="soak", does="water", times=times, from_=TODAY, to=to)
    assert told in f"{said(care=(care,))} "


def test_what_falls_short_of_a_want_and_what_is_too_much() -> None:
    met = WantMet(crop="pea", unit="kg", from_=TODAY, to=TODAY + DAY, want=4, expected=1.5)
    assert "SHORT OF: pea 15–16 Jul (1.5 of 4 kg) " in f"{said(short_of=(met,))} "
    assert "TOO MUCH: pea 15–16 Jul (1.5 of 4 kg) " in f"{said(too_much=(met,))} "
    assert "SHORT OF" not in said(too_much=(met,))


def last(crop: str, **changes: Any) -> CropLastDays:
    made = CropLastDays(
        crop=crop,
        raised=Raised.DIRECT,
        days=(date(2026, 7, 20), None),
        sow_by=None,
        ground=None,
    )
    return replace(made, **changes)


def test_the_last_days_have_a_column_for_each_of_the_odds() -> None:
    odds = (0.8, 0.5, 0.2)
    crops = (
        last("pea", days=(date(2026, 7, 20), None, date(2026, 8, 9))),
        last("kale", raised=Raised.TRAYS, days=(date(2026, 8, 1),) * 3, sow_by=date(2026, 7, 2)),
        last("bean", days=(TODAY,) * 3, ground="under the hoop"),
        last("corn", days=(TODAY,) * 3, ground="under the hoop"),
    )
    text = said(last_days=LastDays(odds=odds, crops=crops, endless=("leek", "sea kale")))
    assert (
        "LAST DAYS TO PLANT sure 80 even 50 late 20 sow by pea 20 Jul - 9 Aug kale plants" in text
    )
    assert "kale plants 1 Aug 1 Aug 1 Aug 2 Jul bean * 15 Jul" in text
    assert "* bean, corn: under the hoop." in text
    assert "No frost ends leek and sea kale." in text
    plain = said(last_days=LastDays(odds=odds, crops=crops[:1], endless=()))
    assert "sow by" not in plain
    assert "No frost ends" not in plain
    assert " * " not in plain
