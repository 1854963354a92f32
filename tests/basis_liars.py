"""Design bases that misbehave on purpose, and a plain one that does not."""

from collections.abc import Callable
from types import ModuleType
from typing import Any

from attrs import evolve

from drylay.plugins.hooks import hookimpl
from drylay.reasons import Source
from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.model import (
    BeamAsked,
    Check,
    DeckLoads,
    DesignBasis,
    Screened,
    Section,
)
from liars import module

BOOK = Source(kind="assumption", title="a basis that stands in for one, tests/basis_liars.py")
BEAM = BeamAsked(
    kind="joist", subject="joists", wood="C24", section=Section(breadth_mm=47.0, depth_mm=150.0),
    length_mm=2500.0, supports_mm=(0.0, 2500.0), carried_mm=400.0, bearing_mm=47.0,
)  # fmt: skip
CHECK = Check(
    name="bending", subject="joists", measured=6.0, limit=12.0, unit="N/mm2",
    utilisation_ratio=0.5, case="all load", formula="M / W <= f", source=BOOK,
    inputs=(("moment_kn_m", 1.0),),
)  # fmt: skip
FOUND = Screened(basis="quarl", subject="joists", checks=(CHECK,), assumed=("it is dry",))
LOADS = DeckLoads(
    use="dwelling", dead_kn_m2=0.3, own_weight_apart=True, imposed_kn_m2=1.5, point_kn=2.0,
    source=BOOK,
)  # fmt: skip


def answering(answer: object) -> Callable[..., Any]:
    """Return a function that answers this whatever it is asked, or raises it."""

    def answers(*_: object) -> object:
        if isinstance(answer, BaseException):
            raise answer
        return answer

    return answers


def plain(name: str = "quarl", **more: Any) -> DesignBasis:
    """Return Eurocode 5 under another id, but for what `more` says."""
    return evolve(eurocode_5(), id=name, **more)


def bases_plugin(answer: object) -> ModuleType:
    """Return a plugin whose hook answers `answer`, or raises it."""

    @hookimpl
    def drylay_design_bases() -> object:
        if isinstance(answer, BaseException):
            raise answer
        return answer

    return module(drylay_design_bases=drylay_design_bases)
