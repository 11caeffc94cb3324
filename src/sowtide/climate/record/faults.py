"""Collecting what is wrong with a record: the first of each kind whole, the rest as a number."""

from __future__ import annotations

from sowtide.diagnostics import Problem, Severity, Span

MOST = 10
"""Problems shown of each severity."""


ENOUGH = 10_000
"""Errors after which a file is read no further: it is of another kind than it seems."""


class TooManyError(Exception):
    """Raised where a file has so many errors that the rest of it is not read."""


class Faults:
    """The problems found in a file so far."""

    __slots__ = ("_found", "_more", "label")

    def __init__(self, label: str) -> None:
        self.label = label
        self._found: dict[Severity, list[Problem]] = {severity: [] for severity in Severity}
        self._more = dict.fromkeys(Severity, 0)

    @property
    def errors(self) -> int:
        """How many errors there are, those not shown included."""
        return len(self._found[Severity.ERROR]) + self._more[Severity.ERROR]

    def add(
        self,
        code: str,
        message: str,
        hint: str,
        span: Span,
        severity: Severity = Severity.ERROR,
    ) -> None:
        """Add a problem at a place."""
        found = self._found[severity]
        if len(found) < MOST:
            found.append(
                Problem(severity=severity, code=code, message=message, hint=hint, span=span)
            )
        else:
            self._more[severity] += 1

    def at(
        self, code: str, message: str, hint: str, *, line: int, text: str = "", cell: str = ""
    ) -> None:
        """Add an error of a line, or of a cell in it.

        Parameters
        ----------
        code, message, hint
            As in a problem.
        line
            Its number, from 1.
        text
            What stands there.
        cell
            The part that is meant; the whole line unless set.

        Raises
        ------
        TooManyError
            If there are more of them than is worth reading.
        """
        text = plain(text)
        start = text.find(cell)
        length = len(cell)
        if start < 0 or not cell:
            start, length = 0, len(text) or 1
        self.add(
            code,
            message,
            hint,
            Span(file=self.label, line=line, column=start + 1, length=length, text=text),
        )
        if self.errors >= ENOUGH:
            raise TooManyError

    def problems(self) -> tuple[Problem, ...]:
        """Return all of them in the order found, errors first, and how many more there are."""
        problems: list[Problem] = []
        for severity, found in self._found.items():
            problems += found
            more = self._more[severity]
            if more:
                rest = "; the rest was not read" if len(found) + more >= ENOUGH else ""
                text = f"and {more:,} more such problems{rest}"
                problems.append(Problem(severity, "record-more", text))
        return tuple(problems)


def plain(text: str) -> str:
    """Return text without its line end, with bytes that are not UTF-8 read as Latin-1."""
    text = text.rstrip("\r\n")
    if text.isascii():
        return text
    try:
        text.encode()
    except UnicodeEncodeError:
        return text.encode("utf-8", "surrogateescape").decode("latin-1")
    return text
