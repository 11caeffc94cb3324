"""What the command ``sowtide`` and ``python -m sowtide`` start with."""

from __future__ import annotations

import gc
import sys

INTERRUPTED = 130


def main() -> None:
    """Run sowtide; an interrupt leaves no traceback, not even while modules are loaded."""
    gc.disable()  # one short run; what the collector would free, the exit frees
    try:
        from sowtide.cli import main

        main()
    except KeyboardInterrupt:
        sys.exit(INTERRUPTED)


if __name__ == "__main__":
    main()
