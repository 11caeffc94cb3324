"""What ``supply --fill`` prints."""

from sowtide.report.fill.page import page
from sowtide.report.fill.view import COLUMNS, FillView, pasted, rows, view
from sowtide.report.report import Report, Rows

REPORT = Report(FillView, page, Rows(COLUMNS, rows), saved=pasted)

__all__ = ["REPORT", "FillView", "view"]
