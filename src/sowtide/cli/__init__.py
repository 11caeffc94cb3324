"""The command line: parse, load, compute, render, print; no rule of the trade."""

from __future__ import annotations

import gc
import os
import sys
from io import StringIO
from pathlib import Path

import click

from sowtide.cli.group import Commands, Unheard
from sowtide.diagnostics import Unreadable, reason_of

USAGE = 2
BUG = 3
_INTERRUPTED = 130
_PIPE_CLOSED = 141


@click.group(
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Dates and odds are estimates, not promises. Every command explains itself with --help.",
)
@click.version_option(package_name="sowtide", message="%(prog)s %(version)s")
@click.option("--debug", is_flag=True, help="Show where a fault of sowtide's own happened.")
def cli(debug: bool) -> None:
    """Plan sowings in waves between two frosts.

    sowtide reads one file, garden.yaml, and says what to sow, plant out, pick and pull this
    week, how the season looks, and whether one more wave still fits before frost.
    """


def main() -> None:
    """Run sowtide and leave with its exit code.

    0, or 1 for errors in the file, 2 for wrong usage and for what the system refuses, 3 for a fault
    of sowtide's own, 130 where it was interrupted, 141 where its reader has seen enough.
    """
    _open_closed_streams()
    debug = "--debug" in sys.argv[1:]
    try:
        code = cli.main(prog_name="sowtide", standalone_mode=False)
    except click.exceptions.Abort:
        code = _INTERRUPTED
    except click.UsageError as error:
        asked = "sowtide" if error.ctx is None else error.ctx.command_path
        code = _say(f"{_misused(error)} See '{asked} --help'.", USAGE)
    except click.ClickException as error:
        code = _say(error.format_message(), error.exit_code)
    except Unreadable as error:
        code = _say(str(error), USAGE)
    except Unheard:
        sys.stdout = sys.stderr = StringIO()  # what is left of it would break the pipe again
        code = _PIPE_CLOSED
    except Exception as error:
        if debug:
            raise
        if isinstance(error, OSError | MemoryError):
            code = _say(f"Cannot go on: {_refusal(error)}.", USAGE)
        else:
            code = _say(
                "Sorry, this is a fault of sowtide's own, not of your file. "
                "Run it again with 'sowtide --debug …' and report what it shows.",
                BUG,
            )
    finally:
        gc.freeze()  # the exit looks for nothing to free either, nor does that of a completed line
    sys.exit(code)


def _misused(error: click.UsageError) -> str:
    """Say what is misused; a garden's file given bare is shown with its option."""
    said = error.format_message()
    said = said if said.endswith((".", "?", "!")) else f"{said}."
    # Nothing but click's words tells what is left over: its kind and fields are those of any other.
    if error.ctx is None or "unexpected extra argument" not in said:
        return said
    files = (each for each in sys.argv[1:] if each.endswith((".yaml", ".yml")))
    file = next((each for each in files if each in said), None)
    if file is None:
        return said
    return f"{said} The garden's file goes behind its option: --garden {file}."


def _open_closed_streams() -> None:
    """Give what is printed somewhere to go where the shell has closed a stream."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, Path(os.devnull).open("w"))  # noqa: SIM115 — to the very end


def _refusal(error: OSError | MemoryError) -> str:
    """Say what the system refuses; what is still to be printed is given up with it."""
    sys.stdout = StringIO()
    if isinstance(error, MemoryError):
        return "there is not enough memory"
    named = "" if error.filename is None else f"{error.filename}: "
    return f"{named}{reason_of(error).lower()}"


def _say(message: str, code: int) -> int:
    from sowtide.cli.output import say

    try:
        say(message)
    except OSError:  # nobody is listening: the code alone says it
        sys.stderr = StringIO()
    return code
