"""The summary's part on the frame: its size, where joists are marked, members, fascia, screws."""

from drylay.edges.model import Edges
from drylay.fixings.model import (
    INSIDE_FACE_MM,
    BorderScrews,
    CoachScrews,
    DeckScrews,
    Fixings,
)
from drylay.frame.model import Frame
from drylay.laying.model import Laying
from drylay.outline.model import Outline
from drylay.papers.holding_text import holding_told
from drylay.papers.hung import OFF_WHERE_THEY_MEET, rims_told
from drylay.papers.layout import heading, para, points, table
from drylay.papers.outlined_fixed import coach_ends_told
from drylay.papers.support_text import clips_told, support_told
from drylay.papers.wording import (
    ENDS,
    RIM_SIDES,
    bare,
    bit,
    clean,
    many,
    marks_told,
    size,
    size_least,
    size_most,
)
from drylay.pieces.model import BorderJoints, Pieces
from drylay.plan.model import Plan
from drylay.subframe.model import Subframe
from drylay.supports.model import Supports
from drylay.surface.model import Surface


def frame_lines(plan: Plan) -> list[str]:
    """Return what the summary says of the frame; nothing where the plan has none."""
    frame, edges, supports, units = plan.frame, plan.edges, plan.supports, plan.units
    if frame is None or edges is None or supports is None:
        return []
    run = plan.surface.run if plan.surface else "along"
    return [
        *heading("FRAME"),
        *para(frame_told(frame, edges, units, along=courses(plan))),
        *para(joists_told(supports, units)),
        *_marking(frame, edges, units, ENDS[run][0]),
        *(line for told in support_told(plan) for line in para(told)),
        *_members(frame, units),
        *para(rim_joints_told(frame, edges, units, ENDS[run][0])),
        *para(fascia_told(edges, units, over=laid(plan))),
    ]


def laid(plan: Plan) -> str:
    """Return what lies on the frame: boards or tiles."""
    return "boards" if plan.tiling is None else "tiles"


def courses(plan: Plan) -> str:
    """Return what the frame's length is told along: boards, or rows of tiles."""
    return "boards" if plan.tiling is None else "rows"


def frame_told(frame: Frame, edges: Edges, units: str, *, along: str = "boards") -> str:
    """Return the frame's size, its timber, and when it is square."""
    length, depth = size(edges.frame_length_mm, units), size(edges.frame_depth_mm, units)
    return (
        f"{length} along the {along}, {depth} across them, of {clean(frame.timber_article, 40)} "
        f"({size(frame.timber_thickness_mm, units)} x {size(frame.timber_depth_mm, units)}, on "
        f"edge). Square when both diagonals, outer corner to outer corner, are "
        f"{size(frame.diagonal_mm, units)}."
    )


def joists_told(supports: Supports, units: str) -> str:
    """Return how many joists there are and how far apart, against the limit."""
    return (
        f"{many(supports.line_count, 'joist')}, at most {size(supports.centres_mm, units)} centre "
        f"to centre (limit {size_most(supports.most_centres_mm, units)})."
    )


def _marking(frame: Frame, edges: Edges, units: str, end: str) -> list[str]:
    """Return the joists' centres from the rims' own end, and from the cover's corner if else."""
    start_mm, half_mm = edges.frame_start_mm, frame.timber_thickness_mm / 2
    rims = ", ".join(f"{j.mark} {bare(j.offset_mm - start_mm, units)}" for j in frame.joists)
    half = f"centres; the near face is {size(half_mm, units)} before"
    lines = para(f"Mark {rims_told(frame)} from their {end} end ({half}): {rims}.")
    if start_mm:
        cover = ", ".join(f"{j.mark} {bare(j.offset_mm, units)}" for j in frame.joists)
        lines += para(f"The same from the cover's datum corner, as drawn: {cover}.")
    return [*lines, *_marking_pieces(frame, units, end)]


