"""The nouns of the work.

Texts name figures of the plan by their path in braces, "{groundwork.dig.depth_mm}", so that no
figure stands twice; papers write them in the plan's units.
"""

from attrs import frozen

from drylay.findings import Finding
from drylay.outline.model import Spot
from drylay.reasons import Source, because
from drylay.survey.model import Tape


@frozen(kw_only=True)
class Peg:
    """A peg at a corner of the frame, in the cover's own axes.

    `brief_along_mm` and `brief_across_mm` are the same place as the brief measures its corners,
    to 0.1 mm; None where that is no other way.
    """

    mark: str
    along_mm: float = because("edges.frame_length_mm")
    across_mm: float = because("edges.frame_depth_mm")
    brief_along_mm: float | None = because("outline.turned_deg", default=None)
    brief_across_mm: float | None = because("outline.turned_deg", default=None)


@frozen(kw_only=True)
class PegTie:
    """A distance taped from one peg to another. `check`: it places no peg, and proves one."""

    start: str
    end: str
    length_mm: float = because("work.setting_out.tie_count")
    check: bool = False


@frozen(kw_only=True)
class PostPlace:
    """Where the middle of a post stands, in the axes of the pegs, and as taped from P1."""

    mark: str
    along_mm: float = because("raised.post_count")
    across_mm: float = because("raised.post_count")
    from_along_mm: float = because("raised.post_count")
    from_across_mm: float = because("raised.post_count")


@frozen(kw_only=True)
class PostTie:
    """A diagonal over the posts' middles, which proves their grid.

    Where all posts stand under one bearer it is taped from a peg.
    """

    start: str
    end: str
    length_mm: float = because("work.setting_out.post_accepted_mm")


@frozen(kw_only=True)
class SettingOut:
    """Pegs at the frame's outer corners, and the 3-4-5 that proves the corner at P1 square.

    `leg_along_mm` and `leg_across_mm` are measured from P1 along its two sides, `slant_mm` is
    between their ends; None where the frame is too small for one. `accepted_mm` is how far
    the diagonals may differ. Under an outline pegs are set by `ties` from pegs that stand already,
    in the order told, and `accepted_mm` is how far one that checks may be off. Of a deck that
    stands `posts` are the places of its posts, `post_ties` prove them, and `post_accepted_mm` is
    how far either may be off.
    """

    pegs: tuple[Peg, ...]
    leg_along_mm: float | None = because("work.setting_out.slant_mm")
    leg_across_mm: float | None = because("work.setting_out.slant_mm")
    slant_mm: float | None = because("work.setting_out.slant_mm")
    accepted_mm: float = because("work.setting_out.accepted_mm")
    tie_count: int | None = because("work.setting_out.tie_count", default=None)
    ties: tuple[PegTie, ...] = ()
    post_accepted_mm: float | None = because("work.setting_out.post_accepted_mm", default=None)
    posts: tuple[PostPlace, ...] = ()
    post_ties: tuple[PostTie, ...] = ()


@frozen(kw_only=True)
class HoldPoint:
    """A check to pass before going on: what is checked, how far off at most, who may sign.

    `limit` is None where there is nothing to measure: it is so or it is not.
    """

    mark: str
    check: str
    limit: float | None = because("work.holds")
    unit: str
    source: Source
    signed_by: str


@frozen(kw_only=True)
class Task:
    """One task: what to do, after which others, what must then be right, with what, how long.

    `kind` is one of "check", "delivery", "set_out", "dig", "fabric", "gravel", "packing",
    "cut_frame", "frame", "cable", "boards", "hatches", "trim", "fascia", "lights", "finish",
    "hand_over"; of a deck that stands also "post_lines", "holes", "concrete", "posts", "ledger",
    "bearers", "braces"; "guards" and "steps" where the plan has them.
    `people` are needed for it; hours are by the clock for the crew that there is. `tools` are
    marks of tools.
    """

    mark: str
    kind: str
    title: str
    steps: tuple[str, ...]
    after: tuple[str, ...]
    holds: tuple[HoldPoint, ...]
    tools: tuple[str, ...]
    cautions: tuple[str, ...]
    people: int = because("work.people")
    least_h: float = because("work.most_h")
    most_h: float = because("work.most_h")


@frozen(kw_only=True)
class Tool:
    """A tool, what it is for, and where in the plan its size stands ("" where none matters)."""

    mark: str
    what: str
    purpose: str
    size_at: str


@frozen(kw_only=True)
class Light:
    """A light let into a row of boards, its centre in the axes of the boards.

    `along_mm` runs along the boards, `across_mm` across the rows, from the datum corner.
    """

    mark: str
    row: str
    along_mm: float = because("work.lighting.count")
    across_mm: float = because("work.lighting.count")


@frozen(kw_only=True)
class Lighting:
    """Lights along one side, holes clear of all timber below by `clear_least_mm`.

    `trunk_mm` is where the cable crosses the joists, measured across the rows, None where it
    need not cross any; `cable_mm` is its length with a loop at every light.
    """

    side: str
    count: int = because("work.lighting.count")
    hole_mm: float = because("work.lighting.hole_mm")
    depth_mm: float = because("work.lighting.depth_mm")
    clear_least_mm: float = because("work.lighting.clear_least_mm")
    trunk_mm: float | None = because("work.lighting.cable_mm")
    cable_mm: float = because("work.lighting.cable_mm")
    lights: tuple[Light, ...]


