"""Joists that hang between bearers: what their hangers carry, and what is told of them."""

from collections.abc import Iterator
from math import ceil

from drylay.findings import Finding, Severity
from drylay.frame.between import Band
from drylay.frame.model import Frame
from drylay.marks import exact, to_mm
from drylay.planner.carrying import FLANGE_MM, Under, broad_of, more_kn_m2
from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE
from drylay.planner.screening import Screen
from drylay.raised.model import Bearer, RaisedDeck
from drylay.reasons import Source
from drylay.supports.model import Supports


def band_of(bearer: Bearer) -> Band:
    """Return a bearer as joists hang on its faces: of an odd breadth the near half is more."""
    broad_mm = broad_of(bearer.section)
    half = -(-exact(broad_mm) // 2)
    near_mm = to_mm(exact(bearer.across_mm) - half)
    return Band(mark=bearer.mark, near_mm=near_mm, broad_mm=broad_mm)


def hanger_kn(screen: Screen, under: Under, long_mm: float) -> float:
    """Return the most that comes down on one hanger, up to a newton: half a joist's bay.

    For good, and besides the greater of what is spread on the deck and of a point load beside the
    hanger, whole. Source: statics of a beam of one span.
    """
    area_m2 = under.centres_mm * long_mm / 2 / 1e6
    loads = screen.loads
    dead = (loads.dead_kn_m2 + more_kn_m2(screen, under)) * area_m2
    return ceil((dead + max(loads.imposed_kn_m2 * area_m2, loads.point_kn)) * 1000) / 1000


def between_findings(job: Job, deck: RaisedDeck, supports: Supports) -> Iterator[Finding]:
    """Yield what is told of joists that hang between bearers: their hangers, and the corners."""
    hanger = job.articles.hanger
    if deck.hanger_kn is None or hanger is None:
        return
    yield _hangers(job, deck.hanger_kn, hanger.code, hanger.capacity_kn)
    yield Finding(
        code="RSD-019", severity=Severity.CAUTION, subject="hangers", source=PRACTICE,
        message="the outer two joists hang at the bearers' very ends, where a hanger's outer "
        "flange finds no wood: have hangers with flanges turned in for these, rated alike",
    )  # fmt: skip
    yield from _back_to_back(job, deck)
    yield from _at_joints(deck, supports)
    if any(bearer.section.plies > 1 for bearer in deck.frame.bearers):
        yield Finding(
            code="RSD-020", severity=Severity.CAUTION, subject="bearers", source=PRACTICE,
            message="joists hang on one face of the outer bearers, and twist them: bolt all plies "
            "together, and to caps that hold them upright, before anything hangs on them",
        )  # fmt: skip


def _back_to_back(job: Job, deck: RaisedDeck) -> Iterator[Finding]:
    """Yield the caution of hangers on both faces of a bearer whose screws meet: RSD-021."""
    screw, first = job.articles.hanger_screw, deck.frame.bearers[0]
    broad_mm, faced = broad_of(first.section), len(deck.frame.bearers) - (deck.ledger_wall == "")
    if screw is None or faced < 2 or 2 * exact(screw.length_mm) <= exact(broad_mm):
        return
    yield Finding(
        code="RSD-021", severity=Severity.CAUTION, subject="hanger screws", source=PRACTICE,
        measured=screw.length_mm, limit=broad_mm / 2, unit="mm",
        message="hangers hang back to back on an inner bearer, and their screws meet in it: name "
        "thicker bearers or more plies (raised.plies), or hangers with shorter screws",
    )  # fmt: skip


def _at_joints(deck: RaisedDeck, supports: Supports) -> Iterator[Finding]:
    """Yield the caution of hangers at, or over, a joint of the ply that they are screwed to."""
    clear = exact(supports.joist_thickness_mm) // 2 + exact(FLANGE_MM)
    near: dict[str, int] = {}
    for bearer in deck.frame.bearers:
        faces = {1, bearer.section.plies}
        joints = [exact(bearer.start_mm) + exact(joint.at_mm)
                  for joint in bearer.joints if joint.ply in faces]  # fmt: skip
        for number, line in enumerate(supports.lines, 1):
            off = min((abs(exact(line.offset_mm) - at) for at in joints), default=clear)
            if off < clear:
                near[f"J{number} on {bearer.mark}"] = off
    if near:
        yield Finding(
            code="RSD-022", severity=Severity.CAUTION, subject="hangers", source=PRACTICE,
            measured=to_mm(min(near.values())), limit=to_mm(clear), unit="mm",
            message=f"a ply that they are screwed to is jointed under their flanges: "
            f"{', '.join(near)}; name longer timber, or put posts (raised.posts) where joints fall "
            "between joists; else a licensed person says how such hangers are fixed",
        )  # fmt: skip


def _hangers(job: Job, load_kn: float, code: str, capacity_kn: float | None) -> Finding:
    """Return what comes down on a hanger, held against what its maker declares: RSD-018."""
    source = Source(kind="merchant record", title=job.stock.name, clause=code)
    if capacity_kn is None:
        severity, told = Severity.CAUTION, (
            "not checked, nobody declares what it carries: hold this against its maker's figure"
        )  # fmt: skip
    elif load_kn > capacity_kn:
        severity, told = Severity.STOP, (
            "more than its maker declares for it: put bearers or joists closer, or name another"
        )  # fmt: skip
    else:
        severity, told = Severity.NOTE, "its maker declares it for this, every screw in it"
    return Finding(
        code="RSD-018", severity=severity, subject="hangers", measured=load_kn, limit=capacity_kn,
        unit="kN", source=source,
        message=f"{told}; comes down on the most loaded one, its seat taken as long as the joist "
        "is thick",
    )  # fmt: skip


def not_between(job: Job, supports: Supports, frame: Frame) -> Iterator[Finding]:
    """Yield stops of what is not planned where joists hang between bearers: STR-009."""
    wanted = {
        "boards jointed over pairs of joists": bool(supports.seams),
        "boards jointed on battens": bool(frame.battens),
        "lights in the boards": bool(job.brief.lights.count),
    }
    for what in (what for what, there in wanted.items() if there):
        yield Finding(
            code="STR-009", severity=Severity.STOP, subject="raised.joists", source=PRACTICE,
            message=f"not planned between bearers yet: {what}; leave out raised.joists, or that",
        )  # fmt: skip
