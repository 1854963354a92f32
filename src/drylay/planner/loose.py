"""What boards screwed down do for a frame and loose tiles do not: they hold nothing together.

Source: EN 1995-1-1 6.6 and NDS 4.3.9 ask for something fixed that brings load from one member to
the next, from memory; that nothing loose holds an edge or a post's head sideways is statics.
"""

from drylay.planner.job import Job

#: Four members alike share what is spread on them. Source: EN 1995-1-1 6.6; the NDS asks for three.
ALIKE = 4
NOGGINS = "frame.noggin_spacing_most_mm"


def is_loose(job: Job) -> bool:
    """Return whether a deck's cover lies loose on its frame, as tiles do."""
    return job.articles.tile is not None


def alike_most(job: Job) -> int:
    """Return how many joists share what is spread on them at most: one under loose tiles."""
    return 1 if is_loose(job) else ALIKE


def joists_held_mm(job: Job) -> float:
    """Return how far apart joists' upper edges are held: 0 by boards, else by noggins and rims."""
    return job.rules.value(NOGGINS) if is_loose(job) else 0.0


def ledger_holds(job: Job, *, ledger: bool) -> bool:
    """Return whether a ledger holds posts' heads along the wall: through boards alone."""
    return ledger and not is_loose(job)
