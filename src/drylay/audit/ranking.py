"""Who rules each limit: a named person, the brief, the merchant's record, the family.

The ranking is that of docs/conventions.md; the table says where each of them speaks.
"""

from fractions import Fraction
from math import floor, radians, sin

from attrs import evolve, frozen

from drylay.audit.flaws import need
from drylay.audit.leaves import at
from drylay.audit.model import Witness
from drylay.audit.reasons import OF_A_BOARD
from drylay.brief.model import Brief
from drylay.materials.stock_model import ArticleRule, Board, Catalogue, Tile
from drylay.plan.model import Plan
from drylay.reasons import Inputs, Scalar, Source


@frozen(kw_only=True)
class Limit:
    """A limit the plan quotes: its path, the brief's key and the rule that may set it.

    `may_be_unset`: where nobody says anything, there is no such limit. `words`: what the brief's
    words there come to, where it says it in words. `border`: it is a limit of the border's board,
    which its own family and record rule; `shared`: -1 where of a field's and a border's answer the
    lower governs, +1 where the higher does.
    """

    path: str
    brief: str = ""
    rule: str = ""
    may_be_unset: bool = False
    words: tuple[tuple[str, int], ...] = ()
    border: bool = False
    shared: int = 0


TURNABLE = Source(kind="merchant record", title="the stock", clause="turnable")
DECK, COACH = "fixings.deck_screws", "fixings.coach_screws"
TIMBERS, FASCIA = "fixings.frame_screws", "fixings.fascia_screws"
DENSITY = "buying.delivery.density_kg_m3"

#: Joist centres: the rule, where they stand, and the family's for what a merchant's speak of.
#: A tenth that is whole but for a float's last digits is that tenth.
HAIR = 1e-6
CENTRES, MOST = "most_centres_mm", "supports.most_centres_mm"
AS_GIVEN = "centres of boards square to the joists of a dwelling"
CLIPS = "fixings.clips"
MOVES, EDGE_MOVES = "pieces.movement", "pieces.border.movement"
MOIST = "surface.moisture"

EDGED = "fixings.border_screws"

#: Limits of a border's board. The brief's wishes on gaps and rips speak of the field alone.
BORDER = tuple(
    Limit(path=path, brief=brief, rule=rule, border=True)
    for path, brief, rule in (
        ("surface.border.timber", "", "timber"),
        ("surface.border.gap_preferred_mm", "", "gap_preferred_mm"),
        ("surface.border.gap_least_mm", "", "gap_least_mm"),
        ("surface.border.gap_most_mm", "", "gap_most_mm"),
        ("pieces.border.end_gap_mm", "joints.end_gap_mm", "end_gap_mm"),
        ("pieces.border.least_supports", "joints.least_supports", "least_supports"),
        ("pieces.border.stagger_bays", "joints.stagger_bays", "stagger_bays"),
        ("pieces.border.end_bearing_least_mm", "", "end_bearing_least_mm"),
        ("pieces.border.least_piece_mm", "", "least_piece_mm"),
        ("pieces.border.handed", "", "handed"),
        (f"{EDGE_MOVES}.growth_per_k", "", "growth_per_k"),
        (f"{EDGE_MOVES}.laying_c", "climate.laying_c", ""),
        (f"{EDGE_MOVES}.hottest_c", "climate.hottest_board_c", "hottest_board_c"),
        (f"{EDGED}.per_crossing", "", "screws_per_crossing"),
        (f"{EDGED}.length_least_mm", "", "screw_length_least_mm"),
        (f"{EDGED}.edge_least_mm", "", "screw_edge_least_mm"),
        (f"{EDGED}.end_least_mm", "", "screw_end_least_mm"),
        (f"{EDGED}.predrill_all", "", "predrill_all"),
        (f"{EDGED}.pilot_ratio", "", "screw_pilot_ratio"),
        ("fixings.border_use_class_least", "", "board_use_class_least"),
        ("fixings.seal_border_ends", "", "seal_board_ends"),
        ("fixings.wax_border_ends", "", "wax_board_ends"),
        ("fixings.border_finish_coats", "finish.coats", "finish_coats"),
        ("fixings.finish.border_groove_ratio", "", "groove_ratio"),
        ("buying.delivery.border_density_kg_m3", "", "density_most_kg_m3"),
        ("buying.delivery.border_extra_mass_kg_m2", "", "extra_mass_kg_m2"),
    )
)
#: The path of the field's limit for each of the border's: there its family was asked.
FIELD = {
    "surface.border.": "surface.", "pieces.border.": "pieces.", f"{EDGED}.": f"{DECK}.",
    "fixings.border_use": "fixings.board_use", "fixings.seal_border": "fixings.seal_board",
    "fixings.border_finish_coats": "fixings.board_finish_coats",
    "fixings.wax_border": "fixings.wax_board", "fixings.finish.border_": "fixings.finish.",
    "buying.delivery.border_": "buying.delivery.",
}  # fmt: skip

