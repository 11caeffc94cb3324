"""Write down the promised fields of the JSON: ``python tests/kept_fields.py`` adds new ones.

None is ever taken from the list.
"""

from __future__ import annotations

from pathlib import Path

from sowtide.report import REPORTS
from sowtide.report.formats.schema import field_paths

LIST = Path(__file__).with_name("kept_fields.txt")


def fields() -> set[str]:
    """Return every field of the JSON of every report, behind the report's name."""
    return {
        f"{name}: {path}" for name, report in REPORTS.items() for path in field_paths(report.of)
    }


def kept() -> set[str]:
    """Return the fields that are promised."""
    return set(LIST.read_text(encoding="utf-8").splitlines())


if __name__ == "__main__":
    LIST.write_text("\n".join([*sorted(kept() | fields()), ""]), encoding="utf-8")
