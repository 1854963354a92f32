"""US single values and worked examples, each worked out from the figures in its name."""

from collections.abc import Mapping
from fractions import Fraction

from attrs import evolve

from drylay.strength.model import Section
from drylay.strength.nds_allowed import allowed, allowed_in_group, least_extent
from drylay.strength.nds_factors import (
    beam_slenderness,
    beam_stability_factor,
    column_stability_factor,
    effective_length_mm,
    incising_factor,
    size_factor,
    wet_factor,
)
from drylay.strength.nds_fasteners import (
    lag_in_main_mm,
    lag_withdrawal_n_mm,
    nail_withdrawal_n_mm,
)
from drylay.strength.nds_model import Allowed, Conditions
from drylay.strength.nds_posts import footing_diameter_mm, footing_side_mm
from drylay.strength.nds_spans import (
    DECK_DEAD_KN_M2,
    DECK_LIVE_KN_M2,
    LONGEST_JOIST_MM,
    OVERHANG_LOAD_KN,
    OVERHANG_OVER,
    OVERHANG_PART_RATIO,
    REPEATED_RATIO,
    SPAN_OVER,
    TWO_PLY_TABLE_RATIO,
    beam_span,
    carried_by_beam_mm,
    joist_span,
)
from drylay.strength.nds_values import (
    dressed,
    gravity_ratio,
    reference,
    species_ids,
    species_name,
)
from drylay.strength.sections import area_mm2, modulus_mm3, second_moment_mm4
from drylay.strength.us_units import (
    dug_inches,
    inches_of_mm,
    kn_m2_of_psf,
    kn_of_lb,
    lb_inch_of_n_mm,
    lb_of_kn,
    m2_of_sqft,
    mm_of_feet,
    mm_of_inches,
    n_mm2_of_psi,
    psi_of_n_mm2,
)
from drylay.testing.example_rows import Example, constant, example, worked_examples
from drylay.testing.model import Cell
from drylay.testing.timber_rows import CellError, Rows

Told = Mapping[str, str]
_DRY = Conditions(wet=False)
_ABOVE_PSI = n_mm2_of_psi(5000)
#: The printed joist span factors are rounded up to whole hundredths and more.
_FACTOR_NEAR = 0.03


