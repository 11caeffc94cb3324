"""The group of commands; a command's module is loaded only when it is run or asked for help."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from typing import Any

import click

COMMANDS = {
    "week": "What to do this week, bed by bed, with amounts.",
    "calendar": "The season at a glance.",
    "fits": "Does one more wave fit before frost?",
    "plan": "Every wave with its beds, dates and odds.",
    "why": "How each date of a wave was counted.",
    "supply": "What is picked week by week, against what is wanted.",
    "needs": "Seed, trays, seedlings and materials still to be got, and by when.",
    "did": "Note down what happened; the rest of the plan moves with it.",
    "frost": "The frost odds of the place and how long its season is.",
    "check": "Everything wrong with the file, at once.",
    "crops": "The built-in crops, each number with its source.",
    "schema": "The JSON Schema of the garden's file or of what is printed.",
    "help": "What is worth knowing beside the commands.",
    "new": "Write a commented file to start from.",
}


_COMMANDS = "sowtide.cli.commands"
_OF_FILES = ("check", "did", "new", "schema")
"""Commands whose modules stand in the room of those about the files themselves."""


class Unheard(Exception):  # noqa: N818 — it says what became of what was printed
    """Whoever read what is printed has seen enough."""


@contextmanager
def _heard() -> Iterator[None]:
    """Raise `Unheard` where a pipe is closed; click would leave as if the command had failed."""
    try:
        yield
    except BrokenPipeError:
        raise Unheard from None


class Commands(click.Group):
    """Commands by name, in the order in which a grower meets them."""

    @_heard()
    def make_context(self, *args: Any, **more: Any) -> click.Context:
        """Read the command line; --help and --version print at once."""
        return super().make_context(*args, **more)

    @_heard()
    def invoke(self, ctx: click.Context) -> Any:
        """Run the command."""
        return super().invoke(ctx)

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Name the commands."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load a command."""
        if cmd_name not in COMMANDS:
            return None
        room = "files." if cmd_name in _OF_FILES else ""
        command: click.Command = import_module(f"{_COMMANDS}.{room}{cmd_name}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without loading them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command, or say which one was perhaps meant."""
        name = args[0] if args else ""
        if name and not name.startswith("-") and name not in COMMANDS:
            from difflib import get_close_matches

            near = get_close_matches(name, COMMANDS, n=1)
            hint = f" Did you mean '{near[0]}'?" if near else ""
            raise click.UsageError(f"There is no command '{name}'.{hint}", ctx)
        return super().resolve_command(ctx, args)
