"""``sowtide check``."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from sowtide.cli.options import format_option, garden_options, load_garden, season_from, the_day
from sowtide.cli.output import complain, show, show_text, width
from sowtide.diagnostics import has_errors, in_file_order


@click.command()
@format_option("text", "json")
@garden_options
def command(garden: Path | None, demo: bool, today: date | None, format_: str) -> None:
    """Everything wrong with the file, at once.

    Leaves with 1 where something cannot be read or cannot come true, and with 0 otherwise.
    """
    loaded = load_garden(garden=garden, demo=demo)
    read, problems = loaded.garden, loaded.problems
    if read is not None:
        season = season_from(loaded, the_day(today=today, demo=demo))
        problems = in_file_order((*problems, *season.problems))
    if format_ == "json":
        from sowtide.report.kit.machine import check_json

        show_text(check_json(problems))
    elif read is None:
        complain(problems)
    else:
        from sowtide.report.check.page import check_text

        show(check_text(problems, width=width()))
    click.get_current_context().exit(1 if has_errors(problems) else 0)
