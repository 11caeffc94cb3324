"""What ``fits --bed`` prints."""

from __future__ import annotations

from sowtide.report.into_bed.page import page
from sowtide.report.into_bed.view import IntoBedView, view
from sowtide.report.report import Report

REPORT = Report(IntoBedView, page)

__all__ = ["REPORT", "IntoBedView", "view"]
