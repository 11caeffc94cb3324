"""Options that every command takes, and the loading that they stand for."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from sowtide.cli.waiting import working
from sowtide.days import FIRST_YEAR, LAST_YEAR, MonthDay, day_of
from sowtide.garden.model import Garden
from sowtide.schedule.season import Season
from sowtide.season import DEMO_TODAY, Loaded, load, load_demo, season_of
from sowtide.units import Units, celsius, show_temperature

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.learning import OwnYields

DEFAULT_GARDEN = "garden.yaml"

Command = TypeVar("Command", bound=Callable[..., Any])


class Day(click.ParamType[date]):
    """A day written ``2026-07-16``."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """Read the day."""
        if isinstance(value, date):
            return value
        try:
            return day_of(value)
        except ValueError:
            years = f"in the years {FIRST_YEAR} to {LAST_YEAR}"
            self.fail(f"'{value}' is not a day {years}; write it as 2026-07-16.", param, ctx)


class SeasonDay(click.ParamType[date | MonthDay]):
    """A day written ``07-30``, of the growing year planned, or ``2026-07-30``."""

    name = "date"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> date | MonthDay:
        """Read the day."""
        if isinstance(value, date | MonthDay):
            return value
        month, _, day = value.partition("-")
        if len(value) == len("07-30") and value.isascii() and (month + day).isdigit():
            try:
                return MonthDay.of(month=int(month), day=int(day))
            except ValueError:
                self.fail(f"there is no day '{value}'.", param, ctx)
        return Day().convert(value, param, ctx)


class _PlainDigits(click.ParamType[Any]):
    """A number as growers write it: no ``nan``, no ``1e1``, no digits but 0 to 9."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """Read the number."""
        if isinstance(value, str) and not set(value) <= set("-.0123456789"):
            self.fail(f"'{value}' is not a number written in plain digits.", param, ctx)
        return super().convert(value, param, ctx)


class Count(_PlainDigits, click.IntRange):
    """A whole number within bounds."""


class Degrees(_PlainDigits, click.FloatRange):
    """A difference of temperatures within bounds."""


class Temperature(click.ParamType[float]):
    """A temperature with its unit, as ``34F``; in °C once it is read.

    Parameters
    ----------
    least, most
        Bounds. [°C]
    """

    name = "temperature"

    def __init__(self, least: float, most: float) -> None:
        self._least, self._most = least, most

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Read the temperature. [°C]"""
        if isinstance(value, float):
            return value
        found = re.fullmatch(r"(-?[0-9]{1,3}(?:\.[0-9])?) ?°?([FCfc])", value)
        if found is None:
            if re.fullmatch(r"-?[0-9]+(?:\.[0-9]+)?", value):
                self.fail(f"'{value}' has no unit; write {value}F or {value}C.", param, ctx)
            self.fail(f"'{value}' is no temperature; write it as 34F or 1C.", param, ctx)
        number = float(found[1])
        degrees = celsius(number) if found[2] in "Ff" else number
        if not self._least <= degrees <= self._most:
            unit = Units.US if found[2] in "Ff" else Units.METRIC
            least, most = (show_temperature(end, unit) for end in (self._least, self._most))
            self.fail(f"'{value}' is not between {least} and {most}.", param, ctx)
        return degrees


def stacked(*options: Callable[[Command], Command]) -> Callable[[Command], Command]:
    """Return what adds several options to a command, the first of them last in its help."""

    def decorate(command: Command) -> Command:
        for option in options:
            command = option(command)
        return command

    return decorate


garden_options = stacked(
    click.option(
        "--today",
        type=Day(),
        help="Look at the garden from this day (2026-07-16) instead of today.",
    ),
    click.option(
        "--demo", is_flag=True, help="Use the packaged demo garden, which brings its own today."
    ),
    click.option(
        "--garden",
        type=click.Path(path_type=Path),
        envvar="SOWTIDE_GARDEN",
        show_envvar=True,
        help=f"The garden's file.  [default: {DEFAULT_GARDEN}]",
    ),
)
"""Adds --garden, --demo and --today to a command."""


def format_option(*formats: str) -> Callable[[Command], Command]:
    """Add --format with a choice of formats, the first of them the default."""
    return click.option(
        "--format",
        "format_",
        type=click.Choice(formats),
        default=formats[0],
        show_default=True,
        help="How to print.",
    )


def load_garden(*, garden: Path | None, demo: bool) -> Loaded:
    """Read the garden that the options name.

    Raises
    ------
    click.UsageError
        If they name two.
    Unreadable
        If the file cannot be opened.
    """
    if demo:
        source = click.get_current_context().get_parameter_source("garden")
        if source is click.core.ParameterSource.COMMANDLINE:
            raise click.UsageError("Choose one of --demo and --garden.")
        return load_demo()
    path = garden or Path(DEFAULT_GARDEN)
    with working(f"reading {path}"):
        return load(path)


def readable_garden(*, garden: Path | None, demo: bool) -> tuple[Loaded, Garden]:
    """Read the garden that the options name; print what is wrong, and leave if it is an error.

    Raises
    ------
    click.UsageError
        If they name two.
    Unreadable
        If the file cannot be opened.
    """
    loaded = load_garden(garden=garden, demo=demo)
    if loaded.problems:
        from sowtide.cli.output import complain

        complain(loaded.problems)
    if loaded.garden is None:
        click.get_current_context().exit(1)
    return loaded, loaded.garden


def season_from(
    loaded: Loaded, day: date, *, checked: bool = True, like: Season | None = None
) -> Season:
    """Date and place everything that a garden without errors asks for.

    Parameters
    ----------
    loaded
        The garden and its record.
    day
        The day it is looked at from.
    checked
        Whether problems of the plan are looked for.
    like
        Another season of it, seen from another day or with another journal; None for no such.
    """
    assert loaded.garden is not None
    years = "" if loaded.record is None else " in each recorded year"
    with working(f"planning the season{years}") as progress:
        return season_of(
            loaded.garden,
            day,
            loaded.record,
            loaded.journal,
            checked=checked,
            progress=progress,
            like=like,
        )


def the_day(*, today: date | None, demo: bool) -> date:
    """Return the day to look from: the one given, the demo's own, or today."""
    if today is not None:
        return today
    return DEMO_TODAY if demo else date.today()


def with_season(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the season that its garden options name, in their place.

    Errors of reading are printed, and the command is not run.
    """
    return _with(season_from, command)


def with_yields(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the season and what its journal tells of yields, as `with_season` does."""
    return _with(_yields_from, command)


def _yields_from(loaded: Loaded, day: date) -> tuple[Season, OwnYields | None]:
    season = season_from(loaded, day)
    if loaded.journal is None:
        return season, None
    from sowtide.schedule.learning import OwnYields

    return season, OwnYields(season.garden, loaded.journal, day)


def _with(make: Callable[[Loaded, date], Any], command: Callable[..., Any]) -> Callable[..., Any]:
    @garden_options
    @wraps(command)
    def run(*args: Any, garden: Path | None, demo: bool, today: date | None, **more: Any) -> Any:
        loaded, _ = readable_garden(garden=garden, demo=demo)
        day = the_day(today=today, demo=demo)
        made = make(loaded, day)
        _keep(loaded, made)
        return command(made, *args, **more)

    return run


def _keep(*values: object) -> None:
    """Keep some values to the end of the process.

    To free thousands of waves one by one takes longer than to leave them to the system. What holds
    itself is freed by the cyclic collector alone, and that is off while the command runs.
    """
    kept: list[object] = [*values]
    kept.append(kept)
