"""What a plugin hands over is looked at before it is believed."""

import re
import unicodedata
from collections.abc import Iterator
from typing import TypeGuard, TypeVar

from drylay.errors import InputError
from drylay.findings import Finding, Severity
from drylay.materials.model import QUESTIONS, Family
from drylay.materials.stock_model import Catalogue
from drylay.reasons import SOURCE_KINDS, Ruling, Source

_Noun = TypeVar("_Noun")
_LARGEST = 1e12
#: The longest text of a plugin, and kinds of signs that none may hold: control, halves of pairs.
MOST_TEXT = 1_000
MUTE = {"Cc", "Cs"}
#: The most findings that a local rule may have about one plan.
MOST_FINDINGS = 1_000
ID = re.compile(r"[a-z][a-z0-9-]*")
_CODE = re.compile(r"[A-Za-z0-9][A-Za-z0-9-]{0,39}", re.ASCII)
#: File names that every file system keeps as they are, and that no shell takes for an option.
_FILE = re.compile(r"[A-Za-z0-9_][A-Za-z0-9._-]*", re.ASCII)
_LONGEST_FILE = 80
#: Names that Windows keeps for devices, whatever follows their first dot. From memory.
_DEVICES = {
    "con",
    "prn",
    "aux",
    "nul",
    *(f"{port}{n}" for port in ("com", "lpt") for n in range(10)),
}


def kind_of(thing: object) -> str:
    """Return what a thing is, as a message says it, without asking the thing itself."""
    return type(thing).__name__


def told(error: BaseException) -> str:
    """Return an error as one line, even where the error cannot say it."""
    try:
        text = " ".join(str(error).split())
    except Exception:
        text = "(its message cannot be read)"
    return f"{kind_of(error)}: {text}" if text else kind_of(error)


def told_apart(error: BaseException) -> tuple[str, ...]:
    """Return each fault of an input error as one line, nothing where there is but one or none."""
    try:
        faults = error.faults if isinstance(error, InputError) else ()
        each = tuple(" ".join(str(fault).split()) for fault in faults)
    except Exception:
        return ()
    return each if len(each) > 1 else ()


def family_wrongs(family: object) -> Iterator[str]:
    """Yield everything wrong with what a plugin says is a family."""
    if not is_exactly(family, Family):
        yield f"found {kind_of(family)}, wanted Family"
        return
    if not is_text(family.id) or not ID.fullmatch(family.id):
        yield f"family id {family.id!r}, wanted small letters, digits and hyphens"
        return
    if not is_text(family.title):
        yield f"family {family.id}: no title"
    yield from _rules_wrongs(family)
    if not isinstance(family.cautions, tuple) or not all(map(is_text, family.cautions)):
        yield f"family {family.id}: cautions, wanted a tuple of texts"


def _rules_wrongs(family: Family) -> Iterator[str]:
    if not is_exactly(family.rules, dict):
        yield f"family {family.id}: rules are {kind_of(family.rules)}, wanted dict"
        return
    for name, rule in family.rules.items():
        if name not in QUESTIONS:
            yield f"family {family.id}: unknown rule {name!r}"
        elif not callable(rule):
            yield f"family {family.id}: rule {name} is {kind_of(rule)}, wanted a function"


def catalogue_wrongs(catalogue: object) -> Iterator[str]:
    """Yield everything wrong with what a plugin says is a catalogue.

    Only its shape: what its articles say is checked by the catalogue reader.
    """
    if not is_exactly(catalogue, Catalogue):
        yield f"found {kind_of(catalogue)}, wanted Catalogue"
    elif not is_text(catalogue.name):
        yield "catalogue without a name"


def local_rule_wrongs(rule: object) -> Iterator[str]:
    """Yield everything wrong with what a plugin says is a local rule."""
    if not is_exactly(rule, tuple) or len(rule) != 2:
        yield f"found {kind_of(rule)}, wanted a pair (name, function)"
        return
    name, look = rule
    if not is_text(name) or not ID.fullmatch(name):
        yield f"local rule {name!r}, wanted small letters, digits and hyphens"
    if not callable(look):
        yield f"local rule {name!r} is {kind_of(look)}, wanted a function"


def paper_wrongs(paper: object) -> Iterator[str]:
    """Yield everything wrong with what a plugin says is a paper."""
    if not is_exactly(paper, tuple) or len(paper) != 2:
        yield f"found {kind_of(paper)}, wanted a pair (file name, function)"
        return
    name, make = paper
    yield from _file_wrongs(name)
    if not callable(make):
        yield f"paper {name!r} is {kind_of(make)}, wanted a function"


def _file_wrongs(name: object) -> Iterator[str]:
    if not is_exactly(name, str):
        yield f"file name is {kind_of(name)}, wanted text"
    elif len(name) > _LONGEST_FILE:
        yield f"file name of {len(name)} signs, wanted at most {_LONGEST_FILE}"
    elif not _FILE.fullmatch(name) or name.endswith("."):
        signs = "ASCII letters, digits and . - _, neither dot nor hyphen first, no dot last"
        yield f"file name {name!r}, wanted {signs}"
    elif name.split(".")[0].lower() in _DEVICES:
        yield f"file name {name!r}, which some systems keep for a device"


