"""The journal: what really happened, a file beside the garden's that only grows."""

from sowtide.garden.journal.happening import (
    OF_A_WAVE,
    PICKINGS,
    WEATHER,
    Did,
    Found,
    Happening,
    Measure,
    is_of_some,
    takes,
)
from sowtide.garden.journal.of_keys import KEYS, measure, reader_of
from sowtide.garden.journal.read_journal import Journal, journal_of, read_journal
from sowtide.garden.journal.write_journal import held

__all__ = [
    "KEYS",
    "OF_A_WAVE",
    "PICKINGS",
    "WEATHER",
    "Did",
    "Found",
    "Happening",
    "Journal",
    "Measure",
    "held",
    "is_of_some",
    "journal_of",
    "measure",
    "read_journal",
    "reader_of",
    "takes",
]
