"""Pages as HTML: whole, alone, drawn within their bounds, and nothing in them but what was said."""

from __future__ import annotations

import re
from datetime import date, timedelta
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import Any, get_args

import html5lib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardens import season as planned
from gardens import text, wave
from sowtide.days import DateSpan
from sowtide.report import REPORTS
from sowtide.report.blocks import (
    Banner,
    Block,
    ChartBar,
    ChartRow,
    Checklist,
    ChecklistGroup,
    ChecklistItem,
    Heading,
    Line,
    Mark,
    SeasonChart,
    Style,
    ToFillIn,
    Track,
    Tracks,
    WeekStrip,
    WeekStrips,
)
from sowtide.report.choices import Paper
from sowtide.report.formats.html import html_page
from sowtide.report.formats.html.document import _environment
from sowtide.report.formats.html.extent import extent
from sowtide.report.formats.html.marks import Drawing
from sowtide.report.formats.html.paper import sheet_of
from sowtide.report.formats.html.season_drawing import (
    Strip,
    StripSection,
    _pages,
    drawn_season,
)
from sowtide.report.formats.html.track_drawing import drawn_tracks
from sowtide.report.formats.html.week_drawing import drawn_weeks
from sowtide.schedule.season import Season
from sowtide.schedule.work import week_sheets
from sowtide.season import load, load_demo, season_of

EXAMPLES = Path(__file__).parents[2] / "examples"
DAYS = {
    "demo": date(2026, 7, 16),
    "allotment": date(2026, 11, 20),
    "market-garden": date(2026, 7, 16),
}
TRICKY = """Bed "A" & <script>alert('1')</script>"""

each_garden = pytest.mark.parametrize("name", DAYS)
each_paper = pytest.mark.parametrize("paper", Paper)


@cache
def season(name: str) -> Season:
    loaded = load_demo() if name == "demo" else load(EXAMPLES / name / "garden.yaml")
    assert loaded.garden is not None
    return season_of(loaded.garden, DAYS[name], loaded.record, loaded.journal)


@cache
def blocks(name: str, command: str) -> tuple[Block, ...]:
    of = season(name)
    report = REPORTS[command]
    if command == "week":
        from sowtide.report.week import view as week

        sheets = week_sheets(of.garden, of.waves, date(2026, 7, 13), weeks=1)
        return tuple(report.page(week(sheets, of)))
    from sowtide.report.calendar import view

    return tuple(report.page(view(of)))


@cache
def html(name: str, command: str, paper: Paper = Paper.A4) -> str:
    return html_page(blocks(name, command), paper)


@cache
def parsed(text: str) -> Any:
    """Return a document as a tree; raises where it is not HTML to the letter."""
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    return parser.parse(text)


@each_garden
@pytest.mark.parametrize(
    ("command", "paper"),
    [("week", Paper.LETTER), ("week", Paper.A4), ("calendar", Paper.A4)],
)
def test_a_page_is_html_that_stands_alone(name: str, paper: Paper, command: str) -> None:
    text = html(name, command, paper)
    tree = parsed(text)
    assert tree.get("lang") == "en"
    assert tree.find("head/title").text
    assert not list(tree.iter("script"))
    tags = {each.tag for each in tree.iter() if isinstance(each.tag, str)}
    assert not tags & {"link", "img", "iframe", "object", "a"}
    assert not re.search(r"@import|url\((?!#)|https?://|\son\w+=", text)
    way = "landscape" if command == "calendar" else "portrait"
    assert f"size: {paper.value} {way}" in text


@each_garden
@pytest.mark.parametrize("command", ["week", "calendar"])
def test_headings_lead_through_a_page(name: str, command: str) -> None:
    tree = parsed(html(name, command))
    levels = [int(e.tag[1]) for e in tree.iter() if e.tag in ("h1", "h2", "h3", "h4")]
    assert levels[0] == 1
    assert set(levels) <= {1, 2}
    for drawing in tree.iter("{http://www.w3.org/2000/svg}svg"):
        assert drawing.get("aria-label") or drawing.get("aria-hidden") == "true"


