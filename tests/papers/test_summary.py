"""The summary: everything a builder asks first, and nothing that is not in the plan."""

import re
from decimal import Decimal
from itertools import pairwise

import pytest
from attrs import evolve

from drylay.papers.layout import COLUMNS, table
from drylay.papers.summary import summary
from drylay.papers.trust_text import PERSON
from drylay.plan.model import Plan
from drylay.reasons import Inputs
from papers.test_wording import read_back
from plan.made import example, plans
from plan.sample import blocked_plan, sample_plan

JOINTED = sample_plan(row_length_mm=6000.0, rows=4, sides=("front", "left"))
TEXT = summary(JOINTED)
PAGE_LINES = 66  # common practice for A4 at 10 characters an inch, no source


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(
    "told",
    [
        "Sample deck",
        "Cover 6000 mm along the house, 595 mm away from it.",
        "That is 12 mm more than wished, across the rows",
        "4 rows of RW28x145, 145 mm wide, 28 mm thick, running along the house.",
        "Gaps 5 mm before B2 to B4. Allowed: 4 mm to 8 mm.",
        "Chosen: open or close the gaps. Why: way_out (common practice: softwood family, laying).",
        "- chosen: open or close the gaps: 4 rows, mean gap 5 mm, 400.00 EUR",
        "Not possible: - rip the last row: 5 rows",
        "(limit 400 mm)",
        "J1 44.5",
        "F-front 6000 mm in 2 pieces",
        "There are 4 joints.",
        "Each is centred on a joist, the ends 3 mm apart, so each bears 21 mm.",
        "Joints in neighbouring rows are staggered by 2 bays or more.",
        "136 deck screws DS5x70, 5 mm x 70 mm: 2 at each of 64 crossings and as many again at 4",
        "64 coach screws CS8x120",
        "Where a fascia covers them the heads are sunk 6 mm, in a hole wide enough for the washer.",
        "Reckoned with a saw cut of 4 mm.",
        "no order can cost less than 115.20 EUR; this one costs 115.20; gap 0.00",
        "proven by one set of worths",
        "Check it yourself: python check_proof.py",
        "note ROW-001 cover: the cover grows across the rows (12 mm)",
        "Wear a mask when sawing treated timber.",
        "VAT or sales tax: included.",
        "deck_screws: 136 needed, 10 wanted spare,",
    ],
)
def test_what_a_builder_asks_is_told(told: str) -> None:
    assert told in flat(TEXT)


def test_what_rests_on_trust_stands_near_the_top_the_named_person_first() -> None:
    head = TEXT.split("COVER AND ROWS")[0]
    first, *rest = flat(head).split(" - ")[1:]
    assert first == (
        "supports.most_centres_mm: 400 mm: most_centres_mm (named person's override: A. Person, "
        "clay soil)"
    )
    assert any("from memory: softwood family, spacing" in point for point in rest)


@pytest.mark.parametrize(
    ("inputs", "told"),
    [
        ((("otherwise", 300.0), ("otherwise_by", "a rule")), "400 mm instead of 300 mm (a rule):"),
        ((("otherwise", None), ("otherwise_by", "a rule not covered")),
         "400 mm instead of a rule not covered:"),
    ],
)  # fmt: skip
def test_an_override_names_what_it_replaces_and_qualifies_the_first_line(
    inputs: Inputs, told: str
) -> None:
    decisions = tuple(
        evolve(decision, inputs=inputs) if decision.source.kind == PERSON else decision
        for decision in JOINTED.reasons.decisions
    )
    plan = evolve(JOINTED, reasons=evolve(JOINTED.reasons, decisions=decisions), findings=())
    head = flat(summary(plan).split("COVER AND ROWS")[0])
    assert told in head
    assert "within the screened limits BUT FOR 1 limit that a named person overrode" in head


def test_an_override_that_only_tightens_does_not_qualify_the_first_line() -> None:
    """1200 between noggins instead of 1800: told as taken on trust, and nothing is looser."""
    text = flat(summary(example("long-terrace")))
    assert "BUT FOR" not in text
    assert "frame.noggin_spacing_most_mm: 1200 mm instead of 1800 mm (noggin spacing):" in text


