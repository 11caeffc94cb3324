"""``sowtide check``."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from sowtide.cli.options import garden_options, load_garden, season_from, the_day
from sowtide.cli.output import complain
from sowtide.cli.printing import forms_of, say
from sowtide.diagnostics import has_errors, in_file_order
from sowtide.report.check import view
from sowtide.report.formats.forms import TEXT


@click.command()
@forms_of("check")
@garden_options
def command(garden: Path | None, demo: bool, today: date | None, format_: str) -> None:
    """Everything wrong with the file, at once.

    Leaves with 1 where something cannot be read or cannot come true, and with 0 otherwise.
    """
    loaded = load_garden(garden=garden, demo=demo)
    problems = loaded.problems
    if loaded.garden is not None:
        season = season_from(loaded, the_day(today=today, demo=demo))
        problems = in_file_order((*problems, *season.problems))
    if loaded.garden is None and format_ == TEXT:
        complain(problems)
    else:
        say("check", view(problems), format_)
    click.get_current_context().exit(1 if has_errors(problems) else 0)
