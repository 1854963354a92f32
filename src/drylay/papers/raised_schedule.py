"""What stands beside a raised frame's views: the schedule of its posts, and its notes."""

from drylay.findings import Finding
from drylay.papers.model import Table
from drylay.papers.wording import bare, clean
from drylay.raised.model import RaisedFrame


def schedule_table(frame: RaisedFrame, units: str, along: str = "boards") -> Table:
    """Return the schedule: a row a post, all figures as they are in the frame.

    `along` is what posts are told along: boards, or rows of tiles.
    """
    heads = (
        ("post",), ("bearer",), ("along", along), ("across", along), ("ground",), ("top sawn",),
        ("post", "length"), ("sawn", "whole"), ("height",), ("braces",),
    )  # fmt: skip
    rows = tuple(
        (
            clean(row.mark), clean(row.bearer), bare(row.along_mm, units),
            bare(row.across_mm, units), bare(row.ground_mm, units), bare(row.top_mm, units),
            bare(row.length_mm, units), bare(row.whole_mm, units), row.height_class,
            " ".join(row.braces) or "-",
        )
        for row in frame.schedule
    )  # fmt: skip
    return Table(layer="schedule", title="Posts, bearer by bearer; lengths as sawn", heads=heads,
                 aligned="<<>>>>>><<", rows=rows)  # fmt: skip


def notes_told(frame: RaisedFrame, units: str, *, apart: bool) -> tuple[str, ...]:
    """Return what the drawing is to be read with, the findings that stop or caution last."""
    over, leg = frame.bracing.over_mm, frame.bracing.leg_mm
    places = "; these stand at several places along" if apart else ""
    told = [
        "Within the spans and heights given, no more: this sheet checks no strength, and local "
        f"rules come first. The ground is drawn straight between posts{places}; beyond the outer "
        "ones it is not known (dashed).",
        "Measure every post at its own foot before it is sawn: level from the datum, down to what "
        "it stands on.",
    ]
    if frame.bracing.braces:
        told.append(f"Posts longer than {bare(over, units)} are braced at 45 degrees, both ways: "
                    f"{bare(leg, units)} down the post and as far out.")  # fmt: skip
    told += [f"{one.code} {clean(one.subject)}: {clean(one.message)}" for one in _worst(frame)]
    return tuple(told)


def _worst(frame: RaisedFrame) -> list[Finding]:
    order = {"stop": 0, "caution": 1}
    told = [one for one in frame.findings if one.severity.value in order]
    return sorted(told, key=lambda one: order[one.severity.value])
