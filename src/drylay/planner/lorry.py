"""What the lorry brings: the mass of the order, and the heaviest thing that anybody lifts."""

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
from drylay.planner.built import Standing
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, Row, merchant_says, row
from drylay.reasons import Source

DENSITY = "buying.delivery.density_kg_m3"
EXTRA = "buying.delivery.extra_mass_kg_m2"
#: Softwood of a frame, fresh from treatment, where no family of boards rules on it. From memory.
TIMBER_KG_M3 = 700.0
HSE = Source(kind="from memory", title="HSE, manual handling", clause="25 kg near the body")
ASSUMED = Source(kind="assumption", title="docs/conventions.md", clause="Delivery")


def kg_up(mass_kg: float) -> int:
    """Return whole kg that hold a mass."""
    return ceil(Fraction(repr(mass_kg)))


def delivery(job: Job, buying: Buying) -> Delivery | None:
    """Return what the order weighs, and the heaviest single thing to lift."""
    density, board = _timber_kg_m3(job), job.articles.board
    weighed = weigh(buying, _weights(job, density or 0.0), density_kg_m3=density)
    if job.articles.tile is not None:
        return weighed
    return evolve(weighed, board_kg_m=board.mass_kg_m, extra_mass_kg_m2=job.rules.value(EXTRA))


def _timber_kg_m3(job: Job) -> float | None:
    """Return how heavy timber is reckoned: boards by their family, a frame under tiles as softwood.

    None where there is none: tiles on pads.
    """
    if DENSITY in job.rules.rulings:
        return job.rules.value(DENSITY)
    return TIMBER_KG_M3 if job.articles.timber.code else None


def _sections(job: Job) -> dict[str, tuple[float, float]]:
    """Return the section of everything bought by length that is timber."""
    articles = job.articles
    boards = {} if articles.tile else {articles.board.code: _board_section(job)}
    timbers = [timber for timber in (articles.timber, articles.fascia) if timber is not None]
    return boards | {each.code: (each.thickness_mm, each.depth_mm) for each in timbers}


def _board_section(job: Job) -> tuple[float, float]:
    board = job.articles.board
    return board.thickness_mm, job.brief.board.measured_width_mm or board.width_mm


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


def _weights(job: Job, density_kg_m3: float) -> Weights:
    articles = job.articles
    per_mm = {code: kg_per_mm(*section, density_kg_m3) for code, section in _sections(job).items()}
    board = articles.board
    if articles.tile is None:
        extra_kg_m2, width_mm = job.rules.value(EXTRA), _board_section(job)[1]
        by_section = per_mm[board.code]
        per_mm[board.code] = board_kg_per_mm(board.mass_kg_m, by_section, extra_kg_m2, width_mm)
    if articles.fabric is not None:
        width = Fraction(exact(articles.fabric.width_mm), PER_MM)
        per_mm[articles.fabric.code] = width * FABRIC_KG_PER_MM2
    brushed = (articles.preserver, articles.end_wax, articles.finish)
    coats = [each for each in brushed if each is not None]
    per_unit = {coat.code: COATING_KG_PER_ML for coat in coats}
    if articles.gravel is not None:
        per_unit[articles.gravel.code] = Fraction(1)
    if articles.tile is not None:
        per_unit[articles.tile.code] = tile_kg(job)
    singly = frozenset({articles.tile.code}) if articles.tile else frozenset()
    return Weights(per_mm=per_mm, per_unit=per_unit, singly=singly)


def rows(job: Job, built: Standing) -> list[Row]:
    """Return the decisions taken on the delivery; its density is the family's rule."""
    brought = built.buying.delivery
    if brought is None:
        return []
    sold = [
        row("buying.delivery.board_kg_m", brought.board_kg_m, "kg/m", "a metre of board as sold",
            merchant_says(job, job.articles.board.code)),
    ]  # fmt: skip
    return [
        *(sold if brought.board_kg_m is not None else ()),
        row("buying.delivery.total_kg", brought.total_kg, "kg",
            "timber by section, length and density, tiles by the piece, gravel by its packs, "
            "coatings at 1.3 kg a litre, fabric at 0.2 kg a m2; screws, hangers, packers and pads "
            "left out", ASSUMED, (("density_kg_m3", brought.density_kg_m3),)),
        row("buying.delivery.lift_kg", brought.lift_kg, "kg",
            f"the heaviest of {brought.lift_article}: packs over {LORRY_KG} kg are set down by "
            "the lorry", ARITHMETIC, (("density_kg_m3", brought.density_kg_m3),)),
        row("buying.delivery.lift_most_kg", brought.lift_most_kg, "kg",
            "what one person lifts at most", HSE),
    ]  # fmt: skip


def remarks(built: Standing) -> list[Finding]:
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
