"""From a file's text to the garden: site, beds, crops and entries with everything filled in."""

from __future__ import annotations

import re
from dataclasses import fields as fields_of
from datetime import date
from pathlib import Path

import pytest

import gardens
from sowtide.days import DateSpan, DayRange, GrowingYear, MonthDay
from sowtide.diagnostics import Problem
from sowtide.garden.crop import (
    AfterFrost,
    CountedFrom,
    Crop,
    Hardiness,
    Heat,
    HeatMethod,
    Raised,
    Weather,
    Yield,
)
from sowtide.garden.keys import CropKeys, known_keys
from sowtide.garden.library import builtin as library
from sowtide.garden.making import entries as entries_module
from sowtide.garden.model import Entry, Garden
from sowtide.garden.read import read_file, read_garden
from sowtide.garden.site import Chance, FallAllowance, Site, Sure
from sowtide.garden.text import in_quotes
from sowtide.garden.text.brackets import in_brackets
from sowtide.garden.text.source import Source
from sowtide.reasons import OURS, Origin
from sowtide.units import Units, celsius

SITE = """\
site:
  name: Mill Bank
  latitude: {latitude}
  units: {units}
  frost: {frost}
"""
FROST = "{last: 05-08, first: 10-02}"
REST = """\
season: 2026
beds:
  - {bed: North, size: 4 x 20}
  - {bed: South, size: 3 x 10}
"""
LABEL = "garden.yaml"
FOOT = 304_800  # [µm]
INCH = 25_400  # [µm]


def text(
    more: str = "",
    *,
    frost: str = FROST,
    latitude: str = "43.1",
    units: str = "us",
    site: str = "",
    rest: str = REST,
) -> str:
    head = SITE.format(latitude=latitude, units=units, frost=frost)
    return head + (f"  {site}\n" if site else "") + rest + more


def garden(written: str) -> Garden:
    reading = read_garden(written.encode(), LABEL)
    assert reading.garden is not None, [problem.message for problem in reading.problems]
    assert reading.problems == ()
    return reading.garden


def site(more: str = "", **changes: str) -> Site:
    return garden(text(site=more, **changes)).site


def codes(written: str) -> list[str]:
    reading = read_garden(written.encode(), LABEL)
    assert reading.garden is None
    return [problem.code for problem in reading.problems]


def crops(lines: str, **changes: str) -> dict[str, Crop]:
    found = garden(text("crops:\n" + lines, **changes))
    return {crop.name: crop for crop in found.crops}


def entries(lines: str, **changes: str) -> tuple[Entry, ...]:
    return garden(text("waves:\n" + lines, **changes)).entries


def entry(keys: str, **changes: str) -> Entry:
    (found,) = entries(f"  - {{crop: bush bean, plants: 30, {keys}}}\n", **changes)
    return found


# The place -------------------------------------------------------------------------------------


def test_the_least_that_makes_a_garden() -> None:
    found = garden(text())
    assert found.label == LABEL
    assert found.year == GrowingYear(2026, south=False)
    assert found.site.name == "Mill Bank"
    assert found.site.latitude == 43.1
    assert found.site.units is Units.US
    assert found.site.sure == Sure(0.8, None, OURS)
    assert found.site.fall_allowance == FallAllowance(14, always=False, origin=OURS)
    assert (found.site.colder_by, found.site.too_hot, found.site.week_starts) == (0, None, 0)
    assert found.site.help is None
    assert (found.entries, found.crops) == ((), ())


def test_a_date_alone_is_half_of_the_years() -> None:
    (frost,) = site().frost
    assert frost.at == 0
    assert frost.last == (Chance(0.5, date(2026, 5, 8)),)
    assert frost.first == (Chance(0.5, date(2026, 10, 2)),)
    assert frost.last_origin == frost.first_origin == Origin(LABEL, 5)


def test_a_place_without_frost() -> None:
    assert site(frost="none").frost == ()


def test_a_table_at_two_temperatures_warmest_first() -> None:
    table = """
    - {at: 28, last: {50%: 04-21}, first: {50%: 10-20}}
    - {at: 32, last: {90%: 04-22, 10%: 05-16, 50%: 05-04}, first: {10%: 09-22, 50%: 10-06}}"""
    warm, cold = site(frost=table).frost
    assert (warm.at, cold.at) == (celsius(32), celsius(28))
    assert warm.last == (
        Chance(0.1, date(2026, 5, 16)),
        Chance(0.5, date(2026, 5, 4)),
        Chance(0.9, date(2026, 4, 22)),
    )
    assert warm.first == (Chance(0.1, date(2026, 9, 22)), Chance(0.5, date(2026, 10, 6)))
    assert cold.last_origin == Origin(LABEL, 6)
    assert warm.first_origin == Origin(LABEL, 7)


def test_frost_dates_lie_nearest_to_early_spring_and_autumn() -> None:
    # A mild place: the last frost before New Year, the first one after it.
    (mild,) = site(frost="{last: 12-20, first: 01-15}").frost
    assert mild.last[0].day == date(2025, 12, 20)
    assert mild.first[0].day == date(2027, 1, 15)
    # South of the equator season 2026 has its spring in 2026 and its autumn in 2027.
    (south,) = site(latitude="-43.1", frost="{last: 10-20, first: 04-15}").frost
    assert south.last[0].day == date(2026, 10, 20)
    assert south.first[0].day == date(2027, 4, 15)


