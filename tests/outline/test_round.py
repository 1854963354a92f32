"""Any outline with its laying goes round through plain data; the example is as its file says."""

import json
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

import drylay
from drylay.brief.model import BoardWish, Brief, CoverWish, FasciaWish, FixingsWish, FrameWish
from drylay.brief.outline_model import FieldWish, LayingWish, OpeningWish, OutlineWish
from drylay.outline.sides import corners_of, outline_of
from drylay.rings import box
from drylay.shapes import shape_of
from outline.shapes_drawn import rectangle, wishes

EXAMPLE = Path(__file__).parent / "corner-and-bay.toml"


def layings() -> st.SearchStrategy[LayingWish]:
    field = FieldWish(
        from_along_mm=0, from_across_mm=0, along_mm=9000, across_mm=9000, angle_deg=30.5
    )
    return st.builds(
        LayingWish,
        angle_deg=st.none() | st.floats(0, 179.9),
        first_row=st.sampled_from(["near", "far"]),
        border_courses=st.just(0),
        breakers=st.sampled_from([None, "none", "as_needed"]),
        fields=st.sampled_from([(), (field,)]),
    ) | st.builds(
        LayingWish,
        border_courses=st.integers(0, 2),
        breakers_mm=st.lists(st.integers(-9000, 9000).map(float), unique=True).map(
            lambda lines: tuple(sorted(lines))
        ),
    )


def briefs() -> st.SearchStrategy[Brief]:
    return st.builds(_brief, wishes(), layings(), st.booleans())


def _brief(wish: OutlineWish, laying: LayingWish, faced: bool) -> Brief:
    low_x, low_y, high_x, high_y = box(shape_of(wish).corners)  # as the brief measures
    lines = laying.breakers_mm
    if lines is not None:  # those that lie on the deck
        near, _, far, _ = box(corners_of(outline_of(wish, facing_mm=0)))  # on the deck's own line
        on = tuple(line for line in lines if near < line * 320 < far)
        laying = evolve(laying, breakers_mm=on)
    return Brief(
        title="Round",
        cover=CoverWish(along_mm=(high_x - low_x) / 320, across_mm=(high_y - low_y) / 320),
        board=BoardWish(article="B"),
        frame=FrameWish(article="T"),
        fixings=FixingsWish(screw="S", coach_screw="C"),
        fascia=FasciaWish(article="F" if faced else None),
        outline=wish,
        laying=laying,
    )


@given(briefs())
def test_a_brief_on_an_outline_goes_round_through_plain_data(brief: Brief) -> None:
    plain = brief.to_dict()
    assert "cover" not in plain
    again = json.loads(json.dumps(plain, allow_nan=False))
    assert drylay.read_brief(again) == drylay.read_brief(plain) == brief
    assert drylay.read_brief(again).to_dict() == plain


def respelled(value: Any) -> Any:
    """Plain data with every length as a text."""
    if isinstance(value, list):
        return [respelled(one) for one in value]
    if not isinstance(value, dict):
        return value
    told = {name: item for name, item in value.items() if not name.endswith("_mm")}
    return {name: respelled(item) for name, item in told.items()} | {
        name.removesuffix("_mm"): [f"{one:f} mm" for one in item]
        if isinstance(item, list)
        else f"{item:f} mm"
        for name, item in value.items()
        if name.endswith("_mm")
    }


@given(briefs())
def test_lengths_as_texts_are_the_same_brief(brief: Brief) -> None:
    assert drylay.read_brief(respelled(brief.to_dict())) == brief


def test_a_value_changed_at_a_path() -> None:
    brief = _brief(OutlineWish(rectangles=(rectangle((0, 0), (4000, 3000)),)), LayingWish(), False)
    assert brief.replace("laying.angle_deg", 45).laying.angle_deg == 45
    assert brief.replace("laying.breakers", ["1 m"]).laying.breakers_mm == (1000,)
    hatch = OpeningWish(
        kind="hatch", along_mm=900, across_mm=900, size_along_mm=600, size_across_mm=450
    )
    assert brief.replace("outline.openings", (hatch,)).outline.openings == (hatch,)


def test_the_example_is_read_and_its_area_is_as_by_hand() -> None:
    assert drylay.check_brief(EXAMPLE) == ()
    brief = drylay.read_brief(EXAMPLE)
    outline = outline_of(brief.outline, facing_mm=28.0)
    # body 6.9 x 3.145 and wing 1.7 x 2.1, less the bay, 2.2 at the wall and 1.1 at its front, 0.55
    # deep; and less what the wall stands in: from 0 to 2.71 over 1.3, from 6.18 to 8 over 1.7; in
    # the bay's splays half of 2.71 and of 6.18 over 0.55 comes back, which it does not fill
    bay = (2.2 + 1.1) / 2 * 0.55
    wall = 1.3 * 0.002709 / 2 + 1.7 * (0.006178 + 0.008) / 2
    splays = 0.55 * (0.002709 + 0.006178) / 2
    assert outline.gross_m2 == pytest.approx(
        6.9 * 3.145 + 1.7 * 2.1 - bay - wall - splays, abs=1e-5
    )
    assert [side.kind for side in outline.sides] == ["house"] * 6 + ["open", "boundary"] + [
        "open"
    ] * 2
    assert [side.facing_mm for side in outline.sides][6:] == [28, 0, 28, 28]
