"""The summary: what a builder reads first, as plain text."""

from drylay.edges.model import Edges
from drylay.findings import Severity
from drylay.fixings.model import Fixings
from drylay.frame.model import Frame
from drylay.papers.layout import heading, para, points, table
from drylay.papers.purchase import cut_lines, order_lines, proof_lines
from drylay.papers.wording import (
    RUNS,
    WAYS,
    bare,
    clean,
    decision_at,
    many,
    money,
    said_by,
    size,
    span_of,
)
from drylay.pieces.model import Pieces
from drylay.plan.model import Plan
from drylay.reasons import Decision
from drylay.supports.model import Supports
from drylay.surface.model import Surface, WayOut

#: Kinds of source that somebody should check before money is spent.
UNSURE = ("assumption", "from memory")
MOST_GROUPS = 4


def summary(plan: Plan) -> str:
    """Return the summary of a plan; a blocked plan has findings and no cut list, no order."""
    lines = [*_head(plan), *_trust(plan)]
    if not plan.buildable:
        lines += _findings(plan)
    lines += [*_cover(plan), *_frame(plan), *_joints(plan), *_screws(plan)]
    if plan.buildable and plan.buying:
        lines += cut_lines(plan, plan.buying)
        lines += [*order_lines(plan.buying, plan.units), *proof_lines(plan.buying)]
    if plan.buildable:
        lines += _findings(plan)
    lines += _section("CAUTIONS", plan.cautions)
    not_checked = "WITHIN THE SCREENED LIMITS; NOT CHECKED"
    lines += _section(not_checked, plan.not_checked or ("anything that is not named above",))
    return "\n".join(lines).strip("\n") + "\n"


def _section(title: str, texts: tuple[str, ...]) -> list[str]:
    if not texts:
        return []
    return [*heading(title), *points(clean(text, 400) for text in texts)]


def _head(plan: Plan) -> list[str]:
    title = clean(plan.title, 78)
    state = (
        "Nothing stops this plan within the screened limits. Local rules come first."
        if plan.buildable
        else "BLOCKED. Do not buy or saw anything from this plan: see the findings."
    )
    return [*heading(title, "="), *para(state)]


def _trust(plan: Plan) -> list[str]:
    """Return what rests on a named person, on memory or on an assumption."""
    taken = plan.reasons.decisions
    by_person = [d for d in taken if d.source.kind == "named person's override"]
    unsure = [d for d in taken if d.source.kind in UNSURE]
    if not by_person and not unsure:
        return []
    texts = [_taken(decision, plan.units) for decision in (*by_person, *unsure)]
    return [*heading("TAKEN ON TRUST: CHECK BEFORE YOU BUY"), *points(texts)]


def _taken(decision: Decision, units: str) -> str:
    value = f"{decision.value} {decision.unit}".strip()
    if decision.unit == "mm" and isinstance(decision.value, float):
        value = size(decision.value, units)
    return f"{clean(decision.rule)}: {clean(value)} ({said_by(decision)})"


def _findings(plan: Plan) -> list[str]:
    order = (Severity.STOP, Severity.CAUTION, Severity.NOTE)
    found = sorted(plan.findings, key=lambda finding: order.index(finding.severity))
    return _section("FINDINGS", tuple(str(finding) for finding in found))


def _cover(plan: Plan) -> list[str]:
    surface, units = plan.surface, plan.units
    if surface is None:
        return []
    along, across = size(surface.cover_along_mm, units), size(surface.cover_across_mm, units)
    text = f"Cover {along} along the house, {across} away from it. {_changed(surface, units)}"
    board = (
        f"{many(len(surface.rows), 'row')} of {clean(surface.board_article, 40)}, "
        f"{size(surface.board_width_mm, units)} wide, {size(surface.board_thickness_mm, units)} "
        f"thick, running {RUNS[surface.run]}."
    )
    return [
        *heading("COVER AND ROWS"),
        *para(text), *para(board), *para(_gaps(surface, units)), *_widths(surface, units),
        *_ways_out(plan, surface),
    ]  # fmt: skip


def _changed(surface: Surface, units: str) -> str:
    if not surface.cover_change_mm:
        return "As wished."
    word = "more" if surface.cover_change_mm > 0 else "less"
    by = size(abs(surface.cover_change_mm), units)
    return f"That is {by} {word} than wished, across the rows, so that the rows come out."


