"""A place's daily temperatures as one station wrote them down."""

from __future__ import annotations

from array import array
from datetime import date, timedelta
from math import isnan

from sowtide.days import DateSpan
from sowtide.units import ROUNDING_OF_MEANS
from sowtide.values import value

TENTH = 0.1
"""What a threshold is known to: 28 °F is written −2.2 °C. [°C]"""


@value
class Record:
    """Daily minima, and maxima where the station has them, without a day left out."""

    label: str
    """The file's name."""
    station: str | None
    """What the file calls its station, or None."""
    first: date
    """The day of the first reading."""
    tmin: array[float]
    """Daily minima from that day on; not a number where there is none. [°C]"""
    tmax: array[float] | None
    """Daily maxima of the same days, or None where the file has none. [°C]"""
    resolution: float
    """The step between two neighbouring readings. [°C]"""
    fahrenheit: bool
    """Whether the file is written in °F."""
    flagged: int = 0
    """Readings that the archive itself doubts, left out."""
    wild: int = 0
    """Days left out because no day can be so."""
    unit_from: str = ""
    """What says its unit, such as ``the header``, ``the values`` or ``given``."""

    @property
    def last(self) -> date:
        """The day of the last reading."""
        return self.first + timedelta(days=len(self.tmin) - 1)

    @property
    def gaps(self) -> tuple[DateSpan, ...]:
        """The runs of days without a minimum, in order."""
        found: list[DateSpan] = []
        begin: int | None = None
        for index, low in enumerate(self.tmin):
            if isnan(low):
                begin = index if begin is None else begin
            elif begin is not None:
                found.append(self._span(begin, index - 1))
                begin = None
        if begin is not None:
            found.append(self._span(begin, len(self.tmin) - 1))
        return tuple(found)

    @property
    def missing(self) -> int:
        """Days without a minimum between the first and the last. [days]"""
        return sum(map(isnan, self.tmin))

    def threshold(self, at_c: float) -> float:
        """Return the highest reading that counts as at or below a temperature. [°C]

        Readings are rounded, and so are thresholds: 28 °F is −2.222 °C, a station that measured it
        stands in the archive with −2.2, and `-2.2 <= -2.222` is false. A reading counts that lies
        no further above the threshold than half a tenth, or half a step of a finer record.

        Parameters
        ----------
        at_c
            The temperature. [°C]

        Examples
        --------
        >>> tenths = Record("x", None, date(2026, 1, 1), array("d", [-2.2]), None, 0.1, False)
        >>> -2.2 <= tenths.threshold(-2.222), -2.1 <= tenths.threshold(-2.222)
        (True, False)
        """
        return at_c + min(self.resolution, TENTH) / 2 - ROUNDING_OF_MEANS

    def _span(self, begin: int, end: int) -> DateSpan:
        return DateSpan(self.first + timedelta(days=begin), self.first + timedelta(days=end))
