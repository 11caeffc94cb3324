"""What to do for one wave: leave it, water it early, cover it, or pick it first.

A colder night never asks for less. Nothing hardy is covered above its own figure; what is tender
is covered a little above it already, since a forecast is no thermometer among the plants.
"""

from __future__ import annotations

from enum import Enum

from sowtide.garden.crop import AfterFrost, Crop

SLACK = 2 * 5 / 9
"""How far above its own figure a tender crop is covered. [°C]

With it a bean is covered at a forecast of 34 °F; frost advisories are given for 33–36 °F (National
Weather Service). 2 °F is ours.
"""

DAMP = 2 * 5 / 9
"""How much further above it soil is watered early, so that it holds the day's warmth. [°C] Ours."""

WORTH = 3.0
"""Picking days that are worth a cover; with fewer a wave is nearly done. [days] Ours."""


class Action(Enum):
    """What to do this evening, from the least to the most."""

    LEAVE = "leave"
    WATER = "water early"
    COVER = "cover"
    PICK = "pick first"

    @property
    def much(self) -> int:
        """How much is asked for: more for a colder night. [1]"""
        return list(Action).index(self)


def action_of(
    crop: Crop,
    air: float,
    *,
    ripe: bool,
    saves: float | None,
    holds: float,
    in_leaf: bool = False,
) -> tuple[Action, bool]:
    """Return what to do for a wave, and whether it is colder than a cover can hold.

    Parameters
    ----------
    crop
        What stands there.
    air
        How cold it may get among its plants. [°C]
    ripe
        Whether there is anything to pick, or to be brought in.
    saves
        Picking days that a cover would save on average; None where they cannot be counted. [days]
    holds
        What a cover keeps off. [°C]
    in_leaf
        Whether it has no flowers yet.
    """
    if crop.after_frost is AfterFrost.STANDS:
        return Action.LEAVE, False
    margin = round(air - crop.lost_at(in_leaf=in_leaf), 6)
    slack = SLACK if crop.hardiness.is_tender else 0.0
    done = saves is not None and saves < WORTH
    if margin > slack:
        return (Action.WATER if margin <= slack + DAMP and not done else Action.LEAVE), False
    beyond = margin < -holds
    if ripe and (beyond or done or crop.after_frost is AfterFrost.BRING_IN):
        return Action.PICK, beyond
    return (Action.LEAVE if done else Action.COVER), beyond
