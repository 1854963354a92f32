"""What lies round a place: the boundary, buildings, services, drains, covers, trees, flues."""

from collections.abc import Sequence
from math import ceil, hypot, pi, sqrt

from attrs import evolve

from drylay.findings import Severity
from drylay.geometry import region
from drylay.reasons import Source
from drylay.siting.ground import wet_things
from drylay.siting.model import (
    Answer,
    Caster,
    DeckPlace,
    DrainCover,
    Flue,
    Garden,
    Service,
    SitingChange,
    Tree,
)
from drylay.siting.near import Thing, apart_mm, boundary, clearing, keeps, never, solids
from drylay.siting.told import (
    CAUTION,
    NOTE,
    STOP,
    answered,
    asking,
    at_least,
    finding_out,
    told,
)

#: Nearer than this to a service nothing but hand tools. Source: HSG47, from memory: no powered
#: hand tools within 0.5 m of the indicated line of a cable.
SERVICE_MM = 500.0
HSG47 = Source(
    kind="from memory", title="HSE HSG47, Avoiding danger from underground services",
    clause="no powered tools within 0.5 m of the line indicated",
)  # fmt: skip
#: Within this of a sewer's middle somebody has to agree.
SEWER_MM = 3000.0
H4 = Source(
    kind="standard", title="Approved Document H (England)",
    clause="H4, 0.1: within 3 m of the centreline of a sewer on the sewer records, as quoted",
)  # fmt: skip
#: Nearer than this to the line of an overhead one its owner is asked. Source: GS6, from memory:
#: 9 m from lines on wooden poles.
OVERHEAD_MM = 9000.0
GS6 = Source(kind="from memory", title="HSE GS6", clause="9 m from lines on wooden poles")
#: A root zone's radius over the stem's diameter 1.5 m up, and its greatest area.
ROOT_RATIO, ROOT_MOST_M2 = 12.0, 707.0
BS5837 = Source(
    kind="standard", title="BS 5837:2012",
    clause="root protection area: 12 x stem diameter, capped at 707 m2, as quoted",
)  # fmt: skip
#: A flue's outlet is to be so far over a floor beside it, and out of reach up to so far over it.
FLUE_OVER_MM, REACH_MM = 300.0, 2000.0
FLUES = Source(
    kind="from memory", title="Approved Document J (England)",
    clause="outlets of balanced flues, 300 mm over ground or balcony; a guard within reach",
)  # fmt: skip


def root_zone_mm(stem_mm: float) -> float:
    """Return the radius of a tree's root zone in mm, up to a whole one, 15,002 at most.

    Source: BS 5837, 12 x stem diameter, no more than a circle of 707 m2.
    """
    most = sqrt(ROOT_MOST_M2 / pi) * 1000
    return float(ceil(round(min(ROOT_RATIO * stem_mm, most), 6)))


def _moves(
    garden: Garden, place: DeckPlace, thing: Thing, *more: SitingChange
) -> list[SitingChange]:
    move = clearing(place, (thing, *never(garden)))
    return [*([move] if move is not None else []), *more]


def ask_boundary(garden: Garden, place: DeckPlace) -> tuple[Answer, ...]:
    """Return whether a place lies on the plot and keeps off its boundary, and off buildings.

    Source: geometry; what is to be left to the boundary is the garden's own figure.
    """
    plot = boundary(garden)
    if not plot:
        message = "the boundary is not told: whose ground it is has to be known before a dig"
        first = answered("boundary", "plot", [told("PLC-042", NOTE, "plot", message)])
    else:
        first = _ask_plot(garden, place, plot[0])
    return (first, *(_ask_solid(garden, place, one) for one in solids(garden)))


def _ask_plot(garden: Garden, place: DeckPlace, thing: Thing) -> Answer:
    far = at_least(apart_mm(place, thing))
    figures = (far, garden.clear_mm, "mm")
    if not keeps(place, evolve(thing, keep_mm=0.0)):
        message = "the deck reaches over the boundary"
        found = told("PLC-040", STOP, "plot", message, (0.0, garden.clear_mm, "mm"))
    elif not keeps(place, thing):
        message = "the deck comes nearer to the boundary than is to be left"
        found = told("PLC-041", CAUTION, "plot", message, figures)
    else:
        found = told("PLC-043", NOTE, "plot", "within the boundary", figures)
    move = clearing(place, never(garden))
    lost = finding_out("plot", "no place for so large a deck: make it smaller")
    return answered("boundary", "plot", [found], [move or lost])


def _ask_solid(garden: Garden, place: DeckPlace, caster: Caster) -> Answer:
    thing = Thing(area=region(caster.corners_mm), dug=False)
    if keeps(place, thing):
        far = at_least(apart_mm(place, thing))
        found = told("PLC-043", NOTE, caster.name, "clear of it", (far, 0.0, "mm"))
        return answered("building", caster.name, [found])
    found = told("PLC-044", STOP, caster.name, "it stands where the deck would", (0.0, 0.0, "mm"))
    return answered("building", caster.name, [found], _moves(garden, place, thing))


