"""What holds the frame, as whole plans tell it: counted, bought, and stopped where it fails."""

import functools
from itertools import pairwise
from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import Brief
from drylay.errors import BriefError
from drylay.findings import Severity
from drylay.materials.model import RuleQuery
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.plugins.loading import installed_families
from drylay.reasons import Ruling, Source

ROOT = Path(__file__).parents[2]
KINDS = ("boards", "timbers", "fascias", "screws", "coach_screws", "hangers")


@functools.cache
def yard() -> Catalogue:
    return drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")


def changed(code: str, **values: object) -> Catalogue:
    """Return the yard with one article changed."""
    kinds = {
        kind: tuple(
            evolve(each, **values) if each.code == code else each  # type: ignore[arg-type]
            for each in getattr(yard(), kind)
        )
        for kind in KINDS
    }
    return evolve(yard(), **kinds)


@functools.cache
def brief() -> Brief:
    """2400 x 1195: eight rows of 145 at 5, fascia on three sides, frame 2344 x 1167."""
    return drylay.read_brief({
        "title": "Step", "cover": {"along_mm": 2400, "across_mm": 1195},
        "board": {"article": "DB-28-145"}, "frame": {"article": "FT-45-145"},
        "fascia": {"sides": ["right", "front", "left"], "article": "FA-28-145"},
        "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90",
                    "fascia_screw": "WS-50-60", "hanger": "JH-45-108"},
    })  # fmt: skip


@functools.cache
def plan() -> Plan:
    return drylay.design(brief(), stock=yard())


def codes(built: Plan, severity: Severity = Severity.STOP) -> set[str]:
    return {finding.code for finding in built.findings if finding.severity is severity}


def test_all_is_counted_and_bought() -> None:
    """(2344 - 45) / 400 = 5.7, so 7 joists, 5 of them hung; 1167 - 90 = 1077 needs no noggins."""
    fixings = plan().fixings
    assert plan().buildable
    assert fixings is not None
    assert fixings.hangers is not None
    assert (fixings.hangers.count, fixings.hangers.screw_count) == (10, 120)
    assert (fixings.coach_screws.joist_ends, fixings.coach_screws.count) == (4, 8)
    assert plan().buying is not None
    bought = {pack.what: pack.need for pack in plan().buying.packs}
    assert bought["hangers"] == 10
    assert bought["hanger screws"] == 120
    assert "frame screws" not in bought  # neither noggins nor splices in so small a deck
    assert bought["fascia screws"] == 2 * len(fixings.fascia_screws.places)


def test_places_keep_the_limits() -> None:
    screws = plan().fixings.fascia_screws
    spots: dict[str, list[float]] = {}
    for place in screws.places:
        spots.setdefault(place.fascia, []).append(place.offset_mm)
    lengths = {p.mark: p.length_mm for face in plan().edges.faces for p in face.pieces}
    assert spots.keys() == lengths.keys()
    for mark, row in spots.items():
        assert all(0 < b - a <= 600 for a, b in pairwise(row))
        assert min(row[0], lengths[mark] - row[-1]) >= 40
    # by hand: 120 long, sunk 0 on the house side, half of 5: 122.5; 12 deeper at the front, on a
    # piece of 1167: 1167 - 134.5
    assert (spots["F-left.1"][0], spots["F-left.1"][-1]) == (122.5, 1032.5)


@pytest.mark.parametrize(
    ("key", "article", "code", "why"),
    [
        ("fixings.fascia_screw", "HS-50-40", "FIX-014", "40 is under 2 x 28"),
        ("fixings.fascia_screw", "DS-50-80", "FIX-015", "80 is over 28 + 45"),
        ("fixings.hanger", "JH-45-75", "FIX-018", "75 is under 0.6 x 145 = 87"),
    ],
)
def test_what_does_not_fit_stops(key: str, article: str, code: str, why: str) -> None:
    built = drylay.design(brief().replace(key, article), stock=yard())
    assert codes(built) == {code}, why
    assert not built.buildable


