"""Tiles among the articles of a design: how they are found, and what stands in for what they lack.

Rules are asked of a family by the board that lies on the joists. A tile is asked about as a board
of its width, with its length beside it.
"""

from typing import Any

from drylay.brief.model import Brief
from drylay.errors import Fault
from drylay.materials.stock_model import Board, Catalogue, CoachScrew, Screw, Tile, Timber

#: What a deck of tiles does without: articles of no size, which nothing is bought of.
NO_TIMBER = Timber(code="", title="", thickness_mm=0.0, depth_mm=0.0, lengths=())
NO_SCREW = Screw(code="", title="", shank_mm=0.0, length_mm=0.0, metal="", packs=())
NO_COACH_SCREW = CoachScrew(
    code="", title="", shank_mm=0.0, length_mm=0.0, head_mm=0.0, metal="", packs=()
)


def tile_named(brief: Brief, stock: Catalogue) -> dict[str, Any]:
    """Return the tile that a brief names, and the board that stands in for it; nothing if none."""
    tile = next((tile for tile in stock.tiles if tile.code == brief.board.article), None)
    return {} if tile is None else {"tile": tile, "board": as_board(tile)}


def as_board(tile: Tile) -> Board:
    """Return a tile as the board that families are asked about: its width lies across the rows."""
    return Board(
        code=tile.code,
        title=tile.title,
        family=tile.family,
        width_mm=tile.width_mm,
        thickness_mm=tile.thickness_mm,
        lengths=(),
        species=tile.species,
        rules=tile.rules,
    )


def tile_faults(brief: Brief, stock: Catalogue) -> list[Fault]:
    """Return what is wrong with a tile, or with a board that is taken for one.

    A tile needs a word on what it lies on, and a board has none.
    """
    tile, support = tile_named(brief, stock).get("tile"), brief.board.support
    is_tile = tile is not None
    is_board = any(board.code == brief.board.article for board in stock.boards)
    if tile is not None and tile.length_mm < tile.width_mm:
        return [_lies_across(tile)]
    if is_tile and support is None:
        return [
            Fault(
                path="board.support",
                found=f"nothing with the tile {brief.board.article}",
                wanted="what the tiles lie on: frame or pads",
                nearest='support = "frame"',
            )
        ]
    if is_board and support is not None:
        return [
            Fault(
                path="board.support",
                found=f"{support} with the board {brief.board.article}",
                wanted="nothing: boards lie on a frame",
                nearest="leave support out, or name a tile",
            )
        ]
    return []


def _lies_across(tile: Tile) -> Fault:
    """Return the fault of a tile whose record no stock file could hold."""
    return Fault(
        path="board.article",
        found=f"{tile.code} with length_mm = {tile.length_mm:g} and width_mm = {tile.width_mm:g}",
        wanted="a tile whose longer side is its length",
        nearest=f"length_mm = {tile.width_mm:g}, width_mm = {tile.length_mm:g} in the stock",
    )
