"""Tasks of a deck that stands: posts set out, holes, concrete, posts, ledger, bearers, braces."""

from collections.abc import Iterator

from attrs import evolve

from drylay.raised.model import RaisedDeck
from drylay.work.drafts import Draft, OnLegs, counted, told, weight_at
from drylay.work.off_the_edge import DECKED, guards_draft, steps_draft

#: A fall deeper than this is told at every task beside the edge. Common practice, no source.
DROP_MM = 600.0
AT_THE_EDGE = frozenset({*DECKED, "fascia", "guards"})


def in_concrete(raised: RaisedDeck) -> bool:
    """Return whether posts run into concrete, which is then poured round them."""
    return any(post.embed_mm > 0 for post in raised.frame.posts)


def drafts_of_posts(deck: OnLegs) -> list[Draft]:
    """Return the tasks from the posts' places to posts that stand: none without any."""
    legs = deck.legs
    if legs.raised is None:
        return []
    set_in = in_concrete(legs.raised)
    drafts = [_post_lines(deck), *([_holes(deck)] if legs.footings else [])]
    poured = [_concrete(deck, set_in=set_in)] if legs.footings else []
    posts = [_posts(deck, set_in=set_in)]
    return [*drafts, *(posts + poured if set_in else poured + posts)]


def _post_lines(deck: OnLegs) -> Draft:
    ties = deck.setting_out.post_ties
    taped = " and ".join(
        f"{{work.setting_out.post_ties[{number}].length_mm}} from {tie.start} to {tie.end}"
        for number, tie in enumerate(ties)
    )
    return Draft(
        key="post_lines", title="Set the posts out",
        steps=told(
            "Draw a string over every bearer's line, square to the frame's side from P1, and mark "
            "each post's middle on it by running tape, never from post to post.",
            "Their places stand in the list of posts, as taped from P1 along and across.",
            (bool(taped), f"Measure the diagonals over their middles: {taped}."),
        ),
        after=("set_out", "dig"), holds=("post_places",), tools=("pegs", "tape", "hammer"),
        hands=2,
    )  # fmt: skip


def _holes(deck: OnLegs) -> Draft:
    footings = deck.legs.footings
    frost = footings is not None and footings.frost_mm is not None
    return Draft(
        key="holes", title="Dig the holes",
        steps=told(
            "Move each mark out to two pegs beside its hole, so that it can be put back.",
            *_hole_sizes(deck),
            (frost, "No hole is less deep than {footings.frost_mm}, the frost line that holds."),
            "Cut sides upright, take loose earth off the bottom, fill nothing back under a post; "
            "in soft or made ground, or water, stop and ask.",
        ),
        after=("post_lines", "dig"), holds=("hole_sizes", "holes_seen"),
        tools=("gloves", "hole_digger", "tape"), care=("dig", "hole"),
    )  # fmt: skip


def _hole_sizes(deck: OnLegs) -> Iterator[str]:
    """Yield how large and deep holes are, those that are alike together."""
    alike: dict[tuple[str, float, float], list[int]] = {}
    under = deck.legs.footings.under if deck.legs.footings else ()
    for number, each in enumerate(under):
        found = each.footing
        alike.setdefault((found.shape, found.size_mm, found.depth_mm), []).append(number)
    for (shape, *_), numbers in alike.items():
        marks = ", ".join(f"{under[number].mark} ({under[number].post})" for number in numbers)
        at = f"footings.under[{numbers[0]}].footing"
        wide = "square" if shape == "square" else "across, round"
        yield f"{marks}: {{{at}.size_mm}} {wide}, {{{at}.depth_mm}} deep."


def _concrete(deck: OnLegs, *, set_in: bool) -> Draft:
    footings, thick = deck.legs.footings, _thickness(deck)
    bought = footings is not None and footings.mix_article
    coated = deck.fixings.preserver is not None
    return Draft(
        key="concrete", title="Mix and pour the concrete",
        steps=told(
            "{footings.bags} bags of {footings.bag} in all, whole bags for each hole: "
            "{footings.concrete_m3}." + ("" if bought else " They are not in the order."),
            "Mix with no more water than the bag says, none below 5 C (41 F) or on frozen ground.",
            *thick,
            (set_in, "Pour round the stayed posts, rod it, slope its top away from the timber, and "
             "look once more that every post is upright and on its mark."),
            (not set_in and bool(deck.legs.raised and deck.legs.raised.foot_article),
             "Set each foot by the strings while the concrete is wet, upright and level."),
            "Keep it damp and covered, and all load off it until it has set.",
            (set_in, "Then mark every post's top by the level line from the datum, and saw it "
             "there: {raised.post_top_mm}."),
            (set_in and coated, "Give every sawn end {fixings.preserver.coats} flood coats of "
             "preserver."),
        ),
        after=("delivery", "holes", *(("posts",) if set_in else ())),
        holds=(*(("concrete_set", "post_tops", *(("ends",) if coated else ())) if set_in
                 else ("feet", "concrete_set")),),
        tools=("gloves", "mixer", "spade", "level", "tape",
               *(("line_level", "rcd", "saw", "brush") if set_in else ())),
        care=("cement", "lift", *(("saw", "treated", "preserver") if set_in else ())),
    )  # fmt: skip


