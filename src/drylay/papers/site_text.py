"""In words: where the deck stands: levels, wall gap, hollow."""

from drylay.marks import MARK_320, exact, floor_mark, to_mm
from drylay.papers.wording import clean, decision_at, many, said_by, size, size_least, size_most
from drylay.plan.model import Plan
from drylay.site.model import LevelLimit, LevelMark, Levels

TOP = "site.levels.deck_top_mm"
BOUNDS = {"most": "no higher than", "least": "no lower than"}
HOLLOW_TOLD = {
    "not known": "Whether the deck stands in the garden's lowest spot is not known.",
    "elsewhere": "The garden's lowest spot is not under the deck.",
    "with outfall": "The garden's lowest spot is under the deck; the brief says that water runs "
    "away from there.",
    "outfall not known": "The garden's lowest spot is under the deck, and whether water runs "
    "away from there is not known: find out first.",
    "no outfall": "The garden's lowest spot is under the deck, without an outfall.",
}
TRANSFER = (
    "Make a pencil line at the deck's top on the wall, from one of these marks, and check it from "
    "another. Carry it round the pegs with a level or a water level."
)
GROUND_TOLD = (
    "The ground is taken as straight between the points measured; of two ways to fold it the "
    "lower counts for the lowest."
)


def site_told(plan: Plan) -> list[str]:
    """Return where the deck stands: levels, wall gap, hollow, a line each."""
    wall = wall_told(plan)
    levels = plan.site.levels if plan.site else None
    if levels is None:
        return [wall] if wall else []
    units = plan.units
    return [
        *([wall] if wall else []),
        top_told(plan, levels),
        *(f"{limit_name(limit)}: {limit_told(limit, levels, units)}" for limit in levels.limits),
        between_told(levels, units),
        transfer_told(levels, units),
        underside_told(levels, units, lowest_part(plan)),
        *rises_told(levels, units),
        *ground_told(levels, units, lowest_part(plan)),
        *heights_told(levels, units),
    ]


def wall_told(plan: Plan) -> str:
    """Return how far the datum edge stands from the wall; "" where no house is told of."""
    if plan.site is None or not plan.site.beside_house:
        return ""
    gap = size(plan.site.wall_gap_mm, plan.units)
    return (
        f"The cover's house side, the datum edge, stands {gap} from the house wall. Measured from "
        "the wall, everything told from that side lies so much further out."
    )


def _away(levels: Levels, mark: LevelMark, units: str) -> str:
    """Return how far the top lies below a mark, or above it, never beyond the mark's own limit."""
    if not mark.down_mm:
        return "level with"
    below = mark.down_mm > 0
    bounds = {limit.bound for limit in levels.limits if limit.mark == mark.name}
    told = size
    if bounds == {"most"}:
        told = size_least if below else size_most
    elif bounds == {"least"}:
        told = size_most if below else size_least
    return f"{told(abs(mark.down_mm), units)} {'below' if below else 'above'}"


def mark_name(mark: str, datum: str = "") -> str:
    """Return a mark as a paper names it."""
    told = {
        "damp course": "the damp course",
        "floor": "the house floor",
        "door leaf": "the door leaf's lower edge",
        "sill": "the door sill",
        "datum": f"the datum of levels ({clean(datum)})" if datum else "the datum of levels",
    }
    return told.get(mark, f"the underside of {clean(mark)}")


def marks_of(levels: Levels) -> list[LevelMark]:
    """Return marks in the order to use them: what governs first, the bare datum last."""
    governing = [x.mark for x in levels.limits if x.name == levels.highest_by]
    return sorted(levels.marks, key=lambda mark: (mark.name == "datum", mark.name not in governing))


def top_from(levels: Levels, mark: LevelMark, units: str) -> str:
    """Return where the top lies from a mark: "150 mm below the damp course"."""
    return f"{_away(levels, mark, units)} {mark_name(mark.name, levels.datum)}"


def top_told(plan: Plan, levels: Levels) -> str:
    """Return the chosen top and who chose it."""
    first = next(iter(marks_of(levels)), None)
    at = top_from(levels, first, plan.units) if first else size(levels.deck_top_mm, plan.units)
    decision = decision_at(plan, TOP)
    why = f", {clean(decision.rule)} ({said_by(decision)})" if decision else ""
    what = "boards" if plan.tiling is None and plan.tiles is None else "tiles"
    return f"Top of the {what}: {at}{why}."


def limit_name(limit: LevelLimit) -> str:
    """Return a limit as a heading."""
    name = clean(limit.name)
    return f"Limit {name}"


def limit_told(limit: LevelLimit, levels: Levels, units: str) -> str:
    """Return what a limit asks, whether it governs, and who says so."""
    mark = mark_name(limit.mark, levels.datum)
    bound = BOUNDS.get(limit.bound, limit.bound)
    told = size_least if limit.bound == "most" else size_most
    away = f"{told(limit.off_mm, units)} below" if limit.off_mm > 0 else "level with"
    asked = f"the top {bound} {away} {mark}"
    tightest = limit.name in {levels.highest_by, levels.lowest_by}
    met = levels.deck_top_mm in {limit.level_mm, _marked_below(limit.level_mm, units)}
    governs = "; governs" if tightest and met else "; the tightest of its kind" if tightest else ""
    title = ", ".join(clean(x) for x in (limit.source.title, limit.source.clause) if x)
    return f"{asked}{governs} ({limit.source.kind}: {title})."


def _marked_below(level_mm: float, units: str) -> float:
    """Return the pencil mark at or below a level: there the top stands where a limit governs."""
    return to_mm(floor_mark(exact(level_mm), MARK_320[units]))


