"""What is brushed on: ends counted again from lengths, areas from sections, ml from areas."""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from drylay.audit.between import joists_sawn
from drylay.audit.edged import border_marks, border_rows, field_rows
from drylay.audit.edges import edges_of
from drylay.audit.exact import PER_MM, ticks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import conventions, need, same_count, same_text
from drylay.audit.frame import frame_of
from drylay.audit.model import ClosedCheck, Flaw, Witness, WitnessedCheck
from drylay.audit.pieces import pieces_of
from drylay.audit.rows import surface_of
from drylay.audit.wanted import all_wanted, buying_of
from drylay.fixings.model import Finish, Preserver
from drylay.materials.stock_model import Coating
from drylay.plan.model import Plan

COATS = conventions("Preserver and finish")
#: Square 1/320 mm in a square metre.
PER_M2 = (1000 * PER_MM) ** 2
IN_LINE, BORDER_IN_LINE = "board ends trimmed in line", "border board ends trimmed in line"
BORDER = "border boards"
LEGS = ("bearers", "posts", "braces")
#: What the conventions call the pieces, in their order.
KINDS = (
    "boards",
    BORDER,
    IN_LINE,
    BORDER_IN_LINE,
    "rims",
    "joists",
    "noggins",
    "splices",
    "battens",
    "fascia",
    *LEGS,
)
OF_BOARDS, OF_BORDER = ("boards", IN_LINE), (BORDER, BORDER_IN_LINE)
FABRIC = "fabric"


def preserver_of(plan: Plan) -> Preserver:
    """Return the plan's preserver, if it has any."""
    return need(fixings_of(plan).preserver, "preserver")


def finish_of(plan: Plan) -> Finish:
    """Return the plan's finish, if it has any."""
    return need(fixings_of(plan).finish, "finish")


def _kinds(plan: Plan) -> dict[str, str]:
    """Return what every mark that is sawn belongs to."""
    frame = frame_of(plan)
    edged = border_marks(plan)
    boards = () if plan.tiling is not None else pieces_of(plan).pieces
    kinds = {p.mark: BORDER if p.row in edged else "boards" for p in boards}
    kinds |= {piece.mark: "rims" for rim in frame.rims for piece in rim.pieces}
    kinds |= {mark: "joists" for mark, _length in joists_sawn(frame)}
    kinds |= {noggin.mark: "noggins" for noggin in frame.noggins}
    kinds |= {splice.mark: "splices" for splice in frame.splices}
    kinds |= {batten.mark: "battens" for batten in frame.battens}
    faces = edges_of(plan).faces
    kinds |= {piece.mark: "fascia" for face in faces for piece in face.pieces}
    legs = () if plan.raised is None else plan.raised.pieces
    return kinds | {piece.mark: piece.kind for piece in legs}


def sawn_ends(plan: Plan) -> Counter[str]:
    """Return the sawn ends of each kind of piece: two each, less what is left as bought."""
    buying, kinds = buying_of(plan), _kinds(plan)
    sizes = {mark: size for wanted in all_wanted(plan) for mark, size in wanted.pieces}
    kerf, ends = ticks(buying.kerf_mm), Counter[str]()
    for purchase in buying.purchases:
        for length in () if purchase.what == FABRIC else purchase.lengths:
            marks = [mark for mark in length.pieces if mark in kinds and mark in sizes]
            ends.update(2 * [kinds[mark] for mark in marks])
            if not marks or ticks(buying.end_trim_mm) > 0:
                continue
            ends[kinds[marks[0]]] -= 1
            left = ticks(length.length_mm) - sum(sizes[mark] + kerf for mark in marks) + kerf
            ends[kinds[marks[-1]]] -= left == 0
    if plan.tiling is None and ticks(pieces_of(plan).trim_allowance_mm):
        ends[IN_LINE] = 2 * len(field_rows(surface_of(plan)))
        ends[BORDER_IN_LINE] = 2 * len(border_rows(surface_of(plan)))
    return ends


def section_m2(plan: Plan, kind: str) -> Fraction:
    """Return the section of a kind of piece, in m2."""
    surface, edges, frame = surface_of(plan), edges_of(plan), frame_of(plan)
    if kind in {"boards", IN_LINE}:
        return _m2(surface.board_width_mm, surface.board_thickness_mm)
    if kind in OF_BORDER:
        border = need(surface.border, "border")
        return _m2(border.width_mm, border.thickness_mm)
    if kind in LEGS[:2]:
        legs = need(plan.raised, "raised").frame
        section = (legs.bearers if kind == "bearers" else legs.posts)[0].section
        return _m2(section.depth_mm, section.breadth_mm)
    if kind == "fascia":
        return _m2(edges.fascia_depth_mm, edges.fascia_thickness_mm)
    return _m2(frame.timber_depth_mm, frame.timber_thickness_mm)


