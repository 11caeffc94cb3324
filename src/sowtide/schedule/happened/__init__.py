"""What really happened: from the journal's entries to the account of each wave."""

from __future__ import annotations

from sowtide.schedule.happened.account import Account, accounts_of
from sowtide.schedule.happened.contradictions import contradictions, entry_of
from sowtide.schedule.happened.this_season import (
    Happened,
    happened_in,
    is_of,
    still_to_come,
)

__all__ = [
    "Account",
    "Happened",
    "accounts_of",
    "contradictions",
    "entry_of",
    "happened_in",
    "is_of",
    "still_to_come",
]
