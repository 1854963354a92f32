"""A guard's post as a design basis is asked for it, by the US basis: inch bolts and washers."""

import re
from math import pi

from attrs import evolve

from drylay.reasons import Source
from drylay.strength.basis_answers import refuse_guard_post, uncovered
from drylay.strength.checks import check, ranked, refuse_unless_positive
from drylay.strength.meant import together
from drylay.strength.model import Check, GuardPostAsked, Screened, Section
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_asked import wood_of
from drylay.strength.nds_checks import bending_check, shear_check
from drylay.strength.nds_factors import duration_factor
from drylay.strength.nds_model import Conditions
from drylay.strength.nds_screen import BASIS, WITHIN
from drylay.strength.nds_spans import deck_loads_kn_m2
from drylay.strength.nds_tables import named_values, table_source
from drylay.strength.us_units import mm_of_inches, n_mm2_of_psi

#: Diameters that bolts are called by, in inches.
DIAMETERS_INCH = {"3/8": 0.375, "1/2": 0.5, "5/8": 0.625, "3/4": 0.75}
#: How much wider than its bolt a hole is at most. Source: NDS 12.1.3, from memory.
HOLE_MORE_MM = mm_of_inches(1 / 16)
_BOLT = re.compile(r"(\d/\d) ?in (\S+)", re.IGNORECASE)
_WASHER = Source(
    kind="from memory",
    title="National Design Specification for Wood Construction",
    clause="3.10.2, 12.1.3",
)
_SAID = (
    WITHIN,
    "wet service, and not incised: treated Douglas fir-larch, hem-fir and spruce-pine-fir often "
    "are incised, and then bear a fifth less",
    "the guard's load counts as long as live load of ordinary occupancy, CD 1.0, though a push is "
    "shorter: nothing is taken off for that",
    "two bolts in line carry the push as a couple, the upper one all of it; holes are 1/16 in "
    "wider than bolts",
    "the guard's load pushes level at its top, square to the edge; along the edge the rails hold "
    "posts to one another",
    "what presses the guard down, and the bolts in shear by it, is not checked",
    "the frame's edge and joists that take the couple are not checked here: the edge is held "
    "against rolling by blocking or hardware of its own",
)


def guard_forces_kn(asked: GuardPostAsked) -> tuple[float, float, float]:
    """Return the push on a guard post's top, and what its upper and lower bolts carry.

    The line load on half of both bays, or the load at one place where that is more.

    Raises:
        InputError: A number is not what it can be; all at once.

    Source: statics: a couple of two bolts.
    """
    refuse_guard_post(asked)
    push = max(asked.line_kn_m * asked.centres_mm / 1e3, asked.point_kn)
    lower = push * asked.rail_mm / asked.bolts_mm
    return push, push + lower, lower


def screened_guard_post(asked: GuardPostAsked, use: str) -> Screened:
    """Return the checks of a guard's post at its foot: bending, shear, washer, bolt.

    A bolt is called by its diameter and its grade, `1/2 in A307`.

    Raises:
        UncoveredError: The use, a wood, its size or the bolt is not covered.
        InputError: A number is not what it can be, or the hole leaves no wood.

    Source: statics; NDS 3.1.2, 3.3, 3.4, 3.10.2, from memory; `nds_factors.toml` of the bolts.
    """
    together(
        lambda: refuse_guard_post(asked),
        lambda: deck_loads_kn_m2(use),
        lambda: wood_of(asked.wood),
        lambda: wood_of(asked.edge_wood),
        lambda: _bolt(asked),
    )
    bolt_mm, steel_n_mm2 = _bolt(asked)
    hole_mm = bolt_mm + HOLE_MORE_MM
    refuse_unless_positive(
        breadth_less_hole_mm=asked.section.breadth_mm - hole_mm,
        washer_less_hole_mm=asked.washer_mm - hole_mm,
    )
    checks = (
        *_timber(asked, hole_mm),
        _washer(asked, hole_mm),
        _steel(asked, bolt_mm, steel_n_mm2),
    )
    return Screened(basis=BASIS, subject=asked.subject, checks=ranked(checks), assumed=_SAID)


