"""The shape of a garden's file: which keys there are and which reader each value has.

Every leaf is read by a reader of its own from the text that stands in the file; nothing is
converted by the way. Days and measures stay as they are written until the site's growing year and
units are known.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Any, Literal

from sowtide.days import DayRange
from sowtide.garden import readers
from sowtide.garden.crop import HeatMethod, Raised, Sort
from sowtide.garden.keys.section import Each, Keyed, Leaf, Within, may, must, several
from sowtide.garden.library import CROP_FIELDS
from sowtide.garden.site import YearsWanted
from sowtide.garden.text import Refused, quoted
from sowtide.units import Units
from sowtide.values import value

Shares = Mapping[float, readers.Written]
"""Days by the share of years that each stands for."""

NO_FROST: Shares = MappingProxyType({})
"""What stands for the dates of a frost that never comes."""

HALF = 0.5
"""The share of years that a single date stands for."""

MOST_PLANTS = 1_000_000
MOST_OVERLAP = 60
MOST_PEOPLE = 10_000


def _is_none(text: Any) -> bool:
    return isinstance(text, str) and text.lower() == "none"


@readers.written_as("none")
def _no_frost(text: str) -> tuple[()]:
    """Read the word that stands for no frost at all."""
    if _is_none(text):
        return ()
    raise Refused(
        "not-a-mapping",
        f"{quoted(text)} is not the dates of two frosts",
        "write {last: 05-08, first: 10-02}, or none where there is no frost",
    )


@readers.written_as("day or none")
def _one_date(text: str) -> Shares:
    """Read a single date in place of shares of years, or the word that stands for none."""
    return NO_FROST if _is_none(text) else {HALF: readers.day(text)}


def _goes_without(frost: dict[str, Any]) -> bool:
    """Say whether frost dates may be missing: beside a record, or one of them where the other is.

    What is wrong with the latter is said where both are looked at.
    """
    written = [frost[key] for key in ("last", "first") if key in frost]
    return ("record" in frost and not written) or (len(written) == 1 and _is_none(written[0]))


_days = readers.whole(0, readers.LONGEST)
_temperature = readers.decimal(-100, 150)
_difference = readers.decimal(0, 30)
_range = readers.day_range(1)
_method = readers.choice(HeatMethod)
SHARE = readers.percent(1, 99)
"""Reads a share of years."""
_shares = Keyed(
    SHARE,
    Leaf(readers.day),
    alone=_one_date,
    empty=Refused(
        "missing",
        "no date is written here",
        "write a date, or shares of years with their dates: {10%: 05-16, 50%: 05-04}",
    ),
)


@value
class NormalsKeys:
    """Mean daily maxima and minima of the months, January's first."""

    max: tuple[Fraction, ...] = must(
        Each(_temperature), "max: [35, 37, 46, 58, 70, 79, 83, 81, 74, 62, 50, 39]"
    )
    min: tuple[Fraction, ...] = must(
        Each(_temperature), "min: [19, 20, 27, 37, 47, 57, 61, 60, 52, 41, 33, 24]"
    )


@value
class FrostKeys:
    """Frost dates at one temperature, or a record of daily temperatures, or both."""

    last: Shares | None = must(_shares, "last: 05-08", unless=_goes_without)
    first: Shares | None = must(_shares, "first: 10-02", unless=_goes_without)
    at: Fraction | None = may(_temperature)
    record: str | None = may(readers.text)
    unit: str | None = may(readers.record_unit)
    years: YearsWanted | None = may(readers.years_wanted)
    normals: NormalsKeys | None = may(Within(NormalsKeys))


@value
class SiteKeys:
    """The place."""

    name: str = must(readers.text, "name: Home garden")
    latitude: Fraction = must(readers.latitude, "latitude: 43.1 (south of the equator -43.1)")
    units: Units = must(readers.choice(Units), "units: us, or units: metric")
    frost: tuple[FrostKeys, ...] = must(
        Within(
            FrostKeys,
            listed=True,
            alone=_no_frost,
            empty=Refused(
                "missing", "no frost dates are written here", "write none where there is no frost"
            ),
        ),
        "frost: {last: 05-08, first: 10-02}, or frost: none",
    )
    sure: tuple[float | None, int | None] = may(readers.sure, (0.8, None))
    fall_allowance: tuple[int, bool] = may(readers.allowance, (14, False))
    colder_by: Fraction = may(_difference, Fraction(0))
    warmest_month: Fraction | None = may(_temperature)
    coldest_month: Fraction | None = may(_temperature)
    too_hot: readers.DaysWritten | Literal["none"] | None = may(readers.days_or_none)
    week_starts: int = may(readers.weekday, 0)
    help: str | None = may(readers.text)
    people: int | None = may(readers.whole(1, MOST_PEOPLE))
    spare: float = may(readers.percent(0, 300), 0.1)
    order_weeks: int = may(readers.whole(0, 52), 3)
    tray_cells: int = may(readers.whole(1, 1000), 72)