def test_the_other_percentages_lie_nearest_to_the_middle_one() -> None:
    table = "{last: {10%: 02-10, 50%: 01-05, 90%: 12-01}, first: {10%: 12-10, 90%: 01-20}}"
    (frost,) = site(frost=table).frost
    assert [chance.day for chance in frost.last] == [
        date(2026, 2, 10),
        date(2026, 1, 5),
        date(2025, 12, 1),
    ]
    assert [chance.day for chance in frost.first] == [date(2026, 12, 10), date(2027, 1, 20)]


@pytest.mark.parametrize(
    ("frost", "expected"),
    [
        # 1 April less 150 days is 2 November; 151 are too many.
        ("{last: 11-02, first: 10-02}", None),
        ("{last: 11-01, first: 10-02}", "frost-season"),
        # 1 October and 150 days is 28 February.
        ("{last: 05-08, first: 02-28}", None),
        ("{last: 05-08, first: 03-01}", "frost-season"),
        ("{last: 05-08, first: 05-09}", None),
        ("{last: 05-08, first: 05-08}", "frost-order"),
        ("{last: {10%: 05-08, 50%: 05-08}, first: 10-02}", "frost-table"),
        ("{last: {10%: 05-08, 10 %: 05-09}, first: 10-02}", "frost-table"),
        ("{last: 2025-05-08, first: 10-02}", "frost-season"),
        ("{last: 2026-05-08, first: 2026-10-02}", None),
        ("{last: W19, first: 10-02}", "date"),
        ("{last: 02-29, first: 10-02}", "no-such-day"),
        ("{last: {100%: 05-08}, first: 10-02}", "percent"),
        ("{last: {}, first: 10-02}", "missing"),
        ("[]", "missing"),
        # In one year of ten the frosts may meet, as long as they do not in half of them.
        ("{last: {10%: 07-20, 50%: 06-01}, first: {10%: 07-10, 50%: 08-20}}", None),
        ("{last: {10%: 06-20, 50%: 06-01}, first: {10%: 05-25, 50%: 05-30}}", "frost-order"),
    ],
)
def test_the_bounds_of_frost_dates(frost: str, expected: str | None) -> None:
    written = text(frost=frost)
    if expected is None:
        assert garden(written).site.frost
    else:
        assert codes(written) == [expected]


def test_a_colder_frost_may_share_its_days_with_a_milder_one() -> None:
    table = """
    - {at: 32, last: {50%: 05-08}, first: {50%: 10-02}}
    - {at: 28, last: {50%: 05-08, 10%: 06-01}, first: {50%: 10-02}}"""
    assert len(site(frost=table).frost) == 2


def test_settings_of_the_site() -> None:
    found = garden(
        text(
            site="""sure: 14 days
  fall_allowance: 10 always
  colder_by: 9
  too_hot: 07-01..08-20
  week_starts: sunday
  help: ask at the gate"""
        )
    ).site
    assert found.sure == Sure(None, 14, Origin(LABEL, 6))
    assert found.fall_allowance == FallAllowance(10, always=True, origin=Origin(LABEL, 7))
    assert found.colder_by == pytest.approx(5)  # 9 °F are 5 °C
    assert found.too_hot == DateSpan(date(2026, 7, 1), date(2026, 8, 20))
    assert found.too_hot_origin == Origin(LABEL, 9)
    assert found.heat_known
    assert (found.week_starts, found.help) == (6, "ask at the gate")


def test_a_place_without_hot_weeks_is_not_one_of_which_nothing_is_known() -> None:
    cool, unknown = site("too_hot: none"), site()
    assert (cool.too_hot, cool.heat_known, cool.too_hot_origin) == (None, True, Origin(LABEL, 6))
    assert (unknown.too_hot, unknown.heat_known, unknown.too_hot_origin) == (None, False, OURS)


# Beds ------------------------------------------------------------------------------------------


