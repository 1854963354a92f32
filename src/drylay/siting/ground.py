"""The ground of a place: standing water, the lowest spot, how firm it is."""

from attrs import frozen

from drylay.errors import Fault, InputError
from drylay.findings import Finding
from drylay.geometry import region
from drylay.reasons import Source
from drylay.regions.model import Soil
from drylay.siting.model import (
    TESTS,
    Answer,
    DeckPlace,
    FirmTest,
    Garden,
    SitingChange,
    WetSpot,
)
from drylay.siting.near import Thing, apart_mm, clearing, keeps, never
from drylay.siting.told import (
    ASSUMED,
    CAUTION,
    NOTE,
    PRACTICE,
    STOP,
    Figures,
    answered,
    asking,
    at_least,
    told,
)

#: Water that stood longer than this after rain: a frame in it does not last. Common practice, no
#: source.
STOOD_DAYS = 1
#: Ground that takes longer than this to take in 1 mm drains too slowly. Source: Approved Document
#: H2 (England), 12 to 100 s/mm for drainage fields, as quoted by guides on percolation tests.
SOAK_S_PER_MM = 100.0
SOAK = Source(
    kind="standard",
    title="Approved Document H (England)",
    clause="H2, percolation of a drainage field, as quoted; taken for standing water: assumption",
)
#: From so far on ground is soft. Source of the finger: BS 5930:2015, table 8, as quoted: soft clay
#: lets a finger in by 10 mm. The others: common practice, no source: a heel, a 12 mm rod by hand.
SOFT_MM = {"finger": 10.0, "heel": 10.0, "rod": 200.0}
BS5930 = Source(
    kind="standard", title="BS 5930:2015", clause="table 8, soft: finger pushed in up to 10 mm"
)
#: A test so near to the deck counts for it. Assumption.
TESTED_MM = 1000.0
#: Clay is dried by roots so many times a tree's height away. Source: NHBC Standards 4.2, from
#: memory: 1.25 times the grown height for trees that drink most.
ROOTS_RATIO = 1.25
NHBC = Source(kind="from memory", title="NHBC Standards", clause="4.2, building near trees")
WHO = "a geotechnical engineer"


@frozen(kw_only=True)
class _Wet:
    """What is wrong with a wet spot: code, message, figures, who says so."""

    code: str
    message: str
    figures: Figures
    source: Source


def ask_water(garden: Garden, place: DeckPlace) -> tuple[Answer, ...]:
    """Return of each wet spot, and of the lowest one, whether a deck may stand over it.

    A deck that lies on the ground is stopped, one on legs, or not yet settled, cautioned. Changes:
    move out of it, drain it, stand on legs.

    Source: common practice for the days that water stood, SOAK for how fast it soaks away; ground
        that holds the lowest spot without an outfall is refused by common practice.
    """
    spots = tuple(_ask_wet(garden, place, spot) for spot in garden.wet)
    return (*spots, _ask_low(garden, place))


def _ask_wet(garden: Garden, place: DeckPlace, spot: WetSpot) -> Answer:
    thing = Thing(area=region(spot.corners_mm), dug=False)
    wrong = _wrong(spot)
    if keeps(place, thing):
        return answered(
            "water", spot.name, [told("PLC-020", NOTE, spot.name, "not under the deck")]
        )
    if wrong is None:
        message = (
            "water runs off or soaks away" if _known(spot) else "nobody told how long it stands"
        )
        code = "PLC-020" if _known(spot) else "PLC-023"
        return answered("water", spot.name, [told(code, NOTE, spot.name, message)])
    return answered(
        "water",
        spot.name,
        [_wet_told(place, spot.name, wrong)],
        _out(garden, place, thing, spot.name),
    )


def _known(spot: WetSpot) -> bool:
    return spot.outfall is True or spot.stood_days is not None or spot.soak_s_per_mm is not None