def _m2(one_mm: float, other_mm: float) -> Fraction:
    return Fraction(ticks(one_mm) * ticks(other_mm), PER_M2)


def _ripped(plan: Plan) -> Fraction:
    battens = _ripped_battens(plan)
    if fixings_of(plan).seal_board_ends is False:
        return battens
    surface = surface_of(plan)
    if plan.tiling is not None:
        return Fraction(0)
    long_mm = surface.row_length_mm + 2 * pieces_of(plan).trim_allowance_mm
    rips = sum(row.ripped for row in surface.rows)
    return rips * _m2(long_mm, surface.board_thickness_mm)


def _ripped_battens(plan: Plan) -> Fraction:
    """Return the edges that battens of panels are ripped along, on an outline."""
    frame = plan.subframe
    if frame is None:
        return Fraction(0)
    ripped = [each for each in frame.battens if each.depth_mm < frame.timber_depth_mm]
    return sum((_m2(each.length_mm, frame.timber_thickness_mm) for each in ripped), Fraction(0))


def _sealed(plan: Plan) -> tuple[str, ...]:
    """Return the kinds of piece whose ends get preserver: not boards where these want none."""
    fixings = fixings_of(plan)
    bare = (*(OF_BOARDS if fixings.seal_board_ends is False else ()),
            *(OF_BORDER if fixings.seal_border_ends is False else ()))  # fmt: skip
    return tuple(kind for kind in KINDS if kind not in bare)


def waxed_kinds(plan: Plan) -> tuple[str, ...]:
    """Return the kinds of ends that get wax: of boards that ask for it, of all where none do."""
    fixings = fixings_of(plan)
    asked = (*(OF_BOARDS if fixings.wax_board_ends else ()),
             *(OF_BORDER if fixings.wax_border_ends else ()))  # fmt: skip
    wanted = asked or (*OF_BOARDS, *OF_BORDER)
    return tuple(kind for kind in KINDS if kind in wanted)


def _to_preserve(plan: Plan) -> Fraction:
    ends = sawn_ends(plan)
    sealed = [kind for kind in _sealed(plan) if ends[kind]]
    return sum((ends[kind] * section_m2(plan, kind) for kind in sealed), _ripped(plan))


def wanted_coats(plan: Plan) -> dict[str, int]:
    """Return how many coats the boards of field and border want, as far as the plan tells it."""
    fixings = fixings_of(plan)
    told = {"field": fixings.board_finish_coats, "border": fixings.border_finish_coats}
    return {part: coats for part, coats in told.items() if coats is not None}


def finish_is_wanted(plan: Plan) -> bool:
    """Return whether some boards want a finish; those of older plans, which do not tell, do."""
    wanted = wanted_coats(plan)
    return not wanted or any(wanted.values())


def _tops(plan: Plan, *, border: bool) -> Fraction:
    """Return the tops that are brushed: none of boards that want no finish."""
    if wanted_coats(plan).get("border" if border else "field") == 0:
        return Fraction(0)
    surface = surface_of(plan)
    rows = border_rows(surface) if border else field_rows(surface)
    return sum((_m2(surface.row_length_mm, row.width_mm) for row in rows), Fraction(0))


def _faces(plan: Plan) -> Fraction:
    edges = edges_of(plan)
    return sum((_m2(f.length_mm, edges.fascia_depth_mm) for f in edges.faces), Fraction(0))


def _to_finish(plan: Plan) -> Fraction:
    finish = finish_of(plan)
    ratio, own = (Fraction(repr(r or 0.0)) for r in (finish.groove_ratio,
                                                      finish.border_groove_ratio))  # fmt: skip
    field = _tops(plan, border=False) * (1 + ratio)
    return field + _tops(plan, border=True) * (1 + own) + _faces(plan)


def same_area(subject: str, message: str, found_m2: float, wanted: Fraction) -> Iterator[Flaw]:
    """Yield a flaw unless an area is the nearest float to what it ought to be."""
    if found_m2 != float(wanted):
        yield Flaw(
            subject=subject,
            message=message,
            measured=found_m2,
            limit=float(wanted),
            unit="m2",
            source=COATS,
        )


