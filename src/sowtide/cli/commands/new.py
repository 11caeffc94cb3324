"""``sowtide new``."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from sowtide.cli.options import DEFAULT_GARDEN, garden_options, the_day
from sowtide.cli.output import show_text
from sowtide.cli.saving import write_new
from sowtide.diagnostics import Unreadable
from sowtide.garden.starter import starter_text
from sowtide.season import demo_text


@click.command()
@garden_options
def command(garden: Path | None, demo: bool, today: date | None) -> None:
    """Write a commented file to start from.

    The file is garden.yaml, or what --garden names; a file that stands there already is left
    alone. With --demo it is a copy of the packaged demo garden.
    """
    path = garden or Path(DEFAULT_GARDEN)
    season = the_day(today=today, demo=False).year
    text = demo_text() if demo else starter_text(season)
    try:
        write_new(path, text.encode("utf-8"))
    except FileExistsError:
        raise Unreadable(f"{path} is there already and was left alone.") from None
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or str(error)).lower()
        raise Unreadable(f"cannot write {path}: {reason}.") from None
    show_text(f"Wrote {path}. Put your own garden into it, then run 'sowtide week'.")
