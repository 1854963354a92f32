"""The verdict on a place: every question answered, and the places of a plot put in order."""

from collections.abc import Callable, Iterator, Sequence
from math import hypot, inf

from attrs import evolve, frozen

from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.findings import Severity
from drylay.marks import is_number
from drylay.regions.model import Soil
from drylay.siting.around import (
    ask_boundary,
    ask_flues,
    ask_services,
    ask_trees,
    things_near,
)
from drylay.siting.ground import ask_firmness, ask_water
from drylay.siting.model import Answer, DeckPlace, Garden, Verdict
from drylay.siting.near import clearing
from drylay.siting.standing import ask_standing, standing_of
from drylay.siting.sunshine import Shade, ask_sun, level_of, shades, sunshine
from drylay.siting.told import at_most
from drylay.siting.view import ask_view

#: Ground under a place: its lowest and highest level there, None where nobody knows.
GroundAt = Callable[[DeckPlace], tuple[float, float] | None]
#: More places than this are not asked about at once. Assumption.
MOST_PLACES = 2000
#: Of a grid so many times as large it is not even asked which places lie on the plot. Assumption.
LOOKED_THROUGH = 4


@frozen(kw_only=True)
class Asked:
    """What a verdict is asked with, beside garden and place."""

    soil: Soil | None = None
    ground: GroundAt | None = None
    shaded: Sequence[Shade] | None = None


@counted
def site_verdict(
    garden: Garden,
    place: DeckPlace,
    *,
    soil: Soil | None = None,
    ground: GroundAt | None = None,
) -> Verdict:
    """Return everything that is said of a place for a deck.

    Args:
        soil: The region's soil by the garden's name for it.
        ground: The ground's lowest and highest level under any place, from a survey; without it the
            place's own figures stand.

    Source: that of each finding.
    """
    return _verdict(garden, place, Asked(soil=soil, ground=ground))


def _verdict(garden: Garden, asked_of: DeckPlace, asked: Asked) -> Verdict:
    place = grounded(asked_of, asked.ground)
    dark = asked.shaded
    if dark is None:
        dark = shades(garden, level_of(garden, place))
    below = (*ask_water(garden, place), *ask_firmness(garden, place, asked.soil))
    standing = standing_of(place, below)
    answers = (
        ask_sun(garden, place, dark),
        *ask_view(garden, place),
        *below,
        ask_standing(place, standing),
        *ask_boundary(garden, place),
        *ask_services(garden, place),
        *ask_trees(garden, place),
        *ask_flues(garden, place),
    )
    found = [_worst(answer) for answer in answers]
    sunny = sunshine(dark, place)
    return Verdict(
        place=place,
        answers=answers,
        standing=standing,
        stops=found.count(Severity.STOP),
        cautions=found.count(Severity.CAUTION),
        sun_h=round(sum(day.sun_h for day in sunny), 4) if sunny else None,
        door_mm=door_mm(garden, place),
        move=clearing(place, things_near(garden, place)),
    )


def _worst(answer: Answer) -> Severity:
    """Return the gravest that an answer finds."""
    found = {each.severity for each in answer.findings}
    return next(
        (each for each in (Severity.STOP, Severity.CAUTION) if each in found), Severity.NOTE
    )


def grounded(place: DeckPlace, ground: GroundAt | None) -> DeckPlace:
    """Return a place with the ground's levels under it, where somebody knows them."""
    levels = ground(place) if ground is not None else None
    if levels is None:
        return place
    return evolve(place, ground_least_mm=levels[0], ground_most_mm=levels[1])


def door_mm(garden: Garden, place: DeckPlace) -> float | None:
    """Return how far the house door is from a place, up to a tenth of a mm; None if not told."""
    if garden.door_mm is None:
        return None
    x, y = garden.door_mm
    out = (
        max(place.along_mm - x, 0.0, x - place.along_mm - place.size_along_mm),
        max(place.across_mm - y, 0.0, y - place.across_mm - place.size_across_mm),
    )
    return at_most(hypot(*out))


@counted
def best_places(
    garden: Garden,
    like: DeckPlace,
    *,
    step_mm: float,
    soil: Soil | None = None,
    ground: GroundAt | None = None,
) -> tuple[Verdict, ...]:
    """Return the verdicts on places of one size on a grid over the plot, the best first.

    Fewest stops, then fewest cautions, then most hours of sun, then nearest to the house door, then
    by place: nothing is weighed against anything else. `like` tells size, level and how it stands;
    only places wholly on the plot are there.

    Raises:
        InputError: The step is no length, no plot is told, or the grid has no place or more than
            MOST_PLACES.

    Source: that of each finding; the order is common practice, no source.
    """
    if not is_number(step_mm) or not 0 < step_mm < inf:
        wanted = "a length above 0 mm between places"
        raise InputError((Fault(path="step_mm", found=repr(step_mm), wanted=wanted),))
    columns, rows = _size(garden, like, step_mm) if garden.plot_mm else (0, 0)
    many = columns * rows > LOOKED_THROUGH * MOST_PLACES
    places = () if many else tuple(_grid(garden, like, step_mm))
    if many or not 0 < len(places) <= MOST_PLACES:
        wanted = f"1 to {MOST_PLACES} places: a plot, and a step that fits it"
        count = f"a grid of {columns} by {rows} places" if many else f"{len(places)} places"
        nearest = "a larger step" if many or places else ""
        fault = Fault(path="step_mm", found=count, wanted=wanted, nearest=nearest)
        raise InputError((fault,))
    asked = Asked(soil=soil, ground=ground, shaded=shades(garden, level_of(garden, like)))
    found = [_verdict(garden, place, asked) for place in places]
    return tuple(sorted(found, key=order))


def order(found: Verdict) -> tuple[float, ...]:
    """Return what verdicts are put in order by, the best first."""
    far = found.door_mm if found.door_mm is not None else 0.0
    place = found.place
    return (
        found.stops,
        found.cautions,
        -(found.sun_h or 0.0),
        far,
        place.across_mm,
        place.along_mm,
    )


def _size(garden: Garden, like: DeckPlace, step_mm: float) -> tuple[int, int]:
    """Return how many columns and rows a grid over a plot has; 0 where a deck is too large."""
    alongs, acrosses = zip(*garden.plot_mm, strict=True)
    free_along = max(alongs) - min(alongs) - 2 * garden.clear_mm - like.size_along_mm
    free_across = max(acrosses) - min(acrosses) - 2 * garden.clear_mm - like.size_across_mm
    return max(0, int(free_along // step_mm) + 1), max(0, int(free_across // step_mm) + 1)


def _grid(garden: Garden, like: DeckPlace, step_mm: float) -> Iterator[DeckPlace]:
    columns, rows = _size(garden, like, step_mm) if garden.plot_mm else (0, 0)
    low = [min(ends) + garden.clear_mm for ends in zip(*garden.plot_mm, strict=True)]
    for row in range(rows):
        for column in range(columns):
            place = evolve(
                like,
                name=f"{like.name} {row + 1}.{column + 1}",
                along_mm=low[0] + column * step_mm,
                across_mm=low[1] + row * step_mm,
                ground_most_mm=None,
                ground_least_mm=None,
            )
            if all(answer.good for answer in ask_boundary(garden, place)):
                yield place
