"""``sowtide week``."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import click

from sowtide.cli.narrowing import narrowing_options, only_of, quiet_option
from sowtide.cli.options import Count, Temperature, with_season
from sowtide.cli.printing import prints
from sowtide.days import FIRST_YEAR, LAST_YEAR, monday_of, week_start
from sowtide.report.week import WeekBy, WeekView, view
from sowtide.schedule.planning import with_high
from sowtide.schedule.season import Season

_MOST_WEEKS = 53


class WeekOption(click.ParamType[date | str]):
    """An ISO week written ``2026-W31``, or ``W31`` for one of the growing year planned."""

    name = "week"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> date | str:
        """Return the week's Monday; a week without its year as it is written."""
        if isinstance(value, date):
            return value
        if (
            len(value) == len("W31")
            and value[0] == "W"
            and value[1:].isdecimal()
            and value.isascii()
        ):
            return str(value)
        try:
            return monday_of(value)
        except ValueError:
            years = f"in the years {FIRST_YEAR} to {LAST_YEAR}"
            self.fail(f"'{value}' is not a week {years}; write it as W31 or 2026-W31.", param, ctx)


@click.command()
@click.option("--week", "week_", type=WeekOption(), help="The week to show (W31 or 2026-W31).")
@click.option(
    "--weeks",
    type=Count(1, _MOST_WEEKS),
    default=1,
    show_default=True,
    help="How many weeks to show.",
)
@click.option(
    "--by",
    type=click.Choice([each.value for each in WeekBy]),
    default=WeekBy.BED.value,
    show_default=True,
    help="Group the work by bed, by day or by kind of work.",
)
@click.option(
    "--high",
    type=Temperature(-20, 60),
    metavar="HIGH",
    help="The highest temperature expected in that week, as 96F or 35C: what to shade and water "
    "first, to pick, and to put off.",
)
@narrowing_options
@quiet_option
@prints("week")
@with_season
def command(
    season: Season,
    *,
    week_: date | str | None,
    weeks: int,
    by: str,
    high: float | None,
    beds: tuple[str, ...],
    crops: tuple[str, ...],
    quiet: bool,
) -> WeekView:
    """What to do this week, bed by bed, with amounts.

    First what cannot slip, then what to pick, the work of the week, the seedlings on the bench,
    and a look at next week. The short code beside a task is the same on every sheet.
    """
    asked = _monday(week_, season) if isinstance(week_, str) else week_
    first = week_start(asked or season.today, starts=season.garden.site.week_starts)
    if high is not None:
        season = with_high(season, first, high)
    only = only_of(season, beds=beds, crops=crops)
    if only is None:
        sheets = season.sheets(first, weeks=weeks)
    else:
        from sowtide.schedule.narrowed import narrowed, narrowed_sheets

        sheets = narrowed_sheets(season, only, first, weeks=weeks)
        season = narrowed(season, only)
    return view(sheets, season, by=WeekBy(by), quiet=quiet, high=high)


def _monday(week: str, season: Season) -> date:
    """Return the Monday of a week of the growing year."""
    year = season.garden.year
    for named in (year.season, year.season + 1):
        try:
            monday = monday_of(f"{named}-{week}")
        except ValueError:
            continue
        if monday in year or monday + timedelta(days=6) in year:
            return monday
    raise click.UsageError(f"The growing year {year.season} has no week '{week}'.")
