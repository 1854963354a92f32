"""The gap between rows: what to lay, and what it becomes as boards dry and get wet."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from attrs import frozen

from drylay.counting import counted
from drylay.errors import Fault
from drylay.findings import Finding, Severity
from drylay.marks import MARK_320
from drylay.movement.air import beyond_table, settled_pct
from drylay.movement.bounds import refuse, shown, unfit, unfit_units
from drylay.movement.model import GapRange, MonthOfGaps, YearOfGaps
from drylay.movement.rounding import exactly, up_to_step_mm
from drylay.movement.width import SATURATION_PCT, rough, saturated
from drylay.reasons import Source

GAP_SOURCE = Source(
    kind="handbook",
    title="Wood Handbook FPL-GTR-190",
    clause="eq. 13-2 for the width; gaps by arithmetic, boards fixed at their middle",
)
PRESS_SOURCE = Source(kind="arithmetic", title="gap as laid less the growth of a width")
RAIN_SOURCE = Source(
    kind="from memory", title="Wood Handbook FPL-GTR-190", clause="ch. 13, wood out of rain and sun"
)
MONTHS = (
    "January February March April May June July August September October November December"
).split()


@frozen(kw_only=True)
class _Boards:
    """What a gap depends on besides the wetness of the day."""

    board_mm: float
    movement_per_pct: float
    laying_pct: float
    saturation_pct: float
    laid_mm: float | None
    least_mm: float | None
    units: str


@counted
def gap_range(
    *,
    board_mm: float,
    movement_per_pct: float,
    laying_pct: float,
    driest_pct: float,
    wettest_pct: float,
    laid_mm: float | None = None,
    least_mm: float | None = None,
    saturation_pct: float = SATURATION_PCT,
    units: str = "metric",
) -> GapRange:
    """Return the gap between rows as laid, and the narrowest and widest it becomes.

    With `laid_mm` the gap is laid so. With `least_mm` instead, so that no less than this is
    left when boards are wettest: up to the next pencil mark, and never below 0.

    Args:
        board_mm: Width of a board on laying day.
        movement_per_pct: Its movement for each 1 %, see `wood_movement`.
        laying_pct: Its moisture content on laying day, best measured.
        driest_pct: The driest boards get later.
        wettest_pct: The wettest they get.
        laid_mm: The gap to lay, or
        least_mm: the gap to keep.
        saturation_pct: Fibre saturation, above which nothing moves.
        units: "metric" or "imperial" pencil marks.

    Raises:
        InputError: A number is not one of its kind, the driest is wetter than the wettest, or
            not one of `laid_mm` and `least_mm` is given.

    Source: Wood Handbook FPL-GTR-190, eq. 13-2.
    """
    boards = _Boards(
        board_mm=board_mm,
        movement_per_pct=movement_per_pct,
        laying_pct=laying_pct,
        saturation_pct=saturation_pct,
        laid_mm=laid_mm,
        least_mm=least_mm,
        units=units,
    )
    extremes = {"driest_pct": driest_pct, "wettest_pct": wettest_pct}
    refuse(_unfit_boards(boards), unfit("moisture", **extremes))
    refuse(_unordered(driest_pct, wettest_pct))
    laid = _laid(boards, wettest_pct)
    narrowest_mm = _gap_mm(boards, laid, wettest_pct)
    return GapRange(
        board_mm=float(board_mm),
        movement_per_pct=float(movement_per_pct),
        laying_pct=float(laying_pct),
        driest_pct=float(driest_pct),
        wettest_pct=float(wettest_pct),
        laid_mm=float(laid),
        narrowest_mm=narrowest_mm,
        widest_mm=_gap_mm(boards, laid, driest_pct),
        findings=tuple(_findings(boards, (driest_pct, wettest_pct), narrowest_mm)),
        source=GAP_SOURCE,
    )


@counted
def gaps_through_year(
    *,
    board_mm: float,
    movement_per_pct: float,
    laying_pct: float,
    months: Sequence[tuple[float, float]],
    laid_mm: float | None = None,
    least_mm: float | None = None,
    driest_pct: float | None = None,
    wettest_pct: float | None = None,
    saturation_pct: float = SATURATION_PCT,
    units: str = "metric",
) -> YearOfGaps:
    """Return the gap between rows as laid, and what becomes of it month by month.

    Boards are taken to settle at each month's equilibrium moisture content. Rain makes them
    wetter and sun drier than that: `wettest_pct` and `driest_pct` widen the year to what they
    are known to reach, and a finding says so where no wettest is stated.

    Args:
        board_mm: Width of a board on laying day.
        movement_per_pct: Its movement for each 1 %, see `wood_movement`.
        laying_pct: Its moisture content on laying day, best measured.
        months: Mean temperature in degrees Celsius and mean relative humidity as a ratio of
            each month, January first.
        laid_mm: The gap to lay, or
        least_mm: the gap to keep, as in `gap_range`.
        driest_pct: The driest boards are known to get.
        wettest_pct: The wettest they are known to get.
        saturation_pct: Fibre saturation, above which nothing moves.
        units: "metric" or "imperial" pencil marks.

    Raises:
        InputError: A number is not one of its kind, there are not twelve months, or not one of
            `laid_mm` and `least_mm` is given.

    Source: Wood Handbook FPL-GTR-190, ch. 4 and eq. 13-2.
    """
    boards = _Boards(
        board_mm=board_mm,
        movement_per_pct=movement_per_pct,
        laying_pct=laying_pct,
        saturation_pct=saturation_pct,
        laid_mm=laid_mm,
        least_mm=least_mm,
        units=units,
    )
    stated = {"driest_pct": driest_pct, "wettest_pct": wettest_pct}
    told = {name: pct for name, pct in stated.items() if pct is not None}
    refuse(_unfit_boards(boards), _unfit_months(months), unfit("moisture", **told))
    airs = [(name, air[0], air[1]) for name, air in zip(MONTHS, months, strict=True)]
    by_name = {name: settled_pct(*air) for name, *air in airs} | told
    return _year(boards, airs, by_name)


def _year(
    boards: _Boards, airs: list[tuple[str, float, float]], by_name: dict[str, float]
) -> YearOfGaps:
    driest, wettest = min(by_name, key=by_name.__getitem__), max(by_name, key=by_name.__getitem__)
    laid = _laid(boards, by_name[wettest])
    narrowest_mm = _gap_mm(boards, laid, by_name[wettest])
    extremes = (by_name[driest], by_name[wettest])
    rain = () if "wettest_pct" in by_name else (_rain(by_name[wettest]),)
    return YearOfGaps(
        board_mm=float(boards.board_mm),
        movement_per_pct=float(boards.movement_per_pct),
        laying_pct=float(boards.laying_pct),
        laid_mm=float(laid),
        narrowest_mm=narrowest_mm,
        narrowest_in=wettest,
        widest_mm=_gap_mm(boards, laid, by_name[driest]),
        widest_in=driest,
        months=tuple(
            MonthOfGaps(
                month=name,
                temperature_c=float(temperature_c),
                humidity_ratio=float(humidity_ratio),
                moisture_pct=by_name[name],
                gap_mm=_gap_mm(boards, laid, by_name[name]),
            )
            for name, temperature_c, humidity_ratio in airs
        ),
        findings=(*beyond_table(airs), *_findings(boards, extremes, narrowest_mm), *rain),
        source=GAP_SOURCE,
    )


def _growth(boards: _Boards, moisture_pct: float) -> Fraction:
    """Return how much wider a board is than when it was laid."""
    most = boards.saturation_pct
    steps = exactly(min(moisture_pct, most)) - exactly(min(boards.laying_pct, most))
    return exactly(boards.board_mm) * exactly(boards.movement_per_pct) * steps


def _laid(boards: _Boards, wettest_pct: float) -> Fraction:
    if boards.laid_mm is not None:
        return exactly(boards.laid_mm)
    needed = exactly(boards.least_mm or 0.0) + _growth(boards, wettest_pct)
    return exactly(up_to_step_mm(max(Fraction(0), needed), MARK_320[boards.units]))


def _gap_mm(boards: _Boards, laid: Fraction, moisture_pct: float) -> float:
    return float(laid - _growth(boards, moisture_pct))


def _findings(
    boards: _Boards, extremes_pct: tuple[float, float], narrowest_mm: float
) -> Iterator[Finding]:
    moistures_pct = (boards.laying_pct, *extremes_pct)
    yield from rough("gap", *moistures_pct)
    yield from saturated("gap", boards.saturation_pct, *moistures_pct)
    if narrowest_mm <= 0:
        yield Finding(
            code="MOV-004",
            severity=Severity.CAUTION,
            subject="gap",
            message="the gap closes when boards are wettest: they press, and water stands",
            measured=narrowest_mm,
            limit=0.0,
            unit="mm",
            source=PRESS_SOURCE,
        )


def _rain(wettest_pct: float) -> Finding:
    return Finding(
        code="MOV-005",
        severity=Severity.NOTE,
        subject="gap",
        message="reckoned from air alone; boards in rain get wetter, and gaps narrower",
        measured=wettest_pct,
        unit="%",
        source=RAIN_SOURCE,
    )


def _unfit_boards(boards: _Boards) -> Iterator[Fault]:
    yield from unfit("length", board_mm=boards.board_mm)
    yield from unfit("movement", movement_per_pct=boards.movement_per_pct)
    yield from unfit("moisture", laying_pct=boards.laying_pct)
    yield from unfit("saturation", saturation_pct=boards.saturation_pct)
    yield from unfit_units(boards.units)
    asked = {"laid_mm": boards.laid_mm, "least_mm": boards.least_mm}
    given = {name: gap_mm for name, gap_mm in asked.items() if gap_mm is not None}
    if len(given) != 1:
        found = " and ".join(given) or "neither"
        yield Fault(path="laid_mm", found=found, wanted="one of laid_mm and least_mm")
    yield from unfit("gap", **given)


def _unfit_months(months: object) -> Iterator[Fault]:
    if not isinstance(months, Sequence) or isinstance(months, str) or len(months) != len(MONTHS):
        found = f"{len(months)} of them" if isinstance(months, Sequence) else shown(months)
        wanted = "twelve pairs of temperature and humidity, January first"
        yield Fault(path="months", found=found, wanted=wanted)
        return
    for number, air in enumerate(months):
        if not isinstance(air, Sequence) or isinstance(air, str) or len(air) != 2:
            wanted = "temperature in degrees Celsius and relative humidity as a ratio"
            yield Fault(path=f"months[{number}]", found=shown(air), wanted=wanted)
            continue
        yield from unfit("air", **{f"months[{number}][0]": air[0]})
        yield from unfit("humidity", **{f"months[{number}][1]": air[1]})


def _unordered(driest_pct: float, wettest_pct: float) -> Iterator[Fault]:
    if driest_pct > wettest_pct:
        wanted = f"no wetter than wettest_pct, {wettest_pct:g}"
        yield Fault(path="driest_pct", found=f"{driest_pct:g}", wanted=wanted)