@each_garden
def test_the_table_beside_the_drawing_has_every_bar_of_the_beds_and_what_is_free(name: str) -> None:
    chart = next(each for each in blocks(name, "calendar") if isinstance(each, SeasonChart))
    tree = parsed(html(name, "calendar"))
    rows = tree.findall(".//details//tbody/tr")
    table = {(row[0].text, row[1].text) for row in rows}
    wanted = {(bed.name, bar.name) for bed in chart.beds for bar in bed.bars}
    wanted |= {(bed.name, f"free, {each.said}") for bed in chart.beds for each in bed.free}
    assert table == wanted


def test_a_table_stands_beside_every_drawing() -> None:
    first = date(2026, 6, 1)
    tracks = Tracks(
        days=31,
        head=first,
        tracks=(
            Track("2026", first, (Mark("|", date(2026, 6, 9)), Mark("-", first, date(2026, 6, 9)))),
        ),
        key=(("-", "may freeze"), ("|", "last frost")),
    )
    key = (("#", "picked"), ("blank", "nothing"))
    strips = WeekStrips(first, None, (WeekStrip("bean", "## #"),), key)
    tables = parsed(html_page([Heading("T"), tracks, strips])).findall(".//details//tbody/tr")
    assert [(row[0].text, row[1].text) for row in tables] == [
        ("2026", "may freeze 1–8 Jun; last frost 9 Jun"),
        ("bean", "picked 1–14 Jun; picked 22–28 Jun"),
    ]


@each_garden
@each_paper
def test_no_words_of_a_season_touch_each_other_or_leave_the_drawing(
    name: str, paper: Paper
) -> None:
    chart = next(each for each in blocks(name, "calendar") if isinstance(each, SeasonChart))
    drawn = drawn_season(chart, sheet_of(paper, landscape=True))
    strips = [strip.drawing for section in drawn.sections for strip in section.strips]
    assert strips
    for drawing in (drawn.head.drawing, drawn.head.labels, *strips):
        assert_clear(drawing)


def assert_clear(of: Drawing) -> None:
    """Check that words lie within a drawing, and clear of each other and of foreign boxes."""
    for words in of.words:
        assert words.left >= -0.01, words
        assert words.right <= of.width + 0.01, words
        assert words.size / 2 - 0.01 <= words.middle <= of.height - words.size / 2 + 0.01, words
    for one, other in combinations(of.words, 2):
        if abs(one.middle - other.middle) < (one.size + other.size) / 2 * 0.7:
            apart = one.right <= other.left + 0.01 or other.right <= one.left + 0.01
            assert apart, (one, other)
    for words in of.words:
        for box in of.boxes:
            if box.top <= words.middle <= box.top + box.height:
                inside = box.left <= words.left and words.right <= box.left + box.width + 0.01
                right, left = box.left + box.width, box.left
                plate = any(
                    each.kind == "plate"
                    and each.left <= words.left
                    and words.right <= each.left + each.width
                    and abs(each.top + each.height / 2 - words.middle) < 0.1
                    for each in of.boxes
                )
                clear = words.right <= left + 0.01 or words.left >= right - 0.01
                assert inside or clear or plate, (words, box)


NAMES = st.text("abc -1ÄWm作", min_size=1, max_size=40)
BEGIN = date(2026, 3, 2)


@st.composite
def bars(draw: st.DrawFn) -> ChartBar:
    first = BEGIN + timedelta(days=draw(st.integers(-30, 250)))
    beyond = first + timedelta(days=draw(st.integers(1, 150)))
    picked = None
    if draw(st.booleans()):
        length = (beyond - first).days
        start = draw(st.integers(0, length - 1))
        picked = (
            first + timedelta(days=start),
            first + timedelta(days=draw(st.integers(start + 1, length))),
        )
    return ChartBar(draw(NAMES), first, beyond, picked, "*", draw(st.sampled_from(["", "frost"])))


@given(st.lists(bars(), min_size=1, max_size=12), st.sampled_from(Paper))
def test_no_words_touch_whatever_the_bars_and_their_names(
    listed: list[ChartBar], paper: Paper
) -> None:
    chart = SeasonChart(
        title="T",
        what="w",
        caption="c",
        days=DateSpan(BEGIN, BEGIN + timedelta(days=240)),
        weekday="Mon",
        heads=(),
        odds=(),
        frosts=(None, None),
        beds=(ChartRow("Bed", tuple(listed), "4 x 8 ft"),),
        names=(("Bed",), ()),
        bench=(),
        table=(ChartRow("crop", tuple(listed)),),
        ends=(),
        trays=False,
    )
    drawn = drawn_season(chart, sheet_of(paper, landscape=True))
    for section in drawn.sections:
        for strip in section.strips:
            assert_clear(strip.drawing)


