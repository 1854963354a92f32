"""The nouns of strength: sections, beams and what loads do to them, checks with their figures.

Lengths are in mm, loads in kN and kN/m, stresses in N/mm2, whichever design basis is asked: one
that is written in inches and pounds converts at its own door.
"""

from collections.abc import Callable

from attrs import frozen

from drylay.reasons import Inputs, Source, because

#: How deck loads are told: a design basis says what each comes to.
USES = ("dwelling", "balcony", "crowd", "hot tub")


@frozen(kw_only=True)
class Section:
    """A timber's true section: one ply, and how many plies stand side by side as one."""

    breadth_mm: float
    depth_mm: float
    plies: int = 1


@frozen(kw_only=True)
class LineLoad:
    """A load spread evenly along a beam, from where to where from its left end; down is above 0."""

    from_mm: float
    to_mm: float
    load_kn_m: float


@frozen(kw_only=True)
class PointLoad:
    """A load at one place of a beam, measured from its left end; down is above 0."""

    at_mm: float
    load_kn: float


@frozen(kw_only=True)
class Beam:
    """A straight beam of one section over supports that hold it up and down, free to turn.

    `supports_mm` are measured from its left end, in order; what reaches past the outer ones is a
    cantilever. Stiffnesses are of the whole section; `shear_stiffness_kn` (G A / shape factor) is
    0 where bending alone counts.
    """

    length_mm: float
    supports_mm: tuple[float, ...]
    bending_stiffness_kn_m2: float
    shear_stiffness_kn: float = 0.0


@frozen(kw_only=True)
class Extreme:
    """The most of one effect along a beam, and where: its sign is kept."""

    value_kn_m: float
    at_mm: float


@frozen(kw_only=True)
class Deflected:
    """How far a beam goes down (above 0) or up at one place."""

    deflection_mm: float
    at_mm: float


@frozen(kw_only=True)
class Effects:
    """What loads do to a beam.

    `sagging` and `hogging` are the greatest moments that bend it down and up (0 or above, 0 or
    below), `shear_kn` the greatest shear in size and `shear_at_mm` where, `reactions_kn` what each
    support carries (below 0: it must hold the beam down), `down` and `up` the deflections that are
    greatest each way.
    """

    sagging: Extreme
    hogging: Extreme
    shear_kn: float
    shear_at_mm: float
    reactions_kn: tuple[float, ...]
    down: Deflected
    up: Deflected


@frozen(kw_only=True)
class Case:
    """One load case of a beam: what it is called, and what its loads do."""

    name: str
    effects: Effects


@frozen(kw_only=True)
class Check:
    """One check of one member: what is there, what may be, and by which clause.

    `utilisation_ratio` is `measured` over `limit`; above 1 the member does not pass. `case` names
    the load case that governs it. `inputs` hold every figure that the formula takes.
    """

    name: str
    subject: str
    measured: float
    limit: float
    unit: str
    utilisation_ratio: float
    case: str
    formula: str
    source: Source
    inputs: Inputs = ()


@frozen(kw_only=True)
class Screened:
    """All checks of one member by one design basis, the governing one first.

    `assumed` says in words what the basis takes for granted, how a point load is shared between
    joists among it; `stops` what it does not cover.
    """

    basis: str
    subject: str
    checks: tuple[Check, ...]
    assumed: tuple[str, ...] = ()
    stops: tuple[str, ...] = ()


@frozen(kw_only=True)
class DeckLoads:
    """What a use lays on a deck by a basis, without factors.

    `dead_kn_m2` is for good: what the basis takes for boards and all that lies on them, members'
    own weight among it unless `own_weight_apart`. `point_kn` acts alone, at any one place. `stops`
    say what of the use the basis does not cover; loads are then 0.
    """

    use: str
    dead_kn_m2: float
    own_weight_apart: bool
    imposed_kn_m2: float
    point_kn: float
    source: Source
    stops: tuple[str, ...] = ()


@frozen(kw_only=True)
class BeamAsked:
    """A joist or a bearer as a design basis is asked for it; `wood` is what the stock calls it.

    Places are from its left end, centre to centre. `carried_mm` is the width of deck that it
    carries: joists' centres, a bearer's strip. `held_each_mm` is how far apart its upper edge is
    held sideways, 0 where boards hold it all along. `alike` counts joists side by side that share
    what is spread; `sharing` says how a point load is shared, by one of the basis's own words.
    `hold_down_kn` is what each support holds down by design, `more_dead_kn_m2` what lies on it for
    good besides the use's own: a bearer's joists, where own weight is apart, and what a cover
    weighs more than the basis takes.
    """

    kind: str
    subject: str
    wood: str
    section: Section
    length_mm: float
    supports_mm: tuple[float, ...]
    carried_mm: float
    bearing_mm: float
    held_each_mm: float = 0.0
    alike: int = 1
    sharing: str = ""
    hold_down_kn: float = 0.0
    more_dead_kn_m2: float = 0.0