LIMITS = (
    Limit(path="surface.gap_preferred_mm", brief="gap.preferred_mm", rule="gap_preferred_mm"),
    Limit(path="surface.gap_least_mm", brief="gap.least_mm", rule="gap_least_mm"),
    Limit(path="surface.gap_most_mm", brief="gap.most_mm", rule="gap_most_mm"),
    Limit(path="surface.sliver_limit_mm", brief="rows.sliver_mm", rule="sliver_mm"),
    Limit(path="surface.least_rip_mm", brief="rows.least_rip_mm", rule="least_rip_mm"),
    Limit(path="surface.fall_least_ratio", rule="fall_least_ratio", shared=1),
    Limit(path="surface.combustible", rule="combustible", shared=1),
    Limit(path="surface.timber", rule="timber"),
    Limit(path="surface.wet_slip_least", rule="wet_slip_least"),
    Limit(
        path="supports.most_centres_mm",
        brief="frame.most_centres_mm",
        rule="most_centres_mm",
        shared=-1,
    ),
    Limit(path="pieces.end_gap_mm", brief="joints.end_gap_mm", rule="end_gap_mm"),
    Limit(path="pieces.least_supports", brief="joints.least_supports", rule="least_supports"),
    Limit(path="pieces.stagger_bays", brief="joints.stagger_bays", rule="stagger_bays"),
    Limit(path="pieces.most_joints_per_row", brief="joints.most_per_row", may_be_unset=True),
    Limit(path="pieces.end_bearing_least_mm", rule="end_bearing_least_mm"),
    Limit(path="pieces.least_piece_mm", rule="least_piece_mm"),
    Limit(path="pieces.handed", rule="handed"),
    Limit(path="supports.joists_under_joint", brief="joints.support", rule="joists_under_joint",
          words=(("single", 1), ("batten", 1), ("pair", 2)), shared=1),
    Limit(path="supports.battens_per_joint", brief="joints.support", rule="battens_per_joint",
          words=(("single", 0), ("batten", 1)), shared=1),
    Limit(path="supports.batten_for_pair", rule="batten_for_pair", shared=-1),
    Limit(path="supports.overhang_most_mm", rule="overhang_most_mm", shared=-1),
    Limit(path=f"{MOVES}.growth_per_k", rule="growth_per_k"),
    Limit(path=f"{MOVES}.laying_c", brief="climate.laying_c"),
    Limit(path=f"{MOVES}.hottest_c", brief="climate.hottest_board_c", rule="hottest_board_c"),
    Limit(path=f"{MOVES}.coldest_c", brief="climate.coldest_board_c", may_be_unset=True),
    Limit(path=f"{EDGE_MOVES}.coldest_c", brief="climate.coldest_board_c", may_be_unset=True,
          border=True),
    Limit(path=f"{MOIST}.movement_per_pct", rule="movement_per_pct"),
    Limit(path=f"{MOIST}.wettest_pct", brief="climate.wettest_pct", rule="wettest_board_pct"),
    Limit(path=f"{MOIST}.driest_pct", brief="climate.driest_pct", rule="driest_board_pct"),
    Limit(path="frame.noggin_spacing_most_mm", rule="noggin_spacing_most_mm", shared=-1),
    Limit(path=f"{DECK}.per_crossing", rule="screws_per_crossing"),
    Limit(path=f"{DECK}.length_least_mm", rule="screw_length_least_mm"),
    Limit(path=f"{DECK}.edge_least_mm", rule="screw_edge_least_mm"),
    Limit(path=f"{DECK}.end_least_mm", rule="screw_end_least_mm"),
    Limit(path=f"{DECK}.pilot_ratio", rule="screw_pilot_ratio"),
    Limit(path=f"{DECK}.predrill_all", rule="predrill_all"),
    Limit(path=f"{COACH}.per_joist_end", rule="coach_screws_per_joist_end", shared=1),
    Limit(path=f"{COACH}.length_least_mm", rule="coach_screw_length_least_mm", shared=1),
    Limit(path=f"{COACH}.sink_mm", rule="coach_screw_sink_mm"),
    Limit(path=f"{COACH}.pilot_ratio", rule="coach_screw_pilot_ratio"),
    Limit(path=f"{TIMBERS}.per_noggin_end", rule="frame_screws_per_noggin_end", shared=1),
    Limit(path=f"{TIMBERS}.per_splice_side", rule="frame_screws_per_splice_side", shared=1),
    Limit(path=f"{TIMBERS}.length_least_mm", rule="frame_screw_length_least_mm", shared=1),
    Limit(path=f"{TIMBERS}.pilot_ratio", rule="frame_screw_pilot_ratio"),
    Limit(path=f"{FASCIA}.per_place", rule="fascia_screws_per_place", shared=1),
    Limit(path=f"{FASCIA}.spacing_most_mm", rule="fascia_screw_spacing_most_mm", shared=-1),
    Limit(path=f"{FASCIA}.end_least_mm", rule="fascia_screw_end_least_mm", shared=1),
    Limit(path=f"{FASCIA}.length_least_mm", rule="fascia_screw_length_least_mm", shared=1),
    Limit(path=f"{FASCIA}.pilot_ratio", rule="screw_pilot_ratio"),
    Limit(path="fixings.hidden_clips", rule="hidden_clips"),
    Limit(path=f"{CLIPS}.per_crossing", rule="clips_per_crossing"),
    Limit(path=f"{CLIPS}.starter_per_joist", rule="starter_clips_per_joist"),
    Limit(path=f"{CLIPS}.end_row_screws_per_joist", rule="end_row_screws_per_joist"),
    Limit(path="fixings.end_caps.per_end", rule="end_caps"),
    Limit(path="site.wall_gap_least_mm", rule="wall_gap_least_mm", shared=1),
    Limit(path="site.air_below_least_mm", rule="air_below_least_mm", shared=1),
    Limit(path="fixings.board_use_class_least", rule="board_use_class_least"),
    Limit(path="fixings.frame_use_class_least", rule="frame_use_class_least", shared=1),
    Limit(path="fixings.seal_board_ends", rule="seal_board_ends"),
    Limit(path="fixings.wax_board_ends", rule="wax_board_ends"),
    Limit(path="fixings.preserver.coats", rule="preserver_coats", shared=1),
    Limit(path="fixings.finish.coats", brief="finish.coats", rule="finish_coats", shared=1),
    Limit(path="fixings.board_finish_coats", brief="finish.coats", rule="finish_coats"),
    Limit(path="fixings.finish.groove_ratio", rule="groove_ratio"),
    *BORDER,
    Limit(path="buying.kerf_mm", brief="cutting.kerf_mm"),
    Limit(path="buying.end_trim_mm", brief="cutting.end_trim_mm"),
    Limit(path="buying.spare_ratio", rule="spare_ratio"),
    Limit(path=DENSITY, rule="density_most_kg_m3"),
    Limit(path="buying.delivery.frame_density_kg_m3", rule="frame_density_most_kg_m3", shared=1),
    Limit(path="buying.delivery.extra_mass_kg_m2", rule="extra_mass_kg_m2"),
    Limit(path="tiling.least_cut_mm", rule="least_piece_mm"),
    Limit(path="tiling.density_kg_m3", rule="density_most_kg_m3"),
    Limit(path="tiling.bedding.bays_per_tile", rule="bays_per_piece"),
    Limit(path="tiling.bedding.bearing_least_mm", rule="end_bearing_least_mm"),
    Limit(path="tiling.pads.at_edges_most_mm", rule="pads_at_edges_most_mm"),
    Limit(path="tiling.pads.at_centre", rule="pads_at_centre"),
)  # fmt: skip
#: In a clip deck the deck screws are those of the last row, and so ruled.
END_ROW = next(limit for limit in LIMITS if limit.rule == "end_row_screws_per_joist")


