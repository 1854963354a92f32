"""Tables and words on decks that stand, read back and held against the plan's nouns."""

import csv
from io import StringIO
from itertools import pairwise

import pytest
from attrs import evolve

import drylay
from drylay.findings import Finding, Severity
from drylay.papers.jobsheet import jobsheet
from drylay.papers.loads import borne, force, spread, up_to_tenth, used
from drylay.papers.sheet_parts import DRAWINGS
from drylay.papers.standing_tables import FOOTINGS, POSTS, STRENGTH
from drylay.papers.summary import summary
from drylay.papers.wording import size
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.strength.model import BoardAsked, Screened, Section
from papers.read_html import Sheet
from papers.test_standing import CASES, case


@pytest.fixture(params=CASES, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return case(request.param)


def rows_of(plan: Plan, name: str) -> list[dict[str, str]]:
    text = drylay.papers(plan, only=name)[name].decode("utf-8")
    return list(csv.DictReader(StringIO(text, newline=""), strict=True))


def joined(text: str) -> str:
    return " ".join(text.split())


def said(plan: Plan) -> str:
    return joined(summary(plan))


def test_the_schedule_is_read_back_figure_for_figure(plan: Plan) -> None:
    rows, under = rows_of(plan, "posts.csv"), plan.footings.under
    for row, post, one in zip(rows, plan.raised.frame.schedule, under, strict=True):
        assert (row["mark"], row["bearer"], row["footing"]) == (post.mark, post.bearer, one.mark)
        figures = {
            "along_boards_mm": post.along_mm, "across_boards_mm": post.across_mm,
            "ground_mm": post.ground_mm, "top_mm": post.top_mm,
            "cut_below_datum_mm": post.cut_below_mm, "length_mm": post.length_mm,
            "whole_length_mm": post.whole_mm, "footing_size_mm": one.footing.size_mm,
            "footing_depth_mm": one.footing.depth_mm, "load_kn": one.footing.load_kn,
        }  # fmt: skip
        assert {name: float(row[name]) for name in figures} == figures
        assert row["height_class"] == post.height_class
        assert tuple(row["braces"].split()) == post.braces
        assert row["footing_shape"] == one.footing.shape


def test_footings_are_read_back_and_add_up(plan: Plan) -> None:
    rows = rows_of(plan, "footings.csv")
    for row, one in zip(rows, plan.footings.under, strict=True):
        assert (row["mark"], row["post"], row["kind"]) == (one.mark, one.post, one.footing.kind)
        for name in ("size_mm", "thickness_mm", "depth_mm", "load_kn", "carries_kn", "own_kn_m2"):
            assert float(row[name]) == getattr(one.footing, name)
        assert float(row["dead_kn"]) + float(row["live_kn"]) == float(row["load_kn"])
        assert row["soil_named"] == "no"
    assert sum(int(row["bags"]) for row in rows) == plan.footings.bags


def test_every_check_is_a_row_with_what_its_formula_takes(plan: Plan) -> None:
    rows = rows_of(plan, "strength.csv")
    checks = [check for screened in plan.strength.screened for check in screened.checks]
    for row, check in zip(rows, checks, strict=True):
        assert (row["member"], row["check"]) == (check.subject, check.name)
        assert (row["case"], row["formula"]) == (check.case, check.formula)
        assert (row["clause"], row["unit"]) == (check.source.clause, check.unit)
        figures = (check.measured, check.limit, check.utilisation_ratio)
        assert tuple(float(row[n]) for n in ("measured", "limit", "utilisation")) == figures
        told = dict(part.split(" = ") for part in row["inputs"].split("; "))
        assert {name: float(value) for name, value in told.items()} == dict(check.inputs)
        assert float(row["measured"]) / float(row["limit"]) == pytest.approx(
            float(row["utilisation"]), rel=1e-9
        )


def test_every_piece_has_a_label_that_says_where_it_goes(plan: Plan) -> None:
    rows = {row["mark"]: row for row in rows_of(plan, "labels.csv")}
    assert set(rows) == set(plan.sizes_mm())
    for piece in plan.raised.pieces:
        assert float(rows[piece.mark]["saw_length_mm"]) == piece.length_mm
    frame, near = plan.raised.frame, "left" if plan.surface.run == "along" else "house"
    for bearer in frame.bearers:
        row = rows[f"{bearer.mark}.2.1"]
        assert (row["kind"], row["width_mm"]) == ("bearer", "184.15")
        assert row["where"] == f"bearer {bearer.mark}, ply 2, part 1 from its {near} end"
    for post in frame.posts:
        assert rows[post.mark]["where"].startswith(f"under {post.bearer}, ")
        assert rows[post.mark]["width_mm"] == "139.7"
    for brace in frame.bracing.braces:
        assert rows[brace.mark]["where"].startswith(f"from {brace.post} to the ")
        assert rows[brace.mark]["width_mm"] == "145"  # the frame's timber


def test_an_input_may_be_a_text_or_none() -> None:
    plan = case("plain")
    first, *others = plan.strength.screened
    check = evolve(first.checks[0], inputs=(("wood", "=SP"), ("free_mm", None), ("plies", 2)))
    edited = evolve(
        plan, strength=evolve(plan.strength, screened=(evolve(first, checks=(check,)), *others))
    )
    assert rows_of(edited, "strength.csv")[0]["inputs"] == "wood = '=SP; free_mm = none; plies = 2"


def test_imperial_tables_have_feet_and_inches_that_no_spreadsheet_runs() -> None:
    row = rows_of(case("imperial"), "posts.csv")[0]
    assert list(row) == [
        name for column in POSTS
        for name in ([column, column.removesuffix("_mm") + "_ft_in"]
                     if column.endswith("_mm") else [column])
    ]  # fmt: skip
    assert "ft" in row["length_ft_in"]
    assert row["ground_ft_in"].startswith("~-") or row["ground_ft_in"].startswith("'-")
    exact = evolve(case("imperial").raised.frame.schedule[0], ground_mm=-914.4)
    frame = evolve(case("imperial").raised.frame, schedule=(exact,))
    plan = evolve(case("imperial"), raised=evolve(case("imperial").raised, frame=frame))
    assert rows_of(plan, "posts.csv")[0]["ground_ft_in"] == "'-3 ft"  # 3 x 304.8


def test_metric_tables_have_these_columns_alone() -> None:
    for name, columns in (("posts.csv", POSTS), ("footings.csv", FOOTINGS),
                          ("strength.csv", STRENGTH)):  # fmt: skip
        assert tuple(rows_of(case("plain"), name)[0]) == columns


def test_posts_without_footings_leave_those_cells_empty() -> None:
    plan = evolve(case("plain"), footings=None)
    assert "footings.csv" not in drylay.papers(plan)
    assert {row["footing"] for row in rows_of(plan, "posts.csv")} == {""}
    assert "Footings" not in said(plan)
    assert "FT1" not in drylay.papers(plan, only="posts.svg")["posts.svg"].decode()


def test_loads_are_never_told_too_small_nor_bearing_too_large() -> None:
    # 1 kN = 224.809 lbf and 1 kPa = 20.8854 lbf/ft2: NIST SP 811, appendix B, from memory
    assert force(1.0, "imperial") == "225 lb (1 kN)"
    assert force(6.7501, "metric") == "6.76 kN"
    assert spread(0.48, "imperial") == "11 lb/ft2 (0.48 kN/m2)"  # 10.02
    assert borne(75.0, "imperial") == "1566 lb/ft2 (75 kN/m2)"  # 1566.4
    assert borne(75.009, "metric") == "75 kN/m2"
    assert [used(ratio) for ratio in (0.8701, 1.0, 1.0001, 0.5)] == ["0.88", "1.00", "1.01", "0.50"]
    # 40 and 1500 lb/ft2 and 220 lb, turned into kN by whoever made the plan, are these again
    pound_kn, foot_m2 = 0.45359237 * 9.80665 / 1000, 0.3048**2
    assert spread(40 * pound_kn / foot_m2, "imperial").startswith("40 lb/ft2")
    assert borne(1500 * pound_kn / foot_m2, "imperial").startswith("1500 lb/ft2")
    assert force(220 * pound_kn, "imperial") == "220 lb (0.98 kN)"
    assert up_to_tenth(41.001) == "41.1"


def test_the_summary_tells_what_the_deck_stands_on(plan: Plan) -> None:
    text, frame = said(plan), plan.raised.frame
    assert "WHAT IT STANDS ON" in text
    for bearer in frame.bearers:
        assert f"{bearer.mark} {size(bearer.across_mm, plan.units)}" in text
    for row in frame.schedule:
        assert f"{row.mark} {size(row.whole_mm, plan.units)}" in text
    assert "Measure every post at its own foot before it is sawn" in text
    assert f"Soil: {plan.footings.soil}, taken to bear" in text
    assert f"{plan.footings.bags} x {plan.footings.bag}" in text
    assert max(map(len, summary(plan).splitlines())) <= 78


def test_how_the_point_load_is_shared_stands_first(plan: Plan) -> None:
    lines = summary(plan).splitlines()
    at = lines.index("STRENGTH")
    assert lines[at + 1].startswith(
        "- How the point load of 221 lb" if plan.units == "imperial"  # 220.3
        else "- How the point load of 0.98 kN"
    )  # fmt: skip
    told = " ".join(Sheet(jobsheet(plan)).parts["Strength"])
    assert told.index("How the point load") < told.index("Basis: US allowable stresses")


def test_each_kind_of_member_is_told_by_the_one_used_most() -> None:
    plan = case("plain")
    text = said(plan)
    by = {one.subject: max(check.utilisation_ratio for check in one.checks)
          for one in plan.strength.screened}  # fmt: skip
    bearers = [mark for mark in by if mark.startswith("BR")]
    worst = max(bearers, key=by.__getitem__)
    assert f"{worst}: {used(by[worst])} of 1" in text
    assert not any(f"{mark}: {used(by[mark])} of 1" in text for mark in bearers if mark != worst)
    assert "Within the screened limits: 9 members asked" in text
    joist, one, other, *posts = plan.strength.screened  # the second bearer first: it is used less
    turned = evolve(plan.strength, screened=(joist, other, one, *posts))
    assert f"{worst}: {used(by[worst])} of 1" in said(evolve(plan, strength=turned))
    assert "local code comes first, and a licensed engineer decides" in text


def test_what_is_not_within_the_limits_is_told_of_a_blocked_plan() -> None:
    plan = case("plain")
    first, *others = plan.strength.screened
    stop = Finding(code="STR-002", severity=Severity.STOP, subject="joists", message="too much",
                   source=Source(kind="assumption", title="a made-up stop"))  # fmt: skip
    bad = evolve(first, checks=(), stops=("no such wood in the tables",))
    over = evolve(plan.strength, screened=(bad, *others), most_ratio=1.2)
    text = said(evolve(plan, strength=over, findings=(stop,)))
    assert "NOT within the screened limits: 9 members asked, most used 1.20 of 1." in text
    assert "joists: not checked." in text
    assert "joists: no such wood in the tables." in text
    assert "strength.csv" not in text
    part = Sheet(jobsheet(evolve(plan, strength=over))).parts["Strength"]
    assert "no such wood in the tables" in " ".join(part)


def test_boards_and_ledgers_are_kinds_of_their_own() -> None:
    plan = case("plain")
    section = Section(breadth_mm=145.0, depth_mm=28.0)
    asked = BoardAsked(subject="boards", wood="C24", section=section, bay_mm=400.0, bays=3)
    check = evolve(plan.strength.screened[0].checks[0], subject="boards", name="bending")
    boards = Screened(basis="x", subject="boards", checks=(check,))
    strength = evolve(plan.strength, boards=(asked,),
                      screened=(*plan.strength.screened, boards))  # fmt: skip
    assert "boards: 0.88 of 1, bending" in said(evolve(plan, strength=strength))


def test_guards_and_steps_are_told(plan: Plan) -> None:
    text, guards, flight = said(plan), plan.guards, plan.steps.flight
    assert "GUARDS AND STEPS" in text
    for run, built in zip(guards.runs, guards.built, strict=True):
        assert f"Guard {run.mark}, " in text
        assert f"{built.posts} posts of " in text
        assert f"{built.pieces} balusters, widest gap " in text
    assert f"{flight.risers} equal risers of " in text
    assert ("The flight needs a handrail." in text) == flight.handrail
    assert "Stringers: first rise cut" in text
    assert "Whether stringers and treads carry is not screened." in text


def test_a_deck_that_needs_no_guard_and_one_riser_has_no_stringer() -> None:
    plan = case("plain")
    flight = evolve(plan.steps.flight, risers=1, treads=0, handrail=False)
    low = evolve(
        plan, guards=evolve(plan.guards, runs=(), built=()),
        steps=evolve(plan.steps, flight=flight),
    )  # fmt: skip
    text = said(low)
    assert "No edge needs a guard: one is needed over a drop of more than 600 mm" in text
    assert "1 equal riser of 200 mm" in text
    assert "No handrail is needed by the region's rules." in text
    assert "Stringers" not in text
    assert drylay.papers(low, only="edges.svg")["edges.svg"]


def test_guards_that_are_not_built_and_drops_that_nobody_knows() -> None:
    plan = case("plain")
    unknown = evolve(plan.guards.runs[0], drop_mm=None)
    text = said(evolve(plan, guards=evolve(plan.guards, runs=(unknown,), built=())))
    assert "greatest drop not known" in text
    assert "How they are built the brief does not tell: not planned." in text


def test_a_deck_free_of_the_house_and_jointed_bearers() -> None:
    text = said(case("24 posts"))
    assert "BR1 is jointed: ply 1 over its post" in text
    assert "No ledger: the deck stands free of the house." in said(case("across"))
    assert "set in concrete, 2 ft deep" in said(case("imperial"))
    # a leg of 500 is 707.1 long (Pythagoras), up to a 1/320; its long edge 145 more
    assert "Braces K1 K2" in said(case("steep"))
    assert "Long edge, as sawn: ~852.1 mm." in said(case("steep"))


def test_the_soil_and_frost_line_that_the_brief_names() -> None:
    plan = case("plain")
    named = evolve(plan.footings, soil_named=True, frost_mm=None)
    text = said(evolve(plan, footings=named))
    assert "the brief names none" not in text
    assert "no frost line was told" in text
    screws = evolve(plan.footings, bags=0)
    assert "Concrete in all" not in said(evolve(plan, footings=screws))


def test_the_job_sheet_has_the_parts_in_the_order_of_the_job(plan: Plan) -> None:
    page = jobsheet(plan).decode()
    heads = ["sheet-setting-out", "sheet-standing", "sheet-frame", "sheet-boards", "sheet-edges",
             "sheet-strength", "sheet-findings"]  # fmt: skip
    places = [page.index(f'id="{head}"') for head in heads if f'id="{head}"' in page]
    assert len(places) >= 6
    assert all(one < other for one, other in pairwise(places))
    sheet = Sheet(jobsheet(plan))
    assert sheet.wrongs == []
    files = [file for part, file, _, _ in DRAWINGS if part != "tiles"]
    assert sum(tag == "svg" for tag, _ in sheet.tags) == len(files)
    told = " ".join(text for part in sheet.parts.values() for text in part)
    for name in ("posts.svg", "standing.svg", "standing-front.svg", "edges.svg"):
        assert f"To scale on its own sheet: {name}." in told


def test_every_post_and_member_has_its_row_in_the_job_sheet(plan: Plan) -> None:
    rows = {part: [row[1:] for row in rows if row[0] != "Done"]  # after the boxes to tick
            for part, rows in Sheet(jobsheet(plan)).rows.items()}  # fmt: skip
    frame, under, guards = plan.raised.frame, plan.footings.under, plan.guards
    standing = [row[0] for row in rows["What it stands on"]]
    assert [mark for mark in standing if mark.startswith("PO")] == [p.mark for p in frame.posts]
    assert [mark for mark in standing if mark.startswith("FT")] == [one.mark for one in under]
    told = {row[0]: row[1] for row in rows["Strength"]}
    for screened in plan.strength.screened:
        worst = max(check.utilisation_ratio for check in screened.checks)
        assert float(told[screened.subject]) == pytest.approx(worst + 0.005, abs=0.00501)
    assert [row[0] for row in rows["Guards and steps"]] == [run.mark for run in guards.runs]


def test_a_plan_at_ground_level_has_none_of_these_parts() -> None:
    plan = case("plain")
    plain = evolve(plan, raised=None, strength=None, footings=None, guards=None, steps=None)
    assert not {"WHAT IT STANDS ON", "STRENGTH", "GUARDS AND STEPS"} & set(
        summary(plain).splitlines()
    )
    page = jobsheet(plain).decode()
    assert not [head for head in ("standing", "strength", "edges") if f'"sheet-{head}"' in page]


def test_a_deck_on_packers_may_have_its_strength_alone() -> None:
    plan = evolve(case("plain"), raised=None, footings=None, guards=None, steps=None)
    named = {"strength.csv", "posts.csv", "posts.svg", "footings.csv", "standing.svg", "edges.svg"}
    assert named & set(drylay.papers(plan)) == {"strength.csv"}
    assert "STRENGTH" in summary(plan).splitlines()
    assert Sheet(jobsheet(plan)).parts["Strength"]


def test_a_heavier_cover_is_told_beside_what_the_basis_takes() -> None:
    plain = case("plain")
    heavy = evolve(plain, strength=evolve(plain.strength, heavier_kn_m2=0.16325))
    assert "0.17 kN/m2 more, for the cover is heavier" in said(heavy)  # up, never down
    assert "for the cover is heavier" not in said(plain)
