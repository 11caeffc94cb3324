"""What ``plan --labels`` prints."""

from sowtide.report.labels.page import page
from sowtide.report.labels.view import COLUMNS, LabelsView, rows, view
from sowtide.report.report import Report, Rows

REPORT = Report(LabelsView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "view"]