def test_a_bed_in_full() -> None:
    rest = """season: 2026
beds:
  - bed: no
    size: 4 x 20.5
    rest: 3
    grew: {2025: Squash family, 2024: [bean family, moon family]}
    cover: 9
    colder_by: 1.8
    taken: [W10..W11, 07-01..07-31]
  - {bed: "12:30", size: 1x1, taken: all year}
"""
    first, second = garden(text(rest=rest)).beds
    assert first.name == "no"
    assert (first.size.width, first.size.length) == (4 * FOOT, 41 * FOOT // 2)
    assert (first.span.line, first.span.column, first.span.text) == (8, 10, "  - bed: no")
    assert first.rest == 3
    assert first.grew == (
        (2025, "squash family"),
        (2024, "bean family"),
        (2024, "moon family"),
    )
    assert first.cover == pytest.approx(5)
    assert first.colder_by == pytest.approx(1)
    assert first.taken == (
        DateSpan(date(2026, 3, 2), date(2026, 3, 15)),  # week 10 begins on Monday, 2 March
        DateSpan(date(2026, 7, 1), date(2026, 7, 31)),
    )
    assert second.name == "12:30"
    assert second.taken == (DateSpan(date(2026, 1, 1), date(2026, 12, 31)),)


def test_metric_beds_are_in_metres_and_temperatures_in_celsius() -> None:
    rest = "season: 2026\nbeds:\n  - {bed: A, size: 1.2 x 6, cover: 3}\n"
    (bed,) = garden(text(units="metric", rest=rest)).beds
    assert (bed.size.width, bed.size.length, bed.cover) == (1_200_000, 6_000_000, 3)


@pytest.mark.parametrize(
    ("keys", "code"),
    [
        ("taken: [07-01..07-31, 02-29..03-05]", "no-such-day"),
        ("taken: 11-01..02-28", "date-range"),
        ("cover: 31", "out-of-range"),
        ("rest: 1001", "out-of-range"),
        ("grew: squash family", "not-a-mapping"),
    ],
)
def test_beds_that_cannot_be(keys: str, code: str) -> None:
    rest = f"season: 2026\nbeds:\n  - {{bed: A, size: 4 x 20, {keys}}}\n"
    assert codes(text(rest=rest)) == [code]


# Crops -----------------------------------------------------------------------------------------


def test_what_the_file_leaves_out_is_built_in() -> None:
    crop = crops("  bush bean: {days_to_harvest: 50-55}\n")["bush bean"]
    built_in = library.find("bush bean")
    assert built_in is not None
    assert crop.days_to_harvest == DayRange(50, 55)
    assert crop.origin("days_to_harvest") == Origin(LABEL, 11)
    assert crop.kind == "bush bean"
    for field, value in built_in.values.items():
        if field != "days_to_harvest":
            assert getattr(crop, field) == value
            assert crop.origin(field) == Origin(source=built_in.sources[field])
    assert crop.worthwhile_days == 14
    assert crop.origin("worthwhile_days") == OURS


def test_every_built_in_crop_reads_whole() -> None:
    named = "".join(f"  {name}: {{pick_gap: 2}}\n" for name in library.names())
    assert set(crops(named)) == set(library.names())


def test_a_crop_by_another_name_and_like_another() -> None:
    found = crops("  courgettes: {picking_days: 20}\n  ice bean: {like: french beans}\n")
    assert (found["courgettes"].kind, found["courgettes"].picking_days) == ("summer squash", 20)
    assert found["ice bean"].kind == "bush bean"
    assert found["ice bean"].sown_as == "seeds"


def test_a_crop_like_another_of_the_file_whichever_stands_first() -> None:
    own = "{like: crosne, days_to_harvest: 99, variety: Tall}"
    crosne = "{like: leek, picking_days: 30, worthwhile_days: 9, variety: Old, in_row: 8}"
    for lines in (f"  b: {own}\n  crosne: {crosne}\n", f"  crosne: {crosne}\n  b: {own}\n"):
        found = crops(lines)
        b = found["b"]
        assert (b.name, b.kind, b.family) == ("b", "leek", found["crosne"].family)
        assert (b.days_to_harvest, b.picking_days) == (DayRange(99, 99), 30)
        assert (b.worthwhile_days, b.variety) == (9, "Tall")
        assert b.origin("in_row") == found["crosne"].origin("in_row") != OURS


def test_what_the_file_says_of_a_crop_holds_for_those_like_it() -> None:
    found = crops(
        "  zucchini: {in_row: 40}\n  hill squash: {like: summer squash, picking_days: 9}\n"
    )
    assert found["hill squash"].in_row == found["zucchini"].in_row == 40 * INCH
    assert (found["hill squash"].variety, found["hill squash"].worthwhile_days) == (None, 9)


def test_a_built_in_crop_may_be_like_itself() -> None:
    assert crops("  kale: {like: kale, up_days: 9}\n")["kale"].up_days == 9


OWN = """\
  sea kale:
    family: cabbage family
    weather: cool
    raised: either
    nursery_days: 30-50
    hardening_days: 7
    days_to_harvest: 80-100
    counted_from: planting out
    picking_days: 1
    holding_days: 5-14
    worthwhile_days: 20
    pick_gap: 2
    pick_when: a hand high
    hardiness: hardiest
    killed_at: 14
    flowers_killed_at: 28
    after_frost: stands
    days_before_frost: 40
    days_after_frost: 1
    nights_min: 50
    up_days: 14
    flower_to_pick: 9
    root: yes
    needs_bees: no
    soil_min: 41
    soil_good: 50
    soil_max: 86
    warm_limit: 77
    long_day: 14.5
    chill_limit: 48
    chill_days: 12
    fruit_set_high: 93
    fruit_set_low: 73
    rated_at: 59
    heat: {base: 41, upper: 86, units: 1800-1900, method: clip}
    in_row: 12
    between_rows: 18.5
    sown_as: root cuttings
    seeds_per_plant: 2.5
    germination: 80%
    yield_per_plant: 2
    rotation: 4
    overwinters: yes
    ready: 04-25..05-20
    variety: Lily
"""


def test_a_crop_of_the_growers_own_in_full() -> None:
    crop = crops(OWN)["sea kale"]
    origins = dict(crop.origins)
    expected = Crop(
        name="sea kale",
        kind="sea kale",
        family="cabbage family",
        weather=Weather.COOL,
        raised=Raised.EITHER,
        counted_from=CountedFrom.PLANTING_OUT,
        hardiness=Hardiness.HARDIEST,
        killed_at=celsius(14),
        flowers_killed_at=celsius(28),
        after_frost=AfterFrost.STANDS,
        days_to_harvest=DayRange(80, 100),
        picking_days=1,
        in_row=12 * INCH,
        between_rows=37 * INCH // 2,
        worthwhile_days=20,
        rotation=4,
        variety="Lily",
        nursery_days=DayRange(30, 50),
        hardening_days=7,
        pick_gap=2,
        pick_when="a hand high",
        holding_days=DayRange(5, 14),
        days_before_frost=40,
        days_after_frost=1,
        nights_min=celsius(50),
        up_days=14,
        flower_to_pick=9,
        root=True,
        needs_bees=False,
        soil_min=celsius(41),
        soil_good=celsius(50),
        soil_max=celsius(86),
        warm_limit=celsius(77),
        long_day=14.5,
        chill_limit=celsius(48),
        chill_days=12,
        fruit_set_high=celsius(93),
        fruit_set_low=celsius(73),
        rated_at=celsius(59),
        # 1,800 °F-days are 1,000 °C-days; 1,900 are 1,055.6.
        heat=Heat(celsius(41), celsius(86), DayRange(1000, 1056), HeatMethod.CLIP),
        sown_as="root cuttings",
        seeds_per_plant=2.5,
        germination=0.8,
        # the pound in kilograms, by definition
        yield_per_plant=Yield(2 * 0.45359237, 2 * 0.45359237, "kg"),
        overwinters=True,
        ready=(MonthDay(4, 25), MonthDay(5, 20)),
        sorts=crop.sorts,
        days_by_sort=crop.days_by_sort,
        nursery_share=crop.nursery_share,
        planted_in=crop.planted_in,
        sort=crop.sort,
        light=crop.light,
        curve_base=crop.curve_base,
        curve_best=crop.curve_best,
        curve_ceiling=crop.curve_ceiling,
        origins=crop.origins,
    )
    assert crop == expected
    lines = (SITE + REST + "crops:\n" + OWN).splitlines()
    assert lines[(origins.pop("name").line or 0) - 1] == "  sea kale:"
    for field, origin in origins.items():
        assert lines[(origin.line or 0) - 1].strip().startswith(f"{field}:")
    not_written = {"name", "kind", "origins", "emergence", "germinates", "learned"}
    not_written |= {"days_by_sort", "nursery_share", "planted_in", "ready_about", "runs_to_seed"}
    ours = ("curve_", "light", "sort")
    not_written |= {each.name for each in fields_of(Crop) if each.name.startswith(ours)}
    origins = {field: origin for field, origin in origins.items() if field not in not_written}
    written = {field.name for field in fields_of(Crop)} - not_written
    assert set(origins) == written
    assert set(known_keys(CropKeys)) == written | {"like", "sort"}


def test_metric_crops() -> None:
    lines = "  leek: {in_row: 15, between_rows: 30, soil_min: 7, yield_per_plant: 0.3}\n"
    crop = crops(lines, units="metric")["leek"]
    assert (crop.in_row, crop.between_rows) == (150_000, 300_000)
    assert (crop.soil_min, crop.yield_per_plant) == (7, Yield(0.3, 0.3, "kg"))


def test_days_that_make_a_wave_worth_growing() -> None:
    found = crops(
        "  bush bean: {picking_days: 10}\n  kale: {picking_days: 40}\n  carrot: {up_days: 9}\n"
    )
    assert {name: crop.worthwhile_days for name, crop in found.items()} == {
        "bush bean": 10,  # its picking days, fewer than 14
        "kale": 14,
        "carrot": 7,  # cut once
    }


def test_hardening_off_never_takes_longer_than_the_nursery() -> None:
    crop = crops("  broccoli: {nursery_days: 5}\n")["broccoli"]
    assert (crop.nursery_days, crop.hardening_days) == (DayRange(5, 5), 5)


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        ("  carrot: {worthwhile_days: 61}\n", "crop-numbers"),
        ("  kale: {heat: {base: 50, upper: 50}}\n", "crop-numbers"),
        ("  kale: {soil_min: 96}\n", "crop-numbers"),
        ("  kale: {soil_max: 200}\n", "out-of-range"),
        ("  kale: {like: kail}\n", "unknown-crop"),
        ("  kale: {heat: {units: 900, method: clip, base: 300}}\n", "out-of-range"),
        ("  kale: curly\n", "not-a-mapping"),
        ("  crosne: {like: Crosne}\n", "crop-incomplete"),
        ("  a: {like: b}\n  b: {like: c}\n  c: {like: a}\n", "crop-incomplete"),
        ("  kale: {up_days: no}\n  b: {like: kale}\n", "number"),
        ("  - kale\n", "not-a-mapping"),
        ("  Kale: {up_days: 7}\n  kale: {up_days: 8}\n", "duplicate-name"),
        ("  moon bean:\n", "crop-incomplete"),
    ],
)
def test_crops_that_do_not_add_up(lines: str, code: str) -> None:
    assert codes(text("crops:\n" + lines)) == [code]


