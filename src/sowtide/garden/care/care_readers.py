"""How the values of a routine are written: rates, mixes, moments, intervals, analyses."""

from __future__ import annotations

import re
from fractions import Fraction

from sowtide.garden import readers
from sowtide.garden.care.dimensions import Dimension
from sowtide.garden.care.measured import Measured, measured, usual_units
from sowtide.garden.care.routine import Every, Rate, WaveStage, Work
from sowtide.garden.readers import Written
from sowtide.garden.text import Refused, did_you_mean, quoted
from sowtide.values import value

_PER = (Dimension.PLANTS, Dimension.BEDS, Dimension.LENGTH, Dimension.AREA)
_NO_DEPTHS = tuple(unit for unit, kind, _ in usual_units() if kind is not Dimension.LENGTH)
_OF_A_MIX = " of a mix of "
_RATE = "write for what: 4 tbsp per plant, 1 cup per 10 ft of row, 1 gal per 100 ft2, 2 gal per bed"
_STAGES = {stage.value: stage for stage in WaveStage} | {
    "sown": WaveStage.SOWING,
    "sow": WaveStage.SOWING,
    "hardening": WaveStage.HARDENING_OFF,
    "planting": WaveStage.PLANTING,
    "plant": WaveStage.PLANTING,
    "planted": WaveStage.PLANTING,
    "plant out": WaveStage.PLANTING,
    "flowering": WaveStage.FLOWER,
    "flower": WaveStage.FLOWER,
    "pulling out": WaveStage.PULL_OUT,
    "pull": WaveStage.PULL_OUT,
}
_MOMENT = re.compile(r"([^+\-−]+?)\s*(?:([+\-−])\s*(\S.*))?")
_DAYS_OFF = readers.whole(0, 366)
_HOURS = readers.whole(0, 24 * 30)
_DAYS = readers.whole(0, 30)
_NOT_MISSPELT = ("weed",)
"""Words of growers' own that look like one of the known ones."""
_GROUP = re.compile(r"[A-Za-z0-9][A-Za-z0-9. +/]{0,15}")
_MOST_DAYS = 366


@value
class StageWritten:
    """A stage and the days after it, or before it where they are negative. [days]"""

    stage: WaveStage
    days: int


ON_DEMAND = "on demand"
"""What a routine waits for that is only done where it is needed."""


@value
class MixWritten:
    """An amount, and the mix that it is of where that stands beside it."""

    rate: Rate
    mix: Rate | None


def work(text: str) -> tuple[Work, str]:
    """Read what is done: a known word, or one of the grower's own."""
    word = readers.lower_text(text)
    for known in Work:
        if known.value == word and known is not Work.OWN:
            return known, word
    near = did_you_mean(word, tuple(each.value for each in Work if each is not Work.OWN))
    if near is not None and word not in _NOT_MISSPELT:
        raise Refused("care-work", f"{quoted(text)} is all but {near!r}", f"did you mean '{near}'?")
    return Work.OWN, word


@readers.written_as("moment", *_STAGES)
def moment(text: str) -> StageWritten | Written | str:
    """Read a day: a date, a stage with days after or before it, or the words for on demand."""
    plain = " ".join(text.lower().split())
    if plain == ON_DEMAND:
        return ON_DEMAND
    if text[:1].isdigit() or re.match(r"W\d", text):
        return readers.day(text)
    found = _MOMENT.fullmatch(plain)
    name = found[1] if found else plain
    stage = _STAGES.get(name)
    if stage is None:
        near = did_you_mean(name, tuple(_STAGES))
        known = ", ".join(each.value for each in WaveStage)
        hint = f"did you mean '{near}'?" if near else f"write a date, or one of: {known}"
        raise Refused("care-stage", f"there is no stage {quoted(name)}", hint)
    if found is None or found[3] is None:
        return StageWritten(stage, 0)
    days = _DAYS_OFF(found[3].removesuffix(" days").removesuffix(" day"))
    return StageWritten(stage, days if found[2] == "+" else -days)


