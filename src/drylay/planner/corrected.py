"""Correction while laying: a plan and what was measured in, the plan of what is left out."""

from collections.abc import Iterator
from math import fsum, isfinite
from typing import Any

from attrs import evolve

from drylay.audit.closed import audit_plan
from drylay.brief.codec import brief_digest
from drylay.brief.model import Brief
from drylay.correcting.correct import correct
from drylay.correcting.model import (
    ALL,
    Correction,
    EdgeReading,
    EndLaid,
    GapLimits,
    Laid,
    LaidSoFar,
    Reading,
    Tolerances,
)
from drylay.correcting.tolerance import sd_of
from drylay.counting import counted
from drylay.errors import Fault, InputError, PlannerFault, UncoveredError
from drylay.findings import Severity
from drylay.marks import MARK_320, PER_MM, exact, is_number, to_mm
from drylay.materials.lookup import catalogue_digest
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.corrected_pieces import marks_known
from drylay.planner.corrected_reasons import with_reasons
from drylay.planner.corrected_recut import recut_of
from drylay.surface.model import Row, Surface

#: How far a gap may differ from the one before it: common practice, no source.
MOST_CHANGE_320 = {"metric": 480, "imperial": 508}
#: A board is off by up to 1 mm with its batch and by up to 1 mm of its own, a tape is read to
#: 0.5 mm. Assumption. A gap is set to within half a step.
BOARD_MM, TAPE_MM = 1.0, 0.5
#: A frame off by more than this is another deck's. Assumption.
MOST_CHANGED_MM = 100.0


@counted
def correct_plan(
    plan: Plan,
    reading: EdgeReading,
    *,
    brief: Brief | None = None,
    stock: Catalogue | None = None,
    tolerances: Tolerances | None = None,
) -> Plan:
    """Return the plan with this reading in its history, and its rows left laid out anew.

    The rows as designed stay as they are in `surface`; `laid` has the rows left, with gaps and
    edges at both ends, forecasts, when to measure, what is cut again and what becomes of what is
    cut. The plan is audited again.

    Args:
        plan: A buildable plan of boards in parallel rows on a rectangle.
        reading: What was measured; each later one after more rows.
        brief: The brief that the plan was made from, to be held against its digest.
        stock: Its stock, likewise; boards that have to be bought besides are priced by the
            plan's own proof either way.
        tolerances: How true the work is; by default what docs/correcting.md assumes.

    Raises:
        UncoveredError: The deck is one of tiles, or on an outline, or the plan is blocked.
        InputError: The reading cannot be one of this plan: with every fault.
        PlannerFault: The audit stopped the corrected plan.

    Source: docs/correcting.md.
    """
    surface = _covered(plan)
    if reading.cut == ALL:
        reading = evolve(reading, cut=tuple(sorted(marks_known(plan))))
    _refuse(plan, surface, reading, brief, stock)
    reading = _as_kept(reading)
    known = tolerances or tolerances_of(plan)
    so_far = laid_so_far(plan, surface, reading, known)
    found = correct(so_far)
    laid = _laid(plan, surface, reading, so_far, found)
    recut, more = recut_of(plan, laid)
    findings = tuple(f for f in plan.findings if not f.code.startswith("COR-"))
    after = evolve(
        plan,
        laid=evolve(laid, recut=recut),
        findings=(*findings, *found.findings, *more),
    )
    after = with_reasons(after, told=tolerances is not None)
    return _audited(after)


def _audited(plan: Plan) -> Plan:
    report = audit_plan(plan)
    missed = tuple(f for f in report.findings if f.severity is Severity.STOP)
    if missed:
        raise PlannerFault(missed)
    return plan


def tolerances_of(plan: Plan) -> Tolerances:
    """Return how true the work is taken to be where nobody tells: docs/correcting.md."""
    return Tolerances(
        width_mm=round(sd_of(BOARD_MM), 4),
        batch_mm=round(sd_of(BOARD_MM), 4),
        gap_mm=round(sd_of(to_mm(MARK_320[plan.units]) / 2), 4),
        spacer_mm=0.0,
        tape_mm=round(sd_of(TAPE_MM), 4),
    )


def _covered(plan: Plan) -> Surface:
    """Return the rows of a plan that can be corrected.

    Raises:
        UncoveredError: It has none, or none that a gap can correct.
    """
    why = None
    if not plan.buildable:
        why = "a blocked plan", "a buildable plan: nothing of this one may be laid yet"
    elif plan.tiling is not None or plan.tiles is not None:
        why = "a deck of tiles", "boards: joints of tiles are their spacers', never stretched"
    elif plan.surface is None or plan.pieces is None or plan.edges is None:
        wanted = "a rectangle with rows along or across: on an outline rows end where sides run, "
        why = "a deck on an outline", f"{wanted}so that gaps alone do not say what is left"
    if why is None:
        assert plan.surface is not None
        return plan.surface
    found, wanted = why
    raise UncoveredError((Fault(path="plan", found=found, wanted=wanted),))


