"""What really happened: from the journal's entries to the account of each wave."""

from sowtide.schedule.happened.account import Account, Accounts, accounts_of
from sowtide.schedule.happened.as_it_went import as_it_went, noted, planted_on
from sowtide.schedule.happened.contradictions import (
    SICK,
    barred_beds,
    contradictions,
    crowded,
    not_asked_for,
)
from sowtide.schedule.happened.done import done_of, status_of
from sowtide.schedule.happened.known import WaveKnown, known_of
from sowtide.schedule.happened.standing import Loss, as_planted, gone_of, losses_of, stands_of
from sowtide.schedule.happened.this_season import (
    happened_in,
    is_of,
    noted_before,
    still_to_come,
)

__all__ = [
    "SICK",
    "Account",
    "Accounts",
    "Loss",
    "WaveKnown",
    "accounts_of",
    "as_it_went",
    "as_planted",
    "barred_beds",
    "contradictions",
    "crowded",
    "done_of",
    "gone_of",
    "happened_in",
    "is_of",
    "known_of",
    "losses_of",
    "not_asked_for",
    "noted",
    "noted_before",
    "planted_on",
    "stands_of",
    "status_of",
    "still_to_come",
]
