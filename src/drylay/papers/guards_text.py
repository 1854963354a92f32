"""In words: where a deck needs guards, how they are built, and its flight of steps."""

from drylay.flights.model import Steps
from drylay.guards.model import Guard, GuardFoot, GuardRun, Guards, Stretch
from drylay.papers.loads import up_to_tenth, used
from drylay.papers.wording import clean, many, size, size_least, size_most
from drylay.plan.model import Plan
from drylay.strength.model import Strength

#: Sides that steps may lead down from, and what they are counted from there.
FROM_TOLD = {"front": "from the cover's left corner", "house": "from the cover's left corner",
             "left": "from the house side", "right": "from the house side"}  # fmt: skip
INFILLS = {"balusters": ("baluster", "balusters"), "rails": ("rail", "rails")}
FOOT = (
    "How posts of guards are fixed, and what they carry at their foot, is not screened: a "
    "licensed person says."
)
EDGE = (
    "The frame's edge that takes their couple must be held against rolling by blocking or hardware "
    "of its own: that is not screened."
)
LOCAL = "Local rules on guards and steps come first; these are within the screened limits only."


def edges_told(plan: Plan) -> list[str]:
    """Return guards and steps, a line each; nothing where a plan tells of neither."""
    told = [] if plan.guards is None else guards_told(plan.guards, plan.units, plan.strength)
    told += [] if plan.steps is None else steps_told(plan.steps, plan.units)
    return [*told, LOCAL] if told else []


def guards_told(guards: Guards, units: str, strength: Strength | None = None) -> list[str]:
    """Return where guards are needed, from which drop on, and how each is built."""
    trigger = (
        f"over a drop of more than {size_most(guards.trigger_mm, units)} ({clean(guards.region)})"
    )
    if not guards.runs:
        return [f"No edge needs a guard: one is needed {trigger}."]
    told = [
        f"Guards {trigger}, {size(guards.length_mm, units)} in all: at least "
        f"{size_least(guards.height_mm, units)} high, and no ball of "
        f"{size_most(guards.ball_mm, units)} passes."
    ]
    built = {guard.run: guard for guard in guards.built}
    for run in guards.runs:
        told.append(run_told(run, units))
        if run.mark in built:
            told.append(built_told(built[run.mark], units))
    if not built:
        return [*told, "How they are built the brief does not tell: not planned."]
    asked = strength.guard_posts if strength is not None else ()
    if guards.foot is None or strength is None or not asked:
        return [*told, FOOT]
    return [*told, foot_told(guards.foot, strength, units), EDGE]


def foot_told(foot: GuardFoot, strength: Strength, units: str) -> str:
    """Return what holds guards' posts, and how far it is used at the most."""
    posts = {asked.subject for asked in strength.guard_posts}
    most = max((check.utilisation_ratio for one in strength.screened if one.subject in posts
                for check in one.checks), default=0.0)  # fmt: skip
    return (
        f"Each post, {clean(foot.article)}, is held by two bolts {clean(foot.bolt)} through the "
        f"frame's edge, the upper one {size(foot.upper_bolt_mm, units)} below the deck's top, the "
        f"other {size(foot.bolts_apart_mm, units)} below that, washers "
        f"{size(foot.washer_mm, units)} across under heads and nuts: most used {used(most)} of 1."
    )


def run_told(run: GuardRun, units: str) -> str:
    """Return where one guard runs, and over which drop."""
    drop = drop_told(run, units)
    where = "; ".join(stretch_told(one, units) for one in run.stretches)
    bends = f", {many(run.bends, 'corner')}" if run.bends else ""
    return (
        f"Guard {clean(run.mark)}, {size(run.length_mm, units)} long{bends}, greatest drop {drop}: "
        f"{where}."
    )


def drop_told(run: GuardRun, units: str) -> str:
    """Return a guard's greatest drop, never printed less than it is."""
    return "not known" if run.drop_mm is None else size_least(run.drop_mm, units)


def stretch_told(stretch: Stretch, units: str) -> str:
    """Return which part of an edge a guard runs along."""
    return (
        f"edge {clean(stretch.edge)} from {size(stretch.from_mm, units)} to "
        f"{size(stretch.to_mm, units)}"
    )


def built_told(guard: Guard, units: str) -> str:
    """Return how a guard is built: height, posts, infill."""
    spacing = max((line.spacing_most_mm for line in guard.lines), default=0.0)
    gap = max((bay.gap_most_mm for bay in guard.bays), default=0.0)
    kinds = dict.fromkeys(bay.kind for bay in guard.bays)
    what = ", ".join(INFILLS.get(kind, (kind, clean(kind)))[1] for kind in kinds)
    return (
        f"{clean(guard.run)} is built {size(guard.height_mm, units)} high: "
        f"{many(guard.posts, 'post')} of {size(guard.post_mm, units)}, "
        f"{size(spacing, units)} apart at the most, {guard.pieces} {what}, "
        f"widest gap {size(gap, units)}, {size(guard.handrail_mm, units)} of handrail."
    )


def steps_told(steps: Steps, units: str) -> list[str]:
    """Return the flight: where, risers and goings, how stringers are cut, handrail."""
    flight = steps.flight
    return [
        f"Steps down from the {clean(steps.side)} side: {size(steps.width_mm, units)} wide, from "
        f"{size(steps.from_mm, units)} on, {FROM_TOLD.get(steps.side, '')}; they reach "
        f"{size(flight.run_mm, units)} out. {flight_told(steps, units)}",
        *cuts_told(steps, units),
        *handrail_told(steps),
    ]


def flight_told(steps: Steps, units: str) -> str:
    """Return a flight's equal risers and its goings."""
    flight = steps.flight
    return (
        f"{many(flight.risers, 'equal riser')} of {size(flight.riser_mm, units)}, "
        f"{many(flight.treads, 'tread')} with a going of {size(flight.going_mm, units)}, pitch "
        f"{up_to_tenth(flight.pitch_deg)} degrees; twice the rise and the going: "
        f"{size(flight.two_rise_going_mm, units)}."
    )


def cuts_told(steps: Steps, units: str) -> list[str]:
    """Return how stringers are cut; nothing for a flight of one riser, which has none."""
    flight = steps.flight
    if not flight.treads:
        return []
    return [
        f"Stringers: first rise cut {size(flight.first_cut_mm, units)}, a tread's "
        f"{size(steps.tread_mm, units)} less than a riser; top seat "
        f"{size(flight.seat_below_top_mm, units)} under the deck's top, "
        f"{size(flight.seat_below_frame_mm, units)} under the top of its frame; out of timber at "
        f"least {size_least(flight.stringer_mm, units)} long, notches "
        f"{size_least(flight.notch_mm, units)} deep. Whether stringers and treads carry is not "
        "screened."
    ]


def handrail_told(steps: Steps) -> list[str]:
    """Return whether the flight needs a handrail."""
    if not steps.flight.handrail:
        return ["No handrail is needed by the region's rules."]
    return ["The flight needs a handrail."]
