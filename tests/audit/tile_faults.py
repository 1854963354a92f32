"""Planted faults in decks of tiles: the check that is meant to see each, the deck, the edit."""

from decimal import Decimal

from audit.edits import at, change
from audit.planting import Edit, both, by, to, turned, twice, without
from audit.sample_deck import pieces
from audit.tile_decks import deck
from drylay.audit import carried, strength_loose, tile_ways, tiles
from drylay.frame.model import Splice
from drylay.plan.model import Plan

#: Codes of the closed checks of tiles, which a deck of boards has nothing for.
OF_TILES = {
    code for room in (tiles, tile_ways, carried, strength_loose) for code, *_ in room.CHECKS
}
TileFault = tuple[str, str, str, Edit]
WAYS = "tiling.ways_out"


def findings_without(code: str) -> Edit:
    def run(plan: Plan) -> Plan:
        return change(
            plan,
            "findings",
            lambda found: tuple(f for f in found if f.code != code),  # type: ignore[attr-defined]
        )

    return run


def last_joist_astray(plan: Plan) -> Plan:
    last = len(plan.supports.lines) - 1
    return by(f"supports.lines[{last}].offset_mm", -3.0)(plan)


def of_the_framed(path: str) -> Edit:
    """Return an edit that takes a part over from the deck on a frame."""

    def run(plan: Plan) -> Plan:
        return to(path, at(deck("frame"), path))(plan)

    return run


def of_many(plan: Plan) -> Plan:
    """Return a plan of 51 columns and 80 rows: 4080 tiles, more than 4000."""
    column, row = plan.tiling.columns[1], plan.surface.rows[1]
    return both(
        to("tiling.columns", (*plan.tiling.columns, *(column,) * (51 - len(plan.tiling.columns)))),
        to("surface.rows", (*plan.surface.rows, *(row,) * (80 - len(plan.surface.rows)))),
    )(plan)


#: Plates behind joints of rims: one that holds, one too short to.
PLATES = tuple(
    Splice(mark=f"S{n}", rim="RA", offset_mm=1500.0, length_mm=length_mm)
    for n, length_mm in enumerate((300.0, 149.0), start=1)
)

