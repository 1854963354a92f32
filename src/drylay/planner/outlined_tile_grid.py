"""Tiles set out on an outline: its openings, the grid that leaves no sliver, tiles as nouns."""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from attrs import evolve, frozen

from drylay.brief.outline_model import OpeningWish
from drylay.findings import Finding, Severity
from drylay.geometry import Place, Region, area_mm2, minus, region, turned, whole
from drylay.marks import PER_MM, exact, to_mm
from drylay.outline.clashes import clashes
from drylay.outline.hatches import CLEAR_LEAST_MM, PANEL_MOST_KG
from drylay.outline.model import Opening, Outline, Spot
from drylay.outline.sides import middle_told, outline_of, ring_of, spot_of, with_openings
from drylay.outline.standing import opening_of, within_of
from drylay.planner import lorry
from drylay.planner.angles import angle_of
from drylay.planner.buy import Blocked
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE
from drylay.planner.tile_stops import ASSUMED, MOST_TILES
from drylay.rings import Ring, apart, holds
from drylay.tiling.outline_model import LaidTile
from drylay.tiling.outlined_grid import HatchBlock, SetOut, TileRules, hole_of, set_outs
from drylay.tiling.outlined_places import Grid, Part

#: Ways out that cut tiles.
CUTTING = ("rip_both", "rip_last")


@frozen(kw_only=True)
class Turn:
    """How places are told along the run and to the left of it, and back."""

    cos: float
    sin: float

    def told(self, place: Place) -> Place:
        """Return a place in the grid's axes."""
        x, y = place
        return x * self.cos + y * self.sin, y * self.cos - x * self.sin

    def spot(self, told: Place) -> Spot:
        """Return the place that is told so, on whole 1/320 mm."""
        u, v = told
        x, y = u * self.cos - v * self.sin, u * self.sin + v * self.cos
        return Spot(along_mm=to_mm(round(x * PER_MM)), across_mm=to_mm(round(y * PER_MM)))


@frozen(kw_only=True)
class TilesSetOut:
    """An outline with its openings, the set-out chosen on it, and the others, the best first."""

    outline: Outline
    turn: Turn
    area: Region
    chosen: SetOut
    others: tuple[SetOut, ...]
    tiles: tuple[LaidTile, ...]


def turn_at(angle_deg: float) -> Turn:
    """Return the turn to a run at an angle; exact along the house and straight away from it."""
    plain = {0.0: Turn(cos=1.0, sin=0.0), 90.0: Turn(cos=0.0, sin=1.0)}
    angle = math.radians(angle_deg)
    return plain.get(angle_deg, Turn(cos=math.cos(angle), sin=math.sin(angle)))


def set_tiles_out(job: Job) -> TilesSetOut | Blocked:
    """Return the tiles set out, or every stop that keeps them from it."""
    bare = outline_of(job.asked.outline, facing_mm=0.0)
    stops = _too_many(job, bare)
    openings = [
        opening_of(wish, mark=f"O{number}") if wish.kind != "hatch" else _cover(wish, f"O{number}")
        for number, wish in enumerate(job.brief.outline.openings, start=1)
    ]
    stops += _clashes(bare, openings)
    if stops:
        return Blocked(findings=tuple(stops))
    turn = turn_at(angle_of(job.brief))
    deck = _area(bare, openings)
    area = turned(deck, turn.cos, turn.sin)
    hatches = [opening for opening in openings if opening.kind == "hatch"]
    covers = [_clear_of(turn, hatch) for hatch in hatches]
    laid = set_outs(area, covers, rules_of(job))
    best = laid[0]
    stops = [*_shut(turn, best, hatches, bare.turned_deg), *_uncut(job, best)]
    if stops:
        return Blocked(findings=tuple(stops))
    blocks = iter(best.hatches)
    opened = tuple(
        _hatch(job, turn, best, opening, next(blocks)) if opening.kind == "hatch" else opening
        for opening in openings
    )
    stops = [*_clashes(bare, opened), *_too_heavy(opened)]
    if stops:
        return Blocked(findings=tuple(stops))
    return TilesSetOut(
        outline=with_openings(bare, opened),
        turn=turn,
        area=area,
        chosen=best,
        others=laid[1:],
        tiles=_tiles(turn, best, [o.mark for o in opened if o.kind == "hatch"]),
    )


def rules_of(job: Job) -> TileRules:
    """Return what the grid keeps to."""
    rules, tile, brief = job.rules, job.articles.tile, job.brief
    assert tile is not None
    return TileRules(
        length=exact(tile.length_mm),
        width=exact(tile.width_mm),
        joints=tuple(_joints(job)),
        least_length=exact(rules.value("tiling.least_cut_mm")),
        least_width=max(
            exact(rules.value(path)) for path in ("surface.least_rip_mm", "surface.sliver_limit_mm")
        ),
        kerf=exact(brief.cutting.kerf_mm),
        thick=exact(tile.thickness_mm),
        prefer=tuple(kind for kind in brief.rows.prefer if kind in ("as_wished", *CUTTING)),
    )


