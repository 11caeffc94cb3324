"""Printing what a command says, in the form that was asked for."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from sowtide.cli.options import format_option
from sowtide.cli.output import show, show_text, width
from sowtide.report.formats.forms import FORMS, TEXT, offered
from sowtide.report.report import Report


def prints(report: Report) -> Callable[[Callable[..., Any]], Callable[..., None]]:
    """Add --format to a command, and print the view that it returns."""

    def decorate(command: Callable[..., Any]) -> Callable[..., None]:
        @format_option(*offered(report))
        @wraps(command)
        def run(*args: Any, format_: str, **more: Any) -> None:
            say(report, command(*args, **more), format_)

        return run

    return decorate


def say(report: Report, view: Any, form: str) -> None:
    """Print a view of a report."""
    if form == TEXT:
        from sowtide.report.formats.terminal import rendered

        show(rendered(report.page(view), width()))
    else:
        show_text(FORMS[form].write(report, view))
