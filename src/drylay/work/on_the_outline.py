"""Tasks of a deck on an outline, up to its frame: places to ask about, ties, trimmers first."""

from attrs import evolve

from drylay.outline.model import Opening
from drylay.work.drafts import Draft, OutlinedDeck, told
from drylay.work.on_posts import at_the_edge, edge_drafts, looked_at, raised_frame_drafts
from drylay.work.on_the_deck import finish_draft
from drylay.work.on_the_ground import check_draft, delivery_draft, ground_and_posts
from drylay.work.outlined_boards import boards_draft, openings_of
from drylay.work.outlined_fixed import doubled, doubles_bits, fixed_otherwise
from drylay.work.outlined_hatches import all_ledges, barred, hatches_draft, listed
from drylay.work.outlined_holding import clipped, inserted

#: What members are called in a step, by their kind, in the order in which they are named.
NAMED = {
    "rim": "rims", "joist": "joists", "pair": "second joists of pairs", "trimmer": "trimmers",
    "double": "doubles", "noggin": "noggins", "splice": "splice plates",
}  # fmt: skip

#: Why figures of one rim do not do for the other.
BEGIN = "Rims need not begin at the same place: carry no marks across from one to the other."


def outlined_drafts(deck: OutlinedDeck) -> list[Draft]:
    """Return all tasks, from the first check to the hand-over."""
    drafts = [
        _check(deck),
        delivery_draft(deck),
        _set_out(deck),
        *ground_and_posts(deck),
        *raised_frame_drafts(deck, [_cut_frame(deck), _frame(deck)]),
        boards_draft(deck),
        *hatches_draft(deck),
        *([_fascia(deck)] if deck.subframe.facings else []),
        *edge_drafts(deck),
        *([finish_draft()] if deck.fixings.finish else []),
        _hand_over(deck),
    ]
    return [at_the_edge(deck, draft) for draft in drafts]


def _marks(openings: tuple[Opening, ...]) -> str:
    return ", ".join(opening.mark for opening in openings)


def _check(deck: OutlinedDeck) -> Draft:
    """Return the task of looking at the place, with what stands in the deck."""
    plain = check_draft(deck, holes=deck.legs.footings is not None)
    trees, pools = openings_of(deck, "tree"), openings_of(deck, "pool")
    hatches = openings_of(deck, "hatch")
    beside = [side.mark for side in deck.outline.sides if side.kind == "pool"]
    water = ", ".join([*(pool.mark for pool in pools), *beside])
    more = told(
        (bool(trees), f"Ask the authority whether the tree is protected before anything is dug or "
         f"cut ({_marks(trees)}), and measure its trunk again."),
        (bool(hatches), f"Lift the cover and measure it and where it lies ({_marks(hatches)}): "
         "ask who owns the drain; near a shared sewer building may need consent. See that it lies "
         "lower than the foot of the frame will: the battens of its panel hang over it."),
        (bool(water), f"At the water ({water}) ask what barrier the rules want, often 1200 mm "
         "(48 in) high with a gate that shuts itself, and how far a deck counts as a step up to "
         "it."),
        (bool(water), "Within 3.5 m (11 ft 6 in) of the water leave everything electric, lights "
         "and tools' sockets too, to a licensed electrician (BS 7671, section 702, zones: from "
         "memory)."),
    )  # fmt: skip
    care = (*plain.care, *(("electric",) if water else ()))
    return evolve(plain, steps=(*plain.steps, *more), care=care)


def _set_out(deck: OutlinedDeck) -> Draft:
    out = deck.setting_out
    base = next(side for side in deck.outline.sides if side.mark == deck.base_side)
    where = "the house wall" if base.kind == "house" else "the longest side"
    checks = [f"{tie.start} to {tie.end} {{work.setting_out.ties[{number}].length_mm}}"
              for number, tie in enumerate(out.ties) if tie.check]  # fmt: skip
    return Draft(
        key="set_out", title="Set out",
        steps=told(
            f"Drive P1 and P2 for the frame's corners along {where}, "
            "{work.setting_out.ties[0].length_mm} apart.",
            (len(out.pegs) > 2, "Set the other pegs in the order of the ties: pull one tape from "
             "each of a peg's two, level; it stands where both lengths meet, on the side that the "
             "setting-out drawing shows."),
            (out.slant_mm is not None, "At P1 mark {work.setting_out.leg_along_mm} towards P2 and "
             f"{{work.setting_out.leg_across_mm}} towards {out.pegs[-1].mark}: square when the "
             "marks are {work.setting_out.slant_mm} apart."),
            (bool(checks), f"Then tape the checks: {', '.join(checks)}. Off by more than "
             "{work.setting_out.accepted_mm}, take up the pegs after P2 and set them again."),
            "String lines round all pegs, from profile boards outside the dig, so that they can "
            "be put back; at a house wall mark the line on the wall.",
        ),
        after=("check",), holds=("square",), tools=("pegs", "tape", "hammer"), hands=2,
    )  # fmt: skip


