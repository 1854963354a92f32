"""The nouns of the fixings."""

from attrs import frozen

from drylay.reasons import because

#: How far inside the frame's face a deck screw stands at least, beside a fascia. Assumption, in
#: docs/conventions.md, from which the auditor has its own.
INSIDE_FACE_MM = 10.0


@frozen(kw_only=True)
class DeckScrews:
    """Screws of boards into joists: `per_crossing` at each, as many again at each joint.

    Where clips hold the boards only the last row is screwed: its crossings alone are counted.
    `predrill_all`: every screw has its hole through the board, its pilot and its countersink.
    """

    article: str
    shank_mm: float = because("fixings.deck_screws.length_mm")
    length_mm: float = because("fixings.deck_screws.length_mm")
    length_least_mm: float = because("fixings.deck_screws.length_least_mm")
    per_crossing: int = because("fixings.deck_screws.per_crossing")
    crossings: int = because("fixings.deck_screws.count")
    joints: int = because("fixings.deck_screws.count")
    count: int = because("fixings.deck_screws.count")
    driver: str = ""
    edge_least_mm: float = because("fixings.deck_screws.edge_least_mm")
    end_least_mm: float = because("fixings.deck_screws.end_least_mm")
    predrill_all: bool | None = because("fixings.deck_screws.predrill_all", default=None)
    pilot_ratio: float = because("fixings.deck_screws.pilot_ratio")
    pilot_mm: float = because("fixings.deck_screws.pilot_ratio")


@frozen(kw_only=True)
class BorderScrews:
    """Screws of the border's boards, like those of the field; of their own article or of its."""

    article: str
    driver: str = ""
    shank_mm: float = because("fixings.border_screws.length_mm")
    length_mm: float = because("fixings.border_screws.length_mm")
    length_least_mm: float = because("fixings.border_screws.length_least_mm")
    per_crossing: int = because("fixings.border_screws.per_crossing")
    crossings: int = because("fixings.border_screws.count")
    joints: int = because("fixings.border_screws.count")
    count: int = because("fixings.border_screws.count")
    edge_least_mm: float = because("fixings.border_screws.edge_least_mm")
    end_least_mm: float = because("fixings.border_screws.end_least_mm")
    predrill_all: bool = because("fixings.border_screws.predrill_all")
    pilot_ratio: float = because("fixings.border_screws.pilot_ratio")
    pilot_mm: float = because("fixings.border_screws.pilot_ratio")


@frozen(kw_only=True)
class CoachScrews:
    """Coach screws through the rims into the joists' ends, frame corners among them.

    `sink_mm` is how deep the heads go into rims that carry a fascia, 0 where none does. The pilot
    is None only in plans of the first schema, which knew none. `edge_least_mm` is from a screw's
    middle to the rim's edges and to the next screw; `top_least_mm` to the rim's top, where deck
    screws come down as well. None in older plans, which left both to the builder.
    """

    article: str
    shank_mm: float = because("fixings.coach_screws.length_mm")
    length_mm: float = because("fixings.coach_screws.length_mm")
    length_least_mm: float = because("fixings.coach_screws.length_least_mm")
    per_joist_end: int = because("fixings.coach_screws.per_joist_end")
    joist_ends: int = because("fixings.coach_screws.count")
    count: int = because("fixings.coach_screws.count")
    pilot_ratio: float | None = because("fixings.coach_screws.pilot_ratio")
    pilot_mm: float | None = because("fixings.coach_screws.pilot_ratio")
    driver: str = ""
    head_mm: float = because("fixings.coach_screws.sink_mm")
    sink_mm: float = because("fixings.coach_screws.sink_mm")
    edge_least_mm: float | None = because("fixings.coach_screws.edge_least_mm", default=None)
    top_least_mm: float | None = because("fixings.coach_screws.edge_least_mm", default=None)


