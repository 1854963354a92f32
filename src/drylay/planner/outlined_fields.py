"""The fields of an outline laid out dry: borders and breaker boards set, rows fitted and shared."""

from attrs import evolve, field, frozen

from drylay.geometry import (
    Place,
    Region,
    Ring,
    hole_rings,
    minus,
    parts_of,
    region,
    ring_of,
)
from drylay.laying.axes import place_of, spot
from drylay.laying.border import (
    BorderBoard,
    BorderMitre,
    Squeeze,
    border_mm,
    lay_border,
    mitres,
    squeeze_of,
)
from drylay.laying.fields import (
    Breaker,
    Edge,
    breaker_lies,
    breakers_at,
    breakers_needed,
    edges_seen,
    field_box,
    inside_border,
    off_sides,
    within_field,
    without_fields,
    zones_in,
)
from drylay.laying.fit import RowFit, best_of, fits
from drylay.laying.model import LaidRow, Zone
from drylay.laying.parts import band_of, seen_width_mm
from drylay.laying.rows import (
    FieldShape,
    RowGrid,
    depth_of,
    fan_of,
    first_row_of,
    grid_of,
    mean_gap_mm,
    rows_in,
    tapered,
)
from drylay.marks import exact, to_mm
from drylay.outline.model import Outline
from drylay.planner.angles import angle_of
from drylay.planner.buy import Blocked
from drylay.planner.job import Job
from drylay.planner.outlined_field_edges import between_fields_mm, boxes_laid, edges_clash
from drylay.planner.outlined_field_stops import (
    crowded,
    hole,
    no_border,
    no_way,
    nothing_left,
    squeezed,
)
from drylay.planner.outlined_job import (
    FAN_MOST_MM,
    fit_rules,
    joints_single,
    kinds_of,
    mark_mm,
    sizes_of,
)
from drylay.planner.outlined_under import Seam, rungs_under, seams_under


@frozen(kw_only=True)
class FieldLaid:
    """One field with its rows as they were chosen: `ways` are all that were weighed."""

    shape: FieldShape
    grid: RowGrid
    ways: tuple[RowFit, ...]
    leans_mm: float

    @property
    def fit(self) -> RowFit:
        """Return the way chosen."""
        return self.grid.fit


@frozen(kw_only=True)
class FieldsLaid:
    """All fields laid out: zones with their areas and rows, borders, breaker boards, seams."""

    ring: Ring
    fields: tuple[FieldLaid, ...]
    zones: tuple[Zone, ...]
    areas: dict[str, Region] = field(factory=dict)
    rows: tuple[LaidRow, ...]
    border: tuple[BorderBoard, ...] = ()
    border_mm: float = 0.0
    mitres: tuple[BorderMitre, ...] = ()
    breakers: tuple[Breaker, ...] = ()
    breaker_areas: tuple[Region, ...] = ()
    seams: tuple[Seam, ...] = ()
    rungs: tuple[tuple[Place, Place, str], ...] = ()


@frozen(kw_only=True)
class _Base:
    """What the main field is laid in: the border around it, the breaker boards across it."""

    ring: Ring
    first_row: str
    edges: tuple[Edge, ...]
    border_mm: float
    breakers: tuple[Breaker, ...] = ()


def lay_fields(job: Job, outline: Outline) -> FieldsLaid | Blocked:
    """Return all fields laid out, or why they cannot be."""
    ring = tuple(place_of(side.start) for side in outline.sides)
    wish, sizes = job.brief.laying, sizes_of(job)
    boards = lay_border(
        ring, courses=wish.border_courses, board_mm=sizes.board_mm, gap_mm=sizes.gap_mm
    )
    wide = border_mm(wish.border_courses, sizes.board_mm, sizes.gap_mm)
    if boards is None:
        return Blocked(findings=(no_border(outline, ring, wide),))
    first_row = _first_row(region(ring), angle_of(job.brief), wish.first_row)
    base = _Base(
        ring=ring,
        first_row=first_row,
        edges=edges_seen(ring, angle_of(job.brief), first_row),
        border_mm=wide,
    )
    squeeze = _squeezed(job, base)
    if squeeze is not None:
        return Blocked(findings=(squeezed(outline, squeeze),))
    clashes = edges_clash(job, outline, ring)
    if clashes:
        return Blocked(findings=clashes)
    base = evolve(base, breakers=_breakers(job, _main_area(job, base, (0.0, 0.0))))
    too_near = crowded(job, base.breakers)
    if too_near:
        return Blocked(findings=too_near)
    main = _main(job, base)
    if isinstance(main, Blocked):
        return main
    others = [_other(job, base, number) for number in range(1, len(wish.fields) + 1)]
    squeeze = _squeezed(job, base, _end_gaps(main))
    if squeeze is not None:
        return Blocked(findings=(squeezed(outline, squeeze),))
    stopped = [each for each in others if isinstance(each, Blocked)]
    if stopped:
        return stopped[0]
    fields = (main, *(each for each in others if isinstance(each, FieldLaid)))
    return _shared(job, base, fields, boards)


