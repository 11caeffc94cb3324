"""From the file's care list to routines, with every problem at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from sowtide.garden.care.care_keys import CareKeys, LabelKeys
from sowtide.garden.care.care_readers import ON_DEMAND, DegreesWritten, StageWritten
from sowtide.garden.care.fitting import check_amounts, check_days, check_manure
from sowtide.garden.care.kept_together import check_together
from sowtide.garden.care.routine import (
    Label,
    Moment,
    OnDemand,
    Routine,
    StageDay,
    Targets,
    TimeOfDay,
)
from sowtide.garden.care.targets import Known, covers, targets_of
from sowtide.garden.crop import Crop
from sowtide.garden.keys import read_list, read_section
from sowtide.garden.readers import Frame, resolve
from sowtide.garden.text import Findings, Path, Refused, quoted
from sowtide.units import Units, celsius

_SECTION = "care"


def care_of(
    raw: Any,
    frame: Frame | None,
    *,
    series: Mapping[str, Crop],
    beds: tuple[str, ...],
    crops: tuple[Crop, ...],
    findings: Findings,
) -> tuple[Routine, ...]:
    """Return the routines of a file in its order; what is wrong is left out and reported."""
    example = "{name: soak, do: water, on: everything, every: 7, amount: 1 in}"
    known = Known(series, beds, crops)
    made = [
        (_routine(item, (_SECTION, number), frame, known, findings), (_SECTION, number))
        for number, item in enumerate(read_list(raw, _SECTION, findings, example=example))
    ]
    found = [(routine, path) for routine, path in made if routine is not None]
    check_together(found, known, findings)
    return tuple(routine for routine, _ in found)


def _routine(
    item: Any, path: Path, frame: Frame | None, known: Known, findings: Findings
) -> Routine | None:
    before = len(findings.problems)
    keys = read_section(CareKeys, item, path, findings)
    if keys is None or frame is None:
        return None
    made = _made(keys, path, frame, known, findings)
    _check_keys(keys, path, findings)
    if keys.label is not None:
        made = replace(made, label=_label(keys.label, (*path, "label"), frame, findings))
        _check_crops(keys.label, made.on, known, (*path, "label", "crops"), findings)
    check_amounts(made, path, findings)
    check_days(made, path, findings)
    check_manure(made, path, findings)
    return made if len(findings.problems) == before else None


def _made(keys: CareKeys, path: Path, frame: Frame, known: Known, findings: Findings) -> Routine:
    work, does = keys.do
    return Routine(
        name=keys.name,
        work=work,
        does=does,
        on=targets_of(keys.on, known, (*path, "on"), findings),
        span=findings.tree.value_span((*path, "name")),
        start=_moment(keys.start, "from", path, frame, findings),
        until=_moment(keys.until, "until", path, frame, findings),
        on_demand=keys.on_demand or (OnDemand.SOME if keys.start == ON_DEMAND else None),
        every=keys.every,
        time=keys.time or (TimeOfDay.EVENING if work.on_leaves else None),
        amount=None if keys.amount is None else keys.amount.rate,
        mix=keys.mix if keys.amount is None else keys.amount.mix or keys.mix,
        weighs=keys.weighs,
        analysis=keys.analysis,
        made_of=keys.made_of,
        package_rate=keys.package_rate,
        minutes=None if keys.minutes is None else keys.minutes.minutes,
        minutes_per=None if keys.minutes is None else keys.minutes.per,
        keep_dry=-(-keys.keep_dry // 24),
        overhead=keys.overhead,
        touches_soil=keys.touches_soil,
        against=keys.against,
        group=keys.group,
    )


def _check_keys(keys: CareKeys, path: Path, findings: Findings) -> None:
    """Refuse what stands twice, and an end that is no day."""
    if keys.mix is not None and keys.amount is not None and keys.amount.mix is not None:
        findings.at_value(
            (*path, "mix"), "care-mix", "a mix stands here and in amount", "keep one of the two"
        )
    if keys.until == ON_DEMAND:
        findings.at_value(
            (*path, "until"), "care-stage", "until: a wave is not pulled on demand", "write a day"
        )


def _moment(written: Any, key: str, path: Path, frame: Frame, findings: Findings) -> Moment | None:
    if written is None or written == ON_DEMAND:
        return None
    if isinstance(written, StageWritten):
        return StageDay(written.stage, written.days)
    try:
        day: date = resolve(written, frame.year, end=key == "until")
    except Refused as refused:
        findings.refused((*path, key), refused)
        return None
    return day


def _label(keys: LabelKeys, path: Path, frame: Frame, findings: Findings) -> Label:
    hottest = None
    if keys.hottest is not None:
        try:
            hottest = _celsius(keys.hottest, frame)
        except Refused as refused:
            findings.refused((*path, "hottest"), refused)
    apart = keys.not_within or {}
    return Label(
        days_before_harvest=keys.days_before_harvest,
        hours_before_entry=keys.hours_before_entry,
        most=keys.most,
        days_apart=keys.days_apart,
        not_within=tuple((name.casefold(), days) for name, days in apart.items()),
        hottest=hottest,
        in_a_row=keys.in_a_row,
        not_in_flower=keys.not_in_flower,
        together_with=frozenset(name.casefold() for name in keys.together_with or ()),
    )


def _celsius(written: DegreesWritten, frame: Frame) -> float:
    units = {"F": Units.US, "C": Units.METRIC}.get(written.unit, frame.units)
    number = float(written.number)
    found = celsius(number) if units is Units.US else number
    if not 0 <= found <= 60:
        raise Refused(
            "out-of-range",
            f"{number:g} {units.degree} is no limit of heat for a spray",
            "write it as the label does: 90F, or 32C",
        )
    return found


def _check_crops(
    keys: LabelKeys, on: Targets, known: Known, path: Path, findings: Findings
) -> None:
    """Refuse a routine on a crop that is not on the label of its material."""
    if keys.crops is None:
        return
    listed = {known.crop(name) or name.casefold() for name in keys.crops}
    listed |= {name.casefold() for name in keys.crops}
    for name, crop in known.series.items():
        names = {crop.name.casefold(), crop.kind.casefold()}
        on_it = covers(on, crop, series=name, bed="")
        if on_it and not names & listed and crop.family not in listed:
            findings.at_value(
                path,
                "care-label",
                f"this is to be put on {crop.name}, which the label's crops do not hold: "
                f"{quoted(', '.join(keys.crops))}",
                "read the label: what is not on it may not be sprayed with it. Take the crop out "
                "of on:, or add it here if it stands on the label",
            )
            return
