"""The US deck tables worked out cell by cell, each from the columns of its row."""

from collections.abc import Callable
from functools import partial
from math import floor

from attrs import evolve

from drylay.strength.model import Section
from drylay.strength.nds_allowed import allowed, allowed_in_group, least_extent
from drylay.strength.nds_fasteners import ledger_spacing_mm
from drylay.strength.nds_model import Allowed, Conditions, Extent
from drylay.strength.nds_posts import post_height_mm, table_footing_inches
from drylay.strength.nds_spans import (
    DECK_DEAD_KN_M2,
    DECK_LIVE_KN_M2,
    OVERHANG_BEARING_MM,
    OVERHANG_PART_RATIO,
    REPEATED_RATIO,
    TWO_PLY_TABLE_RATIO,
    beam_span,
    carried_by_beam_mm,
    joist_span,
    overhang,
)
from drylay.strength.nds_values import dressed
from drylay.strength.us_units import (
    kn_m2_of_psf,
    m2_of_sqft,
    mm_of_feet,
    mm_of_inches,
    n_mm2_of_psi,
    psi_of_n_mm2,
    table_inches,
)
from drylay.testing.model import Cell
from drylay.testing.timber_rows import (
    Answering,
    CellError,
    Column,
    Row,
    Rows,
    cells_of,
    number_of,
    text_of,
    whole_of,
)
from drylay.testing.us_examples import us_examples

#: All these tables are laid out for this grade, and for the deck's dead load.
GRADE = "No.2"
#: In the group of all other woods, the row of two plies is also that of one 3 in timber.
OTHER, SINGLE_INCH = "OTHER", 2.5
#: What conversions to psi and back may lose.
_NOISE = 1e-6


