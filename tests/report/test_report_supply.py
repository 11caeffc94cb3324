"""The page of supply: what it leaves out, and what it adds up."""

from __future__ import annotations

import re
from datetime import date
from html import unescape

import pytest

import gardens
from printed import form, page
from sowtide.report import fill
from sowtide.report.formats.markdown import markdown_page
from sowtide.report.supply import REPORT, view
from sowtide.schedule.filling import filled
from sowtide.schedule.season import Season
from sowtide.schedule.supply import supply_of

FRUIT = gardens.crop(yield_per_plant="2")
BLANK = gardens.crop("blank")
OTHER = gardens.crop("other")


def season(*waves: str, wants: tuple[str, ...] = ()) -> Season:
    """Return the season of a garden that grows some crops and wants some."""
    file = gardens.text(*waves, crops=(FRUIT, BLANK, OTHER), beds=("{bed: Long, size: 10 x 10}",))
    said = "".join(f"  - {{{want}}}\n" for want in wants)
    return gardens.season(file + (f"want:\n{said}" if wants else ""))


def page_of(found: Season, crops: set[str] | None = None) -> str:
    """Return what is printed."""
    return markdown_page(REPORT.page(view(found, None, crops)))


def test_what_nobody_knows_the_yield_of_is_named() -> None:
    fruit, blank, other = (
        gardens.wave(crop, start="06-01", plants="4") for crop in ("fruit", "blank", "other")
    )
    assert "Left out" not in page_of(season(fruit))
    assert "plant gives: blank. Its `yield_per_plant`" in page_of(season(fruit, blank))
    both = season(fruit, blank, other, blank.replace("06-01", "06-20, name: later"))
    assert "plant gives: blank and other. Their `yield" in page_of(both)
    assert "Left out" not in page_of(both, {"fruit"})
    alone = page_of(season(blank))
    assert "plant gives: blank." in alone
    assert "Nothing is wanted" not in alone


@pytest.mark.parametrize(
    ("gives", "said"),
    [
        ("1 head", "A plant gives 1 head,"),
        ("1-1 heads", "A plant gives 1 head,"),
        ("2 heads", "A plant gives 2 heads,"),
        ("1-2 heads", "A plant gives 1–2 heads,"),
    ],
)
def test_what_a_plant_gives_is_one_number_where_both_ends_are_alike(gives: str, said: str) -> None:
    file = gardens.text(
        gardens.wave(start="06-01", plants="4"), crops=(gardens.crop(yield_per_plant=gives),)
    )
    unit = gives.split()[-1]
    wanted = f"want:\n  - {{crop: fruit, amount: 2 {unit}, every: week}}\n"
    assert said in page_of(gardens.season(file + wanted), {"fruit"})


def test_what_is_not_met_is_added_up_before_it_is_rounded() -> None:
    # 10 plants give 20 kg over 10.5 full days from 21 July on: 4.25 of them, or 8.095 kg, in the
    # week of 20 July. Of 8.53 kg 0.051 are not met, of three crops 0.153; three tenths would be .3.
    names = ("fruit", "frilly", "speckled")
    wants = [f"crop: {name}, amount: 8.53 kg, in: 2026-W30" for name in names]
    crops = [gardens.crop(name, yield_per_plant="2") for name in names]
    waves = [gardens.wave(name, start="2026-06-01", plants="10") for name in names]
    file = gardens.text(*waves, crops=tuple(crops), beds=("{bed: Long, size: 10 x 10}",))
    said = page_of(gardens.season(file + "want:\n" + "".join(f"  - {{{w}}}\n" for w in wants)))
    assert said.count("| 1 | 0 | 0 | 0.1 |") == 3
    assert "| together | 3 | 0 | 0 | 0.2 |" in said


def lines_of(today: date, plants: str = "10") -> list[str]:
    """Return the lines that are printed of fruit from 21 July to 3 August, 8.1 and 11 kg a week.

    Wanted are 30 kg from 29 June and 2 kg a week from 20 July on.
    """
    wave = gardens.wave(start="2026-06-01", plants=plants)
    wants = (
        "crop: fruit, amount: 30 kg, in: 2026-W27",
        "crop: fruit, amount: 2 kg, from: 07-20, until: 08-16",
    )
    file = gardens.text(wave, crops=(FRUIT,), beds=("{bed: Long, size: 10 x 10}",))
    file += "want:\n" + "".join(f"  - {{{want}}}\n" for want in wants)
    return list(page(REPORT, view(gardens.season(file, today)), 80))


