"""Joists and bearers to screen, for tests of the Eurocode 5 basis."""

from typing import Any

from attrs import evolve

from drylay.strength.ec5_actions import actions_of
from drylay.strength.ec5_bearer import screen_bearer
from drylay.strength.ec5_classes import strength_class
from drylay.strength.ec5_joist import screen_joist
from drylay.strength.ec5_model import Bearer, Choices, Joist, Timber
from drylay.strength.model import Check, Screened, Section


def timber(grade: str = "C24", breadth_mm: float = 47.0, depth_mm: float = 150.0) -> Timber:
    section = Section(breadth_mm=breadth_mm, depth_mm=depth_mm)
    return Timber(name="J", section=section, grade=strength_class(grade))


def joist(
    grade: str = "C24", breadth_mm: float = 47.0, depth_mm: float = 150.0, **more: Any
) -> Joist:
    known = {"span_mm": 2500.0, "centres_mm": 400.0, "bearing_mm": 47.0, "dead_kn_m2": 0.2}
    return Joist(timber=timber(grade, breadth_mm, depth_mm), **(known | more))


def screened_joist(use: str = "dwelling", choices: Choices | None = None, **more: Any) -> Screened:
    return screen_joist(joist(**more), actions=actions_of(use), choices=choices or Choices())


def screened_bearer(use: str = "dwelling", plies: int = 1, **more: Any) -> Screened:
    wood = {key: more.pop(key) for key in ("grade", "breadth_mm", "depth_mm") if key in more}
    known = {
        "span_mm": 1800.0, "carried_mm": 1500.0, "bearing_mm": 95.0, "held_each_mm": 400.0,
        "dead_kn_m2": 0.35,
    }  # fmt: skip
    plain = timber(**wood)
    carrying = evolve(plain, section=evolve(plain.section, plies=plies))
    bearer = Bearer(timber=carrying, **(known | more))
    return screen_bearer(bearer, actions=actions_of(use), choices=Choices())


def used(found: Screened) -> dict[str, float]:
    """How much of its limit each check uses, by name."""
    return {each.name: each.utilisation_ratio for each in found.checks}


def named(found: Screened, name: str) -> Check:
    return next(each for each in found.checks if each.name == name)