def ends_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless every kind of piece tells its sawn ends, in order, and their sum."""
    preserver, ends = preserver_of(plan), sawn_ends(plan)
    told = ", ".join(part.what for part in preserver.parts)
    sealed = [kind for kind in _sealed(plan) if ends[kind]]
    wanted = ", ".join(sealed)
    at = "fixings.preserver"
    yield from same_text(f"{at}.parts", "not the kinds of piece sawn", told, wanted, COATS)
    for index, part in enumerate(preserver.parts):
        message = "not the ends sawn"
        subject = f"{at}.parts[{index}].ends"
        yield from same_count(subject, message, part.ends, ends[part.what], COATS)
    message, count = "not all ends sawn", sum(ends[kind] for kind in sealed)
    yield from same_count(f"{at}.ends", message, preserver.ends, count, COATS)


def ends_have_their_sections(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each part's area is its ends by their section, and the whole the sum."""
    preserver, at = preserver_of(plan), "fixings.preserver"
    for index, part in enumerate(preserver.parts):
        wanted = part.ends * section_m2(plan, part.what)
        subject = f"{at}.parts[{index}].area_m2"
        yield from same_area(subject, "not ends by section", part.area_m2, wanted)
    message = "not all ends and ripped edges"
    yield from same_area(f"{at}.area_m2", message, preserver.area_m2, _to_preserve(plan))


