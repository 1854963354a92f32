"""Every public verb of the US basis and of footings refuses what cannot be meant, or answers.

The verbs are found by their modules and called by their signatures, with arguments that are good;
then every number in these, those within nouns too, is spoilt, alone and two at a time, and every
word. What comes back is an InputError (an UncoveredError is one) or an answer whose every float is
finite; never another error. Two faults in one call are told as one error.
"""

import importlib
import inspect
import math
import pkgutil
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import combinations
from typing import Any

import attrs
import pytest
from attrs import evolve

import drylay.strength
from drylay.errors import InputError
from drylay.groundwork import footings
from drylay.groundwork.footings import footing_rules
from drylay.regions.packs import region_pack, soil_named
from drylay.strength import sections
from drylay.strength.model import BeamAsked, GuardPostAsked, LedgerAsked
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_dowels import bolt, lag_screw
from drylay.strength.nds_joint_model import SawnNotch, Wood
from drylay.strength.nds_model import Conditions, Extent, Held, Loaded
from drylay.strength.nds_values import dressed
from drylay.strength.nds_yield import single_shear

NAN, INF = float("nan"), float("inf")
SPOILT = (NAN, INF, -INF, -1.0, 0.0, 1e308, 5e-324)
#: The least and the most that can be meant: no formula loses its way on them either.
EDGES = (1e-9, 1e12)
NO_WORDS = ("no such word", "", None, 28, ["no such word"])

JOIST, POST, PLIES = dressed("2x8"), dressed("6x6"), dressed("2x6", 3)
WOOD = allowed("SP", "No.2", JOIST, Conditions())
PACK = region_pack("united-kingdom")
BEAM = BeamAsked(
    kind="joist", subject="J1", wood="SP No.2", section=JOIST, length_mm=3500.0,
    supports_mm=(100.0, 3000.0), carried_mm=400.0, bearing_mm=40.0,
)  # fmt: skip
LEDGER = LedgerAsked(
    subject="L1", wood="SP No.2", section=JOIST, span_mm=3000.0, spacing_mm=400.0,
    fixing="lag screw 1/2 in",
)  # fmt: skip
GUARD = GuardPostAsked(
    subject="G1", wood="SP No.2", section=dressed("4x4"), edge_wood="SP No.2", edge=JOIST,
    centres_mm=1500.0, rail_mm=1000.0, bolts_mm=120.0, bolt="1/2 in A307", washer_mm=50.0,
    line_kn_m=0.74, point_kn=0.9,
)  # fmt: skip
NOTCH = SawnNotch(deep_mm=40.0, long_mm=60.0, reach_mm=50.0, stretched=True, at_end=True)