def ruling_wrongs(ruling: object, unit: str) -> Iterator[str]:
    """Yield everything wrong with a rule's answer, which should be in `unit`."""
    if is_exactly(ruling, Ruling):
        if ruling.unit != unit:
            yield f"unit {ruling.unit!r}, wanted {unit!r}"
        yield from _value_wrongs(ruling.value, unit)
        yield from source_wrongs(ruling.source)
    yield from ruling_text_wrongs(ruling)


def ruling_text_wrongs(ruling: object) -> Iterator[str]:
    """Yield what is wrong with an answer besides its number, unit and source."""
    if not is_exactly(ruling, Ruling):
        yield f"found {kind_of(ruling)}, wanted Ruling"
        return
    if not is_text(ruling.rule):
        yield "the rule does not say its name"
    if not are_inputs(ruling.inputs):
        yield "inputs, wanted a tuple of pairs (name, finite number or text)"


def findings_wrongs(answer: object) -> Iterator[str]:
    """Yield everything wrong with what a local rule says are its findings."""
    if not is_exactly(answer, tuple):
        yield f"found {kind_of(answer)}, wanted a list of findings"
    elif len(answer) > MOST_FINDINGS:
        yield f"{len(answer)} findings, wanted at most {MOST_FINDINGS}"
    else:
        for at, finding in enumerate(answer):
            yield from (f"finding {at}: {wrong}" for wrong in finding_wrongs(finding))


def finding_wrongs(finding: object) -> Iterator[str]:
    """Yield everything wrong with what a local rule says is a finding."""
    if not is_exactly(finding, Finding):
        yield f"found {kind_of(finding)}, wanted Finding"
        return
    if not is_text(finding.code) or not _CODE.fullmatch(finding.code):
        yield f"code {finding.code!r}, wanted letters, digits and hyphens"
    if not is_exactly(finding.severity, Severity):
        yield f"severity is {kind_of(finding.severity)}, wanted Severity"
    for name in ("subject", "message"):
        if not is_text(getattr(finding, name)):
            yield f"{name}, wanted text on one line"
    if not is_exactly(finding.unit, str) or not can_be_told(finding.unit):
        yield "unit, wanted text on one line"
    for name in ("measured", "limit"):
        figure = getattr(finding, name)
        if figure is not None and not (is_number(figure) and is_finite(figure)):
            yield f"{name} is no finite number"
    yield from source_wrongs(finding.source)


def _value_wrongs(value: object, unit: str) -> Iterator[str]:
    wrongs = tuple(number_wrongs(value))
    yield from wrongs
    if not wrongs and is_number(value) and not is_possible(value, unit):
        yield f"value {value!r} cannot be a {unit} here"


def number_wrongs(value: object) -> Iterator[str]:
    """Yield what is wrong with a value that should be a finite number."""
    if not is_number(value):
        yield f"value is {kind_of(value)}, wanted int or float"
    elif not is_finite(value):
        yield f"value {value!r} is not finite"


def source_wrongs(source: object) -> Iterator[str]:
    """Yield everything wrong with what should be a source."""
    if not is_exactly(source, Source):
        yield f"source is {kind_of(source)}, wanted Source"
        return
    if source.kind not in SOURCE_KINDS:
        yield f"source kind {source.kind!r} is none of {', '.join(SOURCE_KINDS)}"
    if not is_text(source.title):
        yield "the source has no title"
    if not is_exactly(source.clause, str) or not can_be_told(source.clause):
        yield f"source clause is {kind_of(source.clause)}, wanted text on one line"


def is_exactly(thing: object, noun: type[_Noun]) -> TypeGuard[_Noun]:
    """Return whether something is of this very noun: a subclass may answer as it likes."""
    return type(thing) is noun


def is_number(value: object) -> TypeGuard[int | float]:
    """Return whether something is a number: neither True nor a text that looks like 400 is."""
    return type(value) in (int, float)


def is_finite(value: float) -> bool:
    """Return whether a number is finite: nan is not within anything, and no deck is this long."""
    return abs(value) <= _LARGEST


def is_possible(value: float, unit: str) -> bool:
    """Return whether a finite number can be of a unit: counts are whole, nothing is below 0."""
    match unit:
        case "count":
            return value >= 0 and value == int(value)
        case "yes/no":
            return value in (0, 1)
        case "ratio":
            return 0 <= value <= 1
    return value >= 0


def is_text(thing: object) -> TypeGuard[str]:
    """Return whether something is a text that papers and plan files hold: a printable line."""
    return is_exactly(thing, str) and bool(thing.strip()) and can_be_told(thing)


def can_be_told(text: str) -> bool:
    """Return whether a text, an empty one too, is one printable line of bearable length."""
    if len(text) > MOST_TEXT:
        return False
    return text.isprintable() or all(unicodedata.category(s) not in MUTE for s in text)


def are_inputs(inputs: object) -> bool:
    """Return whether something is a tuple of named figures and texts."""
    return isinstance(inputs, tuple) and all(map(_is_input, inputs))


def _is_input(pair: object) -> bool:
    if not isinstance(pair, tuple) or len(pair) != 2 or not is_text(pair[0]):
        return False
    value = pair[1]
    if is_exactly(value, str):
        return can_be_told(value)
    return is_number(value) and is_finite(value)
