"""What a rule of the plan is: its code, how much it matters, and what it looks at."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from typing import TYPE_CHECKING

from sowtide.diagnostics import Severity, Span
from sowtide.garden.model import Garden
from sowtide.schedule.beds import Grown, Placed
from sowtide.schedule.waves import Conditions, Wave
from sowtide.schedule.work import Lookout
from sowtide.values import value

if TYPE_CHECKING:  # only where a garden has care
    from sowtide.schedule.care import CarePlan


@value
class Said:
    """What a rule found.

    Parameters
    ----------
    message, hint
        As those of a problem.
    wave
        The wave that it shows at; needed only where a rule looks at more than one.
    name
        The wave's name, where only that is at hand.
    span
        Where it stands in the file, where that is not the entry looked at.
    """

    message: str
    hint: str | None = None
    wave: Placed | None = None
    span: Span | None = None
    name: str | None = None


@value
class Plan:
    """A growing year as it is looked at for problems.

    Parameters
    ----------
    garden
        What the grower wrote.
    conditions
        The place in that year.
    today
        The day it is looked at from.
    entries
        What became of each entry, in the file's order.
    waves
        All waves with their stages.
    lookouts
        What to look for when.
    care
        What is done to the waves that stand; None where the file says nothing of it.
    """

    garden: Garden
    conditions: Conditions
    today: date
    entries: tuple[Grown, ...]
    waves: tuple[Wave, ...]
    lookouts: tuple[Lookout, ...]
    care: CarePlan | None = None


@value
class WaveRule:
    """A rule that looks at each wave by itself.

    Parameters
    ----------
    code
        Stable slug; its file, its case and its row in the documentation bear it.
    level
        How much it matters.
    check
        Says what is wrong, if anything.
    """

    code: str
    level: Severity
    check: Callable[[Placed, Conditions], Iterator[Said]]


@value
class SeriesRule:
    """A rule that looks at all waves of an entry together, and says a thing once.

    Parameters
    ----------
    code, level, check
        As those of `WaveRule`.
    """

    code: str
    level: Severity
    check: Callable[[Grown, Conditions], Iterator[Said]]


@value
class SeasonRule:
    """A rule that looks at the garden and its year.

    Parameters
    ----------
    code, level, check
        As those of `WaveRule`.
    """

    code: str
    level: Severity
    check: Callable[[Plan], Iterator[Said]]


Rule = WaveRule | SeriesRule | SeasonRule
