"""What a plan was made with: the release of drylay, the family that answered."""

from importlib import import_module

from drylay.plan.model import FamilyUsed
from drylay.plugins.model import InstalledFamily

#: What stands for the release of a family that the caller handed in himself.
NO_RELEASE = "no release"


def own_version() -> str:
    """Return the release of drylay."""
    return str(import_module("drylay").__version__)


def families_used(family: InstalledFamily | None) -> tuple[FamilyUsed, ...]:
    """Return the family that answered, with its package and release; nothing where none did."""
    if family is None:
        return ()
    used = FamilyUsed(
        id=family.family.id,
        title=family.family.title,
        package=family.origin.package or family.origin.plugin,
        version=family.origin.version or NO_RELEASE,
    )
    return (used,)
