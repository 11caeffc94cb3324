"""What ``fits`` prints without a crop."""

from sowtide.report.openings.page import page
from sowtide.report.openings.view import COLUMNS, OpeningsView, rows, view
from sowtide.report.report import Report, Rows

REPORT = Report(OpeningsView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "OpeningsView", "view"]
