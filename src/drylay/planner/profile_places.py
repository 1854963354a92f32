"""Where profiles stand: past the ends of each line, the first place that is clear of everything."""

import math
from collections.abc import Iterator, Sequence

from attrs import evolve, frozen

from drylay.geometry import Place, shifted
from drylay.planner.profile_site import LINE_CLEAR_MM, Around, Board, near_any

#: A profile's board, and how far from its end a nail keeps. Common practice, no source.
BOARD_MM, NAIL_MM = {"metric": 600.0, "imperial": 609.6}, 50.0
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
#: So far profiles stand apart, stake from stake. Common practice, no source.
PROFILES_APART_MM = 100.0
#: A profile that no other line runs over may stand so much further out. Assumption.
FURTHER_MM = 2000.0


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


@frozen(kw_only=True)
class Stand:
    """What stands already: the boards of profiles, and the lines strung from them."""

    boards: tuple[Board, ...] = ()
    lines: tuple[Board, ...] = ()

    def lets(self, found: Found, peg: Place, *, strict: bool) -> bool:
        """Whether a profile may stand here too; `strict`: its line and others pass no profile."""
        assert found.board is not None
        if near_any(found.board, self.boards, PROFILES_APART_MM):
            return False
        return not strict or not (
            near_any(found.board, self.lines, LINE_CLEAR_MM)
            or near_any((peg, found.at), self.boards, LINE_CLEAR_MM)
        )

    def and_also(self, ends: Sequence[Found]) -> "Stand":
        """Return what stands with the profiles of these ends, and with the line between two."""
        boards = tuple(end.board for end in ends if end.board)
        line = ((ends[0].at, ends[1].at),) if len(ends) > 1 else ()
        return Stand(boards=self.boards + boards, lines=self.lines + line)


@frozen(kw_only=True)
class Strung:
    """A line with where its ends are made fast."""

    line: Wanted
    ends: tuple[Found, Found]

    @property
    def straight(self) -> Board:
        """Return it from end to end."""
        return self.ends[0].at, self.ends[1].at

    def runs_over(self, board: Board) -> bool:
        """Whether it runs over a board, or all but touches it."""
        return near_any(board, [self.straight], LINE_CLEAR_MM)


def strung_over(wanted: Sequence[Wanted], asked: Asked) -> tuple[Strung, ...]:
    """Return every line with where its ends are made fast, in their order.

    Where a line runs over another's profile all are strung once more, each profile clear of where
    the others ran, and the better of both is taken.
    """
    first = _one_round(wanted, asked)
    if not _passes(first):
        return first
    return min(first, _one_round(wanted, asked, first), key=_poor)


def _one_round(
    wanted: Sequence[Wanted], asked: Asked, before: Sequence[Strung] = ()
) -> tuple[Strung, ...]:
    """Return all lines strung one by one, each clear of those after it as they were before."""
    found: list[Strung] = []
    stand = Stand()
    for number, line in enumerate(wanted, start=1):
        here = stand
        for each in before[number:]:
            here = here.and_also(each.ends)
        strung, ends = both_ends(line, asked, here)
        found.append(Strung(line=strung, ends=ends))
        stand = stand.and_also(ends)
    return tuple(found)


def _poor(strung: Sequence[Strung]) -> tuple[int, int, int]:
    """Return how many ends find no place, how many one too near the dig, how many are run over."""
    ends = [end for each in strung for end in each.ends]
    none, short = sum(end.kind == "none" for end in ends), sum(end.short for end in ends)
    return none, short, _passes(strung)


def _passes(strung: Sequence[Strung]) -> int:
    return sum(
        other.runs_over(end.board)
        for each in strung for end in each.ends if end.board
        for other in strung if other is not each
    )  # fmt: skip


def both_ends(line: Wanted, asked: Asked, stand: Stand) -> tuple[Wanted, tuple[Found, Found]]:
    """Return a line and where its ends are made fast.

    It is strung over its pegs where that can be; else so far inside them that both ends find a
    place, as clear of the dig as can be, in whole steps.
    """
    step = INSIDE_MM[asked.units]
    tried = []
    for times in range(INSIDE_STEPS + 1):
        strung = line.inside(times * step) if times else line
        first = _end(strung.start, strung.end, asked, stand)
        ends = (first, _end(strung.end, strung.start, asked, stand.and_also([first])))
        poor = (sum(end.kind == "none" for end in ends), sum(end.short for end in ends))
        tried.append((poor, times, (strung, ends)))
        if poor == (0, 0):
            break
    return min(tried, key=lambda each: each[:2])[2]


def _end(at: Place, other: Place, asked: Asked, stand: Stand) -> Found:
    """Return where a line is made fast past one peg, as seen from its other."""
    way = _way(other, at)
    stopped_mm, what = asked.around.ahead(at, _on(at, way, FAR_MM))
    tries = list(_tries(at, way, min(stopped_mm, FAR_MM), asked.units))
    found = _first(tries, at, asked, asked.clear_mm, stand)
    if what == "house":  # a mark on the wall is as good as a profile too near the dig
        return found or Found(kind="wall", at=_on(at, way, stopped_mm), beyond_mm=stopped_mm)
    less = found or _first(tries[::-1], at, asked, LEAST_CLEAR_MM, stand)
    return less or Found(kind="none", at=at, beyond_mm=0.0)


def _tries(peg: Place, way: Place, most_mm: float, units: str) -> Iterator[Found]:
    """Yield profiles past a peg, the nearer first: its nail in the middle, else near an end."""
    step, long_mm, aside = STEP_MM[units], BOARD_MM[units], (-way[1], way[0])
    for times in range(1, math.floor(most_mm / step) + 1):
        nail = _on(peg, way, times * step)
        for nail_mm in (long_mm / 2, NAIL_MM, long_mm - NAIL_MM):
            yield Found(
                kind="profile", at=nail, beyond_mm=times * step, nail_mm=nail_mm,
                board=(_on(nail, aside, -nail_mm), _on(nail, aside, long_mm - nail_mm)),
            )  # fmt: skip


def _first(
    tries: Sequence[Found], peg: Place, asked: Asked, clear_mm: float, stand: Stand
) -> Found | None:
    """Return the first profile that stands free, past no other line if that can be; else None."""
    loose: Found | None = None
    for each in _free(tries, asked, clear_mm):
        if loose and each.beyond_mm > loose.beyond_mm + FURTHER_MM:
            break
        if stand.lets(each, peg, strict=True):
            return evolve(each, short=clear_mm < asked.clear_mm)
        if loose is None and stand.lets(each, peg, strict=False):
            loose = each
    return evolve(loose, short=clear_mm < asked.clear_mm) if loose else None


def _free(tries: Sequence[Found], asked: Asked, clear_mm: float) -> Iterator[Found]:
    """Yield the profiles that stand free of house, dig and boundaries, in their order."""
    for start in range(0, len(tries), AT_ONCE):
        some = tries[start : start + AT_ONCE]
        free = asked.around.free([each.board for each in some if each.board], clear_mm)
        yield from (each for each, is_free in zip(some, free, strict=True) if is_free)


def _way(start: Place, end: Place) -> Place:
    long = math.dist(start, end)
    return (end[0] - start[0]) / long, (end[1] - start[1]) / long


def _on(at: Place, way: Place, by_mm: float) -> Place:
    return at[0] + way[0] * by_mm, at[1] + way[1] * by_mm
