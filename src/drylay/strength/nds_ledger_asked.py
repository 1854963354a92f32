"""A ledger as a design basis is asked for it, by the US basis: 1/2 in fasteners, stated anchors."""

import re

from drylay.reasons import Source
from drylay.strength.basis_answers import FIGURE, refuse_ledger, uncovered
from drylay.strength.checks import check, ranked
from drylay.strength.meant import together
from drylay.strength.model import Check, LedgerAsked, Screened
from drylay.strength.nds_asked import wood_of
from drylay.strength.nds_fasteners import LEDGER_MOST_MM
from drylay.strength.nds_screen import BASIS, WITHIN
from drylay.strength.nds_spans import OVERHANG_LOAD_KN, deck_loads_kn_m2
from drylay.strength.nds_tables import named_values, table_source
from drylay.strength.us_units import kn_of_lb

#: Words for a ledger's fixings, and what the fitted table calls them.
TABLED = {
    "lag screw 1/2 in": "lag",
    "bolt 1/2 in": "bolt",
    "bolt 1/2 in with washers": "bolt+washers",
}
FIXINGS = (*TABLED, "anchor LOAD kN")
_ANCHOR = re.compile(rf"anchor(?: {FIGURE} ?kN)?", re.IGNORECASE)


def screened_ledger(asked: LedgerAsked, use: str) -> Screened:
    """Return the checks of a ledger's fixings.

    Fasteners of the printed table carry what was fitted to it, with the even load that it is laid
    out for. `anchor 4.5 kN` is the allowable load across its axis that an anchor's maker declares
    for that wall; without a figure the load that each must carry is told, and a stop asks for one.

    Raises:
        UncoveredError: The use, the wood or the fixing is not covered.
        InputError: A number is not what it can be.

    Source: IRC 2018 table R507.9.1.3(1), from memory; statics.
    """
    together(
        lambda: refuse_ledger(asked),
        lambda: wood_of(asked.wood),
        lambda: deck_loads_kn_m2(use),
        lambda: _refuse_fixing(asked),
    )
    live, dead = deck_loads_kn_m2(use)
    dead += asked.more_dead_kn_m2
    each_kn = (live + dead) * asked.span_mm / 2e3 * asked.spacing_mm / 1e3
    said = " ".join(asked.fixing.split())
    if found := _ANCHOR.fullmatch(said):
        dead_kn = dead * asked.span_mm / 2e3 * asked.spacing_mm / 1e3
        loads = (
            ("dead and live load", each_kn),
            ("dead load and point load on one anchor", dead_kn + OVERHANG_LOAD_KN),
        )
        return _anchored(asked, loads, float(found[1] or 0.0))
    return _tabled(asked, said.lower(), each_kn)


def _refuse_fixing(asked: LedgerAsked) -> None:
    said = " ".join(asked.fixing.split())
    if not _ANCHOR.fullmatch(said) and said.lower() not in TABLED:
        raise uncovered("fixing", repr(asked.fixing), "one of: " + "; ".join(FIXINGS))


def _tabled(asked: LedgerAsked, said: str, each_kn: float) -> Screened:
    source = table_source("ledger_lb")
    holds_kn = kn_of_lb(named_values("ledger_lb")[TABLED[said]])
    along = (("spacing_mm", asked.spacing_mm), ("span_mm", asked.span_mm))
    checks = (
        check(
            "ledger fastener",
            asked.subject,
            measured=each_kn,
            limit=holds_kn,
            unit="kN",
            case="dead and live load",
            formula="w L / 2 x spacing <= P, fitted to the table",
            source=source,
            inputs=(("fixing", said), *along),
        ),
        check(
            "ledger spacing",
            asked.subject,
            measured=asked.spacing_mm,
            limit=LEDGER_MOST_MM,
            unit="mm",
            case="any",
            formula="spacing <= 36 in",
            source=source,
            inputs=along,
        ),
    )
    assumed = (
        WITHIN,
        "the ledger is fixed to a sound band joist of 2 in lumber, as the table has it, never to "
        "masonry or through veneer; the table's rows and edge distances hold",
        "joists load the ledger evenly: the table knows no point load",
    )
    return Screened(basis=BASIS, subject=asked.subject, checks=ranked(checks), assumed=assumed)


def _anchored(
    asked: LedgerAsked, loads: tuple[tuple[str, float], ...], declared_kn: float
) -> Screened:
    case, most_kn = max(loads, key=lambda each: each[1])
    told = f"each anchor must carry {most_kn:.2f} kN across its axis ({case}, without factors)"
    assumed = (
        WITHIN,
        told,
        "the load stands off the wall's face by half the ledger: the pull that comes of it is "
        "among what the anchor's maker is asked",
        "the wall is sound and bears the load; who lays it out holds to the maker's distances",
    )
    if not declared_kn:
        wanted = "'anchor LOAD kN', the allowable load that its maker declares for this wall"
        stop = f"{told}: not covered without its maker's figure; name {wanted}"
        return Screened(
            basis=BASIS, subject=asked.subject, checks=(), assumed=assumed, stops=(stop,)
        )
    checks = ranked(_anchor_check(asked, name, kn, declared_kn) for name, kn in loads)
    return Screened(basis=BASIS, subject=asked.subject, checks=checks, assumed=assumed)


def _anchor_check(asked: LedgerAsked, case: str, load_kn: float, declared_kn: float) -> Check:
    return check(
        "ledger anchor",
        asked.subject,
        measured=load_kn,
        limit=declared_kn,
        unit="kN",
        case=case,
        formula="load on one anchor <= allowable load as its maker declares it",
        source=Source(
            kind="brief", title="the anchor's maker, as the brief tells it", clause=asked.fixing
        ),
        inputs=(("spacing_mm", asked.spacing_mm), ("span_mm", asked.span_mm)),
    )
