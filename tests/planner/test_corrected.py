"""A plan corrected while laying: what stays, what changes, what is refused."""

from functools import cache

import pytest
from attrs import evolve

import drylay
from drylay.correcting.correct import correct
from drylay.correcting.model import ALL, Correction, EdgeReading, Laid, LaidSoFar
from drylay.errors import InputError, PlannerFault, UncoveredError
from drylay.papers.correcting_drawing import correction_svg
from drylay.papers.rod import rod_svg
from drylay.plan.model import Plan
from drylay.planner import corrected
from drylay.planner.corrected import correct_plan
from papers import measured
from plan.sample import blocked_plan

BRIEF = drylay.read_brief("docs/examples/garden.toml")
STOCK = drylay.load_catalogue("catalogs/hobbleden.toml")


@cache
def deck(name: str = "garden", stock: str = "hobbleden") -> Plan:
    brief = drylay.read_brief(f"docs/examples/{name}.toml")
    return drylay.design(brief, stock=drylay.load_catalogue(f"catalogs/{stock}.toml"))


def read(plan: Plan, rows: int, left_mm: float, right_mm: float, **told: object) -> EdgeReading:
    """A reading so far off the plan's own edges."""
    row = plan.surface.rows[rows - 1]
    far = row.near_mm + row.width_mm
    return EdgeReading(rows_laid=rows, left_mm=far + left_mm, right_mm=far + right_mm, **told)


def laid(plan: Plan) -> Laid:
    assert plan.laid is not None
    return plan.laid


def sum_mm(plan: Plan, name: str) -> float:
    rows = laid(plan).rows
    return sum(getattr(row, f"gap_{name}_mm") + getattr(row, f"width_{name}_mm") for row in rows)


def test_edge_and_rows_left_make_the_cover() -> None:
    after = correct_plan(deck(), read(deck(), 10, 3.0, 0.0), brief=BRIEF, stock=STOCK)
    reading = laid(after).readings[0].reading
    for name in ("left", "right"):
        end = getattr(reading, f"{name}_mm") + sum_mm(after, name)
        assert abs(end - after.surface.rows_depth_mm) <= 0.25
    assert after.surface == deck().surface
    assert after.buying == deck().buying
    assert laid(after).recut == ()


def test_history_is_kept_and_gaps_decided_count_as_set() -> None:
    first = correct_plan(deck(), read(deck(), 6, 2.0, -2.0))
    second = correct_plan(first, read(deck(), 11, 1.0, -1.0))
    one, two = laid(second).readings
    assert one == laid(first).readings[0]
    assert two.gaps_left_mm == (*one.gaps_left_mm, *one.to_set_left_mm[:5])
    assert len(laid(second).rows) == 9
    decided = [d.path for d in second.reasons.decisions if d.path.startswith("laid.")]
    assert len(decided) == len(set(decided))
    assert second.why("laid.rows[B12].gap_left_mm").path == "laid.most_change_mm"
    text = drylay.plan_to_json(second)
    assert drylay.plan_from_json(text) == second
    assert drylay.audit(second, brief=BRIEF, stock=STOCK).findings == ()


def test_boards_measured_stay_known_until_others_are() -> None:
    first = correct_plan(deck(), read(deck(), 4, 0.0, 0.0, widths_mm=(145.5,) * 10))
    second = correct_plan(first, read(deck(), 6, 0.0, 0.0))
    assert (laid(second).board_takes, laid(second).readings[1].left.more_mm) == (
        "boards measured", 0.5,
    )  # fmt: skip
    tight = correct_plan(second, read(deck(), 16, 0.0, 0.0, together_mm=4 * 144.5))
    last = correct_plan(tight, read(deck(), 18, -1.0, -1.0))
    assert laid(last).readings[-1].left.more_mm == -0.5


def test_rows_longer_by_the_frame_are_cut_again() -> None:
    longer = deck().surface.row_length_mm + 6.0
    cut = tuple(p.mark for p in deck().pieces.pieces if p.row in {"B12", "B13"})
    after = correct_plan(deck(), read(deck(), 11, 0.0, 0.0, row_length_mm=longer, cut=cut))
    boards, fascia = laid(after).recut
    ends = {p.mark for p in deck().pieces.pieces if not p.to_joist and int(p.row[1:]) > 11}
    assert {piece.mark for piece in boards.pieces} == ends
    assert {piece.now_mm - piece.was_mm for piece in boards.pieces} == {6.0}
    assert {p.mark for p in boards.pieces if p.do == "shed"} == ends & set(cut)
    sawn = [mark for board in boards.boards for mark in board.pieces]
    left = {p.mark for p in deck().pieces.pieces if int(p.row[1:]) > 11}
    assert sorted(sawn) == sorted(left - set(cut) | (ends & set(cut)))
    assert boards.purchase.gap == 0
    assert [piece.mark for piece in fascia.pieces] == ["F-front.2"]


