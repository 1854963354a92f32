"""Tasks from the first cut to the last coat: frame, boards, fascia, lights, finish, hand-over."""

from attrs import evolve

from drylay.work import board_steps
from drylay.work.drafts import Deck, Draft, OnFrame, told, weight_at
from drylay.work.laying import boards_draft
from drylay.work.on_posts import at_the_edge, edge_drafts, looked_at, raised_frame_drafts


def drafts_on_the_deck(deck: Deck) -> list[Draft]:
    """Return the tasks from the cut frame to the hand-over."""
    lit, trimmed = deck.lighting is not None, deck.pieces.trim_allowance_mm > 0
    drafts = raised_frame_drafts(deck, frame_drafts(deck, falls=board_steps.falling(deck)))
    drafts += [_cable(deck)] if lit else []
    drafts += [boards_draft(deck)]
    drafts += [_trim(deck)] if trimmed else []
    drafts += fascia_drafts(deck)
    drafts += edge_drafts(deck)
    drafts += [_lights()] if lit else []
    drafts += [finish_draft()] if deck.fixings.finish else []
    drafts += [_hand_over(deck)]
    return [at_the_edge(deck, draft) for draft in drafts]


def frame_drafts(deck: OnFrame, *, falls: tuple[str, ...] = ()) -> list[Draft]:
    """Return the tasks on a frame, whatever lies on it; `falls` says how it is out of level."""
    put = _frame(deck)
    if falls:
        put = evolve(put, steps=(put.steps[0], *falls, *put.steps[1:]), holds=(*put.holds, "fall"))
    return [_cut_frame(deck), put]


def fascia_drafts(deck: OnFrame) -> list[Draft]:
    """Return the task on the fascia, if there is any."""
    return [_fascia(deck)] if deck.edges.faces else []


def _cut_frame(deck: OnFrame) -> Draft:
    coated = deck.fixings.preserver is not None
    return Draft(
        key="cut_frame", title="Cut the frame",
        steps=told(
            f"Saw {_listed(_members(deck))} length by length as the cut list says, and write "
            "its mark on every piece.",
            (coated, "Give every sawn end {fixings.preserver.coats} flood coats of preserver."),
            (not coated, "Give every sawn end its coats of preserver, which is not in the order."),
        ),
        after=("delivery",), holds=("lengths", "ends") if coated else ("lengths",),
        tools=("gloves", "rcd", "tape", "pencil", "clamps", "saw", "brush"),
        care=("saw", "treated", "preserver"),
    )  # fmt: skip


def _members(deck: OnFrame) -> list[str]:
    """Return what the frame is made of."""
    frame = deck.frame
    more = (("noggins", frame.noggins), ("splice plates", frame.splices),
            ("battens", frame.battens))  # fmt: skip
    rims = any(rim.pieces for rim in frame.rims)
    first = "the ledger" if frame.hung else "rims"
    return [*([first] if rims else []), "joists", *(name for name, parts in more if parts)]


def _listed(names: list[str]) -> str:
    """Return names as a sentence lists them: "rims, joists and noggins"."""
    *first, last = names
    return f"{', '.join(first)} and {last}"


def _frame(deck: OnFrame) -> Draft:
    fixings, packed = deck.fixings, deck.groundwork is not None and deck.groundwork.packing
    screwed, sunk = fixings.frame_screws is not None, fixings.coach_screws.sink_mm > 0
    noggins, hung = bool(deck.frame.noggins), deck.frame.hung
    weight, coach = weight_at(deck, "frame"), ("spanner", "coach_bit", "clear_bit")
    see = "" if hung else " Where a wall is in the way of a rim's screws, see Fixings first."
    return Draft(
        key="frame", title="Put the frame together",
        steps=told(
            (bool(packed), "Put it together on the packers, every joist over its own."),
            (not packed, "Put it together on its bed, where it is to lie."),
            (bool(weight), "Its timber weighs up to " + weight + " as bought: do not carry it "
             "whole." + see),
            *(_hung(deck) if hung else _on_rims(deck)),
            "Measure both diagonals, {frame.diagonal_mm} each, and stay the frame before it moves.",
            (noggins and screwed, "Set the noggins by the frame drawing, "
             "{fixings.frame_screws.per_noggin_end} screws at each end."),
            (noggins and not screwed, "Set the noggins by the frame drawing; their screws are not "
             "in the order."),
            *_battens(deck),
            "Measure both diagonals once more, and look that every joist bears.",
        ),
        after=("cut_frame", "packing", "gravel", "set_out"), holds=("square", "frame_level"),
        tools=("gloves", "driver", *(() if hung else coach),
               *(("sink_bit",) if sunk else ()), *(("frame_bit",) if screwed else ()), "level",
               "tape"),
        care=("lift", "drill", *(("tips",) if screwed else ())), hands=2,
    )  # fmt: skip


def _on_rims(deck: OnFrame) -> tuple[str, ...]:
    """Return how joists are fixed between two rims: by coach screws, or hung."""
    fixings, noggins = deck.fixings, bool(deck.frame.noggins)
    paired, sunk = bool(deck.supports.seams), fixings.coach_screws.sink_mm > 0
    return told(
        "Mark the joists' centres on both rims together, from the same end.",
        (paired, "The two joists of a pair touch: set their seam on the joint line"
         + (", and screw noggins to either before they come together." if noggins else ".")),
        (sunk, "First sink holes for the heads, {fixings.coach_screws.sink_mm} deep, into rims "
         "under fascia."),
        "Then drill the rims {fixings.coach_screws.shank_mm} and the joists' ends "
        "{fixings.coach_screws.pilot_mm}, and drive {fixings.coach_screws.per_joist_end} "
        "coach screws at every end without a hanger, {fixings.coach_screws.top_least_mm} or "
        "more below the top, {fixings.coach_screws.edge_least_mm} from the foot and apart.",
        *_spliced(deck),
        (fixings.hangers is not None, "Hang the joists between the outer two: "
         "{fixings.hangers.screws_each} screws in each hanger."),
    )  # fmt: skip


