"""Values in a printer's quotes, ``“Long 1”``, which part nothing from nothing here."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sowtide.garden.text import Branch, Findings, Tree, in_quotes

_CLOSING = {"“": "”", "„": "“”", "”": "”", "‘": "’", "‚": "‘’"}


def check_curly_quotes(findings: Findings) -> bool:
    """Add a problem for each value or key that stands in curly quotes; say whether there is one."""
    text = findings.tree.source.text
    if text.isascii() or not any(sign in text for sign in _CLOSING) or not findings.tree.root:
        return False
    before = len(findings.problems)
    _look(findings.tree, findings.tree.root, findings)
    return len(findings.problems) > before


def _look(tree: Tree, branch: Branch, findings: Findings) -> None:
    behind = (0, 0)  # where the last quoted text ended, commas and all
    for place in _parts(branch):
        if type(place) is Branch:
            _look(tree, place, findings)
            continue
        mark = place.start_mark
        if (mark.line, mark.column) < behind:
            continue  # the rest of it, behind a comma
        end = _end_of_quote(tree, place)
        if end is not None:
            behind = (mark.line, end)
            _refuse(tree, mark.line, mark.column, end, findings)


def _parts(branch: Branch) -> Iterator[Any]:
    """Yield the places of a list's entries, or of a mapping's keys and values in turn."""
    if branch.keys is None:
        yield from branch.values
        return
    for key, event in branch.keys.items():
        yield event
        yield branch.values[key]


def _end_of_quote(tree: Tree, place: Any) -> int | None:
    text = getattr(place, "value", "")
    closing = _CLOSING.get(text[:1])
    if closing is None or place.style:
        return None
    mark = place.start_mark
    line = tree.source.lines[mark.line]
    ends = [at + 1 for at, char in enumerate(line) if at > mark.column and char in closing]
    return next(iter(ends), None)


def _refuse(tree: Tree, line: int, column: int, end: int, findings: Findings) -> None:
    inside = tree.source.lines[line][column + 1 : end - 1]
    findings.add(
        "quote",
        "these are curly quotes, as in print; only straight ones hold a text together",
        f"write {in_quotes(inside)}",
        tree.source.span(line, column, end - column),
    )
