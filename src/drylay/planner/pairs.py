"""What board ends rest on at joints: a joist's middle, a pair of joists, or a batten beside one."""

from collections.abc import Iterable

from attrs import evolve

from drylay.edges.model import Edges
from drylay.findings import Finding, Severity
from drylay.frame.battens import Battens, place_battens
from drylay.frame.model import Batten, Frame, Noggin
from drylay.marks import exact
from drylay.pieces.model import Pieces
from drylay.planner.built import Built
from drylay.planner.governed import BATTEN_FOR_PAIR
from drylay.planner.hanging import not_between
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, row
from drylay.reasons import Ruling, Source, TurnedDown
from drylay.supports.lines import place_joists
from drylay.supports.model import Supports
from drylay.supports.pairs import place_pairs, with_overhang
from drylay.surface.model import Surface

JOISTS, BATTENS = "supports.joists_under_joint", "supports.battens_per_joint"
OVERHANG = "supports.overhang_most_mm"
#: Screws of a batten for each joint on it. Assumption: two could let it turn.
PER_BATTEN_JOINT = 3
OURS = Source(kind="assumption", title="docs/conventions.md", clause="Joint support")


def on_pairs(job: Job) -> bool:
    """Return whether joints lie over pairs of joists."""
    return job.rules.count(JOISTS) > 1


def place_lines(
    job: Job, edges: Edges, surface: Surface, *, more_lines: int, seams_mm: Iterable[float]
) -> Supports:
    """Return the joist lines, in pairs under the seams where joints lie over pairs.

    Raises:
        InputError: A seam leaves no room for two joists.
    """
    thick_mm, most_mm = (
        job.articles.timber.thickness_mm,
        job.rules.value("supports.most_centres_mm"),
    )
    if on_pairs(job):
        placed = place_pairs(
            length_mm=edges.frame_length_mm,
            joist_mm=thick_mm,
            most_centres_mm=most_mm,
            seams_mm=tuple(seams_mm),
            start_mm=edges.frame_start_mm,
            units=job.brief.units,
        )
    else:
        placed = place_joists(
            length_mm=edges.frame_length_mm,
            joist_mm=thick_mm,
            most_centres_mm=most_mm,
            start_mm=edges.frame_start_mm,
            more_lines=more_lines,
            units=job.brief.units,
        )
        placed = evolve(placed, joists_under_joint=1)
    battens = 0 if on_pairs(job) else job.rules.count(BATTENS)
    return with_overhang(
        evolve(
            placed,
            battens_per_joint=battens,
            batten_for_pair=bool(job.rules.value(BATTEN_FOR_PAIR)),
        ),
        row_length_mm=surface.row_length_mm,
        frame_start_mm=edges.frame_start_mm,
        frame_length_mm=edges.frame_length_mm,
        most_mm=job.rules.value(OVERHANG),
    )


def paired_joists(supports: Supports) -> frozenset[str]:
    """Return the marks of all joists that stand in pairs."""
    return frozenset(mark for seam in supports.seams for mark in (seam.left, seam.right))


def lay_battens(
    job: Job, surface: Surface, edges: Edges, supports: Supports, pieces: Pieces, *, jointed: bool
) -> Battens | None:
    """Return the battens under all joints, None where joints do not lie on battens.

    They keep a timber's thickness off rims that are `jointed`, for the splices, or that hangers
    are nailed to.
    """
    if not supports.battens_per_joint:
        return None
    off = jointed or job.articles.hanger is not None
    return place_battens(
        pieces,
        surface,
        edges,
        supports,
        off_rims_mm=supports.joist_thickness_mm if off else 0.0,
        units=job.brief.units,
    )


