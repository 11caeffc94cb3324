"""The examples in the documents, run: ``python tests/docs_blocks.py --update`` rewrites them.

A document's ``console`` blocks are run in order in one folder of their own, its ``yaml`` blocks
that are marked write the files they need:

``<!-- file: NAME -->``
    The block is the whole file.
``<!-- part: NAME -->``
    The block takes the place of the sections it names in that file.

In a console block a line that begins with ``$ `` is a command, what follows it is everything that
the command prints to stdout and stderr together; ``...`` alone on a line stands for any lines.
"""

from __future__ import annotations

import gc
import io
import os
import re
import shlex
import sys
import tempfile
from collections.abc import Iterator
from contextlib import chdir, contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

import man_page
import pictures

ROOT = Path(__file__).parents[1]
ANY = "..."
"""Stands for any lines of an output."""

_FENCE = re.compile(r"^(`{3,}|~{3,})(\w*)\s*$")
_MARK = re.compile(r"^<!-- (file|part): (\S+) -->$")
_SECTION = re.compile(r"(?m)^(?=\w)")
_ENVIRONMENT = {"LINES": "24", "TZ": "UTC", "TERM": "xterm"}
_REMOVED = ("NO_COLOR", "SOWTIDE_GARDEN")


@dataclass(frozen=True, slots=True)
class Block:
    """A fenced block of a document.

    Parameters
    ----------
    language
        What stands after the fence.
    lines
        What stands in it.
    start
        Line of the opening fence, counted from 1.
    mark
        ``file`` or ``part`` and the name, if the block has a mark.
    """

    language: str
    lines: tuple[str, ...]
    start: int
    mark: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Command:
    """A command of a console block, with the output that the document gives it."""

    line: str
    number: int
    expected: tuple[str, ...]

    @property
    def words(self) -> list[str]:
        """The command and its arguments."""
        return shlex.split(self.line)

    @property
    def is_ours(self) -> bool:
        """Whether it runs sowtide."""
        return self.words[0] == "sowtide"

    @property
    def depends_on_the_clock(self) -> bool:
        """Whether it would print another thing on another day."""
        timeless = {"--today", "--demo", "--help", "-h", "--version", "schema", "help"}
        return self.is_ours and not any(word.split("=")[0] in timeless for word in self.words)


def documents() -> list[Path]:
    """Return every document with examples."""
    pages = (ROOT / "docs").glob("*.md")
    return [
        ROOT / "README.md",
        ROOT / "DEVELOPERS.md",
        ROOT / "examples" / "README.md",
        *sorted(pages),
    ]


def blocks(text: str) -> Iterator[Block]:
    """Yield the fenced blocks of a document in order."""
    lines = text.split("\n")
    mark: tuple[str, str] | None = None
    number = 0
    while number < len(lines):
        found = _FENCE.match(lines[number])
        if found is None:
            marked = _MARK.match(lines[number])
            if marked is not None:
                mark = (marked[1], marked[2])
            elif lines[number].strip():
                mark = None
            number += 1
            continue
        start, fence = number, found[1]
        number += 1
        while lines[number].rstrip() != fence:
            number += 1
        yield Block(found[2], tuple(lines[start + 1 : number]), start + 1, mark)
        mark = None
        number += 1


def commands(block: Block) -> Iterator[Command]:
    """Yield the commands of a console block."""
    starts = [i for i, line in enumerate(block.lines) if line.startswith("$ ")]
    if not starts or starts[0] != 0:
        raise ValueError(f"line {block.start}: a console block begins with '$ ' and a command")
    for start, end in zip(starts, [*starts[1:], len(block.lines)], strict=True):
        output = block.lines[start + 1 : end]
        yield Command(block.lines[start][2:], block.start + 1 + start, output)


@dataclass(slots=True)
class Folder:
    """The folder that a document's examples run in."""

    path: Path
    exit_code: int = 0
    columns: int = 80

    def write(self, block: Block) -> None:
        """Write the file, or the part of a file, that a marked block holds."""
        assert block.mark is not None
        how, name = block.mark
        text = "\n".join(block.lines) + "\n"
        target = self.path / name
        target.parent.mkdir(parents=True, exist_ok=True)
        if how == "part":
            text = _with_sections(target.read_text(encoding="utf-8"), text)
        target.write_text(text, encoding="utf-8")

    def errors_of(self, block: Block) -> list[str]:
        """Return what is wrong with the garden's file that a marked block writes to."""
        from sowtide.diagnostics import Severity
        from sowtide.season import load

        assert block.mark is not None
        return [
            f"{problem.message} [{problem.code}]"
            for problem in load(self.path / block.mark[1]).problems
            if problem.severity is Severity.ERROR
        ]

    def run(self, command: Command) -> tuple[str, ...]:
        """Run a command; return the lines it prints."""
        words = command.words
        if command.line == "echo $?":
            return (str(self.exit_code),)
        if words[0] == "cat" and len(words) == 2:
            text = (self.path / words[1]).read_text(encoding="utf-8")
        elif command.is_ours:
            self.exit_code, text = sowtide(words[1:], self.path, self.columns)
        else:
            raise ValueError(f"line {command.number}: not a command of sowtide: {command.line}")
        return tuple(line.rstrip() for line in text.rstrip("\n").split("\n")) if text else ()