@pytest.mark.parametrize(
    ("article", "values", "code", "why"),
    [
        ("JH-45-108", {"joist_mm": 47.0}, "FIX-017", "2 over 45"),
        ("JH-45-108", {"joist_mm": 43.5}, "FIX-017", "1.5 under 45"),
        ("JH-45-108", {"depth_mm": 146.0}, "FIX-019", "146 is over 145"),
        ("JH-45-108", {"screw": "DS-45-60"}, "FIX-020", "60 is over 45"),
        ("WS-50-60", {"metal": "bright zinc"}, "FIX-021", "copper attacks zinc"),
        ("JH-45-108", {"metal": "plain steel"}, "FIX-021", "copper attacks steel"),
        ("DS-45-70", {"metal": "aluminium"}, "FIX-021", "no bare aluminium"),
        ("DB-28-145", {"use_class": 2}, "MAT-005", "boards of class 2"),
        ("FT-45-145", {"use_class": 3}, "MAT-005", "a frame of class 3"),
        ("FA-28-145", {"use_class": 2}, "MAT-005", "a fascia of class 2"),
    ],
)
def test_what_does_not_last_stops(
    article: str, values: dict[str, object], code: str, why: str
) -> None:
    built = drylay.design(brief(), stock=changed(article, **values))
    assert codes(built) == {code}, why


def test_a_hanger_a_millimetre_off_still_takes_the_joist() -> None:
    assert drylay.design(brief(), stock=changed("JH-45-108", joist_mm=46.0)).buildable


@pytest.mark.parametrize("exposure", ["coast", "pool"])
def test_by_salt_water_and_pools_only_a4(exposure: str) -> None:
    by_water = brief().replace("site.exposure", exposure)
    built = drylay.design(by_water, stock=yard())
    stops = [finding for finding in built.findings if finding.code == "FIX-021"]
    # deck, coach and fascia screws, hangers and their screws: none of them A4
    assert len(stops) == 5
    assert all("allowed here: stainless A4" in stop.message for stop in stops)
    a4 = yard()
    for kind in ("screws", "coach_screws", "hangers"):
        a4 = evolve(a4, **{kind: tuple(evolve(s, metal="stainless A4") for s in getattr(a4, kind))})
    assert drylay.design(by_water, stock=a4).buildable


def test_an_unknown_use_class_is_a_caution() -> None:
    built = drylay.design(brief(), stock=changed("FT-45-145", use_class=None))
    assert built.buildable
    (told,) = (finding for finding in built.findings if finding.code == "MAT-006")
    assert (told.subject, told.severity) == ("frame timber", Severity.CAUTION)
    assert "ask before you buy" in told.message
    assert drylay.audit(built).sound


#: EN 460, from memory: class 1 wood serves untreated in use class 4, class 2 in use class 3.
@pytest.mark.parametrize(
    ("article", "durable", "code"),
    [
        ("FT-45-145", None, "MAT-005"),
        ("FT-45-145", 2, "MAT-005"),
        ("FT-45-145", 1, "MAT-006"),
        ("DB-28-145", 3, "MAT-005"),
        ("FA-28-145", 2, "MAT-006"),
    ],
)
def test_timber_told_as_untreated_stops_unless_its_wood_lasts(
    article: str, durable: int | None, code: str
) -> None:
    bare = {"use_class": None, "treatment": "none, planed", "durability_class": durable}
    stock = changed(article, **bare)
    built = drylay.design(brief(), stock=stock)
    (told,) = (finding for finding in built.findings if finding.code.startswith("MAT-00"))
    assert told.code == code
    assert f"{article} is sold untreated" in told.message
    assert built.buildable == (code == "MAT-006")


def test_the_audit_sees_untreated_timber_that_the_planner_let_through() -> None:
    bare = changed("FT-45-145", treatment="untreated", use_class=None)
    silent = drylay.design(brief(), stock=changed("FT-45-145", use_class=None))
    found = {finding.code for finding in drylay.audit(silent, stock=bare).findings}
    assert "AUD-W39" in found
    lasting = changed("FT-45-145", treatment="untreated", use_class=None, durability_class=1)
    assert "AUD-W39" not in {f.code for f in drylay.audit(silent, stock=lasting).findings}


def test_untreated_timber_is_no_silent_fix_for_treated() -> None:
    stock = changed("FT-45-145", treatment="none", use_class=None)
    (timber,) = (each for each in stock.timbers if each.code == "FT-45-145")
    stock = evolve(stock, timbers=(evolve(timber, code="FT-45-145-R"),))
    with pytest.raises(BriefError) as caught:
        drylay.design(brief(), stock=stock)
    (fault,) = (f for f in caught.value.faults if f.path == "frame.article")
    assert "FT-45-145-R (sold untreated)" in fault.nearest


def test_a_frame_screw_too_short_stops() -> None:
    """2095 deep needs a row of noggins: 2067 - 90 = 1977, over 1800; 80 is under 2 x 45."""
    deep = brief().replace("cover.across_mm", 2095)
    built = drylay.design(deep, stock=yard())
    joists = len(built.frame.joists)
    assert built.fixings.frame_screws.count == 2 * 2 * (joists - 1)
    short = drylay.design(deep.replace("fixings.frame_screw", "DS-50-80"), stock=yard())
    assert codes(short) == {"FIX-013"}


