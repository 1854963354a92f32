"""The nouns of joints and cuts by the US basis: dowels, what they bear on, notches."""

from attrs import frozen

from drylay.reasons import Source


@frozen(kw_only=True)
class Dowel:
    """A bolt, lag screw, wood screw or nail: one fastener that is loaded across its shank.

    `diameter_mm` is what it is called by, D; `body_mm` what bends, which is D where the shank is
    full and the root of the thread, Dr, where it is not; `yield_n_mm2` its bending yield, Fyb.
    """

    kind: str
    diameter_mm: float
    body_mm: float
    yield_n_mm2: float
    source: Source


@frozen(kw_only=True)
class Wood:
    """A piece of wood that a dowel bears on over `bears_mm` of its length.

    `angle_deg` is from the grain to the load, 0 along it, 90 across.
    """

    bears_mm: float
    gravity_ratio: float
    angle_deg: float = 0.0


@frozen(kw_only=True)
class Steel:
    """A steel plate `bears_mm` thick beside the wood; `grade` as `steel_bearing_psi` names it."""

    bears_mm: float
    grade: str = "ASTM A36"


@frozen(kw_only=True)
class Lateral:
    """What one fastener carries across its shank before any factor: every mode, which is least.

    With two shear planes it is what both carry together.
    """

    modes_kn: tuple[tuple[str, float], ...]
    governing: str
    each_kn: float
    source: Source


@frozen(kw_only=True)
class Distances:
    """Least distances of a fastener in mm for its full value (geometry factor 1).

    `end_mm` from the end of the piece, `along_mm` between fasteners of a row, `edge_mm` from the
    edge that the load leaves, `loaded_edge_mm` from the one that it goes to, `between_rows_mm`.
    """

    end_mm: float
    along_mm: float
    edge_mm: float
    loaded_edge_mm: float
    between_rows_mm: float
    source: Source


@frozen(kw_only=True)
class SawnNotch:
    """A square notch in a sawn beam's edge, `deep_mm` and `long_mm`.

    `stretched`: it is in the edge in tension there. `at_end`: over a support, at the beam's end.
    `reach_mm` is how far its further edge lies from the inner edge of the nearer support.
    """

    deep_mm: float
    long_mm: float
    reach_mm: float
    stretched: bool
    at_end: bool


@frozen(kw_only=True)
class PlyFixing:
    """How plies of a post are fixed to one another: least and most of one distance, in mm."""

    name: str
    least_mm: float
    most_mm: float
