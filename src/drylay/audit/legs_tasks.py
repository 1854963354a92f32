"""The work on what stands under a deck and round it: its tasks, waits, holds, hands, hours."""

from fractions import Fraction

from drylay.audit.between import hung
from drylay.audit.exact import ticks
from drylay.audit.frame import frame_of
from drylay.plan.model import Plan
from drylay.raised.model import Bearer

#: Limits of the hold points of what stands that have one.
LEGS_LIMITS = {
    "post_places": (5.0, "mm"), "feet": (5.0, "mm"), "plumb": (3.0, "in 1000"),
    "post_tops": (3.0, "mm"), "ledger_level": (3.0, "mm"), "bearer_level": (3.0, "mm"),
    "risers": (5.0, "mm"),
}  # fmt: skip
LEGS_HOLDS = {
    "post_lines": {"post_places"}, "holes": {"hole_sizes", "holes_seen"},
    "concrete": {"concrete_set"}, "posts": {"plumb"},
    "ledger": {"ledger_level", "anchors"}, "bearers": {"bearer_level", "bearing"},
    "braces": {"braced"}, "guards": {"guard_push", "guard_gaps"}, "steps": {"risers"},
}  # fmt: skip
#: What tasks wait for, what of it the plan has; posts and concrete wait for one another in turn.
LEGS_WAITS: dict[str, tuple[str, ...]] = {
    "post_lines": ("set_out", "dig"), "holes": ("post_lines", "dig"),
    "concrete": ("delivery", "holes"), "posts": ("delivery", "post_lines", "holes"),
    "ledger": ("cut_frame", "set_out"),
    "bearers": ("cut_frame", "posts", "concrete", "fabric", "gravel"), "braces": ("frame",),
    "guards": ("frame", "braces", "boards", "trim", "tiles", "cut_tiles", "fascia"),
    "steps": ("frame", "braces", "boards", "trim", "tiles", "cut_tiles", "fascia", "guards"),
}  # fmt: skip
#: What tasks of any deck wait for besides where the plan has it.
MORE_WAITS: dict[str, tuple[str, ...]] = {
    "fabric": ("posts", "concrete"), "gravel": ("posts", "concrete"),
    "packing": ("posts", "concrete"), "frame": ("ledger", "bearers"),
    "hand_over": ("guards", "steps"),
}  # fmt: skip
LEGS_TWO_HANDED = {"post_lines", "posts", "ledger", "bearers", "braces", "guards", "steps"}
#: Hours of one person, in hundredths: whatever the deck.
LEGS_FIXED = {
    "post_lines": (50, 100), "holes": (25, 50), "concrete": (25, 50), "posts": (50, 100),
    "ledger": (50, 100), "bearers": (50, 100), "braces": (25, 50), "guards": (50, 100),
    "steps": (200, 400),
}  # fmt: skip
#: A ply's bolts: two at its start, and two for every 600 mm begun, in 1/320 mm.
PLY_EVERY_320 = 600 * 320


def legs_kinds(plan: Plan) -> set[str]:
    """Return the kinds of task that only a deck has that stands, or has guards or steps."""
    raised, guards = plan.raised, plan.guards
    parts = {
        "post_lines": raised, "posts": raised, "bearers": raised,
        "holes": raised and plan.footings, "concrete": raised and plan.footings,
        "ledger": raised and raised.frame.ledger,
        "braces": raised and raised.frame.bracing.braces,
        "guards": guards and guards.runs, "steps": plan.steps,
    }  # fmt: skip
    return {kind for kind, part in parts.items() if part}


def set_in_concrete(plan: Plan) -> bool:
    """Return whether any post runs on into concrete."""
    posts = plan.raised.frame.posts if plan.raised is not None else ()
    return any(post.embed_mm > 0 for post in posts)


def legs_waits(plan: Plan, kind: str) -> tuple[str, ...]:
    """Return what a task waits for because of what stands."""
    waits = (*LEGS_WAITS.get(kind, ()), *MORE_WAITS.get(kind, ()))
    first = ("concrete", "posts") if set_in_concrete(plan) else ("posts", "concrete")
    return (*waits, first[1]) if kind == first[0] else waits


