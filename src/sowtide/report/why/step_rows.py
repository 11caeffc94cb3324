"""How the dates of a wave are counted, as one table."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sowtide.report.why.view import WhyView

COLUMNS = ("wave", "stage", "date", "rule", "days", "reached", "text", "file", "line", "source")


def rows(of: WhyView) -> Iterator[dict[str, Any]]:
    """Yield a row for each step of each date; the last of a date reaches that date."""
    for dated in of.dates:
        for step in dated.steps:
            yield {
                "wave": of.wave,
                "stage": dated.stage,
                "date": dated.date,
                "rule": step.rule,
                "days": step.days,
                "reached": step.date,
                "text": step.text,
                "file": step.file,
                "line": step.line,
                "source": step.source,
            }