#: Good arguments, by what a parameter is called.
GOOD: dict[str, Any] = {
    "across": 4.0, "across_mm": 60.0, "along": 20.0, "along_n_mm2": 8.0, "angle_deg": 30.0,
    "area_m2": 0.2, "asked": BEAM, "at_end": True, "back_span_mm": 3000.0, "bag": PACK.bags[0],
    "bearing_kn_m2": 75.0, "bearing_mm": 38.1, "bears_mm": 60.0, "bending_n_mm2": 8.0,
    "braced_mm": 1200.0, "breadth_mm": 38.1, "carried_mm": 2000.0, "case": "all",
    "centres_mm": 400.0, "conditions": Conditions(), "count": 4, "dead_kn": 2.0,
    "dead_kn_m2": 0.5, "deflection_mm": 3.0, "depth_mm": 184.15, "diameter_mm": 12.7,
    "dowel": bolt(12.7), "each_n_mm": 20.0, "extent": lambda wood: Extent(
        extent_mm=wood.bending_n_mm2, governs="bending", by_limit_mm=()),
    "fastener": "lag", "fastener_mm": 4.1, "free_mm": 600.0, "frost_mm": 450.0,
    "grade": "No.2", "gravity_ratio": 0.5, "group": "SP", "held_mm": 100.0,
    "held": Held(bearing_mm=40.0, top_free_mm=0.0, bottom_free_mm=600.0, down_kn=1.0),
    "joined": "nailed", "joist_span_mm": 3000.0, "kind": "concreted hole",
    "lateral": single_shear(
        bolt(12.7), Wood(bears_mm=38.1, gravity_ratio=0.5), Wood(bears_mm=38.1, gravity_ratio=0.5)),
    "least": footing_rules(PACK).thick_least,
    "least_mm": 88.9, "least_stiffness_n_mm2": 3000.0, "length_mm": 2400.0, "live_for": "snow",
    "live_kn": 5.0, "load_kn_m": 0.8, "live_kn_m2": 1.9, "load": "snow", "load_kn": 5.0,
    "loaded": Loaded(dead_kn_m=0.2, live_kn_m=0.8, point_kn=1.0), "made_wet": True,
    "main": Wood(bears_mm=88.9, gravity_ratio=0.5, angle_deg=90.0), "main_n": 4e8, "mode": "IIIs",
    "moment_kn_m": 0.5, "most_mm": 5000.0, "name": "end", "notch": NOTCH, "over": 360.0,
    "overhang_mm": 500.0, "part_mm": 3000.0, "penetration_mm": 80.0, "pier": False,
    "pier_mm": 200.0, "piece": Wood(bears_mm=38.1, gravity_ratio=0.5, angle_deg=45.0),
    "plies": 2, "post_depth_mm": 350.0, "post_inch": 5.5, "post_mm": 100.0, "pull_kn": 2.0,
    "ratio": 0.7, "reaction_kn": 4.0, "root_mm": 3.0, "rows_apart_mm": 40.0, "rules":
    footing_rules(PACK), "section": JOIST, "shape": "round", "shear_kn": 2.0,
    "side": Wood(bears_mm=38.1, gravity_ratio=0.5, angle_deg=0.0), "side_inch": 20.0,
    "side_mm": 38.1, "side_n": 4e8, "size": "2x8", "size_mm": 400.0, "sized_n_mm2": 9.0,
    "soil": soil_named(PACK, ""), "soil_named": False, "spacing_mm": 60.0, "span_mm": 3000.0,
    "species": "SP", "spread_mm": 100.0, "steel": False, "step_mm": 10.0, "subject": "J1",
    "supports_mm": (0.0, 3000.0), "tall_mm": 500.0, "there_mm": 100.0, "tip_mm": 8.0,
    "to_edge_mm": 55.0, "to_end_mm": 50.0, "to_next_mm": 90.0, "use": "dwelling",
    "volume_m3": Fraction(1, 5), "what": "bending", "where": "span 1", "wood": ("SP", "No.2"),
    "woods": (WOOD, WOOD), "allowed": WOOD, "timber": False, "pack": PACK,
}  # fmt: skip
#: Where a verb wants another one by the same name.
OTHERS: dict[str, dict[str, Any]] = {
    "built_up_check": {"wood": WOOD, "section": PLIES},
    "built_up_ratio": {"wood": WOOD, "section": PLIES},
    "column_check": {"section": POST},
    "concrete_m3": {"depth_mm": 500.0},
    "effective_length_mm": {"load": "any"},
    "group_of": {"name": "SP"},
    "guard_forces_kn": {"asked": GUARD},
    "lag_in_main_mm": {"length_mm": 101.6},
    "lag_thread_mm": {"length_mm": 101.6},
    "least_nail_mm": {"section": PLIES},
    "least_rows": {"section": PLIES},
    "least_side_mm": {"section": POST},
    "nail": {"diameter_mm": 4.1},
    "nail_withdrawal_n_mm": {"diameter_mm": 4.1},
    "named_values": {"name": "duration"},
    "penetration_bears_mm": {"dowel": lag_screw(12.7)},
    "ply_fixings": {"section": PLIES},
    "post_height_mm": {"section": POST},
    "post_length": {"section": POST},
    "rows_of": {"name": "size"},
    "screened_beam": {"length_mm": 3500.0},
    "screened_built_up_post": {"section": PLIES},
    "screened_guard_post": {"asked": GUARD},
    "screened_ledger": {"asked": LEDGER},
    "screened_post": {"section": POST},
    "table_source": {"name": "size"},
    "thickness_mm": {"post_mm": 100.0},
    "wood_of": {"wood": "SP No.2"},
    "wood_screw": {"diameter_mm": 4.8},
}  # fmt: skip
#: Lists of faults are no answers of the basis; a pack is read and kept by another room.
NOT_ASKED = {"is_whole", "footing_rules"}
#: Numbers that may be 0, as their verbs say: there is none of it.
NOTHING = {
    "angle_deg", "bearing_mm: overhang", "bottom_free_mm", "braced_mm: screened_built_up_post",
    "dead_kn", "dead_kn_m", "dead_kn_m2", "deflection_mm", "down_kn", "free_mm", "frost_mm",
    "held_each_mm", "hold_down_kn", "least_mm: footing_size_mm", "line_kn_m", "live_kn",
    "live_kn_m", "length_mm: beam_slenderness",
    "live_kn_m2: ledger_spacing_mm", "load_kn: built_up_check", "load_kn: column_check",
    "load_kn: footing_check", "load_kn: lateral_check", "moment_kn_m", "more_dead_kn_m2",
    "overhang_mm", "pier_mm", "point_kn", "post_depth_mm", "pull_kn", "reach_mm", "reaction_kn",
    "rows_apart_mm", "shear_kn", "sized_n_mm2", "supports_mm.0", "tall_mm", "to_end_mm",
    "top_free_mm", "volume_m3",
}  # fmt: skip
#: Limits of footings: a region may set 0, but for what soil bears and a bag makes.
NOTHING |= {f"{limit}.value" for limit in (
    "square_least", "round_least", "thick_least", "depth_least", "frost", "least",
)}  # fmt: skip
#: Numbers of either sign: their size counts, or the sign says which way.
SIGNED = {"deflection_mm", "load_kn: lateral_check", "moment_kn_m", "reaction_kn", "shear_kn"}
#: "As far as it likes", as their verbs say.
ENDLESS = {"most_mm: post_length"}
#: Words that are free: they are only told again.
FREE = {"case", "subject", "where", "name: distance_check"}


