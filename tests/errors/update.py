"""Write anew what each case file expects, and the pages made from the cases.

    python tests/errors/update.py  # then read the diff

A new case is made by writing what a grower might, and the line ``# expected`` below it.
"""

from __future__ import annotations

import sys
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parents[1]))

from checks import problems_page
from errors import journal_page, page, record_page
from sowtide.garden.read import read_garden
from sowtide.report.blocks import plain
from sowtide.report.formats.terminal.problem_lines import lines

_DOCS = Path(__file__).parents[2] / "docs"


def said(case: page.Case) -> str:
    """Return what sowtide says to a case."""
    problems = read_garden(case.data, "garden.yaml").problems
    return "".join(f"{line}\n" for problem in problems for line in plain(lines(problem)))


def main() -> None:
    """Rewrite the case files that expect something else, and the pages made from them."""
    for case in page.cases():
        _rewrite(Path(page.__file__).with_name(f"{case.name}.txt"), said(case))
    for of_record in record_page.cases():
        with TemporaryDirectory() as folder:
            _rewrite(of_record.path, record_page.said(of_record.loaded(Path(folder))))
    for of_journal in journal_page.cases():
        _rewrite(of_journal.path, journal_page.said(of_journal))
    for of_plan in problems_page.cases():
        _rewrite(of_plan.path, problems_page.said(of_plan.problems()))
    (_DOCS / "errors.md").write_text(page.page(), encoding="utf-8")
    (_DOCS / "problems.md").write_text(problems_page.problems_page(), encoding="utf-8")
    (_DOCS / "record-errors.md").write_text(record_page.record_page(), encoding="utf-8")
    (_DOCS / "journal-errors.md").write_text(journal_page.journal_page(), encoding="utf-8")


def _rewrite(path: Path, expected: str) -> None:
    written = path.read_bytes()
    given, mark, _ = written.partition(b"# expected\n")
    updated = given + mark + expected.encode()
    if updated != written:
        path.write_bytes(updated)
        sys.stdout.write(f"{path.name}\n")


if __name__ == "__main__":
    main()
