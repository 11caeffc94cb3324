"""The site states an average frost more than ten days from that of its record."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.climate.frost import FrostHalf
from sowtide.days import Half, short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.checks import Plan, Said, SeasonRule

FAR = 10
"""Days apart from which on two average dates are said to differ. [days]"""


def _check(plan: Plan) -> Iterator[Said]:
    site = plan.garden.site
    if site.record is None:
        return
    for entry in site.frost:
        for half, name in ((Half.SPRING, "last"), (Half.AUTUMN, "first")):
            day = FrostHalf(half, site.frost).nearest_day(at=entry.at, share=0.5)
            recorded = plan.conditions.climate.frosts.day(half, at=entry.at, share=0.5)
            if day is None or recorded is None or abs(day - recorded.day.toordinal()) <= FAR:
                continue
            stated = date.fromordinal(day)
            yield Said(
                f"the {name} frost is stated for {short_day(stated)} and in the record it comes on "
                f"{short_day(recorded.day)}: the record is used",
                "is the station like the garden? `colder_by` and `years` bring the two together",
                span=site.record.span,
            )


RULE = SeasonRule("frost-dates-differ", Severity.NOTE, _check)
