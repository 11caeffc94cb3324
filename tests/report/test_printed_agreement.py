"""What `plan`, `why` and `calendar` print of a wave is read back, and is what the engine dated.

    DRAWN=200 pytest tests/report/test_printed_agreement.py

draws more gardens than the usual twelve.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from random import Random

import gardens
from drawn import covered_garden
from printed import calendar_text, plan_text, why_text
from sowtide.days import MONTHS
from sowtide.garden.crop import Raised
from sowtide.report.calendar import view
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status, Verdict, Wave

DRAWN = int(os.environ.get("DRAWN", "12"))
TODAY = date(2026, 7, 16)
WIDE = 200
"""So wide that no name is shortened. [cells]"""
_DAY = timedelta(days=1)

Told = dict[str, date]
"""The days of a wave, by what they are."""


def drawn(number: int) -> Season:
    return gardens.season(covered_garden(Random(number)), TODAY)


def dated(wave: Wave) -> Told:
    """Return a wave's days as the engine has them."""
    stages = wave.stages
    early, late = stages.first_pick or (None, None)
    days = {
        "sow": stages.sow,
        "plant": stages.plant,
        "first pick, early": early,
        "first pick, late": late,
        "last": stages.last_pick,
        "out": stages.pull_out,
    }
    return {name: each.day for name, each in days.items() if each is not None}


# As a plan


def _day(text: str) -> date:
    """Read a day of a plan: ``8 Aug``, in another year ``11 Oct 25``."""
    number, month, *year = text.split()
    return date(2000 + int(year[0]) if year else 2026, MONTHS.index(month) + 1, int(number))


def _span(text: str) -> tuple[date, date]:
    """Read ``24–27 Jun``, ``29 Aug – 2 Sep``, ``25 Jun – 20 Jul 27`` or ``3 Jul``."""
    first, dash, last = (part.strip() for part in text.partition("–"))
    if not dash:
        return _day(first), _day(first)
    number, *month = first.split()
    return _day(" ".join((number, *(month or last.split()[1:2]), *last.split()[2:]))), _day(last)


def planned(season: Season) -> dict[str, tuple[Told, str]]:
    """Read a plan: the days of each wave, and what is said of it below them."""
    found: dict[str, tuple[Told, str]] = {}
    ends: dict[str, int] = {}
    name = ""
    for text in plan_text(season, 80):
        shown = text.replace("\N{NO-BREAK SPACE}", " ")
        if shown.startswith("PROBLEMS"):
            break
        if shown.startswith("wave "):
            titles = re.finditer(r"first pick|\S+", shown)
            ends = {each.group(): each.end() for each in titles if each.group() != "wave"}
            begins = dict(zip(ends, [0, *ends.values()], strict=False))
        elif ends and (row_of := re.match(r"(\S+-\d+) ", shown)):
            name = row_of.group(1)
            row = shown.replace(name, " " * len(name), 1)
            cells = {title: row[begins[title] : end].strip() for title, end in ends.items()}
            days = {title: _day(cell) for title, cell in cells.items() if cell and title in _ONE}
            if cells["first pick"]:
                days["first pick, early"], days["first pick, late"] = _span(cells["first pick"])
            found[name] = (days, "")
        elif name and shown.startswith("  "):
            found[name] = (found[name][0], f"{found[name][1]} {shown.strip()}".strip())
    return found


_ONE = ("sow", "plant", "last", "out")


# As why


_WHY = {
    "sow": "sow",
    "sow in trays": "sow",
    "plant out": "plant",
    "in the bed from": "plant",
    "first pick, early": "first pick, early",
    "first pick, late": "first pick, late",
    "first pick": "first pick, early",
    "last pick": "last",
    "pull out": "out",
}


def explained(wave: Wave, season: Season) -> tuple[Told, str]:
    """Read why a wave has its days: the sum of the steps of each, and what is said below them."""
    days: Told = {}
    said, reached = "", None
    stage = ""
    for text in (*why_text(wave, season, WIDE), "end"):
        shown = text.replace("\N{NO-BREAK SPACE}", " ")
        title = re.fullmatch(r"(\w.*?)  +\w{3} (\d+ \w{3}(?: \d{4})?)", shown)
        step = re.match(r" +(?:[+-]\d+ += )?(\d+ \w{3}(?: \d{4})?) +\S", shown)
        if stage and (title or not shown.strip()):
            assert reached == days[stage], (wave.id, stage)  # the last step leads to the day
            stage = ""
        if title and title.group(1) in _WHY:
            stage = _WHY[title.group(1)]
            days[stage] = _long_day(title.group(2))
        elif step and stage:
            reached = _long_day(step.group(1))
        elif shown.startswith("verdict"):
            said = shown.removeprefix("verdict").strip()
    return days, said


def _long_day(text: str) -> date:
    number, month, *year = text.split()
    return date(int(year[0]) if year else 2026, MONTHS.index(month) + 1, int(number))


# As a calendar


@dataclass
class Bar:
    """The days that the first and the last column of a bar show, and its first with a picking."""

    first: date
    last: date
    picked: date | None
    step: int
    at_edge: bool
    runs_on: bool


