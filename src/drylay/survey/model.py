"""The nouns of a survey.

Places are mm along the house wall to the right and across, away from it, as in a brief. Levels
are from the survey's own datum, upwards.
"""

from attrs import frozen

from drylay.brief.model import GroundPoint
from drylay.findings import Finding
from drylay.reasons import Source

Place = tuple[float, float]
Ring = tuple[Place, ...]


@frozen(kw_only=True)
class Tape:
    """A straight measure between two corners. `accuracy_mm` is one standard deviation of it."""

    start: str
    end: str
    length_mm: float
    accuracy_mm: float | None = None


@frozen(kw_only=True)
class Formation:
    """A level plane to dig and fill to: `level_mm` at the datum corner, falling away from it."""

    level_mm: float
    fall_along_ratio: float = 0.0
    fall_across_ratio: float = 0.0


@frozen(kw_only=True)
class FieldBook:
    """All that was measured, as the `[survey]` of a garden file tells it.

    `outline` names the corners round, the first of them the datum corner; () is every corner in
    the order of the tapes. `opening_level_mm` and `closing_level_mm` are of one spot, read first
    and last. `area_mm` is what is dug and filled; () is the outline measured by tapes.
    `across_bearing_deg` is the compass bearing of "away from the house".
    """

    outline: tuple[str, ...] = ()
    tapes: tuple[Tape, ...] = ()
    accuracy_mm: float | None = None
    points: tuple[GroundPoint, ...] = ()
    opening_level_mm: float = 0.0
    closing_level_mm: float | None = None
    area_mm: Ring = ()
    formations: tuple[Formation, ...] = ()
    flow_from_mm: Ring = ()
    across_bearing_deg: float | None = None


@frozen(kw_only=True)
class Corner:
    """Where a corner lies, and how well that is known.

    `standard_*` is one standard deviation. `error_*` is the bar that holds 95 of 100 such
    measures, either way, each direction by itself.
    """

    name: str
    along_mm: float
    across_mm: float
    standard_along_mm: float
    standard_across_mm: float
    error_along_mm: float
    error_across_mm: float


@frozen(kw_only=True)
class Slip:
    """A usual slip that would explain a wrong measure: what it should then have read.

    `off_mm` is how far that still is from what the other measures make of it.
    """

    told: str
    should_be_mm: float
    off_mm: float


@frozen(kw_only=True)
class TapeCheck:
    """A tape beside the corners found.

    `residual_mm` is fitted less measured. `spare_ratio` is how much of this measure the others
    check, 0 to 1. `standardised_ratio` is the residual over its own standard deviation.
    `implied_mm` is what the other tapes alone make of it, and `difference_mm` measured less
    implied; both None where they leave it open. `bar_mm` holds 95 of 100 such differences.
    """

    start: str
    end: str
    measured_mm: float
    fitted_mm: float | None
    residual_mm: float | None
    spare_ratio: float
    standardised_ratio: float | None
    implied_mm: float | None
    difference_mm: float | None
    bar_mm: float | None
    slips: tuple[Slip, ...] = ()
    left_out: bool = False


@frozen(kw_only=True)
class Verdict:
    """Whether all tapes agree.

    `spare` is how many measures there are more than it takes. `agrees` is None where there is none.
    `misfit_mm` with one to spare is the smallest `difference_mm`: no measure by itself closes the
    figure by less. With more it is the largest residual. `chi_square_ratio` is the sum of squared
    residuals, each over its accuracy, and `chi_square_most_ratio` what 95 of 100 such surveys stay
    within. `scale_ratio` is the accuracy shown over the accuracy told. `wrong` names the measures
    of which one is wrong, those that a usual slip explains first.
    """

    spare: int
    agrees: bool | None
    misfit_mm: float | None
    misfit_most_mm: float
    chi_square_ratio: float | None
    chi_square_most_ratio: float | None
    scale_ratio: float | None
    wrong: tuple[str, ...] = ()


@frozen(kw_only=True)
class WouldBe:
    """What one more measure would read if the tape named were the wrong one."""

    wrong: str
    length_mm: float


@frozen(kw_only=True)
class NextMeasure:
    """One more measure that tells which of several is wrong.

    `apart_mm` is the least difference between two of the readings it may have.
    """

    told: str
    readings: tuple[WouldBe, ...]
    apart_mm: float


@frozen(kw_only=True)
class CornerAngle:
    """The angle inside a corner of the outline, and how far off square.

    `off_mm` is how far the end of the shorter side beside the corner lies off the square of the
    other one: + where the angle is more than a right one. `error_deg` holds 95 of 100.
    """

    corner: str
    angle_deg: float
    error_deg: float
    off_square_deg: float
    off_mm: float


