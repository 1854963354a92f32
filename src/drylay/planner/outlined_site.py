"""Where a deck on an outline stands: levels beside the house, the ground within its sides."""

from typing import Protocol

from drylay.brief.model import HouseWish
from drylay.findings import Finding
from drylay.outline.model import Outline, Side
from drylay.planner import site_notes, siting
from drylay.planner.job import Job
from drylay.site.model import Site
from drylay.site.outlined_terrain import GroundSide, ground_within, nearest_corner

#: The decisions taken here are those of any deck.
rows = siting.rows


class Outlined(Protocol):
    """A deck on an outline, where it stands."""

    @property
    def outline(self) -> Outline:
        """Return its sides."""
        ...

    @property
    def site(self) -> Site:
        """Return where it stands."""
        ...


def site_of(job: Job, outline: Outline) -> Site:
    """Return where the deck stands."""
    return siting.placed(
        job,
        ground_within(job.brief.levels.points, sides_over(outline)),
        along_mm=beside_mm(outline),
        beside_house=is_beside_house(job, outline),
    )


def is_beside_house(job: Job, outline: Outline) -> bool:
    """Return whether a house stands beside the deck: the brief tells of one, or a side is its."""
    return job.brief.house != HouseWish() or any(side.kind == "house" for side in outline.sides)


def beside_mm(outline: Outline) -> tuple[float, float]:
    """Return from where to where the deck lies along the house: at its house sides, if it has any.

    Without any house side it is the whole outline, so that no limit of a house told of is missed.
    """
    house = [side for side in outline.sides if side.kind == "house"] or outline.sides
    along_mm = [spot.along_mm for side in house for spot in (side.start, side.end)]
    return min(along_mm), max(along_mm)


def corner_name(before: Side, side: Side) -> str:
    """Return what the corner at a side's start is called: both sides, "E4-E5"."""
    return f"{before.mark}-{side.mark}"


def sides_over(outline: Outline) -> list[GroundSide]:
    """Return an outline's sides over the ground."""
    return [
        GroundSide(
            corner=corner_name(outline.sides[number - 1], side),
            start_mm=(side.start.along_mm, side.start.across_mm),
            end_mm=(side.end.along_mm, side.end.across_mm),
            house=side.kind == "house",
        )
        for number, side in enumerate(outline.sides)
    ]


def remarks(job: Job, built: Outlined) -> list[Finding]:
    """Return what is worth telling about wall, levels and ground."""
    sides, points = sides_over(built.outline), job.brief.levels.points
    beside = site_notes.Beside(
        along_mm=beside_mm(built.outline),
        corner_count=len(sides),
        nearest=lambda: nearest_corner(points, sides),
    )
    return site_notes.remarks_beside(job, built.site, beside)
