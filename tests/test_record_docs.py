"""Every message about a record is named on the page of records."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parents[1]


def test_every_code_of_a_record_stands_on_its_page_and_no_other() -> None:
    sources = (ROOT / "src" / "sowtide" / "climate").glob("record_*.py")
    raised = {
        code
        for source in sources
        for code in re.findall(r'"(record-[a-z]+)"', source.read_text(encoding="utf-8"))
    }
    page = (ROOT / "docs" / "records.md").read_text(encoding="utf-8")
    assert len(raised) > 10
    assert raised == set(re.findall(r"^\| `(record-[a-z]+)` \|", page, flags=re.MULTILINE))
