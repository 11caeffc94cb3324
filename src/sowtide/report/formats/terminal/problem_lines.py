"""A problem as lines of text: where, what, the grower's own line with a caret, what to do."""

from __future__ import annotations

from sowtide.diagnostics import Problem, Severity, Span
from sowtide.report.blocks import Line, Style, line, styled
from sowtide.report.formats.terminal.cells import cells, shown

_TAB = " " * 4
_CUT = "..."
_HANGING = " " * 4
_NARROWEST = 30
_NEAR = 1_000
"""Of a long line no more is looked at to each side of the place. [characters]"""

_STYLES = {
    Severity.ERROR: Style.BAD,
    Severity.WARNING: Style.WARN,
    Severity.NOTE: Style.DIM,
}


def lines(problem: Problem, width: int = 80, *, also: tuple[str, ...] = ()) -> tuple[Line, ...]:
    """Return the lines that show a problem.

    The place stands at the head of the first line, so that editors can follow it; what does not
    fit behind it goes on below, four columns in.

    Parameters
    ----------
    problem
        The problem.
    width
        Of the screen; at least 30 are used. [cells]
    also
        What else the same is to be said of.
    """
    width = max(width, _NARROWEST)
    span, style = problem.span, _STYLES[problem.severity]
    place = f"{shown(span.file)}:{span.line}:{span.column}: " if span is not None else ""
    kind = (f"{problem.severity.value}:", style)
    said = _wrapped(
        shown(f"{problem.message} [{problem.code}]"),
        first=f"{place}{problem.severity.value}: ",
        rest=_HANGING,
        width=width,
    )
    begin = said[0].removeprefix(f"{place}{problem.severity.value}:")
    found = [line(place, kind, begin), *(styled(text, Style.PLAIN) for text in said[1:])]
    indent = _HANGING
    if span is not None and span.text.strip():
        indent = " " * (len(str(span.line)) + 2)
        text, caret = _excerpt(span, width - len(indent) - 2)
        found.append(line((f" {span.line} | ", Style.DIM), text))
        found.append(line((f"{indent}| ", Style.DIM), (caret, style)))
    for name, words in (("hint", problem.hint), ("also", "; ".join(also))):
        if words:
            head = f"{indent}= {name}: "
            wrapped = _wrapped(shown(words), first=head, rest=" " * len(head), width=width)
            found += [styled(text, Style.PLAIN) for text in wrapped]
    return tuple(found)


def _excerpt(span: Span, room: int) -> tuple[str, str]:
    """Return the part of the line around the place that fits, and the carets under the place."""
    at = min(span.column - 1, len(span.text))
    begin, stop = max(at - _NEAR, 0), at + _NEAR
    cells = [_cell(char) for char in span.text[begin:stop]]
    at -= begin
    end = min(at + span.length, len(cells))
    first, last = _window([width for _, width in cells], at, end, room)
    before = _CUT if begin + first > 0 else ""
    after = _CUT if begin + last < len(span.text) else ""
    shown = "".join(text for text, _ in cells[first:last]).rstrip()
    lead = len(before) + sum(width for _, width in cells[first:at])
    marked = sum(width for _, width in cells[at : min(end, last)])
    return before + shown + after, " " * lead + "^" * max(1, marked)


def _window(widths: list[int], at: int, end: int, room: int) -> tuple[int, int]:
    """Return which characters to show: all of them, or those around the place that fit."""
    if sum(widths) <= room:
        return 0, len(widths)
    room -= 2 * len(_CUT)
    first = last = at
    used = 0
    while last < len(widths) and last < max(end, at + 1) and used + widths[last] <= room:
        used += widths[last]
        last += 1
    left = True
    while True:
        can_left = first > 0 and used + widths[first - 1] <= room
        can_right = last < len(widths) and used + widths[last] <= room
        if not can_left and not can_right:
            return first, last
        if can_left and (left or not can_right):
            first -= 1
            used += widths[first]
        else:
            used += widths[last]
            last += 1
        left = not left


def _cell(char: str) -> tuple[str, int]:
    """Return what stands for a character on the screen, and how many columns it takes."""
    if char == "\t":
        return _TAB, len(_TAB)
    if " " <= char <= "~":
        return char, 1
    from unicodedata import category, east_asian_width

    if category(char) in ("Mn", "Me"):
        return char, 0
    if not char.isprintable():
        return "?", 1
    return char, 2 if east_asian_width(char) in "WF" else 1


def _wrapped(text: str, *, first: str, rest: str, width: int) -> list[str]:
    """Return the text in lines of at most that width, as far as its words allow it.

    Parameters
    ----------
    text
        The text.
    first, rest
        What the first and the later lines begin with.
    width
        Of the screen. [cells]
    """
    found: list[str] = []
    row = first
    empty = True
    for word in text.split(" "):
        over = cells(row) + (not empty) + cells(word) > width
        # Behind the head alone a long word goes on below, if it has the room there.
        below = cells(rest) + cells(word) <= width and cells(row.rstrip()) <= width
        if over and (not empty or below):
            found.append(row.rstrip())
            row, empty = rest, True
        row += word if empty else f" {word}"
        empty = False
    return [*found, row]
