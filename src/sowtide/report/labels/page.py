"""Labels as a page: one beside the other, to cut out."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.report.blocks import Block, CutOut, CutOuts, Heading, Text
from sowtide.report.kit import words
from sowtide.report.labels.view import LabelsView, StakeLabel


def page(of: LabelsView) -> Iterator[Block]:
    """Yield a label for each wave and bed."""
    yield Heading(f"LABELS {words.season_name(of.setting.year)}", of.setting.name)
    if not of.labels:
        yield Text("No wave needs a label.")
        return
    yield CutOuts(tuple(CutOut(each.wave, tuple(_lines(each, of))) for each in of.labels))


def _lines(label: StakeLabel, of: LabelsView) -> Iterator[str]:
    year = of.setting.year
    yield label.crop
    yield f"{label.bed}, {words.count(label.plants, 'plant')}"
    sown = f"sown {words.day(label.sow, year)}"
    out = "" if label.plant == label.sow else f", out {words.day(label.plant, year)}"
    yield f"{sown}{out}"
    if label.first_pick is not None:
        yield f"first pick {words.day(label.first_pick, year)}"
