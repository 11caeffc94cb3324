"""What ``frost --tonight`` prints."""

from sowtide.report.report import Report, Rows
from sowtide.report.tonight.page import page
from sowtide.report.tonight.view import COLUMNS, TonightView, rows, view

REPORT = Report(TonightView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "TonightView", "view"]
