"""How boards grow in the heat: what the brief tells of the weather, and what it comes to."""

from collections.abc import Iterator
from decimal import ROUND_CEILING, Decimal
from fractions import Fraction

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.marks import PER_MM, exact
from drylay.pieces.model import BorderMovement, BorderOtherDay, Movement, Pieces
from drylay.pieces.movement import movement_of
from drylay.planner import clips
from drylay.planner.asking import longest_board_mm
from drylay.planner.built import Built
from drylay.planner.buy import Shape
from drylay.planner.job import Articles, Job
from drylay.planner.rows import ARITHMETIC, Row, brief_says, merchant_says, row
from drylay.reasons import Source

Moving = Movement | BorderMovement
PATH, EDGE = "pieces.movement", "pieces.border.movement"
#: What a product may grow at most.
GROWTH_MOST_PER_K = 50e-6
PRODUCT_STANDARD = Source(
    kind="from memory", title="EN 15534", clause="growth of length 50e-6 per K at most"
)
HUNDRED_G = Decimal("0.1")


def with_movement(job: Job, shaped: Shape, pieces: Pieces) -> Pieces:
    """Return the pieces with how they move, and what they weigh, as far as either is told."""
    edged = {row.mark for row in shaped.surface.rows if row.border}
    field = tuple(piece for piece in pieces.pieces if piece.row not in edged)
    fixed = clips.fixed_mm(job, shaped.supports, pieces)
    moved = evolve(
        pieces,
        movement=_movement(job, job.articles, PATH, evolve(pieces, pieces=field), fixed),
        mass_kg=_mass_kg(job, pieces),
    )
    border, board = pieces.border, job.articles.border
    if border is None or board is None:
        return moved
    laid = tuple(piece for piece in pieces.pieces if piece.row in edged)
    edge = evolve(pieces, pieces=laid, end_gap_mm=border.end_gap_mm)
    movement = _movement(job, evolve(job.articles, board=board), EDGE, edge, fixed)
    named = None if movement is None else _of_the_border(movement)
    return evolve(moved, border=evolve(border, movement=named))


def _of_the_border(movement: Movement) -> BorderMovement:
    """Return the same figures as the border's, whose reasons stand under its own paths."""
    told = {name: getattr(movement, name) for name in BorderMovement.__annotations__}
    days = tuple(
        BorderOtherDay(laying_c=day.laying_c, end_gap_mm=day.end_gap_mm)
        for day in movement.other_days
    )
    return BorderMovement(**{**told, "other_days": days})


def _movement(
    job: Job, articles: Articles, path: str, pieces: Pieces, fixed_mm: dict[str, float]
) -> Movement | None:
    """Return how these pieces of the articles' board move, as rules at a path have it."""
    laying_c, rulings = job.brief.climate.laying_c, job.rules.rulings
    growth, hottest = f"{path}.growth_per_k", f"{path}.hottest_c"
    if laying_c is None or growth not in rulings:
        return None
    return movement_of(
        pieces,
        growth_per_k=job.rules.value(growth),
        laying_c=laying_c,
        hottest_c=job.rules.value(hottest) if hottest in rulings else None,
        coldest_c=job.brief.climate.coldest_board_c,
        board_mm=longest_board_mm(job.brief, articles),
        fixed_mm=fixed_mm,
    )


