"""How wide a text is on paper, before anything has printed it.

Letters are as wide as in the plain face that the style sheet asks for first and that the others it
names were made to match. Where a reader has none of them, a drawing still sets each text into just
this width, so that nothing touches what stands beside it.
"""

from __future__ import annotations

from unicodedata import combining, east_asian_width

_PLAIN = {
    191: "'",
    222: "ijl’",
    278: " !,./:;I[\\]ft·\N{NO-BREAK SPACE}",
    333: "()-`r²",
    500: "Jcksvxyz",
    584: "+<=>~×",
    611: "FTZß",
    667: "&ABEKPSVXY",
    722: "CDHNRUw",
    778: "GOQ",
    833: "Mm",
    889: "%",
    944: "W",
    1000: "—…",
}
_BOLD = {
    278: " ,./I\\ijl·’'\N{NO-BREAK SPACE}",
    333: "!()-:;[]`ft²",
    389: "*r{}",
    500: "z",
    584: "+<=>~×",
    611: "?FLTZbdghnopqu",
    667: "EPSVXY",
    722: "&ABCDHKNRU",
    778: "GOQw",
    833: "M",
    889: "%m",
    944: "W",
    1000: "—…",
}
"""Letters by their width, all others as wide as a figure. [em/1000]"""
_FIGURE, _CAPITAL, _SQUARE = 556, 722, 1000  # [em/1000]
_WIDTHS = tuple(
    {letter: wide for wide, letters in face.items() for letter in letters}
    for face in (_PLAIN, _BOLD)
)
_ELLIPSIS = "…"


def extent(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of a text, in the unit of its size.

    Examples
    --------
    >>> extent("kale", 2.0)
    3.668
    >>> extent("kale", 2.0, bold=True)
    3.892
    """
    widths = _WIDTHS[bold]
    return size * sum(_width(letter, widths) for letter in text) / 1000


def _width(letter: str, widths: dict[str, int]) -> int:
    if letter in widths:
        return widths[letter]
    if letter.isascii():
        return _FIGURE
    if combining(letter):
        return 0
    if east_asian_width(letter) in "WF":
        return _SQUARE
    return _CAPITAL if letter.isupper() else _FIGURE


def shortened_to(text: str, size: float, room: float, *, bold: bool = False) -> str:
    """Return a text, with an ellipsis in place of its end where it is wider than its room.

    Examples
    --------
    >>> shortened_to("summer-squash-1", 2.0, 12.0)
    'summer-sq…'
    """
    if extent(text, size, bold=bold) <= room:
        return text
    while text and extent(text + _ELLIPSIS, size, bold=bold) > room:
        text = text[:-1]
    return text + _ELLIPSIS
