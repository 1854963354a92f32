"""Planted faults in guards and steps."""

from audit.edits import put
from audit.planting import Fault, both, by, to, without
from drylay.guards.model import Passage
from drylay.plan.model import Plan

G, ST = "guards", "steps.flight"
RUN, BUILT = f"{G}.runs[0]", f"{G}.built[0]"


def no_guards(plan: Plan) -> Plan:
    return put(plan, f"{G}.runs", ())


def without_facets(plan: Plan) -> Plan:
    return put(plan, f"{G}.facets", ())


GUARDS: tuple[Fault, ...] = (
    ("AUD-346", "an edge not looked at", without(f"{G}.edges", 3)),
    ("AUD-346", "a side told as the house's", to(f"{G}.edges[1].kind", "house")),
    ("AUD-346", "a pool that is none", to(f"{G}.edges[1].kind", "pool")),
    ("AUD-346", "an edge lower than the deck", by(f"{G}.edges[1].top_mm", -200.0)),
    ("AUD-346", "an edge of a side cut short", to(f"{G}.edges[1].start.across_mm", 500.0)),
    ("AUD-347", "no guards at all", no_guards),
    ("AUD-347", "a guard that ends too soon", by(f"{RUN}.stretches[0].to_mm", -500.0)),
    ("AUD-347", "ground that nobody knows, unguarded", both(without_facets, no_guards)),
    ("AUD-347", "a way through as broad as the side", to(
        f"{G}.edges[2].passages", ())),
    ("AUD-348", "a drop told less", by(f"{RUN}.stretches[0].drop_mm", -100.0)),
    ("AUD-348", "a run that drops less than its stretches", to(f"{RUN}.drop_mm", 610.0)),
    ("AUD-348", "a guard along the house", to(f"{RUN}.stretches[0].edge", "E1")),
    ("AUD-348", "a guard past its edge", by(f"{RUN}.stretches[0].to_mm", 9000.0)),
    ("AUD-349", "a run longer than its stretches", by(f"{RUN}.length_mm", 100.0)),
    ("AUD-349", "bends miscounted", by(f"{RUN}.bends", 1)),
    ("AUD-349", "runs that do not add up", by(f"{G}.length_mm", 1.0)),
    ("AUD-350", "a run without its guard", without(f"{G}.built", 0)),
    ("AUD-350", "a guard along no run", to(f"{BUILT}.run", "R9")),
    ("AUD-350", "a drop for an engineer", to(f"{RUN}.drop_mm", 1200.0)),
    ("AUD-350", "a drop nobody knows", to(f"{RUN}.drop_mm", None)),
    ("AUD-351", "a low guard", to(f"{BUILT}.height_mm", 900.0)),
    ("AUD-351", "a handrail cut short", by(f"{BUILT}.handrail_mm", -100.0)),
    ("AUD-352", "rails as wide as the bay", to(f"{BUILT}.bays[0].kind", "rails")),
    ("AUD-351", "a baluster left out", without(f"{BUILT}.bays[0].starts_mm", 0)),
    ("AUD-351", "balusters in one another", by(f"{BUILT}.bays[0].starts_mm[1]", -100.0)),
    ("AUD-351", "a smaller gap told", by(f"{BUILT}.bays[0].gap_most_mm", -1.0)),
    ("AUD-351", "a larger ball", by(f"{BUILT}.bays[0].ball_mm", 10.0)),
    ("AUD-351", "pieces miscounted", by(f"{BUILT}.pieces", -1)),
    ("AUD-352", "a post left out", without(f"{BUILT}.lines[0].centres_mm", 1)),
    ("AUD-352", "no post at the end", by(f"{BUILT}.lines[0].length_mm", 300.0)),
    ("AUD-352", "posts without a line", to(f"{BUILT}.lines", ())),
    ("AUD-352", "posts too far apart", to(f"{G}.post_spacing_most_mm", 500.0)),
    ("AUD-352", "posts miscounted", by(f"{BUILT}.posts", -1)),
    ("AUD-353", "a way through to nowhere", to(
        f"{G}.edges[3].passages", (Passage(name="gate", from_mm=100.0, to_mm=900.0),))),
    ("AUD-353", "a way through broader than the steps", by(
        f"{G}.edges[2].passages[0].to_mm", 100.0)),
    ("AUD-353", "a way through, and no steps", to("steps", None)),
    ("AUD-354", "guards never looked for", to(G, None)),
)  # fmt: skip

STEPS: tuple[Fault, ...] = (
    ("AUD-355", "a riser higher than others", by(f"{ST}.heights_mm[0]", 5.0)),
    ("AUD-355", "a riser that is no part of the rise", by(f"{ST}.riser_mm", 5.0)),
    ("AUD-355", "a height left out", without(f"{ST}.heights_mm", 0)),
    ("AUD-355", "a tread too many", by(f"{ST}.treads", 1)),
    ("AUD-355", "another number of risers", by("steps.risers", 1)),
    ("AUD-355", "no riser", both(to(f"{ST}.risers", 0), to("steps.risers", 0))),
    ("AUD-356", "a rise that ends in the air", by(f"{ST}.rise_mm", -50.0)),
    ("AUD-356", "a drop deeper than any", by(f"{ST}.drop_mm", 500.0)),
    ("AUD-356", "a fall of another ground", by("steps.fall_ratio", 0.05)),
    ("AUD-357", "a run of a going more", by(f"{ST}.run_mm", 250.0)),
    ("AUD-357", "another stride", by(f"{ST}.two_rise_going_mm", 20.0)),
    ("AUD-357", "another pitch", by(f"{ST}.pitch_deg", -5.0)),
    ("AUD-357", "a going that no rule leaves", to(f"{ST}.going_to_mm", 100.0)),
    ("AUD-358", "a first riser not cut", by(f"{ST}.first_cut_mm", 28.0)),
    ("AUD-358", "a top seat too high", by(f"{ST}.seat_below_top_mm", -28.0)),
    ("AUD-358", "a seat by another board", by(f"{ST}.seat_below_frame_mm", 5.0)),
    ("AUD-358", "another notch", by(f"{ST}.notch_mm", -20.0)),
    ("AUD-359", "steps down no side", to("steps.side", "top")),
    ("AUD-359", "steps past the corner", to("steps.from_mm", 5900.0)),
    ("AUD-359", "steps of another region", to("steps.region", "australia")),
)  # fmt: skip

GUARD_FAULTS = (*GUARDS, *STEPS)
