"""A border's decisions, and what does not go together between border and field."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.pieces.model import BorderJoints
from drylay.planner import board_packers
from drylay.planner.board_notes import cups, modified, tannin_rich, washes
from drylay.planner.border_rules import OWN
from drylay.planner.built import Built
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, merchant_says, row
from drylay.reasons import Source
from drylay.surface.model import Border
from drylay.units import length_text

AT, JOINTS = "surface.border", "pieces.border"
MEMORY = Source(kind="from memory", title="tannin runs from one board onto the next")


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken on the border, none without one."""
    border, joints = built.surface.border, built.pieces.border
    if border is None or joints is None:
        return []
    return [
        *_laid(job, border),
        *_jointed(job, built, joints),
        *board_packers.rows(job, built),
    ]


def _laid(job: Job, border: Border) -> list[Row]:
    measured = job.brief.border.measured_width_mm is not None
    sold = merchant_says(job, border.article)
    field_mm = job.articles.board.thickness_mm
    insert = [row(f"{AT}.groove_mm", border.groove_mm, "mm", "how deep its insert is let in",
                  sold)] if border.groove_mm is not None else []  # fmt: skip
    return [
        row(f"{AT}.rows", border.rows, "count", "as the brief wishes, at either edge",
            brief_says("border.rows")),
        row(f"{AT}.width_mm", border.width_mm, "mm",
            "mean of ten boards measured" if measured else "true width as sold",
            brief_says("border.measured_width_mm") if measured else sold),
        row(f"{AT}.thickness_mm", border.thickness_mm, "mm", "true thickness as sold", sold),
        *insert,
        row(f"{AT}.beside_mm", border.beside_mm, "mm",
            "the field's preferred gap, moved into what both boards allow", ARITHMETIC),
        row(f"{AT}.field_depth_mm", border.field_depth_mm, "mm",
            "the wished cover less the border at both edges and the gaps beside it", ARITHMETIC),
        row(f"{AT}.packing_mm", border.packing_mm, "mm",
            "by how much one board is thinner than the other", ARITHMETIC,
            (("thickness_mm", border.thickness_mm), ("field_thickness_mm", field_mm))),
    ]  # fmt: skip


