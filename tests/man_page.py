"""Write the man page of the commands and of the topics of help: ``python tests/man_page.py``."""

from __future__ import annotations

import inspect
from pathlib import Path

import click

from sowtide.cli import cli
from sowtide.cli.group import COMMANDS
from sowtide.cli.topics import TOPICS

PAGE = Path(__file__).parents[1] / "docs" / "sowtide.1"


def man_page() -> str:
    """Return the page in the macros of man(7)."""
    lines = [
        '.TH SOWTIDE 1 "" "sowtide" "User commands"',
        ".SH NAME",
        "sowtide \\- plan sowings in waves between two frosts",
        ".SH SYNOPSIS",
        ".B sowtide",
        "[\\fIOPTIONS\\fR] \\fICOMMAND\\fR [\\fIARGUMENTS\\fR]...",
        ".SH DESCRIPTION",
        *_paragraphs(inspect.cleandoc(cli.help or "")),
        ".SH COMMANDS",
    ]
    for name in COMMANDS:
        command = cli.get_command(None, name)  # type: ignore[arg-type]
        assert command is not None
        lines += [f".SS sowtide {name}", *_paragraphs(inspect.cleandoc(command.help or ""))]
        context = click.Context(command, info_name=name)
        for param in command.params:
            record = param.get_help_record(context)
            if record is not None:
                lines += [".TP", f".B {_plain(record[0])}", _plain(" ".join(record[1].split()))]
    for topic in TOPICS:
        lines.append(f".SH {topic.title.upper()}")
        for text in topic.paragraphs:
            if text.startswith("  "):
                lines += [".EX", _plain(text), ".EE"]
            else:
                lines += [".PP", _plain(text)]
    return "\n".join([*lines, ""])


def _paragraphs(text: str) -> list[str]:
    found = []
    for part in text.split("\n\n"):
        found += [".PP", _plain(" ".join(part.split()))]
    return found


def _plain(text: str) -> str:
    """Return a text in which nothing is taken for a macro or a sign of its own."""
    escaped = text.replace("\\", "\\e").replace("-", "\\-")
    return f"\\&{escaped}" if escaped.startswith((".", "'")) else escaped


def update() -> None:
    """Write the page anew."""
    PAGE.write_text(man_page(), encoding="utf-8")


if __name__ == "__main__":
    update()
