"""Planted faults on the ground under the deck, and on what the order weighs."""

from decimal import Decimal

from attrs import evolve

from audit.edits import change
from audit.planting import Edit, Fault, both, by, to, without
from drylay.groundwork.model import RootZone
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.site.model import Levels, Site

DIG, FABRIC = "groundwork.dig", "groundwork.fabric"
GRAVEL, PACKING = "groundwork.gravel", "groundwork.packing"
LORRY = "buying.delivery"


def not_told(code: str) -> Edit:
    return lambda plan: evolve(
        plan, findings=tuple(finding for finding in plan.findings if finding.code != code)
    )


def levels(*, underside: float, least: float, most: float) -> Edit:
    """Return an edit that gives the site levels of the ground."""
    known = Levels(
        datum="a peg", limits=(), highest_mm=None, lowest_mm=None, highest_by="", lowest_by="",
        deck_top_mm=underside + 148.0, underside_mm=underside, ground_most_mm=most,
        ground_least_mm=least, marks=(), steps_down=None, rise_mm=None,
        edge_least_mm=least, drop_mm=None, under_most_mm=None, under_least_mm=None,
        fall_to_house_mm=None, garden_lowest_mm=None,
    )  # fmt: skip
    return to("site", Site(exposure="inland", wall_gap_mm=10.0, levels=known))


def _across(plan: Plan) -> Plan:
    """Lay the strips the other way: as cheap a roll, but five strips instead of one."""

    def turned(old: object) -> object:
        strips = tuple(evolve(old.strips[0], mark=f"G{n}", length_mm=795.0) for n in range(1, 6))  # type: ignore[attr-defined]
        return evolve(old, run="across", strips=strips, other_strips=1, other_length_mm=4285.0)  # type: ignore[misc]

    return change(plan, FABRIC, turned)


GROUND: tuple[Fault, ...] = (
    ("AUD-841", "a dig that ends at the cover", to(f"{DIG}.along_mm", 4085.0)),
    ("AUD-841", "a dig without its front margin", by(f"{DIG}.across_mm", -100.0)),
    ("AUD-841", "a house margin of no wall's", to(f"{DIG}.house_margin_mm", 50.0)),
    ("AUD-841", "a dig of no depth", to(f"{DIG}.depth_mm", 0.0)),
    ("AUD-842", "earth rounded down", to(f"{DIG}.solid_m3", 0.204)),
    ("AUD-842", "earth that does not bulk", to(f"{DIG}.loose_m3", 0.205)),
    ("AUD-842", "another bulking", to(f"{DIG}.bulking_ratio", 1.1)),
    ("AUD-843", "no bag for the earth", to(f"{DIG}.bags", 0)),
    ("AUD-843", "a skip more", by(f"{DIG}.skips", 1)),
    ("AUD-843", "a larger bag", to(f"{DIG}.bag_m3", 0.9)),
    ("AUD-843", "a larger skip", to(f"{DIG}.skip_m3", 4.6)),
    ("AUD-843", "earth that goes nobody knows where", to(f"{DIG}.spoil", "next door")),
    ("AUD-844", "a strip left out", to(f"{FABRIC}.strips", ())),
    ("AUD-844", "a strip too short", by(f"{FABRIC}.strips[0].length_mm", -1.0)),
    ("AUD-844", "a strip of another mark", to(f"{FABRIC}.strips[0].mark", "G2")),
    ("AUD-844", "strips askew", to(f"{FABRIC}.run", "askew")),
    ("AUD-844", "a lap below nothing", to(f"{FABRIC}.lap_mm", -1.0)),
    ("AUD-844", "a lap over half the roll", to(f"{FABRIC}.lap_mm", 500.5)),
    ("AUD-844", "a roll narrower than the dig", to(f"{FABRIC}.width_mm", 500.0)),
    ("AUD-845", "the other way miscounted", by(f"{FABRIC}.other_strips", -1)),
    ("AUD-845", "the other way too short", by(f"{FABRIC}.other_length_mm", -100.0)),
    ("AUD-846", "more strips for the same money", _across),
    ("AUD-847", "gravel up to the lawn", to(f"{GRAVEL}.depth_mm", 60.0)),
    ("AUD-847", "a scatter of gravel", both(to(f"{DIG}.depth_mm", 20.0),
                                             to(f"{GRAVEL}.depth_mm", 10.0))),
    ("AUD-847", "gravel above the lawn", both(to(f"{GRAVEL}.below_lawn_mm", -10.0),
                                               to(f"{GRAVEL}.depth_mm", 70.0))),
    ("AUD-847", "gravel rounded down", to(f"{GRAVEL}.volume_m3", 0.17)),
    ("AUD-847", "gravel too light", to(f"{GRAVEL}.mass_kg", 272.5)),
    ("AUD-848", "a packer left out under each joist", to(f"{PACKING}.per_joist", 2)),
    ("AUD-848", "packers of one joist left out", to(f"{PACKING}.count", 30)),
    ("AUD-849", "packers of another height", to(f"{PACKING}.height_least_mm", 25.0)),
    ("AUD-849", "levels nobody looked at", to(f"{PACKING}.levels_known", False)),
    ("AUD-849", "packers too low for the ground", both(
        levels(underside=30.0, least=-20.0, most=0.0),  # 40 to 60 over gravel 10 under
        to(f"{PACKING}.levels_known", True), to(f"{PACKING}.height_least_mm", 40.0),
        to(f"{PACKING}.height_most_mm", 60.0))),
    ("AUD-850", "a frame in the ground", levels(underside=-20.0, least=-20.0, most=0.0)),
    ("AUD-850", "a frame on stilts", levels(underside=200.0, least=-20.0, most=0.0)),
    ("AUD-851", "packers as high as stilts", to(f"{PACKING}.height_most_mm", 151.0)),
    ("AUD-852", "gravel on the lawn", to(DIG, None)),
    ("AUD-853", "buried cables untold", not_told("GND-013")),
    ("AUD-853", "unknown levels untold",
     both(to(f"{PACKING}.levels_known", False), not_told("GND-010"))),
    ("AUD-861", "boards weighed dry", to(f"{LORRY}.parts[0].mass_kg", 47.8)),
    ("AUD-861", "a frame of lighter wood", to(f"{LORRY}.frame_density_kg_m3", 480.0)),
    ("AUD-861", "gravel not weighed", without(f"{LORRY}.parts", 4)),
    ("AUD-861", "a part of another name", to(f"{LORRY}.parts[0].what", "planks")),
    ("AUD-862", "a lorry too light", by(f"{LORRY}.total_kg", -100.0)),
    ("AUD-863", "a lighter lift", to(f"{LORRY}.lift_kg", 8.6)),
    ("AUD-863", "another lift", to(f"{LORRY}.lift_article", "QB-28-145")),
    ("AUD-863", "a shorter lift", to(f"{LORRY}.lift_length_mm", 2400.0)),
    ("AUD-863", "a pack that lifts itself", to(f"{LORRY}.lorry_packs", 0)),
    ("AUD-864", "a stronger builder", to(f"{LORRY}.lift_most_kg", 50.0)),
    ("AUD-864", "a lift for two, untold", to(f"{LORRY}.lift_kg", 27.5)),
    ("AUD-864", "the lorry's work untold", not_told("BUY-005")),
)  # fmt: skip

