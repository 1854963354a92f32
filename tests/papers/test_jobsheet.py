"""The job sheet: the whole job in its order, nothing that the plan does not say, no harm."""

import re
from decimal import Decimal
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

import drylay
from drylay.papers import html
from drylay.papers.amounts import filled
from drylay.papers.html import points, table, tag, words
from drylay.papers.jobsheet import jobsheet
from drylay.papers.section import section_svg
from drylay.papers.sheet_parts import DRAWINGS
from drylay.papers.summary import summary
from drylay.plan.model import Plan
from drylay.units import length_mm as read_mm
from papers.read_html import Sheet
from papers.test_hostile import NASTY, poisoned
from papers.test_summary import flat
from plan.made import example, plans
from plan.sample import blocked_plan, sample_plan

JOINTED = sample_plan(row_length_mm=6000.0, rows=4, sides=("front", "left"))
WHOLE = [JOINTED, sample_plan(run="across", rows=9, noggin_rows=2),
         *(plan for plan in plans() if plan.buildable)]  # fmt: skip
WORK = "The work, task by task"
ORDER_OF_THE_JOB = [
    "Taken on trust: check before you buy",
    "What to wear, and what can hurt",
    "Site",
    "What to buy",
    "What comes, and what it weighs",
    "What to cut",
    WORK,
    "The ground under the deck",
    "Setting out",
    "Frame",
    "Boards and joints, row by row",
    "Fixings",
    "Preserver and finish",
    "Findings",
    "Proof",
    "Within the screened limits; not checked",
]


@pytest.fixture(params=WHOLE, ids=lambda plan: plan.title, scope="module")
def plan(request: pytest.FixtureRequest) -> Plan:
    return request.param


@pytest.fixture(scope="module")
def sheet(plan: Plan) -> Sheet:
    return Sheet(jobsheet(plan))


def figures(text: str) -> set[str]:
    """Return the figures of a text: not those inside marks, articles and codes."""
    return set(re.findall(r"(?<![\w.-])~?(\d+(?:\.\d+)?)(?![\w-])(?!\.\d)", text))


def test_a_sheet_is_whole_and_well_nested(sheet: Sheet) -> None:
    assert sheet.wrongs == []
    assert [tag for tag, _ in sheet.tags][:3] == ["html", "head", "meta"]
    assert sheet.tags[0][1] == {"lang": "en"}
    assert sheet.tags[2][1] == {"charset": "utf-8"}
    assert sum(tag == "h1" for tag, _ in sheet.tags) == 1


def test_headings_come_in_the_order_of_the_job(sheet: Sheet) -> None:
    told = [text for rank, text in sheet.headings if rank == 2]
    assert told == [title for title in ORDER_OF_THE_JOB if title in told]
    unless_told = {ORDER_OF_THE_JOB[0], "Findings", "The ground under the deck",
                   "What comes, and what it weighs", "Preserver and finish", "Site"}  # fmt: skip
    assert set(ORDER_OF_THE_JOB) - set(told) <= unless_told


def test_nothing_is_fetched_and_nothing_runs(plan: Plan) -> None:
    held = jobsheet(plan).decode("utf-8")
    assert "<script" not in held
    assert "url(" not in held
    assert "@import" not in held
    assert set(re.findall(r"\w+://[^\s\"<]+", held)) == {"http://www.w3.org/2000/svg"}
    assert "default-src &#x27;none&#x27;" in held


def test_the_state_stands_first_and_what_was_not_checked_last(plan: Plan, sheet: Sheet) -> None:
    head = sheet.part("")
    assert head.startswith(f"{plan.title} Nothing stops this plan within the screened limits")
    assert list(sheet.parts)[-1] == ORDER_OF_THE_JOB[-1]
    for text in plan.not_checked:
        assert text in sheet.part(ORDER_OF_THE_JOB[-1])
    assert not re.search(r"\bsafe", sheet.text, re.IGNORECASE)


def test_a_named_persons_limit_qualifies_the_first_line() -> None:
    sheet = Sheet(jobsheet(JOINTED))
    assert "BUT FOR 1 limit that a named person overrode" in sheet.part("")
    assert "named person's override: A. Person, clay soil" in sheet.part(ORDER_OF_THE_JOB[0])


