"""What boards ask for by their make: told, or stopped, where the brief's site wants it."""

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from drylay.audit.edges import edges_of
from drylay.audit.exact import PER_MM, ticks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import conventions, need, of_boards, same_length
from drylay.audit.ground import room_under_the_frame
from drylay.audit.model import ClosedCheck, Flaw, Witness, WitnessedCheck
from drylay.audit.ranking import AS_GIVEN, board_of, border_of
from drylay.audit.rows import surface_of
from drylay.materials.stock_model import Board
from drylay.plan.model import Plan
from drylay.reasons import Ruling, Source

ROWS = conventions("Rows (surface)")
#: Wetter than this wood swells no more: fibre saturation, by the conventions.
SATURATION = Fraction(30)
#: The most that composite may grow, by the conventions.
GROWS_MOST = Fraction(50, 10**6)
#: Boards so many times as wide as thick cup; woods rich in tannin. By the conventions.
CUPS_FROM, TANNIN = 6, {"oak", "chestnut", "iroko", "cedar", "larch"}
CENTRES, STAND_IN = "supports.most_centres_mm", "supports.centres_stand_in"
MODIFIED = ("modified", "heat-treated", "heat treated", "acetylated", "furfurylated")
METALS = conventions("Metals and treatment")
#: Metals by nobility, and fixings that touch, by the conventions.
RANK = {"aluminium": 0, "bright zinc": 1, "hot-dip galvanised": 1, "coated for treated timber": 1,
        "plain steel": 2, "stainless A2": 3, "stainless A4": 3}  # fmt: skip
TOUCH = (("hangers", "hanger screws"), ("hangers", "deck screws"), ("clips", "deck screws"),
         ("starter clips", "deck screws"))  # fmt: skip
GROUND = conventions("Levels and ground (site)")


def told_just_where(plan: Plan, wanted: dict[str, bool], source: Source) -> Iterator[Flaw]:
    """Yield a flaw for each finding that is wanted and not told, or told for nothing."""
    told = {finding.code for finding in plan.findings}
    for code, holds in wanted.items():
        if holds != (code in told):
            message = "not among the findings" if holds else "among the findings for nothing"
            yield Flaw(subject=code, message=message, source=source)