TILE_FAULTS: tuple[TileFault, ...] = (
    ("AUD-951", "pads", "a column moved", by("tiling.columns[2].start_mm", 1.0)),
    ("AUD-951", "pads", "a column left out", without("tiling.columns", 2)),
    ("AUD-951", "pads", "a column with another's mark", to("tiling.columns[1].mark", "C9")),
    ("AUD-951", "pads", "no column at all", to("tiling.columns", ())),
    ("AUD-951", "pads", "a longer cover", by("surface.row_length_mm", 10.0)),
    ("AUD-952", "pads", "a joint stretched", by("tiling.columns[1].gap_mm", 1.0)),
    ("AUD-952", "frame", "a joint of rows closed", to("surface.rows[2].gap_mm", 2.0)),
    ("AUD-953", "pads", "a cut tile told whole", to("tiling.columns[0].cut", False)),
    ("AUD-953", "pads", "one edge cut more", both(by("tiling.columns[0].length_mm", -1.0),
                                                by("tiling.columns[5].length_mm", 1.0))),
    ("AUD-953", "pads", "cut in the middle", both(to("tiling.columns[2].length_mm", 400.0),
                                                 to("tiling.columns[2].cut", True))),
    ("AUD-953", "pads", "cut under a third", to("tiling.least_cut_mm", 300.0)),
    ("AUD-954", "pads", "a whole column more", by("tiling.whole_columns", 1)),
    ("AUD-954", "pads", "another remainder", by("tiling.remainder_mm", 1.0)),
    ("AUD-954", "pads", "another strip", by("tiling.strip_mm", 1.0)),
    ("AUD-955", "pads", "a place more", by("tiling.places", 1)),
    ("AUD-955", "pads", "a cut tile not listed", without("tiling.cut_tiles", 3)),
    ("AUD-955", "pads", "a cut tile of another size", by("tiling.cut_tiles[0].length_mm", 1.0)),
    ("AUD-955", "frame", "whole tiles miscounted", by("tiling.whole", -1)),
    ("AUD-955", "pads", "more tiles than are planned", of_many),
    ("AUD-956", "pads", "a tile sawn for nothing", twice("tiling.sawn", 0)),
    ("AUD-956", "pads", "a cut tile not sawn", without("tiling.sawn[0].pieces", 0)),
    ("AUD-956", "pads", "more out of a tile than it holds",
     both(to("tiling.sawn[0].pieces", ("B1.1", "B1.6", "B2.1")), without("tiling.sawn", 1))),
    ("AUD-956", "pads", "another count out of a tile", to("tiling.along_each", 3)),
    ("AUD-956", "pads", "widths out of a tile miscounted", to("tiling.across_each", 1)),
    ("AUD-956", "pads", "another mark", to("tiling.sawn[0].mark", "TC7")),
    ("AUD-957", "pads", "a tile fewer than there can be", by("tiling.least", -1)),
    ("AUD-957", "pads", "a tile more than is sawn", by("tiling.need", 1)),
    ("AUD-958", "pads", "lighter tiles by the m2", to("tiling.mass_kg_m2", 40.0)),
    ("AUD-958", "pads", "a lighter load", to("tiling.dead_load_kn_m2", 0.4)),
    ("AUD-958", "pads", "another diagonal", by("tiling.diagonal_mm", 1.0)),
    ("AUD-958", "pads", "tiles of nothing", to("tiling.density_kg_m3", 0.0)),
    ("AUD-959", "pads", "silica untold", findings_without("TIL-010")),
    ("AUD-959", "pads", "silica where nothing is cut", to("tiling.cut", 0)),
    ("AUD-959", "frame", "loose edges untold", findings_without("TIL-012")),
    ("AUD-959", "frame", "tiles high up untold", findings_without("TIL-015")),
    ("AUD-959", "pads", "the base's fall untold", findings_without("TIL-019")),
    ("AUD-959", "pads", "a base too flat untold", findings_without("TIL-021")),
    ("AUD-977", "pads", "a base said to fall more", to("tiling.pads.base_fall_mm", 31.0)),
    ("AUD-977", "pads", "a base said to fall as it should",
     to("tiling.pads.base_measured_ratio", 0.0125)),
    ("AUD-977", "pads", "the base's fall left out", to("tiling.pads.base_fall_mm", None)),
    ("AUD-977", "pads", "a pad higher than any", to("tiling.pads.pads[0].height_mm", 41.0)),
    ("AUD-977", "pads", "a pad without its height", to("tiling.pads.pads[7].height_mm", None)),
    ("AUD-960", "frame", "a spare length", lambda plan: change(
        plan, "buying.spares", lambda _: (plan.buying.order[0],))),
    ("AUD-961", "pads", "a way out left out", without(WAYS, 0)),
    ("AUD-961", "pads", "a way out twice", twice(WAYS, 0)),
    ("AUD-961", "frame", "a way out of rows left out", without("surface.ways_out", 0)),
    ("AUD-961", "pads", "another change of the cover", by(f"{WAYS}[0].cover_change_mm", 1.0)),
    ("AUD-962", "pads", "no row at all", to("surface.rows", ())),
    ("AUD-962", "pads", "another way told", to("tiling.way_out", "grow")),
    ("AUD-962", "pads", "no way chosen", to(f"{WAYS}[3].chosen", False)),
    ("AUD-962", "pads", "another cost", to(f"{WAYS}[3].cost", Decimal("1.00"))),
    ("AUD-962", "pads", "a dishonest way chosen", to(f"{WAYS}[3].honest", False)),
    ("AUD-962", "pads", "another joint of the way", to(f"{WAYS}[3].gap_mm", 3.0)),
    ("AUD-963", "pads", "a rule measured otherwise", by(f"{WAYS}[2].rules[3].measured", 5.0)),
    ("AUD-963", "pads", "a rule of another limit", by(f"{WAYS}[2].rules[3].limit", -5.0)),
    ("AUD-963", "pads", "a rule misjudged", to(f"{WAYS}[0].rules[2].met", True)),
    ("AUD-963", "pads", "a rule left out", without(f"{WAYS}[2].rules", 3)),
    ("AUD-963", "pads", "a way out that runs otherwise", to(f"{WAYS}[0].run", "across")),
    ("AUD-964", "pads", "tiles turned against their rows", to("tiling.run", "across")),
    ("AUD-964", "pads", "the longer side across", to("tiling.tile_length_mm", 500.0)),
    ("AUD-971", "pads", "pads called a frame", to("tiling.support", "frame")),
    ("AUD-964", "oblong", "the other lay the same way round", to("tiling.other.run", "along")),
    ("AUD-971", "pads", "a frame under pads", of_the_framed("supports")),
    ("AUD-971", "pads", "fascia before pads", of_the_framed("edges")),
    ("AUD-971", "pads", "pieces of board under tiles", to("pieces", pieces())),
    ("AUD-971", "frame", "no bedding", to("tiling.bedding", None)),
    ("AUD-972", "frame", "a joist beside its joint", by("supports.lines[2].offset_mm", 3.0)),
    ("AUD-972", "frame", "a joist left out", without("supports.lines", 3)),
    ("AUD-972", "frame", "the last joist short of the frame's end", last_joist_astray),
    ("AUD-972", "frame", "lines miscounted", by("supports.line_count", 1)),
    ("AUD-972", "frame", "more bays to a tile", to("tiling.bedding.bays_per_tile", 3)),
    ("AUD-973", "frame", "joists too near", to("supports.lines[1].offset_mm", 60.0)),
    ("AUD-973", "frame", "a plate too short to hold", to("frame.splices", PLATES)),
    ("AUD-974", "frame", "more bearing", by("tiling.bedding.bearing_mm", 2.0)),
    ("AUD-974", "frame", "fewer rests", by("tiling.bedding.rests", -1)),
    ("AUD-975", "pads", "a pad left out", without("tiling.pads.pads", 4)),
    ("AUD-975", "pads", "a pad moved", by("tiling.pads.pads[4].start_mm", 5.0)),
    ("AUD-975", "pads", "pads miscounted", by("tiling.pads.count", -1)),
    ("AUD-975", "pads", "corners miscounted", by("tiling.pads.corners", 1)),
    ("AUD-975", "pads", "more under each middle", to("tiling.pads.at_centre", 2)),
    ("AUD-975", "pads", "nearer along edges", to("tiling.pads.at_edges_most_mm", 300.0)),
    ("AUD-976", "pads", "a pad outside", to("tiling.pads.pads[0].start_mm", -40.0)),
    ("AUD-977", "pads", "lower pads", by("tiling.pads.height_least_mm", -5.0)),
    ("AUD-977", "pads", "a base that falls more", to("tiling.pads.base_fall_ratio", 0.02)),
    ("AUD-977", "pads", "levels said not to be known", to("tiling.pads.levels_known", False)),
    ("AUD-977", "pads", "pads that reach less far", to("tiling.pads.reach_most_mm", 35.0)),
    ("AUD-007", "frame", "no frame under tiles", to("frame", None)),
    ("AUD-007", "pads", "no edges", to("edges", None)),
    ("AUD-741", "pads", "fewer tiles bought", by("buying.packs[0].need", -1)),
    ("AUD-861", "pads", "a lighter delivery", by("buying.delivery.parts[0].mass_kg", -10.0)),
    ("AUD-863", "pads", "a lighter lift", by("buying.delivery.lift_kg", -1.0)),
    ("AUD-874", "pads", "another underside", by("site.levels.underside_mm", -45.0)),
    ("AUD-903", "pads", "no reason for the tiles needed",
     lambda plan: change(plan, "reasons.decisions", lambda all_: tuple(
         d for d in all_ if d.path != "tiling.need"))),  # type: ignore[attr-defined]
    ("AUD-913", "pads", "no task for the pads", without("work.tasks", 3)),
    ("AUD-914", "pads", "tiles before pads", turned("work.tasks", 3, 4)),
    ("AUD-916", "pads", "a hold point left out", to("work.tasks[4].holds", ())),
    ("AUD-917", "pads", "no spacer", without("work.tools", 9)),
    ("AUD-918", "pads", "more hours", by("work.tasks[4].most_h", 5.0)),
)  # fmt: skip

