"""From a grower's words to entries of the journal."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

import gardens
from sowtide.days import GrowingYear
from sowtide.garden.journal import Did, journal_of
from sowtide.schedule.noting import (
    Details,
    Unclear,
    all_moved,
    day,
    happenings_of,
    moved,
    one_of,
    stage,
)
from sowtide.schedule.noting.by_code import coded
from sowtide.schedule.season import Season
from sowtide.schedule.work import Kind, task_id, week_sheets
from sowtide.schedule.work.codes import codes_of
from sowtide.season import season_of

TODAY = date(2026, 7, 16)  # a Thursday
YEAR = GrowingYear(2026, south=False)
FILE = gardens.text(
    gardens.wave(plants="2", start="06-01", every="14", count="4"),
    gardens.wave("leaf", plants="3", start="06-20"),
    crops=(gardens.crop(), gardens.leaf(raised="trays", nursery_days="28-42", hardening_days="7")),
    beds=("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10}"),
    fall_allowance="0",
)


@pytest.fixture(scope="module")
def season() -> Season:
    """Return the season of the garden, without a journal."""
    return season_of(gardens.read(FILE), TODAY)


def lines(season: Season, *words: str, **details: object) -> list[str]:
    """Return the entries that some words ask for, as they are written."""
    said = Details(**{"on": TODAY, **details})  # type: ignore[arg-type]
    return [each.line for each in happenings_of(words, said, season)]


def code(season: Season, wave: str, kind: str, first: date) -> str:
    """Return the code that the sheet of a week has for some work."""
    (sheet,) = week_sheets(season.garden, season.waves, first, weeks=1)
    tasks = (*sheet.tasks, *(each.task for each in sheet.pickings))
    return next(t.code for t in tasks if t.wave.id == wave and t.kind.value == kind)


@pytest.mark.parametrize(
    ("word", "name"),
    [
        ("bush-bean-1", "bush-bean-1"),
        ("BUSH-BEAN-1", "bush-bean-1"),
        ("beet", "beet-1"),
        ("bean-11", "bush-bean-11"),
        ("ean-1", None),
    ],
)
def test_a_name_may_be_shortened_while_it_is_clear(word: str, name: str | None) -> None:
    names = ["bush-bean-1", "bush-bean-11", "beet-1"]
    if name is None:
        with pytest.raises(Unclear, match=r"^'ean-1' may be bush-bean-1, bush-bean-11\.$"):
            one_of(word, names, "wave")
    else:
        assert one_of(word, names, "wave") == name


def test_a_name_of_nothing_is_answered_with_the_nearest() -> None:
    with pytest.raises(Unclear, match=r"^There is no wave 'bosh-bean-1'\. Did you mean 'bush-be"):
        one_of("bosh-bean-1", ["bush-bean-1"], "wave")
    many = [f"kale-{number}" for number in range(1, 9)]
    with pytest.raises(Unclear, match=r"kale-6, …\.$"):
        one_of("kale", many, "wave")


@pytest.mark.parametrize(
    ("word", "did"),
    [
        ("sow", Did.SOWN),
        ("plant", Did.PLANTED_OUT),
        ("planted out", Did.PLANTED_OUT),
        ("picked", Did.PICKED),
        ("first", Did.FIRST_PICKED),
        ("skip", Did.SKIPPED),
        ("Pull", Did.PULLED),
    ],
)
def test_a_stage_may_be_shortened(word: str, did: Did) -> None:
    assert stage(word) is did


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("today", date(2026, 7, 16)),
        ("yesterday", date(2026, 7, 15)),
        ("thu", date(2026, 7, 16)),
        ("wed", date(2026, 7, 15)),
        ("Friday", date(2026, 7, 10)),
        ("07-01", date(2026, 7, 1)),
        ("2025-12-31", date(2025, 12, 31)),
    ],
)
def test_a_day_is_the_last_that_is_called_so(word: str, meant: date) -> None:
    assert day(word, TODAY, YEAR) == meant


@pytest.mark.parametrize(
    "word",
    [
        *("07-17", "2027-01-01", "we", "wedge", "7-1", "02-30", "soon", ""),
        *("+7-01", "0٧-01", "07_01", "2026-W20-1", "20260701"),
    ],
)
def test_a_day_that_is_none_or_to_come_is_refused(word: str) -> None:
    with pytest.raises(Unclear):
        day(word, TODAY, YEAR)


@pytest.mark.parametrize(
    ("words", "entry"),
    [
        (("fruit-3", "sown"), "wave: fruit-3, bed: Long, did: sown, plants: 2"),
        (("fruit-3", "sow", "3"), "wave: fruit-3, bed: Long, did: sown, plants: 3"),
        (("leaf", "sown"), "wave: leaf-1, did: sown"),
        (("leaf", "planted", "out"), "wave: leaf-1, bed: Low, did: planted out, plants: 3"),
        # What is sown direct is planted by sowing it.
        (("fruit-3", "planted"), "wave: fruit-3, bed: Long, did: sown, plants: 2"),
        (("fruit-1", "picked=1.4lb"), "wave: fruit-1, did: picked, amount: 1.4lb"),
        (("fruit-1", "picked", "1.4", "lb"), "wave: fruit-1, did: picked, amount: 1.4lb"),
        (("fruit-1", "first", "picked", "8"), "wave: fruit-1, did: first picked, amount: 8"),
        (("fruit-1", "picked", "3", "heads"), "wave: fruit-1, did: picked, amount: 3"),
        (("sown", "fruit-3"), "wave: fruit-3, bed: Long, did: sown, plants: 2"),
        (("planted", "out", "leaf"), "wave: leaf-1, bed: Low, did: planted out, plants: 3"),
        (("picked", "fruit-1", "1.4", "lb"), "wave: fruit-1, did: picked, amount: 1.4lb"),
        (("picked=8", "fruit-1"), "wave: fruit-1, did: picked, amount: 8"),
        (("fed", "low", "with", "compost", "tea"), "bed: Low, did: fed, with: compost tea"),
        (("Long", "fed", "compost"), "bed: Long, did: fed, with: compost"),
        (("water", "long"), "bed: Long, did: watered"),
        (("lea", "sown"), "wave: leaf-1, did: sown"),
        (("fruit-1", "up=30"), "wave: fruit-1, did: up, plants: 30"),
        (("fruit-1", "up=0"), "wave: fruit-1, did: up, plants: 0"),
        (("fruit-1", "scouted", "many"), "wave: fruit-1, did: scouted, found: many"),
        (("Long", "watered"), "bed: Long, did: watered"),
        (("low", "fed", "with=x"), None),
        (("rain", "0.6in"), "did: rain, amount: 0.6in"),
        (("soil", "58", "F"), "did: soil, amount: 58F"),
        (("fruit-2", "lost", "1"), "wave: fruit-2, did: lost, plants: 1"),
        (("fruit-2", "skip"), "wave: fruit-2, did: skipped"),
    ],
)
def test_words_become_an_entry(season: Season, words: tuple[str, ...], entry: str | None) -> None:
    if entry is None:
        with pytest.raises(Unclear, match="There is no stage 'fed with'"):
            lines(season, *words)
    else:
        assert lines(season, *words) == [f"- {{on: 2026-07-16, {entry}}}"]


def test_what_is_said_beside_it_is_written_too(season: Season) -> None:
    said = lines(season, "fruit-1", "pulled", sick=True, note="mildew, everywhere")
    assert said == [
        "- {on: 2026-07-16, wave: fruit-1, did: pulled, sick: yes, note: 'mildew, everywhere'}"
    ]
    assert lines(season, "low", "sprayed", using="soap") == [
        "- {on: 2026-07-16, bed: Low, did: sprayed, with: soap}"
    ]


def test_a_wave_in_two_beds_is_sown_in_both() -> None:
    # Thirteen plants on beds of ten: ten in the first, three in the second.
    wide = gardens.text(
        gardens.wave(name="wide", plants="13", start="06-05"),
        beds=("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10}"),
    )
    season = season_of(gardens.read(wide), TODAY)
    assert lines(season, "wide", "sown") == [
        "- {on: 2026-07-16, wave: wide-1, bed: Long, did: sown, plants: 10}",
        "- {on: 2026-07-16, wave: wide-1, bed: Low, did: sown, plants: 3}",
    ]
    with pytest.raises(Unclear, match=r"^wide-1 stands in Long and Low: say which with --bed"):
        lines(season, "wide", "sown", plants=12)
    assert lines(season, "wide", "sown", plants=12, bed="low") == [
        "- {on: 2026-07-16, wave: wide-1, bed: Low, did: sown, plants: 12}"
    ]


def test_the_parts_of_a_wave_are_noted_one_after_the_other_by_their_codes() -> None:
    # Thirteen plants on beds of ten, sown on 15 July and looked for on the sheet of that week.
    wide = gardens.text(
        gardens.wave(name="wide", plants="13", start="07-15"),
        beds=("{bed: Long, size: 1 x 10}", "{bed: Low, size: 1 x 10}"),
    )
    plan = season_of(gardens.read(wide), TODAY)
    (sheet,) = week_sheets(plan.garden, plan.waves, date(2026, 7, 13), weeks=1)
    long, low = (each.code for each in sheet.tasks if each.kind is Kind.SOW)
    (first,) = lines(plan, long)
    assert first == "- {on: 2026-07-16, wave: wide-1, bed: Long, did: sown, plants: 10}"
    noted = season_of(gardens.read(wide), TODAY, None, journal_of(first.encode(), "j").journal)
    (second,) = lines(noted, low)  # Long alone is planted now: the rest goes to the bed of the code
    assert second == "- {on: 2026-07-16, wave: wide-1, bed: Low, did: sown}"
    text = f"{first}\n{second}\n".encode()
    both = season_of(gardens.read(wide), TODAY, None, journal_of(text, "j").journal)
    assert [(stand.bed.name, stand.plants) for stand in both.waves[0].stands] == [
        ("Long", 10),
        ("Low", 3),
    ]
    with pytest.raises(Unclear, match="no wave or bed"):
        lines(plan, codes_of({"wide-1:sow:Gate"})["wide-1:sow:Gate"])


@pytest.mark.parametrize(
    ("words", "details", "said"),
    [
        (("fruit-1",), {}, "Say what happened to fruit-1"),
        (("rain",), {}, "Say how much: did rain 0.6in."),
        (("rain", "much"), {}, "'much' is no depth of rain; write 0.6in or 15mm."),
        (("fruit-1", "rain"), {}, "rain is of the whole garden"),
        (("fruit-1", "scouted"), {}, "Say how many were found"),
        (("fruit-1", "sown"), {"sick": True}, "sown takes no sick."),
        (("fruit-1", "picked"), {"plants": 3}, "picked takes no plants."),
        (("fruit-1", "up=many"), {}, "'many' is no number of plants."),
        (("fruit-1", "lost=0"), {}, "0 plants lost is nothing that happened"),
        (("fruit-1", "up=30"), {"plants": 20}, "Is it 30 plants, or 20?"),
        (("fruit-1", "sown"), {"bed": "Lang"}, "There is no bed 'Lang'. Did you mean 'Long'?"),
        (("fruit-9", "sown"), {}, "There is no wave 'fruit-9'"),
        (("sprayed", "fruit"), {}, "'fruit' may be fruit-1, fruit-2, fruit-3"),
        (("bolted", "leaf"), {}, "There is no wave or bed 'bolted'"),
        (("bbbb", "cccc"), {}, "There is no code 'bbbb' on the sheets of this season."),
        (("fruit-1", "sown"), {"on": date(2024, 5, 1)}, "is no day of season 2026"),
    ],
)
def test_words_that_are_unclear_are_answered_in_a_line(
    season: Season, words: tuple[str, ...], details: dict[str, object], said: str
) -> None:
    with pytest.raises(Unclear) as unclear:
        lines(season, *words, **details)
    assert said in str(unclear.value)


def test_codes_of_the_sheet_tick_off_work_each_on_its_day(season: Season) -> None:
    monday = date(2026, 7, 13)
    sow, pick = (
        code(season, "fruit-4", "sow", monday),
        code(season, "fruit-1", "pick", date(2026, 7, 20)),
    )
    assert lines(season, sow, f"{pick}=1.4lb@wed") == [
        "- {on: 2026-07-16, wave: fruit-4, bed: Long, did: sown, plants: 2}",
        "- {on: 2026-07-15, wave: fruit-1, did: picked, amount: 1.4lb}",
    ]
    look = code(season, "fruit-3", "look", monday)
    assert lines(season, f"{look}=1") == ["- {on: 2026-07-16, wave: fruit-3, did: up, plants: 1}"]
    assert lines(season, f"{look}=skip") == [
        "- {on: 2026-07-16, wave: fruit-3, bed: Long, did: skipped, skips: up}"
    ]


def test_work_outside_of_the_growing_year_says_its_season() -> None:
    season = season_of(gardens.read(FILE), date(2025, 12, 20))
    said = Details(date(2025, 12, 20))
    (entry,) = happenings_of(("leaf", "sown"), said, season)
    assert entry.line == "- {on: 2025-12-20, wave: leaf-1, did: sown, season: 2026}"


def test_what_an_entry_moves() -> None:
    garden = gardens.read(FILE)
    before = season_of(garden, TODAY)
    late = "- {on: 2026-06-18, wave: fruit-2, bed: Long, did: sown, plants: 2}\n"
    read = journal_of(late.encode(), "journal.yaml")
    assert read.journal is not None
    after = season_of(garden, TODAY, None, read.journal)
    found = moved(read.journal.happenings[0], before, after)
    assert found.late == 3  # planned for 15 June
    # Two waves behind it, 14 days from each other: 29 June and 13 July become 2 and 16 July.
    assert [(each.wave, each.before, each.now) for each in found.shifts] == [
        ("fruit-3", date(2026, 6, 29), date(2026, 7, 2)),
        ("fruit-4", date(2026, 7, 13), date(2026, 7, 16)),
    ]


def test_a_code_that_the_plan_has_moved_on_from_is_known_of_an_earlier_sheet(
    season: Season,
) -> None:
    # Sown on 1 June fruit-1 is picked from 21 July, in week 30; sown on the 25th from 14 August.
    picked = code(season, "fruit-1", "pick", date(2026, 7, 20))
    read = journal_of(b"- {on: 2026-06-25, wave: fruit-1, did: sown}\n", "journal.yaml")
    now = season_of(gardens.read(FILE), TODAY, None, read.journal)
    sown = code(season, "fruit-2", "sow", date(2026, 6, 15))
    details = Details(TODAY)
    with pytest.raises(Unclear, match=rf"There is no code '{picked}' on the sheets"):
        happenings_of((picked, sown), details, now)
    monday = season_of(gardens.read(FILE), date(2026, 7, 13))
    found = happenings_of((f"{picked}@wed", sown), details, now, iter((monday,)))
    assert [each.line for each in found] == [
        "- {on: 2026-07-15, wave: fruit-1, did: picked}",
        "- {on: 2026-07-16, wave: fruit-2, bed: Long, did: sown, plants: 2}",
    ]


def test_what_a_series_moved_is_said_once_of_the_wave_that_began_it(season: Season) -> None:
    noted = (
        "- {on: 2026-06-02, wave: fruit-1, did: prepared, bed: Long}\n"
        "- {on: 2026-06-20, wave: fruit-2, did: sown}\n"
        "- {on: 2026-06-05, wave: fruit-1, did: sown}\n"
    )
    read = journal_of(noted.encode(), "journal.yaml")
    assert read.journal is not None
    after = season_of(gardens.read(FILE), TODAY, None, read.journal)
    found = all_moved(read.journal.happenings, season, after)
    # fruit-2 was noted itself; 20 June + 14 and + 28.
    assert [[each.wave for each in one.shifts] for one in found] == [
        [],
        [],
        ["fruit-2", "fruit-3", "fruit-4"],
    ]


@example("a\x1b[31mb")  # the terminal obeys it, and no file may hold it
@example("a\u202eb")
@example("caf\udce9")  # what the shell gave is no UTF-8
@example("x" * 201)
@example("two\nlines")
@example("\N{NO-BREAK SPACE}")
@given(st.text(st.characters(), max_size=12))
def test_what_is_written_down_can_be_read_again_or_is_refused(season: Season, said: str) -> None:
    for words, key in ((("fruit-1", "picked"), "note"), (("Long", "fed"), "using")):
        try:
            details = Details(**{"on": TODAY, key: said})  # type: ignore[arg-type]
            (entry,) = happenings_of(words, details, season)
        except Unclear:
            assert len(said) > 200 or not all(c.isprintable() for c in " ".join(said.split()))
            continue
        read = journal_of(f"{entry.line}\n".encode(), "journal.yaml")
        assert read.journal is not None, read.problems
        (again,) = read.journal.happenings
        assert getattr(again, key) == getattr(entry, key)
        assert (getattr(again, key) or "").split() == said.split()


@pytest.mark.parametrize(("many", "more"), [(2, False), (6, False), (7, True)])
def test_up_to_six_names_that_a_word_may_stand_for_are_named(many: int, more: bool) -> None:
    names = [f"bean-{number}" for number in range(1, many + 1)]
    said = ", ".join(names[:6]) + (", …" if more else "")
    with pytest.raises(Unclear) as found:
        one_of("bean", names, "wave")
    assert str(found.value) == f"'bean' may be {said}."


def test_one_name_that_is_near_is_offered() -> None:
    with pytest.raises(Unclear) as found:
        one_of("bean-l", ["bean-1", "bean-2", "leek-1"], "wave")
    assert str(found.value).endswith(("Did you mean 'bean-1'?", "Did you mean 'bean-2'?"))


def test_the_code_of_each_week_s_picking_is_known(season: Season) -> None:
    # Sown on 1 June it is picked from 21 July to 3 August: in three weeks from Mondays on.
    wave = season.waves[0]
    mondays = [date(2026, 7, 20), date(2026, 7, 27), date(2026, 8, 3)]
    for monday in mondays:
        name = task_id(Kind.PICK, wave, None, monday)
        (code,) = codes_of({name}).values()
        found = coded(code, season.garden, season.waves, None)
        assert [(each.kind, each.wave.id, each.due) for each in found] == [
            (Kind.PICK, "fruit-1", max(monday, date(2026, 7, 21)))
        ]
    for monday in (date(2026, 7, 13), date(2026, 8, 10)):
        (code,) = codes_of({task_id(Kind.PICK, wave, None, monday)}).values()
        assert coded(code, season.garden, season.waves, None) == ()
