"""What ``fits --bed`` prints."""

from sowtide.report.into_bed.page import page
from sowtide.report.into_bed.view import COLUMNS, IntoBedView, rows, view
from sowtide.report.report import Report, Rows

REPORT = Report(IntoBedView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "view"]
