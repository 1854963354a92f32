"""Planted faults of the site: levels, limits, ground, heights."""

from attrs import evolve

from audit.planting import Edit, Fault, both, by, to, without
from drylay.plan.model import Plan

L = "site.levels"


def in_reason(path: str, field: str, value: object) -> Edit:
    """Return an edit of the reason that stands under a path."""

    def run(plan: Plan) -> Plan:
        decisions = tuple(
            evolve(decision, **{field: value}) if decision.path == path else decision
            for decision in plan.reasons.decisions
        )
        return evolve(plan, reasons=evolve(plan.reasons, decisions=decisions))

    return run


SITE: tuple[Fault, ...] = (
    ("AUD-871", "a limit nearer the damp course", by(f"{L}.limits[0].off_mm", -10.0)),
    ("AUD-871", "a limit off its mark", by(f"{L}.limits[1].level_mm", 5.0)),
    ("AUD-871", "a limit of no mark", to(f"{L}.limits[2].mark", "gutter")),
    ("AUD-871", "a limit that binds no way", to(f"{L}.limits[2].bound", "some")),
    ("AUD-872", "another highest", by(f"{L}.highest_mm", 75.0)),
    ("AUD-872", "another lowest", by(f"{L}.lowest_mm", -1.0)),
    ("AUD-872", "another limit said to govern", to(f"{L}.highest_by", "under the door leaf")),
    ("AUD-872", "a limit that nobody tells", to(f"{L}.lowest_mm", None)),
    (
        "AUD-873",
        "a deck above the damp course",
        both(to(f"{L}.deck_top_mm", 40.0), to(f"{L}.underside_mm", -108.0)),
    ),
    ("AUD-873", "a deck below its steps", to(f"{L}.deck_top_mm", -291.0)),
    ("AUD-874", "a frame nearer the top", by(f"{L}.underside_mm", 1.0)),
    ("AUD-875", "the top told wrongly from the floor", by(f"{L}.marks[2].down_mm", 1.0)),
    ("AUD-875", "a datum that is not nothing", by(f"{L}.marks[0].level_mm", 1.0)),
    ("AUD-875", "no datum", without(f"{L}.marks", 0)),
    ("AUD-876", "a lower rise", by(f"{L}.rise_mm", -1.0)),
    ("AUD-876", "one step told for two", to(f"{L}.steps_down", 1)),
    ("AUD-876", "no step at all", to(f"{L}.steps_down", 0)),
    ("AUD-876", "steps left out", to(f"{L}.steps_down", None)),
    ("AUD-877", "half of the ground", to(f"{L}.ground_most_mm", None)),
    (
        "AUD-877",
        "a verdict on no ground",
        both(*(to(f"{L}.{name}", None) for name in (
            "ground_most_mm", "ground_least_mm", "edge_least_mm", "drop_mm", "under_most_mm",
            "under_least_mm", "fall_to_house_mm",
        ))),
    ),
    ("AUD-877", "ground that nobody measured", to(f"{L}.beyond", (
        "house left", "house right", "front right", "front left"))),
    ("AUD-878", "a smaller drop", by(f"{L}.drop_mm", -10.0)),
    ("AUD-878", "more air under the frame", by(f"{L}.under_least_mm", 10.0)),
    ("AUD-878", "a frame nearer the ground", by(f"{L}.under_most_mm", -10.0)),
    ("AUD-878", "edges below all ground", by(f"{L}.edge_least_mm", -1.0)),
    ("AUD-878", "ground that falls further than it lies", to(f"{L}.fall_to_house_mm", 50.0)),
    ("AUD-879", "a height left out", without(f"{L}.triggers", 1)),
    ("AUD-879", "a height moved", to(f"{L}.triggers[1].limit_mm", 150.0)),
    ("AUD-879", "a height said to be reached", to(f"{L}.triggers[0].reached", True)),
    ("AUD-879", "a height hushed up", to(f"{L}.drop_mm", 301.0)),
    ("AUD-880", "a deck that needs a guard", to(f"{L}.drop_mm", 601.0)),
    ("AUD-880", "a deck that needs legs",
     both(to(f"{L}.under_most_mm", 151.0), to("groundwork.packing", None))),
    ("AUD-881", "a hollow told as none", to(f"{L}.garden_lowest_mm", -309.0)),
    ("AUD-881", "a verdict of nobody", to(f"{L}.hollow", "dry")),
    ("AUD-881", "a verdict on nothing", to(f"{L}.garden_lowest_mm", None)),
    ("AUD-881", "water that cannot run away", to(f"{L}.hollow", "no outfall")),
    ("AUD-883", "a last rise of no rises", to(f"{L}.last_rise_mm", 160.0)),
    ("AUD-883", "no rise left below the deck", both(
        to(f"{L}.rises_to_ground", 2), to(f"{L}.last_rise_mm", 160.0))),
    ("AUD-883", "a last rise of another height", both(
        to(f"{L}.rises_to_ground", 3), to(f"{L}.last_rise_mm", 155.0))),
    # from the top at -150 to the ground at -310
    ("AUD-883", "rises that are not equal", both(
        to(f"{L}.rises_to_ground", 3), to(f"{L}.last_rise_mm", 160.0))),
    ("AUD-882", "another gap said to be practice", in_reason("site.wall_gap_mm", "inputs",
                                                             (("least_mm", 5.0),))),
    ("AUD-882", "a limit not turned down", in_reason("site.levels.deck_top_mm", "turned_down",
                                                     ())),
    ("AUD-002", "a level between the 1/320 mm", by(f"{L}.lowest_mm", 0.001)),
)  # fmt: skip

SITE_WITNESSED: tuple[Fault, ...] = (
    ("AUD-W51", "another damp course", by(f"{L}.marks[1].level_mm", 10.0)),
    ("AUD-W51", "a limit left out", without(f"{L}.limits", 1)),
    ("AUD-W51", "another number of steps", to(f"{L}.steps_down", 3)),
    ("AUD-W52", "another exposure", to("site.exposure", "salt spray")),
    ("AUD-W52", "no house", to("site.beside_house", False)),
    ("AUD-W52", "another gap to the wall", to("site.wall_gap_mm", 10.0)),
    ("AUD-W52", "another datum", to(f"{L}.datum", "doorstep")),
    ("AUD-W53", "lower ground", by(f"{L}.ground_least_mm", -1.0)),
    ("AUD-W53", "higher ground", by(f"{L}.ground_most_mm", 1.0)),
    ("AUD-W53", "lower ground at the edges", by(f"{L}.edge_least_mm", 1.0)),
    ("AUD-W53", "ground that falls otherwise", by(f"{L}.fall_to_house_mm", 1.0)),
    ("AUD-W53", "a corner said to be unmeasured", to(f"{L}.beyond", ("front left",))),
    ("AUD-W53", "another lowest garden", by(f"{L}.garden_lowest_mm", -1.0)),
    ("AUD-W53", "another verdict on the hollow", to(f"{L}.hollow", "with outfall")),
    ("AUD-W53", "no ground", to(f"{L}.ground_least_mm", None)),
    (
        "AUD-W53",
        "points nobody gave",
        in_reason("site.levels.ground_least_mm", "inputs", (("points", 5),)),
    ),
    ("AUD-W54", "a top nobody ruled", by(f"{L}.deck_top_mm", -1.0)),
    ("AUD-W54", "no levels", to(L, None)),
)
