"""What ``why`` prints."""

from __future__ import annotations

from sowtide.report.report import Report
from sowtide.report.why.page import page
from sowtide.report.why.view import WhyView, view

REPORT = Report(WhyView, page)

__all__ = ["REPORT", "WhyView", "view"]
