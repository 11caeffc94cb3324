"""``sowtide schema``."""

from __future__ import annotations

import json
from typing import Any

import click

from sowtide.cli.printing import file_options, put
from sowtide.report import REPORTS

_MARK = '{\n  "$schema": "https://json-schema.org/draft/2020-12/schema",\n  "title": '
_FILES = ("garden", "journal")


def _complete(_: click.Context, __: click.Parameter, begun: str) -> list[str]:
    return [name for name in (*_FILES, *REPORTS) if name.startswith(begun)]


@click.command()
@file_options
@click.argument("what", required=False, shell_complete=_complete)
def command(what: str | None) -> None:
    """The JSON Schema of the garden's file or of what is printed.

    WHAT is garden (the default), journal, or a command that prints JSON, such as plan; with an
    option that asks it for something else, both in quotes.
    """
    name = what or "garden"
    text = json.dumps(_schema(name), indent=2, ensure_ascii=False)
    put(f"{text}\n", mark=_MARK)


def _schema(name: str) -> dict[str, Any]:
    if name in _FILES:
        from sowtide.garden.described import garden_schema, journal_schema

        return garden_schema() if name == "garden" else journal_schema()
    if name in REPORTS:
        from sowtide.report.formats.schema import view_schema

        return view_schema(REPORTS[name].of, f"What sowtide {name} prints as JSON")
    from difflib import get_close_matches

    near = get_close_matches(name, (*_FILES, *REPORTS), n=1)
    hint = f"did you mean '{near[0]}'?" if near else f"there are {', '.join((*_FILES, *REPORTS))}."
    raise click.UsageError(f"There is no schema of '{name}': {hint}")