def _first_row(area: Region, angle_deg: float, wished: str | None) -> str:
    """Return which side rows are counted from: as wished, else the side that does not lean."""
    if wished is not None or area.is_empty:
        return wished or "near"
    return first_row_of(FieldShape(mark="", area=area, angle_deg=angle_deg, first_row="near"))


def _breakers(job: Job, area: Region) -> tuple[Breaker, ...]:
    wish, sizes = job.brief.laying, sizes_of(job)
    if wish.breakers_mm is not None:
        return breakers_at(wish.breakers_mm, sizes.board_mm)
    if wish.breakers == "none" or (wish.breakers is None and joints_single(job)):
        return ()
    at = breakers_needed(
        area,
        angle_of(job.brief),
        longest_mm=sizes.longest_mm,
        board_mm=sizes.board_mm,
        gap_mm=sizes.end_gap_mm,
    )
    return breakers_at(at, sizes.board_mm)


def _squeezed(job: Job, base: _Base, ends_mm: tuple[float, float] = (0.0, 0.0)) -> Squeeze | None:
    """Return where the border and its gaps leave no field, before rows are fitted or after."""
    sizes = sizes_of(job)
    if not base.border_mm:
        return None
    off = off_sides(
        base.edges,
        border_mm=base.border_mm,
        end_gap_mm=sizes.end_gap_mm,
        gap_mm=sizes.gap_mm,
        ends_mm=ends_mm,
    )
    if job.brief.laying.breakers_mm or job.brief.laying.breakers == "as_needed":
        off = [max(each, base.border_mm + sizes.end_gap_mm) for each in off]
    return squeeze_of(base.ring, off)


def _inside(job: Job, base: _Base, ends_mm: tuple[float, float] = (0.0, 0.0)) -> Region:
    sizes = sizes_of(job)
    return inside_border(
        base.ring,
        base.edges,
        border_mm=base.border_mm,
        end_gap_mm=sizes.end_gap_mm,
        gap_mm=sizes.gap_mm,
        ends_mm=ends_mm,
    )


def _main_area(job: Job, base: _Base, ends_mm: tuple[float, float]) -> Region:
    others = [field_box(each.corner, each.size) for each in boxes_laid(job, base.ring)]
    return without_fields(_inside(job, base, ends_mm), others, between_fields_mm(job) / 2)


def _main(job: Job, base: _Base) -> FieldLaid | Blocked:
    """Return the main field with its rows: fitted to the border first, then laid gaps off."""
    bordered = base.border_mm > 0
    shape = FieldShape(
        mark="main",
        area=_main_area(job, base, (0.0, 0.0)),
        angle_deg=angle_of(job.brief),
        first_row=base.first_row,
        gap_before=bordered and any(edge.first for edge in base.edges),
        gap_after=bordered and any(edge.last for edge in base.edges),
    )
    return _laid(job, shape, subject="rows")


def _other(job: Job, base: _Base, number: int) -> FieldLaid | Blocked:
    each = job.brief.laying.fields[number - 1]
    *before, own = (
        field_box(box.corner, box.size) for box in boxes_laid(job, base.ring)[:number]
    )  # fmt: skip
    for other in before:
        own = minus(own, other)
    area = within_field(_inside(job, base), own, between_fields_mm(job) / 2)
    shape = FieldShape(
        mark=f"field {number}",
        area=area,
        angle_deg=each.angle_deg,
        first_row=_first_row(area, each.angle_deg, each.first_row),
    )
    return _laid(job, shape, subject=f"rows of field {number}")


def _laid(job: Job, shape: FieldShape, *, subject: str) -> FieldLaid | Blocked:
    """Return a field with the best rows there are, or the stop that none fill it."""
    if shape.area.is_empty:
        return Blocked(findings=(nothing_left(job, subject),))
    depth, leans = depth_of(shape)
    rules = fit_rules(job)
    most_rows = depth.depth_320 // (rules.board_320 + rules.gap_least_320)
    fan = fan_of(leans, max(1, most_rows - 1), most_mm=FAN_MOST_MM, mark_mm=mark_mm(job))
    depth = tapered(depth, leans - fan)
    ways = fits(depth, evolve(rules, fan_320=exact(fan)))
    best = best_of(ways, kinds_of(job), rules.gap_preferred_320)
    if best is None and fan:
        fan = 0.0
        depth = tapered(depth_of(shape)[0], leans)
        ways = fits(depth, rules)
        best = best_of(ways, kinds_of(job), rules.gap_preferred_320)
    if best is None:
        return Blocked(findings=(evolve(no_way(job, depth, rules, ways), subject=subject),))
    grid = grid_of(shape, best, fan_mm=fan)
    return FieldLaid(shape=shape, grid=grid, ways=ways, leans_mm=leans)