def rows(job: Job, built: Built, tried: tuple[TurnedDown, ...]) -> list[Row]:
    """Return the decisions taken here; `tried` are the sets of seams turned down."""
    supports, frame, fixings = built.supports, built.frame, built.fixings
    found = [
        _battens_row(job, supports),
        row("supports.overhang_mm", supports.overhang_mm, "mm",
            "a planted fascia's thickness beyond the outer joist, at the end where it is more",
            ARITHMETIC, (("frame_length_mm", built.edges.frame_length_mm),
                         ("row_length_mm", built.surface.row_length_mm))),
    ]  # fmt: skip
    if supports.seam_count is not None:
        found.append(_seams_row(job, supports, tried))
    if frame.batten_count is not None:
        found.append(
            row("frame.batten_count", frame.batten_count, "count",
                "one against a joist's far face under each joint; those that would touch are one",
                OURS, (("joint_count", built.pieces.joint_count),)))  # fmt: skip
    screws = fixings.frame_screws
    if screws is not None and screws.per_batten_joint is not None:
        found.append(
            row("fixings.frame_screws.per_batten_joint", screws.per_batten_joint, "count",
                "so many for each joint that a batten carries: it cannot turn", OURS))  # fmt: skip
    return found


def _battens_row(job: Job, supports: Supports) -> Row:
    ruling = job.rules.rulings[BATTENS]
    if on_pairs(job) and ruling.value:
        ruling = Ruling(
            value=0, unit=ruling.unit, rule="a pair of joists needs no batten", source=PRACTICE,
            inputs=(("otherwise", ruling.value),),
        )  # fmt: skip
    return BATTENS, supports.battens_per_joint, ruling, ()


def _seams_row(job: Job, supports: Supports, tried: tuple[TurnedDown, ...]) -> Row:
    told = seams_told([seam.offset_mm for seam in supports.seams])
    fixed = job.brief.joints.lines_mm is not None
    rule = f"joint lines {told}: " + (
        "as the brief fixes them" if fixed else "the cheapest of those tried, boards and joists "
        "priced together"
    )  # fmt: skip
    return row("supports.seam_count", supports.seam_count, "count", rule,
               brief_says("joints.lines_mm") if fixed else ARITHMETIC,
               (("line_count", supports.line_count),), tried)  # fmt: skip


def seams_told(seams_mm: Iterable[float]) -> str:
    """Return joint lines as a text: "1800, 3600 mm", or "none"."""
    told = ", ".join(f"{seam:g}" for seam in seams_mm)
    return f"{told} mm" if told else "none"


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about them."""
    hung = not_between(job, built.supports, built.frame) if built.frame.hung else ()
    return [*_overhang(job, built), *_noggins_behind_battens(built), *hung]


def _overhang(job: Job, built: Built) -> list[Finding]:
    supports = built.supports
    over_mm, most_mm = supports.overhang_mm or 0.0, supports.overhang_most_mm
    if most_mm is None or over_mm <= most_mm:
        return []
    return [
        Finding(
            code="SUP-001",
            severity=Severity.CAUTION,
            subject="overhang",
            message="boards reach further past the outer joist than their family allows: name a "
            "thinner fascia, or leave it off where the rows end",
            measured=over_mm,
            limit=most_mm,
            unit="mm",
            source=job.rules.source(OVERHANG),
        )
    ]


def _noggins_behind_battens(built: Built) -> list[Finding]:
    """Return the stop for noggins that found no place clear of the battens in their bay."""
    shut = [
        noggin
        for noggin in built.frame.noggins
        if any(_in_the_way(built.frame, noggin, batten) for batten in built.frame.battens)
    ]
    return [
        Finding(
            code="SUP-002",
            severity=Severity.STOP,
            subject=noggin.mark,
            message="no room for a noggin beside the battens in its bay: ask for pairs of joists, "
            'joints.support = "pair"',
            measured=noggin.across_mm,
            unit="mm",
            source=OURS,
        )
        for noggin in shut[:1]
    ]


def _in_the_way(frame: Frame, noggin: Noggin, batten: Batten) -> bool:
    half = exact(frame.timber_thickness_mm) // 2
    near, far = exact(batten.near_mm), exact(batten.near_mm) + exact(batten.length_mm)
    return batten.joist == noggin.left and near - half < exact(noggin.across_mm) < far + half
