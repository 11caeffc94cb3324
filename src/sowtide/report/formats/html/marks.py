"""What a drawing is made of: boxes, strokes and words, each with its place on the paper."""

from __future__ import annotations

from sowtide.report.formats.html.extent import extent
from sowtide.values import value

BOLD = ("name", "strong")
"""Kinds of words that are set in bold letters."""


@value
class Box:
    """A rectangle; its kind says how it is filled."""

    left: float
    top: float
    width: float
    height: float
    """Where it lies. [mm]"""
    kind: str
    """What it stands for, as the style sheet calls it."""


@value
class Stroke:
    """A straight line between two points. [mm]"""

    left: float
    top: float
    right: float
    bottom: float
    kind: str


@value
class Words:
    """A line of text."""

    left: float
    middle: float
    """Its left end, and the height that it stands in the middle of. [mm]"""
    text: str
    """What it says."""
    size: float
    """Of its letters. [mm]"""
    kind: str = "plain"
    """How it is set, as the style sheet calls it."""

    @property
    def bold(self) -> bool:
        """Whether it is set in bold letters."""
        return self.kind in BOLD

    @property
    def width(self) -> float:
        """How wide it is set. [mm]"""
        return extent(self.text, self.size, bold=self.bold)

    @property
    def right(self) -> float:
        """Where it ends. [mm]"""
        return self.left + self.width

    @property
    def baseline(self) -> float:
        """What its letters stand on. [mm]"""
        return self.middle + 0.35 * self.size


@value
class Drawing:
    """A drawing: what it is of in words, how large, and what lies on it from back to front."""

    said: str
    """The same in words, for those who hear it read."""
    width: float
    height: float
    """Its size. [mm]"""
    strokes: tuple[Stroke, ...]
    boxes: tuple[Box, ...]
    words: tuple[Words, ...]
    """What is on it, the strokes at the back."""
