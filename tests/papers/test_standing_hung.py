"""Joists hung between bearers, as papers tell and draw them."""

from functools import cache

import attrs
import pytest

import drylay
from drylay.papers.frame_drawing import frame_svg
from drylay.papers.holding_text import holding_told
from drylay.papers.jobsheet import jobsheet
from drylay.papers.posts_drawing import standing_front_svg, standing_svg
from drylay.papers.rod import rod_svg
from drylay.papers.section import section_svg
from drylay.papers.summary import summary
from drylay.papers.trust_text import trust_told
from papers import measured
from standing_decks import brief_of, plan_of

STOCK = drylay.load_catalogue("catalogs/hobbleden.toml")


@cache
def told(name: str) -> str:
    return " ".join(summary(plan_of(name)).split())


def test_summary_tells_parts_hangers_and_no_coach_screws() -> None:
    """12 joists in 2 parts of 1582.5; 48 hangers; ledger RA and two bearers."""
    text = told("hung")
    assert "joist 24 x 1582.5 mm" in text
    assert "Mark RA, BR1, BR2 from their left end" in text
    assert "48 hangers JH-45-108" in text
    assert "flanges turned in" in text
    assert "coach screws CS-8-120" not in text
    assert "1582.5 mm from face to face at the most" in text
    assert "up to 2.132 kN" in text


def test_front_and_side_views_are_drawn_with_joists_from_bearer_to_bearer() -> None:
    plan = plan_of("hung free")
    assert b"BR3" in standing_svg(plan)
    assert standing_svg(plan) != standing_svg(plan_of("hung"))
    assert standing_front_svg(plan)


def test_frame_is_drawn_with_every_bearer() -> None:
    drawn = frame_svg(plan_of("hung free")).decode()
    for mark in ("BR1", "BR2", "BR3"):
        assert f"{mark} face" in drawn
    assert "Bearers they hang between: near face." in drawn
    assert "joists between bearers, hung" in drawn


def test_fascia_screws_keep_from_no_heads_where_no_coach_screws_are() -> None:
    assert "fascia screws WS-50-60" in told("hung faced")
    assert "coach screw" not in " ".join(holding_told(plan_of("hung faced")))
    over = attrs.evolve(brief_of("hung faced").raised, joists="over")
    plan = drylay.design(attrs.evolve(brief_of("hung faced"), raised=over), stock=STOCK)
    assert "or more from the middle of a coach screw's head" in " ".join(holding_told(plan))


def test_section_cuts_the_bearer_and_no_coach_screw() -> None:
    drawn = section_svg(plan_of("hung free")).decode()
    assert "bearer BR3, 90 x 145" in drawn
    assert "all hang in JH-45-108" in drawn
    assert "coach screw" not in drawn
    assert "coach screw" in section_svg(plan_of("held")).decode()


def test_nothing_is_taken_on_trust_of_coach_screws_that_none_drives() -> None:
    assert any("coach screw's thread" in line for line in trust_told(plan_of("held")))
    assert not any("coach screw" in line for line in trust_told(plan_of("hung")))
    assert not any("shanks from a rim" in line for line in trust_told(plan_of("hung")))


@pytest.mark.parametrize(("name", "outer"), [("hung", "rim"), ("hung free", "bearer")])
def test_joists_are_marked_on_bearers_and_rows_counted_from_what_is_there(
    name: str, outer: str
) -> None:
    rod = " ".join(each.text or "" for each in measured.texts(rod_svg(plan_of(name))))
    assert "bearers' end" in rod
    assert "Bearers with their joists" in rod
    assert "rims'" not in rod
    assert f"the {outer}'s outer face on the house side" in rod
    sheet = jobsheet(plan_of(name)).decode()
    assert "On the bearers, from their left end" in sheet
    assert " rims" not in sheet


def test_holes_of_coach_screws_want_preserver_where_there_are_some() -> None:
    assert "Notches and other holes are not counted" in told("hung")
    assert "Holes of coach" not in told("hung")
    assert "Holes of coach screws, notches and other holes are not counted" in told("held")


def test_boards_screws_keep_off_where_bearers_and_joists_meet() -> None:
    assert "none where the two meet" in told("hung")
    assert "where the two meet" not in told("held")
    assert "drive no screw where bearer and joist meet" in " ".join(
        jobsheet(plan_of("hung")).decode().split()
    )
    assert "drive no screw where bearer and joist meet" not in jobsheet(plan_of("held")).decode()


def test_the_diagonals_text_hides_no_bearer() -> None:
    drawn = frame_svg(plan_of("hung"))
    text = next(each for each in measured.texts(drawn) if "diagonals ~5341.3" in (each.text or ""))
    middle = float(text.get("y", "0"))
    for _, top, _, high in measured.rectangles(drawn, "bearers"):
        assert not top - 1.0 < middle < top + high + 1.0
