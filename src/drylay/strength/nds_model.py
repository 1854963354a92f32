"""The nouns of the US allowable-stress basis: reference values, conditions of use, what is left."""

from attrs import frozen

from drylay.reasons import Source


@frozen(kw_only=True)
class Reference:
    """What a species and grade may bear before any factor, for depths up to `most_depth_mm`.

    In N/mm2: `bending` Fb, `shear` Fv, `across` Fc-perp, `along` Fc, `stiffness` E,
    `least_stiffness` Emin. `sized` says that the size factor is within these values already,
    `wet` that wet service is. `source` is that of Fb and E, `more_source` that of all others.
    """

    species: str
    grade: str
    bending_n_mm2: float
    shear_n_mm2: float
    across_n_mm2: float
    along_n_mm2: float
    stiffness_n_mm2: float
    least_stiffness_n_mm2: float
    most_depth_mm: float
    sized: bool
    wet: bool
    source: Source
    more_source: Source


@frozen(kw_only=True)
class Conditions:
    """How a member is used: wet or dry, incised for treatment or not, for how long loaded.

    `duration_ratio` is the load duration factor CD; `repeated_ratio` the factor of members that
    share load, 1.15 for three or more side by side, 1 for one alone; timbers have none (NDS 4.3.9).
    """

    wet: bool = True
    incised: bool = False
    duration_ratio: float = 1.0
    repeated_ratio: float = 1.0


@frozen(kw_only=True)
class Allowed:
    """What is left of reference values once every factor is in, but for CL and CP.

    `factors` names each factor that is not 1 and what it came to.
    """

    species: str
    bending_n_mm2: float
    shear_n_mm2: float
    across_n_mm2: float
    along_n_mm2: float
    stiffness_n_mm2: float
    least_stiffness_n_mm2: float
    factors: tuple[tuple[str, float], ...]
    source: Source


@frozen(kw_only=True)
class Extent:
    """How far a member may go: the least of what several limits allow, and which one governs."""

    extent_mm: float
    governs: str
    by_limit_mm: tuple[tuple[str, float], ...]


@frozen(kw_only=True)
class Loaded:
    """What lies on a beam: dead and live load along all of it, and a load at any one place.

    `live_for` names the shortest of them for the duration factor, such as "occupancy" or "snow".
    """

    dead_kn_m: float
    live_kn_m: float
    point_kn: float
    live_for: str = "occupancy"


@frozen(kw_only=True)
class Held:
    """How a beam is held: bearing along it, and how far apart each edge is held sideways.

    An edge held all along, as by boards screwed down, is 0. `down_kn` is what each support holds
    down by design.
    """

    bearing_mm: float
    top_free_mm: float = 0.0
    bottom_free_mm: float = 0.0
    down_kn: float = 0.0
