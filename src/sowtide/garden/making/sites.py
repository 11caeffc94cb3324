"""From the file's site to the place: frost dates in their years, temperatures in °C."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from os import pardir
from os.path import normpath
from pathlib import PurePath

from sowtide.days import DateSpan, MonthDay
from sowtide.garden.keys import HALF, NO_FROST, SHARE, FrostKeys, Shares, SiteKeys
from sowtide.garden.making.no_frost import check_none
from sowtide.garden.making.normals import normals_of, two_months_of
from sowtide.garden.readers import (
    DaysWritten,
    Frame,
    WeekWritten,
    Written,
    no_leap_day,
    resolve,
    resolve_span,
)
from sowtide.garden.site import (
    NEWEST_YEARS,
    Chance,
    FallAllowance,
    FrostDates,
    RecordFile,
    Site,
    Sure,
)
from sowtide.garden.text import Findings, Path, Refused, quoted
from sowtide.reasons import OURS, Origin

_FAR = 150
"""A frost date further from its anchor is swapped, or the latitude has the wrong sign. [days]"""


def site_of(keys: SiteKeys, frame: Frame, findings: Findings) -> Site | None:
    """Return the site, or None with its problems added."""
    before = len(findings.problems)
    frost = _frost(keys.frost, frame, findings)
    record = _record(keys.frost, findings)
    normals = normals_of(keys.frost, frame, south=keys.latitude < 0, findings=findings)
    two_months = two_months_of(keys, frame, findings)
    too_hot: DateSpan | None = None
    if isinstance(keys.too_hot, DaysWritten):
        try:
            too_hot = resolve_span(keys.too_hot, frame.year)
        except Refused as refused:
            findings.refused(("site", "too_hot"), refused)
    if len(findings.problems) > before:
        return None
    return Site(
        name=keys.name,
        latitude=float(keys.latitude),
        units=frame.units,
        frost=frost,
        sure=Sure(*keys.sure, origin=_origin("sure", findings)),
        fall_allowance=FallAllowance(
            *keys.fall_allowance, origin=_origin("fall_allowance", findings)
        ),
        colder_by=frame.difference(keys.colder_by),
        too_hot=too_hot,
        too_hot_origin=_origin("too_hot", findings),
        heat_known=keys.too_hot is not None,
        week_starts=keys.week_starts,
        record=record,
        normals=normals,
        two_months=two_months,
        help=keys.help,
        people=keys.people,
        spare=keys.spare,
        order_weeks=keys.order_weeks,
        tray_cells=keys.tray_cells,
    )


def _origin(name: str, findings: Findings) -> Origin:
    place: Path = ("site", name)
    return findings.origin(place) if findings.tree.is_written(place) else OURS


def _record(tables: tuple[FrostKeys, ...], findings: Findings) -> RecordFile | None:
    """Return the record that is named, or None; a second is reported, and what is said of none."""
    found: RecordFile | None = None
    for number, keys in enumerate(tables):
        path: Path = ("site", "frost", number)
        if keys.record is None:
            for key, written in (("unit", keys.unit), ("years", keys.years)):
                if written is not None:
                    findings.at_key(
                        (*path, key),
                        "record",
                        f"{quoted(key)} is said of a record, and none is named beside it",
                        f"add record: with the name of its file, or delete the {key}",
                    )
            continue
        place = (*path, "record")
        if found is not None:
            message = "a site has one record, and this is a second"
            findings.at_value(place, "record", message, "keep one of the two")
            continue
        if _is_outside(keys.record):
            findings.at_value(
                place,
                "record",
                f"{quoted(keys.record)} lies outside of the folder of this file",
                f"put it beside this file, and write {PurePath(keys.record).name or 'its name'}",
            )
            continue
        span = findings.tree.value_span(place)
        found = RecordFile(keys.record, keys.unit, keys.years or NEWEST_YEARS, span)
    return found


def _is_outside(path: str) -> bool:
    """Say whether a path leads out of the folder it is seen from."""
    named = PurePath(path)
    return named.is_absolute() or PurePath(normpath(named)).parts[:1] == (pardir,)


def _frost(
    tables: tuple[FrostKeys, ...], frame: Frame, findings: Findings
) -> tuple[FrostDates, ...]:
    """Return the frost dates, warmest first; those that are wrong are left out and reported."""
    found: list[tuple[FrostDates, Path]] = []
    for number, keys in enumerate(tables):
        path: Path = ("site", "frost", number)
        if keys.last == NO_FROST or keys.first == NO_FROST:
            check_none(keys, path, findings, alone=len(tables) == 1)
            continue
        if keys.last is None or keys.first is None:
            continue  # a record stands here, and no dates beside it
        dates = _one_temperature(keys, keys.last, keys.first, path, frame, findings)
        if dates is not None:
            found.append((dates, path))
    found.sort(key=lambda pair: -pair[0].at)
    for (warm, _), (cold, path) in pairwise(found):
        _compare(warm, cold, path, findings)
    return tuple(dates for dates, _ in found)


def _one_temperature(
    keys: FrostKeys,
    last_written: Shares,
    first_written: Shares,
    path: Path,
    frame: Frame,
    findings: Findings,
) -> FrostDates | None:
    before = len(findings.problems)
    at = 0.0
    try:
        at = 0.0 if keys.at is None else frame.frost(keys.at)
    except Refused as refused:
        findings.refused((*path, "at"), refused)
    spring, autumn = frame.year.spring_anchor, frame.year.autumn_anchor
    last = _table(last_written, (*path, "last"), spring, frame, findings)
    first = _table(first_written, (*path, "first"), autumn, frame, findings)
    if len(findings.problems) > before:
        return None
    if _middle(last) >= _middle(first):
        findings.at_value(
            (*path, "first"),
            "frost-order",
            f"the first frost, {_middle(first):%m-%d}, does not come after the last, "
            f"{_middle(last):%m-%d}",
            "last is the last frost of spring, first the first one of autumn",
        )
        return None
    return FrostDates(
        at=at,
        last=last,
        first=first,
        last_origin=findings.origin((*path, "last")),
        first_origin=findings.origin((*path, "first")),
    )


def _table(
    written: Shares, path: Path, anchor: date, frame: Frame, findings: Findings
) -> tuple[Chance, ...]:
    """Return the dates of one half of the year in order of share, checked against each other."""
    if len(findings.tree.keys(path)) > len(written):
        findings.at_value(
            path,
            "frost-table",
            f"{path[-1]}: one share of years stands twice",
            "keep one of the two",
        )
        return ()
    middle = HALF if HALF in written else next(iter(written))
    days: dict[float, date] = {}
    for share in sorted(written, key=lambda share: share != middle):
        near = days.get(middle, anchor)
        try:
            days[share] = _nearest(written[share], near, frame)
            _check_season(days[share], anchor, str(path[-1]))
        except Refused as refused:
            findings.refused(_place_of(share, path, findings), refused)
    if len(days) < len(written):
        return ()
    chances = tuple(Chance(share, days[share]) for share in sorted(days))
    _check_order(chances, path, findings)
    return chances


def _nearest(written: Written, anchor: date, frame: Frame) -> date:
    if isinstance(written, MonthDay):
        try:
            return written.nearest(anchor)
        except ValueError:
            raise no_leap_day(frame.year.season) from None
    if isinstance(written, WeekWritten):
        raise Refused("date", "a frost date is a day, not a week", "write it as MM-DD")
    return resolve(written, frame.year, end=False)


def _check_season(day: date, anchor: date, name: str) -> None:
    if abs((day - anchor).days) > _FAR:
        spring = name == "last"
        raise Refused(
            "frost-season",
            f"{day:%m-%d} is no day for the {name} frost of {'spring' if spring else 'autumn'} "
            "at this latitude",
            "is it swapped with the other one, is its year wrong, or does the latitude "
            "want a minus for the south?",
        )


def _check_order(chances: tuple[Chance, ...], path: Path, findings: Findings) -> None:
    spring = path[-1] == "last"
    for low, high in pairwise(chances):
        in_order = low.day > high.day if spring else low.day < high.day
        if not in_order:
            findings.at_value(
                _place_of(high.share, path, findings),
                "frost-table",
                f"{high.share * 100:g}% of years on {high.day:%m-%d} does not go with "
                f"{low.share * 100:g}% on {low.day:%m-%d}",
                "in spring a frost later than the day: the more years, the earlier the day"
                if spring
                else "in autumn a frost earlier than the day: the more years, the later the day",
            )
            return


def _place_of(share: float, path: Path, findings: Findings) -> Path:
    """Return where the day of a share stands: behind a key, or alone."""
    for key in findings.tree.keys(path):
        if SHARE(key) == share:
            return (*path, key)
    return path


def _middle(chances: tuple[Chance, ...]) -> date:
    nearest = min(chances, key=lambda chance: abs(chance.share - HALF))
    return nearest.day


def _compare(warm: FrostDates, cold: FrostDates, path: Path, findings: Findings) -> None:
    """Check two temperatures against each other: the colder frost has the shorter season."""
    if warm.at - cold.at < 0.05:
        findings.at_value(
            (*path, "at"),
            "frost-table",
            "two frost tables are for one temperature",
            "give each its own temperature with 'at'",
        )
        return
    for name, sign in (("last", 1), ("first", -1)):
        colder = {chance.share: chance.day for chance in getattr(cold, name)}
        for chance in getattr(warm, name):
            other = colder.get(chance.share)
            if other is not None and (other - chance.day).days * sign > 0:
                findings.at_value(
                    (*path, name),
                    "frost-table",
                    f"the colder frost comes {'later' if sign > 0 else 'earlier'}, "
                    f"{other:%m-%d}, than the milder one, {chance.day:%m-%d}",
                    "a colder frost ends sooner in spring and begins later in autumn: "
                    "are the two swapped?",
                )
                break
