"""Faults planted in the ground under the hand-made L, and in how it is set out."""

from attrs import evolve

from audit.edits import at, put
from audit.outlined_sample import spot
from audit.planting import Edit, Fault, both, by, to, twice, without
from drylay.audit import outlined_air, outlined_ground, outlined_work
from drylay.plan.model import Plan

DIG, FABRIC, PACKING = "groundwork.dig", "groundwork.fabric", "groundwork.packing"
OUT = "work.setting_out"


def no_more_check(end: str) -> Edit:
    """Return an edit that leaves out the tie which checks a peg."""

    def run(plan: Plan) -> Plan:
        ties = [tie for tie in at(plan, f"{OUT}.ties") if not (tie.check and tie.end == end)]  # type: ignore[attr-defined]
        return put(put(plan, f"{OUT}.ties", tuple(ties)), f"{OUT}.tie_count", len(ties))

    return run


def placed_from(end: str, start: str) -> Edit:
    """Return an edit that places a peg from another in place of its second."""

    def run(plan: Plan) -> Plan:
        ties = list(at(plan, f"{OUT}.ties"))  # type: ignore[call-overload]
        index = max(n for n, tie in enumerate(ties) if not tie.check and tie.end == end)
        ties[index] = evolve(ties[index], start=start)
        return put(plan, f"{OUT}.ties", tuple(ties))

    return run


GROUND: tuple[Fault, ...] = (
    ("AUD-884", "a dig as large as its box", to(f"{DIG}.area_m2", 2.541)),
    ("AUD-884", "a dig of the outline alone", to(f"{DIG}.area_m2", 1.565)),
    ("AUD-884", "roots dug through", to(f"{DIG}.area_m2", 2.016)),
    ("AUD-884", "more left to roots", by(f"{DIG}.roots_m2", 0.01)),
    ("AUD-884", "a shorter dig", by(f"{DIG}.along_mm", -100.0)),
    ("AUD-884", "a dig past a boundary", to("outline.sides[5].kind", "boundary")),
    ("AUD-884", "a dig past the edge of a pool", to("outline.sides[1].kind", "pool")),
    ("AUD-885", "a dig into the house", to(f"{DIG}.house_margin_mm", 100.0)),
    ("AUD-885", "a dig of no depth", to(f"{DIG}.depth_mm", 0.0)),
    ("AUD-886", "roots forgotten", to(f"{DIG}.roots", ())),
    ("AUD-886", "roots of no tree", to(f"{DIG}.roots[0].opening", "O9")),
    ("AUD-886", "roots that reach less far", to(f"{DIG}.roots[0].radius_mm", 100.0)),
    ("AUD-886", "roots round another place", to(f"{DIG}.roots[0].middle", spot((650.0, 250.0)))),
    ("AUD-886", "a trunk wider than its room",
     both(to(f"{DIG}.roots[0].trunk_mm", 50.0), to(f"{DIG}.roots[0].radius_mm", 600.0))),
    ("AUD-887", "a strip left out", without(f"{FABRIC}.strips", 1)),
    ("AUD-887", "a strip too short", by(f"{FABRIC}.strips[0].length_mm", -50.0)),
    ("AUD-887", "every strip as long as the box", to(f"{FABRIC}.strips[1].length_mm", 2200.0)),
    ("AUD-887", "another mark", to(f"{FABRIC}.strips[1].mark", "G3")),
    ("AUD-887", "strips askew", to(f"{FABRIC}.run", "askew")),
    ("AUD-888", "the other way miscounted", by(f"{FABRIC}.other_strips", -1)),
    ("AUD-888", "the other way too short", by(f"{FABRIC}.other_length_mm", -100.0)),
    ("AUD-889", "a joist's end on nothing", without(f"{PACKING}.places", 5)),
    ("AUD-889", "a joist's middle on nothing", without(f"{PACKING}.places", 4)),
    ("AUD-889", "a packer twice", twice(f"{PACKING}.places", 0)),
    ("AUD-889", "packers miscounted", by(f"{PACKING}.count", -1)),
    ("AUD-889", "the most under one miscounted", by(f"{PACKING}.per_joist", 1)),
    ("AUD-890", "a thinner frame", by("site.levels.underside_mm", 10.0)),
)  # fmt: skip

SET_OUT: tuple[Fault, ...] = (
    ("AUD-924", "a peg at the fascia", to(f"{OUT}.pegs[1].along_mm", 2000.0)),
    ("AUD-924", "a peg left out", without(f"{OUT}.pegs", 5)),
    ("AUD-924", "measured another way", to(f"{OUT}.pegs[1].brief_along_mm", 2000.0)),
    ("AUD-924", "not told as measured", to("outline.turned_deg", 20.0)),
    (
        "AUD-924",
        "measured elsewhere",
        both(
            to("outline.turned_deg", 20.0),
            *(
                to(f"{OUT}.pegs[{n}].brief_{way}_mm", 1.0)
                for n in range(6)
                for way in ("along", "across")
            ),
        ),
    ),
    ("AUD-924", "another mark", to(f"{OUT}.pegs[2].mark", "P4")),
    ("AUD-925", "a tie too long", by(f"{OUT}.ties[3].length_mm", 5.0)),
    ("AUD-925", "a tie to no peg", to(f"{OUT}.ties[3].start", "P9")),
    ("AUD-925", "a tie twice", twice(f"{OUT}.ties", 11)),
    ("AUD-926", "a peg placed by one tape", without(f"{OUT}.ties", 8)),
    ("AUD-926", "tapes that meet worse", placed_from("P6", "P2")),
    ("AUD-926", "a peg placed from one that does not stand", placed_from("P4", "P6")),
    ("AUD-926", "another base line", to(f"{OUT}.ties[0].end", "P3")),
    ("AUD-927", "a peg that nothing checks", no_more_check("P5")),
    ("AUD-928", "a smaller 3-4-5", to(f"{OUT}.slant_mm", 1000.0)),
    ("AUD-928", "none where one fits", to(f"{OUT}.slant_mm", None)),
    ("AUD-928", "a wider allowance", to(f"{OUT}.accepted_mm", 10.0)),
)

#: 120 of timber over 80 of room: 30 over the lawn, and 50 dug.
AIR: tuple[Fault, ...] = (
    ("AUD-891", "a fascia as deep as the ground", to("subframe.facing_depth_mm", 201.0)),
    ("AUD-892", "a fascia near the ground, untold", to("subframe.facing_depth_mm", 195.0)),
    ("AUD-892", "heads that stand out, untold", to("fixings.coach_screws.top_least_mm", 90.0)),
    ("AUD-893", "air that is short, untold", to("site.air_below_least_mm", 100.0)),
)

GROUND_FAULTS = (*GROUND, *SET_OUT, *AIR)
#: Checks that only a deck on an outline with ground and work has.
OF_GROUND = {
    code for code, *_ in (*outlined_ground.CHECKS, *outlined_work.CHECKS, *outlined_air.CHECKS)
}
