"""From the keys of one entry to what happened: each value has a reader of its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import cache
from typing import Any

from sowtide.diagnostics import Span
from sowtide.garden.journal.happening import (
    DEGREES,
    DEPTHS,
    OF_A_WAVE,
    WEATHER,
    WEIGHTS,
    Did,
    Found,
    Happening,
    Measure,
    is_of_some,
    takes,
)
from sowtide.garden.readers import COUNT_WORDS, choice, day, decimal, text, whole, year_of, yes_no
from sowtide.garden.text import Refused, did_you_mean, quoted
from sowtide.values import value

MOST_PLANTS = 1_000_000
_STAGES = {did.value: did for did in Did}
_FORM = "write it with its year, as 2026-07-18: a journal is of many years"
_LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ°"


@value
class Amiss:
    """What is wrong with one key of an entry, or with the entry as a whole."""

    key: str | None
    refused: Refused


def _day(written: str) -> date:
    try:
        found = day(written)
    except Refused as refused:
        if refused.code != "date":
            raise
        raise Refused("date", refused.message, _FORM) from None
    if not isinstance(found, date):
        raise Refused("date", f"{quoted(written)} is no day of a year", _FORM)
    return found


def _stage(word: str) -> Did:
    found = _STAGES.get(word) or _STAGES.get(word.lower())
    if found is None:
        near = did_you_mean(word, tuple(_STAGES))
        hint = f"did you mean '{near}'?" if near else "write one of: " + ", ".join(_STAGES)
        raise Refused("journal-stage", f"there is no stage {quoted(word)}", hint)
    return found


_MEASURED = {
    Did.RAIN: ("depth of rain", "0.6in or 15mm"),
    Did.SOIL: ("temperature", "58F or 14C"),
}


@cache  # pickings are much alike
def measure(written: str, did: Did) -> Measure:
    """Read an amount: a number and, right behind it or after a space, its unit.

    What is counted may be named, as in ``3 heads``, and is kept as a number alone.

    Raises
    ------
    Refused
        If it is not written so, or the unit is none of what the stage is measured in.
    """
    number = written.rstrip(_LETTERS)
    unit = written[len(number) :].strip("°")
    if did in WEATHER:
        known: tuple[str, ...] = DEPTHS if did is Did.RAIN else DEGREES
        unit = unit.upper() if did is Did.SOIL else unit.lower()
    else:
        unit, known = unit.lower(), (*WEIGHTS, "")
        unit = "" if unit in COUNT_WORDS else unit
    if unit not in known:
        what, like = _MEASURED.get(did, ("weight or number", "1.4lb, 640g, or 8"))
        raise Refused("journal-amount", f"{quoted(written)} is no {what}", f"write {like}")
    low = -40 if did is Did.SOIL else 0
    return Measure(decimal(low, 100_000)(number.strip()), unit)


_READ: dict[str, Callable[[str], Any]] = {
    "on": _day,
    "did": _stage,
    "wave": text,
    "bed": text,
    "plants": whole(0, MOST_PLANTS),
    "amount": str,  # what it is measured in hangs on the stage
    "found": choice(Found),
    "with": text,
    "skips": _stage,
    "sick": yes_no,
    "note": text,
    "season": year_of,
    "undone": yes_no,
}
_READ = {key: cache(read) for key, read in _READ.items()}  # most is said many times in a journal
KEYS = tuple(_READ)
"""The keys that an entry may have."""


def reader_of(key: str) -> Callable[[str], Any]:
    """Return what reads the value of a key."""
    return _READ[key]


_FIELDS = {"with": "using"}


def happening_of(keys: Mapping[str, str], span: Span) -> Happening | list[Amiss]:
    """Return what an entry says, or everything that is wrong with it."""
    amiss: list[Amiss] = []
    read: dict[str, Any] = {}
    for key, written in keys.items():
        try:
            read[_FIELDS.get(key, key)] = _READ[key](written)
        except KeyError:
            amiss.append(Amiss(key, _unknown(key)))
        except Refused as refused:
            amiss.append(Amiss(key, refused))
    did = read.get("did")
    if did is not None and "amount" in read:
        try:
            read["amount"] = measure(read["amount"], did)
        except Refused as refused:
            amiss.append(Amiss("amount", refused))
    if read.get("plants") == 0 and did is not None and is_of_some(did):
        amiss.append(Amiss("plants", _no_plants(did)))
    amiss += _together(keys, did)
    return amiss or Happening(span=span, **read)


def _together(keys: Mapping[str, str], did: Did | None) -> list[Amiss]:
    """Return what is wrong with the keys of an entry taken together."""
    must = None if did is None else _MUST.get(did)
    if did is not None and must is not None and must <= keys.keys() <= _MAY[did]:
        return []
    amiss = [_missing(key, like) for key, like in _NEEDED if key not in keys]
    if did is None:
        return amiss
    for key in keys:
        if key in _READ and not takes(did, key):
            amiss.append(Amiss(key, _does_not_take(did, key)))
    if did in OF_A_WAVE and "wave" not in keys:
        amiss.append(_missing("wave", "wave: bush-bean-1"))
    elif did not in WEATHER and "wave" not in keys and "bed" not in keys:
        amiss.append(_missing("bed", "bed: Long 1, or the wave it was done to"))
    if did in WEATHER and "amount" not in keys:
        amiss.append(_missing("amount", "amount: 0.6in" if did is Did.RAIN else "amount: 58F"))
    if did is Did.SCOUTED and "found" not in keys:
        amiss.append(_missing("found", "found: none, some or many"))
    return amiss


_NEEDED = (("on", "on: 2026-07-18"), ("did", "did: sown"))


_MAY = {did: {key for key in KEYS if takes(did, key)} for did in Did}
_MUST = {
    **{did: {"on", "did", "wave"} for did in OF_A_WAVE},
    **{did: {"on", "did", "amount"} for did in WEATHER},
}
"""What an entry may and must have to be right at first sight; of beds or waves either will do."""


def _missing(key: str, like: str) -> Amiss:
    return Amiss(None, Refused("missing", f"'{key}' is missing from this entry", f"add {like}"))


def _does_not_take(did: Did, key: str) -> Refused:
    stages = [each.value for each in Did if takes(each, key)]
    fits = f"it belongs to: {', '.join(stages)}" if len(stages) < 9 else "delete it"
    return Refused("journal-key", f"{did.value} takes no '{key}'", fits)


def _no_plants(did: Did) -> Refused:
    hint = f"leave plants out where all were {did.value}; delete the entry where none were"
    return Refused("journal-plants", f"0 plants {did.value} is nothing that happened", hint)


def _unknown(key: str) -> Refused:
    near = did_you_mean(key, KEYS)
    hint = f"did you mean '{near}'?" if near else f"the keys here are: {', '.join(KEYS)}"
    return Refused("unknown-key", f"unknown key {quoted(key)}", hint)
