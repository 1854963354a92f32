"""How woods move, by species: the rows of species.toml, each with who says so."""

import tomllib
from collections.abc import Iterator
from difflib import get_close_matches
from functools import cache
from importlib import resources
from typing import Any

from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.movement.bounds import refuse, shown
from drylay.movement.model import Species
from drylay.movement.width import movement_from_shrinkage
from drylay.reasons import Inputs, Ruling, Source

_SAWN = ("flat", "quarter")


@cache
def all_species() -> tuple[Species, ...]:
    """Return every wood of the table that lies in this package, in its order."""
    text = resources.files("drylay.movement").joinpath("species.toml").read_text("utf-8")
    content = tomllib.loads(text)
    sources = {key: Source(**source) for key, source in content["sources"].items()}
    return tuple(_species(row, sources) for row in content["species"])


def species_named(name: str) -> Species:
    """Return the wood of this name.

    Raises:
        InputError: The table has none; the nearest names are told.
    """
    for species in all_species():
        if species.name == name:
            return species
    names = [species.name for species in all_species()]
    near = get_close_matches(name, names, n=3, cutoff=0.4) if isinstance(name, str) else []
    wanted = f"one of the {len(names)} woods of the table of species"
    fault = Fault(path="species", found=shown(name), wanted=wanted, nearest=" or ".join(near))
    raise InputError((fault,))


@counted
def wood_movement(species: str, *, sawn: str = "flat") -> Ruling:
    """Return how much a wood moves for each 1 % of moisture content, as a share of the width.

    The handbook's coefficient, or where it prints none, the one that goes with its shrinkage
    from green to oven-dry. Flat sawn boards move most; take a board for flat sawn unless its
    year rings stand upright.

    Args:
        species: A name of the table, such as "Pine, loblolly".
        sawn: "flat" (along the year rings, tangential) or "quarter" (across them, radial).

    Raises:
        InputError: There is no such wood in the table, or no such way to saw it.

    Source: Wood Handbook FPL-GTR-190, tables 13-5, 4-3 and 4-4; the ruling says which, and
        whether it was read or is from memory.
    """
    refuse(_unfit_sawn(sawn))
    wood = species_named(species)
    inputs: Inputs = (("species", wood.name), ("sawn", sawn))
    inputs += (("note", wood.note),) if wood.note else ()
    flat = sawn == "flat"
    printed = wood.flat_per_pct if flat else wood.quarter_per_pct
    if printed is not None and wood.movement_source is not None:
        rule = "coefficient of the width for each 1 %"
        return _ruling(printed, rule, wood.movement_source, inputs)
    shrinkage_pct = wood.flat_shrinkage_pct if flat else wood.quarter_shrinkage_pct
    return _from_shrinkage(wood, shrinkage_pct, inputs)


def _from_shrinkage(wood: Species, shrinkage_pct: float | None, inputs: Inputs) -> Ruling:
    assert shrinkage_pct is not None
    assert wood.shrinkage_source is not None  # each row has a movement or a shrinkage
    value = movement_from_shrinkage(shrinkage_pct=shrinkage_pct, saturation_pct=wood.saturation_pct)
    more: Inputs = (("shrinkage_pct", shrinkage_pct), ("saturation_pct", wood.saturation_pct))
    rule = "coefficient that goes with the shrinkage from green to oven-dry"
    return _ruling(value, rule, wood.shrinkage_source, inputs + more)


def _ruling(value: float, rule: str, source: Source, inputs: Inputs) -> Ruling:
    return Ruling(value=value, unit="per %", rule=rule, source=source, inputs=inputs)


def _species(row: dict[str, Any], sources: dict[str, Source]) -> Species:
    movement, shrinkage = row.get("movement", {}), row.get("shrinkage", {})
    return Species(
        name=row["name"],
        flat_per_pct=movement.get("flat_per_pct"),
        quarter_per_pct=movement.get("quarter_per_pct"),
        movement_source=sources.get(movement.get("source")),
        flat_shrinkage_pct=shrinkage.get("flat_pct"),
        quarter_shrinkage_pct=shrinkage.get("quarter_pct"),
        shrinkage_source=sources.get(shrinkage.get("source")),
        saturation_pct=float(row["saturation"]["pct"]),
        saturation_source=sources[row["saturation"]["source"]],
        note=row.get("note", ""),
    )


def _unfit_sawn(sawn: object) -> Iterator[Fault]:
    if not isinstance(sawn, str) or sawn not in _SAWN:
        yield Fault(path="sawn", found=shown(sawn), wanted=" or ".join(_SAWN))
