"""A journal on every screen in every form: what is taken back, in any order, what confirms."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from printed import form, page
from report.test_every_report import VIEWS
from sowtide.garden.journal import Journal, journal_of
from sowtide.report import REPORTS
from sowtide.report.formats.forms import TEXT, offered
from sowtide.schedule.season import Season
from sowtide.season import DEMO_TODAY, load_demo, season_of

SLIPS = """\
- {on: 2026-05-24, wave: bush-bean-1, bed: South, did: sown, plants: 36}
- {on: 2026-06-01, wave: bush-bean-1, did: up, plants: 30}
- {on: 2026-06-06, wave: bush-bean-2, bed: South, did: sown, plants: 36}
- {on: 2026-06-05, wave: summer-squash-2, did: sown}
- {on: 2026-06-18, wave: summer-squash-2, bed: Hoops, did: planted out, plants: 4}
- {on: 2026-07-02, wave: bush-bean-2, did: lost, plants: 10, note: 'slugs, after the rain'}
- {on: 2026-07-04, wave: lettuce-5, did: pulled, sick: yes}
- {on: 2026-07-11, wave: bush-bean-1, did: first picked, amount: 1.4lb}
- {on: 2026-07-14, wave: bush-bean-1, did: picked, amount: 2lb}
- {on: 2026-07-08, bed: South, did: scouted, found: some}
- {on: 2026-07-10, bed: Hoops, did: watered, with: soak}
- {on: 2026-07-11, bed: South, did: scouted, found: none}
- {on: 2026-07-12, did: rain, amount: 0.6in}
- {on: 2026-07-03, wave: carrot-1, did: skipped}
- {on: 2026-07-06, wave: bush-bean-4, bed: South, did: sown, plants: 30}
"""
PULLED = "- {on: 2026-07-13, wave: bush-bean-1, did: pulled, sick: yes}\n"
TAKEN_BACK = PULLED.replace("}", ", undone: yes}")


def read(text: str) -> Journal:
    """Return a journal; a mistake in it is a mistake in the test."""
    found = journal_of(text.encode(), "journal.yaml")
    assert found.journal is not None, [problem.message for problem in found.problems]
    return found.journal


def season(journal: Journal | None) -> Season:
    """Return the season of the demo garden with a journal."""
    garden = load_demo().garden
    assert garden is not None
    return season_of(garden, DEMO_TODAY, None, journal)


@cache
def of(text: str | None) -> Season:
    return season(None if text is None else read(text))


def forms(command: str, view: Any) -> dict[str, object]:
    """Return what a command prints, in every form that it is offered in."""
    report = REPORTS[command]
    return {
        name: page(report, view) if name == TEXT else form(report, view, name)
        for name in offered(report)
    }


@cache
def slipped(command: str) -> tuple[Any, dict[str, object]]:
    """Return what a command says of the season with its slips, and what it prints."""
    view = VIEWS[command](of(SLIPS))
    return view, forms(command, view)


def prints_the_same(command: str, season: Season) -> bool:
    """Say whether a command prints of a season what it prints of the one with its slips.

    Equal views are printed alike in every form: `test_every_report` holds that.
    """
    view, (usual, printed) = VIEWS[command](season), slipped(command)
    return bool(view == usual) or forms(command, view) == printed


@pytest.mark.parametrize("command", VIEWS)
def test_what_is_taken_back_leaves_no_trace(command: str) -> None:
    assert prints_the_same(command, of(SLIPS + PULLED + TAKEN_BACK))


def test_what_is_taken_back_would_have_been_seen() -> None:
    for command in ("week", "plan", "calendar", "supply", "did", "check"):
        assert not prints_the_same(command, of(SLIPS + PULLED))


@cache
def turned_round() -> Season:
    """Return the season with the entries from the last to the first, each with its place."""
    journal = read(SLIPS)
    return season(replace(journal, happenings=journal.happenings[::-1]))


@pytest.mark.parametrize("command", VIEWS)
def test_the_order_of_the_entries_makes_no_difference(command: str) -> None:
    assert prints_the_same(command, turned_round())


# What only confirms the plan


def confirming(plan: Season, *, gone: bool) -> Iterator[str]:
    """Yield entries that say of each wave that it was sown, planted, up and gone as planned."""
    today, year = plan.today, plan.garden.year
    for wave in plan.waves:
        stages, begun = wave.stages, "planted out" if wave.from_trays else "sown"
        said = [(stages.plant.day, f"bed: {s.bed.name}, did: {begun}") for s in wave.stands]
        if wave.from_trays and wave.stands:
            said.append((stages.sow.day, "did: sown"))
        if wave.stands and gone:
            said.append((stages.pull_out.day, "did: pulled"))
        for dated, did in ((stages.up, "up"), (stages.harden_off, "hardened")):
            if dated is not None and wave.stands:
                said.append((dated.day, f"did: {did}"))
        for day, did in said:
            if day < today:
                of_season = "" if day in year else f", season: {year.season}"
                yield f"- {{on: {day}, wave: {wave.id}, {did}{of_season}}}\n"


MAY_DIFFER = {
    "done",  # says just what is noted
    "status",  # how far a wave is known to have come
    "steps",  # a day of the journal is a step of its own
    "week",  # what is not noted of it is overdue from the first entry on
    "did",
    "did season",
    "plan --labels",  # of what is still to be planted: a wave that is planted needs none
}


AMOUNTS = {"supply": "crops", "supply --fill": "weeks", "calendar": "wanted"}
"""Where a command tells amounts to come: of what is gone nothing more is picked, though by the plan
alone it might be, in a slow year."""


def told(of: Any, more: str | None = None) -> Any:
    """Leave out of a command's JSON what a journal that confirms the plan may change."""
    if isinstance(of, dict):
        left_out = MAY_DIFFER | {more}
        return {key: told(each, more) for key, each in of.items() if key not in left_out}
    return [told(each, more) for each in of] if isinstance(of, list) else of


@pytest.mark.parametrize("gone", [False, True], ids=["standing", "gone"])
@pytest.mark.parametrize("command", [name for name in VIEWS if name not in MAY_DIFFER])
def test_a_journal_that_only_confirms_the_plan_changes_nothing(command: str, gone: bool) -> None:
    entries = list(confirming(of(None), gone=gone))
    assert len(entries) > 50
    confirmed = of("".join(entries))
    amounts = AMOUNTS.get(command) if gone else None
    printed = form(REPORTS[command], VIEWS[command](confirmed), "json")
    assert told(json.loads(printed), amounts) == told(json.loads(planned(command)), amounts)


@cache
def planned(command: str) -> str:
    """Return what a command says of the season without a journal, as JSON."""
    return form(REPORTS[command], VIEWS[command](of(None)), "json")


def test_what_is_safe_again_after_the_heat_says_so_beside_the_day_it_missed() -> None:
    # Radish is safe to sow up to 6 June; sown after that it would be picked in the hot weeks, and
    # in July it is safe again. Seedlings of broccoli begun on 16 July come too late for good.
    begun = of("- {on: 2026-06-01, wave: bush-bean-1, bed: South, did: sown, plants: 36}\n")
    said = " ".join(" ".join(page(REPORTS["did"], VIEWS["did"](begun))).split())
    radish, broccoli = (
        said.partition(f"{wave}: ")[2].partition(" [ ] ")[0] for wave in ("radish-6", "broccoli-1")
    )
    assert "; its last day was 6 Jun, safe again today " in radish
    assert "; its last day was 7 Jul " in broccoli