def ask_services(garden: Garden, place: DeckPlace) -> tuple[Answer, ...]:
    """Return of each service whether the dig keeps clear of it, and whether anybody searched.

    A service of unknown depth or kind within SERVICE_MM of the dig, or that the dig strikes, stops;
    another one within it is cautioned. Its distance is straight from the dig's edge and bottom.

    Source: HSG47, GS6 from memory; unknown cables stop by common practice; H4 for sewers.
    """
    found = tuple(_ask_service(garden, place, service) for service in garden.services)
    return (_ask_search(garden), *found, *_ask_sewers(garden, place))


def _ask_search(garden: Garden) -> Answer:
    if garden.searched:
        message = "plans were asked for and the ground was scanned"
        return answered("services", "search", [told("PLC-050", NOTE, "services", message)])
    message = "nobody searched: ask for plans of all services and scan before any dig"
    found = told("PLC-051", CAUTION, "services", message, source=HSG47)
    return answered("services", "search", [found], [finding_out("services", "search and scan")])


def true_apart_mm(place: DeckPlace, service: Service) -> float:
    """Return how far a service is from what is dug, in the ground: beside it and below it.

    One of unknown depth may lie as high as the dig goes, so may any where nobody told how deep one
    digs. Source: geometry.
    """
    beside = apart_mm(place, Thing(line_mm=service.line_mm))
    if service.depth_mm is None or place.dig_mm is None:
        return beside
    return hypot(beside, max(0.0, service.depth_mm - place.dig_mm))


def _ask_service(garden: Garden, place: DeckPlace, service: Service) -> Answer:
    if service.kind == "overhead line":
        return _ask_overhead(garden, place, service)
    far = at_least(true_apart_mm(place, service))
    figures = (far, SERVICE_MM, "mm")
    if far >= SERVICE_MM:
        found = told("PLC-052", NOTE, service.name, "clear of the dig", figures, HSG47)
        return answered("services", service.name, [found])
    code, severity, message = _near(place, service, far)
    thing = Thing(line_mm=service.line_mm, keep_mm=SERVICE_MM)
    return answered(
        "services",
        service.name,
        [told(code, severity, service.name, message, figures, HSG47)],
        _moves(garden, place, thing, *_less_dug(place, service)),
    )


def _near(place: DeckPlace, service: Service, far: float) -> tuple[str, Severity, str]:
    if service.kind == "unknown" or service.depth_mm is None:
        return "PLC-053", STOP, "a service of unknown kind or depth: stop, scan and find it first"
    if place.dig_mm is None:
        return "PLC-053", STOP, "how deep is dug near it is not told: stop, settle that first"
    if far <= 0:
        return "PLC-054", STOP, "the dig strikes it"
    return "PLC-055", CAUTION, "near the dig: hand tools only, and expose it with care"


def _less_dug(place: DeckPlace, service: Service) -> list[SitingChange]:
    """Return the change to the deepest dig that keeps clear above a service, if there is one."""
    if service.depth_mm is None or service.kind == "unknown":
        text = f"scan and find {service.name}, its kind and its depth"
        return [finding_out(service.name, text)]
    beside = apart_mm(place, Thing(line_mm=service.line_mm))
    below = ceil(round(sqrt(max(0.0, SERVICE_MM**2 - beside**2)), 6) + 0.1)
    deepest = service.depth_mm - below
    if place.dig_mm is None or deepest < 0:
        return []
    by_mm = float(-ceil(round(place.dig_mm - deepest, 6)))
    text = f"dig {-by_mm:g} mm less deep over {service.name}"
    return [SitingChange(kind="dig", subject=service.name, by_mm=by_mm, text=text)]


def _ask_overhead(garden: Garden, place: DeckPlace, service: Service) -> Answer:
    thing = Thing(line_mm=service.line_mm, keep_mm=OVERHEAD_MM, dug=False)
    figures = (at_least(apart_mm(place, thing)), OVERHEAD_MM, "mm")
    if keeps(place, thing):
        found = told("PLC-052", NOTE, service.name, "far enough", figures, GS6)
        return answered("services", service.name, [found])
    message = "a line overhead: ask its owner before long timber or ladders go up near it"
    found = told("PLC-056", CAUTION, service.name, message, figures, GS6)
    changes = _moves(garden, place, thing, asking(service.name, "ask the network's owner"))
    return answered("services", service.name, [found], changes)


def _ask_sewers(garden: Garden, place: DeckPlace) -> tuple[Answer, ...]:
    sewers = [
        one for one in garden.services if one.kind in {"sewer", "drain"} and one.shared is not False
    ]
    return (
        *(_ask_sewer(garden, place, sewer) for sewer in sewers),
        *(_ask_cover(garden, place, cover) for cover in garden.covers),
    )


def _ask_sewer(garden: Garden, place: DeckPlace, sewer: Service) -> Answer:
    thing = Thing(line_mm=sewer.line_mm, keep_mm=SEWER_MM, dug=False)
    figures = (at_least(apart_mm(place, thing)), SEWER_MM, "mm")
    if keeps(place, thing):
        found = told("PLC-057", NOTE, sewer.name, "further than consent reaches", figures, H4)
        return answered("sewer", sewer.name, [found])
    may = "" if sewer.shared else " if it is public or shared, which nobody told"
    message = f"so near its owner has to agree{may}: ask the water company"
    found = told("PLC-058", CAUTION, sewer.name, message, figures, H4)
    changes = _moves(garden, place, thing, asking(sewer.name, "ask the water company to agree"))
    return answered("sewer", sewer.name, [found], changes)


