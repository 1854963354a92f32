"""Planted faults in tiles on an outline: the check that is meant to see each, and the edit."""

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


PAD = "tiles.pads.pads[0]"
OUTLINED_TILE_FAULTS: tuple[Fault, ...] = (
    ("AUD-940", "another row's mark", on("whole", "mark", "B9.9")),
    ("AUD-940", "a longer box", on("cut", "length_mm", 5.0)),
    ("AUD-940", "a corner out of its place", on("whole", "corners[2].along_mm", 8.0)),
    ("AUD-940", "a tile there twice", on("whole", "twice")),
    ("AUD-941", "a tile left out", on("whole", "drop")),
    ("AUD-941", "a tile smaller than its place", on("cut", "corners[2].along_mm", -8.0)),
    ("AUD-942", "over the house wall", on("cut", "corners[0].across_mm", -9.0)),
    ("AUD-943", "cut, not told", on("cut", "cut", False)),
    ("AUD-943", "whole, told cut", on("whole", "cut", True)),
    ("AUD-943", "straight, told shaped", on("cut", "shaped", True)),
    ("AUD-943", "one whole tile more", by("tiles.whole", 1)),
    ("AUD-946", "more face", by("tiles.face_m2", 0.01)),
    ("AUD-946", "fewer joints", by("tiles.joint_m2", -0.01)),
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
    ("AUD-947", "one tile fewer needed", by("tiles.need", -1)),
    ("AUD-948", "a higher bound", by("tiles.least", 1)),
    ("AUD-949", "a lighter load", by("tiles.mass_kg_m2", -1.0)),
    ("AUD-950", "edges not told of", findings_without("TIL-012")),
    ("AUD-950", "the hatch not told of", findings_without("TIL-038")),
    ("AUD-965", "no time for pads", by("work.tasks[3].most_h", -1.0)),
    ("AUD-966", "pads out of reach", by("tiles.pads.reach_most_mm", -8.0)),
    ("AUD-966", "a pad too high", by(f"{PAD}.height_mm", 60.0)),
    ("AUD-966", "a steeper base", by("tiles.pads.base_measured_ratio", 0.01)),
    ("AUD-966", "tiles lower than told", by("site.levels.underside_mm", 1.0)),
    ("AUD-967", "a corner without a pad", without("tiles.pads.pads", 0)),
    ("AUD-968", "a pad off the deck", by(f"{PAD}.at.across_mm", -200.0)),
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
