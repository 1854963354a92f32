"""The nouns of the contract kits: a law, and what is told where one is broken."""

from attrs import frozen

from drylay.materials.model import Family, RuleQuery


@frozen(kw_only=True)
class BrokenLaw:
    """One law that a family, catalogue or basis breaks: which, where, what was found and wanted."""

    law: str
    subject: str
    found: str
    wanted: str

    def __str__(self) -> str:
        return f"{self.law}: {self.subject}: found {self.found}, wanted {self.wanted}"


@frozen(kw_only=True)
class Answer:
    """What a family did when it was asked: what it returned, or raised, and what else it did.

    `changed` is whether the question was another one afterwards, `printed` what it printed.
    """

    rule: str
    query: RuleQuery
    returned: object = None
    raised: BaseException | None = None
    changed: bool = False
    printed: str = ""


@frozen(kw_only=True)
class Heard:
    """A family, what it answered to every question, and what it answered the second time.

    `not_covered` are the rules that its author says it does not cover.
    """

    family: Family
    not_covered: frozenset[str]
    answers: tuple[Answer, ...]
    again: tuple[Answer, ...]


@frozen(kw_only=True)
class Cell:
    """One cell of an outside table: what stands there, and what drylay works out for it.

    `wanted` is nan where the table holds no number there, `found` None where drylay answers
    nothing; `why` says why, and what is known of a cell that does not match. `unit` is that of
    both, and of `tolerance`, by which they may differ.
    """

    table: str
    cell: str
    wanted: float
    found: float | None
    unit: str
    tolerance: float
    why: str = ""


@frozen(kw_only=True)
class TableRead:
    """What came of one outside table: its cells in order, and what else is to be known of it.

    `usable` is whether the file could be read as a table that drylay knows.
    """

    table: str
    cells: tuple[Cell, ...] = ()
    notes: tuple[str, ...] = ()
    usable: bool = True
