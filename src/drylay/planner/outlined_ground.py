"""The ground under a deck on an outline: dig, fabric, gravel, packers, and the roots it spares."""

from collections.abc import Sequence
from typing import Protocol

from attrs import frozen

from drylay.findings import Finding, Severity
from drylay.geometry import Place
from drylay.groundwork.model import Dig, GravelBed, Packing, RootZone
from drylay.groundwork.outlined_dig import (
    DigSide,
    Dug,
    dug_of,
    lay_outlined_dig,
)
from drylay.groundwork.outlined_packing import Carried, pack_timbers
from drylay.groundwork.outlined_strips import both_ways_over
from drylay.groundwork.packing import clearance, sunk_mm
from drylay.marks import exact, to_mm
from drylay.outline.model import Outline, Side, Spot
from drylay.outline.notes import root_radius_mm
from drylay.planner import ground_faults
from drylay.planner.built import Sited
from drylay.planner.buy import Blocked
from drylay.planner.cuts import Cutter
from drylay.planner.ground import (
    Beneath,
    DigAsked,
    beneath,
    cheaper_way,
    dig_asked,
    dig_is_wished,
    gravel_bed,
    lap_mm,
    packer_spacing_mm,
)
from drylay.planner.ground_rows import ROOTS
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC
from drylay.site.model import Site
from drylay.subframe.model import Member
from drylay.units import length_text

#: Sides that the dig does not reach beyond: a boundary is no more ours to dig past than a pool.
UNDUG = ("boundary", "pool")
#: Members that stand on packers, and in which turn they get theirs.
ON_PACKERS = {"joist": 0, "pair": 0, "trimmer": 1, "double": 1, "rim": 2}


class Framework(Protocol):
    """A frame under an outline, as far as packers bear it."""

    @property
    def members(self) -> tuple[Member, ...]:
        """Return its members."""
        ...

    @property
    def joist_run(self) -> str:
        """Return which way joists run."""
        ...

    @property
    def timber_thickness_mm(self) -> float:
        """Return how thick its timber is."""
        ...


@frozen(kw_only=True)
class _Ground:
    """What lies under an outline before fabric is cut."""

    dug: Dug | None
    dig: Dig | None
    gravel: GravelBed | None
    packing: Packing | None


def lay_ground(
    cutter: Cutter, outline: Outline, frame: Framework | None, site: Site
) -> Beneath | Blocked:
    """Return what lies under the deck, or every reason why it cannot be had.

    Without a frame pads stand on the ground, which are judged apart.
    """
    job, under = cutter.job, _ground(cutter.job, outline, frame, site)
    judge = ground_faults.stops if frame else ground_faults.stops_under_pads
    stops = (
        *ground_faults.unfit_fabric(job, lap_mm(job)),
        *judge(job, site, dig=under.dig, gravel=under.gravel, packing=under.packing),
        *_in_the_roots(job, outline, site, under),
    )  # fmt: skip
    roll, laid = job.articles.fabric, None
    if roll is not None and not stops and under.dug is not None and under.dig is not None:
        ways = both_ways_over(under.dug.grown, roll_mm=roll.width_mm, lap_mm=lap_mm(job))
        laid = cheaper_way(cutter, roll, ways)
    return beneath(stops, laid, dig=under.dig, gravel=under.gravel, packing=under.packing)


def _ground(job: Job, outline: Outline, frame: Framework | None, site: Site) -> _Ground:
    asked, wished = dig_asked(job, site), dig_is_wished(job.brief.groundwork)
    dug = _dug(job, outline, asked) if wished else None
    dig = None if dug is None else lay_outlined_dig(
        dug,
        margin_mm=asked.margin_mm,
        house_margin_mm=asked.house_margin_mm,
        depth_mm=asked.depth_mm,
        spoil=asked.spoil,
    )  # fmt: skip
    gravel = gravel_bed(job, dig) if dig else None
    packer = job.articles.packer
    packing = None if packer is None or frame is None else pack_timbers(
        carried(frame),
        packer,
        spacing_most_mm=packer_spacing_mm(job),
        thickness_mm=frame.timber_thickness_mm,
        room=clearance(site.levels, sunk_mm(dig, gravel)),
    )  # fmt: skip
    return _Ground(dug=dug, dig=dig, gravel=gravel, packing=packing)


def _dug(job: Job, outline: Outline, asked: DigAsked) -> Dug:
    pools = [opening for opening in outline.openings if opening.kind == "pool"]
    return dug_of(
        [
            DigSide(
                start_mm=_place(side.start),
                end_mm=_place(side.end),
                margin_mm=margin_beyond_mm(side, asked),
            )
            for side in outline.sides
        ],
        roots=root_zones(job, outline),
        water=[[_place(spot) for spot in pool.within] for pool in pools],
    )