def test_shorter_rows_are_trimmed_and_nothing_is_cut_again() -> None:
    shorter = deck().surface.row_length_mm - 6.0
    after = correct_plan(deck(), read(deck(), 11, 0.0, 0.0, row_length_mm=shorter, cut=ALL))
    assert all(recut.boards == () and recut.purchase is None for recut in laid(after).recut)
    assert {piece.do for recut in laid(after).recut for piece in recut.pieces} == {"trim"}
    assert {piece.trim_mm for recut in laid(after).recut for piece in recut.pieces} == {6.0}


@cache
def ripped() -> Plan:
    """Seven rows over 1000 mm, the last of them ripped: 6 x 145 and 6 gaps of 5 leave 100."""
    brief = BRIEF.replace("cover.along_mm", 5000).replace("cover.across_mm", 1000)
    brief = brief.replace("rows.prefer", ["rip_last"]).replace("lights", {})
    return drylay.design(brief, stock=STOCK)


def strips(plan: Plan) -> set[str]:
    last = plan.surface.rows[-1]
    assert last.ripped
    return {piece.mark for piece in plan.pieces.pieces if piece.row == last.mark}


def test_a_strip_that_is_too_narrow_now_yields_no_whole_board() -> None:
    plan = ripped()
    after = correct_plan(plan, read(plan, 5, -8.0, -8.0, cut=tuple(strips(plan))))
    (recut,) = laid(after).recut
    assert {piece.mark for piece in recut.pieces if piece.do == "shed"} == strips(plan)
    assert strips(plan).isdisjoint(board.stock for board in recut.boards)


def test_a_strip_short_by_less_than_half_a_step_is_kept() -> None:
    """0.2 mm of 0.25: a gap takes it."""
    plan = ripped()
    after = correct_plan(plan, read(plan, 6, -0.2, -0.2, cut=tuple(strips(plan)),
                                    together_mm=145.0))  # fmt: skip
    assert all(piece.do != "shed" for recut in laid(after).recut for piece in recut.pieces)


def test_boards_measured_together_are_whole_before_one_is_ripped() -> None:
    plan = ripped()
    after = correct_plan(plan, read(plan, 3, 0.0, 0.0, together_mm=4 * 145.0))
    end = laid(after).readings[-1].left
    assert (end.more_mm, end.off_mm) == (0.0, 0.0)


@pytest.mark.parametrize("told", [
    {"together_mm": 5000.0}, {"together_mm": 10.0}, {"row_length_mm": 300.0},
    {"row_length_mm": 0.0}, {"row_length_mm": float("nan")}, {"row_length_mm": "6"},
    {"target_left_mm": 100.0}, {"target_right_mm": float("inf")},
], ids=str)  # fmt: skip
def test_a_size_that_cannot_be_meant_is_a_fault(told: dict[str, object]) -> None:
    with pytest.raises(drylay.InputError) as refused:
        correct_plan(deck(), read(deck(), 10, 0.0, 0.0, **told))
    assert {fault.path for fault in refused.value.faults} == set(told)


def test_lengths_off_the_grid_are_kept_to_the_nearest_of_it() -> None:
    """3040.123456 mm lie nearest to 972,840 / 320 = 3040.125 mm."""
    after = correct_plan(deck(), read(deck(), 10, 0.0101, 0.0, target_right_mm=3040.123456))
    assert laid(after).readings[-1].target_right_mm == 3040.125


@pytest.mark.parametrize("edge_mm", [float("nan"), float("inf"), -5.0, "1500"])
def test_an_edge_that_is_none_is_a_fault(edge_mm: object) -> None:
    with pytest.raises(drylay.InputError):
        correct_plan(deck(), evolve(read(deck(), 10, 0.0, 0.0), left_mm=edge_mm))


@pytest.mark.parametrize("rows", [10.0, "10", True, None])
def test_a_row_count_that_is_none_is_a_fault(rows: object) -> None:
    reading = evolve(read(deck(), 10, 0.0, 0.0), rows_laid=rows)
    with pytest.raises(drylay.InputError) as refused:
        correct_plan(deck(), reading)
    assert [fault.path for fault in refused.value.faults] == ["rows_laid"]


def board_pieces(plan: Plan, rows: int) -> tuple[str, ...]:
    """Return the pieces of the rows not laid after so many that end at the deck's edge."""
    lie = {row.mark for row in plan.surface.rows[:rows]}
    return tuple(p.mark for p in plan.pieces.pieces if p.row not in lie)


