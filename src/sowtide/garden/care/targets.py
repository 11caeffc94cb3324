"""What a routine is done to: series, beds, crops, varieties and families by their names."""

from __future__ import annotations

from collections.abc import Mapping

from sowtide.garden import library
from sowtide.garden.care.routine import Targets
from sowtide.garden.crop import Crop
from sowtide.garden.text import Findings, Path, did_you_mean, named, quoted
from sowtide.values import value

EVERYTHING = "everything"


@value
class Known:
    """What a routine can be done to."""

    series: Mapping[str, Crop]
    """The crop of each series, by name."""
    beds: tuple[str, ...]
    """Names of the beds."""
    crops: tuple[Crop, ...]
    """The crops that the file grows or defines."""

    @property
    def varieties(self) -> frozenset[str]:
        """Names of varieties, without capitals."""
        return frozenset(crop.variety.casefold() for crop in self.crops if crop.variety)

    @property
    def families(self) -> frozenset[str]:
        """Names of families: those of the crops, and those of the built-in ones."""
        return frozenset(crop.family for crop in self.crops) | frozenset(library.families())

    def crop(self, name: str) -> str | None:
        """Return what a crop is called without capitals, by any of its names."""
        own = {crop.name.casefold(): crop.name for crop in self.crops}
        plain = name.casefold()
        for spelt in (plain, *library.singulars(name)):
            if spelt in own:
                return spelt
        built_in = library.find(name)
        return None if built_in is None else built_in.name.casefold()

    @property
    def names(self) -> tuple[str, ...]:
        """All that can be named."""
        crops = (crop.name for crop in self.crops)
        return (EVERYTHING, *self.series, *self.beds, *crops, *sorted(self.families))


def targets_of(names: tuple[str, ...], known: Known, path: Path, findings: Findings) -> Targets:
    """Return what some names stand for; a name that stands for nothing is reported.

    What names a series and a crop, or whatever else, stands for both; another name of a crop, such
    as its plural, only where no series bears it.
    """
    found: dict[str, set[str]] = {kind: set() for kind in ("series", "beds", "crops")}
    found |= {"families": set(), "varieties": set()}
    everything = False
    families, varieties = known.families, known.varieties
    for number, name in enumerate(names):
        plain = name.casefold()
        crop = known.crop(name)
        if plain == EVERYTHING:
            everything = True
            continue
        means = {
            "series": name if name in known.series else None,
            "beds": name if name in known.beds else None,
            "families": plain if plain in families else None,
            "varieties": plain if plain in varieties else None,
            "crops": crop if crop == plain or name not in known.series else None,
        }
        for kind, each in means.items():
            if each is not None:
                found[kind].add(each)
        if not any(means.values()):
            _unknown(name, known, (*path, number), findings)
    kinds = {kind: frozenset(each) for kind, each in found.items()}
    return Targets(everything=everything, **kinds)


def covers(targets: Targets, crop: Crop, *, series: str, bed: str) -> bool:
    """Say whether a wave of a series in a bed is among the targets."""
    return (
        targets.everything
        or series in targets.series
        or bed in targets.beds
        or crop.name.casefold() in targets.crops
        or crop.kind.casefold() in targets.crops
        or crop.family in targets.families
        or (crop.variety is not None and crop.variety.casefold() in targets.varieties)
    )


def _unknown(name: str, known: Known, path: Path, findings: Findings) -> None:
    near = None if findings.many else did_you_mean(name, known.names)
    hint = "write a crop, variety, family, series or bed, or everything"
    findings.at_value(
        path,
        "care-target",
        f"on: there is nothing called {quoted(name)} here",
        f"did you mean {named(near)}?" if near else hint,
    )
