"""What a merchant's word on treatment says: the use classes it names, or that there is none."""

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from drylay.errors import Fault
from drylay.intake.shown import shown_text

_CLASSES = re.compile(
    r"\b(?:use\s+class(?:es)?|UC)\s*-?\s*([1-5](?!\d)(?:\s*(?:-|–|/|,|&|\bto\b|\band\b|\bor\b)"
    r"\s*[1-5](?!\d))*)",
    re.ASCII | re.IGNORECASE,
)
#: "none", "untreated, planed": how a list says so. Assumption.
_NONE = re.compile(r"(?:none|untreated|not\s+treated|no\s+treatment)\b", re.ASCII | re.IGNORECASE)


@lru_cache(maxsize=256)
def classes_said(treatment: str) -> tuple[int, ...]:
    """Return the use classes that a treatment names; a long list names the same ones for ever."""
    told = "".join(_CLASSES.findall(treatment))
    return tuple(sorted({int(glyph) for glyph in told if glyph.isdigit()}))


@lru_cache(maxsize=256)
def is_untreated(treatment: str) -> bool:
    """Return whether a treatment says that there is none."""
    return _NONE.match(treatment) is not None


def contradicts(known: object, treatment: object) -> bool:
    """Return whether a treatment says otherwise than a use class that is told beside it."""
    if not isinstance(known, int) or not isinstance(treatment, str):
        return False
    return is_untreated(treatment) or classes_said(treatment) not in ((), (known,))


def check_use_class(read: dict[str, Any]) -> Iterator[Fault]:
    """Yield a use class that contradicts what the treatment says of it: neither is guessed."""
    known, treatment = read["use_class"], read["treatment"]
    said = classes_said(treatment)
    wanted = "the same use class as the treatment names: ask the merchant which is true"
    fix = f"use_class = {said[0]}" if len(said) == 1 else "one use class in treatment"
    if is_untreated(treatment):
        wanted = "no use class: it is what timber is treated to"
        fix = "leave out use_class; durability_class is for what the wood itself withstands"
    told = f"{known} with treatment = {shown_text(treatment)}"
    yield Fault(path="use_class", found=told, wanted=wanted, nearest=fix)


def take_class_from_treatment(read: dict[str, Any]) -> None:
    """Give an article the one use class that its treatment names, where it tells none."""
    treatment = read.get("treatment")
    if "use_class" not in read and isinstance(treatment, str):
        said = classes_said(treatment)
        if len(said) == 1 and not is_untreated(treatment):
            read["use_class"] = said[0]
