"""Small values made by hand for the tests of the reports: an invented garden of four beds.

Average frosts on 8 May and 2 October, as at no real place. Everything can be changed by name:
``wave(number=2, plant=date(2026, 7, 16), verdict=Verdict.CHANCY)``.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from typing import Any

from sowtide.climate.answers import EndedBy
from sowtide.climate.choose import climate_of
from sowtide.days import DateSpan, DayRange, GrowingYear
from sowtide.diagnostics import Problem, Severity, Span
from sowtide.garden.crop import AfterFrost, CountedFrom, Crop, Hardiness, Raised, Weather
from sowtide.garden.model import EVERY_DAY, Bed, Entry, Garden
from sowtide.garden.site import Chance, FallAllowance, FrostDates, Site, Sure
from sowtide.reasons import OURS, Dated, Origin
from sowtide.schedule.fits.answer import Answer, Instead, Spot, Way
from sowtide.schedule.season import Season
from sowtide.schedule.stays.room import Room
from sowtide.schedule.waves.conditions import Conditions
from sowtide.schedule.waves.wave import Gap, Judged, LastSafe, Stages, Stand, Status, Verdict, Wave
from sowtide.schedule.work.task import Amount, DayPart, Kind, Picking, Seedlings, Task, WeekSheet
from sowtide.units import Size, Units, micrometres

FILE = "garden.yaml"
TODAY = date(2026, 7, 15)
YEAR = GrowingYear(2026, south=False)
LAST_FROST, FIRST_FROST = date(2026, 5, 8), date(2026, 10, 2)


def at(line: int, column: int = 3, text: str = "") -> Span:
    """Return a place in the invented file."""
    return Span(FILE, line, column, 1, text)


def bed(name: str = "Long 1", *, width: int = 4, length: int = 20, **changes: Any) -> Bed:
    """Return a bed. [ft]."""
    size = Size(micrometres(Fraction(width), "ft"), micrometres(Fraction(length), "ft"))
    plain = Bed(name, size, at(8), rest=0, grew=(), cover=0.0, colder_by=0.0, taken=())
    return replace(plain, **changes)


LONG, WIDE = bed("Long 1"), bed("Long 2")


def bean(**changes: Any) -> Crop:
    """Return a bush bean: tender, sown direct, picked over weeks."""
    crop = Crop(
        name="bush bean",
        kind="bush bean",
        family="bean family",
        weather=Weather.WARM,
        raised=Raised.DIRECT,
        counted_from=CountedFrom.SOWING,
        hardiness=Hardiness.TENDER,
        after_frost=AfterFrost.ENDS,
        days_to_harvest=DayRange(50, 60),
        picking_days=21,
        in_row=micrometres(Fraction(4), "in"),
        between_rows=micrometres(Fraction(18), "in"),
        worthwhile_days=14,
        rotation=3,
        pick_gap=3,
        pick_when="pods no thicker than a pencil",
        up_days=8,
        origins={"days_to_harvest": Origin(FILE, 14), "up_days": Origin(source="practice")},
    )
    return replace(crop, **changes)


def lettuce(**changes: Any) -> Crop:
    """Return a head lettuce: half-hardy, raised in trays, cut once."""
    return bean(
        **{
            "name": "lettuce",
            "kind": "lettuce",
            "family": "daisy family",
            "weather": Weather.COOL,
            "raised": Raised.TRAYS,
            "counted_from": CountedFrom.PLANTING_OUT,
            "hardiness": Hardiness.HALF_HARDY,
            "days_to_harvest": DayRange(45, 50),
            "picking_days": 1,
            "worthwhile_days": 7,
            "holding_days": DayRange(5, 14),
            "nursery_days": DayRange(28, 42),
            "hardening_days": 7,
            "days_before_frost": 21,
            **changes,
        }
    )


def entry(crop: Crop | None = None, **changes: Any) -> Entry:
    """Return an entry that asks for waves of 60 plants every 14 days."""
    grown = crop or bean()
    made = Entry(
        name=grown.name.replace(" ", "-"),
        crop=grown,
        raised=Raised.TRAYS if grown.raised is Raised.TRAYS else Raised.DIRECT,
        plants=60,
        start=None,
        every=DayRange(14, 14),
        until=None,
        count=None,
        beds=(LONG, WIDE),
        beds_named=True,
        split=True,
        span=at(20),
        every_origin=Origin(FILE, 23),
    )
    return replace(made, **changes)


def stages(crop: Crop, plant: date, *, end: date | None = FIRST_FROST) -> Stages:
    """Return the stages of a planting by the plain count of its days."""
    trays = crop.raised is Raised.TRAYS
    days, origin = crop.days_to_harvest, crop.origin("days_to_harvest")
    planted = Dated.on(plant, "series", "planted", Origin(FILE, 22))
    sow, ready, too_old, harden = planted, None, None, None
    if trays and crop.nursery_days is not None:
        nursery = crop.nursery_days
        sow = planted.then(-nursery.low, "stages", "nursery days", OURS)
        ready = sow.then(nursery.low, "stages", "ready to plant out", OURS)
        too_old = sow.then(nursery.high, "stages", "too old", OURS)
        harden = planted.then(-crop.hardening_days, "stages", "hardening off", OURS)
    early = planted.then(days.low, "stages", "days to harvest, early", origin)
    late = planted.then(days.high, "stages", "days to harvest, late", origin)
    stay = (crop.holding_days.low if crop.holding_days else 1) - 1
    last = late.then(max(crop.picking_days - 1, stay), "stages", "picking", OURS)
    if end is not None and last.day >= end:
        frost = Dated.on(end, "frost", "average first frost at 32 °F", Origin(FILE, 5))
        last = frost.then(-1, "stages", "nothing is picked on the day of frost", OURS)
    up = None
    if not trays:
        up = planted.then(crop.up_days, "stages", "up", crop.origin("up_days"))
    gone = last.then(1, "stages", "pulled out", OURS)
    if last.day < early.day:
        return Stages(sow, up, ready, too_old, harden, planted, None, None, None, gone)
    return Stages(sow, up, ready, too_old, harden, planted, None, (early, late), last, gone)


def judged(
    crop: Crop | None = None,
    plant: date = date(2026, 7, 1),
    *,
    end: date | None = FIRST_FROST,
    **changes: Any,
) -> Judged:
    """Return a planting that is safe in 83 years of 100."""
    made = stages(crop or bean(), plant, end=end)
    frost = None
    if end is not None:
        frost = Dated.on(end, "frost", "average first frost at 32 °F", Origin(FILE, 5))
    value = Judged(
        stages=made,
        ended_by=EndedBy.PICKED_OUT if made.first_pick else EndedBy.FROST,
        end=frost,
        odds=0.83,
        expected_picking_days=18.4,
        odds_of_nothing=0.031,
        margin=20,
        verdict=Verdict.SAFE,
        earliest=date(2026, 5, 6),
        safe_until=LastSafe(lambda _: date(2026, 7, 18), plant),
    )
    if "last_safe" in changes:
        last: date | None = changes.pop("last_safe")
        changes["safe_until"] = LastSafe(lambda _: last, plant)
    return replace(value, **changes)


def wave(
    crop: Crop | None = None,
    plant: date = date(2026, 7, 1),
    *,
    number: int = 1,
    stands: tuple[Stand, ...] | None = None,
    status: Status | None = None,
    of: Entry | None = None,
    end: date | None = FIRST_FROST,
    **changes: Any,
) -> Wave:
    """Return a wave; changes that are no field of the wave's own go to its judgement."""
    asked = of or entry(crop)
    made = judged(asked.crop, plant, end=end, **changes)
    room = (Stand(LONG, asked.plants),) if stands is None else stands
    free = made.stages.pull_out.then(0, "room", "no rest", OURS) if room else None
    reached = status or (Status.PAST if plant < TODAY else Status.PLANNED)
    return Wave(
        id=f"{asked.name}-{number}",
        entry=asked,
        number=number,
        judged=made,
        stands=room,
        bed_free=free,
        status=reached,
        next_planting=None,
        blocked=None,
        overlap=None,
        done=None,
        planned=None,
    )


