"""What becomes of a wave by the odds of frost, from dates or recorded minima."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from functools import partial
from itertools import pairwise
from typing import TYPE_CHECKING

from sowtide.climate.allowance import Allowances
from sowtide.climate.answers import Chances, EndedBy, Green, Left, Need, Outlook, Stretch, YearTold
from sowtide.climate.fate import Fate, expected_days, fate_of, picking_days
from sowtide.climate.frost import PlaceFrosts, Survival, SurvivalInLeaf, with_springs
from sowtide.climate.growth import UNRIPE_DAYS, Growth, GrowthByDays, range_end
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.crop import AfterFrost
from sowtide.garden.site import Site
from sowtide.reasons import OURS, Dated, Origin
from sowtide.units import FREEZING
from sowtide.values import value

if TYPE_CHECKING:  # only where a site has a record or normals
    from sowtide.climate.answers import Winter
    from sowtide.climate.average import NormalYear, SeasonsBarren
    from sowtide.climate.fate import Borne
    from sowtide.climate.warmth import Barren


_HALF = 0.5
_HARDLY_ANY = 1 / 1024
"""Share of years with a later frost of spring that is taken for none: sowtide's own. [0–1]"""


@value
class _Crop:
    """What the place holds for one crop, whenever it is planted."""

    need: Need
    """What the crop needs."""
    survival: Survival
    """How long it stands in autumn."""
    before_frost: int
    """As the need has it. [days]"""
    hot: tuple[int, int] | None
    """The weeks too hot for it, half-open and as ordinals, or None."""
    barrens: SeasonsBarren | None
    """Its days without fruit; None where none are known."""
    harmless: int
    """The first planting day that hardly any frost of spring kills, as an ordinal."""
    fates: dict[int, Fate]
    """Its first picks by planting days, as ordinals, as far as anybody has asked."""


