"""The tree of DEVELOPERS.md is the tree that stands."""

from __future__ import annotations

from pathlib import Path

from structure.code import ROOT

_DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"
_NO_PACKAGES = {"demo", "garden/library/data"}
"""Folders of data."""


def drawn(text: str) -> list[str]:
    """Return the folders of a tree drawn by indents, each with its path below the first line."""
    block = text.partition("```text\nsrc/sowtide/\n")[2].partition("```")[0]
    found: list[str] = []
    above: list[str] = []
    for line in block.splitlines():
        depth = (len(line) - len(line.lstrip())) // 2 - 1
        for name in line.split("  ")[depth + 1].split():
            if name.endswith("/"):
                above[depth:] = [name.rstrip("/")]
                found.append("/".join(above))
    return found


def test_the_tree_of_the_document_is_the_tree_that_stands() -> None:
    tree = drawn(_DEVELOPERS.read_text(encoding="utf-8"))
    standing = {
        str(folder.relative_to(ROOT).as_posix())
        for folder in ROOT.rglob("*")
        if folder.is_dir() and folder.name != "__pycache__"
    }
    assert len(tree) == len(set(tree))
    assert set(tree) | _NO_PACKAGES == standing | _NO_PACKAGES
