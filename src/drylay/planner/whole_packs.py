"""Spares of everything sold by length, and what fills whole packs."""

from typing import Any

from drylay.buying.model import Purchase
from drylay.buying.order import spare_lengths
from drylay.materials.stock_model import StockLength
from drylay.planner.job import Job

#: What purchases of boards are called.
BOARDS = ("boards", "border boards")


def spares_of(
    job: Job, purchases: tuple[Purchase, ...], titles: dict[str, str], ratio: float
) -> tuple[dict[str, Any], int]:
    """Return the lines of spares and the whole packs, and how many spare boards are missing.

    Spares by the ratio are for the boards, the border's too; of all else only what fills whole
    packs. Tiles are spare in their own packs.
    """
    sold = lengths_sold(job)
    spared = [
        spare_lengths(
            bought,
            titles[bought.article],
            sold[bought.article],
            ratio if bought.what in BOARDS else 0,
        )
        for bought in purchases
    ]
    lines = tuple(line for each in spared for line in each.lines)
    packed = tuple(whole for each in spared for whole in each.whole_packs)
    return {"spares": lines, "whole_packs": packed}, sum(each.missing for each in spared)


def lengths_sold(job: Job) -> dict[str, tuple[StockLength, ...]]:
    """Return what the stock sells of each article that is sold by length."""
    stock = job.stock
    return {
        article.code: article.lengths
        for articles in (stock.boards, stock.timbers, stock.fascias, stock.fabrics)
        for article in articles
    }