def _marking_pieces(frame: Frame, units: str, end: str) -> list[str]:
    """Return the joists' centres on each further piece of a jointed rim, from its own end."""
    lines: list[str] = []
    starts = dict.fromkeys(piece.start_mm for rim in frame.rims for piece in rim.pieces[1:])
    for start_mm in starts:
        pieces = [p for rim in frame.rims for p in rim.pieces[1:] if p.start_mm == start_mm]
        stop_mm = start_mm + pieces[0].length_mm
        on_it = [j for j in frame.joists if start_mm <= j.offset_mm <= stop_mm]
        told = ", ".join(f"{j.mark} {bare(j.offset_mm - start_mm, units)}" for j in on_it)
        marks = marks_told([piece.mark for piece in pieces])
        lines += para(f"On {marks} alone, from its own {end} end: {told}.")
    return lines


def _members(frame: Frame, units: str) -> list[str]:
    """Return every frame member: name, how many, length, marks; equal ones together."""
    groups = member_groups(frame)
    columns = table(
        [
            (f"  {name}", f"{len(marks)} x", size(length_mm, units))
            for name, length_mm, marks in groups
        ],
        "<><",
    )
    width = max(map(len, columns), default=0) + 2
    return [
        line
        for column, (_, _, marks) in zip(columns, groups, strict=True)
        for line in para(marks_told(marks), column.ljust(width), " " * width)
    ]


def member_groups(frame: Frame) -> list[tuple[str, float, list[str]]]:
    """Return name, length and marks of the frame's members, equal ones together."""
    members = [("rim", piece.mark, piece.length_mm) for rim in frame.rims for piece in rim.pieces]
    members += [("joist", *piece) for piece in frame.joists_sawn]
    members += [("noggin", noggin.mark, noggin.length_mm) for noggin in frame.noggins]
    members += [("splice", splice.mark, splice.length_mm) for splice in frame.splices]
    members += [("batten", batten.mark, batten.length_mm) for batten in frame.battens]
    groups: dict[tuple[str, float], list[str]] = {}
    for name, mark, length_mm in members:
        groups.setdefault((name, length_mm), []).append(mark)
    return [(name, length_mm, marks) for (name, length_mm), marks in groups.items()]


def rim_joints_told(frame: Frame, edges: Edges, units: str, end: str) -> str:
    """Return where the rims are jointed, from their own end; "" where neither is."""
    if not frame.splices:
        return ""
    told = ", ".join(
        f"{splice.rim} {bare(splice.offset_mm - edges.frame_start_mm, units)} ({splice.mark} "
        "centred behind it)"
        for splice in frame.splices
    )
    return f"Rims are jointed, from their {end} end, at: {told}."


def fascia_told(edges: Edges, units: str, *, over: str = "boards") -> str:
    """Return the fascia, face by face."""
    if not edges.faces:
        return "No fascia."
    told = "; ".join(
        f"{face.mark} {size(face.length_mm, units)} in {many(len(face.pieces), 'piece')}"
        for face in edges.faces
    )
    thick, deep = edges.fascia_thickness_mm, edges.fascia_depth_mm
    return (
        f"Fascia {clean(edges.fascia_article, 40)} ({size(thick, units)} x {size(deep, units)}): "
        f"{told}. Its thickness is already off the frame; the {over} lie over it."
    )


def screw_lines(plan: Plan) -> list[str]:
    """Return what the summary says of the screws; nothing where the plan has none."""
    texts = screws_told(plan)
    told = [*clips_told(plan), *texts, *holding_told(plan)]
    return [*heading("FIXINGS"), *points(told)] if texts else []


def screws_told(plan: Plan) -> tuple[str, ...]:
    """Return the deck screws and the coach screws; nothing where the plan has none."""
    fixings, edges = plan.fixings, plan.edges
    if fixings is not None and plan.outline is not None:
        return _on_outline(plan, fixings, plan.outline)
    if fixings is None or edges is None:
        return ()
    sides = RIM_SIDES[plan.surface.run if plan.surface else "along"]
    faced = {face.side for face in edges.faces}
    open_sides = [side for side in sides if side not in faced]
    fascia_mm = 0.0 if len(open_sides) == len(sides) else edges.fascia_thickness_mm
    outer = fixings.border_screws or fixings.deck_screws
    thick_mm = thickest_mm(plan.surface) if plan.surface else 0.0
    if not fixings.coach_screws.joist_ends:  # joists hang between bearers
        return (*_of_boards(plan, fixings, fascia_mm), OFF_WHERE_THEY_MEET)
    return (
        *_of_boards(plan, fixings, fascia_mm),
        coach_screws_told(
            fixings.coach_screws,
            f"the {' and the '.join(open_sides)} side" if open_sides else "",
            plan.units,
            deck_reach_mm=outer.length_mm - thick_mm if outer else 0.0,
        ),
    )


