"""Air below a deck on an outline, and its fascia over the ground and over the screws' heads."""

from collections.abc import Iterator
from typing import Protocol

from drylay.findings import Finding
from drylay.fixings.model import Fixings
from drylay.outline.model import Outline
from drylay.planner import air_notes, fascia_notes
from drylay.planner.built import Sited
from drylay.planner.job import Job
from drylay.subframe.model import Subframe


class Skirted(Sited, Protocol):
    """A deck on an outline, as far as air and fascia go."""

    @property
    def outline(self) -> Outline:
        """Return its sides."""
        ...

    @property
    def subframe(self) -> Subframe:
        """Return its frame."""
        ...

    @property
    def fixings(self) -> Fixings:
        """Return its fixings."""
        ...


def remarks(job: Job, built: Skirted) -> Iterator[Finding]:
    """Yield what boards lack that want air below, and what is wrong with the fascia's depth."""
    sides, frame = built.outline.sides, built.subframe
    shut = all(side.facing_mm for side in sides)
    yield from air_notes.lacking(job, built, str(len(sides)) if shut else "")
    if frame.facings:
        depth_mm, room_mm = frame.facing_depth_mm, fascia_notes.under_mm(built)
        yield from fascia_notes.over_the_ground(depth_mm, frame.timber_depth_mm, room_mm)
        yield from fascia_notes.over_the_heads(depth_mm, built.fixings.coach_screws)
