"""The page of frost odds: its table, its picture of the years, and what it says of them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

import gardens
from printed import frost_text
from printed import page as printed_page
from sowtide.climate.frost.thresholds import frost_table
from sowtide.report import REPORTS
from sowtide.report.blocks import Mark, Tracks
from sowtide.report.frost import view
from sowtide.season import Place, load, place_of, season_of

FREEZES = {
    2011: ((4, 10), (10, 20)),
    2012: ((4, 20), (10, 10)),
    2013: ((5, 1), (10, 30)),
    2014: ((3, 11), (11, 9)),
}
"""Last and first frosts of the years."""


def recorded(tmp_path: Path, *, missing: tuple[date, ...] = (), **site: str) -> Place:
    """A place at 5 °C by night and 15 by day, and at -1 on the two frosty nights of each year."""
    frosty = {date(year, *month_day) for year, both in FREEZES.items() for month_day in both} | {
        date(2010, 12, 1),
        date(2015, 2, 1),
    }
    lines = ["date,tmin (°C),tmax (°C)"]
    day = date(2010, 7, 1)
    while day < date(2015, 7, 1):
        low = "" if day in missing else "-1" if day in frosty else "5"
        lines.append(f"{day},{low},15")
        day += timedelta(days=1)
    (tmp_path / "station.csv").write_text("\n".join(lines), encoding="utf-8")
    frost = "{record: station.csv, years: 2011-2014}"
    (tmp_path / "garden.yaml").write_text(gardens.text(frost=frost, **site), encoding="utf-8")
    loaded = load(tmp_path / "garden.yaml")
    assert loaded.garden is not None, loaded.problems
    return place_of(loaded.garden, gardens.EARLY, loaded.record)


def page(season: Place, width: int = 80) -> list[str]:
    return list(frost_text(season, width=width))


def test_two_average_dates_give_dates_a_normal_curve_apart() -> None:
    """Spread 11 days: 10 and 90 % lie 1.2816 × 11 = 14.1 days from the average."""
    lines = page(
        place_of(gardens.read(gardens.text(frost="{last: 05-10, first: 10-01}")), gardens.EARLY)
    )
    assert "   0 °C 24 May 10 May 26 Apr 17 Sep  1 Oct 15 Oct     –   144     –" in lines
    # 2.2 °C is 4 °F warmer: 3 days for each. 22 May, 14 days to each side; 19 September.
    assert " 2.2 °C  5 Jun 22 May  8 May  5 Sep 19 Sep  3 Oct     –   120     –" in lines


def test_a_place_of_two_average_dates_has_a_picture_of_its_odds() -> None:
    """The days of 0 °C of the test above: 90, 50 and 10 of 100 years in spring, then in autumn."""
    place = place_of(gardens.read(gardens.text(frost=gardens.FROST)), gardens.EARLY)
    (drawn,) = (each for each in REPORTS["frost"].page(view(place)) if isinstance(each, Tracks))
    track = next(each for each in drawn.tracks if each.label == "0 °C")
    april, may, autumn = date(2026, 4, 26), date(2026, 5, 10), date(2026, 9, 17)
    assert sorted(track.marks, key=lambda mark: mark.first) == [
        Mark("#", date(2026, 1, 1), april),
        Mark("=", april, may),
        Mark(":", may, date(2026, 5, 24)),
        Mark(":", autumn, date(2026, 10, 1)),
        Mark("=", date(2026, 10, 1), date(2026, 10, 15)),
        Mark("#", date(2026, 10, 15), date(2027, 1, 2)),
    ]
    assert {mark.sign for each in drawn.tracks for mark in each.marks} == set(dict(drawn.key))


def test_a_place_without_frost_has_no_dates() -> None:
    lines = page(place_of(gardens.read(gardens.text(frost="none")), gardens.EARLY))
    assert "average days" not in " ".join(lines)
    assert "No frost comes here." in lines
    assert not any("last frost later in" in line for line in lines)


def test_a_record_gives_quantiles_of_its_years(tmp_path: Path) -> None:
    """Numpy's default quantiles of the four years, by hand.

    Last frosts, days after 1 March: 10, 40, 50, 61. 50 %: 45, 15 April. 10 % have one later than
    the 90 % quantile, 50 + 0.7 × 11 = 57.7: 28 April. 90 %: 10 + 0.3 × 30 = 19: 20 March.
    First frosts: 10, 20 and 30 October, 9 November. 50 %: 25 October; 10 % earlier: 13 October;
    90 %: 30 October + 0.7 × 10 = 6 November.
    Season: 193, 173, 182 and 243 days. 50 %: 187.5, halves up.
    """
    lines = page(recorded(tmp_path))
    assert "   0 °C 28 Apr 15 Apr 20 Mar 13 Oct 25 Oct  6 Nov   176   188   228" in lines
    # -1 °C is no frost of -2.2.
    assert "-2.2 °C      –      –      –      –      –      –     –     –     –" in lines
    (row,) = [row for row in frost_table(recorded(tmp_path).climate.frosts) if row.at == 0.0]
    assert row.without == (0.0, 0.0)


def test_each_year_is_a_line_from_its_last_frost_to_its_first(tmp_path: Path) -> None:
    """72 cells for 366 days: 10 April is the 99th day after 1 January, cell 19; 20 October 57."""
    lines = page(recorded(tmp_path), width=78)
    (drawn,) = [text for text in lines if text.startswith("2011")]
    assert drawn == "2011  " + "-" * 19 + "|" + " " * 37 + "|" + "-" * 14
    months = lines[lines.index(next(t for t in lines if t.startswith("YEAR BY YEAR"))) + 1]
    assert months.split() == [
        *("Jan", "Feb", "Mar", "Apr", "May", "Jun"),
        *("Jul", "Aug", "Sep", "Oct", "Nov", "Dec"),
    ]


def test_half_years_left_out_are_named_with_the_reason(tmp_path: Path) -> None:
    season = recorded(tmp_path, missing=(date(2012, 9, 30),))
    text = " ".join(page(season))
    assert "4 springs used." in text
    assert "3 autumns used; left out, since a missing day could hide the frost: 2012 (no" in text
    (drawn,) = [text for text in page(season, width=78) if text.startswith("2012")]
    assert drawn.endswith("?" * 20)


@pytest.mark.parametrize(
    ("number", "told"), [(6, "2005 (gap)."), (7, "2005 (gap), 1 more."), (9, "2005 (gap), 3 more.")]
)
def test_of_many_half_years_left_out_six_are_named_and_the_rest_counted(
    tmp_path: Path, number: int, told: str
) -> None:
    place = recorded(tmp_path, missing=(date(2012, 9, 30),))
    of = view(place)
    (one,) = of.years_left_out or ()
    many = tuple(replace(one, season=2000 + n, reason="gap") for n in range(number))
    text = " ".join(printed_page(REPORTS["frost"], replace(of, years_left_out=many)))
    assert told in " ".join(text.split())


def test_few_years_are_said_to_be_rough_and_the_garden_to_be_colder(tmp_path: Path) -> None:
    text = " ".join(page(recorded(tmp_path, colder_by="2")))
    assert "4 years stand for all: odds from so few are rough" in text
    assert "what the garden or a bed is colder, and what a cover buys, is not in them" in text
    assert "From station.csv, read in °C, by the header. Its years 2011 to 2014 are wanted." in text


@pytest.mark.parametrize("width", [60, 78, 80, 120])
def test_it_keeps_to_its_width(tmp_path: Path, width: int) -> None:
    assert max(map(len, page(recorded(tmp_path), width=width))) <= width


@pytest.mark.parametrize(
    ("latitude", "said"),
    [
        # 45° N: astral at -0.833° for 2023 gives 5 November to 5 February.
        (45, "until 5 Feb and from 5 Nov on"),
        (10, "No day is shorter than 10 hours"),
    ],
)
def test_days_under_ten_hours_are_named(latitude: float, said: str) -> None:
    assert said in " ".join(
        page(place_of(gardens.read(gardens.text(latitude=latitude)), gardens.EARLY))
    )


HIGHS = "[3, 5, 10, 16, 22, 28, 32, 31, 25, 18, 11, 5]"
LOWS = "[-7, -5, 0, 6, 12, 18, 22, 21, 15, 8, 1, -5]"
NORMALS = f"{{max: {HIGHS}, min: {LOWS}}}"


@pytest.mark.parametrize(
    ("frost", "site", "said"),
    [
        ("{last: 05-10, first: 10-01}", {}, None),
        (
            "{last: 05-10, first: 10-01}",
            {"warmest_month": "27", "coldest_month": "-2"},
            "By the warmest and coldest month: ",
        ),
        (f"{{last: 05-10, first: 10-01, normals: {NORMALS}}}", {}, "By the normals: "),
        (
            f"{{last: 05-10, first: 10-01, normals: {NORMALS}}}",
            {"too_hot": "07-01..08-20"},
            "As you wrote them: ",
        ),
    ],
    ids=["no temperatures", "two months", "normals", "stated"],
)
def test_hot_weeks_say_what_tells_of_them(
    frost: str, site: dict[str, str], said: str | None
) -> None:
    lines = page(place_of(gardens.read(gardens.text(frost=frost, **site)), gardens.EARLY))
    begin = ("By the ", "As you wrote them: ")
    found = [line for line in lines if line.startswith(begin)]
    assert len(found) == (said is not None)
    assert not said or found[0].startswith(said)


def test_stated_dates_that_differ_from_the_record_are_noted(tmp_path: Path) -> None:
    recorded(tmp_path)
    file = gardens.text(frost="{record: station.csv, years: 2011-2014, last: 04-26, first: 10-25}")
    (tmp_path / "garden.yaml").write_text(file, encoding="utf-8")
    loaded = load(tmp_path / "garden.yaml")
    assert loaded.garden is not None
    found = season_of(loaded.garden, gardens.EARLY, loaded.record).problems
    assert [each.message for each in found if each.code == "frost-dates-differ"] == [
        "the last frost is stated for 26 Apr and in the record it comes on 15 Apr: the record is "
        "used"
    ]
