"""What gardens full of edges are answered is what was kept, byte for byte."""

from __future__ import annotations

import pytest

from kept.answers import Kept, difference, kept


@pytest.mark.parametrize("garden", kept(), ids=lambda each: each.name)
def test_answers_are_those_that_were_kept(garden: Kept) -> None:
    before, now = garden.text, garden.answered()
    if now != before:
        said = difference(before, now)
        pytest.fail(f"now (python tests/kept/answers.py --update {garden.name}):\n{said}", False)
