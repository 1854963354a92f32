"""What openings want: trimmers all round, doubled where they carry more than one tail."""

from collections.abc import Sequence

from attrs import frozen

from drylay.findings import Finding
from drylay.outline.model import Opening
from drylay.subframe.wants import Placed, Timber


@frozen(kw_only=True)
class Opened:
    """The timbers round openings, and what cannot be framed."""

    timbers: tuple[Timber, ...] = ()
    findings: tuple[Finding, ...] = ()


def frame_openings(
    placed: Placed,
    openings: Sequence[Opening],
    rims: Sequence[Timber],
    joists: Sequence[Timber],
) -> Opened:
    """Return the trimmers and doubles of all openings."""
    return Opened()
