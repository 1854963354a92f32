"""The gallery: every picture is one of a plan that its brief still gives, and reads well."""

from pathlib import Path

import pytest

from gallery import FOLDER, PAGE, about, briefs, designed, drawn
from papers import measured

PICTURES = sorted(FOLDER.glob("*.svg"))


def test_every_picture_has_its_brief_and_stands_on_the_page() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert PICTURES
    assert {path.stem for path in PICTURES} <= {path.stem for path in briefs()}
    for path in PICTURES:
        assert f"(gallery/{path.name})" in page
        assert f"(gallery/{path.stem}.toml)" in page
        assert about(path.with_suffix(".toml")) in page


@pytest.mark.parametrize("path", PICTURES, ids=lambda path: str(path.stem))
def test_no_two_texts_of_a_picture_touch_and_none_leaves_its_border(path: Path) -> None:
    svg = path.read_bytes()
    assert measured.overlapping(svg) == []
    assert measured.outside(svg) == []


def test_a_picture_is_what_its_brief_gives_today() -> None:
    """`python tests/gallery.py` draws them all anew."""
    assert drawn(designed(FOLDER / "t.toml")) == (FOLDER / "t.svg").read_bytes()
