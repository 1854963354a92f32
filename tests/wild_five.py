"""Briefs and a stock of all five families gone wild: by seed, for the campaigns."""

import random
from decimal import Decimal

from attrs import evolve

from drylay.brief.model import Brief, Override
from drylay.materials.stock_model import Board, Catalogue, Clip, Tile
from some_five import BOARDS, TILES, sold, some_five

OVERRIDES = (
    ("surface.sliver_limit_mm", "mm", (0.0, 30.0, 200.0)),
    ("surface.least_rip_mm", "mm", (0.0, 20.0, 100.0)),
    ("supports.most_centres_mm", "mm", (150.0, 600.0)),
    ("pieces.end_gap_mm", "mm", (0.0, 12.0)),
    ("pieces.least_supports", "count", (2, 6)),
    ("pieces.stagger_bays", "count", (0, 1, 7)),
    ("frame.noggin_spacing_most_mm", "mm", (150.0, 3_000.0)),
    ("fixings.deck_screws.per_crossing", "count", (1, 3)),
    ("fixings.coach_screws.per_joist_end", "count", (1, 4)),
    ("buying.spare_ratio", "ratio", (0.0, 0.5)),
)


def some_overrides(dice: random.Random) -> tuple[Override, ...]:
    """Return what named persons say instead of rules, mostly nothing."""
    said = dice.sample(OVERRIDES, dice.choice([0, 0, 1, 2]))
    return tuple(
        Override(path=path, value=float(dice.choice(values)), unit=unit, by="A. Nobody",
                 reason="to see what happens")
        for path, unit, values in said
    )  # fmt: skip


def wild_yard(dice: random.Random) -> Catalogue:
    """Return the merchant's stock with boards, tiles and clips of other sizes."""
    yard = sold()
    return evolve(
        yard,
        boards=tuple(_wild_board(dice, board) for board in yard.boards),
        tiles=tuple(_wild_tile(dice, tile) for tile in yard.tiles),
        clips=tuple(_wild_clip(dice, clip) for clip in yard.clips),
    )


def _wild_board(dice: random.Random, board: Board) -> Board:
    kept = tuple(each for each in board.lengths if dice.random() < 0.8) or board.lengths
    return evolve(
        board,
        lengths=tuple(evolve(e, limit=dice.choice([e.limit, None, 3, 40])) for e in kept),
        width_mm=dice.choice([*[board.width_mm] * 3, 63.5, 119.4, 200.0]),
        thickness_mm=dice.choice([*[board.thickness_mm] * 4, 19.0, 25.4, 40.0]),
        rules=board.rules if dice.random() < 0.8 else (),
        turnable=dice.choice([board.turnable, True, False]),
        mass_kg_m=dice.choice([board.mass_kg_m, None]),
    )


def _wild_tile(dice: random.Random, tile: Tile) -> Tile:
    return evolve(
        tile,
        length_mm=tile.length_mm + dice.choice([0.0, 0.0, 0.5, 37.3, 600.0]),
        thickness_mm=dice.choice([tile.thickness_mm, 12.7, 60.0]),
        mass_kg=dice.choice([tile.mass_kg, None]),
    )


def _wild_clip(dice: random.Random, clip: Clip) -> Clip:
    if clip.gap_mm is None:
        return clip
    return evolve(clip, gap_mm=dice.choice([5.0, 5.0, 1.0, 3.2, 9.0]))


def wild_five(dice: random.Random, seed: int) -> Brief:
    """Return a brief of some family with wishes that few would have."""
    brief = some_five(seed, most_mm=dice.choice([1_300, 3_000, 7_000]))
    if brief.board.article in TILES:
        kerf_mm = dice.choice([0.0, 3.2, 10.0])
        return evolve(brief, cutting=evolve(brief.cutting, kerf_mm=kerf_mm))
    codes = [code for boards in BOARDS.values() for code, _ in boards]
    return evolve(
        brief,
        joints=evolve(
            brief.joints,
            support=dice.choice([None, "single", "batten", "pair"]),
            end_gap_mm=dice.choice([None, 0.0, 20.0]),
            stagger_bays=dice.choice([None, 0, 7]),
            most_per_row=dice.choice([None, None, 0, 2]),
            price_each=dice.choice([None, Decimal("25")]),
        ),
        border=evolve(
            brief.border, article=dice.choice(codes), rows=dice.choice([1, 3])
        ) if dice.random() < 0.3 else brief.border,
        cutting=evolve(brief.cutting, kerf_mm=dice.choice([0.0, 10.0]),
                       end_trim_mm=dice.choice([0.0, 25.0, 150.0])),
        overrides=some_overrides(dice),
    )  # fmt: skip
