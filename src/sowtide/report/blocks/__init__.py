"""What a page is made of: blocks that any format can lay out, and the styled words in them.

A block says what it is, never how wide.
"""

from __future__ import annotations

from typing import TypeAlias

from sowtide.report.blocks.bars import ShareBar, ShareBars
from sowtide.report.blocks.chart import (
    AbreastTable,
    ChartBar,
    ChartHead,
    ChartMark,
    ChartOdds,
    ChartRow,
    ChartSpace,
    ChartWant,
    SeasonChart,
)
from sowtide.report.blocks.checklists import (
    Checklist,
    ChecklistGroup,
    ChecklistItem,
    CutOut,
    CutOuts,
    Grid,
    GridRow,
    ToFillIn,
)
from sowtide.report.blocks.drawn_in_words import strip_rows, track_rows
from sowtide.report.blocks.figures import (
    FigureList,
    FigureRow,
    Listing,
    ListingRow,
    MeasuredRow,
    MeasuredTable,
)
from sowtide.report.blocks.headed import headed
from sowtide.report.blocks.plain_blocks import (
    Banner,
    Counted,
    Fault,
    FileTitle,
    Heading,
    Pasted,
    Rule,
    Space,
    Sum,
    Term,
    Text,
)
from sowtide.report.blocks.styled import (
    EMPTY,
    KEPT,
    Inline,
    Line,
    Span,
    Style,
    line,
    plain,
    styled,
    together,
)
from sowtide.report.blocks.tables import (
    Cells,
    DatedRow,
    DatedTable,
    Group,
    GroupedTable,
    Table,
    TrailingTable,
)
from sowtide.report.blocks.tracks import Mark, Track, Tracks, WeekStrip, WeekStrips

__all__ = [
    "EMPTY",
    "KEPT",
    "AbreastTable",
    "Banner",
    "Block",
    "Cells",
    "ChartBar",
    "ChartHead",
    "ChartMark",
    "ChartOdds",
    "ChartRow",
    "ChartSpace",
    "ChartWant",
    "Checklist",
    "ChecklistGroup",
    "ChecklistItem",
    "Counted",
    "CutOut",
    "CutOuts",
    "DatedRow",
    "DatedTable",
    "Fault",
    "FigureList",
    "FigureRow",
    "FileTitle",
    "Grid",
    "GridRow",
    "Group",
    "GroupedTable",
    "Heading",
    "Inline",
    "Line",
    "Listing",
    "ListingRow",
    "Mark",
    "MeasuredRow",
    "MeasuredTable",
    "Pasted",
    "Rule",
    "SeasonChart",
    "ShareBar",
    "ShareBars",
    "Space",
    "Span",
    "Style",
    "Sum",
    "Table",
    "Term",
    "Text",
    "ToFillIn",
    "Track",
    "Tracks",
    "TrailingTable",
    "WeekStrip",
    "WeekStrips",
    "headed",
    "line",
    "plain",
    "strip_rows",
    "styled",
    "together",
    "track_rows",
]

Block: TypeAlias = (
    Space
    | Rule
    | Banner
    | Heading
    | FileTitle
    | Text
    | Term
    | Table
    | GroupedTable
    | TrailingTable
    | DatedTable
    | ShareBars
    | AbreastTable
    | SeasonChart
    | Checklist
    | FigureList
    | MeasuredTable
    | Listing
    | ToFillIn
    | CutOuts
    | Fault
    | Pasted
    | Sum
    | Tracks
    | WeekStrips
)
"""What a page is made of."""
