"""The evening's sheet: what to pick, cover and water, in that order, and what to leave."""

from __future__ import annotations

from collections.abc import Iterator

from sowtide.grouping import grouped
from sowtide.report.blocks import (
    Banner,
    Block,
    Checklist,
    ChecklistGroup,
    ChecklistItem,
    Rule,
    Text,
    line,
    together,
)
from sowtide.report.kit import words
from sowtide.report.tonight.view import HARD, BedTonight, TonightView
from sowtide.schedule.tonight import CLEAR_AND_CALM, Action, Sky
from sowtide.units import show_temperature, show_temperature_difference

_ORDER = (Action.PICK, Action.COVER, Action.WATER)
_NOT_MORE = 12
"""How many waves that are left alone are named before they are counted. [1]"""


def page(of: TonightView) -> Iterator[Block]:
    """Yield the evening's sheet."""
    setting = of.setting
    low = show_temperature(of.low_c, setting.units)
    yield Banner(
        setting.name.upper(), f"TONIGHT {low}   {words.weekday(of.night_of, setting.year)}"
    )
    yield Text(_how_cold(of))
    yield Rule()
    groups = tuple(_groups(of))
    if groups:
        yield Checklist(groups)
    else:
        yield Text("Nothing that stands out needs anything tonight.")
    yield Rule()
    left = [wave.wave for bed in of.beds for wave in bed.waves if wave.action is Action.LEAVE]
    if left:
        named = words.named_shortly(map(together, left[:_NOT_MORE]))
        more = f", and {len(left) - _NOT_MORE} more" if len(left) > _NOT_MORE else ""
        yield Text(f"LEAVE: {named}{more}.", hang=2)
    for each in of.put_off:
        due, until = (words.weekday(day, setting.year) for day in (each.due, each.until))
        out = "; if it is out already, cover it" if each.due == setting.today else ""
        yield Text(
            f"WAIT with {each.wave}, to be planted out on {due}: look again on {until}{out}. "
            "Nothing is moved until you note it with `sowtide did`.",
            hang=2,
        )
    yield from _notes(of)


def _how_cold(of: TonightView) -> str:
    units = of.setting.units
    if not of.beds:
        return "Nothing stands out tonight."
    coldest = min(bed.air_c for bed in of.beds)
    text = f"At the plants down to {show_temperature(coldest, units)}"
    if of.sky is Sky.CLOUDY:
        return f"{text}, under clouds or in wind."
    if of.sky is Sky.CLEAR:
        return f"{text}, clear and calm."
    colder = show_temperature_difference(CLEAR_AND_CALM, units)
    return (
        f"{text}. On a clear, calm night it may be {colder} colder than the forecast just above "
        "the ground: then ask again with --clear."
    )


def _groups(of: TonightView) -> Iterator[ChecklistGroup]:
    for action in _ORDER:
        items = tuple(item for bed in of.beds for item in _of_action(bed, action))
        if items:
            yield ChecklistGroup(action.value.upper(), items, verb=False, day=False)
        if action is Action.PICK:
            yield from _closed(of)
    inside = tuple(_item("bench", name, "seedlings: indoors tonight") for name in of.seedlings)
    if inside:
        yield ChecklistGroup("BRING IN", inside, verb=False, day=False)


def _closed(of: TonightView) -> Iterator[ChecklistGroup]:
    """Yield the beds whose own covers have to be on."""
    units = of.setting.units
    items = tuple(
        _item(
            bed.bed,
            "its cover",
            f"on and closed before dusk: {show_temperature(bed.air_c, units)} below it",
        )
        for bed in of.beds
        if bed.cover_on
    )
    if items:
        yield ChecklistGroup("COVERS ON", items, verb=False, day=False)


def _of_action(bed: BedTonight, action: Action) -> Iterator[ChecklistItem]:
    """Yield an item for the waves of a bed that ask for the same for the same reason."""
    asking = (wave for wave in bed.waves if wave.action is action)
    for why, waves in grouped(asking, lambda wave: wave.why).items():
        plants = words.count(sum(wave.plants for wave in waves), "plant")
        names = words.named_shortly(wave.wave for wave in waves)
        yield _item(bed.bed, names, f"{plants}; {why}")


def _item(place: str, name: str, said: str) -> ChecklistItem:
    text = line(words.unbroken(said))
    return ChecklistItem(code="", day="", place=place, verb="", name=name, words=text)


def _notes(of: TonightView) -> Iterator[Block]:
    units = of.setting.units
    holds = show_temperature_difference(of.cover_holds_c, units)
    yield Text(
        f"A cover is taken to keep off {holds}; it holds what the ground gives, so lay it on "
        "before dusk, down to the soil, and take it off in the sun. "
        f"{_water(of)}Frost comes towards dawn."
    )
    if not of.is_spring:
        yield from _after(of)
    yield Text(words.rests_on(of.basis))


def _water(of: TonightView) -> str:
    """Say how ground is watered, where anything asks for it: by day, and what if that has gone."""
    if not any(wave.action is Action.WATER for bed in of.beds for wave in bed.waves):
        return ""
    return (
        "Water the ground, not the leaves, while the sun is on it; too late for that, a cover does "
        "as well. "
    )


def _after(of: TonightView) -> Iterator[Block]:
    units, after = of.setting.units, of.after_first
    frost, hard = show_temperature(0.0, units), show_temperature(HARD, units)
    if after.next_frost_days is not None:
        years = words.count(after.years or 0, "autumn")
        text = (
            f"A first frost is often followed by days without: in {years} of your record the next "
            f"night at {frost} came {after.next_frost_days:.0f} days later on average"
        )
        if after.hard_frost_days is not None:
            text += f", the first at {hard} {after.hard_frost_days:.0f}"
        yield Text(f"{text}.")
    elif after.hard_frost_days is not None:
        yield Text(
            f"Nights at {hard} begin {after.hard_frost_days:.0f} days after those at {frost}, by "
            "the average dates: that is what covering may buy."
        )