@value
class BedKeys:
    """A bed."""

    bed: str = must(readers.text, "bed: Long 1")
    size: tuple[Fraction, Fraction] = must(readers.size, "size: 4 x 20")
    rest: int = may(_days, 0)
    grew: Mapping[int, tuple[str, ...]] | None = may(
        Keyed(readers.year_of, Each(readers.lower_text))
    )
    cover: Fraction = may(_difference, Fraction(0))
    colder_by: Fraction = may(_difference, Fraction(0))
    taken: tuple[readers.DaysWritten, ...] | None = may(Each(readers.days_or_all_year))


@value
class HeatKeys:
    """How a crop's warmth is counted."""

    base: Fraction | None = may(CROP_FIELDS["heat_base"].kind.read)
    upper: Fraction | None = may(CROP_FIELDS["heat_upper"].kind.read)
    units: DayRange | None = may(CROP_FIELDS["heat_units"].kind.read)
    method: HeatMethod | None = may(CROP_FIELDS["heat_method"].kind.read)


@value
class CropKeys:
    """What the grower says of a crop; what is left out is built in."""

    like: str | None = may(readers.text)
    figures: Mapping[str, Any] = several(
        {
            "heat" if field.part else field.name: Within(HeatKeys)
            if field.part
            else Leaf(field.kind.read)
            for field in CROP_FIELDS.values()
            if field.kind.read is not None
        }
    )


@value
class WaveKeys:
    """An entry that asks for waves."""

    crop: str = must(readers.text, "crop: bush bean")
    plants: int = must(readers.whole(1, MOST_PLANTS), "plants: 60")
    start: readers.Written | None = must(
        readers.start, "from: earliest, or from: 07-15", key="from"
    )
    name: str | None = may(readers.series_name)
    variety: str | None = may(readers.text)
    sort: Sort | None = may(readers.choice(Sort))
    raised: Raised | None = may(readers.choice(Raised))
    every: DayRange | None = may(_range)
    pick_every: int | None = may(readers.whole(1, 366))
    until: readers.Written | None = may(readers.until)
    count: int | None = may(readers.whole(1, 366))
    beds: tuple[str, ...] | None = may(Each(readers.text))
    wave_beds: Mapping[int, tuple[str, ...]] | None = may(
        Keyed(readers.whole(1, 366), Each(readers.text))
    )
    split: bool = may(readers.yes_no, True)
    first: bool = may(readers.yes_no, False)
    standby: int = may(readers.whole(0, MOST_PLANTS), 0)
    overlap: int = may(readers.whole(0, MOST_OVERLAP), 0)


@value
class WatchKeys:
    """Something to look for once so much warmth has gathered."""

    look_for: str = must(readers.text, "look_for: squash vine borer moths")
    base: Fraction = must(_temperature, "base: 50")
    total: int = must(readers.whole(1, 20_000), "total: 1000")
    upper: Fraction | None = may(_temperature)
    method: HeatMethod = may(_method, HeatMethod.AVERAGE)
    start: readers.Written | None = may(readers.day, key="from")


@readers.written_as("day or days")
def _wanted_in(text: str) -> readers.DaysWritten:
    """Read the days in which something is wanted once: a span of days, a week or a day."""
    if ".." in text:
        return readers.days(text)
    one = readers.day(text)
    return readers.DaysWritten(one, one)


@value
class WantKeys:
    """What the household wants of a crop."""

    crop: str = must(readers.text, "crop: bush bean")
    amount: readers.WrittenAmount = must(readers.amount, "amount: 5 lb, or amount: 6 heads")
    every: int | None = may(readers.how_often)
    start: readers.Written | None = may(readers.day, key="from")
    until: readers.Written | None = may(readers.day)
    in_: readers.DaysWritten | None = may(_wanted_in, key="in")
    per: str | None = may(readers.word("person"))
    first: bool = may(readers.yes_no, False)


@readers.written_as("file beside")
def _journal(text: str) -> str:
    """Read the name of a journal: a file beside this one."""
    if "/" in text or "\\" in text:
        raise Refused(
            "journal-name",
            f"{quoted(text)} is no file beside this one",
            "write the name of a file in the same folder",
        )
    return readers.text(text)


@value
class FileKeys:
    """The file's sections; each is looked into by itself, so that all mistakes come together."""

    site: Any = must(
        None,
        "site: {name: Home garden, latitude: 43.1, units: us, frost: {last: 05-08, first: 10-02}}",
    )
    season: int = must(readers.year_of, "season: 2026")
    beds: Any = must(None, "beds: [{bed: Long 1, size: 4 x 20}]")
    crops: Any = may(None)
    waves: Any = may(None)
    watch: Any = may(None)
    care: Any = may(None)
    want: Any = may(None)
    journal: str | None = may(_journal)
    learn: bool = may(readers.yes_no, True)
    working_days: tuple[int, ...] | None = may(Each(readers.working_day))
    away: tuple[readers.DaysWritten, ...] | None = may(Each(readers.days))
