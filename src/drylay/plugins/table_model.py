"""The nouns of a family's table: its numbers, for which boards each holds, and who says so."""

from attrs import frozen

from drylay.reasons import Source


@frozen(kw_only=True)
class Reach:
    """From where to where one part of the question may lie; both ends count."""

    part: str
    least: float
    most: float


@frozen(kw_only=True)
class Words:
    """The words that one part of the question may be."""

    part: str
    words: tuple[str, ...]


@frozen(kw_only=True)
class Entry:
    """One number of the table: whom it answers, what is reckoned with it, and who says so.

    `name` is a rule's, or that of a number which only code asks for. `times`, `plus` and
    `minus` name parts of the question; see `drylay.plugins.table`.
    """

    name: str
    value: float
    source: Source
    says: str = ""
    reaches: tuple[Reach, ...] = ()
    words: tuple[Words, ...] = ()
    times: str = ""
    sine: bool = False
    plus: str = ""
    minus: str = ""
    at_least: float | None = None


@frozen(kw_only=True)
class FamilyTable:
    """A family's table, its entries in the order of the file."""

    id: str
    title: str
    cautions: tuple[str, ...] = ()
    rules: tuple[Entry, ...] = ()
    numbers: tuple[Entry, ...] = ()
