"""Any board may edge any other: what governs the frame is told with the inputs of whose it is."""

from hypothesis import example, given, settings
from hypothesis import strategies as st

import drylay
from border_decks import KINDS, THICKNESSES_MM, WIDTHS_MM, board_of, of_two
from drylay.plugins.loading import installed_families
from drylay_hardwood.family import hardwood
from drylay_insertboard.family import insertboard
from drylay_softwood.family import softwood

FAMILIES = installed_families(entry_points=(), extra=[softwood(), hardwood(), insertboard()])
SIZES = st.tuples(
    st.sampled_from(WIDTHS_MM), st.sampled_from(THICKNESSES_MM), st.sampled_from(KINDS)
)


@settings(max_examples=12)
@given(field=SIZES, border=SIZES)
@example(field=(145.0, 33.0, KINDS[0]), border=(145.0, 21.0, KINDS[2]))
@example(field=(145.0, 25.0, KINDS[3]), border=(145.0, 28.0, KINDS[1]))
@example(field=(145.0, 38.0, KINDS[0]), border=(90.0, 28.0, KINDS[4]))
def test_no_pair_of_boards_makes_the_planner_fault(field: tuple, border: tuple) -> None:
    asked, sold = of_two(board_of("FIELD", *field), board_of("EDGED", *border))
    plan = drylay.design(asked, stock=sold, families=FAMILIES)  # raises no PlannerFault
    if plan.supports is not None:
        decision = plan.why("supports.most_centres_mm")
        inputs, whose = dict(decision.inputs), decision.rule.split("'s: ")[0]
        told = inputs.get("border_thickness_mm" if whose == "the border" else "board_thickness_mm")
        assert told == (border if whose == "the border" else field)[1]
    report = drylay.audit(plan, brief=asked, stock=sold, families=FAMILIES)
    assert report.findings == ()


def test_the_border_governs_with_its_own_thickness() -> None:
    """By the softwood family's table 28 thick carries 400, 38 thick 600."""
    thin, thick = (145.0, 28.0, ("softwood", "larch")), (145.0, 38.0, ("softwood", "redwood"))
    asked, sold = of_two(board_of("FIELD", *thick), board_of("EDGED", *thin))
    plan = drylay.design(asked, stock=sold, families=FAMILIES)
    decision = plan.why("supports.most_centres_mm")
    assert decision.value == 400.0
    assert dict(decision.inputs)["border_thickness_mm"] == 28.0
    assert [other.value for other in decision.turned_down] == [600.0]
