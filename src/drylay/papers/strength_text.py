"""In words: by what a deck's timber was screened, and how far each member is used."""

from drylay.papers.loads import force, spread, used
from drylay.papers.wording import clean, many
from drylay.plan.model import Plan
from drylay.strength.model import Check, Screened, Strength

#: What findings that tell a basis's assumptions are called.
ASSUMED = "STR-003"
#: No text of a basis is printed longer than this.
LONGEST = 300
CAUTION = (
    "To lie within the screened limits of this basis is no design and no promise: local code comes "
    "first, and a licensed engineer decides wherever the basis does not cover what you have."
)
MORE = "Every check with its formula and inputs: strength.csv."


def strength_told(plan: Plan) -> list[str]:
    """Return what the timber was screened by and the worst check of each kind, point load first."""
    strength = plan.strength
    if strength is None:
        return []
    told = [*shared_told(strength, plan.units), *granted_told(plan, strength)]
    told += [worst_told(one) for one in _worst_of_kinds(strength)]
    told += [f"{clean(one.subject)}: {clean(text, LONGEST)}." for one in strength.screened
             for text in one.stops]  # fmt: skip
    return [*told, limits_told(strength), CAUTION]


def granted_told(plan: Plan, strength: Strength) -> list[str]:
    """Return what a basis assumes, or that the plan's findings tell it."""
    if any(finding.code == ASSUMED for finding in plan.findings):
        return [f"What the basis assumes: see the findings, {ASSUMED}."]
    return assumed_told(strength)


def basis_told(strength: Strength, units: str) -> list[str]:
    """Return how the point load is shared, then the basis, its loads and what it assumes."""
    return [*shared_told(strength, units), *assumed_told(strength)]


def assumed_told(strength: Strength) -> list[str]:
    """Return what the basis takes for granted, each once."""
    assumed = dict.fromkeys(text for one in strength.screened for text in one.assumed)
    return [f"Assumed: {clean(text, LONGEST)}." for text in assumed]


def shared_told(strength: Strength, units: str) -> list[str]:
    """Return how the point load is shared, then the basis and its loads."""
    apart = "members' own weight apart" if strength.own_weight_apart else "members and all"
    if strength.heavier_kn_m2:
        apart += f"; {spread(strength.heavier_kn_m2, units)} more, for the cover is heavier"
    return [
        f"How the point load of {force(strength.point_kn, units)} is shared: "
        f"{clean(strength.sharing, LONGEST)}.",
        f"Basis: {clean(strength.title)} ({clean(strength.basis)}), use "
        f"{clean(strength.use)}. For good {spread(strength.dead_kn_m2, units)} ({apart}), imposed "
        f"{spread(strength.imposed_kn_m2, units)}; the point load acts alone, at any one place.",
    ]


def limits_told(strength: Strength) -> str:
    """Return whether all that was asked lies within the screened limits, and by how much."""
    most = f"most used {used(strength.most_ratio)} of 1"
    count = many(len(strength.screened), "member")
    if strength.most_ratio > 1 or any(one.stops for one in strength.screened):
        return f"NOT within the screened limits: {count} asked, {most}."
    return f"Within the screened limits: {count} asked, {most}. {MORE}"


def worst_check(screened: Screened) -> Check | None:
    """Return a member's most used check; None where nothing was checked."""
    return max(screened.checks, key=lambda one: one.utilisation_ratio, default=None)


def worst_told(screened: Screened) -> str:
    """Return a member's most used check, its case and its clause."""
    check = worst_check(screened)
    if check is None:
        return f"{clean(screened.subject)}: not checked."
    return (
        f"{clean(screened.subject)}: {used(check.utilisation_ratio)} of 1, {clean(check.name)}, "
        f"{clean(check.case)} ({source_told(check)})."
    )


def source_told(check: Check) -> str:
    """Return who says so, with the clause, and that it is from memory where it is."""
    source = check.source
    place = ", ".join(clean(part) for part in (source.title, source.clause) if part)
    return f"{source.kind}: {place}" if source.kind == "from memory" else place


def _worst_of_kinds(strength: Strength) -> list[Screened]:
    """Return of joists, bearers, posts, boards, ledgers, guards' posts the one used most."""
    kinds = [
        *(beam.kind for beam in strength.beams),
        *("post" for _ in strength.posts),
        *("board" for _ in strength.boards),
        *("ledger" for _ in strength.ledgers),
        *("guard post" for _ in strength.guard_posts),
    ]
    worst: dict[str, Screened] = {}
    for kind, one in zip(kinds, strength.screened, strict=False):
        if kind not in worst or _ratio(one) > _ratio(worst[kind]):
            worst[kind] = one
    return list(worst.values())


def _ratio(screened: Screened) -> float:
    check = worst_check(screened)
    return check.utilisation_ratio if check else -1.0