def us_examples(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of US values and worked examples among these rows."""
    return worked_examples(rows, EXAMPLES)


def _bending_psi(told: Told) -> float:
    section = dressed(told.get("size") or "2x8")
    row = reference(_wood(told["wood"]), told["grade"], section)
    return psi_of_n_mm2(row.bending_n_mm2)


def _stiffness_psi(told: Told) -> float:
    row = reference(_wood(told["wood"]), told["grade"], dressed("2x8"))
    return psi_of_n_mm2(row.stiffness_n_mm2)


def _gravity(told: Told) -> float:
    return gravity_ratio(_wood(told["wood"]))


def _wood(name: str) -> str:
    """Return a wood's short name, from that or from what it is called, in part or in full."""
    wanted = name.strip().lower()
    for wood in species_ids():
        if wanted == wood.lower() or species_name(wood).lower().startswith(wanted):
            return wood
    raise CellError(f"unknown wood {name!r}")


def _joist_factor(told: Told) -> float:
    part = float(Fraction(told["part"]))
    return carried_by_beam_mm(1.0, part) / carried_by_beam_mm(1.0, OVERHANG_PART_RATIO)


def _beam_2021_inch(told: Told) -> float:
    """IRC 2021: incised woods together, two plies, the joists' span with its factor in."""
    plies = {"two": 2, "three": 3}[told["plies"]]
    section = dressed(told["size"], plies)
    ratio = TWO_PLY_TABLE_RATIO if plies == 2 else REPEATED_RATIO
    woods = allowed_in_group("DFL-HF-SPF", "No.2", section, Conditions(repeated_ratio=ratio))
    span_mm = mm_of_feet(float(told["feet"]))
    carried_mm = carried_by_beam_mm(span_mm, span_mm * OVERHANG_PART_RATIO)
    extent = least_extent(woods, lambda wood: beam_span(wood, section, carried_mm=carried_mm))
    return inches_of_mm(extent.extent_mm)


def _hud_joist(told: Told) -> float:
    """HUD example 5.1: No.1 Hem-fir, dry, repeated; 30 psf live, 10 psf dead."""
    section = dressed(told["size"])
    wood = allowed("HF", "No.1", section, evolve(_DRY, repeated_ratio=REPEATED_RATIO))
    extent = joist_span(
        wood,
        section,
        centres_mm=mm_of_inches(float(told["centres"])),
        live_kn_m2=kn_m2_of_psf(float(told["live"])),
        dead_kn_m2=kn_m2_of_psf(float(told["dead"])),
    )
    by_limit_mm = dict(extent.by_limit_mm)
    match told["what"]:
        case "S":
            return modulus_mm3(section) / mm_of_inches(1) ** 3
        case "I":
            return second_moment_mm4(section) / mm_of_inches(1) ** 4
        case "Fb":
            return psi_of_n_mm2(wood.bending_n_mm2)
        case "Lb":
            return inches_of_mm(by_limit_mm["bending"]) / 12
        case "Ld":
            return inches_of_mm(by_limit_mm["deflection"]) / 12
    raise CellError(f"unknown figure {told['what']!r}")


#: HUD example 5.6: a dry 4x4 of spruce-pine-fir No.2, 7.3 ft between where it is held.
_HUD_POST, _HUD_POST_MM = "4x4", mm_of_feet(7.3)


def _hud_post_ratio(told: Told) -> float:
    size, wood = told.get("size") or _HUD_POST, told.get("wood") or "SPF"
    section = dressed(size)
    length_mm = mm_of_feet(float(told["feet"])) if told.get("feet") else _HUD_POST_MM
    post = allowed(_wood(wood), told.get("grade") or "No.2", section, _DRY)
    return _column_ratio(post, section, length_mm)


def _column_ratio(post: Allowed, section: Section, length_mm: float) -> float:
    return column_stability_factor(
        length_mm=length_mm,
        least_mm=min(section.breadth_mm, section.depth_mm),
        along_n_mm2=post.along_n_mm2,
        least_stiffness_n_mm2=post.least_stiffness_n_mm2,
    )


def _hud_post_used(told: Told) -> float:
    section = dressed(_HUD_POST)
    post = allowed("SPF", "No.2", section, _DRY)
    bears_kn = _column_ratio(post, section, _HUD_POST_MM) * post.along_n_mm2 * area_mm2(section)
    return kn_of_lb(float(told["pounds"])) / (bears_kn / 1000)


def _awc_beam(told: Told) -> float:
    """AWC example E1.2a: dry Douglas fir-larch, held at its supports, one load in the middle."""
    section = dressed(told["size"])
    beam = allowed(_wood(told["wood"]), told["grade"], section, _DRY)
    free_mm = mm_of_feet(float(told["feet"]))
    length_mm = effective_length_mm(free_mm=free_mm, depth_mm=section.depth_mm, load="middle")
    shape = {"depth_mm": section.depth_mm, "breadth_mm": section.breadth_mm}
    slender = beam_slenderness(length_mm=length_mm, **shape)
    ratio = beam_stability_factor(
        length_mm=length_mm,
        bending_n_mm2=beam.bending_n_mm2,
        least_stiffness_n_mm2=beam.least_stiffness_n_mm2,
        **shape,
    )
    answers = {
        "le": inches_of_mm(length_mm),
        "RB": slender,
        "FbE": psi_of_n_mm2(1.2 * beam.least_stiffness_n_mm2 / slender**2),
        "CL": ratio,
        "Fb": psi_of_n_mm2(ratio * beam.bending_n_mm2),
    }
    return answers[told["what"]]


def _lag_lb(told: Told) -> float:
    diameter_mm = mm_of_inches(float(Fraction(told["diameter"])))
    length_mm, side_mm = mm_of_inches(float(told["long"])), mm_of_inches(_mixed(told["side"]))
    holds_mm = lag_in_main_mm(diameter_mm, length_mm, side_mm)
    each = lag_withdrawal_n_mm(gravity_ratio(_wood(told["wood"])), diameter_mm)
    return lb_of_kn(each * holds_mm / 1000)


def _mixed(text: str) -> float:
    return float(sum(Fraction(part) for part in text.split("-")))


def _nail_lb_inch(told: Told) -> float:
    diameter_mm = mm_of_inches(float(told["diameter"]))
    wood = gravity_ratio(_wood(told["wood"]))
    return lb_inch_of_n_mm(nail_withdrawal_n_mm(wood, diameter_mm))


def _nail_lb(told: Told) -> float:
    """AWC example E2.1a: a 0.131 in nail in spruce-pine-fir."""
    return _nail_lb_inch({"diameter": "0.131", "wood": "SPF"}) * float(told["inches"])


def _footing_side_inch(told: Told) -> float:
    return dug_inches(footing_side_mm(*_footing(told)))


def _footing_round_inch(_: Told) -> float:
    """The worked footing: 5 by 10 ft at 50 psf on 3000 psf."""
    same = {"along": "5", "across": "10", "load": "50", "soil": "3000"}
    return dug_inches(footing_diameter_mm(*_footing(same)))


def _footing(told: Told) -> tuple[float, float]:
    area_m2 = m2_of_sqft(float(told["along"]) * float(told["across"]))
    return area_m2 * kn_m2_of_psf(float(told["load"])), kn_m2_of_psf(float(told["soil"]))


_NUMBER = r"\d+(?:\.\d+)?"
_SIZE = r"(?P<size>\d+x\d+)"
EXAMPLES: tuple[Example, ...] = (
    constant("deck live load", DECK_LIVE_KN_M2 / kn_m2_of_psf(1)),
    constant("deck dead load", DECK_DEAD_KN_M2 / kn_m2_of_psf(1)),
    constant("joist live-load deflection limit, span over", SPAN_OVER),
    constant("overhang deflection limit, overhang over", OVERHANG_OVER),
    constant("overhang point load", lb_of_kn(OVERHANG_LOAD_KN)),
    constant("overhang at most this part of the main span", OVERHANG_PART_RATIO),
    constant("joist length cap", inches_of_mm(LONGEST_JOIST_MM)),
    constant("wet service factor for Fb, when Fb*CF > 1150 psi", wet_factor("bending", _ABOVE_PSI)),
    constant("wet service factor for E", wet_factor("stiffness")),
    constant("wet service factor for Fv", wet_factor("shear")),
    constant("wet service factor for Fc (when Fc*CF > 750 psi)", wet_factor("along", _ABOVE_PSI)),
    constant("wet service factor for Fc-perp", wet_factor("across")),
    constant("incising factor, strength", incising_factor("bending")),
    constant("incising factor, E", incising_factor("stiffness")),
    constant("repetitive member factor", REPEATED_RATIO),
    example(
        rf"size factor for Fb, {_SIZE} No\.2",
        lambda told: size_factor(dressed(told["size"]).depth_mm, dressed(told["size"]).breadth_mm),
    ),
    example(
        rf"(?P<wood>[a-z ]+) (?P<grade>No\.\d|SS) Fb, {_SIZE} \(size factor included\)",
        _bending_psi,
    ),
    example(r"(?P<wood>[A-Za-z ]+) (?P<grade>No\.\d|SS) E", _stiffness_psi),
    example(r"(?P<wood>[A-Z]+) (?P<grade>No\.\d|SS) Fb", _bending_psi),
    example(r"specific gravity, (?P<wood>.+)", _gravity),
    example(
        rf"IRC 2021 beam, (?P<plies>two|three) {_SIZE} SPF, "
        rf"effective joist span (?P<feet>{_NUMBER}) ft",
        _beam_2021_inch,
    ),
    example(
        r"IRC 2021 joist span factor, cantilever/span = (?P<part>\d+(?:/\d+)?)",
        _joist_factor,
        tolerance=_FACTOR_NEAR,
    ),
    example(
        rf"HUD example 5\.1, {_SIZE} at (?P<centres>{_NUMBER}) in, "
        rf"(?P<live>{_NUMBER})\+(?P<dead>{_NUMBER}) psf: (?P<what>\w+)",
        _hud_joist,
        share=0.001,
    ),
    example(
        rf"HUD example 5\.6, {_SIZE} (?P<wood>[A-Z]+) (?P<grade>No\.\d), "
        rf"(?P<feet>{_NUMBER}) ft: Cp",
        _hud_post_ratio,
        share=0.001,
    ),
    example(
        rf"HUD example 5\.6: utilisation at (?P<pounds>{_NUMBER}) lb", _hud_post_used, share=0.001
    ),
    example(
        rf"AWC example E1\.2a, {_SIZE} (?P<wood>[A-Z]+) (?P<grade>SS|No\.\d), "
        rf"(?P<feet>{_NUMBER}) ft, centre load: (?P<what>le|RB|FbE|CL|Fb)",
        _awc_beam,
        share=0.002,
    ),
    example(
        rf"AWC E2\.3: (?P<diameter>[\d/]+) x (?P<long>{_NUMBER}) in lag screw withdrawal, "
        r"(?P<wood>[a-z -]+), (?P<side>[\d/-]+) in side piece",
        _lag_lb,
        share=0.002,
    ),
    example(
        rf"AWC E2\.1a: (?P<diameter>{_NUMBER}) in nail withdrawal in (?P<wood>[A-Z]+), per inch",
        _nail_lb_inch,
        share=0.002,
    ),
    example(rf"AWC E2\.1a: total for (?P<inches>{_NUMBER}) in penetration", _nail_lb, share=0.002),
    example(
        rf"worked footing: (?P<along>{_NUMBER}) x (?P<across>{_NUMBER}) ft, "
        rf"(?P<load>{_NUMBER}) psf, (?P<soil>{_NUMBER}) psf soil, square side",
        _footing_side_inch,
    ),
    example("same, round diameter", _footing_round_inch),
)
