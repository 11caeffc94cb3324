"""What to look for on a crop: well-known signs by family, in general terms."""

from __future__ import annotations

_SIGNS = {
    "squash family": "bronze eggs, sawdust at the stem, white powder",
    "nightshade family": "orange eggs, chewed tops, spots from below upwards",
    "cabbage family": "green caterpillars, grey aphids, shot holes",
    "bean family": "yellow eggs, leaves eaten to lace, pale specks, rust",
    "lettuce family": "aphids in the heart, slugs, rot on the soil",
    "onion family": "silver streaks, plants that wilt and pull out",
    "carrot family": "striped caterpillars, brown tips, rusty roots",
    "beet family": "pale blisters and tunnels, round red-rimmed spots",
    "grass family": "caterpillars in tip and ear, sawdust, grey galls",
    "mallow family": "chewed flowers and pods, aphids, wilting",
    "mint family": "yellow leaves, grey down below them, slugs",
    "bindweed family": "holes in leaves, tunnels in roots",
}
_ANY = "eggs and aphids under leaves, holes, spots, wilting"


def signs_of(family: str) -> str:
    """Return what to look for on a family."""
    return _SIGNS.get(family, _ANY)
