"""Ripped rows under hidden clips: screws beside their ripped edge, counted, bought and told."""

from drylay.findings import Finding, Severity
from drylay.fixings.clips import OnBattens
from drylay.fixings.model import Clips
from drylay.fixings.ripped import ripped_crossings
from drylay.planner.built import Built, Wanted
from drylay.planner.buy import Shape, in_boxes
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, row
from drylay.surface.model import Surface

PATH = "fixings.clips"


def edge_screws(shaped: Shape, on_battens: OnBattens, *, per_joist: int) -> int:
    """Return the screws beside ripped edges: as many to a joist as in the last row."""
    ripped = tuple(line.ripped for line in shaped.surface.rows)
    joists = shaped.supports.line_count
    return per_joist * ripped_crossings(ripped, joists=joists, on_battens=on_battens)


def ripped_lines(surface: Surface) -> list[str]:
    """Return each gap between rows where the clips hold one board only, as its two rows."""
    rows = surface.rows
    if len(rows) < 2:
        return []
    outer = ((rows[0], rows[1]), (rows[-1], rows[-2]))
    return [f"{row.mark} and {beside.mark}" for row, beside in outer if row.ripped]


def wanted(job: Job, clips: Clips) -> tuple[Wanted, ...]:
    """Return the screws beside ripped edges, to be bought with the deck screws."""
    if not clips.edge_screws:
        return ()
    return (in_boxes("screws at ripped edges", job.articles.screw, clips.edge_screws),)


def rows(built: Built, clips: Clips) -> list[Row]:
    """Return the decision taken here."""
    return [
        row(f"{PATH}.edge_screws", clips.edge_screws, "count",
            "screws through a ripped row beside its ripped edge, which has no groove, on each "
            "joist as many as in the last row", ARITHMETIC,
            (("ripped_lines", len(ripped_lines(built.surface))),
             ("line_count", built.supports.line_count),
             ("end_row_screws_per_joist", clips.end_row_screws_per_joist))),
    ]  # fmt: skip


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return the caution on lines of clips that hold one board only."""
    clips, lines = built.fixings.clips, ripped_lines(built.surface)
    if clips is None or not lines:
        return []
    held = (
        f"{clips.edge_screws} screws {job.articles.screw.code} from above beside those edges are "
        "in the order"
        if clips.edge_screws
        else "no screws for those edges are in the order"
    )
    return [
        Finding(
            code="CLP-008",
            severity=Severity.CAUTION,
            subject="ripped rows",
            message=f"a ripped edge has no groove: between {', and between '.join(lines)} "
            f"the clips hold one board only; {held}, or have the groove cut anew, if the maker "
            "allows it",
            measured=float(len(lines)),
            limit=0.0,
            unit="lines of clips",
            source=PRACTICE,
        )
    ]
