"""Blocks as Markdown, with tables and lists to tick off as most programs of a forge read them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, timedelta
from itertools import groupby
from typing import Any

from sowtide.days import short_span
from sowtide.report.blocks import (
    KEPT,
    AbreastTable,
    Banner,
    Block,
    ChartRow,
    Checklist,
    ChecklistGroup,
    ChecklistItem,
    DatedTable,
    Fault,
    FigureList,
    Grid,
    GridRow,
    GroupedTable,
    Heading,
    Inline,
    Line,
    Listing,
    MeasuredTable,
    Pasted,
    Rule,
    SeasonChart,
    ShareBars,
    Space,
    Style,
    Sum,
    Table,
    Term,
    Text,
    ToFillIn,
    Tracks,
    TrailingTable,
    WeekStrips,
    line,
)

MARK = "<!-- sowtide -->"
"""The first line of a file that sowtide wrote; no reader shows it."""

_CODE = re.compile(r"(`[^`\n]+`)")
_SPECIAL = re.compile(r"([\\*_\[\]<>|~`])")
_AT_START = re.compile(r"^(#{1,6}|[-+=]+|\d+[.)])(?=\s|$)")
_ENTITY = re.compile(r"&(?=#?\w+;)")
_BOLD = (Style.STRONG, Style.HEADING, Style.BAD, Style.WARN)
_A_DAY = timedelta(days=1)

Cell = Inline | None


def markdown_page(blocks: Iterable[Block]) -> str:
    """Write a page as Markdown: one title, then its parts."""
    parts, titled = [MARK], False
    for block in blocks:
        made = "\n".join(_WRITERS[type(block)](block))
        if made and not titled and made.startswith("## "):
            made, titled = made[1:], True
        if made:
            parts.append(made)
    return "\n\n".join(parts) + "\n"


def _said(of: Cell) -> str:
    """Return words as Markdown that reads as they stand; what is in backticks stays code."""
    if of is None:
        return ""
    said = of if isinstance(of, Line) else line(of)
    return "".join(_styled(text, style) for text, style in said.spans)


def _styled(text: str, style: Style) -> str:
    parts = _CODE.split(text.replace(KEPT, " "))
    made = "".join(
        part if number % 2 else _ENTITY.sub("&amp;", _SPECIAL.sub(r"\\\1", part))
        for number, part in enumerate(parts)
    )
    bare = made.strip()
    if style in _BOLD and bare:
        return made.replace(bare, f"**{bare}**", 1)
    return made


def _paragraph(of: Inline) -> str:
    """Return a paragraph that is not taken for a heading or an item of a list."""
    said = _said(of)
    found = _AT_START.match(said)
    if found is None:
        return said
    at = found.end() - 1 if found[0][0].isdigit() else 0
    return f"{said[:at]}\\{said[at:]}"


def _rows(
    titles: Sequence[Cell], rows: Iterable[Sequence[Cell]], right: Sequence[bool] = ()
) -> Iterator[str]:
    """Yield a table; cells are on one line, as the notation has it."""
    yield _row(titles)
    sides = [*right, *[False] * len(titles)][: len(titles)]
    yield f"| {' | '.join('---:' if each else '---' for each in sides)} |"
    for row in rows:
        yield _row([*row, *[""] * (len(titles) - len(row))])


def _row(cells: Iterable[Cell]) -> str:
    return f"| {' | '.join(' '.join(_said(each).split()) for each in cells)} |"


def _nothing(_: Block) -> Iterator[str]:
    yield from ()


def _rule(_: Rule) -> Iterator[str]:
    yield "---"


def _banner(of: Banner) -> Iterator[str]:
    yield f"## {_said(of.left)}"
    yield ""
    yield f"**{_said(of.right)}**"


def _heading(of: Heading) -> Iterator[str]:
    beside = "" if of.beside is None else f": {_said(of.beside)}"
    yield f"## {_said(of.title)}{beside}"


def _text(of: Text) -> Iterator[str]:
    first = of.first.strip()
    words = _said(of.words) if first else _paragraph(of.words)
    yield f"- {words}" if first == "-" else f"{_said(of.first)}{words}".strip()


def _term(of: Term) -> Iterator[str]:
    yield f"**{_said(of.term)}** {_said(of.words)}"


def _pasted(of: Pasted) -> Iterator[str]:
    yield "```yaml"
    yield f"{of.opened}{', '.join(of.parts)}{of.closed}"
    yield "```"


def _fault(of: Fault) -> Iterator[str]:
    problem = of.problem
    place = (
        "" if problem.span is None else f" ({_said(problem.span.file)}, line {problem.span.line})"
    )
    yield f"- **{problem.severity.value}:** {_said(problem.message)}{place} `{problem.code}`"
    if problem.hint is not None:
        yield f"  {_said(problem.hint)}"


def _sum(of: Sum) -> Iterator[str]:
    yield f"### {_said(of.title)}: {_said(of.total)}"
    yield ""
    steps = ((step.days, step.reached, step.words, step.origin) for step in of.steps)
    yield from _rows(("days", "is", "what", "from"), steps, (True,))


def _table(of: Table) -> Iterator[str]:
    right = (False, *(column.right for column in of.columns))
    titles = (of.name, *(column.title for column in of.columns))
    yield from _rows(titles, ((name, *texts) for name, texts in of.rows), right)


def _grouped(of: GroupedTable) -> Iterator[str]:
    titles = [of.name.title]
    for group in of.groups:
        titles += [f"{group.title} {column.title}".strip() for column in group.columns]
    right = [False, *[True] * (len(titles) - 1)]
    yield from _rows(titles, ((name, *texts) for name, texts in of.rows), right)


def _trailing(of: TrailingTable) -> Iterator[str]:
    right = [False, *[True] * (len(of.titles) - 2), False]
    yield from _rows(of.titles, ((name, *texts, last) for name, texts, last in of.rows), right)


def _dated(of: DatedTable) -> Iterator[str]:
    titles = ("", *of.titles, *of.judged_titles, "where")
    wide = len(of.judged_titles)
    yield from _rows(
        titles,
        (
            (row.name, *row.days, *row.judged, *[""] * (wide - len(row.judged)), row.place)
            for row in of.rows
        ),
        [False, *[True] * (len(titles) - 2), False],
    )


def _bars(of: ShareBars) -> Iterator[str]:
    yield from _rows(("", "share"), ((bar.label, bar.said) for bar in of.bars), (True, True))


def _abreast(of: AbreastTable) -> Iterator[str]:
    yield from _rows(of.titles, of.rows, [False, *[True] * (len(of.titles) - 1)])


def _checklist(of: Checklist) -> Iterator[str]:
    for number, part in enumerate(of.parts):
        if number:
            yield ""
        yield f"### {_said(part.title)}"
        yield ""
        yield from _grid(part) if isinstance(part, Grid) else _group(part)


def _group(of: ChecklistGroup) -> Iterator[str]:
    for item in of.items:
        what = " ".join(text for text in (item.verb if of.verb else "", item.name) if text)
        place = f", {_said(item.place)}" if of.place else ""
        words = f": {_said(item.words)}" if item.words.plain else ""
        yield f"- [ ] {_code(item)}{_said(item.day.strip())} **{_said(what)}**{place}{words}"


def _code(item: ChecklistItem) -> str:
    return f"`{item.code}` " if item.code else ""


def _square(row: GridRow, day: int) -> str:
    """Return what stands under a day: a box to tick, a cross where it is closed, or nothing."""
    if row.boxes[day]:
        return "☐"
    return "x" if row.closed and row.closed[day] else ""


def _grid(of: Grid) -> Iterator[str]:
    titles = ("code", "what", "where", *of.days, "until", "about")
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
    yield from _rows(titles, rows)
    notes = [row.note for row in of.rows if row.note is not None]
    if notes:
        yield ""
        yield from (f"- {_said(note)}" for note in notes)


def _figures(of: FigureList) -> Iterator[str]:
    if of.title:
        yield f"### {_said(of.title)}{f': {_said(of.origin)}' if of.origin else ''}"
        yield ""
    rows = (
        (row.label, f"`{row.key}`" if row.key else "", row.said, row.origin, " ".join(row.below))
        for row in of.rows
    )
    yield from _rows(("figure", "key", "value", "from", "more"), rows)


def _measured(of: MeasuredTable) -> Iterator[str]:
    (title, texts), *more = of.heads
    wide = len(texts)
    others = ((name, *said) for name, said in more)
    rows = (
        (row.label, *row.texts, "; ".join(text for text in (row.origin, row.note) if text))
        for row in of.rows
    )
    yield from _rows((title, *texts, "from"), (*others, *rows), [False, *[True] * wide, False])


def _listing(of: Listing) -> Iterator[str]:
    for number, (title, rows) in enumerate(of.groups):
        if number:
            yield ""
        if title:
            yield f"### {_said(title)}"
            yield ""
        yield from _rows(
            (*(name for name, _ in of.columns), ""),
            ((row.name, *row.texts, row.more) for row in rows),
            [right for _, right in of.columns],
        )


def _tracks(of: Tracks) -> Iterator[str]:
    """Yield a row for each track: the days of its marks, which is what a picture would show."""
    rows = (
        (track.label, ", ".join(_span(mark.sign, mark.first, mark.beyond) for mark in track.marks))
        for track in of.tracks
    )
    yield from _rows(("", "days"), rows)


def _span(sign: str, first: date, beyond: date | None) -> str:
    return f"{sign} {short_span(first, first if beyond is None else beyond - _A_DAY)}"


def _weeks(of: WeekStrips) -> Iterator[str]:
    """Yield a row for each strip: the weeks of each of its signs, by their Mondays."""
    means = dict(of.key)
    rows = []
    for strip in of.strips:
        said, at = [], 0
        for sign, group in groupby(strip.signs):
            weeks = len(tuple(group))
            first = of.first + timedelta(weeks=at)
            if sign != " ":
                last = first + timedelta(weeks=weeks, days=-1)
                said.append(f"{means.get(sign, sign)} {short_span(first, last)}")
            at += weeks
        rows.append((strip.label, "; ".join(said)))
    yield from _rows(("", "weeks"), rows)


def _season(of: SeasonChart) -> Iterator[str]:
    yield f"## {_said(of.title)}: {_said(of.what.strip())}"
    yield ""
    yield _paragraph(of.caption)
    yield ""
    rows = [
        (head.name, ", ".join(short_span(m.days.first, m.days.last) for m in head.marks))
        for head in of.heads
        if not head.is_odds
    ]
    for coming, name in ((True, "frost still to come"), (False, "frost already come")):
        odds = (e for e in of.odds if e.coming is coming)
        said = [f"{round(100 * e.share)} in 100 on {short_span(e.day, e.day)}" for e in odds]
        if said:
            rows.append((name, ", ".join(said)))
    yield from _rows(("season", "days"), rows)
    yield ""
    yield from _rows(
        ("bed", "what", "in from", "picked", "out on", "ended by"),
        (
            (
                bed.name,
                bar.name,
                short_span(bar.first, bar.first),
                _picked(bar.picked),
                short_span(bar.beyond, bar.beyond),
                bar.note,
            )
            for bed in of.beds
            for bar in bed.bars
        ),
    )
    for title, lines in (("In trays", of.bench), ("On the table", of.table)):
        if lines:
            yield ""
            yield f"### {title}"
            yield ""
            yield from _rows(("what", "days"), ((row.name, _runs(row, title)) for row in lines))


def _runs(row: ChartRow, title: str) -> str:
    """Say the days of a row: of each wave in trays, or those on which anything is picked."""
    if title == "In trays":
        return ", ".join(f"{b.name}: {short_span(b.first, b.beyond - _A_DAY)}" for b in row.bars)
    return ", ".join(
        _picked(span) for span in sorted(bar.picked for bar in row.bars if bar.picked is not None)
    )


def _picked(span: tuple[date, date] | None) -> str:
    return "" if span is None else short_span(span[0], span[1] - _A_DAY)


_WRITERS: dict[type[Any], Callable[[Any], Iterable[str]]] = {
    Space: _nothing,
    ToFillIn: _nothing,
    Rule: _rule,
    Banner: _banner,
    Heading: _heading,
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
    Tracks: _tracks,
    WeekStrips: _weeks,
    SeasonChart: _season,
}
