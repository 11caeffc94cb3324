"""What is sown to stand the winter in leaf, and may not, is not too late: later days are surer."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from printed import fits_text, why_text
from sowtide.garden.crop import Raised
from sowtide.schedule.fits.one_more import answer
from sowtide.schedule.fits.question import Question
from sowtide.schedule.season import Season
from sowtide.schedule.waves import last_days
from sowtide.schedule.waves.wave import Verdict


def _season(sown: str = "11-05", crop: str = "broad bean") -> Season:
    line = gardens.wave(crop, start=sown)
    return gardens.season(
        gardens.text(
            line,
            crops=[f"{crop}: {{}}"],
            frost="{last: 05-05, first: 10-20}",
            latitude=52.2,
            warmest_month="17.5",
            coldest_month="3.5",
        )
    )


@pytest.mark.parametrize(
    ("sown", "verdict"), [("11-05", Verdict.WINTER), ("11-26", Verdict.CHANCY)]
)
def test_a_winter_that_kills_makes_no_day_too_late(sown: str, verdict: Verdict) -> None:
    found = _season(sown)
    judged = found.waves[0].judged
    assert judged.verdict is verdict
    assert judged.winter_kills
    (problem,) = found.problems
    assert "comes through the winter in" in problem.message
    assert problem.hint == "a cover, or a sowing at the end of winter, is surer"
    said = " ".join(" ".join(why_text(found.waves[0], found)).split())
    assert "or a frost on its flowers, spares it in" in said
    assert "The last safe day" not in said
    question = Question(
        found.garden.crops[0], plants=1, bed=None, seedlings=False, on=judged.stages.plant.day
    )
    asked = " ".join(" ".join(fits_text([answer(found, question)], found)).split())
    assert "or a frost on its flowers, spares it in" in asked
    assert "too late" not in asked


def test_later_sowings_are_surer_then() -> None:
    days = (date(2026, 11, 5), date(2026, 11, 26), date(2026, 12, 20))
    prospects = _season().prospects(_season().waves[0])
    odds = [prospects.promise(day)[0] for day in days]
    assert odds == sorted(odds)


def test_what_frost_ends_in_autumn_is_too_late() -> None:
    # A pea of the middle of August has its flowers in October
    judged = _season("08-25", "pea").waves[0].judged
    assert judged.verdict is Verdict.TOO_LATE
    assert not judged.winter_kills


def test_last_days_are_those_of_the_run_that_is_surest() -> None:
    found = _season()
    crop = found.garden.crops[0]
    sure, even, late = last_days(found.conditions, crop, Raised.DIRECT, shares=(0.8, 0.5, 0.2))
    # 45 days before 21 June, the end of its planting time; without the run of November, no later
    assert sure == even == late == date(2026, 5, 7)
