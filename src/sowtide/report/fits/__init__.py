"""What ``fits CROP`` prints."""

from __future__ import annotations

from sowtide.report.fits.page import page
from sowtide.report.fits.view import FitsView, view
from sowtide.report.report import Report

REPORT = Report(FitsView, page)

__all__ = ["REPORT", "FitsView", "view"]
