"""Where a number comes from, and dates made of counted steps.

A date that is shown is the sum of its steps, so an explanation can never disagree with its date.
"""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.values import value


@value
class Origin:
    """Where a number comes from: a line of the grower's file, or a source."""

    file: str | None = None
    line: int | None = None
    """The file as the user named it and the line, counted from 1; None for a built-in number."""
    source: str | None = None
    """Key of a published source, ``practice`` (common practice, no source), ``memory`` (from
    memory, not checked) or ``sowtide`` (a rule of our own); None for a number of the grower's."""


OURS = Origin(source="sowtide")
"""A rule or an assumption of sowtide's own."""


@value
class Step:
    """One step of counting towards a date."""

    rule: str
    """The section of "How days are counted" that the step follows, such as ``stages``."""
    days: int
    """What the step adds, negative to count back, 0 for the day counting starts from. [days]"""
    date: date
    """The day reached."""
    text: str
    """What the step is, in a grower's words."""
    origin: Origin
    """Where its number comes from."""


@value
class Dated:
    """A day with the steps that lead to it; the first step names the day counting starts from.

    Examples
    --------
    >>> planted = Dated.on(date(2026, 7, 30), "stages", "planted", Origin("garden.yaml", 12))
    >>> planted.then(50, "stages", "days to harvest", OURS).day
    datetime.date(2026, 9, 18)
    """

    steps: tuple[Step, ...]
    day: date
    """The day that the steps lead to."""

    @classmethod
    def on(cls, day: date, rule: str, text: str, origin: Origin) -> Dated:
        """Begin counting on a day."""
        return cls((Step(rule=rule, days=0, date=day, text=text, origin=origin),), day)

    def then(self, days: int, rule: str, text: str, origin: Origin) -> Dated:
        """Return the day some days on, with one step more."""
        reached = self.day + timedelta(days=days)
        step = Step(rule=rule, days=days, date=reached, text=text, origin=origin)
        return Dated((*self.steps, step), reached)

    def counted_anew(self, begin: Dated, onto: Dated) -> Dated:
        """Return this day counted on from another beginning that leads to the same day.

        Parameters
        ----------
        begin
            What it may have been counted on from; if it was not, it stays as it is.
        onto
            What it is to be counted on from.
        """
        if self is begin:
            return onto
        known = len(begin.steps)
        if len(self.steps) < known or self.steps[known - 1] is not begin.steps[-1]:
            return self
        return Dated(onto.steps + self.steps[known:], self.day)
