"""What comes free in the beds, what fits there, and what to start for it now."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from sowtide.garden.crop import Raised
from sowtide.report.blocks import EMPTY, Line, Style, line, together
from sowtide.report.formats.csv import table
from sowtide.report.formats.json import Object, written
from sowtide.report.formats.terminal.cells import wrap
from sowtide.report.kit import words
from sowtide.report.kit.machine import basis_of, iso, on, share_value
from sowtide.schedule.fits import BedOpening, ComingFree, Offer, StartNow
from sowtide.schedule.season import Season
from sowtide.units import Units, micrometres, show_number

COLUMNS = (
    *("bed", "from", "until", "area_m2", "leaves", "crop", "plants", "raised", "sow", "plant"),
    *("first_pick_early", "first_pick_late", "odds", "start_now"),
)
MOST_OPENINGS, _MOST_NAMED = 40, 8
_SQUARE_METRE = 10**12


def openings_text(found: ComingFree, season: Season, *, width: int) -> tuple[Line, ...]:
    """Lay out what to start now, then what comes free and what fits there.

    Parameters
    ----------
    found
        What was found.
    season
        The season.
    width
        Of the screen. [cells]
    """
    year = season.garden.year
    days = words.days_from_to(found.asked_on, found.last, year)
    lines = [*wrap(line(("WHAT COMES FREE", Style.HEADING), f"  {together(days)}"), width)]
    lines += (EMPTY, line(("START NOW", Style.HEADING), "  in trays, this week"))
    for each in found.start_now:
        lines += wrap(_start(each, season), width, first="- ")
    if not found.start_now:
        lines += wrap("Nothing must be sown in trays this week for what comes free.", width)
    usable = [each for each in found.openings if each.fits]
    for opening in usable[:MOST_OPENINGS]:
        lines += (EMPTY, *_opening(opening, found, season, width))
    if len(usable) > MOST_OPENINGS:
        more = words.count(len(usable) - MOST_OPENINGS, "opening")
        lines += (EMPTY, *wrap(f"and {more} more; `--format json` lists them all", width))
    others = [each for each in found.openings if not each.fits]
    if others:
        lines += (EMPTY, *_too_short(others, found, season, width))
    if not found.openings:
        lines += (EMPTY, *wrap("Nothing comes free in these weeks.", width))
    safe = words.safe_means(season.garden.site.sure)
    text = f"each crop named would fill the space, and is safe: {safe}"
    lines += (EMPTY, *wrap(f"{words.sentence(text)} {words.rests_on(season.climate.basis)}", width))
    return tuple(lines)


def _start(of: StartNow, season: Season) -> str:
    year, offer = season.garden.year, of.offer
    sown = together(words.weekday(offer.sow, year))
    out = together(words.day(offer.judged.stages.plant.day, year))
    return f"sow {together(_many(offer))} on {sown}, to plant out in {of.opening.bed.name} on {out}"


def _many(offer: Offer) -> str:
    return f"{offer.plants:,} {offer.crop.title}"


def _opening(of: BedOpening, found: ComingFree, season: Season, width: int) -> Iterator[Line]:
    text = f"  {_when(of, found, season)}"
    if of.leaves:
        text += f", as {words.listed(of.leaves)} {'leaves' if len(of.leaves) == 1 else 'leave'}"
    yield from wrap(line((of.bed.name, Style.HEADING), text), width, hang=2)
    for each in of.fits:
        yield from wrap(words.unbroken(_offer(each, season)), width, first="  ", hang=4)


def _when(of: BedOpening, found: ComingFree, season: Season) -> str:
    """Say from when to when a space is free, and how much it is."""
    year, units = season.garden.year, season.garden.site.units
    begins = "now" if of.first == found.asked_on else words.weekday(of.first, year)
    until = "" if of.until is None else f" until {together(words.weekday(of.until, year))}"
    return f"{together(begins)}{until}, {together(_area(of.area, units))}"


def _too_short(
    of: Sequence[BedOpening], found: ComingFree, season: Season, width: int
) -> Iterator[Line]:
    """Name the spaces in which no crop would be safe in time, or count them."""
    start = line(("NOTHING SAFE", Style.HEADING), "  in the time or the space there is: ")
    if len(of) > _MOST_NAMED:
        yield from wrap(line(start, words.count(len(of), "opening")), width, hang=2)
        return
    named = "; ".join(f"{together(each.bed.name)} {_when(each, found, season)}" for each in of)
    yield from wrap(line(start, named), width, hang=2)


def _offer(offer: Offer, season: Season) -> str:
    year, picks = season.garden.year, offer.judged.stages.first_pick
    assert picks is not None  # what is safe is picked
    planted = words.weekday(offer.judged.stages.plant.day, year)
    act = f"sow {_many(offer)} on {planted}"
    if offer.raised is Raised.TRAYS:
        act = f"plant out {_many(offer)} on {planted}, sown {words.day(offer.sow, year)}"
    ready = words.day(picks[0].day, year)
    return f"{act}: first picks {ready}, {words.odds_of(offer.judged)}"


def _area(area: int, units: Units) -> str:
    unit = units.long_unit
    return f"{show_number(area / micrometres(Fraction(1), unit) ** 2)} {unit}²"


def openings_json(found: ComingFree, season: Season) -> str:
    """Write what comes free, what fits there, and what to start now."""
    return written(
        {
            "from": iso(found.asked_on),
            "to": iso(found.last),
            "basis": basis_of(season.climate),
            "openings": [
                {**_space(each), "fits": [_fit(offer) for offer in each.fits]}
                for each in found.openings
            ],
            "start_now": [_started(each) for each in found.start_now],
        }
    )


def openings_csv(found: ComingFree) -> str:
    """Write a row for each crop that fits into an opening, or for an opening that none fits."""
    started = [(each.opening, each.offer) for each in found.start_now]
    rows = []
    for opening in found.openings:
        space = _space(opening)
        space["leaves"] = "; ".join(opening.leaves)
        others = [offer for of, offer in started if of is opening and offer not in opening.fits]
        for offer in (*opening.fits, *others):
            picks = offer.judged.stages.first_pick
            early, late = picks or (None, None)
            fit = _fit(offer) | {"first_pick_early": on(early), "first_pick_late": on(late)}
            fit["start_now"] = "yes" if (opening, offer) in started else "no"
            rows.append(space | {name: fit[name] for name in COLUMNS[len(space) :]})
        if not (opening.fits or others):
            rows.append(space | dict.fromkeys(COLUMNS[len(space) :]))
    return table(COLUMNS, rows)


def _space(of: BedOpening) -> Object:
    return {
        "bed": of.bed.name,
        "from": iso(of.first),
        "until": iso(of.until),
        "area_m2": round(of.area / _SQUARE_METRE, 2),
        "leaves": list(of.leaves),
    }


def _fit(offer: Offer) -> Object:
    stages = offer.judged.stages
    picks = stages.first_pick
    return {
        "crop": offer.crop.name,
        "plants": offer.plants,
        "raised": offer.raised.value,
        "sow": iso(offer.sow),
        "plant": on(stages.plant),
        "first_pick": [on(picks[0]), on(picks[1])] if picks else None,
        "odds": share_value(offer.judged.odds),
    }


def _started(of: StartNow) -> Object:
    offer = of.offer
    return {
        "crop": offer.crop.name,
        "plants": offer.plants,
        "sow": iso(offer.sow),
        "for": {"bed": of.opening.bed.name, "plant": on(offer.judged.stages.plant)},
    }
