"""Deflection: at once, and in the end when creep has added its part."""

from drylay.strength.checks import check
from drylay.strength.ec5_checking import ec5
from drylay.strength.ec5_model import Choices, Sag, Timber
from drylay.strength.ec5_values import kdef, source_of
from drylay.strength.model import Check

_INSTANT = "w_inst = w_G + w_Q <= L / {over}"
_FINAL = "w_fin = w_G (1 + k_def) + w_Q (1 + psi_2 k_def) <= L / {over}"


def _kdef(choices: Choices) -> float:
    ruled = kdef(choices.service_class, wet_when_built=choices.wet_when_built)
    return float(ruled.value or 0.0)


def final_mm(sag: Sag, choices: Choices, psi_2_ratio: float) -> float:
    """Return the final deflection, creep of the quasi-permanent part reckoned in.

    Source: EN 1995-1-1 2.2.3(5), (2.3) and (2.4), from memory.
    """
    creep = _kdef(choices)
    return sag.permanent_mm * (1.0 + creep) + sag.imposed_mm * (1.0 + psi_2_ratio * creep)


def instant_sag(timber: Timber, sag: Sag, choices: Choices) -> Check:
    """Return the check of the deflection at once, in mm; a cantilever's limit is twice as wide.

    Source: EN 1995-1-1 7.2, least strict of table 7.2, from memory.
    """
    over = choices.instant_over / (2 if sag.cantilever else 1)
    return check(
        "cantilever deflection, instant" if sag.cantilever else "deflection, instant",
        timber.name,
        measured=sag.permanent_mm + sag.imposed_mm,
        limit=sag.length_mm / over,
        unit="mm",
        case=sag.name,
        formula=_INSTANT.format(over=f"{over:g}"),
        source=ec5("7.2, table 7.2"),
        inputs=_inputs(timber, sag),
    )


def final_sag(timber: Timber, sag: Sag, choices: Choices, psi_2_ratio: float) -> Check:
    """Return the check of the final deflection, in mm.

    Source: EN 1995-1-1 2.2.3 and the UK annex's table NA.5, from memory.
    """
    over = choices.cantilever_final_over if sag.cantilever else choices.final_over
    creep = ("k_def", _kdef(choices))
    return check(
        "cantilever deflection, final" if sag.cantilever else "deflection, final",
        timber.name,
        measured=final_mm(sag, choices, psi_2_ratio),
        limit=sag.length_mm / over,
        unit="mm",
        case=sag.name,
        formula=_FINAL.format(over=over),
        source=source_of("ec5-uk", "table NA.5; EN 1995-1-1 2.2.3"),
        inputs=(creep, ("psi_2", psi_2_ratio), *_inputs(timber, sag)),
    )


def _inputs(timber: Timber, sag: Sag) -> tuple[tuple[str, float | str], ...]:
    return (
        ("w_G_mm", sag.permanent_mm),
        ("w_Q_mm", sag.imposed_mm),
        ("length_mm", sag.length_mm),
        ("E_0,mean", timber.grade.e0_mean_n_mm2),
        ("G_mean", timber.grade.g_mean_n_mm2),
        ("class", timber.grade.name),
    )