def _shared(
    job: Job, base: _Base, fields: tuple[FieldLaid, ...], boards: tuple[BorderBoard, ...]
) -> FieldsLaid | Blocked:
    """Return rows shared out to the zones that breaker boards part the main field into."""
    sizes = sizes_of(job)
    zones: list[Zone] = []
    areas: dict[str, Region] = {}
    rows: list[LaidRow] = []
    for laid in fields:
        area = laid.shape.area
        if laid.shape.mark == "main":
            area = _parted(job, base, _main_area(job, base, _end_gaps(laid)))
        for part in zones_in(area):
            if any(hole_rings(each) for each in parts_of(part)):
                return Blocked(findings=(hole(laid.shape.mark),))
            mark = f"Z{len(zones) + 1}"
            own = rows_in(
                laid.grid, part, zone=mark, board_320=exact(sizes.board_mm), first=len(rows) + 1
            )
            areas[mark] = part
            zones.append(_zone(laid, mark, part, own))
            rows += own
    return FieldsLaid(
        ring=base.ring,
        fields=fields,
        zones=tuple(zones),
        areas=areas,
        rows=tuple(rows),
        border=boards,
        border_mm=base.border_mm,
        mitres=mitres(base.ring, wide_mm=base.border_mm) if base.border_mm else (),
        breakers=base.breakers,
        breaker_areas=tuple(board for board, _ in _breaker_boards(job, base)),
        seams=seams_under(job, base.ring, base.edges, base.breakers, border_mm=base.border_mm),
        rungs=tuple(rungs_under(job, zones, areas)),
    )


def _end_gaps(laid: FieldLaid) -> tuple[float, float]:
    """Return the gaps beside the first and the last row, where a border lies there."""
    depth, _ = depth_of(laid.shape)
    rows = laid.fit.rows
    last = depth.depth_320 - rows[-1].edge_320 - rows[-1].width_320
    return (
        to_mm(rows[0].edge_320) if laid.shape.gap_before else 0.0,
        to_mm(last) if laid.shape.gap_after else 0.0,
    )


def _parted(job: Job, base: _Base, area: Region) -> Region:
    """Return the main field without its breaker boards, an end gap off on either side."""
    for _, taken in _breaker_boards(job, base):
        area = minus(area, taken)
    return area


def _breaker_boards(job: Job, base: _Base) -> list[tuple[Region, Region]]:
    """Return where each breaker board lies, and what it takes of the field.

    They lie within the border, an end gap off all round, and beside other fields as rows do.
    """
    sizes, rules = sizes_of(job), fit_rules(job)
    plain = tuple(Edge(alongside=False, first=False, last=False) for _ in base.edges)
    return [
        breaker_lies(
            region(base.ring),
            _main_area(job, evolve(base, edges=plain), (0.0, 0.0)),
            angle_of(job.brief),
            each,
            gap_mm=sizes.end_gap_mm,
            least_mm=to_mm(min(rules.sliver_320, rules.board_320)),
        )
        for each in base.breakers
    ]


def _zone(laid: FieldLaid, mark: str, area: Region, rows: tuple[LaidRow, ...]) -> Zone:
    fit = laid.fit
    (part,) = parts_of(area)
    return Zone(
        mark=mark,
        angle_deg=laid.shape.angle_deg,
        first_row=laid.shape.first_row,
        corners=tuple(spot(place) for place in ring_of(part)),
        way_out=fit.kind,
        row_count=len(rows),
        gap_mm=mean_gap_mm(rows) if len(rows) > 1 else to_mm(round(fit.gap_320)),
        first_row_mm=_seen_mm(laid, part, rows, 0),
        last_row_mm=_seen_mm(laid, part, rows, -1),
        fan_mm=laid.grid.fan_mm,
    )


def _seen_mm(laid: FieldLaid, area: Region, rows: tuple[LaidRow, ...], at: int) -> float:
    """Return how wide a row is seen inside its zone, square to its edge."""
    if not rows:
        return 0.0
    band = band_of(rows[at], first_row=laid.shape.first_row)
    return seen_width_mm(band, area, rows[at].width_mm)
