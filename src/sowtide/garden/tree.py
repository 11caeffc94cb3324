"""YAML as a tree of plain text in which every key and value knows its place.

The parser's events are turned into mappings, lists and texts in one pass: nothing is resolved to
a number, a date or a truth value, and whatever lets YAML mean more than it shows (anchors, tags,
merged keys, several documents) is refused. This is the only module that knows YAML.
"""

from __future__ import annotations

from typing import Any

import yaml

from sowtide.diagnostics import Problem
from sowtide.garden.places import Branch, Tree
from sowtide.garden.refused import quoted
from sowtide.garden.source import Source
from sowtide.garden.syntax import explain, tab_in_indentation

DEEPEST = 20
"""No garden's file nests deeper. [levels]"""

_NO_KEYS = ("", "<<")

LOADERS: tuple[Any, ...] = tuple(
    getattr(yaml, name) for name in ("CSafeLoader", "SafeLoader") if hasattr(yaml, name)
)
"""The parsers that can be used, the fastest first."""


def parse(source: Source, loader: Any = None) -> Tree:
    """Read a file's text into a tree."""
    tree = Tree(source)
    tab = tab_in_indentation(source)
    if tab is not None:
        tree.problems.append(tab)
        tree.broken = True
        return tree
    # A tab that does not indent is a space to one parser and an error to the other.
    parser = (loader or LOADERS[0])(source.text.replace("\t", " "))
    try:
        _build(parser, tree)
    except yaml.MarkedYAMLError as error:
        tree.problems = [_explained(source, error)]
        tree.broken = True
    finally:
        parser.dispose()
    return tree


def _explained(source: Source, error: yaml.MarkedYAMLError) -> Problem:
    mark, context = error.problem_mark, error.context_mark
    place = (mark.line, mark.column) if mark else (0, 0)
    return explain(source, place, (context.line, context.column) if context else None)


def _build(parser: Any, tree: Tree) -> None:
    """Turn events into the tree, without recursion."""
    next_event = parser.get_event
    scalar, mapping_start, sequence_start = (
        yaml.ScalarEvent,
        yaml.MappingStartEvent,
        yaml.SequenceStartEvent,
    )
    alias, collection_end = yaml.AliasEvent, yaml.CollectionEndEvent
    stack: list[tuple[Any, Branch | None, Any]] = []
    container: Any = None  # the mapping or list being filled
    branch: Branch | None = None
    key_event: Any = None  # the key that waits for its value
    documents = 0
    while True:
        event = next_event()
        kind = type(event)
        value: Any
        place: Any = event
        if kind is scalar:
            if event.anchor is not None or event.tag is not None:
                _refuse_marks(tree, event)
            value = event.value
            if value == "":
                value = None
        elif kind is mapping_start or kind is sequence_start:
            if event.anchor is not None or event.tag is not None:
                _refuse_marks(tree, event)
            place = Branch(event, mapping=kind is mapping_start)
            value = {} if kind is mapping_start else []
        elif kind is alias:
            _refuse_alias(tree, event)
            value = None
        elif isinstance(event, collection_end):
            container, branch, key_event = stack.pop()
            continue
        elif kind is yaml.DocumentStartEvent:
            documents += 1
            if documents > 1:
                tree.refuse(
                    "documents",
                    "a second document begins here",
                    "keep one garden in one file: delete this line",
                    tree.place(event),
                )
                tree.settled.add(id(tree.root))
                return
            continue
        elif kind is yaml.StreamEndEvent:
            return
        else:
            continue

        if branch is None:
            tree.value = value
            tree.root = place if type(place) is Branch else None
        elif branch.keys is None:
            container.append(value)
            branch.values.append(place)
            if kind is alias:
                tree.settled.add(id(event))
        elif key_event is None:
            key_event = event
            if kind is not scalar or value is None:
                _refuse_key(tree, event)
                tree.settled.add(id(branch))
            if kind is scalar or kind is alias:
                continue
            # A mapping or list in place of a key: read on inside it, but keep nothing.
        else:
            key = key_event.value if type(key_event) is scalar else ""
            if key in branch.keys or key in _NO_KEYS or kind is alias:
                _put_oddly(tree, branch, key_event, place)
            else:
                branch.keys[key] = key_event
                branch.values[key] = place
                if value is not None:
                    container[key] = value
            key_event = None
        if type(place) is Branch:
            stack.append((container, branch, key_event))
            if len(stack) > DEEPEST:
                tree.refuse(
                    "too-deep",
                    f"lists and mappings are nested more than {DEEPEST} deep here",
                    "a garden's file needs no more than five levels",
                    tree.place(event),
                )
                tree.broken = True
                return
            container, branch, key_event = value, place, None


def _put_oddly(tree: Tree, branch: Branch, key_event: Any, place: Any) -> None:
    """Refuse a key that is there already or merges others in, or a value that repeats another."""
    if type(key_event) is not yaml.ScalarEvent or key_event.value == "":
        return  # refused when it was met
    key = key_event.value
    assert branch.keys is not None
    first = branch.keys.get(key)
    if first is not None:
        tree.refuse(
            "duplicate-key",
            f"the key {quoted(key)} stands here a second time; the first is in line "
            f"{first.start_mark.line + 1}",
            "keep one of the two",
            tree.place(key_event),
        )
    elif key == "<<":
        tree.refuse(
            "alias",
            "'<<' would merge in what stands elsewhere",
            "write the lines out again where they are wanted",
            tree.place(key_event),
        )
        tree.settled.add(id(branch))
    else:
        branch.keys[key] = key_event
        branch.values[key] = place
        if type(place) is yaml.AliasEvent:
            tree.settled.add(id(place))


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
        text = start.text[start.column - 1 :]
        at = text.find("!")
        word = text[at:].split(" ", 1)[0] if at >= 0 else "!"
        tree.refuse(
            "tag",
            f"the mark {quoted(word)[1:-1]} would change what this value is",
            "delete the mark; a text that begins with ! stands in quotes",
            tree.source.span(start.line - 1, start.column - 1 + max(at, 0), len(word)),
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


def _refuse_key(tree: Tree, event: Any) -> None:
    what = "a key is missing before this colon"
    if type(event) is not yaml.ScalarEvent:
        what = "a list or mapping stands where a key belongs"
    tree.refuse(
        "key",
        what,
        "write a key, a colon, a space and its value, as in plants: 60",
        tree.place(event),
    )
