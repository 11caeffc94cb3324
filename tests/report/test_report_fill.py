"""What ``supply --fill`` says is the same in every form."""

from __future__ import annotations

import csv
import html
import json
import re
from functools import cache
from io import StringIO

import gardens
from printed import form
from sowtide.report import REPORTS
from sowtide.report.fill import FillView, view
from sowtide.schedule.filling import filled
from sowtide.schedule.supply import supply_of

FILE = (
    gardens.text(
        crops=(
            gardens.leaf("leaf", yield_per_plant="0.1", in_row="20", between_rows="30"),
            gardens.crop("bean", yield_per_plant="0.2", in_row="20", between_rows="40"),
        ),
        beds=("{bed: 'Long, by the wall', size: 1 x 6}", "{bed: Wide, size: 2 x 2}"),
    )
    + """want:
  - {crop: leaf, amount: 1 kg, from: 06-15, until: 08-30}
  - {crop: bean, amount: 2 kg, from: 05-25, until: 09-13}
"""
)


@cache
def _view() -> FillView:
    before = gardens.season(FILE)
    return view(before, filled(before, supply_of(before)))


@cache
def _written(name: str) -> str:
    return form(REPORTS["supply --fill"], _view(), name)


def test_csv_has_the_waves_of_json() -> None:
    rows = list(csv.DictReader(StringIO(_written("csv"))))
    lines = json.loads(_written("json"))["lines"]
    assert len(rows) == len(lines) == len(_view().lines) > 4
    for row, line in zip(rows, lines, strict=True):
        assert row == {name: str(line[name]) for name in row}
    assert list(rows[0]) == ["series", "crop", "plants", "bed", "sow", "plant", "first_pick"]


def test_pages_have_every_line_to_paste_and_every_number_of_the_table() -> None:
    document = json.loads(_written("json"))
    markdown = re.sub(r"\s+", " ", _written("markdown"))
    page = re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", " ", _written("html"))))
    for text in (markdown, page):
        for line in document["lines"]:
            assert re.sub(r"\s+", " ", line["text"]).removeprefix("- ") in text
    for crop in document["crops"]:
        numbers = [crop["weeks_wanted"], crop["waves"], f"{crop['plants']:,}"]
        row = next(
            line for line in _written("markdown").splitlines() if f"| {crop['crop']} " in line
        )
        cells = [cell.strip() for cell in row.strip("|").split("|")]
        assert [cells[1], cells[6], cells[7]] == [str(each) for each in numbers]
        assert float(cells[3]) == round(crop["unmet_after"], 1)


def test_the_gaps_that_stay_are_parted_by_why_no_more_is_planted() -> None:
    # Beans sown on the first safe day are picked from early July on: before it is too early; what
    # is not met later has full beds in its way.
    (leaf, bean) = _view().crops
    whys = [gap.why.value for gap in bean.still]
    assert whys[0] == "too early"
    days = [(gap.from_, gap.to) for gap in bean.still]
    assert all(first.weekday() == 0 and to.weekday() == 6 for first, to in days)
    assert days == sorted(days)
    assert leaf.unmet_after < leaf.unmet_before