def nothing_burns_on_a_roof(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for boards that burn, planned on what the brief says is a roof."""
    of_boards(plan)
    site = need(witness.brief, "brief as witness").site
    if site.roof and surface_of(plan).combustible:
        message = "boards that burn, on a roof or balcony: that stops every plan"
        yield Flaw(subject="surface.combustible", message=message, source=ROWS)


def _room(plan: Plan) -> int | None:
    """Return the least between frame and bed, in 1/320 mm, by levels or else by packers."""
    room = room_under_the_frame(plan)
    if room is not None:
        return room[0]
    packing = plan.groundwork.packing if plan.groundwork is not None else None
    return None if packing is None else ticks(packing.height_least_mm)


def air_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where boards lack the air they want below, and no finding says so."""
    site, faces = need(plan.site, "site"), edges_of(plan).faces
    need(plan.frame, "frame")
    least, room = ticks(site.air_below_least_mm or 0.0), _room(plan)
    short = bool(least) and (room is None or room < least)
    shut = bool(least) and {face.side for face in faces} == {"house", "right", "front", "left"}
    yield from told_just_where(plan, {"AIR-001": short, "AIR-002": shut}, GROUND)


def _swells(plan: Plan, dry_pct: float, wet_pct: float) -> Fraction:
    """Return what a board of the field gains in width from dry to wet, in mm."""
    surface = surface_of(plan)
    moisture = need(surface.moisture, "moisture of laying day")
    dry, wet = (min(Fraction(repr(float(each))), SATURATION) for each in (dry_pct, wet_pct))
    gain = max(wet - dry, Fraction(0)) * Fraction(repr(float(moisture.movement_per_pct)))
    return gain * Fraction(repr(float(surface.board_width_mm)))


def gaps_through_the_year(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the year's gaps follow from movement and moistures, and are told."""
    surface = surface_of(plan)
    moisture = surface.moisture
    if moisture is None:
        return
    gaps = [Fraction(ticks(after.gap_mm), 320)
            for before, after in pairwise(surface.rows)
            if not before.border and not after.border]  # fmt: skip
    laid = moisture.laying_pct
    wanted = {
        "narrowest_mm": floor((min(gaps) - _swells(plan, laid, moisture.wettest_pct)) * PER_MM),
        "widest_mm": ceil((max(gaps) + _swells(plan, moisture.driest_pct, laid)) * PER_MM),
    }
    for name, ought in wanted.items():
        found, message = getattr(moisture, name), "not what the gaps come to"
        yield from same_length(f"surface.moisture.{name}", message, found, ought, ROWS)
    press = wanted["narrowest_mm"] <= 0
    yield from told_just_where(plan, {"MOV-103": True, "MOV-104": press}, ROWS)


def touching_metals_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each two fixings that touch, are of unlike metals, and are not told of."""
    if surface_of(plan).timber is None:
        return  # a plan of older releases, which told nothing of it
    metals = {row.what: RANK.get(row.metal) for row in fixings_of(plan).metals}
    told = {finding.subject for finding in plan.findings if finding.code == "FIX-024"}
    for one, other in TOUCH:
        unlike = one in metals and other in metals and metals[one] != metals[other]
        subject = f"{one} and {other}"
        if unlike != (subject in told):
            message = "unlike metals that touch, and no finding tells" if unlike else \
                "told of metals that are alike, or do not touch"  # fmt: skip
            yield Flaw(subject=subject, message=message, source=METALS)


def wet_slip_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the wet pendulum value to ask for, where there is one, is told."""
    value = surface_of(plan).wet_slip_least
    figures = [re.findall(r"\d[\d.]*", finding.message) for finding in plan.findings
               if finding.code == "SLP-001"]  # fmt: skip
    if figures != ([[f"{value:g}"]] if value else []):
        message = "not the value to ask for" if figures else "not among the findings"
        yield Flaw(subject="SLP-001", message=message, source=ROWS)


def inserts_are_laid_whole(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each row of the field that is ripped, of boards with inserts."""
    surface = surface_of(plan)
    for row in surface.rows:
        if surface.groove_mm and row.ripped and not row.border:
            message = "ripped, and nothing tells where its insert lies"
            yield Flaw(subject=row.mark, message=message, source=ROWS)


def much_growth_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless it is told just of boards that grow more than 50e-6 per K."""
    pieces = need(plan.pieces, "pieces")
    border = pieces.border.movement if pieces.border is not None else None
    told = {finding.subject for finding in plan.findings if finding.code == "MOV-106"}
    for what, moves in (("deck boards", pieces.movement), ("border boards", border)):
        much = moves is not None and Fraction(repr(moves.growth_per_k)) > GROWS_MOST
        if much != (what in told):
            message = "grow more than boards may, and no finding tells" if much else \
                "told to grow more than they may, and do not"  # fmt: skip
            yield Flaw(subject=what, message=message, source=ROWS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-147", "what boards want of air below stands among the findings", air_is_told),
    ("AUD-148", "gaps through the year follow from the boards' moisture", gaps_through_the_year),
    ("AUD-149", "unlike metals that touch stand among the findings", touching_metals_are_told),
    ("AUD-150", "the wet pendulum value to ask for stands among the findings", wet_slip_is_told),
    ("AUD-151", "boards with inserts are laid whole", inserts_are_laid_whole),
    ("AUD-152", "boards that grow more than they may are told of", much_growth_is_told),
)


def green_boards_are_told(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless it is told of green boards, and of no others, that their gaps open."""
    of_boards(plan)
    board = need(board_of(plan, need(witness.stock, "stock as witness")), "board in the stock")
    green = "green" in re.findall(r"\w+", board.species.casefold())
    yield from told_just_where(plan, {"MOV-105": green}, ROWS)


def laid_as_damp_as_told(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw where the brief tells the moisture of laying day and the plan holds another."""
    told = need(witness.brief, "brief as witness").climate.laying_pct
    moisture = surface_of(plan).moisture
    if moisture is not None and told is not None and moisture.laying_pct != told:
        message = "not the brief's"
        yield Flaw(subject="surface.moisture.laying_pct", message=message,
                   measured=moisture.laying_pct, limit=told, unit="%", source=ROWS)  # fmt: skip


def kinds_of_wood_are_told(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless boards that cup, and those whose tannin washes out, are told of."""
    of_boards(plan)
    surface, stock = surface_of(plan), need(witness.stock, "stock as witness")
    border = surface.border
    if surface.timber is None:
        return  # a plan of older releases, whose boards were told apart by words
    laid: list[tuple[str, Board | None, bool | None, float]] = []
    laid.append(("deck boards", board_of(plan, stock), surface.timber, surface.board_width_mm))
    if border is not None:
        laid.append(("border boards", border_of(plan, stock), border.timber, border.width_mm))
    told = {(finding.code, finding.subject) for finding in plan.findings}
    for what, sold, timber, width_mm in laid:
        board = need(sold, f"{what} in the stock")
        words = re.findall(r"\w+", board.species.casefold()) if timber else []
        changed = any(word in board.species.casefold() for word in MODIFIED)
        wide = bool(words) and ticks(width_mm) > CUPS_FROM * ticks(board.thickness_mm)
        wanted = (("BRD-008", wide), ("BRD-009", bool({*words} & TANNIN)), ("MAT-009", changed))
        for code, holds in wanted:
            if holds != ((code, what) in told):
                message = "not among the findings" if holds else "among the findings for nothing"
                yield Flaw(subject=f"{code}: {what}", message=message, source=ROWS)


def assumed_centres_are_told(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless it is told just where joist centres stand in for a silent record."""
    of_boards(plan)
    brief, stock = need(witness.brief, "brief as witness"), need(witness.stock, "stock as witness")
    rulings = dict(need(witness.rulings, "families' own answers"))
    if any(override.path == CENTRES for override in brief.overrides):
        return
    laid = {"": board_of(plan, stock), "border ": border_of(plan, stock)}
    stood_in = [
        (of, board)
        for of, board in laid.items()
        if board is not None and (ruling := rulings.get(f"{of}{STAND_IN}")) is not None
        and ruling.value == 1
    ]  # fmt: skip
    assumed = any(_own_centres(board) is None for _, board in stood_in)
    public = brief.use == "public" and any(
        _wider_than_the_family(board, rulings, of, brief.frame.most_centres_mm)
        for of, board in stood_in
    )
    yield from told_just_where(plan, {"MAT-007": assumed, "MAT-010": public}, ROWS)


def _own_centres(board: Board) -> Fraction | None:
    own = (Fraction(repr(own.value)) for own in board.rules if own.rule == "most_centres_mm")
    return next(own, None)


def _wider_than_the_family(
    board: Board, rulings: dict[str, Ruling], of: str, wish_mm: float | None
) -> bool:
    """Return whether wish or record, brought down as the family's, is more than its own."""
    here, square = rulings.get(f"{of}{CENTRES}"), rulings.get(f"{of}{AS_GIVEN}")
    if here is None or square is None:
        return False
    family, given = (Fraction(repr(float(each.value or 0))) for each in (here, square))
    if wish_mm is not None:
        return Fraction(repr(wish_mm)) > family
    record = _own_centres(board)
    return (
        record is not None
        and (Fraction(floor(record * family / given * 10), 10) if family < given else record)
        > family
    )


#: With brief and stock at hand.
HELD: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W90", "no boards that burn lie on a roof", nothing_burns_on_a_roof),
    ("AUD-W91", "of green boards it is told that gaps open", green_boards_are_told),
    ("AUD-W93", "boards that cup or wash out tannin are told of", kinds_of_wood_are_told),
    ("AUD-W94", "joist centres that only stand in are told of", assumed_centres_are_told),
    ("AUD-W92", "boards are as damp on laying day as the brief says", laid_as_damp_as_told),
)