def margin_beyond_mm(side: Side, asked: DigAsked) -> float:
    """Return how far beyond a side is dug: up to a house wall, and past no boundary or pool."""
    if side.kind == "house":
        return asked.house_margin_mm
    return 0.0 if side.kind in UNDUG else asked.margin_mm


def root_zones(job: Job, outline: Outline) -> tuple[RootZone, ...]:
    """Return the ground that roots of trees in the deck keep, tree by tree."""
    wishes = zip(outline.openings, job.brief.outline.openings, strict=True)
    return tuple(
        RootZone(
            opening=opening.mark,
            middle=Spot(along_mm=wish.along_mm, across_mm=wish.across_mm),
            trunk_mm=wish.trunk_mm or 0.0,
            radius_mm=to_mm(exact(root_radius_mm(wish.trunk_mm or 0.0))),
        )
        for opening, wish in wishes
        if opening.kind == "tree"
    )


def _place(spot: Spot) -> Place:
    return spot.along_mm, spot.across_mm


def carried(frame: Framework) -> list[Carried]:
    """Return what stands on packers: joists, then trimmers, then rims, the joists' way first.

    The joists' packers then carry whatever touches them.
    """
    members = [member for member in frame.members if member.kind in ON_PACKERS]
    members.sort(key=lambda member: _turn_of(member, frame.joist_run))
    return [Carried(start_mm=_place(each.start), end_mm=_place(each.end)) for each in members]


def _turn_of(member: Member, joist_run: str) -> tuple[int, bool]:
    """Return when a member's packers are set; members of one turn keep their order."""
    across = joist_run == "across"
    one, other = (s.along_mm if across else s.across_mm for s in (member.start, member.end))
    return (ON_PACKERS[member.kind], member.kind == "rim" and one != other)


def _in_the_roots(
    job: Job, outline: Outline, site: Site, under: _Ground
) -> tuple[Finding, ...]:  # fmt: skip
    """Return the stop for a frame that would lie in ground which roots keep from being dug."""
    room = clearance(site.levels, sunk_mm(under.dig, under.gravel))
    zones = root_zones(job, outline)
    if under.dug is None or not zones or room is None or room.least_mm < 0:
        return ()
    left_mm = to_mm(exact(room.least_mm) - exact(sunk_mm(under.dig, under.gravel)))
    if left_mm >= 0:
        return ()
    return (
        Finding(
            code="GND-016",
            severity=Severity.STOP,
            subject="frame" if job.articles.timber.code else "tiles",
            message=f"within {_zones_told(job, zones)}, where nothing is dug, its underside may "
            f"lie {length_text(-left_mm, job.brief.units)} in the ground: raise the deck's top by "
            "as much, or give it a shallower frame",
            measured=left_mm,
            limit=0.0,
            unit="mm",
            source=ARITHMETIC,
        ),
    )


def _zones_told(job: Job, zones: Sequence[RootZone]) -> str:
    units = job.brief.units
    return ", ".join(
        f"{length_text(zone.radius_mm, units)} of the tree in {zone.opening}" for zone in zones
    )


class Grounded(Sited, Protocol):
    """A deck on an outline, on its ground."""

    @property
    def outline(self) -> Outline:
        """Return its sides."""
        ...


def remarks(job: Job, built: Grounded) -> list[Finding]:
    """Return what is worth telling about the ground: what any deck is told, and of roots."""
    dig = built.groundwork.dig if built.groundwork else None
    found = ground_faults.remarks(built)
    if dig is None and _all_in_roots(job, built):
        return [*found, _nothing_dug(job, built.outline)]
    if dig is None or not dig.roots:
        return found
    return [
        *found,
        Finding(
            code="GND-015",
            severity=Severity.NOTE,
            subject="dig",
            message=f"nothing is dug within {_zones_told(job, dig.roots)}: so much of it stays as "
            "it is, without gravel; the frame is stood over it by hand",
            measured=dig.roots_m2,
            unit="m2",
            source=ROOTS,
        ),
    ]


def _all_in_roots(job: Job, built: Grounded) -> bool:
    """Whether a dig is asked for, could be had, and roots leave nothing of it."""
    asked = dig_is_wished(job.brief.groundwork) and not built.stops
    return asked and bool(root_zones(job, built.outline))


def _nothing_dug(job: Job, outline: Outline) -> Finding:
    return Finding(
        code="GND-017",
        severity=Severity.CAUTION,
        subject="dig",
        message=f"all of it lies within {_zones_told(job, root_zones(job, outline))}, where roots "
        "are kept: nothing is dug, and neither fabric nor gravel is in the order",
        source=ROOTS,
    )