def test_what_was_cut_as_corrected_is_as_long_as_corrected() -> None:
    """6 mm longer after row 5, all cut so; after row 10 nothing is to be done about it."""
    longer = deck().surface.row_length_mm + 6.0
    first = correct_plan(deck(), read(deck(), 5, 0.0, 0.0, row_length_mm=longer))
    cut = board_pieces(deck(), 10)
    second = correct_plan(first, read(deck(), 10, 0.0, 0.0, cut=cut))
    told = [p for r in laid(second).recut if r.what == "boards" for p in r.pieces]
    assert told == []
    assert not [f for f in second.findings if f.code == "COR-009" and f.subject == "boards"]


def test_what_was_cut_shorter_as_corrected_is_too_short_when_that_is_taken_back() -> None:
    planned = deck().surface.row_length_mm
    first = correct_plan(deck(), read(deck(), 5, 0.0, 0.0, row_length_mm=planned - 6.0))
    cut = board_pieces(deck(), 10)
    second = correct_plan(first, read(deck(), 10, 0.0, 0.0, cut=cut, row_length_mm=planned))
    told = {p.mark: (p.was_mm, p.now_mm, p.do) for r in laid(second).recut for p in r.pieces
            if r.what == "boards"}  # fmt: skip
    assert told
    assert all(was == now - 6.0 and do == "shed" for was, now, do in told.values())


def test_a_frame_that_ends_elsewhere_is_aimed_at() -> None:
    aimed = deck().surface.rows_depth_mm + 4.0
    after = correct_plan(deck(), read(deck(), 5, 0.0, 0.0, target_right_mm=aimed))
    later = correct_plan(after, read(deck(), 8, 0.0, 1.0))
    assert laid(later).readings[1].target_right_mm == aimed
    end = laid(later).readings[1].reading.right_mm + sum_mm(later, "right")
    assert abs(end - aimed) <= 0.25


def test_clips_leave_the_last_rip_and_a_border_its_ranges() -> None:
    clipped = deck("composite", "sallowby")
    after = correct_plan(clipped, read(clipped, 5, 1.0, 1.0))
    assert {row.gap_left_mm for row in laid(after).rows} == {clipped.surface.gap_least_mm}
    assert "COR-006" in {finding.code for finding in after.findings}
    left = laid(after).readings[0].left
    assert left.by_rule.sd_mm == left.as_set.sd_mm  # no rule helps where no gap can be set
    bordered = deck("border", "sallowby")
    after = correct_plan(bordered, read(bordered, 5, 1.0, -1.0))
    assert drylay.audit(after).findings == ()


REFUSED = {
    "a blocked plan": blocked_plan,
    "an outline": lambda: evolve(deck(), surface=None),
    "tiles": lambda: deck("tiles-on-pads", "sallowby"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_gaps_cannot_correct_is_refused(name: str) -> None:
    with pytest.raises(UncoveredError):
        correct_plan(REFUSED[name](), EdgeReading(rows_laid=2, left_mm=300.0, right_mm=300.0))


def test_every_fault_of_a_reading_is_told() -> None:
    first = correct_plan(deck(), read(deck(), 6, 0.0, 0.0))
    bad = read(deck(), 6, 0.0, 0.0, cut=("B99.1",))
    other = evolve(BRIEF, title="Another"), evolve(STOCK, name="another")
    with pytest.raises(InputError) as caught:
        correct_plan(first, bad, brief=other[0], stock=other[1])
    assert {fault.path for fault in caught.value.faults} == {
        "rows_laid", "cut[0]", "brief", "stock",
    }  # fmt: skip
    with pytest.raises(InputError, match="row count wrong"):
        correct_plan(first, read(deck(), 10, 152.0, 152.0))


def test_a_correction_that_the_audit_stops_is_a_fault_of_ours(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def wrong(so_far: LaidSoFar) -> Correction:
        found = correct(so_far)
        first = evolve(found.rows[0], gap_left_mm=found.rows[0].gap_left_mm + 0.5)
        return evolve(found, rows=(first, *found.rows[1:]))

    monkeypatch.setattr(corrected, "correct", wrong)
    with pytest.raises(PlannerFault, match="AUD-134"):
        correct_plan(deck(), read(deck(), 10, 0.0, 0.0))


def test_the_rod_and_the_picture_tell_rows_left() -> None:
    after = correct_plan(deck(), read(deck(), 15, 3.0, -1.0))
    lines = measured.cells(rod_svg(after), "left")
    assert [line[0] for line in lines] == [row.mark for row in laid(after).rows]
    assert [float(line[1]) for line in lines] == [row.gap_left_mm for row in laid(after).rows]
    assert [float(line[2]) for line in lines] == [row.gap_right_mm for row in laid(after).rows]
    picture = correction_svg(after).decode()
    assert picture == correction_svg(after).decode()
    assert picture.count("<circle") == 2
    assert "corrected after row 15" in picture
    assert correction_svg(deck()) == b""
