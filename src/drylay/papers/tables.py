"""The tables of a plan for spreadsheets, label printers and merchants: cuts, labels, order."""

from collections.abc import Iterator
from itertools import chain

from drylay.buying.model import BoughtLength, Buying, OrderLine, Purchase
from drylay.papers.arrows import arrows_of
from drylay.papers.outlined_ends import sawn_ends
from drylay.papers.outlined_saw import MARK_OUT, shaped_pieces
from drylay.papers.places import all_placed
from drylay.papers.purchase import line_size
from drylay.papers.spreadsheet import Row, table_file
from drylay.plan.model import Plan

CUTS = (
    "bought_mark", "article", "bought_length_mm", "cut_number", "piece_mark", "saw_length_mm",
    "rip_to_mm", "bought_offcut_mm", "arrow_to",
)  # fmt: skip
#: What cuts have besides where ends may be off square.
SETTINGS = (
    "one_end", "one_end_deg", "one_end_longer", "other_end", "other_end_deg", "other_end_longer",
    "mark_out",
)  # fmt: skip
LABELS = ("mark", "kind", "saw_length_mm", "width_mm", "where", "arrow_to")
ORDER = (
    "kind", "quantity", "article", "gtin", "title", "length_mm", "pack_count", "pack_unit", "pack",
    "unit_price", "total", "currency", "vat",
)  # fmt: skip
NEEDED, SPARE = "needed", "spare"
#: What the last rows of the order are called, with the field of `Buying` each holds.
TOTALS = (("total needed", "order_total"), ("total spare", "spares_total"), ("total", "total"))


def cuts_csv(plan: Plan) -> bytes:
    """Return the cut list, a row for each piece; b"" where the plan buys nothing."""
    if plan.buying is None:
        return b""
    rows = (row for part in plan.buying.purchases for row in _cuts(part, plan))
    columns = CUTS if plan.outline is None else CUTS + SETTINGS
    more = chain(_cut_tiles(plan), _cut_on_outline(plan))
    return table_file(columns, chain(rows, more), plan.units)


def _cut_tiles(plan: Plan) -> Iterator[Row]:
    """Yield a row for each cut tile, cut to length and ripped to what it covers across the rows."""
    tiling, surface = plan.tiling, plan.surface
    if tiling is None or surface is None:
        return
    left = {piece.mark: piece for piece in tiling.cut_tiles}
    for tile in tiling.sawn:
        for number, mark in enumerate(tile.pieces, 1):
            piece = left.get(mark)
            narrow = piece is not None and piece.width_mm < surface.board_width_mm
            yield {
                "bought_mark": tile.mark,
                "article": surface.board_article,
                "bought_length_mm": tiling.tile_length_mm,
                "cut_number": number,
                "piece_mark": mark,
                "saw_length_mm": piece.length_mm if piece else None,
                "rip_to_mm": piece.width_mm if piece and narrow else None,
            }


def _cut_on_outline(plan: Plan) -> Iterator[Row]:
    """Yield a row for each cut tile of an outline: the box about it, marked out where shaped."""
    tiles = plan.tiles
    if tiles is None:
        return
    left = {tile.mark: tile for tile in tiles.tiles}
    for each in tiles.sawn:
        for number, piece in enumerate(each.pieces, 1):
            tile = left.get(piece.mark)
            narrow = tile is not None and tile.width_mm < tiles.tile_width_mm
            yield {
                "bought_mark": each.mark,
                "article": tiles.article,
                "bought_length_mm": tiles.tile_length_mm,
                "cut_number": number,
                "piece_mark": piece.mark,
                "saw_length_mm": tile.length_mm if tile else None,
                "rip_to_mm": tile.width_mm if tile and narrow else None,
                "mark_out": MARK_OUT if tile and tile.shaped else None,
            }


def _cuts(purchase: Purchase, plan: Plan) -> Iterator[Row]:
    sizes, ripped, arrows = plan.sizes_mm(), ripped_mm(plan), arrows_of(plan)
    settings = _settings(plan)
    for length in purchase.lengths:
        for number, mark in enumerate(length.pieces, 1):
            yield {
                **_bought(length, purchase.article),
                "cut_number": number,
                "piece_mark": mark,
                "saw_length_mm": sizes.get(mark),
                "rip_to_mm": ripped.get(mark),
                "arrow_to": arrows.get(mark),
                **settings.get(mark, {}),
            }


def _settings(plan: Plan) -> dict[str, Row]:
    """Return the saw's settings at both ends of pieces on an outline, by mark."""
    settings: dict[str, Row] = {
        mark: {
            "one_end": one.name,
            "one_end_deg": one.value_deg,
            "one_end_longer": one.longer,
            "other_end": other.name,
            "other_end_deg": other.value_deg,
            "other_end_longer": other.longer,
        }
        for mark, (one, other) in sawn_ends(plan).items()
    }
    return settings | {piece.mark: {"mark_out": MARK_OUT} for piece in shaped_pieces(plan)}


def _bought(length: BoughtLength, article: str) -> Row:
    return {
        "bought_mark": length.mark,
        "article": article,
        "bought_length_mm": length.length_mm,
        "bought_offcut_mm": length.offcut_mm,
    }


def ripped_mm(plan: Plan) -> dict[str, float]:
    """Return the width that each piece of a ripped row is sawn to, by mark."""
    rows = {row.mark for row in (plan.surface.rows if plan.surface else ()) if row.ripped}
    pieces = plan.pieces.pieces if plan.pieces else ()
    found = {piece.mark: piece.width_mm for piece in pieces if piece.row in rows}
    laying = plan.laying
    laid = {row.mark for row in (laying.rows if laying else ()) if row.ripped}
    return found | {
        piece.mark: piece.width_mm
        for piece in (laying.pieces if laying else ())
        if piece.row in laid
    }


def labels_csv(plan: Plan) -> bytes:
    """Return a row for each piece: what to stick on it."""
    arrows = arrows_of(plan)
    rows: Iterator[Row] = (
        {
            "mark": piece.mark,
            "kind": piece.kind,
            "saw_length_mm": piece.saw_mm,
            "width_mm": piece.width_mm,
            "where": piece.where,
            "arrow_to": arrows.get(piece.mark),
        }
        for piece in all_placed(plan)
    )
    return table_file(LABELS, rows, plan.units)


def order_csv(plan: Plan) -> bytes:
    """Return the order, needed and spare, and its totals; b"" where the plan buys nothing."""
    if plan.buying is None:
        return b""
    return table_file(ORDER, _order(plan.buying, plan.units), plan.units)


def _order(buying: Buying, units: str) -> Iterator[Row]:
    money = {"currency": buying.currency, "vat": buying.vat}
    for kind, lines in ((NEEDED, buying.order), (SPARE, buying.spares)):
        for line in lines:
            yield {**_line(line, units), **money, "kind": kind}
    for name, field in TOTALS:
        yield {"kind": name, "total": getattr(buying, field), **money}


def _line(line: OrderLine, units: str) -> Row:
    packed = line.pack is not None
    return {
        "quantity": line.quantity,
        "article": line.article,
        "gtin": line.gtin or None,
        "title": line.title,
        "length_mm": line.length_mm,
        "pack_count": line.pack,
        "pack_unit": line.unit if packed else None,
        "pack": line_size(line, units) if packed else None,
        "unit_price": line.unit_price,
        "total": line.total,
    }
