"""Cautions: what keeps people safe at a kind of work, each with its source."""

from __future__ import annotations

from sowtide.values import value


@value
class Caution:
    """A caution.

    Parameters
    ----------
    slug
        What tasks name it by.
    text
        What to heed, in full sentences.
    source
        Who says so.
    """

    slug: str
    text: str
    source: str


CAUTIONS = (
    Caution(
        "picking",
        "Pick with clean hands into a clean box, with a clean knife; hold what you picked under "
        "cool running water before anyone eats it.",
        "Utah State University Extension",
    ),
    Caution(
        "sick",
        "Bag or bury what was sick, do not compost it; clean tools and hands; work in that bed "
        "last.",
        "Clemson Home & Garden Information Center",
    ),
)
"""Every caution, in the order in which a sheet says them."""


def cautions_of(slugs: frozenset[str]) -> tuple[Caution, ...]:
    """Return the cautions named, in the order in which a sheet says them.

    Raises
    ------
    ValueError
        If there is no caution of a name.
    """
    unknown = slugs - {caution.slug for caution in CAUTIONS}
    if unknown:
        raise ValueError(f"no such caution: {', '.join(sorted(unknown))}")
    return tuple(caution for caution in CAUTIONS if caution.slug in slugs)
