"""Bearers with their posts and plies under lines that are settled: each its own load."""

from collections.abc import Sequence

from attrs import frozen

from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.raised.carried import carried_mm, hung_carried_mm
from drylay.raised.model import (
    Bearer,
    BearerLines,
    PlyJoint,
    PostPlaces,
    SpanLimit,
)
from drylay.raised.outline_model import JoistRun, OutlinedLines, Stretch, Trimmer
from drylay.raised.plies import ply_joints
from drylay.raised.posts import BearerSpans, post_places
from drylay.reasons import Source
from drylay.strength.model import Section

PLIES = Source(
    kind="common practice",
    title="common practice, no source",
    clause="plies jointed over posts, staggered",
)
TRIMMED = Source(
    kind="common practice", title="common practice, no source", clause="joists beside an opening"
)


@frozen(kw_only=True)
class Rules:
    """What bearers and posts keep: spans by width carried, free end, posts, timber on sale."""

    section: Section
    post_mm: float
    spans: BearerSpans
    end: SpanLimit
    back_ratio: float | None
    longest_mm: float
    sharing: str = "levered"
    units: str = "metric"


@frozen(kw_only=True)
class Fitted:
    """A bearer with where its posts stand, from its own start."""

    bearer: Bearer
    posts: PostPlaces


def lines_carried_mm(lines: BearerLines, sharing: str = "levered") -> tuple[float, ...]:
    """Return the width that each bearer line of a rectangle carries, its ledger's left out.

    Joists that hang between bearers are beams of one span each: `hung_carried_mm`, whatever the
    sharing.

    Raises:
        InputError: No such sharing.
    """
    if lines.hung:
        return hung_carried_mm(lines_mm=lines.lines_mm, bearer_mm=lines.bearer_mm,
                               ledger_mm=lines.ledger_mm)  # fmt: skip
    if lines.ledger_mm is None:
        return carried_mm(length_mm=lines.depth_mm, supports_mm=lines.lines_mm, sharing=sharing)
    off = exact(lines.ledger_mm)
    at = [0.0, *(to_mm(exact(line) - off) for line in lines.lines_mm)]
    length_mm = to_mm(exact(lines.depth_mm) - off)
    return carried_mm(length_mm=length_mm, supports_mm=at, sharing=sharing)[1:]


def stretch_carried_mm(of: OutlinedLines, stretch: Stretch, sharing: str = "levered") -> float:
    """Return the greatest width that a bearer carries of any joist over it; 0 if it has none.

    Raises:
        InputError: No such sharing.
    """
    low, high, at = stretch.start_mm, stretch.end_mm, stretch.across_mm
    over = [run for run in of.runs
            if low <= run.along_mm <= high and run.start_mm < at < run.end_mm]  # fmt: skip
    return max((_on_run(of, run, at, sharing) for run in over), default=0.0)


def _on_run(of: OutlinedLines, run: JoistRun, at_mm: float, sharing: str) -> float:
    own = {s.across_mm for s in of.stretches if _meets(s, run)} | {at_mm}
    held = {run.start_mm} if run.start_held else set()
    held |= {run.end_mm} if run.end_held else set()
    supports = sorted(own | held)
    start = exact(run.start_mm)
    if len(supports) < 2:
        return to_mm(exact(run.end_mm) - start)
    shares = carried_mm(
        length_mm=to_mm(exact(run.end_mm) - start),
        supports_mm=[to_mm(exact(place) - start) for place in supports],
        sharing=sharing,
    )
    return shares[supports.index(at_mm)]


def _meets(stretch: Stretch, run: JoistRun) -> bool:
    along = stretch.start_mm <= run.along_mm <= stretch.end_mm
    return along and run.start_mm < stretch.across_mm < run.end_mm