def test_worthwhile_days_of_a_crop_cut_once_may_be_as_many_as_it_holds() -> None:
    assert crops("  carrot: {worthwhile_days: 60}\n")["carrot"].worthwhile_days == 60


# Waves -----------------------------------------------------------------------------------------


def test_an_entry_in_full() -> None:
    found = entry(
        "name: first beans, from: 05-20, every: 14-21, until: W31, count: 4, "
        "beds: [South, North], split: no, variety: Marsh"
    )
    assert found.name == "first-beans"
    assert found.crop.title == "bush bean 'Marsh'"
    assert found.raised is Raised.DIRECT
    assert (found.plants, found.count) == (30, 4)
    assert (found.start, found.until) == (date(2026, 5, 20), date(2026, 8, 2))
    assert found.every == DayRange(14, 21)
    assert [bed.name for bed in found.beds] == ["South", "North"]
    assert (found.beds_named, found.split) == (True, False)
    assert (found.span.line, found.span.column, found.span.length) == (11, 12, 9)
    origin = Origin(LABEL, 11)
    assert found.start_origin == found.every_origin == origin


def test_an_entry_that_says_little() -> None:
    found = entry("from: earliest")
    assert found.name == "bush-bean"
    assert (found.start, found.every, found.until, found.count) == (None, None, None, None)
    assert [bed.name for bed in found.beds] == ["North", "South"]
    assert (found.beds_named, found.split) == (False, True)
    assert found.every_origin == OURS


