"""What ``needs`` prints."""

from sowtide.report.needs.page import page
from sowtide.report.needs.view import COLUMNS, NeedsView, rows, view
from sowtide.report.report import Report, Rows

REPORT = Report(NeedsView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "NeedsView", "view"]
