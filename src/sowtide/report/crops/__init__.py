"""What ``crops`` prints."""

from sowtide.report.crops.page import page
from sowtide.report.crops.view import COLUMNS, CropsView, rows, view
from sowtide.report.report import Report, Rows

REPORT = Report(CropsView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "view"]