def verbs() -> Iterator[Callable[..., object]]:
    names = [each.name for each in pkgutil.iter_modules(drylay.strength.__path__)]
    rooms = [
        importlib.import_module(f"drylay.strength.{name}")
        for name in names
        if name.startswith("nds_")
    ]
    for module in (*rooms, sections, footings):
        for name, verb in vars(module).items():
            here = inspect.isfunction(verb) and verb.__module__ == module.__name__
            if (
                here
                and not name.startswith("_")
                and not name.endswith("_faults")
                and name not in NOT_ASKED
            ):
                yield verb


VERBS = tuple(verbs())
each_verb = pytest.mark.parametrize("verb", VERBS, ids=lambda verb: verb.__name__)


def good(verb: Callable[..., object]) -> dict[str, Any]:
    own = OTHERS.get(verb.__name__, {})
    names = inspect.signature(verb).parameters
    return {name: own.get(name, GOOD.get(name)) for name in names}


Path = tuple[str | int, ...]


def numbers(of: object, path: Path = ()) -> Iterator[Path]:
    """Yield the way to every number within arguments, nouns and tuples."""
    if isinstance(of, dict):
        for name, each in of.items():
            yield from numbers(each, (*path, name))
    elif isinstance(of, tuple):
        for at, each in enumerate(of):
            yield from numbers(each, (*path, at))
    elif attrs.has(type(of)) and type(of).__name__ not in {"Source", "RegionPack"}:
        for field in attrs.fields(type(of)):
            if field.name not in {"modes_kn", "factors", "mass_kg"}:  # told again, or not read
                yield from numbers(getattr(of, field.name), (*path, field.name))
    elif isinstance(of, (int, float, Fraction)) and not isinstance(of, bool):
        yield path


