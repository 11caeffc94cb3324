"""What is wrong with a file that is not YAML at all, in words a grower can use.

The parsers' own texts differ from one another and speak of tokens and blocks; only the places
where they gave up are used, and the grower's own lines around them.
"""

from __future__ import annotations

import re

from sowtide.diagnostics import Problem
from sowtide.garden.text.brackets import in_brackets
from sowtide.garden.text.source import Source, unreadable_at

_NO_SPACE = re.compile(r"^\s*(?:-\s+)?[A-Za-z_][\w ]*?(:)[^\s:/]")
_GOES_ON = re.compile(r"""(?:^|[:,\[{-] )\s*(?:'(?:[^']|'')*'|"[^"]*")(?=\s*[^\s,\]}:'#])""")
_ONLY_LETTERS = re.compile(r"^\s*[A-Za-z_][\w ]*$")


def tab_in_indentation(source: Source) -> Problem | None:
    """Return the problem of the first line that is indented with a tab, if there is one."""
    for number, line in enumerate(source.lines):
        content = line.lstrip()
        indent = line[: len(line) - len(content)]
        if "\t" in indent and content and not content.startswith("#"):
            return unreadable_at(
                "tab",
                "this line is indented with a tab",
                "indent with spaces only; most editors can be told to do so",
                source.span(number, indent.index("\t")),
            )
    return None


def explain(source: Source, place: tuple[int, int], context: tuple[int, int] | None) -> Problem:
    """Return the one problem of a file that does not parse.

    Parameters
    ----------
    source
        The file.
    place
        Line and column where the parser gave up, from 0.
    context
        Line and column where that began which it was reading, or None.
    """
    line = min(place[0], len(source.lines) - 1)
    column = min(place[1], len(source.lines[line]))
    if context is not None and context[0] >= len(source.lines):
        context = None  # behind the end of the file
    if context is not None:
        found = _opened(source, line, column, context)
        if found is not None:
            return found
    opened = _quote_across_lines(source, line)
    if opened is not None:
        return _unclosed_quote(source, *opened)
    return (
        _odd_start(source, line, column)
        or _after_quote(source, line, column)
        or _colon_in_text(source, line, column)
        or _colon_missing(source, line, context)
        or in_brackets(source, place)
        or _behind_bracket(source, line, column)
        or _misplaced(source, line)
    )


def _opened(source: Source, line: int, column: int, context: tuple[int, int]) -> Problem | None:
    """Explain what went wrong inside a quote or a bracket."""
    text = source.lines[context[0]]
    sign = text[context[1] : context[1] + 1]
    if sign in ('"', "'"):
        here = source.lines[line]
        if sign == '"' and "\\" in here[max(0, column - 2) : column + 1]:
            return unreadable_at(
                "quote",
                "a backslash inside double quotes means something else here",
                "use single quotes: '...'",
                source.span(line, here.rindex("\\", 0, column + 1)),
            )
        return _unclosed_quote(source, *context)
    if sign in ("[", "{") and context != (line, column):
        return _after_quote(source, line, column) or in_brackets(source, (line, column), context)
    return None


def _unclosed_quote(source: Source, line: int, column: int) -> Problem:
    sign = source.lines[line][column]
    return unreadable_at(
        "quote",
        f"this {sign} is not closed on its line",
        f"write a second {sign} at the end of the text"
        + (", or double it if it is an apostrophe: ''" if sign == "'" else ""),
        source.span(line, column),
    )


def _quote_across_lines(source: Source, upto: int) -> tuple[int, int] | None:
    """Return where the quote began that reaches from an earlier line into the line given."""
    opened: tuple[int, int] | None = None
    quote = ""
    for number, line in enumerate(source.lines[: upto + 1]):
        before = ""  # the last sign that is no space
        entries = len(line) - len(line.lstrip(" -"))
        for column, char in enumerate(line):
            if opened is not None:
                if char == quote and number == upto and opened[0] < number:
                    return opened
                opened = None if char == quote else opened
            elif char in "\"'":
                spaced = before in ":,[{" and line[column - 1].isspace()
                if not before or spaced or (before == "-" and column <= entries):
                    opened, quote = (number, column), char
            elif char == "#" and (column == 0 or line[column - 1] == " "):
                break
            if not char.isspace():
                before = char
    return opened


