"""What is wanted: the days it may be wanted on, and the yields that are offered to be written."""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from sowtide.garden.read import read_garden

LIKE = ("speckled: {like: lettuce}", gardens.crop())


def problems(want: str, *, units: str = "metric") -> list[tuple[str, str | None]]:
    """Return the codes and hints of what is wrong with a want."""
    wave = gardens.wave("bush bean", start="06-01", plants="4")
    file = gardens.text(wave, crops=LIKE).replace("units: metric", f"units: {units}")
    found = read_garden(f"{file}want:\n  - {{{want}}}\n".encode(), "garden.yaml")
    return [(each.code, each.hint) for each in found.problems]


@pytest.mark.parametrize(
    ("days", "code"),
    [
        ("in: 2025-W31", "want-year"),
        ("from: 2025-06-01, until: 2025-12-31", "want-year"),
        ("from: 2025-12-01, until: 2026-01-01", None),  # one day of the season
        ("in: 2027-W26", None),  # planted in autumn, picked in the summer after
        ("from: 2027-12-31", None),
        ("from: 2028-01-01", "want-year"),
        ("in: 2028-W10", "want-year"),
    ],
)
def test_a_want_lies_in_the_season_that_is_planned_or_in_the_next(
    days: str, code: str | None
) -> None:
    found = problems(f"crop: bush bean, amount: 1 kg, {days}")
    assert [each for each, _ in found] == ([] if code is None else [code])
    if code and "2028" in days:
        assert "season: 2028" in (found[0][1] or "")


@pytest.mark.parametrize(
    ("want", "units", "offered"),
    [
        ("crop: lettuce, amount: 4 heads", "us", "1 head"),
        ("crop: speckled, amount: 4", "us", "1 piece"),  # a plant picked for its leaves is one
        ("crop: cucumber, amount: 4", "us", "2-4 pieces"),
        ("crop: bush bean, amount: 2 bunches", "us", "2-4 bunches"),
        # Five to twenty bunches from ten feet of row; 3 in apart a plant has a fortieth of that,
        # and half of it in rows 3 in apart instead of 12. A bunch is taken as half a pound:
        # 5 / 80 / 2 = 0.031 and 20 / 80 / 2 = 0.125 lb, 14 and 57 g.
        ("crop: radish, amount: 2 lb", "us", "0.03-0.12 lb"),
        ("crop: radish, amount: 2 kg", "metric", "0.01-0.06 kg"),
        ("crop: fruit, amount: 1 lb", "us", "0.5-1 lb"),
        ("crop: fruit, amount: 1 kg", "metric", "0.2-0.5 kg"),
    ],
)
def test_the_yield_that_is_offered_is_of_the_kind_and_size_of_the_crop(
    want: str, units: str, offered: str
) -> None:
    ((code, hint),) = problems(want, units=units)
    assert code == "want-unit"
    assert f"{{yield_per_plant: {offered}}}" in (hint or "")


@pytest.mark.parametrize(
    ("want", "amount", "every", "first", "last"),
    [
        ("amount: 1.5 kg", 1.5, 7, None, None),
        ("amount: 1.5 kg, every: day", 1.5, 1, None, None),
        ("amount: 300 g, every: 10", 0.3, 10, None, None),
        ("amount: 300 g, per: person", 0.9, 7, None, None),  # of three
        # 2026-W20 begins on Monday 11 May, 2026-W35 ends on Sunday 30 August.
        ("amount: 1 kg, from: W20, until: W35", 1, 7, date(2026, 5, 11), date(2026, 8, 30)),
        ("amount: 1 kg, from: 07-01, until: 07-01", 1, 7, date(2026, 7, 1), date(2026, 7, 1)),
        ("amount: 1 kg, from: 07-01", 1, 7, date(2026, 7, 1), None),
        ("amount: 1 kg, until: 07-01", 1, 7, None, date(2026, 7, 1)),
        ("amount: 1 kg, in: W31", 1, None, date(2026, 7, 27), date(2026, 8, 2)),
        (
            *("amount: 1 kg, in: 07-01..08-20", 1, None),
            *(date(2026, 7, 1), date(2026, 8, 20)),
        ),
    ],
)
def test_what_is_wanted_and_when(
    want: str, amount: float, every: int | None, first: date | None, last: date | None
) -> None:
    file = gardens.text(gardens.wave("bush bean", start="06-01", plants="4"), people="3")
    found = read_garden(f"{file}want:\n  - {{crop: bush bean, {want}}}\n".encode(), "garden.yaml")
    assert found.garden is not None, found.problems
    (read,) = found.garden.wants
    assert (read.amount, read.every, read.first, read.last) == (
        pytest.approx(amount),
        every,
        first,
        last,
    )


@pytest.mark.parametrize(
    ("days", "column"),
    [
        ("in: 2025-W31", "in"),
        ("in: 2028-W10", "in"),
        ("from: 2025-06-01, until: 2025-12-31", "until"),
        ("from: 2028-01-01, until: 2028-02-01", "from"),
    ],
)
def test_the_day_of_another_year_is_marked(days: str, column: str) -> None:
    file = gardens.text(gardens.wave("bush bean", start="06-01", plants="4"))
    line = f"  - {{crop: bush bean, amount: 1 kg, {days}}}"
    (problem,) = read_garden(f"{file}want:\n{line}\n".encode(), "garden.yaml").problems
    assert problem.span is not None
    assert problem.span.column == line.index(f"{column}: ") + len(column) + 3