def _gaps(surface: Surface, units: str) -> str:
    groups = _groups([(row.mark, row.gap_mm) for row in surface.rows[1:]])
    if len(groups) > MOST_GROUPS:
        gaps = sorted({row.gap_mm for row in surface.rows[1:]})
        told = f"{size(gaps[0], units)} to {size(gaps[-1], units)}, each on the boards drawing"
    else:
        told = ", ".join(f"{size(gap, units)} before {span_of(marks)}" for marks, gap in groups)
    least, most = size(surface.gap_least_mm, units), size(surface.gap_most_mm, units)
    return f"Gaps {told or 'none'}. Allowed: {least} to {most}."


def _widths(surface: Surface, units: str) -> list[str]:
    ripped = [row for row in surface.rows if row.ripped]
    told = ", ".join(f"{row.mark} to {size(row.width_mm, units)}" for row in ripped)
    return para(f"Ripped: {told}. Factory edge outwards, ripped edge sealed.") if ripped else []


def _groups(pairs: list[tuple[str, float]]) -> list[tuple[tuple[str, ...], float]]:
    """Return neighbours of one value together, with their marks."""
    groups: list[tuple[tuple[str, ...], float]] = []
    for mark, value in pairs:
        if groups and groups[-1][1] == value:
            groups[-1] = ((*groups[-1][0], mark), value)
        else:
            groups.append(((mark,), value))
    return groups


def _ways_out(plan: Plan, surface: Surface) -> list[str]:
    decision = decision_at(plan, "surface.way_out")
    why = f" Why: {clean(decision.rule, 200)} ({said_by(decision)})." if decision else ""
    left = ""
    if surface.remainder_mm:
        left = f", which leaves {size(surface.remainder_mm, plan.units)}"
    text = (
        f"{many(surface.whole_rows, 'whole row')} fit at the gap wished{left}. "
        f"Chosen: {WAYS[surface.way_out]}.{why}"
    )
    currency = plan.buying.currency if plan.buying else ""
    honest = [_way(way, plan.units, currency) for way in surface.ways_out if way.honest]
    other = [_way(way, plan.units, currency) for way in surface.ways_out if not way.honest]
    return [
        *para(text), "What each way costs, the whole order:", *points(honest),
        *(["Not possible:", *points(other)] if other else []),
    ]  # fmt: skip


def _way(way: WayOut, units: str, currency: str) -> str:
    turned = f", boards {RUNS[way.run]}" if way.kind == "turn" else ""
    chosen = "chosen: " if way.chosen else ""
    parts = [f"{chosen}{WAYS[way.kind]}{turned}: {many(way.rows, 'row')}"]
    parts += [f"mean gap {size(way.gap_mm, units)}"] if way.rows > 1 else []
    if way.cover_change_mm:
        word = "more" if way.cover_change_mm > 0 else "less"
        parts.append(f"cover {size(abs(way.cover_change_mm), units)} {word}")
    if way.first_row_mm != way.last_row_mm:
        parts.append(f"first row {size(way.first_row_mm, units)}")
        parts.append(f"last row {size(way.last_row_mm, units)}")
    parts += [money(way.cost, currency)] if way.cost is not None else []
    parts += [clean(way.cost_note)] if way.cost_note and way.honest else []
    broken = [clean(rule.rule) for rule in way.rules if not rule.met]
    parts += [f"not kept: {'; '.join(broken)}"] if broken else []
    return ", ".join(parts)


def _frame(plan: Plan) -> list[str]:
    frame, edges, supports, units = plan.frame, plan.edges, plan.supports, plan.units
    if frame is None or edges is None or supports is None:
        return []
    return [
        *heading("FRAME"),
        *para(_frame_size(frame, edges, units)),
        *para(_joists(supports, frame, units)),
        *table(_members(frame, units), "<><<"),
        *para(_fascia(edges, units)),
    ]


def _frame_size(frame: Frame, edges: Edges, units: str) -> str:
    length, depth = size(edges.frame_length_mm, units), size(edges.frame_depth_mm, units)
    return (
        f"{length} along the boards, {depth} across them, of {clean(frame.timber_article, 40)} "
        f"({size(frame.timber_thickness_mm, units)} x {size(frame.timber_depth_mm, units)}, on "
        f"edge). Square when both diagonals are {size(frame.diagonal_mm, units)}."
    )