def garden(*, units: Units = Units.US, entries: tuple[Entry, ...] = (), **changes: Any) -> Garden:
    """Return the garden, with the average frosts as its climate."""
    frost = FrostDates(
        0.0,
        (Chance(0.5, LAST_FROST),),
        (Chance(0.5, FIRST_FROST),),
        Origin(FILE, 4),
        Origin(FILE, 5),
    )
    site = Site(
        name="Heron Lane plot",
        latitude=43.1,
        units=units,
        frost=(frost,),
        sure=Sure(0.8, None),
        fall_allowance=FallAllowance(14, False, OURS),
        colder_by=0.0,
        too_hot=None,
        too_hot_origin=OURS,
        heat_known=False,
        week_starts=0,
        record=None,
        normals=None,
        two_months=None,
        help=None,
        people=None,
        spare=0.1,
        order_weeks=3,
        tray_cells=72,
    )
    made = Garden(
        label=FILE,
        year=YEAR,
        site=site,
        beds=(LONG, WIDE),
        crops=(bean(), lettuce()),
        entries=entries,
        watches=(),
        journal=None,
        learn=True,
        working_days=EVERY_DAY,
        away=(),
        care=(),
        wants=(),
    )
    return replace(made, **changes)


def problem(code: str = "no-room", wave: str | None = "bush-bean-3", **changes: Any) -> Problem:
    """Return a problem of the plan."""
    made = Problem(
        Severity.ERROR,
        code,
        f"{wave}: no room for 60 plants on 29 Jul",
        "plant fewer, or name another bed",
        at(20, 3, "  - {crop: bush bean, plants: 60}"),
        wave,
    )
    return replace(made, **changes)


