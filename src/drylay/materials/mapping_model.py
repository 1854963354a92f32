"""A mapping: what the columns of a merchant's CSV file mean."""

from collections.abc import Mapping

from attrs import field, frozen

from drylay.intake.cells import CellForm
from drylay.intake.document import Document
from drylay.intake.keys import Key
from drylay.intake.places import Keys
from drylay.intake.sheet import SheetForm
from drylay.reasons import Source


@frozen(kw_only=True)
class ColumnOf:
    """One column: the key it fills and how its cells are told; `there` is its place."""

    key: Key
    column: str
    there: Keys
    unit: str = ""
    words: Mapping[str, object] | None = None


@frozen(kw_only=True)
class RuleOf:
    """A column that holds the merchant's own value for one rule, and who says so."""

    rule: str
    column: ColumnOf
    source: Source


@frozen(kw_only=True)
class RowsOf:
    """The rows of one kind: which they are, their columns, and what all of them have alike."""

    says: str
    kind: str
    there: Keys
    columns: tuple[ColumnOf, ...]
    constants: Mapping[str, object] = field(factory=dict)
    rules: tuple[RuleOf, ...] = ()


@frozen(kw_only=True)
class SheetMapping:
    """A whole mapping, with the document it was read from."""

    document: Document
    sheet: SheetForm
    cells: CellForm
    kind_column: str
    leave_out: tuple[str, ...]
    head: Mapping[str, object]
    rows: tuple[RowsOf, ...]
