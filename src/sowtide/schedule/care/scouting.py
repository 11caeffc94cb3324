"""What to look for on a crop: well-known signs by family, in general terms."""

from __future__ import annotations

_SIGNS = {
    "squash family": "bronze eggs and grey bugs under leaves, sawdust at the stem, striped or "
    "spotted beetles, white powder",
    "nightshade family": "orange eggs under leaves, chewed tops and large green caterpillars, "
    "shot holes, spots from the bottom up",
    "cabbage family": "small green caterpillars and their holes, grey lice, shot holes in young "
    "leaves, yellow wedges at the rim",
    "bean family": "yellow eggs under leaves, lace of eaten leaves, pale specks and webs, rust, "
    "black lice at the tips",
    "lettuce family": "lice in the heart, slugs, rot where leaves touch the soil, mealy down below",
    "onion family": "silver streaks, wilting plants that pull out easily, purple or grey blotches",
    "carrot family": "striped caterpillars, rusty tunnels in the root, brown tips",
    "beet family": "pale blisters and tunnels in the leaves, round spots with a red rim, lice",
    "grass family": "caterpillars in tip and ear, sawdust at the stalk, grey galls",
    "mallow family": "chewed pods and flowers, lice, wilting plants",
    "mint family": "yellow leaves with grey down below, slugs, holes",
    "bindweed family": "holes in the leaves, tunnels in the roots",
}
_ANY = "eggs and lice under the leaves, holes, spots, wilting"


def signs_of(family: str) -> str:
    """Return what to look for on a family."""
    return _SIGNS.get(family, _ANY)
