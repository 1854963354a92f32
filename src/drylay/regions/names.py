"""Every question that a region's pack answers, and what the answer means."""

#: Name of a limit, and what it is. Its unit stands at the end of its name; a count has none.
LIMITS = {
    "guard_trigger_mm": "drop at an edge that a guard is needed over",
    "guard_measured_out_mm": "how far out from the edge lower ground counts",
    "guard_height_deck_mm": "least height of a guard at a deck's edge",
    "guard_height_stair_mm": "least height of a guard beside a flight, over the nosings",
    "sphere_mm": "ball that may not pass a guard",
    "sphere_stair_mm": "ball that may not pass a guard beside a flight",
    "sphere_triangle_mm": "ball that may not pass between tread, riser and bottom rail",
    "guard_line_kn_m": "level load along the top of a guard at a deck's edge",
    "guard_line_stair_kn_m": "level load along the top of a guard beside a flight",
    "guard_point_kn": "load at any one place of a guard's top, in any direction",
    "infill_kn_m2": "load spread over the infill",
    "infill_point_kn": "load at any one place of the infill",
    "guard_post_spacing_mm": "furthest that guard posts stand apart, centre to centre",
    "rails_climb_mm": "drop over which level rails that can be climbed are not allowed",
    "rise_least_mm": "least rise of a step",
    "rise_most_mm": "greatest rise of a step",
    "going_least_mm": "least going of a step",
    "going_most_mm": "greatest going of a step",
    "two_rise_going_least_mm": "least of twice the rise and the going",
    "two_rise_going_most_mm": "most of twice the rise and the going",
    "pitch_most_deg": "steepest pitch of a flight",
    "rise_differ_mm": "most that two rises of one flight differ",
    "open_riser_sphere_mm": "ball that may not pass between two treads",
    "handrail_risers": "number of risers from which a handrail is needed",
    "handrail_rise_mm": "rise of a flight over which a handrail is needed",
    "handrail_least_mm": "lowest handrail, over the nosings",
    "handrail_most_mm": "highest handrail, over the nosings",
    "landing_least_mm": "least length of the landing at either end of a flight",
    "flight_risers_most": "most risers between two landings",
    "flight_rise_most_mm": "greatest rise between two landings",
    "stair_width_least_mm": "least width of a flight",
    "frost_depth_mm": "depth of a footing's underside where the ground freezes",
    "footing_depth_least_mm": "least depth of a footing's underside, frost or none",
    "footing_square_least_mm": "least side of a square footing",
    "footing_round_least_mm": "least diameter of a round footing",
    "footing_thick_least_mm": "least thickness of a concrete footing",
}
#: The endings of names, and the units they stand for.
UNITS = {"_mm": "mm", "_kn_m": "kN/m", "_kn_m2": "kN/m2", "_kn": "kN", "_deg": "deg", "_m2": "m2"}


def unit_of(name: str) -> str:
    """Return the unit that a limit's name ends in, "" for a count."""
    endings = sorted(UNITS, key=len, reverse=True)
    return next((UNITS[ending] for ending in endings if name.endswith(ending)), "")
