"""What a design basis is asked, in words that the US basis's own functions take."""

from drylay.strength.basis_answers import near, uncovered
from drylay.strength.nds_values import grades_of, species_ids, species_name

ID = "us-allowable-stress"
#: What may stand in the table's place, signs apart.
_GRADES = {"selectstructural": "SS"}


def wood_of(wood: str) -> tuple[str, str]:
    """Return species and grade of a wood called by both, such as "SP No.2" or "Hem-Fir #1".

    A species by its short or its full name; capitals, spaces, hyphens and dots are free.

    Raises:
        UncoveredError: The table holds no such wood; the nearest is told. A grade alone is none.

    Source: NDS Supplement, by the rows of nds_values.toml.
    """
    known = dict(_known())
    sign = _signs(wood) if isinstance(wood, str) else ""
    for words, grade in _GRADES.items():
        sign = sign.removesuffix(words) + grade.lower() if sign.endswith(words) else sign
    if sign in known:
        return known[sign]
    names = tuple(f"{species} {grade}" for species, grade in dict.fromkeys(known.values()))
    wanted = f"a species and its grade, such as SP No.2; species: {', '.join(species_ids())}"
    alone = sign in {_signs(grade) for _, grade in known.values()}
    raise uncovered("wood", repr(wood), wanted, near(wood, names) if sign and not alone else "")


def _known() -> list[tuple[str, tuple[str, str]]]:
    return [
        (_signs(called + grade), (species, grade))
        for species in species_ids()
        for grade in grades_of(species)
        for called in (species, species_name(species))
    ]


def _signs(word: str) -> str:
    folded = word.casefold().replace("#", "no")
    return "".join(sign for sign in folded if sign.isalnum())