def _ask_cover(garden: Garden, place: DeckPlace, cover: DrainCover) -> Answer:
    half = cover.size_mm / 2
    (x, y) = cover.at_mm
    ring = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    thing = Thing(area=region(ring), dug=False)
    if keeps(place, thing):
        far = at_least(apart_mm(place, thing))
        found = told("PLC-057", NOTE, cover.name, "beside the deck", (far, 0.0, "mm"))
        return answered("cover", cover.name, [found])
    message = "a cover under the deck has to open: leave a hatch that lifts, or move"
    found = told("PLC-059", CAUTION, cover.name, message, (0.0, 0.0, "mm"))
    hatch = finding_out(cover.name, "plan a hatch over it")
    return answered("cover", cover.name, [found], _moves(garden, place, thing, hatch))


def ask_trees(garden: Garden, place: DeckPlace) -> tuple[Answer, ...]:
    """Return of each tree whether the dig keeps out of its root zone.

    Inside it nothing is dug for a deck on the ground: a stop, as for any protected tree. Legs are
    cautioned: holes by hand, between roots.

    Source: BS 5837.
    """
    return tuple(_ask_tree(garden, place, tree) for tree in garden.trees)


def _ask_tree(garden: Garden, place: DeckPlace, tree: Tree) -> Answer:
    zone = root_zone_mm(tree.stem_mm)
    thing = Thing(line_mm=(tree.at_mm,), keep_mm=zone)
    figures = (at_least(apart_mm(place, thing)), zone, "mm")
    if keeps(place, thing):
        found = told("PLC-060", NOTE, tree.name, "out of its root zone", figures, BS5837)
        return answered("tree", tree.name, [found])
    found_at = _in_zone(place, tree)
    found = told(found_at[0], found_at[1], tree.name, found_at[2], figures, BS5837)
    who = asking(tree.name, "ask a tree surgeon, and the local authority where it is protected")
    return answered("tree", tree.name, [found], _moves(garden, place, thing, who))


def _in_zone(place: DeckPlace, tree: Tree) -> tuple[str, Severity, str]:
    if tree.protected:
        return "PLC-062", STOP, "a protected tree: no dig in its root zone without consent"
    if place.stands == "legs":
        return "PLC-061", CAUTION, "in its root zone: holes by hand, and between the roots"
    return "PLC-061", STOP, "the dig lies in its root zone: no dig there"


def ask_flues(garden: Garden, place: DeckPlace) -> tuple[Answer, ...]:
    """Return of each flue whether its outlet is over the deck's top and out of reach.

    Source: Approved Document J, from memory. Whatever is near one is for a registered installer.
    """
    return tuple(_ask_flue(garden, place, flue) for flue in garden.flues)


def _ask_flue(garden: Garden, place: DeckPlace, flue: Flue) -> Answer:
    thing = Thing(line_mm=(flue.at_mm,), keep_mm=REACH_MM, dug=False)
    over = flue.level_mm - place.top_mm
    if keeps(place, thing) or over >= REACH_MM:
        figures = (at_least(apart_mm(place, thing)), REACH_MM, "mm")
        return answered(
            "flue", flue.name, [told("PLC-065", NOTE, flue.name, "out of reach", figures, FLUES)]
        )
    changes = _moves(garden, place, thing, asking(flue.name, "ask a registered installer"))
    if over < FLUE_OVER_MM:
        message = (
            "its outlet is too near to the deck's top, or below it: ask a registered installer"
        )
        found = told("PLC-067", STOP, flue.name, message, (over, FLUE_OVER_MM, "mm"), FLUES)
        return answered("flue", flue.name, [found], changes)
    message = "its hot outlet is within reach from the deck: a guard, by a registered installer"
    found = told("PLC-066", CAUTION, flue.name, message, (over, REACH_MM, "mm"), FLUES)
    return answered("flue", flue.name, [found], changes)


def things_near(garden: Garden, place: DeckPlace) -> Sequence[Thing]:
    """Return all that a place must keep clear of, for one shift that clears it all."""
    found: list[Thing] = [*never(garden)]
    found += [
        Thing(line_mm=one.line_mm, keep_mm=SERVICE_MM)
        for one in garden.services
        if _close(place, one)
    ]
    found += [
        Thing(line_mm=(one.at_mm,), keep_mm=root_zone_mm(one.stem_mm)) for one in garden.trees
    ]
    found += wet_things(garden, place)
    return found


def _close(place: DeckPlace, service: Service) -> bool:
    """Whether a service may be near the dig at all: not one so deep that no place comes near."""
    if service.kind == "overhead line":
        return False
    if service.depth_mm is None or place.dig_mm is None:
        return True
    return service.depth_mm - place.dig_mm < SERVICE_MM
