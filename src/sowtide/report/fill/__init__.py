"""What ``supply --fill`` prints."""

from __future__ import annotations

from sowtide.report.fill.page import page
from sowtide.report.fill.view import FillView, pasted, view
from sowtide.report.report import Report

REPORT = Report(FillView, page, saved=pasted)

__all__ = ["REPORT", "FillView", "view"]
