"""A season's chart in a terminal: plain characters, so that it says the same without colour."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sowtide.garden.want import Met
from sowtide.report.blocks import (
    AbreastTable,
    ChartBar,
    ChartRow,
    ChartWant,
    Line,
    SeasonChart,
    Span,
    Style,
    line,
    styled,
    together,
)
from sowtide.report.formats.terminal.cells import (
    Column,
    cells,
    cut,
    fit,
    pad,
    row,
    told_apart,
    width_of,
    wrap,
)
from sowtide.report.formats.terminal.chart_bars import (
    EARLIER,
    EMPTY,
    FROST_COLUMN,
    IN_BED,
    IN_TRAYS,
    LATER,
    MET,
    PICKING,
    bed_bar,
    packed,
    painted,
    tray_bar,
    with_frosts,
)
from sowtide.report.formats.terminal.chart_scale import (
    Scale,
    marks_over,
    months_over,
    scale_for,
    weeks_over,
)

_ROWS_BETWEEN_HEADS = 40
_WIDEST_NAME = 36
_DAY = 7
_SAID = {
    Met.ENOUGH: "what is wanted",
    Met.SOME: "half of it or more",
    Met.LESS: "less than half",
}


def season_chart(of: SeasonChart, width: int) -> Iterator[Line]:
    """Yield the chart with its title above and what its signs mean below."""
    label, scale = _columns(of, width)
    title = cut(of.title, max(width - len(of.what), 8))
    yield fit(line((title, Style.HEADING), of.what), width)
    days = "1 day" if scale.step == 1 else f"{scale.step} days"
    yield from wrap(f"{of.caption} {together(f'A column is {days}.')}", width)
    yield Line()
    yield from _chart(of, scale, label)
    yield from _key(of, scale, width)


def _columns(of: SeasonChart, width: int) -> tuple[int, Scale]:
    """Return the width of the labels and the scale beside them.

    Names of beds have room first, as far as it goes; those of series and crops get what is left
    over at the same scale.
    """
    most = min(16 if width < 100 else 24, width // 3)
    beds, below = of.names
    least = min(max(cells(name) for name in beds), most)
    scale = scale_for(of.days, columns=width - least - 1)
    for label in range(min(max(cells(name) for name in (*beds, *below)), most), least, -1):
        wider = scale_for(of.days, columns=width - label - 1)
        if wider.step == scale.step:
            return label, wider
    return least, scale


def _chart(of: SeasonChart, scale: Scale, label: int) -> Iterator[Line]:
    frosts = [scale.holding(day) if day else None for day in of.frosts]
    head = tuple(_head(of, scale, label))
    rule = _rule(scale, label, frosts)
    yield from head
    yield rule
    since = 0
    names = told_apart((bed.name for bed in of.beds), label)
    for bed in of.beds:
        bars = [bar for each in bed.bars if (bar := bed_bar(each, scale)) is not None]
        if not bars:
            continue
        if since > _ROWS_BETWEEN_HEADS:
            yield from (rule, *head, rule)
            since = 0
        rows = packed(bars, scale.columns, empty=EMPTY)
        for name, drawn in zip(
            _labels(names[bed.name], bed.below, label, len(rows)), rows, strict=True
        ):
            yield line(pad(name, label), " ", painted(with_frosts(drawn, frosts)))
        since += len(rows)
    for title, lines in (
        (
            "BENCH  in trays, by series; the number is the wave's",
            tuple(_bench(of.bench, scale, label)),
        ),
        (_on_the_table(of), tuple(_table(of.table, scale, label))),
    ):
        if lines:
            yield rule
            yield fit((title, Style.HEADING), label + 1 + scale.columns)
            yield from lines
    yield rule


def _head(of: SeasonChart, scale: Scale, label: int) -> Iterator[Line]:
    rows = [("", months_over(scale)), (f"{of.weekday} the", weeks_over(scale))]
    rows += [(each.name, marks_over(scale, each.marks)) for each in of.heads]
    for name, text in rows:
        if text:
            yield line(f"{pad(name, label)} {text}")


def _rule(scale: Scale, label: int, frosts: Iterable[int | None]) -> Line:
    drawn = ["-"] * scale.columns
    for column in frosts:
        if column is not None:
            drawn[column] = "+"
    return styled("-" * (label + 1) + "".join(drawn), Style.DIM)


def _labels(name: str, below: str, label: int, rows: int) -> tuple[str, ...]:
    """Return what stands before the rows of a bed: its name, and its size where it has room."""
    beside = f"{name}  {below}"
    if cells(beside) <= label:
        return (beside, *[""] * (rows - 1))
    return (name, below, *[""] * (rows - 2))[:rows]


def _bench(of: Iterable[ChartRow], scale: Scale, label: int) -> Iterator[Line]:
    """Yield the rows of the nursery, the waves of a series together, each with its number."""
    for each in of:
        bars = [bar for one in each.bars if (bar := tray_bar(one, scale)) is not None]
        name = each.name
        for drawn in packed(bars, scale.columns, empty=" "):
            yield line(f"{pad(name, label)} ", painted(_without_end(drawn)))
            name = ""


def _on_the_table(of: SeasonChart) -> str:
    if any(row.wanted for row in of.table):
        return "ON THE TABLE  what is picked; under it, if it is enough"
    return "ON THE TABLE  what is picked; a blank is a gap"


def _table(of: Iterable[ChartRow], scale: Scale, label: int) -> Iterator[Line]:
    """Yield a row for each kind with the weeks in which it is picked, the earliest first.

    Below it is when it is wanted, and how much of that comes.
    """
    found: list[tuple[int, str, list[str], tuple[ChartWant, ...]]] = []
    for each in of:
        drawn = [" "] * scale.columns
        for bar in each.bars:
            columns = _picked(bar, scale)
            if columns is not None:
                drawn[slice(*columns)] = PICKING * (columns[1] - columns[0])
        if PICKING in drawn or each.wanted:
            first = drawn.index(PICKING) if PICKING in drawn else scale.columns
            found.append((first, each.name, drawn, each.wanted))
    for _, name, drawn, wanted in sorted(found, key=lambda each: each[:2]):
        yield line(f"{pad(name, label)} ", painted(_without_end(drawn)))
        if wanted:
            yield line(f"{pad('  wanted', label)} ", painted(_wanted(wanted, scale)))


def _wanted(of: Iterable[ChartWant], scale: Scale) -> list[str]:
    drawn = [" "] * scale.columns
    for each in of:
        columns = scale.stretch(each.first, each.beyond)
        if columns is not None:
            drawn[slice(*columns)] = MET[each.met] * (columns[1] - columns[0])
    return _without_end(drawn)


def _picked(bar: ChartBar, scale: Scale) -> tuple[int, int] | None:
    return None if bar.picked is None else scale.stretch(*bar.picked)


def _without_end(drawn: list[str]) -> list[str]:
    """Return a row without the spaces at its end."""
    end = len(drawn)
    while end and drawn[end - 1] == " ":
        end -= 1
    return drawn[:end]


def _key(of: SeasonChart, scale: Scale, width: int) -> Iterator[Line]:
    """Yield what the signs mean, as far as there are any."""
    bars = [bar for bed in of.beds for bar in bed.bars]
    marks = [
        (True, f"{EMPTY} empty"),
        (True, f"{IN_BED} in the bed"),
        (True, f"{PICKING} picking"),
        (of.trays, f"{IN_TRAYS} in trays"),
        *((True, f"{sign} {means}") for sign, means in of.ends),
        (any(bar.first < scale.first for bar in bars), f"{EARLIER} since before"),
        (any(bar.beyond > scale.last for bar in bars), f"{LATER} stands on"),
    ]
    met = {each.met for row in of.table for each in row.wanted}
    marks += [(each in met, f"{sign} {_SAID[each]}") for each, sign in MET.items()]
    frosts = any(of.frosts)
    if frosts:
        marks.append((True, f"{FROST_COLUMN} average frost"))
    yield from _flowing([text for used, text in marks if used], width)
    if frosts:
        yield from wrap(
            "frost in 100: years with a frost still to come (spring), already come (autumn)", width
        )


def _flowing(texts: Iterable[str], width: int) -> Iterator[Line]:
    """Yield texts beside each other, as many in a line as it holds."""
    shown = ""
    for text in texts:
        if shown and cells(shown) + 2 + cells(text) > width:
            yield line(shown)
            shown = ""
        shown += f"  {text}" if shown else text
    yield line(shown)


def abreast_table(of: AbreastTable, width: int) -> Iterator[Line]:
    """Yield a table, in as many blocks beside each other as there is room for."""
    days = len(of.titles) - 1
    size = max(cells(texts[0]) for texts in (of.titles, *of.rows))
    size = min(size, _WIDEST_NAME, width - (_DAY + 2) * days)
    columns = (Column(size), *(Column(_DAY, right=True) for _ in range(days)))
    block = size + (_DAY + 2) * days
    abreast = max(min((width + 4) // (block + 4), -(-len(of.rows) // 4)), 1)
    height = -(-len(of.rows) // abreast)
    head: tuple[Span, ...] = tuple((text, Style.HEADING) for text in of.titles)
    yield line(*_beside([row(columns, head)] * abreast, block))
    for number in range(height):
        yield line(*_beside([row(columns, each) for each in of.rows[number::height]], block))


def _beside(blocks: list[Line], width: int) -> Iterator[Line | str]:
    """Yield lines side by side, each but the last filled up to a width."""
    for number, block in enumerate(blocks):
        yield block
        if number < len(blocks) - 1:
            yield " " * (width + 4 - width_of(block))
