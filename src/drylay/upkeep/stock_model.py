"""The nouns of what is left over or used again: old boards, waste by class, carbon."""

from attrs import frozen

from drylay.findings import Finding
from drylay.reasons import Source

#: What old boards are found to be.
SOUNDNESS = ("sound", "soft")
#: How old wood was treated, as far as anybody can tell.
OLD_TREATMENTS = ("none", "copper", "arsenic", "not known")
#: Classes of waste, as a yard asks for them apart.
WASTE_CLASSES = (
    "treated timber", "timber, treatment not known", "untreated timber", "composite or plastic",
    "mineral", "metal", "packaging", "soil",
)  # fmt: skip
#: What a factor of carbon counts by.
FACTOR_UNITS = ("kg", "m3", "m2")


@frozen(kw_only=True)
class OldBoard:
    """Old boards that are alike: `count` of them, each with holes at `holes_mm` from one end.

    `holes_apart_mm` is the distance of the old joists, where the holes lie evenly by it. A soft
    board has no sound length; soft ends are sawn off and not told.
    """

    mark: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    count: int = 1
    holes_mm: tuple[float, ...] = ()
    holes_apart_mm: float | None = None
    soundness: str = "sound"
    treatment: str = "not known"
    was: str = "boards"


@frozen(kw_only=True)
class OldLength:
    """A usable length out of an old board: from where to where, and the holes left in it.

    `holes_mm` are counted from its own beginning; there are some only where the new joists are as
    far apart as the old ones.
    """

    mark: str
    board: str
    count: int
    from_mm: float
    to_mm: float
    length_mm: float
    holes_mm: tuple[float, ...] = ()


@frozen(kw_only=True)
class NotUsed:
    """An old board that yields nothing, and why."""

    board: str
    count: int
    why: str


@frozen(kw_only=True)
class Salvage:
    """What old boards yield. `next_use` is one use lower than what they were."""

    width_mm: float
    thickness_mm: float
    next_use: str
    lengths: tuple[OldLength, ...]
    not_used: tuple[NotUsed, ...]
    end_trim_mm: float
    clear_mm: float
    kept_holes: bool
    total_mm: float
    source: Source
    findings: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class WastePart:
    """So much waste of one class: what it is, out of what, where it may go.

    `mass_kg` is None where the plan tells no mass of it; then `why` says so.
    """

    waste_class: str
    what: str
    article: str
    mass_kg: float | None
    volume_m3: float | None
    goes: str
    source: Source
    why: str = ""


@frozen(kw_only=True)
class Weighed:
    """One article of the order, as bought for the plan: built in, offcuts, dust. Spares apart."""

    what: str
    article: str
    waste_class: str
    bought_kg: float
    built_kg: float
    offcuts_kg: float
    dust_kg: float
    spares_kg: float
    volume_m3: float
    area_m2: float


@frozen(kw_only=True)
class Waste:
    """What is left over when the deck is built, by class."""

    parts: tuple[WastePart, ...]
    weighed: tuple[Weighed, ...]
    known_kg: float
    findings: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class CarbonFactor:
    """What somebody says a material costs: kg of CO2e for each kg, m3 or m2 of it, least and most.

    `material` names an article of the order, or a class of waste that it is of.
    """

    material: str
    per: str
    least_kg: float
    most_kg: float
    source: Source


@frozen(kw_only=True)
class CarbonPart:
    """One article's carbon by its factor: least and most, in kg of CO2e."""

    what: str
    article: str
    factor: CarbonFactor
    counted: str
    least_kg: float
    most_kg: float


@frozen(kw_only=True)
class Carbon:
    """Carbon of what is bought, as far as factors were given; `missing` names the rest.

    `whole` is not so while anything is missing: sums then are of what is known alone.
    """

    parts: tuple[CarbonPart, ...]
    missing: tuple[str, ...]
    least_kg: float
    most_kg: float
    whole: bool
    findings: tuple[Finding, ...] = ()
