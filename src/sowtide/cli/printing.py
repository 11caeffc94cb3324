"""Printing what a command says, in the form that was asked for, or writing it into a file."""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any, TypeVar

import click

from sowtide.cli.options import Count, format_option
from sowtide.cli.output import show, show_document, show_text, width
from sowtide.report.choices import FormChoices, Paper
from sowtide.report.formats.forms import FORMS, TEXT, offered
from sowtide.report.kit.words import listed
from sowtide.report.report import Report

_Command = TypeVar("_Command", bound=Callable[..., Any])

_ASKED = "sowtide.asked"
"""Where the context of a run keeps the choices of a form, which no command needs to know."""


def forms_of(*reports: Report) -> Callable[[_Command], _Command]:
    """Add --format to a command that prints one of some reports, with every form of any of them.

    The choices of a form come with it.
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

    def decorate(command: _Command) -> _Command:
        for option in (
            *(calendar if "ics" in forms else ()),
            _choice("--replace", is_flag=True, help="Write over a file that is not sowtide's."),
            _choice(
                "--output",
                type=click.Path(path_type=Path, dir_okay=False),
                help="Write it into this file.",
            ),
            _choice(
                "--paper",
                type=click.Choice([each.value for each in Paper]),
                default=Paper.A4.value,
                show_default=True,
                help="What html is to be printed on.",
            ),
            format_option(*forms),
        ):
            command = option(command)
        return command

    return decorate


def _choice(name: str, **more: Any) -> Callable[[_Command], _Command]:
    """Add an option whose value the context keeps."""
    return click.option(name, expose_value=False, callback=_keep, **more)


def _keep(ctx: click.Context, param: click.Parameter, given: Any) -> None:
    ctx.meta.setdefault(_ASKED, {})[param.name] = given


def prints(report: Report) -> Callable[[Callable[..., Any]], Callable[..., None]]:
    """Add the forms of a report to a command, and print the view that it returns."""

    def decorate(command: Callable[..., Any]) -> Callable[..., None]:
        @forms_of(report)
        @wraps(command)
        def run(*args: Any, format_: str, **more: Any) -> None:
            say(report, command(*args, **more), format_)

        return run

    return decorate


def refuse_other_forms(report: Report, form: str, what: str) -> None:
    """Check that a report can be had in a form, before it is worked out.

    Raises
    ------
    click.UsageError
        If it cannot.
    """
    if form not in offered(report):
        raise click.UsageError(f"{what} prints {listed(offered(report), last='or')}.")


def say(report: Report, view: Any, form: str) -> None:
    """Print a view of a report, or write it into the file that was asked for.

    Raises
    ------
    Unreadable
        If the file cannot be written, or another stands there.
    """
    asked = click.get_current_context().meta.get(_ASKED, {})
    path: Path | None = asked.get("output")
    if form == TEXT and path is None:
        from sowtide.report.formats.terminal import rendered

        show(rendered(report.page(view), width(sys.stdout)))
    elif form == TEXT:
        from sowtide.report.formats.terminal import rendered

        lines = (line.plain.rstrip() for line in rendered(report.page(view), width(sys.stdout)))
        _save(path, "\n".join((*lines, "")), "", asked)
    else:
        of = FORMS[form]
        text = of.write(report, view, _chosen(asked))
        if path is not None:
            mark = of.mark or text.partition("\n")[0]  # a table is known by its head
            _save(path, text, mark, asked)
        elif of.for_files:
            show_document(text)
        else:
            show_text(text)


def _chosen(asked: dict[str, Any]) -> FormChoices:
    return FormChoices(
        paper=Paper(asked.get("paper", Paper.A4.value)),
        todos=bool(asked.get("todos")),
        revision=asked.get("revision"),
    )


def _save(path: Path | None, text: str, mark: str, asked: dict[str, Any]) -> None:
    from sowtide.cli.saving import save

    assert path is not None  # it was asked for
    replace = bool(asked.get("replace"))
    save(path, text.encode("utf-8"), mark=mark.encode("utf-8"), replace=replace)
    show_text(f"Wrote {path}.")
