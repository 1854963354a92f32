"""Single values and worked examples of Eurocode 5 worked out again, known by how they are named.

A row of check-values.toml says in its name what it asks: figures are read from there and worked
out by the library, so that a row nobody has seen before is answered like the others.
"""

import re
from collections.abc import Callable
from functools import partial
from math import cos, nan, radians, sin

from drylay.strength.ec5_actions import actions_of
from drylay.strength.ec5_classes import strength_class
from drylay.strength.ec5_fasteners import rope_n, withdrawal_n, withdrawal_n_mm2
from drylay.strength.ec5_johansen import single_shear_n, with_rope
from drylay.strength.ec5_joints import guard_line_load_kn_m
from drylay.strength.ec5_member import bending, critical_n_mm2, design_n_mm2, effective_mm
from drylay.strength.ec5_model import Choices, DesignCase, Fastener, Side, Timber
from drylay.strength.ec5_simple import span_case, span_sag_mm
from drylay.strength.ec5_spacing import spacings
from drylay.strength.ec5_values import kdef, kh, kmod, ksys, number
from drylay.strength.model import Section
from drylay.testing.example_rows import TABLE
from drylay.testing.model import Cell
from drylay.testing.timber_rows import (
    CellError,
    Column,
    Row,
    Rows,
    compared,
    found_of,
    share_of,
    wanted_of,
)

Found = re.Match[str]

#: The worked example that rows named "same: ..." go on with: joist 75x200 C24 over 4.5 m.
_EXAMPLE_SPAN_MM = 4500.0
#: The angle to the grain at which a printed formula of distances is set beside ours.
_ANGLE_DEG = 30.0
#: Why some rows have no answer.
_NO_BASIS = "how the table was made is not known: no EN 1995-1-1 criterion gives it"
_UNANSWERED = (
    (r"live load quoted for public decks", "crowd use is a stop: the basis does not cover it"),
    (r"quoted (clear )?span", _NO_BASIS),
    (r"indoor floor joist clear span", _NO_BASIS),
)


def _example() -> Timber:
    return Timber(
        name="joist",
        section=Section(breadth_mm=75.0, depth_mm=200.0),
        grade=strength_class("C24"),
    )


def _kmod(found: Found) -> float:
    service_class = int(found["service"].partition("-")[0])
    return float(kmod(service_class, found["duration"]).value or nan)


def _kdef(found: Found) -> float:
    return float(kdef(int(found["service"])).value or nan)


def _over(found: Found) -> float:
    finish = "brittle" if "brittle" in found["finish"] else "other"
    return number(f"{'cantilever' if found['cantilever'] else 'final'}_{finish}_over")


def _imposed(found: Found) -> float:
    actions = actions_of("dwelling" if "A1" in found.string else "balcony")
    return actions.point_kn if found["kind"] == "point" else actions.imposed_kn_m2


def _design_bending(found: Found) -> float:
    case = DesignCase(name="", duration=found["duration"])
    choices = Choices(service_class=int(found["service"]))
    return design_n_mm2(strength_class(found["grade"]).fm_k_n_mm2, case, choices)


def _utilisation(found: Found) -> float:
    section = Section(breadth_mm=float(found["b"]), depth_mm=float(found["h"]))
    timber = Timber(name="joist", section=section, grade=strength_class(found["grade"]))
    loads = number("gamma_g") * float(found["g"]) + number("gamma_q") * float(found["q"])
    centres_mm = float(found["centres"])
    case = span_case(
        "spread",
        "medium",
        span_mm=float(found["span"]) * 1e3,
        load_kn_m=loads * centres_mm / 1e3,
        system_ratio=ksys(centres_mm),
    )
    return bending(timber, case, Choices(service_class=1)).utilisation_ratio


def _sag(found: Found) -> float:
    return span_sag_mm(_example(), _EXAMPLE_SPAN_MM, float(found["load"]))


def _creep(found: Found) -> float:
    load = (float(found["g"]) + float(found["psi"]) * float(found["q"])) * float(found["strip"])
    return float(found["kdef"]) * span_sag_mm(_example(), _EXAMPLE_SPAN_MM, load)


