"""Old plan files brought up to the present schema, one function per step."""

from collections.abc import Callable, Mapping
from functools import partial

from drylay.errors import Fault
from drylay.plan.added import with_added
from drylay.plan.model import SCHEMA_VERSION
from drylay.plan.values import shown

Document = dict[str, object]
Step = Callable[[Document], Document]


def _with_site_and_work(document: Document) -> Document:
    """Return a plan of version 1 with what version 2 counts besides: nothing, it counted none.

    Faults of a damaged file are for the reader to tell: what is no object stays as it is.
    """
    document = {"site": None, "groundwork": None, "work": None, **document}
    fixings, buying = document.get("fixings"), document.get("buying")
    if isinstance(fixings, dict):
        document["fixings"] = _with_more_fixings(fixings)
    if isinstance(buying, dict):
        packs, order, spares = (_counted(buying.get(key)) for key in ("packs", "order", "spares"))
        more = {"packs": packs, "order": order, "spares": spares}
        document["buying"] = {"delivery": None, **buying, **more}
    return document


def _with_more_fixings(fixings: Document) -> Document:
    none = ("frame_screws", "fascia_screws", "hangers", "preserver", "finish")
    deck, coach = fixings.get("deck_screws"), fixings.get("coach_screws")
    if isinstance(deck, dict):
        fixings = {**fixings, "deck_screws": {"driver": "", **deck}}
    if isinstance(coach, dict):
        unknown = {"driver": "", "pilot_ratio": None, "pilot_mm": None}
        fixings = {**fixings, "coach_screws": {**unknown, **coach}}
    classes: Document = {
        "board_use_class_least": None,
        "frame_use_class_least": None,
        "use_classes": [],
    }
    return {**dict.fromkeys(none), **classes, "metals": [], **fixings}


def _counted(lines: object) -> object:
    """Return lines of an order with their unit, which was always pieces."""
    if not isinstance(lines, list):
        return lines
    return [{"unit": "pieces", **line} if isinstance(line, dict) else line for line in lines]


def _with_sets_beside(document: Document) -> Document:
    """Return a plan of version 2 with what version 3 tells of proofs besides.

    No set of lines lay beside another then, and all counted their stations from 0. A price on
    a window was on the same stations of either neighbour. Certificates told no splits, and named
    the grade that now has them for the search that found as much.
    """
    document = {"tiling": None, **document}
    document = _within(document, ("buying", "purchases"), _with_grade_of_splits)
    return _within(document, ("buying", "purchases", "proof"), _with_sets_of_a_proof)


def _with_grade_of_splits(graded: Document) -> Document:
    if graded.get("grade") != "worth vectors and integer search":
        return graded
    return {**graded, "grade": "worth vectors and splits"}


def _with_sets_of_a_proof(proof: Document) -> Document:
    proof = _within(proof, ("task",), lambda task: {"beside": [], **task})
    proof = _within(proof, ("task", "lines"), lambda line: {"first_station": 0, **line})
    proof = _within(proof, ("certificate",), lambda certificate: {"splits": [], **certificate})
    proof = _within(proof, ("certificate",), _with_grade_of_splits)
    return _within(proof, ("certificate", "vectors", "windows"), _with_two_stretches)


def _with_two_stretches(window: Document) -> Document:
    alike = {"beside": "line", "beside_first": "first", "beside_width": "width"}
    known = {new: window[old] for new, old in alike.items() if old in window}
    return {**known, **window}


def _within(holder: Document, path: tuple[str, ...], change: Step) -> Document:
    """Return an object with what lies at a path below it changed, in lists each item of it.

    Faults of a damaged file are for the reader to tell: what is no object stays as it is.
    """
    key, *rest = path

    def changed(found: object) -> object:
        if isinstance(found, list):
            return [changed(item) for item in found]
        if not isinstance(found, dict):
            return found
        return _within(found, tuple(rest), change) if rest else change(found)

    return {**holder, key: changed(holder[key])} if key in holder else holder


#: What fixings and delivery tell of a border, which no plan had.
OF_A_BORDER = ("border_screws", "border_use_class_least", "seal_border_ends", "wax_border_ends")
WEIGHED_OF_A_BORDER = ("border_kg_m", "border_extra_mass_kg_m2", "border_density_kg_m3")


def _with_makes_of_boards(document: Document) -> Document:
    """Return a plan with what is told since of the boards' make: nothing, for none was asked."""
    told: tuple[tuple[tuple[str, ...], Document], ...] = (
        (("surface",), {"groove_mm": None, "fall_least_ratio": None, "border": None}),
        (("surface", "rows"), {"border": False}),
        (("pieces",), {"handed": None, "border": None}),
        (("pieces", "pieces"), {"arrow": ""}),
        (("fixings",), {"seal_board_ends": None, "wax_board_ends": None, "wax": None}),
        (("fixings",), dict.fromkeys(OF_A_BORDER)),
        (("fixings", "finish"), {"border_m2": None, "border_groove_ratio": None,
                                 "border_face_up": ""}),
        (("fixings", "deck_screws"), {"predrill_all": None}),
        (("site", "levels"), {"rises_to_ground": None, "last_rise_mm": None}),
        (("buying",), {"whole_packs": []}),
        (("buying", "order"), {"gtin": ""}),
        (("buying", "spares"), {"gtin": ""}),
        (("buying", "delivery"), {"board_kg_m": None, "extra_mass_kg_m2": None}),
        (("buying", "delivery"), dict.fromkeys(WEIGHED_OF_A_BORDER)),
    )  # fmt: skip
    for path, unknown in told:
        document = _within(document, path, partial(_with, unknown))
    return document


def _with(unknown: Document, found: Document) -> Document:
    return {**unknown, **found}


def _marked_as_a_board(bought: Document) -> Document:
    """Return a bought length of board marked as today: D1 is a double of a frame's now."""
    mark = bought.get("mark")
    if isinstance(mark, str) and mark[:1] == "D" and mark[1:].isdecimal():
        return {**bought, "mark": f"DB{mark[1:]}"}
    return bought


def _to_the_third(document: Document) -> Document:
    """Return a plan of version 2 as version 3 has it; no local rule was asked of it."""
    document = _with_makes_of_boards(_with_sets_beside(document))
    document = _within(document, ("buying", "purchases", "lengths"), _marked_as_a_board)
    return with_added({"local_rules": [], **document})


#: The step from each schema version to the next.
STEPS: dict[int, Step] = {1: _with_site_and_work, 2: _to_the_third}


def version_fault(
    found: object, *, steps: Mapping[int, Step] = STEPS, newest: int = SCHEMA_VERSION
) -> Fault | None:
    """Return what is wrong with a file's schema version, None if it can be read."""
    oldest = min([*steps, newest])
    if type(found) is int and oldest <= found <= newest:
        return None
    wanted = f"{newest}" if oldest == newest else f"{oldest} to {newest}"
    nearest = ""
    if type(found) is int:
        nearest = "read it with the release of drylay that wrote it"
        if found > newest:
            nearest = "install the release of drylay that wrote it, or a later one"
    return Fault(path="schema_version", found=shown(found), wanted=wanted, nearest=nearest)


def upgraded(
    document: Document, *, steps: Mapping[int, Step] = STEPS, newest: int = SCHEMA_VERSION
) -> Document:
    """Return a plan file's data as the newest schema has it; its version must be readable."""
    version = int(str(document["schema_version"]))
    for step in range(version, newest):
        document = {**steps[step](document), "schema_version": step + 1}
    return document
