"""The nouns of comparing. A year's money is Decimal, rounded up; lives are whole years."""

from decimal import Decimal

from attrs import field, frozen

from drylay.counting import counted
from drylay.findings import Finding
from drylay.plan.model import Plan
from drylay.reasons import Reasons


@frozen(kw_only=True)
class Alternative:
    """One way to build a brief: its name, and the brief's paths with what they become.

    None leaves a wish out.
    """

    name: str
    changes: tuple[tuple[str, object], ...]


@frozen(kw_only=True)
class Outlay:
    """What a deck costs at first, spares with it, in the two parts that wear out apart.

    `surface` is the boards and what holds or coats them, `frame` what they lie on. What serves
    both counts as surface.
    """

    surface: Decimal
    frame: Decimal


@frozen(kw_only=True)
class YearlyCost:
    """What a deck costs a year for good, boards and frame bought again when their lives end.

    Nothing is laid twice: frame and boards are renewed together after `renewed_after_years`, in
    which the boards are bought `surfaces_bought` times. `capital` = `surface` + `frame`.
    `upkeep` is None without an hour price, or where nobody knows the hours; `total` holds it
    where there is a price. `laid_again` is the total if boards with years left in them were lifted
    and laid on the new frame. `governs` says which life ends first: "boards", "frame" or "both".
    """

    surface: Decimal
    frame: Decimal
    capital: Decimal
    upkeep_h: float | None
    upkeep: Decimal | None
    total: Decimal | None
    laid_again: Decimal | None
    renewed_after_years: int
    surfaces_bought: int
    governs: str


@frozen(kw_only=True)
class Lives:
    """How long boards and frame are likely to serve, in whole years; None where not known."""

    surface_least_years: int | None = None
    surface_most_years: int | None = None
    frame_least_years: int | None = None
    frame_most_years: int | None = None


@frozen(kw_only=True)
class ComparedDeck:
    """One alternative planned, with its figures over the years.

    `short` has every life at its least, `long` at its most. What cannot be told is None, and
    named in `not_known` with the reason in `remarks`; a blocked plan has no figures but the lives.
    `families` are the ids of those that answered.
    """

    name: str
    families: tuple[str, ...]
    plan: Plan
    outlay: Outlay | None = None
    mass_kg: float | None = None
    cuts: int | None = None
    sawn_pieces: int | None = None
    joints: int | None = None
    upkeep_h: float | None = None
    upkeep: Decimal | None = None
    lives: Lives = field(factory=Lives)
    short: YearlyCost | None = None
    long: YearlyCost | None = None
    not_known: tuple[str, ...] = ()
    remarks: tuple[Finding, ...] = ()
    reasons: Reasons = field(factory=Reasons)


@frozen(kw_only=True)
class Comparison:
    """One brief in several alternatives, in the order they were given."""

    title: str
    currency: str
    vat: str
    rate_ratio: float
    hour_price: Decimal | None
    decks: tuple[ComparedDeck, ...]

    @counted
    def measures(self) -> tuple[dict[str, object], ...]:
        """Return one flat row for each alternative, for tables; the names are always the same."""
        from drylay.compare.row import flat_rows

        return flat_rows(self)

    @counted
    def papers(self) -> dict[str, bytes]:
        """Return the comparison by file name: as text, as CSV and as a chart."""
        from drylay.compare.papers import comparison_papers

        return comparison_papers(self)

    @counted
    def __str__(self) -> str:
        """Return the comparison as text."""
        from drylay.compare.table import comparison_text

        return comparison_text(self)
