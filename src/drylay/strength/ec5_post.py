"""Posts: buckling, bearing on their ends, bending with compression; and the pad below one."""

from math import pi, sqrt

from drylay.strength.checks import check, refuse_unless_positive
from drylay.strength.ec5_checking import ec5, screened
from drylay.strength.ec5_member import bending_design_n_mm2, design_n_mm2
from drylay.strength.ec5_model import Choices, DesignCase, Post, Timber
from drylay.strength.ec5_values import number, one_of, source_of
from drylay.strength.model import Check, Screened
from drylay.strength.sections import area_mm2, modulus_mm3, one_piece

#: Effective length over length: held at both ends, and free to sway at its head.
_EFFECTIVE = {True: 1.0, False: 2.0}
_BUCKLE = (
    "sigma_c,0,d / (k_c f_c,0,d) + k_m sigma_m,d / f_m,d <= 1 with k_m 1 about the axis "
    "of the moment, 0.7 about the other (6.23, 6.24)"
)


def slenderness_ratio(length_mm: float, side_mm: float, fc0_k: float, e0_05: float) -> float:
    """Return the relative slenderness of a rectangle about the axis across `side_mm`.

    Source: EN 1995-1-1 6.3.2(1), (6.21), from memory.
    """
    return length_mm * sqrt(12.0) / side_mm / pi * sqrt(fc0_k / e0_05)


def kc_of(relative_ratio: float) -> float:
    """Return k c of solid timber, a ratio: what buckling leaves; 1 up to a slenderness of 0.3.

    Source: EN 1995-1-1 6.3.2(3), (6.25) to (6.29), from memory.
    """
    if relative_ratio <= 0.3:
        return 1.0
    k = 0.5 * (1.0 + number("beta_c") * (relative_ratio - 0.3) + relative_ratio**2)
    return 1.0 / (k + sqrt(k * k - relative_ratio**2))


def post_kc(post: Post) -> tuple[float, float]:
    """Return k c about the axis across `depth_mm`, which a moment bends, and about the other.

    Raises:
        UncoveredError: It is built up of plies: they slip, and are no post of one piece.

    Source: EN 1995-1-1 6.3.2; built-up posts are annex C, which is not covered.
    """
    section = one_piece(post.timber.section)
    grade, length = post.timber.grade, post.length_mm * _EFFECTIVE[post.braced]
    sides = (section.depth_mm, section.breadth_mm)
    strong, weak = (
        kc_of(slenderness_ratio(length, side, grade.fc0_k_n_mm2, grade.e0_05_n_mm2))
        for side in sides
    )
    return strong, weak


def buckling(post: Post, case: DesignCase, choices: Choices) -> Check:
    """Return the check of a post in compression, with the moment of the case where it has one.

    `case.bearing_kn` is what comes down it; its moment bends it about the strong axis.

    Source: EN 1995-1-1 6.3.2, (6.23) and (6.24), from memory.
    """
    timber = post.timber
    pressed = case.bearing_kn * 1e3 / area_mm2(timber.section)
    bent = case.moment_kn_m * 1e6 / modulus_mm3(timber.section)
    straight = design_n_mm2(timber.grade.fc0_k_n_mm2, case, choices)
    bend = bending_design_n_mm2(timber, case, choices)
    strong, weak = post_kc(post)
    used = max(
        pressed / (strong * straight) + bent / bend,
        pressed / (weak * straight) + number("km") * bent / bend,
    )
    return check(
        "post buckling",
        timber.name,
        measured=used,
        limit=1.0,
        unit="",
        case=case.name,
        formula=_BUCKLE,
        source=ec5("6.3.2"),
        inputs=(
            ("force_kn", case.bearing_kn),
            ("moment_kn_m", case.moment_kn_m),
            ("length_mm", post.length_mm),
            ("effective_length_over_length", _EFFECTIVE[post.braced]),
            ("k_c_strong", strong),
            ("k_c_weak", weak),
            ("f_c,0,d", straight),
            ("f_m,d", bend),
            ("class", timber.grade.name),
        ),
    )


def bent_and_pressed(timber: Timber, case: DesignCase, choices: Choices) -> Check:
    """Return the check of a stocky member bent and pressed along the grain.

    Source: EN 1995-1-1 6.2.4, (6.19), from memory.
    """
    area = area_mm2(timber.section)
    straight = design_n_mm2(timber.grade.fc0_k_n_mm2, case, choices)
    bend = bending_design_n_mm2(timber, case, choices)
    pressed = case.bearing_kn * 1e3 / area / straight
    bent = case.moment_kn_m * 1e6 / modulus_mm3(timber.section) / bend
    return check(
        "bending with compression",
        timber.name,
        measured=pressed**2 + bent,
        limit=1.0,
        unit="",
        case=case.name,
        formula="(sigma_c,0,d / f_c,0,d)^2 + sigma_m,d / f_m,d <= 1",
        source=ec5("6.2.4"),
        inputs=(("force_kn", case.bearing_kn), ("moment_kn_m", case.moment_kn_m)),
    )


def screen_post(post: Post, cases: tuple[DesignCase, ...], *, choices: Choices) -> Screened:
    """Return every check of a post under these cases, the governing one first.

    Raises:
        InputError: A size is not above 0.
        UncoveredError: It is built up of plies.

    Source: EN 1995-1-1 6.3.2, 6.2.4.
    """
    section = post.timber.section
    refuse_unless_positive(
        length_mm=post.length_mm, breadth_mm=section.breadth_mm, depth_mm=section.depth_mm
    )
    checks = [buckling(post, case, choices) for case in cases]
    checks += [bent_and_pressed(post.timber, case, choices) for case in cases]
    way = "held at head and foot" if post.braced else "free to sway at its head: twice its length"
    assumed = (
        f"the post is {way}, and free to turn at both ends"
        if post.braced
        else f"the post is {way} counts, and its foot is held against turning",
        "load comes down its middle but for the moment told",
        "the bearer's bearing on it and the shoe below it are checked apart",
    )
    return screened(post.timber.name, checks, assumed=assumed)


def pad_bearing(
    subject: str,
    *,
    load_kn: float,
    side_mm: float,
    bearing_kn_m2: float,
    thickness_mm: float = 0.0,
    shape: str = "square",
) -> Check:
    """Return the check of the soil below a pad, `side_mm` square or across, in kN/m2.

    `load_kn` and the presumed `bearing_kn_m2` are both without partial factors; the pad's own
    weight is added.

    Raises:
        InputError: A size is not above 0, or no such shape.

    Source: statics, force over area; weight of concrete EN 1991-1-1 table A.1, from memory.
    """
    refuse_unless_positive(side_mm=side_mm, bearing_kn_m2=bearing_kn_m2)
    one_of(shape, ("square", "round"), "shape")
    area_m2 = (side_mm / 1e3) ** 2 * (1.0 if shape == "square" else pi / 4.0)
    own_kn_m2 = thickness_mm / 1e3 * number("concrete_kn_m3")
    return check(
        "pad bearing",
        subject,
        measured=load_kn / area_m2 + own_kn_m2,
        limit=bearing_kn_m2,
        unit="kN/m2",
        case="G + q, no partial factors",
        formula="N / A + t gamma_concrete <= presumed bearing value",
        source=source_of("statics", "force over area, a central load on level ground"),
        inputs=(
            ("load_kn", load_kn),
            ("side_mm", side_mm),
            ("shape", shape),
            ("thickness_mm", thickness_mm),
        ),
    )
