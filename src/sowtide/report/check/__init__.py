"""What ``check`` prints."""

from sowtide.report.check.page import page
from sowtide.report.check.view import CheckView, view
from sowtide.report.report import Report

REPORT = Report(CheckView, page)

__all__ = ["REPORT", "view"]
