"""How a wave is started, when its seedlings must have been sown, and what to sow for a space."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from sowtide.days import GrowingYear
from sowtide.garden.crop import Crop, Raised
from sowtide.grouping import grouped
from sowtide.report.blocks import Line, Style, line, together
from sowtide.report.kit import words
from sowtide.report.kit.setting import Setting
from sowtide.report.kit.stands import BedPlants, StartView
from sowtide.values import value


@value
class ToRaise:
    """Seedlings of one more wave."""

    sown: date
    """The day they must be sown to be ready."""
    out: date | None
    """When ones sown today could be planted out; None where nobody knows."""
    or_direct: bool
    """Whether the crop may be sown direct as well."""


def to_raise(crop: Crop, raised: Raised, sown: date, *, today: date) -> ToRaise | None:
    """Return the seedlings of a wave; None where it is sown direct."""
    if raised is not Raised.TRAYS:
        return None
    nursery = crop.nursery_days
    out = None if nursery is None else today + timedelta(days=nursery.low)
    return ToRaise(sown, out, crop.raised is Raised.EITHER)


def say_seedlings(of: ToRaise, setting: Setting, *, fits: bool) -> str:
    """Say when the seedlings must have been sown, and when ones sown today could go out."""
    year, today = setting.year, setting.today
    assert today is not None  # who asks whether a wave fits is asked from a day
    day = together(words.weekday(of.sown, year))
    if of.sown >= today:
        when = f"today, {day}" if of.sown == today else f"on {day}"
        start = "Sow its seedlings" if fits else "Its seedlings would be sown"
        return f"{start} {when}."
    or_direct = " or sow direct" if of.or_direct else ""
    text = (
        f"Its seedlings must have been sown on {day}: if they do not stand ready, it is too late "
        f"to raise your own; buy them{or_direct}."
    )
    if of.out is not None:
        text += f" Sown today they go out on {together(words.weekday(of.out, year))}."
    return text


def act(raised: Raised) -> str:
    """Say what is done on the planting day: ``sow`` or ``plant out``."""
    return "plant out" if raised is Raised.TRAYS else "sow"


def done(raised: Raised) -> str:
    """Say how a planting is done: ``sown`` or ``planted out``."""
    return "planted out" if raised is Raised.TRAYS else "sown"


def start_lines(starts: Iterable[StartView], year: GrowingYear) -> list[Line]:
    """Say of each crop and day how many seedlings to raise, and where to they go."""
    groups = grouped(starts, lambda each: (each.title, each.sow, each.for_.plant))
    return [_start_line(each, year) for each in groups.values()]


def _start_line(of: Sequence[StartView], year: GrowingYear) -> Line:
    what = f"{sum(each.plants for each in of):,} {of[0].title}"
    beds = [BedPlants(each.for_.bed, each.plants) for each in of]
    sown, out = words.weekday(of[0].sow, year), words.day(of[0].for_.plant, year)
    said = f": sow {together(sown)}, plant out {together(out)} in {words.stands(beds)}"
    return line((what, Style.STRONG), said)
