"""The least a command could cost: its libraries imported and its files read, and nothing else.

Called with the modules to import, joined by commas, and the files to read; a ``.yaml`` is composed.
"""

from __future__ import annotations

import sys
from importlib import import_module
from pathlib import Path

for name in sys.argv[1].split(","):
    import_module(name)

import yaml  # noqa: E402 — one of the libraries; its import is part of what is measured
from pydantic import BaseModel  # noqa: E402


class One(BaseModel):
    """A model of one field."""

    field: int


One(field=1)
for path in map(Path, sys.argv[2:]):
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".yaml":
        yaml.compose(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
