"""How many plants of a wave stand in which bed, as the journal tells it, and what is gone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from sowtide.garden.journal import Did, Happening
from sowtide.garden.model import Bed, Entry
from sowtide.schedule.happened.account import Account, is_whole
from sowtide.values import value


@value
class Loss:
    """Plants of a wave that are gone from a bed on a day, while the others stand."""

    happening: Happening
    bed: str
    plants: int


def as_planted(entry: Entry, account: Account, beds: Mapping[str, Bed]) -> Entry:
    """Return the entry of a wave with the plants and the beds that it really has."""
    planting = account.planting(entry.raised)
    names = dict.fromkeys(each.bed for each in planting if each.bed is not None)
    named = tuple(beds[bed] for bed in names if bed in beds)
    plants = entry.plants
    if planting and all(each.plants for each in planting):
        plants = sum(plants for _, plants in _counted(planting))
    if not named:
        return entry if plants == entry.plants else replace(entry, plants=plants)
    return replace(entry, plants=plants, beds=named, beds_named=True, wave_beds=())


def stands_of(entry: Entry, account: Account) -> tuple[tuple[str, int], ...]:
    """Return the beds a wave was planted in, each with its plants; none where none is named."""
    planting = account.planting(entry.raised)
    counted = dict(_counted(each for each in planting if each.bed is not None))
    unsaid = [bed for bed, plants in counted.items() if not plants]
    left = max(entry.plants - sum(counted.values()), 0)
    for number, bed in enumerate(unsaid):  # shared out evenly
        counted[bed] = left // len(unsaid) + (number < left % len(unsaid))
    return tuple((bed, plants) for bed, plants in counted.items() if plants)


def _counted(planting: Iterator[Happening] | tuple[Happening, ...]) -> Iterator[tuple[str, int]]:
    """Yield each bed once with the plants that are noted for it; noting twice plants once."""
    seen = set()
    for each in planting:
        if each.bed not in seen:
            seen.add(each.bed)
            yield each.bed or "", each.plants or 0


def losses_of(account: Account, stands: tuple[tuple[str, int], ...]) -> tuple[Loss, ...]:
    """Return what is gone of each bed before the whole is, in order of day.

    What is noted without a bed is taken from the beds in their order.
    """
    left = dict(stands)
    found = []
    for each in account.all_of(Did.PULLED, Did.LOST):
        if is_whole(each):
            break
        beds = [each.bed] if each.bed is not None else list(left)
        wanted = each.plants
        for bed in beds:
            taken = left.get(bed, 0) if wanted is None else min(wanted, left.get(bed, 0))
            if taken:
                left[bed] -= taken
                found.append(Loss(each, bed, taken))
            wanted = None if wanted is None else wanted - taken
    return tuple(found)


def gone_of(account: Account, stands: tuple[tuple[str, int], ...]) -> Happening | None:
    """Return what took the last plants of a wave, or None while some stand."""
    if account.gone is not None:
        return account.gone
    losses = losses_of(account, stands)
    if not losses or sum(loss.plants for loss in losses) < sum(plants for _, plants in stands):
        return None
    return losses[-1].happening
