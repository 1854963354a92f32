"""String lines over the frame's sides, and the profiles outside the dig that they are strung from.

Asked of a plan when it is built, and no part of it: a plan file holds the pegs and their ties.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from attrs import frozen

from drylay.counting import counted
from drylay.errors import Fault, SettingOutError
from drylay.geometry import Place, stretches
from drylay.marks import exact, is_number, to_mm
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.planner.outlined_work import clear_on
from drylay.planner.profile_places import BOARD_MM, Asked, Found, Strung, Wanted, strung_over
from drylay.planner.profile_site import Around, around_of, dig_rings
from drylay.planner.profile_told import findings_of
from drylay.work.model import LineEnd, PegTie, Profile, Profiles, StringLine
from drylay.work.outlined_setting_out import tie_mm

#: Between dig and profiles, or 2 ft: 600 to 1000 mm is usual. Common practice, no source.
CLEAR_MM = {"metric": 600.0, "imperial": 609.6}
#: What lines are set out from.
SOURCE_LINES = ("house", "datum line")
#: A line is strung so high over the highest ground, where the deck's top allows it. Common
#: practice, no source.
LOW_MM, HIGH_MM = 150.0, 600.0
#: Whole steps over or under the deck's top: 100 mm or 4 in.
LEVEL_STEP_MM = {"metric": 100.0, "imperial": 101.6}
#: Two pegs nearer than this give no direction worth having. Common practice, no source.
DATUM_LEAST_MM = 1000.0
#: What may be asked to lie between dig and profiles.
CLEAR_LEAST_MM, CLEAR_MOST_MM = 100.0, 5000.0

Line = tuple[Place, Place]


@frozen(kw_only=True)
class _Datum:
    what: str
    start: Place
    end: Place
    wall_off_mm: float | None


@counted
def profiles(
    plan: Plan,
    *,
    clear_mm: float | None = None,
    source_line: str | None = None,
    datum: Line | None = None,
    boundaries: Sequence[Line] = (),
) -> Profiles:
    """Return the lines over the frame's sides, and the profiles that they are strung from.

    Every profile stands square to its line past the line's end, the first 50 mm (2 in) at which all
    of its board is clear of the dig by `clear_mm`, and of the house, boundaries, pools and other
    profiles. A line that meets the house first is made fast to a mark on the wall there. Where the
    house or a boundary leaves no room for a board over the pegs, the line is strung inside them, in
    whole 100 mm (4 in). A place with less room than asked for, or with none, is a finding.

    Args:
        plan: A plan with pegs.
        clear_mm: Between dig and profiles, 100 to 5000 mm; 600 mm, or 2 ft, unless told.
        source_line: What places are told from: "house" (the default beside one), which is the line
            strung along it, off the wall at its furthest out; or "datum line".
        datum: Two places of pegs for a datum line, along and across from the datum corner, in mm
            and in the deck's own axes, as the plan's pegs; the line from P1 to P2 unless told.
        boundaries: Straights that no line or profile is to go past, each from place to place.

    Raises:
        SettingOutError: The plan has no pegs, or what is asked for cannot be; lists every fault.
    """
    clear_mm = CLEAR_MM[plan.units] if clear_mm is None else clear_mm
    faults = tuple(_faults(plan, clear_mm, source_line, datum, boundaries))
    if faults:
        raise SettingOutError(faults)
    around = around_of(plan, boundaries)
    strung = _strung(plan, Asked(around=around, clear_mm=clear_mm, units=plan.units))
    datum_line = _datum_of(plan, strung, source_line, datum)
    lines, boards = _told(strung, datum_line, around)
    over, level = _level(plan)
    return Profiles(
        source_line=datum_line.what, datum_start=_spot(datum_line.start),
        datum_end=_spot(datum_line.end), wall_off_mm=datum_line.wall_off_mm, clear_mm=clear_mm,
        board_mm=BOARD_MM[plan.units], lines=lines, profiles=boards, diagonals=_diagonals(plan),
        dig=tuple(tuple(_spot(place) for place in ring) for ring in dig_rings(around)),
        over_top_mm=over, line_level_mm=level,
        string_mm=sum(line.length_mm or 0.0 for line in lines),
        findings=tuple(findings_of(plan, strung, boards, clear_mm, over, _struck(strung, around))),
    )  # fmt: skip


def _faults(
    plan: Plan, clear_mm: float, source_line: str | None, datum: Line | None,
    boundaries: Sequence[Line],
) -> Iterator[Fault]:  # fmt: skip
    if plan.work is None or not plan.work.setting_out.pegs:
        yield Fault(path="plan", found="no pegs", wanted="a plan that nothing stops")
    if not is_number(clear_mm) or not CLEAR_LEAST_MM <= clear_mm <= CLEAR_MOST_MM:
        yield Fault(path="clear_mm", found=f"{clear_mm}",
                    wanted=f"{CLEAR_LEAST_MM:g} to {CLEAR_MOST_MM:g} mm")  # fmt: skip
    if source_line not in (None, *SOURCE_LINES):
        yield Fault(path="source_line", found=f'"{source_line}"',
                    wanted=" or ".join(f'"{each}"' for each in SOURCE_LINES))  # fmt: skip
    if source_line == "house" and not _beside_house(plan):
        yield Fault(path="source_line", found='"house"', nearest='"datum line"',
                    wanted="a deck that its brief tells to stand beside a house")  # fmt: skip
    if datum is not None and source_line == "house":
        yield Fault(path="datum", found="a line", wanted="none where lines are set from the house",
                    nearest='source_line="datum line"')  # fmt: skip
    for path, line in _lines_told(datum, boundaries):
        yield from _line_faults(path, line)


def _lines_told(datum: Line | None, boundaries: Sequence[Line]) -> Iterator[tuple[str, Line]]:
    if datum is not None:
        yield "datum", datum
    for number, line in enumerate(boundaries):
        yield f"boundaries[{number}]", line


def _line_faults(path: str, line: Line) -> Iterator[Fault]:
    numbers = [number for place in line for number in place]
    if len(numbers) != 4 or not all(is_number(n) and math.isfinite(n) for n in numbers):
        yield Fault(path=path, found=f"{line}", wanted="two places, along and across in mm each")
    elif math.dist(*line) < DATUM_LEAST_MM:
        yield Fault(path=path, found=f"two places {math.dist(*line):.1f} mm apart",
                    wanted=f"{DATUM_LEAST_MM:g} mm or more")  # fmt: skip


def _beside_house(plan: Plan) -> bool:
    if plan.outline is not None:
        return any(side.kind == "house" for side in plan.outline.sides)
    return plan.site is not None and plan.site.beside_house


def _strung(plan: Plan, asked: Asked) -> tuple[Strung, ...]:
    """Return every side's line with where its ends are made fast, in the order of the pegs."""
    pegs = plan.work.setting_out.pegs if plan.work else ()
    wanted = [
        Wanted(mark=f"SL{number}", pegs=(one.mark, other.mark),
               start=(one.along_mm, one.across_mm), end=(other.along_mm, other.across_mm))
        for number, (one, other)
        in enumerate(zip(pegs, (*pegs[1:], pegs[0]), strict=True), start=1)
    ]  # fmt: skip
    return strung_over(wanted, asked)


