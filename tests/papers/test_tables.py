"""The CSV papers, read back as a spreadsheet would and held against the plan."""

import csv
from decimal import Decimal
from io import StringIO

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

import drylay
from drylay.papers import spreadsheet
from drylay.papers.spreadsheet import defused, table_file, written
from drylay.papers.tables import CUTS, LABELS, ORDER, cuts_csv, labels_csv, order_csv
from drylay.plan.model import Plan
from drylay.units import length_mm as read_mm
from papers.test_hostile import NASTY, poisoned
from plan.made import example, plans, sawn_only
from plan.sample import blocked_plan, sample_plan

TABLES = ("cuts.csv", "labels.csv", "order.csv")
SAMPLE = sample_plan(row_length_mm=6000.0, rows=4, sides=("front", "left"))
WHOLE = [SAMPLE, *(plan for plan in plans() if plan.buildable)]
#: Written here from memory of what testers of spreadsheets look for, not taken from the code.
RUNS = ("=", "+", "-", "@", "\t", "\r", "\uff1d", "\uff0b", "\uff0d", "\uff20")


def rows_of(plan: Plan, name: str) -> list[dict[str, str]]:
    text = drylay.papers(plan, only=name)[name].decode("utf-8")
    return list(csv.DictReader(StringIO(text, newline=""), strict=True))


def hurt(text: str) -> str:
    """Return a text as a table should hold it, worked out apart from the code."""
    return f"'{text}" if text.startswith(RUNS) or text.lstrip().startswith(RUNS) else text


@pytest.mark.parametrize("plan", WHOLE, ids=lambda plan: plan.title)
def test_cuts_are_every_piece_of_every_length_in_the_order_of_the_cuts(plan: Plan) -> None:
    rows, sizes = rows_of(plan, "cuts.csv"), plan.sizes_mm()
    told = [
        (part.article, length, number + 1, mark)
        for part in plan.buying.purchases for length in part.lengths
        for number, mark in enumerate(length.pieces)
    ]  # fmt: skip
    assert len(rows) == len(told) == len({row["piece_mark"] for row in rows})
    for row, (article, length, number, mark) in zip(rows, told, strict=True):
        assert (row["bought_mark"], row["article"]) == (length.mark, article)
        assert (row["cut_number"], row["piece_mark"]) == (str(number), mark)
        assert float(row["bought_length_mm"]) == length.length_mm
        assert float(row["bought_offcut_mm"]) == length.offcut_mm
        assert float(row["saw_length_mm"]) == sizes[mark]


def test_only_pieces_of_ripped_rows_have_a_width_to_rip_to() -> None:
    plan = example("imperial")
    ripped = {row.mark: row.width_mm for row in plan.surface.rows if row.ripped}
    assert len(ripped) == 2
    told = {row["piece_mark"]: row["rip_to_mm"] for row in rows_of(plan, "cuts.csv")}
    assert {mark: float(mm) for mark, mm in told.items() if mm} == {
        f"{row}.1": width for row, width in ripped.items()
    }


@pytest.mark.parametrize("plan", WHOLE, ids=lambda plan: plan.title)
def test_every_piece_has_one_label(plan: Plan) -> None:
    rows = {row["mark"]: row for row in rows_of(plan, "labels.csv")}
    sizes = sawn_only(plan).sizes_mm()  # fabric is cut where it is laid: no label sticks on it
    assert set(rows) == set(sizes)
    assert len(rows_of(plan, "labels.csv")) == len(sizes)
    for mark, row in rows.items():
        assert float(row["saw_length_mm"]) == sizes[mark]
        assert float(row["width_mm"]) > 0
    for piece in plan.pieces.pieces:
        where = rows[piece.mark]["where"]
        assert f"row {piece.row}," in where
        assert (piece.from_joist or "end") in where
        assert (piece.to_joist or "end") in where
        assert rows[piece.mark]["kind"] == "board"
    kinds = {row["kind"] for row in rows.values()}
    assert kinds <= {"board", "rim", "joist", "noggin", "splice", "fascia"}


