"""What ``fits --instead-of`` prints."""

from sowtide.report.instead_of.page import page
from sowtide.report.instead_of.view import InsteadOfView, view
from sowtide.report.report import Report

REPORT = Report(InsteadOfView, page)

__all__ = ["REPORT", "view"]
