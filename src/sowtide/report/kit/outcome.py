"""What a planting brings, in a sentence: first picks, odds, days of picking, or nothing."""

from __future__ import annotations

from sowtide.climate.answers import EndedBy
from sowtide.days import GrowingYear
from sowtide.garden.crop import Crop
from sowtide.report.blocks import together
from sowtide.report.kit import words
from sowtide.schedule.waves import Judged


def outcome(judged: Judged, crop: Crop, year: GrowingYear) -> str:
    """Say what a planting brings: first picks, worthwhile years, days on average, nothing."""
    first = judged.stages.first_pick
    if first is None:
        text = _nothing(judged, year)
    else:
        when = together(words.days_from_to(first[0].day, first[1].day, year))
        text = f"ready to cut {when}" if crop.cut_once else f"first picks {when}"
    if judged.odds is None or judged.odds_of_nothing is None:
        return text
    if words.nothing_ends(judged):
        return f"{text}; nothing ends it early in any year"
    text += "," if first else ";"
    good = words.years_of(judged, judged.odds)
    none = words.share_of(judged, judged.odds_of_nothing)
    days = words.count(crop.worthwhile_days, "day")
    if crop.cut_once:
        text += f" with {days} or more to cut it in {good}"
    else:
        text += f" worthwhile picking ({days} or more) in {good}"
        text += f", {words.mean_days(judged.expected_picking_days)} on average"
    return f"{text}, nothing in {none} of {judged.years or 100}"


def _nothing(judged: Judged, year: GrowingYear) -> str:
    """Say why a planting comes to nothing in an average year."""
    if judged.verdict is None:
        return "nobody knows when it will be ready"
    if judged.end is None:
        return "nothing to pick"
    if judged.ended_by is EndedBy.TOO_COOL:
        return "it does not get warm enough to ripen, as a rule"
    end = together(words.day(judged.end.day, year))
    return f"{judged.ended_by.value} ends it by {end} as a rule, before its first pick"