class FatesByFrosts:
    """What becomes of waves by the odds of frost, and by the warmth of normals if it is known.

    Parameters
    ----------
    frosts
        The frosts of the place.
    year
        The growing year.
    site
        The place: its hot weeks, and the extra days late in the season.
    normal
        Growth in average years, or None where no temperatures are known.
    """

    def __init__(
        self,
        frosts: PlaceFrosts,
        year: GrowingYear,
        *,
        site: Site,
        normal: NormalYear | None = None,
    ) -> None:
        self._frosts, self._year = frosts, year
        hot = site.too_hot
        self._heat = None if hot is None else (hot.first.toordinal(), hot.last.toordinal() + 1)
        self._normal = normal
        self._stated = site.heat_known or normal is None
        self._hot_origin = site.too_hot_origin if self._stated else _origin_of(normal)
        self._growth: Growth = normal or _by_days(frosts, site, year)
        self._survivals: dict[tuple[float, AfterFrost, Green | None, Dated | None], Survival] = {}
        self._harmless: dict[float, int] = {}
        # A need is kept with what is found for it: no other has its id.
        self._crops: dict[int, tuple[Need, _Crop]] = {}
        self._fates: dict[Need, dict[int, Fate]] = {}

    def frost_end(self, need: Need) -> Dated | None:
        """Return the day frost ends a crop, or stops its growth, in half of the years."""
        return self._survival(replace(need, seeds=None)).end

    def outlook(self, planted: Dated, need: Need) -> Outlook:
        """Return what becomes of a wave planted on a day."""
        years_on = self._year.days_to(planted.day)
        begin = planted.day.toordinal() - years_on
        crop = self._of(need)
        fate, survival, spared = self._fate(begin, crop), crop.survival, self._spared(crop, begin)
        end, ended_by = self._end(fate, need, survival)
        unripe = self._growth.usual(begin, need, late=False) >= begin + UNRIPE_DAYS
        if end is None and unripe:
            end = planted.then(
                UNRIPE_DAYS, "heat", "it is not ripe within the year", _origin_of(self._normal)
            )
            ended_by = EndedBy.TOO_COOL
        elif end is not None and years_on:
            end = end.then(years_on, "frost-end", "the same day of its own growing year", OURS)
        early, late = (
            self._explain(planted, need, late=late, waits=fate.waits) for late in (False, True)
        )
        waited = 0
        if fate.barren is not None:
            from sowtide.climate.average import with_fruit

            ripe = self._growth.usual(begin, need, late=False), fate.late
            origin = _origin_of(self._normal)
            found = with_fruit((early, late), ripe, need.picking, fate.barren, origin)
            early, late, waited = found.early, found.late, found.waited
            if found.end is not None and (end is None or found.end.day < end.day):
                end, ended_by = found.end, EndedBy.HEAT
        frozen = None if survival.end is None else survival.end.day + timedelta(days=years_on)
        if need.stands and self._normal and frozen is not None and early.day < frozen < late.day:
            text = f"{range_end(need, late=True)}: not ripe before {survival.stops}"
            late = planted.then((frozen - planted.day).days, "heat", text, _origin_of(self._normal))
        return Outlook(
            first_pick=(early, late),
            end=end,
            ended_by=ended_by,
            chances=self._chances(fate, crop, spared=spared),
            expected_picking_days=spared * expected_days(fate, need, survival.total),
            odds_of_nothing=1 - spared * survival.over(fate.first_picks(need), 0) / fate.count,
            waited=waited,
        )

    def years_of(self, planted: date, need: Need) -> tuple[YearTold, ...]:
        """Return what the frost of each recorded year does to a wave; nothing without a record."""
        known, green = self._frosts.years(need.killed_at), need.green
        if known is None:
            return ()
        from sowtide.climate.frost_record import told_by_frost

        day = planted.toordinal() - self._year.days_to(planted)
        fate = self._fate(day, self._of(need))
        leaf = None if green is None else self._frosts.years(green.killed_at)
        return told_by_frost(fate, need, known, self._year, planted=day, leaf=leaf)

    def borne(self, planted: date, need: Need) -> tuple[Borne, ...]:
        """Return when a wave bears, in years that stand for the curve of its frosts."""
        from sowtide.climate.fate import YEARS_OF_CURVE, borne_by_curve

        day = planted.toordinal() - self._year.days_to(planted)
        picks, crop = self._growth.picks(day, need), self._of(need)
        fate, lost = self._fate(day, crop), 1 - self._spared(crop, day)
        ends = with_springs(crop.survival.ends_of(fate.late, YEARS_OF_CURVE), day, lost=lost)
        return borne_by_curve(fate, need, picks, planted=day, ends=ends)

    def left(self, planted: date, need: Need, since: date) -> Left:
        """Return what a wave that stands on a day still has before it from then on."""
        years_on = self._year.days_to(planted)
        crop = self._of(need)
        fate, survival = self._fate(planted.toordinal() - years_on, crop), crop.survival
        day = since.toordinal() - years_on
        days = some = 0.0
        for span in fate.spans(need):
            first = span.nth(max(span.first, day), 1)
            if first >= span.stop:
                continue
            some += survival.total(first, 1)
            days += picking_days(span._replace(first=first), need, survival.total)
        parts = fate.count * survival.standing(day - 1)  # the years in which it stands on that day
        return Left(days / parts, some / parts, None) if parts else Left(0.0, 0.0, None)

    def winter(self, planted: Dated, need: Need) -> Winter | None:
        """Return how a wave gets on over an average winter, where normals tell of it."""
        return None if self._normal is None else self._normal.winter(planted, need)

    def grown_enough(self, planted: date, need: Need, share: float) -> float | None:
        """Return 1 if it is grown far enough by the short days of an average year, else 0."""
        grown = None if self._normal is None else self._normal.grown(planted, need)
        return None if grown is None else float(grown >= share)

    def chances(self, planted: date, need: Need) -> Chances:
        """Return the chances of `outlook` alone, for a planting day."""
        day, crop = planted.toordinal() - self._year.days_to(planted), self._of(need)
        return self._chances(self._fate(day, crop), crop, spared=self._spared(crop, day))

    def least(self, need: Need, days: range) -> Chances:
        """Return the chances of the last day of a stretch with its first day's frosts of spring."""
        crop = self._of(need)
        spared = self._spared(crop, days[0])
        return self._chances(self._fate(days[-1], crop), crop, spared=spared)

    def stretches(self, need: Need, days: DateSpan) -> tuple[Stretch, ...]:
        """Split planting days, in order, into runs along which the chances only fall. [ordinals]

        A later planting is never picked earlier, and so never fares better, except where the fall
        allowance stops and where the hot weeks change what becomes of it; and while frosts of
        spring may kill it.
        """
        first, stop = days.first.toordinal(), days.last.toordinal() + 1
        if first >= stop:
            return ()
        crop = self._of(need)
        turns = {first, stop, *(turn for turn in self._growth.turns() if first < turn < stop)}
        runs = [range(one, other) for one, other in pairwise(sorted(turns))]
        if first < crop.harmless < stop:
            turns.add(crop.harmless)
        if need.green is not None:  # later it may flower after the frosts
            late = partial(self._growth.pick, need=need, late=True)
            for run in runs:
                turns.update(run[bisect_left(run, crop.survival.rises_from, key=late) :])
        if crop.hot is not None and self._growth.picks(first, need):
            for run in runs:
                turns.update(run.start + days for days in self._hot_turns(run, need, crop.hot))
        barrens = crop.barrens
        if barrens is not None and self._growth.picks(first, need):
            ends = (partial(self._growth.pick, need=need, late=late) for late in (False, True))
            turns.update(barrens.turns(range(first, stop), need.picking, *ends))
        return tuple(
            Stretch(range(one, other), rises=one < crop.harmless)
            for one, other in pairwise(sorted(turns))
        )

    def _hot_turns(self, planted: range, need: Need, hot: tuple[int, int]) -> Iterator[int]:
        """Yield how many days in the hot weeks begin to do something else to a wave. [days]

        While some first picks wait for the end of the heat, a later planting may fare better:
        every such day is a turn.
        """
        begins, over = hot
        early = partial(self._growth.pick, need=need, late=False)
        late = partial(self._growth.pick, need=need, late=True)
        in_heat = bisect_left(planted, begins, key=early)
        yield in_heat
        waits = max(bisect_left(planted, over, key=late), in_heat)
        yield from range(waits, bisect_left(planted, over, key=early) + 1)

    def _of(self, need: Need) -> _Crop:
        """Return what the place holds for a crop."""
        found = self._crops.get(id(need))
        if found is None:
            found = self._crops[id(need)] = (need, self._found(need))
        return found[1]

    def _found(self, need: Need) -> _Crop:
        # What differs in the frost that kills it alone has its first picks in common.
        alike = replace(need, killed_at=0.0, shows=None, green=None, seeds=None)
        alike = replace(alike, days_text="", days_origin=OURS)
        return _Crop(
            need=need,
            survival=self._survival(need),
            before_frost=need.before_frost,
            hot=self._heat_for(need),
            barrens=self._barrens(need),
            harmless=self._harmless_from(need),
            fates=self._fates.setdefault(alike, {}),
        )

    def _spared(self, crop: _Crop, planted: int) -> float:
        """The share of years in which no frost of spring kills a planting. [0–1]"""
        if planted >= crop.harmless:
            return 1.0
        spring, shows = self._frosts.spring, crop.need.shows
        assert spring is not None  # else nothing would be harmed
        assert shows is not None
        return 1 - spring.odds(planted + shows, at=crop.need.killed_at)

    def _harmless_from(self, need: Need) -> int:
        """The first planting day that hardly any frost of spring kills, as an ordinal."""
        spring = self._frosts.spring
        if need.shows is None or spring is None:
            return 0
        safe = self._harmless.get(need.killed_at)
        if safe is None:
            safe = spring.first_safe(at=need.killed_at, share=_HARDLY_ANY) or 0
            self._harmless[need.killed_at] = safe
        return safe - need.shows

    def _fate(self, planted: int, crop: _Crop) -> Fate:
        """First picks of a planting day of this year, and what the hot weeks do to them."""
        fate = crop.fates.get(planted)
        if fate is None:
            fate = crop.fates[planted] = self._worked_out(planted, crop)
        return fate

    def _worked_out(self, planted: int, crop: _Crop) -> Fate:
        need, barrens = crop.need, crop.barrens
        each: list[Barren] = []
        if barrens is None or self._normal is None:
            picks = self._growth.picks(planted, need)
        else:
            pairs = self._normal.picks_of_seasons(planted, need)
            picks = [pick for pick, _ in pairs]
            each = [barrens.seasons[season] for _, season in pairs]
        unripe = self._growth.unripe(need)
        if not picks:
            never = planted + UNRIPE_DAYS
            return Fate((), unripe, never, never)
        usual = None if barrens is None else barrens.usual
        fate = fate_of(picks, need, crop.hot, usual, each)
        fate.count += unripe
        fate.late = self._growth.usual(planted, need, late=True)
        return fate

    def _heat_for(self, need: Need) -> tuple[int, int] | None:
        """The hot weeks of such a crop, half-open and as ordinals, or None."""
        if need.warm_limit is None or not need.heat_ends:
            return None
        if self._normal is None or (self._stated and need.minds_written):
            return self._heat
        return self._normal.days.hot(need.warm_limit)

    def _barrens(self, need: Need) -> SeasonsBarren | None:
        """The days without fruit of such a crop, as ordinals; None where none are known."""
        if self._normal is None or need.fruit_set is None:
            return None
        return self._normal.barrens(need.fruit_set)

    def _end(
        self, fate: Fate, need: Need, survival: Survival
    ) -> tuple[Dated | None, EndedBy | None]:
        """The day that ends a wave in half of the years, and what does."""
        end = survival.end_of(fate.late)
        if self._stands_on(need) and end is not None and fate.early < end.day.toordinal():
            end = need.seeds  # it is ripe by then, and stands
        if fate.hot_end is None or (end is not None and end.day.toordinal() <= fate.hot_end):
            by = EndedBy.SEED if end is need.seeds else EndedBy.FROST
            return end, None if end is None else by
        day = date.fromordinal(fate.hot_end)
        return Dated.on(day, "too-hot", "the hot weeks begin", self._hot_origin), EndedBy.HEAT

    def _chances(self, fate: Fate, crop: _Crop, *, spared: float) -> Chances:
        """Odds averaged over the range of days to harvest, every day of it equally likely."""
        need, frost = crop.need, crop.survival.end_of(fate.late)
        worth = crop.survival.over(fate.worthwhile(need), crop.before_frost - 1)
        return Chances(
            spared * worth / fate.count,
            None
            if frost is None
            else frost.day.toordinal() - (fate.last_worthwhile(fate.late, need) + 1),
            fate.heat_margin(need),
            fate.too_hot,
            by_frost_alone=self._normal is None,
            spring_loss=1 - spared,
        )

    def _explain(self, planted: Dated, need: Need, *, late: bool, waits: int) -> Dated:
        """Count the first pick at one end of the range of days to harvest."""
        years_on = self._year.days_to(planted.day)
        first = self._growth.explain(planted, need, late=late)
        wait = waits + years_on - first.day.toordinal() if waits else 0
        if wait > 0:
            first = first.then(wait, "too-hot", "the hot weeks end first", self._hot_origin)
        return first

    def _survival(self, need: Need) -> Survival:
        key = (need.killed_at, need.after_frost, need.green, need.seeds)
        survival = self._survivals.get(key)
        if survival is None:
            survival = self._survivals[key] = self._made(need).until_seed(need.seeds)
        return survival

    def _made(self, need: Need) -> Survival:
        if need.stands and self._normal is not None:
            return Survival.until(self._normal.days.freezes())
        autumn, spring, green = self._frosts.autumn, self._frosts.spring, need.green
        if green is None or autumn is None or spring is None:
            return Survival(autumn, at=need.killed_at, later=need.after_frost_days)
        return SurvivalInLeaf(
            autumn, spring, at=need.killed_at, green_at=green.killed_at, ripens=green.ripens
        )

    def _stands_on(self, need: Need) -> bool:
        """Whether what is ripe when frost stops its growth stands on.

        Nobody knows when the ground freezes, or it thaws in half of the winters before it is dead.
        """
        if not need.stands or self._normal is None:
            return need.stands
        autumn = self._frosts.autumn
        if not need.thaws or autumn is None:
            return need.thaws
        return autumn.nearest_day(at=need.killed_at, share=_HALF) is None


def _by_days(frosts: PlaceFrosts, site: Site, year: GrowingYear) -> GrowthByDays:
    last, first = (
        None if half is None else half.nearest_day(at=FREEZING, share=0.5)
        for half in (frosts.spring, frosts.autumn)
    )
    added = site.fall_allowance
    return GrowthByDays(Allowances(added.days, added.always, last, first), added.origin, year)


def _origin_of(normal: NormalYear | None) -> Origin:
    return OURS if normal is None else normal.days.origin
