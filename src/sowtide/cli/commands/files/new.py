"""``sowtide new``."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import click

from sowtide.cli.options import (
    DEFAULT_GARDEN,
    garden_options,
    readable_garden,
    season_from,
    the_day,
)
from sowtide.cli.output import show_text
from sowtide.cli.place import place_options, start_of
from sowtide.cli.saving import write_new
from sowtide.diagnostics import Problem, Unreadable, reason_of
from sowtide.season import demo_text, journal_path

_MOST_NAMED = 5
"""How many waves are named before they are counted. [1]"""


@click.command()
@click.option(
    "--from",
    "before",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write next season's file from this season's and its journal.",
)
@place_options
@garden_options
def command(
    garden: Path | None, demo: bool, today: date | None, *, before: Path | None, **said: Any
) -> None:
    """Write a commented file to start from.

    The file is garden.yaml, or what --garden names; a file that stands there already is left
    alone. With --demo it is a copy of the packaged demo garden. With --from garden.yaml it is
    that garden in its next season, garden-2027.yaml beside it: the beds with what stood in them,
    what stands over the winter, and the same series.

    In a terminal it asks for what the options do not say; Enter takes what stands in brackets.
    """
    if (demo or before is not None) and any(each is not None for each in said.values()):
        raise click.UsageError("With --demo and --from the place is that of their file.")
    if before is not None:
        if demo:
            raise click.UsageError("Choose one of --demo and --from.")
        _next_season(before, garden if _is_given("garden") else None, today)
        return
    path = garden or Path(DEFAULT_GARDEN)
    _refuse_taken(path)
    day = the_day(today=today, demo=False)
    _write_text(path, demo_text() if demo else _first(path, day, said))
    show_text(f"Wrote {path}. Put your own garden into it, then run 'sowtide week'.")


def _first(path: Path, today: date, said: dict[str, Any]) -> str:
    """Return a file to start from, written with what the options say and what is answered."""
    from sowtide.first_season import first_file

    text, problems = first_file(start_of(said, today), str(path))
    if problems:
        raise click.UsageError(f"With these a file cannot be written: {problems[0].message}.")
    return text


def _is_given(name: str) -> bool:
    source = click.get_current_context().get_parameter_source(name)
    return source is click.core.ParameterSource.COMMANDLINE


def _next_season(before: Path, after: Path | None, today: date | None) -> None:
    from sowtide.garden.text import decode, parse
    from sowtide.next_season import next_file

    loaded, garden = readable_garden(garden=before, demo=False)
    season = season_from(loaded, the_day(today=today, demo=False))
    year = garden.year.season
    path = after or before.with_name(f"{_stem(before, year)}-{year + 1}{before.suffix}")
    if path.parent.resolve() != before.parent.resolve():
        raise click.UsageError(f"Write it beside {before}: both share a journal and a record.")
    source = decode(before.read_bytes(), str(before))
    assert not isinstance(source, Problem)  # it was read a moment ago
    made = next_file(
        parse(source),
        season,
        before.parent,
        journal=loaded.journal,
        named_journal=journal_path(before, garden).name,
    )
    _write_text(path, made.text)
    beds = f"{made.stood} bed{'' if made.stood == 1 else 's'}"
    said = [f"Wrote {path} for season {made.season}: what stood in {beds} stands under grew."]
    if made.carried:
        said.append(f"Over the winter stands {', '.join(made.carried)}.")
    if made.unsaid:
        more = len(made.unsaid) - _MOST_NAMED
        names = ", ".join(made.unsaid[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
        said.append(f"Not noted, and so not counted as planted: {names}.")
    if made.named:
        said.append(f"Rotation leaves no bed for {', '.join(made.named)}: their beds are named.")
    if made.problems:
        said.append(f"Run 'sowtide check --garden {path}': not all of it can come true.")
    show_text("\n".join(said))


def _stem(path: Path, year: int) -> str:
    """Return the name of a file without its end and without its season."""
    return path.stem.removesuffix(f"-{year}")


def _refuse_taken(path: Path) -> None:
    """Check that no file stands there, before anything is asked.

    Raises
    ------
    Unreadable
        If one does.
    """
    if path.exists():
        raise Unreadable(f"{path} is there already and was left alone.")


def _write_text(path: Path, text: str) -> None:
    try:
        write_new(path, text.encode("utf-8"))
    except FileExistsError:
        raise Unreadable(f"{path} is there already and was left alone.") from None
    except (OSError, ValueError) as error:
        raise Unreadable(f"cannot write {path}: {reason_of(error).lower()}.") from None
