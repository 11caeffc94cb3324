"""Whether routines can be kept beside one another: their names, and what must lie between them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations

from sowtide.diagnostics import Severity
from sowtide.garden.care.routine import Routine, Targets
from sowtide.garden.care.targets import Known, covers
from sowtide.garden.text import Findings, Path, did_you_mean, named, quoted

Placed = tuple[Routine, Path]


def check_together(found: Sequence[Placed], known: Known, findings: Findings) -> None:
    """Report names that stand twice, and routines that can never both be kept."""
    _check_names(found, findings)
    names = {routine.key for routine, _ in found}
    for routine, path in found:
        for name, _ in routine.label.not_within:
            _check_name(name, names, (*path, "label", "not_within", name), findings)
        for name in sorted(routine.label.together_with - names):
            _check_name(name, names, (*path, "label", "together_with"), findings)
    for (one, _), (other, path) in combinations(found, 2):
        _check_pair(one, other, path, known, findings)


def days_between(one: Routine, other: Routine) -> int:
    """Return the days that must lie between two routines, whichever label asks it. [days]"""
    asked = [days for name, days in one.label.not_within if name == other.key]
    asked += [days for name, days in other.label.not_within if name == one.key]
    return max(asked, default=0)


def _check_names(found: Iterable[Placed], findings: Findings) -> None:
    seen: dict[str, Routine] = {}
    for routine, path in found:
        first = seen.setdefault(routine.key, routine)
        if first is not routine:
            findings.at_value(
                (*path, "name"),
                "care-name",
                f"there are two routines called {quoted(routine.name)}",
                f"the first stands in line {first.span.line}: give this one another name",
            )


def _check_name(name: str, names: set[str], path: Path, findings: Findings) -> None:
    if name in names:
        return
    near = did_you_mean(name, tuple(sorted(names)))
    hint = f"did you mean {named(near)}?" if near else "write the name: of another routine"
    findings.add(
        "care-material",
        f"no routine is called {quoted(name)}: only what the journal says was done with it is kept "
        "apart",
        hint,
        findings.tree.key_span(path),
        Severity.WARNING,
    )


def _check_pair(one: Routine, other: Routine, path: Path, known: Known, findings: Findings) -> None:
    """Report two routines of which neither leaves the other the days that it asks for."""
    apart = days_between(one, other)
    if one.every is None or other.every is None or not apart:
        return
    if one.on_demand is not None or other.on_demand is not None:
        return
    first, second = one.every.days, other.every.days
    if first is None or second is None or max(first, second) >= 2 * apart:
        return
    if not _share(one.on, other.on, known):
        return
    where = "label" if other.label.not_within else "every"
    findings.at_value(
        (*path, where),
        "care-conflict",
        f"{quoted(one.name)} every {first} days and {quoted(other.name)} every "
        f"{second} can never both be kept {apart} days apart",
        f"give one of them every: {2 * apart} or more, or put them on different crops",
    )


def _share(one: Targets, other: Targets, known: Known) -> bool:
    """Say whether two routines are done to the same wave, as far as their names tell."""
    if one.everything or other.everything or one.beds or other.beds:
        return True
    return any(
        covers(one, crop, series=series, bed="") and covers(other, crop, series=series, bed="")
        for series, crop in known.series.items()
    )
