"""``sowtide frost``."""

from __future__ import annotations

import click

from sowtide.cli.options import format_option, with_place
from sowtide.cli.output import show, show_text, width
from sowtide.season import Place


@click.command()
@format_option("text", "json", "csv")
@with_place
def command(place: Place, *, format_: str) -> None:
    """The site's frost odds, what they rest on, and the season's length."""
    if format_ == "text":
        from sowtide.report.frost.page import frost_text

        show(frost_text(place, width=width()))
    else:
        from sowtide.report.frost import data as machine_frost

        write = machine_frost.frost_json if format_ == "json" else machine_frost.frost_csv
        show_text(write(place))
