"""Cut and fill to a level or a falling plane: prisms summed exactly over the ground's triangles."""

from collections.abc import Sequence
from math import ceil, fsum

from drylay.errors import Fault
from drylay.findings import Finding, Severity
from drylay.marks import is_number
from drylay.survey.clipping import Shape, Spot, area_of, cut_off, volume_of, within_triangle
from drylay.survey.faults import MOST_MM, outline_fits, refuse
from drylay.survey.model import Earthwork, Formation, Place, Ring, Surface
from drylay.survey.rounding import area_m2, litres_up, tenth, tenth_up
from drylay.survey.sources import BULKING, FILL_KG_M3, PRACTICE, RETAINED_MM, SKIP_M3, SUM

#: Less of an outline than this beyond the points is what rounding leaves. 100 mm2.
NOTHING_MM2 = 100.0


def earthwork(
    surface: Surface, area: Ring, formation: Formation
) -> tuple[Earthwork, tuple[Finding, ...]]:
    """Return what is cut and filled over an outline to a formation, with what is to be told.

    Every triangle is cut to the outline and then along the line where ground and formation meet;
    each part is a prism under a straight top, summed without a grid. Dug earth takes 1.25 times
    its room; gravel fill weighs 1600 kg/m3 (both common practice, no source). Volumes are told up
    to the next litre.

    Raises:
        InputError: An outline of fewer than three places, or figures that are none.
    """
    refuse(_unfit(area, formation))
    ring = _round(area)
    pieces = pieces_over(surface, ring)
    deep = [tuple(_depth(spot, formation) for spot in piece) for piece in pieces]
    dug = [part for piece in deep if (part := cut_off(piece, lambda s: s[2]))]
    raised = [part for piece in deep if (part := cut_off(piece, lambda s: -s[2]))]
    work = _work(ring, formation, pieces, dug, raised)
    return work, _findings(surface, work)


def _unfit(area: Sequence[Place], formation: Formation) -> list[Fault]:
    faults = list(outline_fits(area))
    for name in ("level_mm", "fall_along_ratio", "fall_across_ratio"):
        value = getattr(formation, name)
        most = MOST_MM if name == "level_mm" else 1.0
        if not is_number(value) or not abs(value) <= most:
            wanted = f"a number, {-most:g} to {most:g}"
            faults.append(Fault(path=f"formation.{name}", found=str(value), wanted=wanted))
    return faults


def _round(area: Ring) -> Ring:
    """Return an outline the way round that turns from along towards across."""
    flat = tuple((x, y, 0.0) for x, y in area)
    return area if area_of(flat) >= 0 else area[::-1]


def pieces_over(surface: Surface, ring: Ring) -> list[Shape]:
    """Return what of each triangle of the ground lies within an outline, with its levels."""
    pieces = [within_triangle(ring, corners_of(surface, three)) for three in surface.triangles]
    return [piece for piece in pieces if len(piece) > 2 and area_of(piece) > 0]


def corners_of(surface: Surface, three: tuple[int, int, int]) -> Shape:
    """Return the corners of a triangle with their levels."""
    return tuple(
        (p.along_mm, p.across_mm, p.level_mm) for p in (surface.points[at] for at in three)
    )


def _plane(spot: Spot | Place, formation: Formation) -> float:
    """Return the formation's level at a spot."""
    return (
        formation.level_mm
        - spot[0] * formation.fall_along_ratio
        - spot[1] * formation.fall_across_ratio
    )


def _depth(spot: Spot, formation: Formation) -> Spot:
    return (spot[0], spot[1], spot[2] - _plane(spot, formation))


