"""The nouns of the Eurocode 5 basis: strength classes, actions, choices, members, load cases.

Stresses and moduli are in N/mm2, densities in kg/m3, loads in kN, kN/m and kN/m2, lengths in mm.
"""

from attrs import frozen

from drylay.reasons import Source
from drylay.strength.model import Section


@frozen(kw_only=True)
class StrengthClass:
    """A strength class of EN 338:2016 with its characteristic values; C is softwood, D hardwood."""

    name: str
    softwood: bool
    fm_k_n_mm2: float
    ft0_k_n_mm2: float
    ft90_k_n_mm2: float
    fc0_k_n_mm2: float
    fc90_k_n_mm2: float
    fv_k_n_mm2: float
    e0_mean_n_mm2: float
    e0_05_n_mm2: float
    e90_mean_n_mm2: float
    g_mean_n_mm2: float
    rho_k_kg_m3: float
    rho_mean_kg_m3: float
    source: Source


@frozen(kw_only=True)
class Sharing:
    """How a concentrated load on the boards is shared between joists: a choice, always stated.

    `way` is `one joist` (the joist below carries all of it), `board over three joists` (the board
    under the load hands some on to both neighbours: statics of one board over three joists) or
    `stated`, by somebody named in `source`, as `stated_ratio`.
    """

    way: str = "one joist"
    stated_ratio: float = 1.0
    source: Source | None = None


@frozen(kw_only=True)
class Choices:
    """What a Eurocode leaves to be chosen, all of it told in what comes out.

    `combination` is `6.10` or `6.10a/b`. Limits are spans (or a cantilever's length) over a number.
    """

    service_class: int = 3
    imposed_duration: str = "medium"
    point_duration: str = "medium"
    combination: str = "6.10"
    sharing: Sharing = Sharing()
    instant_over: int = 300
    final_over: int = 150
    cantilever_final_over: int = 75
    wet_when_built: bool = False


@frozen(kw_only=True)
class Actions:
    """What a use lays on a deck: spread, and as one concentrated load that acts alone."""

    use: str
    imposed_kn_m2: float
    point_kn: float
    psi_0_ratio: float
    psi_2_ratio: float
    source: Source
    stops: tuple[str, ...] = ()


@frozen(kw_only=True)
class Timber:
    """A member's wood and section, and where it lies: `name` is what checks call it."""

    name: str
    section: Section
    grade: StrengthClass


@frozen(kw_only=True)
class DesignCase:
    """One load case of one member, design effects, by absolute size, and the kmod it goes with.

    `system_ratio` is k sys of EN 1995-1-1 6.6, 1 where the load falls on one member alone: it
    raises bending strength only, though 6.6 would let it raise others.
    """

    name: str
    duration: str
    moment_kn_m: float = 0.0
    shear_kn: float = 0.0
    bearing_kn: float = 0.0
    system_ratio: float = 1.0


@frozen(kw_only=True)
class Sag:
    """Characteristic deflections of one member at one place, and the length they are held to."""

    name: str
    permanent_mm: float
    imposed_mm: float
    length_mm: float
    cantilever: bool = False


@frozen(kw_only=True)
class Restraint:
    """How a beam is kept from turning over: `effective_mm` between points held, None all along."""

    effective_mm: float | None = None
    said: str = "its compression edge is held all along"


@frozen(kw_only=True)
class Joist:
    """A joist over two supports, with what it carries.

    `span_mm` is between the centres of its bearings; `cantilever_mm` reaches past the second of
    them. `dead_kn_m2` is that of the boards and what lies on them: the joist adds its own weight.
    `alike` counts the joists beside one another that are like it, itself among them.
    `hold_down_kn` is what holds its far end down by design; `board_stiffness_kn_m2` (E I) of the
    one board under a point load, where the load is shared through it.
    """

    timber: Timber
    span_mm: float
    centres_mm: float
    bearing_mm: float
    dead_kn_m2: float
    cantilever_mm: float = 0.0
    hold_down_kn: float = 0.0
    alike: int = 4
    board_stiffness_kn_m2: float = 0.0


@frozen(kw_only=True)
class Bearer:
    """A bearer over one span that carries a strip of deck `carried_mm` wide.

    Joists hold its upper edge `held_each_mm` apart.
    """

    timber: Timber
    span_mm: float
    carried_mm: float
    bearing_mm: float
    held_each_mm: float
    dead_kn_m2: float


@frozen(kw_only=True)
class Post:
    """A post, `length_mm` free between what holds it; not `braced`, its head can sway."""

    timber: Timber
    length_mm: float
    braced: bool = True


@frozen(kw_only=True)
class Notch:
    """A notch at a support: how deep, how far its corner lies off the support's line of force.

    `below` is in the edge that the support carries; `slope_ratio` is its run over its rise, 0 for
    a square notch.
    """

    deep_mm: float
    off_support_mm: float
    slope_ratio: float = 0.0
    below: bool = True


@frozen(kw_only=True)
class Fastener:
    """A round fastener: its shank, the diameter that bends, its steel, and how it is meant.

    `kind` is `nail`, `screw`, `coach screw`, `bolt` or `dowel`. `bending_mm` is the diameter that
    goes into the yield moment (1.1 x the root where the thread lies in the shear plane). Wood bears
    on `diameter_mm`, as approvals of screws have it; who reads 8.7.1(3) more strictly hands the
    lesser diameter in for both.
    """

    kind: str
    diameter_mm: float
    bending_mm: float
    tensile_n_mm2: float
    predrilled: bool = True


@frozen(kw_only=True)
class Side:
    """One of the two pieces that a fastener joins: the wood, how deep, and the load's angle."""

    grade: StrengthClass
    depth_mm: float
    angle_deg: float = 0.0


@frozen(kw_only=True)
class Resistance:
    """What one fastener carries in one shear plane: every mode, and which is least."""

    modes_kn: tuple[tuple[str, float], ...]
    governing: str
    resistance_kn: float
    rope_kn: float
    source: Source


@frozen(kw_only=True)
class SimplifiedDowel:
    """A dowel by the simplified method, per shear plane, and how thick pieces must be for it.

    `first_mm` is for an outer piece, `middle_mm` for one between two shear planes.
    """

    resistance_kn: float
    first_mm: float
    middle_mm: float
    source: Source


@frozen(kw_only=True)
class Spacings:
    """Least distances of fasteners in one piece, along (a1, a3) and across (a2, a4) the grain.

    `t` is to an end or edge that is loaded, `c` to one that is not.
    """

    a1_mm: float
    a2_mm: float
    a3t_mm: float
    a3c_mm: float
    a4t_mm: float
    a4c_mm: float
    source: Source


@frozen(kw_only=True)
class GuardPost:
    """A guard's post, two bolts through its foot into the frame's edge, in line down the post.

    `rail_mm` is the height of the load over the upper bolt, `bolts_mm` from bolt to bolt. The
    bolts run with the load: `hole_mm` comes off the post's breadth, washers are round. A load at
    one place of the rail, `point_kn`, comes on one post alone, and not with the line load.
    """

    timber: Timber
    line_load_kn_m: float
    centres_mm: float
    rail_mm: float
    bolts_mm: float
    hole_mm: float
    washer_mm: float
    stress_area_mm2: float
    tensile_n_mm2: float
    edge_grade: StrengthClass
    point_kn: float = 0.0
