"""The forms in which a report can be had, each for every report that has what it needs."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from sowtide.values import value

if TYPE_CHECKING:  # loaded with the first report
    from sowtide.report.choices import FormChoices
    from sowtide.report.report import Report


@value
class OutputForm:
    """A form that is written as text."""

    write: Callable[[Report, Any, FormChoices], str]
    """What writes a view of a report, as chosen."""
    mark: str
    """What a file of this form holds near its head if sowtide wrote it."""
    needs_rows: bool = False
    """Whether only a report with rows can be had in it."""
    needs_events: bool = False
    """Whether only a report with events can be had in it."""
    for_files: bool = False
    """Whether it says itself how it is encoded, and is no text to read on a terminal."""


def _json(_: Report, view: Any, __: FormChoices) -> str:
    from sowtide.report.formats.json import document

    return document(view)


def _csv(report: Report, view: Any, _: FormChoices) -> str:
    from sowtide.report.formats.csv import table

    assert report.rows is not None  # it is only offered then
    return table(report.rows.columns, report.rows.of(view))


def _html(report: Report, view: Any, chosen: FormChoices) -> str:
    from sowtide.report.formats.html import html_page

    return html_page(report.page(view), chosen.paper)


def _markdown(report: Report, view: Any, _: FormChoices) -> str:
    from sowtide.report.formats.markdown import markdown_page

    return markdown_page(report.page(view))


def _ics(report: Report, view: Any, chosen: FormChoices) -> str:
    from sowtide.report.formats.ics import calendar_file

    assert report.events is not None  # it is only offered then
    return calendar_file(report.events(view), chosen)


TEXT = "text"
"""The page in a terminal, as wide as that is: the form that is printed unless another is asked."""

FORMS = {
    "json": OutputForm(_json, '{\n  "version": 1'),
    "csv": OutputForm(_csv, "", needs_rows=True),
    "html": OutputForm(_html, '<meta name="generator" content="sowtide">', for_files=True),
    "markdown": OutputForm(_markdown, "<!-- sowtide -->"),
    "ics": OutputForm(_ics, "PRODID:-//sowtide//", needs_events=True, for_files=True),
}
"""Every other form by its name."""


def offered(report: Report) -> tuple[str, ...]:
    """Name the forms that a report can be had in, the default first."""
    return forms_with(rows=report.rows is not None, events=report.events is not None)


def forms_with(*, rows: bool, events: bool) -> tuple[str, ...]:
    """Name the forms of a report with rows or without, and with events or without."""
    names = (
        name
        for name, form in FORMS.items()
        if (rows or not form.needs_rows) and (events or not form.needs_events)
    )
    return (TEXT, *names)
