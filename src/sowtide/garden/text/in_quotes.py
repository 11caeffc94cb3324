"""Texts as they are written into a file, in quotes where they would mean something else."""

from __future__ import annotations

import re

_MEANS_ITSELF = re.compile(r"[^\W_](?:[\w ./()+-]*[\w./()+-])?")


def as_written(text: str) -> str:
    """Write a text so that a file reads it as it is, in brackets and braces too.

    Examples
    --------
    >>> as_written("Long 1"), as_written("Hill, top")
    ('Long 1', "'Hill, top'")
    """
    return text if _MEANS_ITSELF.fullmatch(text) else in_quotes(text)


def in_quotes(text: str) -> str:
    """Write a text in quotes, its own doubled."""
    doubled = text.replace("'", "''")
    return f"'{doubled}'"
