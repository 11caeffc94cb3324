"""The form of every result for other programs: one JSON object."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import TypeAlias

Value: TypeAlias = "str | int | float | bool | Sequence[Value] | Mapping[str, Value] | None"
Object: TypeAlias = dict[str, Value]

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
