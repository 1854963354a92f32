"""The fewest boards to lift, so that what lies below is laid bare, and in which order."""

from attrs import asdict, evolve, frozen

from drylay.counting import counted
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.upkeep.as_laid import laid_anew
from drylay.upkeep.asked import place_faults, refuse
from drylay.upkeep.model import Below, Lift, LiftStep, LiftWay, Top
from drylay.upkeep.parts import members, refused, standing, tops
from drylay.upkeep.plane import Ring, box, common, ring_of, spots_of
from drylay.upkeep.screwed import is_clipped, screws_of

PRACTICE = Source(
    kind="common practice", title="common practice, no source", clause="lifting boards"
)
#: From which end a way begins.
SCREWED, LAST, FIRST = "anywhere", "the last row", "the first row"
NOTHING = "no board lies over it: nothing is lifted, it is reached from the side"


@frozen(kw_only=True)
class _Laid:
    """What lies on a deck: each piece with the timbers under it, rows in their order."""

    plan: Plan
    tops: tuple[Top, ...]
    timbers: tuple[tuple[str, Ring], ...]
    at: dict[str, tuple[str, int]]
    known: dict[str, tuple[str, ...]]

    def over(self, top: Top) -> tuple[str, ...]:
        """Return the timbers that a piece lies on, worked out once."""
        if top.mark not in self.known:
            ring = ring_of(top.corners)
            self.known[top.mark] = tuple(mark for mark, its in self.timbers if common(ring, its))
        return self.known[top.mark]


@counted
def boards_to_lift(plan: Plan, *, reach: Below | str) -> Lift:
    """Return the pieces to lift to lay bare a rectangle below, or a timber by its mark.

    Every piece that lies over it is lifted, and no other where boards are screwed or tiles lie
    loose: in any order, told from the datum. Clips lock each board to the next, so there the way
    begins at one end of the rows and takes what is clipped to what must come up, and no more; of
    both ends the one with fewer pieces comes first. `cut_free` is not so from the first row, whose
    outer edge is held by starter clips below: its board is sawn out (UPK-003). What lies under a
    hatch is reached by its panel (UPK-004). Where no board lies over it, as beside the deck, there
    are no ways (UPK-002). Places are the design's: of rows corrected while laying that is cautioned
    (UPK-006).

    Raises:
        UpkeepError: The plan is blocked, nothing in it has that mark, or a rectangle has no four
            lengths or no area.

    Source: the plan's own places; common practice, no source.
    """
    laid = _laid(plan)
    ring, told = _reached(plan, reach)
    wanted = [top for top in laid.tops if common(ring_of(top.corners), ring)]
    whole = _with_panels(laid, wanted)
    ways = _ways(laid, whole)
    return Lift(
        reach=told,
        corners=spots_of(ring),
        tops=laid.tops,
        timbers=members(plan),
        over=tuple(top.mark for top in wanted),
        ways=ways,
        source=PRACTICE,
        findings=(*_findings(told, whole, ways), *laid_anew(plan)),
    )


def _laid(plan: Plan) -> _Laid:
    on = [under for under in members(plan) if under.kind not in {"noggin", "rim"}]
    return _Laid(
        plan=plan,
        tops=tops(plan),
        timbers=tuple((under.mark, ring_of(under.corners)) for under in on),
        at=_row_places(plan),
        known={},
    )


def _row_places(plan: Plan) -> dict[str, tuple[str, int]]:
    """Return each row's zone and its number in it, in the order in which rows are laid."""
    if plan.laying is None:
        return {
            row.mark: ("", at) for at, row in enumerate(plan.surface.rows if plan.surface else ())
        }
    found: dict[str, tuple[str, int]] = {}
    for row in plan.laying.rows:
        number = sum(zone == row.zone for zone, _ in found.values())
        found[row.mark] = (row.zone, number)
    return found


def _reached(plan: Plan, reach: Below | str) -> tuple[Ring, str]:
    """Return the shape to be laid bare, and what it is called."""
    if isinstance(reach, Below):
        refuse(place_faults((f"reach.{name}", its) for name, its in asdict(reach).items()))
        low = (
            min(reach.from_along_mm, reach.to_along_mm),
            min(reach.from_across_mm, reach.to_across_mm),
        )
        high = (
            max(reach.from_along_mm, reach.to_along_mm),
            max(reach.from_across_mm, reach.to_across_mm),
        )
        if low[0] == high[0] or low[1] == high[1]:
            found = f"{high[0] - low[0]:g} by {high[1] - low[1]:g} mm"
            raise refused("reach", found, "a rectangle with an area", "a few mm each way")
        return box(*low, *high), "a rectangle"
    parts = (*members(plan), *standing(plan))
    part = next((its for its in parts if its.mark == reach), None)
    if part is None:
        known = ", ".join(its.mark for its in parts[:8])
        raise refused("reach", f"no timber {reach}", "the mark of a timber of this plan", known)
    return ring_of(part.corners), f"{part.kind} {part.mark}"


