"""YAML as a tree of plain text in which every key and value knows its place.

The parser's events are turned into mappings, lists and texts in one pass: nothing is resolved to
a number, a date or a truth value, and whatever lets YAML mean more than it shows (anchors, tags,
merged keys, several documents) is refused. This is the only module that knows YAML.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import repeat
from typing import Any

import yaml

from sowtide.diagnostics import Problem
from sowtide.garden.text.positions import Branch, EnoughError, Node, Tree
from sowtide.garden.text.refused import quoted
from sowtide.garden.text.source import DEEPEST, Source

_MOST = 250_000
"""No garden's file has more keys, values and brackets. [1]"""

_TAG = re.compile("![^ ]*")
_NO_KEYS = ("", "<<")

LOADERS: tuple[Any, ...] = tuple(
    getattr(yaml, name) for name in ("CSafeLoader", "SafeLoader") if hasattr(yaml, name)
)
"""The parsers that can be used, the fastest first."""


def parse(source: Source, loader: Any = None) -> Tree:
    """Read a file's text into a tree."""
    tree = Tree(source)
    tab = _tab_in_indentation(source)
    if tab is not None:
        tree.problems.append(tab)
        tree.broken = True
        return tree
    # A tab that does not indent is a space to one parser and an error to the other.
    parser = (loader or LOADERS[0])(source.text.replace("\t", " "))
    try:
        next_event, take = parser.get_event, _Builder(tree).take
        for _ in repeat(None, _MOST):
            event = next_event()
            if not take[type(event)](event):
                break
        else:
            _refuse_rest(tree, event)
    except yaml.MarkedYAMLError as error:
        tree.problems = [_explained(source, error)]
        tree.broken = True
    except EnoughError:
        tree.broken = True
    finally:
        parser.dispose()
    return tree


# What is wrong with a file that does not parse is said by modules that no other file needs.


def _tab_in_indentation(source: Source) -> Problem | None:
    if "\t" not in source.text:
        return None
    from sowtide.garden.text.syntax import tab_in_indentation

    return tab_in_indentation(source)


def _explained(source: Source, error: yaml.MarkedYAMLError) -> Problem:
    mark, context = error.problem_mark, error.context_mark
    place = (mark.line, mark.column) if mark else (0, 0)
    from sowtide.garden.text.syntax import explain

    return explain(source, place, (context.line, context.column) if context else None)


