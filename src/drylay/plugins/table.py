"""A family of boards out of a table: what two people could print as a table needs no code.

A plugin's hook, whole:

    @hookimpl
    def drylay_families() -> list[Family]:
        return [table_family(__name__, "larch.toml")]

and `larch.toml` beside it:

    [family]
    id = "larch"
    title = "larch, untreated"
    cautions = ["Wear a dust mask when sawing."]
    source = { kind = "common practice", title = "common practice, no source" }

    [[rules]]
    rule = "most_centres_mm"        # one of drylay.materials.model.QUESTIONS
    thickness_from_mm = 25          # for boards so thick and thicker
    angle_from_deg = 30             # and turned no further from square
    value = 400
    sine = true
    clause = "boards 25 to 28 thick"

    [[rules]]
    rule = "screw_length_least_mm"
    value = 2.5
    times = "board_thickness_mm"
    source = { kind = "handbook", title = "a book", clause = "table 3" }

Each entry is one number. Who says so stands in its own `source`, or in that of `[family]`, whose
`clause` an entry may name anew.

For which boards: any part of the question (`RuleQuery`) may be a condition. A length or angle is
kept within `..._from_mm`, `..._to_mm`, both ends counting: `thickness_from_mm`, `width_to_mm`,
`angle_from_deg`, `joist_thickness_to_mm`, ...; a word must be one of those told: `use = "public"`,
`metal = ["stainless A2", "stainless A4"]`, `exposure = "coast"`; a `species` must have one of
them in it, so that "oak" holds for white oak. Of several entries that hold the
one that says most about the board counts: the one with most words, then with most lengths and
angles, then the one that begins nearest below, then the one that ends nearest above. Where none
holds the family does not cover the board: nothing is interpolated. Two entries of which none of
this tells which is to count are refused.

What is reckoned: `times` a part of the question; `sine = true`, times the sine of the angle between
board and joist, down to tenths of a mm; `plus` a part of the question, of which `minus` another is
taken off first (not covered where nothing is left); `at_least`, what it never goes below. `says` is
the rule in words, told beside the number.

What needs an `if` is code: a function of the table and the question, under its rule's name in
`coded`. Numbers for it stand under `[[numbers]]`, with `name` in place of `rule`, and are found by
`drylay.plugins.table_rules.number_for`.

A family that is laid as another is may take that as its `base`: the base answers every rule that
neither table nor code speaks of, and its answers say that they are the base's. `borrow` names
the rules to take where not all are wanted.
"""

from collections.abc import Callable, Collection, Mapping
from functools import cache, partial

from attrs import evolve

from drylay.errors import FamilyError, Fault
from drylay.materials.model import Family, Rule, RuleQuery
from drylay.plugins.packaged import read_packaged
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_reader import read_family_table
from drylay.plugins.table_rules import table_rule
from drylay.reasons import Ruling

CodedRule = Callable[[FamilyTable, RuleQuery], Ruling]


def table_family(
    package: str,
    name: str,
    *,
    coded: Mapping[str, CodedRule] | None = None,
    base: Family | None = None,
    borrow: Collection[str] | None = None,
) -> Family:
    """Return the family whose table lies in a package.

    Args:
        package: The package the file lies in, `__name__` as a rule.
        name: The file, such as "larch.toml".
        coded: Rules that need code, by name; each is handed the table and the question.
        base: A family that answers every rule which table and code leave out.
        borrow: Which rules of the base to take, where not all.

    Raises:
        FamilyError: With everything that is wrong with the table.
    """
    return family_of(packaged_table(package, name), coded=coded, base=base, borrow=borrow)


@cache
def packaged_table(package: str, name: str) -> FamilyTable:
    """Return the table in a file that lies in a package, read once in a process.

    Every plan asks for the installed families, and reading theirs took a fifth of its time.

    Raises:
        FamilyError: With everything that is wrong with the table.
    """
    return read_packaged(package, name, read_family_table)


def family_of(
    table: FamilyTable,
    *,
    coded: Mapping[str, CodedRule] | None = None,
    base: Family | None = None,
    borrow: Collection[str] | None = None,
) -> Family:
    """Return the family of a table that is read already; see `table_family`.

    Raises:
        FamilyError: A rule has both an entry and code.
    """
    written = {name: partial(rule, table) for name, rule in (coded or {}).items()}
    tabled = {entry.name: partial(table_rule, table, rule=entry.name) for entry in table.rules}
    _refuse_both(tabled.keys() & written.keys())
    return Family(
        id=table.id,
        title=table.title,
        rules={**_borrowed(base, borrow), **tabled, **written},
        cautions=tuple(dict.fromkeys((*table.cautions, *(base.cautions if base else ())))),
    )


def _borrowed(base: Family | None, borrow: Collection[str] | None) -> dict[str, Rule]:
    if base is None:
        return {}
    names = base.rules if borrow is None else [name for name in base.rules if name in borrow]
    return {name: partial(_as_base, base, rule=name) for name in names}


def _as_base(base: Family, query: RuleQuery, *, rule: str) -> Ruling:
    ruling = base.rules[rule](query)
    return evolve(ruling, rule=f"as {base.title}: {ruling.rule}")


def _refuse_both(names: Collection[str]) -> None:
    faults = tuple(
        Fault(path=name, found="an entry in the table and code", wanted="one of them")
        for name in sorted(names)
    )
    if faults:
        raise FamilyError(faults)
