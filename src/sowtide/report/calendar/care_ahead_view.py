"""Care that is still to come in a season: what is fed, sprayed or tied up, how often and when."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.schedule.season import Season
from sowtide.values import value


@value
class CareAhead:
    """A routine of care, on how many days it is still to be done, and the first and the last."""

    routine: str
    does: str
    times: int
    from_: date
    to: date


def care_ahead(season: Season) -> Iterator[CareAhead]:
    """Yield the care that is still to come, in the file's order; watering and looking left out."""
    if season.care is None:
        return
    days: dict[str, set[date]] = {}
    for dose in season.care.doses:
        if not dose.noted and dose.day >= season.today and not dose.routine.work.goes_round:
            days.setdefault(dose.routine.key, set()).add(dose.day)
    for routine in season.garden.care:
        if found := days.get(routine.key):
            yield CareAhead(
                routine=routine.name,
                does=routine.does,
                times=len(found),
                from_=min(found),
                to=max(found),
            )
