"""What ``supply`` prints."""

from sowtide.report.report import Report, Rows
from sowtide.report.supply.page import page
from sowtide.report.supply.view import COLUMNS, SupplyView, rows, view

REPORT = Report(SupplyView, page, Rows(COLUMNS, rows))

__all__ = ["REPORT", "SupplyView", "view"]