def _datum_of(
    plan: Plan, strung: Sequence[Strung], source_line: str | None, datum: Line | None
) -> _Datum:
    first = strung[0].line
    from_house = source_line == "house" or (
        source_line is None and datum is None and _beside_house(plan)
    )
    if not from_house:
        start, end = datum or (first.start, first.end)
        return _Datum(what="datum line", start=start, end=end, wall_off_mm=None)
    gap_mm = plan.site.wall_gap_mm if plan.site is not None and plan.site.beside_house else 0.0
    return _Datum(what="house", start=first.start, end=first.end,
                  wall_off_mm=to_mm(exact(gap_mm + _inside_mm(plan) + first.off_mm)))  # fmt: skip


def _inside_mm(plan: Plan) -> float:
    """Return how far the pegs P1 and P2 stand inside the cover's edge at the house."""
    if plan.outline is None:
        return plan.work.setting_out.pegs[0].across_mm if plan.work else 0.0
    house = [side for side in plan.outline.sides if side.kind == "house"]
    return max(house, key=lambda side: side.length_mm).facing_mm


def _told(
    strung: Sequence[Strung], datum: _Datum, around: Around
) -> tuple[tuple[StringLine, ...], tuple[Profile, ...]]:
    lines: list[StringLine] = []
    boards: list[Profile] = []
    for each in strung:
        ends = []
        for peg, end in zip(each.line.pegs, each.ends, strict=True):
            if end.board is not None:
                mark = f"PR{len(boards) + 1}"
                boards.append(_profile(mark, each.line.mark, end, around))
            ends.append(_line_end(peg, end, datum, boards[-1].mark if end.board else ""))
        fast = all(end.kind != "none" for end in ends)
        lines.append(StringLine(
            mark=each.line.mark, start_peg=each.line.pegs[0], end_peg=each.line.pegs[1],
            off_mm=each.line.off_mm, start=ends[0], end=ends[1],
            length_mm=tie_mm(each.ends[0].at, each.ends[1].at) if fast else None,
        ))  # fmt: skip
    return tuple(lines), tuple(boards)


