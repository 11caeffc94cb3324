"""How far a wave has come, and the days on which its stages were done, as the journal tells it."""

from __future__ import annotations

from datetime import date

from sowtide.garden.crop import Raised
from sowtide.garden.journal import Did, Happening
from sowtide.schedule.happened.account import Account
from sowtide.schedule.waves import Done, Status


def done_of(account: Account, gone: Happening | None) -> Done:
    """Return the days of what was done."""
    planted = account.first(Did.PLANTED_OUT)
    return Done(
        sow=_day(account.sown),
        up=_day(account.first(Did.UP)),
        harden_off=_day(account.first(Did.HARDENED)),
        plant=_day(planted),
        first_pick=_day(account.first_pick),
        last_pick=_day(account.last_pick),
        pull_out=_day(gone),
    )


def _day(happening: Happening | None) -> date | None:
    return None if happening is None else happening.on


def status_of(account: Account, gone: Happening | None, raised: Raised) -> Status | None:
    """Return how far a wave has come; None where nothing is noted of its growing."""
    if gone is not None:
        return Status.LOST if gone.did is Did.LOST else Status.OVER
    if account.last_pick is not None:
        return Status.OVER
    if account.first_pick is not None:
        return Status.PICKING
    if account.first(Did.PLANTED_OUT) is not None:
        return Status.PLANTED
    if account.sown is not None:
        return Status.SOWN
    if account.skipped is not None:
        return Status.SKIPPED
    return Status.PAST if account.grows(raised) else None
