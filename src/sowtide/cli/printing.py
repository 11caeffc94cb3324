"""Printing what a command says, in the form that was asked for, or writing it into a file.

What prints is loaded where something is printed: a shell that completes a line needs none of it.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

import click

from sowtide.cli.options import Command, Count, format_option, stacked
from sowtide.report import NO_TABLE, REPORTS, WITH_EVENTS
from sowtide.report.choices import FormChoices, Paper
from sowtide.report.formats.forms import FORMS, TEXT, forms_with

_ASKED = "sowtide.asked"
"""Where the context of a run keeps the choices of a form, which no command needs to know."""


def _choice(name: str, **more: Any) -> Callable[[Command], Command]:
    """Add an option whose value the context keeps."""
    return click.option(name, expose_value=False, callback=_keep, **more)


def _keep(ctx: click.Context, param: click.Parameter, given: Any) -> None:
    ctx.meta.setdefault(_ASKED, {})[param.name] = given


file_options = stacked(
    _choice("--replace", is_flag=True, help="Write over a file that is not sowtide's."),
    _choice(
        "--output",
        type=click.Path(path_type=Path, dir_okay=False),
        help="Write it into this file.",
    ),
)
"""Adds --output and --replace to a command that prints by `put`."""


def forms_of(*reports: str) -> Callable[[Command], Command]:
    """Add --format to a command that prints one of some reports, with every form of any of them.

    The choices of a form come with it. A report is named as in `REPORTS`, and loaded to be printed.
    """
    forms = tuple(dict.fromkeys(form for report in reports for form in offered(report)))
    calendar = (
        _choice(
            "--revision",
            type=Count(0, 2_147_483_647),
            help="Number this ics; a later one is higher.",
        ),
        _choice("--todos", is_flag=True, help="Write tasks into ics in place of events."),
    )
    return stacked(
        file_options,
        *(calendar if "ics" in forms else ()),
        _choice(
            "--paper",
            type=click.Choice([each.value for each in Paper]),
            default=Paper.A4.value,
            show_default=True,
            help="What html is to be printed on.",
        ),
        format_option(*forms),
    )


def offered(report: str) -> tuple[str, ...]:
    """Name the forms that a report can be had in, the default first."""
    return forms_with(rows=report not in NO_TABLE, events=report in WITH_EVENTS)


def prints(report: str) -> Callable[[Callable[..., Any]], Callable[..., None]]:
    """Add the forms of a report to a command, and print the view that it returns."""

    def decorate(command: Callable[..., Any]) -> Callable[..., None]:
        @forms_of(report)
        @wraps(command)
        def run(*args: Any, format_: str, **more: Any) -> None:
            say(report, command(*args, **more), format_)

        return run

    return decorate


def refuse_other_forms(report: str, *, form: str, what: str) -> None:
    """Check that a report can be had in a form, before it is worked out.

    Raises
    ------
    click.UsageError
        If it cannot.
    """
    if form not in offered(report):
        from sowtide.report.kit.words import listed

        raise click.UsageError(f"{what} prints {listed(offered(report), last='or')}.")


def say(name: str, view: Any, form: str) -> None:
    """Print a view of a report, or write it into the file that was asked for.

    Raises
    ------
    Unreadable
        If the file cannot be written, or another stands there.
    """
    asked, report = click.get_current_context().meta.get(_ASKED, {}), REPORTS[name]
    if form == TEXT and report.saved is not None and asked.get("output") is not None:
        text = report.saved(view)
        put(text, mark=text.partition("\n")[0])
    elif form == TEXT:
        from sowtide.cli.output import show, width
        from sowtide.report.formats.terminal import rendered

        lines = rendered(report.page(view), width(sys.stdout))
        if asked.get("output") is None:
            show(lines)
        else:
            put("\n".join((*(each.plain.rstrip() for each in lines), "")), mark="")
    else:
        of = FORMS[form]
        text = of.write(report, view, _chosen(asked))
        # A table is known by its head.
        put(text, mark=of.mark or text.partition("\n")[0], as_it_stands=of.for_files)


def put(text: str, *, mark: str, as_it_stands: bool = False) -> None:
    """Print a document, or write it into the file that was asked for.

    Parameters
    ----------
    text
        The document.
    mark
        What it holds near its head, by which it is known again as sowtide's own.
    as_it_stands
        Whether it is printed without regard to what a terminal can show.

    Raises
    ------
    Unreadable
        If the file cannot be written, or another stands there.
    """
    from sowtide.cli.output import show_document, show_text

    asked = click.get_current_context().meta.get(_ASKED, {})
    path: Path | None = asked.get("output")
    if path is not None:
        from sowtide.cli.saving import save

        replace = bool(asked.get("replace"))
        save(path, text.encode("utf-8"), mark=mark.encode("utf-8"), replace=replace)
        show_text(f"Wrote {path}.")
    elif as_it_stands:
        show_document(text)
    else:
        show_text(text)


def _chosen(asked: dict[str, Any]) -> FormChoices:
    return FormChoices(
        paper=Paper(asked.get("paper", Paper.A4.value)),
        todos=bool(asked.get("todos")),
        revision=asked.get("revision"),
    )
