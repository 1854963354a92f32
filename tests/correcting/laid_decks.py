"""Decks laid by lot and corrected by a policy: how far off their last edge comes out.

Forty rows. Boards are off by up to 1 mm as a batch and by up to 1 mm each, either way and each as
likely; a tape is read to within 0.5 mm; gaps are set in steps of 0.5 mm and each is off by up to
half a step. Every deck is drawn before it is laid, so that a policy meets the same boards and
the same hand as any other.
"""

from collections.abc import Callable
from math import fsum
from random import Random

from attrs import frozen

from drylay.correcting.correct import correct
from drylay.correcting.model import EndLaid, GapLimits, LaidSoFar, Tolerances
from drylay.correcting.tolerance import sd_of

ROWS, BOARD_MM, GAP_MM, STEP_MM = 40, 145.0, 5.0, 0.5
TARGET_MM = ROWS * BOARD_MM + (ROWS - 1) * GAP_MM
#: What the plan knows of it, as sd: boards, batch and tape as above, gaps half a step.
KNOWN = Tolerances(
    width_mm=sd_of(1.0), batch_mm=sd_of(1.0), gap_mm=sd_of(0.25), spacer_mm=0.0, tape_mm=sd_of(0.5)
)
#: When each policy measures: never, every 5 rows, and every 5 and before each of the last four.
EVERY = tuple(range(5, ROWS, 5))
LAST = (*range(5, ROWS - 4, 5), *range(ROWS - 4, ROWS))


@frozen(kw_only=True)
class Deck:
    """What lot gave a deck: each board's width, how far each gap is set off, each reading."""

    widths_mm: tuple[float, ...]
    gaps_off_mm: tuple[float, ...]
    tape_off_mm: tuple[float, ...]
    together_off_mm: float


def drawn(source: Random) -> Deck:
    batch = source.uniform(-1, 1)
    return Deck(
        widths_mm=tuple(BOARD_MM + batch + source.uniform(-1, 1) for _ in range(ROWS)),
        gaps_off_mm=tuple(source.uniform(-0.25, 0.25) for _ in range(ROWS)),
        tape_off_mm=tuple(source.uniform(-0.5, 0.5) for _ in range(ROWS)),
        together_off_mm=source.uniform(-0.5, 0.5),
    )


def so_far(
    laid: int, edge_mm: float, gaps: list[float], **told: tuple[float, ...] | float | None
) -> LaidSoFar:
    end = EndLaid(
        edge_mm=edge_mm, target_mm=TARGET_MM, gaps_set_mm=fsum(gaps),
        gap_before_mm=gaps[-1] if gaps else GAP_MM,
    )  # fmt: skip
    return LaidSoFar(
        board_mm=BOARD_MM,
        widths_mm=(BOARD_MM,) * ROWS,
        rows_laid=laid,
        left=end,
        right=end,
        gaps=(GapLimits(least_mm=2.0, most_mm=9.0),) * (ROWS - 1),
        most_change_mm=1.5,
        step_mm=STEP_MM,
        tolerances=KNOWN,
        **told,  # type: ignore[arg-type]
    )


def laid_out(deck: Deck, checks: tuple[int, ...], *, nominal: bool = False, tight: bool = False,
             ) -> float:  # fmt: skip
    """Return how far the last edge lies from its target, laid with checks after these rows.

    `nominal`: gaps are shared out as if boards were as told. `tight`: the last four are measured
    together before their gaps are set, and then laid without another look.
    """
    gaps, ahead = [], [GAP_MM] * (ROWS - 1)
    edge = deck.widths_mm[0]
    for laid in range(1, ROWS):
        last = tight and laid > ROWS - 4
        if laid in checks and not last:
            told: dict[str, tuple[float, ...] | float | None] = {}
            if nominal:
                told["measured_mm"] = (BOARD_MM,) * 10
            elif tight and laid == ROWS - 4:
                told["together_mm"] = fsum(deck.widths_mm[laid:]) + deck.together_off_mm
            found = correct(so_far(laid, edge + deck.tape_off_mm[laid], gaps, **told))
            ahead[laid - 1 :] = [row.gap_left_mm for row in found.rows]
        gap = ahead[laid - 1]
        gaps.append(gap)
        edge += gap + deck.gaps_off_mm[laid] + deck.widths_mm[laid]
    return edge - TARGET_MM


POLICIES: dict[str, Callable[[Deck], float]] = {
    "no checks": lambda deck: laid_out(deck, ()),
    "nominal width every 5 rows": lambda deck: laid_out(deck, EVERY, nominal=True),
    "every 5 rows and before each of the last four": lambda deck: laid_out(deck, LAST),
    "the last four laid tight and measured together": lambda d: laid_out(d, LAST, tight=True),
}


def runs(count: int, seed: int) -> dict[str, list[float]]:
    """Return how far off so many decks come out, by policy: the same decks for each."""
    source = Random(seed)
    decks = [drawn(source) for _ in range(count)]
    return {name: [policy(deck) for deck in decks] for name, policy in POLICIES.items()}


def share_within(found: list[float], limit_mm: float) -> float:
    return sum(abs(off) <= limit_mm for off in found) / len(found)
