"""The ground under the deck: dig, fabric, gravel, packers."""

from attrs import evolve, fields, frozen

from drylay.brief.model import GroundworkWish
from drylay.buying.model import Purchase
from drylay.buying.purchase import pieces_of, purchase
from drylay.cutting.model import Task
from drylay.findings import Finding
from drylay.frame.model import Frame
from drylay.groundwork.dig import lay_dig
from drylay.groundwork.gravel import BELOW_LAWN_MM, DENSITY_KG_M3, lay_gravel
from drylay.groundwork.model import (
    Dig,
    Fabric,
    FabricStrip,
    GravelBed,
    Groundwork,
    Packing,
)
from drylay.groundwork.packing import SPACING_MOST_MM, clearance, place_packers, sunk_mm
from drylay.groundwork.strips import Strips, both_ways, named
from drylay.marks import exact
from drylay.materials.stock_model import Fabric as Roll
from drylay.materials.stock_model import Pack
from drylay.planner import ground_faults, ground_rows, lorry
from drylay.planner.built import Covered, Sited, Wanted
from drylay.planner.buy import Blocked, in_boxes, stock_for
from drylay.planner.cuts import Cutter, cut
from drylay.planner.job import Job
from drylay.planner.rows import Row
from drylay.site.model import Site

#: How far the dig reaches beyond the cover, how deep turf is taken up, how far strips of fabric
#: lap, where earth goes. Common practice, no source.
MARGIN_MM = 100.0
STRIP_MM = 50.0
LAP_MM = 100.0
SPOIL = "skip"
#: Keys of a brief's groundwork that speak of packers alone: they ask for no dig.
PACKER_KEYS = ("packer", "packer_spacing_mm")

delivery = lorry.delivery


@frozen(kw_only=True)
class Beneath:
    """What lies under the deck, and what of it is cut from rolls."""

    groundwork: Groundwork | None
    purchases: tuple[Purchase, ...] = ()


@frozen(kw_only=True)
class _Laid:
    """Strips one way with their purchase, or why these cannot be had."""

    run: str
    strips: tuple[FabricStrip, ...]
    bought: Purchase | Finding


def lay_ground(
    cutter: Cutter, shaped: Covered, frame: Frame | None, site: Site
) -> Beneath | Blocked:
    """Return what lies under the deck, or every reason why it cannot be had.

    Without a frame pads stand on the ground, which are judged apart.
    """
    job = cutter.job
    dig = _dig(job, shaped, site)
    gravel = gravel_bed(job, dig) if dig else None
    packing = _packing(job, frame, site, dig, gravel) if frame else None
    judge = ground_faults.stops if frame else ground_faults.stops_under_pads
    stops = (
        *ground_faults.unfit_fabric(job, lap_mm(job)),
        *judge(job, site, dig=dig, gravel=gravel, packing=packing),
    )
    laid = None if stops or dig is None else _fabric(cutter, dig)
    return beneath(stops, laid, dig=dig, gravel=gravel, packing=packing)


def beneath(
    stops: tuple[Finding, ...],
    laid: tuple[Fabric, Purchase] | Blocked | None,
    *,
    dig: Dig | None,
    gravel: GravelBed | None,
    packing: Packing | None,
) -> Beneath | Blocked:
    """Return what lies under a deck, put together, or every reason why it cannot be had."""
    stops += laid.findings if isinstance(laid, Blocked) else ()
    if stops or isinstance(laid, Blocked):
        return Blocked(findings=stops)
    if dig is None and packing is None:
        return Beneath(groundwork=None)
    fabric, bought = laid or (None, None)
    laid_out = Groundwork(dig=dig, fabric=fabric, gravel=gravel, packing=packing)
    return Beneath(groundwork=laid_out, purchases=(bought,) if bought else ())


def dig_is_wished(wish: GroundworkWish) -> bool:
    """Return whether a brief says anything of the ground that needs a dig."""
    names = [field.name for field in fields(GroundworkWish) if field.name not in PACKER_KEYS]
    return any(getattr(wish, name) is not None for name in names)


def lap_mm(job: Job) -> float:
    """Return how far strips of fabric lap."""
    wish = job.brief.groundwork.lap_mm
    return LAP_MM if wish is None else wish


@frozen(kw_only=True)
class DigAsked:
    """How a brief wants the dig, or what holds where it says nothing."""

    margin_mm: float
    house_margin_mm: float
    depth_mm: float
    spoil: str


def dig_asked(job: Job, site: Site) -> DigAsked:
    """Return how the dig is wanted; the house's margin is what its wall leaves, if there is one."""
    wish = job.brief.groundwork
    margin_mm = MARGIN_MM if wish.margin_mm is None else wish.margin_mm
    at_wall_mm = min(margin_mm, site.wall_gap_mm)
    return DigAsked(
        margin_mm=margin_mm,
        house_margin_mm=at_wall_mm if site.beside_house else margin_mm,
        depth_mm=STRIP_MM if wish.strip_mm is None else wish.strip_mm,
        spoil=wish.spoil or SPOIL,
    )