def _joints(job: Job) -> Iterator[int]:
    """Yield the joint aimed for, then the other whole mm within its range, the nearest first."""
    rules = job.rules
    wished = rules.value("surface.gap_preferred_mm")
    yield exact(wished)
    least, most = (rules.value(f"surface.gap_{end}_mm") for end in ("least", "most"))
    others = [float(each) for each in range(math.ceil(least), math.floor(most) + 1)]
    others = [each for each in others if each > 0 and each != wished]
    yield from (exact(each) for each in sorted(others, key=lambda mm: (abs(mm - wished), mm)))


def _cover(wish: OpeningWish, mark: str) -> Opening:
    """Return a hatch before its hole is known: as large as the cover under it."""
    within = tuple(spot_of(place) for place in within_of(wish))
    return Opening(
        mark=mark, kind="hatch", name=wish.name, corners=within, within=within, clear_mm=0.0,
        clear_least_mm=CLEAR_LEAST_MM, clear_most_mm=None, panel_most_kg=PANEL_MOST_KG,
    )  # fmt: skip


def _places(spots: Sequence[Spot]) -> list[Place]:
    return [(spot.along_mm, spot.across_mm) for spot in spots]


def _area(outline: Outline, openings: Sequence[Opening]) -> Region:
    deck = region(_places([side.start for side in outline.sides]))
    holes = [region(_places(each.corners)) for each in openings if each.kind != "hatch"]
    return minus(deck, whole(holes)) if holes else deck


def _clear_of(turn: Turn, hatch: Opening) -> tuple[Place, ...]:
    """Return what a hatch's whole tiles have to hold, in the grid's axes."""
    told = [turn.told(place) for place in _places(hatch.within)]
    us, vs = zip(*told, strict=True)
    clear = CLEAR_LEAST_MM
    u1, u2, v1, v2 = min(us) - clear, max(us) + clear, min(vs) - clear, max(vs) + clear
    return (u1, v1), (u2, v1), (u2, v2), (u1, v2)


