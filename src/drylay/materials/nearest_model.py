"""What may stand in for an article that is out: a substitute, and all it has otherwise."""

from decimal import Decimal

from attrs import frozen

from drylay.materials.stock_model import Article
from drylay.reasons import Scalar


@frozen(kw_only=True)
class FactChange:
    """One fact that a substitute has otherwise; `worse` where it stands behind."""

    fact: str
    old: Scalar
    new: Scalar
    worse: bool = False

    def __str__(self) -> str:
        told = f"{self.fact} {_shown(self.old)} -> {_shown(self.new)}"
        return f"{told} (worse)" if self.worse else told


@frozen(kw_only=True)
class Substitute:
    """An article that may stand in for another, and exactly what changes.

    Prices are the lowest on sale for one `unit` (m, piece, l or kg), up to a hundredth of a coin;
    None where nothing is on sale.
    """

    article: Article
    changes: tuple[FactChange, ...]
    unit: str
    price_old: Decimal | None
    price_new: Decimal | None

    def __str__(self) -> str:
        changes = [str(change) for change in self.changes]
        old, new = self.price_old, self.price_new
        if old != new:
            by = "" if old is None or new is None else f" ({new - old:+f})"
            changes.append(f"price a {self.unit} {_shown(old)} -> {_shown(new)}{by}")
        return f"{self.article.code}: {'; '.join(changes) or 'nothing changes'}"


def _shown(value: object) -> str:
    if value is None or value == "":
        return "not told"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:g}" if isinstance(value, float) else str(value)
