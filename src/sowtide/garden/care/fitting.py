"""Whether the values of one routine fit together: amounts, days, and manure."""

from __future__ import annotations

from sowtide.garden.care.dimensions import Dimension
from sowtide.garden.care.routine import Made, Rate, Routine, StageDay, WaveStage, Work
from sowtide.garden.text import Findings, Path, quoted

_GROWING = (
    WaveStage.UP,
    WaveStage.PLANTING,
    WaveStage.FLOWER,
    WaveStage.FIRST_PICK,
    WaveStage.LAST_PICK,
)
_ORDER = list(WaveStage)


def check_amounts(of: Routine, path: Path, findings: Findings) -> None:
    """Report an amount of the wrong kind, and a weight that cannot be told."""
    rate = of.amount
    if rate is not None and rate.per is None and of.work is not Work.WATER:
        findings.at_value(
            (*path, "amount"),
            "amount-kind",
            f"amount: {quoted(str(rate.much))} is a depth of water, and this is {of.work.value}",
            "write how much for what: 4 tbsp per plant, or 1 gal per 100 ft2",
        )
        return
    if of.work is Work.WATER and rate is not None and rate.per is not None and not _is_volume(rate):
        findings.at_value(
            (*path, "amount"),
            "amount-kind",
            f"amount: {quoted(str(rate.much))} is no amount of water",
            "write a depth, such as 1 in or 25 mm, or a volume: 2 gal per 10 ft of row",
        )
        return
    if of.mix is not None and not _is_volume(rate):
        findings.at_value(
            (*path, "mix"),
            "care-mix",
            "how much of the mix is put on is not said",
            "add the volume of it: amount: 1 gal per 100 ft2",
        )
        return
    _check_weight(of, path, findings)


def _is_volume(rate: Rate | None) -> bool:
    return rate is not None and rate.much.dimension is Dimension.VOLUME


def _check_weight(of: Routine, path: Path, findings: Findings) -> None:
    material = of.mix or of.amount
    if of.weighs is not None or material is None:
        return
    by_volume = material.much.dimension is Dimension.VOLUME
    if of.analysis is not None and by_volume:
        findings.at_value(
            (*path, "analysis"),
            "care-density",
            f"what {quoted(str(material.much))} of it weighs is not known, so its nitrogen is not",
            "weigh a spoon or a cup of it and add weighs: 14 g per tbsp; or leave the analysis out",
        )
    package = of.package_rate
    if package is None:
        return
    of_a_mix = package.per is not None and package.per.dimension is Dimension.VOLUME
    if of_a_mix != (of.mix is not None):
        findings.at_value(
            (*path, "package_rate"),
            "care-mix",
            f"package_rate: {quoted(str(package.much))} is for a mix, and this is none"
            if of_a_mix
            else "package_rate: this is a mix, and the package's rate is not",
            "write both for plants or ground, or both as a mix: 2 tsp per gal",
        )
        return
    if by_volume != (package.much.dimension is Dimension.VOLUME):
        findings.at_value(
            (*path, "package_rate"),
            "care-density",
            f"{quoted(str(material.much))} and {quoted(str(package.much))} are a volume and a "
            "weight: which is more is not known",
            "weigh a spoon or a cup of it and add weighs: 14 g per tbsp",
        )


def check_days(of: Routine, path: Path, findings: Findings) -> None:
    """Report a span that ends before it begins, and an interval shorter than the label's."""
    start, until = of.start, of.until
    if isinstance(start, StageDay) and isinstance(until, StageDay):
        begins = (_ORDER.index(start.stage), start.days)
        ends = (_ORDER.index(until.stage), until.days)
        backwards = begins > ends and (start.stage is until.stage or start.days >= until.days)
    else:
        backwards = not (
            start is None
            or until is None
            or isinstance(start, StageDay)
            or isinstance(until, StageDay)
            or start <= until
        )
    if backwards:
        findings.at_value(
            (*path, "until"),
            "date-range",
            "until lies before from: this would never be done",
            "write the earlier stage or day in from",
        )
    apart, every = of.label.days_apart, of.every
    if apart is not None and every is not None and every.days is not None and every.days < apart:
        findings.at_value(
            (*path, "every"),
            "care-conflict",
            f"every {every.days} days is more often than the label allows: {apart} days apart",
            f"write every: {apart}, or more",
        )


def check_manure(of: Routine, path: Path, findings: Findings) -> None:
    """Refuse raw manure on a standing crop."""
    if of.made_of is not Made.RAW_MANURE:
        return
    start = of.start
    standing = start is None or (
        isinstance(start, StageDay) and start.stage in _GROWING and start.days >= 0
    )
    if standing or of.on_demand is not None:
        findings.at_value(
            (*path, "made_of"),
            "raw-manure",
            "raw manure is not put on a standing crop",
            "dig it in before planting, 120 days before anything that touches soil is picked and "
            "90 before the rest: from: planting out - 90; or write made_of: composted manure if it "
            "is that",
        )
