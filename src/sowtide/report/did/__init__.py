"""What ``did`` prints."""

from __future__ import annotations

from sowtide.report.did.page import entries
from sowtide.report.did.view import COLUMNS, EntriesView, rows
from sowtide.report.report import Report, Rows

REPORT = Report(EntriesView, entries, Rows(COLUMNS, rows))
"""The entries of a season."""

__all__ = ["REPORT"]