def test_a_bed_need_not_be_in_a_list() -> None:
    assert [bed.name for bed in entry("from: earliest, beds: South").beds] == ["South"]


def test_each_number_has_a_line_of_its_own() -> None:
    lines = """  - crop: bush bean
    plants: 30
    from: earliest

    every: 14
    until: last safe
    count: 3
"""
    (found,) = entries(lines)
    assert (found.start_origin.line, found.every_origin.line) == (13, 15)


@pytest.mark.parametrize(
    ("keys", "raised"),
    [
        ("crop: leaf lettuce, plants: 9, from: earliest", Raised.DIRECT),
        ("crop: leaf lettuce, plants: 9, from: earliest, raised: trays", Raised.TRAYS),
        ("crop: broccoli, plants: 9, from: earliest", Raised.TRAYS),
        ("crop: broccoli, plants: 9, from: earliest, raised: trays", Raised.TRAYS),
        ("crop: carrot, plants: 9, from: earliest, raised: direct", Raised.DIRECT),
    ],
)
def test_how_a_wave_is_raised(keys: str, raised: Raised) -> None:
    (found,) = entries(f"  - {{{keys}}}\n")
    assert found.raised is raised


def test_the_files_own_crop_goes_before_the_built_in_one() -> None:
    lines = """crops:
  zucchini: {picking_days: 20}
  late zucchini: {like: zucchini, variety: Marsh, picking_days: 15}
waves:
  - {crop: Summer Squash, plants: 4, from: earliest}
  - {name: b, crop: zucchini, variety: Marsh, plants: 4, from: earliest}
  - {name: c, crop: zucchini, variety: Other, plants: 4, from: earliest}
  - {crop: late zucchini, plants: 4, from: earliest}
"""
    found = garden(text(lines))
    assert [(e.name, e.crop.picking_days, e.crop.variety) for e in found.entries] == [
        ("zucchini", 20, None),
        ("b", 15, "Marsh"),
        ("c", 20, "Other"),
        ("late-zucchini", 15, "Marsh"),
    ]
    assert [crop.title for crop in found.crops] == [
        "late zucchini 'Marsh'",
        "zucchini",
        "zucchini 'Other'",
    ]


@pytest.mark.parametrize(
    ("keys", "expected"),
    [
        ("from: 01-01, every: 1, until: 2027-01-01", None),  # 366 waves
        ("from: 01-01, every: 1, until: 2027-01-02", "too-many-waves"),
        ("from: 01-01, every: 1, until: 2027-01-02, count: 366", None),
        ("from: 01-01, every: 2, until: 2027-01-02", None),
        ("from: 05-01, count: 1", None),
        ("from: 05-01, count: 2", "every"),
        ("from: 05-01, until: 06-01", "every"),
        ("from: 05-01, every: 14, until: 05-01", None),
        ("from: 05-01, every: 14, until: 04-30", "date-range"),
        ("from: 05-01, every: 0", "out-of-range"),
        ("from: 05-01, name: 'a:b'", "series-name"),
        ("from: 05-01, beds: []", None),
        # 80 and 30 ft² hold 4 and 1.5 … plants of 6 x 6 in: 320 and 120, together 440.
        ("from: 05-01, beds: South, split: no", None),
    ],
)
def test_the_bounds_of_an_entry(keys: str, expected: str | None) -> None:
    written = text(f"waves:\n  - {{crop: bush bean, plants: 30, {keys}}}\n")
    if expected is None:
        assert garden(written).entries
    else:
        assert codes(written) == [expected]


@pytest.mark.parametrize(
    ("plants", "keys", "expected"),
    [
        # A plant takes 6 in × 6 in, so 80 ft² hold 320 and 30 ft² 120.
        (440, "from: 05-20", None),
        (441, "from: 05-20", "too-many-plants"),
        (320, "from: 05-20, split: no", None),
        (321, "from: 05-20, split: no", "too-many-plants"),
        (120, "from: 05-20, beds: South", None),
        (121, "from: 05-20, beds: South", "too-many-plants"),
    ],
)
def test_plants_that_fill_their_beds(plants: int, keys: str, expected: str | None) -> None:
    crop = "crops:\n  bush bean: {in_row: 6, between_rows: 6}\n"
    wave = f"waves:\n  - {{crop: bush bean, plants: {plants}, {keys}}}\n"
    if expected is None:
        assert garden(text(crop + wave)).entries
    else:
        assert codes(text(crop + wave)) == [expected]


