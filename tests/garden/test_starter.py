"""The file to start from, line by line."""

from __future__ import annotations

from datetime import date

import pytest

from sowtide.garden.starter import Start, Suited, season_ahead, starter_text
from sowtide.units import Units


@pytest.mark.parametrize(
    ("today", "south", "frost", "season"),
    [
        ("2026-10-20", False, "10-20", 2026),  # the day itself is not past
        ("2026-10-21", False, "10-20", 2027),
        ("2026-12-31", False, "10-20", 2027),
        ("2026-01-01", False, "10-20", 2026),
        ("2026-10-04", False, None, 2026),  # that of the invented place
        ("2026-10-05", False, None, 2027),
        ("2026-08-01", False, "07-01", 2026),  # a frost on midsummer's day is none of autumn
        ("2026-08-01", False, "07-02", 2027),
        ("2027-04-04", True, None, 2026),
        ("2027-04-05", True, None, 2027),
        ("2027-06-30", True, "05-01", 2027),
        ("2027-07-01", True, "05-01", 2027),
        ("2026-12-01", False, "01-05", 2026),  # frost after the new year: of the next year's spring
    ],
)
def test_past_its_first_frost_the_next_season_is_planned(
    today: str, south: bool, frost: str | None, season: int
) -> None:
    assert season_ahead(date.fromisoformat(today), south=south, first_frost=frost) == season


def said(start: Start, *without: str) -> list[str]:
    """Return the lines of a file that say something, without remarks behind them."""
    too_cold = (Suited(crop, too_cold=True) for crop in without)
    lines = starter_text(start, too_cold).splitlines()
    return [
        line.partition("   #")[0].rstrip() for line in lines if line.strip()[:1] not in ("", "#")
    ]


def test_of_nothing_that_is_said_an_invented_place_is_made() -> None:
    assert (
        said(Start(season=2026))
        == """\
site:
  name: My garden
  latitude: 43.0
  units: us
  frost: {last: 05-10, first: 10-04}
  warmest_month: 71
  coldest_month: 24
season: 2026
beds:
  - {bed: Front, size: 4 x 12}
  - {bed: Back, size: 4 x 12}
crops:
  bush bean: {days_to_harvest: 50-55, in_row: 4, between_rows: 12}
  lettuce: {in_row: 8, between_rows: 8}
  carrot: {in_row: 3, between_rows: 6}
waves:
  - {crop: bush bean, plants: 16, from: 05-31, every: 21, until: last safe, beds: [Back]}
  - {crop: lettuce, raised: trays, plants: 10, from: earliest, every: 14, count: 3, beds: [Front]}
  - {crop: carrot, plants: 40, from: earliest, every: 35, until: last safe, beds: [Back]}
  - {crop: summer squash, raised: trays, plants: 2, from: earliest, beds: [Front]}
""".splitlines()
    )


def test_a_place_of_ones_own_with_one_bed() -> None:
    start = Start(
        season=2026,
        units=Units.METRIC,
        latitude="-37.5",
        last_frost="10-15",
        first_frost="05-01",
        warmest_month="20",
        beds=1,
    )
    assert (
        said(start, "summer squash")
        == """\
site:
  name: My garden
  latitude: -37.5
  units: metric
  frost: {last: 10-15, first: 05-01}
  warmest_month: 20
season: 2026
beds:
  - {bed: Front, size: 1.2 x 3.6}
crops:
  bush bean: {days_to_harvest: 50-55, in_row: 10, between_rows: 30}
  lettuce: {in_row: 20, between_rows: 20}
  carrot: {in_row: 8, between_rows: 15}
waves:
  - {crop: bush bean, plants: 8, from: 11-05, every: 21, until: last safe, beds: [Front]}
  - {crop: lettuce, raised: trays, plants: 5, from: earliest, every: 14, count: 3, beds: [Front]}
  - {crop: carrot, plants: 20, from: earliest, every: 35, until: last safe, beds: [Front]}
""".splitlines()
    )
    text = starter_text(start, [Suited("summer squash", too_cold=True)])
    assert "  # coldest_month: -4.5" in text
    cold = text[text.index("  # Too cold here") :]
    assert cold.splitlines()[1] == (
        "  # - {crop: summer squash, raised: trays, plants: 1, from: earliest, beds: [Front]}"
    )


@pytest.mark.parametrize(
    ("suited", "expected"),
    [
        (Suited("carrot", start="05-20"), "from: 05-20, every: 35, until: last safe"),
        (Suited("carrot", until="06-24"), "from: earliest, every: 35, until: 06-24"),
        (Suited("lettuce", until="06-24", count=2), "from: earliest, every: 14, count: 2,"),
        (Suited("bush bean", start="earliest"), "from: earliest, every: 21, until: last safe"),
    ],
)
def test_a_series_begins_and_ends_where_its_place_suits_it(suited: Suited, expected: str) -> None:
    lines = starter_text(Start(season=2026), [suited]).splitlines()
    (at,) = [n for n, line in enumerate(lines) if line.startswith(f"  - {{crop: {suited.crop},")]
    assert expected in lines[at]
    assert lines[at - 1] == "  # Of earlier or later ones `sowtide check` would warn here:"


def test_a_crop_that_is_warned_of_whenever_it_is_sown_is_a_remark() -> None:
    lines = starter_text(Start(season=2026), [Suited("carrot", warned_of=True)]).splitlines()
    at = lines.index("  # `sowtide check` would warn of it here:")
    assert lines[at + 1].startswith("  # - {crop: carrot, plants: 40, from: earliest,")


def test_many_beds_are_numbered_and_a_place_without_frost_says_so() -> None:
    found = said(Start(season=2026, frost_free=True, latitude="5", beds=3))
    assert [line.strip() for line in found if "{bed:" in line] == [
        f"- {{bed: Bed {number}, size: 4 x 12}}" for number in (1, 2, 3)
    ]
    assert "  frost: none" in found
    assert sum("beds: [Bed 1]" in line for line in found) == 2
    assert sum("beds: [Bed 2]" in line for line in found) == 2
    assert any("crop: bush bean, plants: 16, from: earliest," in line for line in found)


@pytest.mark.parametrize(
    ("start", "invented"),
    [
        (Start(season=2026), True),
        (Start(season=2026, beds=9, warmest_month="70"), True),
        (Start(season=2026, latitude="43"), False),
        (Start(season=2026, last_frost="05-01"), False),
        (Start(season=2026, first_frost="10-01"), False),
        (Start(season=2026, frost_free=True), False),
    ],
)
def test_a_place_is_invented_until_anything_is_said_of_it(start: Start, invented: bool) -> None:
    assert start.is_invented == invented


def test_remarks_stand_in_one_column() -> None:
    lines = starter_text(Start(season=2026)).splitlines()
    behind = [
        line.index("   # ") + 3
        for line in lines
        if "   # " in line and line.partition(":")[0].strip() in ("latitude", "units", "frost")
    ]
    assert len(behind) == 3
    assert len({*behind}) == 1
