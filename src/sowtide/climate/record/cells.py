"""What the cells of a table of daily temperatures say."""

from __future__ import annotations

from sowtide.climate.record.gathering import NOTHING

_NO_READING = {"", "m", "na", "n/a", "nan", "null", "none", "-", "--", "---", "."}
_NO_NUMBER = {-9999.0, 9999.0, -999.9, 999.9, -999.0, 999.0}
"""What archives write where there is no reading."""

_MOST = 1e6
"""No temperature has so many digits, in tenths neither."""

_NUMBER = set("0123456789.+-")


class Numbers(dict[str, float]):
    """What the cells of temperatures say; a text is read once, then it is known.

    Attributes
    ----------
    comma
        Whether a comma stands before the decimals.
    integers
        Whether no number was written with decimals.
    """

    def __init__(self, *, comma: bool) -> None:
        super().__init__()
        self.comma = comma
        self.integers = True

    def __missing__(self, cell: str) -> float:
        text = cell.strip().replace("−", "-")
        if text.casefold() in _NO_READING:
            number = NOTHING
        else:
            if self.comma:
                text = text.replace(",", ".")
            if not _NUMBER.issuperset(text):
                raise ValueError(cell)
            number = float(text)
            if abs(number) > _MOST:
                raise ValueError(cell)
            if number in _NO_NUMBER:
                number = NOTHING
            elif "." in text:
                self.integers = False
        self[cell] = number
        return number


class Doubts(dict[str, bool]):
    """Whether the archive doubts a reading: its remarks are measurement, quality, source."""

    def __missing__(self, cell: str) -> bool:
        parts = cell.split(",")
        doubted = self[cell] = len(parts) > 1 and parts[1].strip() != ""
        return doubted
