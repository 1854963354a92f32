"""Whether a deck may lie on the ground or wants legs, from slope, water, height and firmness."""

from collections.abc import Sequence

from attrs import evolve

from drylay.findings import Finding
from drylay.regions.model import SLOPE_MOST_RATIO
from drylay.siting.model import Answer, DeckPlace, SitingChange, Standing
from drylay.siting.told import (
    ASSUMED,
    CAUTION,
    GEOMETRY,
    NOTE,
    STOP,
    answered,
    asking,
    at_most,
    level_change,
    told,
)

#: Packers under a frame on the ground reach so high at most: higher, it wants legs or bearers.
#: Assumption, docs/conventions.md.
PACKED_MOST_MM = 150.0
#: A higher deck is for an engineer. Common practice, no source.
HEIGHT_MOST_MM = 1800.0
#: What else than water keeps a deck off the ground, by question.
WATERS, GROUNDS = ("water", "low spot"), ("firmness", "soil")
WET = {"PLC-021", "PLC-022", "PLC-024"}
WHO = "an engineer or a licensed person"
#: What is said of each way to stand.
SAID = {
    "ground": "it may lie on the ground",
    "legs": "it wants legs",
    "ask": f"neither before {WHO} looked",
    "raise": "neither so low: it would lie in the ground",
    "not known": "not known yet whether it may lie on the ground",
}


def standing_of(place: DeckPlace, answers: Sequence[Answer] = ()) -> Standing:
    """Return how a deck may stand at a place, with a finding for every reason.

    Args:
        answers: Those on water, the low spot, firmness and soil, where they were asked.

    Source: assumption for what packers reach; common practice for slope and height.
    """
    over, fall = _over_mm(place), _fall_mm(place)
    reasons = [
        *_water(answers), *_firm(answers), *_slope(place, fall), *_height(place, over),
        *_sunk(place),
    ]  # fmt: skip
    codes = {found.code for found in reasons if found.severity is not NOTE}
    if {"PLC-074", "PLC-075", "PLC-076"} & codes:
        stands = "ask"
    elif "PLC-079" in codes:
        stands = "raise"
    elif {"PLC-072", "PLC-073"} & codes:
        stands = "legs"
    else:
        stands = "not known" if over is None or fall is None else "ground"
    return Standing(stands=stands, over_mm=over, fall_mm=fall, reasons=tuple(reasons))


def _over_mm(place: DeckPlace) -> float | None:
    """Return the frame's underside over the lowest ground."""
    if place.ground_least_mm is None or place.build_mm is None:
        return None
    return at_most(place.top_mm - place.build_mm - place.ground_least_mm)


def _fall_mm(place: DeckPlace) -> float | None:
    if place.ground_least_mm is None or place.ground_most_mm is None:
        return None
    return at_most(place.ground_most_mm - place.ground_least_mm)


def _water(answers: Sequence[Answer]) -> list[Finding]:
    """Return a reason for each wet spot under the deck, also where legs already lift it out."""
    message = "a frame on the ground would lie wet: legs"
    return [
        told("PLC-073", CAUTION, each.subject, message, source=ASSUMED)
        for each in answers
        if each.question in WATERS and any(found.code in WET for found in each.findings)
    ]


def _firm(answers: Sequence[Answer]) -> list[Finding]:
    message = f"the ground does not bear: neither way before {WHO} looked"
    return [
        told("PLC-074", STOP, each.subject, message)
        for each in answers
        if each.question in GROUNDS and any(found.severity is STOP for found in each.findings)
    ]


def _slope(place: DeckPlace, fall: float | None) -> list[Finding]:
    if fall is None:
        message = "the ground's levels under the deck are not told: measure them at its corners"
        return [told("PLC-070", NOTE, "slope", message)]
    ratio = fall / min(place.size_along_mm, place.size_across_mm)
    found = []
    if ratio > SLOPE_MOST_RATIO:
        figures = (round(ratio, 4), SLOPE_MOST_RATIO, "")
        message = f"the ground may fall more than 1 in 4, taken over the shorter side: ask {WHO}"
        found.append(told("PLC-075", STOP, "slope", message, figures))
    figures = (fall, PACKED_MOST_MM, "mm")
    if fall > PACKED_MOST_MM:
        message = "the ground falls by more under the deck than packers reach: legs, or a dig"
        return [*found, told("PLC-072", CAUTION, "slope", message, figures, ASSUMED)]
    message = "packers take up the ground's fall under the deck"
    return [*found, told("PLC-071", NOTE, "slope", message, figures, ASSUMED)]


