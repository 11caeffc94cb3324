"""What is grown and yet no crop of a plan: what stands for years, and what covers the ground."""

from __future__ import annotations

from sowtide.garden.library.builtin import cover_named, singulars

_PERENNIAL = {
    *("asparagus", "rhubarb", "strawberry", "raspberry", "blackberry", "gooseberry", "currant"),
    *("artichoke", "globe artichoke", "jerusalem artichoke", "horseradish", "sorrel", "lovage"),
    *("mint", "thyme", "sage", "oregano", "rosemary", "tarragon", "chive"),
}


def why_unplanned(name: str) -> str | None:
    """Return why what goes by a name is never planned, and what to do about it; None if it may be.

    Examples
    --------
    >>> why_unplanned("Strawberries")
    'it stands for years, and this plans one: close its bed with taken: all year'
    """
    if not _PERENNIAL.isdisjoint(singulars(name)):
        return "it stands for years, and this plans one: close its bed with taken: all year"
    if cover_named(name) is not None:
        return "it is a cover crop: close its bed for that time, as in taken: 09-10..04-15"
    return None
