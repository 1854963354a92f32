"""What old boards yield: lengths clear of old holes, one use lower, never of wood with arsenic."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import evolve

from drylay.counting import counted
from drylay.cutting.model import Stock
from drylay.findings import Finding, Severity
from drylay.marks import exact, is_number, to_mm
from drylay.reasons import Source
from drylay.upkeep.parts import refused
from drylay.upkeep.stock_model import NotUsed, OldBoard, OldLength, Salvage

#: What lies so near to an old hole is left, either side of its middle. Common practice, no source.
CLEAR_MM = 30.0
#: What is sawn off either end: it is weathered and full of old fixings. Assumption.
END_TRIM_MM = 20.0
#: No shorter length is worth carrying. Assumption.
LEAST_MM = 300.0
#: Holes off their even places by no more than so still fall on a joist. Assumption.
EVEN_MM = 5.0
PRACTICE = Source(
    kind="common practice", title="common practice, no source", clause="wood used again"
)
HAZARD = Source(
    kind="from memory",
    title="guidance on wood from demolition",
    clause="wood treated with arsenic (CCA, green or brown, up to about 2006) is hazardous waste",
)
#: One use lower than what it was: none of these is walked on or bears a load.
NEXT_USE = {"frame": "noggins and blocking", "boards": "fascia", "fascia": "edging and planters"}
ASK = (
    "Is it green or brownish and older than 2006, or does a label name arsenic or CCA? Until "
    "that is known it is not sawn, used or burned."
)


@counted
def salvage(
    boards: Sequence[OldBoard],
    *,
    joists_mm: float | None = None,
    end_trim_mm: float = END_TRIM_MM,
    least_mm: float = LEAST_MM,
) -> Salvage:
    """Return the usable lengths of old boards, all of one section.

    A length is what lies between end trims and old holes, `CLEAR_MM` off each. Where the new
    joists are as far apart as the old ones (`joists_mm` is the board's `holes_apart_mm`), the holes
    serve again: the whole board but its trims is one length, with where its holes are. Wood that is
    soft, holds arsenic or whose treatment nobody knows yields nothing.

    Raises:
        UpkeepError: No boards, boards of several sections, or figures that cannot be meant.

    Findings: UPK-031, arsenic, a stop; UPK-032, treatment not known, a stop for those boards with
    what to ask; UPK-033, soft; UPK-034, one use lower.

    Source: common practice, no source; end trim and shortest length are assumptions; arsenic by
    guidance on demolition, from memory.
    """
    _check(boards, joists_mm, end_trim_mm, least_mm)
    found: list[OldLength] = []
    not_used: list[NotUsed] = []
    for board in boards:
        why = _refusal(board)
        lengths = (
            () if why else tuple(_lengths(board, joists_mm, exact(end_trim_mm), exact(least_mm)))
        )
        found += lengths
        if not lengths:
            told = why or f"nothing longer than {least_mm:g} mm lies clear of its holes"
            not_used.append(NotUsed(board=board.mark, count=board.count, why=told))
    lengths = tuple(evolve(one, mark=f"S{number}") for number, one in enumerate(found, 1))
    return Salvage(
        width_mm=boards[0].width_mm,
        thickness_mm=boards[0].thickness_mm,
        next_use=NEXT_USE[boards[0].was],
        lengths=lengths,
        not_used=tuple(not_used),
        end_trim_mm=end_trim_mm,
        clear_mm=CLEAR_MM,
        kept_holes=any(length.holes_mm for length in lengths),
        total_mm=to_mm(sum(exact(length.length_mm) * length.count for length in lengths)),
        source=PRACTICE,
        findings=tuple(_findings(boards)),
    )


def shed_stock(found: Salvage) -> tuple[Stock, ...]:
    """Return salvaged lengths as the cutter's stock: price 0, as many as there are.

    Lengths are in 1/320 mm. A cutter that has these beside what is on sale opens them first, see
    docs/cutting.md.
    """
    return tuple(
        Stock(name=its.mark, length=exact(its.length_mm), price=0, limit=its.count)
        for its in found.lengths
    )


def _check(
    boards: Sequence[OldBoard], joists_mm: float | None, trim_mm: float, least_mm: float
) -> None:
    if not boards:
        raise refused("boards", "none", "a list of old boards")
    sections = {(its.width_mm, its.thickness_mm, its.was) for its in boards}
    if len(sections) > 1:
        told = "; ".join(f"{was} {w:g} x {t:g}" for w, t, was in sorted(sections))
        raise refused("boards", told, "boards of one section", "one salvage for each section")
    for name, value, low, high in (
        ("joists_mm", joists_mm, 100, 1_500),
        ("end_trim_mm", trim_mm, 0, 1_000),
        ("least_mm", least_mm, 50, 6_000),
    ):
        if value is not None and not (is_number(value) and low <= value <= high):
            raise refused(name, f"{value:g}", f"{low} to {high} mm")
    for at, board in enumerate(boards):
        wrong = [hole for hole in board.holes_mm if not 0 <= hole <= board.length_mm]
        if wrong:
            path = f"boards[{at}].holes_mm"
            raise refused(path, f"{wrong[0]:g}", f"0 to {board.length_mm:g} mm, its length")
        _check_even(at, board)


def _check_even(at: int, board: OldBoard) -> None:
    """Refuse holes said to lie evenly that do not: they would miss the new joists."""
    apart = exact(board.holes_apart_mm or 0)
    holes = _holes(board)
    for hole in holes if apart else ():
        off = (hole - holes[0]) % apart
        if min(off, apart - off) > exact(EVEN_MM):
            told = f"a hole at {to_mm(hole):g} among holes {to_mm(apart):g} apart"
            wanted = f"holes within {EVEN_MM:g} mm of even"
            fix = "leave out holes_apart_mm"
            raise refused(f"boards[{at}].holes_mm", told, wanted, fix)


def _refusal(board: OldBoard) -> str:
    """Return why a board yields nothing whatever its holes, "" where it may."""
    if board.treatment == "arsenic":
        return "treated with arsenic: hazardous waste, never used again or burned"
    if board.treatment == "not known":
        return "its treatment is not known: taken as arsenical until it is"
    return "soft" if board.soundness != "sound" else ""


def _lengths(
    board: OldBoard, joists_mm: float | None, trim: int, least: int
) -> Iterator[OldLength]:
    """Yield the usable lengths of a board, from its first end."""
    end = exact(board.length_mm) - trim
    if serve_again(board, joists_mm):
        if end - trim >= least:
            holes = tuple(to_mm(at - trim) for at in _holes(board) if trim < at < end)
            yield _length(board, trim, end, holes)
        return
    clear = exact(CLEAR_MM)
    # a hole at 0 - clear and one at the far end + clear stand for the trims
    stops = [trim - clear, *(at for at in _holes(board)), end + clear]
    for one, other in pairwise(sorted(stops)):
        start, stop = max(one + clear, trim), min(other - clear, end)
        if stop - start >= least:
            yield _length(board, start, stop, ())


def serve_again(board: OldBoard, joists_mm: float | None) -> bool:
    """Return whether a board's old holes fall on new joists: both stand equally far apart."""
    apart = board.holes_apart_mm
    return joists_mm is not None and apart is not None and exact(apart) == exact(joists_mm)


def _holes(board: OldBoard) -> list[int]:
    return sorted(exact(hole) for hole in board.holes_mm)


def _length(board: OldBoard, start: int, stop: int, holes: tuple[float, ...]) -> OldLength:
    return OldLength(
        mark="",
        board=board.mark,
        count=board.count,
        from_mm=to_mm(start),
        to_mm=to_mm(stop),
        length_mm=to_mm(stop - start),
        holes_mm=holes,
    )


def _findings(boards: Sequence[OldBoard]) -> Iterator[Finding]:
    for board in boards:
        if board.treatment == "arsenic":
            told = "hazardous waste: hand it in as such, whole; never saw, burn, mulch or reuse it"
            yield _told("UPK-031", board.mark, told, Severity.STOP, HAZARD)
        elif board.treatment == "not known":
            yield _told("UPK-032", board.mark, ASK, Severity.STOP, HAZARD)
        elif board.soundness != "sound":
            told = "soft wood is not used again"
            yield _told("UPK-033", board.mark, told, Severity.NOTE, PRACTICE)
    told = f"used again one use lower, where it bears no load: {NEXT_USE[boards[0].was]}"
    yield _told("UPK-034", "what is used again", told, Severity.NOTE, PRACTICE)


def _told(code: str, subject: str, told: str, severity: Severity, source: Source) -> Finding:
    return Finding(code=code, severity=severity, subject=subject, message=told, source=source)
