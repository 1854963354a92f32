"""The turf strip: how far beyond the cover, how much earth, how many bags or skips."""

from fractions import Fraction
from math import ceil

from drylay.groundwork.model import Dig
from drylay.groundwork.rounding import (
    MM2_PER_M2,
    MM3_PER_M3,
    MM_PER_M,
    litres_up,
    said,
    whole_mm,
)
from drylay.marks import exact, to_mm

#: How much more room earth takes once it is dug. Common practice, no source.
BULKING_RATIO = 1.25
#: What a builder's bulk bag holds. Assumption: bags of 0.6 to 0.8 are sold under that name.
BAG_M3 = 0.7
#: What a skip of six cubic yards holds, 4.587 to the litre. Arithmetic: 6 x 0.9144 cubed.
SKIP_M3 = 4.587


def lay_dig(
    *,
    cover_along_mm: float,
    cover_across_mm: float,
    margin_mm: float,
    house_margin_mm: float,
    depth_mm: float,
    spoil: str,
) -> Dig:
    """Return the dig: the cover and the margin beyond it, and the earth that comes out.

    `house_margin_mm` is the margin on the house side: what a wall leaves of it.
    """
    margin, at_house = exact(margin_mm), exact(house_margin_mm)
    along_mm = to_mm(exact(cover_along_mm) + 2 * margin)
    across_mm = to_mm(exact(cover_across_mm) + margin + at_house)
    return dig_of(
        along_mm=along_mm,
        across_mm=across_mm,
        area_m2=whole_mm(along_mm) * whole_mm(across_mm) / MM2_PER_M2,
        margin_mm=margin_mm,
        house_margin_mm=house_margin_mm,
        depth_mm=depth_mm,
        spoil=spoil,
    )


def dig_of(
    *,
    along_mm: float,
    across_mm: float,
    area_m2: Fraction,
    margin_mm: float,
    house_margin_mm: float,
    depth_mm: float,
    spoil: str,
) -> Dig:
    """Return the dig of an area of any shape: the earth that comes out, and how it goes."""
    solid = area_m2 * whole_mm(depth_mm) / MM_PER_M
    loose = solid * said(BULKING_RATIO)
    return Dig(
        margin_mm=to_mm(exact(margin_mm)),
        house_margin_mm=to_mm(exact(house_margin_mm)),
        along_mm=along_mm,
        across_mm=across_mm,
        depth_mm=to_mm(exact(depth_mm)),
        solid_m3=litres_up(solid),
        bulking_ratio=BULKING_RATIO,
        loose_m3=litres_up(loose),
        spoil=spoil,
        bag_m3=BAG_M3,
        bags=ceil(loose / said(BAG_M3)),
        skip_m3=SKIP_M3,
        skips=ceil(loose / said(SKIP_M3)),
    )


def bed_m3(dig: Dig, depth_mm: float) -> Fraction:
    """Return the volume of a bed of even depth over a whole dig, exactly."""
    if dig.area_m2 is not None:
        return said(dig.area_m2) * whole_mm(depth_mm) / MM_PER_M
    return whole_mm(dig.along_mm) * whole_mm(dig.across_mm) * whole_mm(depth_mm) / MM3_PER_M3
