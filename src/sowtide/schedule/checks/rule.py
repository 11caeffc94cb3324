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
    """What a rule found."""

    message: str
    hint: str | None = None
    """As those of a problem."""
    wave: Placed | None = None
    """The wave that it shows at; needed only where a rule looks at more than one."""
    span: Span | None = None
    """Where it stands in the file, where that is not the entry looked at."""
    name: str | None = None
    """The wave's name, where only that is at hand."""
    about: str | None = None
    """What the message begins with, where the rest of it may be said of others as well."""


@value
class Plan:
    """A growing year as it is looked at for problems."""

    garden: Garden
    """What the grower wrote."""
    conditions: Conditions
    """The place in that year."""
    today: date
    """The day it is looked at from."""
    entries: tuple[Grown, ...]
    """What became of each entry, in the file's order."""
    waves: tuple[Wave, ...]
    """All waves with their stages."""
    lookouts: tuple[Lookout, ...]
    """What to look for when."""
    care: CarePlan | None
    """What is done to the waves that stand; None where the file says nothing of it."""


@value
class WaveRule:
    """A rule that looks at each wave by itself."""

    code: str
    """Stable slug; its file, its case and its row in the documentation bear it."""
    level: Severity
    """How much it matters."""
    check: Callable[[Placed, Conditions], Iterator[Said]]
    """Says what is wrong, if anything."""


@value
class SeriesRule:
    """A rule that looks at all waves of an entry together, and says a thing once."""

    code: str
    level: Severity
    check: Callable[[Grown, Conditions], Iterator[Said]]
    """As those of `WaveRule`."""


@value
class SeasonRule:
    """A rule that looks at the garden and its year."""

    code: str
    level: Severity
    check: Callable[[Plan], Iterator[Said]]
    """As those of `WaveRule`."""


Rule = WaveRule | SeriesRule | SeasonRule