def _splayed(deck: OutlinedDeck) -> bool:
    """Whether any end of the frame's timber is sawn out of square."""
    return any(member.start_deg or member.end_deg for member in deck.subframe.members)


def _cut_frame(deck: OutlinedDeck) -> Draft:
    kinds = {member.kind for member in deck.subframe.members}
    battens = ["battens of panels"] if deck.subframe.battens else []
    *first, last = [*(name for kind, name in NAMED.items() if kind in kinds), *battens]
    listed = f"{', '.join(first)} and {last}" if first else last
    coated = deck.fixings.preserver is not None
    return Draft(
        key="cut_frame", title="Cut the frame",
        steps=told(
            f"Saw {listed} length by length as the cut list says, and write its mark on every "
            "piece.",
            (_splayed(deck), "Where the frame list gives degrees cross-cut the piece square first, "
             "as long as from tip to tip; then set the saw to the degrees, off square, try them on "
             "an offcut, and mind which way each end leans: it slants across the timber's "
             "thickness, for timber laid flat a tilt of the blade."),
            *_rips(deck),
            (coated, "Give every sawn end {fixings.preserver.coats} flood coats of preserver."),
            (not coated, "Give every sawn end its coats of preserver, which is not in the order."),
        ),
        after=("delivery",), holds=("lengths", "ends") if coated else ("lengths",),
        tools=("gloves", "rcd", "tape", "pencil", *(("bevel",) if _splayed(deck) else ()),
               "clamps", "saw", *(("rip_saw",) if _rips(deck) else ()), "brush"),
        care=("saw", "treated", "preserver"),
    )  # fmt: skip


