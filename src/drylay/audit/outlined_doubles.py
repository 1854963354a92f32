"""Doubles of a frame under an outline: screwed into one timber, and by which screws."""

from collections.abc import Iterator

from attrs import frozen

from drylay.audit.exact import PER_MM, Fraction, ceil_div, ticks
from drylay.audit.fixings import fixings_of, pilot
from drylay.audit.flaws import NothingToMeasure, need, off_by, same_count, same_length
from drylay.audit.model import ClosedCheck, Flaw, Witness
from drylay.audit.outlined import SLACK, fault, outlines, place, shape, subframe_of
from drylay.audit.plane import UNIT, run_of, size
from drylay.audit.shops import stock_of
from drylay.findings import Finding
from drylay.fixings.model import DoubledStretch, DoubleScrews
from drylay.plan.model import Plan
from drylay.subframe.model import Member

DOUBLES = outlines("Fixings on an outline: doubles")
PATH = "fixings.double_screws"
#: By the conventions: screws near either end, how far apart others stand at most, how far off top
#: and foot, and in shanks how far off an end and how deep in the second timber; the thinnest.
PER_END, APART, EDGE = 2, 300 * PER_MM, 38 * PER_MM
END_SHANKS, POINT_SHANKS, SHANK = 10, 6, 5 * PER_MM
SCREWED_TO = {"joist", "pair", "trimmer"}
LADEN = {"joist", "pair"}


@frozen
class Wanted:
    """Two members that are to be one timber, and along how much they touch, in 1/320 mm."""

    member: str
    to: str
    long: Fraction


def wanted_of(plan: Plan) -> list[Wanted]:
    """Return what is to be screwed to what: doubles, and pairs that stand in for one."""
    members = subframe_of(plan).members
    doubles = [each for each in members if each.kind == "double"]
    found = [
        Wanted(double.mark, other.mark, long)
        for double in doubles
        for other in members
        if other.kind in SCREWED_TO and (long := touching(double, other)) > 0
    ]
    bearers = {mark for double in doubles for mark in (double.start_on, double.end_on)}
    bearers -= {each.to for each in found}
    for index, member in enumerate(members):
        if member.mark in bearers and member.kind in LADEN:
            for at, other in enumerate(members):
                twice = at < index and other.mark in bearers  # the two were met the other way round
                if at != index and other.kind in LADEN and not twice:
                    long = touching(member, other)
                    found += [Wanted(member.mark, other.mark, long)] if long > 0 else []
    return found


def touching(one: Member, other: Member) -> Fraction:
    """Return along how much two members touch face to face, each at its full thickness."""
    one, other = sorted((one, other), key=lambda each: -each.length_mm)
    run = run_of(place(one.start), place(one.end))
    way = run_of(place(other.start), place(other.end))
    if run is None or way is None or abs(run.cos * way.sin - run.sin * way.cos) > UNIT**2 // 1000:
        return Fraction(0)
    told = [run.all_told(shape(each.corners)) for each in (one, other)]
    (a, b), (c, d) = (sorted(v for _, v in each)[:: len(each) - 1] for each in told)
    if min(size(b - c), size(d - a)) > SLACK * UNIT:
        return Fraction(0)
    starts, ends = zip(*(sorted(u for u, _ in each)[1:-1] for each in told), strict=True)
    return max(Fraction(0), Fraction(min(ends) - max(starts)) / UNIT)


