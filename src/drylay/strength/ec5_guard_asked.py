"""A guard's post as a design basis is asked for it, by Eurocode 5: metric bolts and washers."""

import re

from attrs import evolve

from drylay.strength.basis_answers import refuse_guard_post, uncovered
from drylay.strength.ec5_asked import actions_for, grade_of
from drylay.strength.ec5_joints import screen_guard_post
from drylay.strength.ec5_model import Choices, GuardPost, Timber
from drylay.strength.model import GuardPostAsked, Screened

#: Stress areas of coarse threads by diameter, in mm2. Source: ISO 898-1, from memory.
STRESS_MM2 = {8: 36.6, 10: 58.0, 12: 84.3, 16: 157.0, 20: 245.0}
#: Tensile strength by property class, in N/mm2. Source: EN 1993-1-8 table 3.1 and, of stainless
#: steel, EN ISO 3506-1, from memory.
TENSILE_N_MM2 = {
    "4.6": 400.0, "4.8": 400.0, "5.6": 500.0, "5.8": 500.0, "8.8": 800.0, "A2-70": 700.0,
    "A4-70": 700.0,
}  # fmt: skip
#: How much wider holes are than bolts, and how many diameters washers are across at the least.
#: Source: EN 1995-1-1 10.4.3, from memory.
HOLE_MORE_MM, WASHER_DIAMETERS = 1.0, 3.0
_BOLT = re.compile(r"M(\d{1,2}) (\S+)", re.IGNORECASE)


def screened_guard_post(asked: GuardPostAsked, use: str) -> Screened:
    """Return the checks of a guard's post at its foot.

    A bolt is called by its thread and property class, `M12 4.6` or `M12 A4-70`.

    Raises:
        UncoveredError: The use, a wood or the bolt is not covered, or the washer too small for it.
        InputError: A number is not what it can be.

    Source: `screen_guard_post`; EN 1995-1-1 10.4.3, from memory.
    """
    refuse_guard_post(asked)
    actions_for(use)
    diameter_mm, tensile_n_mm2 = _bolt(asked)
    if asked.washer_mm < WASHER_DIAMETERS * diameter_mm:
        wanted = f"at least 3 diameters of the bolt, {WASHER_DIAMETERS * diameter_mm:g} mm"
        raise uncovered("washer_mm", f"{asked.washer_mm:g}", wanted)
    post = GuardPost(
        timber=Timber(name=asked.subject, section=asked.section, grade=grade_of(asked.wood)),
        line_load_kn_m=asked.line_kn_m,
        centres_mm=asked.centres_mm,
        rail_mm=asked.rail_mm,
        bolts_mm=asked.bolts_mm,
        hole_mm=diameter_mm + HOLE_MORE_MM,
        washer_mm=asked.washer_mm,
        stress_area_mm2=STRESS_MM2[diameter_mm],
        tensile_n_mm2=tensile_n_mm2,
        edge_grade=grade_of(asked.edge_wood),
        point_kn=asked.point_kn,
    )
    found = screen_guard_post(post, choices=Choices())
    return evolve(found, assumed=(*found.assumed, *_SAID))


_SAID = (
    "the guard post's hole is 1 mm wider than its bolt; washers under head and nut are at least "
    "0.3 diameters thick",
)


def _bolt(asked: GuardPostAsked) -> tuple[int, float]:
    """Return a bolt's diameter and tensile strength by what it is called."""
    said = " ".join(asked.bolt.split())
    found = _BOLT.fullmatch(said)
    diameter_mm, grade = (int(found[1]), found[2].upper()) if found else (0, "")
    if diameter_mm not in STRESS_MM2 or grade not in TENSILE_N_MM2:
        threads, classes = ", ".join(f"M{each}" for each in STRESS_MM2), ", ".join(TENSILE_N_MM2)
        wanted = f"a thread and a property class, such as M12 4.6: {threads}; {classes}"
        raise uncovered("bolt", repr(asked.bolt), wanted, "M12 4.6")
    return diameter_mm, TENSILE_N_MM2[grade]