@pytest.mark.parametrize(("strips", "pages"), [(1, 1), (2, 2), (3, 2), (5, 3), (6, 3)])
def test_a_page_ends_between_two_beds(strips: int, pages: int) -> None:
    # A page has 165 mm below its head, the first 17 less for its title; a strip of 50 mm takes
    # 50.4. Of three strips two stand on the first page and one on the second, where 165 - 50.4 =
    # 114.6 are left for what follows, which needs 60. Of two, 148 - 100.8 = 47.2 are left: it
    # follows on a second page. Of five the second page has three, and 13.8 are left: a third page.
    # A sixth stands on that third page, where 114.6 are left.
    drawing = Drawing(said="", width=200.0, height=50.0, strokes=(), boxes=(), words=())
    section = StripSection("", "", tuple(Strip("Bed", "", drawing) for _ in range(strips)))
    assert _pages([section], 165.0, 30.0) == pages


def test_what_is_picked_of_a_kind_is_one_row_in_which_a_gap_is_blank() -> None:
    # Picked 1-10 June and 6-20 June, again 1-10 July: two bars, 11 blank days between them.
    june, july = date(2026, 6, 1), date(2026, 7, 1)
    spans = [(june, date(2026, 6, 11)), (date(2026, 6, 6), date(2026, 6, 21))]
    spans.append((july, date(2026, 7, 11)))
    chart = next(each for each in blocks("demo", "calendar") if isinstance(each, SeasonChart))
    row = ChartRow("bean", tuple(ChartBar("b", *span, span) for span in spans))
    made = SeasonChart(
        **{name: getattr(chart, name) for name in SeasonChart.__slots__} | {"table": (row,)}
    )
    drawn = drawn_season(made, sheet_of(Paper.A4, landscape=True))
    (strip,) = drawn.sections[-1].strips
    picked = [box for box in strip.drawing.boxes if box.kind == "picking"]
    assert len(picked) == 2
    a_day = strip.drawing.width / ((made.days.length + 6) // 7 * 7)
    assert picked[0].width == pytest.approx(20 * a_day)
    assert picked[1].left - picked[0].left - picked[0].width == pytest.approx(10 * a_day)
    assert [words.text for words in strip.drawing.words] == ["1–20 Jun", "1–10 Jul"]


def test_what_is_free_grows_as_the_waves_leave_a_bed() -> None:
    # The bed holds 10 m2. Three plants from 20 May leave after 50 days and 14 of picking: 20 May +
    # 50 = 9 July, + 14 = 23 July. Four from 1 June: + 50 = 21 July, + 14 = 4 August. A plant takes
    # 1 m2: on 1 June 10 - 7 = 3 are free, from 23 July 6, from 4 August 10.
    waves = (
        wave(name="early", plants="3", start="2026-05-20"),
        wave(plants="4", start="2026-06-01"),
    )
    from sowtide.report.calendar import view

    found = planned(text(*waves), date(2026, 6, 1))
    page = REPORTS["calendar"].page(view(found))
    chart = next(each for each in page if isinstance(each, SeasonChart))
    (bed,) = chart.beds
    days = [(each.said.replace("\N{NO-BREAK SPACE}", " "), each.first) for each in bed.free]
    assert days == [
        ("3 m²", date(2026, 6, 1)),
        ("6 m²", date(2026, 7, 23)),
        ("10 m²", date(2026, 8, 4)),
    ]
    drawn = drawn_season(chart, sheet_of(Paper.A4, landscape=True))
    (strip,) = drawn.sections[0].strips
    boxes = [box for box in strip.drawing.boxes if box.kind == "free"]
    assert [box.left for box in boxes] == sorted(box.left for box in boxes)
    assert len({box.top for box in boxes}) == 1
    words = [each.text for each in strip.drawing.words if "m²" in each.text]
    assert words == [
        "free: 3\N{NO-BREAK SPACE}m²",
        "6\N{NO-BREAK SPACE}m²",
        "10\N{NO-BREAK SPACE}m²",
    ]


def test_names_come_out_as_they_were_written(tmp_path: Path) -> None:
    path = tmp_path / "garden.yaml"
    quoted = TRICKY.replace("'", "''")
    path.write_text(
        "site: {name: '<b>\"Home\"</b> & garden', latitude: 42, units: us,\n"
        "  frost: {last: 05-06, first: 10-01}}\n"
        f"season: 2026\nbeds: [{{bed: '{quoted}', size: 4 x 20}}]\n"
        "waves: [{crop: bush bean, plants: 10, from: 05-20, every: 14, until: last safe}]\n",
        encoding="utf-8",
    )
    loaded = load(path)
    assert loaded.garden is not None, loaded.problems
    of = season_of(loaded.garden, date(2026, 5, 20))
    from sowtide.report.calendar import view

    tree = parsed(html_page(REPORTS["calendar"].page(view(of))))
    assert not list(tree.iter("script"))
    assert not list(tree.iter("b"))
    assert TRICKY in {each.text and each.text.strip() for each in tree.iter("th")}
    assert '<B>"HOME"</B> & GARDEN' in tree.find("body/main//h1").text


def test_each_sheet_of_paper_says_whose_it_is_and_which_one() -> None:
    name = """Bob's "5" {plot}; </style> \\ Über"""
    page = html_page([Heading(name)])
    parsed(page)
    assert page.count("</style>") == 1
    (said,) = re.findall(r'content: "([^"]*)   " counter\(page\) "/" counter\(pages\);', page)
    assert re.sub(r"\\([0-9a-f]+) ", lambda each: chr(int(each[1], 16)), said) == name


def _to_tick_off(items: int) -> Checklist:
    item = ChecklistItem(code="", day="", place="Long", verb="", name="bean", words=Line())
    return Checklist((ChecklistGroup("COVER", (item,) * items),))


@pytest.mark.parametrize(("items", "size"), [(41, 11.5), (42, 10.5), (200, 7.7)])
def test_a_short_list_is_printed_in_larger_letters(items: int, size: float) -> None:
    # A row is 1.15 + 0.35 em high, the list's title 2, the page's 2, of which half counts: 41 rows
    # take 64.5 em, with 6 in 100 to spare 68.4, in 11.5 pt of 4.06 mm each 277 mm. A4 has 279 mm.
    assert f"--size: {size}pt" in html_page([Heading("T"), _to_tick_off(items)])


def test_each_sheet_has_letters_of_its_own_size() -> None:
    door, week = Banner("GARDEN", "HEAT"), Banner("GARDEN", "WEEK 29")
    tree = parsed(html_page([door, _to_tick_off(9), week, _to_tick_off(200)]))
    sheets = tree.findall(".//div[@class='sheet']")
    assert [each.get("style") for each in sheets] == ["--size: 11.5pt", "--size: 7.7pt"]
    said = [each.find(".//div[@class='banner-row']/p").text for each in sheets]
    assert said == ["HEAT", "WEEK 29"]


def test_the_day_it_is_stands_out_in_the_grid_of_pickings() -> None:
    tree = parsed(html("demo", "week"))
    (now,) = (each for each in tree.iter("th") if each.get("aria-current") == "date")
    assert now.text == "Thu"
    grid = next(each for each in tree.iter("table") if "picks" in (each.get("class") or ""))
    marked = [
        [n for n, cell in enumerate(row) if "now" in (cell.get("class") or "").split()]
        for row in grid.findall("tbody/tr")
        if row.get("class") != "note"
    ]
    # Code, wave and bed stand before Monday.
    assert marked == [[3 + 3]] * len(marked)


def test_a_note_below_the_title_of_a_list_is_on_paper_too() -> None:
    group = ChecklistGroup("WED 15", (), note=Line((("hot: start early", Style.PLAIN),)))
    tree = parsed(html_page([Heading("T"), Checklist((group,))]))
    notes = [each for each in tree.iter("tr") if each.get("class") == "note"]
    assert [each.find("td").text for each in notes] == ["hot: start early"]


@given(st.integers(1, 130))
def test_no_strip_of_days_or_weeks_is_cut_by_the_end_of_a_page(many: int) -> None:
    sheet, first = sheet_of(Paper.LETTER, landscape=True), date(2026, 6, 1)
    weeks = WeekStrips(first, None, (WeekStrip("bean", "## #"),) * many, ())
    days = Tracks(days=31, head=first, tracks=(Track("2026", first, ()),) * many, key=())
    for drawings in (drawn_weeks(weeks, sheet), drawn_tracks(days, sheet)):
        assert all(each.height < sheet.height for each in drawings)
        labels = [said for each in drawings for said in each.words if said.left == 0]
        assert len(labels) == many


def test_a_label_for_each_bed_of_each_wave_that_is_not_over() -> None:
    from sowtide.report.labels import view as labels

    of = season("demo")
    found = [(each.wave, each.bed) for each in labels(of).labels]
    wanted = [
        (wave.id, stand.bed.name)
        for wave in of.waves
        if wave.stages.pull_out.day > of.today
        for stand in wave.stands
    ]
    assert sorted(found) == sorted(wanted)
    tree = parsed(html_page(REPORTS["plan --labels"].page(labels(of))))
    titles = [each.find("b").text for each in tree.iter("li")]
    assert titles == [wave for wave, _ in found]


def test_labels_of_a_week_are_of_what_goes_into_trays_or_beds_in_it() -> None:
    from sowtide.report.labels import view as labels

    of = season("demo")
    assert of.today == date(2026, 7, 16)  # a Thursday
    week = labels(of, weeks=1).labels
    assert week
    monday, sunday = date(2026, 7, 13), date(2026, 7, 19)
    starts = [(monday <= each.sow <= sunday, monday <= each.plant <= sunday) for each in week]
    assert all(any(each) for each in starts)
    assert set(starts) >= {(True, True), (True, False), (False, True)}
    left = [each for each in labels(of).labels if each not in week]
    assert not [e for e in left if any(monday <= day <= sunday for day in (e.sow, e.plant))]


def test_labels_by_bed_stand_as_one_walks() -> None:
    from sowtide.report.labels import view as labels

    of = season("demo")
    by_bed = [each.bed for each in labels(of, by_bed=True).labels]
    order = [bed.name for bed in of.garden.beds]
    assert by_bed == sorted(by_bed, key=order.index)
    assert by_bed != [each.bed for each in labels(of).labels]


def test_every_block_has_its_template() -> None:
    made = _environment().get_template("blocks.html").module
    kinds = {kind.__name__ for kind in get_args(Block)} - {"Space"}
    assert {kind for kind in kinds if not callable(getattr(made, kind, None))} == set()


def test_a_sheet_has_room_to_write_and_a_screen_has_not() -> None:
    assert any(isinstance(block, ToFillIn) for block in blocks("demo", "week"))
    tree = parsed(html("demo", "week"))
    fills = [each for each in tree.iter("table") if (each.get("class") or "").startswith("fill")]
    assert len(fills) == 2
    days = [each.text for each in fills[0].findall("thead/tr/th")][1:]
    assert days == ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]