@pytest.mark.parametrize(
    ("plants", "beds", "column"),
    [
        (120, "{2: South, 3: [North, South]}", None),
        (121, "{3: [North, South]}", None),
        (121, "{2: South}", "plants"),
        (121, "{2: none}", None),
        (30, "{2: Sout}", "Sout"),
        (30, "{x: South}", "x"),
    ],
)
def test_beds_of_single_waves(plants: int, beds: str, column: str | None) -> None:
    # North holds 320 plants of 6 x 6 in, South 120.
    crop = "crops:\n  bush bean: {in_row: 6, between_rows: 6}\n"
    line = f"  - {{crop: bush bean, plants: {plants}, from: 05-01, every: 20, wave_beds: {beds}}}"
    found = read_garden(text(f"{crop}waves:\n{line}\n").encode(), LABEL)
    if column is None:
        assert found.garden is not None
        (read,) = found.garden.entries
        named = {wave: tuple(bed.name for bed in chosen) for wave, chosen in read.wave_beds}
        assert named == {
            int(wave): () if names == "none" else tuple(names.strip("[]").split(", "))
            for wave, names in re.findall(r"(\d): (\[.*?\]|\w+)", beds)
        }
    else:
        (problem,) = found.problems
        assert problem.span is not None
        marked = line.index(str(plants) if column == "plants" else column)
        assert problem.span.column == marked + 1
        assert (column == "x") == problem.message.startswith("wave_beds: ")


def test_a_bed_that_is_called_none_is_meant() -> None:
    none = text("waves:\n  - {crop: bush bean, plants: 30, from: 05-01, wave_beds: {1: none}}\n")
    (read,) = garden(none.replace("bed: South", "bed: none")).entries
    assert [bed.name for _, beds in read.wave_beds for bed in beds] == ["none"]


def test_a_variety_is_looked_for_among_its_own_kind() -> None:
    lines = """crops:
  beet: {variety: Moon}
  late bean: {like: bush bean, variety: Moon, picking_days: 9}
waves:
  - {crop: bush bean, variety: Moon, plants: 4, from: 05-20}
  - {crop: carrot, variety: Moon, plants: 4, from: 05-20}
"""
    beans, carrots = garden(text(lines)).entries
    assert (beans.crop.kind, beans.crop.picking_days) == ("bush bean", 9)
    assert (carrots.crop.kind, carrots.crop.variety) == ("carrot", "Moon")


def test_the_growers_word_on_frost_goes_before_the_built_in_degrees() -> None:
    # Of lettuce it is built in at which night it is lost.
    built_in, own = crops("  b: {like: cucumber}\n  kale: {hardiness: half-hardy}\n").values()
    hardy = crops("  kale: {up_days: 7}\n")["kale"]
    assert hardy.killed_at is not None
    assert own.killed_at is None
    assert "killed_at" not in own.origins
    assert own.killing_temperature == Hardiness.HALF_HARDY.killed_at
    assert built_in.hardiness is Hardiness.TENDER


@pytest.mark.parametrize(
    ("heat", "marked"), [("base: 90", "90"), ("upper: 30", "30"), ("base: 70, upper: 60", "60")]
)
def test_a_base_above_the_upper_temperature_is_marked_where_it_is_written(
    heat: str, marked: str
) -> None:
    line = f"  sweet corn: {{heat: {{{heat}}}}}"
    *_, problem = read_garden(text(f"crops:\n{line}\n").encode(), LABEL).problems
    assert problem.message == "heat: the upper temperature is not above the base"
    assert problem.span is not None
    assert problem.span.column == line.index(marked) + 1


@pytest.mark.parametrize(
    ("crop", "series"),
    [("pole bean", "pole-bean"), ("pole - climbing", "pole-climbing"), ("oak (red)", "oak-red")],
)
def test_a_series_is_called_after_its_crop_without_signs_and_lone_hyphens(
    crop: str, series: str
) -> None:
    file = gardens.text(gardens.wave(crop), crops=[gardens.crop(crop)])
    assert [entry.name for entry in garden(file).entries] == [series]


def test_two_series_of_one_name_may_even_stand_on_one_line() -> None:
    one = "{crop: bush bean, plants: 3, from: 05-20}"
    assert codes(text(f"waves: [{one}, {one}]\n")) == ["duplicate-name"]


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        ("station.csv", "station.csv"),
        ("'a, b'", "..."),  # it would not stand in braces as it is
        ('"a\\x1b[2J"', "..."),
        ("a" * 40, "..."),
        ("[a]", "..."),
    ],
)
def test_a_key_of_frost_is_sent_there_with_its_value_if_that_is_plain(
    value: str, shown: str
) -> None:
    written = text(site=f"record: {value}")
    (problem,) = read_garden(written.encode(), LABEL).problems
    assert problem.hint == f"it belongs under frost:, as in frost: {{record: {shown}}}"


def _waves(*entries: str) -> str:
    listed = "".join(f"  - {{crop: bush bean, plants: 3, from: 05-20{each}}}\n" for each in entries)
    return text(f"waves:\n{listed}")


def test_the_name_that_is_suggested_is_no_series_and_no_wave() -> None:
    written = _waves("", ", name: Bush-Bean-B", "", ", name: bush-bean-c-1", "")
    assert [each.hint for each in read_garden(written.encode(), LABEL).problems] == [
        "give one a name of its own, such as name: bush-bean-d",
        "give one a name of its own, such as name: bush-bean-e",
    ]


