"""What a plan was made with: the release of drylay, the families that answered."""

from importlib import import_module

from drylay.plan.model import FamilyUsed
from drylay.planner.job import Articles
from drylay.plugins.guard import find_family
from drylay.plugins.model import FamilySet, InstalledFamily

#: What stands for the release of a family that the caller handed in himself.
NO_RELEASE = "no release"


def own_version() -> str:
    """Return the release of drylay."""
    return str(import_module("drylay").__version__)


def families_of(articles: Articles, families: FamilySet) -> tuple[InstalledFamily, ...]:
    """Return the families of the boards, the field's first, each once and as far as installed."""
    boards = [board for board in (articles.board, articles.border) if board is not None]
    ids = dict.fromkeys(board.family for board in boards)
    found = [find_family(families, family_id) for family_id in ids]
    return tuple(family for family in found if family is not None)


def families_used(families: tuple[InstalledFamily, ...]) -> tuple[FamilyUsed, ...]:
    """Return the families that answered, each with its package and release."""
    return tuple(
        FamilyUsed(
            id=family.family.id,
            title=family.family.title,
            package=family.origin.package or family.origin.plugin,
            version=family.origin.version or NO_RELEASE,
        )
        for family in families
    )


def cautions_of(families: tuple[InstalledFamily, ...]) -> tuple[str, ...]:
    """Return the cautions of these families, each once."""
    return tuple(dict.fromkeys(text for family in families for text in family.family.cautions))
