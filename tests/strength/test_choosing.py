"""Choosing a span or a section, and beams over many supports."""

import pytest

from drylay.errors import InputError
from drylay.strength.checks import passes
from drylay.strength.choosing import longest_span, smallest_section, span_at_limit_mm
from drylay.strength.ec5_actions import actions_of
from drylay.strength.ec5_bearer import beam_checks
from drylay.strength.ec5_continuous import continuous_cases, continuous_sags
from drylay.strength.ec5_model import Choices, DesignCase
from drylay.strength.model import Beam, Screened, Section
from strength.ec5_decks import screened_joist, timber


def spanning(span_mm: float) -> Screened:
    return screened_joist(span_mm=span_mm)


def test_a_span_is_rounded_down_to_whole_steps() -> None:
    """C24 47 x 150 at 400: bending under 2 kN alone is used up at 2648 (worked apart, rounded)."""
    by_one = longest_span(spanning, least_mm=300, most_mm=9000)
    assert by_one.span_mm in (2647.0, 2648.0)
    assert by_one.governing is not None
    assert by_one.governing.name == "bending"
    assert by_one.governing.utilisation_ratio <= 1.0
    assert by_one.beyond is not None
    assert by_one.beyond.utilisation_ratio > 1.0
    by_fifty = longest_span(spanning, least_mm=300, most_mm=9000, step_mm=50)
    assert by_fifty.span_mm == 2600.0


def test_a_span_within_what_was_asked() -> None:
    none = longest_span(spanning, least_mm=3000, most_mm=9000)
    assert none.span_mm is None
    assert none.governing is not None
    assert none.governing.utilisation_ratio > 1.0
    whole = longest_span(spanning, least_mm=300, most_mm=1999)
    assert (whole.span_mm, whole.beyond) == (1999.0, None)
    with pytest.raises(InputError):
        longest_span(spanning, least_mm=300, most_mm=9000, step_mm=0)


def test_a_stopped_member_has_no_span() -> None:
    crowd = longest_span(
        lambda span: screened_joist("crowd", span_mm=span), least_mm=300, most_mm=900
    )
    assert (crowd.span_mm, crowd.governing) == (None, None)


def test_a_span_at_a_limit_is_not_rounded() -> None:
    assert span_at_limit_mm(lambda span: span / 1234.5) == pytest.approx(1234.5)
    assert span_at_limit_mm(lambda _: 0.5, most_mm=700.0) == 700.0


def test_the_smallest_section_that_passes() -> None:
    sections = [Section(breadth_mm=47, depth_mm=depth) for depth in (225, 150, 100, 175, 125)]
    chosen = smallest_section(
        lambda s: screened_joist(breadth_mm=s.breadth_mm, depth_mm=s.depth_mm, span_mm=2700.0),
        sections,
    )
    assert chosen.section is not None
    assert chosen.section.depth_mm == 175
    assert [tried.section.depth_mm for tried in chosen.turned_down] == [100, 125, 150]
    assert all(not passes(tried.at) for tried in chosen.turned_down)
    assert chosen.governing is not None
    assert chosen.governing.utilisation_ratio <= 1.0
    none = smallest_section(lambda _: screened_joist(span_mm=6000.0), sections)
    assert (none.section, none.at, none.governing) == (None, None, None)
    assert len(none.turned_down) == 5


TWO_SPANS = Beam(
    length_mm=4000.0, supports_mm=(0.0, 2000.0, 4000.0), bending_stiffness_kn_m2=145.40625
)


def two_spans() -> list[DesignCase]:
    actions = actions_of("dwelling")
    return list(
        continuous_cases(
            TWO_SPANS, dead_kn_m=0.1, imposed_kn_m=0.6, actions=actions, choices=Choices(),
            system_ratio=1.1,
        )
    )  # fmt: skip


