"""Tasks of a deck of tiles: checks, delivery, setting out, pads, tiles, cut tiles, hand-over."""

from drylay.work.drafts import Draft, Legs, OnGround, TiledDeck, told
from drylay.work.on_posts import at_the_edge, edge_drafts, looked_at, raised_frame_drafts
from drylay.work.on_the_deck import fascia_drafts, frame_drafts
from drylay.work.on_the_ground import ground_and_posts, ground_drafts

#: A tile heavier than this takes two. From memory: HSE, manual handling.
LIFT_MOST_KG = 25.0


def tile_drafts(deck: TiledDeck) -> list[Draft]:
    """Return the tasks of a deck of tiles, from the first check to the hand-over."""
    framed = deck.framed
    drafts = [
        _check(deck),
        tiles_delivered(deck, deck.tiling.tile_mass_kg, framed=framed is not None),
        _set_out(deck),
        *(ground_and_posts(framed) if framed else ground_drafts(deck)),
        *([_pads(deck)] if deck.tiling.pads else []),
        *(raised_frame_drafts(framed, frame_drafts(framed)) if framed else []),
        _tiles(deck),
        *([_cut_tiles(deck)] if deck.tiling.cut else []),
        *(fascia_drafts(framed) if framed else []),
        *(edge_drafts(framed) if framed else []),
        _hand_over(deck),
    ]
    return [at_the_edge(framed, draft) for draft in drafts] if framed else drafts


def _legs(deck: TiledDeck) -> Legs:
    """Return what stands under a deck of tiles and round it; nothing on pads."""
    return deck.framed.legs if deck.framed else Legs()


def hands_for(tile_mass_kg: float) -> int:
    """Return how many people a tile takes."""
    return 2 if tile_mass_kg > LIFT_MOST_KG else 1


def _check(deck: TiledDeck) -> Draft:
    holes = _legs(deck).footings is not None
    digs = holes or (deck.groundwork is not None and deck.groundwork.dig is not None)
    levels, what = deck.site.levels, "frame's" if deck.framed else "tiles'"
    return Draft(
        key="check", title="Check the place",
        steps=told(
            "Read the findings and what was taken on trust, and settle each before money is spent.",
            "Ask the local authority about height, boundaries, trees and drains.",
            (deck.framed is None, "Look at the base: firm, drained, falling away from the house, "
             "with nothing that rots or settles."),
            (digs, "Ask for the plans of buried services, and go over the ground with a locator."),
            (levels is not None, "Measure again from the datum: the deck's top is to be at "
             "{site.levels.deck_top_mm}, the " + what + " underside at "
             "{site.levels.underside_mm}."),
        ),
        holds=("rules", "services") if digs else ("rules",),
        tools=("tape", "locator") if digs else ("tape",),
    )  # fmt: skip


def tiles_delivered(deck: OnGround, tile_mass_kg: float, *, framed: bool) -> Draft:
    """Return the task of taking tiles in, and the timber of their frame."""
    delivery = deck.buying.delivery
    lifted = delivery is not None and delivery.lift_kg > delivery.lift_most_kg
    return Draft(
        key="delivery", title="Take the delivery in",
        steps=told(
            (delivery is not None, "The order weighs {buying.delivery.total_kg} at most; the "
             "heaviest single lift is {buying.delivery.lift_article}, "
             "{buying.delivery.lift_kg}."),
            "Count it against the order; lay broken tiles aside and tell the merchant the same "
            "day.",
            "Stand tiles on edge on battens, or leave them on their pallet; mix tiles of several "
            "packs.",
            (framed, "Stack timber off the ground on level bearers, covered on "
             "top and open at the sides."),
            "Measure ten tiles both ways.",
        ),
        after=("check",), holds=("delivered", "tile_size"), tools=("gloves", "tape"),
        care=("lift",), hands=2 if lifted else hands_for(tile_mass_kg),
    )  # fmt: skip


def _set_out(deck: TiledDeck) -> Draft:
    triangle, framed = deck.setting_out.slant_mm is not None, deck.framed is not None
    dug = "the dig" if _legs(deck).raised is None else "all digging"
    return Draft(
        key="set_out", title="Set out",
        steps=told(
            (framed, "Drive pegs for the frame's outer corners by the setting-out drawing, and "
             f"strings from profile boards outside {dug}; at a house wall mark the line on the "
             "wall."),
            (not framed, "Mark the cover's corners on the base by the setting-out drawing, or "
             "peg them outside it, and stretch strings between them."),
            (triangle, "At P1 mark {work.setting_out.leg_along_mm} along the house and "
             "{work.setting_out.leg_across_mm} away from it: square when the marks are "
             "{work.setting_out.slant_mm} apart."),
            (framed, "Measure both diagonals: {frame.diagonal_mm} each."),
            (not framed, "Measure both diagonals: {tiling.diagonal_mm} each."),
        ),
        after=("check",), holds=("square",), tools=("pegs", "tape", "mallet"), hands=2,
    )  # fmt: skip