@pytest.mark.parametrize(
    ("first", "name", "clashes"),
    [
        (", every: 14, count: 3", "bush-bean-3", True),
        (", every: 14, count: 3", "bush-bean-4", False),  # it has three waves
        (", every: 14", "BUSH-BEAN-4", True),
        (", every: 14", "bush-bean-04", False),
        ("", "bush-bean-1", True),
        ("", "bush-bean-2", False),  # it has one wave
    ],
)
def test_a_series_is_not_called_like_the_wave_of_another(
    first: str, name: str, clashes: bool
) -> None:
    named = f", name: {name}"
    for written in (_waves(first, named), _waves(named, first)):
        found = [each.code for each in read_garden(written.encode(), LABEL).problems]
        assert found == ["duplicate-name"] * clashes


@pytest.mark.parametrize(
    ("crop", "series"),
    [
        ("Beans", "Beans"),
        ("' BUSH   bean '", "BUSH-bean"),
        ("little gem (early)/late", "little-gem-early-late"),
        ("'kale: curly, red'", "kale-curly-red"),
        ('"grower\'s choice"', "grower-s-choice"),
        ("kale - late", "kale-late"),
        ("half-high kale", "half-high-kale"),
        ("कद्दू बेल", "कद्दू-बेल"),
        ("'???'", "???"),
    ],
)
def test_a_series_is_called_what_can_be_typed(crop: str, series: str) -> None:
    built_in = "bean" in crop.casefold()
    lines = "" if built_in else f"crops:\n  {crop}: {{like: kale}}\n"
    wave = f"waves:\n  - {{crop: {crop}, plants: 4, from: 05-20}}\n"
    (found,) = garden(text(lines + wave)).entries
    assert found.name == series


def test_a_built_in_crop_of_which_nothing_is_said_is_as_it_is_built_in() -> None:
    assert crops("  kale:\n")["kale"].up_days == library.find("kale").values["up_days"]  # type: ignore[union-attr]


def test_room_in_named_beds_is_not_that_of_all_beds() -> None:
    crop = "crops:\n  bush bean: {in_row: 6, between_rows: 6}\nwaves:\n"
    wave = "  - {{name: {name}, crop: bush bean, plants: {plants}, from: 05-20{keys}}}\n"
    all_beds = wave.format(name="a", plants=440, keys="")
    named = wave.format(name="b", plants=121, keys=", beds: South")
    assert codes(text(crop + all_beds + named)) == ["too-many-plants"]
    assert codes(text(crop + named + all_beds)) == ["too-many-plants"]


def test_the_names_in_a_faulty_entry_are_looked_up_as_well() -> None:
    lines = "waves:\n  - {crop: bush been, plants: no, from: 05-20, beds: [North, West]}\n"
    assert codes(text(lines)) == ["unknown-crop", "number", "unknown-bed"]


BLOCKS = ("A1", "A2", "A3", "B1", "B2")


def _beds_of(written: str, called: tuple[str, ...] = BLOCKS) -> list[str] | Problem:
    """Return the names of the beds that an entry names, or what is wrong with them."""
    beds = "".join(f"  - {{bed: {in_quotes(each)}, size: 4 x 20}}\n" for each in called)
    wave = f"  - {{crop: bush bean, plants: 9, from: 05-20, beds: {written}}}\n"
    file = text(f"waves:\n{wave}", rest=f"season: 2026\nbeds:\n{beds}")
    reading = read_garden(file.encode(), LABEL)
    if reading.garden is None:
        return reading.problems[0]
    return [bed.name for bed in reading.garden.entries[0].beds]


@pytest.mark.parametrize(
    ("written", "beds"),
    [
        ('"A*"', ["A1", "A2", "A3"]),
        ("a*", ["A1", "A2", "A3"]),
        ('"?2"', ["A2", "B2"]),
        ('"A[13]"', ["A1", "A3"]),
        # In the order in which they are said, each once.
        ('["B*", A2, "A*"]', ["B1", "B2", "A2", "A1", "A3"]),
    ],
)
def test_beds_are_named_by_patterns_as_well(written: str, beds: list[str]) -> None:
    assert _beds_of(written) == beds


def test_a_bed_that_is_called_like_a_pattern_is_meant_alone() -> None:
    assert _beds_of('"A*"', ("A*", "AB")) == ["A*"]


def test_a_pattern_of_no_bed_is_said() -> None:
    problem = _beds_of('"C*"')
    assert isinstance(problem, Problem)
    assert (problem.code, problem.message, problem.hint) == (
        "unknown-bed",
        "there is no bed like 'C*'",
        "the beds are: A1, A2, A3, B1, B2",
    )


def test_patterns_are_compared_only_so_often(monkeypatch: pytest.MonkeyPatch) -> None:
    # Five beds each: after the second pattern ten were compared, more than nine.
    monkeypatch.setattr(entries_module, "MOST_COMPARED", 10)
    assert _beds_of('["A*", "B1*", "B2*"]') == ["A1", "A2", "A3", "B1", "B2"]
    monkeypatch.setattr(entries_module, "MOST_COMPARED", 9)
    problem = _beds_of('["A*", "B1*", "B2*"]')
    assert isinstance(problem, Problem)
    said = "'B2*' is one pattern too many: no more are compared with the beds"
    assert (problem.code, problem.message) == ("unknown-bed", said)