def _jointed(job: Job, built: Built, joints: BorderJoints) -> list[Row]:
    priced = job.brief.joints.price_each is not None
    price = brief_says("joints.price_each") if priced else Source(
        kind="assumption", title="a joint is worth 100 mm of the cheapest board"
    )  # fmt: skip
    return [
        row(f"{JOINTS}.joint_price", str(joints.joint_price), job.stock.currency,
            "what one joint of the border is reckoned to cost", price),
        row(f"{JOINTS}.end_bearing_mm", joints.end_bearing_mm, "mm",
            "half of what the joist leaves beside the end gap", ARITHMETIC,
            (("joist_thickness_mm", built.supports.joist_thickness_mm),
             ("end_gap_mm", joints.end_gap_mm))),
        row(f"{JOINTS}.joint_count", joints.joint_count, "count",
            "joints and purchase of the border chosen together", ARITHMETIC,
            (("joint_price", str(joints.joint_price)),)),
    ]  # fmt: skip


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about the border, nothing without one."""
    border, board = built.surface.border, job.articles.border
    if border is None or board is None:
        return []
    return [
        *board_packers.remarks(job, built),
        *_gaps(job, border),
        *_centres(job),
        *_falls(job),
        *_joint_gaps(job, built),
        *_joints_side_by_side(built, border),
        *_tannin(job),
        *cups(board, "border boards", border.width_mm, timber=bool(border.timber)),
        *washes(board, "border boards", timber=bool(border.timber)),
        *modified(board, "border boards"),
    ]


def _told(  # noqa: PLR0917 - read as the row of a table
    code: str, severity: Severity, subject: str, message: str, source: Source,
    measured: float | None = None, limit: float | None = None, unit: str = "mm",
) -> Finding:  # fmt: skip
    return Finding(code=code, severity=severity, subject=subject, message=message,
                   measured=measured, limit=limit, unit="" if measured is None else unit,
                   source=source)  # fmt: skip


def _gaps(job: Job, border: Border) -> Iterator[Finding]:
    """Yield where rules of gaps differ: a gap fixed by its boards beside one that is stretched."""
    path = "surface.gap_least_mm"
    field = job.rules.value(path), job.rules.value("surface.gap_most_mm")
    own = border.gap_least_mm, border.gap_most_mm
    if field == own:
        return
    source = job.rules.source(OWN[path])
    fixed = [name for name, (least, most) in (("border", own), ("field", field)) if least == most]
    if len(fixed) == 1:
        other = "field" if fixed == ["border"] else "border"
        yield _told("BDR-004", Severity.CAUTION, "gaps",
                    f"the {fixed[0]}'s gap is fixed by its boards, the {other}'s may be opened or "
                    f"closed: the {fixed[0]} rules where they meet, and the gaps may look unlike",
                    source, border.beside_mm, border.gap_preferred_mm)  # fmt: skip
    yield _told("BDR-005", Severity.NOTE, "gaps",
                f"rules of gaps differ: {_range(job, field)} in the field, {_range(job, own)} in "
                f"the border, {length_text(border.beside_mm, job.brief.units)} between them, which "
                "both allow", source)  # fmt: skip


def _range(job: Job, both_mm: tuple[float, float]) -> str:
    least, most = (length_text(each, job.brief.units) for each in both_mm)
    return least if least == most else f"{least} to {most}"


def _centres(job: Job) -> Iterator[Finding]:
    """Yield whose joist centres govern, and what the other board would allow."""
    path = "supports.most_centres_mm"
    for other in job.rules.turned_down.get(path, ()):
        ruling = job.rules.rulings[path]
        yield _told("BDR-006", Severity.NOTE, "joists",
                    f"as close as the stricter board asks for: {ruling.rule}; {other.because}",
                    ruling.source, float(ruling.value or 0), float(other.value or 0))  # fmt: skip


def _falls(job: Job) -> Iterator[Finding]:
    """Yield that field and border ask for unlike falls: both lie in one plane, the steeper."""
    path = "surface.fall_least_ratio"
    for other in job.rules.turned_down.get(path, ()):
        ruling = job.rules.rulings[path]
        yield _told("BDR-015", Severity.CAUTION, "fall",
                    "field and border want unlike falls along their length, and lie in one plane: "
                    f"the steeper holds for both; {ruling.rule}; {other.because}", ruling.source,
                    float(other.value or 0), float(ruling.value or 0), "ratio")  # fmt: skip


def _joint_gaps(job: Job, built: Built) -> Iterator[Finding]:
    pieces, joints = built.pieces, built.pieces.border
    if joints is not None and joints.joint_count and pieces.end_gap_mm != joints.end_gap_mm:
        yield _told("BDR-007", Severity.NOTE, "joints",
                    "board ends stand further apart in the one than in the other: two spacers",
                    job.rules.source(OWN["pieces.end_gap_mm"]), pieces.end_gap_mm,
                    joints.end_gap_mm)  # fmt: skip


def _joints_side_by_side(built: Built, border: Border) -> Iterator[Finding]:
    """Yield that joints of border and field stand side by side: each is staggered by itself."""
    rows, bays = built.surface.rows, built.pieces.stagger_bays
    number = {joist.mark: at for at, joist in enumerate(built.frame.joists)}
    at: dict[str, list[int]] = {line.mark: [] for line in rows}
    for joint in built.pieces.joints:
        at[joint.row].append(number[joint.joist])
    pairs = ((border.rows - 1, border.rows), (-border.rows - 1, -border.rows))
    near = sum(
        abs(one - other) < bays
        for first, second in pairs
        for one in at[rows[first].mark] for other in at[rows[second].mark]
    )  # fmt: skip
    if near:
        yield _told("BDR-013", Severity.NOTE, "joints",
                    f"{near} joints of the border stand less than {bays} bays from one in the "
                    "field's row beside it: a border is staggered by itself alone; cap its joints "
                    "(joints.most_per_row) where that shows", PRACTICE)  # fmt: skip


def _tannin(job: Job) -> Iterator[Finding]:
    """Yield that the one board's tannin stains the other."""
    field, border = job.articles.board, job.articles.border
    if border is None:
        return
    rich_field = tannin_rich(field.species, timber=bool(job.rules.value("surface.timber")))
    rich_border = tannin_rich(border.species, timber=bool(job.rules.value(f"{AT}.timber")))
    if rich_field != rich_border:
        rich, other = (field, border) if rich_field else (border, field)
        yield _told("BDR-008", Severity.CAUTION, "tannin",
                    f"{rich.code} is rich in tannin, which rain washes onto {other.code}: let it "
                    "wash out before the other is laid, or reckon with stains", MEMORY)  # fmt: skip
