"""What a shape needs, cut and bought: boards with their joints, frame, fascia, fixings."""

from decimal import ROUND_CEILING, Decimal

from attrs import evolve, frozen

from drylay.brief.model import Brief
from drylay.buying.model import Purchase
from drylay.buying.purchase import in_whole_packs, minor, pieces_of, purchase, stock_of
from drylay.cutting.model import Stock, Task
from drylay.edges.model import Edges
from drylay.findings import Finding, Severity
from drylay.frame.battens import Battens
from drylay.frame.between import Band, own_rims
from drylay.frame.members import (
    FLANGES_MM,
    Section,
    fewest_rim_joints,
    place_members,
    rim_line,
    splice_length_mm,
    turned_about,
)
from drylay.frame.model import Frame
from drylay.marks import exact
from drylay.materials.stock_model import (
    Board,
    Clip,
    CoachScrew,
    Hanger,
    Packer,
    Screw,
    StockLength,
    Tile,
)
from drylay.pieces.joints import JointRules, board_line, joint_rows
from drylay.pieces.model import Pieces
from drylay.planner import pairs
from drylay.planner.built import Wanted
from drylay.planner.cuts import STOCK_SOURCE, Cutter, cut
from drylay.planner.job import Job
from drylay.supports.model import Supports
from drylay.surface.model import Surface


@frozen(kw_only=True)
class Shape:
    """A candidate's geometry, before anything is cut."""

    surface: Surface
    edges: Edges
    supports: Supports


@frozen(kw_only=True)
class Blocked:
    """The stops that keep something from being built."""

    findings: tuple[Finding, ...]


@frozen(kw_only=True)
class BoardCut:
    """The boards: jointed, and bought."""

    pieces: Pieces
    purchase: Purchase


@frozen(kw_only=True)
class FrameTask:
    """The frame as the cutter's task: its members but the rims by mark and mm, its battens."""

    task: Task
    named: tuple[tuple[str, float], ...]
    battens: Battens | None = None


@frozen(kw_only=True)
class FrameCut:
    """The frame: its members, and bought; the battens under joints where there are any."""

    frame: Frame
    purchase: Purchase
    battens: Battens | None = None


def joint_price(job: Job, board: Board) -> Decimal:
    """Return what one joint is reckoned to cost: the wish, else 100 mm of the cheapest board.

    Source: assumption; it keeps joints that save nothing out of the plan.
    """
    wish = job.brief.joints.price_each
    digits = job.stock.minor_digits
    cent = Decimal(1).scaleb(-digits)
    if wish is not None:
        return wish.quantize(cent)  # the reader refused any wish finer than a coin
    usable = [e for e in board.lengths if in_whole_packs(e) != 0] or board.lengths
    price = min(e.price * 100 / Decimal(repr(e.length_mm)) for e in usable)
    return price.quantize(cent, rounding=ROUND_CEILING)


def joint_rules(job: Job, board: Board, part: str = "pieces") -> JointRules:
    """Return the limits joints of a board keep in this job; `part`: where the plan has them."""
    brief, rules = job.brief, job.rules
    trimmed = brief.board.ends == "trim_in_line"
    return JointRules(
        end_gap_mm=rules.value(f"{part}.end_gap_mm"),
        end_bearing_least_mm=rules.value(f"{part}.end_bearing_least_mm"),
        least_supports=rules.count(f"{part}.least_supports"),
        stagger_bays=rules.count(f"{part}.stagger_bays"),
        most_joints_per_row=brief.joints.most_per_row,
        joint_price=joint_price(job, board),
        trim_allowance_mm=(brief.board.trim_allowance_mm or 0.0) if trimmed else 0.0,
        handed=rules.count(f"{part}.handed") == 1,
        least_piece_mm=rules.value(f"{part}.least_piece_mm"),
    )


def joint_rules_told(rules: JointRules) -> str:
    """Return what rows must keep, for the stop of boards that cannot be cut."""
    cap = rules.most_joints_per_row
    capped = "" if cap is None else f", at most {cap} joints a row (joints.most_per_row)"
    least = rules.least_piece_mm
    short = f", and no piece under {least:g} mm (least_piece_mm)" if least else ""
    apart = f" and joints {rules.stagger_bays} bays apart" if rules.stagger_bays else ""
    return f"; rows must keep {rules.least_supports} supports a piece{apart}{capped}{short}"


