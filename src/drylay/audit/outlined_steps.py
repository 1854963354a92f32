"""The work on an outline: which tasks there are, what each waits for, holds and is made of."""

from drylay.audit.exact import Fraction, ticks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import need
from drylay.audit.outlined import laying_of, outline_of, subframe_of
from drylay.plan.model import Plan

OUTLINED_HOLDS = {"hatches": {"panels"}}
OUTLINED_WAITS: dict[str, tuple[str, ...]] = {"hatches": ("boards",)}
#: Hours of one person, in hundredths: whatever the deck.
OUTLINED_FIXED = {"hatches": (25, 50)}
#: Tasks that are made of something else than on a rectangle.
OUTLINED = {"set_out", "cut_frame", "frame", "boards", "hatches", "fascia"}
#: Members whose ends are carried and screwed one by one.
HUNG = {"joist", "pair", "trimmer", "double"}

Quantity = tuple[tuple[int, int], Fraction]


def _hatches(plan: Plan) -> int:
    return sum(opening.kind == "hatch" for opening in outline_of(plan).openings)


def barred_holds(plan: Plan, kind: str) -> set[str]:
    """Return the hold points that a panel asks for which nobody is to stand on."""
    told = any(finding.code == "OUT-025" for finding in plan.findings)
    return {"panels_barred"} if told and kind in {"hatches", "hand_over"} else set()


def outlined_kinds(plan: Plan) -> set[str]:
    """Return the kinds of task that a deck on an outline needs."""
    kinds = {"check", "delivery", "set_out", "cut_frame", "frame", "boards", "hand_over"}
    under = plan.groundwork
    parts = {
        "dig": under and under.dig, "fabric": under and under.fabric,
        "gravel": under and under.gravel, "packing": under and under.packing,
        "fascia": subframe_of(plan).facings, "finish": fixings_of(plan).finish,
        "hatches": _hatches(plan),
    }  # fmt: skip
    return kinds | {kind for kind, part in parts.items() if part}


def outlined_gaps(plan: Plan) -> set[int]:
    """Return the gaps that a spacer is wanted for: each field's, where it has any."""
    return {ticks(zone.gap_mm) for zone in laying_of(plan).zones if zone.row_count > 1}


def outlined_quantities(plan: Plan, kind: str) -> list[Quantity]:
    """Return what a task is made of: hundredths of an hour for each, and how many."""
    laying, frame = laying_of(plan), subframe_of(plan)
    kinds = [member.kind for member in frame.members]
    ties = need(plan.work, "work").setting_out.ties
    counts: dict[str, list[tuple[tuple[int, int], int]]] = {
        "set_out": [((5, 10), len(ties))],
        "cut_frame": [((5, 10), len(kinds) + len(frame.battens))],
        "frame": [((10, 25), _carried_ends(plan)), ((8, 15), kinds.count("noggin")),
                  ((15, 30), kinds.count("splice"))],
        "boards": [((10, 20), len(laying.pieces)),
                   ((10, 30), sum(piece.shaped for piece in laying.pieces)),
                   ((10, 20), len(laying.mitres)), *_screwed(plan)],
        "hatches": [((50, 100), _hatches(plan))],
        "fascia": [((30, 60), len(frame.facings))],
    }  # fmt: skip
    return [(rates, Fraction(count)) for rates, count in counts[kind]]


def _carried_ends(plan: Plan) -> int:
    hung = [member for member in subframe_of(plan).members if member.kind in HUNG]
    return sum((member.start_on != "") + (member.end_on != "") for member in hung)


def _screwed(plan: Plan) -> list[tuple[tuple[int, int], int]]:
    """Return crossings held, pieces with inserts, screws with holes of their own, ends waxed."""
    fixings, laying = fixings_of(plan), laying_of(plan)
    screws, wax, clips = fixings.deck_screws, fixings.wax, fixings.clips
    return [
        ((2, 5), screws.crossings if screws else 0),
        ((2, 5), clips.crossings if clips else 0),
        ((10, 20), len(laying.pieces) if laying.groove_mm is not None else 0),
        ((1, 2), screws.count if screws and screws.predrill_all else 0),
        ((2, 5), wax.ends if wax else 0),
    ]
