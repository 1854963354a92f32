"""Limits of spans and free ends as whole 1/320 mm between centres, and whether places keep them."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from math import isfinite

from attrs import frozen

from drylay.errors import Fault, InputError
from drylay.marks import MARK_320, exact, is_number, to_mm
from drylay.raised.model import MEASURED, SpanLimit

#: Longer than this is a slip, and so are more lines or posts. Assumption.
LONGEST_MM, MOST_COUNT = 1e6, 200


@frozen(kw_only=True)
class Limits:
    """What holds between supports, centre to centre in 1/320 mm.

    A measured span is `span_less` shorter than that between centres, a measured free end
    `end_less` shorter than that from the centre. `half` is half the support's breadth, `inset` the
    least way from an end to the first centre. `end` is None where the outer supports close the
    frame, `back` None where no share of the span behind limits a free end.
    """

    half: int
    inset: int
    span: int
    span_less: int
    end: int | None
    end_less: int
    back: Fraction | None

    @property
    def end_most(self) -> int:
        """How far an outer support's centre may be from the end, flush with it at the least."""
        return self.half if self.end is None else max(self.end, self.half)


def limits_of(
    span: SpanLimit,
    end: SpanLimit | None,
    *,
    back_ratio: float | None,
    support_mm: float,
    inset_mm: float = 0.0,
) -> Limits:
    """Return limits as between centres of supports `support_mm` broad.

    With no `end` the supports close the frame: what is between them hangs face to face.

    Raises:
        InputError: A limit is no length, or is measured neither clear nor between centres.
    """
    faults = [*_faults("span", span), *([] if end is None else _faults("end", end, least=0.0))]
    faults += length_faults(support_mm=support_mm)
    if not is_number(inset_mm) or not 0.0 <= inset_mm <= LONGEST_MM:
        faults.append(Fault(path="inset_mm", found=repr(inset_mm), wanted="0 mm or more"))
    elif inset_mm and end is None:
        wanted = "nothing: what closes the frame stands at its end"
        faults.append(Fault(path="inset_mm", found=f"{inset_mm:g}", wanted=wanted))
    if back_ratio is not None and not (is_number(back_ratio) and 0.0 <= back_ratio <= 1.0):
        faults.append(Fault(path="back_ratio", found=repr(back_ratio), wanted="0 to 1"))
    if faults:
        raise InputError(tuple(faults))
    whole = exact(support_mm)
    half = -(-whole // 2)
    span_less = whole if end is None or span.measured == "clear" else 0
    end_less = half if end is not None and end.measured == "clear" else 0
    return Limits(
        half=half,
        inset=max(half, exact(inset_mm)),
        span=exact(span.most_mm) + span_less,
        span_less=span_less,
        end=None if end is None else exact(end.most_mm) + end_less,
        end_less=end_less,
        back=None if back_ratio is None or end is None else Fraction(repr(float(back_ratio))),
    )


def _faults(name: str, limit: SpanLimit, least: float = 1.0) -> list[Fault]:
    found = []
    if not is_number(limit.most_mm) or not least <= limit.most_mm <= LONGEST_MM:
        wanted = f"a length of {least:g} mm or more, not over 1 km"
        found.append(Fault(path=f"{name}.most_mm", found=repr(limit.most_mm), wanted=wanted))
    if limit.measured not in MEASURED:
        wanted = " or ".join(MEASURED)
        found.append(Fault(path=f"{name}.measured", found=repr(limit.measured), wanted=wanted))
    return found


def length_faults(**lengths: float) -> list[Fault]:
    """Return a fault for every value that is no length of 1 mm to 1 km."""
    return [
        Fault(path=name, found=repr(value), wanted="a length of 1 mm or more, not over 1 km")
        for name, value in lengths.items()
        if not is_number(value) or not isfinite(value) or not 1.0 <= value <= LONGEST_MM
    ]


def refuse_units(units: str) -> None:
    """Raise an InputError unless units are metric or imperial."""
    if not isinstance(units, str) or units not in MARK_320:
        raise InputError((Fault(path="units", found=repr(units), wanted="metric or imperial"),))


def spans_of(places: Sequence[int], limits: Limits, held: int | None = None) -> list[int]:
    """Return the spans between supports as they are measured; from a held face first."""
    starts = places if held is None else [virtual(held, limits), *places]
    return [after - before - limits.span_less for before, after in pairwise(starts)]


def virtual(held: int, limits: Limits) -> int:
    """Return where a support would stand whose span is measured like that from a held face."""
    return held - (limits.half if limits.span_less else 0)


def ends_of(
    places: Sequence[int], length: int, limits: Limits, held: int | None = None
) -> list[int]:  # fmt: skip
    """Return the free ends as they are measured: one beyond the last, one before the first."""
    far = length - places[-1] - limits.end_less
    return [far] if held is not None else [places[0] - limits.end_less, far]


def end_alone(limits: Limits) -> Fraction:
    """Return the most that a free end may be, as measured, beside a span at its own most."""
    if limits.end is None:
        return Fraction(0)
    end = Fraction(max(limits.end - limits.end_less, 0))
    return end if limits.back is None else min(end, limits.back * (limits.span - limits.span_less))


def shares(
    places: Sequence[int], length: int, limits: Limits, held: int | None = None
) -> list[Fraction]:  # fmt: skip
    """Return each span over its limit and each free end over `end_alone`; none for a flush end."""
    most = limits.span - limits.span_less
    found = [Fraction(span, most) for span in spans_of(places, limits, held)]
    if limits.end is None:
        return found
    alone = end_alone(limits)
    free = [end for end in ends_of(places, length, limits, held) if _reaches(end, limits)]
    return [*found, *(end / alone if alone else Fraction(LARGE) for end in free)]


#: A share that no limit allows, where the limit itself is nothing.
LARGE = 10**6


def _reaches(end: int, limits: Limits) -> bool:
    """Whether a free end, as measured, reaches past its support's outer face."""
    return end + limits.end_less > limits.half


def _backed(
    places: Sequence[int], length: int, limits: Limits, held: int | None = None
) -> bool:  # fmt: skip
    """Whether every free end is within its share of the span behind it."""
    if limits.back is None:
        return True
    spans = spans_of(places, limits, held)
    backs = [spans[-1]] if held is not None else [spans[0], spans[-1]]
    return all(
        not _reaches(end, limits) or end <= limits.back * back
        for end, back in zip(ends_of(places, length, limits, held), backs, strict=True)
    )


def keeps(
    places: Sequence[int], length: int, limits: Limits, held: int | None = None
) -> bool:  # fmt: skip
    """Whether supports keep every limit, stand within the frame and do not touch one another."""
    if length - places[-1] < limits.inset or (held is None and places[0] < limits.inset):
        return False
    if held is not None and places[0] - limits.half < held:
        return False
    if limits.end is None and not _closes(places, length, limits, held):
        return False
    if any(after - before <= 2 * limits.half for before, after in pairwise(places)):
        return False
    if max(shares(places, length, limits, held), default=Fraction(0)) > 1:
        return False
    return _backed(places, length, limits, held)


def _closes(places: Sequence[int], length: int, limits: Limits, held: int | None) -> bool:
    """Whether the outer supports close the frame: flush with its free ends."""
    far = places[-1] == length - limits.half
    return far and (held is not None or places[0] == limits.half)


def ratio_told(share: Fraction) -> float:
    """Return a share as a number, up to the next thousandth."""
    return -(-share.numerator * 1000 // share.denominator) / 1000


def mm(places: Sequence[int]) -> tuple[float, ...]:
    """Return places in mm."""
    return tuple(to_mm(place) for place in places)
