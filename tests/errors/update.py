"""Write anew what each case file expects: ``python tests/errors/update.py``; then read the diff.

A new case is made by writing what a grower might, and the line ``# expected`` below it.
"""

from __future__ import annotations

import sys
from pathlib import Path

import page

from sowtide.garden.read import read_garden
from sowtide.report.problems import lines
from sowtide.report.sheet import plain


def said(case: page.Case) -> str:
    """Return what sowtide says to a case."""
    problems = read_garden(case.data, "garden.yaml").problems
    return "".join(f"{line}\n" for problem in problems for line in plain(lines(problem)))


def main() -> None:
    """Rewrite the case files that expect something else."""
    for case in page.cases():
        path = Path(page.__file__).with_name(f"{case.name}.txt")
        written = path.read_bytes()
        given, mark, _ = written.partition(b"# expected\n")
        updated = given + mark + said(case).encode()
        if updated != written:
            path.write_bytes(updated)
            sys.stdout.write(f"{path.name}\n")


if __name__ == "__main__":
    main()
