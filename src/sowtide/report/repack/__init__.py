"""What ``plan --repack`` prints."""

from sowtide.report.repack.page import page
from sowtide.report.repack.view import Paste, RepackView, pastes, view
from sowtide.report.report import Report

REPORT = Report(RepackView, page)

__all__ = ["REPORT", "Paste", "pastes", "view"]
