"""Rows as CSV: one head, a row a line."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from typing import Any


def table(columns: tuple[str, ...], rows: Iterable[Mapping[str, Any]]) -> str:
    """Write a row for each mapping; what is no column is left out.

    Parameters
    ----------
    columns
        The head.
    rows
        What stands under each name of it; None for nothing.
    """
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, extrasaction="ignore", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()
