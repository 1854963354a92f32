"""Plugins that misbehave on purpose, and entry points to hand them in by."""

import types
from collections.abc import Callable
from decimal import Decimal

from attrs import frozen

from drylay.materials.model import RULES, Family, RuleQuery
from drylay.materials.stock_model import Catalogue, Pack, Screw
from drylay.plugins.hooks import GROUP, hookimpl
from drylay.reasons import Ruling, Scalar, Source

PRACTICE = Source(kind="common practice", title="common practice, no source")
QUERY = RuleQuery(board_width_mm=145.0, board_thickness_mm=28.0, joist_thickness_mm=45.0)


@frozen
class FakePackage:
    """A package that is not installed."""

    name: str
    version: str = "1.0"


@frozen
class FakeEntryPoint:
    """An entry point that loads whatever it was given."""

    name: str
    load: Callable[[], object]
    dist: FakePackage | None = None
    group: str = GROUP


def entry(name: str, plugin: object, package: str = "") -> FakeEntryPoint:
    dist = FakePackage(package) if package else None
    return FakeEntryPoint(name=name, load=lambda: plugin, dist=dist)


def entry_raising(name: str, error: BaseException) -> FakeEntryPoint:
    def load() -> object:
        raise error

    return FakeEntryPoint(name=name, load=load)


def module(**functions: object) -> types.ModuleType:
    made = types.ModuleType("liar")
    vars(made).update(functions)
    return made


def families_plugin(answer: object) -> types.ModuleType:
    """Return a plugin whose hook answers `answer`, or raises it."""

    @hookimpl
    def drylay_families() -> object:
        if isinstance(answer, BaseException):
            raise answer
        return answer

    return module(drylay_families=drylay_families)


def catalogues_plugin(answer: object) -> types.ModuleType:
    @hookimpl
    def drylay_catalogues() -> object:
        return answer

    return module(drylay_catalogues=drylay_catalogues)


def papers_plugin(answer: object) -> types.ModuleType:
    """Return a plugin whose hook answers `answer`, or raises it."""

    @hookimpl
    def drylay_papers() -> object:
        if isinstance(answer, BaseException):
            raise answer
        return answer

    return module(drylay_papers=drylay_papers)


def ruling(rule: str, value: Scalar = 1.0) -> Ruling:
    return Ruling(value=value, unit=RULES[rule][0], rule=f"{rule} of a test", source=PRACTICE)


def family(family_id: str = "oak", **rules: object) -> Family:
    return Family(
        id=family_id,
        title=f"{family_id} of a test",
        rules=rules or {"end_gap_mm": lambda _: ruling("end_gap_mm", 4.0)},  # type: ignore[arg-type]
    )


SCREW = Screw(
    code="DS-45-70",
    title="Deck screw",
    shank_mm=4.5,
    length_mm=70.0,
    metal="stainless A2",
    packs=(Pack(count=100, price=Decimal("12.90")), Pack(count=500, price=Decimal("55.00"))),
)


def catalogue(name: str = "Test yard", **more: object) -> Catalogue:
    known = {"currency": "GBP", "vat": "included", "screws": (SCREW,)}
    return Catalogue(name=name, **known | more)  # type: ignore[arg-type]


class Unsayable(Exception):  # noqa: N818
    """An error whose message cannot be had."""

    def __str__(self) -> str:
        raise RuntimeError("no words")