@frozen(kw_only=True)
class Given:
    """What a limit ought to be, who gave it, and with which inputs."""

    value: Scalar
    source: Source | None
    inputs: Inputs | None = None


def given(plan: Plan, limit: Limit, witness: Witness) -> Given | None:
    """Return what a limit ought to be, None where the witnesses cannot tell."""
    if witness.brief is None or (limit.path == DENSITY and plan.tiling is not None):
        return None  # the family of tiles says nothing of the timber under them
    if limit.border and (plan.surface is None or plan.surface.border is None):
        return None  # a wish for all boards is no wish for a border that is not there
    clipped = plan.fixings is not None and plan.fixings.clips is not None
    if limit.rule == "screws_per_crossing" and clipped:
        return given(plan, END_ROW, witness)
    named = _from_person(witness.brief, limit.path) or _from_brief(witness.brief, limit)
    if named is not None or not limit.rule:
        return named or (Given(value=None, source=None) if limit.may_be_unset else None)
    return _within_its_range(plan, limit, below(plan, limit, witness))


def _within_its_range(plan: Plan, limit: Limit, ought: Given | None) -> Given | None:
    """Return a preferred gap that nobody wished, moved into the range that governs."""
    surface, value = plan.surface, None if ought is None else ought.value
    moves = limit.path.startswith("surface.") and limit.path.endswith("gap_preferred_mm")
    laid = surface.border if surface is not None and limit.border else surface
    if ought is None or laid is None or not moves or not isinstance(value, int | float):
        return ought
    inside = min(max(value, laid.gap_least_mm), laid.gap_most_mm)
    return evolve(ought, value=inside)


