"""On the table: what is wanted beside what is picked, on the screen, on paper and as data."""

from __future__ import annotations

import re
from datetime import date

import pytest

import gardens
from printed import calendar_text
from sowtide.garden.want import Met
from sowtide.report.blocks import SeasonChart
from sowtide.report.calendar import REPORT, view
from sowtide.report.formats.html.paper import Paper, sheet_of
from sowtide.report.formats.html.season_drawing import drawn_season
from sowtide.report.formats.markdown import markdown_page
from sowtide.schedule.season import Season

FRUIT = gardens.crop(yield_per_plant="2", days_to_harvest="50", picking_days="14")
LEAF = gardens.leaf(yield_per_plant="1")
WANTS = (
    "{crop: fruit, amount: 5 kg, from: 07-20, until: 08-09}",
    "{crop: leaf, amount: 1 kg, from: 07-06, until: 07-12}",
)
# Sown on 1 June and picked from 21 July to 3 August, ten plants' 20 kg over 10.5 full days:
# 4.25 of them, or 8.1 kg, in the week of 20 July, 5.75 or 11 kg in the next, 0.5 or 0.95 kg in that
# of 3 August. With 5 kg wanted in each: enough, enough, less than half. No leaf is sown.
MONDAYS = (date(2026, 7, 20), date(2026, 7, 27), date(2026, 8, 3))


def season(*wants: str) -> Season:
    """Return the season of a garden with ten plants and some wants."""
    file = gardens.text(gardens.wave(start="2026-06-01", plants="10"), crops=(FRUIT, LEAF))
    return gardens.season(
        file + ("want:\n" if wants else "") + "".join(f"  - {w}\n" for w in wants)
    )


def chart(of: Season) -> SeasonChart:
    """Return the drawing of a season."""
    return next(each for each in REPORT.page(view(of)) if isinstance(each, SeasonChart))


def test_each_week_with_a_want_says_whether_it_comes() -> None:
    fruit, leaf = view(season(*WANTS)).wanted
    assert [(week.monday, week.met) for week in fruit.weeks] == list(
        zip(MONDAYS, (Met.ENOUGH, Met.ENOUGH, Met.LESS), strict=True)
    )
    assert [week.expected for week in fruit.weeks] == pytest.approx(
        [20 * full / 10.5 for full in (4.25, 5.75, 0.5)]
    )
    assert [(week.want, week.expected, week.met) for week in leaf.weeks] == [(1, 0, Met.LESS)]


def test_half_is_more_than_less_than_half() -> None:
    # 20 kg wanted in the week of 27 July, 11 expected; 16.5 in that of 20 July, 8.1 expected.
    many = "{crop: fruit, amount: AMOUNT, from: 07-20, until: 08-02}"
    (twenty,) = view(season(many.replace("AMOUNT", "20 kg"))).wanted
    assert [week.met for week in twenty.weeks] == [Met.LESS, Met.SOME]
    (fewer,) = view(season(many.replace("AMOUNT", "16 kg"))).wanted
    assert [week.met for week in fewer.weeks] == [Met.SOME, Met.SOME]


@pytest.mark.parametrize("width", [60, 80, 140])
def test_the_screen_shows_want_below_supply(width: int) -> None:
    shown = calendar_text(season(*WANTS), width)
    at = next(n for n, text in enumerate(shown) if text.startswith("ON THE TABLE"))
    picked, wanted, only, lacking = shown[at + 1 : at + 5]
    assert re.fullmatch(r"fruit +#+", picked)
    assert re.fullmatch(r"  wanted +\++!+", wanted)
    assert only.rstrip() == "leaf"
    assert re.fullmatch(r"  wanted +!+", lacking)
    # Wanted from the day before it is picked on, and a week longer.
    assert 0 <= picked.index("#") - wanted.index("+") <= 1
    assert len(wanted) > len(picked)
    assert any("+ what is wanted" in text for text in shown[at:])
    assert all(len(text) <= width for text in shown)


def test_without_wants_a_blank_is_a_gap() -> None:
    shown = calendar_text(season())
    assert "ON THE TABLE  what is picked; a blank is a gap" in shown
    assert not any("wanted" in text for text in shown)


def test_paper_shows_want_below_supply() -> None:
    drawn = drawn_season(chart(season(*WANTS)), sheet_of(Paper.A4, landscape=True))
    table = drawn.sections[-1]
    picked, wanted, lacking = table.strips
    assert (picked.name, wanted.name, wanted.below) == ("fruit", "", "wanted")
    assert (lacking.name, lacking.below) == ("leaf", "wanted")
    assert [box.kind for box in wanted.drawing.boxes] == ["comes", "lacking"]
    (hatched,) = (box for box in picked.drawing.boxes if box.kind == "picking")
    met, less = wanted.drawing.boxes
    # Two weeks and one, from the day before the first pick on.
    assert met.width == pytest.approx(2 * less.width)
    assert hatched.left - met.left == pytest.approx(less.width / 7)
    assert {kind for kind, _ in drawn.key} >= {"comes", "lacking"}
    assert "partly" not in {kind for kind, _ in drawn.key}


def test_markdown_says_it_in_words() -> None:
    said = markdown_page(REPORT.page(view(season(*WANTS))))
    assert "fruit, wanted" in said
    assert "20 Jul – 2 Aug enough, 3–9 Aug less than half" in said
