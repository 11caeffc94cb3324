"""On the table and supply say the same of the same garden: in words, drawn, and as data."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random

import pytest

import gardens
from sowtide.garden.journal import journal_of
from sowtide.garden.want import Met
from sowtide.report import calendar, supply
from sowtide.report.blocks import ChartRow, SeasonChart
from sowtide.report.calendar import CalendarView
from sowtide.report.formats.html.paper import Paper, sheet_of
from sowtide.report.formats.html.season_drawing import drawn_season
from sowtide.report.formats.markdown import markdown_page
from sowtide.report.supply import SupplyView
from sowtide.schedule.learning import OwnYields
from sowtide.schedule.season import Season
from sowtide.schedule.supply import supply_of
from sowtide.season import season_of

EXAMPLES = Path(__file__).parents[2] / "examples"
DEMO = Path(__file__).parents[2] / "src/sowtide/demo/garden.yaml"
CROPS = ("lettuce", "frilly", "speckled", "bush bean", "carrot", "zucchini", "pea")
COUNTED = ("speckled",)
_A_WEEK = timedelta(days=7)
_WORDS = {"enough": Met.ENOUGH, "half or more": Met.SOME, "less than half": Met.LESS}


def drawn(seed: int) -> tuple[Season, OwnYields | None]:
    """Return a garden of some crops, wants for some of them, and in half of them a journal."""
    draw = Random(seed)
    waves, wants = [], []
    for crop in draw.sample(CROPS, 4):
        start, every = date(2026, 4, 1 + draw.randrange(28)), draw.choice((14, 21))
        plants, count = draw.choice((5, 20, 60)), draw.randint(1, 5)
        waves.append(
            gardens.wave(crop, start=f"{start:%m-%d}", plants=str(plants), every=str(every))[:-1]
            + f", count: {count}}}"
        )
    for crop in draw.sample(CROPS, 3):
        unit = "heads" if crop in COUNTED else "kg"
        amount = draw.choice((1, 2, 4))
        more = draw.choice(("", ", from: 06-20, until: 09-10", ", from: 07-06, until: 07-12"))
        want = f"  - {{crop: {crop}, amount: {amount} {unit}, every: week{more}}}\n"
        wants.append(want)
        if "07-12" in more:  # and once more, with weeks between
            wants.append(want.replace("07-06", "08-10").replace("07-12", "08-16"))
    file = (
        gardens.text(
            *waves,
            crops=("frilly: {like: lettuce}", "speckled: {like: lettuce, yield_per_plant: 1 head}"),
            beds=("{bed: Long, size: 2 x 12}", "{bed: Short, size: 1 x 4}"),
        )
        + "want:\n"
        + "".join(wants)
    )
    garden = gardens.read(file)
    today = date(2026, 4, 1) + timedelta(days=draw.randrange(200))
    plain = season_of(garden, today)
    if seed % 2:
        return plain, None
    lines = "".join(_picked(plain, draw))
    journal = journal_of(lines.encode(), "journal.yaml").journal
    assert journal is not None
    if not lines:
        return plain, None
    return season_of(garden, today, None, journal), OwnYields(garden, journal, today)


def _picked(season: Season, draw: Random) -> Iterator[str]:
    """Yield what was noted of the waves that are over by now: three pickings, and pulled."""
    entries = []
    for wave in season.waves:
        stages = wave.stages
        if not wave.stands or stages.first_pick is None or stages.pull_out.day >= season.today:
            continue
        entries.append((stages.plant.day, f"wave: {wave.id}, did: planted out"))
        if not wave.from_trays:
            entries[-1] = (stages.plant.day, f"wave: {wave.id}, did: sown")
        first = stages.first_pick[0].day
        entries += [
            (first + timedelta(days=n), f"wave: {wave.id}, did: picked, amount: {n + 1} kg")
            for n in range(draw.randint(1, 3))
            if first + timedelta(days=n) < stages.pull_out.day
        ]
        entries.append((stages.pull_out.day, f"wave: {wave.id}, did: pulled"))
    return (f"- {{on: {day}, {said}}}\n" for day, said in sorted(entries))


def _weeks(row: ChartRow) -> dict[date, Met]:
    found: dict[date, Met] = {}
    for span in row.wanted:
        monday = span.first
        while monday < span.beyond:
            found[monday] = span.met
            monday += _A_WEEK
    return found


def assert_same(season: Season, own: OwnYields | None) -> Counter[str]:
    """Hold the calendar to supply; return how much there was to hold."""
    table, told = calendar.view(season, own), supply.view(season, own)
    held = Counter(wanted=len(table.wanted), gaps=len(table.short_of), gluts=len(table.too_much))
    assert_same_data(table, told, season.today)
    chart = next(each for each in calendar.REPORT.page(table) if isinstance(each, SeasonChart))
    assert_same_rows(chart, season, own)
    assert_same_in_markdown(table, told)
    return held


def assert_same_data(table: CalendarView, told: SupplyView, today: date) -> None:
    """Every week with a want has the same figures, and gaps and gluts that are not over too."""
    ours = {(each.crop, each.unit): each for each in table.wanted}
    for crop in told.crops:
        weeks = [
            (each.week, each.want, each.expected, each.met)
            for each in crop.weeks
            if each.want is not None
        ]
        mine = ours.pop((crop.crop, crop.unit), None)
        assert (
            []
            if mine is None
            else [(each.week, each.want, each.expected, each.met) for each in mine.weeks]
        ) == weeks
    assert not ours
    for shown, all_of in (
        (table.short_of, [(crop, each) for crop in told.crops for each in crop.gaps]),
        (table.too_much, [(crop, each) for crop in told.crops for each in crop.gluts]),
    ):
        assert [(e.crop, e.unit, e.from_, e.to, e.want, e.expected) for e in shown] == [
            (crop.crop, crop.unit, each.from_, each.to, each.want, each.expected)
            for crop, each in all_of
            if each.to >= today
        ]


def assert_same_rows(chart: SeasonChart, season: Season, own: OwnYields | None) -> None:
    """A want stands beside the waves that bring it in, and no others, week for week."""
    rows = [each for each in chart.table if each.wanted]
    for each in supply_of(season, own):
        weeks = {week.week: week.met for week in each.weeks if week.met is not None}
        if not weeks:
            continue
        standing = {wave.id for wave in each.waves if wave.stands}
        row = next(
            row
            for row in rows
            if _weeks(row) == weeks and {bar.name for bar in row.bars} == standing
        )
        rows.remove(row)
    assert not rows
    paper = drawn_season(chart, sheet_of(Paper.A4, landscape=True)).sections[-1]
    kinds = Counter(
        box.kind for strip in paper.strips if strip.below == "wanted" for box in strip.drawing.boxes
    )
    signs = {Met.ENOUGH: "comes", Met.SOME: "partly", Met.LESS: "lacking"}
    spans = Counter(
        signs[span.met]
        for row in chart.table
        for span in row.wanted
        if span.beyond > chart.days.first and span.first <= chart.days.last
    )
    assert kinds == spans


def assert_same_in_markdown(table: CalendarView, told: SupplyView) -> None:
    """The words of a page give each crop's weeks that are met alike."""
    said = re.findall(
        r"^\| (.+), wanted \| (.+) \|$", markdown_page(calendar.REPORT.page(table)), re.M
    )
    wanted = [each for each in told.crops if any(week.want is not None for week in each.weeks)]
    assert len(said) == len(wanted)
    counts = Counter()
    for _, text in said:
        for words, met in _WORDS.items():
            counts[met] += len(re.findall(rf"{words}(?:,|$)", text))
    runs = Counter()
    for crop in wanted:
        before: tuple[date, Met | None] | None = None
        for week in crop.weeks:
            if week.met is None:
                continue
            if before != (week.monday - _A_WEEK, week.met):
                runs[week.met] += 1
            before = (week.monday, week.met)
    assert counts == runs