@frozen(kw_only=True)
class FrameScrews:
    """Screws of noggins, so many at each end, and of splice plates, so many on each side.

    Of battens so many for each of the `batten_joints` they lie under; None without battens.
    """

    article: str
    driver: str = ""
    shank_mm: float = because("fixings.frame_screws.length_mm")
    length_mm: float = because("fixings.frame_screws.length_mm")
    length_least_mm: float = because("fixings.frame_screws.length_least_mm")
    per_noggin_end: int = because("fixings.frame_screws.per_noggin_end")
    noggin_ends: int = because("fixings.frame_screws.count")
    per_splice_side: int = because("fixings.frame_screws.per_splice_side")
    splice_sides: int = because("fixings.frame_screws.count")
    count: int = because("fixings.frame_screws.count")
    pilot_ratio: float = because("fixings.frame_screws.pilot_ratio")
    pilot_mm: float = because("fixings.frame_screws.pilot_ratio")
    per_batten_joint: int | None = because("fixings.frame_screws.per_batten_joint", default=None)
    batten_joints: int | None = because("fixings.frame_screws.count", default=None)


@frozen(kw_only=True)
class DoubledStretch:
    """Along how much of a frame under an outline a member is screwed `to` another into one timber.

    `length_mm` is where they touch face to face at full thickness. `per_end` screws stand near
    either end of it, one above the other, and `between` single ones every `apart_mm` from there, by
    turns near the top and near the foot.
    """

    member: str
    to: str
    length_mm: float = because("fixings.double_screws.count")
    apart_mm: float = because("fixings.double_screws.spacing_most_mm")
    between: int = because("fixings.double_screws.spacing_most_mm")
    count: int = because("fixings.double_screws.count")


@frozen(kw_only=True)
class DoubleScrews:
    """Screws that make doubles and their neighbours one timber, from both faces by turns.

    They reach into the second timber and do not stand out behind it: `length_least_mm` to
    `length_most_mm`. `edge_mm` is how far off top and foot they stand, `end_least_mm` how far off
    the ends of a stretch.
    """

    article: str
    driver: str = ""
    shank_mm: float = because("fixings.double_screws.length_mm")
    length_mm: float = because("fixings.double_screws.length_mm")
    length_least_mm: float = because("fixings.double_screws.length_least_mm")
    length_most_mm: float = because("fixings.double_screws.length_most_mm")
    per_end: int = because("fixings.double_screws.per_end")
    spacing_most_mm: float = because("fixings.double_screws.spacing_most_mm")
    end_least_mm: float = because("fixings.double_screws.end_least_mm")
    edge_mm: float = because("fixings.double_screws.edge_mm")
    stretches: tuple[DoubledStretch, ...]
    count: int = because("fixings.double_screws.count")
    pilot_ratio: float = because("fixings.double_screws.pilot_ratio")
    pilot_mm: float = because("fixings.double_screws.pilot_ratio")


@frozen(kw_only=True)
class FasciaScrewPlace:
    """Where a fascia piece is screwed: so far from its end nearest the datum corner."""

    fascia: str
    offset_mm: float = because("fixings.fascia_screws.count")


@frozen(kw_only=True)
class FasciaScrews:
    """Screws of the fascia into the frame, `per_place` one above the other at each place.

    `clear_mm` is how far a place keeps from the centre of a coach screw's head behind it.
    """

    article: str
    driver: str = ""
    shank_mm: float = because("fixings.fascia_screws.length_mm")
    length_mm: float = because("fixings.fascia_screws.length_mm")
    length_least_mm: float = because("fixings.fascia_screws.length_least_mm")
    per_place: int = because("fixings.fascia_screws.per_place")
    spacing_most_mm: float = because("fixings.fascia_screws.spacing_most_mm")
    end_least_mm: float = because("fixings.fascia_screws.end_least_mm")
    clear_mm: float = because("fixings.fascia_screws.clear_mm")
    places: tuple[FasciaScrewPlace, ...]
    count: int = because("fixings.fascia_screws.count")
    pilot_ratio: float = because("fixings.fascia_screws.pilot_ratio")
    pilot_mm: float = because("fixings.fascia_screws.pilot_ratio")


