"""The nouns of the groundwork. `loose` is earth as it lies in a heap."""

from attrs import frozen

from drylay.reasons import because


@frozen(kw_only=True)
class Dig:
    """The turf strip: the cover and a margin all round, so deep; what it gives, and how it goes.

    `bags` and `skips` are how many it fills, whichever way it goes.
    """

    margin_mm: float = because("groundwork.dig.margin_mm")
    along_mm: float = because("groundwork.dig.margin_mm")
    across_mm: float = because("groundwork.dig.margin_mm")
    depth_mm: float = because("groundwork.dig.depth_mm")
    solid_m3: float = because("groundwork.dig.depth_mm")
    bulking_ratio: float = because("groundwork.dig.bulking_ratio")
    loose_m3: float = because("groundwork.dig.bulking_ratio")
    spoil: str
    bag_m3: float = because("groundwork.dig.bags")
    bags: int = because("groundwork.dig.bags")
    skip_m3: float = because("groundwork.dig.skips")
    skips: int = because("groundwork.dig.skips")


@frozen(kw_only=True)
class FabricStrip:
    """One strip of ground fabric, cut from a roll."""

    mark: str
    length_mm: float = because("groundwork.fabric.run")


@frozen(kw_only=True)
class Fabric:
    """The ground fabric in strips that run one way, each lapping the next by `lap_mm`.

    `other_strips` and `other_length_mm` are what the other way would take.
    """

    article: str
    width_mm: float = because("groundwork.fabric.width_mm")
    lap_mm: float = because("groundwork.fabric.lap_mm")
    run: str = because("groundwork.fabric.run")
    strips: tuple[FabricStrip, ...]
    other_strips: int = because("groundwork.fabric.run")
    other_length_mm: float = because("groundwork.fabric.run")


@frozen(kw_only=True)
class GravelBed:
    """The gravel: from the bottom of the dig to `below_lawn_mm` under the lawn."""

    article: str
    below_lawn_mm: float = because("groundwork.gravel.below_lawn_mm")
    depth_mm: float = because("groundwork.gravel.below_lawn_mm")
    volume_m3: float = because("groundwork.gravel.below_lawn_mm")
    density_kg_m3: float = because("groundwork.gravel.density_kg_m3")
    mass_kg: float = because("groundwork.gravel.density_kg_m3")


@frozen(kw_only=True)
class Packing:
    """Packers under the joists: how high, how far apart at most, how many under each."""

    article: str
    height_mm: float = because("groundwork.packing.height_mm")
    spacing_most_mm: float = because("groundwork.packing.spacing_most_mm")
    per_joist: int = because("groundwork.packing.spacing_most_mm")
    count: int = because("groundwork.packing.spacing_most_mm")


@frozen(kw_only=True)
class Groundwork:
    """Everything under the deck; a part is None where the brief names nothing for it."""

    dig: Dig | None
    fabric: Fabric | None
    gravel: GravelBed | None
    packing: Packing | None
