"""What ``frost`` prints."""

from sowtide.report.frost.page import page
from sowtide.report.frost.view import COLUMNS, FrostView, rows, view
from sowtide.report.report import Report, Rows

REPORT = Report(FrostView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "FrostView", "view"]
