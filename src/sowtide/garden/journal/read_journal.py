"""Reading the journal: every entry, or everything that is wrong with it at once.

What sowtide writes, one entry a line, is read by a pattern; all else that YAML allows goes through
the tree of the garden's file. A last line that a crash cut short is stepped over.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

from sowtide.diagnostics import (
    Problem,
    Severity,
    Span,
    has_errors,
    in_file_order,
    unreadable,
)
from sowtide.garden.journal.happening import Happening
from sowtide.garden.journal.of_keys import Amiss, happening_of
from sowtide.garden.keys import not_text
from sowtide.garden.text import Refused, Source, Tree, bytes_of, decode, parse, quoted
from sowtide.values import value

BROKEN_OFF = b"  # broken off here, not read"
"""What is written behind a line that a crash cut short, before the next entry."""

_VALUE = r"(?:'(?:[^'\n]|'')+'|\w[^,:{}\[\]#\"'&*!|>%@`\\\n]*(?<! ))"
_ODD = frozenset("{}[]#\"'&*!|>%@`\\~\t")
"""Signs by which YAML may mean more than it shows."""
_LONG_LINE = 2_000
"""A longer line is read by the tree. [characters]"""


@value
class Journal:
    """What happened, of all seasons, in the order in which it is written."""

    label: str
    """The file, as it is named in messages."""
    happenings: tuple[Happening, ...] = ()
    """What happened; entries that were taken back are left out."""


@value
class JournalRead:
    """What came of reading a journal."""

    journal: Journal | None
    """The journal, or None where any of the problems is an error."""
    problems: tuple[Problem, ...] = ()
    """Everything found, in file order."""
    understood: tuple[Happening, ...] = ()
    """Where there is no journal, the entries that are right whatever the others turn out to say."""


def read_journal(path: Path) -> JournalRead:
    """Read a journal from disk; where there is no such file, nothing has happened yet.

    Raises
    ------
    Unreadable
        If it cannot be opened.
    """
    name = str(path)
    try:
        exists = path.exists()
    except (OSError, ValueError) as error:
        raise unreadable(name, error) from None
    if not exists:
        return JournalRead(Journal(name))
    return journal_of(bytes_of(path, name), name)


def journal_of(data: bytes, label: str) -> JournalRead:
    """Read a journal from the bytes of its file."""
    cut = cut_short(data)
    whole = data[: len(data) - len(cut)] if cut else data
    lines = whole.split(b"\n")
    whole = b"\n".join([b"" if line.endswith(BROKEN_OFF) else line for line in lines])
    source = decode(whole, label)
    if isinstance(source, Problem):
        return JournalRead(None, (source,))
    reader = _Reader(source)
    found = [each for each in reader.read() if each is not None]
    if cut:
        reader.problems.append(_broken_off(cut, source))
    found = _beside_unread(found, source, reader.problems)
    kept = _without_undone(found, reader.problems)
    problems = in_file_order(reader.problems)
    if has_errors(problems):
        understood = _beside_unread(kept, source, reader.problems)
        return JournalRead(None, problems, understood=tuple(understood))
    return JournalRead(Journal(label, tuple(kept)), problems)


def _beside_unread(
    found: list[Happening], source: Source, problems: list[Problem]
) -> list[Happening]:
    """Leave out what hangs on entries with an error: they may take it back, or bring it plants."""
    unread = _unread(source, problems)
    if not unread:
        return found
    named = {name for name in map(_name, found) if _is_word(name, unread)}
    return [each for each in found if _name(each) not in named]


def _unread(source: Source, problems: list[Problem]) -> str:
    """Return the text of the entries with an error."""
    lines = source.lines
    found: list[str] = []
    for line in {each.span.line for each in problems if each.span and has_errors([each])}:
        first = end = min(line, len(lines))
        while first > 1 and not lines[first - 1].startswith("-"):
            first -= 1
        while end < len(lines) and not lines[end].startswith("-"):
            end += 1
        found += lines[first - 1 : end]
    return "\n".join(found)


def _name(each: Happening) -> str:
    return each.wave or each.bed or each.did.value


def _is_word(name: str, text: str) -> bool:
    return re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", text) is not None


def cut_short(data: bytes) -> bytes:
    """Return the last line of a journal if a crash cut it short, else nothing.

    Only a line that has no end and begins as sowtide's own do can be one.
    """
    last = data[data.rfind(b"\n") + 1 :]
    begun = b"- {"
    if not last or not (begun.startswith(last) or last.startswith(begun) or b"\0" in last):
        return b""
    try:
        source = decode(last, "")
        complete = not isinstance(source, Problem) and not parse(source).broken
    except ValueError:
        complete = False
    return b"" if complete and len(last) > len(begun) else last


def _broken_off(cut: bytes, source: Source) -> Problem:
    text = cut.decode("utf-8", "replace").replace("\0", "\ufffd")
    return Problem(
        severity=Severity.WARNING,
        code="journal-broken",
        message="the last line was cut short while it was being written, and is not read",
        hint="note it down once more; what is left of it stays in the file, marked as a comment",
        span=Span(
            file=source.label, line=len(source.lines), column=1, length=max(len(text), 1), text=text
        ),
    )


class _Reader:
    """Reads the lines of a journal, those in a row that are not sowtide's own form as one piece."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.problems: list[Problem] = []

    def read(self) -> Iterator[Happening | None]:
        """Yield the entries in order."""
        lines, begins = self.source.lines, 0
        for number, text in enumerate(lines):
            happening = self._one_line(number, text)
            if happening is not None:
                yield from self._piece(begins, number)
                yield happening
                begins = number + 1
        yield from self._piece(begins, len(lines))

    def _one_line(self, number: int, text: str) -> Happening | None:
        """Read an entry as sowtide writes it, or return None for anything else."""
        if len(text) > _LONG_LINE or text[:3] != "- {" or text[-1:] != "}":
            return None
        keys = _in_quotes(text) if "'" in text else _plain(text[3:-1])
        if keys is None:
            return None
        span = Span(
            file=self.source.label, line=number + 1, column=3, length=len(text) - 2, text=text
        )
        made = happening_of(keys, span)
        return made if type(made) is Happening else None

    def _piece(self, first: int, end: int) -> Iterator[Happening | None]:
        """Read the lines from a first one on, up to but not including another, by the tree."""
        lines = self.source.lines
        if not any(line.strip() and not line.startswith("#") for line in lines[first:end]):
            return
        here = ("",) * first + lines[first:end]
        tree = parse(Source(self.source.label, "\n".join(here), here))
        begins = [n for n in range(first, end) if lines[n].startswith("- ")]
        if tree.broken and len(begins) > 1:  # what is wrong with one entry hides no other
            for one, following in pairwise([first, *begins[1:], end]):
                yield from self._piece(one, following)
            return
        self.problems += tree.problems
        if tree.broken or tree.value is None:
            return
        if not isinstance(tree.value, list):
            self._add(tree, (), Refused("not-a-list", "a journal is a list of entries", _LIKE))
            return
        for number, item in enumerate(tree.value):
            yield self._item(tree, number, item)

    def _item(self, tree: Tree, number: int, item: Any) -> Happening | None:
        path = (number,)
        if tree.is_settled(path):
            return None
        if not isinstance(item, dict):
            what = "an entry must be made of keys and values"
            self._add(tree, path, Refused("not-a-mapping", what, _LIKE))
            return None
        keys, amiss = {}, []
        for key in tree.keys(path):
            word = item.get(key)
            if isinstance(word, str):
                keys[key] = word
            else:
                amiss.append(Amiss(key, not_text(word)))
        span = tree.key_span(path)
        made = happening_of(keys | {each.key: "" for each in amiss if each.key}, span)
        if isinstance(made, list):
            known = {each.key for each in amiss}
            amiss += [each for each in made if each.key not in known or each.key is None]
        for each in amiss:
            if each.key is None:
                self._add(tree, path, each.refused)
            else:
                self._add_to_key(tree, (number, each.key), each.refused)
        return made if isinstance(made, Happening) and not amiss else None

    def _add(self, tree: Tree, path: tuple[int, ...], refused: Refused) -> None:
        if not tree.is_settled(path):
            span = tree.key_span(path)
            self.problems.append(_problem(refused, refused.message, span))

    def _add_to_key(self, tree: Tree, path: tuple[int, str], refused: Refused) -> None:
        if tree.is_settled(path):
            return
        if refused.code in ("unknown-key", "journal-key"):
            self.problems.append(_problem(refused, refused.message, tree.key_span(path)))
            return
        message = f"{quoted(path[1])[1:-1]}: {refused.message}"
        self.problems.append(_problem(refused, message, tree.value_span(path)))


