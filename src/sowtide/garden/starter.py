"""The file a grower starts from, in the grower's units and for the grower's hemisphere."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from pathlib import Path

from sowtide.days import GrowingYear
from sowtide.units import Units
from sowtide.values import value

_NUMBER = re.compile(r"\{(\d+)\}")
_TEMPLATE = Path(__file__).with_name("starter.yaml")
_REMARK_AT = 39
"""Where the remarks beside keys begin. [cells]"""

_SIZES = {
    Units.US: {
        "long": "feet",
        "short": "inches",
        "degrees": "F",
        "bed": "4 x 12",
        "side": "3 x 8",
        "bean": "4, between_rows: 12",
        "lettuce": "8, between_rows: 8",
        "carrot": "3, between_rows: 6",
        "cover": "5",
        "colder": "3",
    },
    Units.METRIC: {
        "long": "metres",
        "short": "centimetres",
        "degrees": "C",
        "bed": "1.2 x 3.6",
        "side": "0.9 x 2.4",
        "bean": "10, between_rows: 30",
        "lettuce": "20, between_rows: 20",
        "carrot": "8, between_rows: 15",
        "cover": "3",
        "colder": "2",
    },
}
_DAYS = {
    False: {"too_hot": "07-01..08-20", "taken": "06-01..06-20", "late": "08-05"},
    True: {"too_hot": "01-01..02-20", "taken": "12-01..12-20", "late": "02-05"},
}
"""Days of the remarks, north and south of the equator."""

_LATITUDE = {False: "43.0", True: "-41.0"}
_LAST, _FIRST = {False: "05-10", True: "11-08"}, {False: "10-04", True: "04-04"}
_MONTHS = {Units.US: ("71", "24"), Units.METRIC: ("21.5", "-4.5")}
"""The invented place that stands in the file where nothing is said of another."""

_WAVES = {
    "bush bean": "plants: {16}, from: {warm}, every: 21, until: last safe, beds: [{second}]",
    "lettuce": "raised: trays, plants: {10}, from: earliest, every: 14, count: 3, beds: [{first}]",
    "carrot": "plants: {40}, from: earliest, every: 35, until: last safe, beds: [{second}]",
    "summer squash": "raised: trays, plants: {2}, from: earliest, beds: [{first}]",
}
"""Waves that have room in two beds, or half as many plants in one, wherever they grow at all."""

_TOO_COLD = "  # Too cold here, or too short a season; it may do under a cover:"
_WARNED_OF = "  # `sowtide check` would warn of it here:"
_NOT_ALL = "  # Of earlier or later ones `sowtide check` would warn here:"
_BEGINS = re.compile(r"from: [\w-]+")


@value
class Suited:
    """How the waves of a crop are written so that they suit a place."""

    crop: str
    """Which."""
    start: str | None = None
    """The first planting, as written; None for what is written for any place."""
    until: str | None = None
    """The last planting, as written; None where nothing is said against later ones."""
    count: int = 3
    """How many there are then, for a series that is written so. [1]"""
    warned_of: bool = False
    too_cold: bool = False
    """Whether they are a remark only, since something is said against each, or no day is safe."""


@value
class Start:
    """What a file to start from is written with; None for what nobody said."""

    season: int
    """The growing year."""
    units: Units = Units.US
    """What it is written in."""
    latitude: str | None = None
    """As written. [°]"""
    last_frost: str | None = None
    first_frost: str | None = None
    """Month and day of the average ones, as written."""
    warmest_month: str | None = None
    coldest_month: str | None = None
    """Their means, as written, in the file's unit."""
    frost_free: bool = False
    """Whether there is no frost."""
    beds: int = 2
    """How many. [1]"""

    @property
    def south(self) -> bool:
        """Whether it lies south of the equator."""
        return self.latitude is not None and self.latitude.startswith("-")

    @property
    def is_invented(self) -> bool:
        """Whether nothing is said of the place, so that the invented one stands there."""
        said = (self.latitude, self.last_frost, self.first_frost)
        return not (self.frost_free or any(each is not None for each in said))


