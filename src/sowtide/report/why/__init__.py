"""What ``why`` prints."""

from sowtide.report.report import Report, Rows
from sowtide.report.why.page import page
from sowtide.report.why.step_rows import COLUMNS, rows
from sowtide.report.why.view import WhyView, view

REPORT = Report(WhyView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "WhyView", "view"]
