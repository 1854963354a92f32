"""Every key of a family's table. Conditions are made from the parts of the question itself."""

import re
from functools import cache
from typing import get_args, get_type_hints

from attrs import fields, frozen

from drylay.brief.model import EXPOSURES, USES
from drylay.intake.keys import Key, choice, flag, length, number, table, tables, text
from drylay.materials.model import DRIVEN_INTO, RuleQuery
from drylay.materials.stock_model import METALS
from drylay.reasons import SOURCE_KINDS

#: Who may say so in a family's table: neither the brief nor a person overriding it.
KINDS = tuple(kind for kind in SOURCE_KINDS if kind not in {"brief", "named person's override"})
#: What the parts of a question that every table speaks of are called for short.
SHORT = {"board_thickness": "thickness", "board_width": "width", "board_to_joist": "angle"}
#: The words there are for a part of the question, where they are few.
KNOWN_WORDS = {"driven_into": DRIVEN_INTO, "metal": METALS, "exposure": EXPOSURES, "use": USES}
_UNIT = re.compile(r"(.+?)((?:_per)?_(?:mm|deg|ratio|kg_m3|kg_m2|kg_m|kg|m2|m3|m|h|c|k|pct))?")
_MOST = 1e6

TOP: tuple[Key, ...] = (table("family", required=True), tables("rules"), tables("numbers"))
FAMILY: tuple[Key, ...] = (
    text("id", 40, required=True),
    text("title", required=True),
    Key(name="cautions", kind="measure"),
    table("source"),
)
SOURCE: tuple[Key, ...] = (
    choice("kind", KINDS, required=True),
    text("title", 120, required=True),
    text("clause", 200, empty=True),
)


@frozen(kw_only=True)
class Condition:
    """A key that says for which boards an entry holds: `end` is from, to, or "" for words."""

    key: Key
    part: str
    end: str


@cache
def parts(kind: type) -> tuple[str, ...]:
    """Return the parts of a question that are of one kind, such as `float`."""
    hints = get_type_hints(RuleQuery)
    names = (field.name for field in fields(RuleQuery))
    return tuple(n for n in names if hints[n] is kind or kind in get_args(hints[n]))


@cache
def conditions() -> tuple[Condition, ...]:
    """Return the conditions an entry may name, whatever a question tells today."""
    return (
        *(end for part in (*parts(float), *parts(int)) for end in _ends(part)),
        *(
            Condition(key=Key(name=part, kind="measure"), part=part, end="")
            for part in (*parts(str), *parts(bool))
        ),
    )


@cache
def entry_keys(named: str) -> tuple[Key, ...]:
    """Return the keys of one entry; `named` is the key of its name, `rule` or `name`."""
    return (
        text(named, 60, required=True),
        Key(name="value", kind="measure", required=True),
        text("says", 120),
        choice("times", parts(float)),
        flag("sine"),
        choice("plus", parts(float)),
        choice("minus", parts(float)),
        number("at_least", -_MOST, _MOST),
        table("source"),
        text("clause", 200, empty=True),
        *(condition.key for condition in conditions()),
    )


def _ends(part: str) -> tuple[Condition, ...]:
    match = _UNIT.fullmatch(part)
    stem, unit = (match[1], match[2] or "") if match else (part, "")
    stem = SHORT.get(stem, stem)
    return tuple(
        Condition(key=_end_key(f"{stem}_{end}{unit}", unit), part=part, end=end)
        for end in ("from", "to")
    )


def _end_key(name: str, unit: str) -> Key:
    return length(name, 0, _MOST) if unit == "_mm" else number(name, -_MOST, _MOST)