def us_joists(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of spans, cantilevers and overhangs of both editions."""
    return cells_of("us_joists.csv", rows, "id", [_inches("value_in", _joist)])


def us_joists_2021(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of spans by load, and of cantilevers by back span."""
    return cells_of("us_joists_2021.csv", rows, "id", [_inches("value_in", _joist_2021)])


def us_beams(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of built-up beams by the joists' span."""
    return cells_of("us_beams.csv", rows, "id", [_inches("value_in", _beam)])


def us_footings(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of footings: side, diameter, thickness."""
    names = ("square_in", "round_in", "thick_in")
    columns = [
        Column(name=name, unit="in", tolerance=0.0, find=partial(_footing_inch, place=place))
        for place, name in enumerate(names)
    ]
    return cells_of("us_footings.csv", rows, "id", columns)


def us_ledger(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of ledger fasteners: how far apart."""
    return cells_of("us_ledger.csv", rows, "id", [_inches("spacing_in", _ledger)])


def us_posts(rows: Rows) -> tuple[Cell, ...]:
    """Return the cells of post heights by the area they carry."""
    return cells_of("us_posts.csv", rows, "id", [_inches("value_in", _post)])


def _inches(name: str, find: Callable[[Row], float]) -> Column:
    return Column(name=name, unit="in", tolerance=0.0, find=lambda row: table_inches(find(row)))


def _live_kn_m2(row: Row) -> float:
    if "live_psf" not in row:
        return DECK_LIVE_KN_M2
    return kn_m2_of_psf(number_of(row, "live_psf", least=0))


def _woods(row: Row, duration_ratio: float = 1.0) -> tuple[tuple[Allowed, ...], Section]:
    section = dressed(text_of(row, "size"))
    use = Conditions(duration_ratio=duration_ratio, repeated_ratio=REPEATED_RATIO)
    return allowed_in_group(text_of(row, "group"), GRADE, section, use), section


def _joist(row: Row) -> float:
    woods, section = _woods(row)
    centres_mm = mm_of_inches(number_of(row, "spacing_in", least=0))
    match text_of(row, "kind"):
        case "span":
            bearing_mm: float | None = None
        case "cantilever_irc2018":
            bearing_mm = 0.0
        case "overhang_dca6":
            bearing_mm = OVERHANG_BEARING_MM
        case kind:
            raise CellError(f"unknown kind {kind!r}")

    live = _live_kn_m2(row)

    def extent(wood: Allowed) -> Extent:
        span = joist_span(wood, section, centres_mm=centres_mm, live_kn_m2=live)
        if bearing_mm is None:
            return span
        return overhang(wood, section, back_span_mm=span.extent_mm, bearing_mm=bearing_mm)

    return least_extent(woods, extent).extent_mm


def _joist_2021(row: Row) -> float:
    woods, section = _woods(row, number_of(row, "cd", least=0))
    kind = text_of(row, "kind")
    if kind == "span":
        live = _live_kn_m2(row)
        centres_mm = mm_of_inches(number_of(row, "spacing_in", least=0))
        how = {"centres_mm": centres_mm, "live_kn_m2": live, "dead_kn_m2": DECK_DEAD_KN_M2}
        return least_extent(woods, lambda wood: joist_span(wood, section, **how)).extent_mm
    if kind == "cantilever":
        back_mm = mm_of_feet(number_of(row, "back_ft", least=0))
        return least_extent(
            woods, lambda wood: overhang(wood, section, back_span_mm=back_mm)
        ).extent_mm
    raise CellError(f"unknown kind {kind!r}")


def _beam(row: Row) -> float:
    group, plies = text_of(row, "group"), whole_of(row, "plies", least=1, most=4)
    section = dressed(text_of(row, "size"), plies)
    ratio = {1: 1.0, 2: TWO_PLY_TABLE_RATIO}.get(plies, REPEATED_RATIO)
    if group == OTHER and plies == 2:
        section = evolve(section, breadth_mm=mm_of_inches(SINGLE_INCH), plies=1)
        ratio = 1.0
    woods = allowed_in_group(group, GRADE, section, Conditions(repeated_ratio=ratio))
    span_mm = mm_of_feet(number_of(row, "joist_span_ft", least=0))
    how = {
        "carried_mm": carried_by_beam_mm(span_mm, span_mm * OVERHANG_PART_RATIO),
        "live_kn_m2": _live_kn_m2(row),
        "dead_kn_m2": DECK_DEAD_KN_M2,
    }
    woods = tuple(map(_whole_psi_of_shear, woods))
    return least_extent(woods, lambda wood: beam_span(wood, section, **how)).extent_mm


def _whole_psi_of_shear(wood: Allowed) -> Allowed:
    """Return a wood with its shear in whole psi, down: the beam table's is 106, of 106.7."""
    whole_psi = floor(psi_of_n_mm2(wood.shear_n_mm2) + _NOISE)
    return evolve(wood, shear_n_mm2=n_mm2_of_psi(whole_psi))


def _load_kn(row: Row) -> float:
    area_m2 = m2_of_sqft(number_of(row, "area_sqft", least=0))
    return area_m2 * (_live_kn_m2(row) + DECK_DEAD_KN_M2)


def _footing_inch(row: Row, *, place: int) -> float:
    soil_kn_m2 = kn_m2_of_psf(number_of(row, "soil_psf", least=0))
    return table_footing_inches(_load_kn(row), soil_kn_m2)[place]


def _ledger(row: Row) -> float:
    span_mm = mm_of_feet(number_of(row, "joist_span_ft", least=0))
    live = _live_kn_m2(row)
    return ledger_spacing_mm(
        text_of(row, "fastener"), joist_span_mm=span_mm, live_kn_m2=live, dead_kn_m2=DECK_DEAD_KN_M2
    )


def _post(row: Row) -> float:
    section = dressed(text_of(row, "size"))
    values = allowed(text_of(row, "species"), GRADE, section, Conditions())
    return post_height_mm(values, section, load_kn=_load_kn(row))


TABLES: dict[str, Answering] = {
    "us_joists.csv": us_joists,
    "us_joists_2021.csv": us_joists_2021,
    "us_beams.csv": us_beams,
    "us_footings.csv": us_footings,
    "us_ledger.csv": us_ledger,
    "us_posts.csv": us_posts,
    "check-values.toml": us_examples,
}
_SAID = frozenset({"id", "source", "status", "check", "note", "holdout"})
_FEET = frozenset({"value_in", "value_ft_in"})
#: The columns that each file may have; those of `_SAID` and the feet and inches are not read.
COLUMNS: dict[str, frozenset[str]] = {
    "us_joists.csv": _SAID | _FEET | {"kind", "group", "size", "spacing_in", "live_psf"},
    "us_joists_2021.csv": _SAID
    | _FEET
    | {"kind", "group", "size", "spacing_in", "live_psf", "cd", "back_ft"},
    "us_beams.csv": _SAID | _FEET | {"group", "plies", "size", "joist_span_ft", "live_psf"},
    "us_footings.csv": _SAID
    | {"live_psf", "soil_psf", "area_sqft", "square_in", "round_in", "thick_in"},
    "us_ledger.csv": _SAID | {"fastener", "joist_span_ft", "spacing_in", "live_psf"},
    "us_posts.csv": _SAID | _FEET | {"species", "size", "live_psf", "area_sqft"},
}