def level_told(level_mm: float, levels: Levels, units: str) -> str:
    """Return a level from the datum in words."""
    away = "level with" if not level_mm else (
        f"{size(abs(level_mm), units)} {'above' if level_mm > 0 else 'below'}"
    )  # fmt: skip
    return f"{away} {mark_name('datum', levels.datum)}"


def _held_level(level_mm: float, levels: Levels, units: str, *, most: bool) -> str:
    """Return a limit's level, rounded away from what it forbids."""
    if not level_mm:
        return level_told(level_mm, levels, units)
    told = size_most if most == (level_mm > 0) else size_least
    away = "above" if level_mm > 0 else "below"
    return f"{told(abs(level_mm), units)} {away} {mark_name('datum', levels.datum)}"


def between_told(levels: Levels, units: str) -> str:
    """Return how much room the limits leave."""
    highest, lowest = levels.highest_mm, levels.lowest_mm
    most = "" if highest is None else _held_level(highest, levels, units, most=True)
    least = "" if lowest is None else _held_level(lowest, levels, units, most=False)
    if most and least:
        return f"The top may lie anywhere from {least} to {most}."
    if most:
        return f"Nothing given keeps the top up; no higher than {most}."
    if least:
        return f"Nothing given keeps the top down; no lower than {least}."
    return "Nothing given limits the top: damp course, air bricks and door are yours to check."


def transfer_told(levels: Levels, units: str) -> str:
    """Return the top from every mark, and how to carry it to the site."""
    told = "; ".join(top_from(levels, mark, units) for mark in marks_of(levels))
    return f"The top lies {told}. {TRANSFER}"


def lowest_part(plan: Plan) -> str:
    """Return whose underside the levels tell of: the frame's, or that of tiles on pads."""
    on_pads = plan.tiling is not None and plan.tiling.pads is not None
    on_pads = on_pads or plan.tiles is not None
    return "tiles" if on_pads else "frame"


def underside_told(levels: Levels, units: str, what: str = "frame") -> str:
    """Return where the underside of frame or tiles lies."""
    whose = f"The {what}'{'' if what.endswith('s') else 's'}"
    return f"{whose} underside lies {level_told(levels.underside_mm, levels, units)}."


def rises_told(levels: Levels, units: str) -> list[str]:
    """Return the steps down from the floor, nothing where none is told of."""
    if levels.steps_down is None or levels.rise_mm is None:
        return []
    rises = many(levels.steps_down, "rise", "equal rises")
    lead = "leads" if levels.steps_down == 1 else "lead"
    return [
        f"From the house floor {rises} of {size(levels.rise_mm, units)} {lead} down to the deck; "
        "steps between are not planned here.",
        *_rises_to_ground(levels, units),
    ]


def _rises_to_ground(levels: Levels, units: str) -> list[str]:
    if levels.rises_to_ground is None or levels.last_rise_mm is None:
        return []
    last = size(levels.last_rise_mm, units)
    return [
        f"{many(levels.rises_to_ground, 'rise')} in all, from floor to ground; the last {last}."
    ]


def ground_told(levels: Levels, units: str, what: str = "frame") -> list[str]:
    """Return how the ground lies under the deck, and where water goes."""
    most, least, drop = levels.ground_most_mm, levels.ground_least_mm, levels.drop_mm
    if most is None or least is None or drop is None:
        return ["The ground's levels are not known."]
    told = [
        f"Ground under the deck: highest {level_told(most, levels, units)}, lowest "
        f"{level_told(least, levels, units)}. {GROUND_TOLD}",
        f"From the top down to the lowest ground at the deck's edges: {size(drop, units)}.",
        *_under_told(levels, units, what),
        *_fall_told(levels, units),
        HOLLOW_TOLD.get(levels.hollow, clean(levels.hollow)),
    ]
    if levels.beyond:
        corners = ", ".join(clean(corner) for corner in levels.beyond)
        told.append(f"Nothing was measured near the corner {corners}.")
    return told


def _under_told(levels: Levels, units: str, what: str) -> list[str]:
    most, least = levels.under_most_mm, levels.under_least_mm
    if most is None or least is None:
        return []
    high = f"{size(abs(most), units)} {'above' if most >= 0 else 'under'} the lowest ground"
    low = f"{size(abs(least), units)} {'above' if least >= 0 else 'under'} the highest"
    whose = f"The {what}'{'' if what.endswith('s') else 's'}"
    return [f"{whose} underside is {high} and {low}."]


def _fall_told(levels: Levels, units: str) -> list[str]:
    fall = levels.fall_to_house_mm
    if fall is None:
        return []
    if fall > 0:
        return [f"At the worse end the ground falls {size(fall, units)} towards the house: water "
                "must run away from the house."]  # fmt: skip
    if fall == 0:
        return ["At the worse end the ground is level from house to front."]
    return [f"The ground falls away from the house, by {size(-fall, units)} at the flatter end."]


def triggers_told(levels: Levels, units: str) -> list[tuple[str, str]]:
    """Return every height that a rule names: what for, and whether this deck reaches it."""
    return [
        (
            f"Height for {clean(trigger.name)}, {size_most(trigger.limit_mm, units)}",
            f"{'REACHED' if trigger.reached else 'not reached; beyond it'}: {clean(trigger.rule)}. "
            f"({trigger.source.kind}: {clean(trigger.source.title)})",
        )
        for trigger in levels.triggers
    ]


def heights_told(levels: Levels, units: str) -> list[str]:
    """Return the heights reached, a line each, and those that are not, in one line."""
    pairs = list(zip(levels.triggers, triggers_told(levels, units), strict=True))
    told = [f"{name}: {text}" for trigger, (name, text) in pairs if trigger.reached]
    left = [name.removeprefix("Height for ") for trigger, (name, _) in pairs if not trigger.reached]
    return [*told, *([f"Heights not reached: {'; '.join(left)}."] if left else [])]
