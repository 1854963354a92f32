"""Guards along a deck's edges and a flight of steps down from one, by the brief's region."""

from math import floor

from attrs import evolve, frozen

from drylay.brief.model import SIDES
from drylay.errors import InputError
from drylay.findings import Finding, Severity
from drylay.flights.made import flight_findings
from drylay.flights.model import Flight, Steps
from drylay.flights.rules import flight_rules
from drylay.flights.ways import flight_ways
from drylay.guards.corners import corner_findings
from drylay.guards.infill import KINDS, guard_findings, guard_of
from drylay.guards.model import (
    Edge,
    Facet,
    Guard,
    GuardFoot,
    GuardRun,
    Guards,
    Passage,
    Stretch,
)
from drylay.guards.needed import guard_runs, guard_stretches, needed_findings
from drylay.marks import MARK_320, exact, to_mm
from drylay.outline.model import Spot
from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE
from drylay.regions.model import SLOPE_MOST_RATIO, Limit, RegionPack
from drylay.regions.packs import limit_of
from drylay.site.model import Site
from drylay.site.terrain import Survey, levels_on, survey_of

#: Baluster, post and tread where the brief says nothing. Common practice, no source.
BALUSTER_MM, GUARD_POST_MM, STEPS_WIDE_MM = 40.0, 90.0, 900.0
#: Which way is out of each side of a box, along and across.
OUT = {"front": (0.0, 1.0), "house": (0.0, -1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}


@frozen(kw_only=True)
class Around:
    """What is round a deck: its edges in the cover's axes, the ground, its top."""

    edges: tuple[Edge, ...]
    facets: tuple[Facet, ...]
    top_mm: float


@frozen(kw_only=True)
class Held:
    """What holds guards' posts, as far as it is told, and how close together it wants them."""

    foot: GuardFoot | None = None
    closer_mm: float | None = None


@frozen(kw_only=True)
class Head:
    """Where a flight begins: on which side, which edge, from where to where along both.

    `from_mm` counts from the corner nearer the datum, `edge_from_mm` as the edge runs; `places` are
    the two in the cover's axes, `out` the way out of the deck there, one long. `long_mm` is the
    side's length, where nobody has held the steps against it yet.
    """

    side: str
    edge: str
    from_mm: float
    to_mm: float
    edge_from_mm: float
    edge_to_mm: float
    places: tuple[tuple[float, float], tuple[float, float]]
    out: tuple[float, float]
    long_mm: float | None = None


def edges_of(
    job: Job, along_mm: float, across_mm: float, site: Site, top_mm: float
) -> tuple[Edge, ...]:
    """Return the four edges of a cover in their order round it, with the head of its steps."""
    corners = ((0.0, 0.0), (along_mm, 0.0), (along_mm, across_mm), (0.0, across_mm))
    return tuple(
        Edge(
            mark=f"E{number}", start=_spot(corners[number - 1]), end=_spot(corners[number % 4]),
            top_mm=top_mm, kind="house" if side == "house" and site.beside_house else "open",
            passages=_passages(job, side, along_mm, across_mm),
        )
        for number, side in enumerate(SIDES, 1)
    )  # fmt: skip


def _spot(place: tuple[float, float]) -> Spot:
    return Spot(along_mm=place[0], across_mm=place[1])


def steps_at(job: Job, along_mm: float, across_mm: float) -> tuple[float, float]:
    """Return from where to where along its side the steps reach, from the corner nearer the datum.

    Where the brief says no place they stand in the side's middle.
    """
    wish = job.brief.steps
    long_mm = along_mm if wish.side in {"house", "front"} else across_mm
    wide_mm = min(STEPS_WIDE_MM, long_mm) if wish.width_mm is None else wish.width_mm
    middle = to_mm((exact(long_mm) - exact(wide_mm)) // 2)
    start = middle if wish.from_mm is None else wish.from_mm
    return start, to_mm(exact(start) + exact(wide_mm))


def _passages(job: Job, side: str, along_mm: float, across_mm: float) -> tuple[Passage, ...]:
    """Return the head of the steps on a side, counted as the edge runs round the deck."""
    if job.brief.steps.side != side:
        return ()
    start, end = steps_at(job, along_mm, across_mm)
    if side in {"front", "left"}:  # these run towards the datum
        long_mm = exact(along_mm if side == "front" else across_mm)
        start, end = to_mm(long_mm - exact(end)), to_mm(long_mm - exact(start))
    return (Passage(name="steps", from_mm=start, to_mm=end),)


def guards_of(
    job: Job, pack: RegionPack, around: Around, held: Held
) -> tuple[Guards, tuple[Finding, ...]]:
    """Return where guards are needed and how they are built, and what is told of them."""
    trigger, out = limit_of(pack, "guard_trigger_mm"), limit_of(pack, "guard_measured_out_mm")
    ball = limit_of(pack, "sphere_mm")
    spacing = limit_of(pack, "guard_post_spacing_mm")
    mark = MARK_320[job.brief.units]
    stretches: list[Stretch] = []
    told: list[Finding] = []
    for edge in around.edges:
        found = guard_stretches(edge, around.facets, trigger=trigger, out_mm=out.value or 0.0,
                                mark_320=mark)  # fmt: skip
        told += needed_findings(edge, around.facets, found, trigger=trigger, out=out)
        stretches += found
    told += corner_findings(around.edges, around.facets, tuple(stretches), trigger=trigger, out=out)
    runs = guard_runs(around.edges, tuple(stretches))
    built, more = _built(job, pack, runs, held)
    guards = Guards(
        region=pack.pack, trigger_mm=trigger.value or 0.0, out_mm=out.value or 0.0,
        height_mm=height_of(job, pack), ball_mm=ball.value or 0.0,
        post_spacing_most_mm=_spacing(job, spacing, held), foot=held.foot,
        length_mm=to_mm(sum(exact(run.length_mm) for run in runs)), edges=around.edges,
        facets=around.facets, runs=runs, built=built,
    )  # fmt: skip
    return guards, (*told, *more)


def height_of(job: Job, pack: RegionPack) -> float:
    """Return how high guards are: as the brief wishes, else the region's least."""
    return job.brief.guards.height_mm or limit_of(pack, "guard_height_deck_mm").value or 0.0


def _spacing(job: Job, spacing: Limit, held: Held) -> float | None:
    wished = job.brief.guards.post_spacing_mm
    known = [each for each in (wished, spacing.value, held.closer_mm) if each is not None]
    return min(known, default=None)


def post_mm(job: Job) -> float:
    """Return how thick guards' posts are: as their article, as wished, or common practice."""
    article = job.articles.guard_post
    return article.thickness_mm if article else job.brief.guards.post_mm or GUARD_POST_MM


def _built(
    job: Job, pack: RegionPack, runs: tuple[GuardRun, ...], held: Held
) -> tuple[tuple[Guard, ...], list[Finding]]:
    """Return the guards along the runs, none where the brief wishes no infill for them."""
    wish = job.brief.guards
    if runs and wish.infill is None:
        return (), [_unbuilt(run) for run in runs]
    height = limit_of(pack, "guard_height_deck_mm")
    climb, spacing = limit_of(pack, "rails_climb_mm"), limit_of(pack, "guard_post_spacing_mm")
    built: list[Guard] = []
    told: list[Finding] = []
    for run in runs:
        try:
            guard = guard_of(
                run, height_mm=height_of(job, pack), post_mm=post_mm(job),
                baluster_mm=wish.thickness_mm or BALUSTER_MM,
                ball_mm=limit_of(pack, "sphere_mm").value or 0.0,
                spacing=_limit(spacing, _spacing(job, spacing, held)),
                infill=wish.infill or KINDS[0],
                mark_320=MARK_320[job.brief.units],
            )  # fmt: skip
        except InputError as error:
            told.append(_no_room(run, error))
            continue
        built.append(guard)
        told += guard_findings(guard, run, height=height, climb=climb)
    return tuple(built), told


def _limit(limit: Limit, value: float | None) -> Limit:
    return evolve(limit, value=value)


def _unbuilt(run: GuardRun) -> Finding:
    return Finding(
        code="GRD-009", severity=Severity.STOP, subject=run.mark, source=PRACTICE,
        measured=run.length_mm, unit="mm",
        message="this much edge needs a guard and the brief tells none: say how it is built "
        "([guards] infill), lower the deck, or make the ground up",
    )  # fmt: skip


def _no_room(run: GuardRun, error: InputError) -> Finding:
    told = "; ".join(f"{fault.found}: wanted {fault.wanted}" for fault in error.faults)
    return Finding(code="GRD-010", severity=Severity.STOP, subject=run.mark, source=PRACTICE,
                   message=f"no guard fits along it: {told}")  # fmt: skip


def head_of(job: Job, size_mm: tuple[float, float]) -> Head | None:
    """Return where the steps of a rectangle begin; None where its brief wishes none."""
    side = job.brief.steps.side
    if side is None:
        return None
    start, end = steps_at(job, *size_mm)
    own = _passages(job, side, *size_mm)[0]
    places = (_on_side(side, start, size_mm), _on_side(side, end, size_mm))
    long_mm = size_mm[0] if side in {"house", "front"} else size_mm[1]
    return Head(
        side=side, edge=f"E{SIDES.index(side) + 1}", from_mm=start, to_mm=end,
        edge_from_mm=own.from_mm, edge_to_mm=own.to_mm, places=places, out=OUT[side],
        long_mm=long_mm,
    )  # fmt: skip


def _on_side(side: str, at_mm: float, size_mm: tuple[float, float]) -> tuple[float, float]:
    along_mm, across_mm = size_mm
    return {
        "front": (at_mm, across_mm),
        "house": (at_mm, 0.0),
        "left": (0.0, at_mm),
        "right": (along_mm, at_mm),
    }[side]


def steps_of(
    job: Job, pack: RegionPack, around: Around, head: Head | None
) -> tuple[Steps | None, tuple[Finding, ...]]:
    """Return the flight that the brief wishes, or the rules that clash; nothing for no wish."""
    wish = job.brief.steps
    if head is None:
        return None, ()
    rules, fall = flight_rules(pack), _fall(job, around, head)
    if fall is None:
        return None, (_ground_unknown(),)
    if odd := _no_flight(head, fall):
        return None, (odd,)
    board_mm = job.articles.board.thickness_mm
    tread_mm = board_mm if wish.tread_mm is None else wish.tread_mm
    found = flight_ways(
        rules=rules, drop_mm=fall.drop_mm, tread_mm=tread_mm, board_mm=board_mm,
        goings_mm=() if wish.going_mm is None else (wish.going_mm,), fall_ratio=fall.ratio,
        mark_320=MARK_320[job.brief.units],
    )  # fmt: skip
    flight = next((way for way in found.ways if wish.risers in {None, way.risers}), None)
    if flight is None:
        return None, found.findings or (_no_such(wish.risers or 0, found.ways),)
    width_mm = to_mm(exact(head.to_mm) - exact(head.from_mm))
    steps = Steps(
        region=pack.pack, side=head.side, from_mm=head.from_mm, width_mm=width_mm,
        tread_mm=tread_mm, risers=flight.risers, fall_ratio=fall.ratio,
        across_fall_mm=fall.across_mm, flight=flight,
    )  # fmt: skip
    told = flight_findings(flight, rules, width_mm=width_mm, across_fall_mm=fall.across_mm)
    return steps, told


def _no_flight(head: Head, fall: "Fall") -> Finding | None:
    """Return the stop where no flight can stand: past its side, uphill, on ground too steep."""
    if head.long_mm is not None and head.to_mm > head.long_mm:
        return Finding(
            code="STP-015", severity=Severity.STOP, subject="steps", measured=head.to_mm,
            limit=head.long_mm, unit="mm", source=PRACTICE,
            message=f"no room for the steps at the {head.side}: the side there is shorter",
        )  # fmt: skip
    if fall.drop_mm <= 0:
        return Finding(
            code="STP-016", severity=Severity.STOP, subject="steps", measured=fall.drop_mm,
            limit=0.0, unit="mm", source=PRACTICE,
            message="the ground where they begin is no lower than the deck: there is nothing to "
            "step down",
        )  # fmt: skip
    if abs(fall.ratio) >= SLOPE_MOST_RATIO:
        return Finding(
            code="STP-017", severity=Severity.STOP, subject="steps", measured=abs(fall.ratio),
            limit=SLOPE_MOST_RATIO, source=PRACTICE,
            message="the ground falls or rises too steeply along a flight to be screened",
        )  # fmt: skip
    return None


def _no_such(risers: int, ways: tuple[Flight, ...]) -> Finding:
    kept = ", ".join(str(way.risers) for way in ways)
    return Finding(
        code="STP-013", severity=Severity.STOP, subject="steps", measured=float(risers),
        source=PRACTICE, message=f"no flight of so many risers keeps all rules; these do: {kept}",
    )  # fmt: skip


def _ground_unknown() -> Finding:
    return Finding(
        code="STP-014", severity=Severity.STOP, subject="steps", source=PRACTICE,
        message="nobody knows the ground where they begin: measure points at and beyond that edge",
    )  # fmt: skip


@frozen(kw_only=True)
class Fall:
    """The ground at the head of a flight: how deep, how it falls away, how much along the side."""

    drop_mm: float
    ratio: float
    across_mm: float


def _fall(job: Job, around: Around, head: Head) -> Fall | None:
    """Return how the ground lies where a flight begins; None where nobody measured it.

    The drop is the deepest along the head; the fall away is read a metre out, where that is known.
    """
    survey = survey_of(job.brief.levels.points)
    levels = [_level(survey, place) for place in head.places]
    known = [level for level in levels if level is not None]
    if len(known) < len(levels):
        return None
    beyond = [(x + head.out[0] * 1000.0, y + head.out[1] * 1000.0) for x, y in head.places]
    out = [_level(survey, place) for place in beyond]
    falls = [(near - far) / 1000.0 for near, far in zip(known, out, strict=True) if far is not None]
    return Fall(
        drop_mm=to_mm(exact(around.top_mm) - exact(min(known))),
        ratio=round(max(falls, default=0.0), 6),
        across_mm=to_mm(exact(max(known)) - exact(min(known))),
    )


def _level(survey: Survey | None, place: tuple[float, float]) -> float | None:
    """Return the ground's level at a place, the lower of two ways to fold it, rounded down."""
    spot = (exact(place[0]), exact(place[1]))
    found = levels_on(survey, spot) if survey is not None else []
    return to_mm(floor(min(found))) if found else None
