"""Where edges of fields lie on an outline: moved to a side that they nearly meet, and told."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.geometry import Ring
from drylay.laying.field_edges import EdgesLaid, FieldBox, edges_laid
from drylay.marks import exact, to_mm
from drylay.outline.model import Outline
from drylay.planner.job import Job
from drylay.planner.outlined_job import sizes_of
from drylay.planner.rows import ARITHMETIC

AXES = ("along", "across")


def between_fields_mm(job: Job) -> float:
    """Return the gap between two fields: boards of one end there, of the other may lie along."""
    sizes = sizes_of(job)
    return max(sizes.end_gap_mm, sizes.gap_mm)


def boxes_laid(job: Job, ring: Ring) -> tuple[FieldBox, ...]:
    """Return the fields of a brief, each as it is laid."""
    return tuple(each.box for each in _laid(job, ring))


def edges_clash(job: Job, outline: Outline, ring: Ring) -> tuple[Finding, ...]:
    """Return a stop for each edge of a field that sides of the outline continue from both ways."""
    gap_mm = between_fields_mm(job)
    return tuple(
        Finding(
            code="LAY-017", severity=Severity.STOP, subject=f"field {number}",
            message=f"its edge at {clash.wished_mm:g} mm {AXES[clash.axis]} is nearly in line with "
            f"{' and '.join(outline.sides[side].mark for side in clash.sides)}, whose boards "
            "leave the gap to the field no one place. Move the edge off them by more than the gap "
            "between fields",
            measured=to_mm(exact(clash.off_mm)), limit=gap_mm, unit="mm", source=ARITHMETIC,
        )
        for number, laid in enumerate(_laid(job, ring), start=1)
        for clash in laid.clashes
    )  # fmt: skip


def edges_moved(job: Job, ring: Ring) -> Iterator[Finding]:
    """Yield a note for each edge of a field that is not laid where the brief has it."""
    for number, laid in enumerate(_laid(job, ring), start=1):
        for edge in laid.moved:
            yield Finding(
                code="LAY-016", severity=Severity.NOTE, subject=f"field {number}",
                message=f"a side of the outline continues its edge {AXES[edge.axis]}: boards that "
                "go round the corner end in line with that side, and the gap to the field lies "
                f"beyond it, its middle at {edge.laid_mm:g} mm, not at {edge.wished_mm:g} mm",
                measured=edge.laid_mm, limit=edge.wished_mm, unit="mm", source=ARITHMETIC,
            )  # fmt: skip


def _laid(job: Job, ring: Ring) -> tuple[EdgesLaid, ...]:
    gap_mm = between_fields_mm(job)
    return tuple(
        edges_laid(
            ring,
            FieldBox(
                corner=(each.from_along_mm, each.from_across_mm),
                size=(each.along_mm, each.across_mm),
            ),
            gap_mm=gap_mm,
        )
        for each in job.brief.laying.fields
    )
