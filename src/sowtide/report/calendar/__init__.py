"""What ``calendar`` prints."""

from __future__ import annotations

from sowtide.report.calendar.page import page
from sowtide.report.calendar.view import CalendarView, view
from sowtide.report.report import Report

REPORT = Report(CalendarView, page)

__all__ = ["REPORT", "CalendarView", "view"]