@frozen(kw_only=True)
class Taper:
    """How much further from the house a side lies at its right end than at its left."""

    side: str
    taper_mm: float
    error_mm: float


@frozen(kw_only=True)
class Fit:
    """Corners out of tapes, by least squares. `outline` names the corners round."""

    corners: tuple[Corner, ...]
    tapes: tuple[TapeCheck, ...]
    verdict: Verdict
    outline: tuple[str, ...]
    next_measure: NextMeasure | None = None
    angles: tuple[CornerAngle, ...] = ()
    tapers: tuple[Taper, ...] = ()
    coverage_ratio: float = 0.95
    findings: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class Surface:
    """Ground between levels measured: flat triangles, named by the numbers of their points.

    Each triangle turns from along towards across. `edge` are the points round the outside.
    `fold_m3` is by how much a volume may differ where four points lie on one circle and the
    ground may fold either way between them.
    """

    points: tuple[GroundPoint, ...]
    triangles: tuple[tuple[int, int, int], ...]
    edge: tuple[int, ...]
    fold_m3: float


@frozen(kw_only=True)
class Low:
    """Ground lower than all beside it. `on_edge`: what lies beyond was not measured.

    `spill_mm` is the level at which water there begins to run elsewhere, at `spill_along_mm` and
    `spill_across_mm`; None on the edge.
    """

    name: str
    along_mm: float
    across_mm: float
    level_mm: float
    on_edge: bool
    spill_mm: float | None = None
    spill_along_mm: float | None = None
    spill_across_mm: float | None = None


@frozen(kw_only=True)
class Pond:
    """Where water stands, filled until it runs off over the edge of what was measured.

    `shore_mm` are the pieces of ground under water, one ring for each triangle.
    """

    lows: tuple[str, ...]
    water_mm: float
    depth_mm: float
    area_m2: float
    volume_m3: float
    spill_along_mm: float
    spill_across_mm: float
    spills_to: str
    shore_mm: tuple[Ring, ...]


@frozen(kw_only=True)
class Flow:
    """The way water takes downhill from a place. `ends` is a low's name, or tells the edge."""

    path_mm: Ring
    levels_mm: tuple[float, ...]
    ends: str


@frozen(kw_only=True)
class Slopes:
    """How steep the ground is within an outline: rise over run.

    `mean_ratio` is that of the ground as a whole, `falls_deg` the way it falls, turned from along
    towards across; None where it is level. `steepest_ratio` is at `along_mm`, `across_mm`.
    """

    mean_ratio: float
    falls_deg: float | None
    steepest_ratio: float
    along_mm: float
    across_mm: float


@frozen(kw_only=True)
class Earthwork:
    """What is cut and filled to bring ground to a formation, over what of an outline was measured.

    `unmeasured_m2` lies beyond the points: nothing is known of it, and it is in no other figure.
    `balance_mm` is the level, at the datum corner and with the same falls, at which cut and fill
    are equal. `cut_rings_mm` and `fill_rings_mm` are the pieces of ground that are dug or raised.
    """

    formation: Formation
    area_m2: float
    unmeasured_m2: float
    cut_m3: float
    fill_m3: float
    cut_area_m2: float
    fill_area_m2: float
    deepest_cut_mm: float
    highest_fill_mm: float
    edge_step_mm: float
    balance_mm: float | None
    bulking_ratio: float
    loose_m3: float
    skip_m3: float
    skips: int
    fill_kg_m3: float
    fill_kg: float
    cut_rings_mm: tuple[Ring, ...]
    fill_rings_mm: tuple[Ring, ...]


@frozen(kw_only=True)
class Contour:
    """All places of one level, as straights over triangles."""

    level_mm: float
    lines_mm: tuple[tuple[Place, Place], ...]


@frozen(kw_only=True)
class Fall:
    """Which way a triangle of ground falls, at its middle, and how steeply: fall over run.

    `falls_deg` is turned from along towards across.
    """

    along_mm: float
    across_mm: float
    falls_deg: float
    fall_ratio: float


@frozen(kw_only=True)
class Closure:
    """A run of levels ended where it began: by how much it did not close."""

    closing_mm: float
    most_mm: float
    source: Source


@frozen(kw_only=True)
class SurveyReport:
    """What follows from a field book. `area_mm` is what is dug and filled, () where untold."""

    book: FieldBook
    fit: Fit | None
    surface: Surface | None
    closure: Closure | None
    lows: tuple[Low, ...] = ()
    ponds: tuple[Pond, ...] = ()
    flows: tuple[Flow, ...] = ()
    slopes: Slopes | None = None
    earthworks: tuple[Earthwork, ...] = ()
    contours: tuple[Contour, ...] = ()
    falls: tuple[Fall, ...] = ()
    area_mm: Ring = ()
    findings: tuple[Finding, ...] = ()
