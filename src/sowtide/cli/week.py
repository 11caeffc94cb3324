"""``sowtide week``."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import click

from sowtide.cli.options import format_option, with_season
from sowtide.cli.output import show, show_text, width
from sowtide.days import monday_of, week_start
from sowtide.schedule.week import week_sheet
from sowtide.season import Season

_MOST_WEEKS = 53


class Week(click.ParamType[date]):
    """An ISO week written ``2026-W31``."""

    name = "week"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """Return the week's Monday."""
        if isinstance(value, date):
            return value
        try:
            return monday_of(value)
        except ValueError:
            self.fail(f"'{value}' is not a week; write it as 2026-W31.", param, ctx)


@click.command()
@click.option("--week", "week_", type=Week(), help="The week to show (2026-W31).")
@click.option(
    "--weeks",
    type=click.IntRange(1, _MOST_WEEKS),
    default=1,
    show_default=True,
    help="How many weeks to show.",
)
@click.option(
    "--by",
    type=click.Choice(["bed", "work"]),
    default="bed",
    show_default=True,
    help="Group the work by bed or by kind of work.",
)
@format_option("text", "json", "csv")
@with_season
def command(season: Season, *, week_: date | None, weeks: int, by: str, format_: str) -> None:
    """What to do this week, bed by bed, with amounts.

    First what cannot slip, then what to pick, the work of the week, the seedlings on the bench,
    and a look at next week. The short code beside a task is the same on every sheet.
    """
    first = week_start(week_ or season.today, starts=season.garden.site.week_starts)
    sheets = tuple(
        week_sheet(season.garden, season.waves, first + timedelta(days=7 * number))
        for number in range(weeks)
    )
    if format_ == "text":
        from sowtide.report.sheet import EMPTY
        from sowtide.report.week import week_text

        for number, sheet in enumerate(sheets):
            text = week_text(sheet, season, width=width(), by=by)
            show((EMPTY, *text) if number else text)
    else:
        from sowtide.report import machine

        write = machine.week_json if format_ == "json" else machine.week_csv
        show_text(write(sheets, season))