def _profile(mark: str, line: str, end: Found, around: Around) -> Profile:
    assert end.board is not None
    return Profile(
        mark=mark, line=line, start=_spot(end.board[0]), end=_spot(end.board[1]),
        nail_mm=end.nail_mm, clear_mm=around.clear_down_mm(end.board),
    )  # fmt: skip


def _line_end(peg: str, end: Found, datum: _Datum, profile: str) -> LineEnd:
    (x1, y1), (x2, y2), (x, y) = datum.start, datum.end, end.at
    long = math.dist(datum.start, datum.end)
    dx, dy = (x2 - x1) / long, (y2 - y1) / long
    return LineEnd(
        kind=end.kind, peg=peg, at=_spot(end.at), beyond_mm=to_mm(exact(end.beyond_mm)),
        datum_along_mm=to_mm(exact((x - x1) * dx + (y - y1) * dy)),
        datum_off_mm=to_mm(exact((y - y1) * dx - (x - x1) * dy)), profile=profile,
    )  # fmt: skip


def _spot(place: Place) -> Spot:
    return Spot(along_mm=to_mm(exact(place[0])), across_mm=to_mm(exact(place[1])))


def _diagonals(plan: Plan) -> tuple[PegTie, ...]:
    """Return every diagonal from peg to peg that can be taped; `check` those that prove a peg."""
    pegs = plan.work.setting_out.pegs if plan.work else ()
    ties = plan.work.setting_out.ties if plan.work else ()
    checks = {frozenset((tie.start, tie.end)) for tie in ties if tie.check}
    at = {peg.mark: (peg.along_mm, peg.across_mm) for peg in pegs}
    marks = list(at)
    sides = {frozenset(pair) for pair in zip(marks, [*marks[1:], marks[0]], strict=True)}
    clear = clear_on(plan.outline) if plan.outline else lambda _one, _other: True
    return tuple(
        PegTie(start=one, end=other, length_mm=tie_mm(at[one], at[other]),
               check=plan.outline is None or frozenset((one, other)) in checks)
        for one, other in combinations(marks, 2)
        if frozenset((one, other)) not in sides and clear(at[one], at[other])
    )  # fmt: skip


def _level(plan: Plan) -> tuple[float | None, float | None]:
    """Return how far over the deck's top lines are strung, and at which level; None unknown.

    At the deck's top where that is 150 to 600 mm over the highest ground under it; else in whole
    steps from it, the lowest that is 150 mm over that ground.
    """
    levels = plan.site.levels if plan.site else None
    if levels is None or levels.ground_most_mm is None:
        return None, None
    step = LEVEL_STEP_MM[plan.units]
    over_ground = levels.deck_top_mm - levels.ground_most_mm
    times = 0
    if not LOW_MM <= over_ground <= HIGH_MM:
        times = math.ceil((LOW_MM - over_ground) / step)
    over = to_mm(exact(times * step))
    return over, to_mm(exact(levels.deck_top_mm + over))


def _struck(strung: Sequence[Strung], around: Around) -> dict[str, list[str]]:
    """Return what stands in the way of each line."""
    return {
        each.line.mark: [
            what for what, area in around.standing
            if stretches(area, each.ends[0].at, each.ends[1].at)
        ]
        for each in strung
    }  # fmt: skip
