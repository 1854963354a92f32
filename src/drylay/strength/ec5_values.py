"""The single values of the Eurocode 5 basis: rows of ec5_values.toml, each with who says so."""

import tomllib
from functools import cache
from importlib import resources
from typing import Any

from drylay.errors import Fault, InputError
from drylay.reasons import Inputs, Ruling, Scalar, Source

SERVICE_CLASSES = (1, 2, 3)
DURATIONS = ("permanent", "long", "medium", "short", "instant")


@cache
def _content() -> dict[str, Any]:
    text = resources.files("drylay.strength").joinpath("ec5_values.toml").read_text("utf-8")
    return tomllib.loads(text)


def number(name: str) -> float:
    """Return the value of this name as a float; `told` says who says so."""
    return float(_content()["values"][name]["value"])


def told(name: str) -> Ruling:
    """Return the value of this name with its source; its standing is among the inputs."""
    row = _content()["values"][name]
    return _ruling(row["value"], name, row["source"], row["clause"])


def values() -> tuple[Ruling, ...]:
    """Return every single value of the basis with its source, in the table's order."""
    return tuple(told(name) for name in _content()["values"])


def source_of(key: str, clause: str) -> Source:
    """Return a source of the table under `key`, at this clause."""
    row = _content()["sources"][key]
    return Source(kind=row["kind"], title=row["title"], clause=clause)


def _ruling(value: Scalar, rule: str, key: str, clause: str, inputs: Inputs = ()) -> Ruling:
    standing = ("standing", _content()["sources"][key]["standing"])
    source = source_of(key, clause)
    return Ruling(value=value, unit="", rule=rule, source=source, inputs=(standing, *inputs))


def one_of(value: object, known: tuple[object, ...], path: str) -> None:
    """Return nothing where `value` is one of those known.

    Raises:
        InputError: It is not; what is known is told.
    """
    if value not in known or isinstance(value, bool):
        wanted = "one of " + ", ".join(str(each) for each in known)
        raise InputError((Fault(path=path, found=repr(value), wanted=wanted),))


def kmod(service_class: int, duration: str) -> Ruling:
    """Return k mod of solid timber, a ratio: what load duration and damp leave of its strength.

    Raises:
        InputError: No such service class or duration.

    Source: EN 1995-1-1 table 3.1, solid timber, read in two transcriptions.
    """
    one_of(service_class, SERVICE_CLASSES, "service_class")
    one_of(duration, DURATIONS, "duration")
    table = _content()["kmod"]
    value = table[str(service_class)][table["durations"].index(duration)]
    inputs = (("service_class", service_class), ("duration", duration))
    return _ruling(value, "kmod", table["source"], table["clause"], inputs)


def kdef(service_class: int, *, wet_when_built: bool = False) -> Ruling:
    """Return k def of solid timber, a ratio: how much of its deflection creep adds.

    1.0 more where timber is put in wet and left to dry under load.

    Raises:
        InputError: No such service class.

    Source: EN 1995-1-1 table 3.2, read in two transcriptions; 3.2(4) from memory.
    """
    one_of(service_class, SERVICE_CLASSES, "service_class")
    table = _content()["kdef"]
    value = table[str(service_class)] + (number("kdef_wet") if wet_when_built else 0.0)
    inputs = (("service_class", service_class), ("wet_when_built", str(wet_when_built).lower()))
    return _ruling(value, "kdef", table["source"], table["clause"], inputs)


def kh(depth_mm: float, rho_k_kg_m3: float) -> float:
    """Return k h of solid timber, a ratio: shallow members are stronger in bending and tension.

    1 from a depth of 150 mm on, and for wood denser than 700 kg/m3.

    Source: EN 1995-1-1 3.2(3), (3.1), read in a transcription.
    """
    if depth_mm >= number("kh_depth_mm") or rho_k_kg_m3 > number("kh_density"):
        return 1.0
    raised = (number("kh_depth_mm") / depth_mm) ** number("kh_exponent")
    return min(float(raised), number("kh_most"))


def ksys(centres_mm: float, alike: int = 4) -> float:
    """Return k sys, a ratio: 1.1 where at least four like members share load, else 1.

    Source: EN 1995-1-1 6.6 and the UK annex (up to 610 mm apart), from memory.
    """
    return number("ksys") if alike >= 4 and centres_mm <= number("ksys_centres_mm") else 1.0