def _critical_told(found: Found) -> float:
    fifth = strength_class("C24").e0_mean_n_mm2 / float(found["over"])
    effective = float(found["lef"]) * 1e3
    return critical_n_mm2(float(found["b"]), float(found["h"]), effective, fifth)


def _critical(found: Found) -> float:
    breadth, depth = float(found["b"]), float(found["h"])
    effective = effective_mm(float(found["span"]) * 1e3, depth, "spread")
    return critical_n_mm2(breadth, depth, effective, strength_class(found["grade"]).e0_05_n_mm2)


def _grip(found: Found) -> float:
    grade = strength_class(found["grade"])
    return withdrawal_n_mm2(float(found["d"]), float(found["lef"]), grade.rho_k_kg_m3)


def _pull(found: Found) -> float:
    return withdrawal_n(float(found["d"]), float(found["lef"]), strength_class(found["grade"]))


def _same_pull(_: Found) -> float:
    """The example of the row before it: d 8, l_ef 64, C24."""
    return withdrawal_n(8.0, 64.0, strength_class("C24"))


def _mode(found: Found) -> float:
    """One mode: the length past the first piece is the second's, its thread a tip (d) less."""
    grade, d = strength_class(found["grade"]), float(found["d"])
    first = float(found["t1"])
    second = float(found["length"]) - first
    bends = re.search(r"def (\d+(?:\.\d+)?)", found.string)
    fastener = Fastener(
        kind=found["kind"],
        diameter_mm=d,
        bending_mm=float(bends[1]) if bends else d,
        tensile_n_mm2=float(found["fu"]),
        predrilled="not pre-drilled" not in found.string,
    )
    sides = (Side(grade=grade, depth_mm=first), Side(grade=grade, depth_mm=second))
    pull = 0.0 if "no rope" in found.string else rope_n(d, second - d, grade.rho_k_kg_m3)
    modes = with_rope(single_shear_n(fastener, *sides), fastener, pull)
    return dict(modes)[found["mode"]]


def _distance(found: Found) -> float:
    """A least distance in diameters, of a screw of 5 mm at an angle of 30 degrees."""
    undrilled = "not pre-drilled" in found.string
    screw = Fastener(
        kind="screw",
        diameter_mm=5.0,
        bending_mm=5.0,
        tensile_n_mm2=600.0,
        predrilled=not undrilled,
    )
    least = spacings(screw, angle_deg=_ANGLE_DEG, rho_k_kg_m3=420.0)
    return float(getattr(least, f"{found['which']}_mm")) / screw.diameter_mm