def _hatch(job: Job, turn: Turn, laid: SetOut, cover: Opening, block: HatchBlock) -> Opening:
    """Return a hatch with its hole: to the middle of the joints round whole tiles."""
    u1, v1, u2, v2 = hole_of(laid.grid, block)
    corners = tuple(turn.spot(at) for at in ((u1, v1), (u2, v1), (u2, v2), (u1, v2)))
    return evolve(
        cover,
        corners=corners,
        clear_mm=to_mm(int(apart(ring_of(corners), ring_of(cover.within)))),
        panel_kg=-(-round(float(lorry.tile_kg(job)) * 1000) // 100) / 10,
    )


def _tiles(turn: Turn, laid: SetOut, hatches: Sequence[str]) -> tuple[LaidTile, ...]:
    first_row = min(part.row for part in laid.parts)
    first_column = min(part.column for part in laid.parts)
    return tuple(
        LaidTile(
            mark=f"B{part.row - first_row + 1}.{part.column - first_column + 1}{part.letter}",
            row=part.row - first_row + 1,
            column=part.column - first_column + 1,
            corners=tuple(turn.spot(at) for at in part.ring),
            length_mm=to_mm(round(part.length_mm * PER_MM)),
            width_mm=to_mm(round(part.width_mm * PER_MM)),
            narrow_mm=to_mm(math.floor(part.narrow_mm * PER_MM + 1e-3)),
            cut=part.cut,
            shaped=part.shaped,
            hatch=_hatch_over(part, laid.hatches, hatches),
        )
        for part in laid.parts
    )


def _hatch_over(part: Part, blocks: Sequence[HatchBlock], marks: Sequence[str]) -> str:
    for block, mark in zip(blocks, marks, strict=True):
        columns = block.first_column <= part.column <= block.last_column
        if columns and block.first_row <= part.row <= block.last_row:
            return mark
    return ""


def _stop(code: str, subject: str, message: str, figures: tuple[float, float] | None = None,
          unit: str = "mm") -> Finding:  # fmt: skip
    measured, limit = figures or (None, None)
    return Finding(code=code, severity=Severity.STOP, subject=subject, message=message,
                   measured=measured, limit=limit, unit=unit if figures else "",
                   source=ARITHMETIC)  # fmt: skip


def _too_many(job: Job, outline: Outline) -> list[Finding]:
    tile = job.articles.tile
    assert tile is not None
    least = math.ceil(outline.gross_m2 * 1e6 / (tile.length_mm * tile.width_mm))
    if least <= MOST_TILES:
        return []
    return [
        evolve(
            _stop("TIL-001", "tiles", "so many tiles in one deck are not planned here: name larger "
                  "tiles, or plan the deck in parts", (float(least), float(MOST_TILES)), "tiles"),
            source=ASSUMED,
        )
    ]  # fmt: skip


def _clashes(outline: Outline, openings: Sequence[Opening]) -> list[Finding]:
    """Return a stop for each opening that is not on the deck, or touches a side or another."""
    found = list(clashes(outline, tuple(openings), timber_mm=0.0))
    off = {finding.subject for finding in found}
    rings: dict[str, Ring] = {each.mark: ring_of(each.corners) for each in openings}
    deck = ring_of(side.start for side in outline.sides)
    for mark, hole in rings.items():
        if mark not in off and apart(deck, hole) == 0:
            found.append(_stop("TIL-033", mark, "it touches a side of the deck: move it in, or "
                               "draw it as part of the outline"))  # fmt: skip
    for (one, first), (other, second) in combinations(rings.items(), 2):
        if holds(first, second) or holds(second, first) or apart(first, second) == 0:
            found.append(_stop("TIL-033", other, f"it meets {one}: no tile lies between them; "
                               "move one, or make one opening of both"))  # fmt: skip
    return found


def _shut(
    turn: Turn, laid: SetOut, hatches: Sequence[Opening], turned_deg: float
) -> Iterator[Finding]:  # fmt: skip
    """Yield the stop for each hatch over which tiles do not lift out whole."""
    for hatch, block in zip(hatches, laid.hatches, strict=True):
        if block.whole:
            continue
        near = _nearest_whole(turn, laid, hatch, block)
        told = "no place on this deck has so many whole tiles side by side"
        if near is not None:
            middle = middle_told((exact(near.along_mm), exact(near.across_mm)), turned_deg)
            told = f"the nearest place that works has {middle}"
        yield _stop("TIL-032", hatch.mark, f"the tiles over the hatch {hatch.name or hatch.mark} "
                    "are cut, or lift out for another hatch already: only whole tiles lift out; "
                    f"{told}")  # fmt: skip


def _nearest_whole(turn: Turn, laid: SetOut, hatch: Opening, block: HatchBlock) -> Spot | None:
    """Return the middle of the nearest block of whole tiles as large as a hatch's."""
    columns, rows = (
        block.last_column - block.first_column + 1,
        block.last_row - block.first_row + 1,
    )
    free = {(part.column, part.row) for part in laid.parts if not part.cut}
    middle = _middle(_clear_of(turn, hatch))
    spots = []
    for column, row in sorted(free):
        wanted = {(column + i, row + j) for i in range(columns) for j in range(rows)}
        if wanted <= free:
            at = _middle_of(laid.grid, column, row, columns, rows)
            spots.append((math.dist(at, middle), at))
    return turn.spot(min(spots)[1]) if spots else None


def _middle(ring: Sequence[Place]) -> Place:
    us, vs = zip(*ring, strict=True)
    return (min(us) + max(us)) / 2, (min(vs) + max(vs)) / 2


def _middle_of(grid: Grid, column: int, row: int, columns: int, rows: int) -> Place:
    u1, v1, _, _ = grid.place(column, row)
    _, _, u2, v2 = grid.place(column + columns - 1, row + rows - 1)
    return (u1 + u2) / 2, (v1 + v2) / 2


def _uncut(job: Job, laid: SetOut) -> Iterator[Finding]:
    """Yield the stop where tiles are cut that may not be."""
    brief, rules = job.brief, job.rules
    may = brief.rows.may_rip and bool(rules.value("surface.may_rip"))
    asked = any(kind in brief.rows.prefer for kind in CUTTING)
    if laid.cut and not (may and asked):
        why = "the order of ways out leaves cutting out (rows.prefer)" if may else (
            "tiles may not be cut (rows.may_rip)"
        )  # fmt: skip
        yield _stop("TIL-036", "tiles", f"no set-out fills this outline with whole tiles alone; "
                    f"{why}: let them be cut, or draw sides that whole tiles and joints come to",
                    (float(laid.cut), 0.0), "cut tiles")  # fmt: skip


def _too_heavy(openings: Sequence[Opening]) -> Iterator[Finding]:
    for hatch in openings:
        if hatch.panel_kg is not None and hatch.panel_kg > (hatch.panel_most_kg or 0.0):
            yield Finding(
                code="OUT-010", severity=Severity.STOP, subject=hatch.mark,
                message="its tiles are too heavy for one person to lift out one by one: name "
                "smaller or thinner tiles", measured=hatch.panel_kg, limit=hatch.panel_most_kg,
                unit="kg", source=PRACTICE,
            )  # fmt: skip


def joints_m2(laid: TilesSetOut) -> float:
    """Return what of the outline is neither an opening, but for hatches, nor tile."""
    return laid.outline.net_m2 - face_m2(laid)


def face_m2(laid: TilesSetOut) -> float:
    """Return the area of all tiles."""
    return sum(area_mm2(_places(tile.corners)) for tile in laid.tiles) / 1e6
