"""A file's text: bytes to a tree of plain text that knows the places of its keys and values."""

from sowtide.garden.text.edits import Edits
from sowtide.garden.text.findings import Findings
from sowtide.garden.text.in_quotes import as_written, in_quotes
from sowtide.garden.text.positions import Branch, EnoughError, Path, Tree
from sowtide.garden.text.refused import Refused, did_you_mean, named, quoted
from sowtide.garden.text.source import Source, bytes_of, decode
from sowtide.garden.text.tree import parse

__all__ = [
    "Branch",
    "Edits",
    "EnoughError",
    "Findings",
    "Path",
    "Refused",
    "Source",
    "Tree",
    "as_written",
    "bytes_of",
    "decode",
    "did_you_mean",
    "in_quotes",
    "named",
    "parse",
    "quoted",
]