def below(plan: Plan, limit: Limit, witness: Witness) -> Given | None:
    """Return what merchant or family give for a limit, None where the witnesses cannot tell.

    Of a limit that field and border share the stricter counts.
    """
    if witness.stock is None or (limit.path == DENSITY and plan.tiling is not None):
        return None
    laid, edging = _named(plan, witness)
    field = None if limit.border else _one_below(laid, limit, witness, "")
    border = edging if limit.border or limit.shared else None
    if border is None:
        return field
    return _stricter(field, _one_below(border, limit, witness, "border "), limit.shared)


def each_below(plan: Plan, path: str, witness: Witness) -> list[float]:
    """Return what merchant or family give for a limit, of the field and of a border; 0 untold."""
    limit = next(each for each in LIMITS if each.path == path)
    sides = zip(_named(plan, witness), ("", "border "), strict=True)
    given = [_one_below(board, limit, witness, of) for board, of in sides if board is not None]
    return [_figure(each) if each is not None else 0.0 for each in given]


def _named(plan: Plan, witness: Witness) -> tuple[Board | Tile | None, Board | None]:
    """Return the field's and the border's article as sold: the plan's, the brief's if it has none.

    A plan that is stopped before a row is laid tells no article, and its limits are those of the
    one the brief names all the same.
    """
    stock, brief = need(witness.stock, "stock"), witness.brief
    if brief is None or plan.surface is not None or plan.laying is not None:
        return board_of(plan, stock) or tile_of(plan, stock), border_of(plan, stock)
    sold: tuple[Board | Tile, ...] = (*stock.boards, *stock.tiles)
    field = next((each for each in sold if each.code == brief.board.article), None)
    border = next((each for each in stock.boards if each.code == brief.border.article), None)
    return field, border


def _one_below(board: Board | Tile | None, limit: Limit, witness: Witness, of: str) -> Given | None:
    """Return what a board's record gives for a limit, else its family."""
    record = _from_merchant(board, limit.rule) if board is not None else None
    if record is not None and limit.rule == CENTRES:
        return _brought_down(record, witness, of)
    path = limit.path
    for edged, plain in FIELD.items() if limit.border else ():
        path = plain + path.removeprefix(edged) if path.startswith(edged) else path
    return record or _from_family(witness, f"{of}{path}")


