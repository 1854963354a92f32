"""Campaign: step points held against brute force over every millimetre.

    python tests/campaigns/step_points.py --designs 20 --seed 1
    python tests/campaigns/step_points.py --counts 200 --seed 1

With `--designs` every deck is designed in full, audit and all, at every millimetre within 40 mm of
its size, each way along both axes: 160 designs a deck beside its own. The steps are then worked out
again here, from the plans' own measures, and held against those told: none may be missed, none told
that is not there, and every saving is that of the two orders. With `--counts` rows, rips, joists,
noggins and rows to be jointed are counted at every millimetre within 200 mm (every sixteenth of an
inch in imperial briefs) by sums of this file's own, rows by `drylay.fit_rows`, and held against the
points found by dry counts.

Decks are drawn by seed: random softwood, and every third of hardwood, composite with clips or
insertboard; with `--standing` all of them stand on posts, which takes ten times as long. Prints
one line for each deck, and in the end what was missed and what falsely told; exit code 1 if
anything was.
"""

import argparse
import sys
import time
from math import ceil, floor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from attrs import evolve

import drylay
from campaigns.standing import sections_of, stock_of
from drylay.brief.model import Brief
from drylay.compare.parts import saw_cuts
from drylay.compare.step_far import dry_walk, far_points
from drylay.compare.step_points import what_would_change
from drylay.compare.step_sweep import Looker
from drylay.errors import BriefError
from drylay.materials.stock_model import Catalogue
from drylay.planner.dry_counts import not_counted
from drylay.planner.glance import Glances, jobs_asked
from drylay.plugins.guard import asked_once
from drylay.plugins.loading import installed_local_rules
from some_decks import some_case
from some_five import sold, some_five

FAMILIES = drylay.installed_families()
AXES = ("along_mm", "across_mm")
#: How far sizes lie apart: whole millimetres, or sixteenths of an inch.
APART_MM = {"metric": 1.0, "imperial": 25.4 / 16}
#: Kinds of `some_five` that are boards: hardwood, solid and hollow composite, insertboard.
BOARDS = 5
Steps = set[tuple[str, float, str, tuple[str, ...], tuple[str, ...]]]


def drawn(seed: int, most_mm: int, standing: bool = False) -> tuple[str, Brief, Catalogue]:
    """A deck for a seed: what it is, its brief and its stock."""
    if standing:
        sections = sections_of(seed)
        return "on posts", drylay.read_brief(sections), stock_of(sections)
    if seed % 3 == 0:
        number = 7 * seed + seed // 3 % BOARDS
        return "of five", some_five(number, most_mm=most_mm), sold()
    brief, stock = some_case(seed, most_mm=most_mm)
    return "softwood", brief, stock


def sized(brief: Brief, axis: str, more_mm: float) -> Brief:
    return brief.replace(f"cover.{axis}", _exact(getattr(brief.cover, axis) + more_mm))


def _exact(length_mm: float) -> float:
    """A length as plans count it, in whole parts of 1/320 mm: 447.3 less 1 is 446.3."""
    return round(length_mm * 320) / 320


# --- by full design -------------------------------------------------------------------------


def told_of(brief: Brief, stock: Catalogue) -> dict[str, object]:
    """What a full design comes to, by the words that steps are told in."""
    try:
        plan = drylay.design(brief, stock=stock, families=FAMILIES)
    except BriefError:
        return {"blocked": True}
    if not plan.buildable:
        return {"blocked": True}
    row = plan.measures()
    bought = {part.what: len(part.lengths) for part in plan.buying.purchases}
    boards = sum(count for what, count in bought.items() if "boards" in what)
    told = {
        "order": row["total"],
        "row": row["rows"],
        "joist line": row["joists"],
        "noggin": row["noggins"],
        "joint": row["joints"],
        "rip": row["ripped_rows"],
        "footing": row["footing_count"],
        "tile": row["tiles_needed"],
        "board": boards,
        "timber": sum(bought.values()) - boards - bought.get("fabric", 0),
        "cut": saw_cuts(plan),
        "permission": sum(f.code == "RGN-001" and f.severity.value == "caution"
                          for f in plan.findings),
        "guard": len(plan.guards.runs) if plan.guards else None,
    }  # fmt: skip
    return {word: amount for word, amount in told.items() if amount is not None}


def steps_by_hand(path: str, here_mm: float, told: dict[int, dict[str, object]]) -> Steps:
    """The steps of one axis out of every plan, by plain comparison with all that are nearer."""
    found: Steps = set()
    for way in (1, -1):
        reach = [way * more for more in range(max(abs(each) for each in told) + 1)]
        reach = [more for more in reach if more in told]
        nearer = [told[0]]
        for more in reach[1:]:
            now = told[more]
            at_mm = _exact(here_mm + more)
            if "blocked" in told[0]:
                if "blocked" not in now and all("blocked" in each for each in nearer):
                    found.add((path, at_mm, "unblocks", (), ()))
            elif "blocked" in now:
                if "blocked" not in nearer[-1]:
                    found.add((path, at_mm, "blocks", (), ()))
            else:
                fewer, more_of = _unlike(now, [each for each in nearer if "blocked" not in each])
                if fewer or more_of:
                    kind = "saves" if fewer else "adds"
                    found.add((path, at_mm, kind, fewer, more_of))
            nearer.append(now)
    return found