def longest_mm(lengths: tuple[StockLength, ...], brief: Brief) -> float:
    """Return the longest usable length on sale, end trims off; 0 where none is to be had."""
    usable = [entry.length_mm for entry in lengths if in_whole_packs(entry) != 0]
    return max(usable, default=0.0) - 2 * brief.cutting.end_trim_mm


def stock_for(job: Job, lengths: tuple[StockLength, ...]) -> tuple[Stock, ...]:
    """Return lengths on sale as the cutter's stock, the saw's end trims off."""
    return stock_of(
        lengths,
        end_trim_mm=job.brief.cutting.end_trim_mm,
        minor_digits=job.stock.minor_digits,
    )


def board_task(job: Job, shaped: Shape, rules: JointRules) -> Task:
    """Return the field's rows as the cutter's task."""
    return Task(
        stock=stock_for(job, job.articles.board.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        lines=(board_line(shaped.surface, shaped.supports, rules),),
        joint_price=minor(rules.joint_price, job.stock.minor_digits),
    )


def cut_boards(cutter: Cutter, shaped: Shape) -> BoardCut | Blocked:
    """Return the rows jointed and bought together, or why they cannot be."""
    job = cutter.job
    rules = joint_rules(job, job.articles.board)
    plan = cut(cutter, board_task(job, shaped, rules), what="deck boards")
    if isinstance(plan, Finding):
        message = plan.message + joint_rules_told(rules)
        return Blocked(findings=(evolve(plan, message=message),))
    pieces = joint_rows(shaped.surface, shaped.supports, rules, plan.joints[0])
    bought = purchase(
        what="boards",
        article=job.articles.board.code,
        mark="DB",
        plan=plan,
        named_mm=[(piece.mark, piece.cut_mm) for piece in pieces.pieces],
        minor_digits=job.stock.minor_digits,
    )
    return BoardCut(pieces=pieces, purchase=bought)


def frame_task(
    job: Job, shaped: Shape, pieces: Pieces | None, legs: tuple[tuple[str, float], ...] = (),
    bands: tuple[Band, ...] = (),
) -> FrameTask | Blocked:  # fmt: skip
    """Return the frame's members as the cutter's task, or why they cannot be had.

    `pieces`: the boards, for the battens under their joints; None where they are not known.
    `legs`: what of the same timber stands under the frame. `bands`: bearers that joists hang
    between, where they do.
    """
    timber = job.articles.timber
    reach_mm = longest_mm(timber.lengths, job.brief)
    count = own_rims(shaped.edges, bands)
    line = rim_line(shaped.edges, shaped.supports, units=job.brief.units, count=count)
    fewest = fewest_rim_joints(line, exact(reach_mm)) if count else 0
    battens = None if pieces is None else pairs.lay_battens(
        job, shaped.surface, shaped.edges, shaped.supports, pieces, jointed=fewest != 0
    )  # fmt: skip
    bare = place_frame(job, shaped, ((), ()), battens, bands)
    stops = _frame_stops(job, bare, fewest, reach_mm)
    if stops or fewest is None:
        return Blocked(findings=stops)
    named = [*_named_members(job, shaped, bare, splices=count * fewest), *legs]
    task = Task(
        stock=stock_for(job, timber.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        pieces=pieces_of(named),
        lines=(evolve(line, most_joints=fewest),) if count else (),
    )
    return FrameTask(task=task, named=tuple(named), battens=battens)


def cut_frame(
    cutter: Cutter, shaped: Shape, pieces: Pieces | None, legs: tuple[tuple[str, float], ...] = (),
    bands: tuple[Band, ...] = (),
) -> FrameCut | Blocked:  # fmt: skip
    """Return the frame's members, cut from the stock, or why they cannot be.

    `pieces`: the boards, for the battens under their joints; None where they cannot be cut.
    `legs`: what of the same timber stands under the frame, cut with it. `bands`: bearers that
    joists hang between, where they do.
    """
    job = cutter.job
    wanted = frame_task(job, shaped, pieces, legs, bands)
    if isinstance(wanted, Blocked):
        return wanted
    plan = cut(cutter, wanted.task, what="frame timber")
    if isinstance(plan, Finding):
        return Blocked(findings=(plan,))
    stations = plan.joints[0] if wanted.task.lines else ()
    if len(stations) > 1 and stations[0] == stations[1]:
        # joints of both rims in one bay would be a hinge across the deck
        stations = (stations[0], turned_about(wanted.task.lines[0], stations[1]))
    frame = place_frame(job, shaped, stations, wanted.battens, bands)
    rims = [(piece.mark, piece.length_mm) for rim in frame.rims for piece in rim.pieces]
    bought = purchase(
        what="frame",
        article=job.articles.timber.code,
        mark="T",
        plan=plan,
        named_mm=[*rims, *wanted.named],
        minor_digits=job.stock.minor_digits,
    )
    return FrameCut(frame=frame, purchase=bought, battens=wanted.battens)


def _section(job: Job) -> Section:
    timber = job.articles.timber
    return Section(article=timber.code, thickness_mm=timber.thickness_mm, depth_mm=timber.depth_mm)


def place_frame(
    job: Job, shaped: Shape, rim_stations: tuple[tuple[int, ...], ...], battens: Battens | None,
    bands: tuple[Band, ...] = (),
) -> Frame:  # fmt: skip
    """Return the frame with its rims jointed at these stations, hung between `bands` if any."""
    return place_members(
        shaped.edges,
        shaped.supports,
        _section(job),
        noggin_spacing_most_mm=job.rules.value("frame.noggin_spacing_most_mm"),
        rim_stations=rim_stations,
        units=job.brief.units,
        beside_mm=_beside_mm(job, shaped),
        battens=None if battens is None else battens.battens,
        bands=bands,
    )


def _beside_mm(job: Job, shaped: Shape) -> float:
    hung = job.articles.hanger is not None and shaped.supports.line_count > 2
    return FLANGES_MM if hung else 0.0


def _named_members(
    job: Job, shaped: Shape, bare: Frame, *, splices: int
) -> list[tuple[str, float]]:
    """Return every member but the rims by mark and length."""
    splice_mm = splice_length_mm(
        shaped.supports, _section(job), job.brief.units, _beside_mm(job, shaped)
    )
    return [
        *(piece for joist in bare.joists for piece in joist.sawn),
        *((noggin.mark, noggin.length_mm) for noggin in bare.noggins),
        *((batten.mark, batten.length_mm) for batten in bare.battens),
        *((f"S{number}", splice_mm) for number in range(1, splices + 1)),
    ]


def _frame_stops(
    job: Job, frame: Frame, fewest: int | None, longest_mm: float
) -> tuple[Finding, ...]:  # fmt: skip
    stops = []
    stands = job.brief.raised.post is not None and job.articles.tile is None
    hang = "hang joists between bearers (raised.joists), " if stands else ""
    joist_mm = max(length_mm for _, length_mm in frame.joists[0].sawn)
    if joist_mm > longest_mm:
        stops.append(
            Finding(
                code="FRM-001",
                severity=Severity.STOP,
                subject="joists",
                message="a joist is longer than any timber on sale; turn the boards, make the "
                f"deck shallower, {hang}or name a timber sold longer",
                measured=joist_mm,
                limit=longest_mm,
                unit="mm",
                source=STOCK_SOURCE,
            )
        )
    if fewest is None:
        stops.append(
            Finding(
                code="FRM-002",
                severity=Severity.STOP,
                subject="rims",
                message="no timber on sale is long enough to make a rim that reaches two joists",
                limit=longest_mm,
                unit="mm",
                source=STOCK_SOURCE,
            )
        )
    return tuple(stops)


def cut_fascia(cutter: Cutter, shaped: Shape) -> tuple[Purchase, ...] | Blocked:
    """Return the fascia cut from the stock (nothing if there is none), or why it cannot be."""
    job, fascia = cutter.job, cutter.job.articles.fascia
    if fascia is None or not shaped.edges.faces:
        return ()
    named = [(piece.mark, piece.length_mm) for face in shaped.edges.faces for piece in face.pieces]
    task = Task(
        stock=stock_for(job, fascia.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        pieces=pieces_of(named),
    )
    plan = cut(cutter, task, what="fascia")
    if isinstance(plan, Finding):
        return Blocked(findings=(plan,))
    bought = purchase(
        what="fascia",
        article=fascia.code,
        mark="FB",
        plan=plan,
        named_mm=named,
        minor_digits=job.stock.minor_digits,
    )
    return (bought,)


def in_boxes(
    what: str, article: Screw | CoachScrew | Hanger | Packer | Clip | Tile, need: int
) -> Wanted:
    """Return so many pieces of an article, to be bought by the box."""
    return Wanted(
        what=what,
        article=article.code,
        title=article.title,
        need=need,
        packs=article.packs,
    )
