"""Tasks of tiles on pads over an outline: checks, ties, pads, whole tiles, cut ones, hand-over."""

from drylay.tiling.outline_model import LaidTile
from drylay.work.drafts import Draft, OutlinedTiles, told
from drylay.work.on_the_ground import ground_drafts
from drylay.work.on_the_tiles import hands_for, tiles_delivered


def outlined_tile_drafts(deck: OutlinedTiles) -> list[Draft]:
    """Return the tasks, from the first check to the hand-over."""
    return [
        _check(deck),
        tiles_delivered(deck, deck.tiles.tile_mass_kg, framed=False),
        _set_out(deck),
        *ground_drafts(deck),
        _pads(deck),
        _tiles(deck),
        *([_cut_tiles(deck)] if deck.tiles.cut else []),
        _hand_over(deck),
    ]


def _marks(deck: OutlinedTiles, kind: str) -> str:
    return ", ".join(each.mark for each in deck.outline.openings if each.kind == kind)


def _check(deck: OutlinedTiles) -> Draft:
    digs = deck.groundwork is not None and deck.groundwork.dig is not None
    hatches, trees, pools = (_marks(deck, kind) for kind in ("hatch", "tree", "pool"))
    return Draft(
        key="check", title="Check the place",
        steps=told(
            "Read the findings and what was taken on trust, and settle each before money is spent.",
            "Ask the local authority about height, boundaries, trees and drains.",
            "Look at the base: firm, drained, falling away from the house, with nothing that rots "
            "or settles.",
            (digs, "Ask for the plans of buried services, and go over the ground with a locator."),
            (bool(trees), f"Ask whether the tree is protected ({trees}), and measure its trunk "
             "again."),
            (bool(hatches), f"Lift the cover, measure it and where it lies ({hatches}), and see "
             "that it bears the pads that will stand on it."),
            (bool(pools), f"At the water ({pools}) ask what barrier the rules want."),
            (deck.site.levels is not None, "Measure again from the datum: the deck's top is to be "
             "at {site.levels.deck_top_mm}, the tiles' underside at {site.levels.underside_mm}."),
        ),
        holds=("rules", "services") if digs else ("rules",),
        tools=("tape", "locator") if digs else ("tape",),
    )  # fmt: skip


def _set_out(deck: OutlinedTiles) -> Draft:
    out = deck.setting_out
    base = next(side for side in deck.outline.sides if side.mark == deck.base_side)
    where = "the house wall" if base.kind == "house" else "the longest side"
    checks = [f"{tie.start} to {tie.end} {{work.setting_out.ties[{number}].length_mm}}"
              for number, tie in enumerate(out.ties) if tie.check]  # fmt: skip
    return Draft(
        key="set_out", title="Set out",
        steps=told(
            f"Mark P1 and P2, the deck's corners along {where}, on the base or on pegs outside it, "
            "{work.setting_out.ties[0].length_mm} apart.",
            (len(out.pegs) > 2, "Set the other corners in the order of the ties: pull one tape "
             "from each of a corner's two, level; it lies where both lengths meet, on the side "
             "that the setting-out drawing shows."),
            (bool(checks), f"Then tape the checks: {', '.join(checks)}. Off by more than "
             "{work.setting_out.accepted_mm}, set them again."),
            "Stretch strings round all corners, so that they can be put back.",
        ),
        after=("check",), holds=("square",), tools=("pegs", "tape", "mallet"), hands=2,
    )  # fmt: skip


def _pads(deck: OutlinedTiles) -> Draft:
    pads = deck.tiles.pads
    return Draft(
        key="pads", title="Set the pads",
        steps=told(
            "Set {tiles.pads.corners} pads under corners of tiles by the tiles drawing, in the "
            "middle of joints; at sides and openings each in by half its own width.",
            (pads.edges > 0, "Set {tiles.pads.edges} more under sides of tiles longer than "
             "{tiles.pads.at_edges_most_mm}, evenly between corners."),
            (pads.centres > 0, "Set {tiles.pads.centres} under the tiles' middles."),
            (pads.levels_known, "They stand {tiles.pads.height_least_mm} high where the base is "
             "highest and {tiles.pads.height_most_mm} where it is lowest."),
            (not pads.levels_known, "How high they stand is not known without levels: take levels "
             "first, and change the pads where they will not do."),
            "They reach from {tiles.pads.reach_least_mm} to {tiles.pads.reach_most_mm}.",
            "Where pads bring spacer tabs, break off those under tiles' middles, and at sides and "
            "cut tiles those that point outwards or would stand under the tile.",
        ),
        after=("gravel", "fabric", "dig", "set_out"), holds=("pad_level",),
        tools=("gloves", "level"), care=("tile",),
    )  # fmt: skip