def _with_panels(laid: _Laid, wanted: list[Top]) -> list[Top]:
    """Return the pieces with all others of the panels they belong to: a panel comes up whole."""
    panels = {_panel(top) for top in wanted if top.kind == "hatch"}
    return [
        top for top in laid.tops if top in wanted or (top.kind == "hatch" and _panel(top) in panels)
    ]


def _panel(top: Top) -> str:
    return top.mark.partition(".")[0]


def _ways(laid: _Laid, wanted: list[Top]) -> tuple[LiftWay, ...]:
    field = [top for top in wanted if top.kind == "field"]
    if not is_clipped(laid.plan) or not field:
        return (_way(laid, wanted, SCREWED),) if wanted else ()
    ends = [
        _way(laid, _closed(laid, wanted, step), begins) for begins, step in ((LAST, 1), (FIRST, -1))
    ]
    return tuple(sorted(ends, key=lambda way: (len(way.steps), not way.cut_free)))


def _closed(laid: _Laid, wanted: list[Top], step: int) -> list[Top]:
    """Return what must come up from one end: all that is clipped to it on that side, and so on."""
    taken, todo = {top.mark: top for top in wanted}, [t for t in wanted if t.kind == "field"]
    while todo:
        top = todo.pop()
        for other in _clipped_to(laid, top, step):
            if other.mark not in taken:
                taken[other.mark] = other
                todo.append(other)
    return [top for top in laid.tops if top.mark in taken]


def _clipped_to(laid: _Laid, top: Top, step: int) -> list[Top]:
    """Return the pieces of the next row on one side that a clip holds together with this one."""
    zone, number = laid.at[top.row]
    return [
        other
        for other in laid.tops
        if other.kind == "field"
        and laid.at[other.row] == (zone, number + step)
        and set(laid.over(other)) & set(laid.over(top))
    ]


def _way(laid: _Laid, lifted: list[Top], begins: str) -> LiftWay:
    order = list(lifted)
    if begins != SCREWED:  # from the end inwards; what is screwed comes up first
        step = -1 if begins == LAST else 1
        order.sort(key=lambda top: (top.kind == "field", step * laid.at.get(top.row, ("", 0))[1]))
    steps = tuple(_step(laid, top, turn, begins) for turn, top in enumerate(order, 1))
    told = [step.screws for step in steps]
    screws = None if None in told else sum(count or 0 for count in told)
    return LiftWay(
        begins=begins,
        steps=steps,
        rows=tuple(dict.fromkeys(top.row for top in lifted)),
        screws=screws,
        clips=sum(step.clips for step in steps),
        cut_free=begins != FIRST,
    )


def _step(laid: _Laid, top: Top, turn: int, begins: str) -> LiftStep:
    held, clips = _held_by(laid, top, begins)
    return LiftStep(
        turn=turn,
        piece=top.mark,
        row=top.row,
        kind=top.kind,
        held_by=held,
        screws=0 if held in {"its panel", "nothing"} else screws_of(laid.plan, top),
        clips=clips,
        over=laid.over(top),
    )


def _held_by(laid: _Laid, top: Top, begins: str) -> tuple[str, int]:
    """Return what holds a piece when its turn comes, and how many clips are undone for it.

    Clips in the gap towards the end already lifted came up with what lay there.
    """
    if top.kind in {"tile", "hatch"}:
        return ("nothing", 0) if top.kind == "tile" else ("its panel", 0)
    if begins == SCREWED or top.kind != "field":
        return "screws", 0
    inner = _clipped_to(laid, top, -1 if begins == LAST else 1)
    clipped = {mark for other in inner for mark in laid.over(other)} & set(laid.over(top))
    clips = laid.plan.fixings.clips if laid.plan.fixings else None
    return "clips", len(clipped) * (clips.per_crossing if clips else 0)


def _findings(told: str, wanted: list[Top], ways: tuple[LiftWay, ...]) -> list[Finding]:
    found = [] if wanted else [_note("UPK-002", told, NOTHING)]
    if any(top.kind == "hatch" for top in wanted):
        found.append(_note("UPK-004", told, "a hatch lies over it: its panel lifts out whole"))
    if ways and not ways[0].cut_free:
        message = (
            "from the first row the first board is held by clips on both edges: it is sawn out "
            "along its middle, and a new one laid"
        )
        found.append(evolve(_note("UPK-003", told, message), severity=Severity.CAUTION))
    if ways and ways[0].screws is None:
        message = "the plan tells the screws of an outline by their sum, not piece by piece"
        found.append(_note("UPK-005", told, message))
    return found


def _note(code: str, told: str, message: str) -> Finding:
    return Finding(
        code=code, severity=Severity.NOTE, subject=told, message=message, source=PRACTICE
    )