class _Builder:
    """Takes the parser's events one by one and fills the tree, without recursion."""

    __slots__ = ("_branch", "_container", "_documents", "_key", "_stack", "_tree", "take")

    def __init__(self, tree: Tree) -> None:
        self._tree = tree
        self._container: Any = None  # the mapping or list being filled, and its places
        self._branch: Branch | None = None
        self._key: Any = None  # the event of the key that waits for its value
        self._stack: list[tuple[Any, Branch | None, Any]] = []
        self._documents = 0
        self.take: dict[type, Callable[[Any], bool]] = {
            yaml.ScalarEvent: self._scalar,
            yaml.MappingStartEvent: self._start,
            yaml.SequenceStartEvent: self._start,
            yaml.MappingEndEvent: self._end,
            yaml.SequenceEndEvent: self._end,
            yaml.AliasEvent: self._alias,
            yaml.DocumentStartEvent: self._document,
            yaml.DocumentEndEvent: _pass_over,
            yaml.StreamStartEvent: _pass_over,
            yaml.StreamEndEvent: _stop,
        }
        """What to do with each kind of event; it says whether to go on."""

    def _scalar(self, event: Any) -> bool:
        if event.anchor is not None or event.tag is not None:
            _refuse_marks(self._tree, event)
        branch, key_event = self._branch, self._key
        if branch is None or branch.keys is None:
            self._put(event.value or None, event)
        elif key_event is not None:
            key = key_event.value if type(key_event) is yaml.ScalarEvent else ""
            if key in branch.keys or key in _NO_KEYS:
                self._put_oddly(branch, branch.keys, key, event)
            else:
                branch.keys[key] = key_event
                branch.values[key] = event
                if event.value:
                    self._container[key] = event.value
            self._key = None
        else:
            self._key = event
            if not event.value:
                self._refuse_key(event)
        return True

    def _start(self, event: Any) -> bool:
        if event.anchor is not None or event.tag is not None:
            _refuse_marks(self._tree, event)
        if len(self._stack) == DEEPEST:
            self._tree.refuse(
                "too-deep",
                f"lists and mappings are nested more than {DEEPEST} deep here",
                "a garden's file needs no more than five levels",
                self._tree.place(event),
            )
            self._tree.broken = True
            return False
        mapping = type(event) is yaml.MappingStartEvent
        place = Branch(event, mapping=mapping)
        value: Node = {} if mapping else []
        if self._branch is not None and self._branch.keys is not None and self._key is None:
            self._key = event  # in place of a key: read on inside it, but keep nothing
            self._refuse_key(event)
            self._stack.append((self._container, self._branch, event))
        else:
            self._put(value, place)
            self._stack.append((self._container, self._branch, None))
        self._container, self._branch, self._key = value, place, None
        return True

    def _end(self, _: Any) -> bool:
        self._container, self._branch, self._key = self._stack.pop()
        return True

    def _alias(self, event: Any) -> bool:
        _refuse_alias(self._tree, event)
        self._tree.settled.add(id(event))
        if self._branch is not None and self._branch.keys is not None and self._key is None:
            self._key = event
            self._refuse_key(event)
        else:
            self._put(None, event)
        return True

    def _document(self, event: Any) -> bool:
        self._documents += 1
        if self._documents == 1:
            return True
        self._tree.refuse(
            "documents",
            "a second document begins here",
            "keep one garden in one file: delete this line",
            self._tree.place(event),
        )
        self._tree.settled.add(id(self._tree.root))
        return False

    def _put(self, value: Node, place: Any) -> None:
        """Put a value where it belongs."""
        branch = self._branch
        if branch is None:
            self._tree.value = value
            self._tree.root = place if type(place) is Branch else None
        elif branch.keys is None:
            self._container.append(value)
            branch.values.append(place)
        else:
            key = self._key.value if type(self._key) is yaml.ScalarEvent else ""
            if key in branch.keys or key in _NO_KEYS:
                self._put_oddly(branch, branch.keys, key, place)
            else:
                branch.keys[key] = self._key
                branch.values[key] = place
                if value is not None:
                    self._container[key] = value
            self._key = None

    def _put_oddly(self, branch: Branch, keys: dict[str, Any], key: str, place: Any) -> None:
        """Refuse a key that is there already, or that would merge others in."""
        tree = self._tree
        if key == "":
            return  # refused when it was met
        if key not in keys and self._key.style:
            keys[key] = self._key  # '<<' in quotes is a key like others
            branch.values[key] = place
            return  # nothing is kept of it, but it is there
        if key in keys:
            tree.refuse(
                "duplicate-key",
                f"the key {quoted(key)} stands here a second time; the first is in line "
                f"{keys[key].start_mark.line + 1}",
                _keep(key, branch.values[key], place),
                tree.place(self._key),
            )
            return
        tree.refuse(
            "alias",
            "'<<' would merge in what stands elsewhere",
            "write the lines out again where they are wanted",
            tree.place(self._key),
        )
        tree.settled.add(id(branch))

    def _refuse_key(self, event: Any) -> None:
        what = "a key is missing before this colon"
        if type(event) is not yaml.ScalarEvent:
            what = "a list or mapping stands where a key belongs"
        self._tree.refuse(
            "key",
            what,
            "write a key, a colon, a space and its value, as in plants: 60",
            self._tree.place(event),
        )
        self._tree.settled.add(id(self._branch))


def _keep(key: str, first: Any, second: Any) -> str:
    """Say how to make one of two values of a key without losing any of them."""
    if type(first) is not Branch or type(second) is not Branch:
        return "keep one of the two"
    if first.keys is None and second.keys is None:
        return f"put both lists under one {key}:"
    return f"put what belongs to both under one {key}:"


def _pass_over(_: Any) -> bool:
    return True


def _stop(_: Any) -> bool:
    return False


def _refuse_rest(tree: Tree, event: Any) -> None:
    """Refuse a file that has far more in it than any garden."""
    tree.refuse(
        "too-big",
        f"{_MOST:,} keys, values and brackets stand above; no garden's file has so many",
        "check that this is the file you mean",
        tree.place(event),
    )
    tree.broken = True


def _refuse_marks(tree: Tree, event: Any) -> None:
    """Refuse an anchor or a tag in front of a value."""
    start = tree.source.span(event.start_mark.line, event.start_mark.column)
    if event.anchor is not None:
        tree.refuse(
            "alias",
            f"the mark &{event.anchor} gives this value a name to repeat it by",
            "delete the mark; a text that begins with & stands in quotes",
            tree.source.span(start.line - 1, start.column - 1, len(event.anchor) + 1),
        )
    if event.tag is not None:
        found = _TAG.search(start.text, start.column - 1)
        at, word = (start.column - 1, "!") if found is None else (found.start(), found[0])
        tree.refuse(
            "tag",
            f"the mark {quoted(word)[1:-1]} would change what this value is",
            "delete the mark; a text that begins with ! stands in quotes",
            tree.source.span(start.line - 1, at, len(word)),
        )


def _refuse_alias(tree: Tree, event: Any) -> None:
    if event.anchor in tree.aliases:
        return
    tree.aliases.add(event.anchor)
    tree.refuse(
        "alias",
        f"*{event.anchor} would repeat what stands elsewhere",
        "write the value out again; a text that begins with * stands in quotes",
        tree.place(event),
    )
