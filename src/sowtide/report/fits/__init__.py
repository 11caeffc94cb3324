"""What ``fits CROP`` prints."""

from sowtide.report.fits.page import page
from sowtide.report.fits.view import COLUMNS, FitsView, rows, view
from sowtide.report.report import Report, Rows

REPORT = Report(FitsView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "FitsView", "view"]
