"""Write what each key means, as the reference says it, into the table that the schema has it from.

``python tests/key_words.py``
"""

from __future__ import annotations

import re
from pathlib import Path

from sowtide.garden.described.garden_schema import SECTIONS

ROOT = Path(__file__).parents[1]
TABLE = ROOT / "src/sowtide/garden/described/key_words.tsv"
_LINK = re.compile(r"\[([^\]]*)\]\([^)]*\)")


def table() -> str:
    """Return the table: section, key, what it means."""
    lines = []
    garden = (ROOT / "docs/garden-file.md").read_text(encoding="utf-8")
    for section in SECTIONS.values():
        heading = "The file" if section == "the file" else section
        lines += _rows(section, garden.partition(f"\n## {heading}\n")[2])
    journal = (ROOT / "docs/journal.md").read_text(encoding="utf-8")
    lines += _rows("journal", journal.partition("\n## Keys\n")[2])
    return "\n".join([*lines, ""])


def _rows(section: str, text: str) -> list[str]:
    found = []
    for row in text.partition("\n## ")[0].splitlines():
        if not row.startswith("| `"):
            continue
        cells = [cell.strip() for cell in row.strip("|").split(" | ")]
        key, said = cells[0].split("`")[1], _plain(cells[-1])
        unit = _plain(cells[2]) if len(cells) == 4 else ""
        found.append(f"{section}\t{key}\t{said}{f' [{unit}]' if unit else ''}")
    return found


def _plain(text: str) -> str:
    return _LINK.sub(r"\1", text).replace("`", "").replace("\\|", "|").strip(" |")


if __name__ == "__main__":
    TABLE.write_text(table(), encoding="utf-8")
