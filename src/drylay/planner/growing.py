"""How boards grow in the heat: what the brief tells of the weather, and what it comes to."""

from collections.abc import Iterator
from decimal import ROUND_CEILING, Decimal
from fractions import Fraction

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.marks import PER_MM, exact
from drylay.pieces.model import Movement, Pieces
from drylay.pieces.movement import movement_of
from drylay.planner import clips
from drylay.planner.asking import longest_board_mm
from drylay.planner.built import Built
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, Row, brief_says, merchant_says, row
from drylay.reasons import Source
from drylay.supports.model import Supports

PATH = "pieces.movement"
GROWTH, HOTTEST = f"{PATH}.growth_per_k", f"{PATH}.hottest_c"
HUNDRED_G = Decimal("0.1")


def with_movement(job: Job, supports: Supports, pieces: Pieces) -> Pieces:
    """Return the pieces with how they move, and what they weigh, as far as either is told."""
    movement = _movement(job, supports, pieces)
    return evolve(pieces, movement=movement, mass_kg=_mass_kg(job, pieces))


def _movement(job: Job, supports: Supports, pieces: Pieces) -> Movement | None:
    laying_c, rulings = job.brief.climate.laying_c, job.rules.rulings
    if laying_c is None or GROWTH not in rulings:
        return None
    return movement_of(
        pieces,
        growth_per_k=job.rules.value(GROWTH),
        laying_c=laying_c,
        hottest_c=job.rules.value(HOTTEST) if HOTTEST in rulings else None,
        coldest_c=job.brief.climate.coldest_board_c,
        board_mm=longest_board_mm(job.brief, job.articles),
        fixed_mm=clips.fixed_mm(job, supports, pieces),
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
    return found if movement is None else [*found, *_movement_rows(movement, pieces)]


def _movement_rows(movement: Movement, pieces: Pieces) -> Iterator[Row]:
    inputs = (("growth_per_k", movement.growth_per_k), ("laying_c", movement.laying_c))
    yield row(f"{PATH}.laying_c", movement.laying_c, "C", "how warm the boards are laid",
              brief_says("climate.laying_c"))  # fmt: skip
    yield row(f"{PATH}.board_mm", movement.board_mm, "mm",
              "the longest on sale, or the row where that is shorter", ARITHMETIC)  # fmt: skip
    if movement.coldest_c is not None:
        yield row(f"{PATH}.coldest_c", movement.coldest_c, "C", "the coldest the boards get",
                  brief_says("climate.coldest_board_c"))  # fmt: skip
    if movement.growth_mm is not None:
        yield row(f"{PATH}.growth_mm", movement.growth_mm, "mm",
                  "growth of the longest board from laying to hottest", ARITHMETIC,
                  (*inputs, ("hottest_c", movement.hottest_c),
                   ("board_mm", movement.board_mm)))  # fmt: skip
    gap, between = ("end_gap_mm", pieces.end_gap_mm), ("between_mm", movement.between_mm)
    if movement.between_mm is not None:
        yield row(f"{PATH}.between_mm", movement.between_mm, "mm",
                  "the most board between the fixed points of two that meet",
                  ARITHMETIC)  # fmt: skip
    if movement.outer_mm is not None:
        yield row(f"{PATH}.outer_mm", movement.outer_mm, "mm",
                  "how far the ends at the deck's edge move out when hottest", ARITHMETIC,
                  (*inputs, ("hottest_c", movement.hottest_c)))  # fmt: skip
    if movement.narrowest_mm is not None:
        yield row(f"{PATH}.narrowest_mm", movement.narrowest_mm, "mm",
                  "end gap when boards are hottest, each moving from its fixed point", ARITHMETIC,
                  (*inputs, ("hottest_c", movement.hottest_c), between, gap))  # fmt: skip
    if movement.widest_mm is not None:
        yield row(f"{PATH}.widest_mm", movement.widest_mm, "mm",
                  "end gap when boards are coldest, each moving from its fixed point", ARITHMETIC,
                  (*inputs, ("coldest_c", movement.coldest_c), between, gap))  # fmt: skip


def remarks(built: Built) -> list[Finding]:
    """Return what is worth telling about growth."""
    movement, pieces = built.pieces.movement, built.pieces
    if movement is None or not pieces.joint_count:
        return []
    physics = Source(kind="arithmetic", title="docs/conventions.md", clause="Movement of boards")
    found = [
        Finding(
            code="MOV-101",
            severity=Severity.NOTE,
            subject="end gap",
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
                subject="end gap",
                message="boards press against each other when hottest: lay them further apart",
                measured=movement.narrowest_mm,
                limit=0.0,
                unit="mm",
                source=physics,
            )
        )
    return found