def _wrong(spot: WetSpot) -> _Wet | None:
    """Return what is wrong with a spot: nothing where it has an outfall."""
    if spot.outfall:
        return None
    if spot.stood_days is not None and spot.stood_days > STOOD_DAYS:
        figures = (float(spot.stood_days), float(STOOD_DAYS), "days")
        message = "water stood there after rain"
        return _Wet(code="PLC-021", message=message, figures=figures, source=PRACTICE)
    if spot.soak_s_per_mm is not None and spot.soak_s_per_mm > SOAK_S_PER_MM:
        figures = (spot.soak_s_per_mm, SOAK_S_PER_MM, "s/mm")
        message = "water soaks away too slowly"
        return _Wet(code="PLC-022", message=message, figures=figures, source=SOAK)
    return None


def _wet_told(place: DeckPlace, name: str, wrong: _Wet) -> Finding:
    """Return a stop for a deck on the ground; one on legs only wants feet that bear damp."""
    if place.stands == "legs":
        message = f"{wrong.message}: legs keep the frame out of it, their feet stand in it"
        return told(wrong.code, NOTE, name, message, wrong.figures, wrong.source)
    severity = STOP if place.stands == "ground" else CAUTION
    message = f"{wrong.message}: no frame lies on such ground"
    return told(wrong.code, severity, name, message, wrong.figures, wrong.source)


def _out(garden: Garden, place: DeckPlace, thing: Thing, name: str) -> list[SitingChange]:
    move = clearing(place, (thing, *never(garden)))
    return [
        *([move] if move is not None else []),
        SitingChange(kind="drain", subject=name, text=f"drain {name}: give its water an outfall"),
        SitingChange(kind="legs", subject=place.name, text="stand the deck on legs"),
    ]


def wet_things(garden: Garden, place: DeckPlace) -> list[Thing]:
    """Return the wet ground that a place must keep clear of: none where legs lift the deck."""
    if place.stands == "legs":
        return []
    spots = [spot for spot in garden.wet if _wrong(spot) is not None]
    found = [Thing(area=region(spot.corners_mm), dug=False) for spot in spots]
    if garden.low is not None and not garden.low.outfall:
        found.append(Thing(line_mm=(garden.low.at_mm,), dug=False))
    return found


def _ask_low(garden: Garden, place: DeckPlace) -> Answer:
    low = garden.low
    if low is None:
        message = "the plot's lowest spot is not told: measure the ground's levels"
        return answered("low spot", "lowest spot", [told("PLC-023", NOTE, "lowest spot", message)])
    thing = Thing(line_mm=(low.at_mm,), dug=False)
    if keeps(place, thing):
        far = at_least(apart_mm(place, thing))
        found = told(
            "PLC-020", NOTE, low.name, "the lowest spot is beside the deck", (far, None, "mm")
        )
        return answered("low spot", low.name, [found])
    if low.outfall:
        found = told("PLC-020", NOTE, low.name, "the lowest spot lies under it and has an outfall")
        return answered("low spot", low.name, [found])
    message = "the plot's lowest spot lies under the deck, and no outfall is known"
    wrong = _Wet(code="PLC-024", message=message, figures=(0.0, None, "mm"), source=PRACTICE)
    found = _wet_told(place, low.name, wrong)
    return answered("low spot", low.name, [found], _out(garden, place, thing, low.name))


def is_soft(test: FirmTest) -> bool:
    """Whether ground is soft by a test.

    Raises:
        InputError: There is no such test.

    Source: BS 5930 for a finger; common practice for heel and rod.
    """
    if test.kind not in TESTS:
        wanted = f"one of {', '.join(TESTS)}"
        raise InputError((Fault(path="kind", found=repr(test.kind), wanted=wanted),))
    return test.sunk_mm >= SOFT_MM[test.kind]


