"""What a board's own make asks for: arrows, inserts, a fall, width against thickness, tannin."""

from collections.abc import Iterator
from typing import Any

from drylay.findings import Finding, Severity
from drylay.marks import MARK_320, ceil_mark, exact, to_mm
from drylay.materials.stock_model import Board
from drylay.planner.built import Built
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, merchant_says, row
from drylay.plugins.table_rules import has_word
from drylay.reasons import Source
from drylay.surface.model import Row as LaidRow
from drylay.surface.model import Surface
from drylay.units import length_text

#: A level deck. How a ruling begins that is the border's.
LEVEL_RATIO, THE_BORDERS = 0.0, "the border's: "
MEMORY = Source(kind="from memory", title="turf strips wear out before their boards")
STAINS = Source(kind="from memory", title="tannin washes out of fresh boards for weeks")
#: The end of rows that is built lower where they are to fall: the front, else the right.
LOW_SIDE = {"along": "right", "across": "front"}
#: So near an insert no saw may come.
BESIDE_INSERT_MM = 10.0
#: Boards more than so many times as wide as thick cup.
CUPS_FROM = 6
#: Woods changed by heat or acid, by words of a species' name: their makers have their own figures.
MODIFIED = ("modified", "heat-treated", "heat treated", "acetylated", "furfurylated")
#: Species rich in tannin, by words of a species' name. From memory.
TANNIN_RICH = ("oak", "chestnut", "iroko", "cedar", "larch")


def falls(job: Job, row_length_mm: float, run: str) -> dict[str, Any]:
    """Return how far a row falls and to which side; nothing where boards may lie level.

    Source: the family's rule for the fall; common practice for its way, off the house's wall.
    """
    ratio = job.rules.value("surface.fall_least_ratio")
    if not ratio:
        return {}
    mark = MARK_320[job.brief.units]
    fall_mm = to_mm(ceil_mark(exact(ratio * row_length_mm), mark))
    return {"fall_mm": fall_mm, "low_side": LOW_SIDE[run]}


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here."""
    surface, found = built.surface, []
    if surface.groove_mm is not None:
        says = merchant_says(job, job.articles.board.code)
        found += [row("surface.groove_mm", surface.groove_mm, "mm",
                      "how deep the insert is let in, as sold", says)]  # fmt: skip
    if surface.fall_mm is not None:
        found += [row("surface.fall_mm", surface.fall_mm, "mm",
                      f"the least fall over a row, up to a pencil mark, down to the "
                      f"{surface.low_side}", PRACTICE,
                      (("fall_least_ratio", surface.fall_least_ratio),
                       ("row_length_mm", surface.row_length_mm)))]  # fmt: skip
    return found


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about the boards themselves."""
    board, timber = job.articles.board, bool(built.surface.timber)
    return [
        *_handed(job, built),
        *_inserts(job, built),
        *_short_rows(job, built),
        *fall(job, built.surface, "deck boards"),
        *cups(board, "deck boards", built.surface.board_width_mm, timber=timber),
        *washes(board, "deck boards", timber=timber),
        *modified(board, "deck boards"),
    ]