def _height(place: DeckPlace, over: float | None) -> list[Finding]:
    found = []
    if place.ground_least_mm is not None:
        high = at_most(place.top_mm - place.ground_least_mm)
        if high > HEIGHT_MOST_MM:
            message = f"so high a deck is not screened: ask {WHO}"
            found.append(told("PLC-076", STOP, "height", message, (high, HEIGHT_MOST_MM, "mm")))
    if over is None:
        message = "levels of the ground, or the height of boards and frame, are not told"
        return [*found, told("PLC-070", NOTE, "height", message)]
    figures = (over, PACKED_MOST_MM, "mm")
    if over > PACKED_MOST_MM:
        message = "the frame lies higher over the lowest ground than packers reach: legs"
        return [*found, told("PLC-072", CAUTION, "height", message, figures, ASSUMED)]
    message = "packers reach from the lowest ground to the frame"
    if over < 0:
        message = "the frame lies below the lowest ground, in what is dug: no packers reach so low"
    return [*found, told("PLC-071", NOTE, "height", message, figures, ASSUMED)]


def _sunk(place: DeckPlace) -> list[Finding]:
    """Return that a deck would lie in the highest ground under it, or its frame in what stays."""
    if place.ground_most_mm is None:
        return []
    below = at_most(place.ground_most_mm - place.top_mm)
    if below > 0:
        message = "the deck's top would lie below the highest ground under it: raise it"
        return [told("PLC-079", STOP, "height", message, (below, 0.0, "mm"), GEOMETRY)]
    if place.build_mm is None:
        return []
    deep, dug = at_most(below + place.build_mm), place.dig_mm or 0.0
    if deep <= max(dug, 0.0):
        return []
    so = "is dug" if place.dig_mm is not None else "is dug, and nobody told how deep that is"
    message = f"the frame would lie deeper in the highest ground than {so}: raise it, or dig"
    return [told("PLC-079", CAUTION, "height", message, (deep, dug, "mm"), GEOMETRY)]


def ask_standing(place: DeckPlace, found: Standing) -> Answer:
    """Return whether a deck may stand as its place says; where that is open, what it wants.

    Changes: legs, or the highest top at which packers reach where height alone is against it; the
    lowest one that lies out of the ground, where that is.
    """
    tells = list(found.reasons)
    if place.stands == "ground":
        if found.stands == "legs":
            message = "lying on the ground is refused here: stand it on legs"
            tells.append(told("PLC-078", STOP, place.name, message))
        return answered("standing", place.name, tells, _instead(place, found))
    if place.stands is None:
        tells.append(told("PLC-077", NOTE, place.name, SAID[found.stands]))
    out = [*_raised(place, found), _who(place)]
    return answered("standing", place.name, [_as_note(each) for each in tells], out)


def _as_note(found: Finding) -> Finding:
    """Return what speaks for legs as a note: it is no fault of a deck that may have them."""
    legs = found.severity is CAUTION and found.code != "PLC-079"
    return evolve(found, severity=NOTE) if legs else found


def _raised(place: DeckPlace, found: Standing) -> list[SitingChange]:
    """Return the lowest top out of the ground, where that by itself makes the place good."""
    if found.stands != "raise" or place.ground_most_mm is None:
        return []
    deep_mm = (place.build_mm or 0.0) - (place.dig_mm or 0.0)
    up_mm = at_most(place.ground_most_mm + max(0.0, deep_mm) - place.top_mm)
    there = standing_of(evolve(place, top_mm=place.top_mm + up_mm))
    if place.stands == "ground" and (there.stands == "legs" or _is_wet(found)):
        return []
    return [level_change(place, up_mm)] if there.stands in {"ground", "legs", "not known"} else []


def _is_wet(found: Standing) -> bool:
    return any(each.code == "PLC-073" for each in found.reasons)


def _who(place: DeckPlace) -> SitingChange:
    return asking(place.name, f"ask {WHO}")


def _instead(place: DeckPlace, found: Standing) -> list[SitingChange]:
    if found.stands != "legs":
        return [*_raised(place, found), _who(place)]
    legs = SitingChange(kind="legs", subject=place.name, text="stand the deck on legs")
    wet = _is_wet(found)
    falls = found.fall_mm is not None and found.fall_mm > PACKED_MOST_MM
    if wet or falls or found.over_mm is None:
        return [legs]
    by_mm = -at_most(found.over_mm - PACKED_MOST_MM)
    return [level_change(place, by_mm), legs] if by_mm < 0 else [legs]
