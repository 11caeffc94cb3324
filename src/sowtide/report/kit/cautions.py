"""Cautions: what keeps people safe at a kind of work, each with its source."""

from __future__ import annotations

from sowtide.values import value


@value
class Caution:
    """A caution."""

    slug: str
    """What tasks name it by."""
    text: str
    """What to heed, in full sentences."""
    source: str
    """Who says so."""
    always: bool = False
    """Whether it is said on a page that is asked to leave out what it says every week."""


CAUTIONS = (
    Caution(
        "spray",
        "Before you spray or dust, read the label again and do what it says: in the United States "
        "it is the law, elsewhere your country's rules hold. The crop must be on it. Wear what it "
        "asks for; where it asks for nothing, long sleeves and trousers, closed shoes, gloves, "
        "goggles when mixing. Nobody in till it is dry, or longer if the label says so. Pick clean "
        "first, then wait the label's days. Late evening, not on open flowers, not in wind or "
        "heat, not on thirsty plants. Never mix two products unless both labels allow it. Lock it "
        "away in its own package; nothing down a drain.",
        "US EPA; University of Nebraska; PNW Handbooks; UC IPM",
        always=True,
    ),
    Caution(
        "dust",
        "Dust drifts and is breathed in, and bees carry it home: still air, leaves only.",
        "LSU AgCenter; University of Nebraska",
        always=True,
    ),
    Caution(
        "no-label",
        "Of a mix without a label nobody has tested the strength, what it does to you or to bees, "
        "or how long to wait: two leaves first, and wash the crop.",
        "40 CFR 152.25",
        always=True,
    ),
    Caution(
        "feed",
        "Feed no more than the package says: more burns roots and runs into streams.",
        "US EPA",
    ),
    Caution(
        "manure",
        "Raw or aged manure, and tea of it, is dug in 120 days before picking what touches soil, "
        "90 days before the rest, never on a standing crop. Ageing is not composting.",
        "7 CFR 205.203(c)(1)",
        always=True,
    ),
    Caution(
        "picking",
        "Pick with clean hands, box and knife; cool running water before anyone eats it.",
        "University of Maine Extension; North Dakota State University Extension",
    ),
    Caution(
        "sick",
        "Bag or bury what was sick, do not compost it; clean tools and hands; work in that bed "
        "last.",
        "Clemson Home & Garden Information Center",
    ),
    Caution(
        "heat",
        "In this heat work early and late, drink before you are thirsty, rest in the shade, and "
        "have someone near who knows.",
        "US OSHA",
        always=True,
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