def _pads(deck: TiledDeck) -> Draft:
    known = deck.tiling.pads is not None and deck.tiling.pads.levels_known
    edges = deck.tiling.pads is not None and deck.tiling.pads.edges > 0
    centres = deck.tiling.pads is not None and deck.tiling.pads.centres > 0
    return Draft(
        key="pads", title="Set the pads",
        steps=told(
            "Set {tiling.pads.corners} pads under the corners of the grid, "
            "by the tiles drawing; at the outer edge each in by half its own width.",
            (edges, "Set {tiling.pads.edges} more under edges longer than "
             "{tiling.pads.at_edges_most_mm}, evenly between corners."),
            (centres, "Set {tiling.pads.centres} under the tiles' middles."),
            (known, "They stand {tiling.pads.height_least_mm} high where the base is highest and "
             "{tiling.pads.height_most_mm} where it is lowest."),
            (not known, "How high they stand is not known without levels: take levels first, and "
             "change the pads where they will not do."),
            (known, "The height of each stands beside its ring on the tiles drawing, and in the "
             "tables under What the tiles lie on: set them so, then level them by a line."),
            "They reach from {tiling.pads.reach_least_mm} to {tiling.pads.reach_most_mm}.",
            "Where pads bring spacer tabs, break off those under tiles' middles, and at the outer "
            "edge those that point outwards or would stand under the tile.",
        ),
        after=("gravel", "fabric", "dig", "set_out"), holds=("pad_level",),
        tools=("gloves", "level"), care=("tile",),
    )  # fmt: skip


def _first_whole(deck: TiledDeck) -> tuple[int, int]:
    """Return the first row and the first column whose tiles are whole; the first if none is."""
    rows = [index for index, row in enumerate(deck.surface.rows) if not row.ripped]
    columns = [index for index, column in enumerate(deck.tiling.columns) if not column.cut]
    return (rows or [0])[0], (columns or [0])[0]


def _tiles(deck: TiledDeck) -> Draft:
    row, column = _first_whole(deck)
    near, start = ("house", "left") if deck.surface.run == "along" else ("left", "house")
    bedded, cut = deck.tiling.bedding is not None, deck.tiling.cut > 0
    return Draft(
        key="tiles", title="Lay the tiles",
        steps=told(
            (cut, "Whole tiles first."),
            f"Stretch two lines at right angles: along row {deck.surface.rows[row].mark}, "
            f"{{surface.rows[{row}].near_mm}} from the cover's {near} edge, and along column "
            f"{deck.tiling.columns[column].mark}, {{tiling.columns[{column}].start_mm}} from its "
            f"{start} edge.",
            (bedded, "Bed every tile where joists cross its edges, {tiling.bedding.rests} places "
             "in all, on thin pads or dabs of adhesive; these are not in the order."),
            "Lay tile by tile from where the lines cross, spacers of {surface.gap_preferred_mm} in "
            "every joint, " + ("the pads' tabs where they are as wide, " if not bedded else "")
            + "joints in line both ways.",
            (not bedded, "Turn each pad until no tile rocks or stands proud."),
            "Lay from tiles already laid; step on none that is not borne at every corner.",
        ),
        after=("pads", "frame", "braces"), holds=("first_tiles", "fifth_line", "lips", "rock"),
        tools=("gloves", "level", "pegs", "tape", "mallet", "lifter", "joint_spacer"),
        care=("tile",), hands=hands_for(deck.tiling.tile_mass_kg),
    )  # fmt: skip


def _cut_tiles(deck: TiledDeck) -> Draft:
    return Draft(
        key="cut_tiles", title="Cut and lay the edge tiles",
        steps=told(
            "Measure every edge place again between the tiles that lie and the cover's edge.",
            "Cut by the list of cut tiles, factory edges to the joints and cut edges outwards: "
            "{tiling.cut} cut tiles.",
            (deck.dusty, "Cut wet, or with M-class extraction at the blade, outdoors and away from "
             "others and from open windows; wash the slurry up before it dries."),
            "Ease the cut edge with a stone, and lay.",
        ),
        after=("tiles",), holds=("tile_cuts",),
        tools=("gloves", "rcd", "tape", "pencil", "tile_saw" if deck.dusty else "saw"),
        care=("silica", "cut_tile") if deck.dusty else ("saw",),
        hands=hands_for(deck.tiling.tile_mass_kg),
    )  # fmt: skip


def _hand_over(deck: TiledDeck) -> Draft:
    dusty = deck.dusty
    return Draft(
        key="hand_over", title="Hand over",
        steps=told(
            "Look that every outer edge is held by its trim, upstand or wall: a loose tile walks "
            "or tips.",
            "Walk over every tile; wash the deck" + (", never sweep it dry." if dusty else "."),
            "Keep this plan and a few spare tiles together.",
            "Lift a tile or two every spring: clear what lies below, see that water runs off, and "
            "level what has sunk.",
            *(looked_at(deck.framed) if deck.framed else ()),
        ),
        after=("tiles", "cut_tiles", "fascia", "guards", "steps"), holds=("tiles_done",),
        tools=("level",), care=("use_tiles",),
    )  # fmt: skip
