"""From the words of the grower to entries of the journal."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

from sowtide.days import short_day
from sowtide.diagnostics import Span
from sowtide.garden.crop import Raised
from sowtide.garden.journal import (
    OF_A_WAVE,
    PICKINGS,
    WEATHER,
    Did,
    Found,
    Happening,
    Measure,
    is_of_some,
    measure,
    reader_of,
    takes,
)
from sowtide.garden.text import Refused
from sowtide.schedule.noting.by_code import Coded, coded, parts_coded
from sowtide.schedule.noting.named import Unclear, day, one_of, stage
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.schedule.work import STAGE_OF, Kind
from sowtide.values import value

if TYPE_CHECKING:  # only where there is care
    from sowtide.schedule.care import Round

_TICK = re.compile(r"([bcdfghjkmnpqrstvwxyz]{4,7})(?:=([^@]+))?(?:@(.+))?")
_BEFORE, _AFTER = timedelta(days=184), timedelta(days=366)
"""How far outside of its growing year a season's work may lie: garlic is picked the year after."""

_HOW_MANY = "Say how many were found: scouted none, some or many; behind a code, as in =none."


@value
class Details:
    """What is said beside wave and stage."""

    on: date
    """The day."""
    bed: str | None = None
    """Where; None where it is not said."""
    plants: int | None = None
    """How many; None where it is not said. [1]"""
    note: str | None = None
    using: str | None = None
    """In words, and with what it was done; None where it is not said."""
    sick: bool = False
    """Whether it was pulled as sick."""


def happenings_of(
    words: Sequence[str], details: Details, season: Season, earlier: Iterable[Season] = ()
) -> tuple[Happening, ...]:
    """Return the entries that some words ask for.

    Parameters
    ----------
    words
        A wave or a bed and a stage, in either order, with its amount; ``rain`` or ``soil`` and how
        much; or codes of the week's sheet, each with an amount and a day of its own:
        ``qsgf=1.4lb ycvy@wed``.
    details
        What is said beside them.
    season
        The season, with all that happened before.
    earlier
        The same as it was seen from earlier days, the latest first: a code that the plan has moved
        on from still stands on a sheet that was printed then.

    Raises
    ------
    Unclear
        If the words name nothing, or more than one thing.
    """
    ticks = [_TICK.fullmatch(word) for word in words]
    if all(ticks):
        seen = _Seen(season, earlier)
        found = [seen.work_of(tick[1]) for tick in ticks if tick]
        if all(found):
            return tuple(
                each
                for tick, job in zip(ticks, found, strict=True)
                if tick and job
                for each in _of_code(tick, *job, details, today=season.today)
            )
        if len(words) > 1:
            missing = next(t[1] for t, job in zip(ticks, found, strict=True) if t and job is None)
            raise Unclear(f"There is no code '{missing}' on the sheets of this season.")
    first = words[0].casefold()
    if first in (Did.RAIN.value, Did.SOIL.value):
        how_much = " ".join(words[1:])
        if not how_much:
            raise Unclear(f"Say how much: did {first} {'0.6in' if first == 'rain' else '58F'}.")
        return (_entry(Did(first), details, season, value=how_much),)
    names = [wave.id for wave in season.waves] + [bed.name for bed in season.garden.beds]
    words = _subject_first(words, names)
    try:
        did, amount = _stage(words[1:], words[0])
    except Unclear:
        one_of(words[0], names, "wave or bed")
        raise
    wave, bed = _subject(words[0], did, season)
    return _entries(did, details, season, wave=wave, bed=bed, value=amount)


@value
class Shared:
    """A code that several pieces of work of the season share: which was taken, and the others."""

    code: str
    taken: str
    others: tuple[str, ...]


def shared_codes(words: Sequence[str], season: Season) -> tuple[Shared, ...]:
    """Return the codes among some words that may stand for more than one piece of work."""
    found = []
    for tick in map(_TICK.fullmatch, words):
        work = [] if tick is None else coded(tick[1], season.garden, season.waves, season.care)
        if tick is not None and len(work) > 1:
            taken = _nearest(work, season)
            others = tuple(_work_said(each) for each in work if each is not taken)
            found.append(Shared(tick[1], _work_said(taken), others))
    return tuple(found)


def _nearest(work: Sequence[Coded], season: Season) -> Coded:
    return min(work, key=lambda each: abs((each.due - season.today).days))


def _work_said(of: Coded) -> str:
    if of.kind is None:
        assert of.care is not None  # it is the one or the other
        return f"{of.care.routine.name} in {of.care.bed.name} on {short_day(of.due)}"
    return f"{of.kind.value} {of.wave.id} on {short_day(of.due)}"


def _subject_first(words: Sequence[str], names: Sequence[str]) -> Sequence[str]:
    """Return the words with the wave or bed in front, also where the stage was said before it."""
    said = words[0].partition("=")[0].casefold()
    if any(said in name.casefold() for name in names):
        return words
    length = _length_of_stage(words)
    if 0 < length < len(words):
        return (words[length], *words[:length], *words[length + 1 :])
    return words


