"""In words: what comes with the lorry, and what is lifted from it."""

from drylay.buying.model import Delivery
from drylay.papers.wording import clean, many, size
from drylay.plan.model import Plan
from drylay.units import density_text, mass_most_text, mass_text


def delivery_told(plan: Plan) -> list[str]:
    """Return what the order weighs, and the heaviest single thing to lift, a line each."""
    brought = plan.buying.delivery if plan.buying else None
    if brought is None:
        return []
    units = plan.units
    parts = ", ".join(
        f"{clean(part.what, 40)} {mass_text(part.mass_kg, units)}" for part in brought.parts
    )
    timber = _density_told(brought, units)
    more = " and packers" if plan.tiling is None and plan.tiles is None else ", packers and pads"
    left = f"{timber}screws, hangers{more} are left out. Masses are rounded up."
    told = [
        f"The order weighs up to {mass_text(brought.total_kg, units)}, spares with it: {parts}. "
        f"{left[0].upper()}{left[1:]}",
        _lift_told(brought, units),
    ]
    if brought.lorry_packs:
        told.append(
            f"{many(brought.lorry_packs, 'pack')} too heavy to lift, set down by the lorry: keep a "
            "firm place within its reach."
        )
    return told


def _density_told(brought: Delivery, units: str) -> str:
    """Return how heavy timber is reckoned, a frame apart where it differs; "" without any."""
    if brought.density_kg_m3 is None:
        return ""
    density, framed = brought.density_kg_m3, brought.frame_density_kg_m3
    if framed is None or framed == density:
        told = f"Timber is reckoned at {density_text(density, units)}"
    else:
        told = (
            f"Boards and fascia are reckoned at {density_text(density, units)}, the frame's timber "
            f"at {density_text(framed, units)}"
        )
    return f"{told}, heavy with water as it may come; "


def _lift_told(brought: Delivery, units: str) -> str:
    what = f"a pack of {clean(brought.lift_article, 40)}"
    if brought.lift_pack == 1:
        what = f"one {clean(brought.lift_article, 40)}"
    if brought.lift_length_mm is not None:
        what = f"{clean(brought.lift_article, 40)} of {size(brought.lift_length_mm, units)}"
    heavy = brought.lift_kg > brought.lift_most_kg
    limit = f"one person lifts {mass_most_text(brought.lift_most_kg, units)} at most"
    by = f": two people, since {limit}" if heavy else f"; {limit}"
    return f"Heaviest to lift: {what}, {mass_text(brought.lift_kg, units)}{by}."
