"""``sowtide help TOPIC``."""

from __future__ import annotations

from collections.abc import Iterator

import click

from sowtide.cli.output import show, width
from sowtide.cli.topics import TOPICS, Topic
from sowtide.report.blocks import Line, Style, line
from sowtide.report.formats.terminal.cells import wrap


def _complete(_: click.Context, __: click.Parameter, begun: str) -> list[str]:
    return [topic.name for topic in TOPICS if topic.name.startswith(begun)]


@click.command()
@click.argument("topic", required=False, shell_complete=_complete)
def command(topic: str | None) -> None:
    """What is worth knowing beside the commands: printing, the phone, odds, exit codes.

    Without TOPIC it lists them all. A command explains itself with --help.
    """
    import sys

    show(_list() if topic is None else _page(_topic(topic), width(sys.stdout)))


def _list() -> Iterator[Line]:
    longest = max(len(topic.name) for topic in TOPICS)
    for topic in TOPICS:
        yield line((f"{topic.name:<{longest}}", Style.STRONG), f"  {topic.title}")


def _topic(name: str) -> Topic:
    for topic in TOPICS:
        if topic.name == name:
            return topic
    from difflib import get_close_matches

    near = get_close_matches(name, [topic.name for topic in TOPICS], n=1)
    hint = f"Did you mean '{near[0]}'?" if near else "'sowtide help' lists what there is."
    raise click.UsageError(f"There is no topic '{name}'. {hint}")


def _page(topic: Topic, room: int) -> Iterator[Line]:
    yield line((topic.title.upper(), Style.HEADING))
    for number, text in enumerate(topic.paragraphs):
        example = text.startswith("  ")
        if number and not (example and topic.paragraphs[number - 1].startswith("  ")):
            yield line()
        if example:
            yield line(text)
        else:
            yield from wrap(text, room)