def outlined_bearers(
    of: OutlinedLines, rules: Rules
) -> tuple[tuple[Fitted, ...], tuple[Finding, ...]]:
    """Return every bearer that carries joists, with its posts and joints, and what is told.

    Raises:
        InputError: As `post_places`.
    """
    loads = [(each, stretch_carried_mm(of, each, rules.sharing)) for each in of.stretches]
    used = [(each, load) for each, load in loads if load > 0.0]
    fitted = []
    found: list[Finding] = []
    for number, (stretch, load) in enumerate(used, 1):
        one, told = bearer_on(f"BR{number}", stretch, load, rules)
        fitted.append(one)
        found += told
    return tuple(fitted), (*found, *trimmer_findings(of.trimmers))


def bearer_on(
    mark: str, stretch: Stretch, load_mm: float, rules: Rules
) -> tuple[Fitted, tuple[Finding, ...]]:
    """Return a bearer with its posts and joints; RSD-007 where its plies cannot be jointed.

    Raises:
        InputError: As `post_places`.
    """
    long_mm = to_mm(exact(stretch.end_mm) - exact(stretch.start_mm))
    posts, joints = _jointed(long_mm, load_mm, rules)
    bearer = Bearer(
        mark=mark, line=f"line {stretch.line}", section=rules.section,
        across_mm=stretch.across_mm, start_mm=stretch.start_mm, end_mm=stretch.end_mm,
        carried_mm=load_mm, joints=joints or (),
    )  # fmt: skip
    told = () if joints is not None else (_unjointed(mark, long_mm, rules),)
    return Fitted(bearer=bearer, posts=posts), told


#: So many posts more than the fewest are tried, for plies to be jointed over.
MORE_FOR_PLIES = 4


def _jointed(
    long_mm: float, load_mm: float, rules: Rules
) -> tuple[PostPlaces, tuple[PlyJoint, ...] | None]:  # fmt: skip
    """Return posts and ply joints: the fewest posts over which the plies can be jointed."""
    fewest = _posts(long_mm, load_mm, rules, 0)
    for more in range(MORE_FOR_PLIES + 1):
        if more and not _fits(fewest, more):
            break
        posts = _posts(long_mm, load_mm, rules, more)
        joints = ply_joints(length_mm=long_mm, posts_mm=posts.places_mm,
                            plies=rules.section.plies, longest_mm=rules.longest_mm)  # fmt: skip
        if joints is not None:
            return posts, joints
    return fewest, None


def _fits(fewest: PostPlaces, more: int) -> bool:
    """Whether so many posts more find room side by side, with as much again between them."""
    return (fewest.post_count + more) * 2 * fewest.post_mm <= fewest.length_mm


def _posts(long_mm: float, load_mm: float, rules: Rules, more: int) -> PostPlaces:
    return post_places(
        length_mm=long_mm, post_mm=rules.post_mm, carried_mm=load_mm, spans=rules.spans,
        end=rules.end, back_ratio=rules.back_ratio, more_posts=more, units=rules.units,
    )  # fmt: skip


def _unjointed(mark: str, long_mm: float, rules: Rules) -> Finding:
    return Finding(
        code="RSD-007", severity=Severity.STOP, subject=mark, measured=long_mm,
        limit=rules.longest_mm, unit="mm", source=PLIES,
        message="no timber on sale is long enough for its plies to be jointed over posts, no two "
        "over one",
    )  # fmt: skip


def trimmer_findings(trimmers: Sequence[Trimmer]) -> tuple[Finding, ...]:
    """Return a caution (RSD-008) for every opening that is trimmed: what the joists beside carry.

    `measured` is from joist to joist.
    """
    return tuple(
        Finding(
            code="RSD-008", severity=Severity.CAUTION, subject=f"opening {number}",
            measured=to_mm(exact(one.to_mm) - exact(one.from_mm)), unit="mm", source=TRIMMED,
            message="joists that it cuts hang on trimmers: the joists beside it carry these "
            "besides their own, and are screened with that load",
        )
        for number, one in sorted({each.opening: each for each in trimmers}.items())
    )  # fmt: skip
