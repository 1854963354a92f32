"""How far fasteners keep from one another, from ends and from edges.

Tables of EN 1995-1-1, from memory. `angle_deg` is from the grain to the load, 0 along it; ends
and edges are told loaded (`t`) and not (`c`).
"""

from math import cos, radians, sin

from drylay.errors import Fault, UncoveredError
from drylay.strength.checks import check
from drylay.strength.ec5_checking import ec5
from drylay.strength.ec5_fasteners import nail_like
from drylay.strength.ec5_model import Fastener, Spacings
from drylay.strength.model import Check

#: Not pre-drilled, by how dense the wood is: a1 thin and thick, on cos, a2, a3t, a3c, a4t, on sin
#: thin and thick, a4c, all in diameters (table 8.2).
_UNDRILLED = {
    420.0: (5.0, 5.0, 7.0, 5.0, 10.0, 10.0, 5.0, 2.0, 5.0, 5.0),
    500.0: (7.0, 8.0, 8.0, 7.0, 15.0, 15.0, 7.0, 2.0, 5.0, 7.0),
}
_THICK_MM = 5.0


def spacings(fastener: Fastener, *, angle_deg: float, rho_k_kg_m3: float) -> Spacings:
    """Return the least distances of a fastener loaded across its shank.

    Raises:
        UncoveredError: Wood over 500 kg/m3 is not pre-drilled for nails or thin screws.

    Source: EN 1995-1-1 tables 8.2, 8.4, 8.5, from memory.
    """
    if nail_like(fastener):
        if fastener.predrilled:
            return _predrilled(fastener.diameter_mm, angle_deg)
        return _undrilled(fastener.diameter_mm, angle_deg, rho_k_kg_m3)
    if fastener.kind == "dowel":
        return _dowels(fastener.diameter_mm, angle_deg)
    return _bolts(fastener.diameter_mm, angle_deg)


def _turned(angle_deg: float) -> tuple[float, float]:
    """Return the cosine and sine by size: tables take an angle to the end or edge in question."""
    return abs(cos(radians(angle_deg))), abs(sin(radians(angle_deg)))


def _predrilled(d: float, angle_deg: float) -> Spacings:
    along, across = _turned(angle_deg)
    return Spacings(
        a1_mm=(4.0 + along) * d,
        a2_mm=(3.0 + across) * d,
        a3t_mm=(7.0 + 5.0 * along) * d,
        a3c_mm=7.0 * d,
        a4t_mm=(3.0 + (2.0 if d < _THICK_MM else 4.0) * across) * d,
        a4c_mm=3.0 * d,
        source=ec5("table 8.2, pre-drilled"),
    )


def _undrilled(d: float, angle_deg: float, rho_k_kg_m3: float) -> Spacings:
    along, across = _turned(angle_deg)
    most = next((limit for limit in _UNDRILLED if rho_k_kg_m3 <= limit), None)
    if most is None:
        wanted = "true: wood over 500 kg/m3 is pre-drilled (EN 1995-1-1 8.3.1.1)"
        raise UncoveredError((Fault(path="fastener.predrilled", found="false", wanted=wanted),))
    a1, thin, thick, a2, a3t, a3c, a4t, thin_edge, thick_edge, a4c = _UNDRILLED[most]
    return Spacings(
        a1_mm=(a1 + (thin if d < _THICK_MM else thick) * along) * d,
        a2_mm=a2 * d,
        a3t_mm=(a3t + 5.0 * along) * d,
        a3c_mm=a3c * d,
        a4t_mm=(a4t + (thin_edge if d < _THICK_MM else thick_edge) * across) * d,
        a4c_mm=a4c * d,
        source=ec5(f"table 8.2, not pre-drilled, up to {most:g} kg/m3"),
    )


def _bolts(d: float, angle_deg: float) -> Spacings:
    along, across = _turned(angle_deg)
    return Spacings(
        a1_mm=(4.0 + along) * d,
        a2_mm=4.0 * d,
        a3t_mm=max(7.0 * d, 80.0),
        a3c_mm=max((1.0 + 6.0 * across) * d, 4.0 * d),
        a4t_mm=max((2.0 + 2.0 * across) * d, 3.0 * d),
        a4c_mm=3.0 * d,
        source=ec5("table 8.4"),
    )


def _dowels(d: float, angle_deg: float) -> Spacings:
    along, across = _turned(angle_deg)
    loaded = max(7.0 * d, 80.0)
    return Spacings(
        a1_mm=(3.0 + 2.0 * along) * d,
        a2_mm=3.0 * d,
        a3t_mm=loaded,
        a3c_mm=max(loaded * across, 3.0 * d),
        a4t_mm=max((2.0 + 2.0 * across) * d, 3.0 * d),
        a4c_mm=3.0 * d,
        source=ec5("table 8.5"),
    )


def axial_spacings(diameter_mm: float) -> Spacings:
    """Return the least distances of screws that are pulled: ends and edges to the thread's middle.

    Source: EN 1995-1-1:2004+A1 table 8.6: 7 d, 5 d, end 10 d, edge 4 d, from memory.
    """
    d = diameter_mm
    return Spacings(
        a1_mm=7.0 * d,
        a2_mm=5.0 * d,
        a3t_mm=10.0 * d,
        a3c_mm=10.0 * d,
        a4t_mm=4.0 * d,
        a4c_mm=4.0 * d,
        source=ec5("table 8.6"),
    )


def spacing_check(subject: str, name: str, *, least_mm: float, there_mm: float) -> Check:
    """Return the check that a distance, such as `a3c`, is there: least over what there is."""
    return check(
        f"distance {name}",
        subject,
        measured=least_mm,
        limit=there_mm,
        unit="mm",
        case="any",
        formula=f"{name} least <= {name}",
        source=ec5("tables 8.2, 8.4 to 8.6"),
    )
