"""The nouns of strength: sections, beams and what loads do to them, checks with their figures.

Lengths are in mm, loads in kN and kN/m, stresses in N/mm2, whichever design basis is asked: one
that is written in inches and pounds converts at its own door.
"""

from attrs import frozen

from drylay.reasons import Inputs, Source

#: How deck loads are told: a design basis says what each comes to.
USES = ("dwelling", "balcony", "crowd", "hot tub")


@frozen(kw_only=True)
class Section:
    """A timber's true section: one ply, and how many plies stand side by side as one."""

    breadth_mm: float
    depth_mm: float
    plies: int = 1


@frozen(kw_only=True)
class LineLoad:
    """A load spread evenly along a beam, from where to where from its left end; down is above 0."""

    from_mm: float
    to_mm: float
    load_kn_m: float


@frozen(kw_only=True)
class PointLoad:
    """A load at one place of a beam, measured from its left end; down is above 0."""

    at_mm: float
    load_kn: float


@frozen(kw_only=True)
class Beam:
    """A straight beam of one section over supports that hold it up and down, free to turn.

    `supports_mm` are measured from its left end, in order; what reaches past the outer ones is a
    cantilever. Stiffnesses are of the whole section; `shear_stiffness_kn` (G A / shape factor) is
    0 where bending alone counts.
    """

    length_mm: float
    supports_mm: tuple[float, ...]
    bending_stiffness_kn_m2: float
    shear_stiffness_kn: float = 0.0


@frozen(kw_only=True)
class Extreme:
    """The most of one effect along a beam, and where: its sign is kept."""

    value_kn_m: float
    at_mm: float


@frozen(kw_only=True)
class Deflected:
    """How far a beam goes down (above 0) or up at one place."""

    deflection_mm: float
    at_mm: float


@frozen(kw_only=True)
class Effects:
    """What loads do to a beam.

    `sagging` and `hogging` are the greatest moments that bend it down and up (0 or above, 0 or
    below), `shear_kn` the greatest shear in size and `shear_at_mm` where, `reactions_kn` what each
    support carries (below 0: it must hold the beam down), `down` and `up` the deflections that are
    greatest each way.
    """

    sagging: Extreme
    hogging: Extreme
    shear_kn: float
    shear_at_mm: float
    reactions_kn: tuple[float, ...]
    down: Deflected
    up: Deflected


@frozen(kw_only=True)
class Case:
    """One load case of a beam: what it is called, and what its loads do."""

    name: str
    effects: Effects


@frozen(kw_only=True)
class Check:
    """One check of one member: what is there, what may be, and by which clause.

    `utilisation_ratio` is `measured` over `limit`; above 1 the member does not pass. `case` names
    the load case that governs it. `inputs` hold every figure that the formula takes.
    """

    name: str
    subject: str
    measured: float
    limit: float
    unit: str
    utilisation_ratio: float
    case: str
    formula: str
    source: Source
    inputs: Inputs = ()


@frozen(kw_only=True)
class Screened:
    """All checks of one member by one design basis, the governing one first.

    `assumed` says in words what the basis takes for granted, how a point load is shared between
    joists among it; `stops` what it does not cover.
    """

    basis: str
    subject: str
    checks: tuple[Check, ...]
    assumed: tuple[str, ...] = ()
    stops: tuple[str, ...] = ()
