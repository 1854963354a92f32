"""What the lorry brings: the mass of the order, and the heaviest thing that anybody lifts."""

from collections.abc import Mapping
from fractions import Fraction
from math import ceil

from attrs import evolve

from drylay.buying.delivery import (
    COATING_KG_PER_ML,
    FABRIC_KG_PER_MM2,
    LORRY_KG,
    Weights,
    board_kg_per_mm,
    kg_per_mm,
    weigh,
)
from drylay.buying.model import Buying, Delivery
from drylay.findings import Finding, Severity
from drylay.marks import PER_MM, exact
from drylay.materials.stock_model import Board
from drylay.planner.built import Sited
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, Row, merchant_says, row
from drylay.reasons import Inputs, Source

DENSITY = "buying.delivery.density_kg_m3"
FRAME_DENSITY = "buying.delivery.frame_density_kg_m3"
EXTRA = "buying.delivery.extra_mass_kg_m2"
BORDER_DENSITY = "buying.delivery.border_density_kg_m3"
BORDER_EXTRA = "buying.delivery.border_extra_mass_kg_m2"
HSE = Source(kind="from memory", title="HSE, manual handling", clause="25 kg near the body")
ASSUMED = Source(kind="assumption", title="docs/conventions.md", clause="Delivery")


def kg_up(mass_kg: float) -> int:
    """Return whole kg that hold a mass."""
    return ceil(Fraction(repr(mass_kg)))


def delivery(job: Job, buying: Buying) -> Delivery | None:
    """Return what the order weighs, and the heaviest single thing to lift."""
    density, framed, articles = _timber_kg_m3(job), _framed_kg_m3(job), job.articles
    weighed = weigh(buying, _weights(job, density or 0.0, framed or 0.0), density_kg_m3=density)
    weighed = evolve(weighed, frame_density_kg_m3=framed)
    if articles.tile is not None:
        return weighed
    weighed = evolve(
        weighed,
        board_kg_m=articles.board.mass_kg_m,
        extra_mass_kg_m2=job.rules.value(EXTRA),
    )
    if articles.border is None:
        return weighed
    return evolve(
        weighed,
        border_kg_m=articles.border.mass_kg_m,
        border_density_kg_m3=job.rules.value(BORDER_DENSITY),
        border_extra_mass_kg_m2=job.rules.value(BORDER_EXTRA),
    )


def _timber_kg_m3(job: Job) -> float | None:
    """Return how heavy boards and fascia are reckoned: under tiles a fascia as the frame is."""
    return job.rules.value(DENSITY) if DENSITY in job.rules.rulings else _framed_kg_m3(job)


def _framed_kg_m3(job: Job) -> float | None:
    """Return how heavy the frame's timber is reckoned; None without a frame: tiles on pads."""
    return job.rules.value(FRAME_DENSITY) if FRAME_DENSITY in job.rules.rulings else None


def tile_kg(job: Job) -> Fraction:
    """Return what one tile weighs, as sold or by its volume and density; 0 for boards."""
    tile = job.articles.tile
    if tile is None:
        return Fraction(0)
    if tile.mass_kg is not None:
        return Fraction(repr(tile.mass_kg))
    density = job.rules.value("tiling.density_kg_m3")
    each_mm = kg_per_mm(tile.thickness_mm, tile.width_mm, density)
    return each_mm * Fraction(exact(tile.length_mm), PER_MM)


def kg_per_mm_of(job: Job) -> Mapping[str, Fraction]:
    """Return what a mm of each article that is sold by length weighs, at its heaviest."""
    return _weights(job, _timber_kg_m3(job) or 0.0, _framed_kg_m3(job) or 0.0).per_mm