_N = r"\d+(?:\.\d+)?"
_RULES: tuple[tuple[str, Callable[[Found], float]], ...] = (
    (
        r"kmod, solid timber, service class (?P<service>[123](-2)?), (?P<duration>[a-z]+)",
        _kmod,
    ),
    (r"kdef, solid timber, service class (?P<service>[123])", _kdef),
    (r"gamma M, solid timber", lambda _: number("gamma_m_timber")),
    (r"gamma M, connections", lambda _: number("gamma_m_connection")),
    (rf"system strength factor.* up to (?P<apart>{_N}) mm", lambda m: ksys(float(m["apart"]))),
    (r"crack factor for shear", lambda _: number("kcr")),
    (r"depth factor .*at most", lambda _: kh(1.0, 350.0)),
    (r"psi (?P<which>[012]), category A", lambda m: number(f"psi_{m['which']}_a")),
    (r"gamma G unfavourable", lambda _: number("gamma_g")),
    (r"gamma Q unfavourable", lambda _: number("gamma_q")),
    (r"xi for 6.10b", lambda _: number("xi")),
    (
        r"(?P<cantilever>cantilever, )?(?P<finish>.*(brittle finish|other members)), "
        r"(span|length) over",
        _over,
    ),
    (r"UK (?P<kind>imposed|point) load, (domestic floor A1|balcony .*|same)", _imposed),
    (r"guard line load, single dwelling", lambda _: guard_line_load_kn_m("dwelling")),
    (r"guard line load, other residential", lambda _: guard_line_load_kn_m("other")),
    (r"infill load, with 0.74 line", lambda _: number("infill_kn_m2")),
    (r"infill point load, with 0.74 line", lambda _: number("infill_kn")),
    (
        r"f m,d (?P<grade>[CD]\d+), (?P<duration>[a-z]+) term, service class (?P<service>[123])",
        _design_bending,
    ),
    (
        rf".*joist (?P<b>{_N})x(?P<h>{_N}) (?P<grade>[CD]\d+) at (?P<centres>{_N}) mm, "
        rf"(?P<span>{_N}) m, g (?P<g>{_N}) q (?P<q>{_N}): bending utilisation",
        _utilisation,
    ),
    (rf"same: deflection under (?P<load>{_N}) kN/m", _sag),
    (
        rf"same: creep part, (?P<kdef>{_N}) \((?P<g>{_N}) \+ (?P<psi>{_N}) x (?P<q>{_N})\) x "
        rf"(?P<strip>{_N}) kN/m",
        _creep,
    ),
    (
        rf"critical bending stress, (?P<b>{_N})x(?P<h>{_N}), lef (?P<lef>{_N}) m, "
        rf"E0.05 = E/(?P<over>{_N})",
        _critical_told,
    ),
    (
        rf".*critical stress .*, (?P<b>{_N})x(?P<h>{_N}) (?P<grade>[CD]\d+), L (?P<span>{_N}) m",
        _critical,
    ),
    (
        rf"withdrawal strength, d (?P<d>{_N}), lef (?P<lef>{_N}), (?P<grade>[CD]\d+)",
        _grip,
    ),
    (rf"Fax,k, d (?P<d>{_N}), lef (?P<lef>{_N}), (?P<grade>[CD]\d+)", _pull),
    (r"same, Fax,k", _same_pull),
    (
        rf"Johansen mode (?P<mode>[a-f]): (?P<kind>coach screw|screw) "
        rf"(?P<d>{_N})x(?P<length>{_N}), (?P<t1>{_N}) mm .*, (?P<grade>[CD]\d+), "
        rf".*fu (?P<fu>{_N})",
        _mode,
    ),
    (r"EC5 Table 8.2 nail/screw distance (?P<which>a[1-4][tc]?), ", _distance),
)
#: Topics whose rows are ours; of the second only those that a rule knows.
_TOPIC, _BESIDE = "ec5", "guards_stairs"


def check_values(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of the Eurocode 5 values of check-values.toml, and of the guards' loads.

    Worked examples come within the relative tolerance that their rows tell, values exactly.
    """
    return tuple(_cell(row) for row in rows if _is_ours(row))


def _is_ours(row: Row) -> bool:
    if row.get("topic") == _TOPIC:
        return True
    return row.get("topic") == _BESIDE and _rule_of(row.get("name", "")) is not None


def _rule_of(name: str) -> Callable[[], float] | None:
    for pattern, answer in _RULES:
        found = re.match(pattern, name)
        if found:
            return partial(answer, found)
    return None


def _cell(row: Row) -> Cell:
    name = (TABLE, row.get("id") or row.get("name", ""))
    unit, share = row.get("unit", ""), share_of(row)
    column = Column(name="value", unit=unit, tolerance=0.0, share=share, find=_answer)
    return compared(name, row, column, wanted=_wanted(row), found=found_of(row, _answer))


def _answer(row: Row) -> float:
    name = row.get("name", "")
    rule = _rule_of(name)
    if rule is None:
        known = (why for pattern, why in _UNANSWERED if re.search(pattern, name))
        raise CellError(next(known, "no rule knows this value"))
    return rule()


def _wanted(row: Row) -> tuple[float, str]:
    """Return the number that a row tells: a formula of distances in diameters, at 30 degrees."""
    text = (row.get("value") or "").strip()
    formula = re.fullmatch(rf"\(({_N})\+({_N})? ?\|?(cos|sin) a\|?\) d|({_N}) d", text)
    if formula is None:
        return wanted_of(row, "value")
    if formula[4]:
        return float(formula[4]), ""
    angle = radians(_ANGLE_DEG)
    turned = cos(angle) if formula[3] == "cos" else sin(angle)
    return float(formula[1]) + float(formula[2] or 1.0) * turned, ""