def _length_of_stage(words: Sequence[str]) -> int:
    """Return how many words in front name a stage, perhaps shortened: ``planted out``, ``sow``."""
    for length in range(min(2, len(words)), 0, -1):
        *before, last = words[:length]
        said = " ".join((*before, last.partition("=")[0])).casefold()
        if any(did.value.startswith(said) for did in Did):
            return length
    return 0


def _stage(words: Sequence[str], subject: str) -> tuple[Did, str | None]:
    """Read a stage and what is said behind it: ``picked=1.4lb``, ``up 30``, ``fed compost``."""
    said, sign, amount = " ".join(words).partition("=")
    if not sign:
        at = _length_of_stage(words) or len(words)
        behind = words[at + (words[at : at + 1] == ("with",)) :]
        said, amount = " ".join(words[:at]), " ".join(behind)
    if not said:
        raise Unclear(f"Say what happened to {subject}: sown, picked, pulled, …")
    return stage(said), amount or None


def _subject(word: str, did: Did, season: Season) -> tuple[Wave | None, str | None]:
    """Return the wave, or the bed, that a word names."""
    if did in WEATHER:
        raise Unclear(f"{did.value} is of the whole garden: did {did.value} and how much.")
    waves = {wave.id: wave for wave in season.waves}
    alone = {wave.entry.name.casefold(): wave for wave in season.waves if wave.entry.every is None}
    beds = tuple(bed.name for bed in season.garden.beds)
    if did not in OF_A_WAVE and word.casefold() in (bed.casefold() for bed in beds):
        return None, one_of(word, beds, "bed")
    try:
        return alone.get(word.casefold()) or waves[one_of(word, waves, "wave")], None
    except Unclear:
        if did in OF_A_WAVE:
            raise
        if all(word.casefold() not in bed.casefold() for bed in beds):
            one_of(word, (*waves, *beds), "wave or bed")
        return None, one_of(word, beds, "wave or bed")


def _entries(
    did: Did,
    details: Details,
    season: Season,
    *,
    wave: Wave | None,
    bed: str | None,
    value: str | None,
) -> tuple[Happening, ...]:
    """Return one entry, or one for each bed where a wave takes up its space."""
    bed = details.bed or bed
    if bed is not None:
        bed = one_of(bed, (each.name for each in season.garden.beds), "bed")
    direct = wave is not None and wave.entry.raised is Raised.DIRECT
    if direct and did is Did.PLANTED_OUT:
        did = Did.SOWN  # beans are planted, too
    plants_it = did is Did.PLANTED_OUT or (did is Did.SOWN and direct)
    if wave is None or bed is not None or not plants_it:
        return (_entry(did, details, season, wave=wave, bed=bed, value=value),)
    if not wave.stands:
        raise Unclear(f"{wave.id} has no room in the plan: say where, with --bed.")
    if len(wave.stands) == 1:
        (only,) = wave.stands
        made = _entry(did, details, season, wave=wave, bed=only.bed.name, value=value)
        return (made if made.plants is not None else replace(made, plants=only.plants),)
    if details.plants is not None or value is not None:
        beds = " and ".join(wave.bed_names)
        raise Unclear(f"{wave.id} stands in {beds}: say which with --bed, one after the other.")
    return tuple(
        replace(_entry(did, details, season, wave=wave, bed=p.bed.name), plants=p.plants)
        for p in wave.stands
    )


def _entry(
    did: Did,
    details: Details,
    season: Season,
    *,
    wave: Wave | None = None,
    bed: str | None = None,
    value: str | None = None,
    skips: Did | None = None,
) -> Happening:
    year = season.garden.year
    if not year.first - _BEFORE <= details.on <= year.last + _AFTER:
        raise Unclear(f"{details.on} is no day of season {year.season}, which the file plans.")
    amount, plants, found, using = _said(did, value, details)
    given = {"plants": plants, "amount": amount, "with": using, "sick": details.sick or None}
    for key, each in given.items():
        if each is not None and not takes(did, key):
            raise Unclear(f"{did.value} takes no {key}.")
    if plants == 0 and is_of_some(did):
        raise Unclear(f"0 plants {did.value} is nothing that happened; what is left out is: skip.")
    if did is Did.SCOUTED and found is None:
        raise Unclear(_HOW_MANY)
    return Happening(
        on=details.on,
        did=did,
        span=Span("", 1),
        wave=None if wave is None else wave.id,
        bed=bed,
        plants=plants,
        amount=amount,
        found=found,
        using=_in_words("with", using),
        skips=skips,
        sick=details.sick,
        note=_in_words("note", details.note),
        season=None if details.on in year or wave is None else year.season,
    )


