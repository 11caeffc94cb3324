"""The entries of a journal as JSON and CSV."""

from __future__ import annotations

from collections.abc import Sequence

from sowtide.report.did.view import EntryRow
from sowtide.report.kit.form import Object, document, table

COLUMNS = tuple(name.strip("_") for name in EntryRow.__match_args__)


def _row(entry: EntryRow) -> Object:
    values = (getattr(entry, name) for name in EntryRow.__match_args__)
    row: Object = dict(zip(COLUMNS, values, strict=True))
    return row | {"on": entry.on.isoformat(), "did": entry.did.value}


def entries_json(entries: Sequence[EntryRow]) -> str:
    """Write the entries as a JSON document."""
    return document({"entries": [_row(entry) for entry in entries]})


def entries_csv(entries: Sequence[EntryRow]) -> str:
    """Write a row for each entry."""
    return table(COLUMNS, [_row(e) | {"sick": "yes" if e.sick else "no"} for e in entries])
