"""What ``week`` prints."""

from __future__ import annotations

from sowtide.report.report import Report, Rows
from sowtide.report.week.page import page
from sowtide.report.week.task_events import events
from sowtide.report.week.view import COLUMNS, WeekBy, WeekView, rows, view

REPORT = Report(WeekView, page, Rows(COLUMNS, rows), events)

__all__ = ["REPORT", "WeekBy", "WeekView", "view"]
