"""What a deck's cover weighs on its frame, and how much of that its design basis does not take."""

from fractions import Fraction

from drylay.marks import PER_MM, exact
from drylay.planner.job import Job
from drylay.planner.lorry import kg_per_mm_of, tile_kg
from drylay.strength.model import DeckLoads

#: From masses to weights, m/s2. Source: EN 1991-1-1, from memory; a little over standard gravity.
GRAVITY = Fraction("9.81")
#: What joists and bearers take of a dead load that holds members' own weight. Assumption: 38 x 235
#: at 305 centres of 700 kg/m3, which is 0.201 kN/m2; closer or deeper ones are rare on decks.
MEMBERS_KN_M2 = Fraction("0.2")


def cover_kn_m2(job: Job) -> Fraction:
    """Return what a square metre of cover weighs at its heaviest, a border's where that is more.

    As sold, else by its section, or a tile's volume, and what its family takes at most; gaps and
    joints are not taken off.
    """
    articles, brief = job.articles, job.brief
    if articles.tile is not None:
        sides = exact(articles.tile.length_mm) * exact(articles.tile.width_mm)
        return tile_kg(job) * (1000 * PER_MM) ** 2 / sides * GRAVITY / 1000
    per_mm = kg_per_mm_of(job)
    wide = [(articles.board, brief.board.measured_width_mm)]
    if articles.border is not None:
        wide.append((articles.border, brief.border.measured_width_mm))
    return max(
        per_mm[each.code] * 1000 * PER_MM / exact(told or each.width_mm) * GRAVITY
        for each, told in wide
    )


def heavier_kn_m2(job: Job, loads: DeckLoads) -> float:
    """Return how much more than its design basis takes a deck's cover weighs; 0 where not.

    Of a dead load that holds members' own weight 0.2 kN/m2 are theirs.
    """
    if loads.stops:
        return 0.0
    members = Fraction(0) if loads.own_weight_apart else MEMBERS_KN_M2
    left = cover_kn_m2(job) - (Fraction(repr(loads.dead_kn_m2)) - members)
    return max(0.0, float(left))
