"""The sheet of the heat: what to shade and water first, to pick, to sow in the cool, to put off."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.days import GrowingYear
from sowtide.grouping import grouped
from sowtide.report.blocks import (
    Banner,
    Block,
    Checklist,
    ChecklistGroup,
    ChecklistItem,
    Line,
    Rule,
    Style,
    Text,
    line,
    together,
)
from sowtide.report.heat.heat_values import (
    CoolSowing,
    HeatGapView,
    HeatView,
    PutOffView,
    WaterNowView,
)
from sowtide.report.kit import words
from sowtide.report.kit.cautions import cautions_of
from sowtide.report.kit.setting import Setting
from sowtide.schedule.work import HeatAction
from sowtide.units import TOO_HOT, show_temperature

_MOST_NAMED = 8
"""Waves named of one kind of work before the rest are only counted. [1]"""
_ORDER = (HeatAction.SHADE, HeatAction.PICK, HeatAction.WATER)
_TITLES = {
    HeatAction.SHADE: "SHADE AND WATER FIRST",
    HeatAction.PICK: "PICK NOW",
    HeatAction.WATER: "THEN WATER",
}


def page_of_heat(of: HeatView, setting: Setting) -> Iterator[Block]:
    """Yield the sheet of the heat; one line where it is not hot enough for anything."""
    high = show_temperature(of.high_c, setting.units)
    days = words.days_from_to(of.from_, of.to, setting.year)
    if of.asks_for_nothing:
        yield Text(f"Up to {high} on {days}: nothing here needs anything for it.")
        return
    yield Banner(setting.name.upper(), f"HEAT, UP TO {high}   {days}")
    yield Text(
        "Water early, at the soil and deep, so that it is in the ground before the heat. What is "
        "put off here is proposed: the plan moves when you note what you did with `sowtide did`."
    )
    yield Rule()
    groups = tuple(_groups(of, setting.year))
    if groups:
        yield Checklist(groups)
        yield Rule()
    if of.water_now:
        yield Text(_water_now(of.water_now, setting.year), hang=2)
    if of.put_off:
        said = "; ".join(_put_off(of.put_off, setting.year))
        yield Text(line(("NOT IN THIS HEAT:", Style.HEADING), f" {said}"), hang=2)
    if of.gaps:
        said = "; ".join(_gaps(of.gaps, setting.year))
        yield Text(
            line(
                ("EXPECT A GAP:", Style.HEADING), f" flowers set little; little to pick of {said}"
            ),
            hang=2,
        )
    if of.high_c >= TOO_HOT:
        yield from (Text(each.text) for each in cautions_of(frozenset({"heat"})))


def _groups(of: HeatView, year: GrowingYear) -> Iterator[ChecklistGroup]:
    uncovered = tuple(
        _item(bed.bed, "its cover", "off or open, by night too") for bed in of.beds if bed.uncover
    )
    if uncovered:
        yield ChecklistGroup("COVERS OFF", uncovered, verb=False, day=False)
    for action in _ORDER:
        items = tuple(_of_action(of, action))
        if items:
            yield ChecklistGroup(_TITLES[action], items, verb=False, day=False)
    sown = tuple(_sowing(each, year) for each in of.sow_in_the_cool)
    if sown:
        yield ChecklistGroup("SOW IN THE COOL", sown, verb=False, day=False)


def _of_action(of: HeatView, action: HeatAction) -> Iterator[ChecklistItem]:
    """Yield an item for each bed: each reason once, with its waves before it."""
    for bed in of.beds:
        asking = (wave for wave in bed.waves if wave.action is action)
        named = {
            why: words.named_shortly(wave.wave for wave in waves)
            for why, waves in grouped(asking, lambda wave: wave.why).items()
        }
        if named:
            (first, names), *others = named.items()
            also = (f"; {more}: {why}" for why, more in others)
            yield _item(bed.bed, names, first + "".join(also))


def _item(place: str, name: str, said: str, code: str = "") -> ChecklistItem:
    text = line(words.unbroken(said))
    return ChecklistItem(code=code, day="", place=place, verb="", name=name, words=text)


def _sowing(of: CoolSowing, year: GrowingYear) -> ChecklistItem:
    waits = "" if of.until is None else f"; or wait till {_day(of.until, year)}"
    return _item(of.bed or "bench", of.wave, f"{of.text}{waits}", of.code)


def _water_now(of: tuple[WaterNowView, ...], year: GrowingYear) -> Line:
    """Say which water comes forward: ``soak on Thu 16 Jul, not Mon 20 Jul: Well 17 gal``."""
    from sowtide.garden.care import said

    texts = []
    for (routine, on, due), waters in grouped(of, lambda w: (w.routine, w.on, w.due)).items():
        amounts = (
            "" if water.amount is None else f" {said(water.amount.value, water.amount.unit)}"
            for water in waters
        )
        beds = (together(f"{water.bed}{much}") for water, much in zip(waters, amounts, strict=True))
        texts.append(f"{routine} on {_day(on, year)}, not {_day(due, year)}: {', '.join(beds)}")
    return line(("WATER SOONER:", Style.HEADING), f" {'; '.join(texts)}")


def _put_off(put_off: tuple[PutOffView, ...], year: GrowingYear) -> Iterator[str]:
    """Yield what waits, each kind of work once: ``spray A in South, next Mon 20 Jul``."""
    alike = grouped(put_off, lambda of: (of.what, of.task is None, of.until, of.cannot_wait))
    for (what, is_care, until, cannot_wait), found in alike.items():
        later = "" if until is None else _day(until, year)
        if is_care:
            beds = words.some_beds(tuple(dict.fromkeys(each.bed or "" for each in found)))
            yield f"{what} in {beds}, " + (f"next {later}" if later else "gives way")
            continue
        names = [_with_day(each, year) for each in found[:_MOST_NAMED]]
        if len(found) > _MOST_NAMED:
            names.append(f"{len(found) - _MOST_NAMED} more")
        named = words.listed(names)
        yield (
            f"{what} {named}: cannot wait, so in the evening, in shade, watered twice a day"
            if cannot_wait
            else f"{what} {named}: look again {later}"
        )


def _with_day(of: PutOffView, year: GrowingYear) -> str:
    return together(f"{words.named_shortly(of.waves)} ({words.weekday(of.due, year)})")


def _gaps(gaps: tuple[HeatGapView, ...], year: GrowingYear) -> Iterator[str]:
    """Yield what is missed when: ``bush-bean-2 31 Jul – 3 Aug (in flower 16–19 Jul)``."""
    alike = grouped(gaps, lambda of: (of.from_, of.to, of.flowers_from, of.flowers_to))
    for first, last, opens, closes in sorted(alike):
        waves = [each.wave for each in alike[first, last, opens, closes]]
        picks = together(words.days_from_to(first, last, year))
        flowers = words.days_from_to(opens, closes, year)
        yield f"{words.named_shortly(waves)} {picks} {together(f'(in flower {flowers})')}"


def _day(day: date, year: GrowingYear) -> str:
    return together(words.weekday(day, year))
