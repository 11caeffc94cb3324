"""What is wanted without days, and no safe planting tells in which weeks it could be picked."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.diagnostics import Severity
from sowtide.garden.want import Want
from sowtide.schedule.checks import Plan, Said, SeasonRule
from sowtide.schedule.waves import picked_in

_A_DAY_OF_AUTUMN = timedelta(days=80)
"""So long before midwinter what stands the winter is planted, most of it: ours. [days]"""


def _check(plan: Plan) -> Iterator[Said]:
    for want in plan.garden.wants:
        if want.first and want.last:
            continue
        crop = want.crop
        if plan.conditions.picked_safely(crop, plan.garden.beds) is not None:
            continue
        yield Said(
            f"no week is counted in which {crop.name} is wanted: no safe planting of this season "
            "tells when it is picked",
            _hint(plan, want),
            span=want.span,
        )


def _hint(plan: Plan, want: Want) -> str:
    """Say which days to write: those of what stands here, or stood the winter before."""
    year, lacking = plan.conditions.year, []
    if want.first is None:
        picked = _picked_from(plan, want)
        if picked is None:
            return (
                f'`sowtide fits "{want.crop.name}"` says what would be safe; with from: and '
                "until: its weeks are counted all the same"
            )
        soon_enough = want.last is None or picked <= want.last
        lacking.append(f"from: {_written(picked if soon_enough else year.first, plan)}")
    if want.last is None:
        lacking.append(f"until: {_written(year.last, plan)}")
    return f"write {', '.join(lacking)}, or days of your own"


def _picked_from(plan: Plan, want: Want) -> date | None:
    """Return the first day of the season on which some of it is picked, or would be."""
    year, crop = plan.conditions.year, want.crop
    stages = [wave.stages for wave in plan.waves if wave.crop.name == crop.name]
    if crop.overwinters:
        prospects = plan.conditions.on_warmest(crop, plan.garden.beds)
        stages.append(prospects.judge_on(year.first - _A_DAY_OF_AUTUMN).stages)
    picked = (picked_in(each) for each in stages)
    return next((each.first for each in picked if each is not None and each.first in year), None)


def _written(day: date, plan: Plan) -> str:
    """Write a day as the file takes it: MM-DD in the growing year."""
    return day.strftime("%m-%d") if day in plan.conditions.year else day.isoformat()


RULE = SeasonRule("want-no-days", Severity.WARNING, _check)
