"""What the journal knows of how a wave bears and looks."""

from __future__ import annotations

from sowtide.garden.journal import PICKINGS, Did, Happening
from sowtide.schedule.happened.account import Accounts
from sowtide.values import value

_LAST = 2
"""How many of the last pickings and findings are told. [1]"""


@value
class WaveKnown:
    """What is known of how a wave bears and looks."""

    pickings: tuple[Happening, ...]
    """Its last pickings that were weighed or counted, in order of day."""
    best: Happening | None
    """The best of all that were measured as the last was; None without any."""
    scouted: tuple[Happening, ...]
    """What was found on it, or in a bed it stands in, when it was last looked at, in order."""


def known_of(accounts: Accounts | None, wave: str, beds: tuple[str, ...]) -> WaveKnown | None:
    """Return what is known of a wave; None where nothing is."""
    if accounts is None:
        return None
    account = accounts.of(wave)
    picked = [] if account is None else [e for e in account.all_of(*PICKINGS) if e.amount]
    scouted = [
        each
        for each in accounts.happenings
        if each.did is Did.SCOUTED
        and (each.wave == wave or (each.wave is None and each.bed in beds))
    ]
    scouted.sort(key=lambda each: (each.on, each.span.line))
    if not picked and not scouted:
        return None
    best = None
    if picked:
        weighed = _weighed(picked[-1])
        best = max((e for e in picked if _weighed(e) is weighed), key=_amount)
    return WaveKnown(tuple(picked[-_LAST:]), best, tuple(scouted[-_LAST:]))


def _weighed(picking: Happening) -> bool:
    return picking.amount is not None and picking.amount.kilograms is not None


def _amount(picking: Happening) -> float:
    """How much it was, in kilograms or pieces."""
    assert picking.amount is not None  # only such are compared
    kilograms = picking.amount.kilograms
    return float(picking.amount.number) if kilograms is None else kilograms
