"""Papers of a real deck with a hatch, askew: ledges, the bench, where centres are from, screws."""

import csv
import io
import re
from functools import lru_cache

from attrs import evolve

import drylay
from drylay.papers.frame_text import screws_told
from drylay.papers.holding_text import frame_screws_told
from drylay.papers.jobsheet import jobsheet
from drylay.papers.outlined_frame import outlined_frame_svg
from drylay.papers.outlined_frame_text import outlined_frame_lines
from drylay.papers.outlined_panels import bench_told
from drylay.papers.tables import labels_csv
from drylay.plan.model import Plan
from outlined_gardens import STOCK
from papers import measured
from papers.framed import frame_sheets

ASKEW = ((150, 62, "house"), (4738, 398, "boundary"), (3927, 3943, "open"), (506, 3693, "boundary"))


@lru_cache
def askew() -> Plan:
    points = [{"along_mm": x, "across_mm": y, "side": side} for x, y, side in ASKEW]
    hatch = {"kind": "hatch", "along_mm": 2300, "across_mm": 1900, "size_along_mm": 350,
             "size_across_mm": 350}  # fmt: skip
    brief = {
        "title": "askew",
        "outline": {"points": points, "openings": [hatch]},
        "board": {"article": "DB-28-145"},
        "frame": {"article": "FT-45-145", "most_centres_mm": 400},
        "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90"},
        "joints": {"end_gap_mm": 4},
    }
    return drylay.design(drylay.read_brief(brief), stock=drylay.load_catalogue(STOCK))


def test_battens_are_told_from_the_ends_of_the_panels_boards() -> None:
    """By hand from the plan's places: boards at 0 degrees from their own line, so along alone."""
    plan = askew()
    assert plan.laying is not None
    assert plan.subframe is not None
    boards = [corner for piece in plan.laying.pieces if piece.kind == "hatch"
              for corner in piece.corners]  # fmt: skip
    left = min(corner.along_mm for corner in boards)
    near = min(corner.across_mm for corner in boards)
    far = max(corner.across_mm for corner in boards)
    (told,) = bench_told(plan, plan.subframe)
    for batten in plan.subframe.battens:
        assert f"{batten.mark} {batten.start.along_mm - left:g}" in told
        for spot in (batten.start, batten.end):
            inside = min(spot.across_mm - near, far - spot.across_mm)
            assert f" {inside:g} " in told
    # half of an end gap of 4
    assert "each end 2 short of its hole" in told
    assert told in re.sub(r"<[^>]+>", "", jobsheet(plan).decode()).replace("&#x27;", "'")


def test_ledges_are_called_so_on_every_list() -> None:
    plan = askew()
    assert plan.subframe is not None
    rows = list(csv.DictReader(io.StringIO(labels_csv(plan).decode("utf-8-sig"))))
    text = " ".join(outlined_frame_lines(plan))
    marks = re.search(r"ledge \S+ mm: (\S+ \S+)", text)
    assert marks is not None
    named = [row for row in rows if "ledge" in " ".join(row.values())]
    assert sorted(re.findall(r"U\d", " ".join(next(iter(r.values())) for r in named))) == sorted(
        marks[1].split()
    )


def test_centres_on_the_drawing_of_a_deck_askew_are_from_the_first_peg() -> None:
    plan = askew()
    assert plan.work is not None
    assert plan.subframe is not None
    svg = outlined_frame_svg(plan)
    words = [text.text or "" for text in measured.texts(svg)]
    start = plan.work.setting_out.pegs[0].along_mm
    assert start > 100
    assert f"J1: {plan.subframe.lines_mm[0] - start:g}" in words
    assert "P1" in words
    assert any("counted from peg P1" in word for word in words)
    assert measured.overlapping(svg) == []


def test_a_minus_is_explained_where_joists_stand_to_the_left_of_the_first_peg() -> None:
    """P1 stands at the house, which begins 2000 to the right of the deck's first corner here."""
    plan = askew()
    assert plan.work is not None
    out = plan.work.setting_out
    pegs = (evolve(out.pegs[0], along_mm=out.pegs[0].along_mm + 2000), *out.pegs[1:])
    moved = evolve(plan, work=evolve(plan.work, setting_out=evolve(out, pegs=pegs)))
    for told, wanted in ((plan, False), (moved, True)):
        text = " ".join(outlined_frame_lines(told))
        assert ("Minus: to the left of P1." in text) is wanted
    svg = outlined_frame_svg(moved)
    assert b"Minus: to the left of P1." in svg


def test_every_batten_is_marked_however_close_they_stand() -> None:
    plan = askew()
    assert plan.subframe is not None
    first = plan.subframe.battens[0]
    battens = tuple(
        evolve(first, mark=f"Q{number + 1}", **{
            name: evolve(spot, along_mm=spot.along_mm + 61 * number)
            for name, spot in (("start", first.start), ("end", first.end))
        })
        for number in range(7)
    )  # fmt: skip
    crowded = evolve(plan, subframe=evolve(plan.subframe, battens=battens))
    pages = frame_sheets(crowded)
    marks = [mark for svg in pages for mark in measured.words(svg, "detail-marks-battens")]
    assert sorted(marks) == [batten.mark for batten in battens]
    assert [measured.overlapping(svg) for svg in pages] == [[]] * len(pages)


def test_ends_are_told_by_what_they_are() -> None:
    """By hand: four rims, all mitred; noggins between joists have two ends each."""
    plan = askew()
    assert plan.subframe is not None
    noggins = sum(member.kind == "noggin" for member in plan.subframe.members)
    told = frame_screws_told(plan)
    assert f"2 at each of {2 * noggins} noggin ends and 4 mitred corners of rims" in told
    coach = screws_told(plan)[-1]
    assert "corners" not in coach
    assert "On crossing" not in coach
    assert "On side E1 to E4" in coach
