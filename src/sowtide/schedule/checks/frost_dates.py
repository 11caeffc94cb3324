"""Whether the frost dates that a site states agree with the record that it names."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.climate.frost import FrostHalf
from sowtide.climate.questions import Climate
from sowtide.days import Half, short_day
from sowtide.diagnostics import Problem, Severity
from sowtide.garden.site import Site

FAR = 10
"""Days apart from which on two average dates are said to differ. [days]"""


def frost_dates_differ(site: Site, climate: Climate) -> Iterator[Problem]:
    """Note each stated average frost that lies far from that of the record, which is used."""
    if site.record is None:
        return
    for entry in site.frost:
        for half, name in ((Half.SPRING, "last"), (Half.AUTUMN, "first")):
            stated = date.fromordinal(
                FrostHalf(half, site.frost).nearest_day(at=entry.at, share=0.5)
            )
            recorded = climate.frost_day(half, at=entry.at, share=0.5)
            if recorded is None or abs((stated - recorded.day).days) <= FAR:
                continue
            yield Problem(
                Severity.NOTE,
                "frost-dates-differ",
                f"the {name} frost is stated for {short_day(stated)} and in the record it comes on "
                f"{short_day(recorded.day)}: the record is used",
                "is the station like the garden? `colder_by` and `years` bring the two together",
                site.record.span,
            )