def _mass_kg(job: Job, pieces: Pieces) -> float | None:
    """Return what the boards weigh as laid, a ripped one by its share, up to the next 100 g."""
    board = job.articles.board
    if board.mass_kg_m is None or job.articles.border is not None:
        return None  # of two boards only the delivery tells what they weigh
    whole = exact(job.brief.board.measured_width_mm or board.width_mm)
    metres = sum(
        Fraction(exact(piece.length_mm), 1000 * PER_MM) * Fraction(exact(piece.width_mm), whole)
        for piece in pieces.pieces
    )
    mass = metres * Fraction(repr(board.mass_kg_m))
    told = (Decimal(mass.numerator) / Decimal(mass.denominator)).quantize(HUNDRED_G, ROUND_CEILING)
    return float(told)


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here; rules on growth and the hottest board are adopted apart."""
    pieces, movement = built.pieces, built.pieces.movement
    found = []
    if pieces.mass_kg is not None:
        found.append(
            row("pieces.mass_kg", pieces.mass_kg, "kg", "all boards as laid, by what a metre "
                "weighs as sold", merchant_says(job, built.surface.board_article),
                (("mass_kg_m", job.articles.board.mass_kg_m),)))  # fmt: skip
    edge = pieces.border.movement if pieces.border else None
    if movement is not None:
        found += _movement_rows(PATH, movement, pieces.end_gap_mm)
    if pieces.border is not None and edge is not None:
        found += _movement_rows(EDGE, edge, pieces.border.end_gap_mm)
    return found


def _movement_rows(path: str, movement: Moving, end_gap_mm: float) -> Iterator[Row]:
    inputs = (("growth_per_k", movement.growth_per_k), ("laying_c", movement.laying_c))
    yield row(f"{path}.laying_c", movement.laying_c, "C", "how warm the boards are laid",
              brief_says("climate.laying_c"))  # fmt: skip
    yield row(f"{path}.board_mm", movement.board_mm, "mm",
              "the longest on sale, or the row where that is shorter", ARITHMETIC)  # fmt: skip
    if movement.coldest_c is not None:
        yield row(f"{path}.coldest_c", movement.coldest_c, "C", "the coldest the boards get",
                  brief_says("climate.coldest_board_c"))  # fmt: skip
    if movement.growth_mm is not None:
        yield row(f"{path}.growth_mm", movement.growth_mm, "mm",
                  "growth of the longest board from laying to hottest", ARITHMETIC,
                  (*inputs, ("hottest_c", movement.hottest_c),
                   ("board_mm", movement.board_mm)))  # fmt: skip
    gap, between = ("end_gap_mm", end_gap_mm), ("between_mm", movement.between_mm)
    if movement.between_mm is not None:
        yield row(f"{path}.between_mm", movement.between_mm, "mm",
                  "the most board between the fixed points of two that meet",
                  ARITHMETIC)  # fmt: skip
    if movement.outer_mm is not None:
        yield row(f"{path}.outer_mm", movement.outer_mm, "mm",
                  "how far the ends at the deck's edge move out when hottest", ARITHMETIC,
                  (*inputs, ("hottest_c", movement.hottest_c)))  # fmt: skip
    if movement.narrowest_mm is not None:
        yield row(f"{path}.narrowest_mm", movement.narrowest_mm, "mm",
                  "end gap when boards are hottest, each moving from its fixed point", ARITHMETIC,
                  (*inputs, ("hottest_c", movement.hottest_c), between, gap))  # fmt: skip
    if movement.widest_mm is not None:
        yield row(f"{path}.widest_mm", movement.widest_mm, "mm",
                  "end gap when boards are coldest, each moving from its fixed point", ARITHMETIC,
                  (*inputs, ("coldest_c", movement.coldest_c), between, gap))  # fmt: skip


def remarks(built: Built) -> list[Finding]:
    """Return what is worth telling about growth, of the field and of a border."""
    pieces, border = built.pieces, built.pieces.border
    found = _told("end gap", pieces.movement, pieces.joint_count)
    found += _grows_much("deck boards", pieces.movement)
    if border is not None:
        found += _told("border's end gap", border.movement, border.joint_count)
        found += _grows_much("border boards", border.movement)
    return found


def _grows_much(subject: str, movement: Moving | None) -> list[Finding]:
    """Return the caution on boards that grow more in the heat than their standard lets them."""
    if movement is None or movement.growth_per_k <= GROWTH_MOST_PER_K:
        return []
    return [
        Finding(
            code="MOV-106",
            severity=Severity.CAUTION,
            subject=subject,
            message="their record has them grow more than the 50e-6 per K that the standard of "
            "such boards allows: look for a slip in it, or ask the maker",
            measured=movement.growth_per_k,
            unit="per K",
            source=PRODUCT_STANDARD,
        )
    ]


def _told(subject: str, movement: Moving | None, joints: int) -> list[Finding]:
    if movement is None or not joints:
        return []
    physics = Source(kind="arithmetic", title="docs/conventions.md", clause="Movement of boards")
    found = [
        Finding(
            code="MOV-101",
            severity=Severity.NOTE,
            subject=subject,
            message="the temperature on laying day sets the end gap: where the boards are laid "
            "colder than told, plan again, for they grow more",
            measured=movement.laying_c,
            unit="C",
            source=physics,
        )
    ]
    if movement.narrowest_mm is not None and movement.narrowest_mm < 0:
        found.append(
            Finding(
                code="MOV-102",
                severity=Severity.CAUTION,
                subject=subject,
                message="boards press against each other when hottest: lay them further apart",
                measured=movement.narrowest_mm,
                limit=0.0,
                unit="mm",
                source=physics,
            )
        )
    return found