def test_where_pieces_go_in_words() -> None:
    """A fascia of 22 on the left: rims begin there, so the first centre of 44.5 is 22.5 on them.

    One row of noggins at half of 573 - 2 x 45 from the rim's inner face: 45 + 241.5 = 286.5,
    less half a joist for the first.
    """
    where = {row["mark"]: row["where"] for row in rows_of(SAMPLE, "labels.csv")}
    assert where["RA.1"] == "RA, from its left end 0 mm"
    assert where["J1"] == "between RA and RB, centre 22.5 mm from their left end"
    assert where["N1"] == "between J1 and J2, centre 264 mm from the outer face of RA"
    assert where["F-front.1"] == "front side"
    assert where["B1.1"].startswith("row B1, from the left end to J")
    assert where["B1.2"].endswith(" to the right end")
    across = {row["mark"]: row["where"] for row in
              rows_of(sample_plan(run="across", rows=9), "labels.csv")}  # fmt: skip
    assert across["B1.1"] == "row B1, from the house end to the front end"
    assert across["J1"] == "between RA and RB, centre 22.5 mm from their house end"


def test_a_noggin_is_measured_from_the_rim_where_a_fascia_lies_before_it() -> None:
    """A fascia of 22 on the house side moves rim and noggins by 22: the same 264 between them."""
    plan = sample_plan(row_length_mm=6000.0, rows=4, sides=("house", "left"))
    where = {row["mark"]: row["where"] for row in rows_of(plan, "labels.csv")}
    assert plan.frame.rims[0].near_mm == 22.0
    assert where["N1"] == "between J1 and J2, centre 264 mm from the outer face of RA"


def test_a_splice_is_labelled_from_the_end_of_its_rim() -> None:
    """9544 in pieces of 5365.5 and 4178.5; which rim begins with the long piece is all one."""
    plan = example("long-terrace")
    where = {row["mark"]: row["where"] for row in rows_of(plan, "labels.csv")}
    long, short = sorted(plan.frame.rims, key=lambda rim: -rim.pieces[0].length_mm)
    splices = {splice.rim: splice.mark for splice in plan.frame.splices}
    for rim, at in ((long, "5365.5"), (short, "4178.5")):
        assert where[splices[rim.mark]] == f"behind {rim.mark}, centre {at} mm from its left end"
        assert where[f"{rim.mark}.2"] == f"{rim.mark}, from its left end {at} mm"


@pytest.mark.parametrize("plan", WHOLE, ids=lambda plan: plan.title)
def test_the_order_adds_up_to_its_totals_and_to_the_plans(plan: Plan) -> None:
    rows = rows_of(plan, "order.csv")
    for kind, total in (("needed", plan.buying.order_total), ("spare", plan.buying.spares_total)):
        lines = [row for row in rows if row["kind"] == kind]
        added = sum((Decimal(row["total"]) for row in lines), Decimal(0))
        (told,) = [row["total"] for row in rows if row["kind"] == f"total {kind}"]
        assert added == Decimal(told) == total
        for row in lines:
            assert int(row["quantity"]) * Decimal(row["unit_price"]) == Decimal(row["total"])
            assert bool(row["length_mm"]) != bool(row["pack_count"])
    assert rows[-1]["kind"] == "total"
    assert rows[-1]["total"] == f"{plan.buying.total:f}"
    assert {row["currency"] for row in rows} == {plan.buying.currency}


def test_feet_and_inches_stand_beside_every_length_of_an_imperial_plan_only() -> None:
    for name, columns in (("cuts.csv", CUTS), ("labels.csv", LABELS), ("order.csv", ORDER)):
        assert tuple(rows_of(SAMPLE, name)[0]) == columns
        rows = rows_of(example("imperial"), name)
        lengths = [column for column in columns if column.endswith("_mm")]
        assert len(rows[0]) == len(columns) + len(lengths)
        for row in rows:
            for column in lengths:
                feet = row[column.removesuffix("_mm") + "_ft_in"].removeprefix("~")
                assert bool(feet) == bool(row[column])
                if feet:
                    assert abs(read_mm(feet, path="") - float(row[column])) <= 25.4 / 32


@pytest.mark.parametrize("name", TABLES)
def test_a_table_is_utf_8_with_the_line_ends_of_rfc_4180(name: str) -> None:
    held = drylay.papers(evolve(SAMPLE), only=name)[name]
    assert held == drylay.papers(SAMPLE, only=name)[name]
    assert not held.startswith(b"\xef\xbb\xbf")
    assert held.endswith(b"\r\n")
    assert held.count(b"\n") == held.count(b"\r\n") == len(held.splitlines())


