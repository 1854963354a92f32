"""Old plan files brought up to the present schema, one function per step."""

from collections.abc import Callable, Mapping

from drylay.errors import Fault
from drylay.plan.model import SCHEMA_VERSION
from drylay.plan.values import shown

Document = dict[str, object]
Step = Callable[[Document], Document]

#: The step from each schema version to the next. Version 1 is the first: there are none yet.
STEPS: dict[int, Step] = {}


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