@frozen(kw_only=True)
class Hangers:
    """Hangers at both ends of every joist but the outer two and pairs, and the screws for them."""

    article: str
    joist_mm: float = because("fixings.hangers.depth_mm")
    depth_mm: float = because("fixings.hangers.depth_mm")
    depth_least_mm: float = because("fixings.hangers.depth_least_mm")
    count: int = because("fixings.hangers.count")
    screw: str
    screw_shank_mm: float = because("fixings.hangers.screw_count")
    screw_length_mm: float = because("fixings.hangers.screw_count")
    driver: str = ""
    screws_each: int = because("fixings.hangers.screw_count")
    screw_count: int = because("fixings.hangers.screw_count")


@frozen(kw_only=True)
class FixedPoint:
    """The one point at which a board is fixed: the joist nearest its middle."""

    piece: str
    joist: str


@frozen(kw_only=True)
class Clips:
    """Hidden clips in the gaps between rows, starters under the first row's outer edge.

    `crossings` are the gaps' crossings with joists, both joists of a pair counted, and with battens
    beside a joint. A board slides in all clips but at its fixed point; `fixed_screws` more of the
    deck screws hold those points that no screw of the last row does. The last row slides on its
    screws, each but at a fixed point in a slot of the board: `slot_mm` long, `slot_width_mm` wide,
    None where no last row is screwed or nobody tells how boards grow.

    `edge_screws` more of the deck screws go through ripped rows beside their ripped edge, which has
    no groove.
    """

    article: str
    gap_mm: float = because("fixings.clips.gap_mm")
    per_crossing: int = because("fixings.clips.per_crossing")
    crossings: int = because("fixings.clips.count")
    count: int = because("fixings.clips.count")
    starter_article: str = ""
    starter_per_joist: int = because("fixings.clips.starter_per_joist")
    starter_count: int = because("fixings.clips.starter_count")
    end_row_screws_per_joist: int = because("fixings.clips.end_row_screws_per_joist")
    edge_screws: int = because("fixings.clips.edge_screws", default=0)
    fixed_points: tuple[FixedPoint, ...]
    fixed_screws: int | None = because("fixings.clips.fixed_screws", default=None)
    slot_mm: float | None = because("fixings.clips.slot_mm", default=None)
    slot_width_mm: float | None = because("fixings.clips.slot_mm", default=None)


@frozen(kw_only=True)
class EndCaps:
    """Caps for the open ends of hollow boards: both ends of every piece, sawn or as bought."""

    article: str
    per_end: int = because("fixings.end_caps.per_end")
    ends: int = because("fixings.end_caps.count")
    count: int = because("fixings.end_caps.count")


@frozen(kw_only=True)
class TimberClass:
    """The use class that boards, frame timber or fascia are treated to, None if unknown."""

    what: str
    article: str
    use_class: int | None


@frozen(kw_only=True)
class FixingMetal:
    """The metal of one kind of fixing; whether the family allows it here, in this timber.

    `driven_into`: board, frame or fascia; "" in plans that do not tell it.
    """

    what: str
    article: str
    metal: str
    driven_into: str = ""
    allowed: bool


@frozen(kw_only=True)
class CoatedEnds:
    """The sawn ends of one kind of piece: how many, and the area of all of them.

    `what`: boards, border boards, board ends trimmed in line, border board ends trimmed in line,
    rims, joists, noggins, splices, battens or fascia.
    """

    what: str
    ends: int = because("fixings.preserver.ends")
    area_m2: float = because("fixings.preserver.ends")


@frozen(kw_only=True)
class Preserver:
    """End-grain preserver for every sawn end and ripped edge, in ml; `area_m2` is all of it."""

    article: str
    coats: int = because("fixings.preserver.coats")
    covers_m2_per_l: float = because("fixings.preserver.covers_m2_per_l")
    parts: tuple[CoatedEnds, ...]
    ends: int = because("fixings.preserver.ends")
    ripped_m2: float = because("fixings.preserver.ripped_m2")
    area_m2: float = because("fixings.preserver.ends")
    need_ml: int = because("fixings.preserver.need_ml")


