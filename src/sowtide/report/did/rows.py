"""The entries of a journal as JSON and CSV."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Sequence

from sowtide.report.did.view import EntryRow

COLUMNS = tuple(name.strip("_") for name in EntryRow.__match_args__)


def _row(entry: EntryRow) -> dict[str, object]:
    values = (getattr(entry, name) for name in EntryRow.__match_args__)
    row: dict[str, object] = dict(zip(COLUMNS, values, strict=True))
    return row | {"on": entry.on.isoformat(), "did": entry.did.value}


def entries_json(entries: Sequence[EntryRow]) -> str:
    """Write the entries as a JSON document, one a line."""
    rows = ",\n".join(f"    {json.dumps(_row(entry))}" for entry in entries)
    return f'{{\n  "version": 1,\n  "entries": [\n{rows}\n  ]\n}}\n'


def entries_csv(entries: Sequence[EntryRow]) -> str:
    """Write a row for each entry."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(_row(e) | {"sick": "yes" if e.sick else "no"} for e in entries)
    return out.getvalue()
