"""Tasks at the edge of a deck: guards, and a flight of steps down from it."""

from drylay.work.drafts import Draft, OnLegs, counted, told

#: What is done before anything goes up at the edge, under boards or tiles.
DECKED = ("frame", "braces", "boards", "trim", "tiles", "cut_tiles")


def guards_draft(deck: OnLegs) -> Draft:
    """Return the task of putting guards up, which a plan with any has designed."""
    coated, guards = deck.fixings.preserver is not None, deck.legs.guards
    footed = guards is not None and guards.foot is not None
    return Draft(
        key="guards", title="Put the guards up",
        steps=told(
            "Guards stand along {guards.length_mm} of the edge, where the list of guards says, "
            "{guards.height_mm} high, before anybody uses the deck.",
            "Stand every post by the list: no post notched, none held by screws into its face "
            "alone or by boards.",
            f"Bolt each through the frame, two bolts a post: {counted(deck, 'guard bolts')}, not "
            "in the order; block the frame behind it.",
            (footed, "Bore square through post and frame: the upper hole "
             "{guards.foot.upper_bolt_mm} below the deck's top, the other "
             "{guards.foot.bolts_apart_mm} below it; washers {guards.foot.washer_mm} across under "
             "every head and every nut."),
            "Set infill bay by bay from the middle of what is left over, and look that no gap is "
            "wider than told.",
            (coated, "Brush preserver on every sawn end and into every hole through the timber."),
        ),
        after=(*DECKED, "fascia"), holds=("guard_push", "guard_gaps"),
        tools=("gloves", "rcd", "saw", "driver", "bolt_tools", "level", "tape", "brush"),
        care=("drill", "saw", "treated", *(("preserver",) if coated else ())), hands=2,
    )  # fmt: skip


def steps_draft(deck: OnLegs) -> Draft:
    """Return the task of building the flight of steps."""
    steps, coated = deck.legs.steps, deck.fixings.preserver is not None
    railed = steps is not None and steps.flight.handrail
    return Draft(
        key="steps", title="Build the steps",
        steps=told(
            "Measure the height from the landing to the deck's top again: {steps.flight.rise_mm}. "
            "Where it is another, divide it anew before a stringer is sawn.",
            "Step the stringers off by {steps.flight.riser_mm} and {steps.flight.going_mm}; the "
            "first is cut {steps.flight.first_cut_mm} high, a tread's thickness less, so that all "
            "{steps.risers} risers come out equal.",
            "Hang their top seat {steps.flight.seat_below_frame_mm} below the top of the frame, "
            "on fixings made for it, and stand their feet on a level landing, not on earth.",
            "Fix the treads over a width of {steps.width_mm}, front edges level.",
            (railed, "Fix the handrail before anybody uses the flight."),
            (coated, "Brush preserver on every sawn end and into every notch."),
        ),
        after=(*DECKED, "fascia", "guards"),
        holds=("risers", *(("handrail",) if railed else ())),
        tools=("gloves", "rcd", "saw", "driver", "level", "tape", "pencil", "brush"),
        care=("saw", "treated", "lift", *(("preserver",) if coated else ())), hands=2,
    )  # fmt: skip
