"""The shape of a garden's file: which keys there are and which reader each value has.

Every leaf is read by a reader of its own from the text that stands in the file; nothing is
converted by the way. Days and measures stay as they are written until the site's growing year and
units are known.
"""

# No postponed annotations: pydantic would have to evaluate each of them again, one by one.

from collections.abc import Callable
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import CoreSchema, core_schema

from sowtide.days import DayRange, MonthDay
from sowtide.garden.crop import AfterFrost, CountedFrom, Hardiness, Raised, Weather
from sowtide.garden.keys import dates
from sowtide.garden.keys import numbers as figures
from sowtide.garden.keys import words as fields
from sowtide.garden.site import YearsWanted
from sowtide.garden.text import Refused, quoted
from sowtide.units import Units

NO_FROST: dict[float, dates.Written] = {}
"""What stands for the dates of a frost that never comes."""

HALF = 0.5
"""The share of years that a single date stands for."""

MOST_PLANTS = 1_000_000
MOST_OVERLAP = 60

_TEXT = core_schema.str_schema(strict=True)


class Leaf:
    """Marks a field whose text is read by one reader."""

    __slots__ = ("read",)

    def __init__(self, read: Callable[[str], Any]) -> None:
        self.read = read

    def one(self) -> CoreSchema:
        """Return the validator of one value: it is a text, then what the reader makes of it."""
        return core_schema.no_info_after_validator_function(self.read, _TEXT)

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> CoreSchema:
        """Build the field's validator without looking at its type."""
        return self.one()


class Each(Leaf):
    """Marks a field that is one value or a list of them; it becomes a list."""

    __slots__ = ()

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> CoreSchema:
        """Build a list of the leaf's validator."""
        return core_schema.no_info_before_validator_function(
            as_list, core_schema.list_schema(self.one())
        )


class Keyed(Leaf):
    """Marks a field that is a mapping; keys have a reader, values another or a list of them."""

    __slots__ = ("lists", "nullable", "read_key")

    def __init__(
        self,
        read_key: Callable[[str], Any],
        read: Callable[[str], Any],
        *,
        lists: bool,
        nullable: bool = False,
    ) -> None:
        super().__init__(read)
        self.read_key = read_key
        self.lists = lists
        self.nullable = nullable

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> CoreSchema:
        """Build a mapping of the two readers."""
        values = self.one()
        if self.lists:
            values = core_schema.no_info_before_validator_function(
                as_list, core_schema.list_schema(values)
            )
        mapping = core_schema.dict_schema(
            core_schema.no_info_plain_validator_function(self.read_key), values
        )
        return core_schema.nullable_schema(mapping) if self.nullable else mapping


def not_text(value: Any) -> Refused:
    """Return the refusal of a list, a mapping or nothing where a text belongs."""
    if value is None:
        return Refused("missing", "nothing is written here", "write it, or leave it out")
    if isinstance(value, dict):
        hint = "write its value on the same line; quotes around it if it has a colon in it"
        return Refused("not-text", "keys and values stand where a single value belongs", hint)
    hint = "write a single value, without brackets or dashes"
    return Refused("not-text", "a list stands where a single value belongs", hint)


def as_list(value: Any) -> Any:
    """Make a list of a single value."""
    if isinstance(value, dict):
        hint = "write one value, or several in brackets: [North, South]"
        raise Refused("not-text", "keys and values stand where a list belongs", hint)
    return value if isinstance(value, list) else [value]


def _frost_list(value: Any) -> Any:
    if isinstance(value, str):
        if value.lower() == "none":
            return []
        raise Refused(
            "not-a-mapping",
            f"{quoted(value)} is not the dates of two frosts",
            "write {last: 05-08, first: 10-02}, or none where there is no frost",
        )
    if value == []:
        hint = "write none where there is no frost"
        raise Refused("missing", "no frost dates are written here", hint)
    items = [value] if isinstance(value, dict) else value
    return [_with_dates(item) for item in items] if isinstance(items, list) else items


def _with_dates(item: Any) -> Any:
    """Let a record stand without frost dates beside it, and one `none` without the other.

    What is wrong with the latter is said where both are looked at.
    """
    if not isinstance(item, dict):
        return item
    dates = [item[key] for key in ("last", "first") if key in item]
    if ("record" in item and not dates) or (len(dates) == 1 and _is_none(dates[0])):
        return {"last": None, "first": None, **item}
    return item


def _is_none(value: Any) -> bool:
    return isinstance(value, str) and value.lower() == "none"


def _shares(value: Any) -> Any:
    if value == {}:
        hint = "write a date, or shares of years with their dates: {10%: 05-16, 50%: 05-04}"
        raise Refused("missing", "no date is written here", hint)
    if isinstance(value, str):
        return NO_FROST if _is_none(value) else {"50%": value}
    return value


class _Section(BaseModel):
    model_config = ConfigDict(extra="forbid")


