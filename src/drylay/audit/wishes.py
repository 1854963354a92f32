"""The witnessed audit of the work: crew, lights and faces as the brief wishes them."""

from collections.abc import Iterator

from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, same_count, same_length, same_text
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.findings import Severity
from drylay.plan.model import Plan

BRIEF = conventions("Axes and datum; the brief's own wish")


def work_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless crew, lights and the face that lies up are those of the brief."""
    brief = need(witness.brief, "brief as witness")
    if plan.work is None and plan.buying is not None:
        message = "no work is told, as plans of the first schema: design it again"
        yield Flaw(subject="work", message=message, severity=Severity.CAUTION, source=BRIEF)
        return
    work = need(plan.work, "work")
    yield from same_count("work.people", "not the crew", work.people, brief.crew.people, BRIEF)
    if brief.board.face_up is not None:
        message = "not the face wished"
        yield from same_text("work.face_up", message, work.face_up, brief.board.face_up, BRIEF)
    wish, lighting = brief.lights, work.lighting
    count = lighting.count if lighting else 0
    yield from same_count("work.lighting.count", "not so many", count, wish.count, BRIEF)
    if lighting is not None:
        side, hole, depth = "work.lighting.side", wish.hole_mm or 0.0, wish.depth_mm or 0.0
        yield from same_text(side, "not the side wished", lighting.side, wish.side, BRIEF)
        for name, told, wanted in (("hole_mm", lighting.hole_mm, hole),
                                   ("depth_mm", lighting.depth_mm, depth)):  # fmt: skip
            message = "not the light's size"
            yield from same_length(f"work.lighting.{name}", message, told, ticks(wanted), BRIEF)


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W61", "crew, lights and the face that lies up are the brief's", work_as_wished),
)
