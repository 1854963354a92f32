"""How papers put areas, liquids, weights and packs: metric, with US measures beside them."""

from decimal import ROUND_CEILING, ROUND_HALF_EVEN, Context, Decimal

#: Litres in a US gallon, 231 cubic inches; kg in a pound; m2 in a square foot: exactly so by the
#: international yard and pound agreement of 1959.
L_PER_GAL = Decimal("3.785411784")
KG_PER_LB = Decimal("0.45359237")
M2_PER_SQ_FT = Decimal("0.09290304")
#: A bag from this weight on is set down by the lorry's crane. Assumption.
BULK_KG = 100
#: Room for whatever figure an edited plan holds.
WIDE = Context(prec=5000)
HUNDREDTH, TENTH = Decimal("0.01"), Decimal("0.1")


def litres(ml: int, units: str) -> str:
    """Return so many ml in litres, digit for digit: "2.5 l", "2.5 l (~0.66 US gal)"."""
    told = f"{_plain(Decimal(ml) / 1000)} l"
    return told if units != "imperial" else f"{told} ({_near(ml / (1000 * L_PER_GAL))} US gal)"


def kilos(kg: int, units: str) -> str:
    """Return so many kg: "25 kg", "25 kg (~55.1 lb)"."""
    return f"{kg} kg" if units != "imperial" else f"{kg} kg ({_near(kg / KG_PER_LB, TENTH)} lb)"


def area(m2: float, units: str) -> str:
    """Return an area up to the next hundredth, so that it is never printed smaller than it is."""
    exact_m2 = Decimal(repr(m2))
    told = f"{_up(exact_m2)} m2"
    return told if units != "imperial" else f"{told} ({_up(exact_m2 / M2_PER_SQ_FT)} sq ft)"


def amount(count: int, unit: str, units: str) -> str:
    """Return what packs hold: "250", "2.5 l", "25 kg"."""
    if unit == "ml":
        return litres(count, units)
    return kilos(count, units) if unit == "kg" else str(count)


def pack_told(count: int, unit: str, units: str) -> str:
    """Return what a pack is called: "pack of 250", "tin of 2.5 l", "bag of 25 kg"."""
    called = {"ml": "tin", "kg": "bulk bag" if count >= BULK_KG else "bag"}.get(unit, "pack")
    return f"{called} of {amount(count, unit, units)}"


def _plain(figure: Decimal) -> str:
    """Return a figure without noughts at its end."""
    text = f"{figure:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _near(figure: Decimal, step: Decimal = HUNDREDTH) -> str:
    return _shown(figure, figure.quantize(step, ROUND_HALF_EVEN, WIDE))


def _up(figure: Decimal) -> str:
    return _shown(figure, figure.quantize(HUNDREDTH, ROUND_CEILING, WIDE))


def _shown(figure: Decimal, shown: Decimal) -> str:
    """Return a rounded figure, marked where it is not the figure itself."""
    return _plain(shown) if shown == figure else f"~{shown:f}"
