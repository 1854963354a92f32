"""Preserver and finish in whole plans: what is told, refused and bought."""

import random
from pathlib import Path

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import FinishWish
from drylay.findings import Finding, Severity
from some_decks import some_case

ROOT = Path(__file__).parents[2]
YARD = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
#: Three boards of 2400 used whole, 3 x 145 + 2 x 5 = 445.
SMALL = {
    "title": "Step",
    "cover": {"along_mm": 2400, "across_mm": 445},
    "board": {"article": "DB-28-145"},
    "frame": {"article": "FT-45-95"},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
    "cutting": {"kerf_mm": 3},
    "joints": {"most_per_row": 0},
}


#: The yard with frame timber of 2400 and 2700 only: no rim and joist come out of one length.
SHORT = evolve(
    YARD,
    timbers=tuple(
        evolve(
            timber,
            lengths=tuple(
                evolve(sold, length_mm=2700.0) if sold.length_mm == 3000.0 else sold
                for sold in timber.lengths
                if sold.length_mm <= 3000.0
            ),
        )
        for timber in YARD.timbers
    ),
)


def planned(*, stock: drylay.Catalogue = YARD, **more: dict[str, object]) -> drylay.Plan:
    brief = {**SMALL, **{name: {**SMALL.get(name, {}), **keys} for name, keys in more.items()}}
    plan = drylay.design(drylay.read_brief(brief), stock=stock)
    assert plan.buildable, plan.findings
    assert drylay.audit(plan).sound
    return plan


def told(plan: drylay.Plan, code: str) -> list[Finding]:
    return [finding for finding in plan.findings if finding.code == code]


def test_a_small_deck_by_hand() -> None:
    """Boards and rims of 2400 are used whole, so only joists are sawn.

    (2400 - 45) / 400 = 5.9: seven joists, 445 - 2 x 45 = 355 long, no noggins. One length of
    2700 holds them: 7 x 355 + 6 x 3 = 2503; a rim and a joist, 2758, it does not.
    It has 2 x 7 - 1 = 13 sawn ends of 45 x 95 = 4275 mm2: 0.055575 m2;
    x 2 coats / 4 m2 a litre = 0.0277875 l: 28 ml.
    """
    preserver = planned(stock=SHORT, finish={"preserver": "EP-CLEAR"}).fixings.preserver
    assert [(part.what, part.ends) for part in preserver.parts] == [("joists", 13)]
    assert (preserver.ends, preserver.area_m2, preserver.need_ml) == (13, 0.055575, 28)


def test_without_preserver_a_caution_says_how_many_ends_want_it() -> None:
    bare, brushed = planned(), planned(finish={"preserver": "EP-CLEAR"})
    (caution,) = told(bare, "COT-001")
    assert caution.severity is Severity.CAUTION
    assert caution.message.startswith(f"{brushed.fixings.preserver.ends} sawn ends, 0.06 m2")
    assert "not in the order" in caution.message
    assert bare.fixings.preserver is None
    assert told(brushed, "COT-001") == []


def test_trimming_in_line_saws_the_edges_once_more() -> None:
    """Three rows have six ends at the edges, 145 x 28 each; 2440 is sawn from 3000."""
    wish = {"ends": "trim_in_line", "trim_allowance_mm": 20}
    plan = planned(board=wish, finish={"preserver": "EP-CLEAR"})
    parts = {part.what: part for part in plan.fixings.preserver.parts}
    assert parts["boards"].ends == 3  # each 2440 keeps one end of its board
    assert parts["board ends trimmed in line"].ends == 6
    assert parts["board ends trimmed in line"].area_m2 == 0.02436  # 6 x 4060 mm2


def test_an_end_trim_saws_every_end() -> None:
    plan = planned(cutting={"end_trim_mm": 10}, finish={"preserver": "EP-CLEAR"})
    parts = {part.what: part.ends for part in plan.fixings.preserver.parts}
    assert parts == {"boards": 6, "rims": 4, "joists": 14}  # both ends of 3, 2 and 7


def test_a_finish_with_either_face_up() -> None:
    """3 x 2400 x 145 = 1.044 m2; x 1.3 = 1.3572 with the grooves up. Two coats, 8 m2 a litre."""
    smooth = planned(finish={"article": "DO-NATURAL"})
    grooved = planned(board={"face_up": "grooved"}, finish={"article": "DO-NATURAL"})
    one, other = smooth.fixings.finish, grooved.fixings.finish
    assert (one.face_up, one.area_m2, one.need_ml) == ("smooth", 1.044, 261)
    assert (other.face_up, other.area_m2, other.need_ml) == ("grooved", 1.3572, 340)
    assert told(smooth, "COT-004")
    assert told(grooved, "COT-004") == []
    assert smooth.why("fixings.finish.groove_ratio").source.kind == "common practice"
    assert grooved.why("fixings.finish.area_m2").source.kind == "brief"


