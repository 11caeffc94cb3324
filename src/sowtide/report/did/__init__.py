"""What ``did`` prints."""

from sowtide.report.did.page import answer, due, entries
from sowtide.report.did.view import (
    COLUMNS,
    DUE_COLUMNS,
    DidView,
    DueView,
    EntriesView,
    due_rows,
    rows,
)
from sowtide.report.did.year_page import year_page
from sowtide.report.did.year_view import YEAR_COLUMNS, SeasonView, year_rows
from sowtide.report.report import Report, Rows

REPORT = Report(DidView, answer)
"""What was written, and what it moved."""
DUE = Report(DueView, due, Rows(DUE_COLUMNS, due_rows))
"""What is due and not noted yet."""
ENTRIES = Report(EntriesView, entries, Rows(COLUMNS, rows))
"""The entries of a season."""
YEAR = Report(SeasonView, year_page, Rows(YEAR_COLUMNS, year_rows))
"""The year's page."""

__all__ = ["DUE", "ENTRIES", "REPORT", "YEAR"]