def season_ahead(today: date, *, south: bool, first_frost: str | None) -> int:
    """Return the growing year to plan on a day: its own, and past its first frost the next.

    Parameters
    ----------
    today
        The day.
    south
        Whether the place lies south of the equator.
    first_frost
        The average one, month and day as written; None for that of the invented place.

    Examples
    --------
    >>> season_ahead(date(2026, 11, 28), south=False, first_frost="10-20")
    2027
    """
    year = GrowingYear(today.year, south=south).holding(today)
    month, day = map(int, (first_frost or _FIRST[south]).split("-"))
    frost = year.like(date(2028, month, day), year.season)
    return year.season + (year.midsummer < frost < today)


def starter_text(start: Start, suited: Iterable[Suited] = ()) -> str:
    """Return a commented garden file, ready to be changed.

    Parameters
    ----------
    start
        What it is written with.
    suited
        How the waves of some crops are written; the others as they are for any place.
    """
    names = _bed_names(start.beds)
    sizes, days = _SIZES[start.units], _DAYS[start.south]
    words = {
        **sizes,
        **days,
        "latitude": _beside(f"latitude: {start.latitude or _LATITUDE[start.south]}"),
        "units": _beside(f"units: {start.units.value}"),
        "frost": _beside(f"frost: {_frost(start)}"),
        "warmest": _beside(_mean("warmest_month", start.warmest_month, start, number=0)),
        "coldest": _beside(_mean("coldest_month", start.coldest_month, start, number=1)),
        "season": f"season: {start.season}".ljust(_REMARK_AT),
        "last_year": str(start.season - 1),
        "beds": "\n".join(f"  - {{bed: {name}, size: {sizes['bed']}}}" for name in names),
        "waves": "\n".join(_waves(start, names, {each.crop: each for each in suited})),
    }
    text = _TEMPLATE.read_text(encoding="utf-8")
    for name, said in words.items():
        text = text.replace(f"{{{name}}}", said)
    return text


def _bed_names(beds: int) -> tuple[str, ...]:
    if beds <= 2:
        return ("Front", "Back")[:beds]
    return tuple(f"Bed {number}" for number in range(1, beds + 1))


def _beside(key: str) -> str:
    """Return a key of the site with room for the remark beside it."""
    return key.ljust(_REMARK_AT - 2)


def _frost(start: Start) -> str:
    if start.frost_free:
        return "none"
    last, first = start.last_frost or _LAST[start.south], start.first_frost or _FIRST[start.south]
    return f"{{last: {last}, first: {first}}}"


def _mean(key: str, said: str | None, start: Start, *, number: int) -> str:
    """Return the mean of a month, as a remark where nobody said it of a place of their own."""
    invented = _MONTHS[start.units][number]
    if said is None and not start.is_invented:
        return f"# {key}: {invented}"
    return f"{key}: {said or invented}"


def _warm(start: Start) -> str:
    """Return when the ground is warm enough for beans: three weeks after the average last frost."""
    if start.frost_free:
        return "earliest"
    last = start.last_frost or _LAST[start.south]
    month, day = map(int, last.split("-"))
    return f"{date(2028, month, day) + timedelta(weeks=3):%m-%d}"


def _waves(start: Start, beds: tuple[str, ...], suited: Mapping[str, Suited]) -> Iterator[str]:
    room = 1 if len(beds) > 1 else 2
    for crop, keys in _WAVES.items():
        said = keys.replace("{first}", beds[0]).replace("{second}", beds[min(1, len(beds) - 1)])
        how = suited.get(crop) or Suited(crop)
        said = said.replace("{warm}", _warm(start))
        if how.start is not None:
            said = _BEGINS.sub(f"from: {how.start}", said)
        said = _NUMBER.sub(lambda found: str(int(found[1]) // room), said)
        if how.until is not None:
            said = said.replace("until: last safe", f"until: {how.until}")
            said = said.replace("count: 3", f"count: {how.count}")
        if how.too_cold or how.warned_of:
            yield _TOO_COLD if how.too_cold else _WARNED_OF
            yield f"  # - {{crop: {crop}, {said}}}"
            continue
        if how.start is not None or how.until is not None:
            yield _NOT_ALL
        yield f"  - {{crop: {crop}, {said}}}"
