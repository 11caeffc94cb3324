"""One more wave: does it fit before frost, and where?"""

from __future__ import annotations

from sowtide.schedule.fits.answer import (
    Answer,
    BedOpening,
    ComingFree,
    Covered,
    Instead,
    Neighbour,
    Offer,
    Spot,
    StartNow,
    Way,
)
from sowtide.schedule.fits.instead_of import Weighing, since_of, weigh
from sowtide.schedule.fits.into_bed import BedAnswer, StillFits, what_fits
from sowtide.schedule.fits.one_more import answer, best_first
from sowtide.schedule.fits.openings import coming_free
from sowtide.schedule.fits.question import BedQuestion, OpeningsQuestion, Question

__all__ = [
    "Answer",
    "BedAnswer",
    "BedOpening",
    "BedQuestion",
    "ComingFree",
    "Covered",
    "Instead",
    "Neighbour",
    "Offer",
    "OpeningsQuestion",
    "Question",
    "Spot",
    "StartNow",
    "StillFits",
    "Way",
    "Weighing",
    "answer",
    "best_first",
    "coming_free",
    "since_of",
    "weigh",
    "what_fits",
]
