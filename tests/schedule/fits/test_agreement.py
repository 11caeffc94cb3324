"""`plan`, `fits --on`, `why`, `calendar` agree on every wave, under a cover or without room."""

from __future__ import annotations

from random import Random

import pytest

import gardens
from drawn import covered_garden
from sowtide.report.calendar.last_days_view import _grown
from sowtide.schedule.fits.one_more import answer
from sowtide.schedule.fits.question import Question
from sowtide.schedule.season import Season
from sowtide.schedule.waves.last_days import last_days
from sowtide.schedule.waves.wave import SAFE, Verdict, Wave


def _fits(of: Season, wave: Wave) -> None:
    """Ask for just this wave, in the bed it is judged by; without a bed where nothing is safe."""
    beds = [stand.bed for stand in wave.stands] or wave.entry.beds_of(wave.number)[0]
    ground = of.prospects(wave).ground
    named = next(bed for bed in beds if bed.colder_than_site == ground)
    alone = [each for each in of.waves if each.crop is wave.crop] == [wave]
    for bed in (named, None) if alone else (named,):
        question = Question(wave.crop, 1_000, bed, wave.stages.plant.day, seedlings=False)
        found = answer(of, question)
        if bed is None and any(spot.judged.verdict in SAFE for spot in found.spots):
            continue  # it is told of those
        assert (found.judged.odds, found.judged.verdict) == (wave.judged.odds, wave.judged.verdict)
        assert found.judged.earliest == wave.judged.earliest
        picks = [
            day and [each.day for each in day]
            for day in (found.judged.stages.first_pick, wave.stages.first_pick)
        ]
        assert picks[0] == picks[1]


@pytest.mark.parametrize("block", range(10))
def test_the_sheets_agree_on_every_wave_of_drawn_gardens(block: int) -> None:
    seen = {"no room": 0, "covered": 0, "winter": 0}
    for number in range(20 * block, 20 * block + 20):
        of = gardens.season(covered_garden(Random(number)))
        year = of.conditions.year
        for wave in of.waves:
            planted, prospects = wave.stages.plant.day, of.prospects(wave)
            odds, verdict = prospects.promise(planted)
            assert verdict is wave.judged.verdict
            assert (None if verdict is None else odds) == wave.judged.odds
            if wave.entry.raised is wave.crop.raised:
                _fits(of, wave)
            seen["no room"] += not wave.stands
            seen["covered"] += prospects.ground < 0
            seen["winter"] += verdict is None
        share = of.garden.site.sure.share
        assert share is not None
        for grown in _grown(of):
            (last,) = last_days(
                of.conditions, grown.crop, grown.raised, shares=(share,), colder_by=grown.colder_by
            )
            for wave in (each for each in of.waves if each.crop is grown.crop):
                same = of.prospects(wave).ground == grown.colder_by
                if same and wave.judged.verdict in SAFE and wave.stages.plant.day in year:
                    assert last is not None
                    assert wave.stages.plant.day <= last
                one_run = len(of.prospects(wave).windows) < 2
                if same and one_run and wave.judged.verdict is Verdict.TOO_LATE:
                    assert last is None or wave.stages.plant.day > last
    assert all(seen.values()), seen
