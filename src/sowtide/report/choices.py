"""What can be chosen of a form beside its name."""

from __future__ import annotations

from enum import Enum

from sowtide.values import value


class Paper(Enum):
    """A size of paper, by the name it is asked for."""

    A4 = "a4"
    LETTER = "letter"


@value
class FormChoices:
    """Choices of one or another form, each as it is unless the grower says otherwise."""

    paper: Paper = Paper.A4
    """The paper that a page is made for."""
    todos: bool = False
    """Whether a calendar gets work to do in place of events, which most phones leave out."""
    revision: int | None = None
    """Which revision of a calendar it is; counted from the day it is seen on if left out."""


USUAL = FormChoices()
"""What is chosen unless the grower says otherwise."""