def _rips(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return how battens of panels are ripped that would be too heavy whole."""
    whole = deck.subframe.timber_depth_mm
    rips = [(at, each) for at, each in enumerate(deck.subframe.battens) if each.depth_mm < whole]
    if not rips:
        return ()
    marks = ", ".join(batten.mark for _, batten in rips)
    coats = "{fixings.preserver.coats} flood coats" if deck.fixings.preserver else "its coats"
    return (
        f"Rip the battens {marks} to {{subframe.battens[{rips[0][0]}].depth_mm}}: whole ones would "
        f"make their panels too heavy to lift. The sawn edge gets {coats}, and lies downwards.",
    )


def _frame(deck: OutlinedDeck) -> Draft:
    fixings, packed = deck.fixings, deck.groundwork is not None and deck.groundwork.packing
    screwed, sunk = fixings.frame_screws is not None, fixings.coach_screws.sink_mm > 0
    return Draft(
        key="frame", title="Put the frame together",
        steps=told(
            (bool(packed), "Put it together on the packers, every timber over its own."),
            (not packed, "Put it together on its bed, where it is to lie."),
            *_rims(deck),
            *_trimmers(deck),
            "Mark the joists' centres on each rim by the frame drawing's figures, all measured "
            f"from one line: through {_from(deck)}, the way the joists run. {BEGIN} Then set the "
            "joists.",
            (bool(deck.subframe.seams), "The two timbers of a pair touch: set their seam on the "
             "line told."),
            (sunk, "First sink holes for the heads, {fixings.coach_screws.sink_mm} deep, into rims "
             "under fascia."),
            "Drill what the screws go through {fixings.coach_screws.shank_mm} and the ends "
            "{fixings.coach_screws.pilot_mm}, and drive {fixings.coach_screws.per_joist_end} "
            "coach screws at every carried end without a hanger, but for those told next, "
            "{fixings.coach_screws.top_least_mm} or more below the top, "
            "{fixings.coach_screws.edge_least_mm} from the foot and apart.",
            *fixed_otherwise(deck),
            (fixings.hangers is not None, "Hang the joists that are told to hang: "
             "{fixings.hangers.screws_each} screws in each hanger."),
            *_noggins(deck),
            "Tape the ties and the checks once more, from corner to corner of the frame, and look "
            "that every end is carried.",
        ),
        after=("cut_frame", "packing", "gravel", "set_out"), holds=("square", "frame_level"),
        tools=("gloves", "driver", "spanner", "coach_bit", "clear_bit",
               *(("sink_bit",) if sunk else ()), *(("frame_bit",) if screwed else ()),
               *doubles_bits(deck), "level", "tape"),
        care=("lift", "drill", *(("tips",) if screwed else ())), hands=2,
    )  # fmt: skip


def _from(deck: OutlinedDeck) -> str:
    """Return where the frame drawing measures centres from: a datum corner askew cannot be used."""
    return "P1" if deck.outline.turned_deg else "the datum corner"


def _rims(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return how the rims are stood up, and their joints backed."""
    spliced = any(member.kind == "splice" for member in deck.subframe.members)
    screws = "{fixings.frame_screws.per_splice_side} screws on each side of the joint."
    if deck.fixings.frame_screws is None:
        screws = "its screws are not in the order."
    return told(
        "Stand the rims to the strings all round, outer faces on the line from peg to peg, and "
        "stay them.",
        (spliced, f"Back every joint with its plate: {screws}"),
    )


def _trimmers(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return what is framed round openings, before any joist goes in."""
    openings = deck.outline.openings
    if not openings:
        return ()
    ledges, trees, posts = all_ledges(deck), openings_of(deck, "tree"), openings_of(deck, "post")
    return told(
        f"Frame the openings before any joist between rims: {_marks(openings)}. Set out their "
        "holes from the frame's corners, the joists that carry them first, then the trimmers, "
        "faces flush with the hole or outside it; joists cut short come last.",
        (bool(ledges), f"Ledges ({listed(ledges or ['none'])}) alone stand inside their holes, one "
         "face flush with the hole's end: the panels lie on them."),
        *doubled(deck),
        (bool(trees), f"Around the tree ({_marks(trees)}) fix nothing to the trunk, and cut no "
         "root: a timber in a root's way is shifted on its packers, not notched into the "
         "ground."),
        (bool(posts), f"Keep all timber off the post ({_marks(posts)}) by what its hole leaves."),
    )  # fmt: skip


def _noggins(deck: OutlinedDeck) -> tuple[str, ...]:
    if not any(member.kind == "noggin" for member in deck.subframe.members):
        return ()
    screws = "{fixings.frame_screws.per_noggin_end} screws at each end."
    if deck.fixings.frame_screws is None:
        screws = "their screws are not in the order."
    return (f"Set the noggins by the frame drawing, those under ends of boards too: {screws}",)


def _fascia(deck: OutlinedDeck) -> Draft:
    fixed, facings = deck.fixings.fascia_screws is not None, deck.subframe.facings
    ends = {end for facing in facings for end in (facing.start_end, facing.end_end)}
    return Draft(
        key="fascia", title="Fix the fascia",
        steps=told(
            "By the list of facings, tops level with the joists.",
            ("butt" in ends or "lap" in ends, "Where one laps over the end of another, that other "
             "goes on first."),
            ("mitre" in ends, "Mitre where the list gives degrees: cut a hair long, try both "
             "pieces together, then screw from the corner."),
            (fixed, "{fixings.fascia_screws.per_place} screws at each place the list gives, "
             "pilots {fixings.fascia_screws.pilot_mm}."),
            (not fixed, "Its screws are not in the order."),
        ),
        after=("frame",), holds=("ends",),
        tools=("gloves", "rcd", "saw", *(("bevel",) if "mitre" in ends else ()), "driver",
               *(("fascia_bit",) if fixed else ()), "brush"),
        care=("saw", "treated", "drill"), hands=2,
    )  # fmt: skip


def _hand_over(deck: OutlinedDeck) -> Draft:
    trees, hatches = openings_of(deck, "tree"), openings_of(deck, "hatch")
    return Draft(
        key="hand_over", title="Hand over",
        steps=told(
            "Walk every row; sink what stands proud, ease sharp edges, sweep.",
            (bool(hatches), f"Show the owner how each panel lifts out ({_marks(hatches)})."),
            *barred(deck),
            "Keep this plan, the list of rows as laid, and the tins' and boxes' labels together.",
            (not clipped(deck), "In three months drive every screw home again."),
            (clipped(deck), "In three months look whether every row has kept its gaps and slides: "
             "drive no screw tight but at fixed points."),
            (bool(trees), f"Every spring measure what the tree has left ({_marks(trees)}), and saw "
             "the boards back before it touches them."),
            "Look at gaps, ends, fixings and algae every spring and autumn, besides the upkeep "
            "told.",
            *looked_at(deck),
        ),
        after=("boards", "hatches", "fascia", "guards", "steps", "finish"),
        holds=("hand_over", *(("panels_barred",) if deck.wide_panels else ())), tools=("driver",),
        care=("use_turf" if inserted(deck) else "use",),
    )  # fmt: skip
