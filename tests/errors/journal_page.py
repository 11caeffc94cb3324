"""The page of what can be wrong with a journal, made from the case files in ``journal``.

A case is written as those of a garden's file are, see `page`: the text of the journal, the line
``# expected``, and exactly what sowtide says, on 1 August 2026, of the garden below. A first line
``# saved as: …`` says how the text is turned into bytes.

    python tests/errors/update.py  # after a change of words; then read the diff
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from errors import page
from sowtide.diagnostics import Problem
from sowtide.garden.journal import journal_of
from sowtide.garden.read import read_garden
from sowtide.report.blocks import plain
from sowtide.report.formats.terminal.problem_lines import lines
from sowtide.schedule.happened import contradictions
from sowtide.season import season_of

SAVED_AS: dict[str, Callable[[str], bytes]] = page.SAVED_AS | {
    "UTF-8, cut short before the ¤": lambda text: text.partition("¤")[0].encode(),
}
"""Ways to turn a case's text into bytes."""

MEANING = {
    "journal-amount": "An amount is not a number with a unit that the stage is measured in.",
    "journal-bed": "An entry names a bed that is not in the garden's file.",
    "journal-broken": "A warning: the last line has no end, as a crash or a full disk leaves it. "
    "It is stepped over, and the next entry is written below it; no other line is touched.",
    "journal-crowded": "A warning: a wave was planted where the plan had no room for it. The "
    "journal is right; what is planned for later finds its room elsewhere.",
    "journal-day": "A warning: entries are dated later than the day the garden is looked at from. "
    "They count from their day on.",
    "journal-key": "A stage has a key that says nothing of it.",
    "journal-order": "Something is said to have happened before what it comes after, or when the "
    "wave was gone.",
    "journal-over": "A note: something was done for a wave that its series does not have any "
    "more, because the waves before it were later than planned.",
    "journal-plants": "More plants were planted out, pulled or lost than there were, or "
    "none at all.",
    "journal-sick": "A warning: plants were pulled as sick. Their family keeps "
    "out of that bed for the rest of the season.",
    "journal-stage": "An entry names a stage that there is not.",
    "journal-twice": "What happens once is noted twice, with two days or two numbers of plants.",
    "journal-undone": "An entry takes back another, and there is none that says the same.",
    "journal-wave": "An entry names a wave that the garden's file does not ask for.",
}
"""What each code means, in a sentence."""

TODAY = date(2026, 8, 1)
GARDEN = """\
site:
  name: Mill Bank
  latitude: 43.1
  units: us
  frost: {last: 05-08, first: 10-02}
season: 2026
beds:
  - {bed: Long 1, size: 4 x 20}
  - {bed: Long 2, size: 4 x 20}
waves:
  - {crop: bush bean, plants: 36, from: earliest, every: 14}
  - {crop: lettuce, plants: 16, from: 05-01}
"""

_HERE = Path(__file__).parent / "journal"
_HEAD = f"""\
# What can be wrong with a journal

<!-- made by tests/errors/journal_page.py from the cases in tests/errors/journal; do not edit -->

The journal is read whole, and its mistakes are shown as those of a [garden's file](errors.md) are:
file, line and column, what is wrong, a code in brackets, the line itself, and what to write
instead. While there is an error, no command does anything else, and the exit status is 1. Entries
that contradict each other are shown beside one that cannot be read, unless it names their wave: it
may be the one that sets them right. What is wrong with the way something is written, such as a
quote that is not closed, has the codes of [Error messages](errors.md). Below are the codes of the
journal's own, each with what is said to an example on 1 August 2026, beside this garden:

```yaml
{GARDEN}```
"""


@dataclass(frozen=True, slots=True)
class Case:
    """One mistake in a journal and what is said to it.

    Parameters
    ----------
    name
        The code, with a word more where there are several.
    text
        What stands in the journal.
    saved_as
        How it is turned into bytes; None for plain UTF-8.
    expected
        What sowtide says.
    """

    name: str
    text: str
    saved_as: str | None
    expected: str

    @property
    def code(self) -> str:
        """The code it is a case of; empty for one of several, or of the way YAML is written."""
        return page.code_of(self.name, MEANING)

    @property
    def path(self) -> Path:
        """Where the case is written down."""
        return _HERE / f"{self.name}.txt"

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What is wrong with it."""
        data = SAVED_AS[self.saved_as](self.text) if self.saved_as else self.text.encode()
        read = journal_of(data, "journal.yaml")
        if read.journal is None:
            return read.problems
        garden = read_garden(GARDEN.encode(), "garden.yaml").garden
        assert garden is not None
        wrong = contradictions(garden, read.journal.happenings)
        if wrong:
            return (*read.problems, *wrong)
        season = season_of(garden, TODAY, None, read.journal)
        told = (each for each in season.problems if each.code.startswith("journal-"))
        return (*read.problems, *told)


def said(case: Case) -> str:
    """Return what sowtide says to a case."""
    return "".join(f"{line}\n" for each in case.problems for line in plain(lines(each)))


def cases() -> list[Case]:
    """Return all cases in order of name."""
    return [
        Case(path.stem, text, given.get("saved as"), expected)
        for path, given, text, expected in page.written(_HERE, "saved as")
    ]


def journal_page() -> str:
    """Return the page."""
    examples = [
        page.Example(
            case.code,
            f"Saved as {case.saved_as}:" if case.saved_as else "",
            f"```yaml\n{case.text}```\n",
            case.expected,
        )
        for case in cases()
    ]
    return "\n".join([_HEAD, *page.sections(MEANING, examples)])