_percent = Leaf(figures.percent(1, 100))
_days = Leaf(figures.whole(0, figures.LONGEST))
_temperature = Leaf(figures.decimal(-100, 150))
_difference = Leaf(figures.decimal(0, 30))
_spacing = Leaf(figures.above_zero(1000))
_text = Leaf(fields.text)
_yes_no = Leaf(fields.yes_no)
_raised = Leaf(fields.choice(Raised))
_range = Leaf(figures.day_range(1))
_Table = Annotated[
    dict[float, dates.Written] | None,
    Keyed(figures.percent(1, 99), dates.day, lists=False, nullable=True),
    BeforeValidator(_shares),
]


class NormalsKeys(_Section):
    """Mean daily maxima and minima of the months, January's first."""

    max: Annotated[list[Fraction], Each(_temperature.read)]
    min: Annotated[list[Fraction], Each(_temperature.read)]


class FrostKeys(_Section):
    """Frost dates at one temperature, or a record of daily temperatures, or both."""

    last: _Table
    first: _Table
    at: Annotated[Fraction | None, _temperature] = None
    record: Annotated[str | None, _text] = None
    unit: Annotated[str | None, Leaf(fields.record_unit)] = None
    years: Annotated[YearsWanted | None, Leaf(fields.years_wanted)] = None
    normals: NormalsKeys | None = None


class SiteKeys(_Section):
    """The place."""

    name: Annotated[str, _text]
    latitude: Annotated[Fraction, Leaf(fields.latitude)]
    units: Annotated[Units, Leaf(fields.choice(Units))]
    frost: Annotated[list[FrostKeys], BeforeValidator(_frost_list)]
    sure: Annotated[tuple[float | None, int | None], Leaf(fields.sure)] = (0.8, None)
    fall_allowance: Annotated[tuple[int, bool], Leaf(fields.allowance)] = (14, False)
    colder_by: Annotated[Fraction, _difference] = Fraction(0)
    warmest_month: Annotated[Fraction | None, _temperature] = None
    coldest_month: Annotated[Fraction | None, _temperature] = None
    too_hot: Annotated[dates.DaysWritten | Literal["none"] | None, Leaf(dates.days_or_none)] = None
    week_starts: Annotated[int, Leaf(fields.weekday)] = 0
    help: Annotated[str | None, _text] = None


class BedKeys(_Section):
    """A bed."""

    bed: Annotated[str, _text]
    size: Annotated[tuple[Fraction, Fraction], Leaf(fields.size)]
    rest: Annotated[int, _days] = 0
    grew: Annotated[
        dict[int, list[str]] | None, Keyed(dates.year_of, fields.lower_text, lists=True)
    ] = None
    cover: Annotated[Fraction, _difference] = Fraction(0)
    colder_by: Annotated[Fraction, _difference] = Fraction(0)
    taken: Annotated[list[dates.DaysWritten] | None, Each(dates.days_or_all_year)] = None


class HeatKeys(_Section):
    """How a crop's warmth is counted."""

    base: Annotated[Fraction | None, _temperature] = None
    upper: Annotated[Fraction | None, _temperature] = None
    units: Annotated[
        DayRange | None, Leaf(lambda text: figures.number_range(text, low=1, high=20_000))
    ] = None
    method: Annotated[str | None, Leaf(fields.word("clip", "average", "sine"))] = None


class CropKeys(_Section):
    """What the grower says of a crop; what is left out is built in."""

    like: Annotated[str | None, _text] = None
    variety: Annotated[str | None, _text] = None
    family: Annotated[str | None, Leaf(fields.lower_text)] = None
    weather: Annotated[Weather | None, Leaf(fields.choice(Weather))] = None
    raised: Annotated[Raised | None, _raised] = None
    nursery_days: Annotated[DayRange | None, _range] = None
    hardening_days: Annotated[int | None, _days] = None
    days_to_harvest: Annotated[DayRange | None, _range] = None
    counted_from: Annotated[CountedFrom | None, Leaf(fields.choice(CountedFrom))] = None
    picking_days: Annotated[int | None, Leaf(figures.whole(1, figures.LONGEST))] = None
    pick_gap: Annotated[int | None, Leaf(figures.whole(1, 365))] = None
    pick_when: Annotated[str | None, _text] = None
    worthwhile_days: Annotated[int | None, Leaf(figures.whole(1, figures.LONGEST))] = None
    holding_days: Annotated[DayRange | None, Leaf(fields.warm_cool)] = None
    hardiness: Annotated[Hardiness | None, Leaf(fields.choice(Hardiness))] = None
    after_frost: Annotated[AfterFrost | None, Leaf(fields.choice(AfterFrost))] = None
    days_before_frost: Annotated[int | None, _days] = None
    days_after_frost: Annotated[int | None, _days] = None
    up_days: Annotated[int | None, _days] = None
    flower_to_pick: Annotated[int | None, _days] = None
    needs_bees: Annotated[bool | None, _yes_no] = None
    soil_min: Annotated[Fraction | None, _temperature] = None
    soil_good: Annotated[Fraction | None, _temperature] = None
    soil_max: Annotated[Fraction | None, _temperature] = None
    warm_limit: Annotated[Fraction | None, _temperature] = None
    long_day: Annotated[Fraction | None, Leaf(figures.decimal(1, 24))] = None
    chill_limit: Annotated[Fraction | None, _temperature] = None
    chill_days: Annotated[int | None, Leaf(figures.whole(1, figures.LONGEST))] = None
    fruit_set_high: Annotated[Fraction | None, _temperature] = None
    fruit_set_low: Annotated[Fraction | None, _temperature] = None
    rated_at: Annotated[Fraction | None, _temperature] = None
    heat: HeatKeys | None = None
    in_row: Annotated[Fraction | None, _spacing] = None
    between_rows: Annotated[Fraction | None, _spacing] = None
    sown_as: Annotated[str | None, _text] = None
    seeds_per_plant: Annotated[Fraction | None, Leaf(figures.above_zero(1000))] = None
    germination: Annotated[float | None, _percent] = None
    yield_per_plant: Annotated[Fraction | None, Leaf(figures.decimal(0, 1000))] = None
    rotation: Annotated[int | None, Leaf(figures.whole(0, 20))] = None
    overwinters: Annotated[bool | None, _yes_no] = None
    ready: Annotated[tuple[MonthDay, MonthDay] | None, Leaf(dates.month_days)] = None


