"""The form of every result for other programs: one JSON object, or one table of CSV."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TypeAlias

Value: TypeAlias = "str | int | float | bool | Sequence[Value] | Mapping[str, Value] | None"
Object: TypeAlias = dict[str, Value]

_WORKED_OUT = ("=", "+", "-", "@", "'", "\t", "\r")
_NUMBER = re.compile(r"-[0-9]+(\.[0-9]+)?")

VERSION = 1
"""Of the form of the JSON; it changes only if a field ever has to go."""


def document(fields: Object) -> str:
    """Write one object, a list's items each on a line of its own, so that files can be compared."""
    lines = [f'  "version": {VERSION}']
    for name, value in fields.items():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            items = ",\n".join(f"    {json.dumps(item)}" for item in value)
            lines.append(f"  {json.dumps(name)}: [\n{items}\n  ]")
        else:
            lines.append(f"  {json.dumps(name)}: {json.dumps(value)}")
    return "{\n" + ",\n".join(lines) + "\n}\n"


def _harmless(value: Value) -> Value:
    """Return a cell that no spreadsheet works out, with an apostrophe before it if it would."""
    if not isinstance(value, str) or not value.startswith(_WORKED_OUT) or _NUMBER.fullmatch(value):
        return value
    return f"'{value}"


def table(columns: tuple[str, ...], rows: Iterable[Object]) -> str:
    """Write a row for each object; what is no column is left out.

    A spreadsheet takes a text that begins with ``=``, ``+``, ``-`` or ``@`` for something to work
    out, so an apostrophe stands before such a text, and before one that begins with an apostrophe:
    whoever takes one apostrophe from the head of a cell has the text itself. Numbers are no texts.
    """
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, extrasaction="ignore", lineterminator="\n")
    writer.writeheader()
    for row in rows:
        writer.writerow({name: _harmless(value) for name, value in row.items()})
    return out.getvalue()
