"""The plan as text: what each wave says at 80 and at 120 columns."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta

import pytest

import factory
from gardens import crop, text, wave
from printed import page, plan_text
from sowtide.climate.answers import EndedBy
from sowtide.days import DayRange
from sowtide.diagnostics import Severity
from sowtide.garden.site import Sure
from sowtide.report.blocks import Line, Style
from sowtide.report.formats.terminal import rendered
from sowtide.report.formats.terminal.cells import cells
from sowtide.report.plan import REPORT, view
from sowtide.schedule.season import Season
from sowtide.schedule.waves.wave import Stand, Status, Verdict, Wave
from tended import season_with


def flat(lines: Iterable[str]) -> str:
    """Return lines as one of single spaces."""
    return " ".join(" ".join(lines).split())


def _text(season: Season, width: int = 80) -> list[str]:
    return list(plan_text(season, width=width))


def _lines(season: Season) -> tuple[Line, ...]:
    return tuple(rendered(REPORT.page(view(season)), 80))


def _block(lines: list[str], wave: str) -> str:
    at = next(number for number, text in enumerate(lines) if text.startswith(wave))
    return "\n".join(lines[at : at + 2])


@pytest.mark.parametrize("width", [80, 100, 120, 160])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    assert max(map(len, _text(factory.season(), width))) <= width


def test_a_wave_at_80_columns() -> None:
    # sown 1 Jul, 50-60 days to harvest, 21 picking days: 20 Aug, 30 Aug, 30 Aug + 20 = 19 Sep
    assert _block(_text(factory.season()), "bush-bean-2") == (
        "bush-bean-2   1 Jul                        20–30 Aug  19 Sep  20 Sep\n"
        "  60 in Long 1; standing; safe 83 in 100; 18 picking days; 20 days to spare"
    )


def test_a_wave_raised_in_trays_and_split_over_two_beds() -> None:
    # planted out 10 Aug, 28 nursery days with 7 of hardening off, 45-50 days from planting out
    assert _block(_text(factory.season()), "lettuce-1") == (
        "lettuce-1    13 Jul   3 Aug  10 Aug        24–29 Sep   1 Oct   2 Oct\n"
        "  Long 1 (40), Long 2 (20); in trays; safe >99 in 100; 20 days to spare"
    )


def test_a_wave_takes_one_row_at_120_columns() -> None:
    lines = _text(factory.season(), 120)
    assert _block(lines, "bush-bean-2").splitlines()[0] == (
        "bush-bean-2   1 Jul                        20–30 Aug  19 Sep  20 Sep"
        "    83    18     20  safe         Long 1"
    )
    # No picking days for a crop cut once; where the beds need more room, they stand below.
    assert _block(lines, "lettuce-1") == (
        "lettuce-1    13 Jul   3 Aug  10 Aug        24–29 Sep   1 Oct   2 Oct"
        "   >99           20  safe\n"
        "             Long 1 (40), Long 2 (20)"
    )


def test_a_day_of_another_year_takes_its_room_from_the_beds() -> None:
    wave = factory.wave(plant=date(2025, 10, 11), end=None)
    lines = _text(factory.season(wave), 120)
    assert _block(lines, "bush-bean-1").startswith("bush-bean-1  11 Oct 25 ")
    assert max(map(len, lines)) <= 120


def test_a_wave_without_room_says_so() -> None:
    for width in (80, 120):
        assert "NO ROOM" in _block(_text(factory.season(), width), "bush-bean-3")
    assert "chancy 56 in 100" in _block(_text(factory.season()), "bush-bean-3")
    assert "6 days short" not in _block(_text(factory.season()), "bush-bean-3")


def test_a_series_says_what_it_asks_for() -> None:
    lines = _text(factory.season())
    assert "bush-bean: bean family, sown direct, 60 plants every 14 days" in lines
    salad = factory.entry(factory.lettuce(variety="Winter Round"), name="salad", every=None)
    assert "salad: lettuce 'Winter Round', daisy family, raised in trays, 60 plants" in _text(
        factory.season(factory.wave(of=salad))
    )


def test_how_far_a_wave_has_come() -> None:
    old = factory.wave(plant=date(2026, 4, 1), status=Status.PAST)
    assert "; over; " in _block(_text(factory.season(old)), "bush-bean-1")
    later = factory.wave(plant=date(2026, 8, 1))
    assert "60 in Long 1; safe" in _block(_text(factory.season(later)), "bush-bean-1")


def test_a_wave_that_comes_to_nothing() -> None:
    late = factory.wave(plant=date(2026, 9, 1), verdict=Verdict.TOO_LATE, odds=0.0, margin=-40)
    assert _block(_text(factory.season(late)), "bush-bean-1") == (
        "bush-bean-1   1 Sep                                            2 Oct\n"
        "  60 in Long 1; too late <1 in 100; nothing to pick; 40 days short; ended by"
    )


def test_a_safe_wave_whose_slowest_are_short_of_frost_says_which() -> None:
    """Odds are those of the whole range of days; days to spare run from its late end alone."""
    slow = factory.wave(plant=date(2026, 7, 1), odds=0.81, margin=-3)
    narrow = flat(_text(factory.season(slow)))
    assert "safe 81 in 100" in narrow
    assert "at its slowest 3 days short of the average frost" in narrow
    assert "; 3 days short" not in narrow
    wide = flat(_text(factory.season(slow), 160))
    assert "-3 safe Long 1; its slowest are short of frost" in wide
    late = factory.wave(plant=date(2026, 8, 1), verdict=Verdict.CHANCY, odds=0.6, margin=-3)
    assert "; 3 days short" in flat(_text(factory.season(late)))


def test_early_and_late_first_pick_are_one_pair() -> None:
    lines = _text(factory.season())
    head = next(each for each in lines if each.startswith("wave"))
    assert head.split() == ["wave", "sow", "harden", "plant", "first", "pick", "last", "out"]
    # 1 Jul + 50 and + 60 days; 25 Jun + 50 = 14 Aug, + 60 = 24 Aug; 10 Jul: 29 Aug and 8 Sep.
    for plant, said in (
        (date(2026, 7, 1), " 20–30 Aug "),
        (date(2026, 7, 10), " 29 Aug – 8 Sep "),
    ):
        (row, *_) = _block(_text(factory.season(factory.wave(plant=plant))), "bush-bean-1").split(
            "\n"
        )
        assert said in row


def test_a_quiet_plan_leaves_the_key_out() -> None:
    loud, quiet = (
        flat(page(REPORT, view(factory.season(), quiet=quiet), 80)) for quiet in (False, True)
    )
    assert loud.startswith(quiet)
    assert loud.removeprefix(quiet).startswith(" first pick: its early and its late day;")


def test_what_ends_a_wave_is_named_where_it_is_not_picked_out() -> None:
    frosted = factory.wave(ended_by=EndedBy.FROST)
    assert "ended by frost" in "\n".join(_text(factory.season(frosted)))
    wide = _block(_text(factory.season(frosted), 160), "bush-bean-1")
    assert wide.splitlines()[0].endswith("safe         Long 1; ended by frost")
    assert "ended by" not in _block(_text(factory.season()), "bush-bean-2")


def test_a_wave_ended_by_heat_has_no_days_to_spare_before_frost() -> None:
    hot = factory.season(factory.wave(ended_by=EndedBy.HEAT, margin=126))
    assert "to spare" not in _block(_text(hot), "bush-bean-1")
    assert "126" not in _block(_text(hot, 120), "bush-bean-1")
    assert "ended by heat" in _block(_text(hot), "bush-bean-1")


def test_a_wave_over_the_winter_has_no_odds_and_shows_the_other_year() -> None:
    crop = factory.bean(name="garlic", days_to_harvest=DayRange(240, 250), picking_days=1)
    wave = factory.wave(
        crop,
        plant=date(2025, 10, 11),
        end=None,
        verdict=None,
        odds=None,
        expected_picking_days=None,
        odds_of_nothing=None,
        margin=None,
    )
    block = _block(_text(factory.season(wave)), "garlic-1")
    assert block.startswith("garlic-1  11 Oct 25 ")
    assert block.endswith("60 in Long 1; over; over the winter")


def test_nothing_ends_it_so_all_years_are_good() -> None:
    free = factory.wave(end=None, odds=1.0, margin=None)
    assert "safe, nothing ends it early; " in _block(_text(factory.season(free)), "bush-bean-1")
    assert " 100 " in _block(_text(factory.season(free), 120), "bush-bean-1")


def test_names_too_long_for_the_table_stand_on_lines_of_their_own() -> None:
    name = "scarlet-runner-on-the-long-fence"
    long = factory.wave(of=factory.entry(name=name), plant=date(2025, 10, 11), end=None)
    lines = _text(factory.season(long))
    assert f"{name}-1" in lines
    assert max(map(len, lines)) <= 80


def test_gaps_and_problems_stand_at_the_end() -> None:
    lines = _text(factory.season())
    assert "lettuce: 20 Jun – 9 Aug, too hot" in lines
    assert "error: bush-bean-3: no room for 60 plants on 29 Jul (garden.yaml:20)" in lines
    gap = factory.problem("gap", None, severity=Severity.NOTE, message="named above")
    assert "named above" not in "\n".join(_text(factory.season(factory.wave(), problems=(gap,))))
    nothing = "\n".join(_text(factory.season(factory.wave())))
    assert "GAPS" not in nothing
    assert "PROBLEMS" not in nothing


def test_the_last_words_say_what_it_rests_on() -> None:
    text = " ".join(_text(factory.season())[-6:])
    assert "Rests on two average frost dates" in text
    assert text.endswith("Odds, not promises. Assumed: `sowtide frost`.")


def test_it_says_what_the_grower_calls_safe() -> None:
    def said(sure: Sure) -> str:
        garden = factory.garden()
        garden = replace(garden, site=replace(garden.site, sure=sure))
        return " ".join(_text(factory.season(factory.wave(), garden=garden), 200))

    assert "Safe means in 80 years of 100 or more." in said(Sure(0.8, None))
    assert "Safe means worth it 14 days or more before the average frost." in said(Sure(None, 14))
    assert "Safe means worth it before the average frost." in said(Sure(None, 0))


def test_a_garden_that_asks_for_no_waves() -> None:
    season = replace(factory.season(), waves=(), gaps=(), problems=())
    assert any("No waves" in text for text in _text(season))


def test_days_gone_by_are_dim_and_verdicts_keep_their_words() -> None:
    lines = _lines(factory.season())
    spans = [span for each in lines for span in each.spans]
    assert ("20 May", Style.DIM) in spans
    assert not any("20 Aug" in text for text, style in spans if style is Style.DIM)
    assert ("safe", Style.GOOD) in [(text.strip("; "), style) for text, style in spans]


def test_one_plant_is_one_plant() -> None:
    one = factory.entry(plants=1, every=None)
    lines = _text(factory.season(factory.wave(of=one, stands=(Stand(factory.LONG, 1),))))
    assert "bush-bean: bean family, sown direct, 1 plant" in lines


def test_a_wave_without_room_says_what_it_would_be_and_counts_nothing() -> None:
    homeless = factory.wave(plant=date(2026, 7, 29), stands=(), status=Status.NO_ROOM)
    narrow = _block(_text(factory.season(homeless)), "bush-bean-1")
    assert narrow.splitlines()[1] == "  NO ROOM for 60; it would be safe 83 in 100"
    wide = _block(_text(factory.season(homeless), 120), "bush-bean-1").splitlines()[0]
    assert wide.endswith("  (safe)       NO ROOM")
    assert " 83 " not in wide
    assert " 18 " not in wide
    dim = [
        span
        for each in _lines(factory.season(homeless))
        for span in each.spans
        if "would be" in span[0]
    ]
    assert [style for _, style in dim] == [Style.DIM]


def test_many_days_to_spare_are_not_said() -> None:
    for margin, said in ((60, True), (61, False)):
        made = factory.season(factory.wave(margin=margin))
        assert (f"{margin} days to spare" in _block(_text(made), "bush-bean-1")) is said
        assert (f" {margin}  safe" in _block(_text(made, 120), "bush-bean-1")) is said


def test_a_wave_planted_today_does_not_stand_yet() -> None:
    on = factory.TODAY
    assert "; due today; safe" in _block(
        _text(factory.season(factory.wave(plant=on))), "bush-bean-1"
    )
    yesterday = factory.wave(plant=on - timedelta(days=1))
    assert "; standing; safe" in _block(_text(factory.season(yesterday)), "bush-bean-1")
    # 28 nursery days: to be sown in trays today
    trays = factory.wave(factory.lettuce(), plant=on + timedelta(days=28))
    assert "; due today; safe" in _block(_text(factory.season(trays)), "lettuce-1")
    sown = factory.wave(factory.lettuce(), plant=on + timedelta(days=27))
    assert "; in trays; safe" in _block(_text(factory.season(sown)), "lettuce-1")


def test_seedlings_that_a_begun_journal_does_not_know_are_overdue() -> None:
    # 30 nursery days before 10 June: sown in trays on 11 May
    trays = crop(raised="trays", nursery_days="30-40", counted_from="planting out")
    file = text(wave(start="06-10"), crops=(trays,))
    rain, sown = (
        "on: 2026-05-01, did: rain, amount: 3mm",
        "on: 2026-05-11, wave: fruit-1, did: sown",
    )
    for noted, said in (((), "in trays"), ((rain,), "overdue"), ((rain, sown), "sown")):
        found = season_with(file, *noted, today=date(2026, 5, 12))
        assert f"in Long; {said}; safe" in _block(_text(found), "fruit-1")


def test_a_wave_that_may_bolt_is_named() -> None:
    hot = factory.season(factory.wave(may_bolt=True))
    assert "; may bolt" in " ".join(" ".join(_text(hot)).split())
    assert _block(_text(hot, 120), "bush-bean-1").splitlines()[0].endswith("Long 1; may bolt")
    assert "may bolt" not in "\n".join(_text(factory.season(factory.wave())))


def _winter(*, ready: bool) -> Wave:
    made = factory.wave(
        plant=date(2025, 10, 11),
        end=None,
        verdict=None,
        odds=None,
        expected_picking_days=None,
        odds_of_nothing=None,
        margin=None,
    )
    if ready:
        return made
    stages = replace(made.stages, first_pick=None, last_pick=None)
    return replace(made, judged=replace(made.judged, stages=stages))


def test_over_the_winter_days_that_nobody_knows_are_not_made_up() -> None:
    known, unknown = _winter(ready=True), _winter(ready=False)
    out = known.stages.pull_out.day
    held = f"({out.day} {out:%b} 25)"
    narrow = _text(factory.season(unknown))
    assert _block(narrow, "bush-bean-1").splitlines()[0].endswith(held)
    assert "over the winter; ready days not known" in _block(narrow, "bush-bean-1")
    assert "nothing to pick" not in "\n".join(narrow)
    assert "A day out in brackets is not known" in " ".join(narrow)
    wide = _block(_text(factory.season(unknown), 120), "bush-bean-1").splitlines()[0]
    assert held in wide
    assert wide.endswith("winter       Long 1; ready days not known")
    for lines in (_text(factory.season(known)), _text(factory.season(known), 120)):
        assert "(" not in _block(lines, "bush-bean-1").splitlines()[0]
        assert "brackets" not in " ".join(lines)


def test_days_of_another_year_leave_a_wave_in_one_row() -> None:
    stand = Stand(factory.bed("Comfrey end"), 60)
    wave = factory.wave(
        plant=date(2025, 10, 11),
        of=factory.entry(name="garlic-last-fall"),
        stands=(stand,),
        end=None,
        ended_by=EndedBy.PICKED_OUT,
    )
    lines = _text(factory.season(wave), 120)
    assert _block(lines, "garlic-last-fall-1").splitlines()[0].endswith("safe         Comfrey end")
    head = next(each for each in lines if each.startswith("wave"))
    assert "harden" not in head


@pytest.mark.parametrize("width", [60, 70, 76])
def test_a_narrow_screen_holds(width: int) -> None:
    site = replace(factory.garden().site, name=f"Überaus lange Gärtnerei {'豆' * 18}")
    trays = factory.wave(factory.lettuce(), plant=date(2025, 8, 10), end=None)
    made = factory.season(
        trays,
        _winter(ready=False),
        factory.wave(plant=date(2026, 7, 1)),
        garden=factory.garden(site=site),
    )
    lines = _text(made, width)
    assert [each for each in lines if cells(each) > width] == []
    assert "10 Aug 25" in "\n".join(lines)


def test_a_wave_without_room_is_told_by_colour_too_at_any_width() -> None:
    # Two waves of ten for a bed of ten.
    waves = (wave(start="06-01", plants="10"), wave(start="06-02", plants="10", name="late"))
    season = season_with(text(*waves))
    for width, bad in ((80, "NO ROOM for 10"), (160, "NO ROOM")):
        lines = rendered(REPORT.page(view(season)), width)
        found = {text.strip(): style for line in lines for text, style in line.spans}
        assert (found[bad], found["10 in Long" if width == 80 else "Long"]) == (
            Style.BAD,
            Style.PLAIN,
        )
