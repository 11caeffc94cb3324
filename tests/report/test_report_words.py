"""How days, odds, amounts and places are said."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

import factory
from sowtide.climate.basis import Basis, FrostFrom, Lacks, RecordUsed, WarmthFrom
from sowtide.days import GrowingYear
from sowtide.garden.site import Sure
from sowtide.report.blocks import Style
from sowtide.report.kit import words
from sowtide.report.kit.stands import bed_plants
from sowtide.schedule.only import Only
from sowtide.schedule.waves.wave import Stand, Verdict
from sowtide.units import Units, in_hundred, show_spacing, years_of_hundred

NORTH = GrowingYear(2026, south=False)
SOUTH = GrowingYear(2026, south=True)


def test_a_year_is_said_only_outside_the_growing_year() -> None:
    assert words.day(date(2026, 7, 16), NORTH) == "16 Jul"
    assert words.day(date(2027, 3, 2), NORTH) == "2 Mar 2027"
    assert words.day(date(2027, 3, 2), SOUTH) == "2 Mar"
    assert words.weekday(date(2026, 7, 16), NORTH) == "Thu 16 Jul"
    assert (words.season_name(NORTH), words.season_name(SOUTH)) == ("2026", "2026–27")


def test_a_run_of_days_names_a_month_once() -> None:
    sep = date(2026, 9, 9)
    assert words.days_from_to(sep, sep, NORTH) == "9 Sep"
    assert words.days_from_to(sep, date(2026, 9, 16), NORTH) == "9–16 Sep"
    assert words.days_from_to(date(2026, 8, 28), sep, NORTH) == "28 Aug – 9 Sep"
    assert words.days_from_to(sep, date(2027, 9, 16), NORTH) == "9 Sep – 16 Sep 2027"


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (0.0, "under 1"),
        (0.0049, "under 1"),
        (0.005, "1"),
        (0.285, "29"),  # 28.499… as a binary fraction: halves go up all the same
        (0.825, "83"),
        (0.9949, "99"),
        (0.995, "over 99"),
        (1.0, "over 99"),
    ],
)
def test_odds_of_a_curve_are_never_all_or_nothing(share: float, said: str) -> None:
    assert in_hundred(share) == said


def test_years_of_a_hundred_are_counted_properly() -> None:
    assert years_of_hundred(0.83) == "83 years of 100"
    assert years_of_hundred(0.01) == "1 year of 100"
    assert years_of_hundred(0.001) == "under 1 year of 100"
    assert years_of_hundred(0.999) == "over 99 years of 100"


def test_odds_that_were_not_estimated_may_be_all_or_nothing() -> None:
    never = factory.judged(end=None, margin=None, odds=1.0)
    assert words.odds_of(never) == "100 in 100"
    assert words.nothing_ends(never)
    assert words.share_of(never, 0.0) == "0"
    assert words.share_of(never, 0.997) == "over 99"
    assert not words.nothing_ends(factory.judged(odds=1.0))
    assert words.odds_of(factory.judged(odds=1.0)) == "over 99 in 100"


def test_odds_of_recorded_years_count_them() -> None:
    assert words.odds_of(factory.judged(odds=0.9, years=30)) == "27 of 30"
    assert words.odds_cell(factory.judged(odds=0.9, years=30)) == "27 of 30"
    assert words.odds(0.9, years=30) == "27 of 30"
    assert words.odds(0.9) == "90 in 100"
    assert words.odds_cell(factory.judged(odds=0.9)) == "90"
    assert words.odds_of(factory.judged(odds=1.0, years=30)) == "30 of 30"
    assert words.odds_of(factory.judged(odds=0.99, years=30)) == "over 29 of 30"
    assert words.odds_of(factory.judged(odds=0.01, years=30)) == "under 1 of 30"
    assert words.years_of(factory.judged(years=30), 1 / 30) == "1 year of 30"


def test_counts_and_amounts() -> None:
    assert words.count(1, "plant") == "1 plant"
    assert words.count(1200, "plant") == "1,200 plants"
    assert words.count(2, "tray of seedlings", many="trays of seedlings") == "2 trays of seedlings"
    assert words.count(17.55, "day") == "17.6 days"
    assert words.amount(80, "seeds") == "80 seeds"
    assert words.amount(1, "seeds") == "1 seed"
    assert words.amount(4.5, "ft") == "4.5 ft"


def test_a_split_wave_says_how_many_stand_where() -> None:
    both = (Stand(factory.LONG, 40), Stand(factory.WIDE, 20))
    assert words.stands(bed_plants(both)) == "Long 1 (40), Long 2 (20)"
    assert words.where(bed_plants(factory.wave().stands)) == "Long 1"
    assert words.where(()) == "no room"


def test_lists_and_sentences() -> None:
    assert words.listed(["a"]) == "a"
    assert words.listed(["a", "b", "c"]) == "a, b and c"
    assert words.listed(["a", "b"], last="or") == "a or b"
    assert words.sentence("no room.") == "No room."
    assert words.sentence("no room") == "No room."


def test_a_verdict_is_said_in_words_and_only_repeated_by_its_style() -> None:
    assert words.verdict(Verdict.SAFE) == ("safe", Style.GOOD)
    assert words.verdict(Verdict.TOO_LATE) == ("too late", Style.BAD)
    assert words.verdict(None) == ("winter", Style.DIM)


@pytest.mark.parametrize(
    ("length", "metric", "us"),
    [
        (101_600, "10 cm", "4 in"),  # 10.16 cm
        (75_000, "7.5 cm", "3 in"),  # 2.95 in
        (31_750, "3 cm", "1.25 in"),  # 3.175 cm
        (32_500, "3.5 cm", "1.25 in"),  # 3.25 cm: halves up
        (250_000, "25 cm", "9.75 in"),  # 9.84 in
        (1_000, "0.1 cm", "0.04 in"),  # never none at all
    ],
)
def test_spacings_are_rounded_to_what_a_ruler_shows(length: int, metric: str, us: str) -> None:
    assert (show_spacing(length, Units.METRIC), show_spacing(length, Units.US)) == (metric, us)


def test_the_year_of_a_run_of_days_is_said_once() -> None:
    first, last = date(2027, 3, 23), date(2027, 4, 2)
    assert words.days_from_to(first, last, NORTH) == "23 Mar – 2 Apr 2027"
    assert words.days_from_to(date(2026, 12, 28), last, NORTH) == "28 Dec – 2 Apr 2027"
    assert words.days_from_to(date(2025, 12, 28), last, NORTH) == "28 Dec 2025 – 2 Apr 2027"
    # South of the equator the year begins on 1 July, and ends on 30 June.
    before, within, after = date(2026, 6, 25), date(2026, 7, 3), date(2027, 7, 2)
    assert words.days_from_to(before, within, SOUTH) == "25 Jun 2026 – 3 Jul"
    assert words.days_from_to(date(2027, 6, 25), after, SOUTH) == "25 Jun – 2 Jul 2027"


def test_days_are_not_broken_apart() -> None:
    assert words.unbroken("12 plants, out on 1 Oct, May it be") == (
        "12 plants, out on 1\u00a0Oct, May it be"
    )
    assert words.unbroken("9\u00a0Sep, 12 May 2027; 3 Aug. 3 Marrows") == (
        "9\u00a0Sep, 12\u00a0May 2027; 3\u00a0Aug. 3 Marrows"
    )
    assert words.unbroken("") == ""


@pytest.mark.parametrize(
    ("names", "said"),
    [
        ("A1", "A1"),
        ("A1 A2", "A1, A2"),
        ("A1 A2 A3", "A1 to A3"),
        ("A1 A2 A4 A5 A6 B7", "A1, A2, A4 to A6, B7"),
        ("A8 A9 A10", "A8 to A10"),
        ("A08 A09 A10", "A08 to A10"),
        # Not one that is numbered on with as many digits, nor backwards, nor without a number.
        ("A08 A9 A10", "A08, A9, A10"),
        ("A3 A2 A1", "A3, A2, A1"),
        ("Long Short Frame", "Long, Short, Frame"),
        ("1 2 3", "1 to 3"),
    ],
)
def test_beds_that_are_numbered_on_are_named_by_the_first_and_the_last(
    names: str, said: str
) -> None:
    assert ", ".join(words.runs_of_beds(names.split())) == said


RECORD = RecordUsed(
    file="hills.csv",
    station=None,
    unit="°C",
    first_year=1991,
    last_year=2020,
    unit_from="the header",
    years_there=30,
    lacks=Lacks(days=1, missing=0, gap_from=None, gap_to=None, doubted=0, impossible=0),
)
AVERAGES = Basis(FrostFrom.AVERAGES, WarmthFrom.NORMALS, (), None, None)


def rests(used: int, first: int, last: int) -> Basis:
    """Return odds of some years of a record."""
    record = RecordUsed(
        **{name: getattr(RECORD, name) for name in RECORD.__slots__}
        | {"first_year": first, "last_year": last}
    )
    return Basis(FrostFrom.RECORD, WarmthFrom.RECORD, ("a spread",), used, record)


@pytest.mark.parametrize(
    ("basis", "long", "short"),
    [
        (
            rests(30, 1991, 2020),  # from 1991 to 2020 there are thirty
            "Rests on hills.csv (30 years used, 1991–2020) and its recorded temperatures. "
            "Assumed: a spread. Odds, not promises.",
            "Rests on hills.csv, 30 years used, 1991–2020. Odds, not promises. "
            "Assumed: `sowtide frost`.",
        ),
        (
            rests(29, 1991, 2020),
            "Rests on hills.csv (29 years used, of 1991–2020) and its recorded temperatures. "
            "Assumed: a spread. Odds, not promises.",
            "Rests on hills.csv, 29 years used, of 1991–2020. Odds, not promises. "
            "Assumed: `sowtide frost`.",
        ),
        (
            rests(1, 2020, 2020),
            "Rests on hills.csv (1 year used, 2020) and its recorded temperatures. "
            "Assumed: a spread. Odds, not promises.",
            "Rests on hills.csv, 1 year used, 2020. Odds, not promises. Assumed: `sowtide frost`.",
        ),
        (
            AVERAGES,
            "Rests on two average frost dates and twelve monthly normals. Odds, not promises.",
            "Rests on two average frost dates and twelve monthly normals. Odds, not promises. "
            "Assumed: `sowtide frost`.",
        ),
        (
            Basis(FrostFrom.NONE, WarmthFrom.NONE, ("this", "that"), None, None),
            "Rests on a place without frost; no temperatures are known: `warmest_month` and "
            "`coldest_month` would tell what gets ripe. Assumed: this; that. Odds, not promises.",
            "Rests on a place without frost and no temperatures. Odds, not promises. "
            "Assumed: `sowtide frost`.",
        ),
    ],
)
def test_what_odds_rest_on_is_said_in_full_and_shortly(basis: Basis, long: str, short: str) -> None:
    assert words.rests_on(basis) == long
    assert words.rests_shortly(basis) == short
    assert words.counts_years(basis) is (basis.record is not None)


@pytest.mark.parametrize(
    ("sure", "said"),
    [
        (Sure(0.8, None), "safe means in 80 years of 100 or more"),
        (Sure(None, 0), "safe means worth it before the average frost"),
        (Sure(None, 1), "safe means worth it 1 day or more before the average frost"),
        (Sure(None, 14), "safe means worth it 14 days or more before the average frost"),
    ],
)
def test_what_safe_means_is_said(sure: Sure, said: str) -> None:
    assert words.safe_means(sure) == said
    assert words.how_sure(sure, AVERAGES).startswith(f"S{said[1:]}. Rests on two")


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"verdict": Verdict.SAFE}, None),
        ({"verdict": Verdict.SAFE_FROM_FROST}, None),
        ({"verdict": None}, None),
        ({"verdict": Verdict.CHANCY}, ("chancy, 83 in 100", Style.WARN)),
        ({"verdict": Verdict.CHANCY, "odds": None}, ("chancy", Style.WARN)),
        ({"verdict": Verdict.TOO_EARLY}, ("too early", Style.WARN)),
        ({"verdict": Verdict.TOO_LATE}, ("too late", Style.BAD)),
    ],
)
def test_only_what_is_not_safe_is_marked(changes: dict[str, Any], said: object) -> None:
    assert words.mark(factory.judged(**changes)) == said


def test_odds_in_a_table() -> None:
    assert words.odds_cell(factory.judged(odds=None)) == ""
    assert words.short_odds("over 99 in 100") == ">99 in 100"
    assert words.short_odds("under 1") == "<1"
    assert words.years_of(factory.judged(), 0.5) == "50 years of 100"
    # What nothing ends is no estimate; what a frost may end is one, with or without days to spare.
    for end, margin, said in ((None, None, "100"), (None, 3, "over 99")):
        assert words.share_of(factory.judged(end=end, margin=margin), 1.0) == said
    for odds, margin, is_sure in ((1.0, None, True), (0.999, None, False), (1.0, 0, False)):
        judged = factory.judged(end=None, margin=margin, odds=odds)
        assert words.nothing_ends(judged) is is_sure


def test_another_year_is_planned_or_the_season_lies_ahead() -> None:
    ahead = GrowingYear(2027, south=False)
    assert (
        words.plans_another(ahead, date(2026, 7, 2)) == "and the file plans 2027, the season ahead"
    )
    for day, other in ((date(2026, 7, 1), 2026), (date(2028, 1, 1), 2028)):
        assert words.plans_another(ahead, day) == (
            f"but the file plans 2027: write `season: {other}` to plan that year"
        )
    assert words.season_name(GrowingYear(2099, south=True)) == "2099–00"


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (None, "less than a day"),
        (0.49, "less than a day"),
        (0.5, "1 day"),
        (1.49, "1 day"),
        (1.5, "2 days"),
    ],
)
def test_a_mean_of_picking_days_is_said_in_whole_days(days: float | None, said: str) -> None:
    assert words.mean_days(days) == said


@pytest.mark.parametrize(
    ("waves", "said"),
    [
        ("", ""),
        ("pea-1", "pea-1"),
        ("pea-1 pea-2 kale-1 pea-3 kale-2", "pea-1, -2, kale-1, pea-3, kale-2"),
        ("summer-squash-9 summer-squash-10", "summer-squash-9, -10"),
    ],
)
def test_a_series_is_named_once_in_a_row(waves: str, said: str) -> None:
    assert words.named_shortly(waves.split()) == said


def test_a_part_of_the_garden_is_said_by_its_crops_and_beds() -> None:
    assert words.only(Only(("Long 1", "Gate"), None)) == "Only Long\N{NO-BREAK SPACE}1 and Gate."
    assert words.only(Only(None, ("bush bean",))) == "Only bush\N{NO-BREAK SPACE}bean."
    assert words.only(Only(("Gate",), ("pea", "kale"))) == "Only pea and kale in Gate."
    assert words.also("late", ()) == "late"
    assert words.also("late", ("pea-2", "pea-3")) == "late; also pea-2; pea-3"
    assert words.listed([]) == ""
    assert words.sentence("") == ""
    for end in ".!?:":
        assert words.sentence(f"so{end}") == f"So{end}"


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [
        (1, "seed tubers", "1 seed tuber"),
        (1, "ft", "1 ft"),
        (1, "glass", "1 glass"),
        (1200, "plants", "1,200 plants"),
        (0.5, "plants", "0.5 plants"),
    ],
)
def test_one_of_what_is_counted_is_said_as_one(value: float, unit: str, said: str) -> None:
    assert words.amount(value, unit) == said
