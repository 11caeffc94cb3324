"""What the plan says of a wave beside its dates: where it stands, how sure it is, what ends it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from sowtide.climate.answers import EndedBy
from sowtide.days import short_day
from sowtide.report.blocks import Inline, Line, Span, Style, line, styled
from sowtide.report.kit import words
from sowtide.report.kit.judged import Judgement
from sowtide.report.plan.view import WaveView
from sowtide.schedule.waves import SAFE, Status

MOST_SPARE = 60
"""Days to spare beyond which it does not matter how many they are. [days]"""


def is_held(judged: Judgement) -> bool:
    """Say whether nobody knows when a wave is ready, so that its bed is only held for it."""
    return judged.verdict is None and judged.first_pick is None


def judged_cells(wave: WaveView) -> tuple[str | Span, ...]:
    """Return odds, picking days, days to spare and verdict as a table wants them."""
    judged = wave.judged
    if not wave.beds and wave.status.is_gone:
        return "", "", "", ""
    if not wave.beds:
        # It counts nothing; what it would be stands in brackets.
        return "", "", "", (f"({judged.verdict.value})" if judged.verdict else "", Style.DIM)
    days = judged.expected_picking_days
    picking = "" if days is None or wave.judged.cut_once else str(int(days + 0.5))
    spare = _spare(judged)
    margin = "" if spare is None else str(spare)
    return words.short_odds(words.odds_cell(judged)), picking, margin, words.verdict(judged.verdict)


def place_cell(wave: WaveView) -> Line:
    """Say in the last column of a table where a wave stands and what ends it."""
    if wave.beds:
        # How many plants is said above the series; a split wave says it for each bed.
        spare = _spare(wave.judged)
        slow = spare is not None and spare < 0 and wave.judged.verdict in SAFE
        parts = ("its slowest are short of frost",) if slow else ()
        return _joined((words.stands(wave.beds), *parts, *_fate(wave)))
    if wave.status.is_gone:
        return styled(str(wave.status.value), Style.DIM)
    return styled("NO ROOM", Style.BAD)


def judgement(wave: WaveView, today: date) -> Line:
    """Say on one line where a wave stands and what is to be thought of it."""
    judged = wave.judged
    if not wave.beds:
        return _joined(_without_room(wave))
    parts: list[Inline] = [_place(wave)]
    if wave.overlap is not None:
        parts.append(f"between {wave.overlap.wave} to {short_day(wave.overlap.until)}")
    reached = _reached(wave, today)
    if reached is not None:
        parts.append(reached)
    if judged.verdict is not None:
        parts.append(line(words.verdict(judged.verdict), _odds(judged)))
    else:
        parts.append("over the winter")
    if judged.first_pick is None and judged.verdict is not None:
        parts.append(("nothing to pick", Style.BAD))
    elif judged.expected_picking_days is not None and not wave.judged.cut_once:
        days = int(judged.expected_picking_days + 0.5)
        parts.append(words.count(days, "picking day"))
    spare = _spare(judged)
    if spare is not None:
        parts.append(_margin(spare, judged))
    return _joined((*parts, *_fate(wave)))


def _without_room(wave: WaveView) -> Iterator[Span]:
    if wave.status.is_gone:
        yield str(wave.status.value), Style.DIM
        return
    yield f"NO ROOM for {wave.plants:,}", Style.BAD
    verdict = wave.judged.verdict
    if verdict is not None:
        yield f"it would be {verdict.value}{_odds(wave.judged)}", Style.DIM


def _place(wave: WaveView) -> str:
    """Say how many plants stand where."""
    text = words.stands(wave.beds)
    return f"{wave.plants:,} in {text}" if len(wave.beds) == 1 else text


def _reached(wave: WaveView, today: date) -> str | None:
    """Say how far a wave has come by a day, if all went as planned; None before it begins."""
    if wave.is_noted and wave.status not in (Status.PLANNED, Status.PAST):
        return str(wave.status.value)
    if wave.status is Status.PLANNED and wave.plant < today:
        return "overdue"
    if today >= wave.pull_out:
        return "over"
    if today > wave.plant:
        return "standing"
    if today in (wave.plant, wave.sow):
        return "due today"
    if today < wave.sow:
        return None
    return "overdue" if wave.is_unsown else "in trays"


def _fate(wave: WaveView) -> Iterator[Inline]:
    """Say what ends a wave, where it is not picked out first, and what may spoil it."""
    if is_held(wave.judged):
        yield "ready days not known", Style.WARN
    elif wave.judged.ended_by not in (EndedBy.PICKED_OUT, EndedBy.PULLED):
        yield f"ended by {wave.judged.ended_by.value}"
    if wave.judged.may_bolt:
        yield "may bolt", Style.WARN


def _odds(judged: Judgement) -> str:
    if judged.odds is None:
        return ""
    if words.nothing_ends(judged):
        return ", nothing ends it early"
    return f" {words.short_odds(words.odds_of(judged))}"


def _spare(judged: Judgement) -> int | None:
    """Return the days to spare before frost; None where heat comes first or they are many."""
    margin = judged.margin
    if judged.ended_by in (EndedBy.HEAT, EndedBy.SEED) or margin is None or margin > MOST_SPARE:
        return None
    return margin


def _margin(days: int, judged: Judgement) -> str:
    if days < 0 and judged.verdict in SAFE:
        return f"at its slowest {words.count(-days, 'day')} short of the average frost"
    if days < 0:
        return f"{words.count(-days, 'day')} short"
    return f"{words.count(days, 'day')} to spare"


def _joined(parts: Iterable[Inline]) -> Line:
    texts: list[Inline] = []
    for part in parts:
        if texts:
            texts.append("; ")
        texts.append(part)
    return line(*texts)