def test_every_caution_stands_before_the_job(plan: Plan, sheet: Sheet) -> None:
    for text in plan.cautions:
        assert flat(text) in sheet.part("What to wear, and what can hurt")


@pytest.mark.parametrize(
    ("part", "told"),
    [
        ("What to buy", "use coated outdoor screws"),
        (WORK, "Wear ear and eye protection and a dust mask at the saw"),
        (WORK, "two flood coats of end-grain preserver"),
        (WORK, "Never burn treated offcuts"),
        (WORK, "Treated timber from before 2006 that you take out"),
        (WORK, "keep joints off it"),
        (WORK, "Wet or green boards are slippery"),
        (WORK, "Copper treatments attack plain zinc"),
    ],
)
def test_a_caution_stands_again_where_it_bites(part: str, told: str) -> None:
    told_there = Sheet(jobsheet(example("garden"))).part(part)
    assert any(told in care for care in told_there.split("Take care here:")[1:])


def test_a_caution_that_bites_nowhere_in_particular_stands_at_the_front_alone() -> None:
    told = ("Mind the weather.", "Clean the see-through sawdustless tin.")
    plan = evolve(JOINTED, cautions=told, work=None)
    assert "Take care here" not in Sheet(jobsheet(plan)).text


def test_what_to_buy_is_the_order_with_its_totals(plan: Plan, sheet: Sheet) -> None:
    rows = [row for row in sheet.rows["What to buy"] if row[0] != "Done"]
    lines = [*plan.buying.order, *plan.buying.spares]
    for (_, article, title, many, each, together), line in zip(rows, lines, strict=True):
        assert (article, title) == (flat(line.article), flat(line.title))
        assert many.startswith(f"{line.quantity} x ")
        assert (Decimal(each), Decimal(together)) == (line.unit_price, line.total)
    assert sum((Decimal(row[-1]) for row in rows), Decimal(0)) == plan.buying.total
    total = f"Together: {plan.buying.total:f} {plan.buying.currency}."
    assert total in sheet.part("What to buy")


def test_every_length_is_told_with_its_pieces_in_the_order_of_the_cuts(
    plan: Plan, sheet: Sheet
) -> None:
    rows = [row for row in sheet.rows["What to cut"] if row[0] != "Done"]
    lengths = [length for part in plan.buying.purchases for length in part.lengths]
    for (_, mark, bought, cuts, left), length in zip(rows, lengths, strict=True):
        assert mark == length.mark
        told = [cut.split(": ") for cut in cuts.split("; ")]
        assert tuple(piece for piece, _ in told) == length.pieces
        assert close(bought, length.length_mm, plan.units)
        assert close(left, length.offcut_mm, plan.units)
        for piece, saw in told:
            assert close(saw.split(",")[0], plan.sizes_mm()[piece], plan.units)


def close(told: str, length_mm: float, units: str) -> bool:
    """Whether a length in words is what it is in mm: exactly, or to the last figure after ~."""
    unit = "" if units == "imperial" or told.endswith("mm") else " mm"
    off_mm = abs(read_mm(told.removeprefix("~") + unit, path="") - length_mm)
    return (
        off_mm <= (25.4 / 32 if units == "imperial" else 0.050001) if "~" in told else off_mm < 1e-6
    )


def test_ripped_pieces_are_told_at_the_saw_and_where_they_are_laid() -> None:
    sheet = Sheet(jobsheet(example("imperial")))
    assert sheet.text.count("rip to 4 7/16 in") == 2
    laid = sheet.rows["Boards and joints, row by row"]
    assert [row[1] for row in laid if "ripped" in row[1]] == [
        "B1, ripped to 4 7/16 in", "B26, ripped to 4 7/16 in",
    ]  # fmt: skip


def test_every_row_is_told_with_its_edges_and_pieces(plan: Plan, sheet: Sheet) -> None:
    lines = [row for row in sheet.rows["Boards and joints, row by row"] if row[0] != "Done"]
    for (_, mark, near, far, gap, laid), row in zip(lines, plan.surface.rows, strict=True):
        assert mark.split(",")[0] == row.mark
        assert close(near, row.near_mm, plan.units)
        assert close(far, row.near_mm + row.width_mm, plan.units)
        assert close(gap, row.gap_mm, plan.units) if row.gap_mm else gap == ""
        pieces = [piece for piece in plan.pieces.pieces if piece.row == row.mark]
        assert [part.split(":")[0] for part in laid.split(" | ")[::2]] == [p.mark for p in pieces]
        for part, piece in zip(laid.split(" | ")[::2], pieces, strict=True):
            assert close(part.split(": ")[1], piece.cut_mm, plan.units)
        joists = [joint.joist for joint in plan.pieces.joints if joint.row == row.mark]
        assert laid.split(" | ")[1::2] == joists


