"""From a file on disk to a season: everything read, dated and placed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from sowtide.climate.outlook import Climate
from sowtide.diagnostics import Problem
from sowtide.garden.model import Garden
from sowtide.schedule.wave import Gap, Wave


@dataclass(frozen=True, slots=True)
class Season:
    """A growing year of a garden, dated and placed.

    Parameters
    ----------
    garden
        What the grower wrote.
    climate
        What the place does.
    today
        The day it is looked at from.
    waves
        All waves, in the order of the file's entries and of their numbers.
    gaps
        Named gaps in series.
    problems
        Problems of the plan, in file order.
    """

    garden: Garden
    climate: Climate
    today: date
    waves: tuple[Wave, ...]
    gaps: tuple[Gap, ...]
    problems: tuple[Problem, ...]
