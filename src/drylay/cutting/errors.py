"""What cutting raises when there is no plan, and why."""

from attrs import frozen

from drylay.errors import DrylayError, InputError


class CutTaskError(InputError):
    """A cutting task makes no sense as asked; `faults` lists every reason."""

    noun = "cutting task"


@frozen(kw_only=True)
class Shortfall:
    """One reason why there is no plan.

    `kind` is "piece too long" (`length` against `longest`, the longest usable board),
    "line cannot be made" (`line` is the index of the set: no legal joints give pieces the
    boards hold), "lines cannot be staggered" (one line can be made, two side by side cannot),
    "lines cannot repeat" (they can be made, but not so many alike) or "not enough stock".
    Lengths are in the task's unit; where `unit` says so, in another.
    """

    kind: str
    length: float | None = None
    longest: float | None = None
    line: int | None = None
    unit: str = ""

    def __str__(self) -> str:
        place = "" if self.line is None else f" (line set {self.line})"
        size = "" if self.length is None else f" ({self.length:.10g}{self.unit})"
        most = ""
        if self.longest is not None:
            most = f", longest usable board {self.longest:.10g}{self.unit}"
        return f"{self.kind}{place}{size}{most}"


class NoPlan(DrylayError):  # noqa: N818 - an answer about the task, not a fault
    """No plan was found; `shortfalls` says why.

    `proven` is True if no plan can exist, False if the work limit was reached first.
    """

    def __init__(self, shortfalls: tuple[Shortfall, ...], *, proven: bool) -> None:
        self.shortfalls, self.proven = tuple(shortfalls), proven
        head = "no plan exists" if proven else "no plan found within the work limits"
        super().__init__(f"{head}: " + "; ".join(str(shortfall) for shortfall in shortfalls))

    def __reduce__(self) -> tuple[object, tuple[object, ...]]:
        return _no_plan, (self.shortfalls, self.proven)


def _no_plan(shortfalls: tuple[Shortfall, ...], proven: bool) -> NoPlan:
    return NoPlan(shortfalls, proven=proven)
