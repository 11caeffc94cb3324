"""One more wave: does it fit before frost, and where?"""

from sowtide.schedule.fits.answer import (
    Answer,
    Covered,
    Instead,
    Neighbour,
    Spot,
    Way,
)
from sowtide.schedule.fits.instead_of import Weighing, left_of, since_of, weigh
from sowtide.schedule.fits.into_bed import BedAnswer, StillFits, what_fits
from sowtide.schedule.fits.one_more import answer, best_first
from sowtide.schedule.fits.question import BedQuestion, Question

__all__ = [
    "Answer",
    "BedAnswer",
    "BedQuestion",
    "Covered",
    "Instead",
    "Neighbour",
    "Question",
    "Spot",
    "StillFits",
    "Way",
    "Weighing",
    "answer",
    "best_first",
    "left_of",
    "since_of",
    "weigh",
    "what_fits",
]
