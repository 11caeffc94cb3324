"""Families that earlier years are said to have grown: a misspelt one would be no rotation."""

from __future__ import annotations

from typing import Any

from sowtide.diagnostics import Severity
from sowtide.garden import library
from sowtide.garden.making.crops import Crops
from sowtide.garden.model import Bed
from sowtide.garden.text import Findings, Path, did_you_mean, quoted


def check_families(
    raw_beds: Any, beds: dict[str, Bed | None], crops: Crops, findings: Findings
) -> None:
    """Warn of each family that no crop belongs to and that is all but spelt like one.

    A family that is like no other is the grower's own and may well be meant.
    """
    known = {crop.family for crop in crops.all()}
    unknown = {
        family
        for bed in beds.values()
        if bed is not None
        for _, family in bed.grew
        if family not in known
    }
    if not unknown:
        return
    known |= library.families()
    meant = {family: _meant(family, tuple(sorted(known))) for family in unknown - known}
    for number, item in enumerate(raw_beds):
        grew = item.get("grew") if isinstance(item, dict) else None
        for year, families in (grew or {}).items() if isinstance(grew, dict) else ():
            listed = families if isinstance(families, list) else [families]
            for position, family in enumerate(listed):
                near = meant.get(_plain(family))
                if near is not None:
                    path: Path = ("beds", number, "grew", year, position)
                    _warn(family, near, path, findings)


def _plain(family: Any) -> str:
    return " ".join(family.split()).lower() if isinstance(family, str) else ""


def _meant(family: str, known: tuple[str, ...]) -> str | None:
    stem, _, last = family.rpartition(" ")
    if not stem or did_you_mean(last, ("family",)) is None:
        stem = family
    crop = library.find(stem)
    if crop is not None:
        return str(crop.values["family"])
    # The word that all families share would make any two of them look alike.
    by_stem = {name.removesuffix(" family"): name for name in known}
    near = did_you_mean(stem, tuple(by_stem))
    return by_stem[near] if near else None


def _warn(family: str, near: str, path: Path, findings: Findings) -> None:
    findings.add(
        "unknown-family",
        f"grew: no crop belongs to a family called {quoted(family)}",
        f"did you mean '{near}'?",
        findings.tree.value_span(path),
        Severity.WARNING,
    )
