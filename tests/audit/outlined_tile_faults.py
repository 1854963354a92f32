"""Planted faults in tiles on an outline: the check that is meant to see each, and the edit."""

from attrs import evolve

from audit.edits import put
from audit.outlined_planting import CROSSED
from audit.outlined_sample import box
from audit.planting import Edit, Fault, by, to, twice, without
from audit.tile_faults import findings_without
from drylay.audit import outlined_tile_checks
from drylay.plan.model import Plan

#: Codes of the closed checks of tiles on an outline, which no other deck has anything for.
OF_OUTLINED_TILES = {code for code, *_ in outlined_tile_checks.CHECKS}


def on(kind: str, edit: str, *more: object) -> Edit:
    """Return an edit of the first tile of a kind: "whole", "cut", "shaped", "hatch"."""

    def run(plan: Plan) -> Plan:
        tiles = plan.tiles.tiles  # type: ignore[union-attr]
        wanted = {
            "whole": lambda t: not t.cut,
            "cut": lambda t: t.cut and not t.shaped,
            "shaped": lambda t: t.shaped,
            "hatch": lambda t: bool(t.hatch),
        }[kind]
        at = next(index for index, tile in enumerate(tiles) if wanted(tile))
        path = f"tiles.tiles[{at}]"
        if edit == "drop":
            return without("tiles.tiles", at)(plan)
        if edit == "twice":
            return twice("tiles.tiles", at)(plan)
        verb = by if isinstance(more[0], float) and edit != "=" else to
        field = edit if edit != "=" else str(more[1])
        return verb(f"{path}.{field}", more[0])(plan)  # type: ignore[arg-type]

    return run


def middle_moved(plan: Plan) -> Plan:
    """Return a plan with the last pad, which stands under a tile's middle, 40 mm aside."""
    last = len(plan.tiles.pads.pads) - 1  # type: ignore[union-attr]
    return by(f"tiles.pads.pads[{last}].at.along_mm", 40.0)(plan)


def hatch_forgotten(plan: Plan) -> Plan:
    """Return a plan whose hatch no tiles lift out for."""
    tiles = tuple(evolve(tile, hatch="") for tile in plan.tiles.tiles)  # type: ignore[union-attr]
    return put(plan, "tiles.tiles", tiles)


def one_inside(plan: Plan) -> Plan:
    """Return a plan with a second tile in the place of a whole one, all of it over that."""
    tiles = plan.tiles.tiles  # type: ignore[union-attr]
    whole = next(tile for tile in tiles if not tile.cut)
    near = min(spot.along_mm for spot in whole.corners), min(s.across_mm for s in whole.corners)
    within = box(near[0] + 100.0, near[1] + 100.0, near[0] + 200.0, near[1] + 200.0)
    return put(plan, "tiles.tiles", (*tiles, evolve(whole, corners=within)))


def into_the_post(plan: Plan) -> Plan:
    """Return a plan with a corner of a tile in the middle of the post's hole."""
    hole = plan.outline.openings[0].corners  # type: ignore[union-attr]
    middle = evolve(
        hole[0],
        along_mm=(hole[0].along_mm + hole[2].along_mm) / 2,
        across_mm=(hole[0].across_mm + hole[2].across_mm) / 2,
    )
    return to("tiles.tiles[0].corners[2]", middle)(plan)