def _first_whole(deck: OutlinedTiles) -> int:
    """Return which tile the lines cross at: the first whole one, the first if none is."""
    tiles: list[LaidTile] = list(deck.tiles.tiles)
    return next((at for at, tile in enumerate(tiles) if not tile.cut), 0)


def _tiles(deck: OutlinedTiles) -> Draft:
    first, hatches = _first_whole(deck), _marks(deck, "hatch")
    at = f"tiles.tiles[{first}].corners[0]"
    return Draft(
        key="tiles", title="Lay the tiles",
        steps=told(
            (deck.tiles.cut > 0, "Whole tiles first."),
            f"Mark where tile {deck.tiles.tiles[first].mark} begins: {{{at}.along_mm}} along and "
            f"{{{at}.across_mm}} across from the datum corner, measured from the strings.",
            "Stretch two lines through it, one along the run of the tiles, one square to it.",
            "Lay tile by tile from where the lines cross, spacers of {tiles.joint_mm} in every "
            "joint, the pads' tabs where they are as wide, joints in line both ways.",
            (bool(hatches), f"Leave the tiles of {hatches} loose, to lift out one by one."),
            "Turn each pad until no tile rocks or stands proud.",
            "Lay from tiles already laid; step on none that is not borne at every corner.",
        ),
        after=("pads",), holds=("first_tiles", "fifth_line", "lips", "rock"),
        tools=("gloves", "level", "pegs", "tape", "mallet", "lifter", "joint_spacer"),
        care=("tile",), hands=hands_for(deck.tiles.tile_mass_kg),
    )  # fmt: skip


def _cut_tiles(deck: OutlinedTiles) -> Draft:
    return Draft(
        key="cut_tiles", title="Cut and lay the other tiles",
        steps=told(
            "Measure every place again between the tiles that lie and the side or the opening.",
            "Cut by the list of cut tiles, factory edges to the joints and cut edges outwards: "
            "{tiles.cut} cut tiles.",
            (deck.tiles.shaped_count > 0, "Mark out the {tiles.shaped_count} shaped ones from "
             "their corners, laid over their places; drill the inner corner of a notch before it "
             "is sawn, lest it cracks."),
            (deck.dusty, "Cut wet, or with M-class extraction at the blade, outdoors and away from "
             "others and from open windows; wash the slurry up before it dries."),
            "Ease the cut edge with a stone, and lay.",
        ),
        after=("tiles",), holds=("tile_cuts",),
        tools=("gloves", "rcd", "tape", "pencil", "tile_saw" if deck.dusty else "saw"),
        care=("silica", "cut_tile") if deck.dusty else ("saw",),
        hands=hands_for(deck.tiles.tile_mass_kg),
    )  # fmt: skip


def _hand_over(deck: OutlinedTiles) -> Draft:
    hatches, trees = _marks(deck, "hatch"), _marks(deck, "tree")
    return Draft(
        key="hand_over", title="Hand over",
        steps=told(
            "Look that every side is held by its trim, upstand or wall, round openings too: a "
            "loose tile walks or tips.",
            (bool(hatches), f"Show the owner how tiles lift out ({hatches})."),
            "Walk over every tile; wash the deck"
            + (", never sweep it dry." if deck.dusty else "."),
            "Keep this plan and a few spare tiles together.",
            (bool(trees), f"Every spring measure what the tree has left ({trees})."),
            "Lift a tile or two every spring: clear what lies below, see that water runs off, and "
            "level what has sunk.",
        ),
        after=("tiles", "cut_tiles"), holds=("tiles_done",), tools=("level",),
        care=("use_tiles",),
    )  # fmt: skip
