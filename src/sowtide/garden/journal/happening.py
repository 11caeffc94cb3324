"""What happened in the garden: the stages a grower notes down, and one entry of the journal."""

from __future__ import annotations

from datetime import date
from enum import Enum
from fractions import Fraction

from sowtide.diagnostics import Span
from sowtide.garden.text import as_written
from sowtide.units import KILOGRAMS, show_number
from sowtide.values import value


class Did(Enum):
    """What was done or seen, in the order of a wave's life."""

    PREPARED = "prepared"
    SOWN = "sown"
    UP = "up"
    THINNED = "thinned"
    HARDENED = "hardened"
    PLANTED_OUT = "planted out"
    COVERED = "covered"
    WATERED = "watered"
    FED = "fed"
    SPRAYED = "sprayed"
    SCOUTED = "scouted"
    TENDED = "tended"
    FIRST_PICKED = "first picked"
    PICKED = "picked"
    LAST_PICKED = "last picked"
    PULLED = "pulled"
    LOST = "lost"
    SKIPPED = "skipped"
    RAIN = "rain"
    SOIL = "soil"

    __hash__ = object.__hash__  # there is one of each, and thousands are looked up by it


class Found(Enum):
    """How much of what was scouted for was found."""

    NONE = "none"
    SOME = "some"
    MANY = "many"

    @property
    def any(self) -> bool:
        """Whether there was any."""
        return self is not Found.NONE


WEATHER = (Did.RAIN, Did.SOIL)
"""What happens to the whole garden."""

OF_A_WAVE = (
    *(Did.SOWN, Did.UP, Did.THINNED, Did.HARDENED, Did.PLANTED_OUT),
    *(Did.FIRST_PICKED, Did.PICKED, Did.LAST_PICKED, Did.PULLED, Did.LOST, Did.SKIPPED),
)
"""What happens to one wave; all else may be done to a bed."""

PICKINGS = (Did.FIRST_PICKED, Did.PICKED, Did.LAST_PICKED)
"""What brings something home."""

_COUNTED = (Did.SOWN, Did.UP, Did.THINNED, Did.PLANTED_OUT, Did.PULLED, Did.LOST)
"""What may say of how many plants."""


def takes(did: Did, key: str) -> bool:
    """Say whether a stage may have a key, beside its day, its wave or bed and a note."""
    if key == "plants":
        return did in _COUNTED
    if key == "amount":
        return did in PICKINGS or did in WEATHER
    only = {"found": Did.SCOUTED, "with": Did.SPRAYED, "sick": Did.PULLED, "skips": Did.SKIPPED}
    if key == "with":
        return did in (Did.SPRAYED, Did.FED, Did.COVERED, Did.WATERED, Did.TENDED)
    if key in ("wave", "bed"):
        return did not in WEATHER
    return key not in only or only[key] is did


def is_of_some(did: Did) -> bool:
    """Say whether the plants that a stage counts are one at least; none may come up."""
    return did in _COUNTED and did is not Did.UP


_MILLIMETRES = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction("25.4")}
DEGREES = ("F", "C")

WEIGHTS = tuple(KILOGRAMS)
DEPTHS = tuple(_MILLIMETRES)


@value
class Measure:
    """A number and its unit as the grower wrote them: ``1.4lb``, ``0.6in``, ``58F``, ``8``."""

    number: Fraction
    """How much."""
    unit: str
    """``lb oz kg g``, ``in cm mm``, ``F C``, or empty for pieces."""

    def __str__(self) -> str:
        return f"{show_number(float(self.number), 3)}{self.unit}"

    @property
    def kilograms(self) -> float | None:
        """The weight. [kg] None for pieces."""
        return None if self.unit not in KILOGRAMS else float(self.number * KILOGRAMS[self.unit])

    @property
    def millimetres(self) -> float | None:
        """The depth of rain. [mm] None for anything else."""
        factor = _MILLIMETRES.get(self.unit)
        return None if factor is None else float(self.number * factor)


@value
class Happening:
    """One entry of the journal: what happened on a day, to a wave, a bed or the whole garden."""

    on: date
    """The day."""
    did: Did
    """What was done or seen."""
    span: Span
    """Where it is written."""
    wave: str | None = None
    """The wave's name, or None."""
    bed: str | None = None
    """The bed's name; of a wave that stands in several, the one it happened in."""
    plants: int | None = None
    """How many; all of them if left out. [1]"""
    amount: Measure | None = None
    """What was picked, how much it rained, how warm the soil is."""
    found: Found | None = None
    """What scouting found."""
    using: str | None = None
    """What it was fed, sprayed or covered with, in the grower's words."""
    skips: Did | None = None
    """The only stage that is left undone, of all that were due."""
    sick: bool = False
    """Whether it was pulled as sick."""
    note: str | None = None
    """In the grower's words."""
    season: int | None = None
    """The season that its wave is of, where the day lies outside of that growing year."""
    undone: bool = False
    """Whether it takes back an entry that says the same."""

    @property
    def line(self) -> str:
        """The entry as sowtide writes it, on one line without its end."""
        words = (
            ("on", self.on.isoformat()),
            ("wave", self.wave),
            ("bed", self.bed),
            ("did", self.did.value),
            ("plants", None if self.plants is None else str(self.plants)),
            ("amount", None if self.amount is None else str(self.amount)),
            ("found", None if self.found is None else self.found.value),
            ("with", self.using),
            ("skips", None if self.skips is None else self.skips.value),
            ("sick", "yes" if self.sick else None),
            ("season", None if self.season is None else str(self.season)),
            ("note", self.note),
            ("undone", "yes" if self.undone else None),
        )
        said = (f"{key}: {as_written(word)}" for key, word in words if word is not None)
        return f"- {{{', '.join(said)}}}"

    @property
    def says(self) -> str:
        """What it says, whether or not it takes that back: equal for entries that say the same."""
        return self.line.removesuffix(", undone: yes}").removesuffix("}")
