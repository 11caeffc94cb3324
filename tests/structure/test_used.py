"""What is written is used: nothing stands there for the tests alone."""

from __future__ import annotations

import ast
import re
from collections import Counter

from structure.code import FILES, ROOT, nodes, tree

FOR_THE_DOCUMENTS = {"source_keys"}  # docs/crops.md is made with it
FOR_OTHERS = ("sowtide", "sowtide.library")
"""What these hand out is for programs."""


def names_used() -> Counter[str]:
    """Count the names that are used, those in texts and templates among them."""
    used: Counter[str] = Counter()
    for name in FILES:
        for node in nodes(name):
            if isinstance(node, ast.Name):
                used[node.id] += isinstance(node.ctx, ast.Load)
            elif isinstance(node, ast.Attribute):
                used[node.attr] += 1
            elif isinstance(node, ast.Constant) and isinstance(node.value, str):
                used[node.value] += node.value.isidentifier()
    for template in ROOT.rglob("*.html"):
        used.update(re.findall(r"\w+", template.read_text(encoding="utf-8")))
    return used


def handed_out(name: str) -> list[str]:
    """Return what a module says in its ``__all__``, where every name stands once more."""
    return [
        each.value
        for node in tree(name).body
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__"
        for each in ast.walk(node.value)
        if isinstance(each, ast.Constant)
    ]


def test_nothing_is_written_that_nothing_uses() -> None:
    used = names_used()
    used.subtract(Counter(each for name in FILES for each in handed_out(name)))
    unused = [
        f"{name}.{node.name}"
        for name in FILES
        if name not in FOR_OTHERS
        for node in tree(name).body
        if isinstance(node, ast.FunctionDef | ast.ClassDef)
        if not node.name.startswith("__") and node.name not in FOR_THE_DOCUMENTS
        if used[node.name] <= 0
    ]
    assert unused == []
