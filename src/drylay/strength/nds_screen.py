"""A member screened by the US basis: all checks under all load cases, the governing one first."""

from collections.abc import Iterator, Sequence

from attrs import evolve

from drylay.strength.beam import down_by_part, effects_of, parts_of
from drylay.strength.beam_line import Load
from drylay.strength.checks import ranked
from drylay.strength.meant import LEAST, from_nothing, positive, refuse, together
from drylay.strength.model import Beam, Case, Check, LineLoad, Screened, Section
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_checks import (
    bearing_check,
    bending_check,
    column_check,
    deflection_check,
    shear_check,
    slenderness_check,
)
from drylay.strength.nds_factors import duration_factor
from drylay.strength.nds_faults import conditions_faults, loads_faults, wood_faults
from drylay.strength.nds_model import Allowed, Conditions, Held, Loaded
from drylay.strength.nds_spans import OVERHANG_OVER, SPAN_OVER
from drylay.strength.patterns import pattern_loads, patterned, point_loads
from drylay.strength.sections import breadth_in_all_mm, second_moment_mm4, section_faults

BASIS = "US allowable stress, NDS reference values"
WITHIN = (
    "within the screened limits of one published basis, not a design: local code and a licensed "
    "engineer decide"
)
#: What sums of floats may leave where nothing lifts.
_NOISE_KN = 1e-9


def screened_beam(
    supports_mm: tuple[float, ...],
    length_mm: float,
    section: Section,
    *,
    subject: str,
    wood: tuple[str, str],
    loaded: Loaded,
    held: Held,
    conditions: Conditions,
) -> Screened:
    """Return every check of a joist or beam: bending, shear, bearing, deflection, stability.

    Live load stands on the worst of its patterns of spans, and `point_kn` in the middle of each
    span, beside each support and at each free end, one at a time and apart from the live load.
    A support that is lifted by more than it is told to hold down is a stop.
    Deflection is that of live load alone, or of the point load at a free end.

    Args:
        supports_mm: From the left end, in order.
        length_mm: Of the beam.
        section: Its true section.
        subject: What is checked.
        wood: Species and grade.
        loaded: What lies on it.
        held: How it is held.
        conditions: Of use; the duration factor is that of each load case.

    Raises:
        UncoveredError: The basis does not cover the wood, the size or the slenderness.
        InputError: The beam does not stand, has no bearing, or a load is below 0.

    Source: NDS, from memory; loads and limits of DCA 6-2012 table 2, read.
    """
    together(
        lambda: refuse(loads_faults(loaded, held)),
        lambda: _refuse_stand(supports_mm, length_mm),
        lambda: refuse_member(section, wood, conditions, live_for=loaded.live_for),
    )
    by_case = _by_duration(wood, section, conditions, ("permanent", loaded.live_for, "occupancy"))
    stiff = by_case["permanent"].stiffness_n_mm2 * second_moment_mm4(section) / 1e9
    beam = Beam(length_mm=length_mm, supports_mm=supports_mm, bending_stiffness_kn_m2=stiff)
    checks = [
        *_strength_checks(beam, section, (subject, loaded, held), by_case),
        *_deflection_checks(beam, subject, loaded),
        *_stability_checks(section, subject, held),
    ]
    return Screened(
        basis=BASIS,
        subject=subject,
        checks=ranked(checks),
        assumed=tuple(_assumed(section, loaded)),
        stops=tuple(_lifted(beam, loaded, held)),
    )


def _assumed(section: Section, loaded: Loaded) -> Iterator[str]:
    yield WITHIN
    yield f"one joist carries the whole point load of {loaded.point_kn:.4g} kN"
    if section.plies > 1:
        yield "plies are fixed so that they share load and turn over as one"


def _lifted(beam: Beam, loaded: Loaded, held: Held) -> Iterator[str]:
    lift_kn = -min(min(case.effects.reactions_kn) for _, case in _cases(beam, loaded))
    if lift_kn > max(_NOISE_KN, held.down_kn):
        told = f"{held.down_kn:.4g} kN is told" if held.down_kn else "nothing is told that does"
        yield f"a support must hold the member down with {lift_kn:.4g} kN and {told}"