def test_ripped_rows_are_told_where_they_are_sawn() -> None:
    text = flat(summary(example("imperial")))
    assert "Then rip: B1.1 to 4 7/16 in; B26.1 to 4 7/16 in; factory edge outwards" in text
    assert "26 x 16 ft: use whole" in text
    assert "Then rip" not in summary(example("garden"))


def test_a_size_is_never_broken_over_two_lines() -> None:
    """Neither "11 ft" over "5 1/2 in", nor a mark over its size, nor a number over its unit."""
    for name in ("garden", "long-terrace", "imperial"):
        frame = summary(example(name)).split("\nFRAME\n")[1].split("\nCUT LIST\n")[0]
        for line, after in pairwise(frame.splitlines()):
            assert not (re.search(r"\d$", line) and re.match(r" *(ft|in|mm)\b", after))
            assert not (re.search(r"\d ft$", line) and re.match(r" *\d", after))
            assert not (re.search(r"\bJ\d+$", line) and re.match(r" *[\d.]+,", after))
        assert "\N{NO-BREAK SPACE}" not in frame


def test_a_jointed_rim_is_marked_piece_by_piece() -> None:
    """J15 at 5563.5 from the rim's end, the joint at 5365.5: 198 on the second piece.

    9544 of timber comes cheapest as 5.4 m and 4.2 m, 5390 and 4190 without their ends, hence
    5365.5 and 4178.5 (J12 at 4376: 197.5); which rim begins with the long piece is all one.
    """
    plan = example("long-terrace")
    text = flat(summary(plan))
    long, short = sorted(plan.frame.rims, key=lambda rim: -rim.pieces[0].length_mm)
    assert f"On {long.mark}.2 alone, from its own left end: J15 198, J16 594," in text
    assert f"On {short.mark}.2 alone, from its own left end: J12 197.5, J13 593.5," in text


def test_the_first_line_is_unqualified_where_nobody_overrode() -> None:
    assert "BUT FOR" not in summary(example("garden"))


def test_a_plan_on_nobodys_trust_has_no_such_section() -> None:
    assert "TAKEN ON TRUST" not in summary(
        evolve(JOINTED, reasons=evolve(JOINTED.reasons, decisions=()))
    )


def test_what_was_not_checked_stands_at_the_end() -> None:
    last = TEXT.split("WITHIN THE SCREENED LIMITS; NOT CHECKED")[1]
    assert last == "\n- loads other than people\n- the ground\n"
    bare = summary(evolve(JOINTED, not_checked=()))
    assert bare.endswith("- anything that is not named above\n")
    assert "safe" not in TEXT


def cut_list(plan: Plan) -> str:
    text = summary(plan).split("CUT LIST")[1].split("\nORDER\n")[0]
    return re.sub(r"  Then rip: .*?(?=\n\S)", "", text, flags=re.DOTALL)


def test_every_piece_stands_once_in_the_cut_list() -> None:
    for plan in (JOINTED, *plans()):
        if plan.buildable:
            words = re.findall(
                r"\b(?:B\d+\.\d+|J\d+|N\d+|S\d+|G\d+|R[AB]\.\d+|F-\w+\.\d+)(?!\w)", cut_list(plan)
            )
            marks = [mark for part in plan.buying.purchases for length in part.lengths
                     for mark in length.pieces]  # fmt: skip
            assert sorted(words) == sorted(marks)


def test_pieces_of_one_kind_are_told_once() -> None:
    text = flat(cut_list(JOINTED))
    assert "T1 to T16: J1 J2 J3" in text
    two = JOINTED.buying.purchases[0]
    length = evolve(two.lengths[0], pieces=("B1.1", "B3.1", "B2.1", "B99.1"))
    odd = evolve(two, lengths=(length, *two.lengths[1:3], *two.lengths[4:]))
    plan = evolve(JOINTED, buying=evolve(JOINTED.buying, purchases=(odd,), end_trim_mm=5.0))
    text = flat(cut_list(plan))
    assert "+ ?, left" in text
    assert "5 mm trimmed off each end first" in text
    assert "DB1: B1.1 B3.1 B2.1 B99.1" in text


