"""Printing: reports to stdout, problems to stderr, in colour only where it is wanted."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from typing import TextIO

import click

from sowtide.diagnostics import Problem
from sowtide.report.blocks import Line, Style
from sowtide.report.formats.terminal.cells import shown
from sowtide.report.formats.terminal.problem_lines import lines as problem_lines

NARROWEST, WIDEST = 60, 140
_WIDTH = 80

_STYLES: dict[Style, dict[str, object]] = {
    Style.PLAIN: {},
    Style.STRONG: {"bold": True},
    Style.DIM: {"dim": True},
    Style.GOOD: {"fg": "green"},
    Style.WARN: {"fg": "yellow"},
    Style.BAD: {"fg": "red", "bold": True},
    Style.HEADING: {"bold": True, "underline": True},
}

_ASCII = str.maketrans(
    {
        "–": "-",
        "—": "-",
        "−": "-",
        "…": "~",
        "×": "x",
        "·": "-",
        "°": " deg ",
        "²": "2",
        "½": "1/2",
        "’": "'",
        "\u00a0": " ",
    }
)


def width(stream: TextIO) -> int:
    """How wide to print to a stream, within sensible bounds. [cells]

    ``COLUMNS`` goes before the width of its terminal; without either it is 80.
    """
    try:
        columns = int(os.environ.get("COLUMNS", ""))
    except ValueError:
        columns = 0
    if columns <= 0:
        try:
            columns = os.get_terminal_size(stream.fileno()).columns
        except (OSError, ValueError):
            columns = 0
    return min(max(columns or _WIDTH, NARROWEST), WIDEST)


def show(lines: Iterable[Line]) -> None:
    """Print a report."""
    colour = _wants_colour(sys.stdout.isatty())
    _print("\n".join(_painted(line) if colour else shown(line.plain.rstrip()) for line in lines))


def show_text(text: str) -> None:
    """Print a document that ends with its own line end."""
    _print(shown(text.removesuffix("\n")))


def show_document(text: str) -> None:
    """Print a document as it stands, encoded as it says itself."""
    click.echo(text.encode("utf-8"), nl=False)


def say(message: str) -> None:
    """Print one line about the run itself, to stderr."""
    _print_error(f"sowtide: {' '.join(message.split())}")


def complain(problems: Iterable[Problem]) -> None:
    """Print problems with their places, to stderr."""
    for problem in problems:
        for line in problem_lines(problem, width(sys.stderr)):
            _print_error(line.plain)


def _wants_colour(terminal: bool) -> bool:
    return terminal and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def _painted(line: Line) -> str:
    return "".join(
        click.style(shown(text), **_STYLES[style]) if _STYLES[style] else shown(text)  # type: ignore[arg-type]
        for text, style in line.spans
    )


def _print(text: str) -> None:
    click.echo(_encodable(text, sys.stdout.encoding), color=True)


def _print_error(text: str) -> None:
    click.echo(_encodable(shown(text), sys.stderr.encoding), err=True)


def _encodable(text: str, encoding: str | None) -> str:
    """Return the text with the signs that the output cannot carry written in plain ones."""
    try:
        text.encode(encoding or "utf-8")
    except UnicodeEncodeError:
        plain = text.replace(" °", "°").translate(_ASCII)
        return plain.encode(encoding or "ascii", "replace").decode(encoding or "ascii")
    return text