def _hung(deck: OnFrame) -> tuple[str, ...]:
    """Return how joists are hung between bearers, and on a ledger."""
    marks = ", ".join(deck.frame.hung_on)
    return told(
        f"Mark the joists' centres on {marks}, all from the same end.",
        *_spliced(deck),
        "Hang every part of every joist from face to face, tops flush, seated to the hanger's "
        "bottom: {fixings.hangers.screws_each} screws in each hanger, in every hole marked for "
        "them. At the bearers' ends use hangers with flanges turned in.",
        "Hold nothing by screws into a joist's end in a hanger's place.",
    )


def _spliced(deck: OnFrame) -> tuple[str, ...]:
    """Return the step on joints of rims; none without any."""
    if not deck.frame.splices:
        return ()
    if deck.fixings.frame_screws is None:
        return ("Back every joint of a rim with its plate; its screws are not in the order.",)
    each = "{fixings.frame_screws.per_splice_side} screws on each side of the joint."
    return (f"Back every joint of a rim with its plate, {each}",)


def _battens(deck: OnFrame) -> tuple[str, ...]:
    """Return the step on battens; none without any."""
    if not deck.frame.battens:
        return ()
    screws = "{fixings.frame_screws.per_batten_joint} screws for each joint"
    if deck.fixings.frame_screws is None:
        screws = "their screws are not in the order"
    return (f"Screw the battens to their joists by the frame drawing, tops level: {screws}.",)


def _cable(deck: Deck) -> Draft:
    crosses = deck.lighting is not None and deck.lighting.trunk_mm is not None
    return Draft(
        key="cable", title="Run the cable",
        steps=told(
            "A licensed electrician settles supply, protection and cable.",
            (crosses, "Cross the joists {work.lighting.trunk_mm} from the datum edge, by holes on "
             "their middle line, no larger than a quarter of their depth."),
            "Clip the cable to the sides of the joists, clear of every screw to come, with a loop "
            "at each light: {work.lighting.cable_mm} in all.",
        ),
        after=("frame",), holds=("cable",), tools=("gloves", "driver"), care=("drill", "electric"),
    )  # fmt: skip


def _trim(deck: Deck) -> Draft:
    return Draft(
        key="trim", title="Trim the edge",
        steps=("Snap a line at the cover's edge, fix a straightedge, and saw the overhang of "
               "{pieces.trim_allowance_mm} off in one go.", *board_steps.on_ends(deck)),
        after=("boards",),
        tools=("gloves", "rcd", "saw", *(("brush",) if board_steps.brushed(deck) else ())),
        care=("saw", *board_steps.care(deck)),
    )  # fmt: skip


def _fascia(deck: OnFrame) -> Draft:
    fixed = deck.fixings.fascia_screws is not None
    return Draft(
        key="fascia", title="Fix the fascia",
        steps=told(
            "Short faces first, then the long ones over their ends, tops level with the joists.",
            (fixed, "{fixings.fascia_screws.per_place} screws at each place the list gives, "
             "pilots {fixings.fascia_screws.pilot_mm}."),
            (not fixed, "Its screws are not in the order."),
        ),
        after=("frame",), holds=("ends",),
        tools=("gloves", "rcd", "saw", "driver", *(("fascia_bit",) if fixed else ()), "brush"),
        care=("saw", "treated", "drill"), hands=2,
    )  # fmt: skip


def _lights() -> Draft:
    return Draft(
        key="lights", title="Let the lights in",
        steps=("Drill {work.lighting.hole_mm} where the list of lights says, each in the middle of "
               "its row and clear of all timber below by {work.lighting.clear_least_mm} or more.",
               "A licensed electrician connects and tests them."),
        after=("boards", "cable"), holds=("lit",), tools=("gloves", "driver", "hole_saw"),
        care=("drill", "electric"),
    )  # fmt: skip


def finish_draft() -> Draft:
    """Return the task of brushing the finish on."""
    return Draft(
        key="finish", title="Brush the finish on",
        steps=("Wait for dry boards and dry weather; sweep, and do a trial on an offcut.",
               "{fixings.finish.coats} coats, each dry before the next, along the grain."),
        after=("boards", "trim", "fascia", "lights"), holds=("dry",),
        tools=("gloves", "meter", "brush"), care=("coat",),
    )  # fmt: skip


def _hand_over(deck: Deck) -> Draft:
    return Draft(
        key="hand_over", title="Hand over",
        steps=("Walk every row; sink what stands proud, ease sharp edges, sweep.",
               "Keep this plan, the rod as laid, and the tins' and boxes' labels together.",
               *_looked_after(deck)),
        after=("boards", "trim", "fascia", "guards", "steps", "lights", "finish"),
        holds=("hand_over",),
        tools=("driver",), care=("use_turf" if board_steps.inserted(deck) else "use",),
    )  # fmt: skip


def _looked_after(deck: Deck) -> tuple[str, ...]:
    """Return what to look at first, and then every year; upkeep itself the plan tells apart."""
    clipped = deck.fixings.clips is not None
    return told(
        (not clipped, "In three months drive every screw home again."),
        (clipped, "In three months look whether every row has kept its gaps and slides: drive no "
         "screw tight but at fixed points."),
        "Look at gaps, ends, fixings and algae every spring and autumn, besides the upkeep told.",
        *looked_at(deck),
    )  # fmt: skip
