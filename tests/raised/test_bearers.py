"""Bearer lines: laws measured from the places themselves, and cases worked by hand."""

from itertools import pairwise
from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.raised.bearers import bearer_lines
from drylay.raised.model import BearerLines
from raised.limits import limit

DEPTHS = st.integers(1200, 9000).map(lambda tenths: tenths + 0.1)


def lines(**changed: object) -> BearerLines:
    told = {"depth_mm": 4200.0, "bearer_mm": 90.0, "span": limit(2400.0), "end": limit(500.0),
            "back_ratio": 0.25, **changed}  # fmt: skip
    return bearer_lines(**told)  # type: ignore[arg-type]


def test_a_free_deck_worked_by_hand() -> None:
    # 4200 = 2 (a + 45) + 2 (s + 90), all used alike: 3930 = u (2 x 500 + 2 x 2400), u = 0.6776;
    # a = 338.8, s = 1626.2; the nearest mark for the first centre, 383.8, is 383.5
    found = lines()
    assert found.lines_mm == (383.5, 2100.0, 3816.5)
    assert found.spans_mm == (1626.5, 1626.5)
    assert found.ends_mm == (338.5, 338.5)


def test_a_deck_on_a_ledger_worked_by_hand() -> None:
    # 4200 = 45 + s + 90 + s + 90 + a: 3975 = u (2 x 2400 + 500), u = 0.75; s = 1800, a = 375
    found = lines(ledger_mm=45.0)
    assert found.lines_mm == (1890.0, 3780.0)
    assert (found.spans_mm, found.ends_mm) == ((1800.0, 1800.0), (375.0,))
    assert found.most_ratio == 0.75


def test_joists_between_bearers_worked_by_hand() -> None:
    # bearers close the frame: (4200 - 3 x 90) / 2 = 1965 clear
    found = lines(end=None)
    assert (found.lines_mm, found.spans_mm, found.ends_mm) == (
        (45.0, 2100.0, 4155.0), (1965.0, 1965.0), (),
    )  # fmt: skip


def test_the_beam_ten_feet_out_of_a_twelve_foot_deck_is_at_its_limits() -> None:
    # 12 ft: ledger 1.5 in, span 10 ft clear less the ledger and half the beam, cantilever 2 ft
    # from the beam's face: by hand, 144 - 1.5 - 3 - 24 = 115.5 in of clear span are left
    inch = 25.4
    found = lines(depth_mm=144 * inch, bearer_mm=3 * inch, ledger_mm=1.5 * inch,
                  span=limit(115.5 * inch), end=limit(24 * inch), units="imperial")  # fmt: skip
    assert found.lines_mm == pytest.approx([118.5 * inch])
    assert found.most_ratio == 1.0
    closer = limit(115.5 * inch - 0.1)
    assert lines(depth_mm=144 * inch, bearer_mm=3 * inch, ledger_mm=1.5 * inch, span=closer,
                 end=limit(24 * inch), units="imperial").line_count == 2  # fmt: skip


def test_what_was_turned_down_tells_its_figures() -> None:
    # two bearers: 3930 + 90 = 4020 = u (2 x 500 + 2400), u = 1.18: s = 2838, a = 591
    fewer, more = lines().turned_down
    assert (fewer.value, more.value) == (2, 4)
    assert "spans of 2838 mm over 2400" in fewer.because
    assert "free ends of 591 mm over 500" in fewer.because


def measured(found: BearerLines) -> tuple[list[float], list[float]]:
    """Return spans and free ends, clear of all that bears, from the places alone."""
    half = found.bearer_mm / 2
    spans = [b - a - found.bearer_mm for a, b in pairwise(found.lines_mm)]
    if found.ledger_mm is not None:
        spans.insert(0, found.lines_mm[0] - half - found.ledger_mm)
    ends = [found.depth_mm - found.lines_mm[-1] - half]
    if found.ledger_mm is None:
        ends.insert(0, found.lines_mm[0] - half)
    return spans, ends


@settings(max_examples=60)
@given(DEPTHS, st.sampled_from([None, 45.0]), st.floats(600, 4000), st.floats(0, 900),
       st.sampled_from([(None, 90.0), (0.25, 95.0), (0.25, 47.1)]))  # fmt: skip
def test_no_span_and_no_free_end_is_over_its_limit(
    depth: float, ledger: float | None, span: float, end: float, more: tuple[float | None, float]
) -> None:
    back, broad = more
    found = lines(depth_mm=depth, ledger_mm=ledger, span=limit(span), end=limit(end),
                  back_ratio=back, bearer_mm=broad)  # fmt: skip
    spans, ends = measured(found)
    near = 1 / 160  # lengths are counted in 1/320 mm, and so are the limits
    assert max(spans) <= span + near
    assert max(ends) <= end + near
    if back is not None:
        backs = [spans[-1]] if ledger else [spans[0], spans[-1]]
        assert all(a <= back * s + near for a, s in zip(ends, backs, strict=True))


@settings(max_examples=60)
@given(DEPTHS, st.floats(600, 4000), st.floats(0, 900))
def test_a_free_deck_is_its_own_mirror(depth: float, span: float, end: float) -> None:
    found = lines(depth_mm=depth, span=limit(span), end=limit(end)).lines_mm
    mirrored = [depth - at for at in reversed(found)]
    assert found == pytest.approx(mirrored, abs=1 / 160)


@settings(max_examples=60)
@given(st.integers(1200, 9000), st.integers(600, 4000))
def test_hung_joists_take_as_many_bearers_as_plain_division_says(depth: int, span: int) -> None:
    # n bearers and n - 1 clear spans: depth <= n 90 + (n - 1) span; within a few mm marks decide
    found = lines(depth_mm=float(depth), span=limit(float(span)), end=None)
    bays = ceil((depth - 90) / (span + 90))
    slack = bays * (span + 90) - (depth - 90)
    assert found.line_count == bays + 1 or (slack < 1 and found.line_count == bays + 2)


def test_limits_between_centres_are_not_those_between_faces() -> None:
    # 2490 between centres is 2400 clear, 545 from the centre is 500 from the face
    clear = lines()
    centres = lines(span=limit(2490.0, "centres"), end=limit(545.0, "centres"), back_ratio=None)
    assert clear.line_count == centres.line_count == 3
    assert centres.spans_mm == tuple(b - a for a, b in pairwise(centres.lines_mm))


@pytest.mark.parametrize(
    ("changed", "path"),
    [
        ({"depth_mm": 100.0}, "depth_mm"),
        ({"depth_mm": float("nan")}, "depth_mm"),
        ({"span": limit(0.0)}, "span.most_mm"),
        ({"span": limit(2400.0, "about")}, "span.measured"),
        ({"end": limit(-1.0)}, "end.most_mm"),
        ({"back_ratio": 2.0}, "back_ratio"),
        ({"more_lines": -1}, "more_lines"),
        ({"units": "feet"}, "units"),
        ({"ledger_mm": 0.0}, "ledger_mm"),
        ({"inset_mm": -1.0}, "inset_mm"),
        ({"inset_mm": 100.0, "end": None}, "inset_mm"),
        ({"inset_mm": 900.0}, "depth_mm"),
    ],
)
def test_what_cannot_be_used_is_named(changed: dict[str, object], path: str) -> None:
    with pytest.raises(InputError) as raised:
        lines(**changed)
    assert path in [fault.path for fault in raised.value.faults]
