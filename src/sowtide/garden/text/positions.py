"""Where every key and value of a file stands.

A tree holds the file's plain values and, beside them, the events they came from; how those came
about does not matter here.
"""

from __future__ import annotations

from typing import Any

from sowtide.diagnostics import Problem, Severity, Span
from sowtide.garden.text.source import Source

Node = dict[str, Any] | list[Any] | str | None
Path = tuple[str | int, ...]


ENOUGH = 1_000
"""Problems of one file after which it is read no further. [1]"""


class EnoughError(Exception):
    """Raised where a file holds so much that it may not that the rest is not read."""


class Branch:
    """Where the parts of a mapping or a list stand.

    Parameters
    ----------
    event
        The event that begins it.
    keys
        The events of a mapping's keys, by name; None for a list.
    values
        The places of its values: events, or branches of their own.
    """

    __slots__ = ("event", "keys", "values")

    def __init__(self, event: Any, *, mapping: bool) -> None:
        self.event = event
        self.keys: dict[str, Any] | None = {} if mapping else None
        self.values: Any = {} if mapping else []

    def line(self, key: str | int) -> int:
        """Return the line of a value, counted from 1."""
        value = self.values[key]
        event = value.event if type(value) is Branch else value
        return int(event.start_mark.line) + 1


class Tree:
    """A parsed file.

    Parameters
    ----------
    source
        Its text.
    value
        What stands in it; empty values are left out of mappings and None in lists.
    root
        Where everything stands, or None where the file holds no mapping or list.
    problems
        What YAML allows and a garden's file does not.
    broken
        Whether it could not be read to its end.
    settled
        Identities of the events and branches of which no more needs to be said.
    aliases
        Names of the aliases that have been refused.
    """

    __slots__ = ("aliases", "broken", "problems", "root", "settled", "source", "value")

    def __init__(self, source: Source) -> None:
        self.source = source
        self.value: Node = None
        self.root: Branch | None = None
        self.problems: list[Problem] = []
        self.broken = False
        self.settled: set[int] = set()
        self.aliases: set[str] = set()

    def refuse(self, code: str, message: str, hint: str, span: Span) -> None:
        """Note a problem.

        Raises
        ------
        EnoughError
            If there are more of them than is worth reading.
        """
        self.problems.append(
            Problem(severity=Severity.ERROR, code=code, message=message, hint=hint, span=span)
        )
        if len(self.problems) >= ENOUGH:
            raise EnoughError

    def place(self, event: Any) -> Span:
        """Return the place of an event, up to the end of its line."""
        start, end = event.start_mark, event.end_mark
        length = end.column - start.column if end.line == start.line else 10**6
        return self.source.span(start.line, start.column, length)

    def walk(self, path: Path) -> tuple[Branch | None, str | int | None, bool]:
        """Follow a path as far as it leads: the last branch, the step in it, whether it is all.

        A step by number is skipped where the file has one value in place of a list of them.
        """
        branch, step, complete = None, None, True
        at: Any = self.root
        for part in path:
            if type(at) is not Branch:
                complete = isinstance(part, int)
                break
            if isinstance(part, int) and at.keys is not None:
                continue
            if isinstance(part, int) and part >= len(at.values):
                complete = False
                break
            if isinstance(part, str) and (at.keys is None or part not in at.values):
                complete = False
                break
            branch, step, at = at, part, at.values[part]
        return branch, step, complete

    def at(self, path: Path) -> Any:
        """Return where the value of a path stands, or None where nothing stands there."""
        branch, step, complete = self.walk(path)
        if not complete:
            return None
        return self.root if branch is None or step is None else branch.values[step]

    def is_written(self, path: Path) -> bool:
        """Say whether anything is written where a path leads."""
        place = self.at(path)
        return type(place) is Branch or bool(getattr(place, "value", ""))

    def branch(self, path: Path) -> Branch:
        """Return the places of the mapping or list that a path leads to.

        Raises
        ------
        KeyError
            If it leads to none.
        """
        at: Any = self.root
        for part in path:
            at = at.values[part]
        if type(at) is not Branch:
            raise KeyError(path)
        return at

    def keys(self, path: Path) -> tuple[str, ...]:
        """Return the keys of the mapping a path leads to; none where it leads to no mapping."""
        branch, step, _ = self.walk(path)
        at: Any = branch.values[step] if branch is not None else None
        return tuple(at.keys or ()) if type(at) is Branch else ()

    def key_of(self, path: Path) -> str | None:
        """Return the key under which the value of a path stands, or None at the top."""
        at: Any = self.root
        found: str | None = None
        for part in path:
            if type(at) is not Branch or (isinstance(part, int) and at.keys is not None):
                continue
            if isinstance(part, str):
                found = part
            elif part >= len(at.values):
                break
            at = at.values[part] if isinstance(part, int) else at.values.get(part)
        return found

    def is_settled(self, path: Path) -> bool:
        """Say whether the value of a path has already been refused by the tree itself."""
        branch, step, _ = self.walk(path)
        if branch is None or step is None:
            return self.root is not None and id(self.root) in self.settled
        return id(branch.values[step]) in self.settled

    def key_span(self, path: Path) -> Span:
        """Return the place of a path's key; of a list's item, its beginning."""
        branch, step, _ = self.walk(path)
        if branch is None or step is None:
            return self._start(self.root)
        if branch.keys is not None:
            return self.place(branch.keys[str(step)])
        return self._start(branch.values[step])

    def value_span(self, path: Path) -> Span:
        """Return the place of a path's value; its key's where the value is not on one line."""
        branch, step, _ = self.walk(path)
        if branch is None or step is None:
            return self._start(self.root)
        value = branch.values[step]
        event = value.event if type(value) is Branch else value
        if getattr(event, "value", ""):
            return self.place(event)
        if type(value) is Branch and value.event.flow_style:
            return self._start(value)
        return self.key_span(path)

    def _start(self, value: Any) -> Span:
        """Return where a value begins: the first key of a mapping, the first item of a list."""
        while type(value) is Branch:
            first = next(iter(value.keys.values()), None) if value.keys else None
            if first is not None and not value.event.flow_style:
                return self.place(first)
            if value.keys is None and value.values and not value.event.flow_style:
                value = value.values[0]
                continue
            return self.place(value.event)
        return self.source.span(0, 0, 10**6) if value is None else self.place(value)