@frozen(kw_only=True)
class WaxedEnds:
    """The sawn ends of boards that are waxed: how many, and the area of all of them."""

    what: str
    ends: int = because("fixings.wax.ends")
    area_m2: float = because("fixings.wax.ends")


@frozen(kw_only=True)
class EndWax:
    """End-grain wax for the boards' sawn ends, brushed on once, in ml."""

    article: str
    covers_m2_per_l: float = because("fixings.wax.covers_m2_per_l")
    parts: tuple[WaxedEnds, ...]
    ends: int = because("fixings.wax.ends")
    area_m2: float = because("fixings.wax.ends")
    need_ml: int = because("fixings.wax.need_ml")


@frozen(kw_only=True)
class Finish:
    """Oil, stain or paint for the top of the boards and the face of the fascia, in ml.

    `boards_m2` is as seen from above; `area_m2` reckons the boards `groove_ratio` larger, 0
    where `face_up` is smooth. A border's boards are reckoned apart, by their own face and ratio.
    """

    article: str
    face_up: str
    coats: int = because("fixings.finish.coats")
    covers_m2_per_l: float = because("fixings.finish.covers_m2_per_l")
    groove_ratio: float = because("fixings.finish.groove_ratio")
    boards_m2: float = because("fixings.finish.area_m2")
    border_m2: float | None = because("fixings.finish.area_m2", default=None)
    border_groove_ratio: float | None = because("fixings.finish.border_groove_ratio", default=None)
    border_face_up: str = ""
    fascia_m2: float = because("fixings.finish.area_m2")
    area_m2: float = because("fixings.finish.area_m2")
    need_ml: int = because("fixings.finish.need_ml")


@frozen(kw_only=True)
class BoardPackers:
    """Packers under the thinner of two boards: one on every joist and batten its rows lie on.

    `article` is a plain packer just so high, "" where none is on sale: then none is in the order.
    """

    article: str
    height_mm: float = because("fixings.board_packers.height_mm")
    count: int = because("fixings.board_packers.count")


@frozen(kw_only=True)
class Fixings:
    """All fixings of the deck, and what is brushed on; None where the brief names nothing.

    `seal_board_ends`, `wax_board_ends`: whether boards' sawn ends ask for preserver, for wax; the
    same of a border's boards, whose screws are `border_screws`. `board_finish_coats`: how many
    coats of finish the boards want, 0 for none, whether or not the brief names one.

    `deck_screws` are None where no board is screwed: tiles lie loose.
    """

    deck_screws: DeckScrews | None
    coach_screws: CoachScrews
    frame_screws: FrameScrews | None = None
    fascia_screws: FasciaScrews | None = None
    hangers: Hangers | None = None
    metals: tuple[FixingMetal, ...] = ()
    board_use_class_least: int | None = because("fixings.board_use_class_least", default=None)
    frame_use_class_least: int | None = because("fixings.frame_use_class_least", default=None)
    use_classes: tuple[TimberClass, ...] = ()
    seal_board_ends: bool | None = because("fixings.seal_board_ends", default=None)
    wax_board_ends: bool | None = because("fixings.wax_board_ends", default=None)
    board_finish_coats: int | None = because("fixings.board_finish_coats", default=None)
    border_screws: BorderScrews | None = None
    border_use_class_least: int | None = because("fixings.border_use_class_least", default=None)
    seal_border_ends: bool | None = because("fixings.seal_border_ends", default=None)
    wax_border_ends: bool | None = because("fixings.wax_border_ends", default=None)
    border_finish_coats: int | None = because("fixings.border_finish_coats", default=None)
    preserver: Preserver | None = None
    wax: EndWax | None = None
    finish: Finish | None = None
    hidden_clips: int | None = because("fixings.hidden_clips", default=None)
    clips: Clips | None = None
    end_caps: EndCaps | None = None
    board_packers: BoardPackers | None = None
    double_screws: DoubleScrews | None = None
