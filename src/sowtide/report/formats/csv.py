"""Rows as CSV: one head, a row a line."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping
from enum import Enum
from typing import Any

_WORKED_OUT = ("=", "+", "-", "@", "'", "\t", "\r")
_NUMBER = re.compile(r"-[0-9]+(\.[0-9]+)?")


def table(columns: tuple[str, ...], rows: Iterable[Mapping[str, Any]]) -> str:
    """Write a row for each mapping; what is no column is left out.

    A spreadsheet takes a text that begins with ``=``, ``+``, ``-`` or ``@`` for something to work
    out, so an apostrophe stands before such a text, and before one that begins with an apostrophe:
    whoever takes one apostrophe from the head of a cell has the text itself. Numbers are no texts.

    Parameters
    ----------
    columns
        The head.
    rows
        What stands under each name of it: None for nothing; yes and no, closed sets and lists of
        names as they are, which are written here.
    """
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, extrasaction="ignore", lineterminator="\n")
    writer.writeheader()
    for row in rows:
        writer.writerow({name: _harmless(_written(value)) for name, value in row.items()})
    return out.getvalue()


def _written(value: Any) -> Any:
    """Return a cell as it is written: yes or no, the word of a closed set, names in a row."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Enum):
        return value.value
    return " ".join(value) if isinstance(value, tuple) else value


def _harmless(value: Any) -> Any:
    """Return a cell that no spreadsheet works out, with an apostrophe before it if it would."""
    if not isinstance(value, str) or not value.startswith(_WORKED_OUT) or _NUMBER.fullmatch(value):
        return value
    return f"'{value}"
