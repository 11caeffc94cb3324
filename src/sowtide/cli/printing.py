"""Printing what a command says, in the form that was asked for."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

import click

from sowtide.cli.options import format_option
from sowtide.cli.output import show, show_text, width
from sowtide.report.formats.forms import FORMS, TEXT, offered
from sowtide.report.kit.words import listed
from sowtide.report.report import Report


def prints(report: Report) -> Callable[[Callable[..., Any]], Callable[..., None]]:
    """Add --format to a command, and print the view that it returns."""

    def decorate(command: Callable[..., Any]) -> Callable[..., None]:
        @forms_of(report)
        @wraps(command)
        def run(*args: Any, format_: str, **more: Any) -> None:
            say(report, command(*args, **more), format_)

        return run

    return decorate


def forms_of(*reports: Report) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Add --format to a command that prints one of some reports, with every form of any of them."""
    return format_option(*dict.fromkeys(form for report in reports for form in offered(report)))


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
    """Print a view of a report."""
    if form == TEXT:
        from sowtide.report.formats.terminal import rendered

        show(rendered(report.page(view), width()))
    else:
        show_text(FORMS[form].write(report, view))