_LIKE = "write each as - {on: 2026-07-18, wave: bush-bean-4, did: sown}"


def _problem(refused: Refused, message: str, span: Span) -> Problem:
    return Problem(
        severity=Severity.ERROR, code=refused.code, message=message, hint=refused.hint, span=span
    )


def _plain(body: str) -> dict[str, str] | None:
    """Return the keys of an entry in which nothing needs quotes; None for anything else."""
    parts = body.split(", ")
    if not _ODD.isdisjoint(body) or not body.count(":") == len(parts) == body.count(",") + 1:
        return None
    keys = {}
    for part in parts:
        key, sign, word = part.partition(": ")
        if not sign or not key.isalpha() or not word[:1].isalnum() or word[-1] == " ":
            return None
        keys[key] = word
    return keys if len(keys) == len(parts) else None


@cache
def _patterns() -> tuple[re.Pattern[str], re.Pattern[str]]:
    """Return the patterns of an entry with quotes and of one of its keys, compiled when needed."""
    pair = rf"[a-z]+: {_VALUE}"
    line = re.compile(rf"- \{{({pair}(?:, {pair})*)\}}")
    return line, re.compile(rf"([a-z]+): ({_VALUE})")


def _in_quotes(text: str) -> dict[str, str] | None:
    """Return the keys of an entry some of whose values stand in quotes; None for anything else."""
    line, pair = _patterns()
    found = line.fullmatch(text)
    if found is None:
        return None
    pairs = pair.findall(found[1])
    keys = {key: word[1:-1].replace("''", "'") if word[0] == "'" else word for key, word in pairs}
    return keys if len(keys) == len(pairs) and all(keys.values()) else None


def _without_undone(found: list[Happening], problems: list[Problem]) -> list[Happening]:
    """Leave out what was taken back: each entry that is `undone` takes back one that says the same.

    It is the last of them; which one makes no difference but to the line that is shown.
    """
    undone = [each for each in found if each.undone]
    if not undone:
        return found
    left = Counter(each.says for each in undone)
    kept = []
    for each in reversed(found):
        if each.undone:
            continue
        if left[each.says]:
            left[each.says] -= 1
        else:
            kept.append(each)
    for each in undone:
        if left[each.says]:
            left[each.says] -= 1
            problems.append(
                Problem(
                    severity=Severity.ERROR,
                    code="journal-undone",
                    message="no entry says what this one takes back",
                    hint="an entry is taken back by one with the same keys and values and "
                    "undone: yes",
                    span=each.span,
                )
            )
    return kept[::-1]
