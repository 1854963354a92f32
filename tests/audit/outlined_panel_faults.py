"""Faults planted in the battens and panels of hatches.

The garden's hatch has three whole battens; a longer one there has ripped ones.
"""

import tomllib
from collections.abc import Callable
from functools import cache

from attrs import evolve

import drylay
from audit.outlined_planting import board
from audit.outlined_real import GARDEN, garden
from audit.outlined_real_faults import ledge_in
from audit.outlined_sample import box
from audit.planting import Edit, both, by, to, turned, without
from audit.real import stock
from drylay.plan.model import Plan
from drylay.subframe.model import PanelBatten

Q = "subframe.battens"


@cache
def ripped() -> Plan:
    """Return the garden with a cover of 450 x 650: its panel is light with ripped battens alone."""
    asked = tomllib.loads(GARDEN)
    openings = [dict(each) for each in asked["outline"]["openings"] if each["kind"] == "hatch"]
    openings[0] |= {"along_mm": 2000, "across_mm": 1700, "size_across_mm": 650}
    brief = drylay.read_brief({
        **asked, "title": "Long hatch",
        "outline": {**asked["outline"], "openings": openings}, "finish": {"preserver": "EP-CLEAR"},
    })  # fmt: skip
    return drylay.design(brief, stock=stock("hobbleden"))


def moved(number: int, along_mm: float = 0.0, across_mm: float = 0.0) -> Edit:
    """Return the edit that moves a batten."""

    def run(plan: Plan) -> Plan:
        assert plan.subframe is not None
        batten = plan.subframe.battens[number]
        start, end = (
            evolve(spot, along_mm=spot.along_mm + along_mm, across_mm=spot.across_mm + across_mm)
            for spot in (batten.start, batten.end)
        )
        return to(f"{Q}[{number}]", evolve(batten, start=start, end=end))(plan)

    return run


def one_more(plan: Plan) -> Plan:
    """Return the plan with four battens in all, still even."""
    assert plan.subframe is not None
    first, _, last = plan.subframe.battens
    apart = (last.start.along_mm - first.start.along_mm) / 3

    def at(number: int) -> PanelBatten:
        start, end = (evolve(spot, along_mm=spot.along_mm + apart * number)
                      for spot in (first.start, first.end))  # fmt: skip
        return evolve(first, mark=f"Q{number + 1}", start=start, end=end)

    four = tuple(at(number) for number in range(4))
    return both(to(Q, four), to("subframe.batten_count", 4))(plan)


NEAR = box(3592.0, 915.0, 4208.0, 930.0)

PANEL_FAULTS: tuple[tuple[str, str, Callable[[], Plan], Edit], ...] = (
    (
        "AUD-996",
        "a hatch of which no battens are told at all",
        garden,
        both(to(Q, ()), to("subframe.batten_count", None), to("subframe.batten_play_mm", None)),
    ),
    ("AUD-996", "a batten more told", garden, by("subframe.batten_count", 1)),
    ("AUD-996", "another mark", garden, to(f"{Q}[0].mark", "Q9")),
    ("AUD-996", "in no hatch", garden, to(f"{Q}[0].opening", "O1")),
    ("AUD-996", "one alone", garden,
     both(to("subframe.batten_count", 1), without(Q, 2), without(Q, 1))),
    ("AUD-996", "less play", garden, to("subframe.batten_play_mm", 5.0)),
    ("AUD-992", "askew", garden, by(f"{Q}[0].end.along_mm", 1.0)),
    ("AUD-992", "longer", garden, by(f"{Q}[0].length_mm", 1.0)),
    ("AUD-992", "on no mark", garden,
     both(by(f"{Q}[0].length_mm", -0.25), by(f"{Q}[0].end.across_mm", -0.25))),
    ("AUD-992", "beginning elsewhere", garden,
     both(by(f"{Q}[0].length_mm", -5.0), by(f"{Q}[0].start.across_mm", 5.0))),
    ("AUD-992", "ending short", garden,
     both(by(f"{Q}[0].length_mm", -1.0), by(f"{Q}[0].end.across_mm", -1.0))),
    ("AUD-992", "the first off its ledge", garden, moved(0, along_mm=0.5)),
    ("AUD-992", "the last at its ledge", garden, moved(2, along_mm=0.5)),
    ("AUD-992", "uneven", garden, moved(1, along_mm=5.0)),
    ("AUD-992", "too far apart", garden, to("subframe.square_centres_mm", 200.0)),
    ("AUD-992", "more than are wanted", garden, one_more),
    ("AUD-992", "the second first", garden, turned(Q, 0, 1)),
    ("AUD-993", "a ledge nearer", garden, ledge_in(5.0)),
    ("AUD-993", "into a trimmer", garden, moved(1, across_mm=-20.0)),
    ("AUD-994", "a board that reaches little over", garden, board("H1.1", corners=NEAR)),
    ("AUD-994", "a board too short for the first", garden,
     board("H1.1", corners=box(3660.0, 915.0, 4208.0, 1060.0))),
    ("AUD-994", "a board too short for the last", garden,
     board("H1.1", corners=box(3592.0, 915.0, 4140.0, 1060.0))),
    ("AUD-995", "lighter than it is", garden, by("outline.openings[1].panel_kg", -0.1)),
    ("AUD-995", "ripped though light", garden, to(f"{Q}[0].depth_mm", 71.0)),
    ("AUD-995", "heavier timber", garden, by("buying.delivery.frame_density_kg_m3", 50.0)),
    ("AUD-995", "boards sold heavier", garden, to("buying.delivery.board_kg_m", 4.0)),
    ("AUD-995", "wet inserts", garden, to("buying.delivery.extra_mass_kg_m2", 2.0)),
    ("AUD-995", "whole though heavy", ripped, to(f"{Q}[0].depth_mm", 145.0)),
    ("AUD-995", "ripped by another kerf", ripped, by("buying.kerf_mm", 2.0)),
    ("AUD-995", "a screw through it", ripped, by("fixings.deck_screws.length_mm", 60.0)),
    ("AUD-980", "a batten more", garden, one_more),
    ("AUD-704", "sawn for nothing", garden, without(Q, 2)),
)  # fmt: skip
