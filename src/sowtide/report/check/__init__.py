"""What ``check`` prints."""

from __future__ import annotations

from sowtide.report.check.page import page
from sowtide.report.check.view import CheckView, view
from sowtide.report.report import Report

REPORT = Report(CheckView, page)

__all__ = ["REPORT", "view"]