def ripped_edges(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless ripped edges are ripped rows' length by the board's thickness."""
    message = "not the ripped rows' edges"
    found = preserver_of(plan).ripped_m2
    yield from same_area("fixings.preserver.ripped_m2", message, found, _ripped(plan))


def _enough(at: str, coat: Preserver | Finish, area: Fraction) -> Iterator[Flaw]:
    covers = Fraction(repr(coat.covers_m2_per_l))
    need(covers if covers > 0 else None, "area that a litre covers")
    wanted = ceil(1000 * area * coat.coats / covers)
    message = "not area x coats over what a litre covers, rounded up"
    yield from same_count(f"{at}.need_ml", message, coat.need_ml, wanted, COATS)


def preserver_is_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the preserver does for its coats, to the ml."""
    yield from _enough("fixings.preserver", preserver_of(plan), _to_preserve(plan))


def finish_is_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the finish does for its coats, to the ml."""
    yield from _enough("fixings.finish", finish_of(plan), _to_finish(plan))


def finish_measured(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the areas are those of rows and fascia."""
    finish, at = finish_of(plan), "fixings.finish"
    field, border = _tops(plan, border=False), _tops(plan, border=True)
    yield from same_area(f"{at}.boards_m2", "not the rows' tops", finish.boards_m2, field)
    edged = finish.border_m2 or 0.0
    yield from same_area(f"{at}.border_m2", "not the border's tops", edged, border)
    message = "not the fascia's outer faces"
    yield from same_area(f"{at}.fascia_m2", message, finish.fascia_m2, _faces(plan))


def grooves_reckoned(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless grooves make the area larger just where a grooved face is up."""
    finish, at = finish_of(plan), "fixings.finish"
    message = "not the boards with their grooves, and the fascia"
    yield from same_area(f"{at}.area_m2", message, finish.area_m2, _to_finish(plan))
    told = [("groove_ratio", finish.groove_ratio, finish.face_up)]
    if surface_of(plan).border is not None:
        told.append(("border_groove_ratio", finish.border_groove_ratio or 0.0,
                     finish.border_face_up))  # fmt: skip
    for name, ratio, up in told:
        if up not in {"smooth", "grooved"} or ratio < 0 or (up == "smooth" and ratio):
            message = f"no ratio for a board {up!r} face up"
            yield Flaw(subject=f"{at}.{name}", message=message, measured=ratio, source=COATS)


def finish_on_boards_that_want_it(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a finish nobody wants, other coats than are wanted, or an untold border."""
    fixings, wanted = fixings_of(plan), wanted_coats(plan)
    need(wanted or None, "coats of finish that boards want")
    edged = "border" in wanted
    if edged != (surface_of(plan).border is not None):
        message = "told of a border just where there is one"
        yield Flaw(subject="fixings.border_finish_coats", message=message, source=COATS)
    if fixings.finish is None:
        return
    if not any(wanted.values()):
        message = "on boards that want none"
        yield Flaw(subject="fixings.finish", message=message, source=COATS)
        return
    message, most = "not the coats that boards want", max(wanted.values())
    yield from same_count("fixings.finish.coats", message, fixings.finish.coats, most, COATS)


def coatings_have_a_size(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each coating without coats, or of which a litre covers nothing."""
    fixings = fixings_of(plan)
    coats: dict[str, Preserver | Finish | None] = {
        "preserver": fixings.preserver, "finish": fixings.finish,
    }  # fmt: skip
    need(fixings.preserver or fixings.finish, "coating")
    for name, coat in coats.items():
        if coat is not None and (coat.coats < 1 or coat.covers_m2_per_l <= 0):
            message = "no coats, or a litre that covers nothing"
            yield Flaw(subject=f"fixings.{name}", message=message, source=COATS)


def coatings_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the coatings are those of the brief, no more and no less."""
    wish, fixings = need(witness.brief, "brief as witness").finish, fixings_of(plan)
    found = fixings.finish.article if fixings.finish is not None else ""
    message = "not the brief's article"
    wanted = wish.article if wish.article and finish_is_wanted(plan) else ""
    yield from same_text("fixings.finish.article", message, found, wanted, COATS)
    told = {finding.code for finding in plan.findings}
    if wish.article and 0 in wanted_coats(plan).values() and "COT-006" not in told:
        message = "boards want no finish, the brief names one, and no finding tells it"
        yield Flaw(subject="COT-006", message=message, source=COATS)
    found = fixings.preserver.article if fixings.preserver is not None else ""
    wanted = wish.preserver if wish.preserver and _to_preserve(plan) else ""
    yield from same_text("fixings.preserver.article", message, found, wanted, COATS)
    found = fixings.wax.article if fixings.wax is not None else ""
    ends = sawn_ends(plan)
    wanted = wish.end_wax if wish.end_wax and any(ends[k] for k in waxed_kinds(plan)) else ""
    yield from same_text("fixings.wax.article", message, found, wanted, COATS)


def coatings_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless a litre covers what the stock says, and the coating is for that."""
    stock, fixings = need(witness.stock, "stock as witness"), fixings_of(plan)
    sold: dict[str, Coating] = {coating.code: coating for coating in stock.coatings}
    for name, coat, use in (
        ("preserver", fixings.preserver, "end grain"),
        ("wax", fixings.wax, "end wax"),
        ("finish", fixings.finish, "finish"),
    ):
        if coat is None:
            continue
        article = need(sold.get(coat.article), f"article {coat.article!r} in the stock")
        yield from same_text(f"fixings.{name}", "for another use", article.use, use, COATS)
        if coat.covers_m2_per_l != article.covers_m2_per_l:
            yield Flaw(
                subject=f"fixings.{name}.covers_m2_per_l",
                message="not what the stock says",
                measured=coat.covers_m2_per_l,
                limit=article.covers_m2_per_l,
                unit="m2 per l",
                source=COATS,
            )


def face_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the face up is the brief's, else the board's, else grooved."""
    finish = finish_of(plan)
    wish = need(witness.brief, "brief as witness").board.face_up
    stock, code = need(witness.stock, "stock as witness"), surface_of(plan).board_article
    faces = [board.faces for board in stock.boards if board.code == code]
    has = need(faces or None, f"article {code!r} in the stock")[0]
    wanted = wish or {"one grooved": "smooth", None: "grooved"}.get(has, has or "")
    subject = "fixings.finish.face_up"
    yield from same_text(subject, "not the face that lies up", finish.face_up, wanted, COATS)
    if has not in {finish.face_up, "one grooved", None}:
        message = f"the board has both faces {has}"
        yield Flaw(subject=subject, message=message, source=COATS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-651", "sawn ends are counted from the bought lengths", ends_counted),
    ("AUD-652", "sawn ends have the area of their sections", ends_have_their_sections),
    ("AUD-653", "ripped edges are as long and thick as their rows", ripped_edges),
    ("AUD-654", "the preserver is enough for its coats", preserver_is_enough),
    ("AUD-655", "the finish covers the boards' tops and the fascia's faces", finish_measured),
    ("AUD-656", "grooves are reckoned in where they lie up", grooves_reckoned),
    ("AUD-657", "the finish is enough for its coats", finish_is_enough),
    ("AUD-658", "coatings have coats and cover something", coatings_have_a_size),
    (
        "AUD-661",
        "a finish is for boards that want one, in so many coats",
        finish_on_boards_that_want_it,
    ),
)
#: The same with brief and stock at hand.
HELD: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W36", "coatings are the brief's articles", coatings_as_wished),
    ("AUD-W37", "coatings cover what the stock says, and are for that use", coatings_as_sold),
    ("AUD-W38", "the face up is the brief's, or one the board has", face_as_wished),
)
