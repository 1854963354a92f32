"""Contract kits for those who write families, catalogues and design bases; see docs/plugins.md."""

from drylay.testing.bases import BASIS_LAWS, check_basis
from drylay.testing.boards import BOARDS
from drylay.testing.contracts import BasisContract, FamilyContract, StockContract
from drylay.testing.families import FAMILY_LAWS, check_family
from drylay.testing.model import BrokenLaw
from drylay.testing.stocks import STOCK_LAWS, check_stock

__all__ = [
    "BASIS_LAWS",
    "BOARDS",
    "FAMILY_LAWS",
    "STOCK_LAWS",
    "BasisContract",
    "BrokenLaw",
    "FamilyContract",
    "StockContract",
    "check_basis",
    "check_family",
    "check_stock",
]