def season(*waves: Wave, today: date = TODAY, **changes: Any) -> Season:
    """Return a season of these waves, or of three waves of beans and one of lettuce."""
    made = waves or (
        wave(plant=date(2026, 5, 20), number=1, status=Status.PAST),
        wave(plant=date(2026, 7, 1), number=2),
        wave(
            plant=date(2026, 7, 29),
            number=3,
            stands=(),
            status=Status.NO_ROOM,
            verdict=Verdict.CHANCY,
            odds=0.564,
            margin=-6,
        ),
        wave(
            lettuce(),
            plant=date(2026, 8, 10),
            stands=(Stand(LONG, 40), Stand(WIDE, 20)),
            odds=0.997,
        ),
    )
    entries: list[Entry] = []
    for each in made:
        if each.entry not in entries:
            entries.append(each.entry)
    grown: Garden = changes.pop("garden", None) or garden(entries=tuple(entries))
    climate = climate_of(grown.site, grown.year)
    value = Season(
        garden=grown,
        conditions=Conditions(climate, grown.site, grown.year),
        room=Room(grown.beds),
        today=today,
        waves=made,
        gaps=(Gap("lettuce", date(2026, 6, 20), date(2026, 8, 9), "too hot"),) if not waves else (),
        problems=(problem(),) if not waves else (),
        lookouts=(),
        accounts=None,
        care=None,
    )
    return replace(value, **changes)


def spot(where: Bed = LONG, free_from: date = date(2026, 7, 20), **changes: Any) -> Spot:
    """Return a bed with room for 60 plants."""
    until = changes.pop("free_until", max(date(2026, 7, 24), free_from))
    plants = changes.pop("plants", 60)
    return Spot(
        bed=where,
        free_from=free_from,
        free_until=until,
        plants=plants,
        judged=judged(plant=free_from, **changes),
        after=None,
        before=None,
    )


def answer(crop: Crop | None = None, **changes: Any) -> Answer:
    """Return a yes: 60 plants today, with room in two beds."""
    asked = crop or bean()
    on: date = changes.get("asked_on", TODAY)
    trays = asked.raised is Raised.TRAYS
    made = Answer(
        crop=asked,
        raised=Raised.TRAYS if trays else Raised.DIRECT,
        plants=60,
        asked_on=on,
        day_given=False,
        judged=judged(asked, on),
        earliest=date(2026, 5, 6),
        last_safe=date(2026, 7, 18),
        windows=(DateSpan(date(2026, 5, 6), date(2026, 7, 18)),),
        frost_limit=FIRST_FROST,
        spots=(spot(LONG, on), spot(WIDE, on + timedelta(days=3), odds=0.71, plants=40)),
        instead=(),
        weekly=(),
        cover=None,
    )
    return replace(made, **changes)


def instead(what: Way = Way.PLANT_OUT, **changes: Any) -> Instead:
    """Return something else that would fit."""
    made = Instead(what, "Planted out as seedlings it would still bear.", date(2026, 7, 20), 0.84)
    return replace(made, **changes)


def task(kind: Kind = Kind.SOW, of: Wave | None = None, **changes: Any) -> Task:
    """Return a piece of work on the wave's planting day."""
    waves = of or wave(plant=date(2026, 7, 16))
    made = Task(
        id=f"{waves.id}:{kind.value.replace(' ', '-')}",
        code="k7",
        due=date(2026, 7, 16),
        kind=kind,
        wave=waves,
        bed="Long 1",
        text="sow 12 ft of row",
        amount=Amount(80, "seeds"),
        last_day=None,
        overdue=False,
        cautions=(),
        delay=None,
        part=DayPart.ANY_TIME,
        planned=None,
        cannot_wait=False,
        care=None,
    )
    return replace(made, **changes)


def week_sheet(**changes: Any) -> WeekSheet:
    """Return the sheet of 13–19 July 2026: a sowing, a picking, seedlings and a look ahead."""
    picked = wave(plant=date(2026, 5, 20), status=Status.PAST)
    trays = wave(lettuce(), plant=date(2026, 8, 10))
    sow = task(last_day=date(2026, 7, 18))
    pick = task(Kind.PICK, picked, due=date(2026, 7, 13), code="c3", text="pick", amount=None)
    tray = trays.stages
    assert tray.ready is not None
    assert tray.too_old is not None
    made = WeekSheet(
        week="2026-W29",
        first=date(2026, 7, 13),
        last=date(2026, 7, 19),
        cannot_slip=(sow,),
        pickings=(
            Picking(
                pick,
                (date(2026, 7, 13), date(2026, 7, 16), date(2026, 7, 19)),
                date(2026, 8, 8),
            ),
        ),
        tasks=(task(Kind.SOW_IN_TRAYS, trays, due=tray.sow.day, bed=None, code="q9"), sow),
        bench=(
            Seedlings(
                trays,
                trays.plants,
                tray.sow.day,
                tray.ready.day,
                tray.too_old.day,
                tray.plant.day,
                ("Long 1",),
            ),
        ),
        overdue=(),
        next_week=(task(Kind.THIN, due=date(2026, 7, 24), code="t2", text="thin to 4 in"),),
    )
    return replace(made, **changes)