def _refuse(
    plan: Plan, surface: Surface, reading: EdgeReading, brief: Brief | None, stock: Catalogue | None
) -> None:
    faults = [*_odd_sizes(surface, reading)]
    rows, before = len(surface.rows), plan.laid.rows_laid if plan.laid else 0
    if type(reading.rows_laid) is not int or not before < reading.rows_laid < rows:
        faults.append(
            Fault(
                path="rows_laid",
                found=repr(reading.rows_laid),
                wanted=f"{before + 1} to {rows - 1}: of {rows} rows {before} were told before",
            )
        )
    faults += [
        Fault(path=f"cut[{at}]", found=repr(mark), wanted="the mark of a board or fascia piece")
        for at, mark in enumerate(reading.cut)
        if mark not in marks_known(plan)
    ]
    if brief is not None and brief_digest(brief) != plan.digests.brief:
        faults.append(Fault(path="brief", found="another brief", wanted="the plan's own"))
    if stock is not None and catalogue_digest(stock) != plan.digests.stock:
        faults.append(Fault(path="stock", found="another stock", wanted="the plan's own"))
    if faults:
        raise InputError(tuple(faults))


def _as_kept(reading: EdgeReading) -> EdgeReading:
    """Return a reading with every length to the nearest 1/320 mm, as all lengths are kept."""
    sizes = ("left_mm", "right_mm", "together_mm", "target_left_mm", "target_right_mm",
             "row_length_mm")  # fmt: skip
    kept = {name: getattr(reading, name) for name in sizes}
    kept = {name: _kept(mm) for name, mm in kept.items()}
    return evolve(reading, widths_mm=tuple(map(_kept, reading.widths_mm)), **kept)


def _kept(length_mm: Any) -> Any:
    """Return a length as it is kept; what is none is left to be refused."""
    is_length = is_number(length_mm) and isfinite(length_mm)
    return to_mm(exact(length_mm)) if is_length else length_mm


def _odd_sizes(surface: Surface, reading: EdgeReading) -> Iterator[Fault]:
    """Yield sizes by the frame that are another deck's: it is planned anew, not corrected."""
    planned = {
        "row_length_mm": surface.row_length_mm,
        "target_left_mm": surface.rows_depth_mm,
        "target_right_mm": surface.rows_depth_mm,
    }
    for path, size_mm in planned.items():
        told = getattr(reading, path)
        if told is None or (is_number(told) and abs(told - size_mm) <= MOST_CHANGED_MM):
            continue
        wanted = (
            f"{size_mm:g} mm as planned, or off by no more than {MOST_CHANGED_MM:g}: else plan "
        )
        wanted += "the deck anew"
        yield Fault(path=path, found=repr(told), wanted=wanted)


def targets_of(plan: Plan, reading: EdgeReading) -> tuple[float, float]:
    """Return where the last edge is to be at both ends: as told last, else as planned."""
    assert plan.surface is not None
    last = plan.laid.readings[-1] if plan.laid else None
    depth = plan.surface.rows_depth_mm
    left = last.target_left_mm if last else depth
    right = last.target_right_mm if last else depth
    told = reading.target_left_mm, reading.target_right_mm
    return (left if told[0] is None else told[0], right if told[1] is None else told[1])