@frozen(kw_only=True)
class Upkeep:
    """One task of upkeep, as the boards' family names it: so many `times` in so many years."""

    what: str
    times: int = because("work.upkeep_count")
    in_years: int = because("work.upkeep_count")
    source: Source


@frozen(kw_only=True)
class NotOrdered:
    """Fixings that the work takes and the order does not hold: so many of `what`, `each` so."""

    what: str
    each: str
    count: int = because("work.not_ordered_count")
    source: Source


@frozen(kw_only=True)
class Work:
    """The whole work, in order. `least_h` and `most_h` are hours by the clock for `people`.

    `holds` is how many hold points there are in all tasks, `not_ordered_count` how many kinds of
    fixings are counted that are not in the order.
    """

    face_up: str = because("work.face_up")
    people: int = because("work.people")
    setting_out: SettingOut
    tasks: tuple[Task, ...]
    tools: tuple[Tool, ...]
    holds: int = because("work.holds")
    lighting: Lighting | None
    least_h: float = because("work.most_h")
    most_h: float = because("work.most_h")
    upkeep_count: int | None = because("work.upkeep_count", default=None)
    upkeep: tuple[Upkeep, ...] = ()
    not_ordered_count: int | None = because("work.not_ordered_count", default=None)
    not_ordered: tuple[NotOrdered, ...] = ()


#: What may come of taping pegs: leave them, move some, or tape again.
MOVE_VERDICTS = ("true", "move", "tape again")


@frozen(kw_only=True)
class PegMove:
    """How a peg is moved: to the right and away from the house, below 0 the other ways.

    `by_mm` is straight from where the peg stands to where it belongs.
    """

    mark: str
    along_mm: float
    across_mm: float
    by_mm: float


@frozen(kw_only=True)
class PegMoves:
    """Which pegs to move, and by how much, so that every tape reads as planned.

    `verdict` is one of `MOVE_VERDICTS`; only "move" has `moves`. `stood` are the pegs where the
    tapes say that they stand, () where they contradict each other. `worst_mm` is how far the tape
    that is furthest off is from its planned length. `misfit_mm` is what tapes are off from the best
    figure there is, as a rule; 0 where none is to spare. `suspect` is the one tape without which
    the others agree: what it should read then; None where there is none, or more than one.

    `taken` are the sides that nobody taped, taken as planned. `tape_too` are ties that would fix
    the figure where what was taped does not. `difference_mm` is that of a rectangle's diagonals,
    and `slid_mm` how far the side opposite P1 to P2 has slid by it; None of any other figure.
    """

    verdict: str
    moves: tuple[PegMove, ...]
    stood: tuple[Peg, ...]
    worst_mm: float
    accepted_mm: float
    misfit_mm: float
    suspect: Tape | None = None
    taken: tuple[PegTie, ...] = ()
    tape_too: tuple[PegTie, ...] = ()
    difference_mm: float | None = None
    slid_mm: float | None = None
    findings: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class LineEnd:
    """Where a line is made fast: to a nail of a profile, to a mark on the house wall, or nowhere.

    `kind` is "profile", "wall" or "none". The place lies `beyond_mm` past `peg`, in line. From the
    datum line's start it lies `datum_along_mm` along that line and `datum_off_mm` to its right, as
    one looks along it.
    """

    kind: str
    peg: str
    at: Spot
    beyond_mm: float
    datum_along_mm: float
    datum_off_mm: float
    profile: str = ""


@frozen(kw_only=True)
class Profile:
    """A board on two stakes, square to a line and clear of the dig; the line's nail stands in it.

    The nail is `nail_mm` from the board's `start`. `clear_mm` is how far all of the board stands
    from what is dug.
    """

    mark: str
    line: str
    start: Spot
    end: Spot
    nail_mm: float
    clear_mm: float


@frozen(kw_only=True)
class StringLine:
    """A line over a side of the frame, from peg to peg and on to either end.

    It runs over both pegs; `off_mm`, where it is not 0, is how far inside them it is strung, where
    the house leaves no room for a profile over the pegs. `length_mm` is from end to end, None where
    an end is made fast nowhere.
    """

    mark: str
    start_peg: str
    end_peg: str
    off_mm: float
    start: LineEnd
    end: LineEnd
    length_mm: float | None


@frozen(kw_only=True)
class Profiles:
    """The lines over a frame's sides, what they are made fast to, and the diagonals within sight.

    `source_line` is what they are set out from: "house" or "datum line", from `datum_start` to
    `datum_end`; `wall_off_mm` is how far that line is from the house wall, None where it is not
    told from there. All lines are level with one another; they are `over_top_mm` above the deck's
    top, below 0 under it, at the level `line_level_mm` in the brief's own; None where it tells no
    levels. `clear_mm` is what was asked for between dig and profiles.
    """

    source_line: str
    datum_start: Spot
    datum_end: Spot
    wall_off_mm: float | None
    clear_mm: float
    board_mm: float
    lines: tuple[StringLine, ...]
    profiles: tuple[Profile, ...]
    diagonals: tuple[PegTie, ...]
    dig: tuple[tuple[Spot, ...], ...]
    over_top_mm: float | None
    line_level_mm: float | None
    string_mm: float
    findings: tuple[Finding, ...] = ()