def spoilt(of: Any, path: Path, value: object) -> Any:
    """Return arguments with another value at the end of a way."""
    if not path:
        return value
    first, *rest = path
    if isinstance(of, dict):
        return {**of, first: spoilt(of[first], tuple(rest), value)}
    if isinstance(of, tuple):
        return tuple(
            spoilt(each, tuple(rest), value) if at == first else each for at, each in enumerate(of)
        )
    return evolve(of, **{str(first): spoilt(getattr(of, str(first)), tuple(rest), value)})


def floats(of: object) -> Iterator[float]:
    if isinstance(of, (int, float, Fraction)):
        yield float(of)
    elif isinstance(of, dict):
        for each in of.values():
            yield from floats(each)
    elif isinstance(of, (tuple, list)):
        for each in of:
            yield from floats(each)
    elif attrs.has(type(of)):
        for field in attrs.fields(type(of)):
            yield from floats(getattr(of, field.name))


def told(verb: Callable[..., object], asked: dict[str, Any]) -> frozenset[str]:
    """Return the paths of all faults that a verb tells; none where it answers, in finite floats."""
    try:
        answer = verb(**asked)
        found = tuple(answer) if inspect.isgenerator(answer) else answer
    except InputError as error:
        return frozenset(fault.path for fault in error.faults if fault.found and fault.wanted)
    endless = any(f"{name}: {verb.__name__}" in ENDLESS for name in asked)
    assert endless or all(map(math.isfinite, floats(found))), f"{verb.__name__}: {found}"
    return frozenset()


def is_in(names: set[str], path: Path, verb: Callable[..., object]) -> bool:
    called = ".".join(map(str, path[-2:] if path[-1] in (0, 1, "value") else path[-1:]))
    return bool({called, f"{called}: {verb.__name__}"} & names)


@each_verb
def test_good_arguments_are_answered(verb: Callable[..., object]) -> None:
    assert not told(verb, good(verb))


@each_verb
def test_a_number_that_cannot_be_meant_is_refused(verb: Callable[..., object]) -> None:
    asked = good(verb)
    for path in numbers(asked):
        free = [0.0] if is_in(NOTHING, path, verb) else []
        free += [-1.0] if is_in(SIGNED, path, verb) else []
        free += [INF, 1e308] if is_in(ENDLESS, path, verb) else []
        for value in (*SPOILT, *EDGES):
            found = told(verb, spoilt(asked, path, value))
            may = value in free or value in EDGES or (value == 5e-324 and 0.0 in free)
            assert found or may, f"{verb.__name__} answers {path} {value}"
        assert 0.0 not in free or not told(verb, spoilt(asked, path, 0.0)), f"{path} may be 0"


@each_verb
def test_two_numbers_that_cannot_be_meant(verb: Callable[..., object]) -> None:
    """Both are told at once: what is told of the one alone and of the other is told of both."""
    asked = good(verb)
    alone = {path: told(verb, spoilt(asked, path, NAN)) for path in numbers(asked)}
    for one, other in combinations(alone, 2):
        for value in SPOILT:
            half = spoilt(asked, one, value)
            for beside in SPOILT:
                told(verb, spoilt(half, other, beside))
        both = told(verb, spoilt(spoilt(asked, one, NAN), other, NAN))
        assert both >= alone[one] | alone[other], f"{verb.__name__} {one} {other}"


@each_verb
def test_a_word_that_nobody_knows_is_refused(verb: Callable[..., object]) -> None:
    asked = good(verb)
    for name, word in asked.items():
        if isinstance(word, str) and not is_in(FREE, (name,), verb):
            for value in NO_WORDS:
                assert told(verb, {**asked, name: value}), f"{verb.__name__} {name} {value!r}"


@each_verb
def test_a_word_and_a_number_are_told_together(verb: Callable[..., object]) -> None:
    asked = good(verb)
    words = [
        name
        for name, word in asked.items()
        if isinstance(word, str) and not is_in(FREE, (name,), verb)
    ]
    for name in words:
        alone = told(verb, {**asked, name: "no such word"})
        for path in numbers(asked):
            number = told(verb, spoilt(asked, path, NAN))
            both = told(verb, {**spoilt(asked, path, NAN), name: "no such word"})
            assert both >= alone | number, f"{verb.__name__} {name} {path}"
