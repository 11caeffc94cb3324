"""What ``plan`` prints."""

from sowtide.report.plan.page import page
from sowtide.report.plan.stage_events import events
from sowtide.report.plan.view import COLUMNS, PlanBy, PlanView, rows, view
from sowtide.report.report import Report, Rows

REPORT = Report(PlanView, page, Rows(COLUMNS, rows), events)

__all__ = ["REPORT", "PlanBy", "PlanView", "view"]
