"""What a plan says of the stock it buys from: whole packs, batches, days on sale, notes."""

from collections.abc import Iterator
from decimal import Decimal

from drylay.findings import Finding, Severity
from drylay.materials.stock_model import Article
from drylay.planner.built import Standing
from drylay.planner.job import Job
from drylay.reasons import Source


def remarks(job: Job, built: Standing) -> Iterator[Finding]:
    """Yield what the stock's records say of what this plan buys."""
    yield from _filled(job, built)
    bought = {line.article for line in built.buying.order}
    for article in _articles(job):
        if article.code in bought:
            yield from _recorded(job, article)


def _articles(job: Job) -> tuple[Article, ...]:
    """Return every article on sale by length, and every tile: what batches are told of."""
    stock = job.stock
    return (*stock.boards, *stock.tiles, *stock.timbers, *stock.fascias)


def _filled(job: Job, built: Standing) -> Iterator[Finding]:
    """Yield what fills whole packs, and what it costs."""
    prices = {(line.article, line.length_mm): line.unit_price for line in built.buying.spares}
    more, cost = 0, Decimal(0)
    for whole in built.buying.whole_packs:
        filling = whole.pack * whole.packs - whole.sawn - whole.spare
        more += filling
        cost += prices.get((whole.article, whole.length_mm), Decimal(0)) * filling
    if more:
        yield Finding(
            code="BUY-006",
            severity=Severity.NOTE,
            subject="whole packs",
            message=f"{more} lengths more than are sawn and spare, to fill packs, for "
            f"{cost:f} {built.buying.currency}; the proof is of single lengths, and another choice "
            "of them may fill its packs better",
            source=_record(job, ""),
        )


def _recorded(job: Job, article: Article) -> Iterator[Finding]:
    """Yield the batch of an article, and the days on which it is on sale."""
    record = article.record
    if record.batch:
        yield Finding(
            code="BUY-007",
            severity=Severity.NOTE,
            subject=article.code,
            message=f"sold out of batch {record.batch}: ask for one batch throughout, colours of "
            "two differ",
            source=_record(job, article.code),
        )
    if record.sold_from or record.sold_until:
        since = f"from {record.sold_from} " if record.sold_from else ""
        until = f"until {record.sold_until}" if record.sold_until else ""
        yield Finding(
            code="BUY-008",
            severity=Severity.NOTE,
            subject=article.code,
            message=f"on sale at this price {since}{until}".strip() + ": order it in that time",
            source=_record(job, article.code),
        )


def _record(job: Job, code: str) -> Source:
    return Source(kind="merchant record", title=job.stock.name, clause=code)