PAD = "tiles.pads.pads[0]"
OUTLINED_TILE_FAULTS: tuple[Fault, ...] = (
    ("AUD-940", "another row's mark", on("whole", "mark", "B9.9")),
    ("AUD-940", "a longer box", on("cut", "length_mm", 5.0)),
    ("AUD-940", "a corner out of its place", on("whole", "corners[2].along_mm", 8.0)),
    ("AUD-940", "a tile there twice", on("whole", "twice")),
    ("AUD-940", "no shape", on("whole", "corners", CROSSED)),
    ("AUD-941", "a tile left out", on("whole", "drop")),
    ("AUD-941", "a tile smaller than its place", on("cut", "corners[2].along_mm", -8.0)),
    ("AUD-942", "over the house wall", on("cut", "corners[0].across_mm", -9.0)),
    ("AUD-942", "into the post's hole", into_the_post),
    ("AUD-942", "two over each other", one_inside),
    ("AUD-943", "cut, not told", on("cut", "cut", False)),
    ("AUD-943", "whole, told cut", on("whole", "cut", True)),
    ("AUD-943", "straight, told shaped", on("cut", "shaped", True)),
    ("AUD-943", "one whole tile more", by("tiles.whole", 1)),
    ("AUD-946", "more face", by("tiles.face_m2", 0.01)),
    ("AUD-946", "fewer joints", by("tiles.joint_m2", -0.01)),
    ("AUD-946", "more tile than deck", to("tiles.joint_m2", -1.0)),
    ("AUD-946", "more left than there is", by("outline.net_m2", 9.0)),
    ("AUD-939", "a hatch without tiles", hatch_forgotten),
    ("AUD-939", "tiles of no hatch", to("outline.openings[1].kind", "post")),
    ("AUD-939", "a cut tile in it", on("hatch", "cut", True)),
    ("AUD-939", "a hatch over a tile more", on("whole", "hatch", "O2")),
    ("AUD-939", "a tile short of its hatch", on("hatch", "hatch", "")),
    ("AUD-939", "a smaller hole", by("outline.openings[1].corners[0].along_mm", 5.0)),
    ("AUD-939", "a lighter panel", by("outline.openings[1].panel_kg", -2.0)),
    ("AUD-944", "wider than it is", on("shaped", "narrow_mm", 20.0)),
    ("AUD-944", "a sliver fewer", by("tiles.sliver_count", -1)),
    ("AUD-944", "slivers not told", findings_without("TIL-031")),
    ("AUD-945", "a joint out of range", by("tiles.gap_most_mm", -1.5)),
    ("AUD-945", "no way out", to("tiles.along_way", "by luck")),
    ("AUD-947", "a cut tile not sawn", without("tiles.sawn", 0)),
    ("AUD-947", "sawn beyond the tile", by("tiles.sawn[0].pieces[0].along_mm", 500.0)),
    ("AUD-947", "nothing sawn from one", to("tiles.sawn[0].pieces", ())),
    ("AUD-947", "one tile fewer needed", by("tiles.need", -1)),
    ("AUD-948", "a higher bound", by("tiles.least", 1)),
    ("AUD-949", "a lighter load", by("tiles.mass_kg_m2", -1.0)),
    ("AUD-949", "of no mass", to("tiles.tile_mass_kg", 0.0)),
    ("AUD-949", "of no thickness", to("tiles.thickness_mm", 0.0)),
    ("AUD-949", "too many to plan", to("tiles.tile_count", 10**6)),
    ("AUD-950", "edges not told of", findings_without("TIL-012")),
    ("AUD-950", "the hatch not told of", findings_without("TIL-038")),
    ("AUD-965", "no time for pads", by("work.tasks[3].most_h", -1.0)),
    ("AUD-965", "no task for pads", without("work.tasks", 3)),
    ("AUD-966", "levels nobody looked at", to("tiles.pads.levels_known", False)),
    ("AUD-966", "a pad of no height", to(f"{PAD}.height_mm", None)),
    ("AUD-966", "a fall of no base", to("site.levels", None)),
    ("AUD-966", "pads out of reach", by("tiles.pads.reach_most_mm", -8.0)),
    ("AUD-966", "a pad too high", by(f"{PAD}.height_mm", 60.0)),
    ("AUD-966", "a steeper base", by("tiles.pads.base_measured_ratio", 0.01)),
    ("AUD-966", "tiles lower than told", by("site.levels.underside_mm", 1.0)),
    ("AUD-967", "a corner without a pad", without("tiles.pads.pads", 0)),
    ("AUD-968", "a pad off the deck", by(f"{PAD}.at.across_mm", -200.0)),
    ("AUD-968", "a pad of no kind", to(f"{PAD}.kind", "brick")),
    ("AUD-968", "a pad there twice", twice("tiles.pads.pads", 0)),
    ("AUD-969", "a middle moved", middle_moved),
    ("AUD-970", "one pad more", by("tiles.pads.count", 1)),
    ("AUD-970", "pads that bear too far", by("tiles.pads.shared_mm", 20.0)),
)
OUTLINED_TILES_SEEN: tuple[Fault, ...] = (
    ("AUD-W76", "another article", to("tiles.article", "TT-900")),
    ("AUD-W76", "another angle", to("tiles.angle_deg", 90.0)),
    ("AUD-W77", "a thicker tile", by("tiles.thickness_mm", 1.0)),
    ("AUD-W77", "pads that reach further", by("tiles.pads.reach_most_mm", 5.0)),
    ("AUD-W78", "a shorter least cut", by("tiles.least_cut_mm", -50.0)),
    ("AUD-W78", "pads further apart", by("tiles.pads.at_edges_most_mm", 100.0)),
    ("AUD-W79", "a pad higher than its place asks", by(f"{PAD}.height_mm", 2.0)),
)