def test_the_order_adds_up_as_printed() -> None:
    for plan in (JOINTED, *plans()):
        if plan.buildable:
            part = summary(plan).split("\nORDER\n")[1].split("\nPROOF\n")[0]
            lines = re.findall(r"^ +\d+ x .* (\d+\.\d\d)$", part, re.MULTILINE)
            totals = dict(re.findall(r"^ +(order|spares|total) +(\d+\.\d\d) ", part, re.MULTILINE))
            assert sum(map(Decimal, lines)) == Decimal(totals["total"])
            assert Decimal(totals["order"]) + Decimal(totals.get("spares", "0")) == Decimal(
                totals["total"]
            )


def test_a_blocked_plan_says_so_first_and_offers_nothing_to_buy() -> None:
    text = summary(blocked_plan())
    assert text.index("BLOCKED") < text.index("stop FAM-001 RW28x145")
    for word in ("CUT LIST", "ORDER", "PROOF", "EUR"):
        assert word not in text


def test_a_blocked_plan_with_rooms_has_no_order_either() -> None:
    plan = evolve(JOINTED, findings=blocked_plan().findings)
    text = summary(plan)
    assert "COVER AND ROWS" in text
    assert "CUT LIST" not in text
    assert text.index("FINDINGS") < text.index("COVER AND ROWS")


def test_findings_come_worst_first() -> None:
    found = (*JOINTED.findings, *blocked_plan().findings)
    text = summary(evolve(JOINTED, findings=found))
    assert text.index("stop FAM-001") < text.index("note ROW-001")


def test_lines_fit_the_page_and_the_example_seven_pages() -> None:
    for plan in (JOINTED, blocked_plan(), *plans()):
        assert max(len(line) for line in summary(plan).splitlines()) <= COLUMNS
    assert len(summary(example("garden")).splitlines()) <= 7 * PAGE_LINES


def test_sizes_are_in_the_plans_own_units() -> None:
    text = summary(sample_plan(row_length_mm=3657.6, units="imperial"))
    assert "Cover 12 ft along the house" in text
    assert " mm" not in text.split("COVER AND ROWS")[1].split("CUT LIST")[0]


def test_other_turns_of_phrase() -> None:
    surface = JOINTED.surface
    rows = tuple(
        evolve(row, gap_mm=4.0 + n, ripped=n == 3)
        for n, row in enumerate(sample_plan(rows=8).surface.rows)
    )
    ways = tuple(evolve(way, kind="turn", run="across", rows=1, cover_change_mm=change)
                 for way, change in zip(surface.ways_out, (9.0, -9.0), strict=True))  # fmt: skip
    shrunk = evolve(surface, cover_change_mm=-7.0, rows=rows, remainder_mm=45.0, ways_out=ways)
    flush = evolve(JOINTED.fixings.coach_screws, sink_mm=0.0)
    plan = evolve(
        JOINTED, surface=shrunk, pieces=evolve(JOINTED.pieces, most_joints_per_row=1), findings=(),
        fixings=evolve(JOINTED.fixings, coach_screws=flush),
        edges=evolve(JOINTED.edges, faces=()),
        buying=evolve(JOINTED.buying, spares=(), vat="", packs=(), order=tuple(
            evolve(line, pack=None, length_mm=None) for line in JOINTED.buying.order)),
    )  # fmt: skip
    text = flat(summary(plan))
    assert "That is 7 mm less than wished" in text
    assert "Gaps 5 mm before B2; 6 mm before B3; 7 mm before B4;" in text
    assert "Ripped: B4 to 145 mm." in text
    assert "which leaves 45 mm" in text
    assert "turn the boards, boards away from the house: 1 row, cover 9 mm more" in text
    assert "cover 9 mm less" in text
    assert "a row has at most 1 joint." in text
    assert "No fascia." in text
    assert "Heads sunk" not in text
    assert "Spares" not in text


