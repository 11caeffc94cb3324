"""Entries of the journal that cannot both be true, or name what the garden does not have.

Of two that contradict each other the one further down is reported, with the line of the other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from sowtide.days import short_day
from sowtide.diagnostics import Problem, Severity
from sowtide.garden.crop import Raised
from sowtide.garden.journal import OF_A_WAVE, PICKINGS, Did, Happening
from sowtide.garden.model import Entry, Garden
from sowtide.garden.text import did_you_mean, named
from sowtide.schedule.happened.account import Account, accounts_of, is_whole
from sowtide.schedule.waves import MOST_WAVES

SICK = "journal-sick"
"""Code of the warning that a bed is barred."""
_BEFORE_IT_GROWS = (Did.PREPARED, Did.SCOUTED, Did.SKIPPED, Did.COVERED, Did.WATERED, Did.FED)
"""What may be noted of a wave that is not planted in the end."""
_MOST_NAMED = 3
"""How many waves a hint names before it counts them. [1]"""

_ORDER = (
    (Did.SOWN, (Did.UP, Did.THINNED, Did.HARDENED, Did.PLANTED_OUT, *PICKINGS, Did.LOST)),
    (Did.PLANTED_OUT, PICKINGS),
    (Did.FIRST_PICKED, (Did.PICKED, Did.LAST_PICKED)),
)
"""What comes first, and what never comes before it."""

_ONCE = (Did.SOWN, Did.HARDENED, Did.PLANTED_OUT, Did.FIRST_PICKED, Did.LAST_PICKED)


def contradictions(garden: Garden, happenings: Iterable[Happening]) -> tuple[Problem, ...]:
    """Return what is wrong with the entries of a season, in the order of the file.

    Parameters
    ----------
    garden
        The garden; which of its series have how many waves, only the plan can tell.
    happenings
        The entries of its season.
    """
    happenings = tuple(happenings)
    entries = {entry.name: entry for entry in garden.entries}
    found = [*_unknown_beds(garden, happenings)]
    for account in accounts_of(happenings):
        entry = entry_of(account.wave, entries)
        if entry is None:
            found += (_unknown_wave(each, entries) for each in account.happenings)
            continue
        of_lines: dict[int, Problem] = {}
        for problem in _of_wave(account, entry):
            of_lines.setdefault(_line(problem), problem)  # one word about an entry is enough
        found += of_lines.values()
    return tuple(sorted(found, key=_line))


def _line(problem: Problem) -> int:
    return problem.span.line if problem.span else 0


def entry_of(wave: str, entries: dict[str, Entry]) -> Entry | None:
    """Return the entry of the file that a wave is of, as far as its name tells."""
    series, _, number = wave.rpartition("-")
    entry = entries.get(series)
    if entry is None or not (number.isascii() and number.isdigit()) or number[0] == "0":
        return None
    most = 1 if entry.every is None else entry.count or MOST_WAVES
    return entry if int(number) <= most else None


def _unknown_beds(garden: Garden, happenings: Iterable[Happening]) -> Iterator[Problem]:
    beds = tuple(bed.name for bed in garden.beds)
    for each in happenings:
        if each.bed is not None and each.bed not in beds:
            near = did_you_mean(each.bed, beds)
            listed = ", ".join(named(bed)[1:-1] for bed in beds[:9])
            hint = f"did you mean {named(near)}?" if near else f"the beds are: {listed}"
            yield _problem(each, "journal-bed", f"there is no bed '{each.bed}'", hint)


def _unknown_wave(each: Happening, entries: dict[str, Entry]) -> Problem:
    name, _, number = (each.wave or "").rpartition("-")
    near = name if name in entries else did_you_mean(name, tuple(entries))
    hint = "'sowtide plan' names them all"
    if near and near != name and number.isdigit():
        hint = f"did you mean '{near}-{number}'?"
    elif near:
        alone = entries[near].every is None
        hint = f"there is {near}-1 alone" if alone else f"{near} has waves from {near}-1 on"
    return _problem(each, "journal-wave", f"there is no wave '{each.wave}'", hint)


def crowded(account: Account, raised: Raised, beds: tuple[str, ...]) -> Iterator[Problem]:
    """Warn of beds in which a wave was planted beyond the room that they had."""
    if beds:
        planted = next(iter(account.planting(raised)), account.happenings[0])
        yield Problem(
            severity=Severity.WARNING,
            code="journal-crowded",
            message=f"{account.wave} was planted in {' and '.join(beds)}, where the plan had no "
            "room for so much",
            hint="note down what is gone there; what is planned for later keeps out of its way",
            span=planted.span,
            wave=account.wave,
        )


def barred_beds(account: Account, bed: str, waves: tuple[str, ...], *, family: str) -> Problem:
    """Warn that a bed is barred to a family, where there are waves that might have gone there.

    Parameters
    ----------
    account
        What happened to the wave that was pulled there as sick.
    bed, family
        Which bed, and to whom.
    waves
        The waves still to be planted, in order of the file.
    """
    pulled = next(e for e in account.all_of(Did.PULLED) if e.sick and e.bed in (None, bed))
    more = len(waves) - _MOST_NAMED
    names = ", ".join(waves[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
    return Problem(
        severity=Severity.WARNING,
        code=SICK,
        message=f"{bed} is barred to the {family} for the rest of the season: {account.wave} was "
        f"pulled there as sick on {short_day(pulled.on)}",
        hint=f"{names} may not stand there; bag or bury what was sick, clean tools and hands, work "
        "in that bed last",
        span=pulled.span,
        wave=waves[0],
    )


def not_asked_for(accounts: Sequence[Account], *, waves: int) -> Iterator[Problem]:
    """Say which waves of a series the journal names that it does not have.

    A wave more than the plan has is the grower's own; further on, a number is a slip of the pen.

    Parameters
    ----------
    accounts
        What happened to waves of the series, in order of number.
    waves
        How many waves the series has with all that happened.
    """
    for account in accounts:
        series, _, number = account.wave.rpartition("-")
        if int(number) > waves:
            first = account.happenings[0]
            hint = f"{series} has {waves} wave{'s' if waves > 1 else ''}"
            if all(each.did in _BEFORE_IT_GROWS for each in account.happenings):
                yield Problem(
                    severity=Severity.NOTE,
                    code="journal-over",
                    message=f"{account.wave} is not asked for any more",
                    hint=f"{hint}, since those before it were later than planned",
                    span=first.span,
                )
            else:
                yield _problem(first, "journal-wave", f"there is no wave '{account.wave}'", hint)


def _of_wave(account: Account, entry: Entry) -> Iterator[Problem]:
    yield from _twice(account)
    yield from _out_of_order(account)
    yield from _after_the_end(account)
    yield from _too_many(account, entry)


def _twice(account: Account) -> Iterator[Problem]:
    """Of what happens once, the same stage on two days or of two numbers of plants."""
    seen: dict[tuple[Did, str | None], Happening] = {}
    for each in account.all_of(*_ONCE):
        first = seen.setdefault((each.did, each.bed), each)
        if first.on != each.on:
            yield _against(each, first, "journal-twice", "a second time")
        elif first.plants != each.plants:
            yield _against(each, first, "journal-twice", "with another number of plants")


def _out_of_order(account: Account) -> Iterator[Problem]:
    for before, stages in _ORDER:
        first = account.first(before)
        if first is None:
            continue
        for each in account.all_of(*stages):
            if each.on < first.on and not _elsewhere(each, first):
                yield _against(each, first, "journal-order", "before")


def _after_the_end(account: Account) -> Iterator[Problem]:
    ends = [each for each in account.all_of(Did.PULLED, Did.LOST) if each.plants is None]
    for each in account.all_of(*OF_A_WAVE) if ends else ():
        for end in ends:
            ended = each.on > end.on and (is_whole(end) or end.bed == each.bed)
            again = end is not each and each in ends and each.bed == end.bed and each.on == end.on
            if ended or (again and each.did is not end.did):
                yield _against(each, end, "journal-order", "after")
                break
    last = account.last_pick
    for each in account.all_of(Did.FIRST_PICKED, Did.PICKED):
        if last is not None and each.on > last.on and not _elsewhere(each, last):
            yield _against(each, last, "journal-order", "after")


def _too_many(account: Account, entry: Entry) -> Iterator[Problem]:
    """More plants than there were: planted out, thinned to, pulled or lost; many may come up."""
    sown = tuple(account.all_of(Did.SOWN))
    known = bool(sown) and all(each.plants for each in sown)
    most = sum(each.plants or 0 for each in sown) if known else entry.plants + entry.standby
    where = f"only {most} were sown (line {sown[0].span.line})" if known else f"it has {most}"
    out = tuple(account.all_of(Did.PLANTED_OUT))
    for each in account.all_of(Did.THINNED) if known else ():
        if (each.plants or 0) > most:
            yield _more(each, where)
            return
    if known and sum(each.plants or 0 for each in out) > most:
        yield _more(out[-1], where)
        return
    if out and all(each.plants for each in out):
        most = sum(each.plants or 0 for each in out)
        where = f"only {most} were planted out (line {out[0].span.line})"
    taken = 0
    for each in account.all_of(Did.PULLED, Did.LOST):
        taken += each.plants or 0
        if taken > most:
            yield _more(each, where)
            return


def _elsewhere(each: Happening, other: Happening) -> bool:
    """Whether the two are of different beds."""
    return None not in (each.bed, other.bed) and each.bed != other.bed


def _more(each: Happening, where: str) -> Problem:
    number = f"{each.plants:,} plants {each.did.value}"
    return _problem(
        each,
        "journal-plants",
        f"{each.wave}: {number}, but {where}",
        "correct one of the numbers, or take an entry back",
    )


def _against(each: Happening, other: Happening, code: str, how: str) -> Problem:
    """Return the contradiction of two entries: reported where the one further down stands."""
    later, earlier = sorted((each, other), key=lambda one: one.span.line, reverse=True)
    message = f"{each.wave} {_said(each)}, {how} it was {_said(other)}"
    if code == "journal-twice":
        message = f"{later.wave} {_said(later)}, {how}: it was {_said(earlier)}"
    hint = f"line {earlier.span.line} says {_said(earlier)}; correct one, or take one back"
    return _problem(later, code, message, hint)


def _said(each: Happening) -> str:
    plants = f", {each.plants:,} plants" if each.plants else ""
    return f"{each.did.value} on {short_day(each.on)}{plants}"


def _problem(each: Happening, code: str, message: str, hint: str) -> Problem:
    return Problem(
        severity=Severity.ERROR,
        code=code,
        message=message,
        hint=hint,
        span=each.span,
        wave=each.wave,
    )