def test_every_joist_is_marked_from_the_rims_own_end_and_from_the_corner() -> None:
    """A fascia of 28 on the left: the first centre is 50.5 from the corner, 22.5 on the rim."""
    told = Sheet(jobsheet(example("garden"))).part("Frame")
    assert "J1 22.5 mm 50.5 mm J2 416 mm 444 mm" in told
    assert "On the rims, from their left end" in told
    alone = Sheet(jobsheet(example("imperial"))).part("Frame")
    assert "J1 3/4 in J2 1 ft 4 5/8 in" in alone
    assert "as drawn" not in alone


def test_every_noggin_has_its_place(plan: Plan, sheet: Sheet) -> None:
    for noggin in plan.frame.noggins:
        assert f"{noggin.mark}: {noggin.left} {noggin.right}" in sheet.part("Frame")


def test_it_says_only_what_the_plan_says() -> None:
    """Every figure is one of the summary's, a row's edge, a noggin's place or a frame's corner."""
    for plan in (JOINTED, example("garden"), example("long-terrace")):
        edges, near_mm = plan.edges, plan.frame.rims[0].near_mm
        more = {row.near_mm for row in plan.surface.rows}
        more |= {row.near_mm + row.width_mm for row in plan.surface.rows}
        more |= {noggin.across_mm - near_mm for noggin in plan.frame.noggins}
        more |= {edges.frame_start_mm, edges.frame_near_mm}
        known = figures(summary(plan)) | {f"{mm:.1f}".removesuffix(".0") for mm in more}
        for task in plan.work.tasks:
            texts = [*task.steps, *(hold.check for hold in task.holds), *task.cautions]
            known |= figures(" ".join(filled(text, plan) for text in texts))
        known |= figures(" ".join(tool.what for tool in plan.work.tools))
        lights = plan.work.lighting.lights if plan.work.lighting else ()
        known |= figures(
            " ".join(
                f"{at:.1f}" for light in lights for at in (light.along_mm, light.across_mm)
            ).replace(".0", "")
        )
        known |= {"0", "0.1"}  # the gap before the first row; how near a figure after ~ is
        sheet = Sheet(jobsheet(plan))
        told = figures(" ".join(sheet.part(part) for part in sheet.parts if part))
        assert told - known == set()


def test_that_check_sees_a_figure_of_our_own(monkeypatch: pytest.MonkeyPatch) -> None:
    from drylay.papers import sheet_build

    monkeypatch.setattr(sheet_build, "DATUM", "Dig 450 mm down.")
    with pytest.raises(AssertionError):
        test_it_says_only_what_the_plan_says()


def test_sentences_are_those_of_the_summary() -> None:
    for plan in (JOINTED, example("garden"), example("long-terrace")):
        sheet, told = Sheet(jobsheet(plan)), flat(summary(plan))
        for part in ("Fixings", "Findings"):
            drawn = " ".join(ET.fromstring(section_svg(plan)).itertext())
            items = [
                text
                for text in sheet.parts[part]
                if len(text) > 40 and text not in drawn and "Not to scale here" not in text
            ]
            assert items
            assert all(flat(text) in told or text in plan.cautions for text in items)


def test_drawings_are_in_the_sheet_and_said_not_to_be_to_scale(plan: Plan, sheet: Sheet) -> None:
    without = {"tiles", "standing", "edges"}  # there are none here
    files = [file for part, file, _, _ in DRAWINGS if part not in without]
    assert sum(tag == "svg" for tag, _ in sheet.tags) == len(files)
    assert sheet.text.count("Not to scale here: take no size off it.") == len(files)
    held = jobsheet(plan).decode("utf-8")
    for file in files:
        drawn = drylay.papers(plan, only=file)[file].decode("utf-8")
        assert drawn[drawn.index("<svg") :].strip() in held
    assert "svg { display: block; width: 100%;" in sheet.style