def _in_words(key: str, said: str | None) -> str | None:
    """Return what is said in the grower's words as the journal would read it back.

    Raises
    ------
    Unclear
        If it would not: such an entry would close the whole journal.
    """
    if said is None or not said.strip():
        return None
    try:
        read: str = reader_of(key)(said)
    except Refused as refused:
        raise Unclear(f"{key}: {refused.message}; {refused.hint}.") from None
    return read


def _said(
    did: Did, value: str | None, details: Details
) -> tuple[Measure | None, int | None, Found | None, str | None]:
    """Return amount, plants, what was found and what was used."""
    plants, using = details.plants, details.using
    if value is None:
        return None, plants, None, using
    if did in PICKINGS or did in WEATHER:
        try:
            return measure(value, did), plants, None, using
        except Refused as refused:
            raise Unclear(f"{refused.message}; {refused.hint}.") from None
    if did is Did.SCOUTED:
        return None, plants, Found(one_of(value, (each.value for each in Found), "word")), using
    if takes(did, "with"):
        return None, plants, None, using or value
    if not (value.isascii() and value.isdigit() and len(value) < 7):
        raise Unclear(f"'{value}' is no number of plants.")
    if plants is not None and plants != int(value):
        raise Unclear(f"Is it {value} plants, or {plants}?")
    return None, int(value), None, using


class _Seen:
    """The season as it is seen today, and as it was seen from earlier days as far as needed."""

    def __init__(self, season: Season, earlier: Iterable[Season]) -> None:
        self._seen = [season]
        self._earlier = iter(earlier)

    def work_of(self, code: str) -> tuple[Coded, Season] | None:
        """Return the work that a code names, of several what is due nearest, and who says so."""
        for season in self._seasons():
            found = coded(code, season.garden, season.waves, season.care)
            if found:
                return _nearest(found, season), season
        now = self._seen[0]
        parts = parts_coded(code, now.garden, now.waves)
        return (_nearest(parts, now), now) if parts else None

    def _seasons(self) -> Iterator[Season]:
        yield from self._seen
        for season in self._earlier:
            self._seen.append(season)
            yield season


def _of_code(
    tick: re.Match[str], job: Coded, season: Season, details: Details, *, today: date
) -> tuple[Happening, ...]:
    on, said = details.on, tick[2]
    if tick[3]:
        on = day(tick[3], today, season.garden.year)
    if job.care is not None:
        return tuple(_of_care(job.care, said, on, details, season))
    assert job.kind is not None  # it has one unless it is care
    did = STAGE_OF[job.kind]
    made = replace(details, on=on)
    if said is not None and Did.SKIPPED.value.startswith(said.casefold()):
        return (_entry(Did.SKIPPED, made, season, wave=job.wave, bed=job.bed, skips=did),)
    # A wave in one bed needs no bed to be named; prepared is a bed alone.
    several = len(job.wave.stands) > 1 or job.kind in (Kind.PREPARE, Kind.SOW, Kind.PLANT_OUT)
    bed = job.bed if several and job.kind is not Kind.PICK else None
    if bed is None or made.plants is not None or not takes(did, "plants"):
        return (_entry(did, made, season, wave=job.wave, bed=bed, value=said),)
    entry = _entry(did, made, season, wave=job.wave, bed=bed, value=said)
    standing = next((p.plants for p in job.wave.stands if p.bed.name == bed), None)
    plants_it = job.kind in (Kind.SOW, Kind.PLANT_OUT) and entry.plants is None
    return (replace(entry, plants=standing) if plants_it and standing else entry,)


def _of_care(
    care: Round, said: str | None, on: date, details: Details, season: Season
) -> Iterator[Happening]:
    """Yield the entry of a round of care; one for each wave where it is noted of waves."""
    from sowtide.schedule.care import stage_of_work

    did = stage_of_work(care.routine.work)
    using = details.using or (care.routine.name if takes(did, "with") else None)
    made = replace(details, on=on, bed=None, using=using)
    waves = [plot.wave for plot in care.plots]
    bed = care.bed.name
    if said is not None and Did.SKIPPED.value.startswith(said.casefold()):
        left = Details(on, None, None, details.note)
        for wave in waves:
            yield _entry(Did.SKIPPED, left, season, wave=wave, bed=bed, skips=did)
    elif did in OF_A_WAVE or not _is_all_of_bed(care, on, season):
        for wave in waves:
            yield _entry(did, made, season, wave=wave, bed=bed, value=said)
    else:
        yield _entry(did, made, season, bed=bed, value=said)


def _is_all_of_bed(care: Round, on: date, season: Season) -> bool:
    """Say whether a round is of all that stands in its bed and that its routine is ever done to."""
    mine = {plot.wave.id for plot in care.plots}
    assert season.care is not None  # it has the round
    standing = {
        dose.plot.wave.id
        for dose in season.care.doses
        if dose.routine.key == care.routine.key
        and dose.plot.bed.name == care.bed.name
        and dose.plot.wave.stands_on(on)
    }
    return standing <= mine
