"""Where profiles stand: past the ends of each line, the first place that is clear of everything."""

import math
from collections.abc import Iterator, Sequence

from attrs import evolve, frozen

from drylay.geometry import Place, shifted
from drylay.planner.profile_site import Around, Board, near_another

#: A profile's board, and how far from its end a nail keeps. Common practice, no source.
BOARD_MM, NAIL_MM = 600.0, 50.0
#: Whole steps that a tape sets without a doubt: 50 mm and 100 mm, or 2 in and 4 in.
STEP_MM = {"metric": 50.0, "imperial": 50.8}
INSIDE_MM = {"metric": 100.0, "imperial": 101.6}
#: Up to so many steps inside its pegs a line is strung.
INSIDE_STEPS = 5
#: No profile stands further past a peg. Assumption.
FAR_MM = 10_000.0
#: So near the dig a profile may stand where there is no room for more. Common practice, no source.
LEAST_CLEAR_MM = 100.0
#: So many places are looked at together.
AT_ONCE = 60


@frozen(kw_only=True)
class Wanted:
    """A line that is wanted over a side of the frame, from peg to peg."""

    mark: str
    pegs: tuple[str, str]
    start: Place
    end: Place
    off_mm: float = 0.0

    def inside(self, by_mm: float) -> "Wanted":
        """Return the line strung so far inside its pegs."""
        start, end = shifted(self.start, self.end, by_mm)
        return evolve(self, start=start, end=end, off_mm=by_mm)


@frozen(kw_only=True)
class Found:
    """Where an end is made fast: so far past its peg; the board of a profile, and its nail.

    `short` where it stands nearer to the dig than was asked for.
    """

    kind: str
    at: Place
    beyond_mm: float
    board: Board | None = None
    nail_mm: float = 0.0
    short: bool = False


@frozen(kw_only=True)
class Asked:
    """What stands about, how far from the dig profiles are wanted, in which units steps are."""

    around: Around
    clear_mm: float
    units: str


def both_ends(
    line: Wanted, asked: Asked, others: Sequence[Board]
) -> tuple[Wanted, tuple[Found, Found]]:
    """Return a line and where its ends are made fast.

    It is strung over its pegs where that can be; else so far inside them that both ends find a
    place, as clear of the dig as can be, in whole steps.
    """
    step = INSIDE_MM[asked.units]
    tried = []
    for times in range(INSIDE_STEPS + 1):
        strung = line.inside(times * step) if times else line
        first = _end(strung.start, strung.end, asked, others)
        boards = [*others, *([first.board] if first.board else [])]
        ends = (first, _end(strung.end, strung.start, asked, boards))
        poor = (sum(end.kind == "none" for end in ends), sum(end.short for end in ends))
        tried.append((poor, times, (strung, ends)))
        if poor == (0, 0):
            break
    return min(tried, key=lambda each: each[:2])[2]


def _end(at: Place, other: Place, asked: Asked, others: Sequence[Board]) -> Found:
    """Return where a line is made fast past one peg, as seen from its other."""
    way = _way(other, at)
    stopped_mm, what = asked.around.ahead(at, _on(at, way, FAR_MM))
    tries = list(_tries(at, way, min(stopped_mm, FAR_MM), asked.units))
    found = _first(tries, asked, asked.clear_mm, others)
    if what == "house":  # a mark on the wall is as good as a profile too near the dig
        return found or Found(kind="wall", at=_on(at, way, stopped_mm), beyond_mm=stopped_mm)
    less = found or _first(tries[::-1], asked, LEAST_CLEAR_MM, others)
    return less or Found(kind="none", at=at, beyond_mm=0.0)


def _tries(peg: Place, way: Place, most_mm: float, units: str) -> Iterator[Found]:
    """Yield profiles past a peg, the nearer first: its nail in the middle, else near an end."""
    step, aside = STEP_MM[units], (-way[1], way[0])
    for times in range(1, math.floor(most_mm / step) + 1):
        nail = _on(peg, way, times * step)
        for nail_mm in (BOARD_MM / 2, NAIL_MM, BOARD_MM - NAIL_MM):
            yield Found(
                kind="profile", at=nail, beyond_mm=times * step, nail_mm=nail_mm,
                board=(_on(nail, aside, -nail_mm), _on(nail, aside, BOARD_MM - nail_mm)),
            )  # fmt: skip


def _first(
    tries: Sequence[Found], asked: Asked, clear_mm: float, others: Sequence[Board]
) -> Found | None:
    """Return the first profile that stands free; None if none does."""
    for start in range(0, len(tries), AT_ONCE):
        some = tries[start : start + AT_ONCE]
        free = asked.around.free([each.board for each in some if each.board], clear_mm)
        for each, is_free in zip(some, free, strict=True):
            if is_free and each.board and not near_another(each.board, others):
                return evolve(each, short=clear_mm < asked.clear_mm)
    return None


def _way(start: Place, end: Place) -> Place:
    long = math.dist(start, end)
    return (end[0] - start[0]) / long, (end[1] - start[1]) / long


def _on(at: Place, way: Place, by_mm: float) -> Place:
    return at[0] + way[0] * by_mm, at[1] + way[1] * by_mm
