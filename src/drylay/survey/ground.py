"""Ground between scattered levels: flat on every triangle of points, nothing beyond them."""

from collections.abc import Sequence
from fractions import Fraction

from drylay.brief.model import GroundPoint
from drylay.errors import Fault
from drylay.findings import Finding, Severity
from drylay.marks import exact, is_number
from drylay.survey.faults import MOST_MM, MOST_POINTS, refuse
from drylay.survey.model import Closure, Place, Surface
from drylay.survey.rounding import litres_up, tenth
from drylay.survey.sources import CLOSURE_MM, PRACTICE
from drylay.survey.triangles import folds, hull_of, triangulated, turn

#: A level on a triangle is told to the nearest of so many in a mm.
PER_MM = 1000


def ground_surface(points: Sequence[GroundPoint]) -> Surface | None:
    """Return the ground between points as triangles; None where all points lie in one line.

    The triangles are Delaunay's. Where four points lie on one circle, as those of a square grid do,
    the ground may fold either way between them: one way is taken, always the same, and `fold_m3`
    tells by how much any volume may differ.

    Raises:
        InputError: Points at one place, too many, or no numbers.
    """
    refuse(_unfit(points))
    places = [(exact(p.along_mm), exact(p.across_mm)) for p in points]
    triangles = triangulated(places)
    if not triangles:
        return None
    return Surface(
        points=tuple(points),
        triangles=triangles,
        edge=hull_of(triangles),
        fold_m3=litres_up(sum(_fold_mm3(points, four) for four in folds(places, triangles))),
    )


def _unfit(points: Sequence[GroundPoint]) -> list[Fault]:
    faults: list[Fault] = []
    seen: dict[tuple[int, int], int] = {}
    if len(points) > MOST_POINTS:
        faults.append(Fault(path="points", found=f"{len(points)}",
                            wanted=f"at most {MOST_POINTS} points"))  # fmt: skip
    for at, point in enumerate(points):
        told = (point.along_mm, point.across_mm, point.level_mm)
        if not all(is_number(n) and abs(n) <= MOST_MM for n in told):
            faults.append(Fault(path=f"points[{at}]", found=str(told), wanted="numbers of mm"))
            continue
        other = seen.setdefault((exact(told[0]), exact(told[1])), at)
        if other != at:
            faults.append(Fault(path=f"points[{at}]", found=f"the place of points[{other}]",
                                wanted="every place once"))  # fmt: skip
    return faults


def _fold_mm3(points: Sequence[GroundPoint], four: tuple[int, ...]) -> float:
    """Return what lies between the two ways to fold: the tetrahedron of four points."""
    a, b, c, d = (points[at] for at in four)
    rows = [(p.along_mm - a.along_mm, p.across_mm - a.across_mm, p.level_mm - a.level_mm)
            for p in (b, c, d)]  # fmt: skip
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = rows
    return abs(ax * (by * cz - bz * cy) - ay * (bx * cz - bz * cx) + az * (bx * cy - by * cx)) / 6


def level_at(surface: Surface, along_mm: float, across_mm: float) -> float | None:
    """Return the ground's level at a place in mm, None beyond the points: nothing is invented."""
    spot = (exact(along_mm), exact(across_mm))
    for three in surface.triangles:
        shares = shares_in(surface, three, spot)
        if shares is not None:
            points = [surface.points[at] for at in three]
            level = sum(share * exact(p.level_mm) for share, p in zip(shares, points, strict=True))
            return round(level / 320 * PER_MM) / PER_MM
    return None


def shares_in(
    surface: Surface, three: tuple[int, int, int], spot: tuple[int, int]
) -> tuple[Fraction, ...] | None:
    """Return what each corner of a triangle has of a spot on it; None where it lies beside it."""
    a, b, c = ((exact(p.along_mm), exact(p.across_mm)) for p in (surface.points[n] for n in three))
    parts = (turn(spot, b, c), turn(a, spot, c), turn(a, b, spot))
    if min(parts) < 0:
        return None
    return tuple(Fraction(each, sum(parts)) for each in parts)


def place_of(surface: Surface, at: int) -> Place:
    """Return where a point lies."""
    return (surface.points[at].along_mm, surface.points[at].across_mm)


def level_run(*, opening_mm: float, closing_mm: float) -> tuple[Closure, tuple[Finding, ...]]:
    """Return by how much a run of levels does not close, a spot read first and last.

    Limit: 3 mm, common practice, no source. A run that misses it is to be read again.
    """
    off = tenth(closing_mm - opening_mm)
    closure = Closure(closing_mm=off, most_mm=CLOSURE_MM, source=PRACTICE)
    if abs(off) <= CLOSURE_MM:
        return closure, ()
    finding = Finding(
        code="SVY-020", severity=Severity.CAUTION, subject="levels",
        message="the run of levels does not close: a reading or a set-up is wrong, read them again",
        measured=abs(off), limit=CLOSURE_MM, unit="mm", source=PRACTICE,
    )  # fmt: skip
    return closure, (finding,)