# The file as a whole ---------------------------------------------------------------------------


def test_a_quote_that_begins_behind_a_mistake_is_not_blamed_for_it() -> None:
    lines = "season: 2026\nnote: one: two\nmore: 'begins here\n  and ends'\n"
    (problem,) = read_garden(lines.encode(), "garden.yaml").problems
    assert problem.span is not None
    assert (problem.code, problem.span.line) == ("colon", 2)


def test_a_quoted_value_is_the_same_as_a_plain_one() -> None:
    wave = "waves:\n  - {crop: bush bean, plants: 30, from: earliest, every: 14}\n"
    plain = text(wave, site="sure: 80%")
    quoted = plain
    for value in ("43.1", "us", "05-08", "2026", "4 x 20", "30", "14", "80%", "earliest"):
        quoted = quoted.replace(f": {value}", f": '{value}'")
    assert quoted.count("'") == 18
    one, other = garden(plain), garden(quoted)
    assert one.site.sure == other.site.sure
    assert [bed.size for bed in one.beds] == [bed.size for bed in other.beds]
    assert one.entries[0].every == other.entries[0].every


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_byte_order_marks_make_no_difference(end: str, mark: str) -> None:
    written = text("waves:\n  - {crop: bush bean, plants: 30, from: earliest}\n")
    assert garden(mark + written.replace("\n", end)) == garden(written)


def test_comments_and_empty_keys_make_no_difference() -> None:
    more = "crops:\nwaves: # none yet\n"
    assert garden("# a garden\n" + text(more, site="sure: # as usual")).entries == ()


def test_an_empty_list_of_care_asks_for_nothing() -> None:
    assert garden(text("care: []\n")).beds


def test_names_may_look_like_anything_but_text() -> None:
    rest = "season: 2026\nbeds:\n"
    names = ["no", "12:30", "010", "1e3", "null", "~", "=", "2026-01-01", "床", "a'b"]
    rest += "".join(f"  - {{bed: {name}, size: 4 x 20}}\n" for name in names)
    assert [bed.name for bed in garden(text(rest=rest)).beds] == names


def test_a_comment_with_a_space_cuts_nothing_short() -> None:
    rest = "season: 2026 # or 2027\nbeds:\n  - bed: North # 1\n    size: 4 x 20 #wide\n"
    assert garden(text(rest=rest)).beds[0].name == "North"


def test_the_packaged_and_example_gardens_read_without_a_word() -> None:
    root = Path(__file__).parents[2]
    files = [root / "src/sowtide/demo/garden.yaml", *root.glob("examples/*/garden.yaml")]
    for path in files:
        reading = read_file(path, path.name)
        assert reading.problems == ()
        assert reading.garden is not None


def test_a_problem_in_one_section_hides_none_in_another() -> None:
    written = text(
        "crops:\n  kale: {up_days: x}\nwaves:\n"
        "  - {crop: kale, plants: 30, from: earliest}\n"
        "  - {crop: bush bean, plants: 30, from: 13-01}\n",
        site="sure: 101%",
        rest="season: 2026\nbeds:\n  - {bed: A, size: 4}\n",
    )
    assert codes(written) == ["percent", "size", "number", "no-such-day"]


@pytest.mark.parametrize(
    "text",
    [
        "name: Weir [old - [race",
        "name: 'Weir [x'",
        '- "Weir {"  # and [more',
        "name: Weir's {place",
        "name: Weir {",
        "name: {a: 'x]}', b: it's}",
        "- - [x, y]",
        "[a, {b: c}]",
    ],
)
def test_brackets_in_texts_are_not_taken_for_open_ones(text: str) -> None:
    source = Source("garden.yaml", f"{text}\n", (text, ""))
    assert in_brackets(source, (1, 0)) is None


@pytest.mark.parametrize(
    ("text", "column"),
    [("- [x", 2), ("- - {x", 4), ("name: [x, 'y]'", 6), ("a: [{b: ']', c}", 3), ("[x}", 0)],
)
def test_the_bracket_that_is_open_is_found(text: str, column: int) -> None:
    found = in_brackets(Source("garden.yaml", f"{text}\n", (text, "")), (1, 0))
    assert found is not None
    assert found.span is not None
    assert (found.message[5:], found.span.column) == (f"{text[column]} is never closed", column + 1)


@pytest.mark.parametrize(
    ("figure", "days", "taken"),
    [
        ("pick_gap", "365", True),
        ("pick_gap", "366", False),
        ("pick_gap", "0", False),  # picked every day is 1
        ("days_before_frost", "0", True),
        ("days_after_frost", "0", True),
        ("chill_days", "0", False),  # a day is the least that can be cold
        ("picking_days", "0", False),  # cut once is 1
        ("worthwhile_days", "0", False),
        ("up_days", "0", True),
        ("hardening_days", "0", True),
        ("flower_to_pick", "0", True),
        ("rotation", "0", True),
        ("rotation", "21", False),
    ],
)
def test_days_of_a_crop_have_their_least_and_their_most(
    figure: str, days: str, taken: bool
) -> None:
    data = gardens.text(crops=[gardens.crop(**{figure: days})]).encode()
    found = [problem.code for problem in read_garden(data, "garden.yaml").problems]
    assert found == ([] if taken else ["out-of-range"])
