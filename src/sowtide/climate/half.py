"""The two halves of a growing year."""

from __future__ import annotations

from enum import Enum


class Half(Enum):
    """The half of the growing year a frost falls in."""

    SPRING = "spring"
    AUTUMN = "autumn"