def test_tins_hold_the_need_and_get_no_spares() -> None:
    plan = planned(finish={"preserver": "EP-CLEAR", "article": "DO-NATURAL"})
    tins = {pack.what: pack for pack in plan.buying.packs if pack.unit == "ml"}
    assert {what: (t.need, t.spare, [(p.pack, p.packs) for p in t.packs])
            for what, t in tins.items()} == {
        "end-grain preserver": (plan.fixings.preserver.need_ml, 0, [(500, 1)]),
        "finish": (261, 0, [(1000, 1)]),
    }  # fmt: skip
    assert {line.unit for line in plan.buying.order if line.article == "DO-NATURAL"} == {"ml"}


def test_more_coats_take_more_and_fewer_are_cautioned() -> None:
    three = planned(finish={"article": "DO-NATURAL", "coats": 3})
    one = planned(finish={"article": "DO-NATURAL", "coats": 1})
    assert three.fixings.finish.need_ml == 392  # 1.044 x 3 / 8 = 0.3915 l
    assert one.fixings.finish.need_ml == 131  # 1.044 / 8 = 0.1305 l
    assert [f.subject for f in told(one, "MAT-002")] == ["fixings.finish.coats"]
    assert told(three, "MAT-002") == []


@pytest.mark.parametrize(
    ("sections", "path", "says"),
    [
        ({"board": {"article": "DB-28-120", "face_up": "grooved"}}, "board.face_up",
         "both faces smooth"),
        ({"finish": {"preserver": "DO-NATURAL"}}, "finish.preserver", "which is for finish"),
        ({"finish": {"article": "EP-CLEAR"}}, "finish.article", "which is for end grain"),
        ({"finish": {"coats": 2}}, "finish.article", "nothing with finish.coats"),
    ],
)  # fmt: skip
def test_what_cannot_be_brushed_is_refused(
    sections: dict[str, dict[str, object]], path: str, says: str
) -> None:
    with pytest.raises(drylay.BriefError) as caught:
        planned(**sections)
    (fault,) = caught.value.faults
    assert fault.path == path
    assert says in fault.found
    assert fault.wanted


def test_a_board_whose_faces_nobody_tells_is_reckoned_as_grooved() -> None:
    boards = tuple(evolve(board, faces=None) for board in YARD.boards)
    brief = drylay.read_brief({**SMALL, "finish": {"article": "DO-NATURAL"}})
    plan = drylay.design(brief, stock=evolve(YARD, boards=boards))
    assert plan.fixings.finish.face_up == "grooved"
    assert told(plan, "COT-003")
    assert plan.why("fixings.finish.area_m2").source.kind == "assumption"


def some_coated_case(seed: int) -> tuple[drylay.Brief, drylay.Catalogue]:
    """A random deck with coatings, boards of any faces, and either face up that they have."""
    dice = random.Random(seed)
    brief, stock = some_case(seed, most_mm=4_000)
    (board,) = stock.boards
    faces = dice.choice([None, "smooth", "grooved", "one grooved"])
    up = {None: ("smooth", "grooved"), "one grooved": ("smooth", "grooved")}.get(faces, (faces,))
    stock = evolve(
        stock, boards=(evolve(board, faces=faces),), coatings=YARD.coatings, minor_digits=2
    )
    wish = FinishWish(
        preserver=dice.choice([None, "EP-CLEAR"]), article="DO-NATURAL",
        coats=dice.choice([None, 1, 3]),
    )  # fmt: skip
    board_wish = evolve(brief.board, face_up=dice.choice([None, *up]))
    return evolve(brief, finish=wish, board=board_wish), stock


@pytest.mark.parametrize("seed", range(900, 912))
def test_random_decks_are_brushed_as_the_audit_counts(seed: int) -> None:
    brief, stock = some_coated_case(seed)
    families = drylay.installed_families()
    plan = drylay.design(brief, stock=stock, families=families)
    report = drylay.audit(plan, brief=brief, stock=stock, families=families)
    assert [f for f in report.findings if f.severity is Severity.STOP] == []
    if plan.buildable:
        named = brief.finish.preserver is not None
        assert named == (plan.fixings.preserver is not None)
        assert bool(told(plan, "COT-001")) != named