def _weights(job: Job, density_kg_m3: float, frame_kg_m3: float) -> Weights:
    articles = job.articles
    standing = [(each, frame_kg_m3) for each in (*job.stock.timbers, articles.timber)]
    timbers = (*standing, (articles.fascia, density_kg_m3))
    per_mm = {
        each.code: kg_per_mm(each.thickness_mm, each.depth_mm, kg_m3)
        for each, kg_m3 in timbers
        if each is not None
    }
    if articles.tile is None:
        width_mm = job.brief.board.measured_width_mm or articles.board.width_mm
        kg_m3_m2 = density_kg_m3, job.rules.value(EXTRA)
        per_mm[articles.board.code] = _of_board(articles.board, width_mm, *kg_m3_m2)
    if articles.border is not None:
        width_mm = job.brief.border.measured_width_mm or articles.border.width_mm
        kg_m3_m2 = job.rules.value(BORDER_DENSITY), job.rules.value(BORDER_EXTRA)
        per_mm[articles.border.code] = _of_board(articles.border, width_mm, *kg_m3_m2)
    if articles.fabric is not None:
        width = Fraction(exact(articles.fabric.width_mm), PER_MM)
        per_mm[articles.fabric.code] = width * FABRIC_KG_PER_MM2
    brushed = (articles.preserver, articles.end_wax, articles.finish)
    coats = [each for each in brushed if each is not None]
    per_unit = {coat.code: COATING_KG_PER_ML for coat in coats}
    if articles.gravel is not None:
        per_unit[articles.gravel.code] = Fraction(1)
    if articles.concrete is not None:
        per_unit[articles.concrete.code] = Fraction(1)
    if articles.tile is not None:
        per_unit[articles.tile.code] = tile_kg(job)
    singly = frozenset({articles.tile.code}) if articles.tile else frozenset()
    return Weights(per_mm=per_mm, per_unit=per_unit, singly=singly)


def _of_board(board: Board, width_mm: float, density_kg_m3: float, extra_kg_m2: float) -> Fraction:
    """Return what a mm of a board weighs."""
    by_section = kg_per_mm(board.thickness_mm, width_mm, density_kg_m3)
    return board_kg_per_mm(board.mass_kg_m, by_section, extra_kg_m2, width_mm)


def rows(job: Job, built: Sited) -> list[Row]:
    """Return the decisions taken on the delivery; its densities are the family's rules."""
    return rows_of(job, built.buying)


def rows_of(job: Job, buying: Buying) -> list[Row]:
    """Return the decisions taken on the delivery of an order."""
    brought = buying.delivery
    if brought is None:
        return []
    border = job.articles.border
    densities: Inputs = (("density_kg_m3", brought.density_kg_m3),
                         ("frame_density_kg_m3", brought.frame_density_kg_m3))  # fmt: skip
    sold = (("board", brought.board_kg_m, job.articles.board.code),
            ("border", brought.border_kg_m, border.code if border else ""))  # fmt: skip
    return [
        *(row(f"buying.delivery.{part}_kg_m", kg_m, "kg/m", "a metre of board as sold",
              merchant_says(job, code)) for part, kg_m, code in sold if kg_m is not None),
        row("buying.delivery.total_kg", brought.total_kg, "kg",
            "timber by section, length and density, tiles by the piece, gravel by its packs, "
            "coatings at 1.3 kg a litre, fabric at 0.2 kg a m2; screws, hangers, packers and pads "
            "left out", ASSUMED, densities),
        row("buying.delivery.lift_kg", brought.lift_kg, "kg",
            f"the heaviest of {brought.lift_article}: packs over {LORRY_KG} kg are set down by "
            "the lorry", ARITHMETIC, densities),
        row("buying.delivery.lift_most_kg", brought.lift_most_kg, "kg",
            "what one person lifts at most", HSE),
    ]  # fmt: skip


def remarks(built: Sited) -> list[Finding]:
    """Return what is worth telling about lifting."""
    brought = built.buying.delivery
    if brought is None:
        return []
    found = []
    if brought.lift_kg > brought.lift_most_kg:
        found.append(
            Finding(
                code="BUY-004",
                severity=Severity.CAUTION,
                subject="lifting",
                message=f"two people to carry {_lifted(brought)}",
                measured=brought.lift_kg,
                limit=brought.lift_most_kg,
                unit="kg",
                source=HSE,
            )
        )
    if brought.lorry_packs:
        found.append(
            Finding(
                code="BUY-005",
                severity=Severity.NOTE,
                subject="delivery",
                message=f"packs over {LORRY_KG} kg are set down by the lorry: keep a firm place "
                "within its reach",
                measured=float(brought.lorry_packs),
                unit="packs",
                source=ASSUMED,
            )
        )
    return found


def _lifted(brought: Delivery) -> str:
    if brought.lift_length_mm is not None:
        return f"{brought.lift_article} of {brought.lift_length_mm:g} mm"
    return f"a pack of {brought.lift_article}"
