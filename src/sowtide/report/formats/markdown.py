"""Blocks as Markdown, with tables and lists to tick off as most programs of a forge read them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from sowtide.report.blocks import (
    AbreastTable,
    Banner,
    Block,
    Checklist,
    ChecklistGroup,
    ChecklistItem,
    CutOuts,
    DatedTable,
    Fault,
    FigureList,
    FileTitle,
    Grid,
    GridRow,
    GroupedTable,
    Heading,
    Listing,
    MeasuredTable,
    Pasted,
    Rule,
    SeasonChart,
    ShareBars,
    Space,
    Sum,
    Table,
    Term,
    Text,
    ToFillIn,
    Tracks,
    TrailingTable,
    WeekStrips,
    headed,
)
from sowtide.report.formats.markdown_drawings import (
    days_of_tracks,
    season_in_words,
    weeks_of_strips,
)
from sowtide.report.formats.markdown_words import paragraph, said, table_rows

MARK = "<!-- sowtide -->"
"""The first line of a file that sowtide wrote; no reader shows it."""


def markdown_page(blocks: Iterable[Block]) -> str:
    """Write a page as Markdown: one title, then its parts."""
    parts, titled = [MARK], False
    for block in headed(blocks):
        made = "\n".join(_WRITERS[type(block)](block))
        if made and not titled and made.startswith("## "):
            made, titled = made[1:], True
        if made:
            parts.append(made)
    return "\n\n".join(parts) + "\n"


def _nothing(_: Block) -> Iterator[str]:
    yield from ()


def _cut_outs(of: CutOuts) -> Iterator[str]:
    for label in of.labels:
        yield f"- **{said(label.title)}**: {said('; '.join(label.lines))}"


def _rule(_: Rule) -> Iterator[str]:
    yield "---"


def _banner(of: Banner) -> Iterator[str]:
    yield f"## {said(of.left)}"
    yield ""
    yield f"**{said(of.right)}**"


def _heading(of: Heading | FileTitle) -> Iterator[str]:
    beside = "" if of.beside is None else f": {said(of.beside)}"
    yield f"## {said(of.title)}{beside}"


def _text(of: Text) -> Iterator[str]:
    first = of.first.strip()
    words = said(of.words) if first else paragraph(of.words)
    yield f"- {words}" if first == "-" else f"{said(of.first)}{words}".strip()


def _term(of: Term) -> Iterator[str]:
    yield f"**{said(of.term)}** {said(of.words)}"


def _pasted(of: Pasted) -> Iterator[str]:
    yield "```yaml"
    yield f"{' ' * of.indent}{of.opened}{', '.join(of.parts)}{of.closed}"
    yield "```"


def _fault(of: Fault) -> Iterator[str]:
    problem = of.problem
    place = (
        "" if problem.span is None else f" ({said(problem.span.file)}, line {problem.span.line})"
    )
    yield f"- **{problem.severity.value}:** {said(problem.message)}{place} `{problem.code}`"
    if problem.hint is not None:
        yield f"  {said(problem.hint)}"
    if of.also:
        yield f"  also: {said('; '.join(of.also))}"


def _sum(of: Sum) -> Iterator[str]:
    yield f"### {said(of.title)}: {said(of.total)}"
    yield ""
    steps = ((step.days, step.reached, step.words, step.origin) for step in of.steps)
    yield from table_rows(("days", "is", "what", "from"), steps, (True,))


def _table(of: Table) -> Iterator[str]:
    right = (False, *(column.right for column in of.columns))
    titles = (of.name, *(column.title for column in of.columns))
    yield from table_rows(titles, ((name, *texts) for name, texts in of.rows), right)


def _grouped(of: GroupedTable) -> Iterator[str]:
    titles = [of.name.title]
    for group in of.groups:
        titles += [f"{group.title} {column.title}".strip() for column in group.columns]
    right = [False, *[True] * (len(titles) - 1)]
    yield from table_rows(titles, ((name, *texts) for name, texts in of.rows), right)


def _trailing(of: TrailingTable) -> Iterator[str]:
    right = [False, *[True] * (len(of.titles) - 2), False]
    yield from table_rows(of.titles, ((name, *texts, last) for name, texts, last in of.rows), right)


def _dated(of: DatedTable) -> Iterator[str]:
    titles = ("", *of.titles, *of.judged_titles, "where")
    wide = len(of.judged_titles)
    yield from table_rows(
        titles,
        (
            (row.name, *row.days, *row.judged, *[""] * (wide - len(row.judged)), row.place)
            for row in of.rows
        ),
        [False, *[True] * (len(titles) - 2), False],
    )


def _bars(of: ShareBars) -> Iterator[str]:
    yield from table_rows(("", "share"), ((bar.label, bar.said) for bar in of.bars), (True, True))


def _abreast(of: AbreastTable) -> Iterator[str]:
    yield from table_rows(of.titles, of.rows, [False, *[True] * (len(of.titles) - 1)])


def _checklist(of: Checklist) -> Iterator[str]:
    for number, part in enumerate(of.parts):
        if number:
            yield ""
        yield f"### {said(part.title)}"
        yield ""
        yield from _grid(part) if isinstance(part, Grid) else _group(part)


def _group(of: ChecklistGroup) -> Iterator[str]:
    if of.note is not None:
        yield said(of.note)
        yield ""
    for item in of.items:
        what = " ".join(text for text in (item.verb if of.verb else "", item.name) if text)
        place = f", {said(item.place)}" if of.place else ""
        words = f": {said(item.words)}" if item.words.plain else ""
        yield f"- [ ] {_code(item)}{said(item.day.strip())} **{said(what)}**{place}{words}"


def _code(item: ChecklistItem) -> str:
    return f"`{item.code}` " if item.code else ""


def _square(row: GridRow, day: int) -> str:
    """Return what stands under a day: a box to tick, a cross where it is closed, or nothing."""
    if row.boxes[day]:
        return "☐"
    return "x" if row.closed and row.closed[day] else ""


def _grid(of: Grid) -> Iterator[str]:
    days = (f"{day} (today)" if n == of.today else day for n, day in enumerate(of.days))
    titles = ("code", "what", "where", *days, "until", "about")
    rows = (
        (
            f"`{row.code}`" if row.code else "",
            row.name,
            row.place,
            *(_square(row, day) for day in range(len(row.boxes))),
            row.until,
            row.amount,
        )
        for row in of.rows
    )
    yield from table_rows(titles, rows)
    notes = [row.note for row in of.rows if row.note is not None]
    if notes:
        yield ""
        yield from (f"- {said(note)}" for note in notes)


def _figures(of: FigureList) -> Iterator[str]:
    if of.title:
        yield f"### {said(of.title)}{f': {said(of.origin)}' if of.origin else ''}"
        yield ""
    rows = (
        (row.label, f"`{row.key}`" if row.key else "", row.said, row.origin, " ".join(row.below))
        for row in of.rows
    )
    yield from table_rows(("figure", "key", "value", "from", "more"), rows)


def _measured(of: MeasuredTable) -> Iterator[str]:
    (title, texts), *more = of.heads
    wide = len(texts)
    others = ((name, *said) for name, said in more)
    rows = (
        (row.label, *row.texts, "; ".join(text for text in (row.origin, row.note) if text))
        for row in of.rows
    )
    yield from table_rows((title, *texts, "from"), (*others, *rows), [False, *[True] * wide, False])


def _listing(of: Listing) -> Iterator[str]:
    for number, (title, rows) in enumerate(of.groups):
        if number:
            yield ""
        if title:
            yield f"### {said(title)}"
            yield ""
        yield from table_rows(
            (*(name for name, _ in of.columns), ""),
            ((row.name, *row.texts, row.more) for row in rows),
            [right for _, right in of.columns],
        )


_WRITERS: dict[type[Any], Callable[[Any], Iterable[str]]] = {
    Space: _nothing,
    ToFillIn: _nothing,
    Rule: _rule,
    CutOuts: _cut_outs,
    Banner: _banner,
    Heading: _heading,
    FileTitle: _heading,
    Text: _text,
    Term: _term,
    Pasted: _pasted,
    Fault: _fault,
    Sum: _sum,
    Table: _table,
    GroupedTable: _grouped,
    TrailingTable: _trailing,
    DatedTable: _dated,
    ShareBars: _bars,
    AbreastTable: _abreast,
    Checklist: _checklist,
    FigureList: _figures,
    MeasuredTable: _measured,
    Listing: _listing,
    Tracks: days_of_tracks,
    WeekStrips: weeks_of_strips,
    SeasonChart: season_in_words,
}