def test_what_is_not_named_is_not_counted_and_told() -> None:
    bare = brief()
    for key in ("frame_screw", "fascia_screw", "hanger"):
        bare = bare.replace(f"fixings.{key}", None)
    built = drylay.design(bare, stock=yard())
    fixings = built.fixings
    assert (fixings.frame_screws, fixings.fascia_screws, fixings.hangers) == (None, None, None)
    assert "FIX-012" in codes(built, Severity.NOTE)
    assert [line for line in built.not_checked if "fascia_screw" in line]
    assert [line for line in built.not_checked if "frame_screw" in line]
    assert not [line for line in plan().not_checked if "fixings." in line]
    assert fixings.coach_screws.joist_ends == 2 * len(built.frame.joists)


def test_a_fascia_with_no_room_for_screws_stops() -> None:
    """Three rows: 445 deep, the frame 417: 122.5 and 134.5 leave 160; from 200 screws none."""
    small = brief().replace("cover.across_mm", 445)
    assert drylay.design(small, stock=yard()).buildable
    built = drylay.design(small, stock=changed("CS-8-120", length_mm=210.0))
    assert "FIX-016" in codes(built)


@pytest.mark.parametrize(("depth_mm", "missed"), [(186.5, False), (187.0, True), (225.0, True)])
def test_a_fascia_whose_lower_screws_miss_the_frame_stops(depth_mm: float, missed: bool) -> None:
    """Screws a quarter in, of 5: 3/4 of 186.5 is 139.875, of 187 is 140.25; 145 - 5 is 140."""
    built = drylay.design(brief(), stock=changed("FA-28-145", depth_mm=depth_mm))
    found = [(f.measured, f.limit) for f in built.findings if f.code == "FIX-022"]
    assert found == ([(0.75 * depth_mm, 140.0)] if missed else [])
    unscrewed = brief().replace("fixings.fascia_screw", None)
    bare = drylay.design(unscrewed, stock=changed("FA-28-145", depth_mm=depth_mm))
    assert "FIX-022" not in codes(bare)


@pytest.mark.parametrize(("depth_mm", "bare"), [(94.0, False), (93.5, True), (60.0, True)])
def test_a_fascia_too_shallow_for_the_heads_behind_it_is_told(depth_mm: float, bare: bool) -> None:
    """Deck screws of 70 reach 42 into the rim, a shank of 8: 50; four more: 82; half of 24: 94."""
    built = drylay.design(brief(), stock=changed("FA-28-145", depth_mm=depth_mm))
    found = [(f.severity, f.measured, f.limit) for f in built.findings if f.code == "FAS-003"]
    assert found == ([(Severity.CAUTION, depth_mm, 94.0)] if bare else [])
    assert not bare or drylay.audit(built).sound
    sides = brief().replace("fascia.sides", ["left", "right"])  # none on a rim: no head behind it
    beside = drylay.design(sides, stock=changed("FA-28-145", depth_mm=depth_mm))
    assert "FAS-003" not in codes(beside, Severity.CAUTION)


def test_one_box_for_two_uses_says_both() -> None:
    shared = brief().replace("fixings.hanger", None)
    built = drylay.design(shared.replace("fixings.fascia_screw", "DS-45-70"), stock=yard())
    (box,) = (pack for pack in built.buying.packs if pack.article == "DS-45-70")
    fixings = built.fixings
    assert box.what == "deck screws, fascia screws"
    assert box.need == fixings.deck_screws.count + fixings.fascia_screws.count


def test_the_audit_agrees() -> None:
    families = drylay.installed_families()
    report = drylay.audit(plan(), brief=brief(), stock=yard(), families=families)
    assert not [finding for finding in report.findings if finding.severity is Severity.STOP]


def test_boards_of_which_no_treatment_is_asked_need_tell_none() -> None:
    """Heartwood and composite answer class 1: their boards have none to tell."""
    (softwood,) = (each.family for each in drylay.installed_families().families
                   if each.family.id == "softwood")  # fmt: skip
    untreated = evolve(softwood, rules={**softwood.rules, "board_use_class_least": class_1})
    families = installed_families(entry_points=(), extra=[untreated])
    built = drylay.design(brief(), stock=changed("DB-28-145", use_class=None), families=families)
    assert built.buildable
    assert "MAT-006" not in {finding.code for finding in built.findings}
    assert drylay.audit(built).sound


def class_1(_: RuleQuery) -> Ruling:
    source = Source(kind="assumption", title="a test")
    return Ruling(value=1, unit="count", rule="class 1", source=source)
