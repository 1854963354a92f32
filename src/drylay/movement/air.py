"""The moisture content that wood settles at in air, and the humidity behind one."""

from collections.abc import Iterator

from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity
from drylay.movement.bounds import refuse, shown, unfit
from drylay.movement.model import Moisture
from drylay.reasons import Source

#: The coefficients in degrees Celsius and in degrees Fahrenheit are two fits; either with the
#: other's temperature goes wrong without a sound.
EQUILIBRIUM_SOURCE = Source(
    kind="handbook",
    title="Wood Handbook FPL-GTR-190",
    clause="ch. 4, Hailwood-Horrobin; coefficients of FPL-RN-0268 in Celsius, read as transcribed",
)
TABLE_SOURCE = Source(
    kind="from memory",
    title="Wood Handbook FPL-GTR-190",
    clause="table 4-2: 30 to 270 degrees Fahrenheit, 5 to 95 % relative humidity",
)
#: What table 4-2 covers: from 30 degrees Fahrenheit on, and these humidities.
COLDEST_C = (30 - 32) / 1.8
DRIEST_RATIO, DAMPEST_RATIO = 0.05, 0.95
_HALVINGS = 60


@counted
def equilibrium_moisture(*, temperature_c: float, humidity_ratio: float) -> Moisture:
    """Return the moisture content at which wood settles in such air, out of rain and sun.

    Findings tell where the air lies outside the handbook's table. The formula keeps within
    0.9 % of that table everywhere, within 0.13 % on average (Simpson 1973, abstract).

    Raises:
        InputError: The temperature is not within -30 to 60 degrees Celsius, or the humidity no
            ratio.

    Source: Wood Handbook FPL-GTR-190, ch. 4 (Hailwood and Horrobin, two hydrates).
    """
    refuse(
        unfit("air", temperature_c=temperature_c), unfit("humidity", humidity_ratio=humidity_ratio)
    )
    return Moisture(
        temperature_c=float(temperature_c),
        humidity_ratio=float(humidity_ratio),
        moisture_pct=settled_pct(temperature_c, humidity_ratio),
        findings=tuple(beyond_table([("air", temperature_c, humidity_ratio)])),
        source=EQUILIBRIUM_SOURCE,
    )


def settled_pct(temperature_c: float, humidity_ratio: float) -> float:
    """Return the equilibrium moisture content; symbols as in the source.

    Source: Wood Handbook FPL-GTR-190, ch. 4; Simpson, FPL-RN-0268, for Celsius.
    """
    t, h = float(temperature_c), float(humidity_ratio)
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    one, two = k1 * k * h, k1 * k2 * (k * h) ** 2
    return 1800 / w * (k * h / (1 - k * h) + (one + 2 * two) / (1 + one + two))


def equilibrium_humidity_ratio(*, temperature_c: float, moisture_pct: float) -> float:
    """Return the relative humidity in which wood settles at a moisture content.

    Raises:
        InputError: The temperature is not within -30 to 60 degrees Celsius, the moisture
            content below 1 %, or above what any air of this temperature brings about.

    Source: Wood Handbook FPL-GTR-190, ch. 4, solved by halving.
    """
    refuse(unfit("air", temperature_c=temperature_c), unfit("moisture", moisture_pct=moisture_pct))
    most_pct = settled_pct(temperature_c, 1.0)
    if moisture_pct > most_pct:
        wanted = f"at most {most_pct:.4g} %, that of air as damp as can be"
        raise InputError((Fault(path="moisture_pct", found=shown(moisture_pct), wanted=wanted),))
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if settled_pct(temperature_c, middle) < moisture_pct:
            low = middle
        else:
            high = middle
    return high


def beyond_table(airs: list[tuple[str, float, float]]) -> Iterator[Finding]:
    """Yield what of named airs lies outside the table the formula was fitted to."""
    coldest = min(airs, key=lambda air: air[1])
    driest = min(airs, key=lambda air: air[2])
    dampest = max(airs, key=lambda air: air[2])
    if coldest[1] < COLDEST_C:
        yield _outside(coldest[0], "colder", coldest[1], round(COLDEST_C, 1), "C")
    if driest[2] < DRIEST_RATIO:
        yield _outside(driest[0], "drier", driest[2], DRIEST_RATIO, "ratio")
    if dampest[2] > DAMPEST_RATIO:
        yield _outside(dampest[0], "damper", dampest[2], DAMPEST_RATIO, "ratio")


def _outside(subject: str, how: str, measured: float, limit: float, unit: str) -> Finding:
    return Finding(
        code="MOV-001",
        severity=Severity.NOTE,
        subject=subject,
        message=f"{how} than the table that the formula was fitted to: a rougher figure",
        measured=float(measured),
        limit=limit,
        unit=unit,
        source=TABLE_SOURCE,
    )