def _thickness(deck: OnLegs) -> tuple[str, ...]:
    footings = deck.legs.footings
    under = footings.under if footings else ()
    if any(each.footing.thickness_mm < each.footing.depth_mm for each in under):
        return told(
            "Each pad is as thick, up from the bottom of its hole, as the list of footings tells.",
            (any(each.footing.pier_mm for each in under), "On each pad that has one a pier of "
             "concrete stands in its box or tube, as broad as the list tells, up to the ground: "
             "pour it with the pad, or roughen and wet the pad's top first. Then fill earth back "
             "round it and ram it."),
        )  # fmt: skip
    return ("Fill each hole to the ground.",)


def _posts(deck: OnLegs, *, set_in: bool) -> Draft:
    legs, coated, weight = deck.legs, deck.fixings.preserver is not None, weight_at(deck, "posts")
    return Draft(
        key="posts", title="Stand the posts",
        steps=told(
            (legs.footings is None, "What they stand on is not planned here: settle it first."),
            "Carry the level line round from the datum: every post's top is at "
            "{raised.post_top_mm}.",
            (not set_in, "Measure from that line down to each post's own foot, and saw its post "
             "square to what is measured: the list's lengths come from the ground heights. Where "
             "one differs by more than 20 mm (3/4 in), look why first."),
            (set_in, "Saw them as the cut list says. Stand each in its hole on its mark, its top "
             "at the level line or a little over it, upright on two faces, and stay it both ways."),
            (bool(weight), f"All of them together weigh up to {weight} as bought."),
            (not set_in, "Stand each on its foot, upright on two faces, and stay it both ways."),
            (not set_in, "Where a post comes out too short, do not pack its top: saw another."),
            (coated, "Give every sawn end {fixings.preserver.coats} flood coats of preserver."),
            (not coated, "Give every sawn end its coats of preserver, which is not in the order."),
        ),
        after=("delivery", "post_lines", "holes", *(() if set_in else ("concrete",))),
        holds=("plumb", *(() if set_in else ("post_tops",)), *(("ends",) if coated else ())),
        tools=("gloves", "rcd", "tape", "pencil", "line_level", "level", "stays", "saw", "brush"),
        care=("lift", "stay", "saw", "treated", "preserver"), hands=2,
    )  # fmt: skip


def raised_frame_drafts(deck: OnLegs, drafts: list[Draft]) -> list[Draft]:
    """Return the tasks on the frame, and on what it lies on where it stands."""
    raised = deck.legs.raised
    if raised is None:
        return drafts
    cut, put = drafts
    with_it = "Saw the bearers' plies with it; posts and braces are sawn when they are set."
    cut = evolve(cut, steps=(cut.steps[0], with_it, *cut.steps[1:]))
    braced = bool(raised.frame.bracing.braces)
    ledger = [_ledger(deck)] if raised.frame.ledger else []
    return [cut, *ledger, _bearers(deck), _over(deck, put), *([_braces(deck)] if braced else [])]


def _ledger(deck: OnLegs) -> Draft:
    coated = deck.fixings.preserver is not None
    return Draft(
        key="ledger", title="Fix the ledger",
        steps=told(
            "Carry the level line to the wall: the ledger's underside is at "
            "{site.levels.underside_mm}. Prop it there; it is the frame's rim at the house.",
            "Mark every station of the list from the frame's corner, upper and lower edge by "
            f"turns: {counted(deck, 'ledger fixings')} of {{raised.ledger_fixing}}, not in the "
            "order.",
            "Set spacers behind it at every fixing, {site.wall_gap_mm} thick, so that water runs "
            "down behind it; flash its top where the wall is wetted.",
            "Drill into brick, block or concrete, not into joints, and no nearer to an edge than "
            "the maker says; brush and blow the holes out, and tighten by torque wrench.",
            (coated, "Brush preserver into every hole through the timber."),
        ),
        after=("cut_frame", "set_out"), holds=("ledger_level", "anchors"),
        tools=("gloves", "rcd", "tape", "pencil", "line_level", "level", "wall_drill"),
        care=("wall", "drill", "lift", *(("preserver",) if coated else ())), hands=2,
    )  # fmt: skip


