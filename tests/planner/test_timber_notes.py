"""The wood of frame and fascia: spruce takes little treatment, tannin wants stainless."""

import pytest
from attrs import evolve

import drylay
from drylay.findings import Severity
from planner.test_holding import brief, changed

SPRUCE = {"species": "Norway spruce"}


def test_a_frame_of_spruce_is_cautioned_unless_it_is_incised() -> None:
    """Treaters' trade text: spruce does not take treatment well, unless incised."""
    stock = changed("FT-45-145", **SPRUCE)
    plan = drylay.design(brief(), stock=stock)
    (caution,) = (finding for finding in plan.findings if finding.code == "MAT-008")
    assert caution.severity is Severity.CAUTION
    assert plan.buildable
    for other in ({"species": "redwood"}, {**SPRUCE, "treatment": "UC4, incised"}, {}):
        plain = drylay.design(brief(), stock=changed("FT-45-145", **other))
        assert "MAT-008" not in {finding.code for finding in plain.findings}


def test_the_audit_misses_the_caution_on_spruce() -> None:
    spruce = changed("FT-45-145", **SPRUCE)
    silent = drylay.design(brief(), stock=changed("FT-45-145"))
    assert "AUD-W95" in {f.code for f in drylay.audit(silent, stock=spruce).findings}
    assert "AUD-W95" not in {f.code for f in drylay.audit(silent, stock=changed("X")).findings}


@pytest.mark.parametrize(("species", "refused"), [("iroko", True), ("redwood", False)])
def test_a_fascia_rich_in_tannin_takes_no_galvanised_screws(species: str, refused: bool) -> None:
    """Common practice: stainless only in oak, iroko, chestnut, cedar and larch."""
    stock = changed("FA-28-145", species=species)
    screw = next(s.code for s in stock.screws if s.code == brief().fixings.fascia_screw)
    galvanised = changed(screw, metal="hot-dip galvanised")
    fascias = stock.fascias
    plan = drylay.design(brief(), stock=evolve(galvanised, fascias=fascias))
    stops = {finding.code for finding in plan.findings if finding.severity is Severity.STOP}
    assert ("FIX-021" in stops) == refused, stops
