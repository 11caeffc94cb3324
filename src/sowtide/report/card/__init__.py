"""What ``crops NAME`` prints."""

from sowtide.report.card.page import page
from sowtide.report.card.view import COLUMNS, CardView, cover_view, rows, view
from sowtide.report.report import Report, Rows

REPORT = Report(CardView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "cover_view", "view"]
