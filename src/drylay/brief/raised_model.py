"""What a brief wishes of a deck that stands: strength, legs, guards, steps; None where unsaid."""

from attrs import frozen

#: What a house wall is made of, as far as a ledger asks.
WALLS = ("solid masonry", "concrete", "veneer", "cavity", "insulated", "framed", "unknown")
#: What posts stand on: a metal foot that keeps them off what is below, or they run into concrete.
FEET = ("metal foot", "in concrete")
#: Whether joists lie over the bearers, or hang between them with their tops flush.
JOISTS = ("over", "between")
FOOTINGS = ("pad", "concreted hole", "ground screw")
SHAPES = ("square", "round")
INFILLS = ("balusters", "rails")


@frozen(kw_only=True)
class StrengthWish:
    """Which design basis screens the timber, and how a point load is shared: in its own words."""

    basis: str | None = None
    sharing: str | None = None
    board_class: str | None = None


@frozen(kw_only=True)
class RaisedWish:
    """Bearers on posts under the frame; a deck stands where `post` names their timber.

    Without `bearer` every graded timber of the stock is tried. `lines_mm` are bearers' centres
    from the house's end of the frame, `posts_mm` posts' from a bearer's start: chosen where left
    out. `hold_down_kn` is what the tie at each joist and bearer holds down, as its maker declares.
    `joists` lie over the bearers unless it says that they hang between them. `ledger` is wished
    unless it says no. `concrete` and `post_foot` are codes of articles.
    """

    post: str | None = None
    bearer: str | None = None
    plies: int | None = None
    joists: str = "over"
    lines_mm: tuple[float, ...] | None = None
    posts_mm: tuple[float, ...] | None = None
    ledger: bool = True
    ledger_fixing: str | None = None
    ledger_spacing_mm: float | None = None
    foot: str = "metal foot"
    stand_off_mm: float | None = None
    embed_mm: float | None = None
    brace_over_mm: float | None = None
    hold_down_kn: float | None = None
    footing: str = "concreted hole"
    shape: str = "square"
    screw_kn: float | None = None
    concrete: str | None = None
    post_foot: str | None = None


@frozen(kw_only=True)
class GuardsWish:
    """How guards are built where edges need them; without `infill` they are told and not built.

    What holds their posts is screened where all of it is told: `post_article`, the code of their
    graded timber, `bolt` in the design basis's own words, `washer_mm` across, `upper_bolt_mm`
    below the deck's top, and `bolts_apart_mm`. None of them is guessed.
    """

    infill: str | None = None
    thickness_mm: float | None = None
    post_mm: float | None = None
    post_spacing_mm: float | None = None
    height_mm: float | None = None
    post_article: str | None = None
    bolt: str | None = None
    washer_mm: float | None = None
    upper_bolt_mm: float | None = None
    bolts_apart_mm: float | None = None


@frozen(kw_only=True)
class StepsWish:
    """A flight of steps down from one side; none unless `side` names it."""

    side: str | None = None
    from_mm: float | None = None
    width_mm: float | None = None
    tread_mm: float | None = None
    going_mm: float | None = None
    risers: int | None = None
