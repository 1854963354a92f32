"""The whole order: what is cut from lengths, what comes in packs, spares apart."""

from decimal import Decimal

from attrs import evolve

from drylay.buying.model import Buying, PackPurchase, Purchase
from drylay.buying.order import (
    length_lines,
    pack_lines,
    place_order,
    spare_count,
)
from drylay.buying.packs import buy_packs
from drylay.planner.built import Wanted
from drylay.planner.job import Job
from drylay.planner.trade_numbers import with_gtins
from drylay.planner.whole_packs import spares_of


def buying(
    job: Job, purchases: tuple[Purchase, ...], wanted: tuple[Wanted, ...]
) -> tuple[Buying, int]:
    """Return the whole order, and how many spare boards could not be had."""
    articles, brief = job.articles, job.brief
    ratio = job.rules.value("buying.spare_ratio")
    wanted = _by_article(wanted)
    packs = tuple(_packs(each, ratio) for each in wanted)
    named = (articles.board, articles.border, articles.timber, articles.fascia, articles.fabric)
    titles = {each.code: each.title for each in (*job.stock.timbers, *named) if each is not None}
    spared, missing = spares_of(job, purchases, titles, ratio)
    order = [line for bought in purchases for line in length_lines(bought, titles[bought.article])]
    for bought_packs, each in zip(packs, wanted, strict=True):
        order += pack_lines(bought_packs, each.title)
    buying = place_order(
        currency=job.stock.currency,
        vat=job.stock.vat,
        kerf_mm=brief.cutting.kerf_mm,
        end_trim_mm=brief.cutting.end_trim_mm,
        spare_ratio=ratio,
        purchases=purchases,
        packs=packs,
        order=order,
        **spared,
    )
    return with_gtins(buying, job.stock), missing


def packs_cost(job: Job, wanted: tuple[Wanted, ...]) -> Decimal:
    """Return what the packs cost that hold all this, spares with it."""
    ratio = job.rules.value("buying.spare_ratio")
    return sum((_packs(each, ratio).cost for each in _by_article(wanted)), Decimal(0))


def _by_article(wanted: tuple[Wanted, ...]) -> tuple[Wanted, ...]:
    """Return what is wanted with one article's uses together: they come out of the same boxes."""
    merged: dict[str, Wanted] = {}
    for each in wanted:
        before = merged.get(each.article)
        merged[each.article] = each if before is None else evolve(
            before,
            what=f"{before.what}, {each.what}",
            need=before.need + each.need,
        )  # fmt: skip
    return tuple(merged.values())


def _packs(wanted: Wanted, ratio: float) -> PackPurchase:
    """Return the packs to buy: pieces drop and snap and get spares, ml and kg do not."""
    return buy_packs(
        what=wanted.what,
        article=wanted.article,
        unit=wanted.unit,
        need=wanted.need,
        spare=spare_count(ratio, wanted.need) if wanted.unit == "pieces" else 0,
        packs=wanted.packs,
    )
