"""Styled text measured in terminal cells: cut, filled up, wrapped and laid out in rows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sowtide.grouping import grouped
from sowtide.report.blocks import KEPT, Inline, Line, Span, Style, line, styled
from sowtide.values import value

ELLIPSIS = "…"
_PRINTED = "\n\N{ZERO WIDTH NON-JOINER}\N{ZERO WIDTH JOINER}"
"""Line ends, and the joiners that some scripts are spelt with: they are printed as they are."""
_OF_ONE_CELL = frozenset(map(chr, range(32, 127))) | set(f"{KEPT}–—−×·°²½’…€£éèêüöäßç")
"""Signs and letters that are known to take one cell, without a table of all there are."""


@value
class Column:
    """One column of a table."""

    width: int
    """[cells]"""
    right: bool = False
    """Whether its cells stand at its right edge."""


def width_of(of: Line) -> int:
    """Return how wide a line is, in terminal cells."""
    return sum([cells(text) for text, _ in of.spans])


def shown(text: str) -> str:
    r"""Return a text with what a terminal obeys or turns about written out, such as ``\u202e``.

    Line ends stay, and the joiners that some scripts are spelt with.

    Examples
    --------
    >>> print(shown("bed \x1b[31m1"))
    bed \u001b[31m1
    """
    if text.isprintable():
        return text
    return "".join(
        each if each in _PRINTED or each.isprintable() else f"\\u{ord(each):04x}" for each in text
    )


def cells(text: str) -> int:
    """Return how wide a text is, in terminal cells."""
    if text.isascii() or _OF_ONE_CELL.issuperset(text):
        return len(text)
    from rich.cells import cell_len

    return cell_len(text)


def cut(text: str, width: int) -> str:
    """Return the text cut to a width, with … where something is missing.

    Examples
    --------
    >>> cut("summer squash", 8)
    'summer…'
    """
    if cells(text) <= width:
        return text
    if width <= 0:
        return ""
    return _head(text, width - 1).rstrip() + ELLIPSIS


def shortened(name: str, width: int) -> str:
    """Return a wave's name cut in its middle, so that its number stays.

    Examples
    --------
    >>> shortened("summer-squash-12", 12)
    'summer-s…-12'
    """
    stem, hyphen, number = name.rpartition("-")
    tail = hyphen + number
    room = width - cells(tail)
    return cut(stem, room) + tail if room > 0 else cut(name, width)


def told_apart(names: Iterable[str], width: int) -> dict[str, str]:
    """Return names cut to a width so that no two become alike, as far as that can be.

    They are cut at their ends, and those that begin alike in their middles.

    Examples
    --------
    >>> told_apart(["Long north 1", "Long north 2", "Orchard strip"], 8)
    {'Long north 1': 'Long… 1', 'Long north 2': 'Long… 2', 'Orchard strip': 'Orchard…'}
    """
    listed = list(dict.fromkeys(names))
    shown = {name: cut(name, width) for name in listed}
    for tail in range(2, width - 1):
        seen = grouped(listed, shown.__getitem__)
        alike = [name for same in seen.values() if len(same) > 1 for name in same]
        for name in alike:
            shown[name] = _with_tail(name, width, tail)
    return shown


def _with_tail(name: str, width: int, tail: int) -> str:
    """Return a name with its middle left out and so many of its last characters kept."""
    end = name[-tail:]
    room = width - cells(end)
    head = cut(name, room).removesuffix(ELLIPSIS).rstrip()
    return f"{head}{ELLIPSIS}{end}" if room > 0 else cut(name, width)


def pad(text: str, width: int, *, right: bool = False) -> str:
    """Return the text at exactly a width, cut or filled with spaces.

    Parameters
    ----------
    text
        The text.
    width
        [cells]
    right
        Whether the text stands at the right edge.
    """
    text = cut(text, width)
    fill = " " * (width - cells(text))
    return fill + text if right else text + fill


def fit(text: Inline, width: int) -> Line:
    """Return a line cut to a width, its styles kept."""
    whole = line(text)
    if width_of(whole) <= width:
        return whole
    kept: list[Span] = []
    left = width
    for words, style in whole.spans:
        if cells(words) >= left:
            # One cell too many on purpose, so that the cut is marked even at the end of a span.
            kept.append((cut(f"{words} ", left), style))
            break
        kept.append((words, style))
        left -= cells(words)
    return Line(tuple(kept))


def row(columns: Iterable[Column], texts: Iterable[str | Span], *, gap: int = 2) -> Line:
    """Return one row of a table, each cell cut to its column, without idle space at its end.

    Parameters
    ----------
    columns
        The columns; a last one may be as wide as it likes.
    texts
        One text for each column.
    gap
        Space between two columns. [cells]
    """
    spans: list[Span] = []
    space = 0  # cells without a text since the last one
    for column, text in zip(columns, texts, strict=True):
        words, style = (text, Style.PLAIN) if isinstance(text, str) else text
        words = cut(words, column.width)
        fill = column.width - cells(words)
        if not words:
            space += fill + gap
            continue
        if column.right:
            space, fill = space + fill, 0
        spans += ((" " * space, Style.PLAIN), (words, style))
        space = fill + gap
    return _merged(spans)


def rule(width: int) -> Line:
    """Return a line drawn across the sheet."""
    return styled("-" * width, Style.DIM)


def wrap(text: Inline, width: int, *, first: str = "", hang: int | None = None) -> tuple[Line, ...]:
    """Break a text into lines at its spaces, the lines after the first indented.

    Parameters
    ----------
    text
        The text; its styles are kept. Empty text gives one line.
    width
        Most cells a line may have; `first` and the indent count. [cells]
    first
        What the first line begins with, such as ``"    = hint: "`` or spaces.
    hang
        Indent of the other lines; under the text of the first line if left out. [cells]
    """
    whole = line(text)
    said = whole.plain
    if cells(first) + cells(said) <= width and _is_even(said):
        return (Line(((first, Style.PLAIN), *whole.spans)) if first else whole,)
    indent = cells(first) if hang is None else hang
    lines: list[Line] = []
    current: list[Span] = [(first, Style.PLAIN)]
    used = cells(first)
    bare = True
    for word in _words(whole):
        size = sum(cells(part) for part, _ in word)
        if not bare and used + 1 + size > width:
            lines.append(_merged(current))
            current = [(" " * indent, Style.PLAIN)]
            used, bare = indent, True
        while used + size > width and size > 1:
            head, word = _split(word, max(width - used, 1))
            lines.append(_merged([*current, *head]))
            current = [(" " * indent, Style.PLAIN)]
            used, size = indent, sum(cells(part) for part, _ in word)
        if not bare:
            # A space between two words of one style is of that style too.
            same = current[-1][1] is word[0][1]
            current.append((" ", word[0][1] if same else Style.PLAIN))
            used += 1
        current += word
        used += size
        bare = False
    lines.append(_merged(current))
    return tuple(lines)


def _is_even(text: str) -> bool:
    """Whether a text can be shown as it stands, without space to close up or to make plain."""
    return bool(text) and KEPT not in text and "  " not in text and text == text.strip(" ")


def _words(whole: Line) -> Iterator[list[Span]]:
    """Yield the words of a line, each as spans, since a style may change within a word."""
    word: list[Span] = []
    for text, style in whole.spans:
        for number, part in enumerate(text.split(" ")):
            if number and word:
                yield word
                word = []
            if part:
                word.append((part, style))
    if word:
        yield word


def _split(word: list[Span], width: int) -> tuple[list[Span], list[Span]]:
    """Split a word too long for a line at a width, at least one character before it."""
    head: list[Span] = []
    for number, (text, style) in enumerate(word):
        if cells(text) <= width:
            head.append((text, style))
            width -= cells(text)
            continue
        kept = _head(text, width) or ("" if head else text[:1])
        head.append((kept, style))
        return head, [(text[len(kept) :], style), *word[number + 1 :]]
    return head, []


def _head(text: str, width: int) -> str:
    """Return as many of the first characters as fit a width."""
    if text.isascii():
        return text[:width]
    used = 0
    for number, character in enumerate(text):
        used += cells(character)
        if used > width:
            return text[:number]
    return text


def _merged(spans: Iterable[Span]) -> Line:
    """Return a line with neighbouring spans of one style joined and kept spaces made plain."""
    joined: list[Span] = []
    last: Style | None = None
    for text, style in spans:
        if not text:
            continue
        text = text.replace(KEPT, " ")
        if style is last:
            joined[-1] = (joined[-1][0] + text, style)
        else:
            joined.append((text, style))
            last = style
    return Line(tuple(joined))