def _bearers(deck: OnLegs) -> Draft:
    raised = deck.legs.raised
    made = raised.frame.bearers if raised else ()
    plies = any(bearer.section.plies > 1 for bearer in made)
    jointed, weight = any(bearer.joints for bearer in made), weight_at(deck, "bearers")
    return Draft(
        key="bearers", title="Set the bearers",
        steps=told(
            (plies, f"Put the plies together crown up with {counted(deck, 'ply bolts')} bolts, "
             "two, staggered, in every 600 mm (2 ft) and at both ends, not in the order."),
            (jointed, "Set every joint of a ply over a post, no two of one bearer over the same "
             "post where the list tells others."),
            (bool(weight), f"All of them together weigh up to {weight} as bought."),
            "Lay them over the posts by their lines, ends on their marks, bearing on the timber of "
            "the posts and never on nails, bolts or packing alone.",
            f"Hold each to its posts: {counted(deck, 'post caps')} caps or straps, not in the "
            "order.",
        ),
        after=("cut_frame", "posts", "concrete", "fabric", "gravel"),
        holds=("bearer_level", "bearing"),
        tools=("gloves", "driver", "bolt_tools", "level", "line_level", "tape"),
        care=("lift", "drill", "stay"), hands=2,
    )  # fmt: skip


def _over(deck: OnLegs, draft: Draft) -> Draft:
    """Return the task on the frame as it is put together over bearers."""
    legs = deck.legs
    ledger = legs.raised is not None and legs.raised.frame.ledger is not None
    hold = f", made to hold {{{legs.hold_down_at}}} down each" if legs.hold_down_at else ""
    *first, last = draft.steps[1:]
    if legs.raised is not None and legs.raised.joists == "between":
        return _between(draft, first, last, ledger=ledger)
    steps = told(
        "Put it together piece by piece over the bearers"
        + (", from the ledger out" if ledger else "") + ": do not lift it whole.",
        *first,
        (ledger, "On the ledger hang every joist in a hanger, the outer two as well: theirs are "
         "not in the order."),
        f"Fix a tie at every joist on every bearer{hold}: {counted(deck, 'joist ties')}, not in "
        "the order.",
        last,
    )  # fmt: skip
    return evolve(
        draft, steps=steps, holds=(*draft.holds, "ties"),
        after=(*draft.after, "ledger", "bearers"), care=(*draft.care, "stay"),
    )  # fmt: skip


def _between(draft: Draft, first: list[str], last: str, *, ledger: bool) -> Draft:
    """Return the task on the frame as its joists are hung between bearers."""
    held = "the ledger and the bearers" if ledger else "the bearers"
    steps = told(
        f"Put it together piece by piece between {held}, which stand level and stayed: do not "
        "lift it whole.",
        *first,
        last,
    )
    return evolve(draft, steps=steps, after=(*draft.after, "ledger", "bearers"),
                  care=(*draft.care, "stay"))  # fmt: skip


def _braces(deck: OnLegs) -> Draft:
    coated = deck.fixings.preserver is not None
    return Draft(
        key="braces", title="Brace the posts",
        steps=told(
            "Saw the braces at 45 degrees at both ends, as the cut list says.",
            "Set each by the list: on its post {raised.frame.bracing.leg_mm} below what it runs "
            "to, and as far out from the post.",
            (coated, "Give every sawn end {fixings.preserver.coats} flood coats of preserver."),
            (not coated, "Give every sawn end its coats of preserver, which is not in the order."),
            f"Bolt both ends: {counted(deck, 'brace bolts')} bolts, not in the order; then take "
            "the stays off.",
        ),
        after=("frame",), holds=(*(("ends",) if coated else ()), "braced"),
        tools=("gloves", "rcd", "saw", "tape", "bevel", "bolt_tools", "driver", "brush"),
        care=("saw", "treated", "preserver", "drill", "stay"), hands=2,
    )  # fmt: skip


def edge_drafts(deck: OnLegs) -> list[Draft]:
    """Return the tasks on guards and steps, where the plan has any."""
    legs = deck.legs
    guards = legs.guards is not None and legs.guards.runs
    return [*([guards_draft(deck)] if guards else []), *([steps_draft(deck)] if legs.steps else [])]


def at_the_edge(deck: OnLegs, draft: Draft) -> Draft:
    """Return a task with the caution on the edge where one falls deep off it."""
    legs = deck.legs
    round_it = legs.raised is not None or legs.guards is not None
    if draft.key not in AT_THE_EDGE or legs.drop_mm <= DROP_MM or not round_it:
        return draft
    return evolve(draft, care=("edge", *draft.care))


def looked_at(deck: OnLegs) -> tuple[str, ...]:
    """Return what to look at every spring of what stands under a deck and round it."""
    legs = deck.legs
    ledger = legs.raised is not None and legs.raised.frame.ledger is not None
    braces = legs.raised is not None and bool(legs.raised.frame.bracing.braces)
    guards = legs.guards is not None and bool(legs.guards.runs)
    parts = told(
        (legs.raised is not None, "probe the posts' feet"),
        (ledger, "try the ledger's fixings"),
        (braces, "try the braces' bolts"),
        (guards, "push at every guard post"),
    )
    return (f"Every spring {', '.join(parts)}.",) if parts else ()
