"""What ``week`` prints."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sowtide.report.report import Report, Rows
from sowtide.report.week.page import page
from sowtide.report.week.view import COLUMNS, WeekBy, WeekView, rows, view

if TYPE_CHECKING:  # only where a calendar file is asked for
    from sowtide.report.events import SeasonEvents


def _events(of: WeekView) -> SeasonEvents:
    from sowtide.report.week.task_events import events

    return events(of)


REPORT = Report(WeekView, page, Rows(COLUMNS, rows), _events)

__all__ = ["REPORT", "WeekBy", "WeekView", "view"]
