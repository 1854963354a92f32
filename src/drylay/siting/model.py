"""The nouns of siting: a garden as somebody tells it, places for a deck, and what is said of them.

Places are (along, across) in mm from the garden file's datum corner, levels upwards from its datum
of levels. Hours are hours of a day, 17.5 for half past five.
"""

from datetime import date

from attrs import frozen

from drylay.findings import Finding

Place = tuple[float, float]

#: How a deck may stand, and what may be said of that.
STANDS = ("ground", "legs")
#: What runs under or over the ground.
BURIED = ("electricity", "gas", "water", "telecom", "drain", "sewer", "unknown")
SERVICE_KINDS = (*BURIED, "overhead line")
#: How firm ground is found to be.
TESTS = ("finger", "heel", "rod")
#: What a change does.
CHANGES = ("move", "level", "fence", "legs", "drain", "dig", "find out", "ask")
DAYLIGHT = ("rises and sets", "never sets", "never rises")


@frozen(kw_only=True)
class SunPosition:
    """Where the sun stands: over the horizon, and its true bearing clockwise from north.

    `hour_angle_deg` is below 0 before solar noon. `equation_h` is what a sundial is ahead of a
    clock that keeps the meridian's mean time.
    """

    altitude_deg: float
    azimuth_deg: float
    declination_deg: float
    hour_angle_deg: float
    equation_h: float


@frozen(kw_only=True)
class Daylight:
    """Sunrise and sunset in hours of solar time, None where there are none, and the day's length.

    `noon_deg` is the sun's altitude at solar noon.
    """

    kind: str
    rise_h: float | None
    set_h: float | None
    length_h: float
    noon_deg: float


@frozen(kw_only=True)
class Meridian:
    """Where on the earth: latitude, northern above 0, and longitude, eastern above 0.

    Without `utc_offset_h`, how far clocks are ahead of universal time on the day, hours are solar.
    """

    latitude_deg: float
    longitude_deg: float | None = None
    utc_offset_h: float | None = None


@frozen(kw_only=True)
class SunHours:
    """A day, and the hours of it that matter."""

    day: date
    from_h: float
    to_h: float


@frozen(kw_only=True)
class Caster:
    """Something that throws a shadow: upright walls over a ring of corners, or over a line.

    It reaches from `clear_mm` over its foot to `height_mm` over it; `foot_mm` is the foot's level.
    """

    name: str
    corners_mm: tuple[Place, ...]
    height_mm: float
    clear_mm: float = 0.0
    foot_mm: float = 0.0


@frozen(kw_only=True)
class Fence:
    """A fence or hedge on a straight, with the level of its foot and of the ground beyond it.

    `private_mm`: how far beyond the fence nothing is to be seen, None for all of it.
    """

    name: str
    start_mm: Place
    end_mm: Place
    height_mm: float
    foot_mm: float = 0.0
    beyond_mm: float = 0.0
    private_mm: float | None = None


@frozen(kw_only=True)
class Service:
    """What runs under or over the ground along a line; `depth_mm` of its top is None if unknown.

    `shared`: a sewer that is public or serves several houses, or may.
    """

    name: str
    kind: str
    line_mm: tuple[Place, ...]
    depth_mm: float | None = None
    shared: bool | None = None


@frozen(kw_only=True)
class DrainCover:
    """An inspection cover, `size_mm` square about its middle."""

    name: str
    at_mm: Place
    size_mm: float


@frozen(kw_only=True)
class Tree:
    """A tree: its stem 1.5 m up; height, crown and the crown's underside where they are known."""

    name: str
    at_mm: Place
    stem_mm: float
    height_mm: float | None = None
    crown_mm: float | None = None
    clear_mm: float | None = None
    foot_mm: float = 0.0
    protected: bool | None = None


@frozen(kw_only=True)
class Flue:
    """The outlet of a boiler or stove, at a level."""

    name: str
    at_mm: Place
    level_mm: float


@frozen(kw_only=True)
class WetSpot:
    """Ground where water stands: the days it stood after rain, or the time it soaks away 1 mm.

    `outfall`: whether water has a way to run off; None where nobody looked.
    """

    name: str
    corners_mm: tuple[Place, ...]
    stood_days: int | None = None
    soak_s_per_mm: float | None = None
    outfall: bool | None = None


@frozen(kw_only=True)
class LowSpot:
    """The plot's lowest ground, and whether water that gathers there can run off."""

    name: str
    at_mm: Place
    outfall: bool | None = None


@frozen(kw_only=True)
class FirmTest:
    """How far a finger, a heel or a rod sank at a place."""

    at_mm: Place
    kind: str
    sunk_mm: float


@frozen(kw_only=True)
class DeckPlace:
    """A place for a deck: its corner nearest the datum, its size, the level of its top.

    `stands` is "ground", "legs", or None where that is asked. `build_mm` is the height of boards
    and frame together. `holes_mm` are the middles of post holes from its own corner, `hole_mm`
    across; without them anything under the deck may be dug, `margin_mm` beyond it too, `dig_mm`
    deep.
    """

    name: str
    along_mm: float
    across_mm: float
    size_along_mm: float
    size_across_mm: float
    top_mm: float
    stands: str | None = None
    ground_most_mm: float | None = None
    ground_least_mm: float | None = None
    build_mm: float | None = None
    dig_mm: float | None = None
    margin_mm: float = 0.0
    holes_mm: tuple[Place, ...] = ()
    hole_mm: float | None = None


