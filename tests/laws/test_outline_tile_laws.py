"""Small decks of tiles on an outline: planned, audited with all witnesses, cover complete."""

import pytest

import drylay
from campaigns.outlines import cover_missed
from some_outline_tiles import some_outline_tiles
from tile_family import tile_families, yard

#: Seeds whose opening does not lie on so small a deck: the brief is refused.
REFUSED = frozenset({3, 15})


@pytest.mark.parametrize("seed", sorted(REFUSED))
def test_openings_off_the_deck_are_refused(seed: int) -> None:
    with pytest.raises(drylay.BriefError) as refused:
        some_outline_tiles(seed, most_mm=3_000)
    assert [each.path for each in refused.value.faults] == ["outline.openings[0]"]


@pytest.mark.parametrize("seed", sorted(set(range(20)) - REFUSED))
def test_planned_as_audited_and_nothing_left_bare(seed: int) -> None:
    brief = some_outline_tiles(seed, most_mm=3_000)
    plan = drylay.design(brief, stock=yard(), families=tile_families())
    if not plan.buildable:
        assert any(each.severity is drylay.Severity.STOP for each in plan.findings)
        assert plan.buying is None
        assert plan.tiles is None
        return
    report = drylay.audit(plan, brief=brief, stock=yard(), families=tile_families())
    assert [str(each) for each in report.findings if each.severity is drylay.Severity.STOP] == []
    assert not cover_missed(plan, seed)