def doubles_are_screwed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each double that is not screwed to its neighbours and not cautioned."""
    wanted, screws = wanted_of(plan), fixings_of(plan).double_screws
    told = [finding for finding in plan.findings if finding.code == "SUB-015"]
    if not wanted and screws is None and not told:
        raise NothingToMeasure("nothing is doubled")
    held = {(each.member, each.to): each for each in (screws.stretches if screws else ())}
    reach = 2 * END_SHANKS * ticks(screws.shank_mm) if screws else 0
    if screws is not None and len(held) < len(screws.stretches):
        yield fault(f"{PATH}.stretches", "one of them stands twice", DOUBLES)
    for each in wanted:
        stretch = held.pop((each.member, each.to), None)
        if stretch is not None:
            found = ticks(stretch.length_mm)
            if abs(found - each.long) > SLACK:
                message = f"not along how much it touches {each.to}"
                yield off_by(each.member, message, found, float(each.long), DOUBLES)
        elif screws is not None and each.long >= reach + SLACK:
            yield fault(each.member, f"it is not screwed to {each.to}", DOUBLES)
    for member, to in held:
        yield fault(member, f"it is screwed to {to}, and is not its double", DOUBLES)
    yield from _told(wanted, screws, told)


def _told(wanted: list[Wanted], screws: DoubleScrews | None, told: list[Finding]) -> Iterator[Flaw]:
    """Yield a flaw unless the caution names what no screw of the order holds, and how much."""
    held = {each.member for each in screws.stretches} if screws else set()
    loose = [each for each in wanted if each.member not in held]
    named = {mark for finding in told for mark in finding.subject.split(", ")}
    for mark in sorted(named ^ {each.member for each in loose}):
        yield fault(mark, "its screws and the caution on loose doubles (SUB-015) differ", DOUBLES)
    long = sum((each.long for each in loose), Fraction(0))
    for finding in told:
        if abs(ticks(finding.measured or 0.0) - long) > SLACK * max(1, len(loose)):
            message = "not along how much its members touch"
            yield off_by("SUB-015", message, ticks(finding.measured or 0.0), float(long), DOUBLES)


def double_screws_fit(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless screws of doubles hold both timbers, and stand where they are told to."""
    screws, frame = need(fixings_of(plan).double_screws, "screws of doubles"), subframe_of(plan)
    shank, thick = ticks(screws.shank_mm), ticks(frame.timber_thickness_mm)
    length, least, most = ticks(screws.length_mm), thick + POINT_SHANKS * shank, 2 * thick
    edge = min(EDGE, ticks(frame.timber_depth_mm) // 4)
    for name, wanted in (
        ("length_least_mm", least), ("length_most_mm", most), ("spacing_most_mm", APART),
        ("end_least_mm", END_SHANKS * shank), ("edge_mm", edge),
    ):  # fmt: skip
        message = "not what the conventions give"
        yield from same_length(f"{PATH}.{name}", message, getattr(screws, name), wanted, DOUBLES)
    yield from same_count(f"{PATH}.per_end", "not two", screws.per_end, PER_END, DOUBLES)
    if not least <= length <= most:
        message = "it reaches too little into the second timber, or stands out behind"
        yield off_by(f"{PATH}.length_mm", message, length, least, DOUBLES)
    if shank < SHANK:
        yield off_by(f"{PATH}.shank_mm", "it is too thin", shank, SHANK, DOUBLES)
    for index, stretch in enumerate(screws.stretches):
        yield from _counted(f"{PATH}.stretches[{index}]", stretch, END_SHANKS * shank)
    message, count = "not those of all stretches", sum(each.count for each in screws.stretches)
    yield from same_count(f"{PATH}.count", message, screws.count, count, DOUBLES)
    yield from pilot("double_screws", screws)


def _counted(path: str, stretch: DoubledStretch, end: int) -> Iterator[Flaw]:
    """Yield a flaw unless a stretch has two at either end, and the fewest evenly between."""
    free = ticks(stretch.length_mm) - 2 * end
    if free < 0:
        yield off_by(path, "no room for two places off its ends", free, 0, DOUBLES)
        return
    steps = max(1, ceil_div(free, APART))
    message = "not the fewest within the spacing"
    yield from same_count(f"{path}.between", message, stretch.between, steps - 1, DOUBLES)
    message = "not even between the first and the last"
    yield from same_length(f"{path}.apart_mm", message, stretch.apart_mm, free // steps, DOUBLES)
    message, count = "not two near either end and those between", 2 * PER_END + steps - 1
    yield from same_count(f"{path}.count", message, stretch.count, count, DOUBLES)


def double_screws_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the screw is the brief's frame screw if it fits, else the longest."""
    frame, screws = subframe_of(plan), fixings_of(plan).double_screws
    if not wanted_of(plan):
        raise NothingToMeasure("nothing is doubled")
    brief, thick = need(witness.brief, "brief as witness"), ticks(frame.timber_thickness_mm)
    metals = {row.metal for row in fixings_of(plan).metals if row.driven_into == "frame"}
    fit = {
        each.code: ticks(each.length_mm) for each in stock_of(witness).screws
        if ticks(each.shank_mm) >= SHANK and each.metal in metals
        and thick + POINT_SHANKS * ticks(each.shank_mm) <= ticks(each.length_mm) <= 2 * thick
    }  # fmt: skip
    named, found = brief.fixings.frame_screw, screws.article if screws else ""
    if named in fit and found != named:
        yield fault(f"{PATH}.article", f"{named} would do, which the brief names", DOUBLES)
    elif named not in fit and max(fit.values(), default=0) > ticks(
        screws.length_mm if screws else 0.0
    ):
        yield fault(f"{PATH}.article", "a longer one on sale would do", DOUBLES)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-983", "doubles are screwed to their neighbours, or cautioned", doubles_are_screwed),
    ("AUD-984", "screws of doubles hold both timbers, evenly", double_screws_fit),
)
