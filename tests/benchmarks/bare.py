"""The least a command could cost: its files read, its garden composed, and nothing else.

Called with the files to read; a ``.yaml`` is composed, of every other one the text is read.
"""

import sys
from pathlib import Path

import click  # noqa: F401 — its import is part of what is measured
import yaml

for path in map(Path, sys.argv[1:]):
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".yaml":
        yaml.compose(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