def screened_post(
    section: Section,
    *,
    subject: str,
    wood: tuple[str, str],
    length_mm: float,
    dead_kn: float,
    live_kn: float,
    conditions: Conditions,
    live_for: str = "occupancy",
) -> Screened:
    """Return the checks of a post loaded in its middle, under dead load alone and all load.

    Raises:
        UncoveredError: The basis does not cover the wood, the size or the slenderness.
        InputError: A size or a factor is not above 0, or a load below 0.

    Source: NDS 3.7.1, from memory.
    """
    loads_kn = from_nothing(dead_kn=dead_kn, live_kn=live_kn)
    together(
        lambda: refuse([*positive(length_mm=length_mm), *loads_kn]),
        lambda: refuse_member(section, wood, conditions, live_for=live_for),
    )
    by_case = _by_duration(wood, section, conditions, ("permanent", live_for))
    loads = (
        ("permanent", "dead load", dead_kn),
        (live_for, "dead and live load", dead_kn + live_kn),
    )
    checks = [
        column_check(
            by_case[duration], section, subject=subject, load_kn=kn, length_mm=length_mm, case=case
        )
        for duration, case, kn in loads
    ]
    assumed = (WITHIN, "the load stands in the post's middle, both ends are held sideways")
    return Screened(basis=BASIS, subject=subject, checks=ranked(checks), assumed=assumed)


def _refuse_stand(supports_mm: tuple[float, ...], length_mm: float) -> None:
    """Refuse places that are none; how they lie to one another is refused by the beam."""
    places = {f"supports_mm[{at}]": place for at, place in enumerate(supports_mm)}
    refuse([*positive(length_mm=length_mm), *from_nothing(**places)])


def refuse_member(
    section: Section, wood: tuple[str, str], conditions: Conditions, *, live_for: str
) -> None:
    """Return nothing where a member's section, wood and use can be meant and are covered.

    Raises:
        InputError: A size or a factor is not above 0, or the wood no species and grade.
        UncoveredError: The basis has no values for the wood, or no factor for what load lasts like.
    """
    named = wood_faults(wood)
    together(
        lambda: refuse([*section_faults(section), *named, *conditions_faults(conditions)]),
        lambda: named or allowed(*wood, section, conditions),
        lambda: duration_factor(live_for),
    )


def _by_duration(
    wood: tuple[str, str], section: Section, conditions: Conditions, durations: Sequence[str]
) -> dict[str, Allowed]:
    return {
        name: allowed(*wood, section, evolve(conditions, duration_ratio=duration_factor(name)))
        for name in durations
    }


def _cases(beam: Beam, loaded: Loaded) -> Iterator[tuple[str, Case]]:
    """Yield each load case with the duration of its shortest load."""
    dead = [LineLoad(from_mm=0, to_mm=beam.length_mm, load_kn_m=loaded.dead_kn_m)]
    first, *others = patterned(beam, dead, loaded.live_kn_m, bends=False)
    yield "permanent", evolve(first, name="dead load")
    for case in others:
        yield loaded.live_for, evolve(case, name=f"dead load and {case.name}")
    for where, load in point_loads(beam, loaded.point_kn):
        case = Case(
            name=f"dead load and {where}", effects=effects_of(beam, [*dead, load], bends=False)
        )
        yield "occupancy", case


def _strength_checks(
    beam: Beam,
    section: Section,
    what: tuple[str, Loaded, Held],
    by_case: dict[str, Allowed],
) -> Iterator[Check]:
    subject, loaded, held = what
    for duration, case in _cases(beam, loaded):
        wood, effects = by_case[duration], case.effects
        here = {"subject": subject, "case": case.name}
        sides = (
            (effects.sagging.value_kn_m, held.top_free_mm),
            (effects.hogging.value_kn_m, held.bottom_free_mm),
        )
        for moment, free_mm in sides:
            yield bending_check(wood, section, moment_kn_m=moment, free_mm=free_mm, **here)
        yield shear_check(wood, section, shear_kn=effects.shear_kn, **here)
        most = max(effects.reactions_kn)
        yield bearing_check(wood, section, reaction_kn=most, bearing_mm=held.bearing_mm, **here)


def _deflection_checks(beam: Beam, subject: str, loaded: Loaded) -> Iterator[Check]:
    """Yield each part's deflection under patterns of live load, and the point load at an end."""
    placed = point_loads(beam, loaded.point_kn)
    points = [(name, (load,)) for name, load in placed if "free end" in name]
    cases: list[tuple[str, Sequence[Load]]] = [*pattern_loads(beam, loaded.live_kn_m), *points]
    for case, loads in cases:
        found = down_by_part(beam, loads)
        for (start, end, name), deflected in zip(parts_of(beam), found, strict=True):
            if end - start < LEAST:  # what sums of floats leave past a support is no cantilever
                continue
            over = SPAN_OVER if name.startswith("span") else OVERHANG_OVER
            yield deflection_check(
                subject=subject,
                deflection_mm=deflected.deflection_mm,
                part_mm=end - start,
                over=over,
                case=case,
                where=name,
            )


def _stability_checks(section: Section, subject: str, held: Held) -> Iterator[Check]:
    free_mm = max(held.top_free_mm, held.bottom_free_mm)
    if free_mm >= LEAST and section.depth_mm > breadth_in_all_mm(section):
        yield slenderness_check(section, subject=subject, free_mm=free_mm)