def _brought_down(record: Given, witness: Witness, of: str) -> Given | None:
    """Return a merchant's centres, lowered as the family's are from square boards of a dwelling.

    Without the family's answers they stand for a dwelling, where boards lie square, and there only.
    """
    given, here = _from_family(witness, f"{of}{AS_GIVEN}"), _from_family(witness, f"{of}{MOST}")
    if given is None or here is None:
        dwelling = witness.brief is not None and witness.brief.use == "dwelling"
        return record if dwelling else None
    before, after = (Fraction(repr(_figure(each))) for each in (given, here))
    if after >= before:
        return record
    tenths = Fraction(repr(_figure(record))) * after / before * 10 // 1
    return evolve(record, value=int(tenths) / 10)


def _stricter(field: Given | None, border: Given | None, shared: int) -> Given | None:
    """Return the stricter of two limits, the field's of equals; the border's where it is alone."""
    if not shared:
        return border
    if field is None or border is None:
        return None
    over = (_figure(border) - _figure(field)) * shared
    return _of_its_board(border) if over > 0 else field


def _of_its_board(border: Given) -> Given:
    """Return the border's answer, what tells of a board named as the border's."""
    inputs = tuple((OF_A_BOARD.get(name, name), value) for name, value in border.inputs or ())
    return evolve(border, inputs=inputs)


def _figure(given: Given) -> float:
    return float(given.value) if isinstance(given.value, int | float) else 0.0


def _from_person(brief: Brief, path: str) -> Given | None:
    for override in brief.overrides:
        if override.path == path:
            source = Source(kind="named person's override", title=override.by)
            return Given(value=override.value, source=source)
    return None


def _from_brief(brief: Brief, limit: Limit) -> Given | None:
    value = wish_of(brief, limit)
    if value is not None:
        return Given(value=value, source=Source(kind="brief", title="brief"))
    return None


def wish_of(brief: Brief, limit: Limit) -> float | None:
    """Return what the brief wishes for a limit, None where it leaves that open."""
    value = at(brief, limit.brief) if limit.brief else None
    if isinstance(value, str):
        value = dict(limit.words).get(value)
    return value if isinstance(value, int | float) else None


def wish_here(plan: Plan, brief: Brief, limit: Limit) -> float | None:
    """Return a wish as it comes to in a plan: centres speak of boards square to the joists.

    At an angle they are times its sine, down to tenths: docs/outline-conventions.md, Frame.
    """
    wish = wish_of(brief, limit)
    if wish is None or limit.path != MOST or plan.subframe is None:
        return wish
    return floor(wish * sin(radians(plan.subframe.board_to_joist_deg)) * 10 + HAIR) / 10


def board_of(plan: Plan, stock: Catalogue) -> Board | None:
    """Return the board the plan is made of, as the merchant sells it."""
    laid = plan.surface if plan.surface is not None else plan.laying
    article = laid.board_article if laid is not None else ""
    return next((board for board in stock.boards if board.code == article), None)


def border_of(plan: Plan, stock: Catalogue) -> Board | None:
    """Return the border's board as the merchant sells it, None without a border."""
    border = plan.surface.border if plan.surface is not None else None
    return next((board for board in stock.boards if border and board.code == border.article), None)


def tile_of(plan: Plan, stock: Catalogue) -> Tile | None:
    """Return the tile the plan is made of, as the merchant sells it."""
    article = plan.surface.board_article if plan.surface is not None else ""
    return next((tile for tile in stock.tiles if tile.code == article), None)


def _from_merchant(board: Board | Tile, rule: str) -> Given | None:
    records: list[ArticleRule] = [record for record in board.rules if record.rule == rule]
    if isinstance(board, Board) and not records and rule == "handed" and board.turnable is not None:
        return Given(value=int(not board.turnable), source=TURNABLE)
    return Given(value=records[0].value, source=records[0].source) if records else None


def _from_family(witness: Witness, path: str) -> Given | None:
    for where, ruling in witness.rulings or ():
        if where == path:
            return Given(value=ruling.value, source=ruling.source, inputs=ruling.inputs)
    return None


def quoted(plan: Plan, limit: Limit) -> Scalar:
    """Return what the plan quotes for a limit.

    Raises:
        NoSuchPath: The plan has no such part.
    """
    value: Scalar = at(plan, limit.path)
    return value