def _work(
    ring: Ring, formation: Formation, pieces: list[Shape], dug: list[Shape], raised: list[Shape]
) -> Earthwork:
    over = fsum(map(area_of, pieces))
    whole = area_of(tuple((x, y, 0.0) for x, y in ring))
    cut, fill = fsum(map(volume_of, dug)), -fsum(map(volume_of, raised))
    cut_m3, fill_m3 = litres_up(cut), litres_up(fill)
    level = fsum(volume_of(tuple(_depth(s, _flat(formation)) for s in piece)) for piece in pieces)
    loose_m3 = litres_up(cut * BULKING)
    return Earthwork(
        formation=formation,
        area_m2=area_m2(over),
        unmeasured_m2=area_m2(whole - over) if whole - over > NOTHING_MM2 else 0.0,
        cut_m3=cut_m3,
        fill_m3=fill_m3,
        cut_area_m2=area_m2(fsum(map(area_of, (p for p in dug if _thick(p))))),
        fill_area_m2=area_m2(fsum(map(area_of, (p for p in raised if _thick(p))))),
        deepest_cut_mm=_most(dug, 1.0),
        highest_fill_mm=_most(raised, -1.0),
        edge_step_mm=_edge_step(dug, raised, ring),
        balance_mm=tenth(level / over) if over else None,
        bulking_ratio=BULKING,
        loose_m3=loose_m3,
        skip_m3=SKIP_M3,
        skips=ceil(round(loose_m3 / SKIP_M3, 6)),
        fill_kg_m3=FILL_KG_M3,
        fill_kg=tenth_up(fill_m3 * FILL_KG_M3),
        cut_rings_mm=_rings(dug),
        fill_rings_mm=_rings(raised),
    )


def _flat(formation: Formation) -> Formation:
    """Return the plane of a formation's falls through level 0: heights over it are levels there."""
    return Formation(
        level_mm=0.0,
        fall_along_ratio=formation.fall_along_ratio,
        fall_across_ratio=formation.fall_across_ratio,
    )


def _thick(piece: Shape) -> bool:
    """Whether a piece is dug or raised at all: ground at the formation's level is neither."""
    return any(spot[2] != 0 for spot in piece)


def _most(pieces: list[Shape], sign: float) -> float:
    return tenth_up(max((sign * spot[2] for piece in pieces for spot in piece), default=0.0))


def _edge_step(dug: list[Shape], raised: list[Shape], ring: Ring) -> float:
    """Return the highest step that earthwork leaves at the outline's edge: what is held back."""
    spots = [spot for piece in (*dug, *raised) for spot in piece if _on_edge(spot, ring)]
    return tenth_up(max((abs(spot[2]) for spot in spots), default=0.0))


def _on_edge(spot: Spot, ring: Ring) -> bool:
    for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True):
        square = (bx - ax) ** 2 + (by - ay) ** 2 or 1.0
        share = ((spot[0] - ax) * (bx - ax) + (spot[1] - ay) * (by - ay)) / square
        share = min(1.0, max(0.0, share))
        off_x, off_y = spot[0] - ax - share * (bx - ax), spot[1] - ay - share * (by - ay)
        if off_x * off_x + off_y * off_y < 0.01:
            return True
    return False


def _rings(pieces: list[Shape]) -> tuple[Ring, ...]:
    """Return pieces as rings to a tenth of a mm, those of no size left out."""
    return tuple(
        tuple((tenth(x), tenth(y)) for x, y, _ in piece)
        for piece in pieces
        if area_of(piece) > NOTHING_MM2 and _thick(piece)
    )


def _findings(surface: Surface, work: Earthwork) -> tuple[Finding, ...]:
    found = []
    if work.unmeasured_m2:
        found.append(Finding(
            code="SVY-041", severity=Severity.CAUTION, subject="earthwork",
            message="part of the outline lies beyond the levels measured: its cut and fill are not "
            "known and in no figure; take levels out there",
            measured=work.unmeasured_m2, limit=0.0, unit="m2", source=SUM,
        ))  # fmt: skip
    if work.edge_step_mm > RETAINED_MM:
        found.append(Finding(
            code="SVY-042", severity=Severity.STOP, subject="earthwork",
            message="earth held back at the edge is higher than may be without a design: ask a "
            "professional",
            measured=work.edge_step_mm, limit=RETAINED_MM, unit="mm", source=PRACTICE,
        ))  # fmt: skip
    if surface.fold_m3 > max(0.1, 0.1 * work.cut_m3):
        found.append(Finding(
            code="SVY-043", severity=Severity.NOTE, subject="earthwork",
            message="between points on one circle the ground may fold either way: all volumes "
            "together may differ by so much; a level in the middle of each square would tell",
            measured=surface.fold_m3, limit=0.0, unit="m3", source=SUM,
        ))  # fmt: skip
    return tuple(found)
