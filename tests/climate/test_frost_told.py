"""How a frost date is told: from which dates, in how many years, and at which temperature."""

from __future__ import annotations

import pytest

import gardens
from sowtide.climate.frost.thresholds import frost_table
from sowtide.days import Half
from sowtide.garden.crop import Hardiness

TABLE = "{last: {20%: 05-20, 50%: 05-10}, first: {20%: 09-20, 50%: 10-01}}"
COLDER = "[{at: 0, last: 05-10, first: 10-01}, {at: -2.2, last: 04-25, first: 10-15}]"


def steps(half: Half, *, at: float = 0.0, share: float = 0.5, frost: str = TABLE) -> list[str]:
    found = gardens.season(gardens.text(frost=frost)).climate.frosts.day(half, at=at, share=share)
    assert found is not None
    return [step.text for step in found.steps]


@pytest.mark.parametrize(
    ("half", "share", "said"),
    [
        (Half.SPRING, 0.5, "last frost (32 °F, 0.0 °C) in half of the years"),
        (Half.AUTUMN, 0.5, "first frost (32 °F, 0.0 °C) in half of the years"),
        (Half.SPRING, 0.2, "last frost (32 °F, 0.0 °C), later in 20 of 100 years"),
        (Half.AUTUMN, 0.2, "first frost (32 °F, 0.0 °C), earlier in 20 of 100 years"),
    ],
)
def test_a_date_says_of_which_frost_it_is(half: Half, share: float, said: str) -> None:
    assert steps(half, share=share) == [said]


def test_a_date_at_another_temperature_says_how_it_was_found() -> None:
    assert steps(Half.AUTUMN, at=-2.2)[1:] == [
        "28 °F, -2.2 °C instead: 3 days for each °F, assumed"
    ]
    assert steps(Half.SPRING, at=1.0)[1:] == ["34 °F, 1.0 °C instead: 3 days for each °F, assumed"]


def test_between_two_temperatures_given_it_is_read_between_them() -> None:
    assert steps(Half.AUTUMN, at=-1.1, frost=COLDER)[1:] == [
        "30 °F, -1.1 °C instead: read between the temperatures given"
    ]
    for at in (1.0, -4.4):
        (said,) = steps(Half.SPRING, at=at, frost=COLDER)[1:]
        assert said.endswith("3 days for each °F, assumed")


def test_without_frost_the_table_has_no_days() -> None:
    on = gardens.season(gardens.text(frost="none"))
    rows = frost_table(on.climate.frosts)
    assert [row.hardiness for row in rows] == list(Hardiness)
    for row in rows:
        assert (row.spring, row.autumn) == ((None,) * 3, (None,) * 3)
        assert (row.frost_free, row.without) == ((None,) * 3, None)


def test_by_dates_the_season_is_as_long_as_from_one_to_the_other() -> None:
    rows = frost_table(gardens.season(gardens.text(frost=TABLE)).climate.frosts)
    (tender,) = (row for row in rows if row.hardiness is Hardiness.TENDER)
    # 10 May to 1 October: 21 + 30 + 31 + 31 + 30 + 1 days
    assert tender.frost_free == (None, 144, None)
    (hardy,) = (row for row in rows if row.hardiness is Hardiness.HARDY)
    # 24 °F is 8 below: 24 days at each end
    assert hardy.frost_free == (None, 144 + 48, None)