def test_what_has_gone_by_stands_behind_what_is_to_come() -> None:
    early = lines_of(date(2026, 5, 1))
    assert not any("gone by" in each for each in early)
    assert "fruit 20 Jul – 2 Aug: 19 kg, 4 kg wanted" in early
    late = lines_of(date(2026, 8, 10))
    assert [each for each in late if "gone by" in each] == [
        "gone by: fruit 29 Jun – 5 Jul",
        "gone by: fruit 20 Jul – 2 Aug",
    ]
    assert not any(each.startswith("fruit 29 Jun – 5 Jul") for each in late)
    assert "None from this week on." in lines_of(date(2026, 8, 17))


def test_too_few_plants_are_told_from_none_when_it_is_too_late_for_more() -> None:
    # One plant brings 2 x 4.25 / 10.5 = 0.8 kg in the week of 20 July, and what is sown on that day
    # is picked in September.
    assert "fruit 20–26 Jul: 0.8 of 2 kg; too few plants, too late for more" in lines_of(
        date(2026, 7, 20), plants="1"
    )
    # 0.1 of 2 kg on the last day of the wave, and none after it.
    assert "fruit 3–16 Aug: 0.1 of 4 kg; too late to plant for it" in lines_of(
        date(2026, 7, 20), plants="1"
    )


@pytest.mark.parametrize("shown", [60, 80, 120, "markdown", "html"])
def test_lines_are_pasted_below_those_of_the_file_as_they_stand(shown: int | str) -> None:
    """Files are indented by two, as `new` writes them; YAML takes no line that is out of line."""
    wave = gardens.wave(start="06-01", plants="1")
    beds = ("{bed: Long, size: 2 x 12}",)
    wants = "want:\n  - {crop: fruit, amount: 8 kg, from: 07-20, until: 08-23}\n"
    before = gardens.season(gardens.text(wave, crops=(FRUIT,), beds=beds) + wants)
    promised = fill.view(before, filled(before, supply_of(before)))
    if isinstance(shown, int):
        printed = "\n".join(page(fill.REPORT, promised, shown))
    else:
        printed = unescape(form(fill.REPORT, promised, shown))
    lines = "\n".join(re.findall(r"^(?:<pre><code>)?( +- \{[^}]*\})", printed, re.M))
    assert len(promised.lines) > 1
    assert lines.count("- {") == len(promised.lines)
    file = gardens.text(wave, crops=(FRUIT,), beds=beds) + lines + "\n" + wants
    after = gardens.season(file)
    assert len(after.waves) == 1 + len(promised.lines)
    assert sum(each.unmet for each in supply_of(after)) == pytest.approx(promised.unmet_after)


@pytest.mark.parametrize(
    ("days", "why"),
    [
        # 8.1 kg in the week of 20 July and 11 in the next, of 6 that are wanted.
        ("from: 07-20, until: 08-02", "all that is wanted comes"),
        # Nothing that is safe is ripe before: sown on 10 May, the last frost, it takes 50 days.
        ("in: 2026-W22", "no room, or no safe day, would bring more"),
    ],
)
def test_why_there_is_nothing_to_add(days: str, why: str) -> None:
    wave = gardens.wave(start="2026-06-01", plants="10")
    file = gardens.text(wave, crops=(FRUIT,), beds=("{bed: Long, size: 10 x 10}",))
    before = gardens.season(f"{file}want:\n  - {{crop: fruit, amount: 6 kg, {days}}}\n")
    promised = fill.view(before, filled(before, supply_of(before)))
    assert promised.lines == ()
    assert f"There is nothing to add: {why}." in page(fill.REPORT, promised, 80)


def test_a_wanted_crop_without_a_safe_day_is_named_and_not_passed_over() -> None:
    # 10 May to 1 October are 144 days between the average frosts, and it is picked from the 150th.
    crops = (gardens.crop(days_to_harvest="150", yield_per_plant="1"),)
    text = gardens.text(crops=crops) + "want:\n  - {crop: fruit, amount: 1 kg}\n"
    said = "No week is counted of fruit: no safe planting tells when it can be picked."
    found = gardens.season(text)
    assert said in " ".join(page_of(found).split())
    dated = text.replace("1 kg}", "1 kg, from: 08-01, until: 08-31}")
    assert said not in " ".join(page_of(gardens.season(dated)).split())
