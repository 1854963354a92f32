"""Where posts stand along a bearer: the fewest within what its section spans under its load."""

from collections.abc import Callable, Sequence

from drylay.errors import Fault, InputError
from drylay.marks import MARK_320, exact
from drylay.raised.bearers import turned_down
from drylay.raised.limits import (
    ends_of,
    length_faults,
    limits_of,
    mm,
    ratio_told,
    refuse_units,
    shares,
    spans_of,
)
from drylay.raised.model import PostPlaces, SpanLimit
from drylay.raised.spread import Length, spread

#: What a bearer spans by the width that it carries: a rule, or rows (width, most) in order.
BearerSpans = Callable[[float], SpanLimit] | Sequence[tuple[float, SpanLimit]]


def span_for(spans: BearerSpans, carried_mm: float) -> SpanLimit:
    """Return what a bearer spans that carries such a width: a rule's answer, or a table's row.

    Of rows the first is taken whose width is not less than that carried: nothing is interpolated,
    and nothing read beyond the last.

    Raises:
        InputError: The table ends below that width.
    """
    if callable(spans):
        return spans(carried_mm)
    for wide_mm, limit in spans:
        if exact(carried_mm) <= exact(wide_mm):
            return limit
    widest = max((wide for wide, _ in spans), default=0.0)
    wanted = f"{widest:g} mm or less, where the table of spans ends"
    raise InputError((Fault(path="carried_mm", found=f"{carried_mm:g}", wanted=wanted),))


def post_places(
    *,
    length_mm: float,
    post_mm: float,
    carried_mm: float,
    spans: BearerSpans,
    end: SpanLimit,
    back_ratio: float | None = None,
    more_posts: int = 0,
    inset_mm: float = 0.0,
    units: str = "metric",
) -> PostPlaces:
    """Return the fewest posts under a bearer `length_mm` long, or some more than those.

    As `bearer_lines` has it: exact, strict, spans and free ends used up alike, mirrored about the
    bearer's middle.

    Args:
        length_mm: The bearer's.
        post_mm: How broad a post is along the bearer.
        carried_mm: The width of deck that the bearer carries.
        spans: The most it spans by that width.
        end: The most it may reach past the outer posts.
        back_ratio: The most a free end may be of the span behind it.
        more_posts: Posts beyond the fewest.
        inset_mm: Outer posts' centres are no nearer to the bearer's end than this.
        units: "metric" or "imperial" pencil marks.

    Raises:
        InputError: A value is no length, the table of spans ends below that width, or no number
            of posts keeps all that is asked.

    Source: arithmetic; the limits' own sources say where they come from.
    """
    refuse_units(units)
    faults = length_faults(length_mm=length_mm, post_mm=post_mm, carried_mm=carried_mm)
    if type(more_posts) is not int or more_posts < 0:
        faults.append(Fault(path="more_posts", found=repr(more_posts), wanted="0 or more posts"))
    if faults:
        raise InputError(tuple(faults))
    span = span_for(spans, carried_mm)
    limits = limits_of(span, end, back_ratio=back_ratio, support_mm=post_mm, inset_mm=inset_mm)
    of = Length(length=exact(length_mm), held=None, mark=MARK_320[units])
    found = spread(of, limits, more=more_posts) if length_mm > 2 * post_mm else None
    if found is None:
        wanted = "a bearer that some number of posts carries within the limits"
        raise InputError((Fault(path="length_mm", found=f"{length_mm:g}", wanted=wanted),))
    return PostPlaces(
        length_mm=length_mm, post_mm=post_mm, span=span, end=end, back_ratio=back_ratio,
        post_count=len(found), places_mm=mm(found), spans_mm=mm(spans_of(found, limits)),
        ends_mm=mm(ends_of(found, of.length, limits)),
        most_ratio=ratio_told(max(shares(found, of.length, limits))),
        turned_down=turned_down(len(found), of, limits, "post"),
    )  # fmt: skip