def test_a_point_load_on_two_spans() -> None:
    """0.2074 P L at 0.432 L (tables of continuous beams, from memory), P 1.5 x 2 kN; whole beside a
    support; 0.015 P L^3 / E I goes down (same tables); what G adds by hand, at most.
    """
    cases = [case for case in two_spans() if " Q," in case.name]
    bent, pushed = (max(map(f, cases)) for f in (_moment, _shear))
    dead = 0.135
    assert 0.995 * 0.2074 * 3 * 2 < bent < 0.2074 * 3 * 2 + 9 / 128 * dead * 4
    assert 3.0 + 3 / 8 * dead * 2 < pushed * 1.0001 < 3.0 + 5 / 8 * dead * 2 + 0.001
    assert {(case.system_ratio, case.duration) for case in cases} == {(1.0, "medium")}
    sags = list(continuous_sags(TWO_SPANS, dead_kn_m=0.1, imposed_kn_m=0.6, point_kn=2.0))
    assert [sag.name.partition(",")[0] for sag in sags] == ["G + q"] * 2 + ["G + Q"] * 2
    assert sags[-1].imposed_mm == pytest.approx(0.015 * 2 * 8 / 145.40625 * 1e3, rel=5e-3)


def _moment(case: DesignCase) -> float:
    return case.moment_kn_m


def _shear(case: DesignCase) -> float:
    return case.shear_kn


def test_two_spans() -> None:
    """w L^2 / 8 over the middle support, 5 w L / 8 beside it, 1.25 w L on it: all loaded."""
    cases = [case for case in two_spans() if " Q," not in case.name]
    load = 1.35 * 0.1 + 1.5 * 0.6
    assert max(case.moment_kn_m for case in cases) == pytest.approx(load * 4 / 8)
    assert max(case.shear_kn for case in cases) == pytest.approx(load * 5 / 4)
    assert max(case.bearing_kn for case in cases) == pytest.approx(2.5 * load)
    assert cases[-1].duration == "permanent"
    assert cases[-1].moment_kn_m == pytest.approx(0.135 / 2)
    assert {case.system_ratio for case in cases} == {1.0, 1.1}


def test_a_span_beside_an_empty_one_goes_down_most() -> None:
    """0.0092 q L^4 / E I for one of two spans loaded, 0.0054 w L^4 / E I for both: tables."""
    sags = list(continuous_sags(TWO_SPANS, dead_kn_m=0.1, imposed_kn_m=0.6, point_kn=0.0))
    assert len(sags) == 2
    for sag in sags:
        unit = 16 / 145.40625 * 1e3
        assert sag.permanent_mm == pytest.approx(0.00542 * 0.1 * unit, rel=2e-3)
        assert sag.imposed_mm == pytest.approx(0.00917 * 0.6 * unit, rel=5e-3)
        assert (sag.length_mm, sag.cantilever) == (2000.0, False)


def test_an_end_that_reaches_past_is_a_cantilever() -> None:
    """Only the end loaded: w a^3 (4 L + 3 a) / 24 E I at its tip."""
    beam = Beam(length_mm=2500.0, supports_mm=(0.0, 2000.0), bending_stiffness_kn_m2=145.40625)
    _, tip = continuous_sags(beam, dead_kn_m=0.1, imposed_kn_m=0.6, point_kn=0.0)
    assert tip.cantilever
    assert tip.length_mm == 500.0
    assert tip.imposed_mm == pytest.approx(0.6 * 0.125 * 9.5 / 24 / 145.40625 * 1e3)
    assert tip.permanent_mm == 0.0  # the span holds it up


def test_cases_from_elsewhere_are_checked_like_any() -> None:
    cases = continuous_cases(
        TWO_SPANS, dead_kn_m=0.1, imposed_kn_m=0.6, actions=actions_of("dwelling"),
        choices=Choices(),
    )  # fmt: skip
    sags = continuous_sags(TWO_SPANS, dead_kn_m=0.1, imposed_kn_m=0.6, point_kn=2.0)
    found = list(
        beam_checks(timber(), cases, sags, choices=Choices(), psi_2_ratio=0.3, bearing_mm=47.0)
    )
    names = {each.name for each in found}
    assert names == {"bending", "shear", "bearing", "deflection, instant", "deflection, final"}
