"""Values cut short by a comment that was not meant as one: ``bed: #3``."""

from __future__ import annotations

from typing import Any

from sowtide.garden.text import Branch, Findings, Path, Tree, in_quotes

_NAMING = frozenset(("name", "bed", "beds", "crop", "variety", "like", "family", "help"))


def check_comments(findings: Findings) -> None:
    """Add a problem for each value that ends where a ``#`` begins a word of its own.

    A comment has a space after its ``#``; ``#3`` and ``#early`` are more likely part of a name.
    """
    tree = findings.tree
    if "#" not in tree.source.text:
        return
    import re

    cut = re.compile(r"[ \t](#[^\s#].*)")
    lines: dict[int, Any] = {}
    for number, line in enumerate(tree.source.lines):
        found = cut.search(line)
        if found is not None:
            lines[number] = found
    if lines and tree.root is not None:
        _look(tree, tree.root, (), lines, findings)


def _look(
    tree: Tree, branch: Branch, path: Path, lines: dict[int, Any], findings: Findings
) -> None:
    steps: Any = branch.values.items() if branch.keys is not None else enumerate(branch.values)
    for step, value in steps:
        if type(value) is Branch:
            _look(tree, value, (*path, step), lines, findings)
            continue
        end = value.end_mark
        found = lines.get(end.line)
        if found is None or tree.source.lines[end.line][end.column : found.start(1)].strip(" \t"):
            continue
        text = getattr(value, "value", "")
        name = step if isinstance(step, str) else path[-1] if path else ""
        if text and (name not in _NAMING or value.style):
            continue
        span = tree.source.span(end.line, found.start(1), len(found[1].rstrip()))
        whole = f"{text} {found[1].rstrip()}".strip()
        what = f"{name}: " if isinstance(name, str) else ""
        tree.settled.add(id(value))
        findings.add(
            "comment",
            f"{what}a # begins a comment, so "
            + (f"only '{text}' is read" if text else "nothing is read"),
            f"put it in quotes: {in_quotes(whole)}; a comment has a space after its #",
            span,
        )
