"""The table of built-in crops as it stands on disk: figures, each with its unit and its source.

It is read once, when the first crop is asked for, and only the rows of the crops asked for are
taken apart. A test checks the whole of it; nothing checks it at start.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from sowtide.values import value

COVER_CROP = "cover crop"
"""The ``use`` of what is sown to close a space, not to be picked."""

_NAMES = "\tnames\t"
_PLAINLY = str.maketrans("-_\N{RIGHT SINGLE QUOTATION MARK}", "  '")

_DATA = Path(__file__).with_name("data")


@value
class Row:
    """One figure of the table, as it is written there."""

    field: str
    """The figure's name: a field of `sowtide.garden.crop.Crop`, ``heat_base`` or ``heat_upper``, or
    what is only told."""
    value: str
    unit: str
    """What it is; the unit of a word or a bare number is ``-``."""
    source: str
    """Key of the source, see `source`."""
    note: str
    """What else there is to say of it, such as what other sources hold; may be empty."""


def rows(name: str) -> tuple[Row, ...]:
    """Return the figures of a crop by its canonical name, as the table has them.

    Raises
    ------
    KeyError
        If there is no such crop.
    """
    return tuple(Row(*line.split("\t")[1:]) for line in blocks()[name].split("\n"))


def source(key: str) -> str:
    """Return the citation of a source and how far it is to be trusted.

    Raises
    ------
    KeyError
        If there is no such source.
    """
    return _sources()[key]


def source_keys() -> tuple[str, ...]:
    """Return the keys of all sources, in order."""
    return tuple(sorted(_sources()))


@cache
def blocks() -> dict[str, str]:
    """Return the table's rows by crop, not yet taken apart, in the table's order.

    Other names of a crop come first, then, of a cover crop, its use: what stands before those
    names is the crop's own, so that the whole table is parted without looking at its lines.
    """
    blocks: dict[str, str] = {}
    before, *others = _read("crops.tsv").split(_NAMES)
    for other in others:
        name = before.rpartition("\n")[2]
        before = other
        blocks[name] = f"{name}{_NAMES}" + other.rpartition("\n")[0]
    return blocks


@cache
def known_names() -> dict[str, str]:
    """Return every name a crop goes by, plainly written, with its canonical name."""
    known: dict[str, str] = {}
    for crop, block in blocks().items():
        known[plain(crop)] = crop
        names = block.split("\t", 3)[2]
        known.update((plain(name), crop) for name in names.split(", "))
    return known


@cache
def families() -> frozenset[str]:
    """Return the families of all crops, as growers say them."""
    _, *others = _read("crops.tsv").split("\tfamily\t")
    return frozenset(other[: other.index("\t")] for other in others)


def is_cover(name: str) -> bool:
    """Whether a crop, by its canonical name, is sown to close a space."""
    return f"\tuse\t{COVER_CROP}\t" in blocks()[name]


def plain(name: str) -> str:
    """Write a name in small letters, with single spaces for hyphens and underscores."""
    return " ".join(name.casefold().translate(_PLAINLY).split())


@cache
def _sources() -> dict[str, str]:
    sources: dict[str, str] = {}
    for line in _read("sources.tsv").splitlines()[1:]:
        key, citation, trust = line.split("\t")
        sources[key] = f"{citation} ({trust})" if trust else citation
    return sources


@cache
def _read(file: str) -> str:
    return (_DATA / file).read_text(encoding="utf-8")