TILE_SEEN: tuple[TileFault, ...] = (
    ("AUD-W71", "pads", "on another thing", to("tiling.support", "frame")),
    ("AUD-W71", "pads", "a cover grown unasked", by("tiling.cover_change_mm", 10.0)),
    ("AUD-W71", "pads", "another pad", to("tiling.pads.article", "PD-40")),
    ("AUD-W72", "pads", "a way out that may grow unasked", to(f"{WAYS}[1].rules[2].limit", 999.0)),
    ("AUD-W72", "pads", "a way the brief prefers passed over",
     both(to(f"{WAYS}[1].honest", True), to(f"{WAYS}[1].cost", Decimal(1)))),
    ("AUD-W54", "resting", "a top nobody ruled", by("site.levels.deck_top_mm", 1.0)),
    ("AUD-W73", "timber", "a lighter square", by("tiling.tile_mass_kg", -0.5)),
    ("AUD-W73", "timber", "squares of denser wood", to("tiling.density_kg_m3", 800.0)),
    ("AUD-W73", "pads", "another length", to("tiling.tile_length_mm", 610.0)),
    ("AUD-W73", "pads", "a lighter tile", to("tiling.tile_mass_kg", 16.0)),
    ("AUD-W73", "pads", "another family", to("families[0].id", "softwood")),
    ("AUD-W74", "pads", "pads that reach further", to("tiling.pads.reach_most_mm", 90.0)),
    ("AUD-W75", "pads", "a pad of another height", by("tiling.pads.pads[3].height_mm", 1.0)),
    ("AUD-W03", "pads", "a cover nobody wished", by("surface.cover_along_mm", 1.0)),
    ("AUD-W09", "pads", "a limit the family never gave", to("tiling.least_cut_mm", 100.0)),
    ("AUD-W09", "frame", "bays the family never gave", to("tiling.bedding.bays_per_tile", 1)),
    ("AUD-W09", "frame", "a frame of lighter wood than its family's",
     to("buying.delivery.frame_density_kg_m3", 480.0)),
    ("AUD-W16", "pads", "the family's caution on silica left out", to("cautions", ())),
    ("AUD-W26", "pads", "another price", to("buying.packs[0].packs[0].price", Decimal(1))),
)  # fmt: skip