@pytest.mark.parametrize("text", [*NASTY, *(f"{sign}1" for sign in RUNS), " =1", "a\r\n=b", '"'])
def test_hostile_text_goes_through_every_column(text: str) -> None:
    """Each cell that held the text holds it still, with an apostrophe where it would run."""
    plan = poisoned(text)
    marked = evolve(
        plan,
        buying=evolve(plan.buying, currency=text, purchases=tuple(
            evolve(part, lengths=tuple(evolve(length, mark=text, pieces=(text,))
                                       for length in part.lengths))
            for part in plan.buying.purchases)),
        pieces=evolve(plan.pieces, pieces=tuple(
            evolve(piece, mark=text, row=text, from_joist=text) for piece in plan.pieces.pieces)),
    )  # fmt: skip
    for column in ("bought_mark", "article", "piece_mark"):
        assert {row[column] for row in rows_of(marked, "cuts.csv")} == {hurt(text)}
    boards = [row for row in rows_of(marked, "labels.csv") if row["kind"] == "board"]
    assert {row["mark"] for row in boards} == {hurt(text)}
    assert all(row["where"].startswith(f"row {text}, from {text or 'the'}") for row in boards)
    order = rows_of(marked, "order.csv")
    lines = [row for row in order if row["quantity"]]
    for column in ("article", "title"):
        assert {row[column] for row in lines} == {hurt(text)}
    for column in ("currency", "vat"):
        assert {row[column] for row in order} == {hurt(text)}
    for name in TABLES:
        for row in rows_of(marked, name):
            assert not any(cell.startswith(RUNS) for cell in row.values())


def test_that_check_sees_a_text_that_would_run(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(spreadsheet, "defused", str)
    with pytest.raises(AssertionError):
        test_hostile_text_goes_through_every_column("=1+1")


@settings(max_examples=200, deadline=None)
@given(st.lists(st.text(), min_size=2, max_size=2))
def test_any_text_is_read_back(texts: list[str]) -> None:
    held = table_file(("a", "b"), [dict(zip("ab", texts, strict=True))], "metric").decode()
    ((_, _), told) = csv.reader(StringIO(held, newline=""), strict=True)
    for found, text in zip(told, texts, strict=True):
        assert found in (text, f"'{text}")
        assert not found.startswith(RUNS)


@given(st.integers(-3_200_000, 3_200_000).map(lambda count: count / 320))
def test_numbers_are_exact_and_never_touched(length_mm: float) -> None:
    assert float(written(length_mm)) == length_mm
    assert "e" not in written(length_mm)


@pytest.mark.parametrize(
    ("cell", "told"),
    [(None, ""), (3, "3"), (3000.0, "3000"), (0.003125, "0.003125"), (Decimal("14.40"), "14.40"),
     (-2.5, "-2.5"), (Decimal("-1.00"), "-1.00"), ("-2.5", "'-2.5"), ("'=1", "'=1")],
)  # fmt: skip
def test_cells(cell: object, told: str) -> None:
    assert written(cell) == told  # type: ignore[arg-type]


def test_half_a_sign_is_told_by_its_number() -> None:
    assert table_file(("a",), [{"a": "\ud800"}], "metric") == b"a\r\n\\ud800\r\n"


def test_plain_text_is_not_defused() -> None:
    for text in ("", "Board, 28 x 145", "'quoted'", "a=b", "1-2", "5 % off"):
        assert defused(text) == text


def test_a_blocked_plan_has_no_tables() -> None:
    assert not set(TABLES) & set(drylay.papers(blocked_plan()))
    blocked = evolve(SAMPLE, findings=blocked_plan().findings)
    assert not set(TABLES) & set(drylay.papers(blocked))


def test_a_plan_that_buys_nothing_has_no_cuts_and_no_order() -> None:
    plan = evolve(SAMPLE, buying=None)
    assert cuts_csv(plan) == order_csv(plan) == b""
    empty = evolve(plan, surface=None, pieces=None, frame=None, edges=None)
    assert labels_csv(empty) == b"mark,kind,saw_length_mm,width_mm,where,arrow_to\r\n"