def test_as_wished_without_joints_or_way_out_reason() -> None:
    plan = sample_plan(rows=1)
    surface = evolve(plan.surface, cover_change_mm=0.0)
    kept = tuple(d for d in plan.reasons.decisions if d.path != "surface.way_out")
    purchases = tuple(evolve(p, joint_cost=Decimal("3.00")) for p in plan.buying.purchases)
    plan = evolve(plan, surface=surface, reasons=evolve(plan.reasons, decisions=kept), fixings=None,
                  buying=evolve(plan.buying, purchases=purchases))  # fmt: skip
    text = flat(summary(plan))
    assert "As wished." in text
    assert "No joints: every row is one board." in text
    assert "Gaps none." in text
    assert "Why:" not in text
    assert "FIXINGS" not in text
    assert "and 3.00 reckoned for joints" in text


def test_pieces_that_no_room_holds_are_told_without_a_size() -> None:
    text = summary(evolve(JOINTED, pieces=None, frame=None, edges=None))
    assert "4800 mm: saw ?" in text


def test_an_empty_table_has_no_lines() -> None:
    assert table([], "<>") == []


def test_boards_that_run_long_are_told_where_lengths_are_told() -> None:
    """20 mm stand over each edge: 9600 + 2 x 20 of board and 2 end gaps of 4 make 9632 sawn."""
    plan = example("long-terrace")
    text = flat(summary(plan))
    assert "TRIM IN LINE: outer pieces are sawn 20 mm too long at the deck's edge" in text
    assert "then saw each edge in one line" in text
    assert "Outer pieces of the boards are listed with what is sawn off" in cut_list(plan)
    for row in rows_told(plan).values():
        assert sum(lengths_of(row)) == 9_632.0
    assert "TRIM IN LINE" not in summary(example("garden"))


def rows_told(plan: Plan) -> dict[str, str]:
    """Return what the summary tells of each row, by mark."""
    told = flat(summary(plan).split("joints on the joist named:")[1].split("\nFIXINGS")[0])
    parts = re.findall(r"((?:B\d+[ ,]*(?:to )?)+): ([\d.]+(?: \| J\d+ \| [\d.]+)*)", told)
    return {mark: row for marks, row in parts for mark in read_back(marks)}


def lengths_of(row: str) -> list[float]:
    return [float(length) for length in re.sub(r"J\d+", "", row).replace("|", "").split()]


@pytest.mark.parametrize("name", ["garden", "long-terrace"])
def test_every_row_is_told_piece_by_piece(name: str) -> None:
    plan = example(name)
    told = rows_told(plan)
    assert set(told) == {row.mark for row in plan.surface.rows}
    for mark, row in told.items():
        pieces = [piece for piece in plan.pieces.pieces if piece.row == mark]
        assert lengths_of(row) == [piece.cut_mm for piece in pieces]
        joists = [joint.joist for joint in plan.pieces.joints if joint.row == mark]
        assert re.findall(r"J\d+", row) == joists


def test_joists_are_told_from_the_rims_own_end() -> None:
    """A fascia of 28 on the left: the first centre is 50.5 from the corner, 22.5 on the rim."""
    text = flat(summary(example("garden")))
    assert "Mark both rims from their left end" in text
    assert "before): J1 22.5," in text
    assert "from the cover's datum corner, as drawn: J1 50.5," in text
    assert "as drawn" not in flat(summary(example("imperial")).split("JOINTS")[0])


def test_heads_on_a_rim_without_fascia_are_told() -> None:
    text = flat(summary(example("garden")))
    assert "On the house side no fascia covers the rim: heads stand 7.5 mm proud" in text
    both = flat(summary(example("imperial")))
    assert "On the house and the front side no fascia covers the rim" in both


def test_a_joints_price_is_no_trust_where_no_joint_is_made() -> None:
    text = summary(example("imperial"))
    assert "what one joint is reckoned to cost" not in text
    assert " 0 joint" not in text


def test_a_rule_not_kept_has_its_figures() -> None:
    text = flat(summary(example("garden")))
    assert "not kept: cover may grow (would be 105 mm, limit 20 mm)" in text
