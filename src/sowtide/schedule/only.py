"""The part of a garden that is looked at: some of its beds, some of its crops."""

from __future__ import annotations

from sowtide.schedule.waves import Wave
from sowtide.values import value


@value
class Only:
    """A part of a garden."""

    beds: tuple[str, ...] | None
    crops: tuple[str, ...] | None
    """Names of the beds and of the crops that are looked at; None for all of them."""

    def has(self, wave: Wave) -> bool:
        """Say whether a wave belongs to it; one without room by the beds that its entry names."""
        if self.crops is not None and wave.crop.name not in self.crops:
            return False
        beds = wave.stands or (wave.entry.beds_named and wave.entry.beds)
        names = {each.bed.name for each in wave.stands} or {bed.name for bed in wave.entry.beds}
        return self.beds is None or bool(beds and names.intersection(self.beds))

    def has_bed(self, name: str | None) -> bool:
        """Say whether a bed belongs to it; work on no bed goes with its wave."""
        return self.beds is None or name is None or name in self.beds
