"""What a board's own make asks for: arrows, inserts, a fall, width against thickness, tannin."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.marks import MARK_320, ceil_mark, exact, to_mm
from drylay.materials.stock_model import Board
from drylay.planner.built import Built
from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE, Row, merchant_says, row
from drylay.reasons import Source
from drylay.surface.model import Row as LaidRow
from drylay.surface.model import Surface
from drylay.units import length_text

MEMORY = Source(kind="from memory", title="turf strips wear out before their boards")
STAINS = Source(kind="from memory", title="tannin washes out of fresh boards for weeks")
#: So near an insert no saw may come.
BESIDE_INSERT_MM = 10.0
#: Boards more than so many times as wide as thick cup.
CUPS_FROM = 6
#: Words of what stands for a species where a board is no timber.
PLASTIC = ("poly", "plastic", "composite", "vinyl", "pvc")
#: Species rich in tannin, by words of a species' name. From memory.
TANNIN_RICH = ("oak", "chestnut", "iroko", "cedar", "larch")


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here."""
    groove_mm = built.surface.groove_mm
    if groove_mm is None:
        return []
    says = merchant_says(job, job.articles.board.code)
    return [
        row("surface.groove_mm", groove_mm, "mm", "how deep the insert is let in, as sold", says)
    ]


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about the boards themselves."""
    board = job.articles.board
    return [
        *_handed(job, built),
        *_inserts(job, built),
        *fall(job, built.surface, "deck boards"),
        *cups(board, "deck boards", built.surface.board_width_mm),
        *washes(board, "deck boards"),
    ]


def _note(  # noqa: PLR0917 - read as the row of a table
    code: str, subject: str, message: str, source: Source, measured: float | None = None,
    unit: str = "", limit: float | None = None, severity: Severity = Severity.NOTE,
) -> Finding:  # fmt: skip
    return Finding(code=code, severity=severity, subject=subject, message=message,
                   measured=measured, limit=limit, unit=unit, source=source)  # fmt: skip


def _handed(job: Job, built: Built) -> Iterator[Finding]:
    border = built.pieces.border
    for what, handed, path in (("deck boards", built.pieces.handed, "pieces.handed"),
                               ("border boards", border is not None and border.handed,
                                "pieces.border.handed")):  # fmt: skip
        if not handed:
            continue
        side = next(piece.arrow for piece in built.pieces.pieces if piece.arrow)
        yield _note("BRD-001", what,
                    "handed: no piece may be turned end for end. Draw an arrow along every length "
                    "before it is sawn, all the same way, with the lie of the pile where there is "
                    f"one; laid, every arrow points to the {side}",
                    job.rules.source(path))  # fmt: skip


def _inserts(job: Job, built: Built) -> Iterator[Finding]:
    """Yield what inserts ask for, of field and border each."""
    border, joints = job.articles.border, built.pieces.border
    if job.articles.board.groove_mm:
        rows = tuple(line for line in built.surface.rows if not line.border)
        yield from _insert(job, job.articles.board, "inserts", rows, built.pieces.joint_count)
    if border is not None and border.groove_mm and joints is not None:
        rows = tuple(line for line in built.surface.rows if line.border)
        yield from _insert(job, border, "inserts of the border", rows, joints.joint_count)


def not_through_inserts(job: Job) -> Iterator[Finding]:
    """Yield that no rip goes through the inserts of the field's boards, nothing without any."""
    if job.articles.board.groove_mm:
        yield _no_rip(job, "inserts", ": boards are laid whole")


def _no_rip(
    job: Job, subject: str, told: str, severity: Severity = Severity.NOTE
) -> Finding:  # fmt: skip
    near = length_text(BESIDE_INSERT_MM, job.brief.units)
    return _note("BRD-002", subject, f"no rip through an insert, nor within {near} of it{told}",
                 PRACTICE, severity=severity)  # fmt: skip


def _insert(
    job: Job, board: Board, subject: str, rows: tuple[LaidRow, ...], joint_count: int
) -> Iterator[Finding]:
    units, ripped = job.brief.units, any(line.ripped for line in rows)
    if ripped:
        told = ": look where it lies before the outer rows are ripped"
        yield _no_rip(job, subject, told, Severity.CAUTION)
    else:
        yield _no_rip(job, subject, "; every row is a whole board")
    net_mm = to_mm(exact(board.thickness_mm) - exact(board.groove_mm))
    yield _note("BRD-003", subject,
                f"the insert leaves {length_text(net_mm, units)} of the board's thickness to "
                "carry: joists no further apart than that is good for",
                job.rules.source("supports.most_centres_mm"), board.groove_mm, "mm")  # fmt: skip
    yield _note("BRD-004", subject,
                "preserver on the timber first, and let it dry; then trim each strip back "
                f"by {length_text(3.0, units)} from the board's end and glue its last "
                f"{length_text(30.0, units)}, or it lifts", PRACTICE)  # fmt: skip
    if joint_count:
        yield _note("BRD-005", subject,
                    "strips lift and show at joints: boards as long as the deck have none",
                    PRACTICE, float(joint_count), "joints")  # fmt: skip
    yield _note("BRD-006", subject,
                "strips last 5 to 8 years, their boards longer: keep as much strip of the same "
                f"make as these {len(rows)} rows carry",
                MEMORY)  # fmt: skip


def fall(job: Job, surface: Surface, what: str) -> Iterator[Finding]:
    """Yield the fall along the rows that their family wants, and which nobody plans here."""
    ratio = surface.fall_least_ratio
    if ratio:
        units = job.brief.units
        drop = ceil_mark(exact(ratio * surface.row_length_mm), MARK_320[units])
        yield _note("BRD-007", what,
                    f"these {what} want a fall of 1 in {1 / ratio:g} along their length, "
                    f"{length_text(to_mm(drop), units)} over a row: lower what carries them by it "
                    "at one end; this plan's heights are those of a level deck",
                    job.rules.source("surface.fall_least_ratio"), ratio, "ratio",
                    severity=Severity.CAUTION)  # fmt: skip


def cups(board: Board, what: str, width_mm: float) -> Iterator[Finding]:
    """Yield that a timber board is so wide for its thickness that it cups.

    Timber is told by its species, and boards of plastic by theirs.
    """
    timber = board.species and not any(word in board.species.lower() for word in PLASTIC)
    if timber and exact(width_mm) > CUPS_FROM * exact(board.thickness_mm):
        yield _note("BRD-008", what,
                    f"more than {CUPS_FROM} times as wide as thick: such boards cup; narrower or "
                    "thicker ones stay flatter", PRACTICE, width_mm, "mm")  # fmt: skip


def tannin_rich(board: Board) -> bool:
    """Whether a board's species is rich in tannin, as far as its record tells."""
    species = board.species.lower()
    return any(name in species for name in TANNIN_RICH)


def washes(board: Board, what: str) -> Iterator[Finding]:
    """Yield that tannin washes out of a board and stains what lies below."""
    if tannin_rich(board):
        yield _note("BRD-009", what,
                    f"tannin washes out of fresh {board.species} for 4 to 8 weeks and stains "
                    "paving, walls and water below: cover them", STAINS,
                    severity=Severity.CAUTION)  # fmt: skip
