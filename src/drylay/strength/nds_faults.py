"""What is wrong with the US basis's nouns where a caller has filled them in by hand."""

from drylay.errors import Fault
from drylay.strength.meant import between, from_nothing, positive
from drylay.strength.nds_joint_model import Dowel
from drylay.strength.nds_model import Allowed, Conditions, Held, Loaded

#: Load lasts no shorter than a blow. Source: NDS table 2.3.2, impact, from memory.
MOST_DURATION_RATIO = 2.0
#: Source: NDS 4.3.9, from memory: three members or more, as `Conditions` says.
MOST_REPEATED_RATIO = 1.15


def allowed_faults(wood: Allowed) -> list[Fault]:
    """Return what no wood may bear: a stress or a stiffness that is not above 0."""
    return positive(**{
        "allowed.bending_n_mm2": wood.bending_n_mm2,
        "allowed.shear_n_mm2": wood.shear_n_mm2,
        "allowed.across_n_mm2": wood.across_n_mm2,
        "allowed.along_n_mm2": wood.along_n_mm2,
        "allowed.stiffness_n_mm2": wood.stiffness_n_mm2,
        "allowed.least_stiffness_n_mm2": wood.least_stiffness_n_mm2,
    })  # fmt: skip


def conditions_faults(use: Conditions) -> list[Fault]:
    """Return factors that no use has: CD not above 0 or past a blow's, Cr none that is printed."""
    duration, repeated = use.duration_ratio, use.repeated_ratio
    faults = positive(**{"conditions.duration_ratio": duration})
    if not faults:
        faults = between(0, MOST_DURATION_RATIO, **{"conditions.duration_ratio": duration})
    shared = between(1, MOST_REPEATED_RATIO, **{"conditions.repeated_ratio": repeated})
    return [*faults, *shared]


def wood_faults(wood: tuple[str, str]) -> list[Fault]:
    """Return what is no species and grade: two words."""
    if isinstance(wood, (tuple, list)) and len(wood) == 2 and all(map(_is_word, wood)):
        return []
    return [Fault(path="wood", found=repr(wood), wanted="a species and a grade, two words")]


def loads_faults(loaded: Loaded, held: Held) -> list[Fault]:
    """Return loads and ways of being held that no beam has."""
    least = {
        "loaded.dead_kn_m": loaded.dead_kn_m,
        "loaded.live_kn_m": loaded.live_kn_m,
        "loaded.point_kn": loaded.point_kn,
        "held.top_free_mm": held.top_free_mm,
        "held.bottom_free_mm": held.bottom_free_mm,
        "held.down_kn": held.down_kn,
    }
    return [*from_nothing(**least), *positive(**{"held.bearing_mm": held.bearing_mm})]


def dowel_faults(dowel: Dowel) -> list[Fault]:
    """Return sizes and steel that no dowel has; its body is no thicker than what it is called."""
    body, called = dowel.body_mm, dowel.diameter_mm
    sizes = {"dowel.diameter_mm": called, "dowel.body_mm": body}
    faults = positive(**sizes, **{"dowel.yield_n_mm2": dowel.yield_n_mm2})
    if not faults and body > called:
        wanted = f"at most {called:g}, its diameter"
        faults.append(Fault(path="dowel.body_mm", found=repr(body), wanted=wanted))
    return faults


def _is_word(word: object) -> bool:
    return isinstance(word, str)
