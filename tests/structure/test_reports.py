"""A report is a view and a page: only views ask the engine, and every report is in the table."""

from __future__ import annotations

import ast
from collections.abc import Iterator

import pytest

from sowtide.report import REPORTS
from structure.code import FILES, nodes, room

ENGINE = ("sowtide.schedule", "sowtide.climate", "sowtide.season")
REPORT_MODULES = [name for name in FILES if name.startswith("sowtide.report.")]
ROOMS = sorted({room(name) for name in REPORT_MODULES if name.endswith(".view")})


def _is_view(name: str) -> bool:
    module = name.rpartition(".")[2]
    return module == "view" or module.endswith("_view")


def functions_of_the_engine(name: str) -> Iterator[str]:
    """Yield what a module imports of the engine that is no value and no constant."""
    for node in nodes(name):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(ENGINE):
            yield from (alias.name for alias in node.names if alias.name[0].islower())


def test_only_views_call_the_engine() -> None:
    calling = {name for name in REPORT_MODULES if any(functions_of_the_engine(name))}
    assert {name for name in calling if not _is_view(name)} == set()
    assert calling  # else the engine is called by another name


@pytest.mark.parametrize("name", [each for each in REPORT_MODULES if ".formats." in f"{each}."])
def test_a_form_knows_no_command(name: str) -> None:
    imported = {node.module or "" for node in nodes(name) if isinstance(node, ast.ImportFrom)}
    assert [module for module in imported if module.startswith(tuple(ROOMS))] == []


def test_every_room_with_a_view_has_its_reports_in_the_table() -> None:
    named = {f"{report.of.__module__}".rpartition(".")[0] for report in REPORTS.values()}
    assert named == set(ROOMS)
    assert all(f"{each}.page" in FILES for each in ROOMS)
