"""What the page of frost says of a record, of its years and of the heat, sentence by sentence."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

import gardens
from printed import page as printed_page
from sowtide.climate.basis import Lacks, RecordUsed
from sowtide.days import Half
from sowtide.garden.site import YearsWanted
from sowtide.report import REPORTS
from sowtide.report.blocks import Mark, Text, Tracks
from sowtide.report.frost import view
from sowtide.report.frost.view import (
    DaysOf,
    FrostView,
    HalfLeftOut,
    HalvesUsed,
    HotWeeks,
    LengthsOf,
    TrendSeen,
    Without,
    YearSeen,
)
from sowtide.report.kinds import FromTo
from sowtide.season import place_of

LACKS = Lacks(days=365, missing=0, gap_from=None, gap_to=None, doubted=0, impossible=0)
USED = RecordUsed(
    file="hills.csv",
    station=None,
    unit="°C",
    first_year=2011,
    last_year=2012,
    unit_from="the header",
    years_there=2,
    lacks=LACKS,
)
YEARS = tuple(
    YearSeen(
        season=season,
        last_frost=date(season, 5, 1),
        first_frost=date(season, 10, 10),
        spring_known=True,
        autumn_known=True,
    )
    for season in (2011, 2012)
)


def frosts(used: RecordUsed = USED, **changes: Any) -> FrostView:
    """Return what is said of a place with a record of two years."""
    made = view(place_of(gardens.read(gardens.text()), gardens.EARLY))
    recorded: dict[str, Any] = {
        "basis": replace(made.basis, record=used, years_used=2),
        "years": YEARS,
        "years_left_out": (),
        "halves": (HalvesUsed(Half.SPRING, 2, 0), HalvesUsed(Half.AUTUMN, 2, 0)),
        "wanted": YearsWanted(last=30),
    }
    return replace(made, **(recorded | changes))


def said(of: FrostView) -> str:
    return " ".join(" ".join(printed_page(REPORTS["frost"], of, 100)).split())


@pytest.mark.parametrize(
    ("used", "wanted", "sentence"),
    [
        (
            {},
            {"last": 30},
            "From hills.csv, read in °C, by the header. All of its 2 years are used.",
        ),
        ({}, {"last": 2}, "by the header. All of its 2 years are used."),
        ({}, {}, "by the header. All of its 2 years are used."),
        (
            {"years_there": 3},
            {"last": 2},
            "The newest 2 of its 3 years are used: `years: all` takes them all.",
        ),
        ({}, {"first": 2011, "to": 2014}, "by the header. Its years 2011 to 2014 are wanted."),
        ({"station": "XX1"}, {}, "From hills.csv, station XX1, read in °C, by the header."),
        ({"unit_from": "given"}, {}, "read in °C, as the file of the garden states."),
    ],
)
def test_where_the_years_are_from_and_which_are_used(
    used: dict[str, Any], wanted: dict[str, int], sentence: str
) -> None:
    assert sentence in said(frosts(replace(USED, **used), wanted=YearsWanted(**wanted)))


MARCH = date(2011, 3, 4)


@pytest.mark.parametrize(
    ("lacks", "sentence"),
    [
        ({}, "None of its 365 days lacks a minimum."),
        (
            {"days": 1461, "missing": 1, "gap_from": MARCH, "gap_to": MARCH},
            "1 of its 1,461 days has no minimum. 2 springs",
        ),
        (
            {"missing": 2, "gap_from": MARCH, "gap_to": MARCH + timedelta(days=1)},
            "2 of its 365 days have no minimum, the longest run 4 Mar 2011 to 5 Mar 2011. ",
        ),
        (
            {"missing": 1, "doubted": 1},
            "has no minimum. Left out: 1 reading that the archive itself doubts. 2 springs",
        ),
        (
            {"missing": 5, "doubted": 2, "impossible": 3},
            "Left out: 2 readings that the archive itself doubts and 3 days that cannot be so.",
        ),
        ({"missing": 5, "impossible": 1}, "Left out: 1 day that cannot be so."),
    ],
)
def test_what_the_record_lacks(lacks: dict[str, Any], sentence: str) -> None:
    assert sentence in said(frosts(replace(USED, lacks=replace(LACKS, **lacks))))


def test_half_years_are_told_of_their_own_half() -> None:
    halves = (HalvesUsed(Half.SPRING, 12, 1), HalvesUsed(Half.AUTUMN, 11, 0))
    left_out = (
        HalfLeftOut(2003, Half.AUTUMN, "no minimum on 4 Oct"),
        HalfLeftOut(2005, Half.AUTUMN, "gap"),
    )
    text = said(frosts(halves=halves, years_left_out=left_out))
    assert (
        "12 springs used, 1 of them without such a frost. 11 autumns used; left out, since" in text
    )
    assert "could hide the frost: 2003 (no minimum on 4 Oct), 2005 (gap). " in text
    assert "11 autumns used. " in said(frosts(halves=halves, years_left_out=()))


@pytest.mark.parametrize(
    ("half", "days", "sentence"),
    [
        (Half.SPRING, -2.34, "Trend: the last frost comes 2.3 days earlier each decade, more than"),
        (Half.AUTUMN, 1.5, "Trend: the first frost comes 1.5 days later each decade, more than"),
    ],
)
def test_a_trend_says_which_frost_moves_and_which_way(
    half: Half, days: float, sentence: str
) -> None:
    text = said(frosts(trends=(TrendSeen(half, days, 44),)))
    assert sentence in text
    assert "would bring in 44 years" in text


def tracks(of: FrostView) -> Tracks:
    (drawn,) = (each for each in REPORTS["frost"].page(of) if isinstance(each, Tracks))
    return drawn


def seen(season: int, **changes: Any) -> YearSeen:
    return replace(YEARS[0], season=season, last_frost=None, first_frost=None, **changes)


JANUARY, JULY, BEYOND = date(2011, 1, 1), date(2011, 7, 1), date(2012, 1, 2)


@pytest.mark.parametrize(
    ("year", "marks"),
    [
        (
            YEARS[0],
            {
                Mark("-", JANUARY, date(2011, 5, 1)),
                Mark("|", date(2011, 5, 1)),
                Mark("-", date(2011, 10, 10), BEYOND),
                Mark("|", date(2011, 10, 10)),
            },
        ),
        (seen(2011), set()),  # a year without a frost
        (seen(2011, spring_known=False), {Mark("?", JANUARY, JULY)}),
        (seen(2011, autumn_known=False), {Mark("?", JULY, BEYOND)}),
        (
            replace(seen(2011), last_frost=date(2011, 1, 1), first_frost=date(2011, 12, 31)),
            {
                Mark("-", JANUARY, JANUARY),
                Mark("|", JANUARY),
                Mark("-", date(2011, 12, 31), BEYOND),
                Mark("|", date(2011, 12, 31)),
            },
        ),
        # The first frost came only in the new year, the last one was before the old one ended.
        (replace(seen(2011), last_frost=date(2010, 12, 31), first_frost=date(2012, 1, 1)), set()),
    ],
)
def test_a_year_is_drawn_from_its_last_frost_to_its_first(year: YearSeen, marks: set[Mark]) -> None:
    (track,) = tracks(frosts(years=(year,))).tracks
    assert (track.label, track.start, set(track.marks)) == ("2011", JANUARY, marks)


@pytest.mark.parametrize(("number", "more"), [(30, None), (31, 1), (44, 14)])
def test_the_latest_thirty_years_are_drawn(number: int, more: int | None) -> None:
    of = frosts(years=tuple(seen(1980 + n) for n in range(number)))
    drawn = tracks(of)
    assert [each.label for each in drawn.tracks] == [
        str(1980 + n) for n in range(number - 30, number)
    ]
    assert drawn.head == date(1980 + number - 1, 1, 1)
    told = [each.words for each in REPORTS["frost"].page(of) if isinstance(each, Text)]
    counted = [each for each in told if str(each).startswith("and ")]
    assert counted == ([f"and {more} earlier years"] if more else [])
    assert "no year is complete enough" in said(frosts(years=()))


def test_odds_through_the_year_begin_and_end_with_what_is_likely() -> None:
    bare = view(place_of(gardens.read(gardens.text()), gardens.EARLY))
    (at, *_) = bare.thresholds
    first, beyond = date(2026, 1, 1), date(2027, 1, 2)

    def marks(spring: DaysOf, autumn: DaysOf) -> list[Mark]:
        of = replace(bare, thresholds=(replace(at, spring=spring, autumn=autumn),))
        return sorted(tracks(of).tracks[0].marks, key=lambda each: each.first)

    may, nowhere = date(2026, 5, 8), DaysOf(None, None, None)
    assert marks(DaysOf(may, None, None), nowhere) == [Mark(":", first, may)]
    assert marks(DaysOf(may, first, None), nowhere) == [Mark(":", first, may)]
    assert marks(DaysOf(may, may, None), nowhere) == [Mark("=", first, may)]
    assert marks(nowhere, DaysOf(None, None, may)) == [Mark("#", may, beyond)]
    assert marks(nowhere, DaysOf(may, beyond, None)) == [Mark(":", may, beyond)]


def test_days_that_nobody_knows_are_dashes_in_the_table() -> None:
    of = frosts()
    varies = "The 50 is the time between the two average days; how it varies is not known."
    assert varies not in said(of)
    assert varies in said(replace(of, years=None))
    row = replace(
        of.thresholds[0],
        at_c=-4.44,
        spring=DaysOf(date(2026, 5, 24), None, date(2025, 12, 30)),
        autumn=DaysOf(None, date(2027, 1, 3), None),
        frost_free_days=LengthsOf(None, 150, 190),
    )
    lines = printed_page(REPORTS["frost"], replace(of, thresholds=(row,)), 100)
    assert "-4.4 °C 24 May      – 30 Dec      –  3 Jan      –     –   150   190" in lines


HOT = HotWeeks(
    begin=DaysOf(date(2026, 5, 24), date(2026, 6, 4), None),
    over=DaysOf(None, None, None),
    years_with=3,
    years_used=4,
)
SPAN = FromTo(from_=date(2026, 7, 1), to=date(2026, 8, 20))


@pytest.mark.parametrize(
    ("hot", "span", "stated", "sentence", "missing"),
    [
        (None, None, False, "", "HOT WEEKS"),
        (
            HOT,
            None,
            False,
            "In 3 of 4 years. They begin before 24 May in 10 years of 100, 4 Jun in 50; they last "
            "beyond no day in 10 years of 100.",
            "None in",
        ),
        (replace(HOT, years_with=0), None, False, "crops. None in 4 years.", "By the"),
        (replace(HOT, years_with=0, years_used=1), None, False, "None in 1 year.", "By the"),
        (HOT, SPAN, False, "In 3 of 4 years.", "By the normals"),
        (HOT, SPAN, True, "As you wrote them: 1 Jul – 20 Aug.", "By the normals"),
        (None, SPAN, False, "By the normals: 1 Jul – 20 Aug.", "As you wrote them"),
    ],
)
def test_hot_weeks_are_told_as_far_as_anybody_knows(
    hot: HotWeeks | None, span: FromTo | None, stated: bool, sentence: str, missing: str
) -> None:
    text = said(frosts(hot_weeks=hot, hot_span=span, hot_span_stated=stated))
    assert sentence in text
    assert missing not in text
    assert ("HOT WEEKS: 15 days with a mean over" in text) is (hot is not None or span is not None)


def test_a_row_for_a_spreadsheet_is_rounded_as_it_is_read() -> None:
    report, of = REPORTS["frost"], frosts()
    assert report.rows is not None
    shares = replace(of.thresholds[0], years_without_frost=Without(spring=1 / 3, autumn=2 / 3))
    (row,) = report.rows.of(replace(of, thresholds=(replace(shares, at_c=-20 / 9),)))
    assert row["at_c"] == -2.2
    assert row["years_without_frost_spring"] == 0.333
    assert row["years_without_frost_autumn"] == 0.667
