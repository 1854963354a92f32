"""A plan read from plain data by cattrs: every key is there, nothing is coerced, all faults told.

cattrs walks the nouns and gathers what does not fit. Left to itself it would turn "12.5" into
12.5, true into 1.0, a text into a tuple of letters, and a missing key into its default; so the
hooks here take a value only as it stands.
"""

from collections.abc import Callable, Iterator
from difflib import get_close_matches
from enum import Enum
from functools import cache
from types import NoneType
from typing import Any, get_args, get_origin

import attrs
from cattrs import (
    AttributeValidationNote,
    BaseValidationError,
    ClassValidationError,
    Converter,
    ForbiddenExtraKeysError,
    IterableValidationError,
    IterableValidationNote,
    override,
)
from cattrs.gen import make_dict_structure_fn_from_attrs

from drylay.errors import Fault, PlanFileError
from drylay.plan.model import Plan
from drylay.plan.values import SHOWN, TAKERS, UnfitError, as_it_stands, is_union, one_of, shown
from drylay.plan.walk import joined
from drylay.plan.words import WORDS

Hook = Callable[[Any, Any], Any]


def read_plan(document: object) -> Plan:
    """Return the plan that plain data holds.

    Raises:
        PlanFileError: The data is not exactly a plan of the newest schema; lists every fault.
    """
    try:
        return _converter().structure(document, Plan)
    except (BaseValidationError, UnfitError) as error:
        faults = tuple(_faults(error, ""))
    raise PlanFileError(faults)


@cache
def _converter() -> Converter:
    """Return the converter of plan files, its hooks all made.

    Nothing of it changes afterwards, so threads may share it. Two that ask at once for the
    first time may each make one, and both are the same.
    """
    made = Converter(forbid_extra_keys=True, detailed_validation=True)
    for kind in (*(TAKERS.keys() - {NoneType}), Enum):
        made.register_structure_hook(kind, as_it_stands)
    made.register_structure_hook_func(is_union, as_it_stands)
    made.register_structure_hook_factory(_is_tuple)(_tuple_hook)
    made.register_structure_hook_factory(attrs.has)(_noun_hook)
    made.get_structure_hook(Plan)
    return made


def _is_tuple(hint: Any) -> bool:
    origin: Any = get_origin(hint)
    return origin is tuple


def _noun_hook(noun: type, made: Converter) -> Hook:
    """Return the hook of a noun, for which a plan file writes out even what has a default."""
    fields = [field.evolve(default=attrs.NOTHING) for field in attrs.fields(noun)]
    words = {field.name: _word_hook(WORDS[noun, field.name]) for field in fields
             if (noun, field.name) in WORDS}  # fmt: skip
    overrides = {name: override(struct_hook=hook) for name, hook in words.items()}
    made_of: Any = make_dict_structure_fn_from_attrs  # its overrides come as keywords
    from_keys: Hook = made_of(fields, noun, made, **overrides)

    def hook(value: object, _: object) -> Any:
        if not isinstance(value, dict):
            raise UnfitError(shown(value), "an object")
        return from_keys(value, noun)

    return hook


def _word_hook(words: tuple[str, ...]) -> Hook:
    return lambda value, _: one_of(value, words)


def _tuple_hook(hint: Any, made: Converter) -> Hook:
    args = get_args(hint)
    return _list_hook(args[0], made) if args[-1] is ... else _row_hook(args, made)


def _list_hook(arg: Any, made: Converter) -> Hook:
    """Return the hook of a list of any length, its elements all alike."""
    elements = made.get_structure_hook(list[arg])

    def hook(value: object, _: object) -> tuple[Any, ...]:
        return tuple(elements(_checked_list(value), list[arg]))

    return hook


def _row_hook(args: tuple[Any, ...], made: Converter) -> Hook:
    """Return the hook of a list of so many values, each of its own kind."""

    def hook(value: object, hint: Any) -> tuple[Any, ...]:
        row = _checked_list(value)
        if len(row) != len(args):
            raise UnfitError(f"a list of {len(row)}", f"a list of {len(args)}")
        found, unfit = [], []
        for at, (part, arg) in enumerate(zip(row, args, strict=True)):
            try:
                found.append(made.get_structure_hook(arg)(part, arg))
            except (UnfitError, BaseValidationError) as error:
                error.add_note(IterableValidationNote(f"at {at}", at, arg))
                unfit.append(error)
        if unfit:
            raise IterableValidationError(f"{len(unfit)} do not fit", unfit, hint)
        return tuple(found)

    return hook


def _checked_list(value: object) -> list[object]:
    if not isinstance(value, list):
        raise UnfitError(shown(value), "a list")
    return value


def _faults(error: Exception, path: str) -> Iterator[Fault]:
    """Yield every fault that cattrs gathered, each with the path its notes lead to.

    Raises:
        Exception: The error tells of nothing in the file, so the fault is ours.
    """
    if isinstance(error, ClassValidationError | IterableValidationError):
        inside, others = error.group_exceptions()
        for other in others:
            yield from _faults(other, path)
        for part, note in inside:
            yield from _faults(part, _below(path, note))
    elif isinstance(error, ForbiddenExtraKeysError):
        yield from (_unknown(key, error.cl, path) for key in sorted(error.extra_fields))
    elif isinstance(error, UnfitError):
        place = path or "(whole file)"
        yield Fault(path=place, found=error.found, wanted=error.wanted, nearest=error.nearest)
    elif isinstance(error, KeyError):
        yield Fault(path=path, found="nothing", wanted="this key")
    else:
        raise error


def _below(path: str, note: AttributeValidationNote | IterableValidationNote) -> str:
    if isinstance(note, AttributeValidationNote):
        return joined(path, note.name)
    return f"{path}[{note.index}]"


def _unknown(key: str, noun: type, path: str) -> Fault:
    near = get_close_matches(key, [field.name for field in attrs.fields(noun)], n=1)
    place = joined(path, key[:SHOWN])
    return Fault(path=place, found="an unknown key", wanted="no such key", nearest="".join(near))
