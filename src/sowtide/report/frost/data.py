"""A place's frost odds for other programs."""

from __future__ import annotations

from sowtide.climate.frost import FrostRow, frost_table
from sowtide.report.kit.form import Object, document, table
from sowtide.report.kit.machine import basis_of, iso
from sowtide.season import Place
from sowtide.units import FREEZING

FROST_COLUMNS = (
    "at_c",
    *[f"spring_{share}" for share in (10, 50, 90)],
    *[f"autumn_{share}" for share in (10, 50, 90)],
    *[f"frost_free_days_{share}" for share in (10, 50, 90)],
    "years_without_frost_spring",
    "years_without_frost_autumn",
)
_SHARES = ("10", "50", "90")


def frost_json(place: Place) -> str:
    """Return the frost odds as JSON."""
    known = place.climate.frost_years(FREEZING)
    used: int | None = None
    left_out: list[Object] | None = None
    if known is not None:
        used = len({each.season for half in (known.spring, known.autumn) for each in half.years})
        left_out = [
            {"season": each.season, "half": half.half.value, "reason": each.reason}
            for half in (known.spring, known.autumn)
            for each in half.left_out
        ]
    return document(
        {
            "basis": basis_of(place.climate),
            "years_used": used,
            "years_left_out": left_out,
            "hot_weeks": _hot_weeks(place),
            "thresholds": [_threshold(row) for row in frost_table(place.climate)],
        }
    )


def frost_csv(place: Place) -> str:
    """Return the frost odds as CSV, a row for each temperature."""
    rows = []
    for row in frost_table(place.climate):
        cells: Object = {"at_c": round(row.at, 1)}
        for name, of in (("spring", row.spring), ("autumn", row.autumn)):
            cells |= {f"{name}_{share}": iso(day) for share, day in zip(_SHARES, of, strict=True)}
        lengths = zip(_SHARES, row.frost_free, strict=True)
        cells |= {f"frost_free_days_{share}": days for share, days in lengths}
        for number, half in enumerate(("spring", "autumn")):
            share = None if row.without is None else round(row.without[number], 3)
            cells[f"years_without_frost_{half}"] = share
        rows.append(cells)
    return table(FROST_COLUMNS, rows)


def _hot_weeks(place: Place) -> Object | None:
    found = place.climate.hot_odds
    if found is None:
        return None
    return {
        "begin": dict(zip(_SHARES, map(iso, found.begin), strict=True)),
        "over": dict(zip(_SHARES, map(iso, found.over), strict=True)),
        "years_with": found.with_any,
        "years_used": found.years,
    }


def _threshold(row: FrostRow) -> Object:
    without: Object | None = None
    if row.without is not None:
        spring, autumn = row.without
        without = {"spring": round(spring, 3), "autumn": round(autumn, 3)}
    return {
        "at_c": round(row.at, 1),
        "hardiness": row.hardiness.value,
        "spring": dict(zip(_SHARES, map(iso, row.spring), strict=True)),
        "autumn": dict(zip(_SHARES, map(iso, row.autumn), strict=True)),
        "frost_free_days": dict(zip(_SHARES, row.frost_free, strict=True)),
        "years_without_frost": without,
    }