def gaps_so_far(plan: Plan, rows_laid: int) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return the gaps set before rows 2 ... `rows_laid` at both ends: as decided, else planned."""
    assert plan.surface is not None
    planned = tuple(row.gap_mm for row in plan.surface.rows[1:rows_laid])
    if plan.laid is None:
        return planned, planned
    last = plan.laid.readings[-1]
    more = rows_laid - plan.laid.rows_laid
    left = (*last.gaps_left_mm, *last.to_set_left_mm[:more])
    return left, (*last.gaps_right_mm, *last.to_set_right_mm[:more])


def laid_so_far(
    plan: Plan, surface: Surface, reading: EdgeReading, tolerances: Tolerances
) -> LaidSoFar:
    """Return what there is to correct, as the room of correction asks for it."""
    targets, gaps = targets_of(plan, reading), gaps_so_far(plan, reading.rows_laid)
    left, right = (
        EndLaid(
            edge_mm=edge,
            target_mm=target,
            gaps_set_mm=fsum(set_before),
            gap_before_mm=set_before[-1] if set_before else surface.rows[1].gap_mm,
        )
        for edge, target, set_before in zip(
            (reading.left_mm, reading.right_mm), targets, gaps, strict=True
        )
    )
    assert plan.buying is not None
    clipped = plan.fixings is not None and plan.fixings.clips is not None
    rip = may_rip(surface)
    off = max(plan.buying.kerf_mm, to_mm(MARK_320[plan.units]))
    return LaidSoFar(
        board_mm=surface.rows[-1].width_mm if surface.border else surface.board_width_mm,
        widths_mm=tuple(row.width_mm for row in surface.rows),
        rows_laid=reading.rows_laid,
        left=left,
        right=right,
        gaps=tuple(
            _limits(surface, *pair) for pair in zip(surface.rows, surface.rows[1:], strict=False)
        ),
        measured_mm=_measured(plan, reading),
        together_mm=reading.together_mm,
        most_change_mm=MOST_CHANGE_320[plan.units] / PER_MM,
        step_mm=to_mm(MARK_320[plan.units]),
        rip_least_mm=max(surface.least_rip_mm, surface.sliver_limit_mm) if rip else None,
        rip_most_mm=surface.board_width_mm - off if rip else None,
        rip_planned=surface.rows[-1].ripped,
        gaps_fixed=clipped,
        fascia_mm=_fascia_mm(plan, surface),
        tolerances=tolerances,
    )


def _measured(plan: Plan, reading: EdgeReading) -> tuple[float, ...]:
    """Return the widths of boards that stand for those left: as told now, else as told last.

    Boards that were measured tight together stand for those of them that are still left.
    """
    if reading.widths_mm or reading.together_mm is not None or plan.laid is None:
        return reading.widths_mm
    rows = plan.laid.rows_laid + len(plan.laid.rows)
    for told in (entry.reading for entry in reversed(plan.laid.readings)):
        if told.together_mm is not None:
            count = rows - told.rows_laid
            return (told.together_mm / count,) * count
        if told.widths_mm:
            return told.widths_mm
    return ()


def may_rip(surface: Surface) -> bool:
    """Return whether the last row may be ripped, as the plan's ways out were told; no border may.

    Boards that no way out would have ripped are of a family that allows it, or one that nobody
    asked: those with inserts are not ripped.
    """
    rules = [rule for way in surface.ways_out for rule in way.rules]
    asked = [rule.met for rule in rules if rule.rule == "boards may be ripped"]
    return surface.border is None and not surface.groove_mm and all(asked)


def _limits(surface: Surface, before: Row, row: Row) -> GapLimits:
    border = surface.border
    if border is None or not (before.border or row.border):
        return GapLimits(least_mm=surface.gap_least_mm, most_mm=surface.gap_most_mm)
    if before.border and row.border:
        return GapLimits(least_mm=border.gap_least_mm, most_mm=border.gap_most_mm)
    return GapLimits(least_mm=border.beside_least_mm, most_mm=border.beside_most_mm)


def _fascia_mm(plan: Plan, surface: Surface) -> float:
    """Return how thick the fascia along the last row is, 0 where there is none."""
    assert plan.edges is not None
    side = {"along": "front", "across": "right"}[surface.run]
    faced = any(face.side == side for face in plan.edges.faces)
    return plan.edges.fascia_thickness_mm if faced else 0.0


def _laid(
    plan: Plan, surface: Surface, reading: EdgeReading, so_far: LaidSoFar, found: Correction
) -> Laid:
    gaps = gaps_so_far(plan, reading.rows_laid)
    before = plan.laid
    entry = Reading(
        number=len(before.readings) + 1 if before else 1,
        reading=reading,
        target_left_mm=so_far.left.target_mm,
        target_right_mm=so_far.right.target_mm,
        gaps_left_mm=gaps[0],
        gaps_right_mm=gaps[1],
        to_set_left_mm=tuple(row.gap_left_mm for row in found.rows),
        to_set_right_mm=tuple(row.gap_right_mm for row in found.rows),
        left=found.left,
        right=found.right,
    )
    as_before = before.row_length_mm if before else surface.row_length_mm
    return Laid(
        target_mm=surface.rows_depth_mm,
        row_length_mm=as_before if reading.row_length_mm is None else reading.row_length_mm,
        most_change_mm=so_far.most_change_mm,
        step_mm=so_far.step_mm,
        board_takes=found.board_takes,
        rows_laid=found.rows_laid,
        readings=(*(before.readings if before else ()), entry),
        rows=found.rows,
        checks=found.checks,
        tolerances=so_far.tolerances,
        ways_back=found.ways_back,
    )