def charted(season: Season) -> tuple[dict[str, list[Bar]], str]:
    """Read a calendar: the bars of each wave, and which waves are said not to be shown."""
    lines = [each.replace("\N{NO-BREAK SPACE}", " ") for each in calendar_text(season, WIDE)]
    head = next(each for each in lines if each.startswith("Mon the"))
    left = len(head) - len(head.removeprefix("Mon the").lstrip())
    found = re.search(r"column is (\d+) day", " ".join(lines))
    assert found is not None
    step, first = int(found.group(1)), view(season).days.from_
    names = sorted((each.id for each in season.waves), key=len, reverse=True)
    bars: dict[str, list[Bar]] = {}
    rules = [number for number, each in enumerate(lines) if each and set(each) <= set("-+")]
    for text in lines[rules[0] + 1 : rules[1]] if len(rules) > 1 else ():
        row = text[left:]
        middle = [first + (step * column + step // 2) * _DAY for column in range(len(row) + 1)]
        for name, begin, end, picked in _bars(row, names):
            bars.setdefault(name, []).append(
                Bar(
                    first=middle[begin],
                    last=middle[end - 1],
                    picked=None if picked is None else middle[picked],
                    step=step,
                    at_edge=begin == 0,
                    runs_on=row[end - 1] == ">" or end == len(row),
                )
            )
    return bars, " ".join(lines).partition("NOT IN THESE MONTHS:")[2]


def _bars(row: str, names: list[str]) -> Iterator[tuple[str, int, int, int | None]]:
    """Yield the bars of a row: whose they are, their first column, the one after, the picking."""
    inside: list[tuple[int, str]] = []
    beside: list[tuple[int, str]] = []
    bare = row
    for name in names:
        for each in re.finditer(
            rf"(?<![\w-])-?{re.escape(name)}(?![\w])|(?<=[-<]){name}(?!\w)", bare
        ):
            begin = each.end() - len(name)
            within = begin > 0 and bare[begin - 1] in "-<"
            (inside if within else beside).append((begin, name))
            fill = "-" if within else " "
            bare = bare[:begin] + fill * len(name) + bare[each.end() :]
    # A bar follows another without a gap where its picking is over, or at the name in it.
    starts = {at - 1 for at, _ in inside if at and bare[at - 2 : at - 1] in "-#"}
    parted = "".join("\0" + sign if at in starts else sign for at, sign in enumerate(bare))
    passed = 0
    for each in re.finditer(r"\0?(<?-+#*>?|<?#+>?|<)", parted):
        passed += each.group().count("\0")
        begin = each.start(1) - passed
        end = begin + len(each.group(1))
        own = [name for at, name in inside if begin <= at < end]
        near = [n for at, n in beside if at + len(n) + 1 == begin or at == end + 1]
        near += [n for at, n in beside if at == end + 2]  # behind the sign of what ended it
        (name,) = own or near[:1]
        if not own:
            beside.remove(next(each for each in beside if each[1] == name))
        picked = each.group(1).find("#")
        yield name, begin, end, None if picked < 0 else begin + picked


def test_what_is_printed_of_every_wave_is_what_it_is_dated() -> None:
    seen = {"no room": 0, "covered": 0, "winter": 0, "shared": 0, "too late": 0}
    for number in range(DRAWN):
        season = drawn(number)
        plan, (chart, absent) = planned(season), charted(season)
        assert set(plan) == {each.id for each in season.waves}
        for wave in season.waves:
            days, (shown, said), of = dated(wave), plan[wave.id], (number, wave.id)
            if wave.entry.raised is Raised.DIRECT:
                shown["plant"] = shown["sow"]
            assert shown == days, of
            why, verdict = explained(wave, season)
            assert why == days, of
            told = wave.judged.verdict
            assert verdict.startswith("none: it stands over" if told is None else told.value), of
            assert ("winter" if told is None else told.value) in said or not wave.stands, of
            assert _beds(wave) in said, of
            bars = chart.get(wave.id, ())
            assert len(bars) == (0 if wave.id in absent else len(wave.stands)), of
            for bar in bars:
                assert _agrees(bar, wave), of
            seen["no room"] += wave.status is Status.NO_ROOM
            seen["covered"] += season.prospects(wave).ground < 0
            seen["winter"] += told is None
            seen["shared"] += len(wave.stands) > 1
            seen["too late"] += told is Verdict.TOO_LATE
    assert all(seen.values()), seen


def _beds(wave: Wave) -> str:
    """Say where a wave stands, as a plan does."""
    if len(wave.stands) == 1:
        return f"{wave.plants} in {wave.stands[0].bed.name}"
    shares = ", ".join(f"{each.bed.name} ({each.plants})" for each in wave.stands)
    return shares or f"NO ROOM for {wave.plants}"


def _agrees(bar: Bar, wave: Wave) -> bool:
    """Say whether each column shows what its middle day holds, where there are two or more."""
    stages, step = wave.stages, bar.step * _DAY
    plant, gone = stages.plant.day, stages.pull_out.day
    begins = bar.first - step < plant <= bar.first or (bar.at_edge and plant <= bar.first)
    ends = bar.last < gone <= bar.last + step or (bar.runs_on and gone > bar.last)
    short = gone - plant <= step
    picks = stages.first_pick is None or (
        (bar.picked is None and bar.runs_on)
        or (bar.picked is not None and bar.picked - step < stages.first_pick[0].day <= bar.picked)
        or (bar.picked == bar.last and stages.first_pick[0].day >= bar.last - step)
    )
    return picks and (short or (begins and ends))
