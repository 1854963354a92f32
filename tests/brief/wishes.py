"""Valid briefs for laws, and the same brief spelled in other ways."""

from decimal import Decimal
from typing import Any

from hypothesis import strategies as st

from drylay.brief.keys import OVERRIDABLE
from drylay.brief.model import (
    ENDS,
    LINE_CHOICES,
    RUNS,
    SIDES,
    UNITS,
    USES,
    WAYS_OUT,
    BoardWish,
    Brief,
    CoverWish,
    CuttingWish,
    FasciaWish,
    FixingsWish,
    FrameWish,
    GapWish,
    JointsWish,
    Override,
    RowsWish,
)

#: A length every metric and every imperial spelling can say: 1/64 in is 127/320 mm.
STEP_320 = 127

WORDS = st.text(st.characters(codec="utf-8", categories=["L", "N", "P"]), min_size=1, max_size=20)


def lengths(least_mm: float, most_mm: float, step_320: int = STEP_320) -> st.SearchStrategy[float]:
    low, high = -(-int(least_mm * 320) // step_320), int(most_mm * 320) // step_320
    return st.integers(low, high).map(lambda count: count * step_320 / 320)


def maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


@st.composite
def gaps(draw: st.DrawFn) -> GapWish:
    least, preferred, most = sorted(draw(st.lists(lengths(0, 20), min_size=3, max_size=3)))
    told = draw(st.tuples(st.booleans(), st.booleans(), st.booleans()))
    return GapWish(
        least_mm=least if told[0] else None,
        preferred_mm=preferred if told[1] else None,
        most_mm=most if told[2] else None,
    )


def boards() -> st.SearchStrategy[BoardWish]:
    common = {
        "article": WORDS,
        "run": st.sampled_from(RUNS),
        "may_turn": st.booleans(),
        "measured_width_mm": maybe(lengths(300, 400)),
    }
    cut = st.builds(BoardWish, **common, ends=st.just(ENDS[0]))
    trimmed = st.builds(
        BoardWish, **common, ends=st.just(ENDS[1]), trim_allowance_mm=lengths(1, 300)
    )
    return cut | trimmed


def fascias() -> st.SearchStrategy[FasciaWish]:
    sides = st.lists(st.sampled_from(SIDES), unique=True, min_size=1).map(tuple)
    return st.builds(FasciaWish, article=maybe(WORDS)) | st.builds(
        FasciaWish, sides=sides, article=WORDS
    )


def covers() -> st.SearchStrategy[CoverWish]:
    change = lengths(0, 300)
    return st.builds(
        CoverWish,
        along_mm=lengths(600, 100_000),
        across_mm=lengths(600, 100_000),
        grow_along_mm=change,
        shrink_along_mm=change,
        grow_across_mm=change,
        shrink_across_mm=change,
    )


@st.composite
def overrides(draw: st.DrawFn) -> tuple[Override, ...]:
    paths = draw(st.lists(st.sampled_from(sorted(OVERRIDABLE)), unique=True, max_size=3))
    found = []
    for path in paths:
        decision = OVERRIDABLE[path]
        if decision.unit == "mm":
            value = draw(lengths(decision.least, decision.most))
        elif decision.unit == "count":
            value = float(draw(st.integers(int(decision.least), int(decision.most))))
        else:
            value = draw(st.floats(decision.least, decision.most))
        by, reason = draw(WORDS), draw(WORDS)
        found.append(Override(path=path, value=value, unit=decision.unit, by=by, reason=reason))
    return tuple(found)


def briefs() -> st.SearchStrategy[Brief]:
    rip = maybe(lengths(0, 300))
    prefer = st.lists(st.sampled_from(WAYS_OUT), unique=True).map(lambda w: ("gaps", *w))
    price = st.decimals(0, 1000, places=2).map(lambda d: Decimal(d).quantize(Decimal("0.01")))
    return st.builds(
        Brief,
        title=WORDS,
        use=st.sampled_from(USES),
        units=st.sampled_from(UNITS),
        cover=covers(),
        board=boards(),
        gap=gaps(),
        rows=st.builds(
            RowsWish,
            sliver_mm=rip,
            least_rip_mm=rip,
            may_rip=st.booleans(),
            prefer=prefer.map(lambda ways: tuple(dict.fromkeys(ways))),
        ),
        frame=st.builds(
            FrameWish,
            article=WORDS,
            most_centres_mm=maybe(lengths(100, 1500)),
            lines=st.sampled_from(LINE_CHOICES),
        ),
        fascia=fascias(),
        joints=st.builds(
            JointsWish,
            end_gap_mm=maybe(lengths(0, 20)),
            least_supports=maybe(st.integers(2, 50)),
            stagger_bays=maybe(st.integers(0, 50)),
            most_per_row=maybe(st.integers(0, 100)),
            price_each=maybe(price),
        ),
        cutting=st.builds(CuttingWish, kerf_mm=lengths(0, 10), end_trim_mm=lengths(0, 300)),
        fixings=st.builds(FixingsWish, screw=WORDS, coach_screw=WORDS),
        overrides=overrides(),
    ).filter(gaps_stand)


def gaps_stand(brief: Brief) -> bool:
    """Whether the gap's wishes, some of them overridden, still stand in order."""
    said = {override.path: override.value for override in brief.overrides}
    wished = (brief.gap.least_mm, brief.gap.preferred_mm, brief.gap.most_mm)
    names = ("least", "preferred", "most")
    stand = [
        said.get(f"surface.gap_{name}_mm", wish) for name, wish in zip(names, wished, strict=True)
    ]
    told = [gap for gap in stand if gap is not None]
    return told == sorted(told)


def respelled(plain: dict[str, Any], spell: str) -> dict[str, Any]:
    """Return a brief's plain data with every length as a text: in "mm", "m", "in" or "ft"."""
    return {
        name: value if name == "overrides" else _respelled(value, spell)
        for name, value in plain.items()
    }


def _respelled(value: Any, spell: str) -> Any:
    if isinstance(value, list):
        return [_respelled(item, spell) for item in value]
    if not isinstance(value, dict):
        return value
    return {
        (name.removesuffix("_mm") if name.endswith("_mm") else name): (
            _spelled(item, spell) if name.endswith("_mm") else _respelled(item, spell)
        )
        for name, item in value.items()
    }


def _spelled(value: Any, spell: str) -> Any:
    """Return a length as a text, or each of a list."""
    return (
        [spelled(one, spell) for one in value] if isinstance(value, list) else spelled(value, spell)
    )


def spelled(mm: float, spell: str) -> str:
    """Return a whole number of 1/64 in as a text."""
    counted = round(mm * 320)
    if spell == "mm":
        return f"{Decimal(counted) / 320:f} mm"
    if spell == "m":
        return f"{Decimal(counted) / 320_000:f} metres"
    inches, sixty_fourths = divmod(counted // STEP_320, 64)
    feet, inches = divmod(inches, 12) if spell == "ft" else (0, inches)
    head = f"{feet}' " if feet else ""
    return f'{head}{inches} {sixty_fourths}/64"' if sixty_fourths else f'{head}{inches}"'