def _unlike(now: dict, nearer: list[dict]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What there is less of than at all nearer sizes; what there is more of for the first time."""
    here = nearer[0]
    fewer = [w for w in now if w in here and all(now[w] < each[w] for each in nearer if w in each)]
    more = [w for w in now if w in here and now[w] > here[w]
            and all(each[w] <= here[w] for each in nearer if w in each)]  # fmt: skip
    return tuple(sorted(fewer)), tuple(sorted(more))


def designs(seed: int, within: int, most_mm: int, standing: bool) -> tuple[str, int, int]:
    """What came of one deck: a line to print, steps missed and steps falsely told."""
    name, brief, stock = drawn(seed, most_mm, standing)
    brief = brief if brief.units == "metric" else evolve(brief, units="metric")
    wanted: Steps = set()
    orders: dict[tuple[str, float], dict[str, object]] = {}
    began = time.perf_counter()
    here = told_of(brief, stock)
    for axis in AXES:
        told = {0: here}
        for more in range(-within, within + 1):
            if more and getattr(brief.cover, axis) + more > 0:
                told[more] = _at(brief, axis, more, stock)
                orders[f"cover.{axis}", _exact(getattr(brief.cover, axis) + more)] = told[more]
        wanted |= steps_by_hand(f"cover.{axis}", getattr(brief.cover, axis), told)
    brute_s, began = time.perf_counter() - began, time.perf_counter()
    paths = [f"cover.{axis}" for axis in AXES]
    points = what_would_change(brief, stock=stock, families=FAMILIES, within_mm=within,
                               counts_within_mm=within, paths=paths)  # fmt: skip
    found_s = time.perf_counter() - began
    found = {(s.path, s.to_mm, s.effect.kind, tuple(sorted(s.effect.fewer)),
              tuple(sorted(s.effect.more))) for s in points.steps}  # fmt: skip
    wrong = [s for s in points.steps if not _same_money(s, here, orders[s.path, s.to_mm])]
    for each in sorted(wanted - found):
        print(f"  missed {each}")
    for each in (*sorted(found - wanted), *wrong):
        print(f"  falsely told {each}")
    line = (f"seed {seed} {name}: {len(wanted)} steps{' (blocked)' if 'blocked' in here else ''}, "
            f"every design {brute_s:.0f} s, step points {found_s:.0f} s")  # fmt: skip
    return line, len(wanted - found), len(found - wanted) + len(wrong)


def _at(brief: Brief, axis: str, more: int, stock: Catalogue) -> dict[str, object]:
    try:
        return told_of(sized(brief, axis, more), stock)
    except BriefError:
        return {"blocked": True}


def _same_money(step: object, here: dict, there: dict) -> bool:
    if "blocked" in here or "blocked" in there:
        return step.effect.saving is None
    return step.effect.saving == here["order"] - there["order"]


# --- by counts ------------------------------------------------------------------------------


def counts_by_hand(brief: Brief, look: Glances) -> dict[str, int] | None:
    """Counts of the first way out by sums of this file's own; None where nothing fills it."""
    job, *_ = jobs_asked(look, brief)
    rules, cover, along = job.rules, brief.cover, brief.board.run == "along"
    length, depth = ((cover.along_mm, cover.across_mm) if along
                     else (cover.across_mm, cover.along_mm))  # fmt: skip
    way = _first_way(brief, job, depth, along)
    if way is None:
        return None
    depth += way.cover_change_mm
    thick = job.articles.timber.thickness_mm
    faced = job.articles.fascia.thickness_mm if job.articles.fascia else 0.0
    ends, edges = (("left", "right"), ("house", "front")) if along else (
        ("house", "front"), ("left", "right"))  # fmt: skip
    frame = length - faced * sum(side in brief.fascia.sides for side in ends)
    inside = depth - faced * sum(side in brief.fascia.sides for side in edges) - 2 * thick
    if min(frame, inside + 2 * thick) < 3 * thick:
        return None
    # exact in 1/320 mm: a bay of just the limit is within it
    joists = max(1, ceil(round((frame - thick) * 320) / round(
        rules.value("supports.most_centres_mm") * 320))) + 1  # fmt: skip
    spacing = rules.value("frame.noggin_spacing_most_mm")
    noggins = max(0, ceil(round(inside * 320) / round(spacing * 320)) - 1) * (joists - 1)
    longest = max(e.length_mm for e in job.articles.board.lengths if e.limit != 0)
    whole = length <= longest - 2 * brief.cutting.end_trim_mm
    rips = sum(width < way_board(brief, job) for width in _outer(way))
    return {"row": way.rows, "rip": rips, "joint": 0 if whole else way.rows,
            "joist line": joists, "noggin": noggins}  # fmt: skip


def way_board(brief: Brief, job: object) -> float:
    return brief.board.measured_width_mm or job.articles.board.width_mm


def _outer(way: object) -> tuple[float, ...]:
    return (way.first_row_mm,) if way.rows == 1 else (way.first_row_mm, way.last_row_mm)


def _first_way(brief: Brief, job: object, depth: float, along: bool) -> object | None:
    """The honest way out that the brief asks for first; within a kind as conventions.md has it."""
    rules, cover = job.rules, brief.cover
    least, preferred, most = (rules.value(f"surface.gap_{w}_mm")
                              for w in ("least", "preferred", "most"))  # fmt: skip
    board = job.articles.board
    fit = drylay.fit_rows(
        depth_mm=depth, board_mm=way_board(brief, job), gap_mm=(least, preferred, most),
        grow_mm=cover.grow_across_mm if along else cover.grow_along_mm,
        shrink_mm=cover.shrink_across_mm if along else cover.shrink_along_mm,
        sliver_mm=rules.value("surface.sliver_limit_mm"),
        least_rip_mm=rules.value("surface.least_rip_mm"),
        may_rip=brief.rows.may_rip and bool(rules.value("surface.may_rip"))
        and not (board.hollow or board.groove_mm),
        kerf_mm=brief.cutting.kerf_mm, units=brief.units,
    )  # fmt: skip
    wanted = brief.rows.prefer
    honest = [way for way in fit.ways_out if way.honest and way.kind in wanted]
    return min(honest, default=None, key=lambda way: (
        wanted.index(way.kind), abs(way.gap_mm - preferred) if way.rows > 1 else 0.0,
        abs(way.cover_change_mm), way.rows))  # fmt: skip


def counted(seed: int, within: int, most_mm: int, _: bool = False) -> tuple[str, int, int] | None:
    """What came of one deck's counts; None where nothing of it is counted dry."""
    name, brief, stock = drawn(seed, most_mm)
    brief = evolve(brief, board=evolve(brief.board, may_turn=False))
    look = Glances(stock=stock, families=asked_once(FAMILIES), local_rules=installed_local_rules())
    if brief.border.article or not_counted(look, brief):
        return None
    began, missed, false, steps = time.perf_counter(), 0, 0, 0
    for axis in AXES:
        here_mm = getattr(brief.cover, axis)
        walked = dry_walk(Looker(brief=brief, glances=look), f"cover.{axis}", here_mm, within)
        found = {(walked.values_mm[p.at], tuple(sorted(p.fewer))) for p in far_points(walked)}
        wanted = lows_by_hand(brief, look, axis, within)
        steps += len(wanted)
        missed, false = missed + len(wanted - found), false + len(found - wanted)
        if wanted != found:
            print(f"  seed {seed} {axis}: missed {wanted - found}, falsely {found - wanted}")
    took = time.perf_counter() - began
    return f"seed {seed} {name}: {steps} steps by counts, {took:.0f} s", missed, false


def lows_by_hand(brief: Brief, look: Glances, axis: str, within: int) -> set:
    """Where there is less of something than at every size nearer, each millimetre counted."""
    found, here_mm = set(), getattr(brief.cover, axis)
    start = counts_by_hand(brief, look)
    for way in (1, -1) if start is not None else ():
        nearer = [start]
        for more in range(1, floor(within / APART_MM[brief.units]) + 1):
            value_mm = _exact(here_mm + way * more * APART_MM[brief.units])
            if value_mm <= 0:
                break
            cover = evolve(brief.cover, **{axis: value_mm})
            now = counts_by_hand(evolve(brief, cover=cover), look)
            if now is None:
                continue
            fewer = [word for word in now if all(now[word] < each[word] for each in nearer)]
            if fewer:
                found.add((value_mm, tuple(sorted(fewer))))
            nearer.append(now)
    return found


def main() -> int:
    asked = argparse.ArgumentParser()
    asked.add_argument("--designs", type=int, default=0)
    asked.add_argument("--counts", type=int, default=0)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--within", type=int, default=0)
    asked.add_argument("--most-mm", type=int, default=4_500)
    asked.add_argument("--standing", action="store_true")
    given = asked.parse_args()
    count, look_at, within = ((given.designs, designs, given.within or 40) if given.designs
                              else (given.counts, counted, given.within or 200))  # fmt: skip
    done = missed = false = 0
    seed, began = given.seed, time.perf_counter()
    while done < count:
        came = look_at(seed, within, given.most_mm, given.standing)
        seed += 1
        if came is not None:
            done += 1
            missed, false = missed + came[1], false + came[2]
            print(came[0], flush=True)
    took = time.perf_counter() - began
    print(f"{done} decks: missed {missed}, falsely told {false}; {took:.0f} s")
    return 1 if missed or false else 0


if __name__ == "__main__":
    sys.exit(main())
