"""What a design basis hands over is looked at before it is believed."""

from collections.abc import Iterator
from math import isclose

from drylay.plugins.shapes import (
    ID,
    are_inputs,
    can_be_told,
    is_exactly,
    is_finite,
    is_number,
    is_text,
    kind_of,
    source_wrongs,
)
from drylay.strength.model import Check, DeckLoads, DesignBasis, Screened

#: The most checks, and the most sentences, that a basis may have about one member.
MOST_CHECKS, MOST_SAID = 200, 100
FUNCTIONS = ("loads", "beam", "post", "board", "ledger")
_LOADS = ("dead_kn_m2", "imposed_kn_m2", "point_kn")


def basis_wrongs(basis: object) -> Iterator[str]:
    """Yield everything wrong with what a plugin says is a design basis."""
    if not is_exactly(basis, DesignBasis):
        yield f"found {kind_of(basis)}, wanted DesignBasis"
        return
    if not is_text(basis.id) or not ID.fullmatch(basis.id):
        yield f"design basis id {basis.id!r}, wanted small letters, digits and hyphens"
        return
    named = f"design basis {basis.id}"
    if not is_text(basis.title):
        yield f"{named}: no title"
    for words in ("sharings", "fixings"):
        if not _are_texts(getattr(basis, words)):
            yield f"{named}: {words}, wanted a tuple of texts"
    if not basis.sharings:
        yield f"{named}: sharings, wanted the one that holds unless told first"
    if not is_exactly(basis.halved, bool):
        yield f"{named}: halved is {kind_of(basis.halved)}, wanted bool"
    for name in FUNCTIONS:
        if not callable(getattr(basis, name)):
            yield f"{named}: {name} is {kind_of(getattr(basis, name))}, wanted a function"
    if basis.guard_post is not None and not callable(basis.guard_post):
        wanted = "a function, or None where it knows no guard posts"
        yield f"{named}: guard_post is {kind_of(basis.guard_post)}, wanted {wanted}"


def loads_wrongs(loads: object, use: str) -> Iterator[str]:
    """Yield everything wrong with what a basis says a use lays on a deck."""
    if not is_exactly(loads, DeckLoads):
        yield f"found {kind_of(loads)}, wanted DeckLoads"
        return
    if not is_exactly(loads.use, str) or loads.use != use:
        yield "use is not the one that was asked for"
    for name in _LOADS:
        yield from _figure_wrongs(name, getattr(loads, name))
    if not is_exactly(loads.own_weight_apart, bool):
        yield f"own_weight_apart is {kind_of(loads.own_weight_apart)}, wanted bool"
    if not _are_texts(loads.stops):
        yield "stops, wanted a tuple of texts"
    elif not loads.stops and loads.imposed_kn_m2 == 0:
        yield "no imposed load, and no stop"
    yield from source_wrongs(loads.source)


def screened_wrongs(found: object, subject: str, *, wordy: bool = False) -> Iterator[str]:
    """Yield everything wrong with a basis's answer about one member, `subject`.

    A member without check and without stop would pass unseen. Only where it may be `wordy`, as
    boards that go by a table of their own, is what is assumed answer enough.
    """
    if not is_exactly(found, Screened):
        yield f"found {kind_of(found)}, wanted Screened"
        return
    if not is_text(found.basis):
        yield "the answer does not say by which basis"
    if not is_exactly(found.subject, str) or found.subject != subject:
        yield f"the answer is about something else than {subject}"
    for said in ("assumed", "stops"):
        if not _are_texts(getattr(found, said)):
            yield f"{said}, wanted a tuple of up to {MOST_SAID} texts"
    if not is_exactly(found.checks, tuple) or len(found.checks) > MOST_CHECKS:
        yield f"checks, wanted a tuple of up to {MOST_CHECKS}"
        return
    if not (found.checks or found.stops or (wordy and found.assumed)):
        yield "neither a check nor a stop"
    for at, check in enumerate(found.checks):
        yield from (f"check {at}: {wrong}" for wrong in check_wrongs(check, subject))


def check_wrongs(check: object, subject: str) -> Iterator[str]:
    """Yield everything wrong with one check of a member, `subject`."""
    if not is_exactly(check, Check):
        yield f"found {kind_of(check)}, wanted Check"
        return
    for name in ("name", "case", "formula"):
        if not is_text(getattr(check, name)):
            yield f"{name}, wanted text on one line"
    if not is_exactly(check.unit, str) or not can_be_told(check.unit):
        yield "unit, wanted text on one line"
    if not is_exactly(check.subject, str) or check.subject != subject:
        yield f"it is about something else than {subject}"
    if not are_inputs(check.inputs):
        yield "inputs, wanted a tuple of pairs (name, finite number or text)"
    yield from source_wrongs(check.source)
    figures = tuple(_figures_wrongs(check))
    yield from figures
    if not figures and not _divides(check):
        yield "utilisation_ratio is not measured over limit"


def _figures_wrongs(check: Check) -> Iterator[str]:
    for name in ("measured", "limit", "utilisation_ratio"):
        yield from _figure_wrongs(name, getattr(check, name))
    if is_number(check.limit) and check.limit == 0:
        yield "limit is 0, wanted above 0"


def _divides(check: Check) -> bool:
    ratio = check.measured / check.limit
    return isclose(check.utilisation_ratio, ratio, rel_tol=1e-9, abs_tol=1e-12)


def _figure_wrongs(name: str, value: object) -> Iterator[str]:
    if not is_number(value):
        yield f"{name} is {kind_of(value)}, wanted int or float"
    elif not is_finite(value) or value < 0:
        yield f"{name} is {value!r}, wanted a finite number, 0 or above"


def _are_texts(texts: object) -> bool:
    return is_exactly(texts, tuple) and len(texts) <= MOST_SAID and all(map(is_text, texts))
