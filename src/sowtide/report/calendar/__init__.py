"""What ``calendar`` prints."""

from sowtide.report.calendar.page import page
from sowtide.report.calendar.season_rows import COLUMNS, rows
from sowtide.report.calendar.view import CalendarView, view
from sowtide.report.report import Report, Rows

REPORT = Report(CalendarView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "CalendarView", "view"]
