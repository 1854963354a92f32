"""Contract kits for those who write families and catalogues; see docs/plugins.md."""

from drylay.testing.boards import BOARDS
from drylay.testing.contracts import FamilyContract, StockContract
from drylay.testing.families import FAMILY_LAWS, check_family
from drylay.testing.model import BrokenLaw
from drylay.testing.stocks import STOCK_LAWS, check_stock

__all__ = [
    "BOARDS",
    "FAMILY_LAWS",
    "STOCK_LAWS",
    "BrokenLaw",
    "FamilyContract",
    "StockContract",
    "check_family",
    "check_stock",
]
