"""The nouns of a region: its limits, each with who says so and how well that is known."""

from attrs import field, frozen

from drylay.reasons import Source

#: A drop over which any guard is for somebody licensed, and how much ground may fall for each
#: length along it before it is: wherever one builds. Common practice, no source.
GUARD_DROP_MOST_MM, SLOPE_MOST_RATIO = 1000.0, 0.25
#: How well a limit is known. "no limit": the rules set none; "not covered": nobody looked.
STANDINGS = (
    "read",
    "quoted",
    "from memory",
    "common practice",
    "assumption",
    "no limit",
    "not covered",
)


@frozen(kw_only=True)
class Limit:
    """One figure of a region's rules.

    `value` is in `unit` ("" for a count) and None where the rules set no limit or the pack does not
    cover it: `standing` says which. `written` is the figure as its source has it. `reached` tells,
    of a height at which something is asked for, that reaching it is enough.
    """

    name: str
    value: float | None
    unit: str
    written: str
    standing: str
    source: Source
    reached: bool = False
    note: str = ""

    def exceeded_by(self, measured: float) -> bool:
        """Whether a measure is over the limit, or reaches one at which that is enough."""
        if self.value is None:
            return False
        return measured > self.value or (self.reached and measured == self.value)


@frozen(kw_only=True)
class Soil:
    """A soil by its name, with the load it is presumed to bear; a poor one bears none here."""

    name: str
    bearing: Limit
    poor: bool = False


@frozen(kw_only=True)
class Bag:
    """A bag of dry concrete mix; `made_m3` is the concrete it makes."""

    name: str
    mass_kg: float
    made_m3: Limit


@frozen(kw_only=True)
class HeightRule:
    """A height over the ground from which somebody has to be asked, and what they are asked."""

    name: str
    limit: Limit
    asks: str


#: What a note hangs on: a share of the garden, an area, or one of the facts that a host tells.
NOTE_FIGURES = ("garden_ratio", "area_m2")
NOTE_FACTS = ("forward", "listed", "designated", "flat", "anywhere")


@frozen(kw_only=True)
class RegionNote:
    """Something other than a height over which somebody has to be asked, and what they are asked.

    `about` is one of NOTE_FIGURES, held against `limit`, or one of NOTE_FACTS, a yes or no without
    a limit; "anywhere" always holds. `checked` is the day on which the source was looked at, as
    ISO 8601 has it, "" where it was told from memory.
    """

    name: str
    about: str
    limit: Limit | None
    asks: str
    source: Source
    standing: str
    checked: str = ""


@frozen(kw_only=True)
class RegionPack:
    """What one region's rules say; `limits` answer every name there is, in their order.

    `assumed_soil` is the name of the soil to take where a brief names none, "" where none may be.
    `notes` tell what else than a height may need somebody's permission.
    """

    pack: str
    title: str
    covers: str
    limits: tuple[Limit, ...]
    soils: tuple[Soil, ...]
    bags: tuple[Bag, ...]
    heights: tuple[HeightRule, ...]
    notes: tuple[RegionNote, ...] = ()
    assumed_soil: str = ""
    cautions: tuple[str, ...] = field(default=())