@each_garden
def test_what_ends_a_weeks_sheet_stays_on_one_page(name: str) -> None:
    tree = parsed(html(name, "week"))
    (ending,) = tree.findall(".//div[@class='closing']")
    assert ending.find(".//table").get("class") == "fill"
    said = ["".join(each.itertext()) for each in ending.iter("p")]
    assert "Odds, not promises" in said[-1]
    assert said == ["".join(each.itertext()) for each in tree.iter("p")][-len(said) :]


def _luminance(colour: str) -> float:
    """Return how light a colour is, as WCAG 2.2 counts it. [0–1]"""
    full = colour if len(colour) == 6 else "".join(2 * each for each in colour)
    parts = [int(full[n : n + 2], 16) / 255 for n in (0, 2, 4)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_all_words_stand_out_from_the_paper() -> None:
    # The darkest ground that words stand on is that of the days in a bed.
    style = html("demo", "week").partition("<style>")[2].partition("</style>")[0]
    inks = set(re.findall(r"(?<![-\w])color: #([0-9a-fA-F]{3,6})", style))
    inks |= set(re.findall(r"svg (?:text|\.quiet) \{[^}]*fill: #([0-9a-fA-F]{3,6})", style))
    (ground,) = re.findall(r"svg \.bed \{ fill: #([0-9a-fA-F]{3,6})", style)
    assert len(inks) >= 5
    for ink in inks:
        light, dark = _luminance(ground), _luminance(ink)
        assert (light + 0.05) / (dark + 0.05) >= 4.5, ink


def test_a_text_is_as_wide_as_its_letters() -> None:
    # By the face's own table: k 500, a 556, l 222, e 556, in thousandths of the size.
    assert extent("kale", 1000.0) == 1834
    assert extent("kale", 1000.0, bold=True) == 556 + 556 + 278 + 556
    assert extent("作", 2.0) == 2.0
