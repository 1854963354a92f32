"""Everything that limits a row fit, in exact units, with who says so."""

from attrs import frozen

from drylay.marks import MARK_320
from drylay.reasons import Source

ARITHMETIC = Source(kind="arithmetic", title="rows and gaps fill the cover", clause="conventions")
PRACTICE = Source(kind="common practice", title="common practice, no source")
WISHED = Source(kind="brief", title="the brief", clause="cover")


@frozen(kw_only=True)
class RowLimits:
    """One direction's limits; lengths are counts of 1/320 mm.

    `least_off_320`: what a rip must at least take off, the saw's own kerf.
    """

    run: str = "along"
    depth_320: int
    board_320: int
    least_320: int
    preferred_320: int
    most_320: int
    grow_320: int = 0
    shrink_320: int = 0
    sliver_320: int
    least_rip_320: int
    least_off_320: int
    may_rip: bool = True
    mark_320: int = MARK_320["metric"]
    gap_least_source: Source = PRACTICE
    gap_most_source: Source = PRACTICE
    sliver_source: Source = PRACTICE
    rip_source: Source = PRACTICE

    @property
    def whole_rows(self) -> int:
        """How many whole rows fit at the preferred gap."""
        return max(
            0, (self.depth_320 + self.preferred_320) // (self.board_320 + self.preferred_320)
        )

    @property
    def remainder_320(self) -> int:
        """What is left beyond the whole rows and the gaps between them."""
        rows = self.whole_rows
        if rows == 0:
            return self.depth_320
        return self.depth_320 - rows * self.board_320 - (rows - 1) * self.preferred_320

    @property
    def strip_320(self) -> int:
        """How wide one more row would be, laid without a thought."""
        gap = self.preferred_320 if self.whole_rows else 0
        return max(0, self.remainder_320 - gap)

    @property
    def most_rip_320(self) -> int:
        """The widest row a saw can still rip from a board: a kerf less, a mark at least."""
        return self.board_320 - max(self.least_off_320, self.mark_320)