def _on_outline(plan: Plan, fixings: Fixings, outline: Outline) -> tuple[str, ...]:
    """Return the screws of a deck on an outline, whose sides are faced each for itself."""
    laying, deck, units = plan.laying, fixings.deck_screws, plan.units
    fascia_mm = max((side.facing_mm for side in outline.sides), default=0.0)
    bare_sides = [side.mark for side in outline.sides if not side.facing_mm]
    where = f"side {marks_told(bare_sides)}" if bare_sides else ""
    thick_mm = laying.board_thickness_mm if laying else 0.0
    boards = []
    if deck is not None:
        each = "crossing of the last row" if fixings.clips else "crossing"
        at_joints = at_joints_told(deck, laying, laying, units)
        boards = [deck_screws_told(deck, at_joints, units, fascia_mm=fascia_mm, where=each)]
    reach_mm = deck.length_mm - thick_mm if deck else 0.0
    coach = fixings.coach_screws
    told = coach_screws_told(coach, where, units, deck_reach_mm=reach_mm, frame=plan.subframe)
    return (*boards, told)


def thickest_mm(surface: Surface) -> float:
    """Return how thick boards are, with what packs the thinner of two up."""
    border = surface.border
    return max(surface.board_thickness_mm, border.thickness_mm if border else 0.0)


def _of_boards(plan: Plan, fixings: Fixings, fascia_mm: float) -> tuple[str, ...]:
    """Return the screws of the boards, and those of a border; the outer rows lie beside fascia."""
    pieces, border, deck = plan.pieces, fixings.border_screws, fixings.deck_screws
    if deck is None:
        return ()
    where = "crossing of the last row" if fixings.clips else "crossing"
    field = deck_screws_told(
        deck, at_joints_told(deck, pieces, pieces, plan.units), plan.units,
        fascia_mm=0.0 if border else fascia_mm, where=where,
    )  # fmt: skip
    if border is None:
        return (field,)
    joints = pieces.border if pieces else None
    edge = deck_screws_told(
        border, at_joints_told(border, joints, pieces, plan.units), plan.units,
        fascia_mm=fascia_mm, what="border screws",
    )  # fmt: skip
    return (field, edge)


def deck_screws_told(
    deck: DeckScrews | BorderScrews,
    at_joints: str,
    units: str,
    *,
    fascia_mm: float,
    where: str = "crossing",
    what: str = "deck screws",
) -> str:
    """Return screws of boards: how many, where, how far from edges and ends."""
    beside_mm = max(fascia_mm + INSIDE_FACE_MM, deck.edge_least_mm) if fascia_mm else 0.0
    joints = f" and as many again at {many(deck.joints, 'joint')}" if deck.joints else ""
    text = (
        f"{deck.count} {what} {clean(deck.article, 40)}, {size(deck.shank_mm, units)} x "
        f"{size(deck.length_mm, units)}: {deck.per_crossing} at each of "
        f"{many(deck.crossings, where, _each(where))}{joints}. "
        f"{size_least(deck.edge_least_mm, units)} or more from the edge, "
        f"{size_least(deck.end_least_mm, units)} or more from the end; {_drilled(deck, units)}."
    )
    if beside_mm:
        text += (
            f" In a row beside a fascia the outer screw stands {size_least(beside_mm, units)} or "
            "more from the outer edge: it has to hit the frame, not the fascia."
        )
    return text + at_joints


def _drilled(deck: DeckScrews | BorderScrews, units: str) -> str:
    pilot = bit(deck.pilot_mm, units)
    if not deck.predrill_all:
        return f"near ends a pilot hole of {pilot}"
    return (
        f"every screw pre-drilled, {bit(deck.shank_mm, units)} through the board and {pilot} into "
        "the joist, and countersunk"
    )