def ask_firmness(garden: Garden, place: DeckPlace, soil: Soil | None = None) -> tuple[Answer, ...]:
    """Return whether the ground bears: by every test near the deck, by its soil, by roots in clay.

    Soft ground, poor soil and made ground stop, whatever a deck stands on. Changes: move off soft
    tests; for the rest a professional has to be asked.

    Args:
        soil: The region's soil of the garden's name for it, None where none is told.

    Source: as `is_soft`; the region's pack for soils; NHBC 4.2 from memory for clay near trees.
    """
    tests = tuple(_ask_test(garden, place, test, at) for at, test in enumerate(garden.firmness, 1))
    return (*tests, _ask_soil(garden, place, soil, tested=_tested(garden, place)))


def _tested(garden: Garden, place: DeckPlace) -> bool:
    things = (Thing(line_mm=(test.at_mm,), dug=False) for test in garden.firmness)
    return any(apart_mm(place, thing) <= TESTED_MM for thing in things)


def _ask_test(garden: Garden, place: DeckPlace, test: FirmTest, number: int) -> Answer:
    name = f"{test.kind} test {number}"
    source = BS5930 if test.kind == "finger" else PRACTICE
    figures = (test.sunk_mm, SOFT_MM[test.kind], "mm")
    thing = Thing(line_mm=(test.at_mm,), keep_mm=TESTED_MM, dug=False)
    if not is_soft(test):
        found = told("PLC-030", NOTE, name, "firm enough", figures, source)
        return answered("firmness", name, [found])
    if keeps(place, thing):
        found = told("PLC-030", NOTE, name, "soft, but not near the deck", figures, source)
        return answered("firmness", name, [found])
    message = f"soft ground: dig to firm ground, or ask {WHO}, before anything stands on it"
    move = clearing(place, (thing, *never(garden)))
    changes = [move] if move is not None else []
    return answered(
        "firmness",
        name,
        [told("PLC-031", STOP, name, message, figures, source)],
        [*changes, asking(name, f"dig to firm ground, or ask {WHO}")],
    )


def _ask_soil(garden: Garden, place: DeckPlace, soil: Soil | None, *, tested: bool) -> Answer:
    name = soil.name if soil is not None else garden.soil or "soil"
    found: list[Finding] = []
    if garden.made_ground:
        message = f"made ground settles as it likes: ask {WHO}"
        found.append(told("PLC-032", STOP, "made ground", message))
    if soil is not None and (soil.poor or soil.bearing.value is None):
        message = f"poor ground is not screened: ask {WHO}"
        found.append(told("PLC-033", STOP, name, message, source=soil.bearing.source))
    found += _roots(garden, place, name)
    if soil is None and garden.soil:
        message = f"what it bears is not known, no region's pack was looked at for it: ask {WHO}"
        found.append(told("PLC-034", CAUTION, name, message, source=ASSUMED))
    elif not tested and soil is None:
        message = "nobody tested the ground near the deck: press a heel into it where it is wettest"
        found.append(told("PLC-034", NOTE, "soil", message, source=ASSUMED))
    return answered(
        "soil",
        name,
        found or [told("PLC-030", NOTE, name, "nothing is against it")],
        [asking(name, f"ask {WHO}")],
    )


def _roots(garden: Garden, place: DeckPlace, soil: str) -> list[Finding]:
    """Return what roots do to clay, and every tree of which nobody told how high it is."""
    clay = "clay" in soil.lower()
    unknown = [tree.name for tree in garden.trees if tree.height_mm is None]
    message = "nobody told its height: its shade, and how far its roots reach, are not reckoned"
    found = [told("PLC-036", CAUTION if clay else NOTE, name, message) for name in unknown]
    for tree in garden.trees if clay else ():
        far = at_least(apart_mm(place, Thing(line_mm=(tree.at_mm,), dug=False)))
        reach = None if tree.height_mm is None else tree.height_mm * ROOTS_RATIO
        if reach is not None and far < reach:
            message = f"clay that shrinks moves near trees: footings there are for {WHO}"
            figures = (far, at_least(reach), "mm")
            found.append(told("PLC-035", CAUTION, tree.name, message, figures, NHBC))
    return found
