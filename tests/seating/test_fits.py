"""What is short on a fixed cover, and what each remedy by itself mends."""

import pytest
from attrs import evolve

from drylay.errors import InputError
from drylay.seating.fits import fits_on, with_guard
from drylay.seating.model import DeckSides, Door, Passage
from drylay.seating.pieces import allowances, usual_piece
from seating.own_check import wrongs

GUARDED = DeckSides(right="guard", front="guard", left="guard")
TABLE = evolve(usual_piece("dining table", "table"), may_turn=False)
BEHIND = (Passage(piece="table", side="front"),)


def test_what_is_short_is_told_with_what_mends_it() -> None:
    """3000 x 3000 is needed (1500 + 2 x 750; 900 + 2 x 750 + 600): 2760 is 240 short."""
    short = fits_on([TABLE], along_mm=3000, across_mm=2760, sides=GUARDED, passages=BEHIND)
    assert not short.fits
    assert (short.short_along_mm, short.short_across_mm) == (None, 240.0)
    (stop,) = short.findings
    assert str(stop) == (
        "stop SEA-001 cover: short by 240 across: extend the deck by 240 across "
        "(2760 against 3000 mm)"
    )
    assert [(r.kind, r.subject, r.by_mm) for r in short.remedies] == [("extend", "across", 240.0)]


def test_a_piece_that_may_not_turn_is_told_to() -> None:
    """Turned it takes 900 + 2 x 750 = 2400 by 3000, and the passage makes 3000 by 3000."""
    short = fits_on([TABLE], along_mm=2400, across_mm=3000, sides=GUARDED)
    assert [(r.kind, r.subject) for r in short.remedies] == [("extend", "along"), ("turn", "table")]
    turned = [evolve(TABLE, may_turn=True)]
    assert fits_on(turned, along_mm=2400, across_mm=3000, sides=GUARDED).fits


def test_an_open_edge_is_told_to_be_guarded() -> None:
    """With both ends open 3400 are needed; on 3200 a guard at either is enough."""
    short = fits_on([TABLE], along_mm=3200, across_mm=3000)
    assert short.short_along_mm == 200.0
    assert [r.message for r in short.remedies] == [
        "extend the deck by 200 along",
        "guard the right side",
        "guard the left side",
    ]
    for side in ("right", "left"):
        sides = with_guard(DeckSides(), side)
        assert fits_on([TABLE], along_mm=3200, across_mm=3000, sides=sides).fits


def test_a_layout_that_fits_is_one_and_comfort_is_told() -> None:
    pieces, sides = (TABLE,), DeckSides(doors=(Door(wide_mm=900, opens="sliding"),))
    least = fits_on(pieces, along_mm=3405, across_mm=3333, sides=sides, passages=BEHIND)
    assert least.fits
    assert least.layout is not None
    assert (least.layout.along_mm, least.layout.across_mm) == (3405, 3333)
    assert not wrongs(least.layout, pieces, sides, allowances(), BEHIND)
    assert [f.code for f in least.findings] == ["SEA-002"]
    roomy = fits_on(pieces, along_mm=4000, across_mm=5000, sides=sides, passages=BEHIND)
    assert roomy.findings == ()
    comfort = fits_on(pieces, along_mm=4000, across_mm=5000, sides=sides, level="comfortable")
    assert comfort.fits


def test_a_question_left_open_is_told() -> None:
    many = [usual_piece("dining table", f"T{n}") for n in range(4)]
    left = fits_on(many, along_mm=6500, across_mm=5000, most_nodes=3)
    assert not left.proven
    assert "SEA-003" in [f.code for f in left.findings]


def test_where_nothing_mends_it_that_is_told() -> None:
    short = fits_on([TABLE], along_mm=1000, across_mm=1000)
    assert (short.short_along_mm, short.short_across_mm, short.remedies) == (None, None, ())
    assert "no single change mends that" in short.findings[0].message


def test_a_cover_that_cannot_be_meant_is_refused() -> None:
    with pytest.raises(InputError, match="along_mm"):
        fits_on([TABLE], along_mm=float("nan"), across_mm=3000)
