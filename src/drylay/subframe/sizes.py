"""How long timbers are and which way they run; those longer than any to be had."""

from drylay.findings import Finding, Severity
from drylay.reasons import Source
from drylay.subframe.plane import NEAR_MM, along, axis_through
from drylay.subframe.wants import Placed, Timber

#: What is jointed like a joist, where it runs the joists' way.
JOINTED = ("joist", "pair", "double")
STOCK = Source(kind="merchant record", title="the longest timber of the stock")


def length_of(timber: Timber) -> float:
    """Return a timber's length, tip to tip."""
    right, end_right, end_left, left = timber.corners
    axis = axis_through(right, end_right)
    ends = [along(axis, place)[0] for place in (right, end_right, end_left, left)]
    return max(ends) - min(ends)


def is_upright(timber: Timber) -> bool:
    """Return whether a timber runs the joists' way."""
    return abs(timber.corners[0][0] - timber.corners[1][0]) < NEAR_MM


def is_flat(timber: Timber) -> bool:
    """Return whether a timber runs square to the joists."""
    return abs(timber.corners[0][1] - timber.corners[1][1]) < NEAR_MM


def may_be_jointed(timber: Timber) -> bool:
    """Return whether a timber is jointed where it is too long: all that run the joists' way."""
    return timber.kind in JOINTED and is_upright(timber)


def too_long(placed: Placed, *, jointed: bool = True) -> list[Finding]:
    """Return a stop for joists, and one for trimmers, longer than the timber to be had.

    Rims may be jointed; trimmers are not. With `jointed` joists are in lengths already: those still
    too long have no place for a joint.
    """
    found = []
    for name, kinds in (("joist", {"joist", "pair", "double"}), ("trimmer", {"trimmer", "double"})):
        lengths = [
            length_of(timber)
            for timber in placed.timbers
            if timber.kind in kinds and (name == "joist") == may_be_jointed(timber)
        ]
        if name == "joist" and not jointed:
            continue
        over = [length for length in lengths if length > placed.wants.reach_mm + 0.005]
        if over:
            found.append(
                Finding(
                    code="SUB-003",
                    severity=Severity.STOP,
                    subject=f"{len(over)} {name}s",
                    message=f"longer than any timber to be had, the longest by "
                    f"{max(over) - placed.wants.reach_mm:.1f} mm, and not to be jointed: turn the "
                    "joists the other way, or bring longer timber",
                    measured=round(max(over), 4),
                    limit=placed.wants.reach_mm,
                    unit="mm",
                    source=STOCK,
                )
            )
    return found
