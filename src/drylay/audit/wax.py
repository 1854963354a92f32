"""End-grain wax: the boards' sawn ends counted again, their area, and the ml that it takes."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from drylay.audit.coats import COATS, same_area, sawn_ends, section_m2, waxed_kinds
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import need, same_count, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.fixings.model import EndWax
from drylay.plan.model import Plan

AT = "fixings.wax"


def wax_of(plan: Plan) -> EndWax:
    """Return the plan's end wax, if it has any."""
    return need(fixings_of(plan).wax, "end wax")


def _areas(plan: Plan) -> dict[str, tuple[int, Fraction]]:
    """Return ends and area of each kind of board end that is sawn, in order."""
    ends = sawn_ends(plan)
    kinds = [kind for kind in waxed_kinds(plan) if ends[kind]]
    return {kind: (ends[kind], ends[kind] * section_m2(plan, kind)) for kind in kinds}


def wax_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the wax is for all sawn ends of boards, and for no others."""
    wax, areas = wax_of(plan), _areas(plan)
    told, wanted = ", ".join(part.what for part in wax.parts), ", ".join(areas)
    yield from same_text(f"{AT}.parts", "not the boards' sawn ends", told, wanted, COATS)
    for index, part in enumerate(wax.parts):
        ends, area = areas.get(part.what, (0, Fraction(0)))
        subject = f"{AT}.parts[{index}]"
        yield from same_count(f"{subject}.ends", "not the ends sawn", part.ends, ends, COATS)
        yield from same_area(f"{subject}.area_m2", "not ends by section", part.area_m2, area)
    count = sum(ends for ends, _ in areas.values())
    yield from same_count(f"{AT}.ends", "not all ends sawn", wax.ends, count, COATS)


def wax_is_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the wax covers its ends once, to the ml."""
    wax = wax_of(plan)
    area = sum((area for _, area in _areas(plan).values()), Fraction(0))
    yield from same_area(f"{AT}.area_m2", "not all ends of boards", wax.area_m2, area)
    covers = need(wax.covers_m2_per_l if wax.covers_m2_per_l > 0 else None, "area a litre covers")
    wanted = ceil(1000 * area / Fraction(repr(covers)))
    message = "not the area over what a litre covers, rounded up"
    yield from same_count(f"{AT}.need_ml", message, wax.need_ml, wanted, COATS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-659", "end wax is counted from the boards' sawn ends", wax_counted),
    ("AUD-660", "the end wax is enough", wax_is_enough),
)