ROOTS = RootZone(
    opening="O1", middle=Spot(along_mm=500.0, across_mm=500.0), trunk_mm=100.0, radius_mm=1200.0
)

GROUND_SEEN: tuple[Fault, ...] = (
    ("AUD-W45", "roots of no tree", to(f"{DIG}.roots", (ROOTS,))),
    ("AUD-W41", "no dig, against the brief", to(DIG, None)),
    ("AUD-W41", "gravel left out", to(GRAVEL, None)),
    ("AUD-W41", "no groundwork at all", to("groundwork", None)),
    ("AUD-W41", "another fabric", to(f"{FABRIC}.article", "QG-9")),
    ("AUD-W42", "another margin", to(f"{DIG}.margin_mm", 50.0)),
    ("AUD-W42", "another depth", to(f"{DIG}.depth_mm", 50.0)),
    ("AUD-W42", "another lap", to(f"{FABRIC}.lap_mm", 50.0)),
    ("AUD-W42", "gravel deeper under the lawn", to(f"{GRAVEL}.below_lawn_mm", 20.0)),
    ("AUD-W42", "packers further apart", to(f"{PACKING}.spacing_most_mm", 600.0)),
    ("AUD-W43", "a wall nobody told of", to(f"{DIG}.house_margin_mm", 10.0)),
    ("AUD-W43", "earth kept unasked", to(f"{DIG}.spoil", "kept")),
    ("AUD-W44", "another roll", to(f"{FABRIC}.width_mm", 2000.0)),
    ("AUD-W44", "lighter gravel", to(f"{GRAVEL}.density_kg_m3", 1500.0)),
    ("AUD-W44", "packers that reach further", to(f"{PACKING}.reach_most_mm", 60.0)),
    ("AUD-W26", "dearer gravel", to("buying.packs[2].packs[0].price", Decimal("41.00"))),
)