def _odd_start(source: Source, line: int, column: int) -> Problem | None:
    for number in (line, line - 1):
        if number < 0:
            continue
        text = source.lines[number]
        at = column if number == line else len(text)
        for found in re.finditer(r"(?:^|: +|- +|[\[,{] *)([%@`|>&*!])", text):
            if found.start(1) <= at:
                return unreadable_at(
                    "quote",
                    f"a text cannot begin with {found[1]} unless it stands in quotes",
                    "put the whole text in quotes: '...'",
                    source.span(number, found.start(1)),
                )
    return None


def _after_quote(source: Source, line: int, column: int) -> Problem | None:
    """Explain a text that goes on behind its closing quote, most often after an apostrophe."""
    text = source.lines[line]
    for found in _GOES_ON.finditer(text):
        if found.end() <= column + 1:
            sign = text[found.end() - 1]
            return unreadable_at(
                "quote",
                f"the text goes on behind its closing {sign}",
                "double an apostrophe in single quotes ('') or use the other kind of quotes",
                source.span(line, found.end() - 1),
            )
    return None


def _colon_in_text(source: Source, line: int, column: int) -> Problem | None:
    text = source.lines[line]
    if text[column : column + 1] != ":":
        return None
    before = text[:column].strip(" -")
    if not before or before.endswith(("{", ",")):
        return unreadable_at(
            "key",
            "a key is missing before this colon",
            "write a key, a colon, a space and its value, as in plants: 60",
            source.span(line, column),
        )
    if text[column + 1 : column + 2] in (",", "}", "]"):
        return unreadable_at(
            "colon",
            "a space and a value are missing after this colon",
            "write a key, a colon, a space and its value, as in plants: 60",
            source.span(line, column),
        )
    if ": " not in text[:column]:
        return None
    return unreadable_at(
        "colon",
        "a second colon on one line: a colon and a space separate a key from its value",
        "put a text with a colon in it in quotes: '...'",
        source.span(line, column),
    )


def _colon_missing(source: Source, line: int, context: tuple[int, int] | None) -> Problem | None:
    candidates = [] if context is None else [context[0]]
    candidates += [line, _with_text(source, line - 1)] if line else [line]
    for number in candidates:
        text = source.lines[number].split(" #")[0].rstrip()
        found = _NO_SPACE.match(text)
        if found is not None and ": " not in text:
            return unreadable_at(
                "colon",
                "a space is missing after this colon",
                f"write {text[: found.end(1)].strip()} {text[found.end(1) :]}",
                source.span(number, found.start(1)),
            )
    for number in candidates:
        text = source.lines[number].split(" #")[0].rstrip()
        if _ONLY_LETTERS.match(text):
            start = len(text) - len(text.lstrip())
            return unreadable_at(
                "colon",
                "a key without a colon",
                "write a key, a colon, a space and its value, as in plants: 60",
                source.span(number, start, len(text) - start),
            )
    return None


def _with_text(source: Source, line: int) -> int:
    """Return the last line up to one that holds more than white space or a remark."""
    while line > 0 and source.lines[line].lstrip()[:1] in ("", "#"):
        line -= 1
    return line


def _behind_bracket(source: Source, line: int, column: int) -> Problem | None:
    """Explain a bracket that nothing opens, or a text that goes on behind one."""
    text = source.lines[line]
    if text[column : column + 1] in ("]", "}"):
        return unreadable_at(
            "bracket", f"nothing opens this {text[column]}", "delete it", source.span(line, column)
        )
    before = text[:column].rstrip()
    if before.endswith(("]", "}")):
        return unreadable_at(
            "bracket",
            f"the text goes on behind its closing {before[-1]}",
            "put the whole text in quotes: '...', or delete what stands behind it",
            source.span(line, len(before) - 1),
        )
    return None


def _misplaced(source: Source, line: int) -> Problem:
    line = _with_text(source, line)
    text = source.lines[line]
    start = len(text) - len(text.lstrip())
    return unreadable_at(
        "indentation",
        "this line is not lined up with the lines it belongs to",
        "begin it in the same column as they do; a list's entries begin with '- '",
        source.span(line, start, len(text.rstrip()) - start),
    )