@readers.written_as("every")
def every(text: str) -> Every:
    """Read how often: days, weeks, or a rule of RFC 5545."""
    if "=" in text:
        return Every(None, _rule(text))
    plain = text.lower()
    for unit, days in (("weeks", 7), ("week", 7), ("days", 1), ("day", 1)):
        if plain.endswith(unit):
            number = plain.removesuffix(unit).strip() or "1"
            return Every(readers.whole(1, _MOST_DAYS // days)(number) * days)
    return Every(readers.whole(1, _MOST_DAYS)(text))


def _rule(text: str) -> str:
    from datetime import datetime

    from dateutil.rrule import rrule, rrulestr

    rule = text.strip().upper().removeprefix("RRULE:")
    parts = dict(part.partition("=")[::2] for part in rule.split(";"))
    hint = "write days, such as every: 7, or a rule such as every: FREQ=WEEKLY;BYDAY=TU,FR"
    if parts.get("FREQ") not in ("DAILY", "WEEKLY", "MONTHLY", "YEARLY"):
        raise Refused("care-rule", f"{quoted(text)} is no rule for days", hint)
    unwanted = sorted({"COUNT", "UNTIL", "BYHOUR", "BYMINUTE", "BYSECOND", "DTSTART"} & set(parts))
    if unwanted:
        raise Refused(
            "care-rule",
            f"{quoted(text)} holds {unwanted[0]}",
            "from: and until: say when it begins and ends; leave it out",
        )
    try:
        found = rrulestr(rule, dtstart=datetime(2024, 1, 1))
        if not isinstance(found, rrule) or int(parts.get("INTERVAL", 1)) < 1:
            raise ValueError  # a set of rules, or one that never comes to another day
        first = next(iter(found.replace(until=datetime(2032, 1, 1))), None)
    except (ValueError, TypeError, KeyError, AttributeError):
        raise Refused("care-rule", f"{quoted(text)} is no rule for days", hint) from None
    if first is None:
        raise Refused("care-rule", f"{quoted(text)} holds for no day", hint)
    return rule


@readers.written_as("rate", *_NO_DEPTHS)
def rate(text: str) -> MixWritten:
    """Read an amount for plants, row or ground, a depth of water, with its mix if it says one."""
    said, of, mixed = text.partition(_OF_A_MIX)
    much, per, what = (part.strip() for part in said.partition(" per "))
    if not per:
        alone = measured(much)
        if alone.dimension is not Dimension.LENGTH:
            raise Refused("amount-per", f"{quoted(text)} is not said to be for anything", _RATE)
        return MixWritten(Rate(alone, None), None)
    amount = _material(much)
    return MixWritten(Rate(amount, _per(what, text)), mix(mixed.strip()) if of else None)


@readers.written_as("ratio")
def package(text: str) -> Rate:
    """Read the most that a package allows: an amount for plants, row or ground, or a mix."""
    much, per, what = (part.strip() for part in text.partition(" per "))
    if not per:
        raise Refused("amount-per", f"{quoted(text)} is not said to be for anything", _RATE)
    return Rate(_material(much), _per(what, text, (*_PER, Dimension.VOLUME)))


def _material(text: str) -> Measured:
    found = measured(text)
    if found.dimension not in (Dimension.VOLUME, Dimension.WEIGHT):
        raise Refused(
            "amount-kind",
            f"{quoted(text)} measures {found.dimension.value}, not volume or weight",
            "write how much of it, such as 4 tbsp per plant",
        )
    return found


def _per(what: str, text: str, kinds: tuple[Dimension, ...] = _PER) -> Measured:
    found = measured(what.removesuffix(" of row"), bare=True)
    if found.dimension not in kinds:
        raise Refused("amount-kind", f"{quoted(text)}: nothing is fed or sprayed by that", _RATE)
    if not found.number:
        raise Refused("amount-kind", f"{quoted(text)} is for none", _RATE)
    return found


@readers.written_as("ratio")
def mix(text: str) -> Rate:
    """Read the strength of a mix: ``2 tsp per gal``."""
    much, per, what = (part.strip() for part in text.partition(" per "))
    hint = "write it as 2 tsp per gal"
    if not per:
        raise Refused("amount-per", f"{quoted(text)} is no mix", hint)
    amount, of = measured(much), measured(what, bare=True)
    if amount.dimension not in (Dimension.VOLUME, Dimension.WEIGHT):
        raise Refused("amount-kind", f"{quoted(much)} is no volume or weight", hint)
    if of.dimension is not Dimension.VOLUME or not of.number:
        raise Refused("amount-kind", f"{quoted(what)} is no volume of water", hint)
    return Rate(amount, of)


@readers.written_as("ratio")
def density(text: str) -> float:
    """Read what a material weighs, ``14 g per tbsp``. [g/ml]"""
    much, per, what = (part.strip() for part in text.partition(" per "))
    hint = "weigh a spoon of it and write it as 14 g per tbsp"
    if not per:
        raise Refused("amount-per", f"{quoted(text)} is not the weight of anything", hint)
    weight, of = measured(much), measured(what, bare=True)
    if weight.dimension is not Dimension.WEIGHT or of.dimension is not Dimension.VOLUME:
        raise Refused("amount-kind", f"{quoted(text)} is no weight for a volume", hint)
    if not weight.number or not of.number:
        raise Refused("out-of-range", f"{quoted(text)} weighs nothing", hint)
    return float(weight.size / of.size)


@readers.written_as("analysis")
def analysis(text: str) -> tuple[float, float, float]:
    """Read nitrogen, phosphate and potash, ``3-2-3``. [%]"""
    parts = text.replace("–", "-").split("-")
    hint = "write nitrogen, phosphate and potash in percent, as the bag does: 3-2-3"
    if len(parts) != 3:
        raise Refused("analysis", f"{quoted(text)} is no analysis", hint)
    numbers = [readers.decimal(0, 100)(part.strip()) for part in parts]
    if sum(numbers) > 100:
        total = float(sum(numbers))
        raise Refused("analysis", f"{quoted(text)} adds up to {total:g} %, more than all", hint)
    return float(numbers[0]), float(numbers[1]), float(numbers[2])


@value
class MinutesWritten:
    """How long a thing takes, and for what. [min]"""

    minutes: float
    per: Measured


@readers.written_as("minutes", 1440)
def minutes(text: str) -> MinutesWritten:
    """Read how long a thing takes: ``15``, in each bed, or ``1 per plant``."""
    number, _, what = (part.strip() for part in text.partition(" per "))
    hours = re.fullmatch("([0-9]+) *(?:h|hours?)", number)
    if hours is not None:
        hint = "write a number from 0 to 1440"
        if len(hours[1]) < 3 and int(hours[1]) <= 24:
            hint = f"write {60 * int(hours[1])}{f' per {what}' if what else ''}"
        raise Refused("number", f"{quoted(number)} is not in minutes", hint)
    took = readers.decimal(0, 1440)(number.removesuffix(" minutes").removesuffix(" min"))
    return MinutesWritten(float(took), _per(what or "bed", text))


@readers.written_as("drying")
def drying(text: str) -> int:
    """Read how long leaves are to stay dry: ``24h``, ``24 hours``, ``2 days``. [h]"""
    plain = text.lower().strip()
    for unit, hours in (("hours", 1), ("hour", 1), ("h", 1), ("days", 24), ("day", 24)):
        if plain.endswith(unit):
            return (_DAYS if hours > 1 else _HOURS)(plain.removesuffix(unit).strip()) * hours
    raise Refused("amount-unit", f"{quoted(text)} has no unit", "write it as 24h, or 2 days")


@value
class DegreesWritten:
    """A temperature with its unit, ``F`` or ``C``; empty for that of the site."""

    number: Fraction
    unit: str


@readers.written_as("degrees", 999)
def degrees(text: str) -> DegreesWritten:
    """Read a temperature, with its unit or without: ``90F``."""
    number = text.rstrip("FCfc° ")
    unit = text[len(number) :].strip("° ").upper()
    return DegreesWritten(readers.decimal(0, 999)(number.strip()), unit)


@readers.written_as("code", _GROUP.pattern)
def group(text: str) -> str:
    """Read the code of a group, as it stands on the label: ``M02``, ``4A``."""
    if _GROUP.fullmatch(text) is None:
        raise Refused(
            "care-group", f"{quoted(text)} is no code of a group", "write it as on the label: M02"
        )
    return text.upper()
