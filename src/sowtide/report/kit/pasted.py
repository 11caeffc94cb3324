"""How a name is written into a file so that it is read as it is."""

from __future__ import annotations

import re

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._/()+-]*")


def pasted_name(name: str) -> str:
    """Write a name so that the file reads it as it is, in brackets too.

    Examples
    --------
    >>> pasted_name("Long 1"), pasted_name("Hill, top")
    ('Long 1', "'Hill, top'")
    """
    if _PLAIN.fullmatch(name):
        return name
    quoted = name.replace("'", "''")
    return f"'{quoted}'"
