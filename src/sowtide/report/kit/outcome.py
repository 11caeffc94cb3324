"""What a planting brings, in a sentence: first picks, odds, days of picking, or nothing."""

from __future__ import annotations

from sowtide.climate.answers import EndedBy
from sowtide.days import GrowingYear
from sowtide.report.blocks import together
from sowtide.report.kit import words
from sowtide.report.kit.judged import Judgement


def outcome(of: Judgement, year: GrowingYear) -> str:
    """Say what a planting brings: first picks, worthwhile years, days on average, nothing."""
    if of.first_pick is None:
        text = _nothing(of, year)
    else:
        when = together(words.days_from_to(*of.first_pick, year))
        text = f"ready to cut {when}" if of.cut_once else f"first picks {when}"
    if of.odds is None or of.odds_of_nothing is None:
        return text
    if words.nothing_ends(of):
        return f"{text}; nothing ends it early in any year"
    text += "," if of.first_pick else ";"
    good = words.years_of(of, of.odds)
    none = words.share_of(of, of.odds_of_nothing)
    days = words.count(of.worthwhile_days, "day")
    if of.cut_once:
        text += f" with {days} or more to cut it in {good}"
    else:
        text += f" worthwhile picking ({days} or more) in {good}"
        text += f", {words.mean_days(of.expected_picking_days)} on average"
    return f"{text}, nothing in {none} of {of.years or 100}"


def _nothing(of: Judgement, year: GrowingYear) -> str:
    """Say why a planting comes to nothing in an average year."""
    if of.verdict is None:
        return "nobody knows when it will be ready"
    if of.end is None:
        return "nothing to pick"
    if of.ended_by is EndedBy.TOO_COOL:
        return "it does not get warm enough to ripen, as a rule"
    end = together(words.day(of.end, year))
    return f"{of.ended_by.value} ends it by {end} as a rule, before its first pick"
