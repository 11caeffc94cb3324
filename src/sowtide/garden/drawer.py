"""What is in the seed drawer already: a file of crops with how much of each is there."""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction
from pathlib import Path

from sowtide.diagnostics import Problem, has_errors, the_first
from sowtide.garden.model import Garden
from sowtide.garden.readers import amount_of
from sowtide.garden.text import (
    EnoughError,
    Findings,
    Refused,
    bytes_of,
    decode,
    did_you_mean,
    named,
    parse,
    quoted,
)
from sowtide.garden.varieties import crops_called
from sowtide.units import KILOGRAMS
from sowtide.values import value

_EXAMPLE = "write a crop and how much there is on each line, such as bush bean: 200, or carrot: 5 g"


@value
class InDrawer:
    """What there is of a crop: counted, or weighed."""

    crops: tuple[str, ...]
    """The names it goes by in the garden."""
    count: int | None
    """How many seeds, or what else is sown; None where they are weighed. [1]"""
    grams: float | None
    """How much they weigh; None where they are counted. [g]"""


@value
class DrawerRead:
    """What came of reading a drawer's file: None where any of the problems is an error."""

    drawer: tuple[InDrawer, ...] | None
    problems: tuple[Problem, ...]


def read_drawer(path: Path, garden: Garden) -> DrawerRead:
    """Read what is there already.

    Raises
    ------
    Unreadable
        If it cannot be opened.
    """
    source = decode(bytes_of(path, str(path)), str(path))
    if isinstance(source, Problem):
        return DrawerRead(None, (source,))
    tree = parse(source)
    if tree.broken:
        return DrawerRead(None, the_first(tree.problems))
    findings = Findings(tree)
    found: list[InDrawer] = []
    with suppress(EnoughError):
        written: object = tree.value
        if isinstance(written, dict):
            read = (_in_drawer(str(key), of, garden, findings) for key, of in written.items())
            found += [each for each in read if each is not None]
        elif written is not None:
            findings.at_key((), "not-a-mapping", "what is in the drawer must be crops", _EXAMPLE)
    problems = the_first(findings.problems)
    return DrawerRead(None if has_errors(problems) else tuple(found), problems)


def _in_drawer(key: str, text: object, garden: Garden, findings: Findings) -> InDrawer | None:
    crops = crops_called(key, garden)
    if not crops:
        near = did_you_mean(key, tuple(crop.name for crop in garden.crops))
        hint = f"did you mean {named(near)}?" if near else "write it as the garden's file does"
        findings.at_key((key,), "unknown-crop", f"there is no crop {quoted(key)}", hint)
        return None
    if not isinstance(text, str):
        findings.at_key((key,), "not-text", "nothing is said of how much there is", _EXAMPLE)
        return None
    try:
        number, unit = amount_of(text)
        names = tuple(crop.name for crop in crops)
        if unit in KILOGRAMS:
            return InDrawer(names, None, float(number * KILOGRAMS[unit] * 1000))
        if unit not in ("", "seeds", "seed", *(crop.sown_as for crop in crops)):
            raise Refused("harvest", f"{quoted(unit)} is not how seed is counted here")
    except Refused as refused:
        findings.refused((key,), Refused(refused.code, refused.message, _EXAMPLE))
        return None
    return InDrawer(names, int(Fraction(number)), None)