def _short_rows(job: Job, built: Built) -> list[Finding]:
    """Return the caution on rows that are shorter than a piece of their boards may be."""
    row_mm, border = built.surface.row_length_mm, built.pieces.border
    limits = [("pieces", built.pieces.least_piece_mm)]
    limits += [("pieces.border", border.least_piece_mm)] if border else []
    return [
        Finding(
            code="JNT-005",
            severity=Severity.CAUTION,
            subject="rows" if path == "pieces" else "rows of the border",
            message="the rows are shorter than a piece of these boards may be: ask whoever says so",
            measured=row_mm,
            limit=least_mm,
            unit="mm",
            source=job.rules.source(f"{path}.least_piece_mm"),
        )
        for path, least_mm in limits
        if least_mm is not None and row_mm < least_mm
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


def _no_rip(job: Job, subject: str, told: str) -> Finding:
    near = length_text(BESIDE_INSERT_MM, job.brief.units)
    return _note("BRD-002", subject, f"no rip through an insert, nor within {near} of it{told}",
                 PRACTICE)  # fmt: skip


def _insert(
    job: Job, board: Board, subject: str, rows: tuple[LaidRow, ...], joint_count: int
) -> Iterator[Finding]:
    units = job.brief.units
    yield _no_rip(job, subject, "; every row is a whole board")
    net_mm = to_mm(exact(board.thickness_mm) - exact(board.groove_mm))
    yield _note("BRD-003", subject,
                f"the insert, {length_text(board.groove_mm, units)} deep, leaves "
                f"{length_text(net_mm, units)} of the board's thickness to "
                "carry: joists no further apart than that is good for",
                ARITHMETIC)  # fmt: skip
    yield _note("BRD-004", subject,
                "at sawn ends preserver on the timber first, and let it dry; then trim each strip "
                f"back by {length_text(3.0, units)} and glue its last "
                f"{length_text(30.0, units)}, or it lifts; ends as they come stay so",
                PRACTICE)  # fmt: skip
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
        board, of = _whose(job, what)
        yield _note("BRD-007", of,
                    f"{board} want a fall of 1 in {1 / ratio:g} along their length, "
                    f"{length_text(to_mm(drop), units)} over a row: "
                    + (f"build the {surface.low_side} end lower by it; this plan's heights, "
                       "packers' among them, are those of the other end"
                       if surface.low_side else "lower what carries them by it at one end; this "
                       "plan's heights are those of a level deck"),
                    job.rules.source("surface.fall_least_ratio"),
                    ratio if surface.low_side else LEVEL_RATIO, "ratio", ratio,
                    severity=Severity.CAUTION)  # fmt: skip


def _whose(job: Job, what: str) -> tuple[str, str]:
    """Return whose boards ask for the fall, in words and as a subject: those that ask for more."""
    rule = job.rules.rulings["surface.fall_least_ratio"].rule
    border = job.articles.border
    if border is not None and rule.startswith(THE_BORDERS):
        return f"the boards of {border.code}", "border boards"
    return f"these {what}", what


def modified(board: Board, what: str) -> Iterator[Finding]:
    """Yield that a board is of a modified wood, of which a family of plain wood knows nothing."""
    if any(has_word(board.species, words) for words in MODIFIED):
        yield _note("MAT-009", what,
                    f"{board.code} is a modified wood: these are figures of plain wood; have the "
                    "maker's for its movement, gaps, screws and life", PRACTICE,
                    severity=Severity.CAUTION)  # fmt: skip


def cups(board: Board, what: str, width_mm: float, *, timber: bool) -> Iterator[Finding]:
    """Yield that a board of wood is so wide for its thickness that it cups."""
    if timber and board.species and exact(width_mm) > CUPS_FROM * exact(board.thickness_mm):
        yield _note("BRD-008", what,
                    f"more than {CUPS_FROM} times as wide as thick: such boards cup; narrower or "
                    "thicker ones stay flatter", PRACTICE, width_mm, "mm")  # fmt: skip


def tannin_rich(species: str, *, timber: bool) -> bool:
    """Whether a board is of a wood rich in tannin, as far as its record tells."""
    return timber and any(has_word(species, name) for name in TANNIN_RICH)


def washes(board: Board, what: str, *, timber: bool) -> Iterator[Finding]:
    """Yield that tannin washes out of a board and stains what lies below."""
    if tannin_rich(board.species, timber=timber):
        yield _note("BRD-009", what,
                    f"tannin washes out of fresh {board.species} for 4 to 8 weeks and stains "
                    "paving, walls and water below: cover them", STAINS,
                    severity=Severity.CAUTION)  # fmt: skip
