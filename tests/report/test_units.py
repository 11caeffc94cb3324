"""How lengths, temperatures, weights and shares of years are converted and written."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sowtide.units import (
    KILOGRAMS,
    Size,
    Units,
    area_in,
    celsius,
    fahrenheit,
    in_hundred,
    length_in,
    micrometres,
    show_degree_days,
    show_length,
    show_number,
    show_spacing,
    show_temperature,
    show_temperature_difference,
    unit_told,
    years_of_hundred,
)

US, METRIC = Units.US, Units.METRIC


@pytest.mark.parametrize(
    ("number", "unit", "length"),
    [
        # An inch is 25.4 mm and a foot twelve of them, by the yard of 1959.
        (Fraction(1), "in", 25_400),
        (Fraction(1), "ft", 304_800),
        (Fraction(1), "cm", 10_000),
        (Fraction(1), "m", 1_000_000),
        (Fraction(3, 2), "ft", 457_200),
        # Halves are rounded up: 0.5 µm and 1.5 µm; less than a half down.
        (Fraction(5, 100_000), "cm", 1),
        (Fraction(15, 100_000), "cm", 2),
        (Fraction(49, 1_000_000), "cm", 0),
        (Fraction(0), "in", 0),
    ],
)
def test_lengths_are_whole_micrometres(number: Fraction, unit: str, length: int) -> None:
    assert micrometres(number, unit) == length
    if number >= 1:
        assert length_in(length, unit) == pytest.approx(float(number))
        assert area_in(length * length, unit) == pytest.approx(float(number * number))


def test_a_bed_is_as_wide_as_long_times_as_it_is() -> None:
    assert Size(3, 7).area == 21


@pytest.mark.parametrize(
    ("degrees_f", "degrees_c"), [(32, 0), (212, 100), (-40, -40), (50, 10), (14, -10)]
)
def test_degrees(degrees_f: float, degrees_c: float) -> None:
    assert celsius(degrees_f) == pytest.approx(degrees_c)
    assert fahrenheit(degrees_c) == pytest.approx(degrees_f)


def test_a_pound_is_sixteen_ounces() -> None:
    assert KILOGRAMS["lb"] == 16 * KILOGRAMS["oz"] == Fraction("0.45359237")
    assert (KILOGRAMS["kg"], KILOGRAMS["g"]) == (1, Fraction(1, 1000))
    assert unit_told("kg", METRIC) == ("kg", 1.0)
    unit, pounds = unit_told("kg", US)
    assert (unit, pounds) == ("lb", pytest.approx(2.20462262))
    assert unit_told("bunches", US) == ("bunches", 1.0)


@pytest.mark.parametrize(
    ("units", "words"),
    [(US, ("ft", "in", "lb", "°F")), (METRIC, ("m", "cm", "kg", "°C"))],
)
def test_units_of_a_system(units: Units, words: tuple[str, ...]) -> None:
    assert (units.long_unit, units.short_unit, units.weight_unit, units.degree) == words
    assert units.difference(9) == (5 if units is US else 9)


@pytest.mark.parametrize(
    ("number", "digits", "said"),
    [
        (4.0, 1, "4"),
        (4.25, 2, "4.25"),
        (4.04, 1, "4"),
        (40, 0, "40"),
        (0.5, 1, "0.5"),
        (100, 1, "100"),
    ],
)
def test_numbers_have_no_idle_zeros(number: float, digits: int, said: str) -> None:
    assert show_number(number, digits) == said


@pytest.mark.parametrize(
    ("length", "us", "metric"),
    [
        (25_400, "1 in", "2.5 cm"),  # 2.54 to the half centimetre
        (9_525, "0.5 in", "1 cm"),  # 0.375 in and 0.9525 cm: halves up
        (9_524, "0.25 in", "1 cm"),
        (2_400, "0.09 in", "0.24 cm"),  # less than half of a quarter, or of a half, is itself
        (2_500, "0.1 in", "0.5 cm"),
        (304_800, "12 in", "30.5 cm"),
        (7_500, "0.25 in", "1 cm"),
        (7_499, "0.25 in", "0.5 cm"),
    ],
)
def test_spacings_are_rounded_to_what_a_stick_shows(length: int, us: str, metric: str) -> None:
    assert (show_spacing(length, US), show_spacing(length, METRIC)) == (us, metric)


def test_what_is_shown_in_either_system() -> None:
    assert (show_length(6_096_000, US), show_length(6_096_000, METRIC)) == ("20 ft", "6.1 m")
    assert (show_temperature(-2.2, US), show_temperature(-2.2, METRIC)) == ("28 °F", "-2.2 °C")
    difference = show_temperature_difference
    assert (difference(2.5, US), difference(2.5, METRIC)) == ("4.5 °F", "2.5 °C")
    assert (show_degree_days(500, US), show_degree_days(500, METRIC)) == ("900 °F·d", "500 °C·d")


@pytest.mark.parametrize(
    ("share", "of", "estimated", "recorded"),
    [
        (0.0, 100, "under 1", "0"),
        (0.004, 100, "under 1", "under 1"),
        (0.005, 100, "1", "1"),  # halves up
        (0.5, 100, "50", "50"),
        (0.825, 100, "83", "83"),
        (0.994, 100, "99", "99"),
        (0.995, 100, "over 99", "over 99"),
        (1.0, 100, "over 99", "100"),
        (0.0, 30, "under 1", "0"),
        (1 / 30, 30, "1", "1"),
        (0.98, 30, "29", "29"),  # 29.4
        (0.99, 30, "over 29", "over 29"),
        (1.0, 30, "over 29", "30"),
    ],
)
def test_a_share_of_years(share: float, of: int, estimated: str, recorded: str) -> None:
    assert in_hundred(share, of=of) == estimated
    assert in_hundred(share, estimated=False, of=of) == recorded


@pytest.mark.parametrize(
    ("share", "of", "said"),
    [
        (0.001, 100, "under 1 year of 100"),
        (0.01, 100, "1 year of 100"),
        (0.02, 100, "2 years of 100"),
        (0.999, 100, "over 99 years of 100"),
        (0.1, 30, "3 years of 30"),
    ],
)
def test_years_of_a_hundred(share: float, of: int, said: str) -> None:
    assert years_of_hundred(share, of=of) == said
