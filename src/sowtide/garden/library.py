"""The built-in crops: one table of figures, each with its unit and its source.

The table is read once, when the first crop is asked for, and only the rows of the crops asked for
are taken apart. A test checks the whole of it; nothing checks it at start.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import MappingProxyType

from sowtide.days import DayRange
from sowtide.garden.crop import AfterFrost, CountedFrom, Hardiness, Heat, Raised, Weather
from sowtide.units import celsius, micrometres
from sowtide.values import value

_DATA = Path(__file__).with_name("data")


@value
class Row:
    """One figure of the table, as it is written there.

    Parameters
    ----------
    field
        The figure's name: a field of a crop, ``heat_base`` or ``heat_upper``.
    value, unit
        What it is; the unit of a word or a bare number is ``-``.
    source
        Key of the source, see `source`.
    note
        What else there is to say of it, such as what other sources hold; may be empty.
    """

    field: str
    value: str
    unit: str
    source: str
    note: str


@value
class LibraryCrop:
    """A built-in crop.

    Parameters
    ----------
    name
        Its canonical name.
    values
        Its figures by field of `sowtide.garden.crop.Crop`, in that field's type and unit; a
        field that nothing is known of is absent.
    sources
        Key of each figure's source, by the same names; of ``heat`` that of its base.
    """

    name: str
    values: Mapping[str, object]
    sources: Mapping[str, str]


def names() -> tuple[str, ...]:
    """Return the canonical names of all built-in crops, in order."""
    return tuple(sorted(_lines(), key=str.casefold))


def find(name: str) -> LibraryCrop | None:
    """Return the built-in crop of that name, or None.

    Small and capital letters are one, hyphens are spaces, and plurals and other names of the
    crop are understood.

    Examples
    --------
    >>> find("Courgettes").name
    'summer squash'
    """
    known = _known_names()
    for form in _singulars(_plain(name)):
        if form in known:
            return _crop(known[form])
    return None


def near(name: str) -> tuple[str, ...]:
    """Return the canonical names of at most three crops that are written much like `name`.

    Examples
    --------
    >>> near("brocolli")
    ('broccoli',)
    """
    import difflib

    known = _known_names()
    close: dict[str, None] = {}
    for form in _singulars(_plain(name)):
        for match in difflib.get_close_matches(form, known, n=5, cutoff=0.75):
            close[known[match]] = None
    return tuple(close)[:3]


def families() -> frozenset[str]:
    """Return the families of all built-in crops, as growers say them."""
    mark = "\tfamily\t"
    rows = (line for lines in _lines().values() for line in lines if mark in line)
    return frozenset(row.split("\t", 3)[2] for row in rows)


def rows(name: str) -> tuple[Row, ...]:
    """Return the figures of a crop by its canonical name, as the table has them.

    Raises
    ------
    KeyError
        If there is no such crop.
    """
    return tuple(Row(*line.split("\t")[1:]) for line in _lines()[name])


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
def _crop(name: str) -> LibraryCrop:
    values: dict[str, object] = {}
    sources: dict[str, str] = {}
    heat: dict[str, float] = {}
    for row in rows(name):
        if row.field == "names":
            continue
        if row.field.startswith("heat_"):
            heat[row.field.removeprefix("heat_")] = _temperature(row)
            sources.setdefault("heat", row.source)
            continue
        values[row.field] = _READERS[row.field](row)
        sources[row.field] = row.source
    if heat:
        values["heat"] = Heat(base=heat.get("base"), upper=heat.get("upper"))
    return LibraryCrop(name, MappingProxyType(values), MappingProxyType(sources))


def _words(row: Row) -> str:
    return row.value


def _whole(row: Row) -> int:
    return int(row.value)


def _number(row: Row) -> float:
    return float(row.value)


def _share(row: Row) -> float:
    return int(row.value) / 100


def _range(row: Row) -> DayRange:
    low, _, high = row.value.partition("-")
    return DayRange(int(low), int(high or low))


def _length(row: Row) -> int:
    return micrometres(Fraction(row.value), row.unit)


def _temperature(row: Row) -> float:
    written = float(row.value)
    return celsius(written) if row.unit == "°F" else written


def _yes(row: Row) -> bool:
    return row.value == "yes"


_READERS: dict[str, Callable[[Row], object]] = {
    "family": _words,
    "weather": lambda row: Weather(row.value),
    "raised": lambda row: Raised(row.value),
    "counted_from": lambda row: CountedFrom(row.value),
    "nursery_days": _range,
    "hardening_days": _whole,
    "days_to_harvest": _range,
    "picking_days": _whole,
    "pick_gap": _whole,
    "pick_when": _words,
    "holding_days": _range,
    "hardiness": lambda row: Hardiness(row.value),
    "after_frost": lambda row: AfterFrost(row.value),
    "days_before_frost": _whole,
    "days_after_frost": _whole,
    "overwinters": _yes,
    "up_days": _whole,
    "flower_to_pick": _whole,
    "needs_bees": _yes,
    "soil_min": _temperature,
    "soil_max": _temperature,
    "warm_limit": _temperature,
    "long_day": _number,
    "rated_at": _temperature,
    "in_row": _length,
    "between_rows": _length,
    "sown_as": _words,
    "seeds_per_plant": _number,
    "germination": _share,
    "rotation": _whole,
}


@cache
def _lines() -> dict[str, list[str]]:
    """Read the table: its undivided lines by crop, in the table's order."""
    lines: dict[str, list[str]] = {}
    for line in _read("crops.tsv"):
        lines.setdefault(line[: line.index("\t")], []).append(line)
    return lines


@cache
def _known_names() -> dict[str, str]:
    """Every name a crop goes by, plainly written, and its canonical name."""
    known: dict[str, str] = {}
    for crop, lines in _lines().items():
        known[_plain(crop)] = crop
        for line in lines:
            _, field, value, *_ = line.split("\t", 3)
            if field != "names":
                break  # other names come first
            known.update((_plain(name), crop) for name in value.split(", "))
    return known


@cache
def _sources() -> dict[str, str]:
    sources: dict[str, str] = {}
    for line in _read("sources.tsv"):
        key, citation, trust = line.split("\t")
        sources[key] = f"{citation} ({trust})" if trust else citation
    return sources


def _read(file: str) -> list[str]:
    """Return the lines of a table without its heading."""
    return (_DATA / file).read_text(encoding="utf-8").splitlines()[1:]


def _plain(name: str) -> str:
    """Write a name in small letters with single spaces for hyphens and underscores."""
    return " ".join(name.casefold().replace("-", " ").replace("_", " ").split())


def _singulars(name: str) -> tuple[str, ...]:
    """Return the name and what it may be the plural of, likeliest first."""
    forms = [name]
    if name.endswith("ies"):
        forms.append(name[:-3] + "y")
    if name.endswith("s"):
        forms.append(name[:-1])
    if name.endswith("es"):
        forms.append(name[:-2])
    return tuple(forms)
