"""Where numbers come from, as reports say it: a line of the file, a few words, or a source."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from sowtide.garden.library import source
from sowtide.reasons import Origin
from sowtide.report.blocks import Block, Heading, Space, Text

_UNSOURCED = {
    "practice": "common practice, no source",
    "memory": "from memory",
    "sowtide": "sowtide's own rule",
}


@dataclass(slots=True)
class Sources:
    """Published sources met so far, numbered in the order of their first use."""

    keys: list[str] = field(default_factory=list)

    def name(self, origin: Origin) -> str:
        """Name where a number comes from: file and line, a few words, or a number in brackets."""
        named = self.mark(origin)
        return f"source {named}" if named.startswith("[") else named

    def mark(self, origin: Origin) -> str:
        """Name it in as few words as there are, a published source by its number alone."""
        if origin.file is not None:
            return f"{origin.file}:{origin.line}" if origin.line else origin.file
        if origin.source is None:
            return _UNSOURCED["sowtide"]
        if origin.source in _UNSOURCED:
            return _UNSOURCED[origin.source]
        if origin.source not in self.keys:
            self.keys.append(origin.source)
        return f"[{self.keys.index(origin.source) + 1}]"

    def cited(self) -> Iterator[Block]:
        """List the sources met so far, with how far each is to be trusted; nothing if none was."""
        if not self.keys:
            return
        yield Space()
        yield Heading("SOURCES")
        for number, key in enumerate(self.keys, 1):
            yield Text(f"{citation(key)} ({key})", first=f"[{number}] ")


def citation(key: str) -> str:
    """Return the full citation of a source, or its key where the library does not know it."""
    if key in _UNSOURCED:
        return _UNSOURCED[key]
    try:
        return source(key)
    except KeyError:
        return key
