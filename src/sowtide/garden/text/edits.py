"""Changes to a file's text in place: all that is not changed stays as the grower wrote it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sowtide.garden.text.positions import Branch, Path, Tree


class Edits:
    """Changes to a file, written out all at once.

    Parameters
    ----------
    tree
        The file; it is a mapping, written on lines of its own, and nothing is wrong with it.
    """

    def __init__(self, tree: Tree) -> None:
        self._tree = tree
        self._lines = list(tree.source.lines)
        self._changes: list[tuple[int, int, int, str]] = []
        """Line, column and length of what is replaced, and by what."""
        self._above: dict[int, list[str]] = {}
        self._below: dict[int, list[str]] = {}
        self._gone: set[int] = set()

    def texts(self) -> Iterator[tuple[Path, str]]:
        """Yield the plain texts of the file with where they stand."""
        waiting: list[tuple[Path, Any]] = [((), self._tree.root)]
        while waiting:
            path, at = waiting.pop()
            if type(at) is not Branch:
                yield path, at.value
            elif at.keys is None:
                waiting += [((*path, number), each) for number, each in enumerate(at.values)]
            else:
                waiting += [((*path, key), each) for key, each in at.values.items()]

    def replace(self, path: Path, text: str) -> None:
        """Write another text in the place of the one a path leads to."""
        event = self._tree.at(path)
        start, end = event.start_mark, event.end_mark
        self._changes.append((start.line, start.column, end.column - start.column, text))

    def add_key(self, path: Path, key: str, value: str) -> None:
        """Write a new key into the mapping a path leads to, behind its first key."""
        branch = self._tree.branch(path)
        first, placed = next(iter(branch.keys.items())), next(iter(branch.values.values()))  # type: ignore[union-attr]
        if branch.event.flow_style:
            start = first[1].start_mark
            self._changes.append((start.line, start.column, 0, f"{key}: {value}, "))
            return
        indent = " " * first[1].start_mark.column
        self._below.setdefault(self._last_line(placed), []).append(f"{indent}{key}: {value}")

    def add_first(self, path: Path, key: str, value: str) -> None:
        """Write a new key into the mapping a path leads to, before all others."""
        branch = self._tree.branch(path)
        start = next(iter(branch.keys.values())).start_mark  # type: ignore[union-attr]
        rest = ", " if branch.event.flow_style else f"\n{' ' * start.column}"
        self._changes.append((start.line, start.column, 0, f"{key}: {value}{rest}"))

    def add_item(self, path: Path, text: str) -> None:
        """Write a new item below the last one of the list a path leads to."""
        branch = self._tree.branch(path)
        last = branch.values[-1]
        if branch.event.flow_style:
            start = self._begin(branch.values[0])
            self._changes.append((*start, 0, f"{text}, "))
            return
        line, column = self._begin(branch.values[0])
        indent = self._lines[line][:column].replace("\t", " ")
        self._below.setdefault(self._last_line(last), []).append(f"{indent}{text}")

    def remark(self, path: Path, text: str) -> None:
        """Write a remark above the item a path leads to."""
        line, column = self._begin(self._tree.at(path))
        indent = len(self._lines[line]) - len(self._lines[line].lstrip())
        if self._lines[line][:column].strip() in ("", "-"):  # it begins its line
            self._above.setdefault(line, []).append(f"{' ' * indent}# {text}")

    def leave_out(self, path: Path) -> bool:
        """Leave out an item of a list that stands on lines of its own; say whether it could."""
        *before, number = path
        branch, at = self._tree.branch(tuple(before)), self._tree.at(path)
        if branch.event.flow_style or len(branch.values) == 1:
            return False
        assert isinstance(number, int)  # of a list
        self._gone |= set(range(self._begin(at)[0], self._last_line(at) + 1))
        return True

    def text(self) -> str:
        """Return the file as it is changed."""
        lines = list(self._lines)
        for line, column, length, text in sorted(self._changes, reverse=True):
            whole = lines[line]
            lines[line] = whole[:column] + text + whole[column + length :]
        written: list[str] = []
        for number, text in enumerate(lines):
            if number not in self._gone:
                written += [*self._above.get(number, ()), text]
            written += self._below.get(number, ())
        return "\n".join(written).rstrip("\n") + "\n"

    def _begin(self, at: Any) -> tuple[int, int]:
        """Line and column of the first sign of a value."""
        mark = (at.event if type(at) is Branch else at).start_mark
        return mark.line, mark.column

    def _last_line(self, at: Any) -> int:
        """The last line of a value, or the one its closing bracket stands on."""
        if type(at) is not Branch:
            end = at.end_mark
            # A text of several lines ends at the beginning of the line behind it.
            return int(end.line - (end.column == 0 and end.line > at.start_mark.line))
        inside = at.values.values() if at.keys is not None else at.values
        line = max((self._last_line(each) for each in inside), default=at.event.start_mark.line)
        if at.event.flow_style:
            closing = "}" if at.keys is not None else "]"
            opened = self._begin(at)[0]
            while self._closed(opened, line, closing) < 0:
                line += 1
        return int(line)

    def _closed(self, first: int, last: int, closing: str) -> int:
        """Say by how many brackets of a kind some lines close more than they open; 0 if alike."""
        opening = "{" if closing == "}" else "["
        text = "\n".join(line.partition(" #")[0] for line in self._lines[first : last + 1])
        return text.count(closing) - text.count(opening)
