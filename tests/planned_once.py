"""A season planned once, however many commands then ask for it."""

from __future__ import annotations

from datetime import date

from sowtide.climate.frost_record import RecordYears
from sowtide.garden.journal import Journal
from sowtide.garden.model import Garden
from sowtide.progress import Progress, unwatched
from sowtide.schedule.season import Season
from sowtide.season import season_of

_PLANNED: list[tuple[tuple[Garden, date, Journal | None, bool], Season]] = []


def planned_once(
    garden: Garden,
    today: date,
    record: RecordYears | None = None,
    journal: Journal | None = None,
    *,
    checked: bool = True,
    progress: Progress = unwatched,
    like: Season | None = None,
) -> Season:
    """Return what `season_of` does: what is asked for again is the same season."""

    def planned() -> Season:
        return season_of(
            garden, today, record, journal, checked=checked, progress=progress, like=like
        )

    if record is not None:
        return planned()
    asked = (garden, today, journal, checked)
    known = (season for each, season in _PLANNED if each == asked)
    found = next(known, None)
    if found is None:
        found = planned()
        _PLANNED.append((asked, found))
    return found
