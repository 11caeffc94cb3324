"""The command line: parse, load, compute, render, print; no rule of the trade."""

from __future__ import annotations

import gc
import sys

import click

from sowtide.cli.group import Commands
from sowtide.diagnostics import Unreadable

USAGE = 2
BUG = 3
_INTERRUPTED = 130


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
    """Run sowtide and leave with its exit code: 0, 1 for errors in the file, 2 for wrong usage."""
    gc.disable()  # one short run; what the collector would free, the exit frees
    debug = "--debug" in sys.argv[1:]
    try:
        code = cli.main(standalone_mode=False)
    except click.exceptions.Abort:
        code = _INTERRUPTED
    except click.UsageError as error:
        code = _say(f"{error.format_message()} See 'sowtide --help'.", USAGE)
    except click.ClickException as error:
        code = _say(error.format_message(), error.exit_code)
    except Unreadable as error:
        code = _say(str(error), USAGE)
    except Exception:
        if debug:
            raise
        code = _say(
            "Sorry, this is a fault of sowtide's own, not of your file. "
            "Run it again with 'sowtide --debug …' and report what it shows.",
            BUG,
        )
    gc.freeze()  # the exit looks for nothing to free either
    sys.exit(code)


def _say(message: str, code: int) -> int:
    from sowtide.cli.output import say

    say(message)
    return code
