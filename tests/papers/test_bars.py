"""The bars measured: every piece on exactly one of them, every length drawn to scale."""

from collections import Counter

import pytest
from attrs import evolve, frozen

from drylay.papers.bars import bars_svg
from drylay.plan.model import Plan
from papers import measured
from papers.test_drawings import CASES, scale_of
from plan.made import example, plans, sawn_only
from plan.sample import purchase_of, sample_plan

PLANS = {
    **{name: CASES[name] for name in ("small", "tiny", "example", "imperial", "narrow")},
    **{f"designed {n}": plan for n, plan in enumerate(plans()) if plan.buying},
}


@frozen(kw_only=True)
class Found:
    """A bar as read back: its box, its label, its pieces' boxes and which length gives which."""

    box: measured.Box
    label: str
    pieces: tuple[measured.Box, ...]
    lengths: dict[str, list[str]]


@pytest.fixture(params=PLANS, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return sawn_only(PLANS[request.param])


def found_bars(svg: bytes) -> list[Found]:
    """Put together what stands in the same column and under the same bar."""
    boxes = measured.rectangles(svg, "lengths")
    columns = sorted({box[0] for box in boxes})

    def under(x: float, y: float) -> measured.Box:
        column = max(at for at in columns if at <= x + 0.01)
        return max((b for b in boxes if b[0] == column and b[1] <= y), key=lambda b: b[1])

    pieces: dict[measured.Box, list[measured.Box]] = {box: [] for box in boxes}
    for piece in measured.rectangles(svg, "pieces"):
        pieces[under(piece[0], piece[1])].append(piece)
    texts: dict[measured.Box, list[str]] = {box: [] for box in boxes}
    for text in measured.group(svg, "marks"):
        place = under(float(text.get("x", "0")), float(text.get("y", "0")))
        texts[place] += (text.text or "").split()
    labels = measured.words(svg, "labels")
    return [
        Found(box=box, label=label, pieces=tuple(pieces[box]), lengths=_lengths(texts[box]))
        for box, label in zip(boxes, labels, strict=True)
    ]


def _lengths(words: list[str]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for word in words:
        if word.endswith(":"):
            found[word.removesuffix(":")] = []
        else:
            found[list(found)[-1]].append(word)
    return found


def pieces_told(svg: bytes) -> Counter[str]:
    bars = found_bars(svg)
    return Counter(mark for bar in bars for marks in bar.lengths.values() for mark in marks)


def test_every_piece_of_the_cut_list_stands_on_exactly_one_bar(plan: Plan) -> None:
    assert pieces_told(bars_svg(plan)) == Counter(list(plan.sizes_mm()))
    assert set(pieces_told(bars_svg(plan)).values()) == {1}


def test_every_length_bought_stands_at_one_bar_with_its_pieces_in_order(plan: Plan) -> None:
    bars = found_bars(bars_svg(plan))
    told = [length for bar in bars for length in bar.lengths.items()]
    bought = [length for part in plan.buying.purchases for length in part.lengths]
    assert sorted(told) == sorted((length.mark, list(length.pieces)) for length in bought)


def test_those_checks_see_a_piece_twice() -> None:
    svg = bars_svg(CASES["small"]).replace(b"DB2: B2.1", b"DB2: B1.1")
    assert pieces_told(svg)["B1.1"] == 2
    assert pieces_told(svg)["B2.1"] == 0


def test_the_label_says_how_many_and_how_long(plan: Plan) -> None:
    bought = {n.mark: n for part in plan.buying.purchases for n in part.lengths}
    for bar in found_bars(bars_svg(plan)):
        count, length = bar.label.split(" x ")
        assert int(count) == len(bar.lengths)
        for mark in bar.lengths:
            told_mm = measured.told_mm(length, plan.units)
            assert told_mm == pytest.approx(bought[mark].length_mm, abs=0.8)


def test_bars_and_pieces_are_to_scale_a_saw_cut_apart(plan: Plan) -> None:
    svg = bars_svg(plan)
    per_mm, near, sizes = scale_of(svg), scale_of(svg) * 0.003, plan.sizes_mm()
    bought = {n.mark: n for part in plan.buying.purchases for n in part.lengths}
    for bar in found_bars(svg):
        for length, marks in bar.lengths.items():
            left, _, wide, _ = bar.box
            assert wide * per_mm == pytest.approx(bought[length].length_mm, abs=near)
            at_mm = plan.buying.end_trim_mm
            for (x, _, piece, _), mark in zip(bar.pieces, marks, strict=True):
                assert (x - left) * per_mm == pytest.approx(at_mm, abs=near)
                assert piece * per_mm == pytest.approx(sizes[mark], abs=near)
                at_mm += sizes[mark] + plan.buying.kerf_mm


def test_equal_ways_of_cutting_are_drawn_once(plan: Plan) -> None:
    sizes = plan.sizes_mm()
    for part in plan.buying.purchases:
        ways = {(n.length_mm, tuple(sizes[m] for m in n.pieces), n.offcut_mm) for n in part.lengths}
        only = evolve(plan, buying=evolve(plan.buying, purchases=(part,)))
        assert len(found_bars(bars_svg(only))) == len(ways)


def test_what_is_left_lies_at_the_end_and_is_hatched() -> None:
    # docs/conventions.md: pieces, a saw cut for each, the offcut and both trims fill the length
    plan = sawn_only(example("long-terrace"))
    svg = bars_svg(plan)
    near = scale_of(svg) * 0.003
    offcuts = measured.rectangles(svg, "offcuts")
    assert offcuts
    assert len(measured.group(svg, "offcuts-hatch")) > len(offcuts)
    for box in offcuts:
        columns = [b.box for b in found_bars(svg) if b.box[0] < box[0] and b.box[1] == box[1]]
        x, _, wide, _ = columns[-1]
        left_mm = (x + wide - box[0] - box[2]) * scale_of(svg)
        assert left_mm == pytest.approx(plan.buying.end_trim_mm, abs=near)


def test_both_trimmed_ends_are_black() -> None:
    svg = bars_svg(sawn_only(example("long-terrace")))
    trims = measured.group(svg, "trims")
    assert len(trims) == 2 * len(found_bars(svg))
    assert {part.get("fill") for part in trims} == {"black"}
    # by hand: 5 mm of the 1:50 bar
    assert {float(part.get("width", "0")) for part in trims} == {5 / scale_of(svg)}


def test_lengths_to_saw_stand_under_the_bar_in_their_order() -> None:
    # by hand from docs/examples: the imperial deck's noggins, 8 ft with six of 14 3/8 in and five
    # cuts after the first of 1/8 in leave 96 - 6 x (14 3/8 + 1/8) = 9 in
    svg = bars_svg(example("imperial"))
    assert "saw 6 x 1 ft 2 3/8 in; offcut 9 in" in measured.words(svg, "saw")
    assert "6 x 1 ft 2 3/8 in" in measured.words(svg, "cuts")
    assert "use whole" in measured.words(svg, "saw")  # 16 ft boards on a deck of 16 ft


def test_ripped_rows_and_boards_sawn_long_are_said() -> None:
    plan = CASES["small"]
    *rows, last = plan.surface.rows
    surface = evolve(plan.surface, rows=(*rows, evolve(last, width_mm=97.0, ripped=True)))
    svg = bars_svg(evolve(plan, surface=surface,
                          pieces=evolve(plan.pieces, trim_allowance_mm=15.0)))  # fmt: skip
    told = " ".join(text.text or "" for text in measured.texts(svg))
    assert "Then rip: B4.1 to 97 mm; factory edge outwards, ripped edge sealed." in told
    assert "sawn off in one line after laying" in told


def many_ways(count: int) -> Plan:
    plan = sample_plan()
    wanted = [(piece.mark, piece.cut_mm) for piece in plan.pieces.pieces]
    part = purchase_of("boards", "RW28x145", wanted * count, "DB")
    lengths = tuple(evolve(n, mark=f"D{i}", offcut_mm=i / 10) for i, n in enumerate(part.lengths))
    return evolve(plan, buying=evolve(plan.buying, purchases=(evolve(part, lengths=lengths),)))


@pytest.mark.parametrize(
    ("count", "paper"), [(1, b"A4"), (4, b"A3"), (20, b"A1"), (200, b"2681 x")]
)
def test_many_ways_take_columns_and_larger_sheets(count: int, paper: bytes) -> None:
    svg = bars_svg(many_ways(count))
    assert b"true on " + paper in svg
    assert len(found_bars(svg)) == 4 * count
    assert measured.outside(svg) == []
    boxes = measured.rectangles(svg, "lengths")
    assert boxes[0][2] >= 90


def one_way(lengths: int, pieces: int) -> Plan:
    plan = sample_plan()
    part = purchase_of("boards", "RW28x145", [("B1.1", 10.0)] * lengths, "DB")
    marks = [tuple(f"N{n}.{i}" for i in range(pieces)) for n in range(lengths)]
    many = tuple(evolve(n, pieces=m) for n, m in zip(part.lengths, marks, strict=True))
    return evolve(plan, buying=evolve(plan.buying, purchases=(evolve(part, lengths=many),)))


@pytest.mark.parametrize(("lengths", "pieces"), [(2, 60), (900, 1), (40, 40)])
def test_one_way_of_very_many_lengths_or_pieces_is_told_whole(lengths: int, pieces: int) -> None:
    svg = bars_svg(one_way(lengths, pieces))
    assert len(pieces_told(svg)) == lengths * pieces
    assert set(pieces_told(svg).values()) == {1}
    assert measured.overlapping(svg) == []
    assert measured.outside(svg) == []


def test_an_edited_plan_is_drawn_all_the_same() -> None:
    plan = CASES["small"]
    first, *more = plan.buying.purchases
    strange = evolve(first.lengths[0], pieces=("X1", *first.lengths[0].pieces), offcut_mm=-7.0)
    edited = evolve(first, lengths=(strange, *first.lengths[1:]))
    svg = bars_svg(evolve(plan, buying=evolve(plan.buying, purchases=(edited, *more))))
    assert pieces_told(svg)["X1"] == 1
    empty = bars_svg(evolve(plan, buying=evolve(plan.buying, purchases=())))
    assert measured.outside(empty) == []
