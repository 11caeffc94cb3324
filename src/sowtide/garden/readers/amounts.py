"""Readers of amounts: what is wanted of a crop and what one plant gives, by weight or by count."""

from __future__ import annotations

from fractions import Fraction

from sowtide.garden.readers.numbers import exact
from sowtide.garden.text import Refused, did_you_mean, quoted
from sowtide.units import KILOGRAMS
from sowtide.values import value

PIECES = "pieces"
BUNCHES = "bunches"
COUNTED = (PIECES, "heads", "ears", "fruits", "roots", "bulbs", "stalks", "shoots", BUNCHES)
"""What is counted, in the plural; all but bunches are pieces by another name."""

_MOST = 1_000_000
_SINGULARS = {word.removesuffix("es" if word == BUNCHES else "s"): word for word in COUNTED}

COUNT_WORDS = (*COUNTED, *_SINGULARS)
"""The same, in the plural and in the singular."""

HARVEST_WORDS = (*KILOGRAMS, *COUNT_WORDS)
"""What may stand behind the number of an amount."""


def kind_of(unit: str) -> str:
    """Return what amounts of a unit may be compared with: ``kg``, ``bunches`` or ``pieces``."""
    return unit if unit in ("kg", BUNCHES) else PIECES


def with_unit(number: str, unit: str) -> str:
    """Say a number of a unit, one of them in the singular.

    Examples
    --------
    >>> with_unit("1", "bunches"), with_unit("2.1", "bunches"), with_unit("1", "lb")
    ('1 bunch', '2.1 bunches', '1 lb')
    """
    one = next((one for one, many in _SINGULARS.items() if many == unit), unit)
    return f"{number} {one if number == '1' else unit}"


@value
class WrittenAmount:
    """A number or a range with what it counts, as it stands in the file."""

    low: Fraction
    high: Fraction
    """How much, alike for a single number; in kilograms where `unit` is ``kg``."""
    unit: str | None
    """``kg``, one of `COUNTED`, or None where only a number is written."""


def amount(text: str) -> WrittenAmount:
    """Read an amount with its unit: ``5 lb``, ``300 g``, ``6 heads``; pieces if it has none.

    Examples
    --------
    >>> amount("2 bunches").unit
    'bunches'
    """
    found = yield_of_plant(text)
    ends, unit = _parted(text)
    low, hyphen, high = ends.replace("–", "-").partition("-")
    if hyphen:
        either = dict.fromkeys(end.strip() for end in (low, high) if exact(end.strip()) > 0)
        hint = f"write {' or '.join(f'{end} {unit}'.strip() for end in either)}"
        raise Refused("harvest", f"{quoted(text)} is a range of amounts", hint)
    return found


def yield_of_plant(text: str) -> WrittenAmount:
    """Read what one plant gives, one number or a range: ``0.5``, ``0.1-0.3 lb``, ``2-5 ears``."""
    number, word = _parted(text)
    low, hyphen, high = number.replace("–", "-").partition("-")
    if not low or (hyphen and not high):
        raise _no_amount(text)
    ends = [_end(end.strip(), text) for end in ((low, high) if hyphen else (low,))]
    if ends[-1] < ends[0]:
        hint = f"write the smaller number first: {high.strip()}-{low.strip()}"
        raise Refused("harvest", f"{quoted(text)} runs backwards", hint)
    if not 0 < ends[-1] <= _MOST:
        hint = f"write a number above 0, at most {_MOST}"
        raise Refused("harvest", f"{quoted(text)} is out of range", hint)
    unit, factor = _unit(word, text)
    return WrittenAmount(ends[0] * factor, ends[-1] * factor, unit)


def amount_of(text: str) -> tuple[Fraction, str]:
    """Read a number and the word behind it, whatever that is: ``5 g``, ``40 cloves``, ``200``."""
    number, word = _parted(text)
    found = _end(number, text)
    if found < 0:
        raise Refused("harvest", f"{quoted(text)} is out of range", "write a number above 0")
    return found, word


def _parted(text: str) -> tuple[str, str]:
    """Part a number from the word behind it."""
    at = next((place for place, letter in enumerate(text) if letter.isalpha()), len(text))
    return text[:at].strip(), text[at:].strip().lower()


def _end(number: str, text: str) -> Fraction:
    try:
        return exact(number)
    except Refused:
        raise _no_amount(text) from None


def _unit(word: str, text: str) -> tuple[str | None, Fraction]:
    if not word:
        return None, Fraction(1)
    if word in KILOGRAMS:
        return "kg", KILOGRAMS[word]
    plain = {"lbs": "lb", "pound": "lb", "pounds": "lb", "ounces": "oz", "grams": "g", "kilo": "kg"}
    if word in plain:
        hint = f"write {_parted(text)[0]} {plain[word]}"
        raise Refused("harvest", f"{quoted(word)} is not how a weight is written here", hint)
    found = word if word in COUNTED else _SINGULARS.get(word)
    if found is None:
        near = did_you_mean(word, COUNTED)
        hint = f"write a weight in {', '.join(KILOGRAMS)}, or a number of {', '.join(COUNTED)}"
        if near:
            hint = f"did you mean '{_parted(text)[0]} {near}'?"
        raise Refused("harvest", f"{quoted(word)} is nothing that a harvest is counted in", hint)
    return found, Fraction(1)


def _no_amount(text: str) -> Refused:
    return Refused("harvest", f"{quoted(text)} is no amount", "write it as 5 lb, 300 g or 6 heads")
