"""The names of series: no two alike, and none that is a wave's of another series."""

from __future__ import annotations

from itertools import count

from sowtide.garden.text import Findings, Path, quoted
from sowtide.values import value


@value
class SeriesName:
    """What an entry calls its series."""

    name: str
    path: Path
    """Where the entry stands."""
    key: str
    """The key that gives it the name."""
    waves: int
    """The most waves it can have. [1]"""


def check_names(series: list[SeriesName], findings: Findings) -> None:
    """Report each series that is called like another one, or like a wave of another one."""
    by_name: dict[str, SeriesName] = {}
    taken: set[str] = set()
    for each in series:
        plain = each.name.casefold()
        by_name.setdefault(plain, each)
        taken |= {plain, plain.rpartition("-")[0]}
    for each in series:
        other = by_name[each.name.casefold()]
        if other is not each:
            what = f"two series are called {quoted(each.name)}; the first is in line"
            _report(each, each.name, other, what, taken, findings)
    for name, each in by_name.items():
        stem, _, number = name.rpartition("-")
        other = by_name.get(stem, each)
        if other is not each and _is_wave(number, other.waves):
            what = f"{quoted(each.name)} is also the name of a wave of the series in line"
            _report(each, other.name, other, what, taken, findings)


def _is_wave(number: str, waves: int) -> bool:
    whole = number.isascii() and number.isdigit() and len(number) < 4 and number[0] != "0"
    return whole and int(number) <= waves


def _report(
    each: SeriesName,
    stem: str,
    other: SeriesName,
    what: str,
    taken: set[str],
    findings: Findings,
) -> None:
    """Report a name, and suggest one that no series and no wave has."""
    line = findings.tree.branch(other.path).line("crop")
    free = next(
        name
        for times in count(1)
        for letter in "bcdefghijklmnopqrstuvwxyz"
        if (name := f"{stem}-{letter * times}").casefold() not in taken
    )
    taken.add(free.casefold())
    hint = f"give one a name of its own, such as name: {free}"
    findings.at_value((*each.path, each.key), "duplicate-name", f"{what} {line}", hint)
