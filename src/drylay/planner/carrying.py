"""What carries what of a deck that stands: its joists, bearers and posts as a basis is asked."""

from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from drylay.marks import exact, to_mm
from drylay.planner.job import Job
from drylay.planner.screening import Screen
from drylay.raised.carried import carried_mm, hung_carried_mm
from drylay.strength.model import BeamAsked, Section

#: Longer posts are braced; over 2 ft where no house holds a deck. Common practice; DCA 6, memory.
BRACE_OVER_MM, FREE_BRACE_OVER_MM = 1200.0, 600.0
#: How far a hanger's flange reaches past the joist. Common practice, no source.
FLANGE_MM = 40.0
#: What members themselves weigh, wet treated wood or hardwood. Assumption.
OWN_KN_M3 = 8.0


@frozen(kw_only=True)
class Under:
    """What is to be carried: the frame's size, its joists, the ledger's thickness or None.

    `ground_least_mm` is the lowest ground below the deck, `underside_mm` the joists' level. `hung`:
    joists hang between the bearers, their tops flush; `house_mm` is then how far posts may reach
    past the frame at the house before they meet its wall, None where none is beside a bearer.
    """

    length_mm: float
    depth_mm: float
    ledger_mm: float | None
    joist: Section
    joist_count: int
    centres_mm: float
    underside_mm: float
    ground_least_mm: float
    stand_off_mm: float
    hung: bool = False
    house_mm: float | None = None


def joist_asked(
    under: Under, wood: str, supports_mm: tuple[float, ...], length_mm: float, screen: Screen
) -> BeamAsked:
    """Return a joist as the basis is asked for it."""
    return BeamAsked(
        kind="joist", subject="joists", wood=wood, section=under.joist, length_mm=length_mm,
        supports_mm=supports_mm, carried_mm=under.centres_mm,
        bearing_mm=under.joist.breadth_mm, alike=min(screen.alike_most, under.joist_count),
        held_each_mm=screen.joists_held_mm, sharing=screen.sharing,
        hold_down_kn=screen.hold_down_kn, more_dead_kn_m2=screen.heavier_kn_m2,
    )  # fmt: skip


def bays_mm(under: Under, lines_mm: Sequence[float], broad_mm: float) -> tuple[float, ...]:
    """Return the bays between bearers, face to face, that joists hang in; the ledger's first."""
    broad, half = exact(broad_mm), -(-exact(broad_mm) // 2)
    faces = [(exact(line) - half, exact(line) - half + broad) for line in lines_mm]
    if under.ledger_mm is not None:
        faces.insert(0, (0, exact(under.ledger_mm)))
    return tuple(to_mm(other[0] - one[1]) for one, other in pairwise(faces))


def joist_supports(
    under: Under, lines_mm: tuple[float, ...], broad_mm: float
) -> tuple[tuple[float, ...], float]:
    """Return a joist's supports from its own start, and its length: a ledger's face is one.

    Where joists hang between bearers, so `broad_mm`, it is the longest of their parts, which rests
    at either end.
    """
    if under.hung:
        long_mm = max(bays_mm(under, lines_mm, broad_mm))
        return (0.0, long_mm), long_mm
    held = under.ledger_mm
    if held is None:
        return lines_mm, under.depth_mm
    at = (0.0, *(to_mm(exact(line) - exact(held)) for line in lines_mm))
    return at, to_mm(exact(under.depth_mm) - exact(held))


def on_ledger_mm(under: Under, lines_mm: tuple[float, ...], broad_mm: float) -> float:
    """Return how far joists span from the ledger that they hang on."""
    if under.hung:
        return bays_mm(under, lines_mm, broad_mm)[0]
    supports, _ = joist_supports(under, lines_mm, broad_mm)
    return to_mm(exact(supports[1]) - exact(supports[0]))


def loads_mm(under: Under, lines_mm: tuple[float, ...], broad_mm: float) -> tuple[float, ...]:
    """Return the width of deck that each bearer carries."""
    if under.hung:
        return hung_carried_mm(lines_mm=lines_mm, bearer_mm=broad_mm, ledger_mm=under.ledger_mm)
    supports, length_mm = joist_supports(under, lines_mm, broad_mm)
    shares = carried_mm(length_mm=length_mm, supports_mm=supports, sharing="levered")
    return shares[len(supports) - len(lines_mm) :]


def joist_bearing_mm(under: Under, broad_mm: float) -> float:
    """Return on how much a joist bears: a bearer's breadth, or the seat of its hanger.

    Nobody tells how long that is: taken as long as the joist is thick. Assumption.
    """
    return under.joist.breadth_mm if under.hung else broad_mm


def broad_of(section: Section) -> float:
    """Return how broad a bearer is, all its plies together."""
    return to_mm(exact(section.breadth_mm) * section.plies)


def bearer_top_mm(under: Under) -> float:
    """Return the level of bearers' tops: the joists' underside, or flush with their tops."""
    return under.underside_mm + (under.joist.depth_mm if under.hung else 0.0)


def more_kn_m2(screen: Screen, under: Under) -> float:
    """Return what lies on a bearer besides what its basis takes: joists, and a heavier cover."""
    joists = OWN_KN_M3 * under.joist.breadth_mm * under.joist.depth_mm / under.centres_mm / 1000
    return screen.heavier_kn_m2 + (joists if screen.loads.own_weight_apart else 0.0)


def post_loads_kn(
    screen: Screen, under: Under, bearer: Section, area_m2: float, along_mm: float
) -> tuple[float, float]:
    """Return what comes down on a post for good and besides: its area, and its length of bearer."""
    dead = (screen.loads.dead_kn_m2 + more_kn_m2(screen, under)) * area_m2
    if screen.loads.own_weight_apart:
        beam = bearer.breadth_mm * bearer.plies * bearer.depth_mm / 1e6
        dead += OWN_KN_M3 * beam * along_mm / 1000
    return dead, screen.loads.imposed_kn_m2 * area_m2


def shares_mm(screen: Screen, length_mm: float, posts_mm: tuple[float, ...]) -> tuple[float, ...]:
    """Return what length of a bearer each of its posts carries, as the basis's tables have it."""
    sharing = "halved" if screen.basis.halved else "levered"
    return carried_mm(length_mm=length_mm, supports_mm=posts_mm, sharing=sharing)


def brace_over_mm(job: Job, *, held: bool) -> float:
    """Return how long posts may be that stand without braces, where a ledger holds them or not."""
    wished = job.brief.raised.brace_over_mm
    usual = BRACE_OVER_MM if held else FREE_BRACE_OVER_MM
    return usual if wished is None else wished


def head_held(length_mm: float, *, held: bool, braced: bool) -> bool:
    """Return whether a post's head is held sideways: by a ledger, by braces, or since it is low."""
    return held or braced or length_mm <= FREE_BRACE_OVER_MM
