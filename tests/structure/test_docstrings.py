"""The examples in the docstrings print what stands there."""

from __future__ import annotations

import doctest
from importlib import import_module

import pytest

from structure.code import FILES

WITH_EXAMPLES = [name for name, path in FILES.items() if ">>> " in path.read_text(encoding="utf-8")]


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_an_example_prints_what_stands_there(name: str) -> None:
    failed, tried = doctest.testmod(import_module(name))
    assert tried
    assert not failed


def test_there_are_examples() -> None:
    assert len(WITH_EXAMPLES) > 20
