"""Tools: what this very deck takes, with the bits and spacers by the sizes that stand in it."""

from collections.abc import Iterable

from drylay.work.drafts import Deck
from drylay.work.model import Tool

#: What, and what it is for, of tools whose size does not matter or stands in their name.
PLAIN: dict[str, tuple[str, str]] = {
    "gloves": ("gloves, goggles, ear protection, dust mask, knee pads, boots", "you"),
    "rcd": ("residual-current device for every mains tool", "you"),
    "locator": ("cable and pipe locator, hired", "before digging"),
    "tape": ("tape measure, longer than the diagonal", "setting out, checking"),
    "pegs": ("pegs, nails and string line", "setting out"),
    "level": ("long spirit level, straightedge of 3 m (10 ft)", "levels and falls"),
    "spade": ("spade or turf cutter, wheelbarrow", "dig"),
    "knife": ("knife", "fabric"),
    "rake": ("rake, tamper or plate compactor", "gravel"),
    "pencil": ("pencil, try square, story rod to copy the rod onto", "marking out"),
    "clamps": ("two clamps, saw horses", "sawing"),
    "driver": ("drill driver, two batteries, bits as the boxes of screws say", "drilling, driving"),
    "spanner": ("socket for the heads of the coach screws", "joist ends"),
    "let_in_bit": ("flat bit wider than the washers, to let their heads in flush", "doubles"),
    "rip_saw": ("saw with a fence or guide, for ripping", "rows and battens that are ripped"),
    "brush": ("brush, small pot, lint-free rags", "preserver, finish"),
    "meter": ("moisture meter", "boards, before laying and before a coat"),
    "thermometer": (
        "thermometer to hold against boards, or one that reads off their face",
        "end gaps",
    ),
    "countersink": ("countersink bit", "heads of deck screws"),
    "extractor": ("dust extraction at the saw, P3 mask", "sawing boards"),
    "dust_bag": ("dust bag or extraction at the saw, to catch the dust", "sawing boards"),
    "block": ("rubber mallet and a block to push rows home", "boards"),
    "strip_knife": ("sharp knife, glue for strips outdoors", "ends of boards with strips"),
    "mallet": ("rubber mallet, long straightedge", "tiles"),
    "lifter": ("suction lifter for tiles", "tiles"),
    "bevel": ("sliding bevel and protractor", "splayed ends, mitres"),
    "jigsaw": ("jigsaw or handsaw, for notches", "shaped pieces"),
    "hole_digger": ("digging bar, narrow spade or auger, bucket", "holes"),
    "mixer": ("tub or mixer, shovel, bucket with a mark for water", "concrete"),
    "line_level": ("line laser or water level", "levels from the datum"),
    "stays": ("battens and stakes to stay posts with, clamps", "posts"),
    "wall_drill": ("hammer drill, bit as the ledger's fixings say, torque wrench", "ledger"),
    "bolt_tools": ("two spanners, long bit as wide as the bolts", "bolts through timber"),
    "hammer": ("hammer, pry bar or wedge to draw bowed boards in", "boards"),
}
#: What marks out a deck on an outline, of which no rod is drawn.
PENCIL = "pencil, try square"
#: The same for tools whose size stands in the plan: and where.
SIZED: dict[str, tuple[str, str, str]] = {
    "saw": ("mitre or circular saw; the cuts reckon with a kerf of", "all cuts",
            "buying.kerf_mm"),
    "deck_bit": ("bit for the pilots of the deck screws", "near ends of boards",
                 "fixings.deck_screws.pilot_mm"),
    "deck_clear_bit": ("bit for the deck screws' shank, through the board", "every deck screw",
                       "fixings.deck_screws.shank_mm"),
    "slot_bit": ("bit for slots along the last row, as wide as they are", "last row",
                 "fixings.clips.slot_width_mm"),
    "fixed_bit": ("bit for the deck screws' shank, through the board", "fixed points",
                  "fixings.deck_screws.shank_mm"),
    "border_bit": ("bit for the pilots of the border's screws", "border",
                   "fixings.border_screws.pilot_mm"),
    "border_clear_bit": ("bit for the border screws' shank, through the board", "border",
                         "fixings.border_screws.shank_mm"),
    "coach_bit": ("bit for the coach screws' thread", "joist ends",
                  "fixings.coach_screws.pilot_mm"),
    "clear_bit": ("bit for the coach screws' shank, through the rim", "rims",
                  "fixings.coach_screws.shank_mm"),
    "sink_bit": ("flat bit wider than the washers, to sink heads by", "rims under fascia",
                 "fixings.coach_screws.sink_mm"),
    "frame_bit": ("bit for the pilots of the frame screws", "noggins, splices",
                  "fixings.frame_screws.pilot_mm"),
    "double_bit": ("bit for the pilots of the screws of doubles", "doubles",
                   "fixings.double_screws.pilot_mm"),
    "fascia_bit": ("bit for the pilots of the fascia screws", "fascia",
                   "fixings.fascia_screws.pilot_mm"),
    "end_spacer": ("spacer for the gap at butt joints", "boards", "pieces.end_gap_mm"),
    "border_end_spacer": ("spacer for the gap at the border's butt joints", "border",
                          "pieces.border.end_gap_mm"),
    "tile_saw": ("wet tile saw, or cutter with M-class extraction, and P3 mask, for a kerf of",
                 "cut tiles", "buying.kerf_mm"),
    "joint_spacer": ("spacers for joints of", "tiles", "surface.gap_preferred_mm"),
    "hole_saw": ("hole saw for the lights", "boards", "work.lighting.hole_mm"),
}  # fmt: skip


def tool_list(deck: Deck, keys: Iterable[str]) -> tuple[Tool, ...]:
    """Return the tools of these keys, each once, in the order in which they are first needed.

    "gap_spacer" stands for one spacer for every width of gap that is laid.
    """
    tools: dict[str, Tool] = {}
    for key in keys:
        for tool in _gap_spacers(deck) if key == "gap_spacer" else (tool_of(key),):
            tools.setdefault(tool.mark, tool)
    return tuple(tools.values())


def plain_tools(keys: Iterable[str]) -> tuple[Tool, ...]:
    """Return the tools of these keys, each once, in the order in which they are first needed."""
    return tuple(tool_of(key) for key in dict.fromkeys(keys))


def tool_of(key: str) -> Tool:
    """Return the tool of a key."""
    if key in PLAIN:
        what, purpose = PLAIN[key]
        return Tool(mark=key, what=what, purpose=purpose, size_at="")
    what, purpose, path = SIZED[key]
    return Tool(mark=key, what=what, purpose=purpose, size_at=path)


def _gap_spacers(deck: Deck) -> tuple[Tool, ...]:
    """Return a spacer for each width of gap, by the first row it stands before.

    Gaps that are one to a tenth of a millimetre share a spacer: nobody has them finer.
    """
    first: dict[float, int] = {}
    for index, row in enumerate(deck.surface.rows[1:], start=1):
        first.setdefault(round(row.gap_mm, 1), index)
    return tuple(
        Tool(
            mark="gap_spacer" if len(first) == 1 else f"gap_spacer_{number}",
            what="two spacers for gaps between rows of",
            purpose="boards",
            size_at=f"surface.rows[{index}].gap_mm",
        )
        for number, index in enumerate(first.values(), start=1)
    )
