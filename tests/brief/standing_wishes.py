"""Valid briefs of decks that stand, for laws: all keys of legs, strength, guards and steps."""

from typing import Any

from attrs import evolve
from hypothesis import strategies as st

from brief.wishes import STEP_320, WORDS, briefs, lengths, maybe
from drylay.brief.model import Brief, GroundPoint, HouseWish, LevelsWish, SiteWish
from drylay.brief.raised_model import (
    FOOTINGS,
    INFILLS,
    SHAPES,
    WALLS,
    GuardsWish,
    RaisedWish,
    StepsWish,
    StrengthWish,
)

#: Four corners of ground, in steps that every spelling can say: 635 mm apart, 317 to 329 mm up.
CORNERS = ((0, 0, 800), (1600, 0, 810), (1600, 1600, 820), (0, 1600, 830))
POINTS = tuple(
    GroundPoint(
        along_mm=x * STEP_320 / 320, across_mm=y * STEP_320 / 320, level_mm=z * STEP_320 / 320
    )
    for x, y, z in CORNERS
)


def rising() -> st.SearchStrategy[tuple[float, ...]]:
    found = st.lists(lengths(0, 100_000), min_size=1, max_size=5, unique=True)
    return found.map(lambda places: tuple(sorted(places)))


@st.composite
def raised(draw: st.DrawFn) -> RaisedWish:
    footing, ledger = draw(st.sampled_from(FOOTINGS)), draw(st.booleans())
    screw, concrete = footing == "ground screw", footing != "ground screw" and draw(st.booleans())
    told: dict[str, Any] = {
        "ledger_fixing": draw(maybe(WORDS)) if ledger else None,
        "ledger_spacing_mm": draw(maybe(lengths(50, 2000))) if ledger else None,
        "foot": "in concrete" if concrete else "metal foot",
        "stand_off_mm": None if concrete else draw(maybe(lengths(0, 500))),
        "embed_mm": draw(maybe(lengths(0, 2000))) if concrete else None,
        "screw_kn": draw(maybe(st.floats(0.1, 500))) if screw else None,
    }
    return RaisedWish(
        post=draw(WORDS), bearer=draw(maybe(WORDS)), plies=draw(maybe(st.integers(1, 4))),
        lines_mm=draw(maybe(rising())), posts_mm=draw(maybe(rising())), ledger=ledger,
        brace_over_mm=draw(maybe(lengths(300, 3000))), footing=footing,
        shape=draw(st.sampled_from(SHAPES)), **told,
    )  # fmt: skip


def guards() -> st.SearchStrategy[GuardsWish]:
    return st.builds(
        GuardsWish, infill=st.sampled_from(INFILLS), thickness_mm=maybe(lengths(10, 150)),
        post_mm=maybe(lengths(30, 300)), post_spacing_mm=maybe(lengths(300, 3000)),
        height_mm=maybe(lengths(600, 1800)),
    )  # fmt: skip


def steps() -> st.SearchStrategy[StepsWish]:
    """Steps that fit on any side of a cover of 600 mm and more."""
    return st.builds(
        StepsWish, side=st.sampled_from(["right", "front", "left"]), from_mm=maybe(lengths(0, 100)),
        width_mm=maybe(lengths(300, 500)), tread_mm=maybe(lengths(10, 200)),
        going_mm=maybe(lengths(100, 1000)), risers=maybe(st.integers(1, 30)),
    )  # fmt: skip


@st.composite
def standing_briefs(draw: st.DrawFn) -> Brief:
    site = SiteWish(
        region=draw(WORDS), soil=draw(maybe(WORDS)), frost_mm=draw(maybe(lengths(0, 3000)))
    )
    return evolve(
        draw(briefs()), site=site, house=HouseWish(wall=draw(maybe(st.sampled_from(WALLS)))),
        levels=LevelsWish(points=POINTS), raised=draw(raised()),
        strength=StrengthWish(basis=draw(WORDS), sharing=draw(maybe(WORDS)),
                              board_class=draw(maybe(WORDS))),
        guards=draw(st.just(GuardsWish()) | guards()), steps=draw(st.just(StepsWish()) | steps()),
    )  # fmt: skip
