"""The simplified method for dowels of the German national annex: not the six modes of EN 1995-1-1.

It is kept apart because handbook tables are made with it: its resistance is mode f without the
factor 1.15 and without rope effect, good where the pieces are as thick as it asks.
"""

from math import sqrt

from drylay.reasons import Source
from drylay.strength.ec5_fasteners import embedment_n_mm2, yield_moment_n_mm
from drylay.strength.ec5_model import Fastener, Side, SimplifiedDowel

SIMPLIFIED = Source(
    kind="from memory",
    title="German National Annex to EN 1995-1-1, simplified method for dowel-type fasteners",
    clause="NCI to 8.2",
)


def simplified_dowel(fastener: Fastener, first: Side, second: Side) -> SimplifiedDowel:
    """Return a dowel's characteristic resistance by the simplified method, and thicknesses.

    Depths of the sides are not asked: they have to be at least what comes back.

    Source: German National Annex to EN 1995-1-1, NCI to 8.2, from memory; it returns the
    handbook table of tests/reference/timber.
    """
    d, moment = fastener.diameter_mm, yield_moment_n_mm(fastener)
    fh1, fh2 = embedment_n_mm2(fastener, first), embedment_n_mm2(fastener, second)
    beta = fh2 / fh1
    force = sqrt(2.0 * beta / (1.0 + beta)) * sqrt(2.0 * moment * fh1 * d)
    outer = 1.15 * (2.0 * sqrt(beta / (1.0 + beta)) + 2.0) * sqrt(moment / (fh1 * d))
    middle = 1.15 * 4.0 / sqrt(1.0 + beta) * sqrt(moment / (fh2 * d))
    return SimplifiedDowel(
        resistance_kn=force / 1e3, first_mm=outer, middle_mm=middle, source=SIMPLIFIED
    )
