"""Problems of the plan that a week's sheet shows: those of the waves that it is about."""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.diagnostics import Problem, Severity
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave, chilled, doubt_of
from sowtide.schedule.work import WeekSheet

GRAVE = (Severity.ERROR, Severity.WARNING)
"""Problems that a week's sheet says."""
_MENDED_BY_PLANTING = frozenset({"rotation", "too-early"})
"""What is only a problem until the wave is planted: then it is done."""

_MAY_BOLT = "may-bolt"
_MAY_RUN_TO_SEED = "may-run-to-seed"
_POOR_GERMINATION = "poor-germination"
_TOO_HOT = "too-hot"
_WEEK = timedelta(days=7)


def problems_of_week(sheet: WeekSheet, season: Season) -> tuple[Problem, ...]:
    """Return the errors and warnings of the waves that a sheet is about, errors first.

    These are the waves with work in its week or the next, and those without room that would be
    sown or planted in these two weeks. What only mattered before a wave was planted is left out
    afterwards. What is wrong with no single wave, such as a series without any, comes last.
    """
    grave = [problem for problem in season.problems if problem.severity in GRAVE]
    if not grave:
        return ()
    waves = _waves_of(sheet, season)
    series = {
        _MAY_BOLT: {wave.entry.name for wave in waves.values() if wave.judged.may_bolt},
        _MAY_RUN_TO_SEED: {
            wave.entry.name for wave in waves.values() if _is_chilled(wave, sheet, season)
        },
        _POOR_GERMINATION: {
            wave.entry.name for wave in waves.values() if _seed_in_doubt(wave, sheet, season)
        },
        _TOO_HOT: {wave.entry.name for wave in waves.values() if wave.judged.heat is not None},
    }
    said_once = any(series.values())
    of = {wave.id: wave.entry.name for wave in season.waves} if said_once else {}
    found = [
        problem
        for problem in grave
        if (
            of.get(problem.wave or "") in series[problem.code]
            if problem.code in series
            else _concerns(problem, waves, sheet.first)
        )
    ]
    return tuple(sorted(found, key=lambda each: (each.wave is None, GRAVE.index(each.severity))))


def _waves_of(sheet: WeekSheet, season: Season) -> dict[str, Wave]:
    """Return the waves that a sheet is about, by name."""
    tasks = (*sheet.cannot_slip, *sheet.tasks, *sheet.next_week)
    waves = {task.wave.id: task.wave for task in tasks}
    waves |= {each.task.wave.id: each.task.wave for each in sheet.pickings}
    until = sheet.last + _WEEK
    for wave in season.waves:
        stages = wave.stages
        days = (stages.sow.day, stages.plant.day)
        if not wave.stands and any(sheet.first <= day <= until for day in days):
            waves[wave.id] = wave
    return waves


def _seed_in_doubt(wave: Wave, sheet: WeekSheet, season: Season) -> bool:
    """Whether a wave still to be sown goes into soil in which little of its seed comes up."""
    sown = wave.stages.plant.day
    if sown < sheet.first:
        return False
    return doubt_of(wave.crop, wave.entry.raised, sown, season.climate) is not None


def _is_chilled(wave: Wave, sheet: WeekSheet, season: Season) -> bool:
    """Whether a wave still to be planted meets cold that may make it run to seed."""
    planted = wave.stages.plant.day
    if planted < sheet.first:
        return False
    return chilled(wave.crop, planted, season.climate, season.garden.year) is not None


def _concerns(problem: Problem, waves: dict[str, Wave], first: date) -> bool:
    if problem.wave is None:
        return True
    wave = waves.get(problem.wave)
    if wave is None:
        return False
    return wave.stages.plant.day >= first or problem.code not in _MENDED_BY_PLANTING
