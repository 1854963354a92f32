"""Ripped rows under hidden clips: their ripped edge has no groove, and screws hold it instead."""

from drylay.fixings.clips import OnBattens


def ripped_crossings(ripped: tuple[bool, ...], *, joists: int, on_battens: OnBattens) -> int:
    """Return at how many joists and battens ripped edges lie that clips cannot hold.

    `ripped` tells of each row. A ripped row's factory edge lies outwards: beside its ripped edge
    the clips hold the neighbour alone. One row alone has no clips.

    Source: counting; no groove is left where the saw went, by common practice.
    """
    if len(ripped) < 2:
        return 0
    first = joists + on_battens.first_row if ripped[0] else 0
    last = joists + on_battens.last_row if ripped[-1] else 0
    return first + last
