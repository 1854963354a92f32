"""What a footing cannot be asked for: figures, words and rules that cannot be meant."""

from collections.abc import Iterable
from fractions import Fraction

from drylay.errors import Fault, InputError
from drylay.groundwork.model import FootingRules
from drylay.regions.model import Bag, Limit

SHAPES = ("square", "round")
KINDS = ("pad", "concreted hole")
#: No figure of a deck, in mm, kN, kN/m2 or m3, is less or more. Assumption.
LEAST, MOST = 1e-9, 1e12


def above_nothing(**figures: float) -> list[Fault]:
    """Return a fault of each figure that is not finite and above 0, or beyond all reach."""
    return [
        Fault(path=path, found=_told(figure), wanted=f"a figure above 0, at most {MOST:g}")
        for path, figure in figures.items()
        if not _lies(figure, LEAST)
    ]


def from_nothing(**figures: float | Fraction | None) -> list[Fault]:
    """Return a fault of each figure that is told and is below 0, not finite or beyond all reach."""
    return [
        Fault(path=path, found=_told(figure), wanted=f"0 or more, at most {MOST:g}")
        for path, figure in figures.items()
        if figure is not None and not _lies(figure, 0)
    ]


def shape_faults(shape: str) -> list[Fault]:
    """Return that a footing is of no shape that there is."""
    return _word("shape", shape, SHAPES)


def kind_faults(kind: str) -> list[Fault]:
    """Return that a footing is of no kind that there is."""
    return _word("kind", kind, KINDS)


def rules_faults(rules: FootingRules) -> list[Fault]:
    """Return limits that no region sets."""
    limits = {
        "square_least": rules.square_least,
        "round_least": rules.round_least,
        "thick_least": rules.thick_least,
        "depth_least": rules.depth_least,
        "frost": rules.frost,
    }
    return [fault for path, limit in limits.items() for fault in limit_faults(path, limit)]


def limit_faults(path: str, limit: Limit) -> list[Fault]:
    """Return that a limit's value is told and cannot be one."""
    return from_nothing(**{f"{path}.value": limit.value})


def bag_faults(bag: Bag) -> list[Fault]:
    """Return that a bag makes no concrete."""
    made = bag.made_m3.value
    return above_nothing(**{"bag.made_m3.value": float("nan") if made is None else made})


def post_faults(
    shape_mm: float, *, size_mm: float, depth_mm: float, post_mm: float, post_depth_mm: float
) -> list[Fault]:
    """Return what keeps a post from standing in a footing; `shape_mm` is the least size for it."""
    sizes = above_nothing(size_mm=size_mm, depth_mm=depth_mm, post_mm=post_mm)
    faults = [*sizes, *from_nothing(post_depth_mm=post_depth_mm)]
    if faults:
        return faults
    if post_depth_mm > depth_mm:
        found, wanted = f"{post_depth_mm:g} mm", f"0 to {depth_mm:g} mm"
        faults.append(Fault(path="post_depth_mm", found=found, wanted=wanted))
    if post_depth_mm and shape_mm > size_mm:
        wanted = f"a post that goes into {size_mm:g} mm"
        faults.append(Fault(path="post_mm", found=f"{post_mm:g} mm", wanted=wanted))
    return faults


def refuse(faults: Iterable[Fault]) -> None:
    """Return nothing where there is no fault.

    Raises:
        InputError: There is one; all are told.
    """
    if told := tuple(faults):
        raise InputError(told)


def _word(path: str, word: str, known: tuple[str, ...]) -> list[Fault]:
    if isinstance(word, str) and word in known:
        return []
    return [Fault(path=path, found=repr(word), wanted=" or ".join(known))]


def _lies(figure: float | Fraction, low: float) -> bool:
    try:
        return low <= figure <= MOST
    except TypeError:
        return False


def _told(figure: object) -> str:
    return f"{figure:g}" if isinstance(figure, (int, float)) else repr(figure)