def sowtide(arguments: list[str], folder: Path, columns: int = 80) -> tuple[int, str]:
    """Run sowtide in a folder as from a shell; return its exit code and all it prints."""
    from planned_once import planned_once
    from sowtide.cli import main

    said = io.BytesIO()
    out = io.TextIOWrapper(said, encoding="utf-8", newline="", write_through=True)
    environment = {k: v for k, v in os.environ.items() if k not in _REMOVED} | _ENVIRONMENT
    environment["COLUMNS"] = str(columns)
    with (
        mock.patch.dict(os.environ, environment, clear=True),
        mock.patch.object(sys, "argv", ["sowtide", *arguments]),
        mock.patch("sowtide.cli.options.season_of", planned_once),
        chdir(folder),
        redirect_stdout(out),
        redirect_stderr(out),
    ):
        try:
            main()
            code: object = 0
        except SystemExit as leaving:
            code = leaving.code
        finally:
            gc.enable()
    return int(code) if isinstance(code, int) else 0, said.getvalue().decode()


@contextmanager
def folder_of_its_own() -> Iterator[Folder]:
    """Give a folder that is gone afterwards."""
    with tempfile.TemporaryDirectory() as name:
        yield Folder(Path(name))


def agrees(expected: tuple[str, ...], printed: tuple[str, ...]) -> bool:
    """Whether an output is the one expected, ``...`` standing for any lines."""
    parts = _split(expected)
    if len(parts) == 1:
        return parts[0] == printed
    first, *middle, last = parts
    if printed[: len(first)] != first:
        return False
    at = len(first)
    for part in middle:
        while printed[at : at + len(part)] != part:
            at += 1
            if at + len(part) > len(printed):
                return False
        at += len(part)
    return len(printed) - len(last) >= at and printed[len(printed) - len(last) :] == last


def refreshed(expected: tuple[str, ...], printed: tuple[str, ...]) -> tuple[str, ...]:
    """Return the output as it is printed now, leaving out what the document leaves out."""
    if agrees(expected, printed):
        return expected
    parts = _split(expected)
    if len(parts) == 1:
        return printed
    result: list[str] = []
    at = 0
    for number, part in enumerate(parts):
        if number:
            result.append(ANY)
        if number == 0:
            begins = 0
        elif number == len(parts) - 1 and part:
            begins = max(at, len(printed) - len(part))
        else:
            begins = _nearest(part, printed, at)
        shown = printed[begins : begins + len(part)]
        result += shown
        at = begins + len(shown)
    return tuple(result)


def _split(expected: tuple[str, ...]) -> list[tuple[str, ...]]:
    parts: list[tuple[str, ...]] = []
    begins = 0
    for number, line in enumerate(expected):
        if line == ANY:
            parts.append(expected[begins:number])
            begins = number + 1
    return [*parts, expected[begins:]]


def _nearest(part: tuple[str, ...], printed: tuple[str, ...], at: int) -> int:
    """Where lines most like some others stand in an output, from a line on."""
    from difflib import SequenceMatcher

    def likeness(begins: int) -> float:
        window = printed[begins : begins + len(part)]
        pairs = zip(part, window, strict=False)
        return sum(SequenceMatcher(None, a, b).ratio() for a, b in pairs)

    return max(range(at, max(at + 1, len(printed) - len(part) + 1)), key=likeness)


def _with_sections(whole: str, part: str) -> str:
    """Replace the sections of a garden's file that a part of it names; add what is new."""
    sections = [text for text in _SECTION.split(whole) if text.strip()]
    for new in (text for text in _SECTION.split(part) if text.strip()):
        key = new.partition(":")[0] + ":"
        numbers = [i for i, old in enumerate(sections) if old.startswith(key)]
        if numbers:
            sections[numbers[0]] = new
        else:
            sections.append(new)
    return "".join(sections)


def update(path: Path) -> bool:
    """Rewrite the outputs in a document to what is printed now; return whether any changed."""
    text = path.read_text(encoding="utf-8")
    lines = text.split("\n")
    moved = 0
    with folder_of_its_own() as folder:
        for block in blocks(text):
            if block.mark:
                folder.write(block)
            if block.language != "console":
                continue
            for command in commands(block):
                new = refreshed(command.expected, folder.run(command))
                begins = command.number + moved
                lines[begins : begins + len(command.expected)] = new
                moved += len(new) - len(command.expected)
    after = "\n".join(lines)
    if after != text:
        path.write_text(after, encoding="utf-8")
    return after != text


if __name__ == "__main__":
    if sys.argv[1:2] != ["--update"]:
        sys.exit("usage: python tests/docs_blocks.py --update [FILE]...")
    for document in [Path(name) for name in sys.argv[2:]] or documents():
        print(f"{'rewritten' if update(document) else 'unchanged'}: {document}")  # noqa: T201
    if not sys.argv[2:]:
        pictures.update()
        man_page.update()
