"""A ledger on the house: on which walls, and where its fixings go."""

from collections.abc import Sequence

from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity
from drylay.marks import MARK_320, ceil_mark, exact, floor_mark, to_mm
from drylay.raised.limits import length_faults, refuse_units
from drylay.raised.model import REFUSED_WALLS, SOUND_WALLS, Ledger
from drylay.reasons import Source
from drylay.strength.model import Section

VENEER = Source(
    kind="from memory",
    title="International Residential Code",
    clause="R507.9.1.1: no ledger on masonry veneer",
)
PRACTICE = Source(kind="common practice", title="common practice, no source")
#: Why each wall is refused, and who says so.
WHY = {
    "veneer": ("a veneer stands in front of the wall and holds nothing", VENEER),
    "cavity": ("the outer leaf of a cavity wall is no wall by itself", PRACTICE),
    "insulated": ("fixings through insulation bend, and carry water in", PRACTICE),
    "framed": ("what in a framed wall a fixing meets cannot be seen, and rots unseen", PRACTICE),
}


def ledger_finding(wall: str | None) -> Finding | None:
    """Return why no ledger is fixed to such a wall; None on a sound one.

    Where the wall is refused (RSD-001) the deck stands free: a caution. Where nobody says what it
    is (RSD-002) that is a stop, since a ledger that lets go brings the deck down.

    Raises:
        InputError: There is no such wall.

    Source: IRC R507.9.1.1 of veneer, from memory; of others common practice, no source.
    """
    if wall in SOUND_WALLS:
        return None
    if wall is None or wall == "unknown":
        return Finding(
            code="RSD-002", severity=Severity.STOP, subject="ledger", source=PRACTICE,
            message="what the house wall is made of is not told: find out, or let the deck stand "
            "free of it",
        )  # fmt: skip
    if wall not in REFUSED_WALLS:
        wanted = ", ".join((*SOUND_WALLS, *REFUSED_WALLS, "unknown"))
        raise InputError((Fault(path="wall", found=repr(wall), wanted=wanted),))
    why, source = WHY[wall]
    return Finding(
        code="RSD-001", severity=Severity.CAUTION, subject="ledger", source=source,
        message=f"no ledger on this wall ({wall}): {why}; the deck stands free. A licensed "
        "engineer may say otherwise",
    )  # fmt: skip


def ledger_or_free(
    wall: str | None, ledger_mm: float | None
) -> tuple[float | None, tuple[Finding, ...]]:
    """Return the ledger's thickness to reckon with, None for a deck that stands free, and why.

    Args:
        wall: What the house wall is, None where nobody says.
        ledger_mm: How thick a ledger is wished for; None for none, and then no wall matters.

    Raises:
        InputError: There is no such wall.
    """
    refused = None if ledger_mm is None else ledger_finding(wall)
    return (ledger_mm, ()) if refused is None else (None, (refused,))


def ledger_on(
    *,
    wall: str,
    section: Section,
    start_mm: float,
    end_mm: float,
    spacing_most_mm: float,
    from_end_mm: float,
    joists_mm: Sequence[float],
    clear_mm: float,
    source: Source,
    units: str = "metric",
) -> Ledger | Finding:
    """Return a ledger with the fewest fixings, or why there is none.

    Every fixing stands on a mark, at least `from_end_mm` from the ledger's ends and `clear_mm`
    from the middle of every joist, whose hanger sits there; none further than the spacing from
    its neighbour, nor the outer ones from the ends by more than the spacing. Set out from the
    start, each as far on as it may be (which takes the fewest).

    Args:
        wall: One of `SOUND_WALLS`; others are told in a finding.
        section: The ledger's, one ply.
        start_mm: Where it begins along the house.
        end_mm: Where it ends.
        spacing_most_mm: The most between fixings.
        from_end_mm: The least from its ends.
        joists_mm: Joists' centres along the house.
        clear_mm: The least from a joist's centre.
        source: Who says what spacing.
        units: "metric" or "imperial" pencil marks.

    Raises:
        InputError: A value is no length, or fixings do not find room between the joists.
    """
    refused = ledger_finding(wall)
    if refused is not None:
        return refused
    refuse_units(units)
    faults = length_faults(
        spacing_most_mm=spacing_most_mm, from_end_mm=from_end_mm, long_mm=end_mm - start_mm
    )
    if faults:
        raise InputError(tuple(faults))
    joists = [exact(at) for at in joists_mm]
    ends = (exact(start_mm), exact(end_mm), exact(from_end_mm))
    stations = _stations(ends, exact(spacing_most_mm), joists, exact(clear_mm), MARK_320[units])
    return Ledger(
        mark="LG1", wall=wall, section=section, start_mm=start_mm, end_mm=end_mm,
        spacing_most_mm=spacing_most_mm, stations_mm=tuple(to_mm(at) for at in stations),
        source=source,
    )  # fmt: skip


def _stations(
    ends: tuple[int, int, int], most: int, joists: list[int], clear: int, mark: int
) -> list[int]:
    start, end, off = ends
    last = floor_mark(end - off, mark)
    found = [_next_clear(ceil_mark(start + off, mark), joists, clear, mark)]
    while end - found[-1] > off and found[-1] < last:
        at = _before_clear(min(found[-1] + most, last), joists, clear, mark)
        if at <= found[-1]:
            if end - found[-1] <= most:
                break
            raise _no_room(clear)
        found.append(at)
    if found[0] - start > most or end - found[-1] > most:
        raise _no_room(clear)
    return found


def _next_clear(at: int, joists: list[int], clear: int, mark: int) -> int:
    """Return the first mark from a place on that no joist is near."""
    for joist in sorted(joists):
        if abs(joist - at) < clear:
            at = ceil_mark(joist + clear, mark)
    return at


def _before_clear(at: int, joists: list[int], clear: int, mark: int) -> int:
    """Return the last mark up to a place that no joist is near."""
    at = floor_mark(at, mark)
    for joist in sorted(joists, reverse=True):
        if abs(joist - at) < clear:
            at = floor_mark(joist - clear, mark)
    return at


def _no_room(clear: int) -> InputError:
    wanted = "room for fixings between the joists, near enough to one another"
    return InputError((Fault(path="clear_mm", found=f"{to_mm(clear):g}", wanted=wanted),))