@frozen(kw_only=True)
class PostAsked:
    """A post as a design basis is asked for it: `dead_kn` and `live_kn` come down its middle.

    `length_mm` is free between what holds it; one that is not `braced` may sway at its head.
    """

    subject: str
    wood: str
    section: Section
    length_mm: float
    dead_kn: float
    live_kn: float
    braced: bool = True


@frozen(kw_only=True)
class BoardAsked:
    """A board laid flat over `bays` bays under a point load: its `depth_mm` is its thickness."""

    subject: str
    wood: str
    section: Section
    bay_mm: float
    bays: int


@frozen(kw_only=True)
class LedgerAsked:
    """A ledger that carries half of the joists' span by fixings `spacing_mm` apart.

    `fixing` names what they are, in the basis's own words; `more_dead_kn_m2` is what lies on the
    deck for good besides the use's own.
    """

    subject: str
    wood: str
    section: Section
    span_mm: float
    spacing_mm: float
    fixing: str
    more_dead_kn_m2: float = 0.0


@frozen(kw_only=True)
class GuardPostAsked:
    """A guard's post as a design basis is asked for it: pushed at its top, two bolts at its foot.

    `line_kn_m` along the guard's top and `point_kn` at one place of it push level and square to the
    edge, never both at once, without factors: 0 where nobody asks for one. A post takes the line
    load of `centres_mm`. `rail_mm` is the height of the push over the upper bolt, `bolts_mm` from
    bolt to bolt, in line down the post. Bolts run with the push, through `section.depth_mm` and
    the frame's edge: one member of `edge_wood` and `edge`. Their holes come off
    `section.breadth_mm`, `washer_mm` is a round washer's outside; `bolt` names them in the basis's
    own words.
    """

    subject: str
    wood: str
    section: Section
    edge_wood: str
    edge: Section
    centres_mm: float
    rail_mm: float
    bolts_mm: float
    bolt: str
    washer_mm: float
    line_kn_m: float
    point_kn: float


@frozen(kw_only=True)
class DesignBasis:
    """A design basis as a plugin supplies it: what it answers with, and never a number alone.

    Each function takes what is asked and the use, and returns all checks with their clauses; what
    the basis does not cover comes back as stops, or is raised as an UncoveredError. `sharings` are
    its words for how a point load is shared, the one that holds unless told first; `fixings` those
    for a ledger's. `halved`: a post carries half of the bearer to either side, as residential
    tables have it, and not what statics of a bearer that runs on makes of it. `guard_post` is None
    where the basis knows nothing of guards' posts: they are then told as not screened.
    """

    id: str
    title: str
    sharings: tuple[str, ...]
    fixings: tuple[str, ...]
    halved: bool
    loads: Callable[[str], DeckLoads]
    beam: Callable[[BeamAsked, str], Screened]
    post: Callable[[PostAsked, str], Screened]
    board: Callable[[BoardAsked, str], Screened]
    ledger: Callable[[LedgerAsked, str], Screened]
    guard_post: Callable[[GuardPostAsked, str], Screened] | None = None


@frozen(kw_only=True)
class Strength:
    """What a plan's timber was screened by, and every member's checks, one noun for each kind.

    `beams`, `posts`, `boards`, `ledgers` and `guard_posts` are what was asked, `screened` what was
    answered to each of them, in that order. `most_ratio` is the largest utilisation of all.
    `heavier_kn_m2` is what the cover weighs more than the basis takes, in every member's dead load.
    """

    basis: str
    title: str
    use: str
    sharing: str = because("strength.sharing")
    dead_kn_m2: float = because("strength.dead_kn_m2")
    imposed_kn_m2: float = because("strength.imposed_kn_m2")
    point_kn: float = because("strength.point_kn")
    own_weight_apart: bool = because("strength.dead_kn_m2")
    heavier_kn_m2: float = because("strength.heavier_kn_m2", default=0.0)
    beams: tuple[BeamAsked, ...] = because("strength.most_ratio")
    posts: tuple[PostAsked, ...] = because("strength.most_ratio")
    boards: tuple[BoardAsked, ...] = because("strength.most_ratio")
    ledgers: tuple[LedgerAsked, ...] = because("strength.most_ratio")
    screened: tuple[Screened, ...] = because("strength.most_ratio")
    most_ratio: float = because("strength.most_ratio")
    guard_posts: tuple[GuardPostAsked, ...] = because("strength.most_ratio", default=())


@frozen(kw_only=True)
class LongestSpan:
    """The longest span that passes, in whole steps: None where not even the least does.

    `at` is what was found there (or at the least span), `governing` its most used check;
    `beyond` the most used check one step on, None where the most asked for passes.
    """

    span_mm: float | None
    at: Screened
    governing: Check | None
    beyond: Check | None


@frozen(kw_only=True)
class SectionTried:
    """A section that was tried, and what was found for it."""

    section: Section
    at: Screened


@frozen(kw_only=True)
class SmallestSection:
    """The smallest section of a list that passes, None where none does, and those tried before."""

    section: Section | None
    at: Screened | None
    governing: Check | None
    turned_down: tuple[SectionTried, ...]