def at_joints_told(
    deck: DeckScrews | BorderScrews,
    limits: Pieces | BorderJoints | Laying | None,
    pieces: Pieces | Laying | None,
    units: str,
) -> str:
    """Return where screws go at a joint, "" where there is none."""
    if not deck.joints or limits is None or pieces is None or limits.end_bearing_mm is None:
        return ""
    bears = f" At a joint each end has {size(limits.end_bearing_mm, units)}"
    least = size_least(deck.end_least_mm, units)
    if any(joint.beside for joint in pieces.joints):
        return (
            f"{bears} of a joist, or batten, of its own: its screws stand {least} or more from "
            "the end."
        )
    inside_mm = limits.end_bearing_mm - deck.end_least_mm
    return (
        f"{bears} of the joist: a screw {least} from the end stands "
        f"{size_most(max(0.0, inside_mm), units)} inside the joist's face: drill "
        "through board and joist, and lean it to the joist's middle."
    )


def _each(where: str) -> str:
    return where.replace("crossing", "crossings")


def coach_note(coach: CoachScrews, units: str, deck_reach_mm: float = 0.0) -> str:
    """Return how far coach screws stand from a rim's edges, as a drawing's foot has room for it."""
    if coach.edge_least_mm is None or coach.top_least_mm is None:
        return f"{coach_heights(coach, units, deck_reach_mm)}."
    edge, top = size_least(coach.edge_least_mm, units), size_least(coach.top_least_mm, units)
    apart = " and apart" if coach.per_joist_end > 1 else ""
    return f"Middles {top} or more below the rim's top, {edge} above its foot{apart}."


def coach_heights(coach: CoachScrews, units: str, deck_reach_mm: float = 0.0) -> str:
    """Return how far coach screws stand from a rim's edges; older plans knew only of screws."""
    if coach.edge_least_mm is None or coach.top_least_mm is None:
        top = size_least(deck_reach_mm + coach.shank_mm, units)
        return f"Heights: well apart, the upper one {top} or more below the rim's top"
    edge, top = size_least(coach.edge_least_mm, units), size_least(coach.top_least_mm, units)
    between = f" and {edge} or more apart" if coach.per_joist_end > 1 else ""
    return (
        f"Their middles stand {edge} or more above the rim's lower edge{between}, the upper one "
        f"{top} or more below its top"
    )


def coach_screws_told(
    coach: CoachScrews, open_side: str, units: str, *, deck_reach_mm: float,
    frame: Subframe | None = None,
) -> str:  # fmt: skip
    """Return the coach screws: how many, how to drill, how to get at them on open sides."""
    ends = f"the rim into each of {many(coach.joist_ends, 'joist end')}, the frame's corners among "
    ends = f"{ends}them" if frame is None else coach_ends_told(coach, frame)
    text = (
        f"{coach.count} coach screws {clean(coach.article, 40)}, {size(coach.shank_mm, units)} x "
        f"{size(coach.length_mm, units)}: {coach.per_joist_end} through {ends}."
    )
    lead = "a pilot as their maker says" if coach.pilot_mm is None else bit(coach.pilot_mm, units)
    text += (
        f" Drill the rim {bit(coach.shank_mm, units)}, and {lead} into the joist's end for the "
        f"thread. {coach_heights(coach, units, deck_reach_mm)}"
    )
    text += (
        f", which the deck screws reach {size_least(deck_reach_mm, units)} into."
        if deck_reach_mm
        else "."
    )
    if coach.sink_mm:
        text += (
            f" Where a fascia covers them the heads are sunk {size(coach.sink_mm, units)}, in a "
            "hole wide enough for the washer."
        )
    if open_side:
        text += (
            f" On {open_side} no fascia covers the rim: heads stand "
            f"{size(coach.head_mm, units)} proud of it and are driven from outside. Where a wall "
            "is in the way, screw that rim to its joists, and splice it, a driver's length off the "
            "wall, lever rim and joists into place on runners, a little at each joist, and put the "
            "rest on there; or name hangers, which are fixed from inside. Do not carry it. Keep "
            "the heads off the wall."
        )
    return text
