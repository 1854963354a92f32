"""The ground under the deck: dig, fabric, gravel, packers; and what the order weighs."""

from attrs import frozen

from drylay.buying.model import Buying, Delivery, Purchase
from drylay.findings import Finding
from drylay.frame.model import Frame
from drylay.groundwork.model import Groundwork
from drylay.planner.built import Built, Wanted
from drylay.planner.buy import Blocked, Shape
from drylay.planner.cuts import Cutter
from drylay.planner.job import Job
from drylay.planner.rows import Row
from drylay.site.model import Site


@frozen(kw_only=True)
class Beneath:
    """What lies under the deck, and what of it is cut from rolls."""

    groundwork: Groundwork | None
    purchases: tuple[Purchase, ...] = ()


def lay_ground(cutter: Cutter, shaped: Shape, frame: Frame, site: Site) -> Beneath | Blocked:
    """Return what lies under the deck, or why it cannot be had."""
    return Beneath(groundwork=None)


def wanted(job: Job, groundwork: Groundwork | None) -> tuple[Wanted, ...]:
    """Return what of it is to be bought in packs."""
    return ()


def delivery(job: Job, buying: Buying) -> Delivery | None:
    """Return what the order weighs, and the heaviest single thing to lift."""
    return None


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here."""
    return []


def remarks(job: Job, built: Built) -> list[Finding]:
    """Return what is worth telling about them."""
    return []
