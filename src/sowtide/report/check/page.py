"""All problems, each with the grower's own line, and a line that counts them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from sowtide.diagnostics import Severity
from sowtide.report.blocks import Block, Fault, FileTitle, Space, Style, Text
from sowtide.report.check.view import CheckView
from sowtide.report.kit import words
from sowtide.report.kit.faults import alike

_THINGS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "note"}


def page(of: CheckView) -> Iterator[Block]:
    """Yield every problem, with it what else has the same, and how many there are of each kind."""
    yield FileTitle("CHECK", "what is wrong with the file and its plan")
    for each in alike(of.problems):
        yield Fault(each.first.problem, each.also)
        yield Space()
    yield _summary(of)


def _summary(of: CheckView) -> Text:
    counts = Counter(each.severity for each in of.problems)
    said = [words.count(counts[each], _THINGS[each]) for each in Severity if counts[each]]
    if not said:
        return Text(("Nothing wrong.", Style.GOOD))
    style = Style.BAD if counts[Severity.ERROR] else Style.WARN
    return Text((words.sentence(words.listed(said)), style))