def _joists(supports: Supports, frame: Frame, units: str) -> str:
    offsets = ", ".join(f"{joist.mark} {bare(joist.offset_mm, units)}" for joist in frame.joists)
    return (
        f"{many(supports.line_count, 'joist')}, at most {size(supports.centres_mm, units)} centre "
        f"to centre (limit {size(supports.most_centres_mm, units)}). Centres from the datum "
        f"corner: {offsets}."
    )


def _members(frame: Frame, units: str) -> list[tuple[str, ...]]:
    """Return every frame member: name, how many, length, marks; equal ones together."""
    members = [("rim", piece.mark, piece.length_mm) for rim in frame.rims for piece in rim.pieces]
    members += [("joist", joist.mark, joist.length_mm) for joist in frame.joists]
    members += [("noggin", noggin.mark, noggin.length_mm) for noggin in frame.noggins]
    members += [("splice", splice.mark, splice.length_mm) for splice in frame.splices]
    groups: dict[tuple[str, float], list[str]] = {}
    for name, mark, length_mm in members:
        groups.setdefault((name, length_mm), []).append(mark)
    return [
        (f"  {name}", f"{len(marks)} x", size(length_mm, units), _few(marks))
        for (name, length_mm), marks in groups.items()
    ]


def _few(marks: list[str]) -> str:
    return " ".join(marks) if len(marks) <= 4 else f"{marks[0]} ... {marks[-1]}"


def _fascia(edges: Edges, units: str) -> str:
    if not edges.faces:
        return "No fascia."
    told = "; ".join(
        f"{face.mark} {size(face.length_mm, units)} in {many(len(face.pieces), 'piece')}"
        for face in edges.faces
    )
    thick, deep = edges.fascia_thickness_mm, edges.fascia_depth_mm
    return (
        f"Fascia {clean(edges.fascia_article, 40)} ({size(thick, units)} x {size(deep, units)}): "
        f"{told}. Its thickness is already off the frame; the boards lie over it."
    )


def _joints(plan: Plan) -> list[str]:
    pieces = plan.pieces
    if pieces is None:
        return []
    if not pieces.joints:
        return [*heading("JOINTS"), *para("No joints: every row is one board.")]
    return [*heading("JOINTS"), *para(_joint_rule(pieces, plan.units))]


def _joint_rule(pieces: Pieces, units: str) -> str:
    cap = pieces.most_joints_per_row
    return (
        f"The boards bought are shorter than the deck, so there are "
        f"{many(pieces.joint_count, 'joint')}. Each is centred on a joist, the ends "
        f"{size(pieces.end_gap_mm, units)} apart, so each bears "
        f"{size(pieces.end_bearing_mm, units)}. Joints in neighbouring rows are staggered by "
        f"{many(pieces.stagger_bays, 'bay')} or more. A piece rests on "
        f"{many(pieces.least_supports, 'joist')} or more"
        + (f", a row has at most {many(cap, 'joint')}." if cap is not None else ".")
    )


def _screws(plan: Plan) -> list[str]:
    if plan.fixings is None:
        return []
    return [*heading("SCREWS"), *points(_screw_texts(plan.fixings, plan.units))]


def _screw_texts(fixings: Fixings, units: str) -> tuple[str, str]:
    deck, coach = fixings.deck_screws, fixings.coach_screws
    sunk = f" Heads sunk {size(coach.sink_mm, units)} where a fascia covers them."
    return (
        f"{deck.count} deck screws {clean(deck.article, 40)}, {size(deck.shank_mm, units)} x "
        f"{size(deck.length_mm, units)}: {deck.per_crossing} at each of "
        f"{many(deck.crossings, 'crossing')} and as many again at {many(deck.joints, 'joint')}. "
        f"{size(deck.edge_least_mm, units)} or more from the edge, "
        f"{size(deck.end_least_mm, units)} or more from the end; near ends a pilot hole of "
        f"{size(deck.pilot_mm, units)}.",
        f"{coach.count} coach screws {clean(coach.article, 40)}, {size(coach.shank_mm, units)} x "
        f"{size(coach.length_mm, units)}: {coach.per_joist_end} through the rim into each of "
        f"{many(coach.joist_ends, 'joist end')}, the frame's corners among them."
        + (sunk if coach.sink_mm else ""),
    )