class WaveKeys(_Section):
    """An entry that asks for waves."""

    crop: Annotated[str, _text]
    plants: Annotated[int, Leaf(figures.whole(1, MOST_PLANTS))]
    start: Annotated[dates.Written | None, Leaf(fields.start)] = Field(alias="from")
    name: Annotated[str | None, Leaf(fields.series_name)] = None
    variety: Annotated[str | None, _text] = None
    raised: Annotated[Raised | None, _raised] = None
    every: Annotated[DayRange | None, _range] = None
    until: Annotated[dates.Written | None, Leaf(fields.until)] = None
    count: Annotated[int | None, Leaf(figures.whole(1, 366))] = None
    beds: Annotated[list[str] | None, Each(fields.text)] = None
    wave_beds: Annotated[
        dict[int, list[str]] | None, Keyed(figures.whole(1, 366), fields.text, lists=True)
    ] = None
    split: Annotated[bool, _yes_no] = True
    standby: Annotated[int, Leaf(figures.whole(0, MOST_PLANTS))] = 0
    overlap: Annotated[int, Leaf(figures.whole(0, MOST_OVERLAP))] = 0


class WatchKeys(_Section):
    """Something to look for once so much warmth has gathered."""

    look_for: Annotated[str, _text]
    base: Annotated[Fraction, _temperature]
    total: Annotated[int, Leaf(figures.whole(1, 20_000))]
    upper: Annotated[Fraction | None, _temperature] = None
    method: Annotated[str, Leaf(fields.word("clip", "average", "sine"))] = "average"
    start: Annotated[dates.Written | None, Leaf(dates.day)] = Field(alias="from", default=None)


class FileKeys(_Section):
    """The file's sections; each is looked into by itself, so that all mistakes come together."""

    site: Any
    season: Annotated[int, Leaf(dates.year_of)]
    beds: Any
    crops: Any = None
    waves: Any = None
    watch: Any = None


NOT_YET = {
    FileKeys: ("care",),
    SiteKeys: ("record", "years", "normals"),
    WaveKeys: ("pick_every", "want"),
}
"""Keys that are spoken for and cannot be used in this version, by section."""


EXAMPLES = {
    "site": "site: {name: Home garden, latitude: 43.1, units: us, "
    "frost: {last: 05-08, first: 10-02}}",
    "beds": "beds: [{bed: Long 1, size: 4 x 20}]",
    "season": "season: 2026",
    "name": "name: Home garden",
    "latitude": "latitude: 43.1 (south of the equator -43.1)",
    "units": "units: us, or units: metric",
    "frost": "frost: {last: 05-08, first: 10-02}, or frost: none",
    "last": "last: 05-08",
    "first": "first: 10-02",
    "max": "max: [35, 37, 46, 58, 70, 79, 83, 81, 74, 62, 50, 39]",
    "min": "min: [19, 20, 27, 37, 47, 57, 61, 60, 52, 41, 33, 24]",
    "bed": "bed: Long 1",
    "size": "size: 4 x 20",
    "crop": "crop: bush bean",
    "plants": "plants: 60",
    "from": "from: earliest, or from: 07-15",
    "look_for": "look_for: squash vine borer moths",
    "base": "base: 50",
    "total": "total: 1000",
}
"""What a missing key might say."""


def known_keys(section: type[BaseModel]) -> tuple[str, ...]:
    """Return the keys of a section as they are written."""
    return tuple(field.alias or name for name, field in section.model_fields.items())