def test_where_the_frame_lies_in_the_cover_by_the_run_of_the_boards() -> None:
    """Fascia of 22 on the left only: the frame begins 22 from the left edge, 0 from the house."""
    for run in ("along", "across"):
        plan = sample_plan(run=run, rows=20, sides=("left",))
        rows = {row[1]: row[2] for row in Sheet(jobsheet(plan)).rows["Setting out"]}
        assert rows["Frame begins, from the cover's left edge"] == "22 mm"
        assert rows["Frame begins, from the cover's house edge"] == "0 mm"


@pytest.mark.parametrize(("units", "page"), [("metric", "A4"), ("imperial", "letter")])
def test_it_prints_on_the_paper_of_its_units(units: str, page: str) -> None:
    style = Sheet(jobsheet(sample_plan(units=units))).style
    assert f"@page {{ size: {page} portrait;" in style
    assert f"@page drawing {{ size: {page} landscape;" in style
    for told in ("tr, li, p, .care, .state, .task, figure { break-inside: avoid; }", "@media print",
                 "h1, h2, h3, caption { break-after: avoid; }", "width=device-width"):  # fmt: skip
        assert told in jobsheet(sample_plan(units=units)).decode("utf-8")


def test_it_is_black_on_white(plan: Plan) -> None:
    style = Sheet(jobsheet(plan)).style
    assert not re.findall(r"#[0-9a-f]{3,8}\b|rgb|hsl|grey|gray", style)
    assert set(re.findall(r"(?:color|background): (\w+)", style)) <= {"black", "white"}


def test_there_is_a_box_for_every_row_of_every_table(sheet: Sheet) -> None:
    boxes = sum(tag == "input" for tag, _ in sheet.tags)
    heads = sum(tag == "thead" for tag, _ in sheet.tags)
    assert boxes == sum(tag == "tr" for tag, _ in sheet.tags) - heads
    assert all(told.get("type") == "checkbox" for tag, told in sheet.tags if tag == "input")


def test_the_same_plan_gives_the_same_bytes(plan: Plan) -> None:
    assert jobsheet(plan) == jobsheet(evolve(plan))


@pytest.mark.parametrize("text", NASTY, ids=range(len(NASTY)))
def test_hostile_text_does_no_harm(text: str) -> None:
    sheet = Sheet(jobsheet(poisoned(text)))
    assert sheet.wrongs == []
    shown = flat(html.clean(text, 8))[:5]
    assert shown in sheet.text


def test_that_check_sees_a_text_that_gets_in_raw(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(html, "escape", str)
    assert Sheet(jobsheet(poisoned(NASTY[0]))).wrongs
    assert Sheet(jobsheet(poisoned(NASTY[1]))).wrongs


def test_a_plan_without_some_rooms_has_the_rest() -> None:
    rooms = ("surface", "pieces", "frame", "edges", "supports", "fixings")
    plan = evolve(JOINTED, **dict.fromkeys(rooms), cautions=(), findings=(), not_checked=())
    sheet = Sheet(jobsheet(plan))
    assert sheet.wrongs == []
    assert "anything that is not named above" in sheet.text
    assert ": ?" in sheet.part("What to cut")
    assert "Setting out" not in sheet.parts
    assert jobsheet(evolve(JOINTED, buying=None)) == b""


def test_a_blocked_plan_has_no_job_sheet() -> None:
    assert "jobsheet.html" not in drylay.papers(blocked_plan())
    assert "jobsheet.html" in drylay.papers(JOINTED)


def test_boards_that_run_long_are_told_where_they_are_laid() -> None:
    told = Sheet(jobsheet(example("long-terrace")))
    assert "TRIM IN LINE" in told.part("Boards and joints, row by row")
    assert "what is sawn off in one line after laying" in told.part("What to cut")


def test_pieces() -> None:
    assert words('<a href="x">&\n') == "&lt;a href=&quot;x&quot;&gt;&amp;"
    assert tag("p", words("a"), class_="x", data_label='"') == (
        '<p class="x" data-label="&quot;">a</p>'
    )
    assert points([]) == table("nothing", [("a", "text")], []) == ""
