"""The nouns of a review: what is wrong with a brief, and what its deck would be told of."""

from attrs import frozen

from drylay.errors import Fault
from drylay.findings import Finding, Severity


@frozen(kw_only=True)
class Supposed:
    """A value that a fault's nearest fix names: looked at as if it had been meant, never taken."""

    path: str
    found: str
    as_if: str


@frozen(kw_only=True)
class Review:
    """What is wrong with a brief as it stands, and what its deck would be told of.

    `faults` keep it from being planned. `supposed` is empty where there are none; where there are,
    `findings` hold only if all of it was meant. `looked` says whether the deck could be looked at
    at all.
    """

    faults: tuple[Fault, ...] = ()
    supposed: tuple[Supposed, ...] = ()
    findings: tuple[Finding, ...] = ()
    looked: bool = False

    @property
    def stops(self) -> tuple[Finding, ...]:
        """What would stop the plan."""
        return tuple(each for each in self.findings if each.severity is Severity.STOP)
