"""What may be handed to this room, and every fault of what is handed in at once.

The bounds keep out slips (a ratio for per cent, Fahrenheit for Celsius); where a formula ends
inside them, its answer says so. Assumption.
"""

from collections.abc import Iterator

from attrs import frozen

from drylay.errors import Fault, InputError
from drylay.marks import MARK_320, is_number


@frozen(kw_only=True)
class _Kind:
    """Bounds of one kind of number; the slip is a scale on which it was told by mistake."""

    least: float
    most: float
    wanted: str
    slip_ratio: float = 1.0
    slip: str = ""


_LONGEST_SHOWN = 60
_KINDS = {
    "length": _Kind(least=1.0, most=1e6, wanted="a length of 1 mm or more, not over 1 km"),
    "gap": _Kind(least=0.0, most=1000.0, wanted="a gap of 0 mm or more, not over 1 m"),
    "air": _Kind(least=-30.0, most=60.0, wanted="degrees Celsius of air, -30 to 60"),
    "board": _Kind(least=-60.0, most=120.0, wanted="degrees Celsius of a board, -60 to 120"),
    "humidity": _Kind(
        least=0.0,
        most=1.0,
        wanted="a relative humidity as a ratio, 0 to 1",
        slip_ratio=0.01,
        slip="per cent",
    ),
    "moisture": _Kind(
        least=1.0,
        most=200.0,
        wanted="a moisture content in per cent, 1 to 200",
        slip_ratio=100.0,
        slip="a ratio",
    ),
    "saturation": _Kind(
        least=20.0,
        most=35.0,
        wanted="a moisture content in per cent, 20 to 35",
        slip_ratio=100.0,
        slip="a ratio",
    ),
    "shrinkage": _Kind(
        least=0.1,
        most=25.0,
        wanted="a shrinkage in per cent, 0.1 to 25",
        slip_ratio=100.0,
        slip="a ratio",
    ),
    "movement": _Kind(
        least=0.0,
        most=0.01,
        wanted="a share of the width for each 1 %, 0 to 0.01",
        slip_ratio=0.01,
        slip="per cent",
    ),
    "growth": _Kind(
        least=0.0,
        most=0.0005,
        wanted="a share of the length for each kelvin, 0 to 0.0005",
        slip_ratio=1e-6,
        slip="mm for each km",
    ),
}


def unfit(kind: str, **given: object) -> Iterator[Fault]:
    """Yield a fault for each value, by its name, that is no number of such a kind."""
    known = _KINDS[kind]
    for path, value in given.items():
        if not is_number(value) or not known.least <= value <= known.most:
            nearest = _nearest(kind, value) if is_number(value) and abs(value) < 1e9 else ""
            yield Fault(path=path, found=shown(value), wanted=known.wanted, nearest=nearest)


def shown(value: object) -> str:
    """Return a value as Python writes it, cut short; not the digits of an endless number."""
    if isinstance(value, int) and abs(value) >= 10**30:
        return "a whole number beyond all measure"
    return repr(value)[:_LONGEST_SHOWN]


def _nearest(kind: str, value: float) -> str:
    known = _KINDS[kind]
    if kind == "air" and known.most < value <= 140:
        return f"{(value - 32) / 1.8:.1f}, if {value:g} is in degrees Fahrenheit"
    scaled = value * known.slip_ratio
    if known.slip and known.least <= scaled <= known.most:
        return f"{scaled:.6g}, if {value:g} is {known.slip}"
    return ""


def unfit_units(units: object) -> Iterator[Fault]:
    """Yield a fault where the units are neither metric nor imperial."""
    if not isinstance(units, str) or units not in MARK_320:
        yield Fault(path="units", found=shown(units), wanted="metric or imperial")


def refuse(*faults: Iterator[Fault]) -> None:
    """Raise every fault there is.

    Raises:
        InputError: There is one.
    """
    found = tuple(fault for some in faults for fault in some)
    if found:
        raise InputError(found)