def _pushed(asked: GuardPostAsked) -> str:
    if asked.point_kn > asked.line_kn_m * asked.centres_mm / 1e3:
        return f"{asked.point_kn:.4g} kN on one post"
    return f"{asked.line_kn_m:.4g} kN/m on the rail"


def _conditions() -> Conditions:
    return Conditions(duration_ratio=duration_factor("occupancy"))


def _timber(asked: GuardPostAsked, hole_mm: float) -> tuple[Check, Check]:
    """The post less its hole; values and their size factor are those of the whole one."""
    push, _, lower = guard_forces_kn(asked)
    wood = allowed(*wood_of(asked.wood), asked.section, _conditions())
    left = Section(breadth_mm=asked.section.breadth_mm - hole_mm, depth_mm=asked.section.depth_mm)
    bent = bending_check(
        wood, left, subject=asked.subject, moment_kn_m=push * asked.rail_mm / 1e3,
        case=_pushed(asked),
    )  # fmt: skip
    sheared = shear_check(
        wood, left, subject=asked.subject, shear_kn=max(push, lower), case=_pushed(asked)
    )
    drilled = (("breadth_less_hole_mm", left.breadth_mm), ("depth_mm", left.depth_mm))
    return (
        evolve(bent, inputs=(*bent.inputs, *drilled)),
        evolve(sheared, inputs=(*sheared.inputs, *drilled)),
    )


def _washer(asked: GuardPostAsked, hole_mm: float) -> Check:
    """Wood under the washer, the weaker of the post and the frame's edge; Cb is left out."""
    push, upper, _ = guard_forces_kn(asked)
    across = min(
        allowed(*wood_of(wood), section, _conditions()).across_n_mm2
        for wood, section in ((asked.wood, asked.section), (asked.edge_wood, asked.edge))
    )
    ring_mm2 = pi * (asked.washer_mm**2 - hole_mm**2) / 4
    return check(
        "washer bearing",
        asked.subject,
        measured=upper,
        limit=across * ring_mm2 / 1e3,
        unit="kN",
        case=_pushed(asked),
        formula="H (rail + bolts) / bolts <= Fc-perp CM A_washer",
        source=_WASHER,
        inputs=(
            ("push_kn", push),
            ("rail_mm", asked.rail_mm),
            ("bolts_mm", asked.bolts_mm),
            ("washer_mm", asked.washer_mm),
            ("hole_mm", hole_mm),
            ("Fc-perp CM", across),
        ),
    )


def _steel(asked: GuardPostAsked, bolt_mm: float, steel_n_mm2: float) -> Check:
    push, upper, _ = guard_forces_kn(asked)
    area_mm2 = pi * bolt_mm**2 / 4
    return check(
        "bolt in tension",
        asked.subject,
        measured=upper,
        limit=steel_n_mm2 * area_mm2 / 1e3,
        unit="kN",
        case=_pushed(asked),
        formula="H (rail + bolts) / bolts <= Ft A_nominal",
        source=table_source("bolt_psi"),
        inputs=(
            ("push_kn", push),
            ("rail_mm", asked.rail_mm),
            ("bolts_mm", asked.bolts_mm),
            ("A_nominal_mm2", area_mm2),
            ("Ft", steel_n_mm2),
        ),
    )


def _bolt(asked: GuardPostAsked) -> tuple[float, float]:
    """Return a bolt's diameter and what its steel may bear by what it is called."""
    said, grades = " ".join(asked.bolt.split()), named_values("bolt_psi")
    found = _BOLT.fullmatch(said)
    size, grade = (found[1], found[2].upper()) if found else ("", "")
    if size not in DIAMETERS_INCH or grade not in grades:
        sizes, known = ", ".join(DIAMETERS_INCH), ", ".join(grades)
        wanted = f"a diameter and a grade, such as 1/2 in A307: {sizes} in; {known}"
        raise uncovered("bolt", repr(asked.bolt), wanted, "1/2 in A307")
    return mm_of_inches(DIAMETERS_INCH[size]), n_mm2_of_psi(grades[grade])
