"""Small gardens for tests: a few words become a file, the file is read, and the season computed.

Everything is metric, and a plant takes one square metre unless a test says otherwise, so that a
bed of 1 x 10 holds ten plants. The crops are invented and set every number themselves.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from math import erf, sqrt

from sowtide.garden.crop import Crop
from sowtide.garden.journal import journal_of
from sowtide.garden.model import Garden
from sowtide.garden.read import read_garden
from sowtide.reasons import OURS, Dated
from sowtide.schedule.fits.answer import Answer
from sowtide.schedule.fits.one_more import answer
from sowtide.schedule.fits.question import Question
from sowtide.schedule.season import Season
from sowtide.schedule.waves.wave import Wave
from sowtide.schedule.waves.windows import Prospects
from sowtide.schedule.work import WeekSheet, week_sheets
from sowtide.season import season_of

LABEL = "garden.yaml"
FROST = "{last: 05-10, first: 10-01}"
BED = "{bed: Long, size: 1 x 10}"
EARLY = date(2026, 1, 1)
"""Before everything: the day a season is looked at from unless a test says otherwise."""

_CROP = {
    "family": "fruit family",
    "weather": "warm",
    "raised": "direct",
    "counted_from": "sowing",
    "days_to_harvest": "50",
    "picking_days": "14",
    "hardiness": "tender",
    "up_days": "10",
    "in_row": "100",
    "between_rows": "100",
    "rotation": "0",
}


def crop(name: str = "fruit", **keys: str) -> str:
    """Return a crop's line of the file: a tender one, sown direct, picked for 14 days."""
    pairs = ", ".join(f"{key}: {value}" for key, value in (_CROP | keys).items())
    return f"{name}: {{{pairs}}}"


def leaf(name: str = "leaf", **keys: str) -> str:
    """Return the line of a cool-season crop that heat spoils and hard frost ends."""
    cool = {"weather": "cool", "family": "leaf family", "hardiness": "hardy", "warm_limit": "24"}
    return crop(name, **cool | keys)


def wave(crop: str = "fruit", **keys: str) -> str:
    """Return an entry's line of the file; `start` stands for the key ``from``."""
    keys = {"plants": "1", "start": "earliest"} | keys
    keys["from"] = keys.pop("start")
    return f"{{crop: {crop}, " + ", ".join(f"{key}: {value}" for key, value in keys.items()) + "}"


def text(
    *waves: str,
    crops: Sequence[str] = (crop(),),
    beds: Sequence[str] = (BED,),
    frost: str = FROST,
    season: int = 2026,
    latitude: float = 45,
    **site: str,
) -> str:
    """Return a garden's file; further keys go to its site."""
    lines = ["site:", "  name: Test plot", f"  latitude: {latitude}", "  units: metric"]
    lines += [f"  frost: {frost}", *(f"  {key}: {value}" for key, value in site.items())]
    lines += [f"season: {season}", "beds:", *(f"  - {bed}" for bed in beds)]
    lines += ["crops:", *(f"  {line}" for line in crops)]
    lines += ["waves:", *(f"  - {line}" for line in waves)] if waves else []
    return "\n".join(lines) + "\n"


def read(file: str) -> Garden:
    """Read a garden; a mistake in the file is a mistake in the test."""
    reading = read_garden(file.encode(), LABEL)
    assert reading.garden is not None, [problem.message for problem in reading.problems]
    return reading.garden


def season(file: str, today: date = EARLY) -> Season:
    """Read a garden and compute its season."""
    return season_of(read(file), today)


def lived(file: str, today: date, *entries: str) -> Season:
    """Return the season of a garden and of a journal; its entries are written without brackets."""
    told = journal_of("".join(f"- {{{each}}}\n" for each in entries).encode(), "journal.yaml")
    assert told.journal is not None, [each.message for each in told.problems]
    return season_of(read(file), today, None, told.journal)


def only(file: str) -> Wave:
    """Return the one wave of a garden."""
    (found,) = season(file).waves
    return found


def crop_called(found: Season, name: str) -> Crop:
    """Return the crop of a season's garden by name."""
    return next(each for each in found.garden.crops if each.name == name)


def prospects(file: str, name: str = "fruit") -> Prospects:
    """Return the prospects of a crop of a garden, on open ground."""
    found = season(file)
    crop = crop_called(found, name)
    return found.conditions.prospects(crop, crop.raised)


def ask(
    file: str,
    name: str = "fruit",
    *,
    plants: int | None = None,
    bed: str | None = None,
    on: date | None = None,
    seedlings: bool = False,
    today: date = EARLY,
) -> Answer:
    """Ask whether one more wave of a crop of a garden fits."""
    found = season(file, today)
    where = next((each for each in found.garden.beds if each.name == bed), None)
    return answer(found, Question(crop_called(found, name), plants, where, on, seedlings))


def sheets(season: Season, first: date, weeks: int = 1) -> tuple[WeekSheet, ...]:
    """Return the sheets of some weeks, with all that the season knows."""
    return week_sheets(
        season.garden,
        season.waves,
        first,
        weeks=weeks,
        accounts=season.accounts,
        conditions=season.conditions,
        care=season.care,
        today=season.today,
    )


def codes(found: Season) -> list[tuple[str, str | None]]:
    """Return code and wave of every problem of the plan."""
    return [(problem.code, problem.wave) for problem in found.problems]


def planted(day: date) -> Dated:
    """Return a planting day as a counted date."""
    return Dated.on(day, "written", "planted", OURS)


def below(deviate: float) -> float:
    """Share of a normal distribution below a deviate, by the error function."""
    return 0.5 * (1 + erf(deviate / sqrt(2)))
