"""All rules of the plan, found in the rooms beside this file, and what they say to a plan."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from importlib import import_module
from pathlib import Path

from sowtide.diagnostics import Problem, Severity, Span, in_file_order
from sowtide.schedule.checks.rule import Plan, Rule, Said, SeasonRule, SeriesRule, WaveRule

_ROOMS = ("growth", "room", "season", "series", "timing")
_OF_CARE = "tending"
_GRAVEST = list(Severity)


@cache
def rules(*, of_care: bool = True) -> tuple[Rule, ...]:
    """Return every rule, the gravest first, then by code; those of care only if they are asked for.

    A rule is the `RULE` of a file in one of the rooms: to add one is to add its file.
    """
    door, folder = __name__.rpartition(".")[0], Path(__file__).parent
    rooms = (*_ROOMS, _OF_CARE) if of_care else _ROOMS
    files = [file for room in rooms for file in (folder / room).glob("[!_]*.py")]
    modules = (import_module(f"{door}.{file.parent.name}.{file.stem}") for file in files)
    found: list[Rule] = [module.RULE for module in modules if hasattr(module, "RULE")]
    return tuple(sorted(found, key=lambda rule: (_GRAVEST.index(rule.level), rule.code)))


def problems_of(plan: Plan) -> tuple[Problem, ...]:
    """Return everything that is wrong with a plan, in file order."""
    return in_file_order(_said(plan))


def _said(plan: Plan) -> Iterator[Problem]:
    known = rules(of_care=plan.care is not None)
    of_waves = [rule for rule in known if isinstance(rule, WaveRule)]
    of_series = [rule for rule in known if isinstance(rule, SeriesRule)]
    of_season = [rule for rule in known if isinstance(rule, SeasonRule)]
    for grown in plan.entries:
        span = grown.entry.span
        for wave in grown.waves:
            # Of one that is gone nothing can come true any more, or fail to.
            for rule in () if wave.gone is not None else of_waves:
                for said in rule.check(wave, plan.conditions):
                    yield _problem(rule, said, span, wave.planting.id)
        for each in of_series:
            for said in each.check(grown, plan.conditions):
                yield _problem(each, said, span, said.wave.planting.id if said.wave else None)
    for whole in of_season:
        for said in whole.check(plan):
            yield _problem(whole, said, said.span, said.name)


def _problem(rule: Rule, said: Said, span: Span | None, wave: str | None) -> Problem:
    return Problem(
        severity=rule.level,
        code=rule.code,
        message=said.message,
        hint=said.hint,
        span=span,
        wave=wave,
        about=said.about,
    )