def legs_holds(plan: Plan, kind: str) -> set[str]:
    """Return the hold points that a task has for what stands, beside those of its kind."""
    raised, steps = plan.raised, plan.steps
    coated = plan.fixings is not None and plan.fixings.preserver is not None
    ends = {"ends"} if coated else set()
    topped = {"post_tops", *ends}
    asked = {
        "check": {"services"} if plan.footings is not None else set(),
        "concrete": topped if set_in_concrete(plan) else {"feet"},
        "posts": ends if set_in_concrete(plan) else topped,
        "braces": ends,
        "frame": {"ties"} if raised is not None and not hung(plan) else set(),
        "steps": {"handrail"} if steps is not None and steps.flight.handrail else set(),
    }  # fmt: skip
    return asked.get(kind, set())


def fixings_wanted(plan: Plan) -> dict[str, int]:
    """Return how many fixings of each kind there are that no order holds; none left out."""
    guards, raised = plan.guards, plan.raised
    posts = sum(guard.posts for guard in guards.built) if guards is not None else 0
    counted = {"guard bolts": 2 * posts}
    if guards is not None and guards.foot is not None:
        counted["guard washers"] = 4 * posts  # under each head and each nut
    if raised is not None:
        frame = raised.frame
        counted |= {
            "joist ties": _ties(plan, frame.bearers),
            "ledger fixings": len(frame.ledger.stations_mm) if frame.ledger is not None else 0,
            "ply bolts": sum(_ply_bolts(bearer.end_mm - bearer.start_mm)
                             for bearer in frame.bearers if bearer.section.plies > 1),
            "post caps": len(frame.posts), "brace bolts": 2 * len(frame.bracing.braces),
        }  # fmt: skip
    return {what: count for what, count in counted.items() if count}


def _ties(plan: Plan, bearers: tuple[Bearer, ...]) -> int:
    """Return how often joists cross bearers: all of them all, but under an outline."""
    under = plan.subframe
    if hung(plan):
        return 0
    if under is None:
        return len(frame_of(plan).joists) * len(bearers)
    found = 0
    for member in under.members:
        ends = [(ticks(end.along_mm), ticks(end.across_mm)) for end in (member.start, member.end)]
        if under.joist_run == "along":
            ends = [(across, along) for along, across in ends]
        at, low, high = ends[0][0], min(ends[0][1], ends[1][1]), max(ends[0][1], ends[1][1])
        if ends[1][0] == at and member.kind not in {"noggin", "splice"}:
            found += sum(
                ticks(bearer.start_mm) <= at <= ticks(bearer.end_mm)
                and low <= ticks(bearer.across_mm) <= high
                for bearer in bearers
            )
    return found


def _ply_bolts(length_mm: float) -> int:
    begun, length_320 = 0, round(length_mm * 320)
    while begun * PLY_EVERY_320 < length_320:
        begun += 1
    return 2 * (begun + 1)


def legs_quantities(plan: Plan, kind: str) -> list[tuple[tuple[int, int], Fraction]]:
    """Return what a task is made of for what stands: hundredths of an hour each, how many."""
    fixings, raised, under = fixings_wanted(plan), plan.raised, plan.footings
    frame = raised.frame if raised is not None else None
    counts: dict[str, list[tuple[tuple[int, int], object]]] = {
        "cut_frame": [((5, 10), _bearer_pieces(plan))],
        "frame": [((5, 10), fixings.get("joist ties", 0))],
        "post_lines": [((10, 20), len(frame.posts) if frame else 0)],
        "holes": [((50, 150), len(under.under) if under else 0)],
        "concrete": [((10, 20), under.bags if under else 0)],
        "posts": [((40, 80), len(frame.posts) if frame else 0)],
        "ledger": [((15, 30), fixings.get("ledger fixings", 0))],
        "bearers": [((50, 100), len(frame.bearers) if frame else 0),
                    ((3, 6), fixings.get("ply bolts", 0))],
        "braces": [((30, 60), len(frame.bracing.braces) if frame else 0)],
        "guards": [((75, 150), Fraction(str(plan.guards.length_mm if plan.guards else 0)) / 1000)],
        "steps": [((50, 100), plan.steps.risers if plan.steps else 0)],
    }  # fmt: skip
    return [(rates, Fraction(str(count))) for rates, count in counts.get(kind, [])]


def _bearer_pieces(plan: Plan) -> int:
    """Return how many pieces bearers are in: every ply one more than it has joints."""
    bearers = plan.raised.frame.bearers if plan.raised is not None else ()
    return sum(bearer.section.plies + len(bearer.joints) for bearer in bearers)
