"""The gravel: how deep, how much, how heavy."""

from drylay.groundwork.dig import bed_m3
from drylay.groundwork.model import Dig, GravelBed
from drylay.groundwork.rounding import litres_up, said, tenths_up
from drylay.marks import exact, to_mm

#: How far gravel stays under the lawn beside it. Common practice, no source.
BELOW_LAWN_MM = 10.0
#: A thinner bed is a scatter of stones. Assumption.
LEAST_MM = 20.0
#: Gravel as it lies, where the merchant does not say. Common practice, no source.
DENSITY_KG_M3 = 1600.0


def lay_gravel(dig: Dig, *, article: str, below_lawn_mm: float, density_kg_m3: float) -> GravelBed:
    """Return the gravel over the whole dig, up to `below_lawn_mm` under the lawn."""
    depth_mm = to_mm(exact(dig.depth_mm) - exact(below_lawn_mm))
    volume = bed_m3(dig, depth_mm)
    return GravelBed(
        article=article,
        below_lawn_mm=to_mm(exact(below_lawn_mm)),
        depth_mm=depth_mm,
        volume_m3=litres_up(volume),
        density_kg_m3=density_kg_m3,
        mass_kg=tenths_up(volume * said(density_kg_m3)),
    )
