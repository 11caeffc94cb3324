"""What `new` is told of a place: by options, or in a terminal by asking."""

from __future__ import annotations

import sys
from datetime import date
from typing import Any

import click

from sowtide.cli.options import Count, Degrees, stacked
from sowtide.days import GrowingYear, MonthDay
from sowtide.garden.starter import Start, season_ahead
from sowtide.units import Units

_MOST_BEDS = 500
_COLDEST, _WARMEST = -90, 130  # [°F or °C]


class FrostDate(click.ParamType[str]):
    """The average day of a frost, written ``05-10``, or ``none`` where there is none."""

    name = "MM-DD"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Read the day; it stays as it is written."""
        text = str(value).strip()
        month, _, day = text.partition("-")
        if text.casefold() == "none":
            return "none"
        if len(text) != len("05-10") or not text.isascii() or not (month + day).isdigit():
            self.fail(f"'{text}' is no day; write month-day, as in 05-10, or none.", param, ctx)
        try:
            MonthDay.of(month=int(month), day=int(day))
        except ValueError:
            self.fail(f"there is no day '{text}'.", param, ctx)
        return text


_UNITS = click.Choice([units.value for units in Units])
_LATITUDE = Degrees(-90, 90)
_FROST = FrostDate()
_MEAN = Degrees(_COLDEST, _WARMEST)
_BEDS = Count(1, _MOST_BEDS)
_FROSTS = ("last_frost", "first_frost")


place_options = stacked(
    click.option("--beds", type=_BEDS, help="How many beds to begin with."),
    click.option("--coldest-month", type=_MEAN, help="Mean of the coldest month, likewise."),
    click.option(
        "--warmest-month", type=_MEAN, help="Mean of the warmest month, in the file's degrees."
    ),
    click.option("--first-frost", type=_FROST, help="Average first frost of autumn, likewise."),
    click.option(
        "--last-frost", type=_FROST, help="Average last frost of spring (05-10), or none."
    ),
    click.option("--latitude", type=_LATITUDE, help="Degrees; south of the equator with a minus."),
    click.option("--units", type=_UNITS, help="Feet and inches (us), or metres (metric)."),
)
"""Adds what a place is told by to a command."""


def in_terminal() -> bool:
    """Say whether somebody is there to be asked."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def start_of(said: dict[str, Any], today: date) -> Start:
    """Return what a file to start from is written with.

    In a terminal what the options leave out is asked for; in a pipe the invented place of the file
    stands in for it.

    Raises
    ------
    click.UsageError
        If only one of two that belong together is said.
    """
    if "none" in (said["last_frost"], said["first_frost"]):  # neither then
        said = {key: "none" if key in _FROSTS and not of else of for key, of in said.items()}
    if in_terminal():
        said = _asked(said)
    last, first = said["last_frost"], said["first_frost"]
    if (last is None) is not (first is None) or ("none" in (last, first) and last != first):
        raise click.UsageError("--last-frost and --first-frost go together.")
    if (said["warmest_month"] is None) is not (said["coldest_month"] is None):
        raise click.UsageError("--warmest-month and --coldest-month go together.")
    latitude = said["latitude"]
    south = latitude is not None and latitude < 0
    frost_free = last == "none"
    year = GrowingYear(today.year, south=south).holding(today)
    return Start(
        season=year.season if frost_free else season_ahead(today, south=south, first_frost=first),
        units=Units(said["units"] or "us"),
        latitude=None if latitude is None else _written(latitude),
        last_frost=None if last == "none" else last,
        first_frost=None if first == "none" else first,
        warmest_month=_mean(said["warmest_month"]),
        coldest_month=_mean(said["coldest_month"]),
        frost_free=frost_free,
        beds=said["beds"] or 2,
    )


def _asked(said: dict[str, Any]) -> dict[str, Any]:
    """Ask for what is not said; Enter takes what stands in brackets, or leaves it out."""
    answers = dict(said)

    def ask(key: str, text: str, kind: click.ParamType[Any], default: Any) -> None:
        if answers[key] is None:
            answers[key] = click.prompt(
                text, default=default, type=kind, show_default=default != ""
            )

    ask("units", "Units", _UNITS, "us")
    ask("latitude", "Latitude in degrees, south with a minus", _LATITUDE, 43.0)
    south = answers["latitude"] < 0
    last, first = ("11-08", "04-04") if south else ("05-10", "10-04")
    ask("last_frost", "Average last frost, month-day or none", _FROST, last)
    if answers["last_frost"] == "none":
        answers["first_frost"] = answers["first_frost"] or "none"
    ask("first_frost", "Average first frost", _FROST, first)
    degrees = "°C" if answers["units"] == Units.METRIC.value else "°F"
    ask("warmest_month", f"Mean of the warmest month, {degrees}, Enter to skip", _Skipped(), "")
    if answers["warmest_month"] is not None:
        ask("coldest_month", f"Mean of the coldest month, {degrees}", _MEAN, None)
    ask("beds", "How many beds", _BEDS, 2)
    return answers


class _Skipped(click.ParamType[Any]):
    """A mean, or nothing."""

    name = "mean"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """Read the mean; nothing stays nothing."""
        return None if value in ("", None) else _MEAN.convert(value, param, ctx)


def _mean(of: float | None) -> str | None:
    return None if of is None else _written(of)


def _written(number: float) -> str:
    """Write a number as a grower would: ``-41``, ``21.5``."""
    return f"{number:.4f}".rstrip("0").rstrip(".")
