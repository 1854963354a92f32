"""What a plan says of the stock it buys from: whole packs, batches, days on sale, notes."""

from collections.abc import Iterator
from decimal import Decimal

from drylay.findings import Finding, Severity
from drylay.materials.stock_model import Article
from drylay.planner.built import Sited
from drylay.planner.job import Job
from drylay.reasons import Source


def remarks(job: Job, built: Sited) -> Iterator[Finding]:
    """Yield what the stock's records say of what this plan buys."""
    yield from _filled(job, built)
    bought = {line.article for line in built.buying.order}
    articles = [article for article in _articles(job) if article.code in bought]
    for article in articles:
        yield from _batch(job, article)
    yield from _days(job, articles)


def _articles(job: Job) -> tuple[Article, ...]:
    """Return every article on sale by length, and every tile: what batches are told of."""
    stock = job.stock
    return (*stock.boards, *stock.tiles, *stock.timbers, *stock.fascias)


def _filled(job: Job, built: Sited) -> Iterator[Finding]:
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
            message=f"{more} length{'s' if more > 1 else ''} more than are sawn and spare, to fill "
            f"packs, for {cost:f} {built.buying.currency}; the proof is of single lengths, and "
            "another choice of them may fill its packs better",
            source=_record(job, ""),
        )


def _batch(job: Job, article: Article) -> Iterator[Finding]:
    """Yield the batch that an article comes from."""
    record = article.record
    if record.batch:
        yield Finding(
            code="BUY-007",
            severity=Severity.NOTE,
            subject=article.code,
            message=f"comes from batch {record.batch}: ask for that batch throughout, colours of "
            "two differ",
            source=_record(job, article.code),
        )


def _days(job: Job, articles: list[Article]) -> Iterator[Finding]:
    """Yield the days on which articles are on sale, once for all that have the same."""
    spans: dict[str, list[str]] = {}
    for article in articles:
        since, until = article.record.sold_from, article.record.sold_until
        told = (f"from {since}" if since else "", f"until {until}" if until else "")
        spans.setdefault(" ".join(filter(None, told)), []).append(article.code)
    for days, codes in spans.items():
        if days:
            yield Finding(
                code="BUY-008",
                severity=Severity.NOTE,
                subject=", ".join(codes),
                message=f"on sale at this price {days}: order in that time",
                source=_record(job, codes[0] if len(codes) == 1 else ""),
            )


def _record(job: Job, code: str) -> Source:
    return Source(kind="merchant record", title=job.stock.name, clause=code)
