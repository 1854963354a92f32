"""The plan file: a plan as JSON text and back, the same plan always the same bytes."""

import hashlib
import json
from typing import cast

from drylay.counting import counted
from drylay.errors import Fault, PlanFileError
from drylay.plan.model import Plan
from drylay.plan.reader import read_plan
from drylay.plan.upgrade import Document, upgraded, version_fault
from drylay.plan.values import Twice, shown
from drylay.plan.walk import plain

#: A plan file longer than this is no plan of a deck: refused before it is parsed.
LONGEST = 64_000_000


@counted
def plan_to_json(plan: Plan) -> str:
    """Return a plan as JSON text: sorted keys, money and words as text, plain ASCII.

    Raises:
        PlanFileError: The plan holds what no plan file may hold, such as nan.
    """
    checked = read_plan(plain(plan))
    return json.dumps(plain(checked), sort_keys=True, indent=1, allow_nan=False) + "\n"


@counted
def plan_from_json(text: str) -> Plan:
    """Return the plan that a plan file holds, read without coercion.

    Raises:
        PlanFileError: The text is no plan file of a known schema version; lists every fault.
    """
    document = _parsed(text)
    if not isinstance(document, dict):
        raise PlanFileError((_whole(shown(document), "an object"),))
    fault = version_fault(document.get("schema_version"))
    if fault is not None:
        raise PlanFileError((fault,))
    return read_plan(upgraded(cast(Document, document)))


def digest(plan: Plan) -> str:
    """Return the SHA-256 of a plan's file, as 64 hex digits.

    Raises:
        PlanFileError: The plan holds what no plan file may hold.
    """
    return hashlib.sha256(plan_to_json(plan).encode("ascii")).hexdigest()


def _parsed(text: str) -> object:
    if len(text) > LONGEST:
        raise PlanFileError((_whole(f"{len(text)} characters", f"at most {LONGEST}"),))
    try:
        return json.loads(text, object_pairs_hook=_object)
    except RecursionError:
        fault = _whole("brackets nested too deep", "a plan file's few levels")
    except json.JSONDecodeError as error:
        place = f"line {error.lineno}, column {error.colno}"
        fault = _whole(f"{error.msg} at {place}", "JSON text")
    except ValueError:
        fault = _whole("a whole number of thousands of digits", "JSON text")
    raise PlanFileError((fault,))


def _whole(found: str, wanted: str) -> Fault:
    return Fault(path="(whole file)", found=found, wanted=wanted)


def _object(pairs: list[tuple[str, object]]) -> dict[str, object]:
    """Return a JSON object with any key that it holds twice marked as such."""
    held: dict[str, object] = {}
    for key, value in pairs:
        held[key] = Twice(key=key) if key in held else value
    return held