@pytest.mark.parametrize("seed", range(30))
def test_on_the_table_says_what_supply_says(seed: int) -> None:
    season, own = drawn(seed)
    assert assert_same(season, own)["wanted"] >= 1


@pytest.mark.parametrize(
    ("path", "today", "wants", "count"),
    [
        (DEMO, date(2026, 7, 16), "", 5),
        (
            EXAMPLES / "allotment/garden.yaml",
            date(2026, 12, 1),
            "want:\n  - {crop: bush bean, amount: 1 kg}\n  - {crop: lettuce, amount: 300 g}\n"
            "  - {crop: frilly lettuce, amount: 300 g}\n"
            "  - {crop: beet, amount: 1 kg, in: 2027-W05}\n",
            4,
        ),
    ],
    ids=["demo", "allotment"],
)
def test_on_the_table_of_the_examples_says_what_supply_says(
    path: Path, today: date, wants: str, count: int
) -> None:
    season = season_of(gardens.read(path.read_text(encoding="utf-8") + wants), today)
    assert assert_same(season, None)["wanted"] == count


def test_some_of_the_drawn_gardens_have_gaps_gluts_and_yields_of_their_own() -> None:
    found = [drawn(seed) for seed in range(30)]
    held = sum((assert_same(*each) for each in found), Counter[str]())
    assert min(held.values()) >= 10
    of_own = [
        any(own.of(crop) is not None for crop in season.garden.crops)
        for season, own in found
        if own is not None
    ]
    assert sum(of_own) >= 3
    assert any(
        calendar.view(season, own).wanted != calendar.view(season).wanted
        for season, own in found
        if own is not None
    )