def _dig(job: Job, shaped: Covered, site: Site) -> Dig | None:
    if not dig_is_wished(job.brief.groundwork):
        return None
    asked, surface = dig_asked(job, site), shaped.surface
    return lay_dig(
        cover_along_mm=surface.cover_along_mm,
        cover_across_mm=surface.cover_across_mm,
        margin_mm=asked.margin_mm,
        house_margin_mm=asked.house_margin_mm,
        depth_mm=asked.depth_mm,
        spoil=asked.spoil,
    )


def gravel_bed(job: Job, dig: Dig) -> GravelBed | None:
    """Return the gravel over a dig, None where none is named."""
    gravel, wish = job.articles.gravel, job.brief.groundwork.below_lawn_mm
    if gravel is None:
        return None
    return lay_gravel(
        dig,
        article=gravel.code,
        below_lawn_mm=BELOW_LAWN_MM if wish is None else wish,
        density_kg_m3=gravel.density_kg_m3 or DENSITY_KG_M3,
    )


def _packing(
    job: Job, frame: Frame, site: Site, dig: Dig | None, gravel: GravelBed | None
) -> Packing | None:
    packer = job.articles.packer
    if packer is None:
        return None
    return place_packers(
        frame,
        packer,
        spacing_most_mm=packer_spacing_mm(job),
        room=clearance(site.levels, sunk_mm(dig, gravel)),
    )


def packer_spacing_mm(job: Job) -> float:
    """Return how far apart packers stand at most."""
    wish = job.brief.groundwork.packer_spacing_mm
    return SPACING_MOST_MM if wish is None else wish


def _fabric(cutter: Cutter, dig: Dig) -> tuple[Fabric, Purchase] | Blocked | None:
    """Return the fabric over a dig, None where none is named."""
    roll = cutter.job.articles.fabric
    if roll is None:
        return None
    ways = both_ways(dig, roll_mm=roll.width_mm, lap_mm=lap_mm(cutter.job))
    return cheaper_way(cutter, roll, ways)


def cheaper_way(
    cutter: Cutter, roll: Roll, ways: tuple[Strips, Strips]
) -> tuple[Fabric, Purchase] | Blocked:
    """Return the strips that cost less, of either way; of like price the fewer, then along."""
    tried = [
        _Laid(run=way.run, strips=named(way), bought=_strips_bought(cutter, roll, way))
        for way in ways
    ]
    priced = [(laid, laid.bought) for laid in tried if isinstance(laid.bought, Purchase)]
    if not priced:
        refused = [laid.bought for laid in tried if isinstance(laid.bought, Finding)]
        shorter_mm = min(max(way.lengths_mm) for way in ways)
        return Blocked(findings=(ground_faults.no_roll(cutter.job, shorter_mm, roll, refused),))
    best, bought = min(priced, key=lambda pair: (pair[1].cost, len(pair[0].strips)))
    other = next(laid for laid in tried if laid is not best)
    fabric = Fabric(
        article=roll.code,
        width_mm=roll.width_mm,
        lap_mm=lap_mm(cutter.job),
        run=best.run,
        strips=best.strips,
        other_strips=len(other.strips),
        other_length_mm=max(strip.length_mm for strip in other.strips),
        other_note=_why_not(other.bought, bought),
    )
    return fabric, bought


def _why_not(other: Purchase | Finding, taken: Purchase) -> str:
    if isinstance(other, Finding):
        return other.message
    if other.cost > taken.cost:
        return f"dearer: {other.cost}"
    return f"costs as much: {other.cost}"


def _strips_bought(cutter: Cutter, roll: Roll, strips: Strips) -> Purchase | Finding:
    job = cutter.job
    strip_names = [(strip.mark, strip.length_mm) for strip in named(strips)]
    task = Task(
        stock=stock_for(job, roll.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        pieces=pieces_of(strip_names),
    )
    plan = cut(cutter, task, what="ground fabric")
    if isinstance(plan, Finding):
        return evolve(plan, subject=f"ground fabric, strips {strips.run}")
    return purchase(
        what="fabric",
        article=roll.code,
        mark="GF",
        plan=plan,
        named_mm=strip_names,
        minor_digits=job.stock.minor_digits,
    )


def wanted(job: Job, groundwork: Groundwork | None) -> tuple[Wanted, ...]:
    """Return what of it is to be bought in packs."""
    if groundwork is None:
        return ()
    needs = []
    gravel, packer = job.articles.gravel, job.articles.packer
    if groundwork.gravel is not None and gravel is not None:
        needs.append(
            Wanted(
                what="gravel",
                article=gravel.code,
                title=gravel.title,
                need=lorry.kg_up(groundwork.gravel.mass_kg),
                packs=tuple(Pack(count=bag.kg, price=bag.price) for bag in gravel.packs),
                unit="kg",
            )
        )
    if groundwork.packing is not None and packer is not None:
        needs.append(in_boxes("packers", packer, groundwork.packing.count))
    return tuple(needs)


def rows(job: Job, built: Sited) -> list[Row]:
    """Return the decisions taken here."""
    return [*ground_rows.rows(job, built), *lorry.rows(job, built)]


def remarks(built: Sited) -> list[Finding]:
    """Return what is worth telling about them."""
    return [*ground_faults.remarks(built), *lorry.remarks(built)]