@frozen(kw_only=True)
class Garden:
    """A plot with everything on it that a deck's place hangs on.

    `along_bearing_deg` is the true bearing that along runs in. `sun_least_ratio` is how much of the
    deck is to be in the sun at the hours that matter, `sun_over_mm` how high over the boards.
    `searched`: somebody asked for plans of services and scanned for them. `plot_mm` is () where
    nobody told the boundary, `clear_mm` what is to be left to it.
    """

    meridian: Meridian | None = None
    along_bearing_deg: float | None = None
    hours: tuple[SunHours, ...] = ()
    sun_least_ratio: float = 0.5
    sun_over_mm: float = 0.0
    plot_mm: tuple[Place, ...] = ()
    clear_mm: float = 0.0
    door_mm: Place | None = None
    casters: tuple[Caster, ...] = ()
    fences: tuple[Fence, ...] = ()
    services: tuple[Service, ...] = ()
    searched: bool | None = None
    covers: tuple[DrainCover, ...] = ()
    trees: tuple[Tree, ...] = ()
    flues: tuple[Flue, ...] = ()
    wet: tuple[WetSpot, ...] = ()
    low: LowSpot | None = None
    firmness: tuple[FirmTest, ...] = ()
    region: str = ""
    soil: str = ""
    made_ground: bool | None = None
    places: tuple[DeckPlace, ...] = ()


@frozen(kw_only=True)
class Sunshine:
    """What a place gets of the sun on one day: hours of full sun, and shares at hours."""

    day: date
    sun_h: float
    share_ratio: float
    hours_h: tuple[float, ...]
    shares_ratio: tuple[float, ...]


@frozen(kw_only=True)
class Sight:
    """What eyes on a deck see over a fence: ground from `starts_mm` beyond it on; None for none.

    `apart_mm` is how far the deck is from the fence, `eye_mm` and `fence_mm` the levels of eye and
    of the fence's top.
    """

    fence: str
    apart_mm: float
    eye_mm: float
    fence_mm: float
    starts_mm: float | None


@frozen(kw_only=True)
class SitingChange:
    """The nearest change that makes an answer good, one of CHANGES.

    "move" by `along_mm` and `across_mm`; "level", "fence" and "dig" by `by_mm`, upwards or longer
    above 0; "find out" and "ask" have no figure. `text` says it in words.
    """

    kind: str
    subject: str
    text: str
    along_mm: float = 0.0
    across_mm: float = 0.0
    by_mm: float = 0.0


@frozen(kw_only=True)
class Answer:
    """What is said of one question about one thing: good where nothing is a stop or a caution.

    Each of the changes by itself makes it good, but for those that only find out or ask.
    """

    question: str
    subject: str
    good: bool
    findings: tuple[Finding, ...]
    changes: tuple[SitingChange, ...] = ()


@frozen(kw_only=True)
class Standing:
    """Whether a deck may lie on the ground or wants legs: "ground", "legs", "ask" or "not known".

    "raise" where it would lie in the ground.
    `over_mm` is the frame's underside over the lowest ground, `fall_mm` that of the ground under
    the deck; None where nobody knows.
    """

    stands: str
    over_mm: float | None
    fall_mm: float | None
    reasons: tuple[Finding, ...]


@frozen(kw_only=True)
class Verdict:
    """All answers about one place, in the order of the questions.

    `stops` and `cautions` count answers by the gravest that each finds; `sun_h` is the sum over the
    days that matter, None where the sun was not asked; `door_mm` how far the house door is, None
    where nobody told. `move` is the nearest shift that clears boundary, buildings, buried services,
    root zones and wet ground, None where none is needed or found.
    """

    place: DeckPlace
    answers: tuple[Answer, ...]
    standing: Standing
    stops: int
    cautions: int
    sun_h: float | None
    door_mm: float | None
    move: SitingChange | None


@frozen(kw_only=True)
class ShadowAt:
    """All shadows on a deck's level at an hour, as rings, cut off where a plan of the plot ends."""

    day: date
    hour_h: float
    altitude_deg: float
    rings_mm: tuple[tuple[Place, ...], ...]


@frozen(kw_only=True)
class SunPath:
    """How high the sun stands over a day: altitudes at hours, in step; from rise to set."""

    day: date
    hours_h: tuple[float, ...]
    altitudes_deg: tuple[float, ...]


@frozen(kw_only=True)
class Zone:
    """Ground to keep clear of: "service" or "roots", as rings."""

    name: str
    kind: str
    rings_mm: tuple[tuple[Place, ...], ...]


@frozen(kw_only=True)
class SitePlan:
    """Everything that is drawn of a garden with one place in it.

    `low_mm` and `high_mm` are the corners of what is drawn; `buildings_mm` are cut off there.
    """

    title: str
    garden: Garden
    place: DeckPlace
    low_mm: Place
    high_mm: Place
    buildings_mm: tuple[tuple[str, tuple[Place, ...]], ...]
    shadows: tuple[ShadowAt, ...]
    paths: tuple[SunPath, ...]
    zones: tuple[Zone, ...]
