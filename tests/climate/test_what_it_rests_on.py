"""What the answers about a place rest on, and what had to be assumed for them."""

from __future__ import annotations

import pytest

import gardens
from sowtide.climate.basis import FrostFrom, WarmthFrom

SPREAD = "frost dates spread by 11 days"
BEYOND = "5.4 days for each °C beyond the temperatures given"
DEEPER = f"{BEYOND}, and below -4.4 °C nobody knows"
FALL = "a fall allowance of up to 14 days"
NO_HEAT = "no hot weeks known"
SEASONS = "seasons as warm as the average one, give or take 1.4 °C"
SMOOTH = "a smooth year between the warmest and the coldest month"

DATES = "{last: 05-10, first: 10-01}"
TABLE = "{last: {20%: 05-20, 50%: 05-10}, first: {20%: 09-20, 50%: 10-01}}"
ONE_SIDE = "{last: {20%: 05-20, 50%: 05-10}, first: 10-01}"
MONTHS = (
    "normals: {max: [2, 4, 9, 15, 20, 24, 27, 26, 21, 15, 8, 3], "
    "min: [-6, -5, -1, 4, 9, 13, 16, 15, 11, 5, 0, -4]}"
)


def with_months(frost: str) -> str:
    return f"{frost[:-1]}, {MONTHS}}}"


TWO = {"warmest_month": "20", "coldest_month": "-2"}
HOT = {"too_hot": "07-01..08-20"}


@pytest.mark.parametrize(
    ("frost", "more", "of_frost", "of_warmth", "assumed"),
    [
        (DATES, {}, FrostFrom.AVERAGES, WarmthFrom.NONE, (SPREAD, DEEPER, FALL, NO_HEAT)),
        (TABLE, {}, FrostFrom.TABLE, WarmthFrom.NONE, (DEEPER, FALL, NO_HEAT)),
        # one date alone is spread, a table of the other side or not
        (ONE_SIDE, {}, FrostFrom.TABLE, WarmthFrom.NONE, (SPREAD, DEEPER, FALL, NO_HEAT)),
        (DATES, HOT, FrostFrom.AVERAGES, WarmthFrom.NONE, (SPREAD, DEEPER, FALL)),
        (
            DATES,
            {"fall_allowance": "10 always"},
            FrostFrom.AVERAGES,
            WarmthFrom.NONE,
            (SPREAD, DEEPER, "10 days of fall allowance on every wave", NO_HEAT),
        ),
        # Dates of 24 °F, −4.4 °C, go as deep as anybody knows; of −4.3 °C they do not
        (
            "[{at: 0, last: 05-10, first: 10-01}, {at: -4.5, last: 04-10, first: 11-01}]",
            {},
            FrostFrom.AVERAGES,
            WarmthFrom.NONE,
            (SPREAD, BEYOND, FALL, NO_HEAT),
        ),
        (
            "[{at: 0, last: 05-10, first: 10-01}, {at: -4.3, last: 04-10, first: 11-01}]",
            {},
            FrostFrom.AVERAGES,
            WarmthFrom.NONE,
            (SPREAD, DEEPER, FALL, NO_HEAT),
        ),
        ("none", {}, FrostFrom.NONE, WarmthFrom.NONE, (NO_HEAT,)),
        ("none", HOT, FrostFrom.NONE, WarmthFrom.NONE, ()),
        # Months tell how deep it freezes, and how hot it gets
        (
            with_months(DATES),
            {},
            FrostFrom.AVERAGES,
            WarmthFrom.NORMALS,
            (SPREAD, BEYOND, SEASONS),
        ),
        (with_months(TABLE), HOT, FrostFrom.TABLE, WarmthFrom.NORMALS, (BEYOND, SEASONS)),
        (
            DATES,
            TWO,
            FrostFrom.AVERAGES,
            WarmthFrom.TWO_MONTHS,
            (SPREAD, BEYOND, SMOOTH, SEASONS),
        ),
    ],
)
def test_it_says_what_it_rests_on(
    frost: str,
    more: dict[str, str],
    of_frost: FrostFrom,
    of_warmth: WarmthFrom,
    assumed: tuple[str, ...],
) -> None:
    basis = gardens.season(gardens.text(frost=frost, **more)).climate.basis
    assert (basis.frost, basis.warmth) == (of_frost, of_warmth)
    assert basis.assumed == assumed
    assert (basis.years_used, basis.record) == (None, None)


def test_in_degrees_fahrenheit() -> None:
    text = gardens.text().replace("metric", "us")
    text = text.replace("size: 1 x 10", "size: 3 x 30").replace("in_row: 100", "in_row: 4")
    text = text.replace("between_rows: 100", "between_rows: 18")
    basis = gardens.season(text).climate.basis
    assert basis.assumed[1] == (
        "3 days for each °F beyond the temperatures given, and below 24 °F nobody knows"
    )
