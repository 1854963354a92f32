"""The nouns of what would change a deck. Lengths are millimetres, money is Decimal."""

from decimal import Decimal

from attrs import frozen

from drylay.findings import Finding
from drylay.reasons import Source


@frozen(kw_only=True)
class Figures:
    """What a plan comes to, in money and in counts; None where it has none of that, or is blocked.

    `total` is the whole order with spares, `gap` how much cheaper another could be at most.
    `boards` and `timbers` are lengths bought, fascia among timbers; `cuts` those of the saw across
    them. `joists` are joist lines, `rips` rows ripped, `tiles` those needed, `permissions` heights
    of the region gone over, `guards` runs of guard that it asks for. `stops` are the codes of what
    blocks the plan.
    """

    total: Decimal | None = None
    gap: Decimal | None = None
    rows: int | None = None
    joists: int | None = None
    boards: int | None = None
    timbers: int | None = None
    cuts: int | None = None
    noggins: int | None = None
    joints: int | None = None
    rips: int | None = None
    tiles: int | None = None
    footings: int | None = None
    permissions: int | None = None
    guards: int | None = None
    stops: tuple[str, ...] = ()


@frozen(kw_only=True)
class Flat:
    """Sizes one after another, ends included, at which all figures are the same."""

    first_mm: float
    last_mm: float
    figures: Figures


@frozen(kw_only=True)
class Sweep:
    """One figure of the brief at every value within reach: what the plan comes to at each.

    `here_mm` is the brief's own, `apart_mm` how far the values lie apart.
    """

    path: str
    here_mm: float
    apart_mm: float
    flats: tuple[Flat, ...]


@frozen(kw_only=True)
class CountChange:
    """A count that differs, before and after, with the rule of the plan that decides it."""

    what: str
    before: int | None
    after: int | None
    rule: str
    source: Source


@frozen(kw_only=True)
class Effect:
    """What a change does to the plan as it is: what there is fewer of, and more of.

    `kind` is "unblocks", "saves", "adds" or "blocks". `fewer` and `more` name what made this a step
    ("order" is its money), `changes` has every count that differs. `saving` is below 0 where the
    order is dearer, None where either plan is blocked. `area_lost_m2` is below 0 where the cover
    grows. `gained` and `lost` are the cautions and stops that come and go. `source` says how it is
    known.
    """

    kind: str
    fewer: tuple[str, ...] = ()
    more: tuple[str, ...] = ()
    changes: tuple[CountChange, ...] = ()
    saving: Decimal | None = None
    currency: str
    area_lost_m2: float | None = None
    gained: tuple[Finding, ...] = ()
    lost: tuple[Finding, ...] = ()
    source: Source


@frozen(kw_only=True)
class Step:
    """The exact point at which a figure of the brief changes the plan.

    `last_mm` is the last value without the effect, `to_mm` the first with it, the next there is;
    `holds_to_mm` the last in one go with it, or the last that was looked at. `change_mm` is `to_mm`
    less the brief's own, `from_mm`.
    """

    path: str
    from_mm: float
    last_mm: float
    to_mm: float
    change_mm: float
    holds_to_mm: float
    effect: Effect


@frozen(kw_only=True)
class Swap:
    """Another word in the brief, such as another board, that changes the plan."""

    path: str
    from_word: str
    to_word: str
    effect: Effect


@frozen(kw_only=True)
class FreeSize:
    """How much larger a side may be at no higher cost: every size up to `to_mm` costs no more.

    `next_mm` is the first that does, or that is blocked; None where none within reach is. `extra`
    is what it costs more, None where it is blocked or there is none. `area_m2` is what is won.
    """

    path: str
    from_mm: float
    to_mm: float
    free_mm: float
    area_m2: float | None
    next_mm: float | None
    extra: Decimal | None
    currency: str


@frozen(kw_only=True)
class StepPoints:
    """What would change a brief's plan, and how much: nearest first within a kind.

    Kinds come in the order unblocks, saves, adds, blocks. `here` are the plan's own figures,
    `free_sizes` how much more size is free. `sweeps` tell every value looked at, `untold` what was
    not looked at and why.
    """

    title: str
    units: str
    currency: str
    apart_mm: float
    within_mm: float
    counts_within_mm: float
    here: Figures
    steps: tuple[Step, ...]
    swaps: tuple[Swap, ...]
    free_sizes: tuple[FreeSize, ...]
    sweeps: tuple[Sweep, ...]
    untold: tuple[Finding, ...]
