"""From the file's monthly normals to temperatures in °C."""

from __future__ import annotations

from fractions import Fraction

from sowtide.garden.keys import FrostKeys, NormalsKeys, SiteKeys
from sowtide.garden.readers import Frame
from sowtide.garden.site import Normals, TwoMonths
from sowtide.garden.text import Findings, Path, Refused

_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_SUMMER = slice(4, 9)  # May to September in the north
_WARMEST_LEAST = 10.0
"""A warmest month whose days are colder on the average is no garden's. [°C]"""

_SEASONS_DIFFER = 3.0
"""Where summer and winter differ less, the hemisphere cannot be told from them. [°C]"""


def normals_of(
    tables: tuple[FrostKeys, ...], frame: Frame, *, south: bool, findings: Findings
) -> Normals | None:
    """Return the monthly normals, or None where there are none or they are wrong and reported."""
    found: Normals | None = None
    for number, keys in enumerate(tables):
        if keys.normals is None:
            continue
        path: Path = ("site", "frost", number, "normals")
        if found is not None:
            message = "a site has one set of normals, and this is a second"
            findings.at_key(path, "normals", message, "keep one of the two")
            continue
        found = _normals(keys.normals, path, frame, findings)
        if found is not None:
            _check(found, path, frame, south=south, findings=findings)
    return found


def two_months_of(keys: SiteKeys, frame: Frame, findings: Findings) -> TwoMonths | None:
    """Return the means of the two months, or None where there are none or they are wrong."""
    written = {
        name: value
        for name in ("warmest_month", "coldest_month")
        if (value := getattr(keys, name)) is not None
    }
    if not written:
        return None
    path: Path = ("site", next(iter(written)))
    if len(written) < len(("warmest", "coldest")):
        findings.at_key(
            path,
            "normals",
            "warmest_month and coldest_month stand together, and this is one of the two",
            "find both in a climate table of the place: the mean of the month, day and night",
        )
        return None
    try:
        warmest, coldest = (frame.temperature(each) for each in written.values())
    except Refused as refused:
        findings.refused(path, refused)
        return None
    if warmest <= coldest or warmest < _WARMEST_LEAST:
        findings.at_value(
            path,
            "normals",
            "the warmest month is not warmer than the coldest"
            if warmest <= coldest
            else "no month is warm enough for anything to grow",
            f"the means of both months, in {frame.units.degree}",
        )
        return None
    return TwoMonths(warmest, coldest, findings.origin(path))


def _normals(keys: NormalsKeys, path: Path, frame: Frame, findings: Findings) -> Normals | None:
    highs = _twelve(keys.max, (*path, "max"), frame, findings)
    lows = _twelve(keys.min, (*path, "min"), frame, findings)
    if highs is None or lows is None:
        return None
    return Normals(highs, lows, findings.origin(path))


def _twelve(
    written: tuple[Fraction, ...], path: Path, frame: Frame, findings: Findings
) -> tuple[float, ...] | None:
    if len(written) != len(_MONTHS):
        findings.at_value(
            path,
            "normals",
            f"{path[-1]}: {len(written)} of twelve months",
            "write one number for each month in brackets, January's first",
        )
        return None
    try:
        return tuple(frame.temperature(each) for each in written)
    except Refused as refused:
        findings.refused(path, refused)
        return None


def _check(normals: Normals, path: Path, frame: Frame, *, south: bool, findings: Findings) -> None:
    degree = frame.units.degree
    for month, high, low in zip(_MONTHS, normals.highs, normals.lows, strict=True):
        if high < low:
            findings.at_value(
                (*path, "max"),
                "normals",
                f"{month}'s mean maximum is below its mean minimum",
                "max are the means of the warmest of each day, min of the coldest",
            )
            return
    if max(normals.highs) < _WARMEST_LEAST:
        findings.at_value(
            (*path, "max"),
            "normals",
            "no month is warm enough for anything to grow",
            f"write them in {degree}, as the site's units say",
        )
        return
    means = [high + low for high, low in zip(normals.highs, normals.lows, strict=True)]
    summer = sum(means[_SUMMER]) / 10
    winter = (sum(means) / 2 - 5 * summer) / 7
    if (summer > winter) is south and abs(summer - winter) > _SEASONS_DIFFER:
        findings.at_value(
            (*path, "max"),
            "normals",
            f"the warm months are those of the {'north' if south else 'south'}",
            "January's stand first on both sides of the equator; or is the latitude's sign wrong?",
        )
