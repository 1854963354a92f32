"""The nouns of the groundwork. `loose` is earth as it lies in a heap."""

from attrs import frozen

from drylay.outline.model import Spot
from drylay.reasons import because
from drylay.regions.model import Limit


@frozen(kw_only=True)
class RootZone:
    """Ground that roots of the tree in an opening keep: nothing is dug within it.

    `middle` is the tree's, `trunk_mm` its stem's diameter, `radius_mm` how far the zone reaches.
    """

    opening: str
    middle: Spot
    trunk_mm: float = because("groundwork.dig.roots_m2")
    radius_mm: float = because("groundwork.dig.roots_m2")


@frozen(kw_only=True)
class Dig:
    """The turf strip: the cover and a margin all round, so deep; what it gives, and how it goes.

    `house_margin_mm` is that on the house side. `bags` and `skips` are how many the loose earth
    fills, whichever way it goes.

    Under an outline `area_m2` is what is dug, `along_mm` and `across_mm` from end to end of outline
    and margins, and `roots_m2` what of these is left to the `roots` of trees.
    """

    margin_mm: float = because("groundwork.dig.margin_mm")
    house_margin_mm: float = because("groundwork.dig.house_margin_mm")
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
    area_m2: float | None = because("groundwork.dig.margin_mm", default=None)
    roots_m2: float | None = because("groundwork.dig.roots_m2", default=None)
    roots: tuple[RootZone, ...] = ()


@frozen(kw_only=True)
class FabricStrip:
    """One strip of ground fabric, cut from a roll."""

    mark: str
    length_mm: float = because("groundwork.fabric.run")


@frozen(kw_only=True)
class Fabric:
    """The ground fabric in strips that run one way, each lapping the next by `lap_mm` at least.

    `other_strips`, each `other_length_mm` long (under an outline the longest of them), are what the
    other way would take; `other_note` says why it was not taken.
    """

    article: str
    width_mm: float = because("groundwork.fabric.width_mm")
    lap_mm: float = because("groundwork.fabric.lap_mm")
    run: str = because("groundwork.fabric.run")
    strips: tuple[FabricStrip, ...]
    other_strips: int = because("groundwork.fabric.run")
    other_length_mm: float = because("groundwork.fabric.run")
    other_note: str


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
    """Packers under the joists: how high, how far apart at most, how many under each.

    Under an outline `places` are where they stand, each under its timber's middle, and `per_joist`
    is the most that stand under any one.

    `height_least_mm` and `height_most_mm` are what lies between the bed and the frame, where it
    is least and where it is most. They are the packer's own least height, and `levels_known` is
    not so, where the brief gives no levels.
    """

    article: str
    reach_least_mm: float = because("groundwork.packing.reach_least_mm")
    reach_most_mm: float = because("groundwork.packing.reach_most_mm")
    levels_known: bool
    height_least_mm: float = because("groundwork.packing.height_least_mm")
    height_most_mm: float = because("groundwork.packing.height_most_mm")
    spacing_most_mm: float = because("groundwork.packing.spacing_most_mm")
    per_joist: int = because("groundwork.packing.per_joist")
    count: int = because("groundwork.packing.per_joist")
    places: tuple[Spot, ...] = ()


@frozen(kw_only=True)
class Groundwork:
    """Everything under the deck; a part is None where the brief names nothing for it."""

    dig: Dig | None
    fabric: Fabric | None
    gravel: GravelBed | None
    packing: Packing | None


@frozen(kw_only=True)
class FootingRules:
    """A region's limits for footings."""

    square_least: Limit
    round_least: Limit
    thick_least: Limit
    depth_least: Limit
    frost: Limit


@frozen(kw_only=True)
class Footing:
    """What one post stands on: a pad at the bottom of a hole, or the whole hole filled.

    `size_mm` is a square's side or a round one's diameter, up to a whole step; `depth_mm` is from
    the ground to its underside. `own_kn_m2` is what its concrete weighs on the ground, as if no
    post stood in it, and `carries_kn` its area times what the soil bears beside that.
    `concrete_m3` is without the post where that stands in it, up to a litre, and `bags` fill it.
    `soil_named` is not so where a soil was assumed. `pier_mm` is the side or the diameter of a pier
    of concrete from a pad's top up to the ground, 0 where none stands on it.
    """

    kind: str
    shape: str
    load_kn: float
    soil: str
    soil_named: bool
    bearing_kn_m2: float
    size_mm: float
    thickness_mm: float
    depth_mm: float
    own_kn_m2: float
    carries_kn: float
    concrete_m3: float
    bag: str
    bags: int
    pier_mm: float = 0.0


@frozen(kw_only=True)
class PostFooting:
    """The footing under one post of a deck that stands; `dead_kn` and `live_kn` come down on it."""

    mark: str
    post: str
    dead_kn: float
    live_kn: float
    footing: Footing


@frozen(kw_only=True)
class Footings:
    """All footings of a deck, one under each post, with the concrete for them.

    `frost_mm` is the frost line that holds, None where none does; `bags` fill them all, each
    footing its own whole bags. `mix_article` is the dry mix bought for them, `mix_kg` of it, where
    a m3 of concrete takes `mix_kg_m3`, in whole bags of `mix_bag_kg` for each footing; nothing is
    bought where the brief names none.
    """

    kind: str = because("footings.kind")
    shape: str = because("footings.kind")
    soil: str
    soil_named: bool
    bearing_kn_m2: float = because("footings.bearing_kn_m2")
    frost_mm: float | None = because("footings.frost_mm")
    bag: str
    bags: int = because("footings.bags")
    concrete_m3: float = because("footings.bags")
    mix_article: str = ""
    mix_kg_m3: float | None = because("footings.mix_kg", default=None)
    mix_bag_kg: int | None = because("footings.mix_kg", default=None)
    mix_kg: int | None = because("footings.mix_kg", default=None)
    under: tuple[PostFooting, ...] = because("footings.bearing_kn_m2")
