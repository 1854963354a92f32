"""Members to ask a design basis about, for tests."""

from typing import Any

from attrs import evolve

from drylay.strength.model import BeamAsked, BoardAsked, LedgerAsked, PostAsked, Section


def section(breadth_mm: float = 47.0, depth_mm: float = 150.0, plies: int = 1) -> Section:
    return Section(breadth_mm=breadth_mm, depth_mm=depth_mm, plies=plies)


def joist(**more: Any) -> BeamAsked:
    plain = BeamAsked(
        kind="joist", subject="joists", wood="C24", section=section(), length_mm=2500.0,
        supports_mm=(0.0, 2500.0), carried_mm=400.0, bearing_mm=47.0, alike=6,
    )  # fmt: skip
    return evolve(plain, **more)


def bearer(**more: Any) -> BeamAsked:
    plain = BeamAsked(
        kind="bearer", subject="B1", wood="C24", section=section(47.0, 195.0, 2),
        length_mm=3400.0, supports_mm=(0.0, 1700.0, 3400.0), carried_mm=1500.0, bearing_mm=94.0,
        held_each_mm=400.0,
    )  # fmt: skip
    return evolve(plain, **more)


def post(**more: Any) -> PostAsked:
    plain = PostAsked(
        subject="P1", wood="C24", section=section(95.0, 95.0), length_mm=1500.0, dead_kn=2.0,
        live_kn=4.0,
    )  # fmt: skip
    return evolve(plain, **more)


def board(**more: Any) -> BoardAsked:
    plain = BoardAsked(
        subject="boards", wood="C24", section=section(145.0, 28.0), bay_mm=400.0, bays=3
    )
    return evolve(plain, **more)


def ledger(**more: Any) -> LedgerAsked:
    plain = LedgerAsked(
        subject="LG1", wood="C24", section=section(47.0, 195.0), span_mm=2400.0, spacing_mm=400.0,
        fixing="anchor 6 kN",
    )  # fmt: skip
    return evolve(plain, **more)
